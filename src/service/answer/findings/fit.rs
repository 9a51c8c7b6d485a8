//! Whether the hook can be fitted: its foot between tile and batten, on the roof, off obstacles; its
//! rail on the roof.

use crate::covering::courses;
use crate::covering::passage::{self, Fit};
use crate::geometry::Rect;
use crate::placement::Job;
use crate::placement::layout::{Layout, Rail};
use crate::placement::rail_lines::{self, Position, RailLine};
use crate::service::answer::elements::hook_id;
use crate::service::rounding::mm;
use crate::service::warnings::{self as kinds, Warnings, number, text};
use crate::units::Length;

/// Whether the rails of a layout may still be set lower than drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rails {
    /// They are not fixed yet.
    Movable,
    /// They stand.
    Built,
}

/// Everything about the place of feet and rails that no calculation of forces sees.
pub(super) fn fit(job: &Job, layout: &Layout, rails: Rails, out: &mut Warnings) {
    between_battens(job, layout, rails, out);
    rails_on_the_roof(job, layout, out);
    feet_on_the_roof(job, layout, out);
}

/// Whether the foot fits between two battens, and stands there where the arm wants it.
fn between_battens(job: &Job, layout: &Layout, rails: Rails, out: &mut Warnings) {
    let (covering, foot) = (&job.covering, job.hook.foot.length);
    let bay = passage::between_battens(covering);
    let clear = passage::clear_bay(covering);
    let lengths = [
        ("foot_mm", number(mm(foot.mm()))),
        ("bay_mm", number(mm(bay.mm()))),
        ("clear_mm", number(mm(clear.mm()))),
    ];
    if foot > bay {
        out.add(
            &kinds::FOOT_BAY,
            "/covering",
            format!(
                "The foot is {} mm long; between two battens there are {} mm, {} mm of them clear of \
                 the heads of tiles.",
                mm(foot.mm()),
                mm(bay.mm()),
                mm(clear.mm())
            ),
            lengths,
        );
        return;
    }
    let fits = layout.rails.iter().map(|rail| fit_of(job, &rail.line, rails));
    match fits.reduce(worse) {
        None | Some(Fit::Free) => {}
        Some(Fit::Worked { lower, trim_head, trim_batten }) if foot > clear => out.add(
            &kinds::FOOT_BAY_TIGHT,
            "/covering",
            format!(
                "The foot is {} mm long and only {} mm are clear between the head of a tile and the \
                 next batten: {}.",
                mm(foot.mm()),
                mm(clear.mm()),
                work(lower, trim_head, trim_batten)
            ),
            lengths,
        ),
        Some(Fit::Worked { lower, trim_head, trim_batten }) => out.add(
            &kinds::FOOT_OFF_BAY,
            "/covering",
            format!(
                "With its bolt {} mm below the tail edge the arm leaves under, the foot does not \
                 stand free between tile and batten: {}.",
                mm(job.hook.bolt_beyond_exit.mm()),
                work(lower, trim_head, trim_batten)
            ),
            [
                ("lower_mm", number(mm(lower.mm()))),
                ("trim_head_mm", number(mm(trim_head.mm()))),
                ("trim_batten_mm", number(mm(trim_batten.mm()))),
            ],
        ),
        Some(Fit::Blocked { on_head, under_batten }) => blocked(job, on_head, under_batten, out),
    }
}

fn blocked(job: &Job, on_head: Length, under_batten: Length, out: &mut Warnings) {
    let (covering, hook) = (&job.covering, &job.hook);
    let mut params = vec![
        ("on_head_mm", number(mm(on_head.mm()))),
        ("under_batten_mm", number(mm(under_batten.mm()))),
    ];
    let meets =
        [(on_head, "on the head of the tile below"), (under_batten, "under the next batten")]
            .into_iter()
            .filter(|(overlap, _)| *overlap > Length::ZERO)
            .map(|(overlap, place)| format!("{} mm {place}", mm(overlap.mm())));
    let cure = match passage::fitting_reach(covering, hook.foot.length, hook.bolt_beyond_exit) {
        Some(reach) => {
            params.push(("fitting_reach_from_mm", number(mm(reach[0].mm()))));
            params.push(("fitting_reach_to_mm", number(mm(reach[1].mm()))));
            format!(
                "A hook with a reach of {} to {} mm would fit",
                mm(reach[0].mm()),
                mm(reach[1].mm())
            )
        }
        None => format!(
            "A foot of at most {} mm would fit",
            mm(passage::clear_bay(covering).max(Length::ZERO).mm())
        ),
    };
    out.add(
        &kinds::FOOT_BLOCKED,
        "/covering",
        format!(
            "The foot comes to stand {}, more than can be cut away: the hook cannot be fitted under \
             this covering. {cure}; this one has a reach of {} mm and a foot of {} mm.",
            meets.collect::<Vec<_>>().join(" and "),
            mm(hook.reach.mm()),
            mm(hook.foot.length.mm())
        ),
        params,
    );
}

