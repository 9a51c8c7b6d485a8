//! Description, its browser, start page, pages of the problems, health.

use crate::server::{get, send};

#[test]
fn the_description_served_is_the_one_committed() {
    let reply = get("/openapi.json");
    assert_eq!(reply.status, 200);
    assert_eq!(reply.header("content-type"), "application/json");
    assert!(reply.text() == include_str!("../../openapi/hookspan.json"), "drifted");
}

/// Every script and style the page loads comes from here, and the page may load no other.
#[test]
fn the_browser_of_the_description_is_complete_without_other_hosts() {
    let moved = get("/docs");
    assert!(matches!(moved.status, 303 | 307 | 308), "{}", moved.status);
    assert_eq!(moved.header("location"), "/docs/");

    let page = get("/docs/");
    assert_eq!(page.status, 200);
    let policy = page.header("content-security-policy");
    assert!(policy.contains("default-src 'self'"), "{policy}");
    let mut loaded = 0;
    for attribute in ["src=\"", "href=\""] {
        for piece in page.text().split(attribute).skip(1) {
            let target = piece.split('"').next().expect("a closed attribute");
            assert!(!target.contains("//"), "{target} lies on another host");
            let part = get(&format!("/docs/{}", target.trim_start_matches("./")));
            assert_eq!(part.status, 200, "{target}");
            assert!(!part.body.is_empty(), "{target}");
            loaded += 1;
        }
    }
    assert!(loaded >= 4, "only {loaded} parts were found");
    let settings = get("/docs/swagger-initializer.js");
    assert!(settings.text().contains("/openapi.json"));
    assert!(settings.text().contains("\"validatorUrl\": \"none\""), "{}", settings.text());
    assert_eq!(get("/docs/no-such-file.js").problem()["code"], "not_found");
}

#[test]
fn the_start_page_is_whole_and_its_links_work() {
    let page = get("/");
    assert_eq!(page.status, 200);
    assert!(page.header("content-type").starts_with("text/html"));
    let html = page.text();
    for part in
        ["<!DOCTYPE html>", "<html lang=\"en\">", "<title>hookspan</title>", "<main>", "<h1>"]
    {
        assert!(html.contains(part), "{part} is missing");
    }
    // One script, from here: the page allows no other.
    assert_eq!(html.matches("<script").count(), 1);
    let script = get("/start.js");
    assert!(script.header("content-type").starts_with("text/javascript"));
    assert!(page.header("content-security-policy").contains("default-src 'self'"));
    let mut links = 0;
    for piece in html.split("href=\"").skip(1) {
        let target = piece.split('"').next().expect("a closed attribute");
        if target.starts_with("data:") {
            continue;
        }
        assert_eq!(get(target).status, 200, "{target}");
        links += 1;
    }
    assert!(links >= 5, "only {links} links were found");
}

/// Computed when the server started, by the same code as any other job.
#[test]
fn the_start_page_shows_the_result_of_the_example_job() {
    let page = get("/");
    for part in ["mill-barn-south", "Verdict", "Rails", "Hooks"] {
        assert!(page.text().contains(part), "{part} is missing");
    }
}

#[test]
fn every_type_of_a_problem_leads_to_a_page() {
    for code in ["malformed_json", "invalid_request", "busy", "internal"] {
        let page = get(&format!("/problems/{code}"));
        assert_eq!(page.status, 200, "{code}");
        assert!(page.header("content-type").starts_with("text/html"));
    }
    assert_eq!(get("/problems/no_such_kind").problem()["code"], "not_found");
}

/// All the kinds the description knows, each with a link that leads to its own page.
/// The page of refused requests has every code a fault can have, each with its meaning.
#[test]
fn the_page_of_faults_has_every_code_of_a_fault() {
    let schema =
        &hookspan::http::description::openapi_value()["components"]["schemas"]["FaultCode"];
    let codes = schema["enum"].as_array().expect("codes");
    assert!(codes.len() > 10, "{codes:?}");
    let page = get("/problems/invalid_request");
    for code in codes {
        let code = code.as_str().expect("a code");
        let row = format!("<th scope=\"row\" id=\"{code}\"><code>{code}</code></th><td>");
        let (_, meaning) = page.text().split_once(&row).unwrap_or_else(|| panic!("no {code}"));
        assert!(meaning.starts_with(char::is_uppercase), "{code}");
    }
    assert!(!get("/problems/busy").text().contains("choose_one"));
}

