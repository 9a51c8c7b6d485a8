//! The engineer's part: utilisations, actions with their clauses, assumptions, inputs.

use maud::{Markup, html};

use crate::checks::Check;
use crate::language::{Language, Words, module_on_paper, ordinal};
use crate::placement::laid::Layout;
use crate::service::rounding;
use crate::wire::actions::{Actions, CombinationActions, Situation};
use crate::wire::evidence::EvidenceKind;
use crate::wire::provenance::TraceLine;

use super::{Content, Sheet, head, mm};

fn share(value: Option<f64>, words: &Words) -> String {
    value.map_or_else(|| words.not_verified.to_owned(), |used| words.used(used, 1))
}

/// A combination by its number in the list of them: its name is long.
pub fn numbered(combination: &str, content: &Content<'_>) -> String {
    let listed = content.actions.combinations.iter().position(|one| one.id == combination);
    listed.map_or_else(|| combination.to_owned(), |at| ordinal(at).to_string())
}

/// Every hook with its checks.
pub fn utilisations(sheet: &Sheet<'_>, words: &Words) -> Markup {
    let content = &sheet.content;
    let screw = |force: &str| format!("{force}, kN ({})", words.most_of_a_screw);
    html! {
        h3 { (words.utilisations) }
        p .note { (words.each_in_its_own) }
        table tabindex="0" {
            (head(&[
                words.hook, words.normal_force, words.slope_force, words.hook, words.screws,
                words.timber, words.clearance, words.unloaded_mm,
                words.under_load_mm, &format!("{}, mm", words.embedment), &screw("T"), &screw("V"),
                words.combination_number,
            ]))
            tbody {
                @for (hook, (at, _)) in content.hooks.iter().zip(sheet.layout.hooks()) {
                    @let worst = hook.id == content.utilisation.element;
                    @let used = |check| used(sheet.layout, at, check);
                    tr .worst[worst] {
                        th scope="row" { @if worst { "▶ " } (hook.id) }
                        td { (words.figure(hook.normal_kn, 2)) }
                        td { (words.figure(hook.slope_kn, 2)) }
                        td { (words.used(hook.utilisation.hook, 1)) }
                        td { (share(hook.utilisation.screws, words)) }
                        td { (share(used(Check::FootBearing), words)) }
                        td { (share(hook.utilisation.clearance, words)) }
                        td { @if let Some(mm) = hook.clearance_mm { (words.figure(mm, 1)) } }
                        td {
                            @if let Some(mm) = hook.clearance_under_load_mm { (words.figure(mm, 1)) }
                        }
                        td { (mm(hook.embedment_mm)) }
                        td { (words.figure(hook.screw_tension_kn, 2)) }
                        td { (words.figure(hook.screw_shear_kn, 2)) }
                        td { (numbered(&hook.combination, content)) }
                    }
                }
            }
        }
    }
}

/// What a check found at a hook; nothing where none could be run.
fn used(layout: &Layout, [r, s, h]: [usize; 3], check: Check) -> Option<f64> {
    let result = layout.rails[r].segments[s].result.as_ref()?;
    let found = result.hooks[h].by_check().into_iter().find(|(of, _)| *of == check);
    found.map(|(_, governing)| rounding::utilisation(governing.utilisation))
}

/// Rails, rafters and modules.
pub fn members(content: &Content<'_>, words: &Words) -> Markup {
    html! {
        h3 { (words.rails_checked) }
        table tabindex="0" {
            (head(&[
                words.rail, words.bending, words.deflection, &format!("{}, mm", words.deflection),
                &format!("{}, mm", words.limit_mm), words.combination_number,
            ]))
            tbody {
                @for rail in content.rails {
                    tr {
                        th scope="row" { (rail.id) }
                        td { (words.used(rail.utilisation_by_check.bending, 1)) }
                        td { (words.used(rail.utilisation_by_check.deflection, 1)) }
                        td { (words.figure(rail.deflection_mm, 1)) }
                        td { (words.figure(rail.deflection_limit_mm, 1)) }
                        td { (numbered(&rail.utilisation_by_check.combination, content)) }
                    }
                }
            }
        }
        h3 { (words.rafters_checked) }
        table .rafters tabindex="0" {
            (head(&[
                words.rafter, "x", words.hooks, words.press, words.lift, words.down,
                words.added_load, words.bending, words.shear, words.bending_before,
                words.shear_before,
            ]))
            tbody {
                @for rafter in content.rafters {
                    @let used = rafter.utilisation.as_ref();
                    @let before = rafter.before.as_ref();
                    tr {
                        th scope="row" { (rafter.rafter + 1) }
                        td { (mm(rafter.x_mm)) }
                        td { (rafter.hooks.join(", ")) }
                        td { (words.figure(rafter.press_kn, 2)) }
                        td { (words.figure(rafter.lift_kn, 2)) }
                        td { (words.figure(rafter.slope_kn, 2)) }
                        td { (words.percent(rafter.added_load_share, 1)) }
                        td { (share(used.map(|u| u.bending), words)) }
                        td { (share(used.map(|u| u.shear), words)) }
                        td { (share(before.map(|u| u.bending), words)) }
                        td { (share(before.map(|u| u.shear), words)) }
                    }
                }
            }
        }
        h3 { (words.modules_checked) }
        p .note { (words.each_column_largest) }
        div .pair { table .modules tabindex="0" {
            (head(&[
                words.module, &format!("{}/m²", words.press), &format!("{}/m²", words.lift),
                &format!("{}, kN", words.clamp), words.down, words.utilisation,
            ]))
            tbody {
                @for module in content.modules {
                    tr {
                        th scope="row" { (module_on_paper(&module.id)) }
                        td { (words.figure(module.press_kn_per_m2, 2)) }
                        td { (words.figure(module.lift_kn_per_m2, 2)) }
                        td { (words.figure(module.clamp_lift_kn, 2)) }
                        td { (words.figure(module.clamp_slope_kn, 2)) }
                        td { (words.used(module.utilisation.max, 1)) }
                    }
                }
            }
        } }
    }
}

