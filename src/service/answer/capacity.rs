//! How much snow and wind a job bears, as the answer shows it.

use crate::assessment::{Assessment, Scope, Verdict};
use crate::checks::Member;
use crate::effort::Allowance;
use crate::placement::Job;
use crate::placement::capacity::{self, Capacity, Limit, Load, Used};
use crate::placement::laid::Layout;
use crate::service::rounding::{self, borne, utilisation};
use crate::units::Pressure;
use crate::wire::capacity::{
    CapacityAnswer, CapacityOutcome, CapacityScope, InspectedElement, LoadCapacity, ScopeCapacity,
};

use super::elements;
use super::worst::Element;

/// How much a layout bears that was assessed so.
pub fn capacity(job: &Job, layout: &Layout, assessed: &Assessment) -> CapacityAnswer {
    let actions = job.actions.with_factors_of_one(job.rules);
    let observed = Job { actions, ..job.clone() };
    let mut allowance = Allowance::from(&job.effort);
    let mut of = |load| {
        let borne = capacity::of(job, layout, load, &mut allowance);
        let now = load.of(&job.actions);
        let fails = [0, 1, 2, 3].map(|m| fails_otherwise(assessed, Member::ALL[m], &borne[m], now));
        let scopes = |job, borne| Statement { job, layout, load }.scopes(assessed, fails, borne);
        LoadCapacity {
            of_the_job_kn_per_m2: rounding::load(now.kn_per_m2()),
            greatest_kn_per_m2: rounding::load(load.greatest().kn_per_m2()),
            characteristic: scopes(job, &borne),
            observed: scopes(&observed, &capacity::of(&observed, layout, load, &mut allowance)),
        }
    };
    CapacityAnswer { ground_snow: of(Load::GroundSnow), peak_pressure: of(Load::PeakPressure) }
}

/// Whether a member fails for a reason that is no matter of loads: one is among the findings, or it
/// fails while every check keeps its limit.
fn fails_otherwise(assessed: &Assessment, member: Member, borne: &Capacity, now: Pressure) -> bool {
    let (scope, _) = scope_of(member);
    let kept = match borne {
        Capacity::Beyond => true,
        Capacity::Limited(limit) => limit.load >= now,
        Capacity::NotChecked | Capacity::Undecided | Capacity::Never => false,
    };
    let fails = assessed.verdicts.on(scope) == Some(Verdict::Fails);
    assessed.fails_whatever_acts(scope) || (fails && kept)
}

/// What can be said of one load in one set of combinations.
struct Statement<'a> {
    job: &'a Job,
    layout: &'a Layout,
    load: Load,
}

impl Statement<'_> {
    fn scopes(
        &self,
        assessed: &Assessment,
        fails: [bool; Member::ALL.len()],
        borne: &[Capacity; Member::ALL.len()],
    ) -> Vec<ScopeCapacity> {
        let members = Member::ALL.into_iter().zip(fails).zip(borne);
        let scope = |((member, fails), borne): ((Member, bool), _)| {
            let (scope, wire) = scope_of(member);
            self.scope(wire, assessed.is_complete(scope), Some(borne).filter(|_| !fails))
        };
        members.map(scope).collect()
    }

    /// What can be said of a scope; nothing is `found` of one that fails otherwise.
    fn scope(
        &self,
        scope: CapacityScope,
        complete: bool,
        found: Option<&Capacity>,
    ) -> ScopeCapacity {
        let (outcome, limit) = match found {
            None => (CapacityOutcome::FailsOtherwise, None),
            Some(Capacity::NotChecked) => (CapacityOutcome::NotChecked, None),
            Some(Capacity::Undecided) => (CapacityOutcome::Undecided, None),
            Some(Capacity::Never) => (CapacityOutcome::Never, None),
            Some(Capacity::Beyond) => (CapacityOutcome::NoLimitFound, None),
            Some(Capacity::Limited(limit)) => (CapacityOutcome::Limited, Some(limit)),
        };
        let next = limit.map(|limit| &limit.next);
        ScopeCapacity {
            scope,
            outcome,
            complete,
            load_kn_per_m2: limit.map(|limit| borne(limit.load.kn_per_m2())),
            on_roof_kn_per_m2: limit.and_then(|limit| self.on_roof(limit.load)),
            check: next.map(|used| used.check.name().to_owned()),
            element: next.map(|used| self.element(used)),
            combination: next
                .map(|used| elements::combination_id(self.job, used.governing.combination)),
            inspect_first: limit.map_or_else(Vec::new, |limit| self.inspected(limit)),
        }
    }

    /// Even snow on the roof, per area on plan, for snow on the ground.
    fn on_roof(&self, ground: Pressure) -> Option<f64> {
        let actions = match self.load {
            Load::GroundSnow => self.job.actions.with_ground_snow(self.job.rules, ground),
            Load::PeakPressure => return None,
        };
        Some(borne(actions.snow.roof.kn_per_m2()))
    }

    fn element(&self, used: &Used) -> String {
        Element::of(self.job, self.layout, used.element).id()
    }

    fn inspected(&self, limit: &Limit) -> Vec<InspectedElement> {
        let inspected = |used: &Used| InspectedElement {
            element: self.element(used),
            check: used.check.name().to_owned(),
            utilisation: utilisation(used.governing.utilisation),
        };
        limit.inspect.iter().map(inspected).collect()
    }
}

/// The scope a member is judged in.
const fn scope_of(member: Member) -> (Scope, CapacityScope) {
    match member {
        Member::Fixing => (Scope::Fixing, CapacityScope::Fixing),
        Member::Rail => (Scope::Rail, CapacityScope::Rail),
        Member::Module => (Scope::Modules, CapacityScope::Modules),
        Member::Rafter => (Scope::Rafters, CapacityScope::Rafters),
    }
}
