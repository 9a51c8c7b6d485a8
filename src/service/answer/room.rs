//! How far hooks may stand from where they are set out, as the answer shows it.

use crate::assessment::Utilisation;
use crate::language::{self, Reader};
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::placement::moved::Obstacle;
use crate::placement::rafters_off::RaftersOff;
use crate::placement::room::{Room, Way};
use crate::service::rounding::mm;
use crate::units::Length;
use crate::wire::room::{HookRoom, RaftersOffAnswer, RoomStop, RoomWay};

use super::elements;
use super::worst::{Element, Worst};
use crate::service::wording;

/// Writes the room of a hook.
#[must_use]
pub fn hook(layout: &Layout, room: &Room) -> HookRoom {
    let [r, s, h] = room.hook;
    let laid = &layout.rails[r].segments[s];
    let place = &laid.segment.candidates[laid.found.subset[h]];
    let [left, right] = room.ways;
    HookRoom {
        hook: elements::hook_id(layout, room.hook),
        left: way(left, place.x - left.far),
        right: way(right, place.x + right.far),
    }
}

fn way(way: Way, at: Length) -> RoomWay {
    let check = match way.meets {
        Some(Obstacle::Check(check)) => Some(check.name().to_owned()),
        _ => None,
    };
    let stop = way.meets.map_or(RoomStop::NotTried, stop);
    RoomWay { by_mm: mm(way.far.mm()), at_mm: mm(at.mm()), stop, check }
}

const fn stop(met: Obstacle) -> RoomStop {
    match met {
        Obstacle::Check(_) => RoomStop::Check,
        Obstacle::Tipping => RoomStop::Tipping,
        Obstacle::ScrewEdge => RoomStop::ScrewEdge,
        Obstacle::NoTrough => RoomStop::NoTrough,
        Obstacle::RailEnd => RoomStop::RailEnd,
        Obstacle::FreeEnd => RoomStop::FreeEnd,
        Obstacle::NextHook => RoomStop::NextHook,
    }
}

/// Writes what rafters that are off come to, for a reader.
#[must_use]
pub fn rafters_off(
    (job, layout): (&Job, &Layout),
    tolerance: Length,
    off: &RaftersOff,
    reader: Reader,
) -> RaftersOffAnswer {
    let worst = off.worst.map(|worst| Worst {
        used: worst.governing.utilisation,
        element: Element::of(job, layout, worst.element),
        check: worst.check,
        combination: worst.governing.combination,
    });
    let rail = off.obstacle.map(|([rail, _], _)| layout.rails[rail].line.id.clone());
    let passes = off.passes(job);
    let every_choice = off.every && off.complete;
    let tips = off.obstacle.is_some_and(|(_, met)| met == Obstacle::Tipping);
    let message = match (&rail, &worst) {
        (Some(rail), _) if tips => language::room::tips(tolerance, rail, reader),
        (Some(rail), _) => language::room::cannot_stand(tolerance, rail, reader),
        (None, Some(worst)) => {
            let element = wording::element(&worst.element, reader.language.words());
            let used = (&*element, worst.check, Utilisation::new(worst.used));
            let is_allowed = passes != Some(false);
            language::room::rafters_off(tolerance, used, (is_allowed, every_choice), reader)
        }
        (None, None) => language::room::not_tried(tolerance, reader),
    };
    RaftersOffAnswer {
        tolerance_mm: mm(tolerance.mm()),
        passes,
        every_choice,
        tried: off.tried,
        worst: worst.map(|worst| worst.answer(job)),
        rail,
        stop: off.obstacle.map(|(_, met)| stop(met)),
        message,
    }
}
