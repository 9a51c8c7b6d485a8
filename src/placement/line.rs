//! Where one rail is laid, before it has ends.

use crate::covering::passage::{self, Fit};
use crate::units::Length;

use super::Job;

/// How far a rail that stands may lie from where its arms would leave and still count as on its line: about
/// what a slotted arm and uneven battens take up (common practice, no source).
pub const OFF_LINE: Length = Length::from_mm(10.0);

/// What a rail line follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Over {
    /// Along the eaves: its arms leave under this course.
    Course(i64),
    /// Up the slope: its hooks stand on this rafter.
    Rafter(usize),
    /// Along the eaves on lower rails up the slope, wherever its modules want it.
    Rails,
}

impl Over {
    /// The rafter of a rail up the slope.
    #[must_use]
    pub const fn rafter(self) -> Option<usize> {
        match self {
            Self::Rafter(rafter) => Some(rafter),
            Self::Course(_) | Self::Rails => None,
        }
    }
}

/// Where a rail is laid.
#[derive(Debug, Clone, Copy)]
pub struct Line {
    /// See [`RailLine::across`](super::rail_lines::RailLine::across).
    pub across: Length,
    /// What it follows.
    pub over: Over,
    /// It does, inside the clamp zone.
    pub on_grid: bool,
    /// See [`RailLine::lowered`](super::rail_lines::RailLine::lowered).
    pub lowered: Length,
}

/// How much lower a rail is laid so that its feet stand free, with so much room below it.
#[must_use]
pub fn lowered(job: &Job, room_below: Length) -> Length {
    let may_lower = room_below.max(Length::ZERO).min(passage::EXIT_EXTRA);
    let up = job.hook.reach - job.hook.bolt_beyond_exit;
    match passage::foot_room(&job.covering, up, job.hook.foot.length).fit(&job.covering, may_lower)
    {
        Fit::Worked { lower, .. } => lower,
        Fit::Free | Fit::Blocked { .. } => Length::ZERO,
    }
}
