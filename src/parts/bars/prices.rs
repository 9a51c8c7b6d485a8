//! Prices of pieces, and what they prove.
//!
//! **Model.** Give every length of piece a price, any. Let a bar of stock length `s` hold pieces
//! worth `K_s` at most, and let the pieces of a job be worth `D` at least, every segment made up
//! in its cheapest way. Then a mix of `n_s` bars suffices only if `Σ K_s n_s >= D`. That is all
//! that is proven about mixes here; better prices refuse more mixes. Prices come from
//! * the sizes themselves;
//! * for each length, one for every piece at least that long: a bar holds so many of them;
//! * the dual values of a [relaxation](super::relaxation), rounded to whole numbers. `K_s` is then
//!   found by an exact search for the dearest filling, and nothing rests on rounding.
//!
//! **Units.** Sizes are lengths with one saw cut, rooms are bars with one.

use super::{Effort, Group, Problem};

/// A price for every length of piece, and what bars are worth at these prices.
#[derive(Debug, Clone)]
pub(super) struct PriceList {
    /// Price of each length of piece.
    pub(super) pieces: Vec<i64>,
    /// The most that pieces from one bar are worth, by stock length.
    pub(super) bars: Vec<i64>,
}

impl PriceList {
    /// Lists that need no search.
    pub(super) fn plain(problem: &Problem) -> Vec<Self> {
        let lengths = || 0..problem.lengths.len();
        let by_size = Self {
            pieces: lengths().map(|piece| problem.size(piece)).collect(),
            bars: (0..problem.stock.len()).map(|stock| problem.room(stock)).collect(),
        };
        let holds = |piece: usize| -> Vec<i64> {
            (0..problem.stock.len()).map(|s| problem.room(s) / problem.size(piece)).collect()
        };
        // Of lengths of which every bar holds as many, the shortest asks for most.
        let by_number = lengths().filter_map(|shortest| {
            let bars = holds(shortest);
            let last = shortest + 1 == problem.lengths.len() || holds(shortest + 1) != bars;
            let pieces = || lengths().map(|piece| i64::from(piece <= shortest)).collect();
            last.then(|| Self { pieces: pieces(), bars })
        });
        std::iter::once(by_size).chain(by_number).collect()
    }

    /// The least that pieces, and segments each in its cheapest way, are worth together.
    pub(super) fn worth<'a>(
        &self,
        pieces: impl IntoIterator<Item = i64>,
        groups: impl IntoIterator<Item = (i64, &'a [Vec<usize>])>,
    ) -> i64 {
        let way = |way: &Vec<usize>| -> i64 { way.iter().map(|piece| self.pieces[*piece]).sum() };
        let pieces: i64 = pieces.into_iter().zip(&self.pieces).map(|(n, price)| n * price).sum();
        let groups = groups.into_iter().filter(|(copies, _)| *copies > 0);
        pieces
            + groups
                .map(|(copies, ways)| copies * ways.iter().map(way).min().unwrap_or(0))
                .sum::<i64>()
    }

    /// The same of whole groups.
    pub(super) fn worth_of(&self, groups: &[Group]) -> i64 {
        self.worth([], groups.iter().map(|group| (i64::from(group.copies), group.ways.as_slice())))
    }

    /// Of the first stock lengths the one that holds most for its cost, if any holds anything.
    pub(super) fn best_value(&self, costs: &[i64]) -> Option<usize> {
        let value = |stock: usize, by: usize| i128::from(self.bars[stock]) * i128::from(costs[by]);
        (0..costs.len())
            .filter(|stock| self.bars[*stock] > 0)
            .max_by(|a, b| value(*a, *b).cmp(&value(*b, *a)))
    }

    /// What these bars are worth at most.
    pub(super) fn worth_of_bars(&self, mix: &[i64]) -> i64 {
        self.bars.iter().zip(mix).map(|(each, bars)| each * bars).sum()
    }
}

/// The dearest filling of a bar.
pub(super) struct Dearest {
    /// No filling is worth more.
    pub(super) worth: i64,
    /// The filling: places of its pieces in the list of lengths. Where the search was cut short it
    /// may be worth less.
    pub(super) pieces: Vec<usize>,
}

/// Searches for dearest fillings at given prices, each length at most so many times.
pub(super) struct Fillings {
    /// Pieces with a price, dearest for their size first.
    items: Vec<Item>,
    taken: Vec<u32>,
    best: Vec<u32>,
    best_worth: i64,
    tries: u32,
    looked: u64,
}

#[derive(Clone, Copy)]
struct Item {
    piece: usize,
    size: i64,
    price: i64,
    most: u32,
}

