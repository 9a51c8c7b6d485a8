//! Do we agree with the world? Runs every case in `cases/` against the crate, and counts what the
//! agreement is worth.
//!
//! A case is **published** when somebody outside this project printed its value or a program of
//! theirs gave it, with the digits they show; an **own derivation** when we worked the value out, be
//! it from a printed formula; a **pin** when it is our own answer of another day. Only published
//! cases are evidence that a rule was read rightly: each document has a floor of them, which
//! derivations and pins never help to reach.
//! `cargo test --test reference -- --nocapture` prints the counts.
//!
//! A new case is one more entry in a JSON file, in the folder of its document; a new kind is one more
//! arm in `kinds/`.

mod case;
mod collected;
mod countries;
mod handworked;
mod kinds;

use std::collections::{BTreeMap, BTreeSet};

use case::{Case, Class, Inputs};

/// Least number of published cases of each document: those there are. A new published case raises
/// the floor; only a case found wanting may lower it, and the commit says why.
const FLOORS: &[(&str, usize)] = &[
    ("bfs_2024_6", 4),
    ("covering", 14),
    ("csn_en_1991_1_3_na", 7),
    ("csn_en_1991_1_4_na", 5),
    ("db_se_ae", 56),
    ("din_en_1991_1_3_na", 7),
    ("din_en_1991_1_4_na", 28),
    ("ds_en_1990_dk_na", 4),
    ("ds_en_1991_1_4_dk_na", 7),
    ("elot_en_1991_1_3_na", 4),
    ("elot_en_1991_1_4_na", 2),
    ("en1990", 13),
    ("en1991_1_1", 0), // from memory, no source found yet
    ("en1991_1_3", 12),
    ("en1991_1_4", 211),
    ("en1993_1_1", 16),
    ("en1993_1_8", 32),
    ("en1995_1_1", 34),
    ("en1999_1_1", 0), // written from memory, no source found yet
    ("en338", 9),
    ("mechanics", 15),
    ("models", 0), // our own, worked apart from this code
    ("msz_en_1991_1_3_na", 2),
    ("na_to_bs_en_1991_1_3", 6),
    ("na_to_bs_en_1991_1_4", 6),
    ("nbn_en_1991_1_3_anb", 1),
    ("nds", 12),
    ("nen_en_1990_nb", 3),
    ("nen_en_1991_1_3_nb", 1),
    ("nen_en_1991_1_4_nb", 18),
    ("nf_en_1991_1_3_na", 17),
    ("nf_en_1991_1_4_na", 13),
    ("np_en_1991_1_3_na", 3),
    ("np_en_1991_1_4_na", 7),
    ("ns_en_1991_1_4_na", 8),
    ("ntc_2018", 73),
    ("oenorm_b_1991_1_3", 5),
    ("oenorm_b_1991_1_4", 3),
    ("pn_en_1991_1_3_na", 5),
    ("pn_en_1991_1_4_na", 6),
    ("sfs_en_1991_1_4_na", 1),
    ("tr12", 7),
];

/// Words by which a source gives itself away as ours.
const OURS: &[&str] =
    &["from memory", "worked out", "by hand", "halfway", "as the case", "our own"];

/// Distinct cases of a class; rows that restate one result are one case.
fn count<'a>(cases: impl IntoIterator<Item = &'a Case>, class: Class) -> usize {
    let of_class = cases.into_iter().filter(|case| case.origin.class() == class);
    of_class.map(|case| case.one_check.as_ref().unwrap_or(&case.id)).collect::<BTreeSet<_>>().len()
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
}

#[test]
fn every_document_keeps_its_published_cases() {
    let cases = case::load_all("tests/reference/cases");
    let mut documents = BTreeMap::<_, Vec<_>>::new();
    for case in &cases {
        documents.entry(&*case.document).or_default().push(case);
    }

    println!("{:<22}{:>10}{:>16}{:>6}", "document", "published", "own derivations", "pins");
    for (document, cases) in &documents {
        let [published, own, pins] = Class::ALL.map(|class| count(cases.iter().copied(), class));
        println!("{document:<22}{published:>10}{own:>16}{pins:>6}");
    }
    let [published, own, pins] = Class::ALL.map(|class| count(&cases, class));
    println!("{:<22}{published:>10}{own:>16}{pins:>6}", "all");

    let floors: BTreeMap<_, _> = FLOORS.iter().copied().collect();
    assert_eq!(
        floors.keys().collect::<Vec<_>>(),
        documents.keys().collect::<Vec<_>>(),
        "each document needs one floor, and each floor a document"
    );
    for (document, cases) in &documents {
        let (published, floor) = (count(cases.iter().copied(), Class::Published), floors[document]);
        assert!(published >= floor, "{document}: {published} published cases, floor {floor}");
    }
}

#[test]
fn no_published_case_owns_up_to_our_own_arithmetic() {
    for case in case::load_all("tests/reference/cases") {
        let source = case.source.to_lowercase();
        let ours = OURS.iter().find(|words| source.contains(*words));
        let published = case.origin.class() == Class::Published;
        assert!(!published || ours.is_none(), "{}: published, yet {ours:?}: {source}", case.id);
    }
}
