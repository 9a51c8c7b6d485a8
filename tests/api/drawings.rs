//! Drawings and sheets: well-formed, to scale, without labels over each other, in the form and the
//! language the caller asks for; and the JSON of a caller who asks for nothing.

use roxmltree::{Document, Node};
use serde_json::{Value, json};

use crate::server::{
    BARN, BUILT, COTTAGE, Reply, SURVEY, TWO_MODULES, answer, example, list, number, post, send,
};

/// Sixty modules in three fields, portrait and landscape, an expansion gap, unequal rafters.
const STABLE: &str = include_str!("../data/layout-stable.json");

fn ask(path: &str, accept: &str, language: &str, body: &str) -> Reply {
    let headers =
        [("content-type", "application/json"), ("accept", accept), ("accept-language", language)];
    send("POST", path, &headers, body.as_bytes())
}

fn drawing(query: &str, body: &str) -> String {
    let reply = ask(&format!("/v1/layouts?{query}"), "image/svg+xml", "en", body);
    assert_eq!(reply.status, 200, "{}", reply.text());
    assert_eq!(reply.header("content-type"), "image/svg+xml; charset=utf-8");
    reply.text().to_owned()
}

/// Room of a text, worked out here from the attributes alone: 0.6 of its size for a character in
/// the mean, which is what common sans-serif faces need for figures and names.
struct Room {
    text: String,
    x: [f64; 2],
    y: [f64; 2],
}

fn figure(node: Node<'_, '_>, name: &str) -> Option<f64> {
    node.attribute(name).map(|value| value.parse().expect("a figure"))
}

fn room(node: Node<'_, '_>) -> Room {
    let text: String = node.text().unwrap_or_default().to_owned();
    let size = figure(node, "font-size").expect("a size");
    let bold = if node.attribute("font-weight").is_some() { 1.06 } else { 1.0 };
    let length = text.chars().count() as f64 * size * 0.55 * bold;
    let before = match node.attribute("text-anchor") {
        Some("middle") => length / 2.0,
        Some("end") => length,
        _ => 0.0,
    };
    let (above, below) = (size * 0.72, size * 0.05);
    match node.attribute("transform") {
        None => {
            let (x, y) = (figure(node, "x").expect("x"), figure(node, "y").expect("y"));
            Room { text, x: [x - before, x - before + length], y: [y - above, y + below] }
        }
        Some(turned) => {
            let inner = turned
                .strip_prefix("translate(")
                .and_then(|rest| rest.strip_suffix(") rotate(-90)"))
                .expect("upwards is the only other direction");
            let (x, y) = inner.split_once(' ').expect("two figures");
            let [x, y] = [x, y].map(|v| v.parse::<f64>().expect("a figure"));
            Room { text, x: [x - above, x + below], y: [y + before - length, y + before] }
        }
    }
}

fn rooms(svg: &str) -> Vec<Room> {
    let document = Document::parse(svg).expect("well-formed XML");
    document.descendants().filter(|node| node.has_tag_name("text")).map(room).collect()
}

#[test]
fn no_label_lies_over_another_or_off_the_paper() {
    let mut asked = example(BARN);
    asked["scopes"] = json!([]);
    let asked = asked.to_string();
    for (job, least) in
        [(BARN, 100), (COTTAGE, 60), (STABLE, 250), (TWO_MODULES, 60), (&*asked, 100)]
    {
        for query in ["", "lang=de", "view=section", "view=section&lang=de", "view=wind&lang=de"] {
            let svg = drawing(query, job);
            let root = Document::parse(&svg).expect("XML");
            let [width, height] =
                ["width", "height"].map(|n| figure(root.root_element(), n).expect("a size"));
            let rooms = rooms(&svg);
            if !query.starts_with("view") {
                assert!(rooms.len() >= least, "only {} labels", rooms.len());
            }
            for (i, one) in rooms.iter().enumerate() {
                let inside =
                    one.x[0] >= 0.0 && one.y[0] >= 0.0 && one.x[1] <= width && one.y[1] <= height;
                assert!(inside, "{query}: \"{}\" leaves the paper", one.text);
                for other in &rooms[i + 1..] {
                    let apart = one.x[1] <= other.x[0]
                        || other.x[1] <= one.x[0]
                        || one.y[1] <= other.y[0]
                        || other.y[1] <= one.y[0];
                    assert!(apart, "{query}: \"{}\" over \"{}\"", one.text, other.text);
                }
            }
        }
    }
}

/// The test above must be able to fail.
#[test]
fn two_labels_in_one_place_are_found() {
    let svg = drawing("", BARN);
    let twice =
        svg.replacen("</text>", "</text><text x=\"24\" y=\"41\" font-size=\"20\">x</text>", 1);
    let rooms = rooms(&twice);
    assert!(rooms[0].x[0] < rooms[1].x[1] && rooms[1].x[0] < rooms[0].x[1]);
    assert!(rooms[0].y[0] < rooms[1].y[1] && rooms[1].y[0] < rooms[0].y[1]);
}

