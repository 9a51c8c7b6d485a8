//! Rails and the courses of the covering, modules and their clamp zones.

use std::collections::BTreeSet;

use crate::placement::laid::Layout;
use crate::placement::rail_axis::RailAxis;
use crate::placement::{Job, clamp_zones};

use super::{Fact, Findings, Place};

pub(super) fn course_lines(job: &Job, layout: &Layout, out: &mut Findings) {
    let mut seen = BTreeSet::new();
    for (r, rail) in layout.rails.iter().enumerate() {
        let line = &rail.line;
        let field = &job.fields[line.field()];
        // A rail that is there lies where it lies, which is told of it by itself.
        if !line.on_grid && line.there.is_none() && seen.insert((line.field(), line.run.lane)) {
            let (field, lane) = (field.id.clone(), u64::from(line.run.lane));
            let fact = match line.axis() {
                RailAxis::AlongEaves => Fact::NoCourse { field, row: lane },
                RailAxis::UpSlope => Fact::NoRafter { field, column: lane },
            };
            out.add(Place::Rail(r), fact);
        }
    }
}

/// Fields whose modules are clamped where no zone is known.
pub(super) fn short_sides(job: &Job, layout: &Layout, out: &mut Findings) {
    let mut seen = BTreeSet::new();
    for (r, rail) in layout.rails.iter().enumerate() {
        let place = rail.line.field();
        let field = &job.fields[place];
        if clamp_zones::clamp_zones(field, job.clamped_axis()).is_none() && seen.insert(place) {
            let (field, place) = (field.id.clone(), Some(place).filter(|_| field.has_own_module));
            out.add(Place::Rail(r), Fact::ShortSideZoneUnknown { field, place });
        }
    }
}
