//! What makes two requests ask about the same job: a layout, the survey of its rails and a recheck of it
//! have rules, place, roof, array and parts in common, whatever stands on the roof and whatever they are
//! called.

use serde_json::{Map, Value};

use crate::http::gate::canonical;
use crate::wire::array::FilledField;
use crate::wire::provenance::Assumption;

/// Members of a request that make the job.
const OF_THE_JOB: [&str; 7] =
    ["rules", "site", "roof", "array", "components", "wishes", "declarations"];

/// What says nothing of a job that is built, and the revision, which an answer tells by itself.
const APART: [&str; 7] = [
    "/rules/revision",
    "/wishes/objective",
    "/wishes/search_limit",
    "/wishes/arm_position",
    "/wishes/order",
    "/components/rail/splice_length_mm",
    "/roof/rafters/unmeasured",
];

/// The job in canonical form, with what was assumed spelled out where it could have been said, and with the
/// rows and columns of fields that were filled. That on a slope of a building is the job on this slope alone.
pub fn canonical_job(
    document: &Value,
    slope: Option<usize>,
    assumed: &[Assumption],
    filled: &[FilledField],
) -> Vec<u8> {
    let at = slope.map(|slope| format!("/slopes/{slope}"));
    let of_slope = at.as_ref().and_then(|at| document.pointer(at));
    let member = |name: &str| of_slope.and_then(|slope| slope.get(name)).or(document.get(name));
    let members =
        OF_THE_JOB.iter().filter_map(|name| Some(((*name).to_owned(), member(name)?.clone())));
    let mut job = Value::Object(members.collect());
    for Assumption { pointer, value, .. } in assumed {
        let of_the_job = |name: &str| OF_THE_JOB.contains(&name);
        let Some(value) = value.as_ref().and_then(|value| serde_json::to_value(value).ok()) else {
            continue;
        };
        let alone = at.as_ref().and_then(|at| pointer.strip_prefix(at));
        let pointer = alone.unwrap_or(pointer);
        if pointer.split('/').nth(1).is_some_and(of_the_job) {
            spell_out(&mut job, pointer, value);
        }
    }
    for FilledField { place, field, .. } in filled {
        let own = job.pointer_mut(&format!("/array/fields/{place}"));
        if let (Some(own), Ok(field)) = (own, serde_json::to_value(field)) {
            *own = field;
        }
    }
    for pointer in APART {
        let Some((parent, name)) = pointer.rsplit_once('/') else { continue };
        if let Some(Value::Object(members)) = job.pointer_mut(parent) {
            members.remove(name);
        }
    }
    canonical::canonical(&job, &[])
}

/// Puts a value where nothing is yet, with the objects around it. A list is not made longer.
fn spell_out(job: &mut Value, pointer: &str, value: Value) {
    let mut at = job;
    for token in pointer.split('/').skip(1) {
        at = match at {
            Value::Object(members) => members.entry(token).or_insert(Value::Null),
            Value::Array(items) => {
                let item = token.parse().ok().and_then(|index: usize| items.get_mut(index));
                let Some(item) = item else { return };
                item
            }
            Value::Null => {
                *at = Value::Object(Map::new());
                let Value::Object(members) = at else { return };
                members.entry(token).or_insert(Value::Null)
            }
            _ => return,
        };
    }
    if at.is_null() {
        *at = value;
    }
}
