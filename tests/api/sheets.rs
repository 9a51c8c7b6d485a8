//! What a crew reads on a sheet: whether to build, what first, and nothing that only data know.

use serde_json::{Value, json};

use crate::server::{BARN, BUILT, COTTAGE, SURVEY, all_known, answer, example, list, param, send};

const HALL: &str = include_str!("../data/layout-hall.json");
const STABLE: &str = include_str!("../data/layout-stable.json");

const SHEETS: [(&str, &str); 6] = [
    ("/v1/layouts", BARN),
    ("/v1/layouts", COTTAGE),
    ("/v1/layouts", HALL),
    ("/v1/layouts", STABLE),
    ("/v1/rechecks", BUILT),
    ("/v1/surveys", SURVEY),
];

fn sheet(path: &str, language: &str, body: &str) -> String {
    let headers = [
        ("content-type", "application/json"),
        ("accept", "text/html"),
        ("accept-language", language),
    ];
    let reply = send("POST", path, &headers, body.as_bytes());
    assert_eq!(reply.status, 200, "{}", reply.text());
    reply.text().to_owned()
}

/// The crew's part as it is read: without marks, styles and drawings.
fn read_by_the_crew(html: &str) -> String {
    let body = &html[html.find("<body>").expect("a body")..];
    let crew = &body[..body.find("id=\"engineer\"").expect("the engineer's part")];
    let without = |text: &str, from: &str, to: &str| {
        let mut parts = text.split(from);
        let first = parts.next().unwrap_or_default().to_owned();
        parts.fold(first, |rest, part| rest + part.split_once(to).expect(to).1)
    };
    // A code stands behind each finding, for whoever asks the office about it.
    let text = without(&without(crew, "<figure", "</figure>"), "<code>", "</code>");
    let text = text.split('<').map(|part| part.split_once('>').map_or(part, |(_, text)| text));
    text.collect::<Vec<_>>().join("\n")
}

#[test]
fn a_sheet_says_on_top_whether_to_build_and_what_comes_first() {
    let holds = all_known(BARN).to_string();
    for (path, job, language, notice) in [
        ("/v1/layouts", BARN, "en", "? Do not build or order from this sheet yet"),
        (
            "/v1/layouts",
            BARN,
            "de",
            "? Nach diesem Blatt noch nicht bauen und noch nicht bestellen",
        ),
        ("/v1/layouts", STABLE, "en", "✗ Do not build or order from this sheet"),
        ("/v1/layouts", STABLE, "de", "✗ Nach diesem Blatt weder bauen noch bestellen"),
        ("/v1/rechecks", BUILT, "en", "✗ Do not build on these hooks"),
    ] {
        let html = sheet(path, language, job);
        let at = html.find(notice).unwrap_or_else(|| panic!("no {notice}"));
        for below in ["id=\"cautions\"", "<figure", "class=\"setting-out\""] {
            assert!(at < html.find(below).expect(below), "{notice} stands under {below}");
        }
    }
    let barn = sheet("/v1/layouts", "en", BARN);
    let first = &barn[barn.find("To settle first").expect("a heading")..];
    assert!(first.contains("Measure or look</strong> (rafters cut by obstacle 1)"));
    let stable = sheet("/v1/layouts", "en", STABLE);
    let helps = stable.find("What would make it hold").expect("what helps");
    assert!(helps < stable.find("id=\"cautions\"").expect("cautions"));
    for language in ["en", "de"] {
        let html = sheet("/v1/layouts", language, &holds);
        assert!(!html.contains("id=\"stop\""), "{language}");
        assert!(html.contains("class=\"headline\""));
    }
}

/// Whoever is on the roof has no request in hand.
#[test]
fn the_crew_reads_no_names_and_pointers_of_data() {
    let mut marked = example(BARN);
    marked["roof"]["provenance"] = json!({"rafter_positions": "assumed", "covering": "inferred"});
    let marked = marked.to_string();
    for (path, job) in SHEETS.into_iter().chain([("/v1/layouts", &*marked)]) {
        for language in ["en", "de"] {
            let read = read_by_the_crew(&sheet(path, language, job));
            for riddle in [
                "/roof",
                "/components",
                "/wishes",
                "/measured",
                "_mm",
                "roof.r",
                "roof.c",
                "_pitch",
            ] {
                let around = read.find(riddle).map(|at| &read[at.saturating_sub(60)..at + 40]);
                assert_eq!(around, None, "{path} {language}: {riddle}");
            }
        }
    }
    let read = read_by_the_crew(&sheet("/v1/layouts", "en", &marked));
    assert!(read.contains("assumed; nobody has looked: places of the rafters."));
    // In data they stay.
    let data = answer("/v1/layouts", &example(BARN));
    assert_eq!(data["missing"][0]["pointer"], "/roof/obstacles/0/cuts_rafters");
}

