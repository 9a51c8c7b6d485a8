//! Germany: national choices, snow zones and wind zones.
//!
//! Documents: DIN EN 1990/NA, DIN EN 1991-1-3/NA:2019-04, DIN EN 1991-1-4/NA:2010-12,
//! DIN EN 1995-1-1/NA, DIN EN 1999-1-1/NA. None of the printed texts was at hand; each value
//! says how it was confirmed.
//!
//! **Left out.** The 2024-08 edition of the wind annex, whose values were not at hand; the higher local snow loads inside zone 3 (upper Harz and similar), which only
//! the building authority knows, and the mixed profile between coast and inland.

use super::{Annex, PartialFactors, Strength};
use crate::codes::cited::{Source, Step};
use crate::codes::eurocode::en1991_1_1_2002::maintenance_force;
use crate::codes::eurocode::en1991_1_4_2005::EN1991_1_4;
use crate::codes::eurocode::en1991_1_4_2005::tables::RECOMMENDED;
use crate::codes::eurocode::en1991_1_4_2005::velocity::{TerrainCategory, velocity_pressure};
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::site_steps::{
    PRESSURE, air_density_step, basic_pressure_step, ground_snow_step, height_step,
    peak_pressure_step,
};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{
    Evidence, Exceptional, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite,
    Trouble, WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Length, Pressure, Speed, Stress};

const SNOW: &str = "DIN EN 1991-1-3/NA:2019-04";
const WIND: &str = "DIN EN 1991-1-4/NA:2010-12";

/// The German choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "DE",
    title: "Germany",
    revision: "DE-4",
    strength: STRENGTH,
    combination_evidence: Evidence::OneSource,
    // DIN EN 1990/NA Table NA.A.1.1, as recommended. One source: an open library of German rules; 0.7 above 1000 m
    // from memory.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // DIN EN 1991-1-3/NA, 4.3, North German Plain. Confirmed: several pages print the
    // plateaus 1.495, 1.955 and 2.53 kN/m².
    exceptional_snow_factor: Some(2.3),
    // Eq. (6.11b) with `ψ_1` of the leading action. One source: an open German program combines so, while a help
    // page of another leaves the wind out beside the snow of the North German Plain. On the safe side.
    psi_wind_accidental: 0.2,
    // EN 1991-1-1:2002, as recommended. From memory.
    maintenance_force: maintenance_force(),
    // As recommended: of drifted snow the greater share is that of even snow. From memory.
    drifted_shape: None,
    least_exposure: None,
    least_thermal: None,
    // DIN EN 1991-1-3/NA, NDP to 6.3(1) and (2). From memory: at every altitude, with k = 0.4.
    eaves_snow_above: Length::from_m(-1000.0),
    eaves_snow_k: 0.4,
    roof_snow_law: None,
    ground_snow,
    snow_ways: SNOW_WAYS,
    peak_pressure: peak_pressure_of_site,
    wind_ways: WIND_WAYS,
    places: None,
    // DIN EN 1991-1-4/NA, as recommended. Confirmed: German pages that print the tables.
    roof_tables: RECOMMENDED,
    // DIN EN 1991-1-4/NA. Confirmed through the zones' pressures, 0.32 to 0.56 kN/m².
    air_density: Density::from_kg_per_m3(1.25),
    // DIN EN 1995-1-1/NA Table NA.1. From memory for snow; the class between short and
    // instantaneous for wind is confirmed by one library.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::ShortInstantaneous,
    // DIN EN 1995-1-1/NA, NDP to 2.4.1(1). From memory that Germany keeps 1.3.
    gamma_m_connections: 1.3,
    gamma_m_solid_timber: 1.3,
    gamma_m_accidental: 1.0,
    timber_law: None,
    // DIN EN 1995-1-1/NA, NDP to 6.1.7(2): k_cr = 2.0 / f_v,k for solid softwood. Confirmed
    // by one source, which gets 1.3 · 0.5 for C24 away from the ends; that bonus is not used.
    k_cr_rule: CrackFactorRule::OverShearStrength { numerator: Stress::from_n_per_mm2(2.0) },
    // DIN EN 1999-1-1/NA, as recommended. From memory that Germany keeps it.
    gamma_m1_aluminium: 1.10,
    // DIN EN 1993-1-8/NA, as recommended. From memory.
    gamma_m2_steel: 1.25,
    // DIN EN 1993-1-1/NA, as recommended. From memory.
    gamma_m0_steel: 1.0,
};

