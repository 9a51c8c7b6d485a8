//! Norway: national choices, terrains, and wind that rises with the altitude.
//!
//! Documents: NS-EN 1990/NA, NS-EN 1991-1-3/NA, NS-EN 1991-1-4/NA, NS-EN 1995-1-1/NA, NS-EN 1999-1-1/NA. None
//! of the printed texts was at hand; each value says how it was confirmed.
//!
//! **Left out.** Ground snow and basic wind velocity of a municipality, which the caller looks up: the load
//! with its steps of altitude, the velocity without them. Heights from which the wind rises outside the
//! south: there the caller gives the peak pressure above 400 m. Sectors of wind direction. The distributed
//! load of category H, which acts on no array. Whether there is exceptional snow the caller says, with its
//! load.

use super::{Annex, Least, PartialFactors, Strength};
use crate::codes::cited::{Source, Step};
use crate::codes::eurocode::en1991_1_4_2005::tables::{RECOMMENDED, RoofTables};
use crate::codes::eurocode::en1991_1_4_2005::velocity::{Terrain, TerrainCategory};
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::profile::{self, Profile, velocity_step};
use crate::codes::eurocode::site_steps::no_map_of_snow;
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, Trouble,
    WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Force, Length, Speed};

const SNOW: &str = "NS-EN 1991-1-3/NA";
const WIND: &str = "NS-EN 1991-1-4/NA";

/// The Norwegian choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "NO",
    title: "Norway",
    revision: "NO-1",
    strength: Strength::Single {
        // NS-EN 1990/NA Table NA.A1.2(B). Confirmed: two open Norwegian programs have (6.10a) and (6.10b) with 1.35
        // and 1.2, which (6.10) is never below.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 1.00,
            variable: 1.50,
        },
        // Whether Norway makes use of Table B3 was not seen: nothing is lowered, and 1.1 for a high
        // class is kept, on the safe side.
        consequence: [1.0, 1.0, 1.1],
    },
    combination_evidence: Evidence::OneSource,
    // NS-EN 1990/NA:2016 Table NA.A1.1, snow at every altitude. Confirmed: two open Norwegian programs.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.7,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // Whether ψ_1 or ψ_2 was not seen: ψ_1 is the safe one, a fifth of the wind beside the snow.
    psi_wind_accidental: 0.2,
    exceptional_snow_factor: None,
    // As recommended. From memory.
    drifted_shape: None,
    // NDP to 5.2(7), as recommended. From memory that Norway keeps Table 5.1.
    least_exposure: Some(Least {
        value: 0.8,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(7)"), condition: "C_e >= 0.8" },
    }),
    least_thermal: None,
    // NS-EN 1991-1-1/NA, category H. From memory: 1.5 kN, above the recommended 1.0 kN.
    maintenance_force: Force::from_kn(1.5),
    // NDP to 6.3(1) and (2) not seen. Computed at every altitude, without a limit of `k`, on the safe side.
    eaves_snow_above: Length::from_m(-1000.0),
    eaves_snow_k: f64::INFINITY,
    roof_snow_law: None,
    ground_snow,
    snow_ways: SNOW_WAYS,
    peak_pressure,
    wind_ways: WIND_WAYS,
    places: None,
    // NS-EN 1991-1-4/NA, as recommended. From memory that Norway keeps the tables.
    roof_tables: RoofTables {
        evidence: Evidence::FromMemory,
        hipped_evidence: Evidence::FromMemory,
        ..RECOMMENDED
    },
    // As recommended. Confirmed: two open programs.
    air_density: Density::from_kg_per_m3(1.25),
    // Not seen: the longer of the two classes that EN 1995-1-1 has for snow, on the safe side.
    snow_duration_low: LoadDuration::Medium,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // NS-EN 1995-1-1/NA: as recommended, no lower than what is remembered of Norway.
    gamma_m_connections: 1.3,
    gamma_m_solid_timber: 1.3,
    gamma_m_accidental: 1.0,
    timber_law: None,
    // As recommended, the safe one of the values in use.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // NS-EN 1999-1-1/NA, as recommended. From memory.
    gamma_m1_aluminium: 1.10,
    // NS-EN 1993-1-1/NA. From memory: 1.05, above the recommended 1.0.
    gamma_m0_steel: 1.05,
    // NS-EN 1993-1-8/NA, as recommended. From memory.
    gamma_m2_steel: 1.25,
};

const SNOW_WAYS: &[&[SiteField]] = &[&[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] = &[
    &[SiteField::BasicVelocity, SiteField::TerrainCategory],
    &[SiteField::WindZone, SiteField::BasicVelocity, SiteField::TerrainCategory],
    &[SiteField::PeakPressure],
];

/// No zone gives the ground snow of a place.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    no_map_of_snow(site, SNOW_WAYS)
}

