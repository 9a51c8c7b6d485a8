//! Spain: the map of snow and the map of wind, which the building code and the annexes to the Eurocodes
//! share. What they do not share is in [`super::es_cte`] and [`super::es_une`]: a request names one of the
//! two, as they differ by a quarter in snow alone.
//! The loads of provincial capitals by the building code are in [`super::es_capitals`].

use crate::codes::{Clause, NotCovered};
use crate::units::{Length, Pressure, Speed};

spelled! {
    /// Winter climate zone of the Spanish map.
    SnowZone {
        /// Zone 1.
        Z1 = "1",
        /// Zone 2.
        Z2 = "2",
        /// Zone 3.
        Z3 = "3",
        /// Zone 4.
        Z4 = "4",
        /// Zone 5.
        Z5 = "5",
        /// Zone 6.
        Z6 = "6",
        /// Zone 7: the Canary Islands.
        Z7 = "7",
    }
}

/// Altitudes of the table, m.
const ALTITUDES: [f64; 14] = [
    0.0, 200.0, 400.0, 500.0, 600.0, 700.0, 800.0, 900.0, 1000.0, 1200.0, 1400.0, 1600.0, 1800.0,
    2200.0,
];

/// Loads of a zone in kN/m², as far up as the table has any.
#[rustfmt::skip]
const fn row(zone: SnowZone) -> &'static [f64] {
    match zone {
        SnowZone::Z1 => &[0.3, 0.5, 0.6, 0.7, 0.9, 1.0, 1.2, 1.4, 1.7, 2.3, 3.2, 4.3],
        SnowZone::Z2 => &[0.4, 0.5, 0.6, 0.7, 0.9, 1.0, 1.1, 1.3, 1.5, 2.0, 2.6, 3.5, 4.6, 8.0],
        SnowZone::Z3 => &[0.2, 0.2, 0.2, 0.3, 0.3, 0.4, 0.5, 0.6, 0.7, 1.1, 1.7, 2.6, 4.0],
        SnowZone::Z4 => &[0.2, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.2, 1.9, 3.0, 4.6],
        SnowZone::Z5 => &[0.2, 0.3, 0.4, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.3, 1.8, 2.5],
        SnowZone::Z6 => &[0.2, 0.2, 0.2, 0.3, 0.4, 0.5, 0.7, 0.9, 1.2, 2.0, 3.3, 5.5, 9.3],
        SnowZone::Z7 => &[0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2],
    }
}

/// `s_k`: characteristic snow on the ground in Spain, by the document that `clause` names.
///
/// DB SE-AE, Table E.2, and UNE-EN 1991-1-3/AN, Table AN.2, which are one table of seven zones and fourteen
/// altitudes; linear between them.
///
/// Confirmed: two public programs, one of which transcribes the official page, in 73 of 78 cells; the
/// highest cells of zones 1, 4, 5 and 6 by that one alone, as the other repeats the cell below.
///
/// # Errors
/// [`NotCovered`] below the sea and above the last altitude the table has for the zone, 1600 m to 2200 m:
/// there the load is that of the place.
pub fn ground_snow_load(
    clause: Clause,
    zone: SnowZone,
    altitude: Length,
) -> Result<Pressure, NotCovered> {
    let a = altitude.m();
    let cells = ALTITUDES.iter().zip(row(zone));
    let between = cells.clone().zip(cells.skip(1)).find_map(|((low, at_low), (high, at_high))| {
        let share = (a - low) / (high - low);
        (*low..=*high).contains(&a).then(|| at_low + (at_high - at_low) * share)
    });
    let load = between.unwrap_or(f64::NAN);
    clause.covers(load.is_finite(), "the table has a load for the zone at the altitude")?;
    Ok(Pressure::from_kn_per_m2(load))
}

spelled! {
    /// Wind zone of the Spanish map.
    WindZone {
        /// Zone A.
        A = "A",
        /// Zone B.
        B = "B",
        /// Zone C.
        C = "C",
    }
}

/// `v_b`: basic wind velocity of a zone.
///
/// DB SE-AE, D.1, and UNE-EN 1991-1-4/AN: 26, 27 and 29 m/s.
///
/// Confirmed: two public programs.
#[must_use]
pub const fn basic_velocity(zone: WindZone) -> Speed {
    Speed::from_m_per_s(match zone {
        WindZone::A => 26.0,
        WindZone::B => 27.0,
        WindZone::C => 29.0,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_zone_ends_at_the_last_altitude_of_its_row() {
        let clause = Clause::new("DB SE-AE", "Table E.2");
        let at = |zone, a: f64| ground_snow_load(clause, zone, Length::from_m(a)).is_ok();
        for (zone, last) in [
            (SnowZone::Z1, 1600.0),
            (SnowZone::Z2, 2200.0),
            (SnowZone::Z3, 1800.0),
            (SnowZone::Z4, 1600.0),
            (SnowZone::Z5, 1600.0),
            (SnowZone::Z6, 1800.0),
            (SnowZone::Z7, 1800.0),
        ] {
            assert!(at(zone, 0.0) && at(zone, last) && !at(zone, last + 0.1), "{zone:?}");
        }
        assert!(!at(SnowZone::Z1, -0.1));
    }
}
