//! Room to move: the stretch along a rail along the eaves in which one hook may stand, all others where they were set out, so
//! that every check still passes. On the roof a rafter is rarely where it was drawn; this says how far off it may
//! be before the job has to be computed again.
//!
//! **Method.** From its place the hook goes outward in steps of [`STEP`] until it cannot stand or a check does
//! not pass, and back from there by single millimetres. Utilisations do not rise steadily with the place of a
//! hook, so every step between is a check of its own; what lies within a step is taken to pass where both its
//! ends do. Nothing is tried beyond [`REACH`].
//!
//! Hooks under rails up the slope stand where courses end, and have no such room.
//!
//! **Units.** Lengths along the eaves.
//!
//! **Checked by** `tests/api/room_to_move.rs`: by rechecks with the hook on either side of the ends.

use crate::checks::Check;
use crate::effort::Allowance;
use crate::units::Length;

use super::laid::{Layout, Rail};
use super::moved::{self, Obstacle};
use super::{Job, rafters};

/// How far outward a hook is tried.
pub const REACH: Length = Length::from_mm(100.0);

/// Steps in which it goes outward.
pub const STEP: Length = Length::from_mm(5.0);

/// The room of one hook.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// Rail, segment and hook.
    pub hook: [usize; 3],
    /// Towards either end of the rail.
    pub ways: [Way; 2],
}

/// How far a hook may go one way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Way {
    /// From its place.
    pub far: Length,
    /// What it meets a millimetre further; `None` where it was tried no further.
    pub meets: Option<Obstacle>,
}

/// The room of every hook of a layout that passes; of no more hooks once the steps are spent, which the second
/// says.
#[must_use]
pub fn rooms(job: &Job, layout: &Layout, allowance: &mut Allowance) -> (Vec<Room>, bool) {
    let mut rails = layout.rails.clone();
    let mut out = Vec::new();
    for (hook, _) in layout.hooks() {
        let mut asked = Asked { job, layout, rails: &mut rails, hook, allowance };
        let ways = [-1.0, 1.0].map(|sign| asked.way(sign));
        if allowance.is_spent() {
            return (out, false);
        }
        out.push(Room { hook, ways });
    }
    (out, true)
}

struct Asked<'a> {
    job: &'a Job,
    layout: &'a Layout,
    rails: &'a mut [Rail],
    hook: [usize; 3],
    allowance: &'a mut Allowance,
}

impl Asked<'_> {
    fn way(&mut self, sign: f64) -> Way {
        let mut far = Length::ZERO;
        while far < REACH {
            let next = far + STEP;
            if let Err(met) = self.stands(next * sign) {
                return self.back(far, (next, met), sign);
            }
            far = next;
        }
        Way { far, meets: None }
    }

    /// The last millimetre that passes before the first that does not.
    fn back(
        &mut self,
        mut far: Length,
        (mut beyond, mut met): (Length, Obstacle),
        sign: f64,
    ) -> Way {
        let millimetre = Length::from_mm(1.0);
        while far + millimetre < beyond {
            match self.stands((far + millimetre) * sign) {
                Ok(()) => far += millimetre,
                Err(obstacle) => (beyond, met) = (far + millimetre, obstacle),
            }
        }
        Way { far, meets: Some(met) }
    }

    fn stands(&mut self, by: Length) -> Result<(), Obstacle> {
        let [r, s, h] = self.hook;
        let laid = &self.layout.rails[r].segments[s];
        let mut moves = vec![Length::ZERO; laid.found.subset.len()];
        moves[h] = by;
        self.allowance.spend((moves.len() * laid.segment.cases.len()) as u64);
        let with = moved::segment(self.job, self.layout, [r, s], &moves)?;
        moved::passes(self.job, &with)?;
        let (job, layout) = (self.job, self.layout);
        let under: Vec<usize> = with.hooks().map(|hook| hook.rafter).collect();
        let within = moved::with_segments(self.rails, vec![([r, s], with)], |rails| {
            let on = |rafter: usize| under.contains(&rafter);
            let allowed = |used: f64| job.wishes.allow(used);
            rafters::are_within(job, &layout.footings, (rails, &layout.modules), on, allowed)
        });
        if within { Ok(()) } else { Err(Obstacle::Check(Check::Rafter)) }
    }
}
