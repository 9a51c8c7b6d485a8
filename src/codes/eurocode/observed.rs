//! Combinations of what was observed: nothing has a partial factor, and nothing accompanies.

use super::actions::{combination, drifted};
use super::annex::Annex;
use super::en1990_2002::{self as en1990, Action};
use crate::codes::Clause;
use crate::codes::vocabulary::{
    Combination, Direction, Factors, Sense, Situation, Snow, WindCase, WindField,
};
use crate::units::{Length, Pressure};

/// What strength is judged by.
const CLAUSE: Clause = Clause::new("EN 1990:2002", "6.4.3.2, Eq. (6.10), every factor 1");

/// Weight alone, snow, wind of every direction and sense, and both at once, for strength and for
/// serviceability. Snow may have fallen before the wind or after it, so each counts by itself as well:
/// either may relieve the other. Durations are those the annex gives snow and wind.
pub(super) fn combinations(
    annex: &Annex,
    altitude: Length,
    wind: &WindField,
    snow: &Snow,
) -> Vec<Combination> {
    let snowed = snow.ground.load > Pressure::ZERO;
    let blew = wind.peak.pressure > Pressure::ZERO;
    let mut out = Vec::new();
    for situation in [Situation::Persistent, Situation::Characteristic] {
        for row in rows(situation) {
            if row.factors.snow > 0.0 && !snowed {
                continue;
            }
            let Some(sense) = row.wind else {
                out.push(combination(annex, altitude, &row, None));
                continue;
            };
            let cases = Direction::ALL.map(|direction| WindCase { direction, sense });
            for case in cases.into_iter().filter(|case| blew && wind.acts(*case)) {
                out.push(combination(annex, altitude, &row, Some(case)));
            }
        }
    }
    for combination in out.iter_mut().filter(|c| c.situation == Situation::Persistent) {
        combination.id = combination.id.replacen("uls", "event", 1);
        combination.clause = CLAUSE;
    }
    for (i, arrangement) in snow.arrangements.iter().enumerate() {
        drifted(&mut out, i, arrangement.gathers);
    }
    out
}

fn rows(situation: Situation) -> [en1990::Combination; 6] {
    let row = |name, snow: bool, wind: Option<Sense>| en1990::Combination {
        name,
        situation,
        clause: en1990::clause(situation),
        wind,
        factors: Factors {
            permanent: 1.0,
            snow: f64::from(u8::from(snow)),
            exceptional_snow: 0.0,
            wind: f64::from(u8::from(wind.is_some())),
        },
        shortest: match (wind, snow) {
            (Some(_), _) => Action::Wind,
            (None, true) => Action::Snow,
            (None, false) => Action::Permanent,
        },
    };
    [
        row("G", false, None),
        row("G+S", true, None),
        row("G+W", false, Some(Sense::Pressing)),
        row("G-W", false, Some(Sense::Lifting)),
        row("G+S+W", true, Some(Sense::Pressing)),
        row("G+S-W", true, Some(Sense::Lifting)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What was seen to act is combined as it was seen: the weight, the snow and the wind with a factor
    /// of one where they take part.
    #[test]
    fn what_was_observed_is_not_multiplied() {
        for situation in [Situation::Persistent, Situation::Characteristic] {
            for row in rows(situation) {
                let Factors { permanent, snow, exceptional_snow, wind } = row.factors;
                assert_eq!((permanent, exceptional_snow), (1.0, 0.0), "{}", row.name);
                let part = |takes: bool| if takes { 1.0 } else { 0.0 };
                let wanted = (part(row.name.contains('S')), part(row.wind.is_some()));
                assert_eq!((snow, wind), wanted, "{}", row.name);
            }
        }
    }
}
