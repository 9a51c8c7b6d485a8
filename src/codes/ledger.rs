//! Every rule the crate knows, where it stands, how far it was confirmed and whether answers rest on
//! it: what `GET /v1/rules` shows, and what `tests/sources.rs` compares with the code.
//!
//! The printed standards were not at hand. "Confirmed" means that sources that do not copy each
//! other agree, or that a printed worked example was reproduced; never that the clause was read.

use super::Clause;

/// How a rule was confirmed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Confirmation {
    /// By two or more independent sources, or a printed example: which.
    Confirmed(&'static str),
    /// By a single source, or a part of it by no more than one: which.
    OneSource(&'static str),
    /// In part; the rest is written from memory: which is which.
    PartlyFromMemory(&'static str),
    /// Not confirmed.
    FromMemory,
}

/// Whether answers rest on a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Usage {
    /// Requests are computed by it.
    Applied,
    /// Written and tested, but no request leads to it.
    Available,
}

/// One rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Entry {
    /// Where it stands.
    pub clause: Clause,
    /// What it gives, in words.
    pub quantity: &'static str,
    /// The function or value set, as a path below `codes`.
    pub function: &'static str,
    /// How it was confirmed.
    pub confirmed: Confirmation,
    /// Whether answers rest on it.
    pub usage: Usage,
}

impl Entry {
    /// The same rule, not in use.
    const fn available(self) -> Self {
        Self { usage: Usage::Available, ..self }
    }
}

const BASIS: &str = "EN 1990:2002+A1:2005";
const IMPOSED: &str = "EN 1991-1-1:2002";
const SNOW: &str = "EN 1991-1-3:2003+A1:2015";
const WIND: &str = "EN 1991-1-4:2005+A1:2010";
const TIMBER: &str = "EN 1995-1-1:2004+A1:2008";
const CLASSES: &str = "EN 338:2016";
const STEEL: &str = "EN 1993-1-1:2005";
const STEEL_JOINTS: &str = "EN 1993-1-8:2005";
const ALUMINIUM: &str = "EN 1999-1-1:2007+A1:2009";
const DOWELS: &str = "AWC TR12 (2015)";
const DE_SNOW: &str = "DIN EN 1991-1-3/NA:2019-04";
const DE_WIND: &str = "DIN EN 1991-1-4/NA:2010-12";
const CZ_SNOW: &str = "ČSN EN 1991-1-3/NA";
const CZ_WIND: &str = "ČSN EN 1991-1-4/NA";
const ES_CODE: &str = "DB SE-AE";
const IT_LAW: &str = "NTC 2018";
const AT_SNOW: &str = "ÖNORM B 1991-1-3";
const AT_WIND: &str = "ÖNORM B 1991-1-4";
const BE_SNOW: &str = "NBN EN 1991-1-3 ANB";
const FI_WIND: &str = "SFS-EN 1991-1-4/NA";
const GB_SNOW: &str = "NA to BS EN 1991-1-3";
const GB_WIND: &str = "NA to BS EN 1991-1-4";
const GR_SNOW: &str = "ELOT EN 1991-1-3/NA";
const GR_WIND: &str = "ELOT EN 1991-1-4/NA";
const HU_SNOW: &str = "MSZ EN 1991-1-3/NA";
const PT_SNOW: &str = "NP EN 1991-1-3/NA";
const PT_WIND: &str = "NP EN 1991-1-4/NA";
const NO_WIND: &str = "NS-EN 1991-1-4/NA";
const NL_SNOW: &str = "NEN-EN 1991-1-3/NB";
const NL_WIND: &str = "NEN-EN 1991-1-4:2005+C2:2011/NB:2019";
const PL_SNOW: &str = "PN-EN 1991-1-3/NA";
const PL_WIND: &str = "PN-EN 1991-1-4/NA";
const FR_SNOW: &str = "NF EN 1991-1-3/NA";
const FR_WIND: &str = "NF EN 1991-1-4/NA";

const fn entry(
    document: &'static str,
    number: &'static str,
    quantity: &'static str,
    function: &'static str,
    confirmed: Confirmation,
) -> Entry {
    Entry {
        clause: Clause::new(document, number),
        quantity,
        function,
        confirmed,
        usage: Usage::Applied,
    }
}

