//! The first questions to a choice of hooks: a few combinations that are likely to refuse it, asked
//! as its hooks are taken from left to right.
//!
//! Everything here may only refuse, of a left part with all that could follow it, of a pair of
//! neighbours, or of a whole choice; what it lets pass is weighed in full by [`Segment::weigh`].
//!
//! **Checked by** `tests/properties` (exhaustive enumeration).

use crate::mechanics::beam::{
    self, Both, Chain, Meeting, Sag, Side, Strip, Superposition, Told, Units,
};
use crate::units::Force;

use super::bounds::{Borne, FAR, Ranges, SLACK};
use super::segment::{Limit, Segment};

/// Combinations asked before all others, carried along as hooks are taken from left to right.
const PROBES: usize = 2;

/// Left parts a combination may be asked about in vain before it is asked but one time in so many.
const PATIENCE: u32 = 16;

/// Hooks of a part that feel most of what it meets.
const NEAR: usize = 4;

/// A part of a choice as another sees it that meets it at its last hook.
pub type Part = beam::Part<PROBES>;

/// A left part of a choice of hooks under the combinations that are most likely to refuse it.
#[derive(Debug, Clone)]
pub struct Probe<'a> {
    segment: &'a Segment,
    cases: [usize; PROBES],
    /// Sum of the loads of each.
    total: [Both; PROBES],
    subset: Vec<usize>,
    chain: Chain<'a, PROBES>,
    /// How often each was asked in vain since it last refuted a left part.
    in_vain: [u32; PROBES],
    /// What hooks bear within a bound, kept as long as the bound stays.
    borne: Option<(f64, [Borne; PROBES])>,
}

impl<'a> Probe<'a> {
    /// No hook yet; `None` of a segment without combinations.
    #[must_use]
    pub fn new(segment: &'a Segment) -> Option<Self> {
        Some(Self::asking(segment, segment.likely_to_govern()?, Chain::new))
    }

    /// The same from right to left, under the same combinations: left and right change places in
    /// everything said of it.
    #[must_use]
    pub fn from_right(&self) -> Self {
        Self::asking(self.segment, self.cases, Chain::from_right)
    }

