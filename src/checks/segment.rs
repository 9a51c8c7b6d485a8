//! A rail segment on its hooks: every check of hook, screws, clearance and rail, in every
//! combination.
//!
//! A [`Segment`] is built once and then weighs any subset of its candidates. The search and the
//! answer go through the same functions; the search only stops at the first check over its bound.

use std::ops::Index;
use std::sync::Arc;

use crate::codes::vocabulary::{Interaction, Resistance, ScrewResistance};
use crate::hardware::Hook;
use crate::mechanics::beam::{Reactions, Strip, Superposition};
use crate::mechanics::sweep::{Deflection, Profile, Sweep};
use crate::units::{Force, Length};

use super::foot::FootModel;
use super::rail::RailLimits;
use super::screws;
use super::{Check, Governing, clearance, hook, most_used};

/// One combination as the segment sees it.
#[derive(Debug, Clone, Copy)]
pub struct Case {
    /// Index in the job's list of combinations.
    pub combination: usize,
    /// Strength or serviceability.
    pub limit: Limit,
    /// Its load on the normal strip.
    pub normal: Superposition,
    /// Its load on the slope strip.
    pub slope: Superposition,
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
    /// is not asked for. Where the rules are silent the check of the screws is not run.
    pub screws: Resistance<Vec<ScrewResistance>>,
}

impl Setting {
    /// Resistance beyond which no screw passes in a case: any is borne where the rules are silent.
    #[must_use]
    pub(super) fn screw_bound(&self, case: usize) -> ScrewResistance {
        let unbounded = Force::from_n(f64::INFINITY);
        self.screws.known().map_or(
            ScrewResistance {
                pull: unbounded,
                shear: unbounded,
                interaction: Interaction::Quadratic,
            },
            |screws| screws[case],
        )
    }
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
    /// The foot with its levers, one for all that are alike.
    pub foot: Arc<FootModel>,
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
    /// Forces on the hooks of the subset looked at, normal and slope.
    reactions: [Reactions; 2],
    /// The same under one combination, N.
    forces: [Vec<f64>; 2],
    /// Moments along the rail.
    sweeps: [Sweep; 2],
    /// The same under one combination.
    profiles: [Profile; 2],
    /// Cases, those that refused last first.
    order: Vec<usize>,
    refused: Option<usize>,
}

impl Workspace {
    /// The case that refused the subset weighed last.
    #[must_use]
    pub const fn refused_last(&self) -> Option<usize> {
        self.refused
    }

    fn refuse(&mut self, rank: usize) {
        self.order[..=rank].rotate_right(1);
        self.refused = self.order.first().copied();
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
    /// Nothing acts.
    pub const NONE: Self = Self {
        hook: Governing::NONE,
        screws: Governing::NONE,
        clearance: Governing::NONE,
        normal: Force::ZERO,
        slope: Force::ZERO,
        service_press: Force::ZERO,
        screw_pull: Force::ZERO,
        screw_shear: Force::ZERO,
    };

    /// Every check of a hook with what governs it. A field that is none is named here as such.
    #[must_use]
    pub const fn by_check(&self) -> [(Check, Governing); 3] {
        let Self {
            hook,
            screws,
            clearance,
            normal: _,
            slope: _,
            service_press: _,
            screw_pull: _,
            screw_shear: _,
        } = *self;
        [(Check::Hook, hook), (Check::Screws, screws), (Check::Clearance, clearance)]
    }

    /// The check that governs this hook.
    #[must_use]
    pub fn governing(&self) -> (Check, Governing) {
        most_used(self.by_check()).unwrap_or((Check::Hook, Governing::NONE))
    }
}

/// Everything about one subset.
#[derive(Debug, Clone)]
pub struct SegmentResult {
    /// Each hook of the subset.
    pub hooks: Vec<HookResult>,
    /// Normal and slope force of each hook in each case.
    pub forces: Forces,
    /// Bending of the rail.
    pub bending: Governing,
    /// Deflection of the rail.
    pub deflection: Governing,
    /// Where the rail's deflection governs.
    pub deflected: Option<Deflection>,
}

/// Normal and slope force of each hook in each case: `forces[case][hook]`.
#[derive(Debug, Clone, Default)]
pub struct Forces {
    hooks: usize,
    of_case: Vec<[Force; 2]>,
}

impl Forces {
    /// Case by case, the forces of all hooks.
    pub fn iter(&self) -> impl Iterator<Item = &[[Force; 2]]> {
        self.of_case.chunks_exact(self.hooks.max(1))
    }
}

impl Index<usize> for Forces {
    type Output = [[Force; 2]];

