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

const ALL: &[Place] = &[
    Place::new("AG", "Agrigento", &["III"], &["4", "9"]),
    Place::new("AL", "Alessandria", &["IM"], &["1"]),
    Place::new("AN", "Ancona", &["IM"], &["3"]),
    Place::new("AO", "Aosta", &["IA"], &["1"]),
    Place::new("AP", "Ascoli Piceno", &["II"], &["3"]),
    Place::new("AQ", "L’Aquila", &["II"], &["3"]),
    Place::new("AR", "Arezzo", &["II"], &["3"]),
    Place::new("AT", "Asti", &["IM"], &["1"]),
    Place::new("AV", "Avellino", &["II"], &["3"]),
    Place::new("BA", "Bari", &["II"], &["3"]),
    Place::new("BG", "Bergamo", &["IA"], &["1"]),
    Place::new("BI", "Biella", &["IA"], &["1"]),
    Place::new("BL", "Belluno", &["IA"], &["1"]),
    Place::new("BN", "Benevento", &["II"], &["3"]),
    Place::new("BO", "Bologna", &["IM"], &["2"]),
    Place::new("BR", "Brindisi", &["III"], &["3"]),
    Place::new("BS", "Brescia", &["IA"], &["1"]),
    Place::new("BT", "Barletta-Andria-Trani", &["II"], &["3"]),
    Place::new("BZ", "Bolzano", &["IA"], &["1"]),
    Place::new("CA", "Cagliari", &["III"], &["5", "6"]),
    Place::new("CB", "Campobasso", &["II"], &["3"]),
    Place::new("CE", "Caserta", &["III"], &["3"]),
    Place::new("CH", "Chieti", &["II"], &["3"]),
    Place::new("CI", "Carbonia-Iglesias", &["III"], &["5", "6", "9"]),
    Place::new("CL", "Caltanissetta", &["III"], &["4"]),
    Place::new("CN", "Cuneo", &["IA"], &["1"]),
    Place::new("CO", "Como", &["IA"], &["1"]),
    Place::new("CR", "Cremona", &["IM"], &["1"]),
    Place::new("CS", "Cosenza", &["III"], &["3"]),
    Place::new("CT", "Catania", &["III"], &["4"]),
    Place::new("CZ", "Catanzaro", &["III"], &["3"]),
    Place::new("EN", "Enna", &["III"], &["4"]),
    Place::new("FC", "Forlì-Cesena", &["IM"], &["2"]),
    Place::new("FE", "Ferrara", &["II"], &["2"]),
    Place::new("FG", "Foggia", &["II"], &["3", "9"]),
    Place::new("FI", "Firenze", &["II"], &["3"]),
    Place::new("FM", "Fermo", &["II"], &["3"]),
    Place::new("FR", "Frosinone", &["II"], &["3"]),
    Place::new("GE", "Genova", &["II"], &["7"]),
    Place::new("GO", "Gorizia", &["II"], &["1"]),
    Place::new("GR", "Grosseto", &["III"], &["3", "9"]),
    Place::new("IM", "Imperia", &["II"], &["7"]),
    Place::new("IS", "Isernia", &["II"], &["3"]),
    Place::new("KR", "Crotone", &["III"], &["3"]),
    Place::new("LC", "Lecco", &["IA"], &["1"]),
    Place::new("LE", "Lecce", &["III"], &["3"]),
    Place::new("LI", "Livorno", &["III"], &["3", "9"]),
    Place::new("LO", "Lodi", &["IM"], &["1"]),
    Place::new("LT", "Latina", &["III"], &["3", "9"]),
    Place::new("LU", "Lucca", &["II"], &["3"]),
    Place::new("MB", "Monza Brianza", &["IM"], &["1"]),
    Place::new("MC", "Macerata", &["II"], &["3"]),
    Place::new("ME", "Messina", &["III"], &["4", "9"]),
    Place::new("MI", "Milano", &["IM"], &["1"]),
    Place::new("MN", "Mantova", &["II"], &["1"]),
    Place::new("MO", "Modena", &["IM"], &["2"]),
    Place::new("MS", "Massa Carrara", &["II"], &["3"]),
    Place::new("MT", "Matera", &["III"], &["3"]),
    Place::new("NA", "Napoli", &["III"], &["3", "9"]),
    Place::new("NO", "Novara", &["IM"], &["1"]),
    Place::new("NU", "Nuoro", &["III"], &["5", "6"]),
    Place::new("OG", "Ogliastra", &["III"], &["5", "6"]),
    Place::new("OR", "Oristano", &["III"], &["5", "6"]),
    Place::new("OT", "Olbia-Tempio", &["III"], &["5", "6"]),
    Place::new("PA", "Palermo", &["III"], &["4", "9"]),
    Place::new("PC", "Piacenza", &["IM"], &["2"]),
    Place::new("PD", "Padova", &["II"], &["1"]),
    Place::new("PE", "Pescara", &["II"], &["3"]),
    Place::new("PG", "Perugia", &["II"], &["3"]),
    Place::new("PI", "Pisa", &["III"], &["3"]),
    Place::new("PN", "Pordenone", &["IA"], &["1"]),
    Place::new("PO", "Prato", &["II"], &["3"]),
    Place::new("PR", "Parma", &["IM"], &["2"]),
    Place::new("PT", "Pistoia", &["II"], &["3"]),
    Place::new("PU", "Pesaro e Urbino", &["IM"], &["3"]),
    Place::new("PV", "Pavia", &["IM"], &["1"]),
    Place::new("PZ", "Potenza", &["III"], &["3"]),
    Place::new("RA", "Ravenna", &["IM"], &["2"]),
    Place::new("RC", "Reggio Calabria", &["III"], &["4"]),
    Place::new("RE", "Reggio Emilia", &["IM"], &["2"]),
    Place::new("RG", "Ragusa", &["III"], &["4"]),
    Place::new("RI", "Rieti", &["II"], &["3"]),
    Place::new("RM", "Roma", &["III"], &["3"]),
    Place::new("RN", "Rimini", &["IM"], &["2"]),
    Place::new("RO", "Rovigo", &["II"], &["1"]),
    Place::new("SA", "Salerno", &["III"], &["3"]),
    Place::new("SI", "Siena", &["III"], &["3"]),
    Place::new("SO", "Sondrio", &["IA"], &["1"]),
    Place::new("SP", "La Spezia", &["II"], &["7", "9"]),
    Place::new("SR", "Siracusa", &["III"], &["4"]),
    Place::new("SS", "Sassari", &["III"], &["5", "6", "9"]),
    Place::new("SU", "Sud Sardegna", &["III"], &["5", "6", "9"]),
    Place::new("SV", "Savona", &["II"], &["7"]),
    Place::new("TA", "Taranto", &["III"], &["3"]),
    Place::new("TE", "Teramo", &["II"], &["3"]),
    Place::new("TN", "Trento", &["IA"], &["1"]),
    Place::new("TO", "Torino", &["IA"], &["1"]),
    Place::new("TP", "Trapani", &["III"], &["4", "9"]),
    Place::new("TR", "Terni", &["III"], &["3"]),
    Place::new("TS", "Trieste", &["II"], &["8"]),
    Place::new("TV", "Treviso", &["IM"], &["1"]),
    Place::new("UD", "Udine", &["IA"], &["1"]),
    Place::new("VA", "Varese", &["IM"], &["1"]),
    Place::new("VB", "Verbano-Cusio-Ossola", &["IA"], &["1"]),
    Place::new("VC", "Vercelli", &["IA"], &["1"]),
    Place::new("VE", "Venezia", &["II"], &["1"]),
    Place::new("VI", "Vicenza", &["IA"], &["1"]),
    Place::new("VR", "Verona", &["II"], &["1"]),
    Place::new("VS", "Medio Campidano", &["III"], &["5", "6"]),
    Place::new("VT", "Viterbo", &["III"], &["3"]),
    Place::new("VV", "Vibo Valentia", &["III"], &["3"]),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::eurocode::annex::it::{SnowZone, WindZone};

    /// The law lists 17 provinces in zone I, Alpine, 20 in zone I, Mediterranean, 35 in zone II and 38 in zone III,
    /// of which one more has been made since.
    #[test]
    fn every_province_lies_in_zones_of_the_maps() {
        let in_zone = |zone: &str| ALL.iter().filter(|place| place.snow_zones() == [zone]).count();
        assert_eq!(["IA", "IM", "II", "III"].map(in_zone), [17, 20, 35, 39]);
        for place in ALL {
            assert!(place.snow_zones().iter().all(|zone| SnowZone::parse(zone).is_some()));
            assert!(place.wind_zones.iter().all(|zone| WindZone::parse(zone).is_some()));
            assert!(!place.wind_zones.is_empty(), "{}", place.name);
            let same = ALL.iter().filter(|other| other.code == place.code);
            assert_eq!(same.count(), 1, "{}", place.code);
        }
    }

    #[test]
    fn a_province_is_known_by_its_letters() {
        let zones =
            |code: &str| PROVINCES.find(code).map(|place| (place.snow_zones(), place.wind_zones));
        assert_eq!(zones("CN"), Some((&["IA"][..], &["1"][..])));
        assert_eq!(zones("TS"), Some((&["II"][..], &["8"][..])));
        assert_eq!(zones("NU"), Some((&["III"][..], &["5", "6"][..])));
        assert_eq!(zones("LI"), Some((&["III"][..], &["3", "9"][..])));
        assert!(zones("cn").is_none() && zones("XX").is_none() && zones("").is_none());
    }
}