use Confirmation::{Confirmed, FromMemory, OneSource, PartlyFromMemory};

/// Every rule, in the order of the files below `codes`.
#[rustfmt::skip]
pub const ENTRIES: &[Entry] = &[
    entry("ÖNORM B 1990-1 and following", "national choices", "Austrian values of the annex", "eurocode::annex::at::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(AT_SNOW, "NDP to 5.3.3(4)", "shape coefficient of snow drifted over a ridge", "eurocode::annex::at::drifted_shape_factor", OneSource("an open Austrian program")),
    entry(AT_WIND, "NDP to 4.5(1)", "exposure factor of a terrain", "eurocode::annex::at::exposure_factor", Confirmed("two open Austrian programs")),
    entry("NBN EN 1990 ANB and following", "national choices", "Belgian values of the annex", "eurocode::annex::be::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(BE_SNOW, "NDP to 4.1(1)", "ground snow by altitude", "eurocode::annex::be::ground_snow_load", OneSource("a page of snow loads")),
    entry("ČSN EN 1990/NA and following", "national choices", "Czech values of the annex", "eurocode::annex::cz::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(CZ_SNOW, "NDP to 4.1(1)", "ground snow by zone", "eurocode::annex::cz::ground_snow_load", Confirmed("three public pages, a library")),
    entry(CZ_WIND, "NDP to 4.2(1)P", "basic wind velocity by zone", "eurocode::annex::cz::basic_velocity", OneSource("a library; one zone by a public project as well")),
    entry("DIN EN 1990/NA and following", "national choices", "German values of the annex", "eurocode::annex::de::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(DE_SNOW, "NDP to 4.1(1)", "ground snow by zone and altitude", "eurocode::annex::de::ground_snow_load", Confirmed("four public pages, one worked figure")),
    entry(DE_WIND, "Table NA.A.1", "basic wind velocity by zone", "eurocode::annex::de::basic_velocity", Confirmed("several public pages")),
    entry(DE_WIND, "Table NA.B.3", "peak pressure by zone, setting and height", "eurocode::annex::de::peak_pressure", Confirmed("four public pages; above 800 m as altitude_factor")),
    entry(DE_WIND, "NDP to 4.2(1)", "rise of wind pressure with altitude", "eurocode::annex::de::altitude_factor", OneSource("printed guide to the predecessor DIN 1055-4:2005-03")),
    entry(DE_WIND, "NA.B.3.3", "peak pressure over height", "eurocode::annex::de::profile_pressure", FromMemory).available(),
    entry(DE_WIND, "Table NA.B.2", "peak pressure over one terrain category", "eurocode::annex::de::terrain_peak_factor", FromMemory).available(),
    entry("DS/EN 1990 DK NA:2024 and following", "national choices", "Danish values of the annex", "eurocode::annex::dk::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry("DS/EN 1991-1-4 DK NA", "NDP to 4.2(1)P", "basic wind velocity by the distance from the shore", "eurocode::annex::dk::basic_velocity", Confirmed("a public Danish program, a page of a Danish engineering office")),
    entry("EN 1990 and following", "recommended values", "recommended values of the annex", "eurocode::annex::en::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry("DB SE-AE and UNE-EN 1991-1-3/AN", "Table E.2, Table AN.2", "ground snow by zone and altitude", "eurocode::annex::es::ground_snow_load", Confirmed("two public programs, one of which transcribes the page")),
    entry("DB SE-AE and UNE-EN 1991-1-4/AN", "D.1", "basic wind velocity by zone", "eurocode::annex::es::basic_velocity", Confirmed("two public programs")),
    entry("DB SE, DB SE-AE and DB SE-M", "national choices", "values of the Spanish building code", "eurocode::annex::es_cte::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(ES_CODE, "D.1(4)", "basic velocity pressure by zone", "eurocode::annex::es_cte::basic_pressure", Confirmed("two public programs")),
    entry(ES_CODE, "Table D.2", "ground of a degree of roughness", "eurocode::annex::es_cte::ground_of", Confirmed("two public programs")),
    entry(ES_CODE, "Eqs. (D.2), (D.3)", "exposure coefficient", "eurocode::annex::es_cte::exposure_factor", Confirmed("two public programs, Table 3.4 to its digits")),
    entry(ES_CODE, "3.5.3(2)", "shape coefficient of a slope", "eurocode::annex::es_cte::shape_of_slope", OneSource("a program that transcribes the page")),
    entry(ES_CODE, "3.5.3(3)", "shape coefficient in a valley", "eurocode::annex::es_cte::shape_in_valley", OneSource("a program that transcribes the page")),
    entry(ES_CODE, "3.5.1(4)", "ice along eaves", "eurocode::annex::es_cte::ice_at_eaves", OneSource("a program that transcribes the page")),
    entry("UNE-EN 1990/AN and following", "national choices", "Spanish values of the annexes", "eurocode::annex::es_une::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry("SFS-EN 1990/NA and following", "national choices", "Finnish values of the annex", "eurocode::annex::fi::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(FI_WIND, "NDP to 4.2(1)P", "basic wind velocity by zone", "eurocode::annex::fi::basic_velocity", Confirmed("two public projects")),
    entry(FI_WIND, "Table 4.1", "terrain of a category", "eurocode::annex::fi::terrain_of", FromMemory),
    entry("NF EN 1990/NA and following", "national choices", "French values of the annex", "eurocode::annex::fr::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(FR_SNOW, "NDP to 4.1(1)", "ground snow by zone and altitude", "eurocode::annex::fr::ground_snow_load", Confirmed("a public page of zones, a library")),
    entry(FR_SNOW, "NDP to 4.3(1)", "exceptional ground snow by zone", "eurocode::annex::fr::exceptional_snow_load", Confirmed("a public page of zones, a library, a copy of the annex")),
    entry(FR_WIND, "NDP to 4.2(1)P", "basic wind velocity by zone", "eurocode::annex::fr::basic_velocity", Confirmed("a public page of zones, a library")),
    entry(FR_WIND, "Table 4.1(NA)", "terrain of a category", "eurocode::annex::fr::terrain_of", Confirmed("a public page, a library")),
    entry(FR_WIND, "NDP to 4.4(1)", "turbulence factor", "eurocode::annex::fr::turbulence_factor", OneSource("a library")),
    entry("NTC 2018 and its circular", "national choices", "Italian values of the annex", "eurocode::annex::it::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(IT_LAW, "3.4.2", "ground snow by zone and altitude", "eurocode::annex::it::ground_snow_load", Confirmed("three public codes, three pages, a library")),
    entry(IT_LAW, "3.3.1", "basic wind velocity by zone and altitude", "eurocode::annex::it::basic_velocity", Confirmed("the law's text, two programs, a library")),
    entry(IT_LAW, "Table 3.3.II", "ground of an exposure category", "eurocode::annex::it::ground_of", Confirmed("two programs, a library")),
    entry(IT_LAW, "3.3.7", "exposure factor of a category", "eurocode::annex::it::exposure_factor", Confirmed("four public programs, a library")),
    entry("NA to BS EN 1990 and following", "national choices", "British values of the annex", "eurocode::annex::gb::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed; the tables of roofs are stand-ins")),
    entry(GB_SNOW, "NDP to 4.1(1)", "ground snow by zone and altitude", "eurocode::annex::gb::ground_snow_load", Confirmed("a help page, a public collection of notebooks")),
    entry(GB_SNOW, "NDP to 5.3.3(4)", "shape coefficient of snow drifted over a ridge", "eurocode::annex::gb::drifted_shape_factor", OneSource("a public collection of notebooks")),
    entry(GB_WIND, "NDP to 4.2(2)P", "rise of the wind velocity with altitude", "eurocode::annex::gb::altitude_factor", Confirmed("two help documents, a worked article")),
    entry(GB_WIND, "Figure NA.7", "exposure factor of open country", "eurocode::annex::gb::exposure_factor", OneSource("a public program with the points of the chart; a worked article to 0.3 %")),
    entry("ELOT EN 1990/NA and following", "national choices", "Greek values of the annex", "eurocode::annex::gr::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(GR_SNOW, "NDP to 4.1(1)", "ground snow by zone and altitude", "eurocode::annex::gr::ground_snow_load", OneSource("a public Greek program")),
    entry(GR_WIND, "NDP to 4.2(1)P", "basic wind velocity by zone", "eurocode::annex::gr::basic_velocity", OneSource("a public Greek program")),
    entry("MSZ EN 1990/NA and following", "national choices", "Hungarian values of the annex", "eurocode::annex::hu::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(HU_SNOW, "NDP to 4.1(1)", "ground snow by altitude", "eurocode::annex::hu::ground_snow_load", OneSource("a public Hungarian program")),
    entry("NEN-EN 1990/NB and following", "national choices", "Dutch values and roof tables of the annex", "eurocode::annex::nl::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed; the table of hipped roofs is a stand-in")),
    entry(NL_SNOW, "NDP to 4.1(1)", "ground snow", "eurocode::annex::nl::ground_snow_load", Confirmed("several public sources")),
    entry(NL_WIND, "Table NB.1", "basic wind velocity by area", "eurocode::annex::nl::basic_velocity", Confirmed("two public sources, two printed pressures")),
    entry(NL_WIND, "Table NB.3-4.1", "terrain of a category", "eurocode::annex::nl::terrain_of", Confirmed("a public project, a public script")),
    entry("NS-EN 1990/NA and following", "national choices", "Norwegian values of the annex", "eurocode::annex::no::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(NO_WIND, "NA.4.2(2)P", "rise of the wind velocity with altitude", "eurocode::annex::no::altitude_factor", PartlyFromMemory("the formula and the heights of the south by two public programs; 400 m elsewhere by none")),
    entry(NO_WIND, "Table NA.4.1", "terrain of a category", "eurocode::annex::no::terrain_of", Confirmed("two public Norwegian programs")),
    entry("PN-EN 1990/NA and following", "national choices", "Polish values of the annex", "eurocode::annex::pl::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(PL_SNOW, "Table NB.1", "ground snow by zone and altitude", "eurocode::annex::pl::ground_snow_load", Confirmed("four public pages")),
    entry(PL_WIND, "Table NA.1", "basic wind velocity by zone and altitude", "eurocode::annex::pl::basic_velocity", Confirmed("a printed example, a public program")),
    entry(PL_WIND, "Table NA.1", "basic velocity pressure by zone and altitude", "eurocode::annex::pl::basic_pressure", Confirmed("a printed example, a public program")),
    entry(PL_WIND, "Table NA.3", "exposure factor of a terrain", "eurocode::annex::pl::exposure_factor", Confirmed("a printed example, a public program")),
    entry("NP EN 1990/NA and following", "national choices", "Portuguese values of the annex", "eurocode::annex::pt::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),
    entry(PT_SNOW, "NDP to 4.1(1)", "ground snow by zone and altitude", "eurocode::annex::pt::ground_snow_load", PartlyFromMemory("the zones' coefficients by a public library; how the altitude enters by none")),
    entry(PT_WIND, "NDP to 4.2(1)P", "basic wind velocity by zone", "eurocode::annex::pt::basic_velocity", OneSource("a public library")),
    entry(PT_WIND, "Table 4.1", "terrain of a category", "eurocode::annex::pt::terrain_of", OneSource("a public library")),
    entry("BFS 2024:6 and following", "national rules", "Swedish values", "eurocode::annex::se::ANNEX", PartlyFromMemory("each value says in the source code how it is confirmed")),

    entry(BASIS, "Table B3", "factor by consequence class", "eurocode::en1990_2002::consequence_factor", PartlyFromMemory("the recommended factors by a help page; which countries do not lower by none")),
    entry(BASIS, "Table A1.1", "combination factor of snow", "eurocode::en1990_2002::snow_combination_factor", Confirmed("a library, a national summary, a national law")),
    entry(BASIS, "(6.10) to (6.10b), (6.11b), (6.14b)", "combinations of actions", "eurocode::en1990_2002::combinations", PartlyFromMemory("a library and two summaries; (6.11b) by none")),

    entry(BASIS, "Annex D, Table D1", "factor by number of tests", "eurocode::en1990_2002_annex_d::fractile_factor", Confirmed("two public programs that print the table; a statistics quantile to within 0.02")),
    entry(BASIS, "Annex D, D7.2", "characteristic value of a series of tests", "eurocode::en1990_2002_annex_d::characteristic_value", PartlyFromMemory("the normal distribution by two public programs; the lognormal one and the least variation by none")),

    entry(IMPOSED, "6.3.4.2", "person at work on a roof", "eurocode::en1991_1_1_2002::maintenance_force", FromMemory),

    entry(SNOW, "Table 5.2", "shape coefficient of a slope", "eurocode::en1991_1_3_2003::shape_factor", Confirmed("three implementations, a printed example")),
    entry(SNOW, "Table 5.1", "exposure coefficient", "eurocode::en1991_1_3_2003::exposure_coefficient", Confirmed("a library and a help page")).available(),
    entry(SNOW, "5.2(3)P", "snow on the roof", "eurocode::en1991_1_3_2003::roof_load", Confirmed("a printed example, two worksheets")),
    entry(SNOW, "4.3(1)", "exceptional ground snow", "eurocode::en1991_1_3_2003::exceptional_ground_load", Confirmed("a printed example")),
    entry(SNOW, "5.3.3", "even and drifted arrangements", "eurocode::en1991_1_3_2003::duopitch_arrangements", Confirmed("a printed example, a library, a worked page")).available(),
    entry(SNOW, "5.2(5)", "snow in the roof's axes", "eurocode::en1991_1_3_2003::on_slope", FromMemory),
    entry(SNOW, "6.4", "force on a snow guard", "eurocode::en1991_1_3_2003::guard_force", PartlyFromMemory("the formula by an engineers' association and a library; the distance on plan by none")),
    entry(SNOW, "6.3(2)", "snow over the eaves", "eurocode::en1991_1_3_2003::eaves_overhang_load", OneSource("a library for the depth; two help documents for the rest")),
    entry(SNOW, "5.3.4(3)", "shape coefficient in a valley", "eurocode::en1991_1_3_2003::drifts::valley_factor", Confirmed("three implementations, a printed sheet")),
    entry(SNOW, "5.3.6(1), 6.2(2)", "length of a drift", "eurocode::en1991_1_3_2003::drifts::drift_length", PartlyFromMemory("twice the height by a printed example; the limits by none")),
    entry(SNOW, "5.3.6(1)", "snow drifted against a wall", "eurocode::en1991_1_3_2003::drifts::wind_drift_factor", Confirmed("a printed example, a library")),
    entry(SNOW, "5.3.6(1)", "snow slid off a higher roof", "eurocode::en1991_1_3_2003::drifts::slide_factor", PartlyFromMemory("nothing up to 15° and half the load by a printed example; the triangle by none")),
    entry(SNOW, "6.2(2)", "snow at an obstacle", "eurocode::en1991_1_3_2003::drifts::obstacle_factor", FromMemory),
    entry(SNOW, "Annex D", "ground snow for another return period", "eurocode::en1991_1_3_2003::ground_load_for_return_period", PartlyFromMemory("the formula by a zoning page and a script; its limits by none")).available(),
    entry(SNOW, "Table C.1", "ground snow of the European maps", "eurocode::en1991_1_3_2003::annex_c_ground_load", FromMemory),

    entry(WIND, "7.2.1(1)", "coefficient by loaded area", "eurocode::en1991_1_4_2005::coefficients::area_interpolation", Confirmed("five sources, two printed examples")),
    entry(WIND, "Tables 7.4a, 7.4b", "coefficients of a duopitch face", "eurocode::en1991_1_4_2005::coefficients::duopitch", Confirmed("five transcriptions")),
    entry(WIND, "Tables 7.4a, 7.4b", "coefficients of duopitch and trough", "eurocode::en1991_1_4_2005::coefficients::roof_coefficients", Confirmed("five transcriptions")),
    entry(WIND, "7.2.5", "length the roof zones scale with", "eurocode::en1991_1_4_2005::plan::edge_dimension", Confirmed("three implementations, a published sheet")),
    entry(WIND, "7.2.5", "zones of a duopitch face", "eurocode::en1991_1_4_2005::duopitch::duopitch_zones", Confirmed("two implementations, a worksheet")),
    entry(WIND, "Tables 7.3a, 7.3b", "coefficients of a monopitch roof", "eurocode::en1991_1_4_2005::monopitch::coefficients", Confirmed("two libraries, a transcription")),
    entry(WIND, "7.2.4", "zones of a monopitch roof", "eurocode::en1991_1_4_2005::monopitch::zones", PartlyFromMemory("front and back by a library; the verge by none")),
    entry(WIND, "7.2.6, Table 7.5", "coefficients of a hipped roof", "eurocode::en1991_1_4_2005::hipped::coefficients", Confirmed("an official table of another country, a second transcription")),
    entry(WIND, "7.2.6", "zones of a face of a hipped roof", "eurocode::en1991_1_4_2005::hipped::zones", PartlyFromMemory("the zones and the width of F, J, K and L by a printed example; where they meet by none")),
    entry(WIND, "Table 4.1", "roughness length", "eurocode::en1991_1_4_2005::velocity::roughness_length", Confirmed("five sources")),
    entry(WIND, "Table 4.1", "minimum height", "eurocode::en1991_1_4_2005::velocity::minimum_height", Confirmed("five sources")),
    entry(WIND, "4.2(2)P", "basic wind velocity", "eurocode::en1991_1_4_2005::velocity::basic_velocity", Confirmed("several sources")).available(),
    entry(WIND, "4.2(2)P note 4", "factor for other probabilities", "eurocode::en1991_1_4_2005::velocity::probability_factor", Confirmed("two implementations")).available(),
    entry(WIND, "4.5(1)", "velocity pressure", "eurocode::en1991_1_4_2005::velocity::velocity_pressure", Confirmed("printed examples, three libraries")),
    entry(WIND, "4.3.2(1)", "terrain factor", "eurocode::en1991_1_4_2005::velocity::terrain_factor", Confirmed("printed examples, three libraries")),
    entry(WIND, "4.3.2(1)", "roughness factor", "eurocode::en1991_1_4_2005::velocity::roughness_factor", Confirmed("printed examples, three libraries")),
    entry(WIND, "4.3.1(1)", "mean wind velocity", "eurocode::en1991_1_4_2005::velocity::mean_velocity", Confirmed("printed examples, three libraries")),
    entry(WIND, "4.4(1)", "turbulence intensity", "eurocode::en1991_1_4_2005::velocity::turbulence_intensity", Confirmed("printed examples, three libraries")),
    entry(WIND, "4.5(1)", "peak velocity pressure", "eurocode::en1991_1_4_2005::velocity::peak_pressure", Confirmed("four printed examples, three libraries")),

    entry(TIMBER, "8.7.2(4)", "withdrawal strength of a thread", "eurocode::en1995_1_1_2004::screws_axial::thread_withdrawal_strength", Confirmed("two libraries, four further codes")),
    entry(TIMBER, "8.7.2(4)", "withdrawal of a screw", "eurocode::en1995_1_1_2004::screws_axial::thread_withdrawal_capacity", Confirmed("two libraries")),
    entry(TIMBER, "8.7.2(5)", "withdrawal by declared strength", "eurocode::en1995_1_1_2004::screws_axial::declared_withdrawal_capacity", Confirmed("a library, a printed example")),
    entry(TIMBER, "8.7.2(6)", "head pull-through", "eurocode::en1995_1_1_2004::screws_axial::head_pull_through", Confirmed("two libraries, a thesis example")).available(),
    entry(TIMBER, "8.7.2(3)", "least thread in the timber", "eurocode::en1995_1_1_2004::screws_axial::minimum_point_side_length", Confirmed("a library, two handbooks")),
    entry(TIMBER, "8.7.2(8)", "effective number in withdrawal", "eurocode::en1995_1_1_2004::screws_axial::effective_number", Confirmed("a library, a printed example")),
    entry(TIMBER, "Table 8.6", "distances of screws in withdrawal", "eurocode::en1995_1_1_2004::screws_axial::axial_distances", Confirmed("a library, a handbook")),
    entry(TIMBER, "8.7.2(2)", "least timber along a screw", "eurocode::en1995_1_1_2004::screws_axial::least_timber", Confirmed("a library, a handbook")),
    entry(TIMBER, "(8.34)", "effective number of thick screws in a row", "eurocode::en1995_1_1_2004::screws_spacing::effective_number_of_bolts", OneSource("a library")),
    entry(TIMBER, "Table 8.4", "distances of thick screws under lateral load", "eurocode::en1995_1_1_2004::screws_spacing::bolt_distances", Confirmed("two libraries")),
    entry(TIMBER, "8.7.1(3)", "effective diameter", "eurocode::en1995_1_1_2004::screws_lateral::effective_diameter", Confirmed("a textbook, three libraries")),
    entry(TIMBER, "8.7.1(4), (5)", "embedment strength", "eurocode::en1995_1_1_2004::screws_lateral::embedment_strength", Confirmed("two libraries, a handbook")),
    entry(TIMBER, "(8.14), (8.30)", "yield moment", "eurocode::en1995_1_1_2004::screws_lateral::yield_moment", Confirmed("a textbook, a library")).available(),
    entry(TIMBER, "8.2.3(3)", "thin plate on timber", "eurocode::en1995_1_1_2004::screws_lateral::thin_plate_capacity", Confirmed("two libraries, a thesis example")),
    entry(TIMBER, "8.2.3(3)", "thick plate on timber", "eurocode::en1995_1_1_2004::screws_lateral::thick_plate_capacity", Confirmed("two libraries, a thesis example")),
    entry(TIMBER, "8.2.3(1)", "plate between thin and thick", "eurocode::en1995_1_1_2004::screws_lateral::between_thin_and_thick", OneSource("a library, recomputed")),
    entry(TIMBER, "8.2.3(1)", "clamping of screw heads", "eurocode::en1995_1_1_2004::screws_lateral::head_clamping", OneSource("a library, recomputed")),
    entry(DOWELS, "Table 1-1", "plate and timber with a gap", "eurocode::en1995_1_1_2004::screws_lateral::capacity_across_gap", OneSource("the report, for timber on both sides; with a steel plate our own reading")),
    entry(TIMBER, "8.2.3", "lateral capacity of a screw", "eurocode::en1995_1_1_2004::screws_lateral::lateral_capacity", OneSource("a library between thin and thick; with a gap as capacity_across_gap")),
    entry(TIMBER, "8.7.3, (8.28)", "pull and push together", "eurocode::en1995_1_1_2004::screws_lateral::combined_interaction", OneSource("an engineer's published calculation")),
    entry(TIMBER, "Table 8.1", "effective number in a row", "eurocode::en1995_1_1_2004::screws_spacing::effective_number_in_row", OneSource("a library")),
    entry(TIMBER, "Table 8.2", "distances under lateral load", "eurocode::en1995_1_1_2004::screws_spacing::lateral_distances", Confirmed("a handbook, a library")),
    entry(CLASSES, "Table 1", "strength classes", "eurocode::en1995_1_1_2004::timber::strength_class", Confirmed("three transcriptions")),
    entry(TIMBER, "Table 3.1", "factor for duration and moisture", "eurocode::en1995_1_1_2004::timber::k_mod", Confirmed("three libraries, the German mean by one of them")),
    entry(TIMBER, "2.4.1(1)P", "design strength", "eurocode::en1995_1_1_2004::timber::design_strength", Confirmed("printed examples")),
    entry(TIMBER, "2.4.3(1)P", "design resistance", "eurocode::en1995_1_1_2004::timber::design_resistance", Confirmed("a printed example")).available(),
    entry(TIMBER, "3.2(3)", "bonus for shallow timber", "eurocode::en1995_1_1_2004::timber::depth_factor", OneSource("a library")),
    entry(TIMBER, "6.1.6", "section modulus of a rectangle", "eurocode::en1995_1_1_2004::timber::rectangle_modulus", Confirmed("printed examples, by their bending stress")),
    entry(TIMBER, "6.1.6(1)", "bending stress", "eurocode::en1995_1_1_2004::timber::bending_stress", Confirmed("printed examples")),
    entry(TIMBER, "6.1.7(2)", "share of the width carrying shear", "eurocode::en1995_1_1_2004::timber::crack_factor", OneSource("a library; a German help page, by our reading of its 0.65")),
    entry(TIMBER, "6.1.7", "shear stress", "eurocode::en1995_1_1_2004::timber::shear_stress", Confirmed("printed examples, a library")),
    entry(TIMBER, "6.1.5(2) to (4)", "bearing across the grain", "eurocode::en1995_1_1_2004::timber::bearing_factor", Confirmed("two sources")),
    entry(TIMBER, "6.3.3(2)", "stress of sideways buckling", "eurocode::en1995_1_1_2004::timber::critical_bending_stress", Confirmed("two libraries, a printed example")).available(),
    entry(TIMBER, "6.3.3(2)", "slenderness in bending", "eurocode::en1995_1_1_2004::timber::relative_slenderness", Confirmed("two printed examples")).available(),
    entry(TIMBER, "6.3.3(4)", "reduction for sideways buckling", "eurocode::en1995_1_1_2004::timber::lateral_buckling_factor", Confirmed("two printed examples, two libraries")).available(),

    entry(STEEL, "3.2.1(1)", "yield strength of a flat bar", "eurocode::en1993_1_1_2005::yield_strength", PartlyFromMemory("structural grades by three pages, 1.4301 by an association; 1.4401 by none")),
    entry(STEEL, "3.2.6(1)", "modulus of elasticity of steel", "eurocode::en1993_1_1_2005::modulus_of_elasticity", Confirmed("a design guide, an association")),
    entry(STEEL, "6.1(1)", "partial factor of a section", "eurocode::en1993_1_1_2005::section_factor", PartlyFromMemory("that of structural steel by two tables; that of stainless steel by none")),
    entry(STEEL, "6.2.5(2)", "flat bar in bending", "eurocode::en1993_1_1_2005::plastic_moment", FromMemory),
    entry(STEEL, "6.2.7", "flat bar in torsion", "eurocode::en1993_1_1_2005::torsion_resistance", FromMemory),
    entry(STEEL_JOINTS, "Table 3.4", "stress area of a bolt", "eurocode::en1993_1_8_2005::stress_area", FromMemory),
    entry(STEEL_JOINTS, "Tables 3.1 and 3.4", "strength of a bolt class", "eurocode::en1993_1_8_2005::bolt_strength", FromMemory),
    entry(STEEL_JOINTS, "Table 3.4", "bolt in shear", "eurocode::en1993_1_8_2005::shear_resistance", FromMemory),
    entry(STEEL_JOINTS, "Table 3.4", "bolt in tension", "eurocode::en1993_1_8_2005::tension_resistance", FromMemory),
    entry(STEEL_JOINTS, "Table 3.4", "tension beside shear", "eurocode::en1993_1_8_2005::tension_beside_shear", FromMemory),
    entry(STEEL_JOINTS, "Table 3.4, note 1", "bearing in a slot across the force", "eurocode::en1993_1_8_2005::slot_bearing_resistance", OneSource("an own reading of public notes")).available(),

    entry(ALUMINIUM, "6.2.3", "rail along its axis", "eurocode::en1999_1_1_2007::axial_resistance", FromMemory),
    entry(ALUMINIUM, "6.3.1.2", "critical force of a rail", "eurocode::en1999_1_1_2007::critical_force_by_length", FromMemory),
    entry(ALUMINIUM, "6.2.5.1", "bending resistance of a rail", "eurocode::en1999_1_1_2007::bending_resistance", FromMemory),
    entry(ALUMINIUM, "6.2.7", "closed rail in torsion", "eurocode::en1999_1_1_2007::closed_torsion_resistance", FromMemory).available(),
    entry(ALUMINIUM, "6.2.9.1", "bending about both axes", "eurocode::en1999_1_1_2007::biaxial_interaction", FromMemory),

    entry(DOWELS, "Table 1-1", "dowel turning in a member", "tr12_2015::rotating_end", Confirmed("the report's example")),
    entry(DOWELS, "Table 1-1", "dowel yielding in a member", "tr12_2015::hinged_end", Confirmed("the report's example")),
    entry(DOWELS, "Table 1-1", "dowel clamped by a plate", "tr12_2015::clamped_end", OneSource("EN 1995-1-1 (8.10) for a closed gap")),
    entry(DOWELS, "Table 1-1", "dowel pinned by a plate", "tr12_2015::pinned_end", OneSource("EN 1995-1-1 (8.9) for a closed gap")),
    entry(DOWELS, "Table 1-1", "yield load across a gap", "tr12_2015::yield_load", Confirmed("the report's example")),
];