#[test]
fn the_list_of_problems_is_whole_and_its_links_work() {
    let moved = get("/problems");
    assert_eq!((moved.status, moved.header("location")), (308, "/problems/"));
    let page = get("/problems/");
    assert_eq!(page.status, 200);
    assert!(page.header("content-type").starts_with("text/html"));
    let description = get("/openapi.json").json();
    let codes = description["components"]["schemas"]["ProblemCode"]["enum"].clone();
    let codes = codes.as_array().expect("the codes").clone();
    assert_eq!(page.text().matches("href=\"/problems/").count(), codes.len());
    for code in codes {
        let address = format!("/problems/{}", code.as_str().expect("a code"));
        let after = page.text().split(&format!("href=\"{address}\"")).nth(1).expect("a link");
        let row = after.split("</tr>").next().expect("a row");
        let own = get(&address);
        let title = own.text().split("<h1>").nth(1).and_then(|rest| rest.split("</h1>").next());
        assert!(row.contains(&format!("<td>{}</td>", title.expect("a title"))), "{row}");
        let status = own.text().split("HTTP status ").nth(1).and_then(|rest| rest.get(..3));
        assert!(row.contains(&format!("<td>{}</td>", status.expect("a status"))), "{row}");
        assert!(own.text().contains("href=\"/problems/\""), "{address} leads back");
    }
}

#[test]
fn health_is_answered() {
    for path in ["/livez", "/readyz"] {
        let reply = get(path);
        assert_eq!((reply.status, &reply.json()["status"]), (200, &"ok".into()), "{path}");
    }
}

/// Every file of the page on the roof comes from here, and what keeps it offline keeps all of them.
#[test]
fn the_page_on_the_roof_is_whole_in_both_languages() {
    for (asked, tag, title) in [("de-AT", "de", "Auf dem Dach"), ("fr, en", "en", "On the roof")] {
        let moved = send("GET", "/roof", &[("accept-language", asked)], &[]);
        let address = format!("/roof/{tag}");
        assert_eq!((moved.status, moved.header("location")), (307, &*address));
        assert_eq!(moved.header("vary"), "accept-language");
        let page = get(&address);
        assert_eq!((page.status, page.header("cache-control")), (200, "no-cache"));
        let html = page.text();
        assert!(html.contains(&format!("<html lang=\"{tag}\">")) && html.contains(title));
        let kept = get("/roof/worker.js");
        assert_eq!(kept.header("service-worker-allowed"), "/roof");
        let mut files = 0;
        for piece in ["src=\"", "href=\""].iter().flat_map(|of| html.split(of).skip(1)) {
            let target = piece.split('"').next().expect("a closed attribute");
            if target.starts_with('#') {
                continue;
            }
            assert!(target.starts_with("/roof/"), "{target}");
            assert_eq!(get(target).status, 200, "{target}");
            assert!(kept.text().contains(&format!("\"{target}\"")), "{target} is not kept");
            files += 1;
        }
        assert_eq!(files, 4, "style, icon, script and the other language");
        assert!(kept.text().contains(&format!("\"{address}\"")));
    }
    let kinds = [
        ("page.js", "text/javascript"),
        ("worker.js", "text/javascript"),
        ("page.css", "text/css"),
        ("icon.svg", "image/svg+xml"),
        ("example.json", "application/json"),
    ];
    for (file, kind) in kinds {
        let reply = get(&format!("/roof/{file}"));
        assert!(reply.header("content-type").starts_with(kind), "{file}");
    }
    let example = get("/roof/example.json");
    assert_eq!(
        send("POST", "/v1/surveys", &[("content-type", "application/json")], &example.body).status,
        200
    );
    assert_eq!(get("/roof/no-such-file").problem()["code"], "not_found");
}
