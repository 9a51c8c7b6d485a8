//! Zones of the French maps by department.
//!
//! Counted from the zones of 36 721 communes in ourocode 2.1.7, `carte_action_region.csv` (Apache-2.0), one
//! source. Where a department lies in several zones, which of them has a commune is on the maps of the annex.

use super::places::{Place, Places};
use crate::codes::vocabulary::Evidence;

/// Departments of the mainland and Corsica.
pub const DEPARTMENTS: Places = Places {
    all: ALL,
    code_of: department_of,
    known: "codes of communes, such as 11069, and numbers of departments, from 01 to 95 with 2A and 2B",
    evidence: Evidence::OneSource,
};

/// The department of a commune, or the department itself.
fn department_of(place: &str) -> Option<&str> {
    let (department, commune) = place.split_at_checked(2)?;
    let is_commune = commune.len() == 3 && commune.bytes().all(|byte| byte.is_ascii_digit());
    (commune.is_empty() || is_commune).then_some(department)
}

const ALL: &[Place] = &[
    Place::new("01", "Ain", &["A2", "C2"], &["1", "2"]),
    Place::new("02", "Aisne", &["A1", "C1"], &["2"]),
    Place::new("03", "Allier", &["A2"], &["2"]),
    Place::new("04", "Alpes-de-Haute-Provence", &["C1"], &["1", "2"]),
    Place::new("05", "Hautes-Alpes", &["C1"], &["1", "2"]),
    Place::new("06", "Alpes-Maritimes", &["A2", "C1"], &["1", "2"]),
    Place::new("07", "Ardèche", &["C2"], &["2"]),
    Place::new("08", "Ardennes", &["A1", "C1"], &["2"]),
    Place::new("09", "Ariège", &["A2", "C2"], &["2"]),
    Place::new("10", "Aube", &["A1"], &["2"]),
    Place::new("11", "Aude", &["C2", "D"], &["2", "3"]),
    Place::new("12", "Aveyron", &["A2"], &["2"]),
    Place::new("13", "Bouches-du-Rhône", &["A2"], &["3"]),
    Place::new("14", "Calvados", &["A1"], &["2"]),
    Place::new("15", "Cantal", &["A2"], &["1", "2"]),
    Place::new("16", "Charente", &["A2"], &["1"]),
    Place::new("17", "Charente-Maritime", &["A2"], &["1", "2", "3"]),
    Place::new("18", "Cher", &["A1"], &["2"]),
    Place::new("19", "Corrèze", &["A2"], &["1"]),
    Place::new("21", "Côte-d'Or", &["A1"], &["1", "2"]),
    Place::new("22", "Côtes-d'Armor", &["A1"], &["3"]),
    Place::new("23", "Creuse", &["A2"], &["1"]),
    Place::new("24", "Dordogne", &["A2"], &["1"]),
    Place::new("25", "Doubs", &["B1", "C1", "E"], &["1", "2"]),
    Place::new("26", "Drôme", &["C2"], &["2"]),
    Place::new("27", "Eure", &["A1"], &["2"]),
    Place::new("28", "Eure-et-Loir", &["A1"], &["2"]),
    Place::new("29", "Finistère", &["A1"], &["3"]),
    Place::new("2A", "Corse-du-Sud", &["A2"], &["3", "4"]),
    Place::new("2B", "Haute-Corse", &["A2"], &["3", "4"]),
    Place::new("30", "Gard", &["B2"], &["2", "3"]),
    Place::new("31", "Haute-Garonne", &["A2", "C2"], &["1", "2"]),
    Place::new("32", "Gers", &["A2"], &["1"]),
    Place::new("33", "Gironde", &["A2"], &["1", "2"]),
    Place::new("34", "Hérault", &["B2", "C2"], &["3"]),
    Place::new("35", "Ille-et-Vilaine", &["A1"], &["2"]),
    Place::new("36", "Indre", &["A1"], &["2"]),
    Place::new("37", "Indre-et-Loire", &["A1"], &["2"]),
    Place::new("38", "Isère", &["C2"], &["1", "2"]),
    Place::new("39", "Jura", &["B1", "C1"], &["1"]),
    Place::new("40", "Landes", &["A2"], &["1", "2"]),
    Place::new("41", "Loir-et-Cher", &["A1"], &["2"]),
    Place::new("42", "Loire", &["A2"], &["2"]),
    Place::new("43", "Haute-Loire", &["A2"], &["2"]),
    Place::new("44", "Loire-Atlantique", &["A1"], &["2", "3"]),
    Place::new("45", "Loiret", &["A1"], &["2"]),
    Place::new("46", "Lot", &["A2"], &["1"]),
    Place::new("47", "Lot-et-Garonne", &["A2"], &["1"]),
    Place::new("48", "Lozère", &["A2"], &["2"]),
    Place::new("49", "Maine-et-Loire", &["A1"], &["2"]),
    Place::new("50", "Manche", &["A1"], &["2"]),
    Place::new("51", "Marne", &["A1"], &["2"]),
    Place::new("52", "Haute-Marne", &["A1"], &["2"]),
    Place::new("53", "Mayenne", &["A1"], &["2"]),
    Place::new("54", "Meurthe-et-Moselle", &["A1", "B1", "C1"], &["2"]),
    Place::new("55", "Meuse", &["A1", "C1"], &["2"]),
    Place::new("56", "Morbihan", &["A1"], &["3"]),
    Place::new("57", "Moselle", &["A1", "B1", "C1"], &["2"]),
    Place::new("58", "Nièvre", &["A1"], &["2"]),
    Place::new("59", "Nord", &["A1", "C1"], &["2", "3"]),
    Place::new("60", "Oise", &["A1"], &["2"]),
    Place::new("61", "Orne", &["A1"], &["2"]),
    Place::new("62", "Pas-de-Calais", &["A1"], &["2", "3"]),
    Place::new("63", "Puy-de-Dôme", &["A2"], &["2"]),
    Place::new("64", "Pyrénées-Atlantiques", &["A2"], &["2"]),
    Place::new("65", "Hautes-Pyrénées", &["A2"], &["1"]),
    Place::new("66", "Pyrénées-Orientales", &["C2", "D"], &["3"]),
    Place::new("67", "Bas-Rhin", &["B1", "C1"], &["2"]),
    Place::new("68", "Haut-Rhin", &["C1"], &["2"]),
    Place::new("69", "Rhône", &["A2"], &["2"]),
    Place::new("70", "Haute-Saône", &["B1", "C1"], &["1", "2"]),
    Place::new("71", "Saône-et-Loire", &["A2", "B1"], &["2"]),
    Place::new("72", "Sarthe", &["A1"], &["2"]),
    Place::new("73", "Savoie", &["C2", "E"], &["1"]),
    Place::new("74", "Haute-Savoie", &["C2", "E"], &["1"]),
    Place::new("75", "Paris", &["A1"], &["2"]),
    Place::new("76", "Seine-Maritime", &["A1"], &["2", "3"]),
    Place::new("77", "Seine-et-Marne", &["A1"], &["2"]),
    Place::new("78", "Yvelines", &["A1"], &["2"]),
    Place::new("79", "Deux-Sèvres", &["A1"], &["2"]),
    Place::new("80", "Somme", &["A1"], &["2", "3"]),
    Place::new("81", "Tarn", &["A2", "C2"], &["1", "2"]),
    Place::new("82", "Tarn-et-Garonne", &["A2"], &["1"]),
    Place::new("83", "Var", &["A2", "C2"], &["2"]),
    Place::new("84", "Vaucluse", &["B2", "C2"], &["2"]),
    Place::new("85", "Vendée", &["A1"], &["3"]),
    Place::new("86", "Vienne", &["A1"], &["1"]),
    Place::new("87", "Haute-Vienne", &["A2"], &["1"]),
    Place::new("88", "Vosges", &["A1", "B1", "C1"], &["2"]),
    Place::new("89", "Yonne", &["A1"], &["2"]),
    Place::new("90", "Territoire de Belfort", &["C2"], &["2"]),
    Place::new("91", "Essonne", &["A1"], &["2"]),
    Place::new("92", "Hauts-de-Seine", &["A1"], &["2"]),
    Place::new("93", "Seine-Saint-Denis", &["A1"], &["2"]),
    Place::new("94", "Val-de-Marne", &["A1"], &["2"]),
    Place::new("95", "Val-d'Oise", &["A1"], &["2"]),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::eurocode::annex::fr::{SnowZone, WindZone};

    #[test]
    fn a_commune_lies_in_its_department() {
        for (place, code) in [("11069", "11"), ("2A004", "2A"), ("01", "01"), ("75", "75")] {
            assert_eq!(DEPARTMENTS.find(place).map(|found| found.code), Some(code));
        }
        for nowhere in
            ["", "1", "011", "0100", "010044", "99", "20", "1106x", "2a004", "97105", "é1"]
        {
            assert!(DEPARTMENTS.find(nowhere).is_none(), "{nowhere}");
        }
    }

    /// Of 96 departments 72 lie in one zone of snow, 73 in one of wind and 57 in one of each: as counted by
    /// another script over the same list.
    #[test]
    fn every_department_lies_in_zones_of_the_maps() {
        let mut single = [0; 3];
        for place in ALL {
            assert!(place.snow_zones().iter().all(|zone| SnowZone::parse(zone).is_some()));
            assert!(place.wind_zones.iter().all(|zone| WindZone::parse(zone).is_some()));
            let [snow, wind] = [place.snow_zones().len() == 1, place.wind_zones.len() == 1];
            for (count, is_single) in single.iter_mut().zip([snow, wind, snow && wind]) {
                *count += i32::from(is_single);
            }
            assert!(!place.snow_zones().is_empty() && !place.wind_zones.is_empty());
        }
        assert_eq!(ALL.len(), 96);
        assert_eq!(single, [72, 73, 57]);
    }
}
