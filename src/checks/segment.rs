//! A rail segment on its hooks: every check of hook, screws, clearance and rail, in every
//! combination.
//!
//! A [`Segment`] is built once and then weighs any subset of its candidates. The search and the
//! answer go through the same functions; the search only stops at the first check over its bound.

use crate::hardware::Hook;
use crate::mechanics::beam::{Chain, Closed, Strip, Supports};
use crate::mechanics::sweep::{Deflection, Profile};
use crate::units::{Force, Length};

use super::foot::FootModel;
use super::rail::RailLimits;
use super::screws::{self, Resistance};
use super::{Check, Governing, clearance, hook};

/// One combination as the segment sees it.
#[derive(Debug, Clone, Copy)]
pub struct Case {
    /// Index in the job's list of combinations.
    pub combination: usize,
    /// Strength or serviceability.
    pub limit: Limit,
    /// Its case in the normal strip.
    pub normal: usize,
    /// Its case in the slope strip.
    pub slope: usize,
}

/// What a combination is checked for.
#[derive(Debug, Clone, Copy)]
pub enum Limit {
    /// Strength.
    Strength,
    /// Clearance and deflection.
    Service,
}

/// How feet are set, as far as their checks need it.
#[derive(Debug, Clone)]
pub struct Setting {
    /// Clearance before load, packers in place.
    pub clearance: Length,
    /// Design resistance of a screw, for each of the segment's cases; that of a serviceability case
    /// is not asked for.
    pub screws: Vec<Resistance>,
}

/// One place a hook can stand.
#[derive(Debug, Clone)]
pub struct Candidate {
    /// Rafter.
    pub rafter: usize,
    /// Axis of the rafter.
    pub x: Length,
    /// Where the arm holds the rail.
    pub arm_x: Length,
    /// The foot with its levers.
    pub foot: FootModel,
    /// How it is set: which of the segment's settings.
    pub setting: usize,
    /// Close enough to the left end to be the first.
    pub may_be_first: bool,
    /// Close enough to the right end to be the last.
    pub may_be_last: bool,
    /// A hook stands there already: every choice has it.
    pub stands: bool,
}

/// A rail segment with everything its checks need.
#[derive(Debug, Clone)]
pub struct Segment {
    /// Under load square to the roof.
    pub normal: Strip,
    /// Under load along the slope.
    pub slope: Strip,
    /// Combinations, strength and serviceability.
    pub cases: Vec<Case>,
    /// Places a hook can stand, left to right; the strips' candidates.
    pub candidates: Vec<Candidate>,
    /// The hook.
    pub hook: Hook,
    /// The rail.
    pub limits: RailLimits,
    /// Ways the feet of the candidates are set.
    pub settings: Vec<Setting>,
    /// A foot no candidate's is loaded less than, for lower bounds; `None` when the feet are not
    /// all set alike, for a higher one is loaded more by one force and less by the other.
    pub least_foot: Option<FootModel>,
}

/// Which checks a subset is weighed by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scope {
    /// Those of its hooks alone.
    Hooks,
    /// All.
    All,
}

/// Buffers one thread of work reuses.
#[derive(Debug, Clone, Default)]
pub struct Workspace {
    normal: Supports,
    slope: Supports,
    normal_profile: Profile,
    slope_profile: Profile,
    pub(super) order: Vec<usize>,
}

/// Largest utilisation of one hook by check, and its forces where the largest of all occurs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HookResult {
    /// The hook.
    pub hook: Governing,
    /// The screws.
    pub screws: Governing,
    /// The clearance.
    pub clearance: Governing,
    /// Normal force in the governing combination.
    pub normal: Force,
    /// Slope force in the governing combination.
    pub slope: Force,
    /// Largest pressing force in serviceability.
    pub service_press: Force,
    /// Largest pull on a screw.
    pub screw_pull: Force,
    /// Largest shear on a screw.
    pub screw_shear: Force,
}

impl HookResult {
    const NONE: Self = Self {
        hook: Governing::NONE,
        screws: Governing::NONE,
        clearance: Governing::NONE,
        normal: Force::ZERO,
        slope: Force::ZERO,
        service_press: Force::ZERO,
        screw_pull: Force::ZERO,
        screw_shear: Force::ZERO,
    };

    /// The check that governs this hook.
    #[must_use]
    pub fn governing(&self) -> (Check, Governing) {
        [(Check::Hook, self.hook), (Check::Screws, self.screws), (Check::Clearance, self.clearance)]
            .into_iter()
            .fold((Check::Hook, Governing::NONE), |best, next| {
                if next.1.utilisation > best.1.utilisation { next } else { best }
            })
    }
}