#[test]
fn what_was_found_is_told_once_with_all_its_places() {
    for (path, job) in SHEETS {
        let html = sheet(path, "en", job);
        let answer = answer(path, &example(job));
        let judged = answer.get("recheck").unwrap_or(&answer);
        for cause in list(&judged["causes"]) {
            let code = format!("<code>{}</code>", cause["code"].as_str().expect("a code"));
            assert_eq!(html.matches(&code).count(), 1, "{path}: {code}");
        }
    }
    let barn = sheet("/v1/layouts", "en", BARN);
    assert_eq!(barn.matches("Whether obstacle 1 cuts rafter 16").count(), 1);
    // Four invented parts are one cause at four places.
    let mut job = all_known(BARN);
    job["components"] = json!({
        "hook": "demo-plain-tile-side-hook-12", "screw": "demo-wood-screw-8x140",
        "rail": "demo-rail-40", "clamp": "demo-clamp-30", "packers": "demo-packer-set",
    });
    let html = sheet("/v1/layouts", "en", &job.to_string());
    assert_eq!(html.matches("These parts are invented").count(), 1);
    assert!(html.contains("(hook, screw, rail, clamp, packers)"), "{html}");
}

/// Rafters, courses, tiles and obstacles count from 1 in everything that is written in words, on paper and
/// in answers; indices of the data from 0.
#[test]
fn words_count_from_one_and_indices_from_zero() {
    let data = answer("/v1/layouts", &example(BARN));
    let html = sheet("/v1/layouts", "en", BARN);
    assert!(html.contains("Rafters count from the left as well: the first is 1 (0 in the data)"));
    for hook in list(&data["hooks"]) {
        let rafter = hook["rafter"].as_u64().expect("an index") + 1;
        let id = hook["id"].as_str().expect("an id");
        let row = format!("<th scope=\"row\">{id}</th><td>{rafter}</td>");
        assert!(html.contains(&row), "{row}");
    }
    let [cut] = &crate::server::warnings(&data, "rafter.cut-by-opening")[..] else {
        panic!("{data}")
    };
    assert_eq!((param(cut, "obstacle"), param(cut, "rafters")), (&json!(0), &json!([15])));
    assert!(
        cut["message"].as_str().expect("words").starts_with("Whether obstacle 1 cuts rafter 16")
    );
    assert!(html.contains("1 · Chimney") && html.contains("16 · 11760"));
}

/// Feet that would stand under a batten: rails lie 5 mm lower, and answer, table, drawing and sentence have
/// the one height of it.
#[test]
fn a_rail_that_is_set_lower_has_one_height() {
    let data = answer("/v1/layouts", &example(BARN));
    let [told] = &crate::server::warnings(&data, "hook.foot-meets-batten-or-tile")[..] else {
        panic!("{data}")
    };
    let of = |name: &str| param(told, name);
    assert_eq!(
        (of("rail"), of("y_mm"), of("lower_mm")),
        (&json!("A1"), &json!(1258.0), &json!(5.0))
    );
    assert_eq!(data["rails"][0]["y_mm"], 1258.0);
    let message = told["message"].as_str().expect("words");
    assert!(message.ends_with("The y of rail A1, 1258 mm, already allows for that."), "{message}");
    let html = sheet("/v1/layouts", "en", BARN);
    assert!(html.contains("Rail A1 · y 1258 mm ·"));
    assert!(html.contains("bolts below the tail edge of this course: 37 mm"));
    assert!(html.contains("above rail A1 930 mm"));
    assert!(!html.contains("1263 mm"));
    assert!(html.contains("A1 · course 8 · 1258<"));
    // Rails that stand are not set anew: the batten is cut.
    assert!(sheet("/v1/rechecks", "en", BUILT).contains("Rail A1 · y 1263 mm ·"));
}

#[test]
fn nobody_is_told_too_late_that_hooks_are_no_steps() {
    for job in [BARN, COTTAGE] {
        let data = answer("/v1/layouts", &example(job));
        let at = |code: &str| list(&data["cautions"]).iter().position(|one| one["code"] == code);
        assert_eq!((at("work-at-height"), at("hooks-are-no-steps")), (Some(0), Some(1)));
        let html = sheet("/v1/layouts", "en", job);
        let said = html.find("Nobody steps on a hook").expect("a caution");
        assert!(said < html.find("<figure").expect("a drawing"));
    }
}

