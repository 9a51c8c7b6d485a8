//! What is worth a warning in a job as built.
//!
//! A wrong place of a hook or a rail is a finding, not a fault of the request: it is how the roof
//! was built, and the reader wants to know what that does to the rest.

use crate::placement::Job;
use crate::placement::built::{self, Built, Checked, Idle};
use crate::placement::layout::{Layout, Rail};
use crate::units::Length;

use super::strength;
use crate::service::answer::elements::hooks_on;
use crate::service::intake::Remarks;
use crate::service::rounding::mm;
use crate::service::warnings::{self as kinds, Warnings, number, text};

/// Every warning of a job as built.
pub fn of(job: &Job, built: &Built, checked: &Checked, remarks: &Remarks) -> Warnings {
    let mut out = Warnings::default();
    let layout = &checked.layout;
    idle_hooks(job, built, &checked.idle, &mut out);
    rows(job, layout, &mut out);
    let mut hooks_before = 0;
    for (r, rail) in layout.rails.iter().enumerate() {
        lines(job, r, rail, &mut out);
        for s in 0..rail.segments.len() {
            supports(job, rail, [r, s], &mut out);
            strength::hook_by_hook(job, layout, [r, s], hooks_before, &mut out);
            hooks_before += rail.segments[s].found.subset.len();
        }
    }
    for setting in 0..layout.footings.len() {
        footing(job, layout, setting, &mut out);
    }
    super::fit::fit(job, layout, super::fit::Rails::Built, &mut out);
    super::whole_job(job, layout, remarks, &mut out);
    out
}

fn idle_hooks(job: &Job, built: &Built, idle: &[(usize, Idle)], out: &mut Warnings) {
    for (hook, why) in idle {
        let hook = &built.hooks[*hook];
        let rail = &built.rails[hook.rail];
        let at = mm(hook.x.mm());
        let (kind, what) = match why {
            Idle::MissesRafter => {
                let off = built::nearest_rafter(job, hook.x).map_or(Length::ZERO, |(_, off)| off);
                (
                    &kinds::MISSES_RAFTER,
                    format!(
                        "the nearest rafter is {} mm away. If one was found there, give \
                         found.rafter_x_mm.",
                        mm(off.mm())
                    ),
                )
            }
            Idle::BeyondRail => (
                &kinds::BEYOND_RAIL,
                format!(
                    "rail {} does not reach it. If it does, give start_mm and end_mm.",
                    rail.id
                ),
            ),
            Idle::OnAnother => (
                &kinds::ON_ANOTHER,
                format!("another hook of rail {} holds it there already.", rail.id),
            ),
        };
        out.add(
            kind,
            "/hooks",
            format!("Hook {} at {at} mm carries nothing: {what}", hook.id),
            [("hook", text(&hook.id)), ("rail", text(&rail.id)), ("x_mm", number(at))],
        );
    }
}

fn rows(job: &Job, layout: &Layout, out: &mut Warnings) {
    let lines: Vec<_> = layout.rails.iter().map(|rail| rail.line.clone()).collect();
    for (field, row, rails) in built::rows_without_two_rails(job, &lines) {
        let field = &job.fields[field].id;
        let have = if rails == 0 { "no rail" } else { "one rail only" };
        out.add(
            &kinds::ROW_RAILS,
            "/rails",
            format!("Modules of row {row} of field {field} have {have} under them."),
            [
                ("field", text(field)),
                ("row", number(f64::from(row))),
                ("rails", number(rails as f64)),
            ],
        );
    }
}

