//! All rails of a field on the same rafters: what that looks like in an answer, what it costs, where it is refused.

use std::collections::BTreeSet;

use serde_json::{Value, json};

use crate::server::{
    BARN, BUILT, COTTAGE, all_known, answer, example, list, number, post, send, warnings,
};

const TERRACE: &str = include_str!("../data/layout-terrace.json");
const BOATHOUSE: &str = include_str!("../data/layout-boathouse.json");

fn on_the_same(mut job: Value) -> Value {
    job["wishes"]["objective"] = json!("same_rafters");
    job
}

/// A length to the millimetre.
fn whole(mm: &Value) -> u64 {
    format!("{:.0}", number(mm)).parse().expect("a length within the slope")
}

/// Places of the rafters that hooks of a rail stand on, mm from the left verge.
fn places(answer: &Value, rail: &Value) -> BTreeSet<u64> {
    let hooks = list(&answer["hooks"]).iter().filter(|hook| hook["rail"] == rail["id"]);
    hooks.map(|hook| whole(&hook["x_mm"])).collect()
}

#[test]
fn rails_of_a_field_stand_on_the_same_rafters_and_the_answer_says_what_that_costs() {
    let mut dearer = 0;
    for text in [BARN, COTTAGE] {
        let job = all_known(text);
        let free = answer("/v1/layouts", &job);
        let told = answer("/v1/layouts", &on_the_same(job));
        let mut shared = 0;
        for rail in list(&told["rails"]) {
            let beside = list(&told["rails"]).iter().filter(|of| of["field"] == rail["field"]);
            let all: BTreeSet<u64> = beside.flat_map(|of| places(&told, of)).collect();
            let ends = ["start_mm", "end_mm"].map(|end| whole(&rail[end]));
            let over: BTreeSet<u64> = all.range(ends[0]..=ends[1]).copied().collect();
            assert_eq!(places(&told, rail), over, "{}", rail["id"]);
            shared += over.len();
        }
        assert!(shared > 20);
        let optimality = &told["optimality"];
        assert_eq!(optimality["proven"], true);
        assert_eq!(optimality["lower_bound"], optimality["hooks"]);
        let count = |answer: &Value| list(&answer["hooks"]).len() as u64;
        let any = &optimality["in_any_pattern"];
        assert_eq!(any["hooks"], count(&free));
        assert_eq!(any["saved"], count(&told) - count(&free));
        assert_eq!(any["proven"], free["optimality"]["proven"]);
        assert!(free["optimality"].get("in_any_pattern").is_none());
        let said = warnings(&told, "search.same-rafters");
        assert_eq!((said.len(), &said[0]["severity"]), (1, &json!("notice")));
        assert_eq!(told["verdict"], free["verdict"]);
        dearer += u32::from(count(&free) < count(&told));
    }
    assert!(dearer > 0, "it costs nothing anywhere");
}

#[test]
fn drawing_and_sheet_name_the_pattern() {
    let job = on_the_same(all_known(COTTAGE)).to_string();
    for (language, name, finding) in [
        ("en", "all rails of a field on the same rafters", "have their hooks on the same rafters"),
        (
            "de",
            "alle Schienen eines Feldes an denselben Sparren",
            "haben ihre Dachhaken an denselben Sparren",
        ),
    ] {
        for (form, said) in [("image/svg+xml", name), ("text/html", finding)] {
            let headers = [
                ("content-type", "application/json"),
                ("accept", form),
                ("accept-language", language),
            ];
            let reply = send("POST", "/v1/layouts", &headers, job.as_bytes());
            assert_eq!(reply.status, 200, "{}", reply.text());
            // Lines of a drawing are broken wherever its width asks for it.
            let parts = reply.text().split('<').filter_map(|part| part.split_once('>'));
            let text: Vec<&str> = parts.flat_map(|(_, text)| text.split_whitespace()).collect();
            let text = text.join(" ");
            assert!(text.contains(said), "{form} in {language}");
        }
    }
}

#[test]
fn it_is_refused_where_rails_share_no_rafters_and_beside_hooks_that_are_kept() {
    let mut kept = example(BARN);
    kept["kept"] = example(BUILT)["built"].clone();
    for (job, code) in [
        (example(TERRACE), "not_covered"),
        (example(BOATHOUSE), "not_covered"),
        (kept, "contradiction"),
    ] {
        let problem = post("/v1/layouts", on_the_same(job).to_string().as_bytes()).problem();
        let fault = list(&problem["errors"])
            .iter()
            .find(|fault| fault["pointer"] == "/wishes/objective")
            .unwrap_or_else(|| panic!("{problem}"));
        assert_eq!(fault["code"], code);
    }
}
