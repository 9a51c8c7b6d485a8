//! An assessment as the answer shows it: findings in the reader's language, verdicts, and what would
//! lift what is incomplete.

use std::collections::{BTreeMap, HashMap};

use crate::assessment::{
    self, Assessment, Assumed, EdgeName, Fact, Finding, ObstacleUnknown, Place, RuleValue, Scope,
    Value,
};
use crate::language::{Reader, assumptions, findings, headline};
use crate::service::rounding::{factor, load, mm, utilisation};
use crate::wire::declarations::{Act, DeclaredBy, TakenOver};
use crate::wire::provenance::{Assumption, Provenance, WeakestProvenance};
use crate::wire::remarks::{Cause, MissingInput, Param, Plain, Severity, Verdict, Warning};
use crate::wire::scopes::{ScopeName, ScopeVerdict, Verdicts};

use super::element_names::ElementNames;

/// An assessment with the names its findings have in the answer.
#[derive(Debug)]
pub struct Told<'a> {
    assessment: &'a Assessment,
    named: Vec<Named>,
}

/// What a finding is called.
#[derive(Debug)]
struct Named {
    id: String,
    element: Option<String>,
}

impl<'a> Told<'a> {
    /// The assessment of a job whose elements have these names.
    pub fn of(assessment: &'a Assessment, elements: &ElementNames) -> Self {
        let mut named: Vec<Named> = Vec::with_capacity(assessment.findings.len());
        let mut used: HashMap<String, usize> = HashMap::new();
        for finding in &assessment.findings {
            let element = elements.of(finding.place);
            let about = element.clone().unwrap_or_else(|| pointer(finding.place));
            let code = finding.kind().code;
            let mut id = if about.is_empty() { code.to_owned() } else { format!("{code}@{about}") };
            let times = used.entry(id.clone()).or_default();
            *times += 1;
            if *times > 1 {
                id = format!("{id}#{times}");
            }
            named.push(Named { id, element });
        }
        Self { assessment, named }
    }

    /// What a finding of this assessment is called.
    fn named(&self, finding: &Finding) -> Option<&Named> {
        let at = self.assessment.findings.iter().position(|own| std::ptr::eq(own, finding))?;
        self.named.get(at)
    }

    /// The findings by cause, most serious first.
    pub fn causes(&self, reader: Reader) -> Vec<Cause> {
        let cause = |cause: &assessment::Cause<'_>| {
            let kind = cause.kind();
            let mut paths: Vec<String> = Vec::new();
            for path in cause.findings().map(|finding| pointer(finding.place)) {
                if !paths.contains(&path) {
                    paths.push(path);
                }
            }
            let named = cause.findings().filter_map(|finding| self.named(finding));
            Cause {
                code: kind.code,
                severity: severity(kind.severity),
                scopes: kind.scopes.iter().map(|scope| scope_name(*scope)).collect(),
                line: headline::line(cause, reader),
                paths,
                findings: named.map(|named| named.id.clone()).collect(),
            }
        };
        self.assessment.causes().iter().map(cause).collect()
    }

    /// The findings, most serious first.
    pub fn warnings(&self, reader: Reader) -> Vec<Warning> {
        let findings = self.assessment.findings.iter().zip(&self.named);
        findings.map(|(finding, named)| warning(finding, named, reader)).collect()
    }

    /// What would lift the verdict on the scopes that were asked where something that decides did not
    /// run: each check once at each place.
    pub fn missing(&self, reader: Reader) -> Vec<MissingInput> {
        let mut out: Vec<MissingInput> = Vec::new();
        for finding in self.assessment.that_matter() {
            let fact = &finding.fact;
            let kind = fact.kind();
            let Some(first) = fact.act() else { continue };
            for pointer in lifted_at(fact) {
                if out.iter().any(|known| known.pointer == pointer && known.check == kind.code) {
                    continue;
                }
                out.push(MissingInput {
                    finding: self.named(finding).map(|named| named.id.clone()),
                    check: kind.code,
                    act: act(first),
                    declarable: kind.yields_to(assessment::DeclaredBy::Approved),
                    pointer,
                    why: findings::sentence(fact, reader),
                });
            }
        }
        out
    }
}

