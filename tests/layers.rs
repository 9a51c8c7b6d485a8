//! The house stands: every module names only what lies below it.
//!
//! `{main, verify, report, solve, http} → service → drawing → language → assessment → {parts, survey} → placement →
//! checks → {covering, codes, mechanics} → {roof, hardware, geometry} → units`; the wire (`wire`) and
//! the embedded parts (`components`) stand beside the tower and are seen from its top alone. Within
//! a room no two files import each other, not even by way of others. The sources are read as text,
//! so a path to another room is always written `crate::…`, one room at a time.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use hookspan::codes::{Code, Rules};

/// Every room of `src` and the rooms it may name. A new room needs a row.
#[rustfmt::skip]
const MAY_NAME: &[(&str, &[&str])] = &[
    ("main",       &[]), // names the library as `hookspan::`
    ("lib",        &[]),
    ("config",     &["service", "wire", "language"]), // what a flag can ask for
    ("report",     &["service", "wire", "assessment", "drawing", "language", "checks"]), // assessment: the catalogue and the names of scopes
    ("verify",     &["http", "service", "wire"]),
    ("solve",      &["http", "service", "wire", "effort"]),
    ("http",       &["service", "components", "wire", "assessment", "codes", "language", "effort"]), // assessment, codes: the catalogues only
    ("service",       &["components", "wire", "assessment", "drawing", "placement", "survey", "parts", "checks", "covering", "codes", "mechanics", "roof", "hardware", "geometry", "units", "language", "effort"]),
    ("components", &["wire"]),
    ("wire",       &[]),
    ("drawing",    &["placement", "checks", "covering", "codes", "mechanics", "roof", "hardware", "geometry", "units", "language"]),
    ("language",   &["assessment", "parts", "survey", "checks", "codes", "units"]),
    ("assessment", &["placement", "survey", "parts", "checks", "covering", "codes", "roof", "geometry", "units"]),
    ("parts",      &["placement", "units"]),
    ("survey",     &["checks", "covering", "codes", "mechanics", "roof", "hardware", "geometry", "units"]),
    ("placement",  &["checks", "covering", "codes", "mechanics", "roof", "hardware", "geometry", "units", "effort"]),
    ("checks",     &["covering", "codes", "mechanics", "roof", "hardware", "geometry", "units", "effort"]),
    ("covering",   &["roof", "hardware", "geometry", "units"]),
    ("codes",      &["roof", "geometry", "units"]),
    ("mechanics",  &["geometry", "units"]),
    ("roof",       &["geometry", "units"]),
    ("hardware",   &["geometry", "units"]),
    ("geometry",   &["units"]),
    ("units",      &[]),
    ("effort",     &[]),
];

/// Words that belong to some rooms only.
#[rustfmt::skip]
const WORDS: &[(&str, &[&str])] = &[
    ("axum",        &["http", "main"]),
    ("utoipa_axum", &["http"]),
    ("tower",       &["http"]),
    ("tower_http",  &["http"]),
    ("StatusCode",  &["http", "main"]),
    ("HeaderMap",   &["http"]),
    ("jsonschema",  &["http"]),
    ("clap",        &["config", "main"]),
    ("tokio",       &["http", "main", "solve"]),
    ("utoipa",      &["http", "wire"]),
];

/// One source file: the room it belongs to and its code without comments.
struct Source {
    path: PathBuf,
    room: String,
    code: String,
}

fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    collect(&root, &mut files);
    files.sort();
    files
        .into_iter()
        .map(|path| {
            let inside = path.strip_prefix(&root).expect("a file of src");
            let first = inside.components().next().expect("a file has a name").as_os_str();
            let room = first.to_string_lossy().trim_end_matches(".rs").to_owned();
            let code = fs::read_to_string(&path).expect("a source file can be read");
            Source { room, code: without_comments(&code), path: inside.to_owned() }
        })
        .collect()
}

fn collect(folder: &Path, files: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder can be read") {
        let path = entry.expect("an entry can be read").path();
        if path.is_dir() {
            collect(&path, files);
        } else if path.extension().is_some_and(|kind| kind == "rs") {
            files.push(path);
        }
    }
}

/// Comments may point anywhere; only code makes a dependency.
fn without_comments(code: &str) -> String {
    let kept: Vec<&str> =
        code.lines().map(|line| line.split("//").next().unwrap_or_default()).collect();
    kept.join("\n")
}

