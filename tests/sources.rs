//! Does the ledger tell the truth about the rules? Reads their sources: every public function is
//! listed, cites a clause and how it is confirmed, and meets a reference case or is a named gap.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use hookspan::codes::ledger;

/// Functions no reference case calls, and why.
const WITHOUT_A_CASE: &[(&str, &str)] = &[
    ("tr12_2015::clamped_end", "called by capacity_across_gap, which has cases"),
    ("tr12_2015::pinned_end", "called by capacity_across_gap, which has cases"),
];

/// A public function with the comment above it.
struct Function {
    path: String,
    name: String,
    doc: String,
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).expect("a readable folder") {
        let path = entry.expect("a readable folder").path();
        if path.is_dir() {
            found.extend(files(&path));
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// Free public functions stand at the left margin; methods, which only read names, do not.
fn public_functions() -> Vec<Function> {
    let root = Path::new("src/codes");
    let mut functions = Vec::new();
    for file in files(root) {
        let below = file.strip_prefix(root).expect("below the root").with_extension("");
        let module = below.to_string_lossy().replace('/', "::");
        let module = module.trim_end_matches("::mod").to_owned();
        let mut doc = String::new();
        for line in std::fs::read_to_string(&file).expect("a readable file").lines() {
            if let Some(comment) = line.strip_prefix("///") {
                doc.push_str(comment);
                doc.push('\n');
                continue;
            }
            let rest = line.strip_prefix("pub fn ").or_else(|| line.strip_prefix("pub const fn "));
            if let Some(rest) = rest {
                let name = rest.split(['(', '<']).next().unwrap_or_default().to_owned();
                functions.push(Function {
                    path: format!("{module}::{name}"),
                    name,
                    doc: std::mem::take(&mut doc),
                });
            } else if !line.starts_with("#[") {
                doc.clear();
            }
        }
    }
    assert!(
        functions.len() > 50,
        "only {} functions found: is the search broken?",
        functions.len()
    );
    functions
}

#[test]
fn every_public_function_is_in_the_ledger_once() {
    let functions = public_functions();
    let mut listed = BTreeSet::new();
    for entry in ledger::ENTRIES {
        assert!(listed.insert(entry.function), "{} is listed twice", entry.function);
        let exists = functions.iter().any(|function| function.path == entry.function)
            || entry.function.ends_with("::ANNEX");
        assert!(exists, "{} is listed but does not exist", entry.function);
    }
    for function in &functions {
        assert!(listed.contains(&*function.path), "{} is not in the ledger", function.path);
    }
}

#[test]
fn every_clause_function_says_how_it_is_confirmed() {
    let functions = public_functions();
    for function in functions.iter().filter(|function| function.path != "eurocode::annex::find") {
        let doc = &function.doc;
        let cites = ["EN 1", "EN 338", "TR12"].iter().any(|document| doc.contains(document));
        assert!(cites, "{} names no clause", function.path);
        let honest = ["Confirmed", "From memory", "as [`roof_coefficients`]"];
        assert!(honest.iter().any(|word| doc.contains(word)), "{}: confirmed?", function.path);
    }
}

#[test]
fn every_function_meets_a_reference_case_or_is_a_named_gap() {
    let kinds: String = files(Path::new("tests/reference/kinds"))
        .iter()
        .map(|file| std::fs::read_to_string(file).expect("a readable file"))
        .collect();
    for function in public_functions() {
        let named = |text: &str| text.contains(&*function.name);
        let gap = WITHOUT_A_CASE.iter().any(|(path, _)| *path == function.path);
        assert!(named(&kinds) != gap, "{}: has a case and is a gap, or neither", function.path);
    }
}
