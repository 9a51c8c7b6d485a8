//! What was measured on the roof: which packers and slot settings make a straight rail with
//! enough clearance.
//!
//! **Model.** Along one rail each hook stands at `x_i`; its bearing face is `l_i` above a taut
//! string; between arm and tile below there is, unloaded, a clearance `c_i` with packers of
//! height `b_i` in place; the characteristic load moves the arm by `d_i` towards the tile. With a
//! new stack of height `p_i` and the bolt at `s_i` from the lower end of its slot of range `R`:
//!
//! ```text
//! c_i + p_i − b_i >= least clearance              unloaded
//! c_i + p_i − b_i − d_i >= 0                      under load: contact is the limit
//! r_i − (p_i − b_i) >= least room                 where the room r_i to the tile above is measured
//! l_i + p_i + s_i = a + m·x_i,  0 <= s_i <= R     the rail is straight
//! ```
//!
//! Chosen are the stacks with the least sum of heights, among those the fewest pieces, among
//! those the least sum of `|s_i − R/2|`. The bolt's own height above the packers is the same for
//! every hook and only shifts the rail. `packing.rs` states why the answer is exact.
//!
//! **Units.** Lengths are read to a millionth of a millimetre (positions along the rail to a
//! hundredth): far below any gauge, and from there on every comparison is exact.
//!
//! **Left out.** The rail is straight: that it could be bent to fit is not counted on. A packer
//! is as stiff as the timber.
//!
//! **Checked by** `tests/properties/survey.rs` (a general-purpose solver on random surveys; tilts,
//! mirrors, the constraints themselves).
//!
//! **Layer.** Beside placement: knows checks and hardware, nothing of requests.

mod conflict;
mod levelling;
mod packing;
mod reading;
mod remedies;

use crate::hardware::Packers;
use crate::units::Length;

use reading::{Read, Reading, height};

/// Most hooks on one rail.
pub const MOST_HOOKS: usize = 100;
/// Largest height or clearance, mm.
pub const LARGEST_HEIGHT_MM: f64 = 1000.0;
/// Largest position along a rail, mm.
pub const LARGEST_POSITION_MM: f64 = 1e6;
/// Steps of the search that are enough for any roof met so far.
pub const USUAL_LIMIT: usize = 10_000;

/// What was found along one rail, and what may be done about it.
#[derive(Debug, Clone)]
pub struct Survey {
    /// The hooks, in any order.
    pub hooks: Vec<Measured>,
    /// How far the bolt can be moved in its slot.
    pub slot_range: Length,
    /// Stock and limit of packers.
    pub packers: Packers,
    /// Least clearance between arm and tile below before any load.
    pub min_clearance: Length,
    /// Least room between arm and tile above.
    pub min_room_above: Length,
    /// Largest tilt of the rail against the string, rise over run; none if it does not matter.
    pub max_tilt: Option<f64>,
    /// Steps the search may take; see [`USUAL_LIMIT`].
    pub search_limit: usize,
}

/// One hook as found.
#[derive(Debug, Clone)]
pub struct Measured {
    /// Position along the rail.
    pub x: Length,
    /// Unloaded clearance to the tile below, with the packers in place.
    pub clearance: Option<Length>,
    /// How far the bearing face stands out above a string along the rail; negative below.
    pub level: Option<Length>,
    /// How far the characteristic load moves the arm towards the tile; `None` when the stiffness
    /// is not known, and clearance under load then stays unverified.
    pub deflection: Option<Length>,
    /// Room to the tile above, with the packers in place; `None` when it is not watched.
    pub room_above: Option<Length>,
    /// The packers in place.
    pub built: Vec<Length>,
}

/// What is to be done, or why nothing can be.
#[derive(Debug, Clone)]
pub enum Outcome {
    /// Packers and slots for every hook.
    Levelled(Levelled),
    /// No straight rail with enough clearance exists.
    Impossible(Impossible),
    /// The search limit ended the search before it found anything or a proof of nothing.
    Undecided,
    /// These are to be measured first.
    Incomplete(Vec<Missing>),
}

