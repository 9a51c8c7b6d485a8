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

/// Buffers one thread of work reuses.
#[derive(Debug, Clone, Default)]
pub struct Workspace {
    normal: Vec<Solution>,
    slope: Vec<Solution>,
    pub(super) order: Vec<usize>,
}

/// A strip under one of its cases, as far as it was asked for: combinations may share a case, and
/// most subsets fail before every case was looked at.
#[derive(Debug, Clone, Default)]
struct Solution {
    known: Known,
    supports: Supports,
    profile: Profile,
}

#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
enum Known {
    #[default]
    Nothing,
    Forces,
    Moments,
}

impl Solution {
    fn solve(&mut self, chain: &Closed<'_>, case: usize) {
        if self.known < Known::Forces {
            chain.solve(case, &mut self.supports);
            self.known = Known::Forces;
        }
    }

    /// Of a solved subset.
    fn sweep(&mut self, strip: &Strip, case: usize, subset: &[usize]) {
        if self.known < Known::Moments {
            self.profile.fill(strip, case, subset, &self.supports.force);
            self.known = Known::Moments;
        }
    }
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
        let mut worst = self.weigh_hooks(normal, slope, subset, bound, space)?;
        for case in &self.cases {
            self.sweep(case, subset, space);
            let largest = self.rail_in(case, space, worst);
            if largest > bound {
                return None;
            }
            worst = worst.max(largest);
        }
        Some(worst)
    }

    /// The same of the hooks alone, without the rail.
    #[must_use]
    pub fn weigh_hooks(
        &self,
        normal: &Chain<'_>,
        slope: &Chain<'_>,
        subset: &[usize],
        bound: f64,
        space: &mut Workspace,
    ) -> Option<f64> {
        let (normal, slope) = (normal.close()?, slope.close()?);
        self.prepare(space);
        let mut worst = 0.0_f64;
        for rank in 0..self.cases.len() {
            let index = space.order[rank];
            solve(&self.cases[index], &normal, &slope, space);
            let largest = self.hooks_in(index, subset, space, bound);
            if largest > bound {
                space.order[..=rank].rotate_right(1);
                return None;
            }
            worst = worst.max(largest);
        }
        Some(worst)
    }

    /// The same for a subset by itself, which also fails where its free ends are too long.
    #[must_use]
    pub fn weigh_alone(&self, subset: &[usize], bound: f64, space: &mut Workspace) -> Option<f64> {
        if !self.ends_are_short(subset) {
            return None;
        }
        let normal = Chain::of(&self.normal, subset);
        let slope = Chain::of(&self.slope, subset);
        self.weigh(&normal, &slope, subset, bound, space)
    }

    /// Whether both free ends of a subset are short enough.
    #[must_use]
    pub fn ends_are_short(&self, subset: &[usize]) -> bool {
        subset.first().zip(subset.last()).is_some_and(|(first, last)| {
            self.candidates[*first].may_be_first && self.candidates[*last].may_be_last
        })
    }

    /// Fits a workspace to this segment and to a subset nothing is known of yet.
    pub fn prepare(&self, space: &mut Workspace) {
        if space.order.len() != self.cases.len() {
            space.order = (0..self.cases.len()).collect();
        }
        space.normal.resize_with(self.normal.cases().len(), Solution::default);
        space.slope.resize_with(self.slope.cases().len(), Solution::default);
        for solution in space.normal.iter_mut().chain(&mut space.slope) {
            solution.known = Known::Nothing;
        }
    }

    /// Largest utilisation of any hook of a solved subset in one case, or the first over `bound`.
    fn hooks_in(&self, case: usize, subset: &[usize], space: &Workspace, bound: f64) -> f64 {
        let Case { limit, normal, slope, .. } = self.cases[case];
        let mut worst = 0.0_f64;
        let forces =
            space.normal[normal].supports.force.iter().zip(&space.slope[slope].supports.force);
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
    fn sweep(&self, case: &Case, subset: &[usize], space: &mut Workspace) {
        space.normal[case.normal].sweep(&self.normal, case.normal, subset);
        space.slope[case.slope].sweep(&self.slope, case.slope, subset);
    }

    /// Utilisation of the rail of a swept subset in one case; 0 when it is not above `known`.
    fn rail_in(&self, case: &Case, space: &Workspace, known: f64) -> f64 {
        match case.limit {
            Limit::Strength => self.bending_in(case, space, known),
            Limit::Service => self.deflection_in(case, space, known).map_or(0.0, |(used, _)| used),
        }
    }

    fn bending_in(&self, case: &Case, space: &Workspace, known: f64) -> f64 {
        let (normal, slope) = (&space.normal[case.normal], &space.slope[case.slope]);
        self.limits.bending_above(known, &normal.profile, &slope.profile)
    }

    fn deflection_in(
        &self,
        case: &Case,
        space: &Workspace,
        known: f64,
    ) -> Option<(f64, Deflection)> {
        let (normal, slope) = (&space.normal[case.normal], &space.slope[case.slope]);
        let rigidity = [self.normal.rigidity(), self.slope.rigidity()];
        let found = self.limits.deflection_above(known, &normal.profile, rigidity[0]);
        let known = found.map_or(known, |(used, _)| used);
        self.limits.deflection_above(known, &slope.profile, rigidity[1]).or(found)
    }

    /// Every check of a subset in full. `None` when the beam is not stable on it.
    #[must_use]
    pub fn examine(&self, subset: &[usize]) -> Option<SegmentResult> {
        let normal = Chain::of(&self.normal, subset);
        let slope = Chain::of(&self.slope, subset);
        let (normal, slope) = (normal.close()?, slope.close()?);
        let mut space = Workspace::default();
        self.prepare(&mut space);
        let mut result = SegmentResult {
            hooks: vec![HookResult::NONE; subset.len()],
            forces: Vec::with_capacity(self.cases.len()),
            bending: Governing::NONE,
            deflection: Governing::NONE,
            deflected: None,
        };
        for (index, case) in self.cases.iter().enumerate() {
            solve(case, &normal, &slope, &mut space);
            let forces: Vec<[Force; 2]> = space.normal[case.normal]
                .supports
                .force
                .iter()
                .zip(&space.slope[case.slope].supports.force)
                .map(|(n, s)| [Force::from_n(*n), Force::from_n(*s)])
                .collect();
            for ((candidate, hook), forces) in subset.iter().zip(&mut result.hooks).zip(&forces) {
                self.examine_hook(index, &self.candidates[*candidate], *forces, hook);
            }
            result.forces.push(forces);
            self.sweep(case, subset, &mut space);
            match case.limit {
                Limit::Strength => {
                    let known = result.bending.utilisation;
                    result.bending.see(self.bending_in(case, &space, known), case.combination);
                }
                Limit::Service => {
                    let known = result.deflection.utilisation;
                    if let Some((used, deflection)) = self.deflection_in(case, &space, known) {
                        result.deflection.see(used, case.combination);
                        result.deflected = Some(deflection);
                    }
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
    space.normal[case.normal].solve(normal, case.normal);
    space.slope[case.slope].solve(slope, case.slope);
}