    fn index(&self, case: usize) -> &[[Force; 2]] {
        &self.of_case[case * self.hooks..][..self.hooks]
    }
}

impl SegmentResult {
    /// Every check of the rail with what governs it. A field that is none is named here as such.
    #[must_use]
    pub const fn by_check(&self) -> [(Check, Governing); 2] {
        let Self { hooks: _, forces: _, bending, deflection, deflected: _ } = self;
        [(Check::RailBending, *bending), (Check::RailDeflection, *deflection)]
    }

    /// Every check of the rail and of its hooks; the hook's index when it is one of a hook.
    pub fn checks(&self) -> impl Iterator<Item = ((Check, Option<usize>), Governing)> {
        let of_rail = self.by_check().map(|(check, governing)| ((check, None), governing));
        let of_hooks = self.hooks.iter().enumerate().flat_map(|(h, hook)| {
            hook.by_check().map(|(check, governing)| ((check, Some(h)), governing))
        });
        of_rail.into_iter().chain(of_hooks)
    }

    /// The check that governs the segment; the hook's index when it is one of a hook.
    #[must_use]
    pub fn governing(&self) -> (Check, Governing, Option<usize>) {
        let ((check, hook), governing) =
            most_used(self.checks()).unwrap_or(((Check::RailBending, None), self.bending));
        (check, governing, hook)
    }
}

impl Segment {
    /// The same rail under the same loads with other places for hooks.
    #[must_use]
    pub fn with_candidates(&self, candidates: Vec<Candidate>) -> Self {
        let places: Vec<f64> = candidates.iter().map(|place| place.arm_x.mm()).collect();
        Self {
            normal: self.normal.with_candidates(places.clone()),
            slope: self.slope.with_candidates(places),
            cases: self.cases.clone(),
            least_foot: Self::least_foot(&candidates),
            candidates,
            hook: self.hook.clone(),
            limits: self.limits,
            settings: self.settings.clone(),
        }
    }

    /// A foot none of these is loaded less than; `None` when they are not all set alike.
    #[must_use]
    pub fn least_foot(candidates: &[Candidate]) -> Option<FootModel> {
        let alike = candidates.windows(2).all(|pair| pair[0].setting == pair[1].setting);
        alike.then(|| FootModel::least_loaded(candidates.iter().map(|c| &*c.foot))).flatten()
    }

    /// Largest utilisation of a subset if it is at most `bound`; `None` as soon as it is not, or
    /// when the beam is not stable on it.
    ///
    /// The combination that refused the last subset is asked first: it usually refuses the next.
    #[must_use]
    pub fn weigh(&self, subset: &[usize], bound: f64, space: &mut Workspace) -> Option<f64> {
        let mut worst = self.weigh_hooks(subset, bound, space)?;
        self.sweep(subset, space);
        for rank in 0..self.cases.len() {
            let index = space.order[rank];
            let largest = self.rail_in(&self.cases[index], space, worst);
            if largest > bound {
                space.refuse(rank);
                return None;
            }
            worst = worst.max(largest);
        }
        Some(worst)
    }

    /// The same of the hooks alone, without the rail.
    #[must_use]
    pub fn weigh_hooks(&self, subset: &[usize], bound: f64, space: &mut Workspace) -> Option<f64> {
        if !self.solve(subset, space) {
            return None;
        }
        let mut worst = 0.0_f64;
        for rank in 0..self.cases.len() {
            let index = space.order[rank];
            let largest = self.hooks_in(index, subset, space, bound);
            if largest > bound {
                space.refuse(rank);
                return None;
            }
            worst = worst.max(largest);
        }
        Some(worst)
    }

    /// The same for a subset by itself, which also fails where its free ends are too long.
    #[must_use]
    pub fn weigh_alone(&self, subset: &[usize], bound: f64, space: &mut Workspace) -> Option<f64> {
        self.ends_are_short(subset).then(|| self.weigh(subset, bound, space)).flatten()
    }

