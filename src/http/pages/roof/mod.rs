//! The page that is used on the roof: measured and ticked hook by hook on a phone, with one hand, in the sun, and
//! where the network drops. The script only talks to the public interface; what was entered is kept on the phone.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use serde_json::{Map, Value};

use crate::http::job::Kind;
use crate::language::Language;
use crate::language::cautions::Caution;
use crate::language::on_roof::OnRoof;
use crate::wire::survey::SurveyRequest;

/// Script of the page.
pub const SCRIPT: &str = include_str!("page.js");

/// Its style.
pub const STYLE: &str = include_str!("page.css");

/// Its icon.
pub const ICON: &str = include_str!("icon.svg");

/// Where the page is, in the language asked for.
pub const START: &str = "/roof";

/// Address of the page in a language.
#[must_use]
pub const fn address(language: Language) -> &'static str {
    match language {
        Language::English => "/roof/en",
        Language::German => "/roof/de",
    }
}

/// What keeps the page where there is no network, one for each version of it.
pub fn worker() -> String {
    let version = Value::from(env!("CARGO_PKG_VERSION"));
    format!("\"use strict\";\nconst VERSION = {version};\n{}", include_str!("worker.js"))
}

/// A job to try the page with.
pub const fn example() -> &'static str {
    SurveyRequest::EXAMPLE
}

/// The readings of a survey that are lengths: member and label.
const fn lengths(words: &OnRoof) -> [(&'static str, &'static str); 8] {
    [
        ("clearance_mm", words.clearance),
        ("level_mm", words.level),
        ("rafter_x_mm", words.rafter_x),
        ("side_joint_mm", words.side_joint),
        ("rafter_width_mm", words.rafter_width),
        ("counter_batten_mm", words.counter_batten),
        ("screw_length_mm", words.screw_length),
        ("room_above_mm", words.room_above),
    ]
}

/// The page in a language.
#[must_use]
pub fn page(language: Language) -> String {
    let words = OnRoof::of(language);
    let other = match language {
        Language::English => Language::German,
        Language::German => Language::English,
    };
    let page = html! {
        (DOCTYPE)
        html lang=(language.tag()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                link rel="icon" href="/roof/icon.svg" type="image/svg+xml";
                link rel="stylesheet" href="/roof/page.css";
                title { (words.title) " · hookspan" }
            }
            body {
                header {
                    h1 { (words.title) }
                    p { (words.about) }
                    p { a href=(address(other)) lang=(other.tag()) { (words.other_language) } }
                    p #kept .fault role="alert" {}
                }
                main {
                    (begin(words, language))
                    section #work aria-labelledby="hook-title" hidden {
                        div #verdict role="region" aria-labelledby="verdict-title" {
                            h2 #verdict-title { (words.verdict) }
                            p #state .state role="status" {}
                            p #word .word {}
                            p #unmeasured .state {}
                            p #headline {}
                            details #reasons {
                                summary #reasons-title {}
                                div #reasons-list {}
                            }
                        }
                        (hook(words))
                        (record(words))
                        details {
                            summary { (words.before_you_climb) }
                            (cautions(language))
                        }
                    }
                    form .field #access {
                        label for="key" { (words.access) }
                        input #key type="password" autocomplete="off";
                    }
                }
                (steps(words))
                script #texts type="application/json" { (PreEscaped(texts(words))) }
                script src="/roof/page.js" defer {}
            }
        }
    };
    page.into_string()
}

/// The texts as the script reads them. None of them has a `<`, so that none can end its element.
fn texts(words: &OnRoof) -> String {
    let all: Map<String, Value> =
        words.all().map(|(name, text)| (name.to_owned(), Value::from(text))).collect();
    Value::Object(all).to_string()
}

fn cautions(language: Language) -> Markup {
    html! { ul { @for caution in Caution::ALL { li { (caution.text(language)) } } } }
}

