//! The utilisations, one line for each check of a hook, rail, rafter or module.

use crate::wire::layout::{HookAnswer, ModuleAnswer, RafterAnswer, RafterUtilisation, RailAnswer};

use super::OnSlope;
use super::csv::{Column, write};
use super::name_of;

/// One check of one element.
struct Row<'a> {
    on: OnSlope<'a>,
    kind: &'static str,
    element: String,
    check: &'static str,
    /// Nothing where the check did not run.
    utilisation: Option<f64>,
    /// Combination that governs the element, as far as the answer names one.
    combination: Option<&'a str>,
}

/// How far everything is used. A check that did not run has a line, too, without a number: whoever looks for
/// numbers over 1 alone would take it for one that holds.
pub fn utilisations(slopes: &[OnSlope<'_>]) -> String {
    let columns: [Column<Row<'_>>; 8] = [
        Column { name: "slope", cell: |row| row.on.slope.into() },
        Column { name: "kind", cell: |row| row.kind.into() },
        Column { name: "element", cell: |row| row.element.as_str().into() },
        Column { name: "check", cell: |row| row.check.into() },
        Column { name: "verified", cell: |row| yes_or_no(row.utilisation.is_some()).into() },
        Column { name: "utilisation", cell: |row| row.utilisation.into() },
        Column { name: "combination", cell: |row| row.combination.into() },
        Column { name: "verdict", cell: |row| name_of(&row.on.verdict).into() },
    ];
    write(&columns, slopes.iter().flat_map(|on| on_slope(*on)))
}

const fn yes_or_no(yes: bool) -> &'static str {
    if yes { "yes" } else { "no" }
}

fn on_slope(on: OnSlope<'_>) -> Vec<Row<'_>> {
    let hooks = on.hooks.iter().flat_map(|hook| of_hook(on, hook));
    let rails = on.rails.iter().flat_map(|rail| of_rail(on, rail));
    let rafters = on.rafters.iter().flat_map(|rafter| of_rafter(on, rafter));
    let modules = on.modules.iter().flat_map(|module| of_module(on, module));
    hooks.chain(rails).chain(rafters).chain(modules).collect()
}

fn of_hook<'a>(on: OnSlope<'a>, hook: &'a HookAnswer) -> impl Iterator<Item = Row<'a>> {
    let of = &hook.utilisation;
    let checks = [
        ("hook", Some(of.hook)),
        ("bolt", of.bolt),
        ("screws", of.screws),
        ("foot_bearing", Some(of.foot_bearing)),
        ("clearance", of.clearance),
    ];
    checks.into_iter().map(move |(check, utilisation)| Row {
        on,
        kind: "hook",
        element: hook.id.clone(),
        check,
        utilisation,
        combination: Some(&hook.combination),
    })
}

/// A rail without a splice has no line for splices.
fn of_rail<'a>(on: OnSlope<'a>, rail: &'a RailAnswer) -> impl Iterator<Item = Row<'a>> {
    let of = &rail.utilisation_by_check;
    let spliced = rail.segments.iter().any(|segment| !segment.splices_mm.is_empty());
    let splice = spliced.then_some(("splice", of.splice));
    let checks = [("bending", Some(of.bending)), ("deflection", Some(of.deflection))];
    checks.into_iter().chain(splice).map(move |(check, utilisation)| Row {
        on,
        kind: "rail",
        element: rail.id.clone(),
        check,
        utilisation,
        combination: Some(&of.combination),
    })
}

/// A rafter, named by its number as on the sheet, under the array and under the bare roof.
fn of_rafter<'a>(on: OnSlope<'a>, rafter: &'a RafterAnswer) -> impl Iterator<Item = Row<'a>> {
    let states = [("rafter", &rafter.utilisation), ("rafter_without_array", &rafter.before)];
    states.into_iter().flat_map(move |(kind, state)| {
        let state = state.as_ref();
        let of = |value: fn(&RafterUtilisation) -> f64| state.map(value);
        [("bending", of(|of| of.bending)), ("shear", of(|of| of.shear))].map(
            |(check, utilisation)| Row {
                on,
                kind,
                element: (rafter.rafter + 1).to_string(),
                check,
                utilisation,
                combination: state.map(|of| of.combination.as_str()),
            },
        )
    })
}

fn of_module<'a>(on: OnSlope<'a>, module: &'a ModuleAnswer) -> impl Iterator<Item = Row<'a>> {
    let of = &module.utilisation;
    let checks = [
        ("press", Some(of.press)),
        ("lift", Some(of.lift)),
        ("clamp", Some(of.clamp)),
        ("clamp_slip", of.clamp_slip),
    ];
    checks.into_iter().map(move |(check, utilisation)| Row {
        on,
        kind: "module",
        element: module.id.clone(),
        check,
        utilisation,
        combination: None,
    })
}
