//! From fractions to whole bars: a plan on a given mix.
//!
//! **Method.** A fraction is rounded up and fixed, and the [relaxation](super::relaxation) is asked
//! about the rest; where it refuses, the fraction is rounded down instead. Departures of the second
//! kind are rationed: none at first, then one, then two … in the whole of a plan. What is rounded
//! first, and whether what comes out whole is fixed at once, is varied: a mix without slack leaves
//! few plans, and not every road leads to one. At every stage the whole times are taken as they
//! are and the rest is packed by [rule of thumb](super::thumb): often that is a plan already, and
//! when the effort is spent it is what there is.
//!
//! **Left out.** Proof that a mix that the relaxation affords has no plan; then none is found.

use super::relaxation::{Left, Part, Relaxation, Verdict};
use super::thumb::{Thumb, packed};
use super::{Bars, Costs, Effort, Problem};

/// Less than this is rounding.
const FRACTION: f64 = 1e-4;
/// Most fractions rounded down.
const DEPARTURES: usize = 6;

/// A plan: copies by group and way, and bars.
pub(super) struct Rounded {
    pub(super) taken: Vec<Vec<u32>>,
    pub(super) bars: Vec<Bars>,
    pub(super) cost: i64,
}

/// Which fraction is rounded first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum First {
    /// The largest.
    Largest,
    /// The largest of a way; those of bars when all copies have theirs.
    Ways,
    /// The largest of a bar.
    Bars,
}

/// What is done with columns that come out whole while others do not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Wholes {
    /// They are fixed: soon done.
    Fixed,
    /// They may still change.
    Free,
}

/// What is tried, the soonest done first.
const ROADS: [(First, Wholes); 5] = [
    (First::Largest, Wholes::Fixed),
    (First::Ways, Wholes::Fixed),
    (First::Largest, Wholes::Free),
    (First::Ways, Wholes::Free),
    (First::Bars, Wholes::Free),
];

/// The best plan that is found on the way to one for this mix.
pub(super) fn rounded(
    problem: &Problem,
    costs: &Costs,
    relaxation: &mut Relaxation<'_>,
    mix: &[i64],
    effort: &mut Effort,
) -> Option<Rounded> {
    let target = costs.of_mix(mix);
    let mut best = None;
    for departures in 0..=DEPARTURES {
        for (first, wholes) in ROADS {
            let left = Left::all(problem, mix);
            let fixed = Vec::new();
            let mut road = Road { problem, costs, target, first, wholes, left, fixed, best };
            if road.go(relaxation, departures, effort) || !effort.spend(1) {
                return road.best;
            }
            best = road.best;
        }
    }
    best
}

/// The plan that a rule of thumb makes of the fractions as they are, whatever they are worth.
pub(super) fn at_once(
    problem: &Problem,
    costs: &Costs,
    relaxation: &Relaxation<'_>,
    effort: &mut Effort,
) -> Option<Rounded> {
    let left = Left::all(problem, &vec![0; problem.stock.len()]);
    let (first, wholes) = ROADS[0];
    let mut road =
        Road { problem, costs, target: 0, first, wholes, left, fixed: Vec::new(), best: None };
    let values = relaxation.values();
    road.fix_wholes(relaxation, &values);
    road.finish(relaxation, &values, effort);
    road.best
}

/// Part of a plan, and how to go on.
struct Road<'a> {
    problem: &'a Problem,
    costs: &'a Costs,
    target: i64,
    first: First,
    wholes: Wholes,
    left: Left,
    /// Columns and how often.
    fixed: Vec<(usize, u32)>,
    best: Option<Rounded>,
}

