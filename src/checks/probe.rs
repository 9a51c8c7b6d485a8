//! The first questions to a choice of hooks: a few combinations that are likely to refuse it, asked
//! as its hooks are taken from left to right.
//!
//! Everything here may only refuse, of a left part with all that could follow it, of a pair of
//! neighbours, or of a whole choice; what it lets pass is weighed in full by [`Segment::weigh`].
//!
//! **Checked by** `tests/properties` (exhaustive enumeration).

use crate::mechanics::beam::{Chain, LeftPart, Sag, Told, Units};
use crate::units::Force;

use super::bounds::{Range, SLACK};
use super::foot::FootModel;
use super::segment::{Limit, Segment};

/// Combinations asked before all others, carried along as hooks are taken from left to right.
const PROBES: usize = 2;

/// Left parts a combination may be asked about in vain before it is asked but one time in so many.
const PATIENCE: u32 = 16;

/// A left part of a choice of hooks under the combinations that are most likely to refuse it.
#[derive(Debug, Clone)]
pub struct Probe<'a> {
    segment: &'a Segment,
    cases: [usize; PROBES],
    subset: Vec<usize>,
    normal: Chain<'a, PROBES>,
    slope: Chain<'a, PROBES>,
    /// How often each was asked in vain since it last refuted a left part.
    in_vain: [u32; PROBES],
    /// What single hooks can bear within a bound, kept as long as the bound stays.
    borne: Option<(f64, [[Range; 2]; PROBES])>,
}

impl<'a> Probe<'a> {
    /// No hook yet; `None` of a segment without combinations.
    #[must_use]
    pub fn new(segment: &'a Segment) -> Option<Self> {
        let cases = segment.likely_to_govern()?;
        let chains = segment.chains(cases);
        Some(Self {
            segment,
            cases,
            subset: Vec::with_capacity(segment.candidates.len()),
            normal: chains.0,
            slope: chains.1,
            in_vain: [0; PROBES],
            borne: None,
        })
    }

    /// The hooks taken.
    #[must_use]
    pub fn subset(&self) -> &[usize] {
        &self.subset
    }

    /// Takes the next hook to the right.
    pub fn push(&mut self, candidate: usize) {
        self.subset.push(candidate);
        self.normal.push(candidate);
        self.slope.push(candidate);
    }

    /// Takes back the last hook.
    pub fn pop(&mut self) {
        self.subset.pop();
        self.normal.pop();
        self.slope.pop();
    }

    /// Takes these hooks instead of those taken, keeping what both begin with.
    pub fn take(&mut self, hooks: &[usize]) {
        let alike = self.subset.iter().zip(hooks).take_while(|(a, b)| a == b).count();
        while self.subset.len() > alike {
            self.pop();
        }
        for candidate in &hooks[alike..] {
            self.push(*candidate);
        }
    }

    /// Asks this combination first from now on: it refused what the others let pass.
    pub fn turn_to(&mut self, case: usize) {
        if self.cases.contains(&case) {
            return;
        }
        self.cases.rotate_right(1);
        self.cases[0] = case;
        self.in_vain = [0; PROBES];
        self.borne = None;
        (self.normal, self.slope) = self.segment.chains(self.cases);
        for candidate in &self.subset {
            self.normal.push(*candidate);
            self.slope.push(*candidate);
        }
    }

