//! Requests that each showed something no other had shown: which example they are made of, and how.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

use crate::places::{Places, general};

/// Longest case worth keeping in a file, characters.
const LONGEST: usize = 1000;

/// A change of a document in one place: a value put there, or what stands there taken away.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Edit {
    pub at: String,
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "present")]
    pub to: Option<Value>,
}

/// A null that is written out is a value, too.
fn present<'de, D: serde::Deserializer<'de>>(from: D) -> Result<Option<Value>, D::Error> {
    Value::deserialize(from).map(Some)
}

impl Edit {
    /// Makes it; a place that is not there is left alone.
    pub fn make(&self, document: &mut Value) {
        let Some((parent, name)) = self.at.rsplit_once('/') else { return };
        let name = name.replace("~1", "/").replace("~0", "~");
        match (document.pointer_mut(parent), &self.to) {
            (Some(Value::Object(members)), Some(value)) => {
                members.insert(name, value.clone());
            }
            (Some(Value::Object(members)), None) => drop(members.shift_remove(&name)),
            (Some(Value::Array(items)), to) => {
                let Some(index) = name.parse().ok().filter(|index| *index < items.len()) else {
                    return;
                };
                match to {
                    Some(value) => items[index] = value.clone(),
                    None => drop(items.remove(index)),
                }
            }
            _ => {}
        }
    }
}

/// An example with edits.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Case {
    /// Name of the example, without its ending.
    pub from: String,
    pub edits: Vec<Edit>,
}

/// An example: what kind of job it is, and the job.
pub struct Example {
    pub kind: &'static Kind,
    pub job: Value,
}

/// A kind of request.
pub struct Kind {
    /// What a line of a batch calls it, which its examples begin with.
    pub word: &'static str,
    pub path: &'static str,
    /// Its schema.
    schema: &'static str,
    pub places: LazyLock<Places>,
}

macro_rules! kinds {
    ($($word:literal $path:literal $schema:literal;)*) => {
        /// The kinds of request there are.
        static KINDS: [Kind; 6] = [$(Kind {
            word: $word,
            path: $path,
            schema: $schema,
            places: LazyLock::new(|| Places::of($schema)),
        }),*];
    };
}

kinds! {
    "layout" "/v1/layouts" "LayoutRequest";
    "choices" "/v1/choices" "ChoicesRequest";
    "recheck" "/v1/rechecks" "RecheckRequest";
    "survey" "/v1/surveys" "SurveyRequest";
    "actions" "/v1/actions" "ActionsRequest";
    "statement" "/v1/statements" "StatementRequest";
}

fn tests() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests")
}

fn file() -> PathBuf {
    tests().join("endurance/corpus.ndjson")
}

/// Every example there is, by name. The ordinary jobs are layouts.
pub fn examples() -> &'static BTreeMap<String, Example> {
    static EXAMPLES: LazyLock<BTreeMap<String, Example>> = LazyLock::new(|| {
        let mut found = BTreeMap::new();
        for folder in ["data", "data/ordinary"] {
            for entry in fs::read_dir(tests().join(folder)).expect("the folder is there") {
                let path = entry.expect("it can be listed").path();
                if path.extension().is_none_or(|ending| ending != "json") {
                    continue;
                }
                let name = path.file_stem().and_then(|name| name.to_str()).expect("a plain name");
                let kind = KINDS.iter().find(|kind| name.starts_with(kind.word));
                let text = fs::read_to_string(&path).expect("it can be read");
                let job = serde_json::from_str(&text).expect("an example is JSON");
                let kind = kind.unwrap_or(&KINDS[0]);
                found.insert(name.to_owned(), Example { kind, job });
            }
        }
        assert!(KINDS.iter().all(|kind| found.values().any(|one| one.kind.schema == kind.schema)));
        found
    });
    &EXAMPLES
}

impl Case {
    /// The example as it is.
    pub fn plain(from: &str) -> Self {
        Self { from: from.to_owned(), edits: Vec::new() }
    }

    pub fn example(&self) -> &'static Example {
        examples().get(&self.from).unwrap_or_else(|| panic!("there is no example {}", self.from))
    }

    /// The request.
    pub fn document(&self) -> Value {
        let mut document = self.example().job.clone();
        self.edits.iter().for_each(|edit| edit.make(&mut document));
        document
    }

    /// The request as a line of a batch.
    pub fn line(&self) -> Vec<u8> {
        let (kind, job) = (Value::from(self.example().kind.word), self.document());
        let members = Map::from_iter([("kind".to_owned(), kind), ("job".to_owned(), job)]);
        Value::Object(members).to_string().into_bytes()
    }
}

/// The cases there are, and what they have shown.
pub struct Corpus {
    cases: Vec<Case>,
    shown: BTreeSet<String>,
    /// Those that are new and short enough to be kept.
    kept: Vec<Case>,
}

impl Corpus {
    /// The examples, and what earlier runs kept.
    pub fn read() -> Self {
        let mut cases: Vec<Case> = examples().keys().map(|name| Case::plain(name)).collect();
        let kept = fs::read_to_string(file()).expect("the corpus can be read");
        cases.extend(kept.lines().map(|line| {
            serde_json::from_str::<Case>(line).unwrap_or_else(|error| panic!("{error}: {line}"))
        }));
        Self { cases, shown: BTreeSet::new(), kept: Vec::new() }
    }

    pub fn cases(&self) -> &[Case] {
        &self.cases
    }

    /// How many different things were shown.
    pub fn shown(&self) -> usize {
        self.shown.len()
    }

    /// Takes a case that showed something new to those that are mutated from now on.
    pub fn learn(&mut self, case: &Case, shown: Vec<String>) {
        let known = self.shown.len();
        let of_note = shown.iter().any(|what| !what.contains('/') && !self.shown.contains(what));
        self.shown.extend(shown);
        if self.shown.len() == known {
            return;
        }
        self.cases.push(case.clone());
        let text = serde_json::to_string(case).expect("a case is JSON");
        if of_note && text.len() <= LONGEST {
            self.kept.push(case.clone());
        }
    }

    /// What was seen when the cases of the corpus ran is known already.
    pub fn know(&mut self, shown: Vec<String>) {
        self.shown.extend(shown);
    }

    /// Adds what is new to the file; how many cases these are.
    pub fn keep(&self) -> usize {
        use std::io::Write;
        let mut file = fs::OpenOptions::new().append(true).open(file()).expect("it is there");
        for case in &self.kept {
            let line = serde_json::to_string(case).expect("a case is JSON");
            writeln!(file, "{line}").expect("it can be written");
        }
        self.kept.len()
    }
}

/// What an answer or problem shows: its findings and assumptions by code, its verdicts, and each kind
/// of fault, once by itself and once with its place, which is no reason to keep a case.
pub fn shown(path: &str, status: u16, body: &Value) -> Vec<String> {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let mut shown = vec![format!("{status} {}", text(&body["code"]))];
    for (list, name) in [("warnings", "code"), ("assumptions", "code"), ("remedies", "kind")] {
        for one in body[list].as_array().into_iter().flatten() {
            shown.push(format!("{list} {}", text(&one[name])));
        }
    }
    for error in body["errors"].as_array().into_iter().flatten() {
        let (code, at) = (text(&error["code"]), general(&text(&error["pointer"])));
        shown.push(format!("{code} {path}{at}"));
        shown.push(code);
    }
    for verdict in ["/verdict", "/proof", "/verdict/status", "/search/proof"] {
        if let Some(found) = body.pointer(verdict).and_then(Value::as_str) {
            shown.push(format!("{found} of a {}", path.trim_start_matches("/v1/")));
        }
    }
    shown
}