/// The identifiers that follow every `prefix` in the code, with the number of their line.
fn names_after<'a>(code: &'a str, prefix: &'a str) -> impl Iterator<Item = (usize, &'a str)> {
    code.match_indices(prefix).map(move |(at, _)| {
        let rest = &code[at + prefix.len()..];
        let end = rest.find(|c: char| !(c.is_alphanumeric() || c == '_')).unwrap_or(rest.len());
        (code[..at].lines().count(), &rest[..end])
    })
}

fn words(line: &str) -> BTreeSet<&str> {
    line.split(|c: char| !(c.is_alphanumeric() || c == '_')).collect()
}

fn may_name(room: &str) -> Option<&'static [&'static str]> {
    MAY_NAME.iter().find(|(name, _)| *name == room).map(|(_, allowed)| *allowed)
}

#[test]
fn every_room_is_on_the_plan() {
    let rooms: BTreeSet<String> = sources().into_iter().map(|source| source.room).collect();
    assert!(rooms.len() > 5, "only {rooms:?} were found, so nothing was checked");
    for room in rooms {
        assert!(may_name(&room).is_some(), "src/{room} is not on the plan of this test");
    }
}

#[test]
fn nothing_names_a_room_above_it() {
    let mut wrong = Vec::new();
    let mut named = 0;
    for Source { path, room, code } in sources() {
        let allowed = may_name(&room).unwrap_or_default();
        for (line, name) in names_after(&code, "crate::") {
            named += 1;
            let own = name == room || matches!(name, "main" | "lib");
            if name.is_empty() {
                wrong.push(format!("{}:{line} names several rooms at once", path.display()));
            } else if !own && !allowed.contains(&name) {
                wrong.push(format!("{}:{line} names crate::{name}", path.display()));
            }
        }
        // A file of the top level can also reach its neighbours as `super::…`.
        let top = path.components().count() == 1
            || path.ends_with("mod.rs") && path.components().count() == 2;
        for (line, name) in names_after(&code, "super::").filter(|_| top) {
            if name != room && may_name(name).is_some() && !is_own_child(&path, name) {
                wrong.push(format!("{}:{line} names super::{name}", path.display()));
            }
        }
        for (line, _) in names_after(&code, "super::super") {
            wrong.push(format!("{}:{line} climbs with super::super", path.display()));
        }
    }
    assert!(named > 20, "only {named} paths were found, so little was checked");
    assert_eq!(wrong, Vec::<String>::new());
}

/// `super::` inside an inline module of a folder's `mod.rs` means the folder itself.
fn is_own_child(path: &Path, name: &str) -> bool {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(path);
    let folder = folder.parent().unwrap_or(Path::new(""));
    path.ends_with("mod.rs")
        && (folder.join(name).is_dir() || folder.join(format!("{name}.rs")).is_file())
}