/// Every hook of the answer is drawn, with its name and its utilisation, and hooks stand as far
/// apart on paper as on the roof.
#[test]
fn hooks_are_drawn_to_scale_with_name_and_utilisation() {
    for job in [BARN, COTTAGE, STABLE, TWO_MODULES] {
        let answer = post("/v1/layouts", job.as_bytes()).json();
        let svg = drawing("", job);
        let document = Document::parse(&svg).expect("XML");
        let texts: Vec<String> = rooms(&svg).into_iter().map(|room| room.text).collect();
        let place = |id: &str| {
            let group = document
                .descendants()
                .find(|node| node.attribute("data-name") == Some(id))
                .unwrap_or_else(|| panic!("{id} is not drawn"));
            let disc = group.descendants().rfind(|node| node.has_tag_name("circle"));
            disc.map(|disc| (figure(disc, "cx").expect("cx"), figure(disc, "cy").expect("cy")))
        };
        let mut drawn = Vec::new();
        for hook in list(&answer["hooks"]) {
            let id = hook["id"].as_str().expect("an id");
            assert!(texts.iter().any(|text| text == id), "{id} has no name");
            let used = number(&hook["utilisation"]["max"]);
            let percent = format!("{} %", (used * 100.0 - 1e-6).ceil());
            assert!(texts.contains(&percent), "{id}: {percent}");
            if let Some((x, y)) = place(id) {
                drawn.push((number(&hook["arm_x_mm"]), number(&hook["y_mm"]), x, y));
            }
        }
        assert!(drawn.len() > 10, "only {} discs", drawn.len());
        let (first, last) = (drawn[0], drawn[drawn.len() - 1]);
        let scale = (last.3 - first.3) / (first.1 - last.1);
        assert!(scale > 0.0);
        for hook in &drawn {
            assert!((hook.2 - first.2 - (hook.0 - first.0) * scale).abs() < 0.1, "{hook:?}");
            assert!((first.3 - hook.3 - (hook.1 - first.1) * scale).abs() < 0.1, "{hook:?}");
        }
    }
}

/// Dimensions a crew sets out by: every rafter with a hook, every rail. The rails of the barn are set 5 mm
/// lower than computed, for their feet.
#[test]
fn every_rail_and_every_rafter_with_a_hook_has_its_dimension() {
    let answer = post("/v1/layouts", BARN.as_bytes()).json();
    let texts: Vec<String> = rooms(&drawing("", BARN)).into_iter().map(|room| room.text).collect();
    for rail in list(&answer["rails"]) {
        let end = format!(" · {}", number(&rail["y_mm"]).round());
        let id = rail["id"].as_str().expect("an id");
        assert!(texts.iter().any(|t| t.starts_with(id) && t.ends_with(&end)), "{id}{end}");
    }
    for hook in list(&answer["hooks"]) {
        let rafter = hook["rafter"].as_u64().expect("an index") + 1;
        let label = format!("{rafter} · {}", number(&hook["x_mm"]).round());
        assert!(texts.contains(&label), "{label}");
    }
}

#[test]
fn the_section_goes_through_the_hook_asked_for() {
    let svg = drawing("view=section&hook=A1-4", BARN);
    let answer = post("/v1/layouts", BARN.as_bytes()).json();
    let hooks = list(&answer["hooks"]);
    let hook = hooks.iter().find(|h| h["id"] == "A1-4").expect("A1-4");
    let texts: Vec<String> = rooms(&svg).into_iter().map(|room| room.text).collect();
    assert!(texts.iter().any(|text| text.contains("A1-4")));
    for name in ["clearance_mm", "clearance_under_load_mm"] {
        let figure = format!(": {:.1} mm", number(&hook[name]));
        assert!(texts.iter().any(|text| text.ends_with(&figure)), "{name}{figure}: {texts:?}");
    }
    let reply = ask("/v1/layouts?view=section&hook=Z9-9", "image/svg+xml", "en", BARN);
    assert_eq!((reply.status, &reply.problem()["code"]), (422, &"invalid_request".into()));
}

#[test]
fn the_same_drawing_has_the_same_bytes() {
    for query in ["", "view=section"] {
        assert_eq!(drawing(query, BARN), drawing(query, BARN));
    }
}