/// Packers and slots for every hook.
#[derive(Debug, Clone)]
pub struct Levelled {
    /// In the order of the survey.
    pub hooks: Vec<Setting>,
    /// Height of the rail's bolts above the string at `x = 0`, without the hook's own height.
    pub rail_at_origin: Length,
    /// Rise of the rail over its run, against the string.
    pub rail_tilt: f64,
    /// Sum of the stack heights.
    pub total: Length,
    /// Number of pieces.
    pub pieces: usize,
    /// Sum of the slots' distances from their middle.
    pub slot_deviation: Length,
    /// No other answer is better in the order of sum, pieces, slots.
    pub proven: bool,
    /// No answer has a lower sum.
    pub total_bound: Length,
    /// Steps the search took.
    pub steps: usize,
}

/// What to do at one hook.
#[derive(Debug, Clone)]
pub struct Setting {
    /// The stack, thickest first: the one in place where it is right already.
    pub packers: Vec<Length>,
    /// Its height.
    pub height: Length,
    /// The bolt in its slot, from the lower end.
    pub slot: Length,
    /// Clearance that remains before load.
    pub clearance: Length,
    /// Clearance that remains under load; `None` when the stiffness is not known.
    pub clearance_under_load: Option<Length>,
    /// Room that remains to the tile above, where it was measured.
    pub room_above: Option<Length>,
}

/// A measurement without which nothing can be said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Missing {
    /// Place of the hook in the survey.
    pub hook: usize,
    /// What to measure there.
    pub what: Measurement,
}

/// What can be missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measurement {
    /// Clearance between arm and tile below.
    Clearance,
    /// Bearing face against the string.
    Level,
}

/// Why there is no answer, and what would make one.
#[derive(Debug, Clone)]
pub struct Impossible {
    /// Why.
    pub reason: Reason,
    /// Each of these makes it possible by itself. May be empty; those the search limit left
    /// undecided are not named.
    pub remedies: Vec<Remedy>,
}

/// Why there is no answer. Hooks are places in the survey.
#[derive(Debug, Clone)]
pub enum Reason {
    /// At these hooks no stack gives enough clearance and leaves enough room.
    NoStack(Vec<NoStack>),
    /// No straight line passes the slots of these hooks, three at most, whatever their stacks.
    /// No part of them is in conflict this way.
    NotStraight {
        /// The rail would have to pass above these: they stand out too far.
        proud: Vec<usize>,
        /// And below these: their highest stack is too low.
        low: Vec<usize>,
        /// How much longer every slot would have to be for these hooks.
        by: Length,
    },
    /// The slot is shorter than the steps between stack heights, and no choice of stacks brings
    /// the bolts of these hooks into line; without any one of them one would, unless the search
    /// limit ended the thinning out.
    SlotShorterThanSteps {
        /// The hooks.
        hooks: Vec<usize>,
    },
}

/// A hook without a stack that does.
#[derive(Debug, Clone, Copy)]
pub struct NoStack {
    /// Place of the hook in the survey.
    pub hook: usize,
    /// Height its clearance needs.
    pub needed: Length,
    /// Highest stack that the stock, its limit and the room above allow; `None` when the room
    /// allows not even none.
    pub highest: Option<Length>,
}

impl NoStack {
    /// What its highest stack lacks.
    #[must_use]
    pub fn lacks(&self) -> Length {
        self.needed - self.highest.unwrap_or(Length::ZERO)
    }
}

/// A change that makes an answer possible.
#[derive(Debug, Clone, Copy)]
pub enum Remedy {
    /// Hooks whose slots are longer by this.
    LongerSlot {
        /// The least that will do.
        by: Length,
    },
    /// Stacks up to this height.
    HigherStack {
        /// The least that will do.
        to: Length,
    },
    /// Planing off what one foot bears on. It lowers the arm as well, so only where the clearance
    /// is more than enough.
    LowerFace {
        /// Place of the hook in the survey.
        hook: usize,
        /// The least that will do, in tenths of a millimetre.
        by: Length,
    },
}

