//! Which bars to buy and what to cut from each: one-dimensional cutting stock with several
//! stock lengths, where some of what is cut may be made up in more than one way.
//!
//! **Statement.** Groups of like segments each have ways to be made up of pieces; every copy takes
//! one way. Every piece is cut from one bar. A bar of length `S` yields the pieces `p_1 … p_m` if
//! `Σ p_i + κ·(m − 1) <= S`, with `κ` the width of a saw cut: an offcut thinner than the blade is
//! sawn away. Bars of every stock length are to be had without limit. Wanted is the least
//! `(length bought, bars)` or `(bars, length bought)`, in that order of importance. What is wasted
//! is what is bought less what is used, so the least length bought is the least waste too.
//!
//! **Bounds.** A `Price` per piece such that no bar's pieces cost more than the bar proves that
//! nothing cheaper than the sum of prices exists. Prices used: the length of a piece with its saw
//! cut, in proportion to the cheapest bar; and for each length, a share of a bar for every piece
//! at least that long, by how many such a bar holds at most. The length bought is a sum of stock
//! lengths, so a bound goes up to the next multiple of their greatest common divisor.
//!
//! **Method.** Plans by rule of thumb first: the longest piece that is left goes into the bar that
//! it and the best filling leave least of; then other ways for one group after another as long as
//! that helps. A plan that meets the bound is the best. Otherwise branch and bound: all
//! distributions of copies over ways; for each, bar by bar, the longest piece left with every
//! filling that leaves no room for another piece. Both restrictions lose nothing: some bar holds
//! the longest piece, and a piece that still fits may be moved there from another bar. A state met
//! before at no higher price is not looked at again.
//!
//! **Effort.** The search stops after a number of steps with the best plan so far, and says so.
//!
//! **Units.** Whole tenths of a millimetre; all comparisons are between whole numbers.
//!
//! **Checked by** `tests/properties/cutting.rs`: a general-purpose mixed-integer solver on random
//! jobs.

use std::collections::HashMap;

/// What is saved first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Aim {
    /// Length bought, then bars.
    LeastLength,
    /// Bars, then length bought.
    FewestBars,
}

/// Segments that are made up of the same pieces.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// How many.
    pub copies: u32,
    /// Ways to make up one: places of its pieces in the list of lengths, longest first.
    pub ways: Vec<Vec<usize>>,
}

/// What is to be cut, and from what.
#[derive(Debug, Clone)]
pub struct Problem {
    /// Lengths of pieces, longest first, none twice, none longer than the longest bar.
    pub lengths: Vec<i64>,
    /// Segments, each made up in one way or another.
    pub groups: Vec<Group>,
    /// Stock lengths, shortest first, none twice.
    pub stock: Vec<i64>,
    /// Width of a saw cut.
    pub kerf: i64,
    /// What is saved first.
    pub aim: Aim,
}

/// Bars cut alike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bars {
    /// How many.
    pub times: u32,
    /// Place of their length in the list of stock lengths.
    pub stock: usize,
    /// Places of the pieces in the list of lengths, longest first.
    pub pieces: Vec<usize>,
}

/// What a plan buys.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Bought {
    /// Length.
    pub length: i64,
    /// Bars.
    pub bars: i64,
}

/// A plan.
#[derive(Debug, Clone)]
pub struct Plan {
    /// How many copies of each group take each of its ways.
    pub taken: Vec<Vec<u32>>,
    /// The bars.
    pub bars: Vec<Bars>,
    /// What it buys.
    pub bought: Bought,
    /// What no plan can be better than, in the order of the aim.
    pub bound: Bought,
    /// No plan is better.
    pub proven: bool,
}

/// Prices of pieces such that what is cut from a bar never costs more than the bar: `per` times
/// its length, or `per` times one.
struct Price {
    of: Measure,
    pieces: Vec<i64>,
    per: i64,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Measure {
    Length,
    Bars,
}

impl Problem {
    /// The best plan that is found in so many steps.
    #[must_use]
    pub fn solve(&self, steps: u64) -> Plan {
        let mut search = Search::new(self, steps);
        search.by_rule_of_thumb();
        let mut proven = search.at_bound();
        if !proven {
            proven = search.exhaustively();
        }
        let Search { best, bound, .. } = search;
        let Best { taken, mut bars, bought } = best;
        bars.sort_by(|a, b| (b.stock, &a.pieces, b.times).cmp(&(a.stock, &b.pieces, a.times)));
        let bound = if proven { bought } else { bound };
        Plan { taken, bars, bought, bound, proven }
    }

