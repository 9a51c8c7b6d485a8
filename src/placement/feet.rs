//! Feet between tile and batten: what is to be done so that those of a rail stand free, and how much
//! lower the rail is set for it.

use crate::covering::courses;
use crate::covering::passage::{self, Fit};
use crate::units::Length;

use super::Job;
use super::laid::Rail;
use super::rail_lines::{self, Position, RailLine};
use super::search::Outcome;

/// How the feet on a rail can be fitted. A rail that stands stays where it is.
#[must_use]
pub fn fit(job: &Job, rail: &Rail) -> Fit {
    let (covering, hook, line) = (&job.covering, &job.hook, &rail.line);
    let up = if line.on_grid {
        line.y + hook.reach - courses::tail_edge(covering, line.course)
    } else {
        hook.reach - hook.bolt_beyond_exit
    };
    let is_built = rail.segments.iter().any(|laid| laid.found.outcome == Outcome::Given);
    let may_lower =
        if is_built { Length::ZERO } else { room_below(job, line).min(passage::EXIT_EXTRA) };
    passage::foot_room(covering, up, hook.foot.length).fit(covering, may_lower)
}

/// Where a rail is to be set: at its line or, where its feet need it, somewhat lower.
#[must_use]
pub fn set_at(job: &Job, rail: &Rail) -> Length {
    match fit(job, rail) {
        Fit::Worked { lower, .. } => rail.line.y - lower,
        Fit::Free | Fit::Blocked { .. } => rail.line.y,
    }
}

/// How much lower a rail may lie and still be inside the clamp zone; without bound where none is
/// known, which is found elsewhere.
fn room_below(job: &Job, line: &RailLine) -> Length {
    let field = &job.fields[line.field];
    let zones = rail_lines::clamp_zones(job, field);
    zones.map_or(Length::from_mm(f64::INFINITY), |zones| {
        let zone = zones[usize::from(line.position == Position::Upper)];
        let bottom = field.place(&job.module, line.row, line.columns[0]).y[0];
        (line.y - Length::from_mm(bottom) - zone[0]).max(Length::ZERO)
    })
}
