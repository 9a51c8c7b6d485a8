//! The crew's part: one row per hook to set out by, and the rails.

use maud::{Markup, html};

use crate::covering::Laying;
use crate::covering::courses;
use crate::covering::opening::{Row, Tile};
use crate::drawing::plan::{course_number, pieces};
use crate::hardware::Screw;
use crate::language::Words;
use crate::placement::Job;
use crate::placement::rail_axis::RailAxis;
use crate::service::answer::tiles;
use crate::units::Length;
use crate::wire::layout::{
    HookAnswer, RailAnswer, RailLayer, SegmentAnswer, SubstitutePlace, TileRow, TileRun,
};

use super::{Sheet, head, mm, places, stack};

/// The setting-out table, one body per rail so that a rail starts with its own heading.
pub fn setting_out(sheet: &Sheet<'_>, words: &Words) -> Markup {
    let content = &sheet.content;
    let height = Height::of(sheet.job.rail_axis);
    let called = words.of_covering(pieces(sheet.job));
    html! {
        h3 { (words.setting_out) }
        p .note { (words.seen_from_outside) " " (words.setting_out_note) " " (words.counting) }
        (each_hook(sheet, words))
        @for rail in content.rails.iter().filter(|rail| rail.layer != Some(RailLayer::Upper)) {
            table .setting-out tabindex="0" {
                caption {
                    @if let Some(slope) = sheet.slope { (words.slope) " " (slope) " · " }
                    (words.rail) " " (rail.id) " · "
                    @match rail.x_mm {
                        None => { "y " (mm(rail.y_mm)) " mm" }
                        Some(x) => { "x " (mm(x)) " mm, y " (mm(rail.start_mm)) "–" (mm(rail.end_mm)) " mm" }
                    }
                    @if rail.kept.is_some() { " · " (words.there_already) }
                    @let holders = content.hooks.iter().filter(|hook| hook.rail == rail.id && hook.holds_rail);
                    @let holders = holders.map(|hook| hook.id.as_str()).collect::<Vec<_>>().join(", ");
                    @if !holders.is_empty() { " · " (words.held_by_hook.replace("{}", &holders)) }
                    @if let Some(course) = rail.course {
                        " · " (called.course) " " (course_number(course))
                        (on_the_roof(sheet, rail, course, words))
                    }
                }
                (head(&columns(sheet.job, height, words)))
                tbody {
                    @for hook in content.hooks.iter().filter(|hook| hook.rail == rail.id) {
                        (row(sheet, hook, height, words))
                    }
                }
            }
        }
        p .sign { (words.signed_off) ": " span {} }
    }
}

/// Where a rail along the eaves lies as it is measured on the roof: from the tail edge its arms leave under,
/// which the opened course shows, and from the lowest rail.
fn on_the_roof(sheet: &Sheet<'_>, rail: &RailAnswer, course: i64, words: &Words) -> Markup {
    let tail = courses::tail_edge(&sheet.job.covering, course).mm();
    let lowest = sheet.content.rails.iter().filter(|other| other.x_mm.is_none());
    let lowest = lowest.min_by(|a, b| a.y_mm.total_cmp(&b.y_mm));
    html! {
        " · " (words.bolts_below_tail) " " (mm(tail - rail.y_mm)) " mm"
        @if let Some(lowest) = lowest.filter(|lowest| lowest.id != rail.id) {
            " · " (words.above_rail) " " (lowest.id) " " (mm(rail.y_mm - lowest.y_mm)) " mm"
        }
    }
}

/// Where the height of a hook stands.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Height {
    /// Above the table: hooks of a rail along the eaves have one.
    Above,
    /// In the row of the hook.
    InRow,
}

impl Height {
    const fn of(axis: RailAxis) -> Self {
        match axis {
            RailAxis::AlongEaves => Self::Above,
            RailAxis::UpSlope => Self::InRow,
        }
    }
}

/// The columns of a table to set out by.
pub fn columns<'a>(job: &Job, height: Height, words: &'a Words) -> Vec<&'a str> {
    let called = words.of_covering(pieces(job));
    let mut columns = vec![words.hook, words.rafter, "x"];
    if height == Height::InRow {
        columns.push("y");
    }
    columns.extend([
        words.from_right_edge,
        words.arm_x,
        words.course_and_column,
        words.side_joint,
        called.to_lift,
        called.to_treat,
        words.packers,
        words.needed_clearance,
        words.screws_in,
        words.tiles_closed,
    ]);
    columns
}

