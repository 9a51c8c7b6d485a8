//! Values marked as measured, inferred or assumed, and the weakest of them.

use serde_json::{Value, json};

use crate::server::{BARN, all_known, answer, example, param, warnings};

fn barn(provenance: Value) -> Value {
    let mut job = all_known(BARN);
    job["roof"]["provenance"] = provenance;
    answer("/v1/layouts", &job)
}

#[test]
fn the_weakest_provenance_is_named_and_governs_the_data() {
    let silent = answer("/v1/layouts", &all_known(BARN));
    assert_eq!(silent["provenance"], Value::Null);
    let measured = barn(json!({"pitch": "measured", "rafter_positions": "measured"}));
    assert_eq!(measured["provenance"]["weakest"], "measured");
    assert_eq!(measured["verdicts"], silent["verdicts"]);
    let inferred = barn(json!({"pitch": "measured", "rafter_positions": "inferred"}));
    let of_rafters = json!({"weakest": "inferred", "values": ["/roof/rafters/positions_mm"]});
    assert_eq!(inferred["provenance"], of_rafters);
    assert_eq!(inferred["verdicts"]["data"], "holds_with_warnings");
    let assumed =
        barn(json!({"layers": "assumed", "rafter_positions": "inferred", "covering": "assumed"}));
    let values = json!(["/roof/layers", "/roof/covering"]);
    assert_eq!(assumed["provenance"], json!({"weakest": "assumed", "values": values}));
    assert_eq!(assumed["verdicts"]["data"], "incomplete");
    let [told] = &warnings(&assumed, "provenance.assumed")[..] else { panic!("{assumed}") };
    assert_eq!(*param(told, "values"), values);
    let missing = |at: usize| (&assumed["missing"][at]["act"], &assumed["missing"][at]["pointer"]);
    assert_eq!(missing(0), (&json!("measure"), &values[0]));
    assert_eq!(missing(1), (&json!("measure"), &values[1]));
    assert_eq!(warnings(&assumed, "provenance.inferred").len(), 1);
}

#[test]
fn readings_of_a_survey_are_marked_where_they_are_written() {
    let mut job = example(crate::server::SURVEY);
    job["measured"]["hooks"][1]["provenance"] =
        json!({"clearance": "measured", "level": "inferred"});
    // A reading takes the place of what was found before, and so does its mark.
    job["built"]["hooks"][1]["found"] = json!({
        "rafter_x_mm": 2425.0, "slot_mm": 12.0,
        "provenance": {"rafter_x": "assumed", "slot": "measured"},
    });
    let surveyed = answer("/v1/surveys", &job);
    let weakest = json!({"weakest": "inferred", "values": ["/measured/hooks/1/level_mm"]});
    assert_eq!(surveyed["provenance"], weakest);
    assert!(warnings(&surveyed, "provenance.assumed").is_empty());
    job["measured"]["hooks"][1].as_object_mut().expect("readings").remove("rafter_x_mm");
    let surveyed = answer("/v1/surveys", &job);
    let values = json!(["/built/hooks/1/found/rafter_x_mm"]);
    assert_eq!(surveyed["provenance"], json!({"weakest": "assumed", "values": values}));
}