    fn size(&self, piece: usize) -> i64 {
        self.lengths[piece] + self.kerf
    }

    fn room(&self, stock: usize) -> i64 {
        self.stock[stock] + self.kerf
    }

    fn rank(&self, bought: Bought) -> [i64; 2] {
        match self.aim {
            Aim::LeastLength => [bought.length, bought.bars],
            Aim::FewestBars => [bought.bars, bought.length],
        }
    }

    /// Pieces by length, when the groups take these ways.
    fn count(&self, taken: &[Vec<u32>]) -> Vec<u32> {
        let mut counts = vec![0; self.lengths.len()];
        for (group, taken) in self.groups.iter().zip(taken) {
            for (way, copies) in group.ways.iter().zip(taken) {
                for piece in way {
                    counts[*piece] += copies;
                }
            }
        }
        counts
    }

    fn prices(&self) -> Vec<Price> {
        let mut prices = Vec::with_capacity(2 * self.lengths.len() + 2);
        let sizes = || (0..self.lengths.len()).map(|piece| self.size(piece));
        // Length with saw cut, by the bar whose length is the least share of its room: the
        // shortest. For bars the longest, which holds most.
        if let (Some(shortest), Some(longest)) = (self.stock.first(), self.stock.last()) {
            prices.push(Price {
                of: Measure::Length,
                pieces: sizes().map(|size| size * shortest).collect(),
                per: shortest + self.kerf,
            });
            prices.push(Price {
                of: Measure::Bars,
                pieces: sizes().collect(),
                per: longest + self.kerf,
            });
        }
        for least in sizes() {
            let pieces = |price: i64| -> Vec<i64> {
                sizes().map(|size| if size >= least { price } else { 0 }).collect()
            };
            let holds = |stock: usize| self.room(stock) / least;
            let places = || (0..self.stock.len()).filter(|stock| holds(*stock) > 0);
            let cheapest = places()
                .min_by(|a, b| (self.stock[*a] * holds(*b)).cmp(&(self.stock[*b] * holds(*a))));
            if let Some(stock) = cheapest {
                prices.push(Price {
                    of: Measure::Length,
                    pieces: pieces(self.stock[stock]),
                    per: holds(stock),
                });
            }
            if let Some(most) = places().map(holds).max() {
                prices.push(Price { of: Measure::Bars, pieces: pieces(1), per: most });
            }
        }
        prices
    }
}

/// The best plan so far.
struct Best {
    taken: Vec<Vec<u32>>,
    bars: Vec<Bars>,
    bought: Bought,
}

struct Search<'a> {
    problem: &'a Problem,
    prices: Vec<Price>,
    /// Greatest common divisor of the stock lengths.
    step: i64,
    steps_left: u64,
    bound: Bought,
    best: Best,
    /// Least that was bought when these pieces were left.
    met: HashMap<Vec<u32>, [i64; 2]>,
}