/// What the timber under the foot bears stands beside the other checks of a hook.
#[test]
fn the_engineer_finds_every_check_of_a_hook() {
    let html = sheet("/v1/rechecks", "en", BUILT);
    let start = html.find("Utilisation of the hooks").expect("a table");
    let table = &html[start..start + html[start..].find("</table>").expect("its end")];
    assert!(table.contains("<th scope=\"col\">Timber under the foot</th>"));
    let data = answer("/v1/rechecks", &example(BUILT));
    let bearing = crate::server::warnings(&data, "foot.bearing");
    let used = |one: &Value| param(one, "utilisation").as_f64().expect("a figure");
    let worst = bearing.iter().map(|one| used(one)).fold(0.0, f64::max);
    let percent = format!("<td>{:.1} %</td>", (worst * 1000.0 - 1e-6).ceil() / 10.0);
    assert!(worst > 1.0 && table.contains(&percent), "{percent}");
}

/// Whoever finds a page on the ground knows which job it is of, and how many pages that has.
#[test]
fn every_page_says_of_which_job_it_is() {
    let data = answer("/v1/layouts", &example(BARN));
    let digest = &data["input_digest"].as_str().expect("a digest")[..16];
    for (language, page, of) in [("en", "Page ", " of "), ("de", "Seite ", " von ")] {
        let html = sheet("/v1/layouts", language, BARN);
        let margin = &html[html.find("@bottom-left").expect("a margin")..];
        let margin = &margin[..margin.find("</style>").expect("its end")];
        assert!(margin.contains("mill\\2d barn\\2d south"), "{margin}");
        assert!(margin.contains(digest), "{margin}");
        let counted = format!("\"{page}\" counter(page) \"{of}\" counter(pages)");
        assert!(margin.contains(&counted), "{margin}");
    }
    let english = sheet("/v1/layouts", "en", BARN);
    for line in ["Customer", "Site", "Drawn up by", "Date"] {
        assert!(english.contains(&format!("<dt>{line}</dt><dd></dd>")), "{line}");
    }
    for (path, job, kind) in [
        ("/v1/layouts", BARN, "to be built"),
        ("/v1/rechecks", BUILT, "check of what stands"),
        ("/v1/surveys", SURVEY, "packing as surveyed, and check of what stands"),
    ] {
        let kind = format!("<p class=\"kind\">Setting-out and check sheet · {kind}</p>");
        assert!(sheet(path, "en", job).contains(&kind), "{kind}");
    }
}

/// The name of a job gets into a style sheet, and must not get out of its string there.
#[test]
fn no_name_of_a_job_writes_styles() {
    let mut job = example(BARN);
    job["reference"] = json!("\"} body { display: none } </style><script>alert(1)</script>");
    let html = sheet("/v1/layouts", "en", &job.to_string());
    assert_eq!(html.matches("<style>").count(), 2);
    assert_eq!(html.matches("</style>").count(), 2);
    let styles = html.rsplit_once("<style>").expect("a style").1;
    let styles = &styles[..styles.find("</style>").expect("its end")];
    assert!(!html.contains("<script") && !styles.contains("body { display"), "{styles}");
}

/// Across every page of what fails, and of nothing else.
#[test]
fn what_fails_says_so_across_every_page_with_its_reason() {
    let mut event = example(BUILT);
    event["event"] = json!({ "snow_on_roof_kn_per_m2": 9.0 });
    let event = event.to_string();
    for (path, job, across) in [
        ("/v1/layouts", STABLE, ["DO NOT BUILD", "NICHT BAUEN"]),
        ("/v1/rechecks", BUILT, ["DO NOT BUILD", "NICHT BAUEN"]),
        ("/v1/rechecks", &*event, ["INSPECT FIRST", "ERST ANSEHEN"]),
    ] {
        for (language, across) in ["en", "de"].into_iter().zip(across) {
            let html = sheet(path, language, job);
            let mark =
                format!("<div class=\"every-page\" aria-hidden=\"true\"><span>{across}</span>");
            assert_eq!(html.matches(&mark).count(), 1, "{path} {language}");
            // The reason stands in the margin, below the notice.
            let margin = &html[html.find("@top-center").expect("a margin")..];
            let margin = &margin[..margin.find('}').expect("its end")];
            assert!(
                margin.contains("\\a Fails") || margin.contains("\\a Nachweis nicht"),
                "{margin}"
            );
        }
    }
    let holds = all_known(BARN).to_string();
    for job in [BARN, COTTAGE, &holds] {
        assert!(!sheet("/v1/layouts", "en", job).contains("class=\"every-page\""));
    }
}

