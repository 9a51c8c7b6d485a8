//! Request: rule set and site.

use crate::wire::enumeration::enumeration;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// Which rules the job is computed by.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct RulesChoice {
    /// Family of standards.
    pub family: RulesFamily,
    /// National annex: `AT`, `BE`, `CZ`, `DE`, `DK`, `FI`, `FR`, `GB`, `GR`, `HU`, `IT`, `NL`, `NO`, `PL`, `PT`,
    /// `SE` for the Swedish rules, or `EN` for the recommended values. In Spain the building code, `ES-CTE`,
    /// and the annexes to the Eurocodes, `ES-UNE`, stand side by side and differ, in snow by a quarter: the
    /// job says which it follows.
    #[schema(min_length = 2, max_length = 8, example = "DE")]
    pub annex: String,
    /// Revision of the rule set, one of those listed by `GET /v1/rules`; absent = the newest. An earlier
    /// one serves to follow a past job, and the answer warns that it has been replaced.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_length = 32, example = "DE-1")]
    pub revision: Option<String>,
}

enumeration! {
    /// Family of standards.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum RulesFamily {
        /// EN 1990, EN 1991, EN 1995, EN 1999, first generation.
        Eurocode,
    }
}

/// The place and how it is exposed.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Site {
    /// Altitude of the ground above sea level, m.
    #[schema(minimum = -50, maximum = 3000, example = 380.0)]
    pub altitude_m: f64,
    /// Where the site lies on the maps of the annex, for their zones: in `FR` the INSEE code of the commune, or the
    /// number of its department, in `IT` the two letters of the province. A zone that is not given is that of the
    /// place where all of it lies in one, and is asked for where it lies in several; one that is given has to be
    /// one of them. In `ES-CTE` the name of the capital of a province, whose ground load DB SE-AE, Table 3.8, has:
    /// it takes the place of a zone of snow, for sites from 150 m below to 50 m above the altitude the table has
    /// for the capital. Other annexes have no list.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, min_length = 1, max_length = 32, example = "24322")]
    pub place: Option<String>,
    /// Snow on the ground.
    pub snow: SnowSite,
    /// Wind.
    pub wind: WindSite,
    /// Exposure coefficient `Ce` (EN 1991-1-3 5.2(7)): 0.8 windswept, 1.0 normal, 1.2 sheltered; in `FR` 1.0,
    /// or 1.25 sheltered; in `IT` 0.9, 1.0 and 1.1; in `BE`, `GB` and `NL` 1.0. In
    /// `ES-CTE` the other way round: 0.8 sheltered, 1.0 normal, 1.2 strongly exposed. Assumed 1.0.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.5, maximum = 2, example = 1.0)]
    pub exposure_factor: Option<f64>,
    /// Thermal coefficient `Ct` (EN 1991-1-3 5.2(8)); in `BE`, `GB` and `NL` 1.0, in
    /// `ES-CTE` not below. Assumed 1.0.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.5, maximum = 1.2, example = 1.0)]
    pub thermal_factor: Option<f64>,
    /// Snow is kept from sliding off by a guard, a parapet or another roof below. Assumed where an
    /// obstacle is a guard, or a wall or valley runs along the lower edge; otherwise assumed false.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = false)]
    pub snow_held: Option<bool>,
    /// Consequence class (EN 1990 Annex B); in `SE` `CC1` to `CC3` stand for safety classes 1 to 3.
    /// Assumed CC2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub consequence_class: Option<ConsequenceClass>,
}

enumeration! {
    /// Consequence class of EN 1990, Annex B.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    pub enum ConsequenceClass {
        /// Low consequences, such as farm buildings where people do not normally enter.
        CC1,
        /// Ordinary buildings.
        CC2,
        /// High consequences, such as public buildings.
        CC3,
    }
}

