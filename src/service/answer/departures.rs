//! Where hooks are not as planned, as the answer shows it.

use crate::placement::Job;
use crate::placement::built::Built;
use crate::placement::departures::{self, Quantity};
use crate::service::rounding::mm;
use crate::wire::recheck::{DepartingQuantity, Departure};

/// Writes every departure.
pub fn departures(job: &Job, built: &Built) -> Vec<Departure> {
    let told = |of: departures::Departure| Departure {
        hook: built.hooks[of.hook].id.clone(),
        quantity: match of.quantity {
            Quantity::RafterAxis => DepartingQuantity::RafterX,
            Quantity::RafterWidth => DepartingQuantity::RafterWidth,
            Quantity::CounterBatten => DepartingQuantity::CounterBatten,
            Quantity::ScrewLength => DepartingQuantity::ScrewLength,
            Quantity::Clearance => DepartingQuantity::Clearance,
        },
        planned_mm: mm(of.planned.mm()),
        found_mm: mm(of.found.mm()),
        by_mm: mm((of.found - of.planned).mm()),
    };
    departures::departures(job, built).into_iter().map(told).collect()
}