/// A part is what the whole has of it, with the same notice on top; nothing gets lost between them.
#[test]
fn a_sheet_has_a_part_for_each_reader() {
    let tables = |html: &str| html.matches("<table").count();
    let figures = |html: &str| html.matches("<figure").count();
    for (path, job) in [("/v1/layouts", BARN), ("/v1/rechecks", BUILT), ("/v1/surveys", SURVEY)] {
        let whole = sheet(path, "en", job);
        let of = |part: &str| sheet(&format!("{path}?part={part}"), "en", job);
        assert_eq!(of("all"), whole);
        let (crew, engineer) = (of("crew"), of("engineer"));
        let order = (path == "/v1/layouts").then(|| of("order"));
        let parts = [Some(&crew), Some(&engineer), order.as_ref()];
        let count = |count: &dyn Fn(&str) -> usize| -> usize {
            parts.iter().flatten().map(|part| count(part)).sum()
        };
        assert_eq!(count(&tables), tables(&whole), "{path}");
        assert_eq!(count(&figures), figures(&whole), "{path}");
        for part in parts.into_iter().flatten() {
            assert!(part.contains("id=\"stop\"") && part.contains("@bottom-left"), "{path}");
            assert!(part.contains("<dt>Verdict</dt>"), "{path}");
        }
        assert!(crew.contains("class=\"setting-out\"") && crew.contains("id=\"cautions\""));
        assert!(!crew.contains("id=\"engineer\"") && !crew.contains("class=\"order\""));
        assert!(engineer.contains("class=\"trace\"") && engineer.contains("id=\"inputs\""));
        assert!(!engineer.contains("class=\"setting-out\""));
        if let Some(order) = order {
            assert!(order.contains("class=\"order\"") && !order.contains("class=\"trace\""));
            assert!(!order.contains("class=\"setting-out\""));
        }
    }
    let headers = [("content-type", "application/json"), ("accept", "text/html")];
    for (path, job, part) in [
        ("/v1/rechecks", BUILT, "order"),
        ("/v1/surveys", SURVEY, "order"),
        ("/v1/layouts", BARN, "customer"),
        ("/v1/statements", crate::server::STATEMENT, "all"),
    ] {
        let reply = send("POST", &format!("{path}?part={part}"), &headers, job.as_bytes());
        assert_eq!(reply.problem()["errors"][0]["parameter"], "part", "{path} {part}");
    }
}

/// Modules count from 1 on paper as rafters and courses do: on the plan, in tables and in sentences. In the
/// data their names stay.
#[test]
fn modules_count_from_one_on_paper() {
    let mut job = example(BARN);
    job["array"]["module"]["lift_capacity_kn_per_m2"] = json!(0.2);
    let data = answer("/v1/layouts", &job);
    let failing = crate::server::warnings(&data, "module.overloaded");
    let message = failing[0]["message"].as_str().expect("words");
    let name = param(failing[0], "module").as_str().expect("a name");
    assert!(message.contains(&format!("Module {name} ")), "{message}");
    let html = sheet("/v1/layouts", "en", &job.to_string());
    let headers = [("content-type", "application/json"), ("accept", "image/svg+xml")];
    let plan = send("POST", "/v1/layouts", &headers, job.to_string().as_bytes());
    let (plan, mut on_plan) = (plan.text(), 0);
    for module in list(&data["modules"]) {
        let id = module["id"].as_str().expect("a name");
        let numbers: Vec<u64> =
            id.split('/').skip(1).map(|n| n.parse().expect("a number")).collect();
        let paper = format!("A/{}/{}", numbers[0] + 1, numbers[1] + 1);
        assert!(html.contains(&format!("<th scope=\"row\">{paper}</th>")), "{paper}");
        on_plan += plan.matches(&format!(">{paper}</text>")).count();
        if id == name {
            assert!(html.contains(&format!("Module {paper} has")), "{paper} in words");
        }
    }
    let above = read_by_the_crew(&html);
    assert!(!above.contains("A/0/"), "{}", &above[above.find("A/0/").unwrap_or(0)..]);
    // A label that finds no clear place is left out.
    assert_eq!(plan.matches(">A/").count(), on_plan);
    assert!(on_plan > 6 && !plan.contains(">A/0/"), "{on_plan}");
}

