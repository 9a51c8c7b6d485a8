//! What requests and answers refer to: parts, warnings, rules.

use axum::extract::Path;
use axum::extract::rejection::PathRejection;
use axum::response::Response;

use crate::assessment::{CATALOGUE, Kind, ParameterKind, ValueKind};
use crate::codes::{Code, Rules, ledger};
use crate::components;
use crate::components::usual::{self, IllustrativeModule, UsualCovering, UsualLayers};
use crate::http::problem::{Problem, ProblemCode};
use crate::http::responses::{ListProblems, LookupProblems, json};
use crate::service::answer::{act, scope_name, severity};
use crate::wire::catalogue::{
    ClauseEntry, ComponentEntry, ComponentsAnswer, Confirmation, GaugeEntry,
    IllustrativeModuleEntry, ParamEntry, ParamKind, RuleSetEntry, RulesAnswer, Usage, UsualAnswer,
    UsualCoveringEntry, UsualLayersEntry, WarningEntry, WarningsAnswer,
};

/// List the embedded parts
///
/// Invented parts for trying the service out; none may be used for a real roof.
#[utoipa::path(
    get, path = "/v1/components", tag = "catalogue", operation_id = "list_components",
    responses((status = OK, description = "Every embedded part.", body = ComponentsAnswer), ListProblems),
)]
pub async fn list_components() -> Response {
    json(&ComponentsAnswer { notice: components::NOTICE, components: components::entries() })
}

/// Get one embedded part
///
/// The part in full, as a request can give it in place of the id.
#[utoipa::path(
    get, path = "/v1/components/{kind}/{id}", tag = "catalogue", operation_id = "get_component",
    params(
        ("kind" = String, Path, description = "Kind of part: `hook`, `screw`, `rail`, `clamp` or `packers`.", example = "rail"),
        ("id" = String, Path, description = "Id of the part.", example = "demo-rail-40"),
    ),
    responses((status = OK, description = "The part.", body = ComponentEntry), LookupProblems),
)]
pub async fn get_component(
    path: Result<Path<(String, String)>, PathRejection>,
) -> Result<Response, Problem> {
    let found = path.ok().and_then(|Path((kind, id))| {
        components::entries()
            .into_iter()
            .find(|entry| entry.kind().name() == kind && entry.id() == id)
    });
    match found {
        Some(entry) => Ok(json(&entry)),
        None => Err(Problem::new(
            ProblemCode::NotFound,
            "There is no embedded part of this kind and id; GET /v1/components lists all.",
        )),
    }
}

/// Pitch at which usual coverings are shown, degrees.
const SHOWN_AT_DEG: f64 = 40.0;

/// List usual coverings, build-ups and illustrative modules
///
/// What a request may name by id instead of giving it in full. What is taken from here is listed among
/// the assumptions of the answer, and its data are incomplete until somebody has measured it.
#[utoipa::path(
    get, path = "/v1/usual", tag = "catalogue", operation_id = "list_usual",
    responses((status = OK, description = "Everything that has an id.", body = UsualAnswer), ListProblems),
)]
pub async fn list_usual() -> Response {
    let covering = |of: &UsualCovering| UsualCoveringEntry {
        id: of.id,
        about: of.about,
        source: of.source,
        shown_at_pitch_deg: SHOWN_AT_DEG,
        covering: of.laid(SHOWN_AT_DEG),
        gauges: of
            .gauges()
            .map(|(up_to_pitch_deg, gauge_mm)| GaugeEntry { up_to_pitch_deg, gauge_mm })
            .collect(),
    };
    let layers = |of: &UsualLayers| UsualLayersEntry {
        id: of.id,
        about: of.about,
        source: of.source,
        layers: of.built(),
    };
    let module = |of: &IllustrativeModule| IllustrativeModuleEntry {
        id: of.id,
        about: of.about,
        module: of.whole(),
    };
    json(&UsualAnswer {
        notice: usual::NOTICE,
        coverings: usual::COVERINGS.iter().map(covering).collect(),
        layers: usual::LAYERS.iter().map(layers).collect(),
        modules: usual::MODULES.iter().map(module).collect(),
    })
}

/// List the warnings
///
/// Every code an answer's `warnings` can carry. Codes are stable.
#[utoipa::path(
    get, path = "/v1/warnings", tag = "catalogue", operation_id = "list_warnings",
    responses((status = OK, description = "Every kind of warning.", body = WarningsAnswer), ListProblems),
)]
pub async fn list_warnings() -> Response {
    let warnings = CATALOGUE.iter().map(warning).collect();
    json(&WarningsAnswer { warnings })
}

fn warning(kind: &Kind) -> WarningEntry {
    WarningEntry {
        code: kind.code,
        severity: severity(kind.severity),
        meaning: kind.meaning,
        scopes: kind.scopes.iter().map(|scope| scope_name(*scope)).collect(),
        acts: kind.acts.iter().map(|of| act(*of)).collect(),
        source: kind.source,
        params: kind.parameters.iter().map(param).collect(),
    }
}

fn param(parameter: &ParameterKind) -> ParamEntry {
    let ParameterKind { name, kind, meaning, .. } = *parameter;
    ParamEntry { name, kind: param_kind(kind), unit: kind.unit(), meaning }
}

const fn param_kind(kind: ValueKind) -> ParamKind {
    match kind {
        ValueKind::Length
        | ValueKind::Force
        | ValueKind::Pressure
        | ValueKind::LineLoad
        | ValueKind::Stiffness
        | ValueKind::Density
        | ValueKind::Area
        | ValueKind::Section
        | ValueKind::Angle
        | ValueKind::Percent
        | ValueKind::Utilisation
        | ValueKind::Share => ParamKind::Number,
        ValueKind::Flag => ParamKind::Flag,
        ValueKind::Count => ParamKind::Integer,
        ValueKind::Name => ParamKind::Text,
        ValueKind::Names => ParamKind::Texts,
        ValueKind::Numbers => ParamKind::Integers,
    }
}

/// List the rules
///
/// Rule sets with the revision a request can pin, and every clause with how far it is confirmed and
/// whether answers rest on it.
#[utoipa::path(
    get, path = "/v1/rules", tag = "catalogue", operation_id = "list_rules",
    responses((status = OK, description = "Rule sets and clauses.", body = RulesAnswer), ListProblems),
)]
pub async fn list_rules() -> Response {
    let rule_sets = Rules::all()
        .map(|rules| RuleSetEntry {
            family: rules.family(),
            annex: rules.annex(),
            title: rules.title(),
            revision: rules.revision(),
            earlier_revisions: rules.revisions().skip(1).map(|rules| rules.revision()).collect(),
        })
        .collect();
    json(&RulesAnswer { rule_sets, clauses: ledger::ENTRIES.iter().map(clause).collect() })
}

fn clause(entry: &ledger::Entry) -> ClauseEntry {
    let (confirmed, confirmed_by) = match entry.confirmed {
        ledger::Confirmation::Confirmed(by) => (Confirmation::Confirmed, Some(by)),
        ledger::Confirmation::OneSource(by) => (Confirmation::OneSource, Some(by)),
        ledger::Confirmation::PartlyFromMemory(by) => (Confirmation::PartlyFromMemory, Some(by)),
        ledger::Confirmation::FromMemory => (Confirmation::FromMemory, None),
    };
    ClauseEntry {
        document: entry.clause.document,
        number: entry.clause.number,
        quantity: entry.quantity,
        function: entry.function,
        confirmed,
        confirmed_by,
        usage: match entry.usage {
            ledger::Usage::Applied => Usage::Applied,
            ledger::Usage::Available => Usage::Available,
        },
    }
}