/// The German choices before wind accompanied exceptional snow.
///
/// Partly from memory: as [`ANNEX`].
pub const DE_3: Annex = Annex { revision: "DE-3", psi_wind_accidental: 0.0, ..ANNEX };

/// The German choices before snow over the eaves was computed.
///
/// Partly from memory: as [`ANNEX`].
pub const DE_2: Annex =
    Annex { revision: "DE-2", eaves_snow_above: Length::from_m(f64::INFINITY), ..DE_3 };

/// The German choices before Germany's own factors by consequence class: those of EN 1990, Table B3.
///
/// Partly from memory: as [`ANNEX`].
pub const DE_1: Annex = Annex {
    revision: "DE-1",
    strength: Strength::Single { factors: SET_B, consequence: [0.9, 1.0, 1.1] },
    ..DE_2
};

// DIN EN 1990/NA, NDP to Annex B. From memory: Germany does not lower actions by consequence
// class; 1.1 for a high class is kept, on the safe side.
const STRENGTH: Strength = Strength::Single { factors: SET_B, consequence: [1.0, 1.0, 1.1] };

// DIN EN 1990/NA Table NA.A.1.2(B), as recommended. Confirmed: three open programs that compute by German rules.
const SET_B: PartialFactors =
    PartialFactors { permanent_unfavourable: 1.35, permanent_favourable: 1.00, variable: 1.50 };

const SNOW_WAYS: &[&[SiteField]] = &[&[SiteField::SnowZone], &[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] =
    &[&[SiteField::WindZone, SiteField::WindSetting], &[SiteField::PeakPressure]];

/// Ground snow by the zones of the German map.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    let find = || {
        if site.region.is_some() {
            return Err(SiteField::SnowRegion.with(Trouble::Unused { instead: SNOW_WAYS }));
        }
        let zone = SiteField::SnowZone.read(site.zone, SnowZone::NAMES, SnowZone::parse)?;
        ground_snow_load(zone, site.altitude.max(Length::ZERO))
            .map_err(SiteField::Altitude.silent(&[SiteField::GroundSnow]))
    };
    let load = find().map_err(|fault| vec![fault])?;
    let zone = site.zone.unwrap_or_default();
    Ok(GroundSnow {
        load,
        described: format!("annex {}, zone {zone}, altitude {} m", ANNEX.code, site.altitude.m()),
        evidence: Evidence::Confirmed,
        exceptional: Exceptional::NotSaid,
        steps: vec![ground_snow_step(load, Source::clause(SNOW, "NDP to 4.1(1)"))],
    })
}

/// Peak pressure by the table of zones, settings and heights: the country changes the profile of
/// the standard, and the table leaves no room for orography.
fn peak_pressure_of_site(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    const INSTEAD: &[SiteField] = &[SiteField::PeakPressure];
    if site.basic_velocity.is_some() || site.terrain.is_some() {
        return Err(vec![SiteField::BasicVelocity.with(Trouble::Unused { instead: WIND_WAYS })]);
    }
    let mut faults = Vec::new();
    if site.orography.is_some() {
        faults.push(SiteField::Orography.with(Trouble::Unused { instead: &[INSTEAD] }));
    }
    let setting = SiteField::WindSetting.read(site.setting, Setting::NAMES, Setting::parse);
    let zone = SiteField::WindZone.read(site.zone, WindZone::NAMES, WindZone::parse);
    let (zone, setting) = match (zone, setting) {
        (Ok(zone), Ok(setting)) => (zone, setting),
        (zone, setting) => {
            faults.extend(setting.err().into_iter().chain(zone.err()));
            return Err(faults);
        }
    };
    let find = || {
        let at = |height, altitude| peak_pressure(zone, setting, height, altitude);
        // On the ground and at sea level only the setting can be at fault, at sea level the height.
        at(Length::ZERO, Length::ZERO).map_err(SiteField::WindSetting.silent(INSTEAD))?;
        let in_table =
            at(site.height, Length::ZERO).map_err(SiteField::RidgeHeight.silent(INSTEAD))?;
        let factor = altitude_factor(site.altitude).map_err(SiteField::Altitude.silent(INSTEAD))?;
        Ok((in_table, factor))
    };
    let (in_table, factor) = match find() {
        Ok(found) if faults.is_empty() => found,
        Ok(_) => return Err(faults),
        Err(fault) => {
            faults.push(fault);
            return Err(faults);
        }
    };
    let v_b_0 = basic_velocity(zone);
    let q_b = velocity_pressure(ANNEX.air_density, v_b_0);
    let q_p = in_table * factor;
    let step = |quantity, symbol, value, unit, number| {
        Step::new(quantity, symbol, value, unit, Source::clause(WIND, number))
    };
    Ok(PeakPressure {
        pressure: q_p,
        basic: Some(q_b),
        described: format!(
            "annex {}, zone {}, ridge at {} m",
            ANNEX.code,
            site.zone.unwrap_or_default(),
            site.height.m()
        ),
        evidence: if factor > 1.0 { Evidence::OneSource } else { Evidence::Confirmed },
        steps: vec![
            step(Quantity::BasicWindVelocity, "v_b,0", v_b_0.m_per_s(), "m/s", "Table NA.A.1"),
            air_density_step(ANNEX.air_density, Source::clause(EN1991_1_4, "4.5(1)")),
            basic_pressure_step(q_b),
            height_step(site.height),
            step(Quantity::TablePressure, "q_p,0", in_table.kn_per_m2(), PRESSURE, "Table NA.B.3"),
            step(Quantity::RiseWithAltitude, "max(1, 0.2 + A/1000)", factor, "", "NDP to 4.2(1)"),
            peak_pressure_step(q_p, Source::clause(WIND, "Table NA.B.3")),
        ],
    })
}

