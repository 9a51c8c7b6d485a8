//! Where rails cannot lie or end: free ends, course lines, and the moves that cure them.

use crate::placement::free_ends::{self, At, End, LongEnd};
use crate::placement::layout::Layout;
use crate::placement::{Job, rail_lines};
use crate::service::rounding::mm;
use crate::service::warnings::{self as kinds, Warnings, number, text};
use crate::units::Length;
use std::fmt::Write;

pub(super) fn free_ends(job: &Job, layout: &Layout, out: &mut Warnings) {
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

pub(super) fn course_lines(job: &Job, layout: &Layout, out: &mut Warnings) {
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
    }
}

/// Fields whose modules are clamped where no zone is known.
pub(super) fn short_sides(job: &Job, layout: &Layout, out: &mut Warnings) {
    let mut seen = std::collections::BTreeSet::new();
    for (r, rail) in layout.rails.iter().enumerate() {
        let field = &job.fields[rail.line.field];
        if rail_lines::clamp_zones(job, field).is_none() && seen.insert(rail.line.field) {
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
