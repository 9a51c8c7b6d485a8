//! Parts on the form, and their rows: the members of a part, as the published schema has them.

use serde_json::Value;

use super::published;
use crate::language::Words;
use crate::wire::evidence::{EvidenceAnswer, PartKind};

/// A part of the form, with what a statement says of it.
pub struct StatedPart<'a> {
    /// Kind of part.
    pub part: PartKind,
    /// The part as it is stated; null on an empty form.
    pub stated: &'a Value,
    /// What figures of the statement rest on.
    pub evidence: &'a [EvidenceAnswer],
}

/// A member of a part.
pub struct Row {
    /// JSON pointer inside the part.
    pub pointer: String,
    /// When it has to be stated.
    pub needed: Needed,
    schema: &'static Value,
}

/// When a member has to be stated.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Needed {
    /// In every statement of the part.
    Always,
    /// Where anything of its group is stated.
    WithItsGroup,
    /// Never.
    No,
}

/// The schema of a kind of part.
fn schema_of(part: PartKind) -> &'static Value {
    published(match part {
        PartKind::Hook => "Hook",
        PartKind::Screw => "Screw",
        PartKind::Rail => "Rail",
        PartKind::Clamp => "Clamp",
        PartKind::Module => "Module",
    })
}

/// Every member of a part that is no object, in the order of the schema.
pub fn rows(part: PartKind) -> Vec<Row> {
    let mut found = Vec::new();
    add(schema_of(part), "", Needed::Always, &mut found);
    found
}

fn add(schema: &'static Value, at: &str, needed: Needed, found: &mut Vec<Row>) {
    let schema = resolved(schema);
    let Some(members) = schema["properties"].as_object() else {
        found.push(Row { pointer: at.to_owned(), needed, schema });
        return;
    };
    let required = schema["required"].as_array().map_or(&[][..], Vec::as_slice);
    for (member, schema) in members.iter().filter(|(member, _)| *member != "evidence") {
        let is_required = required.iter().any(|name| name == member);
        let needed = match (needed, is_required) {
            (Needed::Always, true) => Needed::Always,
            (_, true) if !at.is_empty() => Needed::WithItsGroup,
            _ => Needed::No,
        };
        add(schema, &format!("{at}/{member}"), needed, found);
    }
}

/// The schema a reference leads to.
fn resolved(schema: &'static Value) -> &'static Value {
    let choice = ["oneOf", "allOf", "anyOf"].iter().find_map(|of| schema[*of].get(0));
    let target = schema["$ref"].as_str().or_else(|| choice?["$ref"].as_str());
    let name = target.and_then(|target| target.rsplit('/').next());
    name.map_or(schema, published)
}

impl Row {
    /// The words there are to choose from; none for a member that is written.
    pub fn choices(&self) -> Vec<String> {
        if self.schema["type"] == "boolean" {
            return vec!["true".to_owned(), "false".to_owned()];
        }
        let words = self.schema["enum"].as_array().into_iter().flatten();
        words.filter_map(Value::as_str).map(str::to_owned).collect()
    }

    /// Least and greatest value, of a list those of its entries.
    pub fn limits(&self, words: &Words) -> String {
        let of = if self.schema["type"] == "array" { &self.schema["items"] } else { self.schema };
        match ["minimum", "maximum"].map(|end| of[end].as_f64()) {
            [Some(least), Some(most)] => {
                let [least, most] = [least, most].map(|end| words.number(end, DECIMALS));
                format!("{least} {} {most}", words.form_to)
            }
            _ => String::new(),
        }
    }

    /// The unit at the end of its name.
    pub fn unit(&self) -> &'static str {
        const UNITS: [(&str, &str); 13] = [
            ("_kn_per_mm", "kN/mm"),
            ("_kn_per_m2", "kN/m²"),
            ("_n_per_mm2", "N/mm²"),
            ("_kg_per_m3", "kg/m³"),
            ("_kg_per_m", "kg/m"),
            ("_knm", "kN·m"),
            ("_nmm", "N·mm"),
            ("_kn", "kN"),
            ("_kg", "kg"),
            ("_mm4", "mm⁴"),
            ("_mm3", "mm³"),
            ("_mm2", "mm²"),
            ("_mm", "mm"),
        ];
        UNITS.iter().find(|(end, _)| self.pointer.ends_with(end)).map_or("", |(_, unit)| unit)
    }
}

/// Decimals of a stated figure, at most.
const DECIMALS: i32 = 6;

/// A stated value as it is written on paper: points as `x | y`, entries of a list one after the other.
pub fn written(value: &Value, words: &Words) -> String {
    let joined = |entries: &[Value], by: &str| {
        entries.iter().map(|entry| written(entry, words)).collect::<Vec<_>>().join(by)
    };
    match value {
        Value::String(text) => text.clone(),
        Value::Number(number) => {
            number.as_f64().map_or_else(String::new, |number| words.number(number, DECIMALS))
        }
        Value::Array(entries) if entries.iter().any(Value::is_array) => joined(entries, "; "),
        Value::Array(entries) => joined(entries, " | "),
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::{Language, makers};
    use crate::service::statement::PARTS;

    #[test]
    fn every_word_to_choose_is_said_in_the_readers_language() {
        let rows = PARTS.into_iter().flat_map(rows);
        let choices = rows.flat_map(|row| row.choices());
        // Grades and classes have digits in them.
        let words: Vec<_> =
            choices.filter(|choice| !choice.contains(|c: char| c.is_ascii_digit())).collect();
        assert!(words.len() > 8, "{words:?}");
        for word in words {
            assert!(makers::choice(&word, Language::German).is_some(), "{word}");
        }
    }

    #[test]
    fn a_member_of_a_group_that_may_be_left_out_is_needed_with_it() {
        let needed = |pointer: &str| {
            let rows = rows(PartKind::Hook);
            rows.iter().find(|row| row.pointer == pointer).map(|row| row.needed)
        };
        assert_eq!(needed("/arm/width_mm"), Some(Needed::Always));
        assert_eq!(needed("/resistance/lift_kn"), Some(Needed::WithItsGroup));
        assert_eq!(needed("/stiffness/normal_kn_per_mm"), Some(Needed::No));
    }
}
