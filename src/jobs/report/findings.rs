//! What is worth a warning in a layout.

use std::fmt::Write;

use crate::checks::screws::{self, Nearness};
use crate::checks::segment::{HookResult, SegmentResult};
use crate::checks::{Check, Governing};
use crate::covering::{Laying, stack};
use crate::placement::expansion::EXPANSION_GAP;
use crate::placement::free_ends::{self, At, End, LongEnd};
use crate::placement::layout::{LaidSegment, Layout, ModuleResult, RafterResult, Rail};
use crate::placement::rail_lines;
use crate::placement::search::Outcome;
use crate::placement::{Job, Objective, sideways};
use crate::rules::en1995_1_1_2004::screws_lateral::Predrilling;
use crate::rules::en1995_1_1_2004::screws_spacing;
use crate::units::{Angle, Length};

use super::elements::{combination_id, hook_id, module_id};
use super::rounding::{factor, load, mm, utilisation};
use crate::jobs::intake::Remarks;
use crate::jobs::warnings::{self as kinds, Warnings, number, text};

/// Every warning of a layout.
pub fn of(job: &Job, layout: &Layout, remarks: &Remarks) -> Warnings {
    let mut out = Warnings::default();
    rails(job, layout, &mut out);
    free_ends(job, layout, &mut out);
    course_lines(job, layout, &mut out);
    footing(job, layout, &mut out);
    hooks(job, layout, &mut out);
    modules(job, layout, &mut out);
    rafters(job, layout, &mut out);
    details(job, layout, &mut out);
    from_the_request(remarks, &mut out);
    out
}

fn rails(job: &Job, layout: &Layout, out: &mut Warnings) {
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            segment(job, layout, [r, s], rail, laid, out);
        }
    }
}

fn segment(
    job: &Job,
    layout: &Layout,
    [r, s]: [usize; 2],
    rail: &Rail,
    laid: &LaidSegment,
    out: &mut Warnings,
) {
    let id = &rail.line.id;
    let path = format!("/rails/{r}/segments/{s}");
    let candidates = laid.segment.candidates.len();
    match laid.found.outcome {
        Outcome::FewestProven => {}
        Outcome::FewestProvenNotRanked | Outcome::BestFound => out.add(
            &kinds::LIMIT,
            path,
            format!(
                "The search on rail {id} stopped after {} hook patterns; at least {} hooks are \
                 needed, {} are used.",
                laid.found.weighed,
                laid.found.lower_bound,
                laid.found.subset.len()
            ),
            [("rail", text(id)), ("lower_bound", number(laid.found.lower_bound as f64))],
        ),
        Outcome::NonePasses | Outcome::NoneFound if candidates < 2 => out.add(
            &kinds::TOO_FEW_RAFTERS,
            path,
            format!("Only {candidates} rafters can take a hook under rail {id}."),
            [("rail", text(id)), ("candidates", number(candidates as f64))],
        ),
        Outcome::NonePasses | Outcome::NoneFound => match &laid.result {
            None => out.add(
                &kinds::UNSTABLE,
                path,
                format!("The splices of rail {id} are hinges and leave it free to move."),
                [("rail", text(id))],
            ),
            Some(result) => no_pattern(job, layout, [r, s], (laid, result), out),
        },
    }
}