#[test]
fn a_caller_gets_the_form_and_the_language_asked_for() {
    for (accept, kind) in [
        ("*/*", "application/json"),
        ("image/svg+xml", "image/svg+xml; charset=utf-8"),
        ("text/html,application/xhtml+xml;q=0.9,*/*;q=0.8", "text/html; charset=utf-8"),
        ("text/html;q=0.3, application/json;q=0.4", "application/json"),
    ] {
        for (path, body) in
            [("/v1/layouts", BARN), ("/v1/rechecks", BUILT), ("/v1/surveys", SURVEY)]
        {
            let reply = ask(path, accept, "de", body);
            assert_eq!(
                (reply.status, reply.header("content-type")),
                (200, kind),
                "{path} {accept}"
            );
            let vary: Vec<&str> =
                reply.headers.get_all("vary").iter().filter_map(|v| v.to_str().ok()).collect();
            assert!(vary.join(",").contains("accept, accept-language"), "{vary:?}");
        }
    }
    let refused = ask("/v1/layouts", "application/pdf", "en", BARN);
    assert_eq!((refused.status, &refused.problem()["code"]), (406, &"not_acceptable".into()));
    let german = ask("/v1/layouts", "image/svg+xml", "de-AT, en;q=0.5", BARN);
    assert!(german.text().contains("Traufe") && !german.text().contains("Eaves"));
    let forced = ask("/v1/layouts?lang=en", "image/svg+xml", "de", BARN);
    assert!(forced.text().contains("Eaves") && !forced.text().contains("Traufe"));
    let wrong = ask("/v1/layouts?view=section", "application/json", "en", BARN);
    assert_eq!(wrong.status, 422, "a view of nothing");
}

#[test]
fn the_sheet_has_a_row_for_every_hook_and_its_text_in_one_language() {
    let answer = post("/v1/layouts", BARN.as_bytes()).json();
    for (language, title) in [("en", "For the crew"), ("de", "Für die Montage")] {
        let reply = ask("/v1/layouts", "text/html", language, BARN);
        let html = reply.text();
        assert!(html.starts_with(&format!("<!DOCTYPE html><html lang=\"{language}\">")));
        assert!(html.contains(title) && !html.contains("<script"));
        // Nothing is fetched: the only addresses are names of XML.
        assert!(!html.contains("src=") && !html.contains("href="));
        for hook in list(&answer["hooks"]) {
            let row = format!("<th scope=\"row\">{}</th>", hook["id"].as_str().expect("an id"));
            assert!(html.contains(&row), "{row}");
            assert!(html.contains(&format!(
                "<td class=\"main\">{}</td>",
                hook["x_mm"].as_f64().expect("x")
            )));
        }
        for warning in list(&answer["warnings"]) {
            assert!(html.contains(warning["code"].as_str().expect("a code")));
        }
    }
}

/// On paper courses count from 1 at the first full one and tiles from 1 at the left verge; the data
/// keep their own numbers, and the drawing says how the two go together.
#[test]
fn courses_and_tiles_count_from_one_on_paper() {
    let answer = post("/v1/layouts", BARN.as_bytes()).json();
    let html = ask("/v1/layouts", "text/html", "en", BARN).text().to_owned();
    let drawing = drawing("", BARN);
    for paper in [&html, &drawing] {
        assert!(
            paper.contains("Course 1 is the first full course above the eaves (0 in the data)")
        );
    }
    for hook in list(&answer["hooks"]) {
        let course = hook["course"].as_i64().expect("a course") + 1;
        let place = format!("<td>{course} / {}</td>", hook["column_from_verge"]);
        assert!(html.contains(&place), "{place}");
        let lifted = &hook["tiles"]["lift"][0];
        let lifted = format!(
            "{}/{}",
            lifted["course"].as_i64().expect("a course") + 1,
            lifted["from_verge"][0]
        );
        assert!(html.contains(&lifted), "{lifted}");
    }
    for rail in list(&answer["rails"]) {
        let course = rail["course"].as_i64().expect("a course") + 1;
        let label = format!(" · course {course} · ");
        assert!(drawing.contains(&label), "{label}");
    }
}

/// A slope too long for a page is printed in parts: every hook is on one of them.
#[test]
fn every_hook_is_on_one_page_of_the_sheet() {
    for (job, pages) in [(BARN, 1), (STABLE, 4)] {
        let answer = post("/v1/layouts", job.as_bytes()).json();
        let html = ask("/v1/layouts", "text/html", "en", job).text().to_owned();
        assert_eq!(html.matches("<figure class=\"page\"").count(), pages);
        for hook in list(&answer["hooks"]) {
            let sign = format!("<g data-name={}>", hook["id"]);
            assert_eq!(html.matches(&sign).count(), 1, "{sign}");
        }
    }
}