/// A survey that cannot be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Unreadable {
    /// Without hooks there is no rail.
    #[error("the rail has no hooks")]
    NoHooks,
    /// More than [`MOST_HOOKS`].
    #[error("the rail has more than {MOST_HOOKS} hooks")]
    TooManyHooks,
    /// Not a number, or beyond [`LARGEST_HEIGHT_MM`] or [`LARGEST_POSITION_MM`].
    #[error("hook {0}: a value is not a number or out of range")]
    HookValue(usize),
    /// The same for slot, clearances or tilt, or a slot or tilt below zero.
    #[error("slot range, least clearances or largest tilt are not numbers or out of range")]
    Setting,
}

/// Chooses packers and slots for one rail.
///
/// # Errors
/// [`Unreadable`] when a value is not a number or beyond the ranges given there.
pub fn straighten(survey: &Survey) -> Result<Outcome, Unreadable> {
    let reading = match Reading::of(survey)? {
        Read::Complete(reading) => reading,
        Read::Lacking(missing) => return Ok(Outcome::Incomplete(missing)),
    };
    // Reason and remedies together may take as many steps again as the search.
    let mut steps = survey.search_limit;
    let reason = match reading.problem() {
        Ok(problem) => {
            let search = problem.solve(survey.search_limit);
            match search.best {
                Some(best) => {
                    let mut levelled = reading.settings(survey, &problem, &best);
                    levelled.proven = search.proven;
                    levelled.total_bound = height(search.bound);
                    levelled.steps = search.nodes;
                    return Ok(Outcome::Levelled(levelled));
                }
                None if !search.proven => return Ok(Outcome::Undecided),
                None => remedies::reason(&problem, &mut steps),
            }
        }
        Err(without) => Reason::NoStack(without),
    };
    let remedies = remedies::all(&reading, &reason, &mut steps);
    Ok(Outcome::Impossible(Impossible { reason, remedies }))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(value: f64) -> Length {
        Length::from_mm(value)
    }

    /// Position, clearance, level; a deflection of 2.5 mm, nothing built in.
    fn hooks(found: &[(f64, f64, f64)]) -> Vec<Measured> {
        let hook = |&(x, clearance, level): &(f64, f64, f64)| Measured {
            x: mm(x),
            clearance: Some(mm(clearance)),
            level: Some(mm(level)),
            deflection: Some(mm(2.5)),
            room_above: None,
            built: Vec::new(),
        };
        found.iter().map(hook).collect()
    }

    /// Common practice, no source: 5 mm of clearance, 3 mm to the tile above, 25 mm of height
    /// adjustment, stacks up to 20 mm without a closer look at the screws.
    fn usual(found: &[(f64, f64, f64)]) -> Survey {
        Survey {
            hooks: hooks(found),
            slot_range: mm(25.0),
            packers: Packers {
                thicknesses: [1.0, 2.0, 3.0, 5.0, 10.0].map(mm).to_vec(),
                max_stack: mm(20.0),
            },
            min_clearance: mm(5.0),
            min_room_above: mm(3.0),
            max_tilt: None,
            search_limit: USUAL_LIMIT,
        }
    }

    fn levelled(survey: &Survey) -> Levelled {
        match straighten(survey) {
            Ok(Outcome::Levelled(found)) => found,
            other => unreachable!("a solution was expected: {other:?}"),
        }
    }

    fn impossible(survey: &Survey) -> Impossible {
        match straighten(survey) {
            Ok(Outcome::Impossible(why)) => why,
            other => unreachable!("no solution was expected: {other:?}"),
        }
    }

    fn stacks(found: &Levelled) -> Vec<Vec<f64>> {
        let stack = |set: &Setting| set.packers.iter().map(|t| t.mm()).collect();
        found.hooks.iter().map(stack).collect()
    }

    fn close(one: Length, other: f64) -> bool {
        (one.mm() - other).abs() < 1e-6
    }

    #[test]
    fn five_millimetres_is_common_practice_and_packed_for() {
        let found = levelled(&usual(&[(0.0, 5.0, 0.0), (1500.0, 4.9, 0.0), (3000.0, 1.0, 0.0)]));
        assert_eq!(stacks(&found), [vec![], vec![1.0], vec![3.0, 1.0]]);
        assert!(found.proven && close(found.total, 5.0) && found.pieces == 3);
    }

    #[test]
    fn a_weak_hook_needs_more_than_the_common_five_millimetres() {
        let mut survey = usual(&[(0.0, 5.0, 0.0), (1500.0, 5.0, 0.0)]);
        survey.hooks[1].deflection = Some(mm(7.2));
        let found = levelled(&survey);
        assert_eq!(stacks(&found), [vec![], vec![3.0]]);
        assert!(found.hooks[1].clearance_under_load.is_some_and(|left| close(left, 0.8)));
    }

    #[test]
    fn twenty_five_millimetres_of_adjustment_is_common_practice_and_levels_that_much() {
        // One hook 25 mm below its neighbours: their bolts at the lower end, its own at the upper.
        let at = |low: f64| usual(&[(0.0, 5.0, 0.0), (1500.0, 5.0, low), (3000.0, 5.0, 0.0)]);
        let found = levelled(&at(-25.0));
        assert_eq!(found.pieces, 0);
        assert!(close(found.hooks[1].slot, 25.0) && close(found.hooks[0].slot, 0.0));
        // A tenth more and a packer must help.
        assert_eq!(stacks(&levelled(&at(-25.1))), [vec![], vec![1.0], vec![]]);
    }

    #[test]
    fn the_common_stack_limit_ends_what_packers_can_level() {
        // Common practice, no source: 10 mm to 20 mm.
        for limit in [10.0, 20.0] {
            let at = |low: f64| {
                let mut survey = usual(&[(0.0, 5.0, 0.0), (1500.0, 5.0, low), (3000.0, 5.0, 0.0)]);
                survey.packers.max_stack = mm(limit);
                survey
            };
            assert!(close(levelled(&at(-25.0 - limit)).total, limit));
            let why = impossible(&at(-26.5 - limit));
            let Reason::NotStraight { proud, low, by } = &why.reason else {
                unreachable!("a bent line was expected: {why:?}")
            };
            assert_eq!((proud.as_slice(), low.as_slice()), ([0, 2].as_slice(), [1].as_slice()));
            assert!(close(*by, 1.5));
            let longer = why
                .remedies
                .iter()
                .any(|remedy| matches!(remedy, Remedy::LongerSlot { by } if close(*by, 1.5)));
            let higher = why.remedies.iter().any(
                |remedy| matches!(remedy, Remedy::HigherStack { to } if close(*to, limit + 2.0)),
            );
            assert!(longer && higher, "{why:?}");
        }
    }

    #[test]
    fn a_proud_face_is_planed_only_where_the_clearance_allows() {
        let at = |clearance: f64| {
            impossible(&usual(&[(0.0, 5.0, 0.0), (1000.0, clearance, 46.04), (2000.0, 5.0, 0.0)]))
        };
        let planed = |why: &Impossible| {
            why.remedies.iter().find_map(|remedy| match remedy {
                Remedy::LowerFace { hook: 1, by } => Some(*by),
                _ => None,
            })
        };
        assert!(planed(&at(7.0)).is_some_and(|by| close(by, 1.1)), "46.04 - 20 - 25, in tenths");
        assert!(planed(&at(5.0)).is_none(), "no clearance to spare");
    }

    #[test]
    fn too_little_room_above_leaves_no_stack() {
        let mut survey = usual(&[(0.0, 2.0, 0.0), (1500.0, 5.0, 0.0)]);
        survey.hooks[0].room_above = Some(mm(5.5));
        let why = impossible(&survey);
        let Reason::NoStack(none) = &why.reason else {
            unreachable!("no stack was expected: {why:?}")
        };
        assert_eq!(none.len(), 1);
        assert!(none[0].hook == 0 && close(none[0].needed, 3.0));
        assert!(none[0].highest.is_some_and(|highest| close(highest, 2.0)));
        assert!(why.remedies.is_empty(), "{why:?}");
    }

    #[test]
    fn a_stack_that_is_right_stays() {
        let mut survey = usual(&[(0.0, 5.0, 0.0)]);
        survey.hooks[0].built = [4.0, 2.0].map(mm).to_vec();
        assert_eq!(stacks(&levelled(&survey)), [vec![4.0, 2.0]], "6 mm of two pieces as well");
        survey.hooks[0].built = [1.0, 1.0].map(mm).to_vec();
        assert_eq!(stacks(&levelled(&survey)), [vec![2.0]], "one piece does");
    }

    #[test]
    fn what_was_not_measured_is_asked_for() {
        let mut survey = usual(&[(0.0, 5.0, 0.0), (1500.0, 5.0, 0.0)]);
        survey.hooks[0].level = None;
        survey.hooks[1].level = None;
        survey.hooks[1].clearance = None;
        let Ok(Outcome::Incomplete(missing)) = straighten(&survey) else {
            unreachable!("something is missing")
        };
        let missing: Vec<_> = missing.iter().map(|m| (m.hook, m.what)).collect();
        let level = Measurement::Level;
        assert_eq!(missing, [(0, level), (1, Measurement::Clearance), (1, level)]);
    }

    #[test]
    fn an_unknown_stiffness_is_not_taken_for_none() {
        let mut survey = usual(&[(0.0, 5.0, 0.0)]);
        survey.hooks[0].deflection = None;
        assert!(levelled(&survey).hooks[0].clearance_under_load.is_none());
    }

    #[test]
    fn a_search_cut_short_says_so() {
        let bent: Vec<_> =
            (0..12_u8).map(|i| (f64::from(i) * 900.0, 3.0, 6.0 * f64::from(i % 4))).collect();
        let mut survey = usual(&bent);
        survey.slot_range = mm(8.0);
        let best = levelled(&survey);
        survey.search_limit = 2;
        let cut = levelled(&survey);
        assert!(best.proven && best.total == best.total_bound, "{best:?}");
        assert!(!cut.proven && cut.total_bound <= best.total && cut.total >= best.total);
    }

    #[test]
    fn a_survey_that_cannot_be_read_is_refused() {
        let mut survey = usual(&[(0.0, 5.0, 0.0)]);
        survey.hooks[0].clearance = Some(mm(f64::NAN));
        assert_eq!(straighten(&survey).err(), Some(Unreadable::HookValue(0)));
        survey.hooks[0].clearance = Some(mm(1000.5));
        assert_eq!(straighten(&survey).err(), Some(Unreadable::HookValue(0)));
        let many = hooks(&[(0.0, 5.0, 0.0); MOST_HOOKS + 1]);
        assert_eq!(
            straighten(&Survey { hooks: many, ..survey.clone() }).err(),
            Some(Unreadable::TooManyHooks)
        );
        assert_eq!(
            straighten(&Survey { hooks: vec![], ..survey.clone() }).err(),
            Some(Unreadable::NoHooks)
        );
        survey = Survey { slot_range: mm(-1.0), ..usual(&[(0.0, 5.0, 0.0)]) };
        assert_eq!(straighten(&survey).err(), Some(Unreadable::Setting));
    }

    /// A barn roof: eight hooks of one rail over uneven rafters.
    #[test]
    fn the_barn_is_levelled() {
        let survey = usual(&[
            (862.0, 2.5, 0.0),
            (2431.0, 6.0, 4.5),
            (3970.0, 5.0, 9.0),
            (5540.0, 3.0, -6.0),
            (7090.0, 4.0, -11.5),
            (8655.0, 5.5, -4.0),
            (10205.0, 7.5, 2.0),
            (10975.0, 5.0, 6.0),
        ]);
        let found = levelled(&survey);
        assert!(found.proven && close(found.total, found.total_bound.mm()));
        for set in &found.hooks {
            assert!(set.clearance >= mm(5.0), "{set:?}");
            assert!(set.clearance_under_load.is_some_and(|left| left >= Length::ZERO), "{set:?}");
            assert!(set.slot >= Length::ZERO && set.slot <= survey.slot_range, "{set:?}");
        }
        // Only where the clearance asks for it: the slots level the rest.
        let expected: [&[f64]; 8] = [&[3.0], &[], &[], &[2.0], &[1.0], &[], &[], &[]];
        assert_eq!(stacks(&found), expected);
    }
}