/// Why no choice of hooks passes on a segment: first the ends, then every check that fails.
fn no_pattern(
    job: &Job,
    layout: &Layout,
    [r, s]: [usize; 2],
    (laid, result): (&LaidSegment, &SegmentResult),
    out: &mut Warnings,
) {
    let line = &layout.rails[r].line;
    let rail = &line.id;
    let path = format!("/rails/{r}/segments/{s}");
    let places = &laid.segment.candidates;
    let candidates = places.len();
    let ends_held = places.iter().any(|c| c.may_be_first) && places.iter().any(|c| c.may_be_last);
    let pattern = match job.wishes.objective {
        Objective::FewestHooks => "",
        Objective::EvenSpacing | Objective::Staggered => " in the pattern asked for",
    };
    let (check, governing, hook) = result.governing();
    let bound = job.wishes.max_utilisation;
    if !ends_held {
        // A free end no rafter can hold has a warning of its own and is the cause to cure first.
        if !free_ends::long_ends_of(job, line, s).is_empty() {
            return;
        }
        out.add(
            &kinds::NO_PATTERN,
            path,
            format!(
                "No choice of hooks on rail {rail} passes{pattern}: it leaves an end of the rail \
                 free for more than the {} mm it may overhang.",
                mm(job.rail.max_cantilever.mm())
            ),
            [("rail", text(rail)), ("candidates", number(candidates as f64))],
        );
        return;
    }
    if governing.utilisation <= bound {
        out.add(
            &kinds::NO_PATTERN,
            path,
            format!(
                "No choice of hooks on rail {rail} passes{pattern}; all {candidates} candidates \
                 without a pattern do."
            ),
            [("rail", text(rail)), ("candidates", number(candidates as f64))],
        );
        return;
    }
    let element = hook.map_or_else(|| rail.clone(), |h| hook_id(layout, [r, s, h]));
    let used = utilisation(governing.utilisation);
    let combination = combination_id(job, governing.combination);
    let failing: Vec<String> = worst_by_check(result)
        .into_iter()
        .filter(|(_, used)| *used > bound)
        .map(|(check, used)| format!("{} {:.2} ({})", label(check), utilisation(used), cure(check)))
        .collect();
    let limit =
        if bound < 1.0 { format!(" The limit asked for is {bound}.") } else { String::new() };
    out.add(
        &kinds::NO_PATTERN,
        path,
        format!(
            "No choice of hooks on rail {rail} passes{pattern}. With all {candidates} candidates \
             used, {element} governs with {} {used:.2} in {combination}. Over the limit, and what \
             would help: {}.{limit}",
            label(check),
            failing.join("; "),
        ),
        [
            ("rail", text(rail)),
            ("candidates", number(candidates as f64)),
            ("element", text(element)),
            ("check", text(check.name())),
            ("utilisation", number(used)),
            ("combination", text(combination)),
        ],
    );
}

/// Largest utilisation of a segment by check.
fn worst_by_check(result: &SegmentResult) -> [(Check, f64); 5] {
    let largest = |of: fn(&HookResult) -> Governing| {
        result.hooks.iter().map(|h| of(h).utilisation).fold(0.0, f64::max)
    };
    [
        (Check::Hook, largest(|h| h.hook)),
        (Check::Screws, largest(|h| h.screws)),
        (Check::Clearance, largest(|h| h.clearance)),
        (Check::RailBending, result.bending.utilisation),
        (Check::RailDeflection, result.deflection.utilisation),
    ]
}

const fn label(check: Check) -> &'static str {
    match check {
        Check::Hook => "hook strength",
        Check::Screws => "screws",
        Check::Clearance => "clearance under load",
        Check::RailBending => "bending of the rail",
        Check::RailDeflection => "deflection of the rail",
        Check::Module => "module",
        Check::Clamp => "clamps",
        Check::Rafter => "rafter",
    }
}

const fn cure(check: Check) -> &'static str {
    match check {
        Check::Hook => "a stronger hook, or a third rail under each row",
        Check::Screws => "longer or thicker screws, or more of them in the foot",
        Check::Clearance => "a stiffer hook, or more packers",
        Check::RailBending => "a stronger rail",
        Check::RailDeflection => "a stiffer rail",
        Check::Module => "a stronger module",
        Check::Clamp => "stronger clamps",
        Check::Rafter => "a structural engineer",
    }
}

fn free_ends(job: &Job, layout: &Layout, out: &mut Warnings) {
    let ends = free_ends::long_ends(job, &layout.rails);
    let mut shifts: Vec<Option<Option<Length>>> = vec![None; job.fields.len()];
    for end in ends {
        let field = layout.rails[end.rail].line.field;
        let shift = *shifts[field]
            .get_or_insert_with(|| free_ends::smallest_shift(job, &layout.rails, field));
        free_end(job, layout, &end, shift, out);
    }
}

