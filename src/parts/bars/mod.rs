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
//! **Bounds.** `prices` of pieces prove what mixes of bars do not suffice; the cheapest mix that
//! no price list refuses (`mixes`) is what no plan can be better than. Prices that need no search
//! come first, and most small jobs are proven by them.
//!
//! **Method.** A plan by rule of thumb (`thumb`) and, where it costs more than the cheapest mix,
//! mix after mix, cheapest first: the `relaxation` to fractions of bars either finds prices that
//! refuse the mix, or it affords it, and `rounding` looks for whole bars. A plan on the cheapest
//! mix that nothing refuses is the best there is. So the proof is exact and lies in whole numbers,
//! while fractions are only ever a guide: a rounding error costs a proof, never a right answer.
//!
//! **Symmetry.** A way and its mirror image are the same pieces, and segments with the same ways
//! are one group, so neither is looked at twice. No way is dominated by another of its group: all
//! have as many pieces, of the same total length.
//!
//! **Effort.** Counted in steps, not in time, so that the same job has the same plan everywhere: an
//! entry of a matrix changed, a piece tried. When they are spent, the best plan so far is told with
//! the bound so far. Not proven is also a mix that has a plan in fractions and none in whole bars;
//! then the bound stays at its cost.
//!
//! **Units.** Whole tenths of a millimetre; all that is proven compares whole numbers.
//!
//! **Sources.** Columns by the prices of the rows: P. C. Gilmore, R. E. Gomory, A linear programming
//! approach to the cutting-stock problem, Operations Research 9 (1961), 849–859.
//!
//! **Checked by** `tests/properties/cutting.rs`: a general-purpose mixed-integer solver on random
//! jobs, small and large.

mod mixes;
mod prices;
mod relaxation;
mod rounding;
mod simplex;
mod thumb;

use mixes::{Cheapest, Demand, cheapest};
use prices::PriceList;
use relaxation::{Left, Relaxation, Verdict};
use rounding::{at_once, rounded};
use thumb::{Thumb, packed};

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

impl Problem {
    /// The best plan that is found in so many steps.
    #[must_use]
    pub fn solve(&self, steps: u64) -> Plan {
        let mut search = Search::new(self, steps);
        search.run();
        let Search { best, bound, costs, .. } = search;
        let proven = bound >= best.cost;
        let Best { taken, mut bars, bought, .. } = best;
        bars.sort_by(|a, b| (b.stock, &a.pieces, b.times).cmp(&(a.stock, &b.pieces, a.times)));
        let bound = if proven { bought } else { costs.bought(bound) };
        Plan { taken, bars, bought, bound, proven }
    }

    fn size(&self, piece: usize) -> i64 {
        self.lengths[piece] + self.kerf
    }

    fn room(&self, stock: usize) -> i64 {
        self.stock[stock] + self.kerf
    }

    /// The shortest bar that yields a piece.
    fn shortest_for(&self, piece: usize) -> usize {
        let place = self.stock.partition_point(|stock| *stock < self.lengths[piece]);
        place.min(self.stock.len().saturating_sub(1))
    }

    fn bought(&self, bars: &[Bars]) -> Bought {
        bars.iter().fold(Bought::default(), |sum, bar| Bought {
            length: sum.length + i64::from(bar.times) * self.stock[bar.stock],
            bars: sum.bars + i64::from(bar.times),
        })
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
}

/// What is left of the effort a search may take.
struct Effort {
    steps: u64,
}

impl Effort {
    const fn of(steps: u64) -> Self {
        Self { steps }
    }

    /// Spends steps; whether any are left.
    fn spend(&mut self, steps: u64) -> bool {
        self.steps = self.steps.saturating_sub(steps);
        self.steps > 0
    }

    /// Sets a share aside: one of so many.
    fn share(&mut self, of: u64) -> Self {
        let steps = self.steps / of;
        self.steps -= steps;
        Self { steps }
    }

    /// Gives back what is left of a share.
    fn give_back(&mut self, share: &Self) {
        self.steps += share.steps;
    }
}

/// Both aims in one number: the cost of a bar of each stock length.
struct Costs {
    aim: Aim,
    /// More than the second aim ever comes to.
    unit: i64,
    /// Cost of a bar, by stock length.
    bars: Vec<i64>,
}

impl Costs {
    /// Costs that order everything no worse than what is bought already.
    fn new(problem: &Problem, bought: Bought) -> Self {
        let shortest = problem.stock.first().copied().unwrap_or(1).max(1);
        let longest = problem.stock.last().copied().unwrap_or(1);
        let unit = 1 + match problem.aim {
            Aim::LeastLength => bought.length / shortest,
            Aim::FewestBars => bought.bars * longest,
        };
        let bar = |stock: &i64| match problem.aim {
            Aim::LeastLength => stock * unit + 1,
            Aim::FewestBars => unit + stock,
        };
        Self { aim: problem.aim, unit, bars: problem.stock.iter().map(bar).collect() }
    }

    const fn of(&self, bought: Bought) -> i64 {
        match self.aim {
            Aim::LeastLength => bought.length * self.unit + bought.bars,
            Aim::FewestBars => bought.bars * self.unit + bought.length,
        }
    }

