//! Does the table of countries in the papers tell the truth about what was checked of them?

use std::collections::BTreeMap;
use std::fs;

use hookspan::codes::eurocode::annex;
use serde_json::Value;

use crate::case::{self, Case, Class};
use crate::count;

/// Whose rules the cases of a folder are of, by the beginning of its name.
const FOLDERS: &[(&str, &str)] = &[
    ("bfs_", "SE"),
    ("csn_", "CZ"),
    ("db_se_", "ES-CTE"),
    ("din_", "DE"),
    ("ds_", "DK"),
    ("elot_", "GR"),
    ("en1990", "EN"),
    ("en1991_1_3", "EN"),
    ("en1991_1_4", "EN"),
    ("msz_", "HU"),
    ("na_to_bs_", "GB"),
    ("nbn_", "BE"),
    ("nen_", "NL"),
    ("nf_", "FR"),
    ("np_", "PT"),
    ("ns_", "NO"),
    ("ntc_", "IT"),
    ("oenorm_", "AT"),
    ("pn_", "PL"),
    ("sfs_", "FI"),
];

/// The annex a case is of. The two of Spain share a folder, as they share maps.
fn annex_of(case: &Case) -> Option<&str> {
    let (_, code) = FOLDERS.iter().find(|(folder, _)| case.document.starts_with(folder))?;
    let named = case.inputs.get("annex").and_then(Value::as_str);
    Some(named.filter(|named| *named == "ES-UNE").unwrap_or(code))
}

/// The cells of a row of a table, without the ticks around names.
fn cells(line: &str) -> Vec<String> {
    let inner = line.trim().trim_matches('|');
    inner.split('|').map(|cell| cell.trim().replace('`', "")).collect()
}

#[test]
fn the_table_of_countries_counts_their_cases_and_names_their_jobs() {
    let papers = fs::read_to_string("README.md").expect("the papers");
    let lines = papers.lines().skip_while(|line| !line.starts_with("| annex |"));
    let mut table = lines.take_while(|line| line.starts_with('|'));
    let head = cells(table.next().expect("a table of countries"));
    let column = |name: &str| head.iter().position(|cell| cell == name).expect("a column");
    let (cases_at, jobs_at) = (column("published cases"), column("worked by hand"));
    let rows: Vec<Vec<String>> = table.skip(1).map(cells).collect();

    let cases = case::load_all("tests/reference/cases");
    let mut of_annex = BTreeMap::<&str, Vec<&Case>>::new();
    for case in &cases {
        if let Some(code) = annex_of(case) {
            of_annex.entry(code).or_default().push(case);
        }
    }
    let mut listed: Vec<&str> = rows.iter().map(|row| &*row[0]).collect();
    for row in &rows {
        let (code, told) = (&*row[0], &*row[cases_at]);
        let published = count(of_annex[code].iter().copied(), Class::Published);
        assert_eq!(told, published.to_string(), "{code}: published cases");
        for job in row[jobs_at].split(", ").filter(|job| !job.is_empty()) {
            let own = format!("tests/reference/handworked/{job}.json");
            let example = format!("tests/data/layout-{job}.json");
            let text = fs::read_to_string(own).or_else(|_| fs::read_to_string(example));
            let request: Value = serde_json::from_str(&text.expect("the job")).expect("JSON");
            assert_eq!(request["rules"]["annex"], code, "{job}");
            assert!(fs::exists(format!("tests/reference/handworked/{job}.md")).expect("a folder"));
        }
    }
    listed.sort_unstable();
    let mut known: Vec<&str> = annex::ALL.iter().map(|annex| annex.code).collect();
    known.sort_unstable();
    assert_eq!(listed, known, "each annex has one row");
}