fn begin(words: &OnRoof, language: Language) -> Markup {
    html! {
        section #begin aria-labelledby="begin-title" {
            h2 { (words.before_you_climb) }
            (cautions(language))
            h2 #begin-title { (words.begin) }
            noscript { p { (words.needs_script) } }
            div .column {
                label .file {
                    (words.choose_job)
                    input #file type="file" accept=".json,application/json";
                }
                button #example type="button" { (words.take_example) }
            }
            p #begin-state role="status" {}
        }
    }
}

/// The hook that is worked on.
fn hook(words: &OnRoof) -> Markup {
    html! {
        h2 #hook-title tabindex="-1" {}
        dl #planned {}
        div #told {}
        fieldset {
            legend { (words.measured) }
            p { (words.leave_blank) }
            @for (member, label) in lengths(words) {
                div .field {
                    label for=(member) { (label) span .unit { ", mm" } }
                    input id=(member) data-reading=(member) inputmode="decimal" autocomplete="off"
                        enterkeyhint="done" aria-describedby={ (member) "-fault" };
                    p .fault id={ (member) "-fault" } {}
                }
            }
            fieldset {
                legend { (words.condition) }
                @for (value, label) in [
                    ("", words.not_looked),
                    ("sound", words.sound),
                    ("split", words.split),
                    ("rotten", words.rotten),
                ] {
                    label .pick {
                        input type="radio" name="rafter_condition" value=(value);
                        (label)
                    }
                }
            }
        }
        fieldset {
            legend { (words.done) }
            @for (name, label) in
                [("screwed", words.screwed), ("packed", words.packed), ("closed", words.closed)]
            {
                label .pick { input type="checkbox" data-tick=(name); (label) }
            }
            p #closed-too-soon .fault role="status" {}
        }
        fieldset {
            legend { (words.photos) }
            label .file {
                (words.take_photo)
                input #photo type="file" accept="image/*" capture="environment" multiple;
            }
            ul #photos {}
        }
        div .field {
            label for="note" { (words.note) }
            textarea #note rows="2" autocomplete="off" {}
        }
        div #suggested {}
    }
}

fn record(words: &OnRoof) -> Markup {
    html! {
        section aria-labelledby="record-title" {
            h2 #record-title { (words.record) }
            p { (words.record_about) }
            div .column {
                button #save type="button" { (words.save_record) }
                button #sheet type="button" { (words.open_sheet) }
                button #forget type="button" { (words.forget) }
            }
            p #record-state role="status" {}
        }
    }
}

/// Low on the screen, where the thumb is.
fn steps(words: &OnRoof) -> Markup {
    html! {
        nav #steps aria-label=(words.hooks) hidden {
            a #live href="#verdict" { (words.no_verdict) }
            button #previous type="button" { (words.previous) }
            select #hooks aria-label=(words.hook) {}
            button #next type="button" { (words.next) }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::http::description::openapi_value;

    #[test]
    fn it_asks_for_the_readings_of_a_survey_and_no_others() {
        let schema = &openapi_value()["components"]["schemas"]["MeasuredHook"]["properties"];
        let known: Vec<&String> = schema.as_object().expect("members").keys().collect();
        let asked = lengths(OnRoof::of(Language::English));
        let asked = asked.iter().map(|(member, _)| *member).chain(["rafter_condition"]);
        let asked: Vec<&str> = asked.collect();
        for member in &asked {
            assert!(known.iter().any(|known| known == member), "{member}");
        }
        // A name and how readings are known are not measured.
        assert_eq!(known.len(), asked.len() + 2, "{known:?}");
    }

    #[test]
    fn texts_cannot_end_their_element() {
        for language in Language::ALL {
            assert!(!texts(OnRoof::of(language)).contains('<'));
        }
    }

    #[test]
    fn it_is_small() {
        let all = page(Language::German).len() + SCRIPT.len() + STYLE.len() + worker().len();
        assert!(all < 60_000, "{all} bytes");
    }
}