#[test]
fn the_wind_zones_of_every_direction_are_drawn_with_their_coefficients() {
    let answer = post("/v1/layouts", BARN.as_bytes()).json();
    let svg = drawing("view=wind", BARN);
    let texts: Vec<String> = rooms(&svg).into_iter().map(|room| room.text).collect();
    let titles = ["onto the eaves", "from behind the slope", "from the left"];
    for title in titles.iter().chain(&["from the right"]) {
        assert!(
            texts.iter().any(|text| text.starts_with("Wind ") && text.contains(title)),
            "{title}"
        );
    }
    assert!(texts.iter().any(|text| text.ends_with("(governs)")));
    let zones = list(&answer["actions"]["wind"]["zones"]);
    assert!(zones.len() > 8);
    for zone in zones {
        let name = zone["zone"].as_str().expect("a name");
        let figures =
            ["suction", "pressure"].map(|of| format!("{:.2}", number(&zone[of])).replace('-', "−"));
        let line = format!("{name}  {} / {}", figures[0], figures[1]);
        assert!(texts.contains(&line), "{line}: {texts:?}");
        assert!(texts.iter().any(|text| text == name), "{name} is not on a plan");
    }
    let wrong = ask("/v1/layouts?view=wind&hook=A1-1", "image/svg+xml", "en", BARN);
    assert_eq!(wrong.status, 422, "a hook of no section");
}

/// What a survey chose and what a recheck suggests is on their sheets, hook by hook.
#[test]
fn sheets_of_built_jobs_say_what_is_to_be_done() {
    let answer = post("/v1/surveys", SURVEY.as_bytes()).json();
    let html = ask("/v1/surveys", "text/html", "de", SURVEY).text().to_owned();
    let start = html.find("Unterlegplatten und Langlöcher").expect("a heading");
    let table = &html[start..start + html[start..].find("</table>").expect("a table")];
    let settings = list(&answer["surveyed"][0]["hooks"]);
    assert!(settings.len() > 5);
    for setting in settings {
        let name = format!("<th scope=\"row\">{}</th>", setting["id"].as_str().expect("an id"));
        assert!(table.contains(&name), "{name}");
        let slot = format!("{:.1}", number(&setting["slot_mm"])).replace('.', ",");
        let slot = format!("<td class=\"main\">{slot}</td>");
        assert!(table.contains(&slot), "{slot}");
    }
    let answer = post("/v1/rechecks", BUILT.as_bytes()).json();
    let html = ask("/v1/rechecks", "text/html", "en", BUILT).text().to_owned();
    let added = list(&answer["suggestion"]["add"]);
    assert!(!added.is_empty());
    let start = html.find("Hooks to add").expect("a table");
    let rows = html[start..].split("</table>").next().expect("a table").matches("<tr>").count();
    assert_eq!(rows, added.len() + 1, "a row for each, and the head");
}

/// What a caller writes is text wherever it is shown.
#[test]
fn a_name_cannot_become_markup() {
    let mut job = example(BARN);
    job["reference"] = "<script>alert(1)</script>\"'&".into();
    for accept in ["image/svg+xml", "text/html"] {
        let reply = ask("/v1/layouts", accept, "en", &job.to_string());
        assert_eq!(reply.status, 200);
        assert!(!reply.text().contains("<script"), "{accept}");
        assert!(reply.text().contains("&lt;script&gt;"), "{accept}");
    }
}

/// A failing job and one without a known stiffness are drawn too, in shapes of their own.
#[test]
fn what_fails_and_what_is_not_verified_is_drawn_as_such() {
    let mut heavy = example(BARN);
    heavy["site"]["snow"] = serde_json::json!({"ground_load_kn_per_m2": 6, "exceptional": false});
    assert!(drawing("", &heavy.to_string()).contains("loaded beyond its limit"));
    let mut soft = example(BARN);
    soft["components"]["hook"].as_object_mut().expect("a hook").remove("stiffness");
    soft["components"]["hook"]["arm"].as_object_mut().expect("an arm").remove("grade");
    for query in ["", "view=section"] {
        assert!(drawing(query, &soft.to_string()).contains("not verified"), "{query}");
    }
}

/// Answer, drawing and cutting plan know one set of splices.
#[test]
fn splices_are_drawn_where_the_rails_are_cut() {
    let answer = answer("/v1/layouts", &example(BARN));
    let drawing = drawing("", BARN);
    let cut: Vec<&Value> = list(&answer["parts"]["cutting"]["splices"]).iter().collect();
    assert!(!cut.is_empty());
    let of_rails = list(&answer["rails"]).iter().flat_map(|rail| list(&rail["segments"]));
    let of_rails: Vec<&Value> = of_rails.flat_map(|part| list(&part["splices_mm"])).collect();
    assert_eq!(of_rails, cut.iter().map(|splice| &splice["x_mm"]).collect::<Vec<_>>());
    for splice in cut {
        let label = format!(">{:.0}<", number(&splice["x_mm"]));
        assert!(drawing.contains(&label), "no splice is drawn at {label}");
    }
}
