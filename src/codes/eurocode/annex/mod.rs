//! What a country may choose: one [`Annex`] per country, one field per choice.
//!
//! A new choice is a new field, and then nothing compiles until every country has answered it.
//! What a country computes in its own way (ground snow, peak pressure) is a field too, a function;
//! tables that only one country has (zones, heights) live with that country. So a country is one
//! file here, its row in [`ALL`], and its cases.
//!
//! **Units.** As named by the types; plain numbers are factors.
//!
//! **Layer.** Part of `codes`; reads its vocabulary and the clause files.

/// What a map or table of an annex tells apart: zones, settings, terrains, each as the annex spells it.
macro_rules! spelled {
    (
        $(#[$doc:meta])*
        $name:ident { $($(#[$of:meta])* $variant:ident = $text:literal),+ $(,)? }
    ) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $name {
            $($(#[$of])* $variant),+
        }

        impl $name {
            /// Every name there is.
            pub const NAMES: &'static [&'static str] = &[$($text),+];

            /// Reads the annex's own spelling.
            #[must_use]
            pub fn parse(text: &str) -> Option<Self> {
                match text {
                    $($text => Some(Self::$variant),)+
                    _ => None,
                }
            }
        }
    };
}

pub mod at;
pub mod be;
pub mod cz;
pub mod de;
pub mod dk;
pub mod en;
pub mod es;
pub mod es_capitals;
pub mod es_cte;
pub mod es_une;
pub mod fi;
pub mod fr;
pub mod fr_departments;
pub mod gb;
pub mod gr;
pub mod hu;
pub mod it;
pub mod it_provinces;
pub mod nl;
pub mod no;
pub mod pl;
pub mod places;
pub mod pt;
pub mod se;

use crate::codes::eurocode::en1991_1_4_2005::tables::RoofTables;
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Angle, Density, Force, Length, LineLoad, Pressure};
use places::Places;

/// `γ_F`: partial factors on actions, structural failure (set B).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartialFactors {
    /// `γ_G,sup`: permanent action that makes things worse. EN 1990 Table A1.2(B); 1.35.
    pub permanent_unfavourable: f64,
    /// `γ_G,inf`: permanent action that helps. EN 1990 Table A1.2(B); 1.00.
    pub permanent_favourable: f64,
    /// `γ_Q`: variable action that makes things worse. EN 1990 Table A1.2(B); 1.50.
    pub variable: f64,
}

/// Which rule combines actions for strength, with its partial factors: EN 1990, 6.4.3.2(3).
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Strength {
    /// Eq. (6.10).
    Single {
        /// `γ_F`: EN 1990 Table A1.2(B).
        factors: PartialFactors,
        /// `K_FI` by consequence class, on what is unfavourable: EN 1990 Annex B, Table B3, where the
        /// country makes use of it. Low, medium, high.
        consequence: [f64; 3],
    },
    /// The less favourable of Eqs. (6.10a) and (6.10b).
    Pair {
        /// Their factors: low, medium, high class.
        by_class: [PairFactors; 3],
        /// Where they stand: (6.10a), then (6.10b).
        clauses: [Clause; 2],
    },
}

/// Where the pair stands that countries choose from the standard.
pub const PAIR_OF_EN_1990: [Clause; 2] = [
    Clause::new("EN 1990:2002", "6.4.3.2, Eq. (6.10a)"),
    Clause::new("EN 1990:2002", "6.4.3.2, Eq. (6.10b)"),
];

/// `γ_F` of one consequence class, as the annex prints them: `K_FI` and `ξ` are in them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PairFactors {
    /// Eq. (6.10a): much weight, and of every variable action what accompanies.
    pub heavy: PartialFactors,
    /// Eq. (6.10b): less weight, and one variable action in full.
    pub light: PartialFactors,
}

/// Least value of a coefficient in a country.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Least {
    /// The value.
    pub value: f64,
    /// The rule, for whoever asks for less.
    pub rule: NotCovered,
}

