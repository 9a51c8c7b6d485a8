//! The start page, a worked job that can be changed and computed again, and the pages of the
//! problems. Everything is readable without script; the script only talks to the public interface.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::http::description::openapi_value;
use crate::http::job;
use crate::http::job::Kind;
use crate::http::problem::{Problem, ProblemCode};
use crate::language::Language;
use crate::service::request::Options;
use crate::service::shown::{Drawn, Shown, View};
use crate::service::wording::{not_assessed, verdict};
use crate::wire::layout::{LayoutAnswer, LayoutRequest};
use crate::wire::remarks::Severity;

/// Script of the start page, served as a file of its own: the page allows no other.
pub const SCRIPT: &str = include_str!("page.js");

const STYLE: &str = include_str!("page.css");

/// Address of the list of problems.
pub const PROBLEMS: &str = "/problems/";

/// Values of a job most people ask about first: pointer, label, unit.
const CHIEF_VALUES: [(&str, &str, &str); 6] = [
    ("/roof/pitch_deg", "Pitch", "°"),
    ("/site/altitude_m", "Altitude", "m"),
    ("/array/fields/0/rows", "Rows of modules", ""),
    ("/array/fields/0/columns", "Modules in a row", ""),
    ("/components/hook/resistance/lift_kn", "Hook lifts", "kN"),
    ("/wishes/max_utilisation", "Highest utilisation", ""),
];

/// The start page, with the result of the example job as this build computes it.
pub fn page() -> String {
    let body = html! {
        header {
            h1 { "hookspan" }
            p {
                "Where the roof hooks of a solar array go, and whether they hold. Send the slope as \
                 measured, the array, the site and the parts; get back the fewest hooks that pass \
                 every check with the field where it is and these parts in this pattern, how much each of them is used, and which clause says so."
            }
            nav aria-label="Documents" {
                a href="/roof/en" { "On the roof" } " "
                a href="/docs/" { "Interface" } " "
                a href="/openapi.json" { "OpenAPI" } " "
                a href="/v1/components" { "Parts" } " "
                a href="/v1/rules" { "Rules" } " "
                a href="/v1/warnings" { "Warnings" } " "
                a href=(PROBLEMS) { "Problems" }
            }
        }
        main {
            (worked_job())
            (request_form())
            (caution())
        }
        script src="/start.js" defer {}
    };
    document("hookspan", &body)
}

/// The page a problem's `type` leads to.
pub fn problem_page(code: ProblemCode) -> String {
    let body = html! {
        main {
            h1 { (code.title()) }
            p { "HTTP status " (code.status().as_u16()) ". " (code.advice()) }
            @if code == ProblemCode::InvalidRequest { (faults()) }
            p { a href=(PROBLEMS) { "All problems" } " · " a href="/" { "hookspan" } }
        }
    };
    document(code.title(), &body)
}

/// Kinds of fault and what each means, as the description has them.
fn faults() -> Markup {
    let about = &openapi_value()["components"]["schemas"]["FaultCode"]["description"];
    let lines = about.as_str().unwrap_or_default().lines();
    let kinds = lines.filter_map(|line| line.strip_prefix("- `")?.split_once("`: "));
    html! {
        table {
            thead { tr { th scope="col" { "Code of the fault" } th scope="col" { "Meaning" } } }
            tbody {
                @for (code, meaning) in kinds {
                    tr { th scope="row" id=(code) { code { (code) } } td { (meaning) } }
                }
            }
        }
    }
}

/// The page above those of the problems: all of them, in the order of their statuses.
pub fn problems_page() -> String {
    let mut codes = ProblemCode::ALL;
    codes.sort_by_key(|code| code.status());
    let body = html! {
        main {
            h1 { "Problems" }
            p {
                "Every refusal is one of these (RFC 9457): a program goes by " code { "code" }
                ", and " code { "type" } " leads to the page of its kind."
            }
            table {
                thead { tr { th scope="col" { "Code" } th scope="col" { "Status" } th scope="col" { "Title" } } }
                tbody {
                    @for code in codes {
                        tr {
                            th scope="row" { a href=(code.type_uri()) { code { (code.name()) } } }
                            td { (code.status().as_u16()) }
                            td { (code.title()) }
                        }
                    }
                }
            }
            p { a href="/" { "hookspan" } }
        }
    };
    document("Problems", &body)
}

/// The example job: result and drawing.
fn worked_job() -> Markup {
    match example() {
        Ok((answer, drawing)) => html! {
            section #result aria-labelledby="result-title" {
                h2 #result-title tabindex="-1" {
                    "A worked job: " span #reference { (answer.reference.as_deref().unwrap_or("")) }
                }
                p .note { "A scenario of our own with invented parts: for illustration only." }
                div #summary aria-live="polite" { (summary(&answer)) }
                div #drawing role="region" tabindex="0" aria-label="Drawing, can be scrolled" {
                    (PreEscaped(drawing))
                }
                p .actions {
                    button #slope type="button" aria-pressed="true" { "Slope" } " "
                    button #section type="button" aria-pressed="false" { "Section" } " "
                    button #wind type="button" aria-pressed="false" { "Wind zones" } " "
                    button #sheet type="button" { "Sheet to print" } " "
                    label { "Language " select #language {
                        option value="en" { "English" }
                        option value="de" lang="de" { "Deutsch" }
                    } }
                }
            }
        },
        Err(problem) => {
            tracing::warn!(?problem, "the example job is refused");
            html! { p { "The example job could not be computed by this build." } }
        }
    }
}