/// Everything about one subset.
#[derive(Debug, Clone)]
pub struct SegmentResult {
    /// Each hook of the subset.
    pub hooks: Vec<HookResult>,
    /// Normal and slope force of each hook in each case: `forces[case][hook]`.
    pub forces: Vec<Vec<[Force; 2]>>,
    /// Bending of the rail.
    pub bending: Governing,
    /// Deflection of the rail.
    pub deflection: Governing,
    /// Where the rail's deflection governs.
    pub deflected: Option<Deflection>,
}

impl SegmentResult {
    /// The check that governs the segment; the hook's index when it is one of a hook.
    #[must_use]
    pub fn governing(&self) -> (Check, Governing, Option<usize>) {
        let mut best = (Check::RailBending, self.bending, None);
        if self.deflection.utilisation > best.1.utilisation {
            best = (Check::RailDeflection, self.deflection, None);
        }
        for (i, result) in self.hooks.iter().enumerate() {
            let (check, governing) = result.governing();
            if governing.utilisation > best.1.utilisation {
                best = (check, governing, Some(i));
            }
        }
        best
    }
}

impl Segment {
    /// Largest utilisation of a subset if it is at most `bound`; `None` as soon as it is not, or
    /// when the beam is not stable on it.
    ///
    /// The combination that refused the last subset is asked first: it usually refuses the next.
    #[must_use]
    pub fn weigh(
        &self,
        normal: &Chain<'_>,
        slope: &Chain<'_>,
        subset: &[usize],
        bound: f64,
        space: &mut Workspace,
    ) -> Option<f64> {
        let (normal, slope) = (normal.close()?, slope.close()?);
        let mut worst = self.hooks_within(&normal, &slope, subset, bound, space)?;
        for case in &self.cases {
            solve(case, &normal, &slope, space);
            self.profiles(case, subset, space);
            // Most cases cannot raise what is known, and a rough bound tells.
            if self.deflects_less(case, worst, space) {
                continue;
            }
            let largest = self.rail_in(case, space).0;
            if largest > bound {
                return None;
            }
            worst = worst.max(largest);
        }
        Some(worst)
    }

    /// The same for a subset by itself, which also fails where its free ends are too long.
    #[must_use]
    pub fn weigh_alone(
        &self,
        subset: &[usize],
        bound: f64,
        scope: Scope,
        space: &mut Workspace,
    ) -> Option<f64> {
        let (first, last) = subset.first().zip(subset.last())?;
        if !self.candidates[*first].may_be_first || !self.candidates[*last].may_be_last {
            return None;
        }
        let normal = Chain::of(&self.normal, subset);
        let slope = Chain::of(&self.slope, subset);
        match scope {
            Scope::All => self.weigh(&normal, &slope, subset, bound, space),
            Scope::Hooks => {
                self.hooks_within(&normal.close()?, &slope.close()?, subset, bound, space)
            }
        }
    }

    fn hooks_within(
        &self,
        normal: &Closed<'_>,
        slope: &Closed<'_>,
        subset: &[usize],
        bound: f64,
        space: &mut Workspace,
    ) -> Option<f64> {
        self.prepare(space);
        let mut worst = 0.0_f64;
        for rank in 0..self.cases.len() {
            let index = space.order[rank];
            solve(&self.cases[index], normal, slope, space);
            let largest = self.hooks_in(index, subset, space, bound);
            if largest > bound {
                space.order[..=rank].rotate_right(1);
                return None;
            }
            worst = worst.max(largest);
        }
        Some(worst)
    }

    /// Fits a workspace to this segment.
    pub fn prepare(&self, space: &mut Workspace) {
        if space.order.len() != self.cases.len() {
            space.order = (0..self.cases.len()).collect();
        }
    }

    /// Largest utilisation of any hook of a solved subset in one case, or the first over `bound`.
    fn hooks_in(&self, case: usize, subset: &[usize], space: &Workspace, bound: f64) -> f64 {
        let limit = self.cases[case].limit;
        let mut worst = 0.0_f64;
        let forces = space.normal.force.iter().zip(&space.slope.force);
        for (candidate, (n, s)) in subset.iter().zip(forces) {
            let (n, s) = (Force::from_n(*n), Force::from_n(*s));
            let candidate = &self.candidates[*candidate];
            let setting = &self.settings[candidate.setting];
            let used =
                match limit {
                    Limit::Strength => hook::utilisation(&self.hook, n, s)
                        .max(screws::utilisation(&candidate.foot, &setting.screws[case], n, s)),
                    Limit::Service => clearance::used(&self.hook, setting.clearance, n),
                };
            worst = worst.max(used);
            if worst > bound {
                break;
            }
        }
        worst
    }

