//! 7.2.1 and 7.2.5: external pressure coefficients of a duopitch roof.
//!
//! **Model.** Each zone has a suction set and a pressure set; a face is checked with one or the
//! other, never a mixture. Where the table prints no value for a set, that set does not exist and
//! is written `0.0` here: no load of that sign.
//!
//! **Signs.** Negative lifts, positive presses.
//!
//! **Checked by** `tests/reference/cases/en1991_1_4/` (a public library and printed examples).

use super::duopitch::Zone;
use super::tables::RoofTables;
use crate::codes::vocabulary::{Coefficients, Direction};
use crate::codes::{Clause, NotCovered};
use crate::units::{Angle, Area};

/// Which of the two tables of a duopitch roof applies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WindAngle {
    /// `θ = 0°`, across the ridge: Table 7.4a.
    AcrossRidge,
    /// `θ = 90°`, along the ridge: Table 7.4b.
    AlongRidge,
}

/// Coefficients of one zone of a face for the wind from one direction.
///
/// EN 1991-1-4:2005, 7.2.5, Tables 7.4a and 7.4b, as [`roof_coefficients`]; front and back read
/// the first, the gable ends the second.
///
/// Confirmed: as [`roof_coefficients`].
///
/// # Errors
/// [`NotCovered`] outside pitches of 5° to 75° and for a zone this direction does not have.
pub fn duopitch(
    tables: &RoofTables,
    direction: Direction,
    zone: Zone,
    pitch: Angle,
    loaded_area: Area,
) -> Result<Coefficients, NotCovered> {
    let (clause, angle, present) = match direction {
        Direction::Front => {
            let windward = matches!(zone, Zone::F | Zone::G | Zone::H);
            ("Table 7.4a", WindAngle::AcrossRidge, windward)
        }
        Direction::Back => {
            ("Table 7.4a", WindAngle::AcrossRidge, matches!(zone, Zone::I | Zone::J))
        }
        Direction::Left | Direction::Right => {
            ("Table 7.4b", WindAngle::AlongRidge, zone != Zone::J)
        }
    };
    let clause = Clause::new(tables.document, clause);
    clause.covers(present, "the zone lies on this face for this wind direction")?;
    let pitched = pitch >= Angle::from_deg(5.0) && pitch <= Angle::from_deg(75.0);
    clause.covers(pitched, "5 deg <= pitch <= 75 deg")?;
    roof_coefficients(tables, angle, zone, pitch, loaded_area)
}

/// Coefficients of one zone of a duopitch or trough roof.
///
/// EN 1991-1-4:2005, 7.2.5, Tables 7.4a and 7.4b; negative pitches are troughs. Linear between
/// tabulated pitches within a set: the standard allows this between values of the same sign, and
/// prints zeros so that it can be done. Where a set begins or ends (no suction on the windward face
/// from 45°, no pressure on the leeward one) its neighbour in the table is such a zero, so writing
/// the absent set as `0.0` neither adds nor removes load. Only the trough's leeward pressure set
/// between -15° and -5° begins without a printed zero; fading it in is a judgement.
///
/// Confirmed: the tables by five transcriptions, the interpolation by three sources.
///
/// # Errors
/// [`NotCovered`] for pitches beyond -45° and 75° and between -5° and 5° (a flat roof), and for
/// zone J with the wind along the ridge.
pub fn roof_coefficients(
    tables: &RoofTables,
    angle: WindAngle,
    zone: Zone,
    pitch: Angle,
    loaded_area: Area,
) -> Result<Coefficients, NotCovered> {
    let (number, table) = match angle {
        WindAngle::AcrossRidge => ("Table 7.4a", tables.duopitch_across),
        WindAngle::AlongRidge => ("Table 7.4b", tables.duopitch_along),
    };
    let clause = Clause::new(tables.document, number);
    let exists = angle == WindAngle::AcrossRidge || zone != Zone::J;
    clause.covers(exists, "the table has this zone")?;
    let tabulated = (pitch >= Angle::from_deg(-45.0) && pitch <= Angle::from_deg(-5.0))
        || (pitch >= Angle::from_deg(5.0) && pitch <= Angle::from_deg(75.0));
    let outside = "-45 deg <= pitch <= -5 deg or 5 deg <= pitch <= 75 deg";
    clause.covers(tabulated, outside)?;

    let column = match zone {
        Zone::F => 0,
        Zone::G => 1,
        Zone::H => 2,
        Zone::I => 3,
        Zone::J => 4,
    };
    let bracket = table.windows(2).find_map(|pair| match pair {
        [(from, low), (to, high)] if pitch <= Angle::from_deg(*to) => {
            let share = ((pitch.deg() - from) / (to - from)).clamp(0.0, 1.0);
            Some((low.get(column)?, high.get(column)?, share))
        }
        _ => None,
    });
    let (low, high, share) = bracket.ok_or(NotCovered { clause, condition: outside })?;
    let [cpe_10, cpe_1, pressure] = std::array::from_fn(|i| low[i] + (high[i] - low[i]) * share);
    Ok(Coefficients { suction: area_interpolation(cpe_1, cpe_10, loaded_area), pressure })
}