/// Snow on the ground: give **one** of `ground_load_kn_per_m2`, `zone` (a country's zone), or
/// `region` with `zone` (EN 1991-1-3 Annex C). In `NL` none is needed: it is the same everywhere; nor in
/// `BE` and `HU`, where it follows the altitude. In `AT`, `DK`, `FI`, `NO` and `SE` only the load serves.
/// Where `site.place` lies in one zone, that one is meant; in `ES-CTE` the load is that of the capital it names.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct SnowSite {
    /// Snow zone: in `DE` one of `1 1a 2 2a 3`, in `CZ` one of `I II III IV V VI VII`, in `ES-CTE` and `ES-UNE` one
    /// of `1` to `7`, in `FR` one of `A1 A2 B1 B2 C1 C2 D E`, in `GB` and `PL` one of `1 2 3 4 5`, in `GR` one of
    /// `1 2 3`, in `IT` one of `IA IM II III`, Alpine and Mediterranean being of zone I, in `PT` one of
    /// `Z1 Z2 Z3`; with `region` the zone number of Annex C, such as `2` or `4.5`. In zone `VIII` of `CZ` the
    /// ground load is given instead.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_length = 8, example = "2")]
    pub zone: Option<String>,
    /// Climatic region of EN 1991-1-3 Annex C, for annex `EN`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub region: Option<ClimateRegion>,
    /// Characteristic ground snow load `sk`, kN/m². Exceptional snow is then to be said as well.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 30, example = 1.14)]
    pub ground_load_kn_per_m2: Option<f64>,
    /// The site lies where exceptional snow must be considered (EN 1991-1-3 4.3); in `DE` the
    /// North German Plain. In `FR` the zone says. Absent elsewhere: no combination has any, and the answer
    /// is incomplete.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = false)]
    pub exceptional: Option<bool>,
    /// Exceptional ground snow load `sAd`, kN/m²; needed with `exceptional: true` in annexes that have no
    /// factor for it. Absent: by the annex. Not beside a zone that says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 60, example = 1.8)]
    pub exceptional_load_kn_per_m2: Option<f64>,
}

enumeration! {
    /// Climatic regions of EN 1991-1-3 Annex C.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    #[expect(missing_docs, reason = "the names are the map's own")]
    pub enum ClimateRegion {
        Alpine,
        CentralEast,
        Greece,
        Iberian,
        Mediterranean,
        CentralWest,
        SwedenFinland,
        UkIreland,
    }
}

/// Wind: give **one** of `zone` with `setting` or `terrain_category`, as the annex reads its zones,
/// `basic_velocity_m_per_s` with `terrain_category`, in `GB` with `shore_distance_km`, or
/// `peak_pressure_kn_per_m2`. In `AT`, `BE`, `DK`, `GB`, `HU` and `SE` there are no zones; in `DK`
/// `shore_distance_km` serves in place of the velocity; in `NO` a zone goes beside it.
/// Where `site.place` lies in one zone, that one is meant.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct WindSite {
    /// Wind zone of the country: in `DE` one of `1 2 3 4`, with `setting`; in `CZ` one of `I II III IV V`, in
    /// `ES-CTE` and `ES-UNE` one of `A B C`, in `FR` one of `1 2 3 4`, in `IT` one of `1` to `9`, in `NL` one of `I II III`, in `PL` one of `1 2 3`, in `PT` `A` or `B`, in `GR` `coast` or `inland`, in `FI`
    /// `mainland`, with `terrain_category`. In `NO`
    /// `south`, where the ground is higher than 400 m, with `basic_velocity_m_per_s` and `terrain_category`:
    /// from which altitude the wind rises is known of that region alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_length = 8, example = "2")]
    pub zone: Option<String>,
    /// Where in the zone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub setting: Option<WindSetting>,
    /// Basic wind velocity `vb`, 10 minute mean at 10 m over open country, m/s; in `NO` that of the
    /// municipality, `vb,0`, in `GB` that of the map, which the altitude raises.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 5, maximum = 80, example = 25.0)]
    pub basic_velocity_m_per_s: Option<f64>,
    /// Terrain category of EN 1991-1-4 Table 4.1; in `FR` one of `0 II IIIa IIIb IV`, in `NL` one of
    /// `0 II III`: coast, rural, built-up; in `AT` one of `II III IV`; in `IT` the exposure category
    /// of NTC 3.3.7, one of `I II III IV V`, which is not the terrain alone; in `ES-CTE` the degree of roughness of
    /// DB SE-AE Table D.2, one of `I II III IV V`, where III is II here and IV is III; in `PT` one of
    /// `I II III IV`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub terrain_category: Option<TerrainCategory>,
    /// Distance from the shore, km. In `GB` upwind, of the direction in which it is shortest, with
    /// `basic_velocity_m_per_s`, for `terrain_category`: the country up to the house counts as open. In `DK` from
    /// the North Sea or Ringkøbing Fjord, whichever is nearer, with `terrain_category`, for
    /// `basic_velocity_m_per_s`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 500, example = 12.0)]
    pub shore_distance_km: Option<f64>,
    /// Orography factor `co` (EN 1991-1-4 4.3.3; in `IT` `ct`). Assumed 1.0. Not with a peak pressure, which
    /// includes it; not above 1 in `AT`, `ES-CTE` and `PL`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1, maximum = 2, example = 1.0)]
    pub orography_factor: Option<f64>,
    /// Peak velocity pressure `qp` at ridge height, kN/m².
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 10, example = 0.65)]
    pub peak_pressure_kn_per_m2: Option<f64>,
    /// How the pressure on a module follows from the pressure on the roof. Assumed `roof_surface`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub model: Option<WindModel>,
    /// Net coefficients for `model: given`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub net_coefficients: Option<NetCoefficients>,
    /// Shares of the coefficients of the roof that act on a module, for `model: equalised`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub equalisation: Option<Equalisation>,
    /// Area at which the coefficients for the fixings are read (EN 1991-1-4 7.2.1): hooks, their
    /// screws, clamps, and the rails on them. Assumed `fixing`. Has no place beside
    /// `model: given`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub loaded_area: Option<LoadedArea>,
}

