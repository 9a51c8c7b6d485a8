//! Does the ledger tell the truth about the rules? Reads their sources: every public function is
//! listed, cites a clause, says how it is confirmed in the ledger's own terms, is called where the
//! ledger calls it applied, and meets a reference case or is a named gap.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use hookspan::checks::Check;
use hookspan::codes::ledger::{self, Confirmation, Usage};

/// Functions no reference case calls, and why.
const WITHOUT_A_CASE: &[(&str, &str)] = &[
    ("tr12_2015::clamped_end", "called by capacity_across_gap, which has cases"),
    ("tr12_2015::pinned_end", "called by capacity_across_gap, which has cases"),
    (
        "eurocode::en1999_1_1_2007::axial_resistance",
        "A·f_o/γ_M1 from memory; no printed example was seen",
    ),
    (
        "eurocode::en1999_1_1_2007::critical_force_by_length",
        "Euler's π²·E·I; no printed example was seen",
    ),
];

/// What the checks compare with: rules of the ledger, or, where there are none, why; and the test that
/// has one worked by hand.
const CHECKS: &[(Check, &[&str], &str)] = &[
    (
        Check::Hook, // declared by the maker, or of the arm as a bar
        &[
            "eurocode::en1993_1_1_2005::plastic_moment",
            "eurocode::en1993_1_1_2005::torsion_resistance",
        ],
        "a_hook_is_used_by_both_forces_by_hand",
    ),
    (
        Check::Bolt,
        &[
            "eurocode::en1993_1_8_2005::shear_resistance",
            "eurocode::en1993_1_8_2005::tension_resistance",
        ],
        "a_bolt_points_either_way_by_hand",
    ),
    (
        Check::Screws,
        &[
            "eurocode::en1995_1_1_2004::screws_axial::declared_withdrawal_capacity",
            "eurocode::en1995_1_1_2004::screws_lateral::lateral_capacity",
            "eurocode::en1995_1_1_2004::screws_lateral::combined_interaction",
        ],
        "pressing_pulls_the_upper_screw",
    ),
    (
        Check::FootBearing,
        &["eurocode::en1995_1_1_2004::timber::bearing_factor"],
        "a_foot_presses_into_its_timber_by_hand",
    ),
    (Check::Clearance, &[], "an_arm_uses_up_its_clearance_by_hand"), // contact with the tile
    (
        Check::RailBending,
        &[
            "eurocode::en1999_1_1_2007::bending_resistance",
            "eurocode::en1999_1_1_2007::biaxial_interaction",
        ],
        "a_rail_is_bent_about_both_axes_by_hand",
    ),
    (Check::RailDeflection, &[], "a_rail_gives_way_by_hand"), // EN 1999-1-1 leaves the limit open
    (
        Check::Splice,
        &["eurocode::en1999_1_1_2007::biaxial_interaction"],
        "a_splice_is_bent_by_hand",
    ),
    (Check::Crossing, &[], "lift_and_slide_add_up_by_hand"), // declared by the maker
    (Check::Module, &[], "a_module_and_its_clamp_are_used_by_hand"), // declared by the maker
    (Check::Clamp, &[], "a_module_and_its_clamp_are_used_by_hand"), // declared by the maker
    (Check::ClampSlip, &[], "a_clamp_slips_by_slope_force_and_lift_by_hand"), // declared by the maker
    (
        Check::Rafter,
        &[
            "eurocode::en1995_1_1_2004::timber::bending_stress",
            "eurocode::en1995_1_1_2004::timber::shear_stress",
        ],
        "a_line_load_on_half_a_span",
    ),
];

#[test]
fn every_check_rests_on_rules_or_statics_and_is_worked_by_hand() {
    let sources: String = files(Path::new("src/checks"))
        .iter()
        .map(|file| std::fs::read_to_string(file).expect("a readable file"))
        .collect();
    for check in Check::ALL {
        let row = CHECKS.iter().find(|(of, ..)| of == check);
        let (_, rules, by_hand) =
            row.unwrap_or_else(|| panic!("{} rests on nothing", check.name()));
        for rule in *rules {
            let entry = ledger::ENTRIES.iter().find(|entry| entry.function == *rule);
            assert!(entry.is_some(), "{}: {rule} is not in the ledger", check.name());
        }
        let test = format!("#[test]\n    fn {by_hand}()");
        assert!(sources.contains(&test), "{}: {by_hand} is no test", check.name());
    }
    assert_eq!(CHECKS.len(), Check::ALL.len(), "a check stands here twice");
}