fn free_end(job: &Job, layout: &Layout, end: &LongEnd, shift: Option<Length>, out: &mut Warnings) {
    let line = &layout.rails[end.rail].line;
    let side = match end.end {
        End::Left => "left",
        End::Right => "right",
    };
    let limit = mm(job.rail.max_cantilever.mm());
    let mut params =
        vec![("rail", text(&line.id)), ("end", text(side)), ("limit_mm", number(limit))];
    let place = |at: At| format!("rafter {} at {} mm", at.rafter, mm(at.x.mm()));
    let mut message = match (end.inside, end.to_rafter) {
        (Some(at), Some(free)) => {
            params.push(("rafter_inside", number(at.rafter as f64)));
            params.push(("free_end_mm", number(mm(free.mm()))));
            format!(
                "The first rafter inside the {side} end of rail {}, {}, is {} mm from that end{}; \
                 the rail may overhang {limit} mm.",
                line.id,
                place(at),
                mm(free.mm()),
                end.to_arm.filter(|arm| (*arm - free).abs().mm() > 0.1).map_or_else(
                    String::new,
                    |arm| format!(", the arm of a hook on it {} mm", mm(arm.mm()))
                ),
            )
        }
        _ => format!("No rafter can take a hook under rail {}.", line.id),
    };
    if let (Some(at), Some(longer)) = (end.outside, end.longer_by) {
        params.push(("rafter_outside", number(at.rafter as f64)));
        params.push(("rafter_outside_x_mm", number(mm(at.x.mm()))));
        params.push(("longer_end_mm", number(mm(longer.mm()))));
        let _ = write!(
            message,
            " The next one, {}, lies outside: the rail would reach it {} mm longer.",
            place(at),
            mm(longer.mm())
        );
    }
    let field = &job.fields[line.field].id;
    let way = |shift: Length| if shift < Length::ZERO { "left" } else { "right" };
    if let Some(shift) = end.shift {
        params.push(("shift_this_end_mm", number(mm(shift.mm()))));
        let _ = write!(
            message,
            " Moving field {field} {} mm to the {} cures this end.",
            mm(shift.abs().mm()),
            way(shift)
        );
    }
    if let Some(shift) = shift.filter(|s| end.shift.is_none_or(|e| (e - *s).abs().mm() > 0.01)) {
        params.push(("shift_mm", number(mm(shift.mm()))));
        let way = way(shift);
        let _ = write!(
            message,
            " Moving it {} mm to the {way} cures every rail end of the field.",
            mm(shift.abs().mm())
        );
    }
    out.add(
        &kinds::FREE_END,
        format!("/rails/{}/segments/{}", end.rail, end.segment),
        message,
        params,
    );
}

fn course_lines(job: &Job, layout: &Layout, out: &mut Warnings) {
    let mut seen = std::collections::BTreeSet::new();
    for (r, rail) in layout.rails.iter().enumerate() {
        let line = &rail.line;
        let field = &job.fields[line.field];
        if !line.on_grid && seen.insert((line.field, line.row)) {
            let shift = rail_lines::smallest_shift_to_grid(job, field);
            let mut params = vec![("field", text(&field.id)), ("row", number(f64::from(line.row)))];
            let cure = shift.map_or_else(
                || "No move of the field puts one into both zones of every row.".to_owned(),
                |s| {
                    params.push(("shift_mm", number(mm(s.mm()))));
                    let way = if s < Length::ZERO { "down" } else { "up" };
                    format!("Moving the field {} mm {way} the slope does.", mm(s.abs().mm()))
                },
            );
            out.add(
                &kinds::NO_COURSE,
                format!("/rails/{r}"),
                format!(
                    "No course line of the covering lies inside both clamp zones of row {} of \
                     field {}; the rails are drawn at the quarter points, where no arm can leave. \
                     {cure}",
                    line.row, field.id
                ),
                params,
            );
        }
        if rail_lines::clamp_zones(job, field).is_none() && seen.insert((line.field, u32::MAX)) {
            out.add(
                &kinds::SHORT_SIDE,
                format!("/rails/{r}"),
                format!(
                    "The modules of field {} lie landscape and are clamped on their short sides; \
                     give array.module.short_side_clamp_zone_mm.",
                    field.id
                ),
                [("field", text(&field.id))],
            );
        }
    }
}