spelled! {
    /// Snow zone of the German map.
    SnowZone {
        /// Zone 1.
        Z1 = "1",
        /// Zone 1a: zone 1 raised by a quarter.
        Z1a = "1a",
        /// Zone 2.
        Z2 = "2",
        /// Zone 2a: zone 2 raised by a quarter.
        Z2a = "2a",
        /// Zone 3.
        Z3 = "3",
    }
}

/// `s_k`: characteristic snow on the ground in Germany.
///
/// DIN EN 1991-1-3/NA:2019-04, NDP to 4.1(1), Eqs. (NA.1) to (NA.3), with
/// `f = ((A + 140) / 760)²` and `A` the altitude in metres:
///
/// | zone | `s_k` in kN/m² | not below |
/// |---|---|---|
/// | 1 | `0.19 + 0.91 f` | 0.65 |
/// | 2 | `0.25 + 1.91 f` | 0.85 |
/// | 3 | `0.31 + 2.91 f` | 1.10 |
///
/// Zones 1a and 2a are 1.25 times zones 1 and 2, the lower bound included.
///
/// Confirmed: at least four public pages, one of them with a worked figure (zone 2, 380 m).
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ A ≤ 1500 m`.
pub fn ground_snow_load(zone: SnowZone, altitude: Length) -> Result<Pressure, NotCovered> {
    let clause = Clause::new(SNOW, "NDP to 4.1(1)");
    let a = altitude.m();
    clause.covers((0.0..=1500.0).contains(&a), "0 m <= altitude <= 1500 m")?;

    let f = ((a + 140.0) / 760.0).powi(2);
    let (base, rise, plateau, raise) = match zone {
        SnowZone::Z1 => (0.19, 0.91, 0.65, 1.0),
        SnowZone::Z1a => (0.19, 0.91, 0.65, 1.25),
        SnowZone::Z2 => (0.25, 1.91, 0.85, 1.0),
        SnowZone::Z2a => (0.25, 1.91, 0.85, 1.25),
        SnowZone::Z3 => (0.31, 2.91, 1.10, 1.0),
    };
    let s_k = raise * f64::max(base + rise * f, plateau);
    Ok(Pressure::from_kn_per_m2(s_k))
}

spelled! {
    /// Wind zone of the German map.
    WindZone {
        /// Zone 1.
        Z1 = "1",
        /// Zone 2.
        Z2 = "2",
        /// Zone 3.
        Z3 = "3",
        /// Zone 4.
        Z4 = "4",
    }
}

spelled! {
    /// Where in a wind zone the building stands.
    Setting {
        /// More than 5 km from the shore.
        Inland = "inland",
        /// A strip 5 km wide along the coast, and the islands of the Baltic Sea.
        Coast = "coast",
        /// Islands of the North Sea.
        NorthSeaIslands = "north_sea_islands",
    }
}

/// `v_b,0`: basic wind velocity of a zone.
///
/// DIN EN 1991-1-4/NA:2010-12, Table NA.A.1: 22.5, 25.0, 27.5 and 30.0 m/s.
///
/// Confirmed: several public pages.
#[must_use]
pub fn basic_velocity(zone: WindZone) -> Speed {
    Speed::from_m_per_s(match zone {
        WindZone::Z1 => 22.5,
        WindZone::Z2 => 25.0,
        WindZone::Z3 => 27.5,
        WindZone::Z4 => 30.0,
    })
}

/// Upper ends of the height bands of [`TABLE_NA_B_3`], in metres.
const BANDS_M: [f64; 3] = [10.0, 18.0, 25.0];

/// `q_p` in kN/m² up to 10, 18 and 25 m: DIN EN 1991-1-4/NA:2010-12, Table NA.B.3.
/// Confirmed: four public pages.
#[rustfmt::skip]
const TABLE_NA_B_3: &[(WindZone, Setting, [Option<f64>; 3])] = &[
    (WindZone::Z1, Setting::Inland,          [Some(0.50), Some(0.65), Some(0.75)]),
    (WindZone::Z2, Setting::Inland,          [Some(0.65), Some(0.80), Some(0.90)]),
    (WindZone::Z2, Setting::Coast,           [Some(0.85), Some(1.00), Some(1.10)]),
    (WindZone::Z3, Setting::Inland,          [Some(0.80), Some(0.95), Some(1.10)]),
    (WindZone::Z3, Setting::Coast,           [Some(1.05), Some(1.20), Some(1.30)]),
    (WindZone::Z4, Setting::Inland,          [Some(0.95), Some(1.15), Some(1.30)]),
    (WindZone::Z4, Setting::Coast,           [Some(1.25), Some(1.40), Some(1.55)]),
    (WindZone::Z4, Setting::NorthSeaIslands, [Some(1.40), None,       None      ]),
];

/// `q_p`: simplified peak velocity pressure in Germany, constant over the building's height.
///
/// DIN EN 1991-1-4/NA:2010-12, NA.B.3.2, Table NA.B.3, times [`altitude_factor`].
///
/// Confirmed: four public pages, for the table; for the altitude factor see there.
///
/// # Errors
/// [`NotCovered`] above 25 m of height (10 m on the islands of the North Sea), for a setting the
/// zone does not have, and above 1100 m of altitude. [`profile_pressure`] reaches higher.
pub fn peak_pressure(
    zone: WindZone,
    setting: Setting,
    height: Length,
    altitude: Length,
) -> Result<Pressure, NotCovered> {
    let clause = Clause::new(WIND, "Table NA.B.3");
    let no_row = NotCovered { clause, condition: "the wind zone has this setting" };
    let too_high = NotCovered {
        clause,
        condition: "height <= 25 m, or <= 10 m on the islands of the North Sea",
    };
    let (_, _, bands) =
        TABLE_NA_B_3.iter().find(|row| row.0 == zone && row.1 == setting).ok_or(no_row)?;
    let band = BANDS_M.iter().position(|top| height.m() <= *top).ok_or(too_high)?;
    let q_p = bands.get(band).copied().flatten().ok_or(too_high)?;
    Ok(Pressure::from_kn_per_m2(q_p) * altitude_factor(altitude)?)
}

/// Rise of the wind pressure with the altitude of the site.
///
/// DIN EN 1991-1-4/NA:2010-12, NDP to 4.2(1): 1 up to 800 m, above that `0.2 + A / 1000`.
///
/// One source each: the altitudes by a help page, factor and altitudes by a printed
/// guide to the predecessor, DIN 1055-4:2005-03, which also excludes ridges and summits.
///
/// # Errors
/// [`NotCovered`] above 1100 m, where the annex asks for a study of the site.
pub fn altitude_factor(altitude: Length) -> Result<f64, NotCovered> {
    let a = altitude.m();
    Clause::new(WIND, "NDP to 4.2(1)").covers(a <= 1100.0, "altitude <= 1100 m")?;
    Ok(f64::max(0.2 + a / 1000.0, 1.0))
}

/// `q_p(z)`: peak velocity pressure over height for the regular case in Germany.
///
/// DIN EN 1991-1-4/NA:2010-12, NA.B.3.3, Eqs. (NA.B.1) to (NA.B.8), `z` in metres:
///
/// | setting | low | middle, to 50 m | high |
/// |---|---|---|---|
/// | inland | `1.5 q_b` to 7 m | `1.7 q_b (z/10)^0.37` | `2.1 q_b (z/10)^0.24` |
/// | coast | `1.8 q_b` to 4 m | `2.3 q_b (z/10)^0.27` | `2.6 q_b (z/10)^0.19` |
/// | North Sea islands | `1.1 kN/m²` to 2 m | `1.5 (z/10)^0.19 kN/m²` | the same |
///
/// From memory: branches meet within 1 %, and the profile lies up to 9 % above Table NA.B.3 at
/// the top of a height band, so the two are not interchangeable.
///
/// # Errors
/// [`NotCovered`] above 300 m of height and where [`altitude_factor`] is silent.
pub fn profile_pressure(
    zone: WindZone,
    setting: Setting,
    height: Length,
    altitude: Length,
) -> Result<Pressure, NotCovered> {
    let clause = Clause::new(WIND, "NA.B.3.3");
    let z = height.m();
    clause.covers((0.0..=300.0).contains(&z), "0 m <= height <= 300 m")?;

    let q_b = 0.5e-3 * ANNEX.air_density.kg_per_m3() * basic_velocity(zone).m_per_s().powi(2);
    let power = |c: f64, exponent: f64| c * (z / 10.0).powf(exponent);
    let q_p = match setting {
        Setting::Inland if z <= 7.0 => 1.5 * q_b,
        Setting::Inland if z <= 50.0 => power(1.7, 0.37) * q_b,
        Setting::Inland => power(2.1, 0.24) * q_b,
        Setting::Coast if z <= 4.0 => 1.8 * q_b,
        Setting::Coast if z <= 50.0 => power(2.3, 0.27) * q_b,
        Setting::Coast => power(2.6, 0.19) * q_b,
        Setting::NorthSeaIslands if z <= 2.0 => 1.1,
        Setting::NorthSeaIslands => power(1.5, 0.19),
    };
    Ok(Pressure::from_kn_per_m2(q_p) * altitude_factor(altitude)?)
}

/// `q_p / q_b`: peak pressure over a single terrain category in Germany.
///
/// DIN EN 1991-1-4/NA:2010-12, Table NA.B.2, `c (z/10)^n` not below the plateau.
///
/// From memory; category III at 40 m agrees with one printed gust speed, which does not separate
/// `c` from `n`.
///
/// # Errors
/// [`NotCovered`] above 300 m and for category 0, which the annex does not have.
pub fn terrain_peak_factor(category: TerrainCategory, z: Length) -> Result<f64, NotCovered> {
    let clause = Clause::new(WIND, "Table NA.B.2");
    clause.covers((0.0..=300.0).contains(&z.m()), "0 m <= z <= 300 m")?;
    let (c, n, plateau) = match category {
        TerrainCategory::Zero => {
            return Err(NotCovered { clause, condition: "terrain category I to IV" });
        }
        TerrainCategory::I => (2.6, 0.19, 1.9),
        TerrainCategory::Ii => (2.1, 0.24, 1.7),
        TerrainCategory::Iii => (1.6, 0.31, 1.5),
        TerrainCategory::Iv => (1.1, 0.40, 1.3),
    };
    Ok(f64::max(c * (z.m() / 10.0).powf(n), plateau))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_silent_beyond_its_rows() {
        let m = Length::from_m;
        let at = |zone, setting, height, altitude| {
            peak_pressure(zone, setting, m(height), m(altitude)).is_ok()
        };
        assert!(at(WindZone::Z2, Setting::Coast, 25.0, 0.0));
        assert!(!at(WindZone::Z1, Setting::Coast, 8.0, 0.0));
        assert!(!at(WindZone::Z2, Setting::Inland, 25.1, 0.0));
        assert!(!at(WindZone::Z4, Setting::NorthSeaIslands, 10.1, 0.0));
        assert!(!at(WindZone::Z2, Setting::Inland, 8.0, 1100.1));
        assert!(ground_snow_load(SnowZone::Z3, m(1500.1)).is_err());
    }

    #[test]
    fn the_altitude_factor_starts_without_a_step() {
        let near = |a: f64| altitude_factor(Length::from_m(a));
        assert_eq!(near(800.0), Ok(1.0));
        assert!(near(800.1).is_ok_and(|f| f > 1.0 && f < 1.001));
    }
}