/// The part of a sheet from a mark to an end.
fn part<'a>(html: &'a str, from: &str, to: &str) -> &'a str {
    let at = html.find(from).unwrap_or_else(|| panic!("no {from}"));
    let rest = &html[at..];
    &rest[..rest.find(to).unwrap_or_else(|| panic!("no {to} after {from}"))]
}

/// Numbers of a request as they stand in its text, and texts that are the caller's own.
fn leaves(of: &Value, numbers: &mut Vec<String>, texts: &mut Vec<String>) {
    match of {
        Value::Number(number) => numbers.push(number.as_f64().expect("a number").to_string()),
        Value::Array(elements) => elements.iter().for_each(|of| leaves(of, numbers, texts)),
        Value::Object(members) => {
            for (name, of) in members {
                match of {
                    Value::String(text) if ["id", "name", "reference"].contains(&&**name) => {
                        texts.push(text.clone());
                    }
                    _ => leaves(of, numbers, texts),
                }
            }
        }
        _ => {}
    }
}

/// No member of the request gets lost between JSON and words, and none is printed as JSON.
#[test]
fn the_inputs_are_told_in_words_and_in_full() {
    for (path, job) in SHEETS {
        let html = sheet(path, "en", job);
        let inputs = part(&html, "<table class=\"inputs\"", "</table>");
        assert!(!inputs.contains('{') && !inputs.contains("_mm"), "{path}");
        let (mut numbers, mut texts) = (Vec::new(), Vec::new());
        leaves(&example(job), &mut numbers, &mut texts);
        assert!(numbers.len() > 60, "{path}: {}", numbers.len());
        let told = inputs.replace("&amp;", "&");
        let told: Vec<&str> = told
            .split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
            .map(|token| token.trim_end_matches('.'))
            .collect();
        for number in &numbers {
            let given = numbers.iter().filter(|other| *other == number).count();
            let found = told.iter().filter(|token| *token == number).count();
            assert!(found >= given, "{path}: {number} is given {given} times and told {found}");
        }
        for text in texts {
            assert!(inputs.contains(&text), "{path}: {text}");
        }
    }
    let german = sheet("/v1/layouts", "de", BARN);
    let inputs = part(&german, "<table class=\"inputs\"", "</table>");
    assert!(inputs.contains("Festigkeitsklasse C24") && inputs.contains("Art Schornstein"));
    assert!(inputs.contains("Biberschwanz-Doppeldeckung") && inputs.contains("21,5"));
}

/// Printed on A4 no text of a drawing is smaller than 7 pt: 12 units are the smallest it is drawn with, 9 pt
/// at natural size.
#[test]
fn no_text_of_a_drawing_is_printed_under_seven_points() {
    // What the margins and the style sheet leave of a page, in units of 96 to the inch.
    const UPRIGHT: [f64; 2] = [186.0 / 25.4 * 96.0, 250.0 / 25.4 * 96.0];
    const ACROSS: [f64; 2] = [273.0 / 25.4 * 96.0, 181.5 / 25.4 * 96.0];
    let mut drawn = 0;
    for (path, job) in SHEETS {
        for language in ["en", "de"] {
            let html = sheet(path, language, job);
            for figure in html.split("<figure class=\"").skip(1) {
                let kind = &figure[..figure.find('"').expect("its class")];
                let size: Vec<f64> = part(figure, "viewBox=\"0 0 ", "\">")
                    ["viewBox=\"0 0 ".len()..]
                    .split(['"', ' '])
                    .take(2)
                    .map(|n| n.parse().expect("a number"))
                    .collect();
                let page = if ["page", "legend"].contains(&kind) { ACROSS } else { UPRIGHT };
                let smallest = if kind == "legend" { 14.0 } else { 12.0 };
                let scale = (page[0] / size[0]).min(page[1] / size[1]).min(1.0);
                let points = smallest * scale * 72.0 / 96.0;
                assert!(points >= 6.95, "{path} {language} {kind}: {points:.2} pt, {size:?}");
                drawn += 1;
            }
        }
    }
    assert!(drawn > 40, "{drawn}");
}