fn lines(job: &Job, r: usize, rail: &Rail, out: &mut Warnings) {
    let line = &rail.line;
    let path = format!("/rails/{r}");
    let y = mm(line.y.mm());
    if let Some(off) = built::outside_clamp_zone(job, line) {
        let off = mm(off.mm());
        out.add(
            &kinds::OFF_CLAMP_ZONE,
            &path,
            format!(
                "Rail {} at {y} mm lies {off} mm outside the clamp zone of its modules.",
                line.id
            ),
            [("rail", text(&line.id)), ("off_mm", number(off))],
        );
    }
    if !line.on_grid {
        out.add(
            &kinds::OFF_COURSE,
            &path,
            format!(
                "Rail {} at {y} mm lies more than {} mm from where arms leave a regular covering; \
                 look at the courses under it.",
                line.id,
                mm(built::OFF_COURSE.mm())
            ),
            [("rail", text(&line.id)), ("y_mm", number(y))],
        );
    }
    let longest = line.segments.iter().map(|[a, b]| *b - *a).fold(Length::ZERO, Length::max);
    if longest - job.rail.max_continuous > LAST_DIGIT {
        out.add(
            &kinds::TOO_LONG,
            path,
            format!(
                "Rail {} runs {} mm without a gap; {} mm are allowed.",
                line.id,
                mm(longest.mm()),
                mm(job.rail.max_continuous.mm())
            ),
            [
                ("rail", text(&line.id)),
                ("length_mm", number(mm(longest.mm()))),
                ("limit_mm", number(mm(job.rail.max_continuous.mm()))),
            ],
        );
    }
}

/// What places are given to: a limit met in an answer is met when the answer is read back.
const LAST_DIGIT: Length = Length::from_mm(0.01);

/// Whether a segment has hooks enough, near enough to its ends.
fn supports(job: &Job, rail: &Rail, [r, s]: [usize; 2], out: &mut Warnings) {
    let id = &rail.line.id;
    let laid = &rail.segments[s];
    let path = format!("/rails/{r}/segments/{s}");
    let places = &laid.segment.candidates;
    let (Some(first), Some(last), 2..) = (places.first(), places.last(), places.len()) else {
        out.add(
            &kinds::TOO_FEW_HOOKS,
            path,
            format!("Rail {id} needs two hooks at least; {} hold it.", places.len()),
            [("rail", text(id)), ("hooks", number(places.len() as f64))],
        );
        return;
    };
    if laid.result.is_none() {
        out.add(
            &kinds::UNSTABLE,
            &path,
            format!("The splices of rail {id} are hinges and leave it free to move."),
            [("rail", text(id))],
        );
    }
    let ends = rail.line.segments[s];
    let limit = job.rail.max_cantilever;
    let free =
        [("left", first.x.max(first.arm_x) - ends[0]), ("right", ends[1] - last.x.min(last.arm_x))];
    for (side, free) in free.into_iter().filter(|(_, free)| *free - limit > LAST_DIGIT) {
        out.add(
            &kinds::FREE_END,
            &path,
            format!(
                "The {side} end of rail {id} is free for {} mm beyond its outermost hook; it may \
                 overhang {} mm.",
                mm(free.mm()),
                mm(limit.mm())
            ),
            [
                ("rail", text(id)),
                ("end", text(side)),
                ("free_end_mm", number(mm(free.mm()))),
                ("limit_mm", number(mm(limit.mm()))),
            ],
        );
    }
}

/// What is wrong with the feet that are set in one way.
fn footing(job: &Job, layout: &Layout, setting: usize, out: &mut Warnings) {
    let hooks: Vec<String> = hooks_on(layout, setting).collect();
    if hooks.is_empty() {
        return;
    }
    let hooks = hooks.join(", ");
    let footing = &layout.footings[setting];
    let (have, want) = (mm(footing.clearance.mm()), mm(job.wishes.min_clearance.mm()));
    if have < want {
        out.add(
            &kinds::CLEARANCE_LOW,
            "/hooks",
            format!(
                "Hooks {hooks}: the arm stands {have} mm above the tile below; {want} mm are asked \
                 for. More packers would help."
            ),
            [
                ("hooks", text(&hooks)),
                ("clearance_mm", number(have)),
                ("min_clearance_mm", number(want)),
            ],
        );
    }
    let (packed, most) = (mm(footing.packed().mm()), mm(job.packers.max_stack.mm()));
    if packed > most {
        out.add(
            &kinds::STACK_HIGH,
            "/hooks",
            format!("Hooks {hooks}: packers of {packed} mm; a stack may have {most} mm."),
            [("hooks", text(&hooks)), ("stack_mm", number(packed)), ("limit_mm", number(most))],
        );
    }
    super::footing::screws(job, footing, &format!("Hooks {hooks}: "), out);
}
