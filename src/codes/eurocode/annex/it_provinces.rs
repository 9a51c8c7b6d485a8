//! Zones of the Italian maps by province.
//!
//! NTC 2018, 3.4.2 lists the provinces of every zone of snow; another public list agrees in all 110. 3.3.1 lists
//! the regions of the zones of wind, whose provinces are of common knowledge. A province with inhabited islands
//! lies in zone 9 as well, and those of Sardinia lie east or west of the line of the law, which cuts through them:
//! there the zone is asked for. Four provinces of Sardinia that were dissolved in 2016 are kept, because the list
//! of the law has them.

use super::places::{Place, Places};
use crate::codes::vocabulary::Evidence;

/// Provinces by the two letters of their plates.
pub const PROVINCES: Places = Places {
    all: ALL,
    code_of: |letters| Some(letters),
    known: "the two letters of provinces, such as CN",
    evidence: Evidence::Confirmed,
};

const fn province(
    code: &'static str,
    name: &'static str,
    snow_zones: &'static [&'static str],
    wind_zones: &'static [&'static str],
) -> Place {
    Place { code, name, snow_zones, wind_zones }
}

const ALL: &[Place] = &[
    province("AG", "Agrigento", &["III"], &["4", "9"]),
    province("AL", "Alessandria", &["IM"], &["1"]),
    province("AN", "Ancona", &["IM"], &["3"]),
    province("AO", "Aosta", &["IA"], &["1"]),
    province("AP", "Ascoli Piceno", &["II"], &["3"]),
    province("AQ", "L’Aquila", &["II"], &["3"]),
    province("AR", "Arezzo", &["II"], &["3"]),
    province("AT", "Asti", &["IM"], &["1"]),
    province("AV", "Avellino", &["II"], &["3"]),
    province("BA", "Bari", &["II"], &["3"]),
    province("BG", "Bergamo", &["IA"], &["1"]),
    province("BI", "Biella", &["IA"], &["1"]),
    province("BL", "Belluno", &["IA"], &["1"]),
    province("BN", "Benevento", &["II"], &["3"]),
    province("BO", "Bologna", &["IM"], &["2"]),
    province("BR", "Brindisi", &["III"], &["3"]),
    province("BS", "Brescia", &["IA"], &["1"]),
    province("BT", "Barletta-Andria-Trani", &["II"], &["3"]),
    province("BZ", "Bolzano", &["IA"], &["1"]),
    province("CA", "Cagliari", &["III"], &["5", "6"]),
    province("CB", "Campobasso", &["II"], &["3"]),
    province("CE", "Caserta", &["III"], &["3"]),
    province("CH", "Chieti", &["II"], &["3"]),
    province("CI", "Carbonia-Iglesias", &["III"], &["5", "6", "9"]),
    province("CL", "Caltanissetta", &["III"], &["4"]),
    province("CN", "Cuneo", &["IA"], &["1"]),
    province("CO", "Como", &["IA"], &["1"]),
    province("CR", "Cremona", &["IM"], &["1"]),
    province("CS", "Cosenza", &["III"], &["3"]),
    province("CT", "Catania", &["III"], &["4"]),
    province("CZ", "Catanzaro", &["III"], &["3"]),
    province("EN", "Enna", &["III"], &["4"]),
    province("FC", "Forlì-Cesena", &["IM"], &["2"]),
    province("FE", "Ferrara", &["II"], &["2"]),
    province("FG", "Foggia", &["II"], &["3", "9"]),
    province("FI", "Firenze", &["II"], &["3"]),
    province("FM", "Fermo", &["II"], &["3"]),
    province("FR", "Frosinone", &["II"], &["3"]),
    province("GE", "Genova", &["II"], &["7"]),
    province("GO", "Gorizia", &["II"], &["1"]),
    province("GR", "Grosseto", &["III"], &["3", "9"]),
    province("IM", "Imperia", &["II"], &["7"]),
    province("IS", "Isernia", &["II"], &["3"]),
    province("KR", "Crotone", &["III"], &["3"]),
    province("LC", "Lecco", &["IA"], &["1"]),
    province("LE", "Lecce", &["III"], &["3"]),
    province("LI", "Livorno", &["III"], &["3", "9"]),
    province("LO", "Lodi", &["IM"], &["1"]),
    province("LT", "Latina", &["III"], &["3", "9"]),
    province("LU", "Lucca", &["II"], &["3"]),
    province("MB", "Monza Brianza", &["IM"], &["1"]),
    province("MC", "Macerata", &["II"], &["3"]),
    province("ME", "Messina", &["III"], &["4", "9"]),
    province("MI", "Milano", &["IM"], &["1"]),
    province("MN", "Mantova", &["II"], &["1"]),
    province("MO", "Modena", &["IM"], &["2"]),
    province("MS", "Massa Carrara", &["II"], &["3"]),
    province("MT", "Matera", &["III"], &["3"]),
    province("NA", "Napoli", &["III"], &["3", "9"]),
    province("NO", "Novara", &["IM"], &["1"]),
    province("NU", "Nuoro", &["III"], &["5", "6"]),
    province("OG", "Ogliastra", &["III"], &["5", "6"]),
    province("OR", "Oristano", &["III"], &["5", "6"]),
    province("OT", "Olbia-Tempio", &["III"], &["5", "6"]),
    province("PA", "Palermo", &["III"], &["4", "9"]),
    province("PC", "Piacenza", &["IM"], &["2"]),
    province("PD", "Padova", &["II"], &["1"]),
    province("PE", "Pescara", &["II"], &["3"]),
    province("PG", "Perugia", &["II"], &["3"]),
    province("PI", "Pisa", &["III"], &["3"]),
    province("PN", "Pordenone", &["IA"], &["1"]),
    province("PO", "Prato", &["II"], &["3"]),
    province("PR", "Parma", &["IM"], &["2"]),
    province("PT", "Pistoia", &["II"], &["3"]),
    province("PU", "Pesaro e Urbino", &["IM"], &["3"]),
    province("PV", "Pavia", &["IM"], &["1"]),
    province("PZ", "Potenza", &["III"], &["3"]),
    province("RA", "Ravenna", &["IM"], &["2"]),
    province("RC", "Reggio Calabria", &["III"], &["4"]),
    province("RE", "Reggio Emilia", &["IM"], &["2"]),
    province("RG", "Ragusa", &["III"], &["4"]),
    province("RI", "Rieti", &["II"], &["3"]),
    province("RM", "Roma", &["III"], &["3"]),
    province("RN", "Rimini", &["IM"], &["2"]),
    province("RO", "Rovigo", &["II"], &["1"]),
    province("SA", "Salerno", &["III"], &["3"]),
    province("SI", "Siena", &["III"], &["3"]),
    province("SO", "Sondrio", &["IA"], &["1"]),
    province("SP", "La Spezia", &["II"], &["7", "9"]),
    province("SR", "Siracusa", &["III"], &["4"]),
    province("SS", "Sassari", &["III"], &["5", "6", "9"]),
    province("SU", "Sud Sardegna", &["III"], &["5", "6", "9"]),
    province("SV", "Savona", &["II"], &["7"]),
    province("TA", "Taranto", &["III"], &["3"]),
    province("TE", "Teramo", &["II"], &["3"]),
    province("TN", "Trento", &["IA"], &["1"]),
    province("TO", "Torino", &["IA"], &["1"]),
    province("TP", "Trapani", &["III"], &["4", "9"]),
    province("TR", "Terni", &["III"], &["3"]),
    province("TS", "Trieste", &["II"], &["8"]),
    province("TV", "Treviso", &["IM"], &["1"]),
    province("UD", "Udine", &["IA"], &["1"]),
    province("VA", "Varese", &["IM"], &["1"]),
    province("VB", "Verbano-Cusio-Ossola", &["IA"], &["1"]),
    province("VC", "Vercelli", &["IA"], &["1"]),
    province("VE", "Venezia", &["II"], &["1"]),
    province("VI", "Vicenza", &["IA"], &["1"]),
    province("VR", "Verona", &["II"], &["1"]),
    province("VS", "Medio Campidano", &["III"], &["5", "6"]),
    province("VT", "Viterbo", &["III"], &["3"]),
    province("VV", "Vibo Valentia", &["III"], &["3"]),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::eurocode::annex::it::{SnowZone, WindZone};

    /// The law lists 17 provinces in zone I, Alpine, 20 in zone I, Mediterranean, 35 in zone II and 38 in zone III,
    /// of which one more has been made since.
    #[test]
    fn every_province_lies_in_zones_of_the_maps() {
        let in_zone = |zone: &str| ALL.iter().filter(|place| place.snow_zones == [zone]).count();
        assert_eq!(["IA", "IM", "II", "III"].map(in_zone), [17, 20, 35, 39]);
        for place in ALL {
            assert!(place.snow_zones.iter().all(|zone| SnowZone::parse(zone).is_some()));
            assert!(place.wind_zones.iter().all(|zone| WindZone::parse(zone).is_some()));
            assert!(!place.wind_zones.is_empty(), "{}", place.name);
            let same = ALL.iter().filter(|other| other.code == place.code);
            assert_eq!(same.count(), 1, "{}", place.code);
        }
    }

    #[test]
    fn a_province_is_known_by_its_letters() {
        let zones =
            |code: &str| PROVINCES.find(code).map(|place| (place.snow_zones, place.wind_zones));
        assert_eq!(zones("CN"), Some((&["IA"][..], &["1"][..])));
        assert_eq!(zones("TS"), Some((&["II"][..], &["8"][..])));
        assert_eq!(zones("NU"), Some((&["III"][..], &["5", "6"][..])));
        assert_eq!(zones("LI"), Some((&["III"][..], &["3", "9"][..])));
        assert!(zones("cn").is_none() && zones("XX").is_none() && zones("").is_none());
    }
}
