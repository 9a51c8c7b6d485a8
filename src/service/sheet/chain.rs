//! The engineer's part: how the checks of the most used hook were found, number by number.

use std::collections::BTreeSet;

use maud::{Markup, html};

use crate::language::Words;
use crate::model::provenance::TraceLine;
use crate::service::answer::hooks_on;

use super::engineer::found;
use super::{Sheet, head};

/// The steps of every check of the hook that is used most, each in the combination that governs it.
pub fn chain(sheet: &Sheet<'_>, words: &Words) -> Markup {
    let Some(at) = sheet.layout.most_used_hook() else { return html! {} };
    let hook = sheet.layout.hook_name(at);
    let setting = sheet.layout.hooks().find(|(other, _)| *other == at).map(|(_, c)| c.setting);
    // Where feet are set in several ways, the trace names each by the first hook set so.
    let set_as = setting.and_then(|setting| hooks_on(sheet.layout, setting).next());
    let lines = lines_of(hook, set_as.as_deref().unwrap_or(hook), sheet.trace);
    html! {
        h3 { (words.chain) " " (hook) }
        p .note { (words.chain_note) }
        table .trace tabindex="0" {
            (head(&[words.of_what, words.quantity, words.symbol, words.value, words.clause]))
            tbody {
                @for (i, line) in lines.iter().enumerate() {
                    @let again = i > 0 && lines[i - 1].element == line.element;
                    tr {
                        td { @if !again { code { (line.element) } } }
                        td { (line.quantity) }
                        (found(line, words))
                    }
                }
            }
        }
    }
}

/// Of the trace: how the hook's screws sit and what they bear in the combinations that govern, its
/// forces in those, and what its checks make of them. `set_as` is the hook its foot is traced by.
fn lines_of<'a>(hook: &str, set_as: &str, trace: &'a [TraceLine]) -> Vec<&'a TraceLine> {
    let parts = |line: &'a TraceLine| {
        let (of, rest) = line.element.split_once('/').unwrap_or((&line.element, ""));
        (of, rest.split_once('/').unwrap_or((rest, "")))
    };
    let governing = |wanted: &dyn Fn(&str) -> bool| -> BTreeSet<&'a str> {
        let terms = trace.iter().map(parts).filter(|(of, (_, check))| *of == hook && wanted(check));
        terms.map(|(_, (combination, _))| combination).collect()
    };
    let of_screws = governing(&|check| check.starts_with("screws"));
    let of_any = governing(&|check| !check.is_empty());
    let wanted = |line: &&'a TraceLine| {
        let (of, (first, second)) = parts(line);
        match of {
            "screw" if first.is_empty() || first == set_as => {
                second.is_empty() || of_screws.contains(second)
            }
            "screw" => second.is_empty() && of_screws.contains(first),
            _ => of == hook && of_any.contains(first),
        }
    };
    trace.iter().filter(wanted).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(element: &str) -> TraceLine {
        TraceLine {
            element: element.to_owned(),
            quantity: "force".to_owned(),
            symbol: "N".to_owned(),
            value: 1.0,
            unit: "kN",
            clause: String::new(),
        }
    }

    #[test]
    fn the_chain_has_what_governs_the_hook_and_nothing_of_others() {
        let kept = [
            "screw",
            "screw/uls:G+S",
            "A1-1/uls:G+S",
            "A1-1/uls:G+S/foot/lower",
            "A1-1/uls:G+S/screws/1",
            "A1-1/sls:G+S/clearance",
        ];
        let left = [
            "",
            "screw/sls:G+S",
            "screw/uls:G",
            "screw/A1-7",
            "A1-1/uls:G",
            "A1-10/uls:G+S/hook",
            "rail",
        ];
        let trace: Vec<TraceLine> = kept.into_iter().chain(left).map(line).collect();
        let found: Vec<&str> =
            lines_of("A1-1", "A1-1", &trace).iter().map(|line| line.element.as_str()).collect();
        assert_eq!(found, kept);
    }
}
