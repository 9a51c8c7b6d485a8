//! Combinations with every wind direction its own case.

use crate::codes::eurocode::annex::Annex;
use crate::codes::eurocode::en1990_2002::{self as en1990, Action, Situation, WindSense};
use crate::codes::eurocode::en1991_1_4_2005::duopitch::Direction;
use crate::codes::eurocode::en1995_1_1_2004::timber::{ServiceClass, k_mod};
use crate::units::Length;

use super::wind::{DIRECTIONS, Wind, direction_name};

/// A combination for one wind direction.
#[derive(Debug, Clone)]
pub struct Combination {
    /// Name, such as `uls:G+S+W:front:pressing`.
    pub id: String,
    /// Factors.
    pub factors: en1990::Combination,
    /// Wind direction, if wind takes part.
    pub direction: Option<Direction>,
    /// `k_mod`, service class 2.
    pub k_mod: f64,
    /// `γ_M` of connections.
    pub gamma_m_connections: f64,
    /// `γ_M` of solid timber.
    pub gamma_m_timber: f64,
}

/// All combinations: wind cases whose coefficients are zero over the whole slope are left out.
#[must_use]
pub fn all(
    annex: &Annex,
    k_fi: f64,
    altitude: Length,
    exceptional: bool,
    wind: &Wind,
) -> Vec<Combination> {
    let psi_0_snow = en1990::snow_combination_factor(altitude, annex);
    let mut out = Vec::new();
    for factors in en1990::combinations(annex, k_fi, psi_0_snow, exceptional) {
        if factors.wind == WindSense::None {
            out.push(combination(annex, altitude, factors, None));
            continue;
        }
        for direction in DIRECTIONS {
            if wind.acts(direction, factors.wind) {
                out.push(combination(annex, altitude, factors, Some(direction)));
            }
        }
    }
    out
}

fn combination(
    annex: &Annex,
    altitude: Length,
    factors: en1990::Combination,
    direction: Option<Direction>,
) -> Combination {
    let snow = if altitude > annex.snow_altitude_limit {
        annex.snow_duration_high
    } else {
        annex.snow_duration_low
    };
    let duration = match factors.shortest {
        Action::Permanent => {
            crate::codes::eurocode::en1995_1_1_2004::timber::LoadDuration::Permanent
        }
        Action::Snow => snow,
        Action::Wind => annex.wind_duration,
    };
    let accidental = factors.situation == Situation::Accidental;
    let gamma = |ordinary| if accidental { annex.gamma_m_accidental } else { ordinary };
    let limit = match factors.situation {
        Situation::Persistent => "uls",
        Situation::Accidental => "acc",
        Situation::Characteristic => "sls",
    };
    let id = match direction {
        None => format!("{limit}:{}", factors.name),
        Some(direction) => {
            let sense = match factors.wind {
                WindSense::Lifting => "lifting",
                WindSense::Pressing | WindSense::None => "pressing",
            };
            format!("{limit}:{}:{}:{sense}", factors.name, direction_name(direction))
        }
    };
    Combination {
        id,
        factors,
        direction,
        k_mod: k_mod(ServiceClass::Two, duration),
        gamma_m_connections: gamma(annex.gamma_m_connections),
        gamma_m_timber: gamma(annex.gamma_m_solid_timber),
    }
}