/// Which bar a rule of thumb takes for the longest piece left.
#[derive(Clone, Copy)]
enum Thumb {
    /// The one its filling leaves least of, in proportion.
    Fullest,
    /// The longest, cut down to a shorter one where that will do.
    Longest,
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem, steps: u64) -> Self {
        let mut search = Self {
            problem,
            prices: problem.prices(),
            step: problem.stock.iter().copied().fold(0, divisor).max(1),
            steps_left: steps,
            bound: Bought::default(),
            best: Best { taken: Vec::new(), bars: Vec::new(), bought: Bought::default() },
            met: HashMap::new(),
        };
        search.bound = search.bound_of(&vec![0; problem.lengths.len()], &problem.groups);
        search
    }

    fn at_bound(&self) -> bool {
        self.best.bought == self.bound
    }

    /// What no plan for these pieces and for these groups in any way can be better than.
    fn bound_of(&self, counts: &[u32], groups: &[Group]) -> Bought {
        let mut bound = Bought::default();
        for price in &self.prices {
            let pieces: i64 =
                counts.iter().zip(&price.pieces).map(|(n, each)| i64::from(*n) * each).sum();
            let groups: i64 = groups.iter().map(|group| price.of_group(group)).sum();
            let bars = (pieces + groups + price.per - 1).div_euclid(price.per);
            let known = match price.of {
                Measure::Length => &mut bound.length,
                Measure::Bars => &mut bound.bars,
            };
            *known = bars.max(*known);
        }
        bound.length = (bound.length + self.step - 1).div_euclid(self.step) * self.step;
        let longest = self.problem.stock.last().copied().unwrap_or(1);
        bound.bars = bound.bars.max((bound.length + longest - 1).div_euclid(longest));
        bound
    }

    fn offer(&mut self, taken: &[Vec<u32>], bars: Vec<Bars>) -> bool {
        let bought = bars.iter().fold(Bought::default(), |sum, bar| Bought {
            length: sum.length + i64::from(bar.times) * self.problem.stock[bar.stock],
            bars: sum.bars + i64::from(bar.times),
        });
        let first = self.best.taken.is_empty();
        let better = self.problem.rank(bought) < self.problem.rank(self.best.bought);
        if first || better {
            self.best = Best { taken: taken.to_vec(), bars, bought };
        }
        first || better
    }

    /// Good plans without proof; the first way of every group to start with.
    fn by_rule_of_thumb(&mut self) {
        let mut taken: Vec<Vec<u32>> = self
            .problem
            .groups
            .iter()
            .map(|group| {
                let mut taken = vec![0; group.ways.len()];
                taken.iter_mut().take(1).for_each(|first| *first = group.copies);
                taken
            })
            .collect();
        self.pack(&taken);
        let mut improved = true;
        while improved && !self.at_bound() {
            improved = false;
            for g in 0..taken.len() {
                for to in 0..taken[g].len() {
                    for part in [1, 2, u32::MAX] {
                        if self.at_bound() || self.steps_left == 0 {
                            return;
                        }
                        taken[g].clone_from(&self.best.taken[g]);
                        let Some(from) = (0..taken[g].len())
                            .filter(|way| *way != to)
                            .max_by_key(|way| (taken[g][*way], usize::MAX - way))
                        else {
                            continue;
                        };
                        let moved = taken[g][from].div_ceil(part);
                        if moved == 0 {
                            continue;
                        }
                        taken[g][from] -= moved;
                        taken[g][to] += moved;
                        improved |= self.pack(&taken);
                    }
                }
                taken[g].clone_from(&self.best.taken[g]);
            }
        }
    }

    /// Packs by both rules of thumb; whether that gave a better plan.
    fn pack(&mut self, taken: &[Vec<u32>]) -> bool {
        let mut better = false;
        for thumb in [Thumb::Fullest, Thumb::Longest] {
            if self.at_bound() && !self.best.taken.is_empty() {
                break;
            }
            let bars = self.packed(taken, thumb);
            better |= self.offer(taken, bars);
        }
        better
    }

    fn packed(&mut self, taken: &[Vec<u32>], thumb: Thumb) -> Vec<Bars> {
        let problem = self.problem;
        let mut counts = problem.count(taken);
        let mut bars = Vec::new();
        while let Some(first) = counts.iter().position(|n| *n > 0) {
            self.steps_left = self.steps_left.saturating_sub(1);
            let mut best: Option<(i64, Bars)> = None;
            for stock in (0..problem.stock.len()).rev() {
                let room = problem.room(stock) - problem.size(first);
                if room < 0 {
                    break;
                }
                let mut filling = Filling {
                    problem,
                    counts: &mut counts,
                    tries: 200,
                    best: Vec::new(),
                    left: room,
                };
                filling.counts[first] -= 1;
                filling.fill(first, room, &mut Vec::new());
                let Filling { best: fill, left, .. } = filling;
                counts[first] += 1;
                let pieces: Vec<usize> = std::iter::once(first).chain(fill).collect();
                let wins = best.as_ref().is_none_or(|(known, bar)| {
                    left * problem.stock[bar.stock] < known * problem.stock[stock]
                });
                if wins {
                    best = Some((left, Bars { times: 1, stock, pieces }));
                }
                if matches!(thumb, Thumb::Longest) {
                    break;
                }
            }
            let Some((left, mut bar)) = best else { break };
            let used = problem.room(bar.stock) - left;
            bar.stock = (0..bar.stock).find(|s| problem.room(*s) >= used).unwrap_or(bar.stock);
            // As often as there are pieces for it.
            let needs = |piece: &usize| bar.pieces.iter().filter(|p| *p == piece).count() as u64;
            let times = bar.pieces.iter().map(|p| u64::from(counts[*p]) / needs(p)).min();
            bar.times = times.and_then(|t| u32::try_from(t).ok()).unwrap_or(1).max(1);
            bar.pieces.iter().for_each(|piece| counts[*piece] -= bar.times);
            bars.push(bar);
        }
        bars
    }

    /// Branch and bound over everything; whether it came to its end.
    fn exhaustively(&mut self) -> bool {
        let mut counts = vec![0; self.problem.lengths.len()];
        let mut taken: Vec<Vec<u32>> =
            self.problem.groups.iter().map(|group| vec![0; group.ways.len()]).collect();
        self.distribute(
            [0, 0],
            self.problem.groups.first().map_or(0, |g| g.copies),
            &mut taken,
            &mut counts,
        );
        self.steps_left > 0
    }

    /// Gives `left` copies of a group to its ways from this one on, then the groups after it.
    fn distribute(
        &mut self,
        [group, way]: [usize; 2],
        left: u32,
        taken: &mut Vec<Vec<u32>>,
        counts: &mut Vec<u32>,
    ) {
        let groups = &self.problem.groups;
        if self.done() {
            return;
        }
        let Some(current) = groups.get(group) else {
            return self.cut(taken, counts, Bought::default(), &mut Vec::new());
        };
        self.steps_left -= 1;
        if way + 1 >= current.ways.len() {
            self.give([group, way], left, taken, counts);
            let copies = groups.get(group + 1).map_or(0, |g| g.copies);
            if self.may_improve(counts, &groups[group + 1..], Bought::default()) {
                self.distribute([group + 1, 0], copies, taken, counts);
            }
            self.take_back([group, way], left, taken, counts);
            return;
        }
        for copies in (0..=left).rev() {
            self.give([group, way], copies, taken, counts);
            let rest = Group { copies: left - copies, ways: current.ways[way + 1..].to_vec() };
            if self.may_improve_with(counts, &rest, &groups[group + 1..]) {
                self.distribute([group, way + 1], left - copies, taken, counts);
            }
            self.take_back([group, way], copies, taken, counts);
        }
    }

    fn give(&self, [g, w]: [usize; 2], copies: u32, taken: &mut [Vec<u32>], counts: &mut [u32]) {
        taken[g][w] += copies;
        self.problem.groups[g].ways[w].iter().for_each(|piece| counts[*piece] += copies);
    }

    fn take_back(
        &self,
        [g, w]: [usize; 2],
        copies: u32,
        taken: &mut [Vec<u32>],
        counts: &mut [u32],
    ) {
        taken[g][w] -= copies;
        self.problem.groups[g].ways[w].iter().for_each(|piece| counts[*piece] -= copies);
    }

    fn done(&self) -> bool {
        self.steps_left == 0 || self.at_bound()
    }

    fn may_improve(&self, counts: &[u32], groups: &[Group], spent: Bought) -> bool {
        let rest = self.bound_of(counts, groups);
        let least = Bought { length: spent.length + rest.length, bars: spent.bars + rest.bars };
        self.problem.rank(least) < self.problem.rank(self.best.bought)
    }

    fn may_improve_with(&self, counts: &[u32], rest: &Group, groups: &[Group]) -> bool {
        let all: Vec<Group> = std::iter::once(rest.clone()).chain(groups.iter().cloned()).collect();
        self.may_improve(counts, &all, Bought::default())
    }

    /// Cuts what is left, the longest piece next.
    fn cut(
        &mut self,
        taken: &[Vec<u32>],
        counts: &mut Vec<u32>,
        spent: Bought,
        bars: &mut Vec<Bars>,
    ) {
        if self.done() {
            return;
        }
        self.steps_left -= 1;
        let Some(first) = counts.iter().position(|n| *n > 0) else {
            self.offer(taken, bars.clone());
            return;
        };
        if !self.may_improve(counts, &[], spent) {
            return;
        }
        let price = self.problem.rank(spent);
        match self.met.get_mut(counts.as_slice()) {
            Some(known) if *known <= price => return,
            Some(known) => *known = price,
            None => {
                self.met.insert(counts.clone(), price);
            }
        }
        for bar in self.fillings(first, counts) {
            let spent = Bought {
                length: spent.length + self.problem.stock[bar.stock],
                bars: spent.bars + 1,
            };
            bar.pieces.iter().for_each(|piece| counts[*piece] -= 1);
            bars.push(bar);
            self.cut(taken, counts, spent, bars);
            if let Some(bar) = bars.pop() {
                bar.pieces.iter().for_each(|piece| counts[*piece] += 1);
            }
        }
    }

    /// Every bar with this piece that has no room for another, fullest first.
    fn fillings(&mut self, first: usize, counts: &mut [u32]) -> Vec<Bars> {
        let problem = self.problem;
        let mut found: Vec<(i64, Bars)> = Vec::new();
        for stock in 0..problem.stock.len() {
            let room = problem.room(stock) - problem.size(first);
            if room < 0 {
                continue;
            }
            let shorter =
                if stock > 0 { problem.stock[stock] - problem.stock[stock - 1] } else { i64::MAX };
            counts[first] -= 1;
            let mut pieces = vec![first];
            self.fillings_from(first, room, counts, &mut pieces, &mut |left, pieces| {
                // What a shorter bar holds as well is not cut from this one.
                if left < shorter {
                    found.push((left, Bars { times: 1, stock, pieces: pieces.to_vec() }));
                }
            });
            counts[first] += 1;
        }
        found.sort_by_key(|(left, bar)| (*left, bar.stock));
        found.into_iter().map(|(_, bar)| bar).collect()
    }

    fn fillings_from(
        &mut self,
        from: usize,
        room: i64,
        counts: &mut [u32],
        pieces: &mut Vec<usize>,
        found: &mut impl FnMut(i64, &[usize]),
    ) {
        if self.steps_left == 0 {
            return;
        }
        self.steps_left -= 1;
        let problem = self.problem;
        let next = (from..counts.len()).find(|p| counts[*p] > 0 && problem.size(*p) <= room);
        let Some(next) = next else {
            // Maximal: nothing that was passed over fits either.
            if !(0..from).any(|p| counts[p] > 0 && problem.size(p) <= room) {
                found(room, pieces);
            }
            return;
        };
        counts[next] -= 1;
        pieces.push(next);
        self.fillings_from(next, room - problem.size(next), counts, pieces, found);
        pieces.pop();
        counts[next] += 1;
        self.fillings_from(next + 1, room, counts, pieces, found);
    }
}

