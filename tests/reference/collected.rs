//! What became of the worked examples that were collected from public sources before their rules were
//! written, by the number each was filed under: `collected.json` names the cases that repeat it, or the reason
//! why none does.
//!
//! Every figure of an example is among those its cases expect, or is listed with the reason. So a case that is
//! dropped, and one whose value is changed to suit the code, is missed here.

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;

use crate::case::{self, Case, Expected};

/// How many examples were collected: none gets lost.
const COLLECTED: usize = 162;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Collected {
    wired: Vec<Wired>,
    left_out: Vec<LeftOut>,
}

/// An example that cases repeat.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Wired {
    id: String,
    cases: Vec<String>,
    /// Its figures, as its source has them.
    figures: BTreeMap<String, f64>,
    /// Further figures, and why no case expects them.
    #[serde(default)]
    not_compared: BTreeMap<String, String>,
}

/// Examples that no case repeats.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LeftOut {
    reason: String,
    ids: Vec<String>,
}

/// Whether a case expects a figure, which may be told in thousands or thousandths of the unit of the case, and
/// as lift with its sign turned. Some cases have more digits than were collected.
fn expects(case: &Case, figure: f64) -> bool {
    let as_told = [1.0, 1e3, 1e-3, -1.0].map(|scale| figure * scale);
    let same = |expected: &Expected, told: f64| {
        expected.accepts(told) || (told - expected.value()).abs() <= 1e-4 * told.abs()
    };
    case.expected.values().any(|expected| as_told.iter().any(|told| same(expected, *told)))
}

#[test]
fn every_collected_example_is_wired_or_left_out_for_a_reason() {
    let all: Collected =
        serde_json::from_str(include_str!("collected.json")).expect("a list of examples");
    let cases = case::load_all("tests/reference/cases");
    let by_id: BTreeMap<&str, &Case> = cases.iter().map(|case| (&*case.id, case)).collect();
    let mut trouble = Vec::new();

    for example in &all.wired {
        let id = &example.id;
        let found: Vec<&Case> =
            example.cases.iter().filter_map(|case| by_id.get(&**case).copied()).collect();
        if found.is_empty() || found.len() < example.cases.len() {
            trouble.push(format!("{id}: not all of {:?} are there", example.cases));
        }
        for (name, figure) in &example.figures {
            if !found.iter().any(|case| expects(case, *figure)) {
                trouble.push(format!("{id}: none of its cases expects {name} to be {figure}"));
            }
        }
        if example.figures.is_empty() && !found.iter().any(|case| expects(case, 1.0)) {
            trouble.push(format!("{id}: nothing of it is compared"));
        }
        let why = example.not_compared.iter().filter(|(_, why)| why.is_empty());
        trouble.extend(why.map(|(name, _)| format!("{id}: no reason for {name}")));
    }
    let unexplained = all.left_out.iter().filter(|left| left.reason.is_empty());
    trouble.extend(unexplained.map(|left| format!("no reason for {:?}", left.ids)));

    let wired = all.wired.iter().map(|example| &example.id);
    let ids: Vec<&String> = wired.chain(all.left_out.iter().flat_map(|left| &left.ids)).collect();
    assert_eq!(ids.len(), COLLECTED);
    assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), COLLECTED, "an example is there twice");
    assert!(trouble.is_empty(), "\n{}", trouble.join("\n"));
}
