//! What of an order differs with the module of a field: the modules themselves, and the clamps, which are
//! made for frames of one height.

use crate::placement::array::Field;
use crate::units::Length;

use super::take_off::Counts;

/// A field of an order: what people call it, the field, and what it takes.
pub type OfField<'a> = (String, &'a Field, &'a Counts);

/// Modules of one kind.
#[derive(Debug)]
pub struct Modules<'a> {
    /// The first field that has them.
    pub first: &'a Field,
    /// How many every field has, by what people call it.
    pub per_field: Vec<(String, u64)>,
}

/// Clamps for frames of one height.
#[derive(Debug)]
pub struct Clamps {
    /// Height of the frames; `None` where all are alike.
    pub frame: Option<Length>,
    /// Rail segments they are on.
    pub segments: u64,
    /// Mid clamps.
    pub mid: u64,
    /// End clamps.
    pub end: u64,
}

/// The modules of fields, kind by kind, in the order of the fields.
#[must_use]
pub fn modules<'a>(fields: &[OfField<'a>]) -> Vec<Modules<'a>> {
    let mut kinds: Vec<Modules<'a>> = Vec::new();
    for (name, field, counts) in fields {
        let own = (name.clone(), counts.modules);
        match kinds.iter_mut().find(|kind| kind.first.module == field.module) {
            Some(kind) => kind.per_field.push(own),
            None => kinds.push(Modules { first: field, per_field: vec![own] }),
        }
    }
    kinds
}

/// The clamps of fields, by the height of the frames, in the order of the fields.
#[must_use]
pub fn clamps(fields: &[OfField<'_>]) -> Vec<Clamps> {
    let mut all: Vec<Clamps> = Vec::new();
    for (_, field, counts) in fields {
        let frame = Some(field.module.thickness);
        let Counts { clamped: segments, mid_clamps, end_clamps, .. } = counts;
        match all.iter_mut().find(|known| known.frame == frame) {
            Some(known) => {
                known.segments += segments;
                known.mid += mid_clamps;
                known.end += end_clamps;
            }
            None => {
                all.push(Clamps { frame, segments: *segments, mid: *mid_clamps, end: *end_clamps });
            }
        }
    }
    if let [only] = &mut all[..] {
        only.frame = None;
    }
    all
}
