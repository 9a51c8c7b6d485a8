//! The trace of an answer: the steps of every value, in order of the calculation, then the forces.
//!
//! Symbols, units and clauses come from the functions that computed the values; here they are only
//! put in order and given the element they belong to.

use crate::codes::Code;
use crate::codes::cited::{Source, Step};
use crate::codes::vocabulary::{Coefficients, LoadedArea, WindField};
use crate::covering::stack;
use crate::model::provenance::TraceLine;
use crate::placement::Job;
use crate::placement::actions::{Actions, Weight, Wind};
use crate::placement::footing::Footing;
use crate::placement::laid::Layout;
use crate::units::{Force, Length};

use super::answer::{combination_name, hook_name, hooks_on};
use super::rounding;

/// Collects lines.
struct Trace(Vec<TraceLine>);

impl Trace {
    /// The steps of one element.
    fn add(&mut self, element: &str, steps: impl IntoIterator<Item = Step>) {
        self.0.extend(steps.into_iter().map(|step| TraceLine {
            element: element.to_owned(),
            quantity: step.quantity.to_owned(),
            symbol: step.symbol.to_owned(),
            value: rounding::factor(step.value),
            unit: step.unit,
            clause: step.source.to_string(),
        }));
    }
}

/// The trace of a layout: actions, resistances, then every hook's forces in every combination.
#[must_use]
pub fn lines(job: &Job, layout: &Layout) -> Vec<TraceLine> {
    let mut trace = Trace(of_actions(&job.actions));
    on_rafters(&job.actions, &mut trace);
    screws(job, layout, &mut trace);
    rail(job, layout, &mut trace);
    covering(job, layout, &mut trace);
    forces(job, layout, &mut trace);
    trace.0
}

/// The trace of the actions alone.
#[must_use]
pub fn of_actions(actions: &Actions) -> Vec<TraceLine> {
    let mut trace = Trace(Vec::new());
    trace.add("", actions.snow.steps.iter().copied());
    wind(&actions.wind, &mut trace);
    trace.add("", weight(&actions.weight));
    trace.0
}

/// Coefficients that are given hold for every element and are written once.
fn wind(wind: &Wind, t: &mut Trace) {
    t.add("", wind.fixings.peak.steps.iter().copied());
    let fields = [
        ("loaded area of fixings", "fixings", &wind.fixings),
        ("loaded area of modules", "modules", &wind.modules),
    ];
    for (quantity, _, field) in fields {
        let step = |area: LoadedArea| Step::new(quantity, "A", area.area.m2(), "m²", area.source);
        t.add("", field.loaded_area.map(step));
    }
    match wind.fixings.loaded_area {
        None => coefficients("any", &wind.fixings, t),
        Some(_) => fields.into_iter().for_each(|(_, on, field)| coefficients(on, field, t)),
    }
}

fn coefficients(on: &str, wind: &WindField, t: &mut Trace) {
    for zone in &wind.zones {
        let Coefficients { suction, pressure } = zone.coefficients;
        let step = |quantity, symbol, value| Step::new(quantity, symbol, value, "", zone.source);
        t.add(
            &format!("{on}/{}/{}", zone.direction.name(), zone.name),
            [
                step("suction coefficient", "c_pe-", suction),
                step("pressure coefficient", "c_pe+", pressure),
            ],
        );
    }
}

/// What acts on rafters and on nothing else.
fn on_rafters(actions: &Actions, t: &mut Trace) {
    if let Some(covering) = &actions.wind.covering {
        let step = |area: LoadedArea| {
            Step::new("loaded area of rafters", "A", area.area.m2(), "m²", area.source)
        };
        t.add("", covering.loaded_area.map(step));
        coefficients("covering", covering, t);
    }
    let person = &actions.person;
    let quantity = "person at work on the roof";
    t.add("", [Step::new(quantity, "Q_k", person.weight.kn(), "kN", person.source)]);
}

fn weight(weight: &Weight) -> [Step; 3] {
    const SOURCE: Source = Source::Other("mass times 9.81 m/s²");
    [
        Step::new("weight of a module", "G_m", weight.module.kn(), "kN", SOURCE),
        Step::new("weight of a clamp", "G_c", weight.clamp.kn(), "kN", SOURCE),
        Step::new("weight of the rail", "g_r", weight.rail.kn_per_m(), "kN/m", SOURCE),
    ]
}

/// Screws are named `screw`, or by the first hook they hold where feet are not all set alike.
fn screws(job: &Job, layout: &Layout, t: &mut Trace) {
    for (i, footing) in layout.footings.iter().enumerate() {
        match hooks_on(layout, i).next() {
            Some(hook) if layout.footings.len() > 1 => {
                screw(job, footing, &format!("screw/{hook}"), t);
            }
            _ => screw(job, footing, "screw", t),
        }
    }
}

fn screw(job: &Job, footing: &Footing, name: &str, t: &mut Trace) {
    let seat = &footing.seat;
    let length = |quantity, symbol, length: Length, source| {
        Step::new(quantity, symbol, length.mm(), "mm", Source::Other(source))
    };
    t.add(
        name,
        [
            length("gap under the foot", "g", seat.gap, "packers and layers"),
            length("length in the rafter", "t", seat.embedment, "geometry"),
            length("threaded length", "l_ef", seat.threaded, "geometry"),
        ],
    );
    let Ok(connection) = &footing.capacity else { return };
    t.add(name, connection.steps.iter().copied());
    for (combination, design) in job.actions.combinations.iter().zip(&connection.design) {
        t.add(&format!("{name}/{}", combination.id), job.rules.screw_steps(design));
    }
}

fn rail(job: &Job, layout: &Layout, t: &mut Trace) {
    let Some(laid) = layout.segments().next() else { return };
    t.add("rail", job.rules.rail_steps(&laid.segment.limits.bending));
    let ratio = job.rail.deflection_ratio;
    t.add("rail", [Step::new("span over deflection", "l/w", ratio, "", Source::Other("declared"))]);
}

fn covering(job: &Job, layout: &Layout, t: &mut Trace) {
    let step = |quantity, symbol, length: Length| {
        Step::new(quantity, symbol, length.mm(), "mm", Source::Other("geometry of the covering"))
    };
    let top = "top of the lower tile above the battens' underside";
    t.add(
        "",
        [
            step("headlap", "H", stack::headlap(&job.covering)),
            step(top, "z", stack::lower_tile_top(&job.covering)),
        ],
    );
    for (i, footing) in layout.footings.iter().enumerate() {
        let first = hooks_on(layout, i).next();
        let hook = first.filter(|_| layout.footings.len() > 1).unwrap_or_default();
        t.add(
            &hook,
            [
                step("clearance without packers", "c_0", footing.bare_clearance),
                step("clearance with packers", "c", footing.clearance),
            ],
        );
    }
}

fn forces(job: &Job, layout: &Layout, t: &mut Trace) {
    let step = |quantity, symbol, force: Force| {
        Step::new(quantity, symbol, force.kn(), "kN", Source::Other("beam on springs"))
    };
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            let Some(result) = &laid.result else { continue };
            for (case, forces) in result.forces.iter().enumerate() {
                for (h, [normal, slope]) in forces.iter().enumerate() {
                    let hook = hook_name(layout, [r, s, h]);
                    t.add(
                        &format!("{hook}/{}", combination_name(job, case)),
                        [
                            step("force square to the roof", "N", *normal),
                            step("force down the slope", "S", *slope),
                        ],
                    );
                }
            }
        }
    }
}
