//! What is worth a warning in a layout.

use std::fmt::Write;

use crate::checks::screws::{self, Nearness};
use crate::checks::{Check, Governing};
use crate::placement::free_ends::{self, At, End, LongEnd};
use crate::placement::layout::{LaidSegment, Layout, Rail};
use crate::placement::rail_lines;
use crate::placement::search::Outcome;
use crate::placement::{Job, sideways};
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
            Some(result) => {
                let (check, governing, hook) = result.governing();
                let element = hook.map_or_else(|| id.clone(), |h| hook_id(layout, [r, s, h]));
                let places = &laid.segment.candidates;
                let ends_held =
                    places.iter().any(|c| c.may_be_first) && places.iter().any(|c| c.may_be_last);
                if governing.utilisation > job.wishes.max_utilisation {
                    no_pattern(job, path, id, candidates, (check, governing), &element, out);
                } else if ends_held {
                    // All candidates together would pass, but the pattern asked for forbids them.
                    out.add(
                        &kinds::NO_PATTERN,
                        path,
                        format!(
                            "No choice of hooks on rail {id} passes in the pattern asked for; all \
                             {candidates} candidates without a pattern do."
                        ),
                        [("rail", text(id)), ("candidates", number(candidates as f64))],
                    );
                }
                // What is left are free ends that are too long, which have a warning of their own.
            }
        },
    }
}

fn no_pattern(
    job: &Job,
    path: String,
    rail: &str,
    candidates: usize,
    (check, governing): (Check, Governing),
    element: &str,
    out: &mut Warnings,
) {
    let used = utilisation(governing.utilisation);
    let combination = combination_id(job, governing.combination);
    let (what, cure) = match check {
        Check::Hook => ("the hook", "a stronger hook, or a third rail under each row"),
        Check::Screws => {
            ("its screws", "longer or thicker screws, more screws in the foot, or fewer packers")
        }
        Check::Clearance => ("the clearance under load", "a stiffer hook, or more packers"),
        Check::RailBending => ("bending of the rail", "a stronger rail"),
        Check::RailDeflection => ("deflection of the rail", "a stiffer rail"),
        Check::Module | Check::Clamp | Check::Rafter => ("another check", "see there"),
    };
    out.add(
        &kinds::NO_PATTERN,
        path,
        format!(
            "No choice of hooks on rail {rail} passes. With all {candidates} candidates used, \
             {element} reaches {used:.2} in {combination}; {what} governs. What would help: {cure}.",
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
                "The first rafter inside the {side} end of rail {}, {}, is {} mm from that end; \
                 the rail may overhang {limit} mm.",
                line.id,
                place(at),
                mm(free.mm())
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
    if let Some(shift) = shift {
        params.push(("shift_mm", number(mm(shift.mm()))));
        let way = if shift < Length::ZERO { "left" } else { "right" };
        let _ = write!(
            message,
            " Moving field {} {} mm to the {way} cures every rail end of the field.",
            job.fields[line.field].id,
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
                    "The modules of field {} lie landscape; give the clamp zone of their short \
                     sides.",
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
                "The screw reaches {} mm into the rafter, {} mm of it threaded: {silent}.",
                mm(footing.seat.embedment.mm()),
                mm(footing.seat.threaded.mm())
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

fn modules(job: &Job, layout: &Layout, out: &mut Warnings) {
    let bound = job.wishes.max_utilisation;
    for (i, module) in layout.modules.iter().enumerate() {
        let id = module_id(job, &module.placed);
        let check = &module.check;
        let used = check.press.max(check.lift);
        if used > bound {
            let presses = check.press >= check.lift;
            let (way, load_on_it) =
                if presses { ("pressing", module.press) } else { ("lifting", module.lift) };
            out.add(
                &kinds::MODULE,
                format!("/modules/{i}"),
                format!(
                    "Module {id} has a {way} design load of {:.2} kN/m²: {:.2} of what it takes.",
                    load_on_it.kn_per_m2(),
                    utilisation(used)
                ),
                [
                    ("module", text(&id)),
                    ("load_kn_per_m2", number(load(load_on_it.kn_per_m2()))),
                    ("utilisation", number(utilisation(used))),
                ],
            );
        }
        if check.clamp > bound {
            out.add(
                &kinds::CLAMP,
                format!("/modules/{i}"),
                format!(
                    "A clamp of module {id} is lifted with {:.2} kN: {:.2} of what it holds.",
                    check.clamp_lift.kn(),
                    utilisation(check.clamp)
                ),
                [("module", text(&id)), ("utilisation", number(utilisation(check.clamp)))],
            );
        }
    }
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
    for (i, rafter) in layout.rafters.iter().enumerate() {
        let Some([bending, shear]) = rafter.utilisation else { continue };
        let (what, worst) = if shear.utilisation > bending.utilisation {
            ("shear", shear)
        } else {
            ("bending", bending)
        };
        if worst.utilisation > job.wishes.max_utilisation {
            let used = utilisation(worst.utilisation);
            out.add(
                &kinds::RAFTER,
                format!("/rafters/{i}"),
                format!(
                    "Rafter {} reaches {used:.2} in {what} in {}. Spreading the hooks does not \
                     lower the load: ask a structural engineer.",
                    rafter.rafter,
                    combination_id(job, worst.combination)
                ),
                [
                    ("rafter", number(rafter.rafter as f64)),
                    ("utilisation", number(used)),
                    ("combination", text(combination_id(job, worst.combination))),
                ],
            );
        }
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
        let need = ends * 2.0 + rail_lines::EXPANSION_GAP;
        if let Some(r) = split.filter(|_| field.column_gap < need) {
            out.add(
                &kinds::EXPANSION,
                format!("/rails/{r}"),
                format!(
                    "Rails of field {} are longer than {} mm and are cut between two modules; the \
                     end clamps on either side and the expansion gap need {} mm there, the columns \
                     stand {} mm apart. Make two fields of it, {} mm apart.",
                    field.id,
                    mm(job.rail.max_continuous.mm()),
                    mm(need.mm()),
                    mm(field.column_gap.mm()),
                    mm(need.mm())
                ),
                [("field", text(&field.id)), ("need_mm", number(mm(need.mm())))],
            );
        }
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