/// How snow lies on roofs by the law of a country, and where that stands.
#[derive(Debug, Clone, Copy)]
pub struct RoofSnowLaw {
    /// `μ` of a slope of a pitch, and of one that keeps its snow (`true`).
    pub shape: fn(Angle, bool) -> f64,
    /// Of [`Self::shape`].
    pub shape_clause: Clause,
    /// Of the exposure factor.
    pub exposure_clause: Clause,
    /// Of the load on the roof, from `μ` and the load on the ground.
    pub roof_clause: Clause,
    /// `μ` in a valley between slopes of two pitches.
    pub valley: fn([Angle; 2]) -> Result<f64, NotCovered>,
    /// How far beside the valley, on plan, it is that everywhere.
    pub valley_reach: Length,
    /// Of [`Self::valley`].
    pub valley_clause: Clause,
    /// Whether EN 1991-1-3, 5.3.6, may stand in for drifts against a taller roof of a pitch.
    pub wall: fn(Angle) -> Result<(), NotCovered>,
    /// What lies along the eaves, from `μ` of the slope and the load at a coefficient of 1.
    pub eaves: fn(f64, Pressure) -> LineLoad,
    /// Of [`Self::eaves`].
    pub eaves_clause: Clause,
}

/// Snow that the wind carries over a ridge, where a country has its own coefficient in place of the whole
/// and half of EN 1991-1-3, Figure 5.3.
#[derive(Debug, Clone, Copy)]
pub struct DriftedShape {
    /// Of the slope that gathers it, by its pitch.
    pub factor: fn(Angle) -> f64,
    /// Where it stands.
    pub clause: Clause,
}

/// Every choice the standards leave to a country and this crate makes use of.
#[derive(Debug, Clone, Copy)]
pub struct Annex {
    /// Two capital letters a request asks for, `"DE"`; `"EN"` are the recommended values. Where a country
    /// has two sets of rules side by side, each names itself behind a hyphen.
    pub code: &'static str,
    /// Name for people.
    pub title: &'static str,
    /// Changes whenever any value of this annex changes, `"DE-1"`.
    pub revision: &'static str,
    /// How actions are combined for strength: EN 1990, 6.4.3.2(3).
    pub strength: Strength,
    /// How well [`Self::strength`] and the combination factors below are known.
    pub combination_evidence: Evidence,
    /// `ψ_0` of wind: EN 1990 Table A1.1.
    pub psi_0_wind: f64,
    /// `ψ_0` of snow up to [`Self::snow_altitude_limit`]: EN 1990 Table A1.1.
    pub psi_0_snow_low: f64,
    /// `ψ_0` of snow above [`Self::snow_altitude_limit`]: EN 1990 Table A1.1.
    pub psi_0_snow_high: f64,
    /// Altitude above which snow counts as lasting: EN 1990 Table A1.1.
    pub snow_altitude_limit: Length,
    /// `ψ` of the wind beside an accidental action: EN 1990, Eq. (6.11b), where `ψ_2` of wind is 0.
    pub psi_wind_accidental: f64,
    /// `C_esl`: exceptional over characteristic ground snow, EN 1991-1-3, 4.3, Eq. (4.1). None where a
    /// map has the load, or where nothing is known and the caller has to give it.
    pub exceptional_snow_factor: Option<f64>,
    /// Shape coefficient of drifted snow on a roof with two faces: EN 1991-1-3, 5.3.3(4). None where it
    /// is that of even snow.
    pub drifted_shape: Option<DriftedShape>,
    /// Least `C_e`, where the country has one: EN 1991-1-3, 5.2(7).
    pub least_exposure: Option<Least>,
    /// Least `C_t`, where the country has one: EN 1991-1-3, 5.2(8).
    pub least_thermal: Option<Least>,
    /// `Q_k` of a person at work on a roof: EN 1991-1-1, 6.3.4.2, Table 6.10.
    pub maintenance_force: Force,
    /// Altitude from which snow overhangs the eaves: EN 1991-1-3, 6.3(1).
    pub eaves_snow_above: Length,
    /// Greatest `k` of snow over the eaves: EN 1991-1-3, 6.3(2).
    pub eaves_snow_k: f64,
    /// How snow lies on roofs, in a country whose law has rules of its own: EN 1991-1-3, 5.2, 5.3 and 6.3.
    pub roof_snow_law: Option<RoofSnowLaw>,
    /// `s_k` of a site described by its place on a map: EN 1991-1-3, 4.1(1).
    pub ground_snow: fn(&SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>>,
    /// Ways of describing the snow on the ground that this annex understands.
    pub snow_ways: &'static [&'static [SiteField]],
    /// `q_p` at the ridge of a building whose wind is described by zone or by velocity:
    /// EN 1991-1-4, 4.5(1).
    pub peak_pressure: fn(&WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>>,
    /// Ways of describing the wind that this annex understands.
    pub wind_ways: &'static [&'static [SiteField]],
    /// Places whose zones are known, where a list of them is.
    pub places: Option<&'static Places>,
    /// External pressure coefficients of roofs: EN 1991-1-4, 7.2.4 to 7.2.6.
    pub roof_tables: RoofTables,
    /// `ρ` of air: EN 1991-1-4, 4.5(1), note 2.
    pub air_density: Density,
    /// Duration class of snow up to the altitude limit: EN 1995-1-1, 2.3.1.2(2).
    pub snow_duration_low: LoadDuration,
    /// Duration class of snow above the altitude limit: EN 1995-1-1, 2.3.1.2(2).
    pub snow_duration_high: LoadDuration,
    /// Duration class of wind: EN 1995-1-1, 2.3.1.2(2).
    pub wind_duration: LoadDuration,
    /// `γ_M` of timber connections: EN 1995-1-1 Table 2.3.
    pub gamma_m_connections: f64,
    /// `γ_M` of solid timber: EN 1995-1-1 Table 2.3.
    pub gamma_m_solid_timber: f64,
    /// `γ_M` of any timber or connection in accidental combinations: EN 1995-1-1 Table 2.3.
    pub gamma_m_accidental: f64,
    /// Where `k_mod` and `γ_M` of timber stand, in this order, in a country whose law has them itself.
    pub timber_law: Option<[Clause; 2]>,
    /// `k_cr`, how much of the width of cracked timber carries shear: EN 1995-1-1, 6.1.7(2).
    pub k_cr_rule: CrackFactorRule,
    /// `γ_M1` of aluminium members: EN 1999-1-1 Table 6.1.
    pub gamma_m1_aluminium: f64,
    /// `γ_M0` of structural steel, by which that of stainless steel is multiplied: EN 1993-1-1, 6.1(1).
    pub gamma_m0_steel: f64,
    /// `γ_M2` of steel failing in tension: EN 1993-1-8 Table 2.1, EN 1993-1-4, 5.1.
    pub gamma_m2_steel: f64,
}