fn warning(finding: &Finding, named: &Named, reader: Reader) -> Warning {
    let kind = finding.kind();
    let parameters = finding.fact.parameters().into_iter();
    Warning {
        id: named.id.clone(),
        code: kind.code,
        severity: severity(kind.severity),
        message: findings::sentence(&finding.fact, reader),
        path: pointer(finding.place),
        element: named.element.clone(),
        pointer: lifted_at(&finding.fact).into_iter().next(),
        params: parameters.map(|(name, value)| (name, param(value))).collect::<BTreeMap<_, _>>(),
        source: kind.source.to_owned(),
    }
}

/// A value as a member of an answer.
pub fn param(value: Value) -> Param {
    match value {
        Value::Length(length) => Param::Number(mm(length.mm())),
        Value::Force(force) => Param::Number(load(force.kn())),
        Value::Pressure(pressure) => Param::Number(load(pressure.kn_per_m2())),
        Value::Angle(angle) => Param::Number(factor(angle.deg())),
        Value::Utilisation(used) => Param::Number(utilisation(used.written())),
        Value::Share(share) | Value::Percent(share) => Param::Number(load(share)),
        Value::LineLoad(line) => Param::Number(load(line.kn_per_m())),
        Value::Stiffness(stiffness) => Param::Number(load(stiffness.kn_per_mm())),
        Value::Density(density) => Param::Number(factor(density.kg_per_m3())),
        Value::Area(area) => Param::Number(load(area.m2())),
        Value::Section(area) => Param::Number(mm(area.mm2())),
        Value::Flag(flag) => Param::Flag(flag),
        Value::Count(count) => Param::Integer(count),
        Value::Name(name) => Param::Text(name),
        Value::Names(names) => Param::Texts(names),
        Value::Numbers(numbers) => Param::Integers(numbers),
    }
}

/// What was assumed, where the caller could have said otherwise.
pub fn assumption(pointer: &str, assumed: &Assumed, reader: Reader) -> Assumption {
    let value = assumed.value();
    Assumption {
        code: assumed.code(),
        pointer: pointer.to_owned(),
        unit: value.as_ref().and_then(|value| value.kind().unit()),
        value: value.map(|value| Plain(param(value))),
        said: assumptions::value(assumed, reader),
        why: assumptions::why(assumed, reader),
    }
}

/// The weakest provenance among the values that are marked.
pub fn weakest_provenance(
    marked: &[(String, assessment::Provenance)],
) -> Option<WeakestProvenance> {
    let (weakest, values) = assessment::weakest(marked)?;
    let weakest = match weakest {
        assessment::Provenance::Measured => Provenance::Measured,
        assessment::Provenance::Inferred => Provenance::Inferred,
        assessment::Provenance::Assumed => Provenance::Assumed,
    };
    Some(WeakestProvenance { weakest, values })
}

/// A severity in the words of answers.
#[must_use]
pub const fn severity(severity: assessment::Severity) -> Severity {
    match severity {
        assessment::Severity::Failure => Severity::Failure,
        assessment::Severity::Incomplete => Severity::Incomplete,
        assessment::Severity::Warning => Severity::Warning,
        assessment::Severity::Notice => Severity::Notice,
    }
}

/// A verdict in the words of answers.
pub const fn verdict(verdict: assessment::Verdict) -> Verdict {
    match verdict {
        assessment::Verdict::Holds => Verdict::Holds,
        assessment::Verdict::HoldsWithWarnings => Verdict::HoldsWithWarnings,
        assessment::Verdict::Incomplete => Verdict::Incomplete,
        assessment::Verdict::Fails => Verdict::Fails,
    }
}

/// The verdicts by scope.
pub fn verdicts(verdicts: assessment::Verdicts) -> Verdicts {
    let on = |scope| match verdicts.on(scope) {
        Some(assessment::Verdict::Holds) => ScopeVerdict::Holds,
        Some(assessment::Verdict::HoldsWithWarnings) => ScopeVerdict::HoldsWithWarnings,
        Some(assessment::Verdict::Incomplete) => ScopeVerdict::Incomplete,
        Some(assessment::Verdict::Fails) => ScopeVerdict::Fails,
        None => ScopeVerdict::NotAssessed,
    };
    Verdicts {
        fixing: on(Scope::Fixing),
        rail: on(Scope::Rail),
        modules: on(Scope::Modules),
        rafters: on(Scope::Rafters),
        covering: on(Scope::Covering),
        data: on(Scope::Data),
    }
}

