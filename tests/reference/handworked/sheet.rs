//! How a document is written, and how it is worked.
//!
//! | line | meaning |
//! |---|---|
//! | ``- `name = value unit` from request `/pointer` `` | a value of the request |
//! | ``- `name = value unit` from answer `path` `` | a value of the answer, such as where a hook stands |
//! | ``- `name = value unit` from trace `element ; symbol` `` | a value of its trace |
//! | ``- `name = value unit` from frame `element ; symbol` `` | a value of another program's frame in space |
//! | ``- `name = value unit` `` | a value of a table or of the trade; what follows says which |
//! | ``- `name = formula = value unit` `` | worked from the lines above |
//! | … ``agrees with answer `path` `` or ``agrees with trace `element ; symbol` `` | has to come out as there |
//! | … ``agrees within 0.3 % with trace `element ; symbol` `` | has to come out nearly as there, where a frame has the forces |
//! | … `vanishes` | has to come out as nothing |
//! | ``- rows `table`: `what` `` | a table begins: its rows are taken from the answer |
//! | ``- column `name = formula` unit`` | one of its columns, worked row by row; `x_before` is `x` of the row above, `table_x` that of the row of the same name in another table |
//!
//! A column whose line ends with "of hooks" is empty in other rows. Behind a table `table_x_first`, `table_x_last`,
//! `table_x_max` and `table_x_min` are those of its column `x`, and `table_x_row` that of a row. A path leads through the names of
//! members, the ids in lists, `left.L` for a zone of the wind, and places in lists of numbers; `{hook}` and the like
//! stand for what the document follows. Everything else is text.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use exmex::prelude::*;
use serde_json::Value;

use super::frames::Frame;
use super::stations::{self, Row};

/// A job with its answer.
pub struct Job {
    request: Value,
    answer: Value,
    trace: BTreeMap<(String, String), f64>,
    frame: Option<Frame>,
    /// What a document follows, by the name it has there.
    followed: Vec<(&'static str, String)>,
}

impl Job {
    pub fn new(request: Value, answer: Value) -> Self {
        let text =
            |line: &Value, member: &str| line[member].as_str().unwrap_or_default().to_owned();
        let lines = answer["trace"].as_array().expect("a trace").iter();
        let trace = lines.map(|line| {
            let value = line["value"].as_f64().expect("a number");
            ((text(line, "element"), text(line, "symbol")), value)
        });
        let trace = trace.collect();
        let followed = stations::followed(&answer);
        Self { request, answer, trace, frame: None, followed }
    }

    /// Takes a frame that another program solved.
    pub fn take(&mut self, frame: Frame) {
        self.frame = Some(frame);
    }

    /// What of the frame does not agree with the answer.
    pub fn beside_frame(&self) -> Vec<String> {
        let frame = self.frame.as_ref().expect("a frame");
        frame.trouble(&self.trace, self.answer["rails"].as_array().expect("rails"))
    }

    /// A path with the names of what is followed.
    fn named(&self, path: &str) -> String {
        let named =
            |path: String, (name, id): &(&str, String)| path.replace(&format!("{{{name}}}"), id);
        self.followed.iter().fold(path.to_owned(), named)
    }

    fn value(&self, place: &Place<'_>) -> Option<f64> {
        let at = self.named(place.at);
        match place.of {
            "request" => self.request.pointer(&at)?.as_f64(),
            "answer" => {
                let mut value = &self.answer;
                for step in at.split('/') {
                    value = match value {
                        Value::Array(items) => match step.parse::<usize>() {
                            Ok(at) if !items.first().is_some_and(Value::is_object) => {
                                items.get(at)?
                            }
                            _ => items.iter().find(|item| is(item, step))?,
                        },
                        object => object.get(step)?,
                    };
                }
                value.as_f64()
            }
            _ => {
                let (element, symbol) = at.split_once(';')?;
                let key = (element.trim().to_owned(), symbol.trim().to_owned());
                if place.of == "frame" {
                    return self.frame.as_ref()?.values().get(&key).copied();
                }
                self.trace.get(&key).copied()
            }
        }
    }
}

/// Whether an entry of a list has this name. Modules have strokes in theirs, written as dots here;
/// zones of the wind have their direction and their letter, `left.L`, and lines of the take-off their kind.
fn is(item: &Value, name: &str) -> bool {
    match (&item["id"], &item["direction"], &item["zone"]) {
        (Value::String(id), _, _) => id.replace('/', ".") == name,
        (_, Value::String(direction), Value::String(zone)) => {
            name.split_once('.') == Some((direction, zone))
        }
        _ => item["kind"] == name || item["rafter"].as_u64().is_some_and(|n| name.parse() == Ok(n)),
    }
}

/// Where a value stands.
struct Place<'a> {
    of: &'a str,
    at: &'a str,
}

/// The place that follows some words in a line: ``from answer `path` ``.
fn place<'a>(rest: &'a str, words: &str) -> Option<Place<'a>> {
    let at = rest.find(words)? + words.len();
    let (of, quoted) = rest[at..].trim_start().split_once('`')?;
    Some(Place { of: of.trim(), at: quoted.split('`').next()? })
}

