//! The linear relaxation: bars and copies of segments in fractions, on a given mix of bars.
//!
//! **Model.** Unknowns are how often each filling of a bar is cut, how many copies of each group
//! take each way, and how much more of each stock length is bought than the mix has. Rows: each
//! length of piece is cut as often as the ways taken need it; every copy takes a way; fillings of a
//! stock length take no more bars than there are. The least of what is bought beyond the mix is
//! looked for; when nothing is, the mix affords the relaxation.
//!
//! **Method.** Column generation: fillings are far too many to list, so those that the prices of
//! the rows call for are searched for and added, until none gains. Rounded to whole numbers, the
//! same prices are a [price list](PriceList) that holds for the whole problem, whether or not the
//! end was reached; as soon as one refuses the mix, no more is asked. Another mix, or what is left
//! of the job when part of a plan is fixed, only changes right-hand sides: the work is kept.
//!
//! Ways enter in the same manner: to begin with those of a plan, then those that gain. A length has
//! a row from when a way with it enters; until then it has the price of the next shorter length
//! that has one, for a longer piece may always be cut down to it.
//!
//! Right-hand sides are eased by some millionths, each by another, so that the method does not run
//! in circles; what is rounded to whole bars in the end does not feel it.
//!
//! **Limits.** No way enters beyond [`MOST_ROWS`] lengths. The price lists hold all the same, as
//! every way and every length has a price in them.

use super::prices::{Fillings, PriceList};
use super::simplex::{Column, End, Simplex};
use super::{Effort, Problem};

/// Most lengths of pieces with a row: the inverse of a basis has the square of the rows.
const MOST_ROWS: usize = 360;
/// Prices are rounded to this many parts of the dearest.
const PARTS: f64 = (1_u64 << 30) as f64;
/// Cost of a copy that takes no way: more than its pieces ever cost, each in a bar of its own.
const DEAR: f64 = 1e3;
/// Less than this bought beyond a mix is rounding.
const ROUNDING: f64 = 1e-5;

/// What is left to do when part of a plan is fixed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Left {
    /// Pieces owed, by length; negative where more are cut than needed so far.
    pub(super) pieces: Vec<i64>,
    /// Copies of each group without a way.
    pub(super) copies: Vec<i64>,
    /// Bars not cut.
    pub(super) mix: Vec<i64>,
}

/// What a column stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Part {
    /// A copy of a group takes this way.
    Way { group: usize, way: usize },
    /// A bar is cut into these pieces.
    Bar { stock: usize, pieces: Vec<usize> },
    /// Neither: more than is needed, or a piece cut down to a shorter one.
    Spare,
}

/// What the relaxation says about a mix.
pub(super) enum Verdict {
    /// Some fractions do.
    Affords,
    /// None do: this list proves it.
    Refuses(PriceList),
    /// The effort was spent, or rounding stood in the way.
    Undecided,
}

/// The relaxation of a problem.
///
/// Rows are the stock lengths, the groups and then those lengths of pieces that have come up.
pub(super) struct Relaxation<'a> {
    problem: &'a Problem,
    simplex: Simplex,
    parts: Vec<Part>,
    /// Lengths that have a row, in the order of their rows.
    rowed: Vec<usize>,
    /// Row of each length; of the nearest shorter one where it has none.
    row_of: Vec<Option<usize>>,
    /// Ways that have a column, by group.
    entered: Vec<Vec<bool>>,
    /// Columns that are not to be used for the time being.
    forbidden: Vec<usize>,
}

impl Left {
    /// All of a problem, on a mix.
    pub(super) fn all(problem: &Problem, mix: &[i64]) -> Self {
        Self {
            pieces: vec![0; problem.lengths.len()],
            copies: problem.groups.iter().map(|group| i64::from(group.copies)).collect(),
            mix: mix.to_vec(),
        }
    }

    /// Most pieces of each length that may be needed.
    fn most(&self, problem: &Problem) -> Vec<u32> {
        let mut most: Vec<u32> =
            self.pieces.iter().map(|n| u32::try_from(*n).unwrap_or(0)).collect();
        let mut in_group = vec![0; most.len()];
        for (group, copies) in problem.groups.iter().zip(&self.copies) {
            let Some(copies) = u32::try_from(*copies).ok().filter(|n| *n > 0) else { continue };
            for way in &group.ways {
                for alike in way.chunk_by(|a, b| a == b) {
                    let n = u32::try_from(alike.len()).unwrap_or(u32::MAX);
                    in_group[alike[0]] = n.max(in_group[alike[0]]);
                }
            }
            for piece in group.ways.iter().flatten() {
                let n = std::mem::take(&mut in_group[*piece]);
                most[*piece] = most[*piece].saturating_add(n.saturating_mul(copies));
            }
        }
        most
    }
}