    /// Moments along the rail of a solved subset in one case, in both directions.
    fn profiles(&self, case: &Case, subset: &[usize], space: &mut Workspace) {
        space.normal_profile.fill(&self.normal, case.normal, subset, &space.normal.force);
        space.slope_profile.fill(&self.slope, case.slope, subset, &space.slope.force);
    }

    /// Whether a rough bound shows that deflections use no more than `known` in this case.
    fn deflects_less(&self, case: &Case, known: f64, space: &Workspace) -> bool {
        let less = |profile, strip: &Strip| {
            self.limits.deflection_at_most(profile, strip.rigidity()) <= known
        };
        matches!(case.limit, Limit::Service)
            && less(&space.normal_profile, &self.normal)
            && less(&space.slope_profile, &self.slope)
    }

    /// Utilisation of the rail of a solved subset in one case.
    fn rail_in(&self, case: &Case, space: &Workspace) -> (f64, Option<Deflection>) {
        match case.limit {
            Limit::Strength => {
                (self.limits.bending(&space.normal_profile, &space.slope_profile), None)
            }
            Limit::Service => {
                let normal = self.limits.deflection(&space.normal_profile, self.normal.rigidity());
                let slope = self.limits.deflection(&space.slope_profile, self.slope.rigidity());
                if slope.0 > normal.0 { slope } else { normal }
            }
        }
    }

    /// Every check of a subset in full. `None` when the beam is not stable on it.
    #[must_use]
    pub fn examine(&self, subset: &[usize]) -> Option<SegmentResult> {
        let normal = Chain::of(&self.normal, subset);
        let slope = Chain::of(&self.slope, subset);
        let (normal, slope) = (normal.close()?, slope.close()?);
        let mut space = Workspace::default();
        let mut result = SegmentResult {
            hooks: vec![HookResult::NONE; subset.len()],
            forces: Vec::with_capacity(self.cases.len()),
            bending: Governing::NONE,
            deflection: Governing::NONE,
            deflected: None,
        };
        for (index, case) in self.cases.iter().enumerate() {
            solve(case, &normal, &slope, &mut space);
            let mut forces = Vec::with_capacity(subset.len());
            for (i, candidate) in subset.iter().enumerate() {
                let n = Force::from_n(space.normal.force[i]);
                let s = Force::from_n(space.slope.force[i]);
                forces.push([n, s]);
                self.examine_hook(
                    index,
                    &self.candidates[*candidate],
                    [n, s],
                    &mut result.hooks[i],
                );
            }
            result.forces.push(forces);
            self.profiles(case, subset, &mut space);
            let (used, deflection) = self.rail_in(case, &space);
            match case.limit {
                Limit::Strength => result.bending.see(used, case.combination),
                Limit::Service => {
                    if used > result.deflection.utilisation {
                        result.deflected = deflection;
                    }
                    result.deflection.see(used, case.combination);
                }
            }
        }
        Some(result)
    }

    fn examine_hook(
        &self,
        case: usize,
        candidate: &Candidate,
        [n, s]: [Force; 2],
        result: &mut HookResult,
    ) {
        let setting = &self.settings[candidate.setting];
        let Case { combination, limit, .. } = self.cases[case];
        let before = result.governing().1.utilisation;
        match limit {
            Limit::Strength => {
                let screws = screws::utilisation(&candidate.foot, &setting.screws[case], n, s);
                result.hook.see(hook::utilisation(&self.hook, n, s), combination);
                result.screws.see(screws, combination);
                for demand in candidate.foot.demands(n, s) {
                    result.screw_pull = result.screw_pull.max(demand.pull);
                    result.screw_shear = result.screw_shear.max(demand.shear);
                }
            }
            Limit::Service => {
                let used = clearance::used(&self.hook, setting.clearance, n);
                result.clearance.see(used, combination);
                result.service_press = result.service_press.max(n);
            }
        }
        if result.governing().1.utilisation > before {
            result.normal = n;
            result.slope = s;
        }
    }
}

fn solve(case: &Case, normal: &Closed<'_>, slope: &Closed<'_>, space: &mut Workspace) {
    normal.solve(case.normal, &mut space.normal);
    slope.solve(case.slope, &mut space.slope);
}