/// A scope in the words of answers.
#[must_use]
pub const fn scope_name(scope: Scope) -> ScopeName {
    match scope {
        Scope::Fixing => ScopeName::Fixing,
        Scope::Rail => ScopeName::Rail,
        Scope::Modules => ScopeName::Modules,
        Scope::Rafters => ScopeName::Rafters,
        Scope::Covering => ScopeName::Covering,
        Scope::Data => ScopeName::Data,
    }
}

/// An act in the words of answers.
#[must_use]
pub const fn act(act: assessment::Act) -> Act {
    match act {
        assessment::Act::Measure => Act::Measure,
        assessment::Act::AskMaker => Act::AskMaker,
        assessment::Act::AskEngineer => Act::AskEngineer,
        assessment::Act::LookUp => Act::LookUp,
        assessment::Act::Change => Act::Change,
        assessment::Act::Declare => Act::Declare,
        assessment::Act::Prove => Act::Prove,
    }
}

/// The declarations that took a check over.
pub fn declarations(assessment: &Assessment, reader: Reader) -> Vec<TakenOver> {
    let all = assessment.taken_over.iter();
    all.map(|assessment::TakenOver { declaration, findings }| TakenOver {
        check: declaration.check.code,
        scopes: declaration.check.scopes.iter().map(|scope| scope_name(*scope)).collect(),
        by: declared_by(declaration.by),
        who: declaration.who.clone(),
        document: declaration.document.clone(),
        instead_of: findings.iter().map(|f| findings::sentence(&f.fact, reader)).collect(),
    })
    .collect()
}

const fn declared_by(by: assessment::DeclaredBy) -> DeclaredBy {
    match by {
        assessment::DeclaredBy::Tested => DeclaredBy::Tested,
        assessment::DeclaredBy::Approved => DeclaredBy::Approved,
        assessment::DeclaredBy::OtherParty => DeclaredBy::OtherParty,
        assessment::DeclaredBy::NotApplicable => DeclaredBy::NotApplicable,
    }
}

/// Pointer into the answer.
fn pointer(place: Place) -> String {
    match place {
        Place::Whole => String::new(),
        Place::Rails => "/rails".to_owned(),
        Place::Rail(rail) => format!("/rails/{rail}"),
        Place::Segment(rail, segment) => format!("/rails/{rail}/segments/{segment}"),
        Place::Hooks => "/hooks".to_owned(),
        Place::Hook(hook) => format!("/hooks/{hook}"),
        Place::Modules => "/modules".to_owned(),
        Place::Module(module) => format!("/modules/{module}"),
        Place::Rafters => "/rafters".to_owned(),
        Place::Rafter(rafter) => format!("/rafters/{rafter}"),
        Place::Covering => "/covering".to_owned(),
        Place::Snow => "/actions/snow".to_owned(),
        Place::WindZones => "/actions/wind/zones".to_owned(),
        Place::Cutting => "/parts/cutting".to_owned(),
        Place::Survey(of) => format!("/surveyed/{of}"),
        Place::SurveyLine(of) => format!("/surveyed/{of}/line"),
        Place::SurveyHook(of, hook) => format!("/surveyed/{of}/hooks/{hook}"),
        Place::SurveyObstruction(of) => format!("/surveyed/{of}/obstruction"),
    }
}