impl<'a> Relaxation<'a> {
    /// The relaxation, beginning with a plan.
    pub(super) fn new(problem: &'a Problem, taken: &[Vec<u32>], bars: &[super::Bars]) -> Self {
        let longest = problem.stock.last().copied().unwrap_or(1) as f64;
        let mut columns = Vec::new();
        let mut parts = Vec::new();
        let stock_rows = problem.stock.len();
        let mut start = Vec::with_capacity(stock_rows + problem.groups.len());
        for (row, length) in problem.stock.iter().enumerate() {
            start.push(columns.len());
            let cost = *length as f64 / longest;
            columns.push(Column { cost, entries: vec![(row, 1.0)] });
            columns.push(Column { cost: 0.0, entries: vec![(row, -1.0)] });
            parts.extend([Part::Spare, Part::Spare]);
        }
        // Until a way takes its place: no copy at a price beyond all others.
        for group in 0..problem.groups.len() {
            start.push(columns.len());
            columns.push(Column { cost: DEAR, entries: vec![(stock_rows + group, 1.0)] });
            parts.push(Part::Spare);
        }
        let mut relaxation = Self {
            problem,
            simplex: Simplex::new(columns, start),
            parts,
            rowed: Vec::new(),
            row_of: vec![None; problem.lengths.len()],
            entered: problem.groups.iter().map(|group| vec![false; group.ways.len()]).collect(),
            forbidden: Vec::new(),
        };
        for (group, taken) in taken.iter().enumerate() {
            for way in (0..taken.len()).filter(|way| taken[*way] > 0) {
                relaxation.enter(group, way);
            }
        }
        for bar in bars {
            relaxation.add_bar(bar.stock, &bar.pieces);
        }
        relaxation
    }

    /// Columns above zero and their values.
    pub(super) fn values(&self) -> Vec<(usize, f64)> {
        let values = self.simplex.values();
        values.filter(|(column, _)| self.parts[*column] != Part::Spare).collect()
    }

    /// What a column stands for.
    pub(super) fn part(&self, column: usize) -> &Part {
        &self.parts[column]
    }

    /// Makes a column too dear to be used.
    pub(super) fn forbid(&mut self, column: usize) {
        self.simplex.set_cost(column, DEAR);
        self.forbidden.push(column);
    }

    /// Lets a column be used again.
    pub(super) fn allow(&mut self, column: usize) {
        self.simplex.set_cost(column, 0.0);
        self.forbidden.retain(|forbidden| *forbidden != column);
    }

    /// Whether what is left can be done in fractions.
    pub(super) fn at(&mut self, left: &Left, effort: &mut Effort) -> Verdict {
        let most = left.most(self.problem);
        self.set_right(left);
        if self.simplex.mend(effort) == End::Stopped {
            return Verdict::Undecided;
        }
        loop {
            if self.simplex.cost() < ROUNDING {
                return Verdict::Affords;
            }
            if self.simplex.improve(effort) == End::Stopped {
                return Verdict::Undecided;
            }
            if self.simplex.cost() < ROUNDING {
                return Verdict::Affords;
            }
            let mut gained = self.enter_gaining(left, effort);
            if gained {
                self.set_right(left);
            }
            let (list, fillings) = self.priced(&most, effort);
            if self.refuses(&list, left, effort) {
                return Verdict::Refuses(list);
            }
            for (stock, pieces) in fillings.into_iter().enumerate() {
                if self.gains(stock, &pieces) && !self.is_forbidden(stock, &pieces) {
                    self.add_bar(stock, &pieces);
                    gained = true;
                }
            }
            if !gained {
                return Verdict::Undecided;
            }
        }
    }

    fn refuses(&self, list: &PriceList, left: &Left, effort: &mut Effort) -> bool {
        let ways = self.problem.groups.iter().map(|group| group.ways.as_slice());
        effort.spend(ways.clone().map(|ways| ways.len() as u64).sum());
        let groups = left.copies.iter().copied().zip(ways);
        list.worth(left.pieces.iter().copied(), groups) > list.worth_of_bars(&left.mix)
    }

    fn set_right(&mut self, left: &Left) {
        let eased = |row: usize| 1e-6 * (1.0 + (row * 7919 % 1013) as f64 / 1013.0);
        let bars = left.mix.iter().map(|bars| -*bars as f64);
        let copies = left.copies.iter().map(|copies| *copies as f64);
        let pieces = self.rowed.iter().map(|piece| left.pieces[*piece] as f64);
        let groups = left.mix.len()..left.mix.len() + left.copies.len();
        let ease = |(row, b)| if groups.contains(&row) { b } else { b - eased(row) };
        self.simplex.set_right(bars.chain(copies).chain(pieces).enumerate().map(ease));
    }

