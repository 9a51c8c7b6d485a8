//! The mechanics by number: what an answer computed by one of them has that an earlier one has not.

use crate::wire::recheck::DifferenceCause;

/// Number of the mechanics of this service: it goes up with every change that can change a figure.
pub const MODEL: u32 = 10;

/// What the mechanics have had since each number, of what was changed twice the last. The first is that of
/// answers without a number.
const SINCE: [(u32, DifferenceCause); 15] = [
    (2, DifferenceCause::LoadedArea),
    (2, DifferenceCause::WindPatches),
    (2, DifferenceCause::LoadHeight),
    (2, DifferenceCause::SnowDrifts),
    (2, DifferenceCause::FootBearing),
    (2, DifferenceCause::ThreadInRafter),
    (2, DifferenceCause::SlotSetting),
    (2, DifferenceCause::ArmAsBar),
    (3, DifferenceCause::WindWithoutSnow),
    (7, DifferenceCause::FootTurns),
    (6, DifferenceCause::LeastClearance),
    (9, DifferenceCause::RailBesideHook),
    (7, DifferenceCause::RailOverTile),
    (8, DifferenceCause::WindWithinOutline),
    (10, DifferenceCause::ModulesAtRailEnds),
];

/// What has changed in the mechanics since those of a number; nothing since later ones, which are not
/// known here.
pub fn since(model: u32) -> impl Iterator<Item = DifferenceCause> {
    SINCE.into_iter().filter(move |(number, _)| *number > model).map(|(_, cause)| cause)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_has_changed_since_the_mechanics_of_today() {
        assert_eq!(since(MODEL).count(), 0);
        assert_eq!(since(MODEL + 1).count(), 0);
        assert_eq!(since(1).count(), SINCE.len());
        assert_eq!(SINCE.iter().map(|(number, _)| *number).max(), Some(MODEL));
    }
}
