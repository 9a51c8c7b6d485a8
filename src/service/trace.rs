//! Every quantity of a layout with symbol, value, unit and clause.

use crate::actions::Actions;
use crate::actions::snow::Snow;
use crate::actions::weight::Weight;
use crate::actions::wind::{Wind, direction_name};
use crate::model::layout::TraceLine;
use crate::placement::Job;
use crate::placement::layout::Layout;
use crate::placement::loading::Footing;

use super::answer::combination_name;
use super::rounding;

/// Collects lines.
struct Trace(Vec<TraceLine>);

impl Trace {
    fn add(
        &mut self,
        element: &str,
        quantity: &str,
        symbol: &str,
        value: f64,
        unit: &'static str,
        clause: &str,
    ) {
        self.0.push(TraceLine {
            element: element.to_owned(),
            quantity: quantity.to_owned(),
            symbol: symbol.to_owned(),
            value: rounding::factor(value),
            unit,
            clause: clause.to_owned(),
        });
    }
}

/// The trace of a layout: actions, resistances, then every hook's forces in every combination.
#[must_use]
pub fn lines(job: &Job, layout: &Layout) -> Vec<TraceLine> {
    let mut trace = Trace(Vec::new());
    acting(&job.actions, &mut trace);
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
    acting(actions, &mut trace);
    trace.0
}

fn acting(actions: &Actions, t: &mut Trace) {
    snow(&actions.snow, t);
    wind(&actions.wind, t);
    weight(&actions.weight, t);
}

fn snow(snow: &Snow, t: &mut Trace) {
    let kn = "kN/m²";
    t.add("", "ground snow load", "s_k", snow.site.ground.kn_per_m2(), kn, "EN 1991-1-3 4.1");
    t.add("", "snow shape coefficient", "mu_1", snow.shape, "", "EN 1991-1-3 Table 5.2");
    t.add("", "exposure coefficient", "C_e", snow.site.exposure, "", "EN 1991-1-3 5.2(7)");
    t.add("", "thermal coefficient", "C_t", snow.site.thermal, "", "EN 1991-1-3 5.2(8)");
    t.add("", "snow load on the roof", "s", snow.roof.kn_per_m2(), kn, "EN 1991-1-3 Eq. (5.1)");
    let on = &snow.on_slope;
    t.add(
        "",
        "snow square to the slope",
        "s cos²α",
        on.normal.kn_per_m2(),
        kn,
        "EN 1991-1-3 5.2(5)",
    );
    t.add("", "snow down the slope", "s cosα sinα", on.slope.kn_per_m2(), kn, "EN 1991-1-3 5.2(5)");
    if let Some(load) = snow.exceptional_ground {
        t.add("", "exceptional ground snow", "s_Ad", load.kn_per_m2(), kn, "EN 1991-1-3 Eq. (4.1)");
    }
}

fn wind(wind: &Wind, t: &mut Trace) {
    if let Some(basic) = wind.site.basic {
        let clause = "EN 1991-1-4 Eq. (4.10)";
        t.add("", "basic velocity pressure", "q_b", basic.kn_per_m2(), "kN/m²", clause);
    }
    let peak = wind.site.peak.kn_per_m2();
    t.add("", "peak velocity pressure", "q_p", peak, "kN/m²", "EN 1991-1-4 4.5");
    t.add("", "loaded area", "A", wind.loaded_area.m2(), "m²", "EN 1991-1-4 7.2.1");
    for zone in &wind.zones {
        let element = format!("{}/{}", direction_name(zone.direction), zone.name);
        let clause = "EN 1991-1-4 7.2.5, Table 7.4";
        t.add(&element, "suction coefficient", "c_pe-", zone.coefficients.suction, "", clause);
        t.add(&element, "pressure coefficient", "c_pe+", zone.coefficients.pressure, "", clause);
    }
}

fn weight(weight: &Weight, t: &mut Trace) {
    t.add("", "weight of a module", "G_m", weight.module.kn(), "kN", "mass times 9.81 m/s²");
    t.add("", "weight of a clamp", "G_c", weight.clamp.kn(), "kN", "mass times 9.81 m/s²");
    t.add("", "weight of the rail", "g_r", weight.rail.kn_per_m(), "kN/m", "mass times 9.81 m/s²");
}

/// Screws are named `screw`, or by the first hook they hold where feet are not all set alike.
fn screws(job: &Job, layout: &Layout, t: &mut Trace) {
    for (i, footing) in layout.footings.iter().enumerate() {
        match super::answer::hooks_on(layout, i).next() {
            Some(hook) if layout.footings.len() > 1 => {
                screw(job, footing, &format!("screw/{hook}"), t);
            }
            _ => screw(job, footing, "screw", t),
        }
    }
}

