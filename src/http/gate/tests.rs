use serde_json::{Value, json};

use super::*;
use crate::http::job::Kind;
use crate::wire::layout::LayoutRequest;

fn example() -> Value {
    serde_json::from_str(LayoutRequest::EXAMPLE).expect("the example is JSON")
}

fn faults(bytes: &[u8]) -> Vec<Fault> {
    match read::<LayoutRequest>(bytes) {
        Err(BodyFault::Faults(faults)) => faults,
        Err(other) => panic!("not JSON: {other:?}"),
        Ok(_) => Vec::new(),
    }
}

fn faults_of(document: &Value) -> Vec<(String, FaultCode, String)> {
    faults(document.to_string().as_bytes())
        .into_iter()
        .map(|fault| (fault.pointer, fault.code, fault.detail))
        .collect()
}

fn not_json(bytes: &[u8]) -> (usize, usize, String) {
    match read::<LayoutRequest>(bytes) {
        Err(BodyFault::NotJson { line, column, what }) => (line, column, what),
        other => panic!("expected a syntax fault, got {other:?}"),
    }
}

#[test]
fn the_example_passes_and_counts_may_be_written_with_a_point() {
    assert_eq!(faults(LayoutRequest::EXAMPLE.as_bytes()), []);
    assert_eq!(
        faults(LayoutRequest::EXAMPLE.replace("\"rows\": 2", "\"rows\": 2.0").as_bytes()),
        []
    );
}

#[test]
fn syntax_faults_have_line_and_column() {
    assert_eq!(not_json(b"{\n  \"a\": ,\n}"), (2, 8, "expected value".to_owned()));
    assert_eq!(not_json(b"").0, 1);
    assert_eq!(not_json(b"{} {}"), (1, 4, "trailing characters".to_owned()));
    assert_eq!(not_json(b"{\n\"a\": \"\xff\"}"), (2, 7, "the text is not UTF-8".to_owned()));
    assert_eq!(not_json(b"{\"reference\": 1e999}").2, "number out of range");
}

/// Whatever is nested in it: what cannot be part of a request is read over, not into.
#[test]
fn what_cannot_be_in_a_request_is_not_kept() {
    let deep = ["[".repeat(400_000), "]".repeat(400_000)].concat();
    assert_eq!(faults(deep.as_bytes()).len(), 1, "a list is no request");
    let text = LayoutRequest::EXAMPLE.replacen('{', &format!("{{\"deep\": {deep},"), 1);
    let found = faults(text.as_bytes());
    assert_eq!(found.len(), 1);
    assert_eq!((&*found[0].pointer, found[0].code), ("/deep", FaultCode::UnknownField));
}

#[test]
fn a_list_too_long_is_told_with_its_length_and_read_no_further() {
    let fields = vec!["{\"rows\":0}"; 350_000].join(",");
    let found = faults(format!("{{\"array\":{{\"fields\":[{fields}]}}}}").as_bytes());
    let at: Vec<_> = found.iter().filter(|fault| fault.pointer == "/array/fields").collect();
    assert_eq!(at.len(), 1);
    assert_eq!(at[0].code, FaultCode::OutOfRange);
    assert_eq!(at[0].detail, "The list has 350000 entries; at most 50 are allowed.");
    assert!(found.iter().any(|fault| fault.pointer == "/array/fields/49/rows"));
    assert!(!found.iter().any(|fault| fault.pointer.starts_with("/array/fields/50")));
}

#[test]
fn a_member_given_twice_is_a_fault_at_its_place() {
    let text = LayoutRequest::EXAMPLE
        .replace("\"pitch_deg\": 42.0,", "\"pitch_deg\": 42.0, \"pitch_deg\": 30,");
    let found = faults(text.as_bytes());
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].pointer, "/roof/pitch_deg");
    assert_eq!(found[0].code, FaultCode::Contradiction);
}