fn footing(job: &Job, layout: &Layout, out: &mut Warnings) {
    let footing = &layout.footing;
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
                "The screw reaches {} mm into the rafter, {} mm of it threaded; {} mm of thread are \
                 the least. {}",
                mm(footing.seat.embedment.mm()),
                mm(footing.seat.threaded.mm()),
                mm(6.0 * job.screw.diameter.mm()),
                if kind.code == kinds::EMBEDMENT.code {
                    "A longer screw would help.".to_owned()
                } else {
                    format!("{silent}.")
                }
            ),
            [
                ("embedment_mm", number(mm(footing.seat.embedment.mm()))),
                ("threaded_mm", number(mm(footing.seat.threaded.mm()))),
            ],
        );
    }
    if footing.seat.embedment > job.roof.rafters.depth {
        out.add(
            &kinds::SCREW_THROUGH,
            "",
            format!(
                "The screw reaches {} mm into a rafter {} mm deep.",
                mm(footing.seat.embedment.mm()),
                mm(job.roof.rafters.depth.mm())
            ),
            [("embedment_mm", number(mm(footing.seat.embedment.mm())))],
        );
    }
    if let Some(near) = screws::too_near(&job.hook.foot, &job.screw, job.roof.rafters.width) {
        let (kind, what) = match near.what {
            Nearness::RafterEdge => (&kinds::SCREW_EDGE, "from the edge of the rafter"),
            Nearness::EachOther => (&kinds::SCREW_EACH_OTHER, "from each other along the rafter"),
        };
        out.add(
            kind,
            "",
            format!(
                "Screws stand {} mm {what}; {} mm are needed.",
                mm(near.have.mm()),
                mm(near.need.mm())
            ),
            [("have_mm", number(mm(near.have.mm()))), ("need_mm", number(mm(near.need.mm())))],
        );
    }
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

fn hooks(job: &Job, layout: &Layout, out: &mut Warnings) {
    let mut farthest = Length::ZERO;
    for laid in layout.segments() {
        for candidate in &laid.found.subset {
            let candidate = &laid.segment.candidates[*candidate];
            farthest = farthest.max((candidate.arm_x - candidate.x).abs());
        }
    }
    if farthest > Length::ZERO {
        out.add(
            &kinds::ARM_OFF_AXIS,
            "/hooks",
            format!(
                "Arms stand up to {} mm off the rafter axis; the screws are checked for it. Check \
                 that the hook's declared resistance and stiffness hold for it.",
                mm(farthest.mm())
            ),
            [("offset_mm", number(mm(farthest.mm())))],
        );
        sideways_edge(job, farthest, out);
    }
    let unreachable: Vec<String> = unreachable_rafters(job, layout);
    if !unreachable.is_empty() {
        out.add(
            &kinds::OUT_OF_REACH,
            "",
            format!(
                "Rafters {} have no trough within {} mm of their axis.",
                unreachable.join(", "),
                mm(job.hook.foot.lateral_range.mm())
            ),
            [("rafters", text(unreachable.join(", ")))],
        );
    }
}

