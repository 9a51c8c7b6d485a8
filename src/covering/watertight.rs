//! At what pitch a covering keeps the water out, and what has to help it below that.
//!
//! **Model.** Down to its rule pitch a covering is proof against rain by itself. Below that an underlay has
//! to be, of a class that rises with what the pitch lacks, down to a least pitch at which the covering may
//! not be laid at all.
//!
//! **Left out.** Requirements beside the pitch: length of the rafters, exposed places, use of the attic.
//! The array is one of them by itself; the classes here are those for two or three.
//!
//! **Evidence.** The rules of the German roofers' guild as quoted by trade encyclopedias; the rules
//! themselves were not seen. Checked by unit tests against the figures they quote.

use crate::units::Angle;

/// What rule pitches rest on that nobody gives.
pub const PRACTICE: &str = "common practice: rules of the German roofers' guild and tables of slaters, as quoted by trade encyclopedias";

/// Whether one pitch is less than another by more than the rounding of degrees.
#[must_use]
pub fn is_flatter(pitch: Angle, than: Angle) -> bool {
    pitch.deg() < than.deg() - 1e-9
}

/// What kind of covering it is, as far as water is concerned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sheds {
    /// Flat tiles, double-lap or crown.
    FlatTile,
    /// Slates.
    Slate,
    /// Tiles that interlock.
    InterlockingTile,
}

impl Sheds {
    /// The usual rule pitch of such coverings, and the steepest of any: between them the tile decides.
    ///
    /// Flat tiles 30° for both ways of laying, and interlocking tiles 22° to 35° by their interlock, by the
    /// German guild's rules of 2006 as a trade encyclopedia quotes them; flat tiles 35° by the British
    /// association of makers; rectangular slates laid double 22° by the German association of slaters, up
    /// to 30° in Britain where laps are short.
    #[must_use]
    pub const fn usual_rule_pitch(self) -> [Angle; 2] {
        let [usual, steepest] = match self {
            Self::FlatTile => [30.0, 35.0],
            Self::Slate => [22.0, 30.0],
            Self::InterlockingTile => [22.0, 35.0],
        };
        [Angle::from_deg(usual), Angle::from_deg(steepest)]
    }

    /// The flattest pitch at which a covering of this rule pitch may be laid.
    ///
    /// Tiles: 12° below it, and 10° in any case. Slates: 10° below it, on a watertight sub-roof. The German
    /// guild's rules, as quoted by a trade encyclopedia and a glossary of building.
    #[must_use]
    pub fn least_pitch(self, rule: Angle) -> Angle {
        Angle::from_deg(match self {
            Self::FlatTile | Self::InterlockingTile => f64::max(rule.deg() - 12.0, 10.0),
            Self::Slate => rule.deg() - 10.0,
        })
    }

    /// Class of the underlay such a covering needs at a pitch below its rule pitch: 1 is the tightest.
    ///
    /// Tiles: 3 down to 8° below the rule pitch, 2 down to 12°, and 1 below 14°, for 2 and 3 are made for
    /// roofs as steep as that. Slates: 1. As quoted, like [`Self::least_pitch`]; 2 from 8° on where an
    /// underlay will not do and a sub-roof has to.
    #[must_use]
    pub fn underlay_needed(self, pitch: Angle, rule: Angle) -> u32 {
        let from_14 = !is_flatter(pitch, Angle::from_deg(14.0));
        let within_8 = !is_flatter(pitch, Angle::from_deg(rule.deg() - 8.0));
        match self {
            Self::FlatTile | Self::InterlockingTile if from_14 => 2 + u32::from(within_8),
            Self::FlatTile | Self::InterlockingTile | Self::Slate => 1,
        }
    }
}

/// What keeps the water out of a slope, resolved.
#[derive(Debug, Clone)]
pub struct Watertight {
    /// What kind of covering it is.
    pub sheds: Sheds,
    /// The rule pitch that governs.
    pub rule: Angle,
    /// The least pitch that governs.
    pub least: Angle,
    /// Whose they are.
    pub by: RulePitchBy,
    /// The document, as the caller names it; `None` where they are assumed.
    pub source: Option<String>,
    /// The contract that agrees the maker's pitch, where that is lower than the guild's.
    pub agreed_in: Option<String>,
    /// A rule pitch of the maker that would govern if it were agreed.
    pub lower_of_maker: Option<Angle>,
    /// The underlay: its class, and where that is known from.
    pub underlay: Option<(u32, String)>,
    /// How hooks pass through the covering.
    pub passage: Passage,
}

impl Watertight {
    /// Class of the underlay needed at a pitch; `None` where none is, and where none would do.
    #[must_use]
    pub fn underlay_needed(&self, pitch: Angle) -> Option<u32> {
        let between = is_flatter(pitch, self.rule) && !is_flatter(pitch, self.least);
        between.then(|| self.sheds.underlay_needed(pitch, self.rule))
    }
}

/// Whose a rule pitch is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RulePitchBy {
    /// That of the trade's rules.
    Guild,
    /// That of the maker.
    Maker,
    /// Nobody's: common practice.
    Practice,
}

/// How hooks pass through the covering.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Passage {
    /// Through the laps.
    Headlap,
    /// Through a part that fits many tiles.
    UniversalPart,
    /// Through a part made for this tile.
    SystemPart,
}

impl Passage {
    /// Whether it may be used on a roof flatter than the rule pitch: only what fits like the tile itself. The
    /// German guild's rules of 2024, as quoted by a trade encyclopedia.
    #[must_use]
    pub const fn may_lie_flatter(self) -> bool {
        matches!(self, Self::SystemPart)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn deg(of: f64) -> Angle {
        Angle::from_deg(of)
    }

    /// A trade encyclopedia, page on the guild's rules for tiles: classes rise in steps of 4° below the rule
    /// pitch, at most 12° of them, in no case below 10°; its page on raised requirements: class 3 will do to
    /// 4° with two further requirements and to 8° with up to three, and no underlay to 12°. Its table of
    /// classes: 1 from 10°, 2 and 3 from 14°.
    #[test]
    fn underlays_are_those_of_the_guild() {
        let tile = Sheds::FlatTile;
        for (pitch, class) in [(29.0, 3), (26.0, 3), (22.0, 3), (21.9, 2), (18.0, 2)] {
            assert_eq!(tile.underlay_needed(deg(pitch), deg(30.0)), class, "{pitch}");
        }
        let flat = Sheds::InterlockingTile;
        for (pitch, class) in [(18.0, 3), (14.0, 3), (13.9, 1), (10.0, 1)] {
            assert_eq!(flat.underlay_needed(deg(pitch), deg(22.0)), class, "{pitch}");
        }
        for (rule, least) in [(30.0, 18.0), (22.0, 10.0), (20.0, 10.0)] {
            assert!((tile.least_pitch(deg(rule)).deg() - least).abs() < 1e-9, "{rule}");
        }
    }

    /// A glossary of building: slates laid double have a rule pitch of 22° and a least pitch of 12°, on a
    /// watertight sub-roof; others 25° and 15°, 30° and 20°.
    #[test]
    fn slates_go_ten_degrees_lower_on_a_watertight_roof() {
        for (rule, least) in [(22.0, 12.0), (25.0, 15.0), (30.0, 20.0)] {
            assert!((Sheds::Slate.least_pitch(deg(rule)).deg() - least).abs() < 1e-9, "{rule}");
        }
        assert_eq!(Sheds::Slate.underlay_needed(deg(21.0), deg(22.0)), 1);
    }
}
