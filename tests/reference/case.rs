//! A worked example from elsewhere, as JSON.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use serde::Deserialize;
use serde_json::{Map, Value};

/// Who vouches for the expected values.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Origin {
    /// A value printed in a standard, by way of its transcriptions.
    Standard,
    /// A textbook, handbook or thesis.
    Textbook,
    /// A design guide, calculation sheet or web page with a worked figure.
    PublishedExample,
    /// A test on specimens, as reported.
    ReportedTest,
    /// A program or library that shares nothing with ours.
    OtherProgram,
    /// The formula by pocket calculator.
    HandCalculation,
    /// Worked out for this project from the same formulas, in another way or language.
    DerivedCheck,
    /// What this crate answered before: tells that something changed, not that it was right.
    Pin,
}

/// What a case is worth as evidence.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Class {
    /// Somebody outside this project printed the value, or a program of theirs gave it.
    Published,
    /// Our own arithmetic: guards the code, not our reading of the rule.
    OwnDerivation,
    /// Our own answer of another day.
    Pin,
}

impl Class {
    /// Every class, the weightiest first.
    pub const ALL: [Self; 3] = [Self::Published, Self::OwnDerivation, Self::Pin];
}

impl Origin {
    /// The class a case of this origin counts in.
    pub fn class(self) -> Class {
        match self {
            Self::Standard
            | Self::Textbook
            | Self::PublishedExample
            | Self::ReportedTest
            | Self::OtherProgram => Class::Published,
            Self::HandCalculation | Self::DerivedCheck => Class::OwnDerivation,
            Self::Pin => Class::Pin,
        }
    }
}

/// One example.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    /// The document it belongs to, or the subject where no one document rules: its folder.
    #[serde(skip)]
    pub document: String,
    /// Unique name, shown on failure.
    pub id: String,
    /// What is computed: an arm in `kinds`.
    pub kind: String,
    /// Who worked it.
    pub origin: Origin,
    /// Where it can be found, with page or example number.
    pub source: String,
    /// What is odd about the source, or why the tolerance is what it is.
    #[serde(default)]
    #[expect(dead_code, reason = "for the reader of the JSON file")]
    pub note: Option<String>,
    /// Cases with the same word here restate one result and count as one check.
    #[serde(default)]
    pub one_check: Option<String>,
    /// Inputs, with the unit in the name.
    pub inputs: Map<String, Value>,
    /// Results by name.
    pub expected: BTreeMap<String, Expected>,
}

/// A result and how exactly the source states it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Expected {
    value: f64,
    rel: Option<f64>,
    abs: Option<f64>,
}

impl Expected {
    /// The result as its source has it.
    pub fn value(&self) -> f64 {
        self.value
    }

    /// Whether a computed value agrees. A case without a tolerance agrees with nothing.
    pub fn accepts(&self, computed: f64) -> bool {
        let distance = (computed - self.value).abs();
        self.rel.is_some_and(|rel| distance <= rel * self.value.abs())
            || self.abs.is_some_and(|abs| distance <= abs)
    }
}

/// The inputs of a case, keeping account of which were read.
pub struct Inputs<'a> {
    map: &'a Map<String, Value>,
    read: RefCell<BTreeSet<&'a str>>,
}

impl<'a> Inputs<'a> {
    /// Wraps the inputs of a case.
    pub fn new(map: &'a Map<String, Value>) -> Self {
        Self { map, read: RefCell::default() }
    }

    /// The raw value, if given.
    pub fn get(&self, name: &str) -> Option<&'a Value> {
        let (name, value) = self.map.get_key_value(name)?;
        self.read.borrow_mut().insert(name);
        Some(value)
    }

    /// A number that must be there.
    pub fn number(&self, name: &str) -> f64 {
        let value = self.get(name).and_then(Value::as_f64);
        value.unwrap_or_else(|| panic!("the case needs the number {name}: {:?}", self.map))
    }

    /// A number that may be left out.
    pub fn number_or(&self, name: &str, default: f64) -> f64 {
        if self.map.contains_key(name) { self.number(name) } else { default }
    }

    /// A word that must be there.
    pub fn text(&self, name: &str) -> &'a str {
        let value = self.get(name).and_then(Value::as_str);
        value.unwrap_or_else(|| panic!("the case needs the word {name}: {:?}", self.map))
    }

    /// Yes or no; no when left out.
    pub fn flag(&self, name: &str) -> bool {
        self.get(name).and_then(Value::as_bool).unwrap_or(false)
    }

    /// Names of inputs nobody asked for: a misspelt input would otherwise go unnoticed.
    pub fn unread(&self) -> Vec<&'a str> {
        let read = self.read.borrow();
        self.map.keys().map(String::as_str).filter(|name| !read.contains(name)).collect()
    }
}

/// Every case below a folder, files in alphabetical order.
pub fn load_all(folder: &str) -> Vec<Case> {
    let mut cases = Vec::new();
    collect(Path::new(folder), &mut cases);
    cases
}

fn collect(folder: &Path, cases: &mut Vec<Case>) {
    let entries = std::fs::read_dir(folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display()));
    let mut paths: Vec<_> = entries.map(|entry| entry.expect("a readable folder").path()).collect();
    paths.sort();
    for path in paths {
        if path.is_dir() {
            collect(&path, cases);
        } else {
            let text = std::fs::read_to_string(&path).expect("a readable file");
            let mut file: Vec<Case> =
                serde_json::from_str(&text).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
            let document = folder.file_name().expect("a named folder").to_string_lossy();
            for case in &mut file {
                case.document = document.clone().into_owned();
            }
            cases.extend(file);
        }
    }
}