/// The turning of a foot adds a part across the grain to the screws' load.
fn sideways_edge(job: &Job, offset: Length, out: &mut Warnings) {
    let foot = &job.hook.foot;
    let n = foot.screws.len() as f64;
    let centre = foot.screws.iter().map(|s| s[1]).sum::<Length>() / n;
    let polar: f64 = foot.screws.iter().map(|s| (s[1] - centre).mm().powi(2)).sum();
    let reach = foot.screws.iter().map(|s| (s[1] - centre).abs()).fold(Length::ZERO, Length::max);
    if polar <= 0.0 {
        return;
    }
    let across = offset.mm() * reach.mm() / polar;
    let angle = Angle::from_deg((across * n).atan().to_degrees());
    let predrilling =
        if job.screw.predrilled { Predrilling::Predrilled } else { Predrilling::None };
    let need = screws_spacing::lateral_distances(job.screw.diameter, predrilling, angle).a4_t;
    let widest = foot.screws.iter().map(|s| s[0].abs()).fold(Length::ZERO, Length::max);
    let have = job.roof.rafters.width / 2.0 - widest;
    if have < need {
        out.add(
            &kinds::SIDEWAYS_EDGE,
            "",
            format!(
                "With the arm {} mm off the axis a screw's load points {:.0}° off the grain; it \
                 stands {} mm from the edge of the rafter where {} mm are asked for.",
                mm(offset.mm()),
                angle.deg(),
                mm(have.mm()),
                mm(need.mm())
            ),
            [("have_mm", number(mm(have.mm()))), ("need_mm", number(mm(need.mm())))],
        );
    }
}

fn unreachable_rafters(job: &Job, layout: &Layout) -> Vec<String> {
    let mut out = Vec::new();
    for (rafter, x) in job.roof.rafters.positions.iter().enumerate() {
        let under = |rail: &&Rail| rail.line.start() <= *x && *x <= rail.line.end();
        let blocked = layout.rails.iter().filter(under).any(|rail| {
            sideways::arm_position(job, rail.line.course, *x, [rail.line.start(), rail.line.end()])
                .is_none()
        });
        if blocked {
            out.push(rafter.to_string());
        }
    }
    out
}

/// One warning for all modules, about the worst.
fn modules(job: &Job, layout: &Layout, out: &mut Warnings) {
    let bound = job.wishes.max_utilisation;
    let mut over = |kind, used: fn(&ModuleResult) -> f64, say: &dyn Fn(&ModuleResult) -> String| {
        let failing = layout.modules.iter().enumerate().filter(|(_, m)| used(m) > bound);
        let count = failing.clone().count();
        let worst = failing.reduce(|a, b| if used(b.1) > used(a.1) { b } else { a });
        let Some((i, module)) = worst else { return };
        let id = module_id(job, &module.placed);
        let others = if count > 1 {
            format!(" {} more modules exceed the limit.", count - 1)
        } else {
            String::new()
        };
        let value = utilisation(used(module));
        let limit = if bound < 1.0 { format!(", the limit is {bound}") } else { String::new() };
        out.add(
            kind,
            format!("/modules/{i}"),
            format!("{}: {value:.2} of what it takes{limit}.{others}", say(module)),
            [
                ("module", text(id)),
                ("utilisation", number(value)),
                ("modules", number(count as f64)),
            ],
        );
    };
    over(&kinds::MODULE, |m| m.check.press.max(m.check.lift), &|module| {
        let presses = module.check.press >= module.check.lift;
        let (way, on_it) =
            if presses { ("pressing", module.press) } else { ("lifting", module.lift) };
        format!(
            "Module {} has a {way} design load of {:.2} kN/m²",
            module_id(job, &module.placed),
            on_it.kn_per_m2()
        )
    });
    over(&kinds::CLAMP, |m| m.check.clamp, &|module| {
        format!(
            "A clamp of module {} is lifted with {:.2} kN",
            module_id(job, &module.placed),
            module.check.clamp_lift.kn()
        )
    });
}