/// What is to be done for the foot, as the rest of a sentence.
fn work(lower: Length, trim_head: Length, trim_batten: Length) -> String {
    let steps = [
        (lower, "set hooks and rail {} mm lower on the slope"),
        (trim_head, "cut {} mm off the head of the tile below"),
        (trim_batten, "cut {} mm out of the lower edge of the batten above it"),
    ];
    let needed = steps.into_iter().filter(|(length, _)| *length > Length::ZERO);
    let said = needed.map(|(length, step)| step.replace("{}", &mm(length.mm()).to_string()));
    said.collect::<Vec<_>>().join(", and ")
}

/// How the feet on a rail can be fitted.
fn fit_of(job: &Job, line: &RailLine, rails: Rails) -> Fit {
    let (covering, hook) = (&job.covering, &job.hook);
    let up = if line.on_grid {
        line.y + hook.reach - courses::tail_edge(covering, line.course)
    } else {
        hook.reach - hook.bolt_beyond_exit
    };
    let may_lower = match rails {
        Rails::Movable => room_below(job, line).min(passage::EXIT_EXTRA),
        Rails::Built => Length::ZERO,
    };
    passage::foot_room(covering, up, hook.foot.length).fit(covering, may_lower)
}

/// How much lower a rail may lie and still be inside the clamp zone; without bound where none is
/// known, which is said elsewhere.
fn room_below(job: &Job, line: &RailLine) -> Length {
    let field = &job.fields[line.field];
    let zones = rail_lines::clamp_zones(job, field);
    zones.map_or(Length::from_mm(f64::INFINITY), |zones| {
        let zone = zones[usize::from(line.position == Position::Upper)];
        let bottom = field.place(&job.module, line.row, line.columns[0]).y[0];
        (line.y - Length::from_mm(bottom) - zone[0]).max(Length::ZERO)
    })
}

/// The one of two that asks for more.
fn worse(a: Fit, b: Fit) -> Fit {
    let weight = |fit: &Fit| match fit {
        Fit::Free => (0, 0.0),
        Fit::Worked { lower, trim_head, trim_batten } => {
            (1, (*lower + *trim_head + *trim_batten).mm())
        }
        Fit::Blocked { on_head, under_batten } => (2, (*on_head + *under_batten).mm()),
    };
    if weight(&b) > weight(&a) { b } else { a }
}

/// Rails that run off the roof or into an obstacle.
fn rails_on_the_roof(job: &Job, layout: &Layout, out: &mut Warnings) {
    let half = job.rail.depth.mm() / 2.0;
    for (r, Rail { line, .. }) in layout.rails.iter().enumerate() {
        let rail = Rect {
            x: [line.start().mm(), line.end().mm()],
            y: [line.y.mm() - half, line.y.mm() + half],
        };
        let ends = || {
            [
                ("rail", text(&line.id)),
                ("start_mm", number(mm(line.start().mm()))),
                ("end_mm", number(mm(line.end().mm()))),
            ]
        };
        if !job.roof.outline.covers(&rail) {
            out.add(
                &kinds::RAIL_OFF_ROOF,
                format!("/rails/{r}"),
                format!(
                    "Rail {} from {} to {} mm runs beyond the edge of the slope.",
                    line.id,
                    mm(line.start().mm()),
                    mm(line.end().mm())
                ),
                ends(),
            );
        }
        for (i, _) in
            job.roof.obstacles.iter().enumerate().filter(|(_, o)| o.outline.overlaps(&rail))
        {
            out.add(
                &kinds::RAIL_OFF_ROOF,
                format!("/rails/{r}"),
                format!(
                    "Rail {} from {} to {} mm runs into obstacle {i}.",
                    line.id,
                    mm(line.start().mm()),
                    mm(line.end().mm())
                ),
                ends(),
            );
        }
    }
}

/// Feet that would stand off the slope or on an obstacle.
fn feet_on_the_roof(job: &Job, layout: &Layout, out: &mut Warnings) {
    /// Half the width of a line, mm.
    const AXIS: f64 = 0.5;
    let hook = &job.hook;
    let half = hook.foot.width.mm() / 2.0;
    let mut off = Vec::new();
    for (at, place) in layout.hooks() {
        let low = (layout.rails[at[0]].line.y + hook.reach).mm();
        let strip = |half: f64| Rect {
            x: [place.x.mm() - half, place.x.mm() + half],
            y: [low, low + hook.foot.length.mm()],
        };
        let on_obstacle = job.roof.obstacles.iter().any(|o| o.outline.overlaps(&strip(half)));
        // Its sides may stand out beyond a rafter at the verge; its axis may not.
        if on_obstacle || !job.roof.outline.covers(&strip(AXIS)) {
            off.push(hook_id(layout, at));
        }
    }
    if !off.is_empty() {
        let hooks = off.join(", ");
        out.add(
            &kinds::FOOT_OFF_ROOF,
            "/hooks",
            format!(
                "Hooks {hooks}: the foot, {} to {} mm up the slope from its rail, would stand beyond \
                 the edge of the slope or on an obstacle.",
                mm(hook.reach.mm()),
                mm((hook.reach + hook.foot.length).mm())
            ),
            [("hooks", text(hooks)), ("count", number(off.len() as f64))],
        );
    }
}