impl Road<'_> {
    /// Fixes column after column until nothing is left; whether that led to a plan for the mix.
    fn go(
        &mut self,
        relaxation: &mut Relaxation<'_>,
        departures: usize,
        effort: &mut Effort,
    ) -> bool {
        if !matches!(relaxation.at(&self.left, effort), Verdict::Affords) {
            return false;
        }
        let values = relaxation.values();
        let before = self.fixed.len();
        self.fix_wholes(relaxation, &values);
        if self.finish(relaxation, &values, effort) {
            return true;
        }
        if self.wholes == Wholes::Free {
            self.unfix(relaxation, before);
        }
        let found = match self.fraction(relaxation, &values) {
            Some((column, value)) => self.branch(relaxation, (column, value), departures, effort),
            None => false,
        };
        self.unfix(relaxation, before);
        found
    }

    /// Rounds up, and where that leads nowhere down.
    fn branch(
        &mut self,
        relaxation: &mut Relaxation<'_>,
        (column, value): (usize, f64),
        departures: usize,
        effort: &mut Effort,
    ) -> bool {
        let before = self.fixed.len();
        let below = match self.wholes {
            Wholes::Fixed => 0,
            Wholes::Free => whole(value),
        };
        self.fix(relaxation, column, below + 1);
        if self.go(relaxation, departures, effort) {
            return true;
        }
        self.unfix(relaxation, before);
        if departures == 0 || !effort.spend(1) {
            return false;
        }
        self.fix(relaxation, column, below);
        relaxation.forbid(column);
        let found = self.go(relaxation, departures - 1, effort);
        relaxation.allow(column);
        self.unfix(relaxation, before);
        found
    }

    /// The fraction that is rounded next.
    fn fraction(
        &self,
        relaxation: &Relaxation<'_>,
        values: &[(usize, f64)],
    ) -> Option<(usize, f64)> {
        let late = |column: usize| match (self.first, relaxation.part(column)) {
            (First::Ways, Part::Bar { .. }) | (First::Bars, Part::Way { .. }) => 1,
            _ => 0,
        };
        values
            .iter()
            .map(|(column, value)| (late(*column), fraction(*value), *column, *value))
            .filter(|(_, fraction, ..)| *fraction > FRACTION)
            .min_by(|a, b| a.0.cmp(&b.0).then(b.1.total_cmp(&a.1)).then(a.2.cmp(&b.2)))
            .map(|(_, _, column, value)| (column, value))
    }

    fn fix_wholes(&mut self, relaxation: &Relaxation<'_>, values: &[(usize, f64)]) {
        for (column, value) in values {
            self.fix(relaxation, *column, whole(*value));
        }
    }

    /// Fixes a column; a way no more often than there are copies.
    fn fix(&mut self, relaxation: &Relaxation<'_>, column: usize, times: u32) {
        let part = relaxation.part(column);
        let most = match part {
            Part::Way { group, .. } => u32::try_from(self.left.copies[*group]).unwrap_or(0),
            Part::Bar { .. } | Part::Spare => times,
        };
        let times = times.min(most);
        if times > 0 {
            self.change(part, i64::from(times));
            self.fixed.push((column, times));
        }
    }

    /// Takes back what was fixed after the first so many.
    fn unfix(&mut self, relaxation: &Relaxation<'_>, before: usize) {
        for (column, times) in self.fixed.split_off(before) {
            self.change(relaxation.part(column), -i64::from(times));
        }
    }

    fn change(&mut self, part: &Part, times: i64) {
        match part {
            Part::Way { group, way } => {
                self.left.copies[*group] -= times;
                for piece in &self.problem.groups[*group].ways[*way] {
                    self.left.pieces[*piece] += times;
                }
            }
            Part::Bar { stock, pieces } => {
                self.left.mix[*stock] -= times;
                for piece in pieces {
                    self.left.pieces[*piece] -= times;
                }
            }
            Part::Spare => {}
        }
    }

    /// Finishes what is fixed by rule of thumb; whether the plan costs no more than the mix.
    fn finish(
        &mut self,
        relaxation: &Relaxation<'_>,
        values: &[(usize, f64)],
        effort: &mut Effort,
    ) -> bool {
        let before = self.fixed.len();
        let mut ways: Vec<(f64, usize)> =
            values.iter().map(|(column, value)| (fraction(*value), *column)).collect();
        ways.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        for (_, column) in ways {
            if matches!(relaxation.part(column), Part::Way { .. }) {
                self.fix(relaxation, column, 1);
            }
        }
        let taken = self.taken(relaxation);
        let bars = self.bars(relaxation, &taken, effort);
        self.unfix(relaxation, before);
        let cost = self.costs.of(self.problem.bought(&bars));
        if self.best.as_ref().is_none_or(|best| cost < best.cost) {
            self.best = Some(Rounded { taken, bars, cost });
        }
        cost <= self.target
    }

    /// The ways that are fixed; what has none yet takes the first.
    fn taken(&self, relaxation: &Relaxation<'_>) -> Vec<Vec<u32>> {
        let mut taken: Vec<Vec<u32>> =
            self.problem.groups.iter().map(|group| vec![0; group.ways.len()]).collect();
        for (column, times) in &self.fixed {
            if let Part::Way { group, way } = relaxation.part(*column) {
                taken[*group][*way] += times;
            }
        }
        for (taken, left) in taken.iter_mut().zip(&self.left.copies) {
            taken[0] += u32::try_from(*left).unwrap_or(0);
        }
        taken
    }

    /// Bars for these ways: those that are fixed, without pieces nobody needs, and as many more as
    /// are wanted.
    fn bars(
        &self,
        relaxation: &Relaxation<'_>,
        taken: &[Vec<u32>],
        effort: &mut Effort,
    ) -> Vec<Bars> {
        let mut bars: Vec<Bars> = Vec::new();
        // Every piece that is cut: its length, and the bar it is from.
        let mut cut: Vec<(usize, usize)> = Vec::new();
        for (column, times) in &self.fixed {
            if let Part::Bar { stock, pieces } = relaxation.part(*column) {
                for _ in 0..*times {
                    cut.extend(pieces.iter().map(|piece| (*piece, bars.len())));
                    bars.push(Bars { times: 1, stock: *stock, pieces: Vec::new() });
                }
            }
        }
        cut.sort_unstable();
        let mut cut = cut.into_iter().peekable();
        let mut waiting = Vec::new();
        let mut wanted = self.problem.count(taken);
        for (piece, wanted) in wanted.iter_mut().enumerate() {
            // A piece may be cut down to a shorter one.
            while let Some((_, bar)) = cut.next_if(|(longer, _)| *longer <= piece) {
                waiting.push(bar);
            }
            while *wanted > 0
                && let Some(bar) = waiting.pop()
            {
                bars[bar].pieces.push(piece);
                *wanted -= 1;
            }
        }
        bars.retain(|bar| !bar.pieces.is_empty());
        bars.extend(packed(self.problem, wanted, Thumb::Fullest, effort));
        bars.sort_by(|a, b| (a.stock, &a.pieces).cmp(&(b.stock, &b.pieces)));
        bars.dedup_by(|bar, before| {
            let alike = bar.stock == before.stock && bar.pieces == before.pieces;
            before.times += if alike { bar.times } else { 0 };
            alike
        });
        bars
    }
}

/// How often a column is taken wholly.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count")]
fn whole(value: f64) -> u32 {
    (value + FRACTION) as u32
}

fn fraction(value: f64) -> f64 {
    value - f64::from(whole(value))
}