/// Peak pressure by the profile of the standard over the terrains of the annex, with a velocity that
/// rises with the altitude.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    if site.setting.is_some() {
        return Err(vec![SiteField::WindSetting.with(Trouble::Unused { instead: WIND_WAYS })]);
    }
    let region = site
        .zone
        .map(|zone| SiteField::WindZone.read(Some(zone), WindRegion::NAMES, WindRegion::parse))
        .transpose();
    let v_b_0 = SiteField::BasicVelocity.need(site.basic_velocity);
    let names = TerrainCategory::NAMES;
    let terrain = SiteField::TerrainCategory.read(site.terrain, names, TerrainCategory::parse);
    let (region, v_b_0, terrain) = match (region, v_b_0, terrain) {
        (Ok(region), Ok(v_b_0), Ok(terrain)) => (region, v_b_0, terrain),
        (region, v_b_0, terrain) => {
            let faults = [region.err(), v_b_0.err(), terrain.err()];
            return Err(faults.into_iter().flatten().collect());
        }
    };
    let silent = |rule| vec![SiteField::Altitude.silent(&[SiteField::PeakPressure])(rule)];
    let c_alt = altitude_factor(region, v_b_0, site.altitude).map_err(silent)?;
    let v_b = v_b_0 * c_alt;
    let zone = site.zone.map_or_else(String::new, |zone| format!("zone {zone}, "));
    let profile = Profile {
        velocity: (v_b, velocity_step("v_b", v_b, Source::clause(WIND, "NA.4.2(2)P"))),
        terrain: (terrain_of(terrain), Source::clause(WIND, "Table NA.4.1")),
        air_density: (ANNEX.air_density, Source::clause(WIND, "NDP to 4.5(1)")),
        peak_factor: None,
        described: format!(
            "annex {}, {zone}v_b,0 {} m/s, altitude {} m, terrain {}, ridge at {} m",
            ANNEX.code,
            v_b_0.m_per_s(),
            site.altitude.m(),
            site.terrain.unwrap_or_default(),
            site.height.m()
        ),
        // Where nothing says from which altitude the wind rises, that it does not yet is from memory.
        evidence: region.map_or(Evidence::FromMemory, |_| Evidence::Confirmed),
    };
    let mut found = profile::peak_pressure(profile, site).map_err(|fault| vec![fault])?;
    let rise = Source::clause(WIND, "NA.4.2(2)P");
    let before = [
        velocity_step("v_b,0", v_b_0, Source::Given),
        Step::new(Quantity::RiseWithAltitude, "c_alt", c_alt, "", rise),
    ];
    found.steps.splice(0..0, before);
    Ok(found)
}

spelled! {
    /// Region whose heights are known from which the wind rises.
    WindRegion {
        /// The south of the country.
        South = "south",
    }
}

/// `c_alt`: how much faster the wind is at an altitude `H`.
///
/// NS-EN 1991-1-4/NA, NA.4.2(2)P: `1 + (30 - v_b,0)(H - H_0) / (v_b,0 (H_top - H_0))`, no less than 1, and 1
/// where `v_b,0` is 30 m/s or more; in the south `H_0` is 900 m and `H_top` 1500 m.
///
/// Partly from memory: the formula and the heights of the south by two public Norwegian programs; that no
/// region has an `H_0` below 400 m by none.
///
/// # Errors
/// [`NotCovered`] above 400 m outside the south, whose heights alone were seen, and above `H_top`.
pub fn altitude_factor(
    region: Option<WindRegion>,
    v_b_0: Speed,
    altitude: Length,
) -> Result<f64, NotCovered> {
    let clause = Clause::new(WIND, "NA.4.2(2)P");
    let Some(WindRegion::South) = region else {
        clause.covers(altitude.m() <= 400.0, "altitude <= 400 m outside zone south")?;
        return Ok(1.0);
    };
    let (h_0, h_top) = (900.0, 1500.0);
    clause.covers(altitude.m() <= h_top, "altitude <= 1500 m in zone south")?;
    let v = v_b_0.m_per_s();
    if v >= 30.0 {
        return Ok(1.0);
    }
    let above = f64::max(altitude.m() - h_0, 0.0);
    Ok(1.0 + (30.0 - v) * above / (v * (h_top - h_0)))
}

/// `k_r`, `z_0` and `z_min`: the ground upwind in Norway.
///
/// NS-EN 1991-1-4/NA, Table NA.4.1: 0.16, 0.003 m and 2 m (0), 0.17, 0.01 m and 2 m (I), 0.19, 0.05 m and 4 m
/// (II), 0.22, 0.3 m and 8 m (III), 0.24, 1 m and 16 m (IV).
///
/// Confirmed: two public Norwegian programs.
#[must_use]
pub const fn terrain_of(category: TerrainCategory) -> Terrain {
    let (k_r, z_0, z_min) = match category {
        TerrainCategory::Zero => (0.16, 0.003, 2.0),
        TerrainCategory::I => (0.17, 0.01, 2.0),
        TerrainCategory::Ii => (0.19, 0.05, 4.0),
        TerrainCategory::Iii => (0.22, 0.3, 8.0),
        TerrainCategory::Iv => (0.24, 1.0, 16.0),
    };
    Terrain { z_0: Length::from_m(z_0), z_min: Length::from_m(z_min), k_r: Some(k_r), k_i: 1.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The factor begins at 1, makes 30 m/s at the top, and stays 1 where the wind is as fast already.
    #[test]
    fn wind_rises_to_30_m_per_s_at_the_top_of_the_south() {
        let south = |v: f64, h: f64| {
            let v = Speed::from_m_per_s(v);
            altitude_factor(Some(WindRegion::South), v, Length::from_m(h)).ok()
        };
        assert_eq!([south(24.0, 0.0), south(24.0, 900.0)], [Some(1.0), Some(1.0)]);
        assert!((24.0 * south(24.0, 1500.0).expect("covered") - 30.0).abs() < 1e-12);
        assert_eq!([south(30.0, 1400.0), south(31.0, 1400.0)], [Some(1.0), Some(1.0)]);
        assert_eq!(south(24.0, 1500.1), None);
        let elsewhere =
            |h: f64| altitude_factor(None, Speed::from_m_per_s(24.0), Length::from_m(h));
        assert!(elsewhere(400.0).is_ok() && elsewhere(400.1).is_err());
    }
}
