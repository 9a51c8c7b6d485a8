//! The foot on the roof: clearance, screws, bay, edges.

use crate::checks::screws::{self, Nearness};
use crate::checks::sideways;
use crate::codes::Code;
use crate::codes::vocabulary::Situation;
use crate::placement::Job;
use crate::placement::footing::Footing;
use crate::placement::layout::Layout;
use crate::service::answer::elements::combination_id;
use crate::service::rounding::{load, mm};
use crate::service::warnings::{self as kinds, Warnings, number};
use crate::units::{Angle, Force, Length};

/// No stack of packers lifts the arm enough.
pub(super) fn no_stack(job: &Job, footing: &Footing, out: &mut Warnings) {
    if footing.packers.is_none() {
        out.add(
            &kinds::CLEARANCE_LOW,
            "",
            format!(
                "The arm stands {} mm above the tile below and no stack of packers up to {} mm \
                 brings it to {} mm. A hook with a higher arm would help.",
                mm(footing.bare_clearance.mm()),
                mm(job.packers.max_stack.mm()),
                mm(job.wishes.min_clearance.mm())
            ),
            [
                ("clearance_mm", number(mm(footing.bare_clearance.mm()))),
                ("min_clearance_mm", number(mm(job.wishes.min_clearance.mm()))),
            ],
        );
    }
}

/// What is wrong with the screws of feet set in one way; `whose` begins the sentences.
pub(super) fn screws(job: &Job, footing: &Footing, whose: &str, out: &mut Warnings) {
    if let Err(silent) = &footing.capacity {
        let kind = if silent.clause.number == "8.7.2(3)" {
            &kinds::EMBEDMENT
        } else {
            &kinds::SCREW_SILENT
        };
        out.add(
            kind,
            "",
            format!(
                "{whose}The screw reaches {} mm into the rafter, {} mm of it threaded; {} mm of \
                 thread are the least. {}",
                mm(footing.seat.embedment.mm()),
                mm(footing.seat.threaded.mm()),
                mm(6.0 * job.screw.diameter.mm()),
                if kind.code != kinds::EMBEDMENT.code {
                    format!("{silent}.")
                } else if footing.seat.comes_out() {
                    format!(
                        "The rafter is {} mm deep: thread nearer to the head would help.",
                        mm(job.roof.rafters.depth.mm())
                    )
                } else {
                    "A longer screw would help.".to_owned()
                }
            ),
            [
                ("embedment_mm", number(mm(footing.seat.embedment.mm()))),
                ("threaded_mm", number(mm(footing.seat.threaded.mm()))),
            ],
        );
    }
    if footing.seat.comes_out() {
        out.add(
            &kinds::SCREW_THROUGH,
            "",
            format!(
                "{whose}The screw reaches {} mm below the face of a rafter {} mm deep; what stands \
                 out holds nothing.",
                mm(footing.seat.reach.mm()),
                mm(job.roof.rafters.depth.mm())
            ),
            [("reach_mm", number(mm(footing.seat.reach.mm())))],
        );
    }
    if let Some(near) =
        screws::too_near(job.rules, &job.hook.foot, &job.screw, footing.rafter_width)
    {
        let (kind, what) = match near.what {
            Nearness::RafterEdge => (&kinds::SCREW_EDGE, "from the edge of the rafter"),
            Nearness::EachOther => (&kinds::SCREW_EACH_OTHER, "from each other along the rafter"),
        };
        out.add(
            kind,
            "",
            format!(
                "{whose}Screws stand {} mm {what}; {} mm are needed.",
                mm(near.have.mm()),
                mm(near.need.mm())
            ),
            [("have_mm", number(mm(near.have.mm()))), ("need_mm", number(mm(near.need.mm())))],
        );
    }
}