impl Price {
    /// The least the copies of a group cost, each in its cheapest way.
    fn of_group(&self, group: &Group) -> i64 {
        let way = |way: &Vec<usize>| -> i64 { way.iter().map(|piece| self.pieces[*piece]).sum() };
        let cheapest = group.ways.iter().map(way).min().unwrap_or(0);
        i64::from(group.copies) * cheapest
    }
}

/// The best filling of what room a bar has left.
struct Filling<'a> {
    problem: &'a Problem,
    counts: &'a mut [u32],
    tries: u32,
    best: Vec<usize>,
    left: i64,
}

impl Filling<'_> {
    fn fill(&mut self, from: usize, room: i64, pieces: &mut Vec<usize>) {
        if room < self.left {
            self.left = room;
            self.best.clone_from(pieces);
        }
        for next in from..self.counts.len() {
            if self.tries == 0 || self.left == 0 {
                return;
            }
            if self.counts[next] > 0 && self.problem.size(next) <= room {
                self.tries -= 1;
                self.counts[next] -= 1;
                pieces.push(next);
                self.fill(next, room - self.problem.size(next), pieces);
                pieces.pop();
                self.counts[next] += 1;
            }
        }
    }
}

fn divisor(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { divisor(b, a.rem_euclid(b)) }
}
