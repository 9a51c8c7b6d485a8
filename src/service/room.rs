//! How far hooks may stand from where they are set out, and whether a layout bears rafters that are off.

use crate::assessment::Verdict;
use crate::effort::{Allowance, Effort};
use crate::language::Reader;
use crate::placement::rafters_off::rafters_off;
use crate::placement::room::rooms;
use crate::units::Length;
use crate::wire::layout::LayoutRequest;
use crate::wire::room::RoomToMove;

use super::answer;
use super::laying::Laid;

/// The room of every hook; `None` where nobody asks. What rafters that are off come to is looked at first: it
/// takes less.
#[must_use]
pub fn found(
    request: &LayoutRequest,
    laid: &Laid,
    effort: &Effort,
    reader: Reader,
) -> Option<RoomToMove> {
    let wanted = request.room_to_move.as_ref()?;
    let (job, layout) = (laid.job(), &laid.layout);
    if laid.assessed.verdict() == Verdict::Fails {
        return Some(RoomToMove { complete: true, hooks: Vec::new(), rafters_off: None });
    }
    let mut left = Allowance::from(effort);
    left.spend(laid.took.steps);
    let off = wanted.tolerance_mm.map(|tolerance| {
        let tolerance = Length::from_mm(tolerance);
        (tolerance, rafters_off(job, layout, tolerance, &mut left))
    });
    let (rooms, all) = rooms(job, layout, &mut left);
    Some(RoomToMove {
        complete: all && off.as_ref().is_none_or(|(_, off)| off.complete),
        hooks: rooms.iter().map(|room| answer::room::hook(layout, room)).collect(),
        rafters_off: off
            .map(|(by, off)| answer::room::rafters_off((job, layout), by, &off, reader)),
    })
}
