//! Where snow gathers on a slope: the clauses of EN 1991-1-3 on drifts composed.

use super::annex::{Annex, RoofSnowLaw};
use super::en1991_1_3_2003::drifts::{
    DRIFT_KN_PER_M3, LOWER_ROOF, drift_length, obstacle_factor, slide_factor, valley_factor,
    wind_drift_factor,
};
use super::en1991_1_3_2003::{EAVES_SNOW_KN_PER_M3, EN1991_1_3, eaves_overhang_load};
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{
    Against, Arranged, Arrangement, Drift, Gatherer, Gathers, GroundLevel, Snow, Towards, Wall,
};
use crate::codes::{Clause, NotCovered};
use crate::geometry::{Point, Rect};
use crate::units::{Angle, Length, Pressure};

/// The steepest roof that counts as nearly flat; judgement: 6.2 names no angle.
const NEARLY_FLAT: Angle = Angle::from_deg(15.0);

/// Every way the snow can lie: one arrangement for all that gathers it in the same way and, of walls,
/// on the same side.
pub(super) fn arrangements(
    annex: &Annex,
    snow: &Snow,
    (pitch, altitude): (Angle, Length),
    gatherers: &[Gatherer],
) -> Arranged {
    let mut out = Arranged::default();
    for (i, gatherer) in gatherers.iter().enumerate() {
        let gathers = match gatherer {
            Gatherer::Wall(wall) => Gathers::Wall(wall.towards),
            Gatherer::Valley { .. } => Gathers::Valley,
            Gatherer::Obstacle { .. } => Gathers::Obstacles,
            Gatherer::Eaves { .. } => Gathers::Eaves,
        };
        let base =
            if let Gathers::Wall(_) = gathers { lower_roof(annex, pitch) } else { snow.shape };
        let new = || Arrangement::new(gathers, base, pitch);
        let known = out.arrangements.iter().position(|known| known.gathers == gathers);
        let mut arrangement = known.map_or_else(new, |known| out.arrangements[known].clone());
        match gather(annex, snow, (pitch, altitude), gatherer, &mut arrangement) {
            Err(silent) => out.silent.push((i, silent)),
            Ok(()) if arrangement.drifts.is_empty() && arrangement.eaves.is_empty() => {}
            Ok(()) => match known {
                Some(known) => out.arrangements[known] = arrangement,
                None => out.arrangements.push(arrangement),
            },
        }
    }
    // A law on snow on roofs has no drifts of the wind that were seen: those of the standard stand in.
    out.stands_in = annex.roof_snow_law.is_some()
        && out
            .arrangements
            .iter()
            .any(|of| matches!(of.gathers, Gathers::Wall(_) | Gathers::Obstacles));
    out.arrangements.sort_by_key(|arrangement| order(arrangement.gathers));
    out
}

/// Coefficient of a roof below a wall, away from it: that of one that keeps its snow.
fn lower_roof(annex: &Annex, pitch: Angle) -> f64 {
    annex.roof_snow_law.map_or(LOWER_ROOF, |law| (law.shape)(pitch, true))
}

/// A fixed order, whatever the order of the sides.
const fn order(gathers: Gathers) -> u8 {
    match gathers {
        Gathers::Wall(Towards::Above) => 0,
        Gathers::Wall(Towards::Below) => 1,
        Gathers::Wall(Towards::Left) => 2,
        Gathers::Wall(Towards::Right) => 3,
        Gathers::Valley => 4,
        Gathers::Obstacles => 5,
        Gathers::Eaves => 6,
    }
}

/// Adds what one thing gathers.
fn gather(
    annex: &Annex,
    snow: &Snow,
    (pitch, altitude): (Angle, Length),
    gatherer: &Gatherer,
    to: &mut Arrangement,
) -> Result<(), NotCovered> {
    let s_k = snow.ground.load;
    match gatherer {
        Gatherer::Wall(wall) => {
            annex.roof_snow_law.map_or(Ok(()), |law| (law.wall)(wall.upper_slope.0))?;
            to.drifts.push(against_wall(wall, s_k, pitch));
        }
        Gatherer::Valley { side, line, run, other_pitch } => {
            let (along, pitches) = ((*side, *line), [pitch, *other_pitch]);
            to.drifts.push(match annex.roof_snow_law {
                Some(law) => in_valley_by(&law, along, pitches)?,
                None => in_valley(along, *run, pitches)?,
            });
        }
        Gatherer::Obstacle { obstacle, bounds, height, factor } => {
            let clause = Clause::new(EN1991_1_3, "6.2(2)");
            let flat = factor.is_some() || pitch.deg() <= NEARLY_FLAT.deg();
            clause.covers(flat, "a nearly flat roof")?;
            let mu_2 = factor.unwrap_or_else(|| obstacle_factor(*height, s_k));
            let l_s = drift_length(*height);
            let mut steps = steps("6.2(2)", mu_2, l_s);
            steps[0].source = Source::given_or(factor.is_some(), clause);
            let against = Against::Obstacle(*obstacle);
            to.drifts.push(Drift::new(against, mu_2, l_s, &faces(bounds), pitch, steps));
        }
        Gatherer::Eaves { line, .. } if altitude >= annex.eaves_snow_above => {
            let over = |level| {
                let unit = snow.per_coefficient(level);
                match annex.roof_snow_law {
                    Some(law) => Ok((law.eaves)(snow.shape, unit)),
                    None => eaves_overhang_load(
                        unit * snow.shape,
                        EAVES_SNOW_KN_PER_M3,
                        annex.eaves_snow_k,
                    ),
                }
            };
            to.over_eaves = [over(GroundLevel::Characteristic)?, over(GroundLevel::Exceptional)?];
            if to.eaves.is_empty() {
                let clause = Clause::new(EN1991_1_3, "6.3(2), Eq. (6.4)");
                let source =
                    Source::Clause(annex.roof_snow_law.map_or(clause, |law| law.eaves_clause));
                let s_e = to.over_eaves[0].kn_per_m();
                to.steps.push(Step::new(Quantity::EavesSnow, "s_e", s_e, "kN/m", source));
            }
            to.eaves.push(*line);
        }
        Gatherer::Eaves { .. } => {}
    }
    Ok(())
}

