//! As much of the published description as reading a body needs: which members it can have, and how
//! many entries each list.
//!
//! A body is a few bytes a value and a document many: what cannot be part of a valid one is read over
//! without being kept, so that a refused body never costs more than an honest one.

use std::collections::HashMap;

use serde_json::Value;

/// What can stand in one place of a document.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Shape {
    /// Of an object: what each member can be.
    members: HashMap<String, Shape>,
    /// Of a list: what each entry can be, and how many there may be.
    list: Option<(Box<Shape>, usize)>,
    /// Of a member: whether it has to be there.
    required: bool,
}

impl Shape {
    /// The shape of the schema called `name` in a description.
    pub fn of(description: &Value, name: &str) -> Self {
        let mut shape = Self::default();
        shape.add(description, &description["components"]["schemas"][name]);
        shape
    }

    /// What a member can be; nothing where there is no such member.
    pub fn member(&self, name: &str) -> Option<&Self> {
        self.members.get(name)
    }

    /// What an entry of a list can be and how many there may be; nothing where no list may stand.
    pub fn list(&self) -> Option<(&Self, usize)> {
        self.list.as_ref().map(|(entry, most)| (&**entry, *most))
    }

    /// Whether an empty list here is as none: where there can be a list and need not be one. Programs
    /// that keep their lists in types write those they were not given as empty.
    pub fn may_be_absent(&self) -> bool {
        self.list.is_some() && !self.required
    }

    /// Lets everything stand here that a schema does.
    fn add(&mut self, description: &Value, schema: &Value) {
        if let Some(reference) = schema["$ref"].as_str() {
            let name = reference.rsplit('/').next().unwrap_or_default();
            self.add(description, &description["components"]["schemas"][name]);
        }
        for choice in ["oneOf", "anyOf", "allOf"] {
            for schema in schema[choice].as_array().into_iter().flatten() {
                self.add(description, schema);
            }
        }
        for (name, schema) in schema["properties"].as_object().into_iter().flatten() {
            self.members.entry(name.clone()).or_default().add(description, schema);
        }
        for name in schema["required"].as_array().into_iter().flatten().filter_map(Value::as_str) {
            self.members.entry(name.to_owned()).or_default().required = true;
        }
        if schema["type"] == "array" {
            let most = schema["maxItems"].as_u64().and_then(|most| usize::try_from(most).ok());
            let (entry, known) = self.list.get_or_insert_with(Default::default);
            *known = (*known).max(most.unwrap_or(usize::MAX));
            entry.add(description, &schema["items"]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::http::description;
    use crate::http::routes::JobKind;

    fn unbounded(shape: &Shape, at: &str, found: &mut Vec<String>) {
        for (name, member) in &shape.members {
            unbounded(member, &format!("{at}/{name}"), found);
        }
        if let Some((entry, most)) = shape.list() {
            if most == usize::MAX {
                found.push(at.to_owned());
            }
            unbounded(entry, &format!("{at}/0"), found);
        }
    }

    #[test]
    fn every_list_a_request_can_have_has_a_limit() {
        for kind in JobKind::ALL {
            let shape = kind.contract().shape();
            // A list of each: a statement of parts has no roof, a building one on each slope, and choices
            // are of a job that has one.
            let lists = [("roof", "outline_mm", 100), ("rail", "stock_lengths_mm", 20)];
            let limits = lists.iter().filter_map(|(of, list, limit)| {
                let slope = shape.member("slopes").and_then(Shape::list).map(|(slope, _)| slope);
                let job = shape.member("job");
                let enclosed = slope.or(job).filter(|within| within.member(of).is_some());
                let at = enclosed.unwrap_or(shape);
                let (_, most) = at.member(of)?.member(list)?.list()?;
                Some((most, *limit))
            });
            let limits: Vec<(usize, usize)> = limits.collect();
            assert_eq!(limits.len(), 1, "{kind:?}");
            assert!(limits.iter().all(|(most, limit)| most == limit), "{kind:?}: {limits:?}");
            let mut found = Vec::new();
            unbounded(shape, "", &mut found);
            assert_eq!(found, Vec::<String>::new(), "{kind:?}");
        }
    }

    #[test]
    fn a_line_of_a_batch_can_hold_a_job_of_any_kind() {
        let line = Shape::of(description::openapi_value(), "BatchLine");
        let job = line.member("job").expect("a line has a job");
        for (member, of) in [("built", "hooks"), ("measured", "hooks"), ("roof", "edges")] {
            let list = job.member(member).and_then(|shape| shape.member(of));
            assert!(list.is_some_and(|list| list.list().is_some()), "{member}");
        }
        let [needed, left_out] = ["outline_mm", "obstacles"]
            .map(|list| job.member("roof").and_then(|roof| roof.member(list)).expect("a list"));
        assert!(!needed.may_be_absent() && left_out.may_be_absent());
    }
}