/// Actions, intermediate values and combinations with their clauses.
pub fn actions(sheet: &Sheet<'_>, language: Language) -> Markup {
    let words = language.words();
    let actions = sheet.content.actions;
    html! {
        h3 { (words.actions) }
        p lang="en" {
            (actions.snow.ground_load_source) "; " (actions.wind.peak_pressure_source)
        }
        div .pair { table .trace tabindex="0" {
            (head(&[words.quantity_and_clause, words.symbol_and_value]))
            tbody {
                // Those of the whole job; forces of single hooks are in the trace of the JSON.
                @for line in sheet.trace.iter().filter(|line| is_of_the_job(line, actions)) {
                    tr {
                        (found(line, Some(&*line.element).filter(|of| !of.is_empty()), words))
                    }
                }
            }
        } }
        h3 { (words.combinations) }
        div .pair { (combinations(actions, words)) }
    }
}

/// The combinations by their numbers, below the clause they are of.
fn combinations(actions: &Actions, words: &Words) -> Markup {
    let of_person = actions.combinations.iter().any(|combination| combination.person.is_some());
    let rows: Vec<(usize, &CombinationActions)> = actions.combinations.iter().enumerate().collect();
    html! {
        table .combinations tabindex="0" {
            thead {
                tr {
                    th scope="col" { (words.number_sign) }
                    th scope="col" { (words.combination) }
                    th scope="col" { (words.weight) }
                    th scope="col" { (words.snow) }
                    th scope="col" { (words.wind) }
                    @if of_person { th scope="col" { (words.person) } }
                    th scope="col" { "k" sub { "mod" } }
                }
            }
            @for part in rows.chunk_by(|(_, a), (_, b)| a.clause == b.clause) {
                tbody {
                    @if let Some((_, first)) = part.first() {
                        tr .part {
                            th colspan=(if of_person { "7" } else { "6" }) scope="rowgroup" lang="en" {
                                (first.clause)
                            }
                        }
                    }
                    @for (at, combination) in part {
                        tr {
                            td { (ordinal(*at)) }
                            th scope="row" { code { (combination.id) } }
                            td { (words.figure(combination.weight, 2)) }
                            td { (words.figure(combination.snow + combination.exceptional_snow, 2)) }
                            td { (words.figure(combination.wind, 2)) }
                            @if of_person { td { (words.figure(combination.person.unwrap_or(0.0), 2)) } }
                            td {
                                @if combination.situation != Situation::Characteristic {
                                    (words.figure(combination.k_mod, 2))
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// A line of the trace in cells: what it is, with its source, and its value.
pub fn found(line: &TraceLine, element: Option<&str>, words: &Words) -> Markup {
    html! {
        td {
            (line.quantity)
            @if let Some(element) = element { " " code { (element) } }
            @if !line.clause.is_empty() { span .clause lang="en" { " · " (line.clause) } }
        }
        td .found { code { (line.symbol) } " = " (words.number(line.value, 6)) " " (line.unit) }
    }
}

/// Whether a line of the trace is about the whole job, or about snow that drifts.
fn is_of_the_job(line: &TraceLine, actions: &Actions) -> bool {
    let place = line.element.split('/').next().unwrap_or_default();
    place.is_empty() || actions.snow.arrangements.iter().any(|snow| snow.id == place)
}

/// Everything that was assumed.
pub fn assumptions(content: &Content<'_>, language: Language) -> Markup {
    let words = language.words();
    html! {
        h3 { (words.assumptions) }
        ul .assumptions {
            @for assumption in content.assumptions {
                li {
                    @if assumption.pointer.is_empty() {
                        (words.choice_of_model)
                    } @else {
                        code { (assumption.pointer) }
                    }
                    ": " strong { (assumption.said) } " · " (assumption.why)
                }
            }
        }
    }
}

/// What figures of the parts rest on, where their makers say so.
pub fn evidence(content: &Content<'_>, words: &Words) -> Markup {
    html! {
        @if !content.evidence.is_empty() {
            h3 { (words.evidence) }
            table .evidence tabindex="0" {
                (head(&[words.form_figure, words.form_value, words.form_evidence, words.form_document]))
                tbody {
                    @for stated in content.evidence {
                        tr {
                            td {
                                code { (stated.part.name()) (stated.figure) }
                                @if let Some(field) = &stated.field { " " (words.module_field) " " (field) }
                            }
                            td { (words.number(stated.stated, 4)) }
                            td {
                                (ground(stated.by, words))
                                @if let Some(tested) = &stated.tested {
                                    ": n = " (tested.tests) ", "
                                    "V = " (words.number(tested.variation, 3)) ", "
                                    "k" sub { "n" } " = " (words.number(tested.fractile_factor, 2)) ", "
                                    "X" sub { "k" } " = " (words.number(tested.characteristic, 3))
                                    " (" span lang="en" { (tested.clause) } ")"
                                }
                            }
                            td { @if let Some(document) = &stated.document { (document) } }
                        }
                    }
                }
            }
        }
    }
}

const fn ground(by: EvidenceKind, words: &Words) -> &'static str {
    match by {
        EvidenceKind::Declared => words.form_declared,
        EvidenceKind::Approval => words.form_approval,
        EvidenceKind::Test => words.form_test,
        EvidenceKind::Bar => words.form_bar,
    }
}