#[test]
fn all_faults_are_found_at_once_and_in_the_order_of_the_document() {
    let mut job = example();
    job["site"]["altitude_m"] = json!("high");
    job["roof"]["pitch_deg"] = json!(95);
    job["roof"]["edges"][1] = json!("side");
    job["roof"].as_object_mut().expect("an object").remove("form");
    job["array"]["fields"] = json!([]);
    job["wishes"]["speed~a/b"] = json!(1);
    let found = faults_of(&job);
    let expect = |pointer: &str, code, detail: &str| (pointer.to_owned(), code, detail.to_owned());
    assert_eq!(
        found,
        [
            expect(
                "/site/altitude_m",
                FaultCode::WrongType,
                "Expected a number, found the text \"high\"."
            ),
            expect(
                "/roof/pitch_deg",
                FaultCode::OutOfRange,
                "95 is more than the largest allowed value, 75."
            ),
            expect(
                "/roof/edges/1",
                FaultCode::UnknownValue,
                "\"side\" is not one of the allowed values: eaves, verge, ridge, hip, valley, abutment, party_wall."
            ),
            expect("/roof/form", FaultCode::Missing, "\"form\" is required and is not there."),
            expect(
                "/array/fields",
                FaultCode::OutOfRange,
                "The list has 0 entries; at least 1 must be there."
            ),
            expect(
                "/wishes/speed~0a~1b",
                FaultCode::UnknownField,
                "\"speed~a/b\" is not a field this object can have."
            ),
        ]
    );
}

#[test]
fn of_alternatives_the_one_of_the_same_type_is_explained() {
    let mut job = example();
    job["components"]["hook"]["arm"]["width_mm"] = json!(-1);
    job["components"]["hook"]["foot"]["screws_mm"][0] = json!([1, 2, 3]);
    job["components"]["screw"] = json!(8);
    let found = faults_of(&job);
    let places: Vec<_> = found.iter().map(|(pointer, code, _)| (pointer.as_str(), *code)).collect();
    assert_eq!(
        places,
        [
            ("/components/hook/arm/width_mm", FaultCode::OutOfRange),
            ("/components/hook/foot/screws_mm/0", FaultCode::OutOfRange),
            ("/components/screw", FaultCode::WrongType),
        ]
    );
    assert_eq!(found[2].2, "Expected a text or an object, found the number 8.");
}

#[test]
fn faults_found_later_are_put_in_the_same_order() {
    let (_, order) = read::<LayoutRequest>(LayoutRequest::EXAMPLE.as_bytes())
        .expect("the example passes")
        .into_parts();
    let fault = |pointer: &str| Fault::new(pointer, FaultCode::Contradiction, "planted");
    let sorted = order.sort(vec![
        fault("/wishes"),
        fault("/roof/outline_mm/10"),
        fault("/roof/outline_mm/2"),
        fault("/roof"),
        fault("/wishes"),
    ]);
    let pointers: Vec<_> = sorted.iter().map(|fault| fault.pointer.as_str()).collect();
    assert_eq!(pointers, ["/roof", "/roof/outline_mm/2", "/roof/outline_mm/10", "/wishes"]);
}

/// A body of the largest size made of nothing but faults is answered briefly and in good time.
#[test]
fn a_flood_of_faults_is_cut_short() {
    let numbers = format!("{{\"array\": {{\"fields\": [1{}]}}}}", ",1".repeat(500_000));
    let members: Vec<String> = (0..60_000).map(|n| format!("\"m{n}\": 1")).collect();
    let unknown = format!("{{{}}}", members.join(","));
    let twice = format!("{{{}}}", vec!["\"a\": 1"; 100_000].join(","));
    for flood in [numbers, unknown, twice] {
        let begun = std::time::Instant::now();
        let found = faults(flood.as_bytes());
        assert!(!found.is_empty() && found.len() <= 2 * MOST_FAULTS, "{}", found.len());
        assert!(begun.elapsed().as_secs() < 10, "{:?}", begun.elapsed());
    }
}
