//! The engineer's part: how the checks of the most used hook were found, number by number.

use std::collections::BTreeSet;

use maud::{Markup, html};

use crate::geometry::Rect;
use crate::language::Words;
use crate::placement::segments::modules_over;
use crate::service::answer::hooks_on;
use crate::service::trace::kind_name;
use crate::wire::provenance::TraceLine;

use super::engineer::found;
use super::{Sheet, head};

/// The steps of every check of the hook that is used most, each in the combination that governs it.
pub fn chain(sheet: &Sheet<'_>, words: &Words) -> Markup {
    let Some(at) = sheet.layout.most_used_hook() else { return html! {} };
    let hook = sheet.layout.hook_name(at);
    let setting = sheet.layout.hooks().find(|(other, _)| *other == at).map(|(_, c)| c.setting);
    // Where feet are set in several ways, the trace names each by the first hook set so.
    let set_as = setting.and_then(|setting| hooks_on(sheet.layout, setting).next());
    let set_as = set_as.as_deref().unwrap_or(hook);
    let lines = lines_of(hook, set_as, &loads_beside(sheet, at), sheet.trace);
    html! {
        h3 { (words.chain) " " (hook) }
        p .note { (words.chain_note) }
        div .pair { table .trace tabindex="0" {
            (head(&[words.quantity_and_clause, words.symbol_and_value]))
            @for part in lines.chunk_by(|a, b| a.element == b.element) {
                tbody {
                    @if let Some(first) = part.first() {
                        tr .part { th colspan="2" scope="rowgroup" { code { (first.element) } } }
                    }
                    @for line in part {
                        tr {
                            (found(line, None, words))
                        }
                    }
                }
            }
        } }
    }
}

/// What the trace calls the rail of a hook and what a module beside it is loaded by, in the combinations
/// that govern the hook: as whole names.
fn loads_beside(sheet: &Sheet<'_>, [r, s, h]: [usize; 3]) -> BTreeSet<String> {
    let (job, rail) = (sheet.job, &sheet.layout.rails[r]);
    let mut names = BTreeSet::from(["rail".to_owned(), rail.line.id.clone()]);
    let kind = kind_name(job, rail.line.field());
    names.extend(kind.clone());
    let fixings = kind.map_or_else(|| "fixings".to_owned(), |kind| format!("{kind}/fixings"));
    let laid = &rail.segments[s];
    let Some((result, hook)) = laid.result.as_ref().zip(laid.hooks().nth(h)) else { return names };
    let off = |rect: &Rect| {
        let [along, _] = rail.line.axis().sides(rect);
        (f64::midpoint(along[0], along[1]) - hook.at.mm()).abs()
    };
    let modules = modules_over(job, &rail.line, rail.line.segments[s]);
    let nearest = modules.min_by(|a, b| off(&a.1).total_cmp(&off(&b.1)));
    let Some(([row, column], rect)) = nearest else { return names };
    let module = job.module_named(rail.line.field(), row, column);
    let area = job.fields[rail.line.field()].module.area();
    let wind = &job.actions.wind.on(area).fixings;
    for combination in result.hooks[h].combinations() {
        let combination = &job.actions.combinations[combination];
        if let Some(case) = combination.wind {
            let direction = case.direction.name();
            names.insert(format!("{}/{module}/{direction}:{}", rail.line.id, case.sense.name()));
            let patches = wind.patches(&rect);
            for patch in patches.filter(|patch| patch.zone.direction == case.direction) {
                let zone = patch.zone.name;
                // Coefficients that are given hold for any element.
                let on = ["any", &fixings].map(|on| format!("{on}/{direction}/{zone}"));
                names.extend(on);
                names.insert(format!("{module}/{direction}/{zone}"));
            }
        }
        if let Some(arrangement) = combination.snow {
            let name = job.actions.snow.arrangements[arrangement].gathers.name();
            names.insert(format!("{}/{module}/{name}", rail.line.id));
        }
    }
    names
}

/// Of the trace: how the hook's foot is set, how its screws sit and what they bear in the combinations
/// that govern, what loads its rail, its forces in those combinations, and what its checks make of them.
/// `set_as` is the hook its foot is traced by, `loads` are names of whole elements.
fn lines_of<'a>(
    hook: &str,
    set_as: &str,
    loads: &BTreeSet<String>,
    trace: &'a [TraceLine],
) -> Vec<&'a TraceLine> {
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
            "foot" => first.is_empty() || first == set_as,
            "screw" if first.is_empty() || first == set_as => {
                second.is_empty() || of_screws.contains(second)
            }
            "screw" => second.is_empty() && of_screws.contains(first),
            _ => (of == hook && of_any.contains(first)) || loads.contains(&line.element),
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
            "foot",
            "screw",
            "screw/uls:G+S",
            "A1-1/uls:G+S",
            "A1-1/uls:G+S/foot/lower",
            "A1-1/uls:G+S/screws/1",
            "A1-1/sls:G+S/clearance",
            "A1",
            "rail",
            "A1/main/0/1/front:pressing",
        ];
        let left = [
            "",
            "foot/A1-7",
            "A2",
            "A1/main/0/2/front:pressing",
            "A1/uls:G+S/rail_bending",
            "screw/sls:G+S",
            "screw/uls:G",
            "screw/A1-7",
            "A1-1/uls:G",
            "A1-10/uls:G+S/hook",
        ];
        let trace: Vec<TraceLine> = kept.into_iter().chain(left).map(line).collect();
        let loads = ["A1", "rail", "A1/main/0/1/front:pressing"].map(str::to_owned).into();
        let found: Vec<&str> = lines_of("A1-1", "A1-1", &loads, &trace)
            .iter()
            .map(|line| line.element.as_str())
            .collect();
        assert_eq!(found, kept);
    }
}