    const fn bought(&self, cost: i64) -> Bought {
        let [first, second] = [cost / self.unit, cost % self.unit];
        match self.aim {
            Aim::LeastLength => Bought { length: first, bars: second },
            Aim::FewestBars => Bought { length: second, bars: first },
        }
    }

    /// The second aim of a bound that is no mix is not told beyond what follows from the first.
    fn telling(&self, problem: &Problem, bound: i64) -> i64 {
        let shortest = problem.stock.first().copied().unwrap_or(1);
        let longest = problem.stock.last().copied().unwrap_or(1);
        let [first, second] = [bound / self.unit, bound % self.unit];
        let follows = match self.aim {
            Aim::LeastLength => (first + longest - 1) / longest,
            Aim::FewestBars => first * shortest,
        };
        first * self.unit + second.min(follows)
    }

    fn of_mix(&self, mix: &[i64]) -> i64 {
        self.bars.iter().zip(mix).map(|(cost, bars)| cost * bars).sum()
    }
}

/// The best plan so far.
struct Best {
    taken: Vec<Vec<u32>>,
    bars: Vec<Bars>,
    bought: Bought,
    cost: i64,
}

struct Search<'a> {
    problem: &'a Problem,
    demands: Vec<Demand>,
    costs: Costs,
    best: Best,
    /// No plan costs less.
    bound: i64,
    effort: Effort,
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem, steps: u64) -> Self {
        let lists = PriceList::plain(problem).into_iter();
        let demands = lists.map(|list| Demand::of(problem, list)).collect();
        let taken: Vec<Vec<u32>> = problem.groups.iter().map(first_way).collect();
        let mut effort = Effort::of(steps);
        let bars = packed(problem, problem.count(&taken), Thumb::Fullest, &mut effort);
        let bought = problem.bought(&bars);
        let costs = Costs::new(problem, bought);
        let best = Best { cost: costs.of(bought), taken, bars, bought };
        Self { problem, demands, costs, best, bound: 0, effort }
    }

    fn run(&mut self) {
        self.raise_bound(&[]);
        if self.open() {
            let taken = self.best.taken.clone();
            let bars =
                packed(self.problem, self.problem.count(&taken), Thumb::Longest, &mut self.effort);
            self.offer(taken, bars);
        }
        if self.open() {
            self.by_relaxation();
        }
    }

    /// Something better than the best plan is not ruled out.
    const fn open(&self) -> bool {
        self.bound < self.best.cost
    }

    /// The cheapest mix that nothing refuses, of those not set aside; when none was, no plan costs
    /// less, and the bound goes up to its cost. Of very many stock lengths a cheap mix will do.
    fn raise_bound(&mut self, aside: &[Vec<i64>]) -> Option<Vec<i64>> {
        let below = self.best.cost;
        let mut share = self.effort.share(8);
        let found = cheapest(&self.demands, &self.costs.bars, below, aside, &mut share);
        self.effort.give_back(&share);
        let (bound, mix) = match found {
            Cheapest::Mix(mix) => (self.costs.of_mix(&mix), Some(mix)),
            Cheapest::None => (below, None),
            Cheapest::Unknown(mix) => {
                let each = |demand: &Demand| demand.cost(&self.costs.bars);
                let sharpest = self.demands.iter().map(each).max().unwrap_or(0).min(below);
                (self.costs.telling(self.problem, sharpest), mix)
            }
        };
        if aside.is_empty() {
            self.bound = self.bound.max(bound);
        }
        mix
    }

    /// Mix after mix, cheapest first: refused by new prices, or made into a plan.
    fn by_relaxation(&mut self) {
        let mut relaxation = Relaxation::new(self.problem, &self.best.taken, &self.best.bars);
        let mut aside = Vec::new();
        while let Some(mix) = self.raise_bound(&aside) {
            let verdict = relaxation.at(&Left::all(self.problem, &mix), &mut self.effort);
            let plan = match verdict {
                Verdict::Affords => {
                    // What is left over is for the mixes after it.
                    let rest = self.effort.share(4);
                    let (costs, effort) = (&self.costs, &mut self.effort);
                    let plan = rounded(self.problem, costs, &mut relaxation, &mix, effort);
                    self.effort.give_back(&rest);
                    aside.push(mix);
                    plan
                }
                Verdict::Refuses(list) => {
                    self.demands.push(Demand::of(self.problem, list));
                    at_once(self.problem, &self.costs, &relaxation, &mut self.effort)
                }
                Verdict::Undecided => {
                    aside.push(mix);
                    at_once(self.problem, &self.costs, &relaxation, &mut self.effort)
                }
            };
            if let Some(plan) = plan {
                self.offer(plan.taken, plan.bars);
            }
            if !self.effort.spend(1) {
                break;
            }
        }
        // Later prices may refuse what was set aside.
        if self.open() {
            self.raise_bound(&[]);
        }
    }

    /// Takes a plan if it is better than the best so far.
    fn offer(&mut self, taken: Vec<Vec<u32>>, bars: Vec<Bars>) {
        let bought = self.problem.bought(&bars);
        let cost = self.costs.of(bought);
        if cost < self.best.cost {
            self.best = Best { taken, bars, bought, cost };
        }
    }
}

/// All copies of a group in its first way.
fn first_way(group: &Group) -> Vec<u32> {
    let mut taken = vec![0; group.ways.len()];
    taken.iter_mut().take(1).for_each(|first| *first = group.copies);
    taken
}