/// Answer and drawing of the example job.
fn example() -> Result<(LayoutAnswer, String), Problem> {
    let bytes = LayoutRequest::EXAMPLE.as_bytes();
    let options = Options::default();
    let answer = job::answer::<LayoutRequest>(bytes, &options)?;
    let Shown { text: file, .. } =
        job::shown(bytes, &options, |request: &LayoutRequest, digest| {
            request.drawing(digest, &View::Slope, &options)
        })?;
    // Within a page a drawing has no XML declaration.
    let start = file.find("<svg").unwrap_or_default();
    Ok((answer, file[start..].to_owned()))
}

fn summary(answer: &LayoutAnswer) -> Markup {
    let words = Language::English.words();
    let used = &answer.utilisation;
    let figures = [
        ("Verdict", verdict(answer.verdict, words).to_owned()),
        (
            "Not assessed",
            not_assessed(&answer.verdicts, Language::English).unwrap_or_else(|| "–".to_owned()),
        ),
        (
            "Highest utilisation",
            format!("{} ({}, {})", words.used(used.max, 1), used.element, used.check),
        ),
        (
            "Hooks",
            if answer.optimality.proven {
                format!("{}, {}", answer.hooks.len(), words.fewest_proven)
            } else {
                answer.hooks.len().to_string()
            },
        ),
        ("Rails", answer.rails.len().to_string()),
        ("Snow on the roof", format!("{:.2} kN/m²", answer.actions.snow.roof_load_kn_per_m2)),
        ("Peak wind pressure", format!("{:.2} kN/m²", answer.actions.wind.peak_pressure_kn_per_m2)),
    ];
    html! {
        p .headline { (answer.headline) }
        dl { @for (name, value) in &figures { div { dt { (name) } dd { (value) } } } }
        ul .warnings {
            @for cause in &answer.causes {
                li {
                    strong { (severity(cause.severity)) } " " (cause.line) " "
                    code { (cause.code) }
                }
            }
        }
    }
}

const fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Failure => "✗ Failure.",
        Severity::Incomplete => "? Not verified.",
        Severity::Warning => "! Warning.",
        Severity::Notice => "· Notice.",
    }
}

fn request_form() -> Markup {
    html! {
        section aria-labelledby="try-title" {
            h2 #try-title { "Change it and compute again" }
            form #job novalidate {
                div .values {
                    @for (i, (pointer, label, unit)) in CHIEF_VALUES.iter().enumerate() {
                        div {
                            label for={ "value-" (i) } {
                                (label) @if !unit.is_empty() { ", " (unit) }
                            }
                            input id={ "value-" (i) } data-pointer=(pointer) inputmode="decimal"
                                autocomplete="off" aria-describedby={ "fault-" (i) };
                            p .fault id={ "fault-" (i) } {}
                        }
                    }
                }
                label for="text" { "The whole request, JSON" }
                textarea #text rows="22" spellcheck="false" autocomplete="off"
                    aria-describedby="help" { (LayoutRequest::EXAMPLE.trim_end()) }
                p #help .note {
                    "Ctrl + Enter computes. With a file: "
                    code { "curl --json @job.json localhost:8080/v1/layouts" }
                    "; " code { "Accept: image/svg+xml" } " gives the drawing, "
                    code { "text/html" } " the sheet, " code { "text/csv" } " a table."
                }
                button #run type="submit" { "Compute" }
                noscript { p { "Without script, send the request with a client of your own." } }
            }
            section #problems aria-live="assertive" hidden {
                h3 #problems-title tabindex="-1" {}
                ol {}
            }
        }
    }
}

fn caution() -> Markup {
    html! {
        section .caution aria-labelledby="caution-title" {
            h2 #caution-title { "Caution" }
            p {
                "A calculation aid, no approval. It does not replace a structural engineer, a licensed \
                 roofer or electrician, the instructions that come with the parts, or local rules. \
                 Work on a roof can kill: scaffold and edge protection come first. Version "
                (env!("CARGO_PKG_VERSION")) "."
            }
        }
    }
}

/// A whole page.
fn document(title: &str, body: &Markup) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                // Without an icon of its own the page would be asked for one at another address.
                link rel="icon" href="data:,";
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body { (body) }
        }
    };
    page.into_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_cannot_become_markup() {
        let page = document("<i>", &html! { p { "<b a='1'>&\"" } });
        assert!(page.contains("<title>&lt;i&gt;</title>"));
        assert!(!page.contains("<b a="));
    }

    #[test]
    fn every_problem_has_a_page_with_its_status() {
        for code in ProblemCode::ALL {
            assert!(problem_page(code).contains(code.status().as_str()));
        }
    }

    #[test]
    fn the_page_is_small() {
        let drawing = example().expect("the example holds").1.len();
        assert!(page().len() - drawing + SCRIPT.len() < 60_000);
    }
}
