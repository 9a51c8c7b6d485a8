//! The engineer's part: utilisations, actions with their clauses, assumptions, inputs.

use maud::{Markup, html};

use crate::language::{Language, Words};
use crate::model::actions::Situation;

use super::{Content, Sheet, head, mm, percent, said};

fn kn(value: f64) -> String {
    format!("{value:.2}").replace('-', "−")
}

fn share(value: Option<f64>, words: &Words) -> String {
    value.map_or_else(|| words.not_verified.to_owned(), percent)
}

/// Every hook with its checks.
pub fn utilisations(content: &Content<'_>, words: &Words) -> Markup {
    html! {
        h3 { (words.utilisations) }
        table tabindex="0" {
            (head(&[
                words.hook, words.normal_force, words.slope_force, words.hook, words.screws,
                words.clearance, words.unloaded_mm, words.under_load_mm,
                &format!("{}, mm", words.embedment), words.combination,
            ]))
            tbody {
                @for hook in content.hooks {
                    @let worst = hook.id == content.utilisation.element;
                    tr .worst[worst] {
                        th scope="row" { @if worst { "▶ " } (hook.id) }
                        td { (kn(hook.normal_kn)) }
                        td { (kn(hook.slope_kn)) }
                        td { (percent(hook.utilisation.hook)) }
                        td { (share(hook.utilisation.screws, words)) }
                        td { (share(hook.utilisation.clearance, words)) }
                        td { @if let Some(mm) = hook.clearance_mm { (format!("{mm:.1}")) } }
                        td {
                            @if let Some(mm) = hook.clearance_under_load_mm { (format!("{mm:.1}")) }
                        }
                        td { (mm(hook.embedment_mm)) }
                        td { code { (hook.combination) } }
                    }
                }
            }
        }
    }
}

/// Rails, rafters and modules.
pub fn members(content: &Content<'_>, words: &Words) -> Markup {
    html! {
        h3 { (words.rails_checked) }
        table tabindex="0" {
            (head(&[
                words.rail, words.bending, words.deflection, &format!("{}, mm", words.deflection),
                &format!("{}, mm", words.limit_mm), words.combination,
            ]))
            tbody {
                @for rail in content.rails {
                    tr {
                        th scope="row" { (rail.id) }
                        td { (percent(rail.utilisation_by_check.bending)) }
                        td { (percent(rail.utilisation_by_check.deflection)) }
                        td { (format!("{:.1}", rail.deflection_mm)) }
                        td { (format!("{:.1}", rail.deflection_limit_mm)) }
                        td { code { (rail.utilisation_by_check.combination) } }
                    }
                }
            }
        }
        h3 { (words.rafters_checked) }
        table tabindex="0" {
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
                        th scope="row" { (rafter.rafter) }
                        td { (mm(rafter.x_mm)) }
                        td { (rafter.hooks.join(", ")) }
                        td { (kn(rafter.press_kn)) }
                        td { (kn(rafter.lift_kn)) }
                        td { (kn(rafter.slope_kn)) }
                        td { (percent(rafter.added_load_share)) }
                        td { (share(used.map(|u| u.bending), words)) }
                        td { (share(used.map(|u| u.shear), words)) }
                        td { (share(before.map(|u| u.bending), words)) }
                        td { (share(before.map(|u| u.shear), words)) }
                    }
                }
            }
        }
        h3 { (words.modules_checked) }
        table tabindex="0" {
            (head(&[
                words.module, &format!("{}/m²", words.press), &format!("{}/m²", words.lift),
                &format!("{}, kN", words.clamp), words.utilisation,
            ]))
            tbody {
                @for module in content.modules {
                    tr {
                        th scope="row" { (module.id) }
                        td { (kn(module.press_kn_per_m2)) }
                        td { (kn(module.lift_kn_per_m2)) }
                        td { (kn(module.clamp_lift_kn)) }
                        td { (percent(module.utilisation.max)) }
                    }
                }
            }
        }
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
        table .trace tabindex="0" {
            (head(&[words.quantity, words.symbol, words.value, words.clause]))
            tbody {
                // Those of the whole job; forces of single hooks are in the trace of the JSON.
                @for line in sheet.trace.iter().filter(|line| line.element.is_empty()) {
                    tr {
                        td { (said(&line.quantity, language)) }
                        td { code { (line.symbol) } }
                        td { (line.value) " " (line.unit) }
                        td { (line.clause) }
                    }
                }
            }
        }
        h3 { (words.combinations) }
        table tabindex="0" {
            thead {
                tr {
                    th scope="col" { (words.combination) }
                    th scope="col" { (words.weight) }
                    th scope="col" { (words.snow) }
                    th scope="col" { (words.wind) }
                    th scope="col" { (words.person) }
                    th scope="col" { "k" sub { "mod" } }
                    th scope="col" { (words.clause) }
                }
            }
            tbody {
                @for combination in &actions.combinations {
                    tr {
                        th scope="row" { code { (combination.id) } }
                        td { (kn(combination.weight)) }
                        td { (kn(combination.snow + combination.exceptional_snow)) }
                        td { (kn(combination.wind)) }
                        td { (kn(combination.person.unwrap_or(0.0))) }
                        td {
                            @if combination.situation != Situation::Characteristic {
                                (kn(combination.k_mod))
                            }
                        }
                        td { (combination.clause) }
                    }
                }
            }
        }
    }
}

/// Everything that was assumed.
pub fn assumptions(content: &Content<'_>, language: Language) -> Markup {
    let words = language.words();
    html! {
        h3 { (words.assumptions) }
        table .assumptions tabindex="0" {
            (head(&[words.place, words.assumed, words.why]))
            tbody {
                @for assumption in content.assumptions {
                    tr {
                        td {
                            @if assumption.pointer.is_empty() {
                                (words.choice_of_model)
                            } @else {
                                code { (assumption.pointer) }
                            }
                        }
                        td { (assumption.said) }
                        td { (assumption.why) }
                    }
                }
            }
        }
    }
}

/// The request.
pub fn inputs(sheet: &Sheet<'_>, words: &Words) -> Markup {
    html! {
        h3 #inputs { (words.inputs) }
        pre .inputs tabindex="0" role="region" aria-labelledby="inputs" { (sheet.request) }
    }
}