/// What is the same at every hook: how its foot stands, where its screws go, how they are drilled for, where
/// the rail is bolted.
fn each_hook(sheet: &Sheet<'_>, words: &Words) -> Markup {
    let (hook, screw) = (&sheet.job.hook, &sheet.job.screw);
    let whole = |length: Length| words.figure(length.mm(), 0);
    let screws = hook.foot.screws.iter().map(|[x, y]| format!("{} / {}", whole(*x), whole(*y)));
    let screws: Vec<String> = screws.collect();
    let settings = 0..sheet.layout.footings.len();
    let least = settings.filter_map(|setting| sheet.layout.least_slot(sheet.job, setting));
    let least = least.map(|[slot, _]| slot).reduce(Length::max).filter(|slot| *slot > Length::ZERO);
    let aside = sheet.job.rail_aside();
    let side =
        if aside < Length::ZERO { words.rail_left_of_hooks } else { words.rail_right_of_hooks };
    html! {
        h4 { (words.each_hook) }
        ul .note {
            li {
                (words.foot_on_axis) " " (words.foot_above_bolt) " "
                (whole(hook.reach)) " mm."
            }
            li {
                (words.screws_of_hook) ": " (hook.foot.screws.len()) " × ∅ "
                (words.number(screw.diameter.mm(), 1)) " × " (words.number(screw.length.mm(), 1)) " mm. "
                (words.screw_places) ": " (screws.join("; ")) "."
            }
            @if screw.predrilled {
                li {
                    (words.drill_first_with) " ∅ " (words.figure(drill(screw).mm(), 1)) " mm "
                    (words.drill_source)
                }
            }
            @if aside != Length::ZERO {
                li { (side) ": " (whole(aside.abs())) " mm." }
            }
            @if hook.substitute_tiles == 0 && sheet.job.covering.laying == Laying::Interlocking {
                li { (words.notches) }
            }
            @if hook.slot_range > Length::ZERO {
                li {
                    (words.rail_in_slot)
                    @if let Some(least) = least {
                        " " (words.rail_high_in_slot) ": " (words.figure(least.mm().ceil(), 0)) " mm."
                    }
                }
            }
        }
    }
}

/// The drill for a thread in softwood: about 0.7 of its diameter, to the half millimetre below. EN 1995-1-1,
/// 10.4.5, from memory.
fn drill(screw: &Screw) -> Length {
    Length::from_mm((screw.diameter.mm() * 0.7 * 2.0).floor() / 2.0)
}

/// A hook to set out.
pub fn row(sheet: &Sheet<'_>, hook: &HookAnswer, height: Height, words: &Words) -> Markup {
    html! {
        tr {
            th scope="row" { (hook.id) }
            td { (hook.rafter + 1) }
            td { (mm(hook.x_mm)) }
            @if height == Height::InRow { td .main { (mm(hook.y_mm)) } }
            td { (mm(hook.from_right_edge_mm)) }
            td .main { (mm(hook.arm_x_mm)) }
            td { (course_number(hook.course)) " / " (hook.column_from_verge) }
            td { (mm(hook.side_joint_mm)) }
            @if hook.kept.is_some() {
                td colspan="2" { (words.there_already) }
            } @else {
                td .tiles {
                    @for (i, run) in hook.tiles.lift.iter().enumerate() {
                        @if i > 0 { "; " }
                        (tiles_of(run, words))
                    }
                }
                td .work { (tile_work(sheet.job, hook, words)) }
            }
            td {
                (stack(&hook.packers_mm, words))
            }
            td { @if let Some(clearance) = hook.clearance_mm { (words.figure(clearance, 1)) } }
            @for _ in 0..2 {
                td .tick { @if hook.kept.is_none() { "☐" } }
            }
        }
    }
}

/// Neighbouring tiles of a course, counted from the left verge.
fn tiles_of(run: &TileRun, words: &Words) -> String {
    let [first, last] = run.from_verge;
    let until = if last > first { format!("–{last}") } else { String::new() };
    let row = match run.row {
        None => String::new(),
        Some(TileRow::Cover) => format!(", {}", words.cover_row),
        Some(TileRow::Bed) => format!(", {}", words.bed_row),
    };
    format!("{}/{first}{until}{row}", course_number(run.course))
}

