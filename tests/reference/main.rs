//! Do we agree with the world? Runs every case in `cases/` against the crate.
//!
//! A new case is one more entry in a JSON file; a new kind is one more arm in `kinds/`.

mod case;
mod kinds;

use std::collections::BTreeSet;

use case::{Case, Inputs};

/// Least number of checks that must rest on sources outside this project.
const OUTSIDE_CHECKS: usize = 60;

/// One check is one expected value of one case; rows that restate one result are one check.
fn checks<'a>(cases: impl Iterator<Item = &'a Case>) -> usize {
    let mut distinct = BTreeSet::new();
    for case in cases {
        match &case.one_check {
            Some(group) => {
                distinct.insert((group.as_str(), ""));
            }
            None => distinct.extend(case.expected.keys().map(|name| (&*case.id, name.as_str()))),
        }
    }
    distinct.len()
}

#[test]
fn every_reference_case_agrees_with_its_source() {
    let cases = case::load_all("tests/reference/cases");
    assert!(!cases.is_empty(), "no case was found, so nothing was checked");

    let mut disagreements = Vec::new();
    let mut ids = BTreeSet::new();
    for case in &cases {
        if !ids.insert(&case.id) {
            disagreements.push(format!("{}: the id is used twice", case.id));
        }
        if case.expected.is_empty() {
            disagreements.push(format!("{}: expects nothing", case.id));
        }
        let inputs = Inputs::new(&case.inputs);
        let computed = kinds::compute(&case.kind, &inputs);
        for (name, expected) in &case.expected {
            match computed.get(name) {
                Some(value) if expected.accepts(*value) => {}
                other => disagreements.push(format!(
                    "{}: {name} is {other:?}, expected {expected:?}\n    source: {}",
                    case.id, case.source,
                )),
            }
        }
        for unread in inputs.unread() {
            disagreements.push(format!("{}: nobody reads the input {unread}", case.id));
        }
    }
    assert!(disagreements.is_empty(), "\n{}", disagreements.join("\n"));

    let outside = checks(cases.iter().filter(|case| case.origin.is_outside()));
    let own = checks(cases.iter().filter(|case| !case.origin.is_outside()));
    println!("{} cases: {outside} outside checks, {own} checks of our own", cases.len());
    let origins: BTreeSet<_> = cases.iter().map(|case| case.origin).collect();
    for origin in origins {
        let of_this = checks(cases.iter().filter(|case| case.origin == origin));
        println!("  {origin:?}: {of_this}");
    }
    assert!(outside >= OUTSIDE_CHECKS, "only {outside} checks rest on outside sources");
}