/// Every annex there is, in alphabetical order of codes.
pub const ALL: &[&Annex] = &[
    &at::ANNEX,
    &be::ANNEX,
    &cz::ANNEX,
    &de::ANNEX,
    &dk::ANNEX,
    &en::ANNEX,
    &es_cte::ANNEX,
    &es_une::ANNEX,
    &fi::ANNEX,
    &fr::ANNEX,
    &gb::ANNEX,
    &gr::ANNEX,
    &hu::ANNEX,
    &it::ANNEX,
    &nl::ANNEX,
    &no::ANNEX,
    &pl::ANNEX,
    &pt::ANNEX,
    &se::ANNEX,
];

/// The values the standards themselves recommend.
pub const RECOMMENDED: &Annex = &en::ANNEX;

/// Values that stood in an annex before, the newest first. A job computed by them can be computed by
/// them again; whatever changes in an annex leaves its former values here.
pub const EARLIER: &[&Annex] = &[&de::DE_3, &de::DE_2, &de::DE_1, &en::EN_1, &be::BE_1];

/// The annex with this code, letter case as printed (`"DE"`, not `"de"`).
#[must_use]
pub fn find(code: &str) -> Option<&'static Annex> {
    ALL.iter().copied().find(|annex| annex.code == code)
}

/// Every revision of the annex with this code, the newest first.
pub fn revisions(code: &str) -> impl Iterator<Item = &'static Annex> {
    ALL.iter().chain(EARLIER).copied().filter(move |annex| annex.code == code)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_unique_and_found() {
        for (i, annex) in ALL.iter().enumerate() {
            assert_eq!(find(annex.code).map(|found| found.title), Some(annex.title));
            assert!(ALL[i + 1..].iter().all(|other| other.code != annex.code));
            for (i, earlier) in revisions(annex.code).enumerate() {
                let number = earlier.revision.strip_prefix(annex.code).expect("its code");
                assert!(number.starts_with('-'));
                let twins = revisions(annex.code).filter(|r| r.revision == earlier.revision);
                assert_eq!(twins.count(), 1, "{} stands here twice", earlier.revision);
                assert_eq!(i == 0, earlier.revision == annex.revision);
            }
        }
        assert!(find("ZZ").is_none());
    }
}