/// Fillings that are looked at for one bar.
const TRIES: u32 = 20_000;

impl Fillings {
    pub(super) fn new(problem: &Problem, prices: &[i64], most: &[u32]) -> Self {
        let mut items: Vec<Item> = Vec::new();
        for piece in 0..prices.len() {
            let item =
                Item { piece, size: problem.size(piece), price: prices[piece], most: most[piece] };
            match items.last_mut() {
                // In place of a longer piece at the same price the shorter one always fits.
                Some(longer) if longer.price == item.price => {
                    *longer = Item { most: item.most.saturating_add(longer.most), ..item };
                }
                _ => items.push(item),
            }
        }
        items.retain(|item| item.price > 0 && item.most > 0);
        items.sort_by(|a, b| {
            (i128::from(b.price) * i128::from(a.size))
                .cmp(&(i128::from(a.price) * i128::from(b.size)))
                .then(a.piece.cmp(&b.piece))
        });
        let taken = vec![0; items.len()];
        Self { items, best: taken.clone(), taken, best_worth: 0, tries: 0, looked: 0 }
    }

    /// The dearest filling of this room.
    pub(super) fn dearest(&mut self, room: i64, effort: &mut Effort) -> Dearest {
        self.best_worth = 0;
        self.best.fill(0);
        self.tries = TRIES;
        self.looked = 0;
        self.fill(0, room, 0);
        effort.spend(self.looked + 4 * u64::from(TRIES - self.tries));
        let at_most = || {
            let first = self.items.iter().find(|item| item.size <= room);
            first.map_or(0, |item| share(room, item))
        };
        let worth = if self.tries == 0 { at_most() } else { self.best_worth };
        let pieces = self.items.iter().zip(&self.best);
        let pieces = pieces.flat_map(|(item, n)| (0..*n).map(|_| item.piece)).collect();
        Dearest { worth, pieces }
    }

    fn fill(&mut self, from: usize, room: i64, worth: i64) {
        if worth > self.best_worth {
            self.best_worth = worth;
            self.best.clone_from(&self.taken);
        }
        for at in from..self.items.len() {
            let item = self.items[at];
            self.looked += 1;
            if item.size > room || self.taken[at] == item.most {
                continue;
            }
            if self.tries == 0 || worth + share(room, &item) <= self.best_worth {
                return;
            }
            self.tries -= 1;
            self.taken[at] += 1;
            self.fill(at, room - item.size, worth + item.price);
            self.taken[at] -= 1;
        }
    }
}

/// What a room is worth at most, filled with nothing dearer for its size than this.
fn share(room: i64, item: &Item) -> i64 {
    let worth = i128::from(room) * i128::from(item.price) / i128::from(item.size);
    i64::try_from(worth).unwrap_or(i64::MAX)
}

#[cfg(test)]
mod tests {
    use crate::parts::bars::Aim;

    use super::*;

    /// The dearest filling by trying every number of every piece.
    fn by_trial(problem: &Problem, prices: &[i64], most: &[u32], from: usize, room: i64) -> i64 {
        let Some(price) = prices.get(from) else { return 0 };
        (0..=i64::from(most[from]))
            .take_while(|n| n * problem.size(from) <= room)
            .map(|n| {
                let left = room - n * problem.size(from);
                n * price + by_trial(problem, prices, most, from + 1, left)
            })
            .max()
            .unwrap_or(0)
    }

    #[test]
    fn no_filling_is_dearer() {
        let problem = Problem {
            lengths: vec![41_000, 33_300, 27_150, 27_000, 18_420, 12_140, 9_000],
            groups: Vec::new(),
            stock: vec![33_000, 44_000, 62_000],
            kerf: 30,
            aim: Aim::LeastLength,
        };
        let most = [1, 4, 2, 3, 1, 4, 2];
        let sizes: Vec<i64> = (0..7).map(|piece| problem.size(piece)).collect();
        for prices in [sizes, vec![9, 7, 6, 6, 4, 2, 2], vec![5, 0, 3, 4, 2, 3, 0]] {
            let mut search = Fillings::new(&problem, &prices, &most);
            for stock in 0..3 {
                let room = problem.room(stock);
                let found = search.dearest(room, &mut Effort::of(u64::MAX));
                let size: i64 = found.pieces.iter().map(|piece| problem.size(*piece)).sum();
                let worth: i64 = found.pieces.iter().map(|piece| prices[*piece]).sum();
                assert!(size <= room, "{:?}", found.pieces);
                assert_eq!(worth, found.worth);
                assert_eq!(worth, by_trial(&problem, &prices, &most, 0, room), "{prices:?}");
            }
        }
    }
}