/// `c_pe`: coefficient for a loaded area between 1 and 10 m².
///
/// EN 1991-1-4:2005, 7.2.1(1), Figure 7.2: `c_pe,1` up to 1 m², `c_pe,10` from 10 m²,
/// `c_pe = c_pe,1 - (c_pe,1 - c_pe,10) log10 A` between.
///
/// Confirmed: five sources, two of them printed examples.
#[must_use]
pub fn area_interpolation(cpe_1: f64, cpe_10: f64, area: Area) -> f64 {
    let a = area.m2();
    if a <= 1.0 {
        cpe_1
    } else if a >= 10.0 {
        cpe_10
    } else {
        cpe_1 - (cpe_1 - cpe_10) * a.log10()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::eurocode::en1991_1_4_2005::tables::RECOMMENDED;

    const FACES: [(Direction, &[Zone]); 4] = [
        (Direction::Front, &[Zone::F, Zone::G, Zone::H]),
        (Direction::Back, &[Zone::I, Zone::J]),
        (Direction::Left, &[Zone::F, Zone::G, Zone::H, Zone::I]),
        (Direction::Right, &[Zone::F, Zone::G, Zone::H, Zone::I]),
    ];

    #[test]
    fn sets_keep_their_sign_and_have_no_steps() {
        let area = Area::from_m2(2.0);
        for (direction, zones) in FACES {
            for zone in zones {
                let mut last: Option<Coefficients> = None;
                for tenth in 50..=750 {
                    let pitch = Angle::from_deg(f64::from(tenth) / 10.0);
                    let now = duopitch(&RECOMMENDED, direction, *zone, pitch, area)
                        .expect("within the table");
                    assert!(now.suction <= 0.0 && now.pressure >= 0.0, "{direction:?} {zone:?}");
                    if let Some(last) = last {
                        assert!((now.suction - last.suction).abs() < 0.02);
                        assert!((now.pressure - last.pressure).abs() < 0.02);
                    }
                    last = Some(now);
                }
            }
        }
    }

    #[test]
    fn silent_outside_the_table_and_on_the_other_face() {
        let at = |direction, zone, deg| {
            duopitch(&RECOMMENDED, direction, zone, Angle::from_deg(deg), Area::from_m2(1.0))
                .is_ok()
        };
        assert!(at(Direction::Front, Zone::F, 5.0) && at(Direction::Front, Zone::F, 75.0));
        assert!(!at(Direction::Front, Zone::F, 4.9) && !at(Direction::Front, Zone::F, 75.1));
        assert!(!at(Direction::Front, Zone::I, 30.0) && !at(Direction::Back, Zone::F, 30.0));
        assert!(!at(Direction::Left, Zone::J, 30.0) && !at(Direction::Front, Zone::F, f64::NAN));
        assert!(!at(Direction::Front, Zone::F, -15.0));
    }

    /// EN 1991-1-4, Tables 7.4a and 7.4b: wind along the ridge presses nowhere, nor does wind across it
    /// on the lee of a roof that rises, nor anywhere on a trough of 15° and more.
    #[test]
    fn nothing_is_pressed_where_the_tables_print_no_pressure() {
        let none = |angle, zones: &[Zone], pitches: &[f64]| {
            for (zone, pitch) in
                zones.iter().flat_map(|zone| pitches.iter().map(move |p| (zone, p)))
            {
                let found = roof_coefficients(
                    &RECOMMENDED,
                    angle,
                    *zone,
                    Angle::from_deg(*pitch),
                    Area::from_m2(1.0),
                );
                let found = found.expect("within the table");
                assert!(found.pressure.abs() < 1e-12, "{zone:?} at {pitch}: {found:?}");
            }
        };
        let troughs = [-45.0, -30.0, -15.0];
        let all = [-45.0, -30.0, -15.0, -5.0, 5.0, 15.0, 30.0, 45.0, 60.0, 75.0];
        none(WindAngle::AlongRidge, &[Zone::F, Zone::G, Zone::H, Zone::I], &all);
        none(WindAngle::AcrossRidge, &[Zone::I, Zone::J], &all[5..]);
        none(WindAngle::AcrossRidge, &[Zone::F, Zone::G, Zone::H, Zone::I, Zone::J], &troughs);
    }

    /// The trough of 5° is pressed on its lee, by 0.2.
    #[test]
    fn the_lee_of_a_flat_trough_is_pressed() {
        for zone in [Zone::I, Zone::J] {
            let pitch = Angle::from_deg(-5.0);
            let found = roof_coefficients(
                &RECOMMENDED,
                WindAngle::AcrossRidge,
                zone,
                pitch,
                Area::from_m2(1.0),
            );
            let pressure = found.expect("within the table").pressure;
            assert!((pressure - 0.2).abs() < 1e-12, "{zone:?}: {pressure}");
        }
    }
}