/// How nearly a value has to agree, as a share, and with what: ``agrees within 0.3 % with trace `place` ``.
fn nearly(rest: &str) -> Option<(f64, Place<'_>)> {
    let (_, after) = rest.split_once("agrees within ")?;
    let (percent, after) = after.split_once(" % with ")?;
    Some((percent.parse::<f64>().ok()? / 100.0, place(after, "")?))
}

/// A document while it is worked.
pub struct Sheet<'a> {
    job: &'a Job,
    known: BTreeMap<String, f64>,
    /// Values of lines that nothing was made of so far.
    idle: RefCell<BTreeSet<String>>,
    tables: Vec<Table>,
    /// The document with its values worked.
    pub text: String,
    /// What does not agree.
    pub trouble: Vec<String>,
    /// Values that were worked.
    pub values: usize,
    /// Values that were compared with the answer.
    pub compared: usize,
}

struct Table {
    name: String,
    rows: Vec<Row>,
    columns: Vec<Column>,
}

struct Column {
    name: String,
    formula: String,
    of_hooks: bool,
}

impl<'a> Sheet<'a> {
    /// Works a document from its first line to its last.
    pub fn work(document: &str, job: &'a Job) -> Self {
        let mut sheet = Self {
            job,
            known: BTreeMap::new(),
            idle: RefCell::default(),
            tables: Vec::new(),
            text: String::new(),
            trouble: Vec::new(),
            values: 0,
            compared: 0,
        };
        let mut lines = document.lines().peekable();
        let mut open = false;
        while let Some(line) = lines.next() {
            if line.starts_with('|') && open {
                while lines.next_if(|line| line.starts_with('|')).is_some() {}
                sheet.table();
                open = false;
                continue;
            }
            open |= line.starts_with("- rows `");
            let worked = sheet.line(line);
            sheet.text.push_str(&worked);
            sheet.text.push('\n');
        }
        let idle = sheet.idle.take();
        if !idle.is_empty() {
            sheet.trouble.push(format!("nothing is made of {idle:?}"));
        }
        sheet
    }

    /// The value of a line above.
    fn known(&self, name: &str) -> Option<f64> {
        self.idle.borrow_mut().remove(name);
        self.known.get(name).copied()
    }

    /// A line with its value worked.
    fn line(&mut self, line: &str) -> String {
        if line.starts_with("Followed: ") {
            let named = self.job.followed.iter().map(|(name, id)| format!("`{{{name}}}` {id}"));
            return format!("Followed: {}.", named.collect::<Vec<_>>().join(", "));
        }
        if let Some((quoted, rest)) = quoted(line, "- rows `") {
            let what = rest.split('`').nth(1).unwrap_or_default();
            let rows = stations::rows(&self.job.answer, &self.job.named(what), |at| {
                self.job.value(&Place { of: "trace", at })
            });
            self.tables.push(Table { name: quoted.to_owned(), rows, columns: Vec::new() });
            return line.to_owned();
        }
        if let Some((quoted, rest)) = quoted(line, "- column `") {
            let (name, formula) = quoted.split_once(" = ").expect("a column has a formula");
            let column = Column {
                name: name.to_owned(),
                formula: formula.to_owned(),
                of_hooks: rest.trim_end().ends_with("of hooks"),
            };
            self.tables.last_mut().expect("a table begins with its rows").columns.push(column);
            return line.to_owned();
        }
        let Some((quoted, rest)) = quoted(line, "- `") else { return line.to_owned() };
        let parts: Vec<&str> = quoted.split(" = ").collect();
        let (name, formula, told) = match parts[..] {
            [name, told] => (name, None, told),
            [name, formula, told] => (name, Some(formula), told),
            _ => panic!("not a line of a document: {line}"),
        };
        let (old, unit) = told.split_once(' ').unwrap_or((told, ""));
        let value = match (formula, place(rest, "from ")) {
            (Some(formula), _) => evaluate(formula, &|name| self.known(name)),
            (None, Some(place)) => {
                let found = self.job.value(&place);
                found.unwrap_or_else(|| panic!("nothing stands at `{}`", place.at))
            }
            (None, None) => old.parse().unwrap_or_else(|_| panic!("no number: {line}")),
        };
        assert!(self.known.insert(name.to_owned(), value).is_none(), "{name} has a value already");
        self.values += 1;
        if !self.compare(name, value, rest) {
            self.idle.get_mut().insert(name.to_owned());
        }
        let shown = if formula.is_some() { figure(value) } else { value.to_string() };
        let shown = [&*shown, unit].join(" ").trim_end().to_owned();
        let formula = formula.map_or(String::new(), |formula| format!("{formula} = "));
        format!("- `{name} = {formula}{shown}`{rest}")
    }

