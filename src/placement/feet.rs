//! Feet between tile and batten: what is to be done so that those of a rail stand free.

use crate::covering::courses;
use crate::covering::passage::{self, Fit};

use super::Job;
use super::laid::Rail;
use super::line::Over;

/// How the feet on a rail are fitted. What it is laid lower for them is in its height already; one that
/// stands stays where it is.
#[must_use]
pub fn fit(job: &Job, rail: &Rail) -> Fit {
    let (covering, hook, line) = (&job.covering, &job.hook, &rail.line);
    let up = match line.over {
        Over::Course(course) if line.on_grid => {
            line.across + line.lowered + hook.reach - courses::tail_edge(covering, course)
        }
        Over::Course(_) | Over::Rafter(_) => hook.reach - hook.bolt_beyond_exit,
    };
    passage::foot_room(covering, up, hook.foot.length).fit(covering, line.lowered)
}
