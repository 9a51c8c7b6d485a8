//! The terms of every utilisation of an answer: of each check of each element those in the
//! combination that governs it. A check that uses nothing has none.

use crate::checks::module as clamp_checks;
use crate::checks::screws;
use crate::checks::segment::{Candidate, Segment};
use crate::checks::{Check, Governing};
use crate::codes::Code;
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::placement::Job;
use crate::placement::footing::Footing;
use crate::placement::laid::{LaidSegment, Layout, ModuleResult};
use crate::placement::loads::loads_on_module;
use crate::placement::modules::{Held, held_by_modules, stop_below};
use crate::placement::rafters;
use crate::units::Force;

use super::Trace;

/// Every element of a layout.
pub(super) fn of(job: &Job, layout: &Layout, t: &mut Trace) {
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            for (h, candidate) in laid.hooks().enumerate() {
                let hook = OnHook {
                    job,
                    segment: &laid.segment,
                    candidate,
                    footing: &layout.footings[candidate.setting],
                    name: layout.hook_name([r, s, h]),
                };
                hook.add(laid, h, t);
            }
            let name = match rail.segments.len() {
                1 => rail.line.id.clone(),
                _ => format!("{}/segment {}", rail.line.id, s + 1),
            };
            on_rail(job, laid, &name, t);
        }
    }
    let held = held_by_modules(job, layout);
    for (module, held) in layout.modules.iter().zip(held) {
        on_module(job, module, &held, t);
    }
    on_rafters(job, layout, t);
}

/// Name of what a check finds of an element in a combination.
fn place(job: &Job, element: &str, combination: usize, check: &str) -> String {
    format!("{element}/{}/{check}", job.combination_name(combination))
}

/// Whether there is anything to show.
fn uses(governing: &Governing) -> bool {
    governing.utilisation > 0.0
}

/// A hook where it stands.
struct OnHook<'a> {
    job: &'a Job,
    segment: &'a Segment,
    candidate: &'a Candidate,
    footing: &'a Footing,
    name: &'a str,
}

impl OnHook<'_> {
    fn add(&self, laid: &LaidSegment, h: usize, t: &mut Trace) {
        let Some(result) = &laid.result else { return };
        let mut feet: Vec<usize> = Vec::new();
        for (check, governing) in result.hooks[h].by_check() {
            if !uses(&governing) {
                continue;
            }
            let case = governing.combination;
            let forces = result.forces[case][h];
            let name = place(self.job, self.name, case, check.name());
            match check {
                Check::Hook => t.add(&name, self.segment.hook_steps(forces)),
                Check::Bolt => {
                    let bolt = self.job.bolt.and_then(|bolt| bolt.resistance);
                    t.add(&name, bolt.iter().flat_map(|bolt| self.job.rules.bolt_steps(bolt)));
                    t.add(&name, self.segment.bolt_steps(forces).into_iter().flatten());
                }
                Check::Screws => {
                    self.foot(case, forces, &mut feet, t);
                    self.screws(case, forces, &name, t);
                }
                Check::FootBearing => {
                    self.foot(case, forces, &mut feet, t);
                    self.timber(case, forces, &name, t);
                }
                Check::Clearance => {
                    t.add(&name, self.segment.clearance_steps(self.candidate, forces));
                }
                _ => {}
            }
        }
    }

    /// The balance of the foot, once in every combination.
    fn foot(&self, case: usize, [n, s]: [Force; 2], shown: &mut Vec<usize>, t: &mut Trace) {
        if shown.contains(&case) {
            return;
        }
        shown.push(case);
        let strength = self.footing.bearing_strength[case];
        let edges = self.candidate.foot.under(n, s, strength).edge_steps();
        for (edge, steps) in ["foot/lower", "foot/upper"].into_iter().zip(edges) {
            t.add(&place(self.job, self.name, case, edge), steps);
        }
    }

    fn screws(&self, case: usize, [n, s]: [Force; 2], name: &str, t: &mut Trace) {
        let Ok(connection) = &self.footing.capacity else { return };
        let loaded = self.candidate.foot.under(n, s, self.footing.bearing_strength[case]);
        let screws = self.candidate.foot.screws();
        for (i, (demand, steps)) in loaded.screw_steps().enumerate() {
            // Under a load that may stand in two places each screw comes twice.
            let side = if i < screws { "" } else { "/load to the right" };
            let name = format!("{name}/{}{side}", i % screws + 1);
            t.add(&name, steps);
            t.add(&name, screws::steps(demand, &connection.design[case]));
        }
    }

    fn timber(&self, case: usize, [n, s]: [Force; 2], name: &str, t: &mut Trace) {
        let combination = &self.job.actions.combinations[case];
        t.add(name, self.job.rules.bearing_steps(&self.footing.bearing, combination));
        let strength = self.footing.bearing_strength[case];
        t.add(name, self.candidate.foot.under(n, s, strength).timber_steps());
    }
}

