//! Snow on the ground in the capitals of Spanish provinces.
//!
//! DB SE-AE, Table 3.8, has the load of a capital beside its altitude; elsewhere zone and altitude decide, Table
//! E.2. One source: a public program that transcribes the page, whose right half is printed a row off. Each load
//! is that of one of the zones of Table E.2 at the altitude of the capital, to a tenth of a kN/m².
//!
//! **Reach.** The table says no more than the name of the town, and no town is level. A load is read up to 50 m
//! above the altitude it stands beside, where Table E.2 would have 0.14 kN/m² more at most: higher up it is the site
//! that counts. More than 150 m below, place and altitude contradict each other. Both limits are judgement.

use super::places::{Place, Places};
use crate::codes::vocabulary::{Evidence, LoadOfPlace};
use crate::codes::{Clause, NotCovered};
use crate::units::{Length, Pressure};

/// Capitals of provinces, with Ceuta and Melilla.
pub const CAPITALS: Places = Places {
    all: ALL,
    code_of: as_listed,
    known: "the capitals of provinces by their names, such as Ciudad Real",
    evidence: Evidence::OneSource,
};

/// The name in the list for the one a caller writes: in either language of the place, in full or short, with
/// its accents or without.
fn as_listed(given: &str) -> Option<&str> {
    const OTHER_NAMES: &[(&str, &str)] = &[
        ("Alacant", "Alicante"),
        ("Bilbo", "Bilbao"),
        ("Castellón de la Plana", "Castellón"),
        ("Donostia", "San Sebastián"),
        ("Gasteiz", "Vitoria"),
        ("Gerona", "Girona"),
        ("Iruña", "Pamplona"),
        ("La Coruña", "A Coruña"),
        ("Las Palmas de Gran Canaria", "Las Palmas"),
        ("Lérida", "Lleida"),
        ("Orense", "Ourense"),
        ("Palma", "Palma de Mallorca"),
        ("Santa Cruz de Tenerife", "Tenerife"),
        ("Vitoria-Gasteiz", "Vitoria"),
    ];
    let listed = ALL.iter().map(|place| (place.name, place.name));
    let mut names = listed.chain(OTHER_NAMES.iter().copied());
    names.find(|(name, _)| alike(name, given)).map(|(_, name)| name)
}

/// Whether two names are the same but for accents.
fn alike(one: &str, other: &str) -> bool {
    let plain = |letter: char| match letter {
        'á' | 'à' => 'a',
        'è' | 'é' => 'e',
        'í' => 'i',
        'ó' => 'o',
        'ñ' => 'n',
        'Á' => 'A',
        other => other,
    };
    one.chars().map(plain).eq(other.chars().map(plain))
}

/// A row: altitude in m, load in kN/m².
const fn capital(name: &'static str, altitude: f64, s_k: f64) -> Place {
    let load = LoadOfPlace {
        load: Pressure::from_kn_per_m2(s_k),
        altitude: Length::from_m(altitude),
        reach: [Length::from_m(150.0), Length::from_m(50.0)],
        rule: NotCovered {
            clause: Clause::new("DB SE-AE", "Table 3.8"),
            condition: "the site lies no more than 150 m below and 50 m above the capital",
        },
    };
    Place::with_load(name, load)
}