/// Area at which the coefficients for the fixings are read. Modules are judged at their own area
/// whatever is said here, rafters at what they carry.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct LoadedArea {
    /// What the area is.
    pub basis: LoadedAreaBasis,
    /// The area, m²; with `basis: given` and only there. EN 1991-1-4 7.2.1 has no coefficients
    /// for less than 1 m².
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1, maximum = 100, example = 1.6)]
    pub area_m2: Option<f64>,
    /// Why it may be larger than 1 m², in the words of who answers for it; with `basis: given`
    /// and only there. Repeated in the answer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(
        nullable = false,
        min_length = 1,
        max_length = 500,
        example = "bay of 1.8 m times half a module"
    )]
    pub reason: Option<String>,
}

enumeration! {
    /// What the loaded area of a fixing is.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum LoadedAreaBasis {
        /// 1 m², as for small elements and fixings.
        Fixing,
        /// The area of one module.
        Module,
        /// The area given here, with its reason.
        Given,
    }
}

enumeration! {
    /// Setting inside a wind zone, where the annex distinguishes one.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum WindSetting {
        /// Away from the coast.
        Inland,
        /// A strip along the coast, and islands of the Baltic Sea.
        Coast,
        /// Islands of the North Sea.
        NorthSeaIslands,
    }
}

enumeration! {
    /// Terrain categories of EN 1991-1-4 Table 4.1, and those that countries have in their place.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    pub enum TerrainCategory {
        /// Sea or coast open to the sea.
        #[serde(rename = "0")]
        Zero,
        /// Lakes or flat country without obstacles.
        I,
        /// Low vegetation and single obstacles.
        II,
        /// Regular cover of vegetation or buildings: villages, suburbs, woods.
        III,
        /// Country with hedges, vineyards, scattered houses: in `FR` for III.
        IIIa,
        /// Built-up or industrial areas, woods, orchards: in `FR` for III.
        IIIb,
        /// At least 15 % covered with buildings of more than 15 m on average.
        IV,
        /// The roughest of those annexes that count as far, `ES-CTE` and `IT`.
        V,
    }
}

enumeration! {
    /// How the pressure on a module follows from the pressure on the roof.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum WindModel {
        /// The module takes the external coefficient of the roof zone it lies in, in full.
        RoofSurface,
        /// The module takes a share of that coefficient, for the pressure below it follows the one above:
        /// the share is the caller's, with its evidence.
        Equalised,
        /// The caller gives the net coefficients, for example from a wind-tunnel report.
        Given,
    }
}

/// Shares of the external coefficients that act on modules, of every zone and direction, and who
/// measured them. The covering beside the array takes its coefficients in full.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Equalisation {
    /// Factor on coefficients that lift.
    #[schema(minimum = 0.1, maximum = 2, example = 0.6)]
    pub suction_factor: f64,
    /// Factor on coefficients that press.
    #[schema(minimum = 0.1, maximum = 2, example = 1.0)]
    pub pressure_factor: f64,
    /// The test or approval the factors come from, and the arrays it holds for. Repeated among the
    /// assumptions.
    #[schema(
        min_length = 1,
        max_length = 500,
        example = "wind-tunnel report 17, arrays 100 mm above pitched tiled roofs"
    )]
    pub evidence: String,
}

/// Net pressure coefficients of a module, given by the caller, for every direction and place.
#[derive(Debug, Clone, Copy, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct NetCoefficients {
    /// Lifting coefficient, zero or negative.
    #[schema(minimum = -10, maximum = 0, example = -0.9)]
    pub suction: f64,
    /// Pressing coefficient, zero or positive.
    #[schema(minimum = 0, maximum = 5, example = 0.5)]
    pub pressure: f64,
}