/// Functions below `codes` that look something up and are no rule.
const NO_RULE: &[&str] = &["eurocode::annex::find", "eurocode::annex::revisions"];

/// A public function, or the value set of an annex, with the comment above it.
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

/// The name this line gives to a public function or to the value set of an annex.
fn public_name(line: &str) -> Option<&str> {
    let function = line.strip_prefix("pub fn ").or_else(|| line.strip_prefix("pub const fn "));
    let annex = line.strip_prefix("pub const ").filter(|rest| rest.starts_with("ANNEX:"));
    function.or(annex)?.split(['(', '<', ':']).next()
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
            if let Some(name) = public_name(line).map(str::to_owned) {
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
        let exists = functions.iter().any(|function| function.path == entry.function);
        assert!(exists, "{} is listed but does not exist", entry.function);
    }
    for function in &functions {
        let rule = !NO_RULE.contains(&&*function.path);
        assert!(
            listed.contains(&*function.path) == rule,
            "{}: no rule, or not listed",
            function.path
        );
    }
}

#[test]
fn every_clause_function_names_its_clause() {
    let rules = public_functions()
        .into_iter()
        .filter(|function| function.name != "ANNEX" && !NO_RULE.contains(&&*function.path));
    for function in rules {
        let cites = ["DB SE-AE", "EN 1", "EN 338", "NTC 2018", "TR12"]
            .iter()
            .any(|document| function.doc.contains(document));
        assert!(cites, "{} names no clause", function.path);
    }
}

/// How the paragraph of a comment opens that says how far a rule is confirmed.
const OPENINGS: [&str; 4] = ["Confirmed:", "One source", "Partly from memory:", "From memory"];

/// The opening that claims as much as the ledger does, and what the ledger rests it on.
fn claim(confirmation: Confirmation) -> (&'static str, &'static str) {
    let [confirmed, one_source, partly, from_memory] = OPENINGS;
    match confirmation {
        Confirmation::Confirmed(by) => (confirmed, by),
        Confirmation::OneSource(by) => (one_source, by),
        Confirmation::PartlyFromMemory(by) => (partly, by),
        Confirmation::FromMemory => (from_memory, ""),
    }
}

