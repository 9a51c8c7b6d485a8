//! The first questions to a choice of hooks: a few combinations that are likely to refuse it, asked
//! as its hooks are taken from left to right.
//!
//! Everything here may only refuse, of a left part with all that could follow it, of a pair of
//! neighbours, or of a whole choice; what it lets pass is weighed in full by [`Segment::within`].
//!
//! **Checked by** `tests/properties` (exhaustive enumeration).

use std::sync::Arc;

use crate::mechanics::beam::{
    self, Both, Chain, Lanes, Meeting, Sag, Side, Strip, Superposition, Told, Units,
};

use super::boundary::{Acting, Linear, Unknown};
use super::bounds::{Borne, Ranges, SLACK};
use super::foot::FootModel;
use super::screening::PROBES;
use super::segment::{Candidate, Limit, Segment};

/// Left parts a combination may be asked about in vain before it is asked but one time in so many.
const PATIENCE: u32 = 16;

/// A part of a choice as another sees it that meets it at its last hook.
pub type Part = beam::Part<PROBES>;

/// A left part of a choice of hooks under the combinations that are most likely to refuse it.
#[derive(Debug, Clone)]
pub struct Probe<'a> {
    pub(super) segment: &'a Segment,
    pub(super) cases: [usize; PROBES],
    /// Sum of the loads of each.
    pub(super) total: [Both; PROBES],
    subset: Vec<usize>,
    chain: Chain<'a, PROBES>,
    /// How often each was asked in vain since it last refuted a left part.
    in_vain: [u32; PROBES],
    /// Of each candidate, which of the hooks set alike it is.
    alike: Vec<usize>,
    /// What hooks bear within a bound, kept as long as the bound stays.
    pub(super) bearing: Option<Bearing>,
}