/// A slope that no page holds is split in both directions; every hook is on one page.
#[test]
fn a_large_plan_is_split_in_both_directions() {
    let data = answer("/v1/layouts", &example(HALL));
    let html = sheet("/v1/layouts", "en", HALL);
    let pages: Vec<&str> = html
        .split("<figure class=\"page\"")
        .skip(1)
        .map(|page| &page[..page.find("</figure>").expect("its end")])
        .collect();
    let titles: Vec<&str> = pages.iter().map(|page| part(page, "Part ", "<")).collect();
    assert_eq!(titles.len(), 6, "{titles:?}");
    assert!(titles[0].starts_with("Part 1/6: x 0–") && titles[5].contains(", y 0–"), "{titles:?}");
    for hook in list(&data["hooks"]) {
        let id = hook["id"].as_str().expect("an id");
        let on =
            pages.iter().filter(|page| page.contains(&format!("<g data-name=\"{id}\">"))).count();
        assert_eq!(on, 1, "{id}");
    }
    // What one page holds stays on it.
    let barn = sheet("/v1/layouts", "en", BARN);
    assert_eq!(barn.matches("<figure class=\"page\"").count(), 1);
}

/// Hooks to add are set out as those of a layout, stand on the plan, and bring their parts.
#[test]
fn a_repair_is_set_out_in_full() {
    let data = answer("/v1/rechecks", &example(BUILT));
    let add = list(&data["suggestion"]["add"]);
    assert!(add.len() > 3);
    for (language, ring, parts) in [
        ("en", "Open ring: hook to add", "Parts for it, without spares"),
        ("de", "Offener Ring: zusätzlicher Dachhaken", "Teile dafür, ohne Zuschlag"),
    ] {
        let html = sheet("/v1/rechecks", language, BUILT);
        let rows = part(&html, "<table class=\"setting-out\"", "</table>");
        assert_eq!(rows.matches("<tr>").count(), add.len() + 1, "{language}");
        for hook in add {
            let rail = hook["rail"].as_str().expect("a rail");
            let rafter = hook["rafter"].as_u64().expect("an index") + 1;
            let of_rail = rows.split("<tr>").filter(|row| row.contains(&format!(">{rail}+")));
            let mut at = of_rail.filter(|row| row.contains(&format!("</th><td>{rafter}</td>")));
            assert!(at.next().is_some() && at.next().is_none(), "{rail} {rafter}");
        }
        assert!(html.contains(ring) && html.contains(parts), "{language}");
        let needed = part(&html, parts, "</table>");
        assert!(needed.contains(&format!("<td class=\"main\">{}</td>", add.len())), "{needed}");
    }
    let html = sheet("/v1/rechecks", "en", BUILT);
    let compared = part(&html, "Before and with all of it", "</table>");
    let worst = data["utilisation"]["max"].as_f64().expect("a figure");
    let then = format!("<td>{:.1} %</td>", (worst * 1000.0 - 1e-6).ceil() / 10.0);
    assert!(compared.contains(&then), "{then}: {compared}");
    // A layout has nothing to mend.
    assert!(!sheet("/v1/layouts", "en", BARN).contains("Open ring"));
}

/// The form the crew fills in has a row for every hook and a blank for every reading of a survey.
#[test]
fn the_crew_writes_down_what_a_survey_asks_for() {
    let data = answer("/v1/layouts", &example(BARN));
    let contract = send("GET", "/openapi.json", &[], &[]);
    let contract: Value = serde_json::from_str(contract.text()).expect("the contract");
    let readings = contract["components"]["schemas"]["MeasuredHook"]["properties"].clone();
    let readings = readings.as_object().expect("members").len();
    for (language, order) in [("en", "Order of work"), ("de", "Arbeitsfolge")] {
        let html = sheet("/v1/layouts?part=crew", language, BARN);
        assert!(html.contains(order));
        let form = part(&html, "<table class=\"as-built\"", "</table>");
        for hook in list(&data["hooks"]) {
            let id = hook["id"].as_str().expect("an id");
            assert!(form.contains(&format!("<th scope=\"row\">{id}</th><td class=\"blank\">")));
        }
        // Its name is printed and its provenance is that it was read; packers are those of `built`.
        let blanks = form.matches("class=\"blank\"").count() / list(&data["hooks"]).len();
        assert_eq!(blanks, readings - 2 + 1);
    }
}

/// Slates are no tiles, and tiles that interlock may be of concrete.
#[test]
fn a_covering_is_called_what_it_is() {
    for (job, course, lift) in [
        (BARN, "· Ziegelreihe 8", "Ziegel aufnehmen"),
        (HALL, "· Reihe ", "Pfannen oder Dachsteine aufnehmen"),
    ] {
        let html = sheet("/v1/layouts", "de", job);
        assert!(html.contains(course) && html.contains(lift), "{lift}");
    }
}