#[test]
fn the_web_stays_in_its_rooms() {
    let mut wrong = Vec::new();
    for Source { path, room, code } in sources() {
        for (number, line) in code.lines().enumerate() {
            let words = words(line);
            for (word, rooms) in WORDS {
                if words.contains(word) && !rooms.contains(&room.as_str()) {
                    wrong.push(format!("{}:{} says {word}", path.display(), number + 1));
                }
            }
            let raw_json = words.contains("serde_json") && words.contains("Value");
            // What is verified is a document as it stands, whatever its members.
            if raw_json && !["http", "verify"].contains(&room.as_str()) {
                wrong.push(format!("{}:{} says serde_json::Value", path.display(), number + 1));
            }
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

/// Where a family of codes may be named: by itself, where a request chooses it, and on the wire.
const NAME_A_FAMILY: &[&str] = &["codes/", "service/intake/site/mod.rs", "wire/"];

#[test]
fn only_codes_and_intake_name_a_family() {
    let (mut wrong, mut named) = (Vec::new(), 0);
    for Source { path, code, .. } in sources() {
        let allowed = NAME_A_FAMILY.iter().any(|start| path.starts_with(start));
        for (number, line) in code.lines().enumerate() {
            let words = words(line);
            if ["eurocode", "Eurocode", "tr12_2015"].iter().any(|family| words.contains(family)) {
                named += 1;
                if !allowed {
                    wrong.push(format!("{}:{} {}", path.display(), number + 1, line.trim()));
                }
            }
        }
    }
    assert!(named > 20, "only {named} lines name a family, so little was checked");
    assert_eq!(wrong, Vec::<String>::new());
}

/// Where a country may be named besides its annex: the ledger, whose rows are its functions, the examples of
/// the wire's description, and the words for the regions of the European maps.
const NAME_A_COUNTRY: &[&str] =
    &["codes/eurocode/annex", "codes/ledger.rs", "language/inputs.rs", "wire/"];

#[test]
fn only_an_annex_names_its_country() {
    // Recommended values belong to no country. A name counts where it is text: constants may be called AT,
    // and a region of the European maps is Greece.
    let annexes: Vec<Rules> = Rules::all().filter(|rules| rules.annex() != "EN").collect();
    let codes: Vec<&str> = annexes.iter().map(Code::annex).collect();
    let titles: Vec<&str> = annexes.iter().map(Code::title).collect();
    let modules = annexes.iter().map(|rules| format!("annex::{}", rules.annex().to_lowercase()));
    let modules: Vec<String> = modules.chain(["annex::en".to_owned()]).collect();
    assert!(!codes.is_empty(), "no annex belongs to a country, so nothing was checked");
    let (mut wrong, mut named) = (Vec::new(), 0);
    for Source { path, code, .. } in sources() {
        let allowed = NAME_A_COUNTRY.iter().any(|start| path.starts_with(start));
        for (number, line) in product_code(&code).lines().enumerate() {
            let by_name = line.split('"').skip(1).step_by(2).any(|text| {
                codes.contains(&text) || titles.iter().any(|title| text.contains(title))
            });
            let by_module = modules.iter().any(|module| {
                let is_word = |c: char| c.is_alphanumeric() || c == '_';
                let mut found = line.match_indices(module.as_str());
                found.any(|(at, _)| !line[at + module.len()..].starts_with(is_word))
            });
            if by_name || by_module {
                named += 1;
                if !allowed {
                    wrong.push(format!("{}:{} {}", path.display(), number + 1, line.trim()));
                }
            }
        }
    }
    assert!(named > 5, "only {named} lines name a country, so little was checked");
    assert_eq!(wrong, Vec::<String>::new());
}

/// The code before its tests, which may name whom they like: they stand last in their file.
fn product_code(code: &str) -> &str {
    code.split("mod tests").next().unwrap_or_default()
}

/// Rooms that tell what was found and decide nothing.
const TELL_ONLY: &[&str] = &[
    "service/answer",
    "service/sheet",
    "service/shown.rs",
    "service/tables",
    "language",
    "drawing",
    "http",
];

/// Lines there that compare a utilisation all the same, and why.
const COMPARED_ALL_THE_SAME: &[(&str, &str)] = &[
    ("drawing/plots.rs", "the scale of a plot"),
    ("language/figures.rs", "how many digits a percentage has"),
    ("language/quantities.rs", "how many digits a percentage has"),
    ("service/answer/parts.rs", "bars used of those bought, which is no utilisation"),
];

/// What is over its limit, and which of two is used more, is decided below these rooms. The findings
/// have utilisations without an order; for the results of checks this sees a line that names a
/// utilisation and orders something. It is blind to one that was given another name before.
#[test]
fn whoever_tells_orders_no_utilisation_and_calls_no_clause() {
    let orders =
        [" < ", " > ", " <= ", " >= ", ".max(", ".min(", "max_by", "min_by", "_cmp", "f64::max"];
    let (mut wrong, mut seen) = (Vec::new(), BTreeSet::new());
    for Source { path, code, .. } in sources() {
        if !TELL_ONLY.iter().any(|room| path.starts_with(room)) {
            continue;
        }
        for (number, line) in product_code(&code).lines().enumerate() {
            let words = words(line);
            let names = ["utilisation", "max_utilisation", "governing", "used", "used_most"];
            let named = names.iter().any(|name| words.contains(name));
            let place = || format!("{}:{} {}", path.display(), number + 1, line.trim());
            if named && orders.iter().any(|order| line.contains(order)) {
                match COMPARED_ALL_THE_SAME.iter().find(|(file, _)| path.ends_with(file)) {
                    Some((file, _)) => drop(seen.insert(*file)),
                    None => wrong.push(place()),
                }
            }
            // The words of a code, its families and its ledger are no clauses.
            let words_of_codes = ["codes::vocabulary", "codes::quantity"];
            let clause = line.contains("crate::codes::")
                && !words_of_codes.iter().any(|words| line.contains(words));
            let catalogue = ["Code", "Rules", "ledger"].iter().any(|word| words.contains(word));
            if clause && !catalogue {
                wrong.push(place());
            }
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
    assert_eq!(seen.len(), COMPARED_ALL_THE_SAME.len(), "only {seen:?} are found to compare");
}

/// The variants of an enum, at the left margin or within a macro.
fn variants<'a>(code: &'a str, name: &str) -> BTreeSet<&'a str> {
    let opening = format!("enum {name} {{\n");
    let (before, body) = code.split_once(&opening).unwrap_or_default();
    let head = before.lines().last().unwrap_or_default();
    let margin = &head[..head.len() - head.trim_start().len()];
    let body = body.split(&format!("\n{margin}}}")).next().unwrap_or_default();
    let inner = format!("{margin}    ");
    let lines = body.lines().filter_map(|line| line.strip_prefix(inner.as_str()));
    let names = lines.filter_map(|line| line.split([',', '(', ' ', '{']).next());
    names.filter(|name| name.starts_with(char::is_uppercase)).collect()
}

/// Lists that a macro makes cannot miss a variant; those written by hand are held against theirs.
#[test]
fn every_list_of_all_variants_has_them_all() {
    let (mut wrong, mut seen) = (Vec::new(), 0);
    for Source { path, code, .. } in sources() {
        for (at, _) in code.match_indices("const ALL: [Self; ") {
            let owner = code[..at].rsplit("\nimpl ").next().unwrap_or_default();
            let owner = owner.split(' ').next().unwrap_or_default();
            let list = code[at..].split(';').nth(1).unwrap_or_default();
            let listed: BTreeSet<&str> =
                names_after(list, "Self::").map(|(_, name)| name).collect();
            seen += 1;
            if listed != variants(&code, owner) || listed.is_empty() {
                wrong.push(format!("{}: {owner} is not {listed:?}", path.display()));
            }
        }
    }
    assert!(seen > 4, "only {seen} lists were found, so little was checked");
    assert_eq!(wrong, Vec::<String>::new());
}

#[test]
fn the_plan_itself_has_no_way_up() {
    for (at, (room, allowed)) in MAY_NAME.iter().enumerate() {
        for name in *allowed {
            let below = MAY_NAME.iter().position(|(other, _)| other == name);
            assert!(
                below.is_some_and(|below| below > at),
                "{room} may name {name}, which is not below it"
            );
        }
    }
    let apart = |one: &str, other: &str| !may_name(one).is_some_and(|may| may.contains(&other));
    assert!(apart("codes", "mechanics") && apart("mechanics", "codes"));
}

/// What a file imports: each file, and a path that names something of it.
type Imports = BTreeMap<PathBuf, String>;

#[test]
fn no_circle_between_files() {
    let imports = imports();
    let arrows: usize = imports.values().map(BTreeMap::len).sum();
    assert!(imports.len() > 150, "only {} files were found", imports.len());
    assert!(arrows > 3 * imports.len(), "only {arrows} imports were found, so little was checked");
    let circle = circle(imports).unwrap_or_default();
    assert!(circle.is_empty(), "these files import each other:\n{}", circle.join("\n"));
}

#[test]
fn a_circle_is_found() {
    let imports = |of: &[&str]| of.iter().map(|of| (of.into(), format!("crate::{of}"))).collect();
    let mut house = BTreeMap::from([
        ("attic".into(), imports(&["hall"])),
        ("cellar".into(), imports(&[])),
        ("hall".into(), imports(&["cellar", "stairs"])),
        ("stairs".into(), imports(&["cellar"])),
    ]);
    assert_eq!(circle(house.clone()), None);
    house.insert("stairs".into(), imports(&["cellar", "hall"]));
    let arrows = ["hall -> stairs: crate::stairs", "stairs -> hall: crate::hall"];
    assert_eq!(circle(house), Some(arrows.map(str::to_owned).to_vec()));
}

/// Every file of `src` and what it imports, its tests left out.
///
/// A `mod` line alone imports nothing. Nor does a file import the `mod.rs` of a folder it stands in:
/// that is where a folder keeps what its files share.
fn imports() -> BTreeMap<PathBuf, Imports> {
    let sources = sources();
    let files: BTreeMap<Vec<String>, &Path> =
        sources.iter().map(|source| (module_of(&source.path), source.path.as_path())).collect();
    let file_of = |path: &[String]| {
        (1..=path.len()).rev().find_map(|length| files.get(&path[..length]).copied())
    };
    let imports_of = |source: &Source| -> Imports {
        let own = module_of(&source.path);
        let others = paths(product_code(&source.code), &own).into_iter().filter_map(|path| {
            let file = file_of(&path)?;
            let shared = file.ends_with("mod.rs") && own.starts_with(&module_of(file));
            (file != source.path && !shared).then(|| (file.to_owned(), path.join("::")))
        });
        others.collect()
    };
    sources.iter().map(|source| (source.path.clone(), imports_of(source))).collect()
}

/// The path of the module that a file is.
fn module_of(file: &Path) -> Vec<String> {
    let names = file.with_extension("");
    let names = names.iter().map(|name| name.to_string_lossy().into_owned());
    names.filter(|name| !matches!(name.as_str(), "mod" | "lib")).collect()
}

/// Every path the code of a module names, from the root of the crate: what is written `crate::…`,
/// `super::…` or `self::…`, and what begins with a child of the module.
fn paths(code: &str, module: &[String]) -> Vec<Vec<String>> {
    let parent = &module[..module.len().saturating_sub(1)];
    let child = |name: &str| [module, &[name.to_owned()]].concat();
    let children = names_after(code, "mod ").map(|(_, name)| name);
    let children = children.filter(|name| code.contains(&format!("mod {name};")));
    let mut starts = vec![("crate", vec![]), ("self", module.to_vec()), ("super", parent.to_vec())];
    starts.extend(children.map(|name| (name, child(name))));
    let mut found = Vec::new();
    for (word, start) in starts {
        for (at, _) in code.match_indices(&format!("{word}::")) {
            let goes_on = |c: char| c.is_alphanumeric() || matches!(c, '_' | ':');
            if !code[..at].ends_with(goes_on) {
                follow(&code[at + word.len() + 2..], &start, &mut found);
            }
        }
    }
    found
}

/// Adds the paths that go on from `start` with this text, one for each name in braces; returns the
/// text behind them.
fn follow<'a>(text: &'a str, start: &[String], found: &mut Vec<Vec<String>>) -> &'a str {
    let text = text.trim_start();
    if let Some(mut rest) = text.strip_prefix('{') {
        while !rest.trim_start().starts_with('}') {
            rest = follow(rest, start, found);
            let end = rest.find([',', '}']).unwrap_or(rest.len());
            rest = rest[end..].trim_start_matches(',');
            if rest.is_empty() {
                return rest;
            }
        }
        return rest.trim_start().trim_start_matches('}');
    }
    let end = text.find(|c: char| !(c.is_alphanumeric() || c == '_')).unwrap_or(text.len());
    let (name, rest) = text.split_at(end);
    let path = [start, &[name.to_owned()]].concat();
    match rest.strip_prefix("::") {
        Some(rest) if !name.is_empty() => follow(rest, &path, found),
        _ => {
            found.push(path);
            rest
        }
    }
}

/// The arrows of one circle, if there is any.
fn circle(mut imports: BTreeMap<PathBuf, Imports>) -> Option<Vec<String>> {
    // From the ground up, files that import none of those left are taken away.
    loop {
        let left: BTreeSet<PathBuf> = imports.keys().cloned().collect();
        for of in imports.values_mut() {
            of.retain(|file, _| left.contains(file));
        }
        imports.retain(|_, of| !of.is_empty());
        if imports.len() == left.len() {
            break;
        }
    }
    // Each of the rest imports another of the rest: whoever follows the arrows comes back.
    let (mut walk, mut arrows) = (vec![imports.keys().next()?], Vec::new());
    loop {
        let from = *walk.last()?;
        let (to, name) = imports[from].first_key_value()?;
        arrows.push(format!("{} -> {}: {name}", from.display(), to.display()));
        if let Some(at) = walk.iter().position(|file| *file == to) {
            return Some(arrows.split_off(at));
        }
        walk.push(to);
    }
}
