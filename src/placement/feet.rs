//! Feet between tile and batten: what is to be done so that those of a rail stand free.

use crate::covering::courses;
use crate::covering::passage::{self, Fit};
use crate::units::Length;

use super::Job;
use super::laid::{LaidSegment, Rail};
use super::line::Over;
use super::search::Outcome;

/// How the feet on a rail are fitted. What it is laid lower for them is in its height already; one that
/// stands stays where it is. Up the slope the foot of every hook that stands is looked at where it stands.
#[must_use]
pub fn fit(job: &Job, rail: &Rail) -> Fit {
    let (covering, hook, line) = (&job.covering, &job.hook, &rail.line);
    let fit = |up: Length, may_lower: Length| {
        passage::foot_room(covering, up, hook.foot.length).fit(covering, may_lower)
    };
    let drawn = hook.reach - hook.bolt_beyond_exit;
    match line.over {
        Over::Course(course) if line.on_grid => {
            let up = line.across + line.lowered + hook.reach - courses::tail_edge(covering, course);
            fit(up, line.lowered)
        }
        Over::Course(_) => fit(drawn, line.lowered),
        Over::Rails => Fit::Free,
        Over::Rafter(_) => {
            let is_built = |laid: &LaidSegment| laid.found.outcome == Outcome::Given;
            let hooks = rail.segments.iter().flat_map(|laid| {
                laid.hooks().map(move |place| (place, place.stands || is_built(laid)))
            });
            let fits = hooks.map(|(place, stands)| {
                if !stands {
                    return fit(drawn, line.lowered);
                }
                let exit = courses::tail_edge(covering, place.course);
                fit(line.height_at(place.at) + hook.reach - exit, Length::ZERO)
            });
            fits.reduce(worse).unwrap_or_else(|| fit(drawn, line.lowered))
        }
    }
}

/// The one of two that asks for more; of equals the first.
fn worse(one: Fit, other: Fit) -> Fit {
    if other.weight() > one.weight() { other } else { one }
}
