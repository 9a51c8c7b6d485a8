//! Departures from the plan: what a job is given as found is what it says departs, and nothing else.

use serde_json::{Value, json};

use crate::server::{BARN, BUILT, SURVEY, all_known, answer, example, list, number, send};

fn as_laid_out() -> Value {
    let mut job = all_known(BARN);
    job["built"] = answer("/v1/layouts", &job)["record"]["built"].clone();
    job
}

#[test]
fn what_is_built_as_it_was_laid_out_departs_in_nothing() {
    let checked = answer("/v1/rechecks", &as_laid_out());
    assert_eq!(checked.get("departures"), None);
}

#[test]
fn what_is_found_otherwise_departs_by_as_much() {
    let mut job = as_laid_out();
    let hook = &mut job["built"]["hooks"][2];
    let (id, x) = (hook["id"].clone(), number(&hook["x_mm"]));
    hook["found"] = json!({
        "rafter_x_mm": x - 24.0, "rafter_width_mm": 72.0, "counter_batten_mm": 24.0, "screw_length_mm": 160.0,
        "clearance_mm": 7.5, "side_joint_mm": 20.0,
    });
    let planned = |of: &str| {
        let at = match of {
            "rafter_width" => "/roof/rafters/width_mm",
            "counter_batten" => "/roof/layers/counter_batten_mm",
            _ => "/components/screw/length_mm",
        };
        number(job.pointer(at).unwrap_or_else(|| panic!("no {at}")))
    };
    let expected = [
        ("rafter_x", x, x - 24.0),
        ("rafter_width", planned("rafter_width"), 72.0),
        ("counter_batten", planned("counter_batten"), 24.0),
        ("screw_length", planned("screw_length"), 160.0),
    ];
    let checked = answer("/v1/rechecks", &job);
    let departures = list(&checked["departures"]);
    assert_eq!(departures.len(), expected.len() + 1, "{departures:?}");
    for (told, (quantity, planned, found)) in departures.iter().zip(expected) {
        let is = json!({
            "hook": id, "quantity": quantity, "planned_mm": planned, "found_mm": found,
            "by_mm": found - planned,
        });
        assert_eq!(*told, is);
    }
    // Its packers are those of the layout, and so is the clearance they would leave on the roof as drawn.
    let clearance = &departures[expected.len()];
    let as_drawn = answer("/v1/layouts", &all_known(BARN))["hooks"][2]["clearance_mm"].clone();
    assert_eq!((&clearance["planned_mm"], &clearance["found_mm"]), (&as_drawn, &json!(7.5)));
}

#[test]
fn the_sheet_of_a_built_job_has_the_form_filled_in_and_signed() {
    let mut found = example(BUILT);
    found["built"]["hooks"][2]["found"] =
        json!({"rafter_width_mm": 72.0, "rafter_condition": "split"});
    for (path, job) in [("/v1/rechecks", found), ("/v1/surveys", example(SURVEY))] {
        let departs = list(&answer(path, &job)["departures"]).len();
        assert!(departs > 0);
        for (language, title, role) in [
            ("en", "Not as planned", "Handed over to"),
            ("de", "Nicht wie geplant", "Übergeben an"),
        ] {
            let headers = [
                ("content-type", "application/json"),
                ("accept", "text/html"),
                ("accept-language", language),
            ];
            let sheet =
                send("POST", &format!("{path}?part=crew"), &headers, job.to_string().as_bytes());
            let text = sheet.text();
            assert!(text.contains(title) && text.contains(role), "{path} {language}");
            let (_, table) = text.split_once("class=\"departures\"").expect("the table");
            let (table, _) = table.split_once("</table>").expect("its end");
            assert_eq!(table.matches("<th scope=\"row\"").count(), departs, "{path} {language}");
        }
    }
}