    /// Compares a value with what it has to be; tells whether that is said.
    fn compare(&mut self, name: &str, value: f64, rest: &str) -> bool {
        let vanishes = rest.contains("vanishes");
        if vanishes && value.abs() > 1e-4 {
            self.trouble.push(format!("{name} is {value} and does not vanish"));
        }
        let (share, place) = match nearly(rest) {
            Some((share, place)) => (share, Some(place)),
            None => (0.0, place(rest, "agrees with ")),
        };
        let compared = vanishes || place.is_some();
        self.compared += usize::from(compared);
        let Some(place) = place else { return compared };
        let Some(told) = self.job.value(&place) else {
            self.trouble.push(format!("{name}: nothing stands at `{}`", self.job.named(place.at)));
            return true;
        };
        // An answer has four decimals, utilisations rounded up, and two where zones have their corners;
        // the trace has nine digits.
        let room = match place.of {
            "answer" if place.at.contains("/outline_mm/") => 5.1e-3,
            "answer" => 1.01e-4,
            _ => 2e-6 * told.abs() + 1e-9,
        };
        if (value - told).abs() > room + share * told.abs() {
            self.trouble.push(format!("{name}: {value} by hand, the {} has {told}", place.of));
        }
        true
    }

    /// Works the last table and writes it.
    fn table(&mut self) {
        let mut table = self.tables.pop().expect("a table begins with its rows");
        for at in 0..table.rows.len() {
            for column in &table.columns {
                let row = &table.rows[at];
                if column.of_hooks && !row.is_hook {
                    continue;
                }
                let before = at.checked_sub(1).map(|before| &table.rows[before]);
                let value = evaluate(&column.formula, &|name| {
                    let above =
                        || name.strip_suffix("_before").map(|name| above(before, row, name));
                    row.get(name)
                        .or_else(above)
                        .or_else(|| self.known(name))
                        .or_else(|| self.cell(&row.id, name))
                        // A load that does not act in a row is none.
                        .or_else(|| stations::INPUTS.contains(&name).then_some(0.0))
                });
                self.values += 1;
                table.rows[at].cells.push((column.name.clone(), Some(value)));
            }
        }
        let inputs = stations::INPUTS.iter().map(|name| (*name).to_owned());
        let heads: Vec<String> = inputs
            .filter(|name| table.rows.iter().any(|row| row.get(name).is_some()))
            .chain(table.columns.iter().map(|column| column.name.clone()))
            .collect();
        let _ = writeln!(self.text, "| | {} |", heads.join(" | "));
        let _ = writeln!(self.text, "|---|{}", "---:|".repeat(heads.len()));
        for row in &table.rows {
            let cells = heads.iter().map(|head| row.get(head).map_or(String::new(), figure));
            let cells: Vec<String> = cells.collect();
            let _ = writeln!(self.text, "| {} | {} |", row.id, cells.join(" | "));
        }
        for head in &heads {
            let column: Vec<f64> = table.rows.iter().filter_map(|row| row.get(head)).collect();
            let (Some(first), Some(last)) = (column.first(), column.last()) else { continue };
            let name = format!("{}_{head}", table.name);
            let most = column.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            let least = column.iter().copied().fold(f64::INFINITY, f64::min);
            for (of, value) in [("first", *first), ("last", *last), ("max", most), ("min", least)] {
                self.known.insert(format!("{name}_{of}"), value);
            }
        }
        for row in &table.rows {
            for (column, value) in &row.cells {
                let row = row.id.replace([' ', '-'], "_");
                let cell = format!("{}_{column}_{row}", table.name);
                self.known.extend(value.map(|value| (cell, value)));
            }
        }
        self.tables.push(table);
    }

    /// A value of the row of the same name in another table, `table_column`.
    fn cell(&self, id: &str, name: &str) -> Option<f64> {
        self.tables.iter().find_map(|table| {
            let column = name.strip_prefix(&table.name)?.strip_prefix('_')?;
            table.rows.iter().find(|row| row.id == id)?.get(column)
        })
    }
}

/// A value of the row above: at the left end of a rail, where nothing is yet, its own place and nothing
/// else.
fn above(before: Option<&Row>, row: &Row, name: &str) -> f64 {
    match before {
        Some(before) => before.get(name).unwrap_or(0.0),
        None if name == "x" => row.get(name).unwrap_or(0.0),
        None => 0.0,
    }
}

/// What stands in the first quotes of a line that begins like this, and what follows.
fn quoted<'a>(line: &'a str, start: &str) -> Option<(&'a str, &'a str)> {
    line.strip_prefix(start)?.split_once('`')
}

fn evaluate(formula: &str, known: &dyn Fn(&str) -> Option<f64>) -> f64 {
    let parsed = exmex::parse::<f64>(formula).unwrap_or_else(|e| panic!("{formula}: {e}"));
    let values = parsed
        .var_names()
        .iter()
        .map(|name| known(name).unwrap_or_else(|| panic!("{name} has no value yet, in {formula}")));
    let values: Vec<f64> = values.collect();
    let value = parsed.eval(&values).unwrap_or_else(|e| panic!("{formula}: {e}"));
    assert!(value.is_finite(), "{formula} is no number");
    value
}

/// Six digits, and nothing for what is left of rounding.
fn figure(value: f64) -> String {
    if value.abs() < 1e-7 {
        return "0".to_owned();
    }
    let short: f64 = format!("{value:.5e}").parse().expect("a number");
    short.to_string()
}