/// What hooks bear within a bound under each combination.
#[derive(Debug, Clone)]
pub(super) struct Bearing {
    pub(super) bound: f64,
    /// Of hooks set alike.
    hooks: Vec<[Borne; PROBES]>,
    /// At least, wherever they stand; only where all are set alike.
    pub(super) least: Option<[Borne; PROBES]>,
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
        let strips = [&segment.normal, segment.walked()];
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
            alike: segment.set_alike(),
            bearing: None,
        }
    }

    /// Whether this asks other combinations than that.
    #[must_use]
    pub fn asks_others_than(&self, other: &Self) -> bool {
        self.cases != other.cases
    }

    /// The hooks taken as a part that may meet another at its last hook; `None` of a single hook, and
    /// of hooks that nothing can make stable.
    #[must_use]
    pub fn part(&self) -> Option<Part> {
        self.chain.part(self.cases.map(|case| self.is_service(case)))
    }

    /// Whether the choice made up of these two parts, which share the last hook taken, may pass: false
    /// where they surely do not in the combinations asked first.
    #[must_use]
    pub fn lets_meet(&self, left: &Part, right: &Part) -> bool {
        let (Some(bearing), Some(shared)) = (&self.bearing, self.subset.last()) else {
            return true;
        };
        let Some(meeting) = Meeting::of(left, right, &self.total) else { return true };
        let bears =
            |load: usize, (hook, force)| self.bears(bearing, hook)[load].allows(Ranges::at(force));
        let straight = |load: usize, part, side| {
            meeting[load].sags(part, load, side).all(|Sag { length, sag: [sag] }| {
                self.segment.sag_used(self.cases[load], length, sag) <= bearing.bound
            })
        };
        // The hook they share feels both most, and the hooks next to it.
        (0..PROBES).all(|load| bears(load, (*shared, meeting[load].force)))
            && [(left, Side::Left), (right, Side::Right)].iter().all(|(part, side)| {
                (0..PROBES).all(|load| {
                    let mut forces = meeting[load].forces(part, load, *side);
                    forces.next().is_none_or(|nearest| bears(load, nearest))
                        && straight(load, part, *side)
                        && forces.all(|force| bears(load, force))
                })
            })
    }

    /// What the hook on a candidate bears.
    pub(super) fn bears<'b>(&self, bearing: &'b Bearing, candidate: usize) -> &'b [Borne; PROBES] {
        &bearing.hooks[self.alike[candidate]]
    }

    pub(super) fn is_service(&self, case: usize) -> bool {
        matches!(self.segment.cases[case].limit, Limit::Service)
    }

    /// Gets ready to say what passes within a bound.
    pub fn stay_within(&mut self, bound: f64) {
        if self.bearing.as_ref().is_some_and(|known| known.bound.to_bits() == bound.to_bits()) {
            return;
        }
        let segment = self.segment;
        let on = |foot: &FootModel, setting: usize| {
            self.cases.map(|case| segment.borne(foot, setting, case, bound))
        };
        let mut hooks = Vec::new();
        for (candidate, alike) in segment.candidates.iter().zip(&self.alike) {
            if *alike == hooks.len() {
                hooks.push(on(&candidate.foot, candidate.setting));
            }
        }
        let least = segment.least_foot.as_ref().zip(segment.candidates.first());
        let least = least.map(|(foot, first)| on(foot, first.setting));
        self.bearing = Some(Bearing { bound, hooks, least });
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

    /// Asks this combination first from now on: it refused what the others let pass. Whether that is
    /// new.
    pub fn turn_to(&mut self, case: usize) -> bool {
        if self.cases.contains(&case) {
            return false;
        }
        let mut cases = self.cases;
        cases[1] = case;
        let subset = std::mem::take(&mut self.subset);
        *self = Self::asking(self.segment, cases, Chain::new);
        self.take(&subset);
        true
    }

    /// Whether the hooks taken, and no others, may pass: false where they surely do not in the
    /// combinations asked first.
    #[must_use]
    pub fn passes(&mut self, bound: f64) -> bool {
        self.stay_within(bound);
        let sagging = self.cases.iter().any(|case| self.is_service(*case));
        let Some(told) = self.chain.close(sagging) else { return false };
        let Some(bearing) = &self.bearing else { return true };
        self.subset.iter().rev().zip(told).all(|(hook, Told { force, sags })| {
            (0..PROBES).all(|probe| {
                self.bears(bearing, *hook)[probe].allows(Ranges::at(force[probe]))
                    && sags.iter().flatten().all(|Sag { length, sag }| {
                        self.segment.sag_used(self.cases[probe], *length, sag[probe]) <= bound
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
        for a in 0..n {
            for b in a + 1..n {
                spans[a * n + b] = segment.are_apart(&[a, b]);
            }
        }
        for (probe, case) in self.cases.iter().enumerate() {
            if let Limit::Service = segment.cases[*case].limit {
                continue;
            }
            for (strip, limit) in
                [segment.limits.bending.normal, segment.limits.bending.slope].iter().enumerate()
            {
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
    pub fn refutes(&mut self, more: usize, bound: f64, acting: Option<&Acting>) -> bool {
        self.stay_within(bound);
        if self.chain.never_stable() {
            return true;
        }
        // Over a last hook that the rail left of it hangs from by a hinge alone, nothing is known of
        // the hooks before, and so nothing of what is left for those added.
        let Some(units) = self.chain.units() else { return false };
        for probe in 0..PROBES {
            // One that seldom refutes is asked seldom.
            self.in_vain[probe] += 1;
            if self.in_vain[probe] > PATIENCE && !self.in_vain[probe].is_multiple_of(PATIENCE) {
                continue;
            }
            if self.refutes_in(probe, &units, more, acting) {
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
        more: usize,
        acting: Option<&Acting>,
    ) -> bool {
        let (Some(bearing), Some((last, before))) = (&self.bearing, self.subset.split_last())
        else {
            return false;
        };
        let (segment, case) = (self.segment, self.cases[probe]);
        let certain = self.chain.influences(units, probe);
        let rest = Unknown::left_of(Ranges::at(self.total[probe]), &units.sum(&certain).into());
        let borne = &self.bears(bearing, *last)[probe];
        let mut unknown = Unknown { force: borne.own, moment: borne.moment };
        if let Some(acting) = acting {
            let beyond = self.chain.on_free_ends(*last)[1][probe][0];
            unknown = unknown.acted_on(acting.under(probe), beyond, &rest);
        }
        let near = || {
            let hooks = before.iter().rev().map(|hook| &self.bears(bearing, *hook)[probe]);
            units.near(&certain).map(Linear::from).zip(hooks)
        };
        let Some(at) = unknown.narrowed(near().map(|(by, borne)| (by, borne.own))) else {
            return true;
        };
        if (acting.is_some() && !borne.may_bear(at.force))
            || !near().all(|(by, borne)| borne.may_bear(at.of(&by)))
        {
            return true;
        }
        if self.is_service(case) {
            let bays = self.chain.sags(units, &certain, probe);
            let mut sags = bays.chain(self.chain.end_sag(units, &certain, probe));
            if sags.any(|Sag { length, sag }| {
                segment.sag_used(case, length, at.of(&sag.into()).nearest_to_zero()) > bearing.bound
            }) {
                return true;
            }
        }
        let share = at.of(&rest).times(Both::splat(1.0 / more.max(1) as f64));
        let least = bearing.least.as_ref().filter(|_| more > 0);
        least.is_some_and(|least| !least[probe].allows(share))
    }
}

impl Segment {
    /// Of each candidate, which of the hooks set alike it is, by their first.
    fn set_alike(&self) -> Vec<usize> {
        let mut first: Vec<&Candidate> = Vec::new();
        let alike = |a: &Candidate, b: &Candidate| {
            a.setting == b.setting && (Arc::ptr_eq(&a.foot, &b.foot) || a.foot == b.foot)
        };
        let place = |candidate| {
            first.iter().position(|first| alike(first, candidate)).unwrap_or_else(|| {
                first.push(candidate);
                first.len() - 1
            })
        };
        self.candidates.iter().map(place).collect()
    }
}