    /// Lets in the way of each group that gains most at the prices of the rows.
    fn enter_gaining(&mut self, left: &Left, effort: &mut Effort) -> bool {
        let mut entering = Vec::new();
        let prices = self.simplex.prices();
        for (group, given) in self.problem.groups.iter().enumerate() {
            if left.copies[group] == 0 {
                continue;
            }
            effort.spend(2 * given.ways.len() as u64);
            let copy = prices[self.problem.stock.len() + group];
            let price = |way: &[usize]| -> f64 {
                way.iter().filter_map(|p| self.row_of[*p]).map(|row| prices[row]).sum()
            };
            let cheapest = given
                .ways
                .iter()
                .enumerate()
                .filter(|(way, _)| !self.entered[group][*way])
                .map(|(way, pieces)| (price(pieces), way))
                .min_by(|a, b| a.0.total_cmp(&b.0));
            if let Some((_, way)) = cheapest.filter(|(price, _)| *price < copy - 1e-8) {
                entering.push((group, way));
            }
        }
        let mut entered = false;
        for (group, way) in entering {
            if self.rowed.len() + self.problem.groups[group].ways[way].len() <= MOST_ROWS {
                self.enter(group, way);
                entered = true;
            }
        }
        entered
    }

    /// Gives a way a column, and its pieces rows where they have none.
    fn enter(&mut self, group: usize, way: usize) {
        self.entered[group][way] = true;
        let pieces = &self.problem.groups[group].ways[way];
        for piece in pieces {
            self.add_row(*piece);
        }
        let mut entries = vec![(self.problem.stock.len() + group, 1.0)];
        entries.extend(counted(pieces.iter().filter_map(|p| self.row_of[*p]), -1.0));
        self.simplex.add(Column { cost: 0.0, entries });
        self.parts.push(Part::Way { group, way });
    }

    /// A row for a length of piece: where more are cut than are needed, they may be cut down to
    /// the next shorter length that has a row.
    fn add_row(&mut self, piece: usize) {
        let shorter = self.row_of[piece];
        let first = self.problem.stock.len() + self.problem.groups.len();
        if shorter.is_some_and(|row| self.rowed[row - first] == piece) {
            return;
        }
        self.simplex.add_row(shorter);
        self.parts.push(Part::Spare);
        let row = first + self.rowed.len();
        self.rowed.push(piece);
        for longer in (0..=piece).rev() {
            if self.row_of[longer] != shorter {
                break;
            }
            self.row_of[longer] = Some(row);
        }
        // A bar of its own for every length: whatever is fixed, the rest can be cut.
        self.add_bar(self.problem.shortest_for(piece), &[piece]);
    }

    /// The prices of the rows in whole numbers, and the dearest filling of each stock length.
    fn priced(&self, most: &[u32], effort: &mut Effort) -> (PriceList, Vec<Vec<usize>>) {
        let prices = self.simplex.prices();
        let rows = self.problem.stock.len() + self.problem.groups.len()..prices.len();
        let dearest = prices[rows].iter().copied().fold(0.0, f64::max);
        let scale = if dearest > 0.0 { PARTS / dearest } else { 0.0 };
        #[expect(clippy::cast_possible_truncation, reason = "between nothing and the parts")]
        let whole = |row: Option<usize>| row.map_or(0, |row| (prices[row] * scale).max(0.0) as i64);
        let pieces: Vec<i64> = self.row_of.iter().map(|row| whole(*row)).collect();
        let mut search = Fillings::new(self.problem, &pieces, most);
        let mut bars = Vec::with_capacity(self.problem.stock.len());
        let mut fillings = Vec::with_capacity(self.problem.stock.len());
        for stock in 0..self.problem.stock.len() {
            let room = self.problem.room(stock);
            let found = search.dearest(room, effort);
            bars.push(found.worth);
            fillings.push(found.pieces);
        }
        (PriceList { pieces, bars }, fillings)
    }

    fn gains(&self, stock: usize, pieces: &[usize]) -> bool {
        let prices = self.simplex.prices();
        let worth: f64 = pieces.iter().filter_map(|p| self.row_of[*p]).map(|r| prices[r]).sum();
        worth > prices[stock] + 1e-8
    }

    /// Fillings that are not to be used are not to come in by the back door.
    fn is_forbidden(&self, stock: usize, pieces: &[usize]) -> bool {
        let bar = Part::Bar { stock, pieces: pieces.to_vec() };
        self.forbidden.iter().any(|column| self.parts[*column] == bar)
    }

    /// A column for a filling; a length without a row is cut as the nearest shorter one with one.
    fn add_bar(&mut self, stock: usize, pieces: &[usize]) {
        let first = self.problem.stock.len() + self.problem.groups.len();
        let rows: Vec<usize> = pieces.iter().filter_map(|piece| self.row_of[*piece]).collect();
        let mut pieces: Vec<usize> = rows.iter().map(|row| self.rowed[row - first]).collect();
        pieces.sort_unstable();
        let mut entries = counted(rows.into_iter(), 1.0);
        entries.push((stock, -1.0));
        self.simplex.add(Column { cost: 0.0, entries });
        self.parts.push(Part::Bar { stock, pieces });
    }
}

/// Rows with how often each comes, times a sign.
fn counted(rows: impl Iterator<Item = usize>, sign: f64) -> Vec<(usize, f64)> {
    let mut counts: Vec<(usize, f64)> = Vec::new();
    for row in rows {
        match counts.iter_mut().find(|(known, _)| *known == row) {
            Some((_, n)) => *n += sign,
            None => counts.push((row, sign)),
        }
    }
    counts
}