/// What is looked at alike however the feet are set.
pub(super) fn feet(job: &Job, layout: &Layout, out: &mut Warnings) {
    edge_bearing(job, layout, out);
    counter_batten(job, out);
    if job.hook.normal_stiffness.is_none() {
        out.add(
            &kinds::STIFFNESS,
            "",
            "The hook's stiffness square to the roof is not given: whether the arm touches the tile \
             under load is not verified.",
            [],
        );
    }
}

/// The strip of timber the foot's edge would need, against none, which the rigid plate assumes.
fn edge_bearing(job: &Job, layout: &Layout, out: &mut Warnings) {
    let mut worst = (Length::ZERO, Force::ZERO, 0, Length::ZERO);
    for laid in layout.segments() {
        let Some(result) = &laid.result else { continue };
        for (case, forces) in laid.segment.cases.iter().zip(result.forces.iter()) {
            let combination = &job.actions.combinations[case.combination];
            if combination.situation == Situation::Characteristic {
                continue;
            }
            for (candidate, [normal, slope]) in laid.found.subset.iter().zip(forces) {
                let candidate = &laid.segment.candidates[*candidate];
                let width = layout.footings[candidate.setting].bearing_width;
                let pulls: Force = candidate.foot.demands(*normal, *slope).map(|d| d.pull).sum();
                let edge = pulls + *normal;
                let strip = job.rules.bearing_length(edge, width, job.timber, combination);
                if strip > worst.0 {
                    worst = (strip, edge, case.combination, width);
                }
            }
        }
    }
    let (strip, edge, combination, width) = worst;
    if strip > Length::ZERO {
        out.add(
            &kinds::EDGE_CRUSHES,
            "/hooks",
            format!(
                "The edge of a foot presses with {:.1} kN on timber {} mm wide in {}: it would need \
                 a strip of {:.0} mm, and the screws' pulls are computed for a sharp edge. A longer \
                 foot, or a wider timber under it, would help.",
                edge.kn(),
                mm(width.mm()),
                combination_id(job, combination),
                strip.mm()
            ),
            [("edge_kn", number(load(edge.kn()))), ("strip_mm", number(mm(strip.mm())))],
        );
    }
}

fn counter_batten(job: &Job, out: &mut Warnings) {
    let width = job.roof.layers.bearing_width;
    if width >= job.roof.rafters.width {
        return;
    }
    let along = Angle::from_deg(0.0);
    let least = job.rules.screw_distances(job.screw.diameter, job.screw.predrilled, along);
    let need = least.unloaded_edge;
    let have = screws::edge_distance(&job.hook.foot, width);
    if have < need {
        out.add(
            &kinds::COUNTER_BATTEN_EDGE,
            "",
            format!(
                "Screws stand {} mm from the edge of a counter-batten {} mm wide; {} mm are asked \
                 for. Predrill it, or use a wider one.",
                mm(have.mm()),
                mm(width.mm()),
                mm(need.mm())
            ),
            [("have_mm", number(mm(have.mm()))), ("need_mm", number(mm(need.mm())))],
        );
    }
}

/// The turning of a foot adds a part across the grain to the screws' load.
pub(super) fn sideways_edge(job: &Job, layout: &Layout, offset: Length, out: &mut Warnings) {
    let narrowest = layout.footings.iter().map(|f| f.rafter_width).reduce(Length::min);
    let width = narrowest.unwrap_or(job.roof.rafters.width);
    let edge = sideways::loaded_edge(job.rules, &job.hook.foot, &job.screw, offset, width);
    if let Some(edge) = edge.filter(|edge| edge.have < edge.need) {
        out.add(
            &kinds::SIDEWAYS_EDGE,
            "",
            format!(
                "With the arm {} mm off the axis a screw's load points {:.0}° off the grain; it \
                 stands {} mm from the edge of the rafter where {} mm are asked for.",
                mm(offset.mm()),
                edge.angle.deg(),
                mm(edge.have.mm()),
                mm(edge.need.mm())
            ),
            [("have_mm", number(mm(edge.have.mm()))), ("need_mm", number(mm(edge.need.mm())))],
        );
    }
}