#[test]
fn the_code_and_the_ledger_claim_the_same_confirmation() {
    let functions = public_functions();
    for entry in ledger::ENTRIES {
        let (opening, by) = claim(entry.confirmed);
        let function = functions.iter().find(|function| function.path == entry.function);
        let doc = function.map(|function| &*function.doc).unwrap_or_default();
        let paragraphs = doc.split("\n\n").map(str::trim_start);
        let claims: Vec<_> = paragraphs
            .filter(|paragraph| OPENINGS.iter().any(|opening| paragraph.starts_with(opening)))
            .collect();
        let [claimed] = claims[..] else {
            panic!("{}: says {} times how it is confirmed", entry.function, claims.len());
        };
        assert!(claimed.starts_with(opening), "{}: ledger {opening}, {claimed}", entry.function);

        let firm =
            matches!(entry.confirmed, Confirmation::Confirmed(_) | Confirmation::OneSource(_));
        let remembered = claimed.contains("memory") || by.contains("memory");
        assert!(!firm || !remembered, "{}: firm, yet from memory", entry.function);
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

/// A stretch of the sources: a function at the left margin below `codes`, or the rest of a file.
struct Stretch {
    /// Path of the function below `codes`; none for the rest of a file.
    function: Option<String>,
    /// Module of the file below `codes`; empty elsewhere.
    module: String,
    /// What the file imports.
    imports: String,
    code: String,
}

/// Every stretch of `src` that is neither comment, import nor test.
fn stretches() -> Vec<Stretch> {
    let mut all = Vec::new();
    for file in files(Path::new("src")) {
        if file.ends_with("tests.rs") || file.ends_with("codes/ledger.rs") {
            continue;
        }
        let below = file.strip_prefix("src/codes").unwrap_or(Path::new("")).with_extension("");
        let module = below.to_string_lossy().replace('/', "::");
        let module = module.trim_end_matches("::mod").to_owned();

        let text = std::fs::read_to_string(&file).expect("a readable file");
        let text = text.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
        let first = all.len();
        let (mut imports, mut rest) = (String::new(), String::new());
        let mut function: Option<(String, String)> = None;
        let mut importing = false;
        for line in text.lines().map(|line| line.split("//").next().unwrap_or_default()) {
            importing |= line.trim_start().trim_start_matches("pub ").starts_with("use ");
            let target = if importing {
                importing = !line.contains(';');
                &mut imports
            } else {
                if let Some(name) = margin_function(line).filter(|_| !module.is_empty()) {
                    function = Some((format!("{module}::{name}"), String::new()));
                }
                function.as_mut().map_or(&mut rest, |(_, body)| body)
            };
            target.push_str(line);
            target.push('\n');
            if line == "}"
                && let Some((path, code)) = function.take()
            {
                all.push(Stretch {
                    function: Some(path),
                    module: module.clone(),
                    imports: String::new(),
                    code,
                });
            }
        }
        for stretch in &mut all[first..] {
            stretch.imports.clone_from(&imports);
        }
        all.push(Stretch { function: None, module, imports, code: rest });
    }
    all
}

/// The name of a function that starts on this line, at the left margin.
fn margin_function(line: &str) -> Option<&str> {
    let (before, after) = line.split_once("fn ")?;
    let margin = ["", "pub ", "const ", "pub const ", "pub(super) ", "pub(crate) "];
    margin.contains(&before).then(|| after.split(['(', '<']).next().unwrap_or_default())
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

impl Stretch {
    /// Whether this code calls the function, or hands it on by its path. A name that several modules
    /// use counts for the one before the colons, or for the one of this file.
    fn calls(&self, path: &str, shared: bool) -> bool {
        let (module, name) = path.rsplit_once("::").expect("a function in a module");
        let last = module.rsplit("::").next().unwrap_or(module);
        self.code.match_indices(name).any(|(at, _)| {
            let (before, after) = (&self.code[..at], &self.code[at + name.len()..]);
            if after.starts_with(is_word) || before.ends_with(is_word) {
                return false;
            }
            if let Some(owner) = before.strip_suffix("::") {
                let owner = owner.rsplit(|c| !is_word(c)).next().unwrap_or_default();
                let alias = [format!("{last} as {owner}"), format!("{last}::{{self as {owner}")];
                return owner == last
                    || alias.iter().any(|alias| self.imports.contains(alias.as_str()))
                    || !shared && owner.starts_with(char::is_lowercase);
            }
            let here = self.module == module;
            let imported = !shared && self.imports.split(|c| !is_word(c)).any(|word| word == name);
            let called =
                after.starts_with('(') && !before.ends_with(['.']) && !before.ends_with("fn ");
            // A table of functions, an annex say, has them as fields.
            let beside = before.trim_end_matches(' ');
            let field = after.starts_with(',') && beside.ends_with(['\n', ':']);
            (called && (here || imported)) || (field && here)
        })
    }
}

#[test]
fn the_ledger_knows_which_rules_are_applied() {
    let stretches = stretches();
    let functions: Vec<_> = stretches.iter().filter_map(|part| part.function.as_deref()).collect();
    let annexes = ledger::ENTRIES.iter().map(|entry| entry.function);
    let paths: BTreeSet<_> = functions.into_iter().chain(annexes).collect();
    let mut sharing = BTreeMap::<_, usize>::new();
    for path in &paths {
        *sharing.entry(path.rsplit("::").next()).or_default() += 1;
    }

    // What is no clause function is where requests come from; whatever it calls is applied, and so is
    // whatever an applied function calls.
    let mut applied = BTreeSet::new();
    let mut open: Vec<_> = stretches.iter().filter(|part| part.function.is_none()).collect();
    while let Some(caller) = open.pop() {
        for path in &paths {
            let shared = sharing[&path.rsplit("::").next()] > 1;
            if caller.calls(path, shared) && applied.insert(*path) {
                open.extend(stretches.iter().filter(|part| part.function.as_deref() == Some(path)));
            }
        }
    }

    let wrong: Vec<_> = ledger::ENTRIES
        .iter()
        .filter(|entry| (entry.usage == Usage::Applied) != applied.contains(entry.function))
        .map(|entry| format!("{}: the ledger says {:?}", entry.function, entry.usage))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