    fn asking(
        segment: &'a Segment,
        cases: [usize; PROBES],
        chain: fn([&'a Strip; 2], [[Superposition; 2]; PROBES]) -> Chain<'a, PROBES>,
    ) -> Self {
        let loads = cases.map(|case| [segment.cases[case].normal, segment.cases[case].slope]);
        let strips = [&segment.normal, &segment.slope];
        let total = |[normal, slope]: [Superposition; 2]| {
            Both([strips[0].total_load(&normal), strips[1].total_load(&slope)])
        };
        Self {
            segment,
            cases,
            total: loads.map(total),
            subset: Vec::with_capacity(segment.candidates.len()),
            chain: chain(strips, loads),
            in_vain: [0; PROBES],
            borne: None,
        }
    }

    /// Whether this asks other combinations than that.
    #[must_use]
    pub fn asks_others_than(&self, other: &Self) -> bool {
        self.cases != other.cases
    }

    /// The hooks taken as a part that may meet another at its last hook, the nearest of them only;
    /// `None` of a single hook, and of hooks that nothing can make stable.
    #[must_use]
    pub fn near_part(&self) -> Option<Part> {
        self.chain.part(NEAR, [false; PROBES])
    }

    /// The same with all hooks, and the rail between them.
    #[must_use]
    pub fn part(&self) -> Option<Part> {
        self.chain.part(self.subset.len(), self.cases.map(|case| self.is_service(case)))
    }

    /// Whether the choice made up of these two parts, which share their last hook, may pass: false
    /// where they surely do not in the combinations asked first.
    #[must_use]
    pub fn lets_meet(&self, left: &Part, right: &Part) -> bool {
        let Some(meeting) = Meeting::of(left, right, &self.total) else { return true };
        let Some((bound, borne)) = &self.borne else { return true };
        let allows = |load: usize, forces| borne[load].allows(Ranges::at(forces));
        let straight = |load: usize, part, side| {
            meeting[load].sags(part, load, side).all(|Sag { length, sag: [sag] }| {
                self.segment.sag_used(self.cases[load], length, sag) <= *bound
            })
        };
        // The hook they share feels both most.
        (0..PROBES).all(|load| allows(load, meeting[load].force))
            && [(left, Side::Left), (right, Side::Right)].iter().all(|(part, side)| {
                (0..PROBES).all(|load| {
                    let mut forces = meeting[load].forces(part, load, *side);
                    forces.all(|forces| allows(load, forces)) && straight(load, part, *side)
                })
            })
    }

    fn is_service(&self, case: usize) -> bool {
        matches!(self.segment.cases[case].limit, Limit::Service)
    }

    /// Gets ready to say what passes within a bound.
    pub fn stay_within(&mut self, bound: f64) {
        let known =
            self.borne.as_ref().is_some_and(|(known, _)| known.to_bits() == bound.to_bits());
        if !known && let Some(least) = &self.segment.least_foot {
            let borne = self.cases.map(|case| self.segment.borne(least, case, bound));
            self.borne = Some((bound, borne));
        }
    }

    /// The segment asked about.
    #[must_use]
    pub const fn segment(&self) -> &'a Segment {
        self.segment
    }

    /// The hooks taken.
    #[must_use]
    pub fn subset(&self) -> &[usize] {
        &self.subset
    }

    /// Takes the next hook to the right.
    pub fn push(&mut self, candidate: usize) {
        self.subset.push(candidate);
        self.chain.push(candidate);
    }

    /// Takes back the last hook.
    pub fn pop(&mut self) {
        self.subset.pop();
        self.chain.pop();
    }

    /// Takes back all but the first hooks.
    pub fn keep(&mut self, hooks: usize) {
        while self.subset.len() > hooks {
            self.pop();
        }
    }

    /// Takes these hooks instead of those taken, keeping what both begin with.
    pub fn take(&mut self, hooks: &[usize]) {
        let alike = self.subset.iter().zip(hooks).take_while(|(a, b)| a == b).count();
        self.keep(alike);
        for candidate in &hooks[alike..] {
            self.push(*candidate);
        }
    }

    /// Asks this combination first from now on: it refused what the others let pass.
    pub fn turn_to(&mut self, case: usize) {
        if self.cases.contains(&case) {
            return;
        }
        let mut cases = self.cases;
        cases.rotate_right(1);
        cases[0] = case;
        let subset = std::mem::take(&mut self.subset);
        *self = Self::asking(self.segment, cases, Chain::new);
        self.take(&subset);
    }

    /// Whether the hooks taken, and no others, may pass: false where they surely do not in the
    /// combinations asked first.
    #[must_use]
    pub fn passes(&mut self, bound: f64) -> bool {
        self.stay_within(bound);
        let sagging = self.cases.iter().any(|case| self.is_service(*case));
        let Some(told) = self.chain.close(sagging) else { return false };
        self.subset.iter().rev().zip(told).all(|(hook, Told { force, sags })| {
            (0..PROBES).all(|probe| {
                let case = self.cases[probe];
                let bears = || {
                    let forces = force[probe].0.map(Force::from_n);
                    self.segment.hook_used(*hook, case, forces) - SLACK <= bound
                };
                let allows = |borne: &Borne| borne.allows(Ranges::at(force[probe]));
                self.borne.as_ref().is_none_or(|(_, borne)| allows(&borne[probe]))
                    && bears()
                    && sags.iter().flatten().all(|Sag { length, sag }| {
                        self.segment.sag_used(case, *length, sag[probe]) <= bound
                    })
            })
        })
    }

    /// Which candidates can be neighbours, as far as the rail between them tells: by left and right
    /// one. Where the rail bends within its limit over both and in between, the load of the bay
    /// bends a simple beam no more than twice as much.
    #[must_use]
    pub fn spans(&self, bound: f64) -> Vec<bool> {
        let segment = self.segment;
        let n = segment.candidates.len();
        let mut spans = vec![true; n * n];
        let x = segment.normal.candidates();
        for (probe, case) in self.cases.iter().enumerate() {
            if let Limit::Service = segment.cases[*case].limit {
                continue;
            }
            for (strip, limit) in [segment.limits.normal, segment.limits.slope].iter().enumerate() {
                let most = 2.0 * (*limit * bound).nmm() * (1.0 + SLACK);
                let from_left = self.chain.moments_from_left(probe, strip);
                for a in 0..n {
                    for b in a + 2..n {
                        let middle = usize::midpoint(a, b);
                        let to = [x[middle] - x[a], x[b] - x[middle]];
                        let simple = (to[1] * from_left[a] + to[0] * from_left[b]) / (x[b] - x[a])
                            - from_left[middle];
                        if simple.abs() > most {
                            spans[a * n + b] = false;
                        }
                    }
                }
            }
        }
        spans
    }

    /// Whether no subset that starts with this one and adds at most `more` hooks to its right, and
    /// at least one, can stay within `bound`.
    ///
    /// The hooks left of the last one depend on everything to the right through two numbers, the
    /// force on the last hook and the moment in the rail over it ([`Units`]). Both have limits of
    /// their own, and every hook's own limits narrow them further; what is left of them gives each
    /// hook a range of forces. A hook none of whose range passes refutes. And what the hooks taken
    /// do not carry is left to those added, whose mean utilisation follows as in
    /// [`Segment::fewest_by_equilibrium`]; fewer of them would each carry more.
    #[must_use]
    pub fn refutes(&mut self, more: usize, bound: f64) -> bool {
        self.stay_within(bound);
        if self.chain.never_stable() {
            return true;
        }
        // Over a last hook that the rail left of it hangs from by a hinge alone, nothing is known of
        // the hooks before, and so nothing of what is left for those added.
        let Some(units) = self.chain.units() else { return false };
        let Some((_, borne)) = &self.borne else { return false };
        for (probe, borne) in borne.iter().enumerate() {
            // One that seldom refutes is asked seldom.
            self.in_vain[probe] += 1;
            if self.in_vain[probe] > PATIENCE && !self.in_vain[probe].is_multiple_of(PATIENCE) {
                continue;
            }
            if self.refutes_in(probe, &units, borne, more, bound) {
                self.in_vain[probe] = 0;
                return true;
            }
        }
        false
    }

    fn refutes_in(
        &self,
        probe: usize,
        units: &Units,
        borne: &Borne,
        more: usize,
        bound: f64,
    ) -> bool {
        let segment = self.segment;
        let case = self.cases[probe];
        let most = match segment.cases[case].limit {
            Limit::Strength => {
                Both([segment.limits.normal, segment.limits.slope].map(|m| (m * bound).nmm()))
            }
            Limit::Service => Both([FAR; 2]),
        };
        let certain = self.chain.influences(units, probe);
        let Some(at) = Unknown::narrowed(borne.own, most, units.near(&certain)) else {
            return true;
        };
        for by in units.near(&certain) {
            // What passes lies in the hook's own range too.
            let forces = at.force_by(&by).within(borne.own);
            if forces.is_empty() || !borne.allows(forces) {
                return true;
            }
        }
        if let Limit::Service = segment.cases[case].limit {
            let mut sags = self.chain.sags(units, &certain, probe);
            if sags.any(|part| {
                let least = at.force_by(&part.sag).nearest_to_zero();
                segment.sag_used(case, part.length, least) > bound
            }) {
                return true;
            }
        }
        let rest = at.left_of(self.total[probe], &units.sum(&certain));
        !borne.allows(rest.times(Both([1.0 / more as f64; 2])))
    }
}

impl Segment {
    /// The combination that uses hooks with equal shares of the loads most, and the next one,
    /// of the other sense if there is one.
    fn likely_to_govern(&self) -> Option<[usize; PROBES]> {
        let foot = self.candidates.first().map(|first| &*first.foot)?;
        let used: Vec<f64> = (0..self.cases.len())
            .map(|case| self.used_on_equal_shares(case, foot, self.candidates.len()))
            .collect();
        let lifts = |case: usize| self.normal.total_load(&self.cases[case].normal) < 0.0;
        let most_used = |among: &dyn Fn(usize) -> bool| {
            let among = (0..used.len()).filter(|case| among(*case));
            among.reduce(|most, case| if used[case] > used[most] { case } else { most })
        };
        let first = most_used(&|_| true)?;
        let other = most_used(&|case| lifts(case) != lifts(first));
        let second = other.or_else(|| most_used(&|case| case != first)).unwrap_or(first);
        Some([first, second])
    }
}

/// The two numbers through which the rest of the beam acts: force on the last hook, moment there.
#[derive(Debug, Clone, Copy)]
struct Unknown {
    force: Ranges,
    moment: Ranges,
}

impl Unknown {
    /// Narrows both by what every hook to the left can bear; `None` when nothing is left.
    fn narrowed(own: Ranges, most: Both, near: impl Iterator<Item = [Both; 3]>) -> Option<Self> {
        // Farther hooks hardly feel the last one: they narrow nothing worth the time.
        const NEAREST: usize = 2;
        let mut at = Self { force: own, moment: Ranges { low: -most, high: most } };
        for [certain, by_force, by_moment] in near.take(NEAREST) {
            let borne = own.less(Ranges::at(certain));
            at.moment = at.moment.within(solved(borne, at.force.times(by_force), by_moment));
            at.force = at.force.within(solved(borne, at.moment.times(by_moment), by_force));
        }
        (!at.force.is_empty() && !at.moment.is_empty()).then_some(at)
    }

    /// What of a total is left to the hooks right of the last one, when `sum` of it is taken by
    /// those left of it: force and moment at the last count in both, and only once.
    fn left_of(&self, total: Both, [certain, by_force, by_moment]: &[Both; 3]) -> Ranges {
        self.force_by(&[total - *certain, Both([-1.0; 2]) - *by_force, -*by_moment])
    }

    fn force_by(&self, [certain, by_force, by_moment]: &[Both; 3]) -> Ranges {
        Ranges::at(*certain).plus(self.force.times(*by_force)).plus(self.moment.times(*by_moment))
    }
}

/// Ranges of `x` for which `other + factor · x` can lie in `borne`.
fn solved(borne: Ranges, other: Ranges, factor: Both) -> Ranges {
    // Where the influence has died away it narrows nothing.
    let died = |factor: f64| factor.abs() < 1e-9;
    let within = borne.less(other).times(factor.map(|f| if died(f) { 0.0 } else { 1.0 / f }));
    let beyond = factor.map(|f| if died(f) { FAR } else { 0.0 });
    Ranges { low: within.low - beyond, high: within.high + beyond }
}