/// Snow in a valley along a side, thinning out towards the ridge.
fn in_valley(
    (side, line): (usize, [Point; 2]),
    run: Length,
    pitches: [Angle; 2],
) -> Result<Drift, NotCovered> {
    let [pitch, other] = pitches;
    let mu_2 = valley_factor(Angle::from_deg(f64::midpoint(pitch.deg(), other.deg())))?;
    let steps = steps("5.3.4(3)", mu_2, run);
    Ok(Drift::new(Against::Side(side), mu_2, run, &[line], pitch, steps))
}

/// The same by the law of a country: as deep all over its reach.
fn in_valley_by(
    law: &RoofSnowLaw,
    (side, line): (usize, [Point; 2]),
    pitches: [Angle; 2],
) -> Result<Drift, NotCovered> {
    let (mu_2, reach) = ((law.valley)(pitches)?, law.valley_reach);
    let steps = steps_by(Source::Clause(law.valley_clause), mu_2, reach);
    Ok(Drift::new(Against::Side(side), mu_2, reach, &[line], pitches[0], steps).level())
}

/// The greatest drift against a wall of any of its heights: of what slides off above, the shortest
/// triangle; of all of it, the longest reach.
fn against_wall(wall: &Wall, s_k: Pressure, pitch: Angle) -> Drift {
    let ([low, high], [b_1, b_2]) = (wall.heights, wall.widths);
    let worst = worst_height(b_1, b_2, s_k).max(low).min(high);
    let mu_w = [low, worst, high].map(|h| wind_drift_factor(b_1, b_2, h, s_k));
    let mu_w = mu_w.into_iter().fold(0.0, f64::max);
    let (upper_pitch, b) = wall.upper_slope;
    let mu_s = slide_factor(upper_pitch, b, drift_length(low));
    let l_s = drift_length(high);
    let of = |quantity, symbol, value| {
        Step::new(quantity, symbol, value, "", Source::clause(EN1991_1_3, "5.3.6(1)"))
    };
    let mut all =
        vec![of(Quantity::SnowByWind, "mu_w", mu_w), of(Quantity::SnowSlidDown, "mu_s", mu_s)];
    all.extend(steps("5.3.6(1)", mu_s + mu_w, l_s));
    Drift::new(Against::Side(wall.side), mu_s + mu_w, l_s, &[wall.line], pitch, all)
}

/// Height of a wall at which [`wind_drift_factor`] is greatest: that at which both its limits meet.
fn worst_height(b_1: Length, b_2: Length, s_k: Pressure) -> Length {
    Length::from_m(((b_1 + b_2).m() * s_k.kn_per_m2() / (2.0 * DRIFT_KN_PER_M3)).sqrt())
}

fn steps(clause: &'static str, mu_2: f64, l_s: Length) -> Vec<Step> {
    steps_by(Source::clause(EN1991_1_3, clause), mu_2, l_s)
}

fn steps_by(source: Source, mu_2: f64, l_s: Length) -> Vec<Step> {
    vec![
        Step::new(Quantity::DriftShape, "mu_2", mu_2, "", source),
        Step::new(Quantity::DriftLength, "l_s", l_s.m(), "m", source),
    ]
}

/// Sides of an obstacle, with the slope to their left.
fn faces(bounds: &Rect) -> [[Point; 2]; 4] {
    let corners = bounds.corners().map(|[x, y]| Point { x, y });
    [0, 1, 2, 3].map(|i| [corners[(i + 1) % 4], corners[i]])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Of two houses of 4 m at 1 kN/m²: h = √(8·1/(2·2)) = 1.414 m, where 8/(2 h) = 2 h/1 = 2.828; more and
    /// less height give less.
    #[test]
    fn a_wall_drifts_most_where_both_limits_meet() {
        let (b, s_k) = (Length::from_m(4.0), Pressure::from_kn_per_m2(1.0));
        let worst = worst_height(b, b, s_k);
        assert!((worst.m() - 2.0_f64.sqrt()).abs() < 1e-9, "{}", worst.m());
        let factor = |h: Length| wind_drift_factor(b, b, h, s_k);
        assert!((factor(worst) - 8.0_f64.sqrt()).abs() < 1e-9);
        assert!(factor(worst * 1.1) < factor(worst) && factor(worst * 0.9) < factor(worst));
    }
}
