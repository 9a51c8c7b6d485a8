//! What the request itself tells, before anything is computed.

use crate::units::{Force, Length, Pressure, Stiffness};

use super::provenance::{Provenance, provenance};
use super::value::{EdgeName, ObstacleUnknown, RuleValue};
use super::{Asked, Assessment, Declaration, Fact, Findings, Place};
use crate::codes::vocabulary::Evidence;

/// What an assessment needs to know of how a request was understood.
#[derive(Debug, Clone, Default)]
pub struct Remarks {
    /// What the verdict is asked on.
    pub asked: Asked,
    /// Checks that somebody takes over.
    pub declarations: Vec<Declaration>,
    /// Embedded parts, which are invented: kind and id.
    pub invented: Vec<(&'static str, String)>,
    /// Illustrative modules, which are invented, that are fields' own: place of the field, and id.
    pub invented_modules: Vec<(usize, String)>,
    /// Values of an earlier revision are asked for: which, and the one of today.
    pub earlier_revision: Option<[&'static str; 2]>,
    /// What is said of the snow.
    pub snow: SnowRemarks,
    /// How well the values of the rules are known that the job rests on.
    pub rules: Vec<(RuleValue, Evidence)>,
    /// How values of the request are known: pointer and mark.
    pub provenance: Vec<(String, Provenance)>,
    /// What the hook's values rest on.
    pub hook: HookRemarks,
    /// Insulation lies between foot and rafter.
    pub insulation_crossed: bool,
    /// Horizontal length of the slope by outline and by building, when they disagree.
    pub plan_mismatch: Option<[Length; 2]>,
    /// Where the rafters stand is not measured.
    pub unmeasured: Option<Unmeasured>,
    /// It is asked how much the job bears.
    pub capacity: bool,
    /// Snow on the ground and peak pressure of the site, where an observed event is judged instead.
    pub event: Option<[Pressure; 2]>,
}

/// What was looked at where nobody knows where rafters stand.
#[derive(Debug, Clone, Copy)]
pub struct Unmeasured {
    /// Places of the first rafter.
    pub places: usize,
    /// From one of them to the next.
    pub step: Length,
    /// How many of them fail.
    pub failing: usize,
}

/// What the values of a hook rest on.
#[derive(Debug, Clone, Copy, Default)]
pub struct HookRemarks {
    /// Its resistances rest on nothing known.
    pub basis_unknown: bool,
    /// Its resistances are those of its arm as a bar.
    pub resistance_of_bar: bool,
    /// Its spring square to the roof is that of its arm as a bar.
    pub stiffness_of_bar: bool,
    /// A declared resistance far above that of the arm as a bar, and that, where no tests are named.
    pub stronger_than_bar: Option<[Force; 2]>,
    /// The same where tests or an approval are named.
    pub tested_above_bar: Option<[Force; 2]>,
    /// A declared stiffness far above that of the arm as a bar, and that, where no tests are named.
    pub stiffer_than_bar: Option<[Stiffness; 2]>,
}

/// What an assessment needs to know of how the snow was described.
#[derive(Debug, Clone, Default)]
pub struct SnowRemarks {
    /// The ground load follows a table that rests on memory.
    pub from_memory: bool,
    /// Nobody says whether exceptional snow is to be considered.
    pub exceptional_unasked: bool,
    /// Snow guards, by place among the obstacles, on a slope whose snow is not said to be held.
    pub guards: Vec<usize>,
    /// Sides against which snow drifts in a way nobody describes.
    pub unknown_sides: Vec<(usize, EdgeName)>,
    /// Obstacles against which snow drifts, by place, and what is not known of it.
    pub obstacles: Vec<(usize, ObstacleUnknown)>,
}

/// Assesses the actions alone.
#[must_use]
pub fn of_actions(remarks: &Remarks) -> Assessment {
    let mut out = Findings::default();
    from_the_request(remarks, &mut out);
    Assessment::of(out, remarks)
}

pub(super) fn from_the_request(remarks: &Remarks, out: &mut Findings) {
    if !remarks.invented.is_empty() {
        let parts = remarks.invented.iter().map(|(kind, id)| format!("{kind} {id}"));
        out.add(Place::Whole, Fact::InventedParts { parts: parts.collect(), place: None });
    }
    for (field, id) in &remarks.invented_modules {
        let (parts, place) = (vec![format!("module {id}")], Some(*field));
        out.add(Place::Whole, Fact::InventedParts { parts, place });
    }
    if remarks.event.is_some() {
        out.add(Place::Whole, Fact::EventJudged {});
    }
    if let Some(Unmeasured { places, step, failing }) = remarks.unmeasured {
        out.add(Place::Rafters, Fact::RaftersUnmeasured { places, step, failing });
    }
    from_the_snow(&remarks.snow, out);
    from_the_rules(&remarks.rules, remarks.snow.from_memory, out);
    if let Some([asked, today]) = remarks.earlier_revision {
        let [asked, today] = [asked, today].map(str::to_owned);
        out.add(Place::Whole, Fact::EarlierRevision { asked, today });
    }
    provenance(&remarks.provenance, out);
    hook(&remarks.hook, out);
    if remarks.insulation_crossed {
        out.add(Place::Whole, Fact::InsulationUnderFoot {});
    }
    if let Some([outline, expected]) = remarks.plan_mismatch {
        out.add(Place::WindZones, Fact::PlanMismatch { outline, expected });
    }
}

/// What was not seen of the rules of the country.
fn from_the_rules(rules: &[(RuleValue, Evidence)], annex_c: bool, out: &mut Findings) {
    for (value, evidence) in rules {
        let value = *value;
        match (value, evidence) {
            (_, Evidence::StandIn) => out.add(Place::Whole, Fact::RuleStandsIn { value }),
            (_, Evidence::Given | Evidence::Confirmed | Evidence::OneSource) => {}
            // The table of the European maps has a finding of its own, which names it.
            (RuleValue::GroundSnow, Evidence::FromMemory) if annex_c => {}
            (_, Evidence::FromMemory) => out.add(Place::Whole, Fact::RuleFromMemory { value }),
        }
    }
}

/// What the hook's maker declares, beside what its arm bears as a bar.
fn hook(remarks: &HookRemarks, out: &mut Findings) {
    if remarks.basis_unknown {
        out.add(Place::Whole, Fact::BasisUnknown {});
    }
    if remarks.resistance_of_bar {
        out.add(Place::Whole, Fact::ResistanceOfBar {});
    }
    if remarks.stiffness_of_bar {
        out.add(Place::Whole, Fact::StiffnessOfBar {});
    }
    if let Some([declared, bar]) = remarks.stronger_than_bar {
        out.add(Place::Whole, Fact::StrongerThanBar { declared, bar });
    }
    if let Some([declared, bar]) = remarks.tested_above_bar {
        out.add(Place::Whole, Fact::TestedAboveBar { declared, bar });
    }
    if let Some([declared, bar]) = remarks.stiffer_than_bar {
        out.add(Place::Whole, Fact::StifferThanBar { declared, bar });
    }
}

fn from_the_snow(snow: &SnowRemarks, out: &mut Findings) {
    if snow.exceptional_unasked {
        out.add(Place::Snow, Fact::ExceptionalSnowUnasked {});
    }
    for guard in &snow.guards {
        out.add(Place::Snow, Fact::GuardNotComputed { obstacle: *guard });
    }
    for edge in [EdgeName::Valley, EdgeName::Abutment] {
        let of = snow.unknown_sides.iter().filter(|(_, known)| *known == edge);
        let sides: Vec<usize> = of.map(|(side, _)| *side).collect();
        if !sides.is_empty() {
            out.add(Place::Snow, Fact::DriftUnknown { sides, edge });
        }
    }
    for (obstacle, unknown) in &snow.obstacles {
        let (obstacle, unknown) = (*obstacle, *unknown);
        out.add(Place::Snow, Fact::ObstacleDriftUnknown { obstacle, unknown });
    }
    if snow.from_memory {
        out.add(Place::Snow, Fact::SnowFromMemory {});
    }
}