fn rafters(job: &Job, layout: &Layout, out: &mut Warnings) {
    const BENCHMARK: f64 = 0.15;
    if job.roof.rafters.span.is_none() && !layout.rafters.is_empty() {
        out.add(
            &kinds::RAFTER_UNVERIFIED,
            "/rafters",
            "No rafter span is given, so the rafters themselves are not verified.",
            [],
        );
    }
    let most = layout.rafters.iter().map(|r| r.added_share).fold(0.0, f64::max);
    if most > BENCHMARK {
        out.add(
            &kinds::ADDED_LOAD,
            "/rafters",
            format!(
                "The array adds up to {:.0} % to the permanent load of a rafter.",
                most * 100.0
            ),
            [("share", number(load(most)))],
        );
    }
    let used = |rafter: &RafterResult| {
        rafter.utilisation.map_or((Governing::NONE, "bending"), |[bending, shear]| {
            if shear.utilisation > bending.utilisation {
                (shear, "shear")
            } else {
                (bending, "bending")
            }
        })
    };
    let bound = job.wishes.max_utilisation;
    let failing = layout.rafters.iter().enumerate().filter(|(_, r)| used(r).0.utilisation > bound);
    let all: Vec<String> = failing.clone().map(|(_, r)| r.rafter.to_string()).collect();
    let worst = failing
        .reduce(|a, b| if used(b.1).0.utilisation > used(a.1).0.utilisation { b } else { a });
    if let Some((i, rafter)) = worst {
        let (governing, what) = used(rafter);
        let value = utilisation(governing.utilisation);
        out.add(
            &kinds::RAFTER,
            format!("/rafters/{i}"),
            format!(
                "Rafter {} reaches {value:.2} in {what} in {}; rafters over the limit: {}. No \
                 spread of the hooks that was tried brings them within it: ask a structural \
                 engineer.",
                rafter.rafter,
                combination_id(job, governing.combination),
                all.join(", ")
            ),
            [
                ("rafter", number(rafter.rafter as f64)),
                ("utilisation", number(value)),
                ("combination", text(combination_id(job, governing.combination))),
                ("rafters", text(all.join(", "))),
            ],
        );
    }
}

fn details(job: &Job, layout: &Layout, out: &mut Warnings) {
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
    rails_that_meet(job, layout, out);
    bay(job, out);
    counter_batten(job, out);
}

/// One warning for each obstacle whose strip modules lie in.
fn obstacles(job: &Job, layout: &Layout, out: &mut Warnings) {
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

fn rails_that_meet(job: &Job, layout: &Layout, out: &mut Warnings) {
    for (i, a) in layout.rails.iter().enumerate() {
        for b in layout.rails.iter().skip(i + 1) {
            let (a, b) = (&a.line, &b.line);
            let level = (a.y - b.y).abs() < job.rail.depth;
            if level && a.start() <= b.end() && b.start() <= a.end() {
                out.add(
                    &kinds::RAILS_MEET,
                    format!("/rails/{i}"),
                    format!(
                        "Rails {} and {} meet at {} mm along the eaves. Move their fields apart, or \
                         make one field of them.",
                        a.id,
                        b.id,
                        mm(a.start().max(b.start()).mm())
                    ),
                    [("rail", text(&a.id)), ("other", text(&b.id))],
                );
            }
        }
    }
}

fn bay(job: &Job, out: &mut Warnings) {
    /// How far heads of tiles stand into the space between battens; common practice.
    const HEADS: Length = Length::from_mm(15.0);
    let bay = stack::clear_bay(&job.covering);
    let foot = job.hook.foot.length;
    let kind = if foot > bay {
        &kinds::FOOT_BAY
    } else if foot > bay - HEADS && job.covering.laying != Laying::Interlocking {
        &kinds::FOOT_BAY_TIGHT
    } else {
        return;
    };
    out.add(
        kind,
        "",
        format!(
            "The foot is {} mm long; between two battens there are {} mm, less where heads of tiles \
             stand into the space.",
            mm(foot.mm()),
            mm(bay.mm())
        ),
        [("foot_mm", number(mm(foot.mm()))), ("bay_mm", number(mm(bay.mm())))],
    );
}

fn counter_batten(job: &Job, out: &mut Warnings) {
    let width = job.roof.layers.bearing_width;
    if width >= job.roof.rafters.width {
        return;
    }
    let predrilling =
        if job.screw.predrilled { Predrilling::Predrilled } else { Predrilling::None };
    let along = Angle::from_deg(0.0);
    let need = screws_spacing::lateral_distances(job.screw.diameter, predrilling, along).a4_c;
    let widest = job.hook.foot.screws.iter().map(|s| s[0].abs()).fold(Length::ZERO, Length::max);
    let have = width / 2.0 - widest;
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

fn from_the_request(remarks: &Remarks, out: &mut Warnings) {
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
