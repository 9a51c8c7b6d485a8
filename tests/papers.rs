//! README and DEVELOPERS speak of files and functions that exist.
//!
//! A path stands in backticks, from the root of the repository (`tests/layers.rs`) or from `src`
//! (`codes/ledger.rs`). Whatever has a slash or the ending of a source file counts as a path, so that
//! a folder that was renamed is noticed; the few other things with slashes are listed below.

use std::path::{Path, PathBuf};

const PAPERS: [&str; 2] = ["README.md", "DEVELOPERS.md"];

/// What has a slash and is no path of this repository: routes and pointers, media types.
const NO_PATHS: [&str; 4] = ["/", "application/", "image/", "text/"];

/// What a file of this repository is called at its end.
const ENDINGS: [&str; 5] = [".rs", ".json", ".py", ".js", ".md"];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn read(paper: &str) -> String {
    std::fs::read_to_string(root().join(paper)).expect("a paper can be read")
}

/// The words in backticks of one text, those of fenced blocks left out.
fn code_words(text: &str) -> Vec<String> {
    let mut prose = String::new();
    let mut fenced = false;
    for line in text.lines() {
        if line.trim_start().starts_with("```") {
            fenced = !fenced;
        } else if !fenced {
            prose.push_str(line);
            prose.push('\n');
        }
    }
    assert!(!fenced, "a fenced block is not closed");
    let spans = prose.split('`').skip(1).step_by(2);
    spans.flat_map(|span| span.split_whitespace().map(str::to_owned).collect::<Vec<_>>()).collect()
}

/// The words that look like paths, placeholders such as `<code>` left out.
fn paths(text: &str) -> Vec<String> {
    let looks_like_one = |word: &String| {
        let named = word.contains('/') || ENDINGS.iter().any(|ending| word.ends_with(ending));
        named && !word.contains('<') && !NO_PATHS.iter().any(|start| word.starts_with(start))
    };
    code_words(text).into_iter().filter(looks_like_one).collect()
}

/// A path from the root where it exists there, otherwise from `src`.
fn resolved(path: &str) -> PathBuf {
    let from_root = root().join(path);
    if from_root.exists() { from_root } else { root().join("src").join(path) }
}

fn exists(path: &str) -> bool {
    resolved(path).exists()
}

#[test]
fn every_path_in_the_papers_exists() {
    let (mut found, mut dead) = (0, Vec::new());
    for paper in PAPERS {
        let paths = paths(&read(paper));
        found += paths.len();
        dead.extend(
            paths.into_iter().filter(|path| !exists(path)).map(|path| format!("{paper}: {path}")),
        );
    }
    assert!(found >= 60, "only {found} paths were found, so little was checked");
    assert_eq!(dead, Vec::<String>::new());
}

/// In a table, `name()` is a function of a file that its row names.
#[test]
fn every_function_in_a_table_stands_in_a_file_of_its_row() {
    let (mut found, mut dead) = (0, Vec::new());
    for paper in PAPERS {
        for row in read(paper).lines().filter(|line| line.starts_with('|')) {
            let files = paths(row).into_iter().map(|path| resolved(&path));
            let code: String = files
                .filter(|file| file.is_file())
                .map(|file| std::fs::read_to_string(file).expect("a source file"))
                .collect();
            for word in code_words(row) {
                let Some(name) = word.strip_suffix("()") else { continue };
                found += 1;
                let declared = [format!("fn {name}("), format!("fn {name}<")];
                if !declared.iter().any(|declaration| code.contains(declaration.as_str())) {
                    dead.push(format!("{paper}: {name}()"));
                }
            }
        }
    }
    assert!(found >= 20, "only {found} functions were found, so little was checked");
    assert_eq!(dead, Vec::<String>::new());
}

#[test]
fn a_dead_path_is_noticed() {
    let text =
        "`src/units.rs` and `jobs/report`, not `/v1/layouts`, `text/html` or `annex/<code>.rs`";
    assert_eq!(paths(text), ["src/units.rs", "jobs/report"]);
    assert!(exists("src/units.rs") && exists("units.rs") && !exists("jobs/report"));
}