/// Substitute tiles, notches and nibs, each with course and tile.
fn tile_work(job: &Job, hook: &HookAnswer, words: &Words) -> Markup {
    let tiles = &hook.tiles;
    let place = |course: i64, column: i64| {
        let number = tiles::from_verge(job, Tile { course, column }, Row::Cover);
        format!("{}/{number}", course_number(course))
    };
    let substitutes = tiles.substitute.iter().map(|tile| {
        let position = match tile.place {
            SubstitutePlace::Below => words.substitute_below,
            SubstitutePlace::Above => words.substitute_above,
            SubstitutePlace::Beside => words.substitute_beside,
        };
        format!("{position} {}", place(tile.course, tile.column))
    });
    let substitutes = substitutes.collect::<Vec<_>>().join(", ");
    let mut lines: Vec<String> = Vec::new();
    if !substitutes.is_empty() {
        lines.push(format!("{} {substitutes}", words.metal_tile));
    }
    for (tile, what) in [(tiles.notch_beside, words.notch), (tiles.nib_to_remove, words.nib_off)] {
        lines.extend(tile.map(|tile| format!("{what} {}", place(tile.course, tile.column))));
    }
    if job.hook.substitute_tiles == 0 {
        let over = place(hook.course, hook.column);
        let room = words.number(tiles.room_for_arm_mm, 0);
        lines.push(if job.covering.laying == Laying::Interlocking {
            // At the lower edge of the tile, from its own left joint.
            let left = courses::left_joint(&job.covering, hook.course, hook.column).mm();
            let half = job.hook.arm_width.mm() / 2.0;
            let ends = [-half, half].map(|end| {
                mm((hook.arm_x_mm - left + end).clamp(0.0, job.covering.cover_width.mm()))
            });
            format!("{} {over}: {}–{} × {room}", words.notch, ends[0], ends[1])
        } else {
            format!("{over}: {} {room} mm", words.room_for_arm)
        });
    }
    html! {
        @for (i, line) in lines.iter().enumerate() { @if i > 0 { "; " } (line) }
    }
}

/// The rails: where they cross those of either layer by themselves.
pub fn rails(sheet: &Sheet<'_>, words: &Words) -> Markup {
    let of = |upper: bool| {
        let rails = sheet.content.rails.iter();
        let rails: Vec<&RailAnswer> =
            rails.filter(|rail| (rail.layer == Some(RailLayer::Upper)) == upper).collect();
        rails
    };
    let [lower, upper] = [of(false), of(true)];
    html! {
        h3 { (words.rail_cuts) }
        @if !upper.is_empty() { p .note { (words.lower_rails) } }
        (rail_table(&lower, sheet.job.rail_axis, words))
        @if !upper.is_empty() {
            p .note { (words.upper_rails) }
            (rail_table(&upper, RailAxis::AlongEaves, words))
        }
    }
}

fn rail_table(rails: &[&RailAnswer], axis: RailAxis, words: &Words) -> Markup {
    let heads = match axis {
        RailAxis::AlongEaves => [
            words.rail,
            "y",
            words.from_x,
            words.to_x,
            words.length,
            words.pieces_in_place,
            words.splices_at,
            words.gaps_at,
            words.free_ends,
        ],
        RailAxis::UpSlope => [
            words.rail,
            "x",
            words.from_y,
            words.to_y,
            words.length,
            words.pieces_upwards,
            words.splices_at_y,
            words.gaps_at_y,
            words.free_ends_up,
        ],
    };
    html! {
        table .rails tabindex="0" {
            (head(&heads))
            tbody {
                @for rail in rails {
                    tr {
                        th scope="row" { (rail.id) }
                        td { (mm(rail.x_mm.unwrap_or(rail.y_mm))) }
                        td { (mm(rail.start_mm)) }
                        td { (mm(rail.end_mm)) }
                        td { (mm(rail.length_mm)) }
                        td .main {
                            @for (i, segment) in rail.segments.iter().enumerate() {
                                @if i > 0 { " | " }
                                (lengths(segment))
                            }
                        }
                        td { (places(rail.segments.iter().flat_map(|s| s.splices_mm.iter().copied()))) }
                        td { (places(rail.expansion_gaps_mm.iter().copied())) }
                        td {
                            @for (i, segment) in rail.segments.iter().enumerate() {
                                @if i > 0 { "; " }
                                (mm(segment.left_cantilever_mm)) " / " (mm(segment.right_cantilever_mm))
                            }
                        }
                    }
                }
            }
        }
    }
}

/// The lengths of the pieces of a segment, along the rail.
fn lengths(segment: &SegmentAnswer) -> String {
    let starts = std::iter::once(segment.start_mm).chain(segment.splices_mm.iter().copied());
    let ends = segment.splices_mm.iter().copied().chain([segment.end_mm]);
    let lengths: Vec<String> = starts.zip(ends).map(|(from, to)| mm(to - from)).collect();
    lengths.join(" + ")
}
