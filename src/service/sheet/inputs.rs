//! The engineer's part: the request in words, every member of it. The JSON itself is the caller's.
//!
//! An object is a row; what it has in itself stands in the row, other objects in it follow with rows of
//! their own. Lists of objects are one row, an element each.

use std::fmt;

use maud::{Markup, html};
use serde::Deserialize;
use serde::de::{Deserializer, MapAccess, SeqAccess, Visitor};

use crate::language::inputs::{member, value};
use crate::language::{Language, ordinal};

/// A request as it was sent: members in their order.
#[derive(Debug, PartialEq)]
enum Given {
    Nothing,
    Flag(bool),
    /// As JSON writes it.
    Number(String),
    Text(String),
    List(Vec<Given>),
    Members(Vec<(String, Given)>),
}

/// Every member of a request, in words.
pub fn inputs(request: &str, language: Language) -> Markup {
    let words = language.words();
    // A request was JSON before it was read, so this does not fail.
    let given = serde_json::from_str(request).unwrap_or(Given::Nothing);
    let mut rows = Vec::new();
    gather("", &given, language, &mut rows);
    html! {
        h3 #inputs { (words.inputs) }
        p .note { (words.inputs_note) }
        table .inputs tabindex="0" {
            tbody {
                @for (place, lines) in &rows {
                    tr {
                        th scope="row" { (place) }
                        td { @for line in lines { div { (line) } } }
                    }
                }
            }
        }
    }
}

/// Rows below a place: what is given there in itself, then each object in it.
fn gather(place: &str, given: &Given, language: Language, rows: &mut Vec<(String, Vec<String>)>) {
    let Given::Members(members) = given else { return };
    let below = |name: &str| {
        let (name, _) = member(name, language);
        if place.is_empty() { name } else { format!("{place} · {name}") }
    };
    let plain = members.iter().filter(|(_, given)| !given.has_rows());
    let line = plain.map(|(name, given)| told(name, given, language)).collect::<Vec<_>>();
    if !line.is_empty() || members.is_empty() {
        let place = if place.is_empty() { language.words().the_job } else { place };
        rows.push((place.to_owned(), vec![line.join(" · ")]));
    }
    for (name, given) in members.iter().filter(|(_, given)| given.has_rows()) {
        if let Given::List(elements) = given {
            let elements = elements.iter().enumerate();
            let lines = elements.map(|(at, element)| {
                format!("{}: {}", ordinal(at), element.within(name, language))
            });
            rows.push((below(name), lines.collect()));
        } else {
            gather(&below(name), given, language, rows);
        }
    }
}

/// A member with what is given for it and its unit.
fn told(name: &str, given: &Given, language: Language) -> String {
    let (said, unit) = member(name, language);
    let unit = unit.map_or_else(String::new, |unit| match unit {
        "°" => unit.to_owned(),
        _ => format!("\u{a0}{unit}"),
    });
    match given {
        Given::Members(_) => format!("{said} ({})", given.within(name, language)),
        _ => format!("{said} {}{unit}", given.within(name, language)),
    }
}

impl Given {
    /// Whether it gets rows of its own: objects and lists of them.
    fn has_rows(&self) -> bool {
        match self {
            Self::Members(_) => true,
            Self::List(elements) => elements.iter().any(|of| matches!(of, Self::Members(_))),
            _ => false,
        }
    }

    /// What is given, in a line.
    fn within(&self, name: &str, language: Language) -> String {
        let words = language.words();
        match self {
            Self::Nothing => "–".to_owned(),
            Self::Flag(true) => words.yes.to_owned(),
            Self::Flag(false) => words.no.to_owned(),
            Self::Number(digits) => digits.replace('.', words.decimal_sign),
            Self::Text(text) => value(name, text, language).to_owned(),
            Self::List(elements) if elements.is_empty() => words.none_given.to_owned(),
            Self::List(elements) => {
                let inner = |of: &Self| match of {
                    Self::List(point) => {
                        let point = point.iter().map(|of| of.within(name, language));
                        point.collect::<Vec<_>>().join("\u{a0}/\u{a0}")
                    }
                    Self::Members(_) => format!("({})", of.within(name, language)),
                    _ => of.within(name, language),
                };
                elements.iter().map(inner).collect::<Vec<_>>().join("; ")
            }
            Self::Members(members) => {
                let each = members.iter().map(|(name, given)| told(name, given, language));
                each.collect::<Vec<_>>().join(" · ")
            }
        }
    }
}

impl<'de> Deserialize<'de> for Given {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(Reading)
    }
}

struct Reading;