fn on_rail(job: &Job, laid: &LaidSegment, name: &str, t: &mut Trace) {
    let Some(result) = &laid.result else { return };
    for (check, governing) in result.by_check().iter().filter(|(_, governing)| uses(governing)) {
        let name = place(job, name, governing.combination, check.name());
        let steps = match check {
            Check::RailBending => {
                laid.segment.bending_steps(&laid.found.subset, governing.combination)
            }
            Check::Splice => laid.splice_steps(governing.combination),
            Check::Crossing => laid.segment.crossing_steps(governing.combination),
            _ => laid.segment.deflection_steps(result),
        };
        t.add(&name, steps);
    }
}

fn on_module(job: &Job, module: &ModuleResult, held: &[Held], t: &mut Trace) {
    let [press, lift, clamp, slip] = module.by_check().map(|(_, governing)| governing);
    let id = job.module_name(&module.placed);
    let kind = job.module(&module.placed);
    let capacities = [kind.press, kind.lift];
    let loads = [module.press, module.lift];
    for ((governing, sense), (load, capacity)) in
        [press, lift].iter().zip(["press", "lift"]).zip(loads.into_iter().zip(capacities))
    {
        if uses(governing) {
            let name = place(job, &id, governing.combination, &format!("module/{sense}"));
            t.add(&name, module_load(job, module, governing.combination));
            t.add(&name, clamp_checks::load_steps(kind, load, capacity));
        }
    }
    if uses(&clamp) {
        let name = place(job, &id, clamp.combination, Check::Clamp.name());
        t.add(&name, clamp_checks::clamp_steps(&job.clamp, module.check.clamp_lift));
    }
    if uses(&slip) {
        let name = place(job, &id, slip.combination, Check::ClampSlip.name());
        slipping(job, module, held, slip.combination, &name, t);
    }
}

/// What makes up the load on a module.
fn module_load(job: &Job, module: &ModuleResult, combination: usize) -> [Step; 4] {
    const FACTORED: Source = Source::Other("action on the module times its factor");
    let combination = &job.actions.combinations[combination];
    let area = job.module(&module.placed).area();
    let wind = job.actions.wind.on(area).modules.on_whole(&module.placed.rect);
    let [weight, snow, exceptional, wind] =
        loads_on_module(job, combination, &module.placed, &wind);
    let step =
        |quantity, symbol, force: Force| Step::new(quantity, symbol, force.kn(), "kN", FACTORED);
    [
        step(Quantity::WeightOnModule, "G_d", weight),
        step(Quantity::SnowOnModule, "S_d", snow),
        step(Quantity::ExceptionalSnowOnModule, "A_d", exceptional),
        step(Quantity::WindOnModule, "W_d", wind),
    ]
}

/// The clamp nearest to slipping, or the stop in its place.
fn slipping(
    job: &Job,
    module: &ModuleResult,
    held: &[Held],
    combination: usize,
    name: &str,
    t: &mut Trace,
) {
    if let Some(stop) = stop_below(job, &module.placed) {
        t.add(name, clamp_checks::stop_steps(stop, module.check.clamp_slope));
        return;
    }
    let slope = module.check.clamp_slope;
    let lifts = held
        .iter()
        .filter(|held| held.combination == combination && held.slope.abs() == slope)
        .map(|held| held.lift.max(Force::ZERO));
    if let Some(lift) = lifts.reduce(Force::max) {
        t.add(name, clamp_checks::slip_steps(&job.clamp, slope, lift));
    }
}

fn on_rafters(job: &Job, layout: &Layout, t: &mut Trace) {
    for rafter in &layout.rafters {
        let [with, before] = rafters::steps(job, layout, rafter);
        let id = format!("rafter/{}", rafter.rafter);
        for (checks, of) in [(with, &*id), (before, &*format!("{id}/before"))] {
            for ((combination, steps), check) in
                checks.into_iter().zip(["rafter_bending", "rafter_shear"])
            {
                t.add(&place(job, of, combination, check), steps);
            }
        }
    }
}
