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

pub mod de;
pub mod en;

use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::vocabulary::{
    GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, WindSite,
};
use crate::units::{Density, Length};

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

/// Every choice the standards leave to a country and this crate makes use of.
#[derive(Debug, Clone, Copy)]
pub struct Annex {
    /// Two capital letters a request asks for, `"DE"`; `"EN"` are the recommended values.
    pub code: &'static str,
    /// Name for people.
    pub title: &'static str,
    /// Changes whenever any value of this annex changes, `"DE-1"`.
    pub revision: &'static str,
    /// `γ_F`: EN 1990 Table A1.2(B).
    pub partial_factors: PartialFactors,
    /// `K_FI` by consequence class: EN 1990 Annex B, Table B3, where the country makes use of it.
    /// Low, medium, high.
    pub consequence_factors: [f64; 3],
    /// `ψ_0` of wind: EN 1990 Table A1.1.
    pub psi_0_wind: f64,
    /// `ψ_0` of snow up to [`Self::snow_altitude_limit`]: EN 1990 Table A1.1.
    pub psi_0_snow_low: f64,
    /// `ψ_0` of snow above [`Self::snow_altitude_limit`]: EN 1990 Table A1.1.
    pub psi_0_snow_high: f64,
    /// Altitude above which snow counts as lasting: EN 1990 Table A1.1.
    pub snow_altitude_limit: Length,
    /// `C_esl`: exceptional over characteristic ground snow, EN 1991-1-3, 4.3, Eq. (4.1).
    pub exceptional_snow_factor: f64,
    /// Altitude from which snow overhangs the eaves: EN 1991-1-3, 6.3(1).
    pub eaves_snow_above: Length,
    /// Greatest `k` of snow over the eaves: EN 1991-1-3, 6.3(2).
    pub eaves_snow_k: f64,
    /// `s_k` of a site described by its place on a map: EN 1991-1-3, 4.1(1).
    pub ground_snow: fn(&SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>>,
    /// Ways of describing the snow on the ground that this annex understands.
    pub snow_ways: &'static [&'static [SiteField]],
    /// `q_p` at the ridge of a building whose wind is described by zone or by velocity:
    /// EN 1991-1-4, 4.5(1).
    pub peak_pressure: fn(&WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>>,
    /// Ways of describing the wind that this annex understands.
    pub wind_ways: &'static [&'static [SiteField]],
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
    /// `k_cr`, how much of the width of cracked timber carries shear: EN 1995-1-1, 6.1.7(2).
    pub k_cr_rule: CrackFactorRule,
    /// `γ_M1` of aluminium members: EN 1999-1-1 Table 6.1.
    pub gamma_m1_aluminium: f64,
    /// `γ_M2` of steel failing in tension: EN 1993-1-8 Table 2.1, EN 1993-1-4, 5.1.
    pub gamma_m2_steel: f64,
}

/// Every annex there is, in alphabetical order of codes.
pub const ALL: &[&Annex] = &[&de::ANNEX, &en::ANNEX];

/// The values the standards themselves recommend.
pub const RECOMMENDED: &Annex = &en::ANNEX;

/// Values that stood in an annex before, the newest first. A job computed by them can be computed by
/// them again; whatever changes in an annex leaves its former values here.
pub const EARLIER: &[&Annex] = &[&de::DE_2, &de::DE_1, &en::EN_1];

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