const ALL: &[Place] = &[
    capital("Vitoria", 520.0, 0.7),
    capital("Albacete", 690.0, 0.6),
    capital("Alicante", 0.0, 0.2),
    capital("Almería", 0.0, 0.2),
    capital("Ávila", 1130.0, 1.0),
    capital("Badajoz", 180.0, 0.2),
    capital("Palma de Mallorca", 0.0, 0.2),
    capital("Barcelona", 0.0, 0.4),
    capital("Burgos", 860.0, 0.6),
    capital("Cáceres", 440.0, 0.4),
    capital("Cádiz", 0.0, 0.2),
    capital("Castellón", 0.0, 0.2),
    capital("Ciudad Real", 640.0, 0.6),
    capital("Córdoba", 100.0, 0.2),
    capital("A Coruña", 0.0, 0.3),
    capital("Cuenca", 1010.0, 1.0),
    capital("Girona", 70.0, 0.4),
    capital("Granada", 690.0, 0.5),
    capital("Guadalajara", 680.0, 0.6),
    capital("San Sebastián", 0.0, 0.3),
    capital("Huelva", 0.0, 0.2),
    capital("Huesca", 470.0, 0.7),
    capital("Jaén", 570.0, 0.4),
    capital("León", 820.0, 1.2),
    capital("Lleida", 150.0, 0.5),
    capital("Logroño", 380.0, 0.6),
    capital("Lugo", 470.0, 0.7),
    capital("Madrid", 660.0, 0.6),
    capital("Málaga", 0.0, 0.2),
    capital("Murcia", 40.0, 0.2),
    capital("Pamplona", 450.0, 0.7),
    capital("Ourense", 130.0, 0.4),
    capital("Oviedo", 230.0, 0.5),
    capital("Palencia", 740.0, 0.4),
    capital("Las Palmas", 0.0, 0.2),
    capital("Pontevedra", 0.0, 0.3),
    capital("Salamanca", 780.0, 0.5),
    capital("Tenerife", 0.0, 0.2),
    capital("Santander", 0.0, 0.3),
    capital("Segovia", 1000.0, 0.7),
    capital("Sevilla", 10.0, 0.2),
    capital("Soria", 1090.0, 0.9),
    capital("Tarragona", 0.0, 0.4),
    capital("Teruel", 950.0, 0.9),
    capital("Toledo", 550.0, 0.5),
    capital("Valencia", 0.0, 0.2),
    capital("Valladolid", 690.0, 0.4),
    capital("Bilbao", 0.0, 0.3),
    capital("Zamora", 650.0, 0.4),
    capital("Zaragoza", 210.0, 0.5),
    capital("Ceuta", 0.0, 0.2),
    capital("Melilla", 0.0, 0.2),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::eurocode::annex::es::{self, SnowZone};
    use crate::codes::vocabulary::SnowOfPlace;

    fn loads() -> impl Iterator<Item = (&'static str, LoadOfPlace)> {
        ALL.iter().map(|place| match place.snow {
            SnowOfPlace::Load(load) => (place.name, load),
            SnowOfPlace::Zones(_) => panic!("{} has zones", place.name),
        })
    }

    /// Two tables of one document: what stands in the wrong row of one is far from every zone of the other.
    #[test]
    fn a_capital_has_the_load_of_a_zone_at_its_altitude() {
        let clause = Clause::new("DB SE-AE", "Table E.2");
        for (name, of) in loads() {
            let zones = SnowZone::NAMES.iter().filter_map(|zone| SnowZone::parse(zone));
            let by_zone =
                zones.filter_map(|zone| es::ground_snow_load(clause, zone, of.altitude).ok());
            let off = by_zone.map(|load| (load - of.load).kn_per_m2().abs());
            assert!(off.fold(f64::INFINITY, f64::min) < 0.1, "{name}");
        }
        assert_eq!(loads().count(), 52);
    }

    #[test]
    fn capitals_are_found_by_either_name_and_no_other_place_is() {
        for (given, name) in [("León", "León"), ("Leon", "León"), ("Donostia", "San Sebastián")]
        {
            assert_eq!(CAPITALS.find(given).map(|place| place.name), Some(name));
        }
        for nowhere in ["Vigo", "leon", "24", ""] {
            assert!(CAPITALS.find(nowhere).is_none(), "{nowhere}");
        }
    }

    #[test]
    fn a_load_ends_above_and_below_its_capital() {
        let (_, madrid) = loads().find(|(name, _)| *name == "Madrid").expect("a capital");
        let at = |altitude: f64| madrid.at(Length::from_m(altitude)).is_ok();
        assert!(at(510.0) && at(710.0) && !at(509.9) && !at(710.1));
    }
}
