//! Details of rails and fields, obstacles, and what the request itself tells.

use crate::placement::Job;
use crate::placement::expansion::EXPANSION_GAP;
use crate::placement::layout::Layout;
use crate::service::answer::elements::module_id;
use crate::service::intake::Remarks;
use crate::service::rounding::{factor, mm};
use crate::service::warnings::{self as kinds, Warnings, number, text};

pub(super) fn details(job: &Job, layout: &Layout, out: &mut Warnings) {
    let ends = job.clamp.end_width;
    if job.rail.end_projection < ends {
        out.add(
            &kinds::END_CLAMP,
            "/rails",
            format!(
                "Rails run {} mm beyond the outer modules; an end clamp takes {} mm.",
                mm(job.rail.end_projection.mm()),
                mm(ends.mm())
            ),
            [
                ("have_mm", number(mm(job.rail.end_projection.mm()))),
                ("need_mm", number(mm(ends.mm()))),
            ],
        );
    }
    for (f, field) in job.fields.iter().enumerate() {
        if field.columns > 1 && (field.column_gap - job.clamp.mid_gap).abs().mm() > 1.0 {
            out.add(
                &kinds::CLAMP_GAP,
                "",
                format!(
                    "The columns of field {} stand {} mm apart; the mid clamp makes {} mm.",
                    field.id,
                    mm(field.column_gap.mm()),
                    mm(job.clamp.mid_gap.mm())
                ),
                [
                    ("field", text(&field.id)),
                    ("gap_mm", number(mm(field.column_gap.mm()))),
                    ("clamp_gap_mm", number(mm(job.clamp.mid_gap.mm()))),
                ],
            );
        }
        let split =
            layout.rails.iter().position(|r| r.line.field == f && r.line.segments.len() > 1);
        let need = ends.max(job.rail.end_projection) * 2.0 + EXPANSION_GAP;
        if let Some(r) = split.filter(|_| field.column_gap < need) {
            let parts = layout.rails[r].line.segments.len();
            out.add(
                &kinds::EXPANSION,
                format!("/rails/{r}"),
                format!(
                    "Rails of field {} are longer than {} mm and are cut between two modules. The \
                     rail ends, the end clamps and the expansion gap need {} mm there; the columns \
                     stand {} mm apart. Make {parts} fields of it, {} mm apart.",
                    field.id,
                    mm(job.rail.max_continuous.mm()),
                    mm(need.mm()),
                    mm(field.column_gap.mm()),
                    mm(need.mm())
                ),
                [
                    ("field", text(&field.id)),
                    ("need_mm", number(mm(need.mm()))),
                    ("fields", number(parts as f64)),
                ],
            );
        }
    }
    obstacles(job, layout, out);
}

/// One warning for each obstacle whose strip modules lie in.
pub(super) fn obstacles(job: &Job, layout: &Layout, out: &mut Warnings) {
    for (i, obstacle) in job.roof.obstacles.iter().enumerate() {
        let near = layout.modules.iter().filter(|m| obstacle.reaches(&m.placed.rect));
        let names: Vec<String> = near.clone().map(|m| module_id(job, &m.placed)).collect();
        let gap =
            near.map(|m| obstacle.outline.distance(&m.placed.rect)).fold(f64::INFINITY, f64::min);
        if names.is_empty() {
            continue;
        }
        out.add(
            &kinds::NEAR_OBSTACLE,
            "/modules",
            format!(
                "Modules {} come within {} mm of obstacle {i}; {} mm are to stay free.",
                names.join(", "),
                mm(gap),
                mm(obstacle.clearance.mm())
            ),
            [
                ("obstacle", number(i as f64)),
                ("modules", text(names.join(", "))),
                ("gap_mm", number(mm(gap))),
                ("clearance_mm", number(mm(obstacle.clearance.mm()))),
            ],
        );
    }
}

pub(super) fn from_the_request(remarks: &Remarks, out: &mut Warnings) {
    invented(remarks, out);
    for guard in &remarks.guards {
        out.add(
            &kinds::GUARD,
            "/actions/snow",
            format!(
                "Obstacle {guard} is a snow guard, and the snow is not said to be held: set \
                 site.snow_held, so that the shape factor does not fall below 0.8."
            ),
            [("obstacle", number(*guard as f64))],
        );
    }
    if let Some([pitch, rule]) = remarks.below_rule_pitch {
        out.add(
            &kinds::BELOW_RULE_PITCH,
            "/covering",
            format!(
                "The roof has a pitch of {:.1}°; no covering of this kind has a rule pitch below \
                 {:.0}°. Ask a roofer what keeps the water out, and whether hooks may pass through \
                 the laps.",
                pitch.deg(),
                rule.deg()
            ),
            [
                ("pitch_deg", number(factor(pitch.deg()))),
                ("rule_pitch_deg", number(factor(rule.deg()))),
            ],
        );
    }
    if remarks.basis_unknown {
        out.add(&kinds::BASIS, "", "The basis of the hook's resistances is given as unknown.", []);
    }
    if remarks.insulation_crossed {
        out.add(&kinds::INSULATION, "", kinds::INSULATION.meaning, []);
    }
    if remarks.snow_from_memory {
        out.add(&kinds::SNOW_MEMORY, "/actions/snow", kinds::SNOW_MEMORY.meaning, []);
    }
    if let Some([outline, half]) = remarks.plan_mismatch {
        out.add(
            &kinds::PLAN,
            "/actions/wind/zones",
            format!(
                "By its outline the slope runs {:.2} m in plan; half the building's width is {:.2} m. \
                 The wind zones follow the outline.",
                outline.m(),
                half.m()
            ),
            [
                ("outline_run_m", number(factor(outline.m()))),
                ("half_width_m", number(factor(half.m()))),
            ],
        );
    }
}

/// Embedded parts carry figures nobody can build with.
fn invented(remarks: &Remarks, out: &mut Warnings) {
    if remarks.invented.is_empty() {
        return;
    }
    let parts: Vec<String> =
        remarks.invented.iter().map(|(kind, id)| format!("{kind} {id}")).collect();
    let parts = parts.join(", ");
    out.add(
        &kinds::INVENTED,
        "",
        format!(
            "These parts are invented for demonstration: {parts}. Give the parts that will be used, \
             with their maker's figures."
        ),
        [("parts", text(parts))],
    );
}