fn screw(job: &Job, footing: &Footing, name: &str, t: &mut Trace) {
    let seat = &footing.seat;
    t.add(name, "gap under the foot", "g", seat.gap.mm(), "mm", "packers and layers");
    t.add(name, "length in the rafter", "t", seat.embedment.mm(), "mm", "geometry");
    t.add(name, "threaded length", "l_ef", seat.threaded.mm(), "mm", "EN 1995-1-1 8.7.2");
    let Ok(capacity) = &footing.capacity else { return };
    let parameter = capacity.withdrawal_parameter.n_per_mm2();
    t.add(name, "withdrawal parameter", "f_ax,k", parameter, "N/mm²", "EN 1995-1-1 8.7.2");
    let withdrawal = capacity.withdrawal.kn();
    t.add(name, "withdrawal", "F_ax,Rk", withdrawal, "kN", "EN 1995-1-1 Eq. (8.38), (8.40a)");
    t.add(name, "tension", "F_tens,k", capacity.tension.kn(), "kN", "declared");
    let embedment = capacity.embedment_strength.n_per_mm2();
    t.add(name, "embedment strength", "f_h,k", embedment, "N/mm²", "EN 1995-1-1 8.3.1.1, 8.5.1.1");
    let lateral = format!("EN 1995-1-1 8.2.3 with gap; {}", capacity.lateral.mode);
    t.add(name, "lateral capacity", "F_v,Rk", capacity.lateral.force.kn(), "kN", &lateral);
    t.add(name, "group factor", "n_ef/n", capacity.group, "", "EN 1995-1-1 Eq. (8.41)");
    t.add(name, "row factor", "n_ef/n", capacity.row, "", "EN 1995-1-1 Table 8.1");
    for combination in &job.actions.combinations {
        let design = capacity.design(
            combination.k_mod,
            combination.gamma_m_connections,
            job.annex.gamma_m2_steel,
        );
        let element = format!("{name}/{}", combination.id);
        t.add(&element, "design pull", "F_ax,Rd", design.pull.kn(), "kN", "EN 1995-1-1 2.4.3");
        t.add(&element, "design shear", "F_v,Rd", design.shear.kn(), "kN", "EN 1995-1-1 2.4.3");
    }
}

fn rail(job: &Job, layout: &Layout, t: &mut Trace) {
    let Some(laid) = layout.segments().next() else { return };
    let limits = &laid.segment.limits;
    let clause = "EN 1999-1-1 6.2.5";
    t.add("rail", "design moment, normal", "M_n,Rd", limits.normal.knm(), "kN·m", clause);
    t.add("rail", "design moment, slope", "M_s,Rd", limits.slope.knm(), "kN·m", clause);
    t.add("rail", "span over deflection", "l/w", job.rail.deflection_ratio, "", "declared");
}

fn covering(job: &Job, layout: &Layout, t: &mut Trace) {
    use crate::covering::stack;
    let clause = "geometry of the covering";
    t.add("", "headlap", "H", stack::headlap(&job.covering).mm(), "mm", clause);
    let top = stack::lower_tile_top(&job.covering).mm();
    t.add("", "top of the lower tile above the battens' underside", "z", top, "mm", clause);
    for (i, footing) in layout.footings.iter().enumerate() {
        let first = super::answer::hooks_on(layout, i).next();
        let hook = first.filter(|_| layout.footings.len() > 1).unwrap_or_default();
        let bare = footing.bare_clearance.mm();
        t.add(&hook, "clearance without packers", "c_0", bare, "mm", clause);
        t.add(&hook, "clearance with packers", "c", footing.clearance.mm(), "mm", clause);
    }
}

fn forces(job: &Job, layout: &Layout, t: &mut Trace) {
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            let Some(result) = &laid.result else { continue };
            for (case, forces) in result.forces.iter().enumerate() {
                for (h, [normal, slope]) in forces.iter().enumerate() {
                    let hook = super::answer::hook_name(layout, [r, s, h]);
                    let element = format!("{hook}/{}", combination_name(job, case));
                    let clause = "beam on springs";
                    t.add(&element, "force square to the roof", "N", normal.kn(), "kN", clause);
                    t.add(&element, "force down the slope", "S", slope.kn(), "kN", clause);
                }
            }
        }
    }
}