    /// Whether the hooks taken, and no others, may pass: false where they surely do not in the
    /// combinations asked first.
    #[must_use]
    pub fn passes(&self, bound: f64) -> bool {
        let (Some(normal), Some(slope)) = (self.normal.close(), self.slope.close()) else {
            return false;
        };
        let hooks = self.subset.iter().rev();
        hooks.zip(normal.zip(slope)).all(|(hook, (normal, slope))| {
            (0..PROBES).all(|probe| {
                let forces = [normal.force[probe], slope.force[probe]].map(Force::from_n);
                let straight = |told: &Told<PROBES>| {
                    told.sags.iter().flatten().all(|Sag { length, sag }| {
                        self.segment.sag_used(self.cases[probe], *length, sag[probe]) <= bound
                    })
                };
                self.segment.hook_used(*hook, self.cases[probe], forces) - SLACK <= bound
                    && straight(&normal)
                    && straight(&slope)
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
            let strips =
                [(&self.normal, segment.limits.normal), (&self.slope, segment.limits.slope)];
            for (chain, limit) in strips {
                let most = 2.0 * (limit * bound).nmm() * (1.0 + SLACK);
                let from_left = chain.moments_from_left(probe);
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
    /// force on the last hook and the moment in the rail over it ([`Chain::influences`]). Both have
    /// limits of their own, and every hook's own limits narrow them further; what is left of them
    /// gives each hook a range of forces. A hook none of whose range passes refutes. And what the
    /// hooks taken do not carry is left to those added, whose mean utilisation follows as in
    /// [`Segment::fewest_by_equilibrium`]; fewer of them would each carry more.
    #[must_use]
    pub fn refutes(&mut self, more: usize, bound: f64) -> bool {
        let Some(least) = &self.segment.least_foot else { return false };
        let (units_n, units_s) = match (self.normal.left_part(), self.slope.left_part()) {
            (LeftPart::Stands(n), LeftPart::Stands(s)) => (n, s),
            (LeftPart::NeverStable, _) | (_, LeftPart::NeverStable) => return true,
            // Over a last hook that the rail left of it hangs from by a hinge alone, nothing is
            // known of the hooks before, and so nothing of what is left for those added.
            (LeftPart::Hangs, _) | (_, LeftPart::Hangs) => return false,
        };
        let own = self.borne(least, bound);
        (0..PROBES).any(|probe| {
            // One that seldom refutes is asked seldom.
            self.in_vain[probe] += 1;
            if self.in_vain[probe] > PATIENCE && !self.in_vain[probe].is_multiple_of(PATIENCE) {
                return false;
            }
            let refuted = self.refutes_in(probe, [&units_n, &units_s], own[probe], more, bound);
            if refuted {
                self.in_vain[probe] = 0;
            }
            refuted
        })
    }

    fn borne(&mut self, least: &FootModel, bound: f64) -> [[Range; 2]; PROBES] {
        match self.borne {
            Some((known, ranges)) if known.to_bits() == bound.to_bits() => ranges,
            _ => {
                let ranges = self.cases.map(|case| self.segment.own_ranges(least, case, bound));
                self.borne = Some((bound, ranges));
                ranges
            }
        }
    }

    fn refutes_in(
        &self,
        probe: usize,
        [units_n, units_s]: [&Units; 2],
        [own_n, own_s]: [Range; 2],
        more: usize,
        bound: f64,
    ) -> bool {
        let segment = self.segment;
        let case = self.cases[probe];
        let Some(least) = &segment.least_foot else { return false };
        let most = [segment.limits.normal, segment.limits.slope].map(|limit| {
            match segment.cases[case].limit {
                Limit::Strength => (limit * bound).nmm(),
                Limit::Service => f64::INFINITY,
            }
        });
        let left_n = self.normal.influences(units_n, probe);
        let Some(at_n) = Unknown::narrowed(own_n, most[0], left_n.near()) else { return true };
        let left_s = self.slope.influences(units_s, probe);
        let Some(at_s) = Unknown::narrowed(own_s, most[1], left_s.near()) else { return true };
        let influences = left_n.near().iter().zip(left_s.near());
        for (candidate, (by_n, by_s)) in self.subset.iter().rev().skip(1).zip(influences) {
            // What passes lies in the hook's own range too.
            let n = at_n.force_by(by_n).within(own_n);
            let s = at_s.force_by(by_s).within(own_s);
            if n.is_empty() || s.is_empty() {
                return true;
            }
            let foot = &segment.candidates[*candidate].foot;
            if segment.least_used(foot, case, n, s) > bound {
                return true;
            }
        }
        if let Limit::Service = segment.cases[case].limit {
            let used = |at: &Unknown, part: Sag<3>| {
                let least = at.force_by(&part.sag).nearest_to_zero();
                segment.sag_used(case, part.length, least)
            };
            let mut normal = self.normal.sags(units_n, &left_n, probe);
            let mut slope = self.slope.sags(units_s, &left_s, probe);
            if normal.any(|part| used(&at_n, part) > bound)
                || slope.any(|part| used(&at_s, part) > bound)
            {
                return true;
            }
        }
        let load = &segment.cases[case];
        let rest_n = at_n.left_of(segment.normal.total_load(&load.normal), &left_n.sum);
        let rest_s = at_s.left_of(segment.slope.total_load(&load.slope), &left_s.sum);
        let share = 1.0 / more as f64;
        segment.least_used(least, case, rest_n.times(share), rest_s.times(share)) > bound
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

    fn chains(&self, cases: [usize; PROBES]) -> (Chain<'_, PROBES>, Chain<'_, PROBES>) {
        let loads = cases.map(|case| &self.cases[case]);
        (
            Chain::new(&self.normal, loads.map(|case| case.normal)),
            Chain::new(&self.slope, loads.map(|case| case.slope)),
        )
    }
}

/// The two numbers through which the rest of the beam acts: force on the last hook, moment there.
#[derive(Debug, Clone, Copy)]
struct Unknown {
    force: Range,
    moment: Range,
}

impl Unknown {
    /// Narrows both by what every hook to the left can bear; `None` when nothing is left.
    fn narrowed(own: Range, moment: f64, influences: &[[f64; 3]]) -> Option<Self> {
        // Farther hooks hardly feel the last one: they narrow nothing worth the time.
        const NEAREST: usize = 3;
        let mut at = Self { force: own, moment: Range(-moment, moment) };
        for [certain, by_force, by_moment] in influences.iter().take(NEAREST) {
            let borne = own.less(Range(*certain, *certain));
            at.moment = at.moment.within(solved(borne, at.force.times(*by_force), *by_moment));
            at.force = at.force.within(solved(borne, at.moment.times(*by_moment), *by_force));
        }
        (!at.force.is_empty() && !at.moment.is_empty()).then_some(at)
    }

    /// What of a total is left to the hooks right of the last one, when `sum` of it is taken by
    /// those left of it: force and moment at the last count in both, and only once.
    fn left_of(&self, total: f64, [certain, by_force, by_moment]: &[f64; 3]) -> Range {
        self.force_by(&[total - certain, -1.0 - by_force, -by_moment])
    }

    fn force_by(&self, [certain, by_force, by_moment]: &[f64; 3]) -> Range {
        Range(*certain, *certain)
            .plus(self.force.times(*by_force))
            .plus(self.moment.times(*by_moment))
    }
}

/// Range of `x` for which `other + factor · x` can lie in `borne`.
fn solved(borne: Range, other: Range, factor: f64) -> Range {
    // Where the influence has died away it narrows nothing.
    if factor.abs() < 1e-9 {
        return Range::ALL;
    }
    borne.less(other).times(1.0 / factor)
}