    /// Whether both free ends of a subset are short enough.
    #[must_use]
    pub fn ends_are_short(&self, subset: &[usize]) -> bool {
        subset.first().zip(subset.last()).is_some_and(|(first, last)| {
            self.candidates[*first].may_be_first && self.candidates[*last].may_be_last
        })
    }

    /// Forces on the hooks of a subset; false when the beam is not stable on it.
    fn solve(&self, subset: &[usize], space: &mut Workspace) -> bool {
        if space.order.len() != self.cases.len() {
            space.order = (0..self.cases.len()).collect();
        }
        space.refused = None;
        let [normal, slope] = &mut space.reactions;
        self.normal.solve(subset, normal) && self.slope.solve(subset, slope)
    }

    /// Largest utilisation of any hook of a solved subset in one case, or the first over `bound`.
    fn hooks_in(&self, case: usize, subset: &[usize], space: &mut Workspace, bound: f64) -> f64 {
        let mut worst = 0.0_f64;
        for (candidate, forces) in subset.iter().zip(self.forces_in(case, space)) {
            worst = worst.max(self.hook_used(*candidate, case, forces));
            if worst > bound {
                break;
            }
        }
        worst
    }

    /// Normal and slope force of each hook of a solved subset in one case.
    fn forces_in<'a>(
        &self,
        case: usize,
        space: &'a mut Workspace,
    ) -> impl Iterator<Item = [Force; 2]> + 'a {
        let Case { normal, slope, .. } = &self.cases[case];
        let ([on_normal, on_slope], [n, s]) = (&space.reactions, &mut space.forces);
        on_normal.under(normal, n);
        on_slope.under(slope, s);
        n.iter().zip(s.iter()).map(|(n, s)| [Force::from_n(*n), Force::from_n(*s)])
    }

    /// Moments along the rail of a solved subset, in both directions.
    fn sweep(&self, subset: &[usize], space: &mut Workspace) {
        let [normal, slope] = &mut space.sweeps;
        normal.fill(&self.normal, subset, &space.reactions[0]);
        slope.fill(&self.slope, subset, &space.reactions[1]);
    }

    /// Utilisation of the rail of a swept subset in one case; 0 when it is not above `known`.
    fn rail_in(&self, case: &Case, space: &mut Workspace, known: f64) -> f64 {
        match case.limit {
            Limit::Strength => self.bending_in(case, space, known),
            Limit::Service => self.deflection_in(case, space, known).map_or(0.0, |(used, _)| used),
        }
    }

    fn bending_in(&self, case: &Case, space: &mut Workspace, known: f64) -> f64 {
        if self.bending_at_most(case, space) < known {
            return 0.0;
        }
        self.superpose(case, space);
        let [normal, slope] = &space.profiles;
        self.limits.bending_above(known, normal, slope)
    }

    fn deflection_in(
        &self,
        case: &Case,
        space: &mut Workspace,
        known: f64,
    ) -> Option<(f64, Deflection)> {
        if self.deflection_at_most(case, space) <= known {
            return None;
        }
        self.superpose(case, space);
        let [normal, slope] = &space.profiles;
        let found = self.limits.deflection_above(known, normal, self.normal.rigidity());
        let known = found.map_or(known, |(used, _)| used);
        self.limits.deflection_above(known, slope, self.slope.rigidity()).or(found)
    }

    /// What bending uses at most: both moments at their largest in one place is the worst there can
    /// be.
    fn bending_at_most(&self, case: &Case, space: &Workspace) -> f64 {
        let [normal, slope] = &space.sweeps;
        self.limits
            .bending_of([normal.moment_at_most(&case.normal), slope.moment_at_most(&case.slope)])
    }

    /// What deflection uses at most.
    fn deflection_at_most(&self, case: &Case, space: &Workspace) -> f64 {
        let [normal, slope] = &space.sweeps;
        let normal = normal.deflection_at_most(&case.normal, self.normal.rigidity());
        let slope = slope.deflection_at_most(&case.slope, self.slope.rigidity());
        self.limits.deflection_of(normal.max(slope))
    }

    /// Moments and deflections of a swept subset in one case.
    fn superpose(&self, case: &Case, space: &mut Workspace) {
        let Workspace { sweeps: [normal, slope], reactions, profiles, .. } = space;
        normal.superpose(&self.normal, &case.normal, &reactions[0], &mut profiles[0]);
        slope.superpose(&self.slope, &case.slope, &reactions[1], &mut profiles[1]);
    }

    /// Every check of a subset in full. `None` when the beam is not stable on it.
    #[must_use]
    pub fn examine(&self, subset: &[usize]) -> Option<SegmentResult> {
        let mut space = Workspace::default();
        if !self.solve(subset, &mut space) {
            return None;
        }
        self.sweep(subset, &mut space);
        let mut result = SegmentResult {
            hooks: vec![HookResult::NONE; subset.len()],
            forces: Forces {
                hooks: subset.len(),
                of_case: Vec::with_capacity(self.cases.len() * subset.len()),
            },
            bending: Governing::NONE,
            deflection: Governing::NONE,
            deflected: None,
        };
        for index in 0..self.cases.len() {
            let forces = self.forces_in(index, &mut space);
            for ((candidate, hook), forces) in subset.iter().zip(&mut result.hooks).zip(forces) {
                self.examine_hook(index, &self.candidates[*candidate], forces, hook);
                result.forces.of_case.push(forces);
            }
        }
        self.examine_rail(&mut space, &mut result);
        Some(result)
    }

    /// Checks of the rail of a swept subset: after the cases that may use most, few of the others
    /// can raise what is known.
    fn examine_rail(&self, space: &mut Workspace, result: &mut SegmentResult) {
        let at_most = |case: &Case| match case.limit {
            Limit::Strength => self.bending_at_most(case, space),
            Limit::Service => self.deflection_at_most(case, space),
        };
        let mut order: Vec<(f64, &Case)> =
            self.cases.iter().map(|case| (at_most(case), case)).collect();
        order.sort_by(|a, b| b.0.total_cmp(&a.0));
        for (_, case) in order {
            match case.limit {
                Limit::Strength => {
                    let known = result.bending.utilisation;
                    result.bending.see(self.bending_in(case, space, known), case.combination);
                }
                Limit::Service => {
                    // One as large is looked at: of equals the first combination governs.
                    let known = result.deflection.utilisation.next_down();
                    if let Some((used, deflection)) = self.deflection_in(case, space, known)
                        && result.deflection.see(used, case.combination)
                    {
                        result.deflected = Some(deflection);
                    }
                }
            }
        }
    }

    /// Utilisation of a hook by its forces: of its own and its screws', or of its clearance.
    pub(super) fn used_with(
        &self,
        foot: &FootModel,
        setting: usize,
        case: usize,
        [n, s]: [Force; 2],
    ) -> f64 {
        let setting = &self.settings[setting];
        match self.cases[case].limit {
            Limit::Strength => {
                let hook = hook::utilisation(&self.hook, n, s);
                let screws = setting.screws.known();
                screws
                    .map_or(hook, |screws| hook.max(screws::utilisation(foot, &screws[case], n, s)))
            }
            Limit::Service => clearance::used(&self.hook, setting.clearance, n),
        }
    }

    /// Utilisation of the hook on a candidate.
    pub(super) fn hook_used(&self, candidate: usize, case: usize, forces: [Force; 2]) -> f64 {
        let candidate = &self.candidates[candidate];
        self.used_with(&candidate.foot, candidate.setting, case, forces)
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
        let before = [result.hook, result.screws, result.clearance].map(|known| known.utilisation);
        let used = match limit {
            Limit::Strength => {
                let mut screws = 0.0_f64;
                for demand in candidate.foot.demands(n, s) {
                    result.screw_pull = result.screw_pull.max(demand.pull);
                    result.screw_shear = result.screw_shear.max(demand.shear);
                    if let Resistance::Known(resistances) = &setting.screws {
                        screws = screws.max(screws::used_by(demand, &resistances[case]));
                    }
                }
                let hook = hook::utilisation(&self.hook, n, s);
                result.hook.see(hook, combination);
                result.screws.see(screws, combination);
                hook.max(screws)
            }
            Limit::Service => {
                let clearance = clearance::used(&self.hook, setting.clearance, n);
                result.clearance.see(clearance, combination);
                result.service_press = result.service_press.max(n);
                clearance
            }
        };
        if before.iter().all(|before| used > *before) {
            result.normal = n;
            result.slope = s;
        }
    }
}