impl<'de> Visitor<'de> for Reading {
    type Value = Given;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("JSON")
    }

    fn visit_unit<E>(self) -> Result<Given, E> {
        Ok(Given::Nothing)
    }

    fn visit_bool<E>(self, flag: bool) -> Result<Given, E> {
        Ok(Given::Flag(flag))
    }

    fn visit_i64<E>(self, number: i64) -> Result<Given, E> {
        Ok(Given::Number(number.to_string()))
    }

    fn visit_u64<E>(self, number: u64) -> Result<Given, E> {
        Ok(Given::Number(number.to_string()))
    }

    /// As few digits as name the number and no other.
    fn visit_f64<E>(self, number: f64) -> Result<Given, E> {
        Ok(Given::Number(number.to_string()))
    }

    fn visit_str<E>(self, text: &str) -> Result<Given, E> {
        Ok(Given::Text(text.to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut elements: A) -> Result<Given, A::Error> {
        let mut list = Vec::new();
        while let Some(element) = elements.next_element()? {
            list.push(element);
        }
        Ok(Given::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Given, A::Error> {
        let mut members = Vec::new();
        while let Some(entry) = entries.next_entry()? {
            members.push(entry);
        }
        Ok(Given::Members(members))
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::language::inputs::is_named;

    const JOB: &str = r#"{
        "reference": "chimney", "site": {"altitude_m": 380.5, "snow": {"zone": "2", "exceptional": false}},
        "roof": {"outline_mm": [[0, 0], [12400, 0]], "edges": ["eaves"], "obstacles": [
            {"kind": "chimney", "outline_mm": [[1, 2]]}, {"kind": "vent"}
        ]}, "array": {"fields": []}, "wishes": {}
    }"#;

    fn rows(request: &str, language: Language) -> Vec<(String, Vec<String>)> {
        let mut rows = Vec::new();
        gather("", &serde_json::from_str(request).expect("JSON"), language, &mut rows);
        rows
    }

    #[test]
    fn a_request_is_told_member_by_member() {
        let rows = rows(JOB, Language::German);
        let told: Vec<String> =
            rows.iter().map(|(place, lines)| format!("{place}: {}", lines.join(" | "))).collect();
        assert_eq!(
            told,
            [
                "Auftrag: Bezeichnung des Auftrags chimney",
                "Bauort: Höhe über NN 380,5\u{a0}m",
                "Bauort · Schnee: Zone 2 · außergewöhnlicher Schnee nein",
                "Dach: Umriss, x / y 0\u{a0}/\u{a0}0; 12400\u{a0}/\u{a0}0\u{a0}mm · Seiten des Umrisses Traufe",
                "Dach · Hindernisse: 1: Art Schornstein · Umriss, x / y 1\u{a0}/\u{a0}2\u{a0}mm | 2: Art Lüfter",
                "Modulanlage: Modulfelder keine",
                "Wünsche: ",
            ]
        );
    }

    /// The published contract: whatever a request may have is named in words.
    #[test]
    fn every_member_of_a_request_has_words() {
        let text = include_str!("../../../openapi/hookspan.json");
        let published: Given = serde_json::from_str(text).expect("the contract");
        let schemas = ["components", "schemas"].iter().fold(&published, |of, name| of.at(name));
        let mut open: Vec<&str> =
            vec!["LayoutRequest", "RecheckRequest", "SurveyRequest", "BuildingRequest"];
        let (mut seen, mut unnamed, mut named) = (BTreeSet::new(), Vec::new(), 0);
        while let Some(name) = open.pop() {
            if seen.insert(name) {
                schemas.at(name).names(&mut open, &mut |member| {
                    named += 1;
                    if !is_named(member) {
                        unnamed.push(member.to_owned());
                    }
                });
            }
        }
        assert!(named > 300, "{named}");
        assert_eq!(unnamed, Vec::<String>::new());
    }

    impl Given {
        fn at(&self, name: &str) -> &Self {
            let Self::Members(members) = self else { panic!("no members") };
            &members.iter().find(|(of, _)| of == name).expect("a member").1
        }

        /// Properties below a schema, and the schemas it refers to.
        fn names<'a>(&'a self, refers: &mut Vec<&'a str>, member: &mut dyn FnMut(&'a str)) {
            match self {
                Self::List(elements) => elements.iter().for_each(|of| of.names(refers, member)),
                Self::Members(members) => {
                    for (name, given) in members {
                        match (&**name, given) {
                            ("$ref", Self::Text(to)) => refers.extend(to.rsplit('/').next()),
                            ("properties", Self::Members(properties)) => {
                                for (property, schema) in properties {
                                    member(property);
                                    schema.names(refers, member);
                                }
                            }
                            ("example" | "examples" | "default", _) => {}
                            _ => given.names(refers, member),
                        }
                    }
                }
                _ => {}
            }
        }
    }
}
