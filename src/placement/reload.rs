//! The same rails on the same hooks under other loads.
//!
//! Nothing is searched and nothing moves: what stands is checked again. Resistances depend on the
//! combinations and not on the size of the loads, so the feet stay as they were worked out.

use super::laid::{LaidSegment, Layout, Rail};
use super::search::Found;
use super::{Job, modules, rafters, segments};

/// A layout checked anew for a job that differs from its own in the size of its loads alone: with as
/// many combinations, and each of the same situation and duration.
#[must_use]
pub fn reloaded(job: &Job, layout: &Layout) -> Layout {
    let footings = &layout.footings;
    let rails: Vec<Rail> = layout.rails.iter().map(|rail| self::rail(job, layout, rail)).collect();
    let modules = modules::on(job, &rails);
    let rafters = rafters::under(job, footings, &rails, &modules);
    Layout { footings: footings.clone(), rails, modules, rafters }
}

fn rail(job: &Job, layout: &Layout, rail: &Rail) -> Rail {
    let segments = rail.segments.iter().zip(&rail.line.segments).map(|(laid, ends)| {
        let hooks: Vec<_> = laid.hooks().cloned().collect();
        let found = Found::given(hooks.len());
        let segment = segments::segment(job, &layout.footings, &rail.line, *ends, hooks);
        LaidSegment::checked(segment, found, laid.splices.clone())
    });
    Rail { line: rail.line.clone(), segments: segments.collect(), hooks: rail.hooks.clone() }
}
