//! The start page and the pages of the problems: plain HTML, no script, readable without style.

use std::fmt::Write;

use crate::http::documents::EXAMPLE_JOB;
use crate::http::job;
use crate::http::problem::ProblemCode;
use crate::jobs::layout::Options;
use crate::model::layout::{LayoutAnswer, LayoutRequest, Verdict};

/// The start page, with the result of the example job as this build computes it.
pub(super) fn page() -> String {
    let body = format!(
        r#"<h1>hookspan</h1>
<p>Lays out and checks the roof hooks of a solar array on a tiled or slated pitched roof: send a
roof, an array, a site and the parts; get back on which rafters the hooks go, how much each of
them is used, and which clause says so. Version {version}.</p>
<h2>Try it</h2>
<pre><code>curl -s {origin}/v1/components
curl -s --json @layout.json {origin}/v1/layouts</code></pre>
<p>A <code>layout.json</code> to begin with is the request example of
<a href="/openapi.json"><code>POST /v1/layouts</code></a>.</p>
<h2>The example job</h2>
{example}
<h2>More</h2>
<ul>
<li><a href="/docs/">Browse the interface</a></li>
<li><a href="/openapi.json">OpenAPI description</a></li>
<li><a href="/v1/components">Embedded parts</a> (invented, for demonstration only)</li>
<li><a href="/v1/warnings">Warnings an answer can carry</a></li>
<li><a href="/v1/rules">Rules and how far they are confirmed</a></li>
</ul>
<h2>Caution</h2>
<p>An answer supports planning. It does not replace a structural engineer, the instructions that
come with the parts, or local rules. Work at height, on old roof coverings and on electrical
installations belongs in trained and licensed hands.</p>"#,
        version = env!("CARGO_PKG_VERSION"),
        origin = "http://localhost:8080",
        example = example(),
    );
    document("hookspan", &body)
}

/// The page a problem's `type` leads to.
pub(super) fn problem_page(code: ProblemCode) -> String {
    let mut body = format!("<h1>{}</h1>\n", escape(code.title()));
    // Writing to a String cannot fail.
    let _ = write!(
        body,
        "<p>HTTP status {}. {}</p>\n<p><a href=\"/\">hookspan</a></p>",
        code.status().as_u16(),
        escape(code.advice())
    );
    document(code.title(), &body)
}

/// The example job in a few figures.
fn example() -> String {
    match job::answer::<LayoutRequest>(EXAMPLE_JOB.as_bytes(), &Options::default()) {
        Ok(answer) => summary(&answer),
        Err(problem) => {
            tracing::warn!(?problem, "the example job is refused");
            "<p>The example job could not be computed by this build.</p>".to_owned()
        }
    }
}

fn summary(answer: &LayoutAnswer) -> String {
    let verdict = match answer.verdict {
        Verdict::Holds => "holds",
        Verdict::HoldsWithWarnings => "holds, read the warnings",
        Verdict::Fails => "fails",
        Verdict::Incomplete => "incomplete",
    };
    let rows = [
        ("Job", answer.reference.clone().unwrap_or_default()),
        ("Verdict", verdict.to_owned()),
        ("Rails", answer.rails.len().to_string()),
        ("Hooks", answer.hooks.len().to_string()),
        ("Highest utilisation", format!("{:.0} %", 100.0 * answer.utilisation.max)),
        ("Warnings", answer.warnings.len().to_string()),
        ("Rules", answer.engine.rules.id.clone()),
    ];
    let mut table =
        String::from("<table>\n<caption>Computed when this instance started</caption>\n");
    for (name, value) in rows {
        let _ = writeln!(
            table,
            "<tr><th scope=\"row\">{}</th><td>{}</td></tr>",
            escape(name),
            escape(&value)
        );
    }
    table + "</table>"
}

/// A whole page around a body that is already HTML.
fn document(title: &str, body: &str) -> String {
    format!(
        r#"<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{}</title>
<style>
:root {{ color-scheme: light dark }}
body {{ font: 1rem/1.5 system-ui, sans-serif; max-width: 42rem; margin: 2rem auto; padding: 0 1rem }}
pre {{ overflow-x: auto; padding: .75rem; border: 1px solid }}
th {{ text-align: left; padding-right: 2rem }}
caption {{ text-align: left; font-style: italic }}
</style>
</head>
<body>
<main>
{body}
</main>
</body>
</html>
"#,
        escape(title)
    )
}

/// Text as HTML text or attribute value.
fn escape(text: &str) -> String {
    text.chars().fold(String::with_capacity(text.len()), |mut html, character| {
        match character {
            '&' => html.push_str("&amp;"),
            '<' => html.push_str("&lt;"),
            '>' => html.push_str("&gt;"),
            '"' => html.push_str("&quot;"),
            '\'' => html.push_str("&#39;"),
            other => html.push(other),
        }
        html
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_cannot_become_markup() {
        assert_eq!(escape("<b a='1'>&\""), "&lt;b a=&#39;1&#39;&gt;&amp;&quot;");
        assert!(document("<i>", "").contains("<title>&lt;i&gt;</title>"));
    }

    #[test]
    fn every_problem_has_a_page_with_its_status() {
        for code in ProblemCode::ALL {
            assert!(problem_page(code).contains(code.status().as_str()));
        }
    }
}
