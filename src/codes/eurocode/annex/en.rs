//! Recommended values: what the standards print in their notes when no country speaks.

use super::{Annex, GroundSnowRule, PartialFactors, WindPressureRule};
use crate::codes::eurocode::en1995_1_1_2004::timber::{CrackFactorRule, LoadDuration};
use crate::units::{Density, Length};

/// The recommended values.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "EN",
    title: "Recommended values",
    revision: "EN-1",
    // EN 1990:2002+A1 Table A1.2(B). Confirmed: a public library and a textbook agree.
    partial_factors: PartialFactors {
        permanent_unfavourable: 1.35,
        permanent_favourable: 1.00,
        variable: 1.50,
    },
    // EN 1990:2002+A1 Table A1.1. Confirmed: a public library and a national summary agree.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // EN 1991-1-3:2003, 4.3(1). Confirmed: printed worked example (0.65 becomes 1.30).
    exceptional_snow_factor: 2.0,
    // EN 1991-1-3:2003 Annex C. From memory.
    ground_snow: GroundSnowRule::AnnexC,
    wind_pressure: WindPressureRule::HeightProfile,
    // EN 1991-1-4:2005, 4.5(1) note 2. Confirmed: worked examples and three libraries.
    air_density: Density::from_kg_per_m3(1.25),
    // EN 1995-1-1:2004 Table 2.2 lists snow under both short and medium term and wind under
    // short term. From memory; the altitude as the border follows the practice of most annexes.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // EN 1995-1-1:2004 Table 2.3. Confirmed: a public library and a printed handbook.
    gamma_m_connections: 1.3,
    gamma_m_solid_timber: 1.3,
    gamma_m_accidental: 1.0,
    // EN 1995-1-1:2004+A1:2008, 6.1.7(2). Confirmed in one clause-by-clause library.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // EN 1999-1-1:2007 Table 6.1. Confirmed: a printed teaching example.
    gamma_m1_aluminium: 1.10,
    // EN 1993-1-8:2005 Table 2.1. From memory.
    gamma_m2_steel: 1.25,
};