/// Where in the request what did not run can be supplied or changed; what only a structural engineer
/// can settle points at what he has to look at. A survey names by itself what it lacks.
fn lifted_at(fact: &Fact) -> Vec<String> {
    let one = |pointer: &str| vec![pointer.to_owned()];
    match fact {
        Fact::PackingNotDecided { .. } => one("/components/packers"),
        Fact::FootRolls { .. } => one("/wishes/max_utilisation"),
        Fact::HoldAlongUnknown { .. } => one("/array/rails_held_by"),
        Fact::HoldOfOneUnknown { .. } => one("/components/rail/groove_slip_kn"),
        Fact::SplicePlacesUnknown {} => one("/components/rail/splice_moment"),
        Fact::ScrewOutsideRules { declared: true, .. } | Fact::RollUnderRailUpSlope { .. } => {
            one("/components/hook/foot/screws_mm")
        }
        Fact::RaftersUnmeasured { .. } => one("/roof/rafters/positions_mm"),
        // It stands at the hooks it was found at, under a name of its own in every kind of request.
        Fact::RafterSplit { .. } => one("/roof/rafters"),
        Fact::RafterTrussed {} => one("/roof/rafters/trussed"),
        Fact::RafterNotVerified {} => one("/roof/rafters/span_m"),
        Fact::RafterCut { obstacle, .. } => {
            one(&format!("/roof/obstacles/{obstacle}/cuts_rafters"))
        }
        Fact::EdgeNotComputed { sides, .. } | Fact::EdgeWindOnRafters { sides } => {
            sides.iter().map(|side| format!("/roof/edges/{side}")).collect()
        }
        Fact::DriftUnknown { edge: EdgeName::Valley, .. } => one("/roof/valleys"),
        Fact::DriftUnknown { .. } => one("/roof/abutments"),
        Fact::ObstacleDriftUnknown { obstacle, unknown } => {
            let member = match unknown {
                ObstacleUnknown::Height => "height_mm",
                ObstacleUnknown::Drift => "drift_shape_factor",
            };
            one(&format!("/roof/obstacles/{obstacle}/{member}"))
        }
        Fact::ExceptionalSnowUnasked {} => one("/site/snow/exceptional"),
        Fact::RuleStandsIn { value } => one(match value {
            RuleValue::GroundSnow => "/site/snow/ground_load_kn_per_m2",
            RuleValue::ExceptionalSnow => "/site/snow/exceptional_load_kn_per_m2",
            RuleValue::PeakPressure => "/site/wind/peak_pressure_kn_per_m2",
            RuleValue::WindCoefficients => "/site/wind/net_coefficients",
            RuleValue::SnowDrifts | RuleValue::CombinationFactors => "/rules/annex",
        }),
        Fact::GuardNotComputed { .. } => one("/site/snow_held"),
        Fact::ValuesAssumed { values } => values.clone(),
        Fact::FireDistanceUnknown { .. } => one("/roof/party_walls"),
        Fact::UnderlayNotEnough { .. } => one("/roof/covering/underlay"),
        Fact::HooksThroughLaps { .. } => one("/roof/covering/hook_passage"),
        Fact::InsulationUnderFoot {} => one("/roof/layers/insulation_mm"),
        Fact::ShortSideZoneUnknown { place: Some(field), .. } => {
            one(&format!("/array/fields/{field}/module/short_side_clamp_zone_mm"))
        }
        Fact::InventedParts { place: Some(field), .. } => {
            one(&format!("/array/fields/{field}/module"))
        }
        Fact::InventedParts { parts, place: None } => {
            let kind = |part: &String| part.split(' ').next().unwrap_or_default().to_owned();
            let at = |kind: String| match kind.as_str() {
                "module" => "/array/module".to_owned(),
                kind => format!("/components/{kind}"),
            };
            parts.iter().map(|part| at(kind(part))).collect()
        }
        // What is left the maker of a part has to state, or nothing is missing at all.
        _ => {
            let incomplete = fact.kind().severity == assessment::Severity::Incomplete;
            let usual = fact.kind().stated_at.first().filter(|_| incomplete);
            usual.into_iter().map(|member| (*member).to_owned()).collect()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::samples;
    use crate::language::members;
    use crate::service::answer::survey::NOT_MEASURED;

    #[test]
    fn whatever_is_incomplete_names_what_would_lift_it() {
        for fact in samples(true) {
            let kind = fact.kind();
            let incomplete = kind.severity == assessment::Severity::Incomplete;
            let named = !lifted_at(&fact).is_empty() || kind.code == NOT_MEASURED;
            assert!(named || !incomplete, "{}", kind.code);
            assert!(incomplete || lifted_at(&fact).is_empty(), "{}", kind.code);
        }
    }

    /// Paper tells in words where that is, the very member and not only what it belongs to.
    #[test]
    fn whatever_is_incomplete_has_its_place_in_words() {
        for fact in samples(true) {
            for pointer in lifted_at(&fact) {
                let sample = pointer.contains("A1-");
                assert!(sample || members::is_named(&pointer), "{pointer}");
            }
        }
    }

    /// What a fact is said to come with is what it comes with, under the very names.
    #[test]
    fn the_catalogue_names_the_parameters_there_are() {
        for fact in samples(true) {
            let names: Vec<&str> = fact.parameters().iter().map(|(name, _)| *name).collect();
            let listed: Vec<&str> = fact.kind().parameters.iter().map(|p| p.name).collect();
            assert_eq!(names, listed, "{}", fact.kind().code);
        }
    }
}
