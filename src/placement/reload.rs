//! The same rails on the same hooks under other loads.
//!
//! Nothing is searched and nothing moves: what stands is checked again. Resistances depend on the
//! combinations and not on the size of the loads, so the feet stay as they were worked out.

use super::laid::{LaidSegment, Layout, Rail};
use super::rail_lines::RailLine;
use super::search::Found;
use super::{Job, modules, rafters, segments};
use crate::units::Length;

/// A layout checked anew for a job that differs from its own in the size of its loads alone: with as
/// many combinations, and each of the same situation and duration.
#[must_use]
pub fn reloaded(job: &Job, layout: &Layout) -> Layout {
    let footings = &layout.footings;
    let rails = rails(job, layout, true);
    let modules = modules::on(job, &rails);
    let rafters = rafters::under(job, footings, &rails, &modules);
    Layout { footings: footings.clone(), rails, modules, rafters, in_any_pattern: None }
}

/// Some segments of a layout checked anew like [`reloaded`], each as a rail of its own; modules and
/// rafters are left out.
#[must_use]
pub fn reloaded_segments(job: &Job, layout: &Layout, places: &[[usize; 2]]) -> Layout {
    let rails = places.iter().map(|[r, s]| {
        let rail = &layout.rails[*r];
        let (laid, ends) = (&rail.segments[*s], rail.line.segments[*s]);
        let line = RailLine { segments: vec![ends], ..rail.line.clone() };
        let checked = segment(job, layout, &rail.line, (laid, ends), true);
        Rail { line, segments: vec![checked], hooks: Vec::new() }
    });
    let footings = layout.footings.clone();
    Layout {
        footings,
        rails: rails.collect(),
        modules: Vec::new(),
        rafters: Vec::new(),
        in_any_pattern: None,
    }
}

/// The rails of a layout checked anew like [`reloaded`], and of its rafters those that are wanted.
#[must_use]
pub fn reloaded_rails(job: &Job, layout: &Layout, wanted: impl Fn(usize) -> bool) -> Layout {
    let footings = &layout.footings;
    let rails = rails(job, layout, true);
    // Of the modules a rafter sees where they lie and nothing else.
    let rafters = rafters::under_some(job, footings, &rails, &layout.modules, wanted);
    Layout { footings: footings.clone(), rails, modules: Vec::new(), rafters, in_any_pattern: None }
}

/// The modules of a layout checked anew like [`reloaded`], for which no rail has to be solved.
#[must_use]
pub fn reloaded_modules(job: &Job, layout: &Layout) -> Layout {
    let rails = rails(job, layout, false);
    let modules = modules::on(job, &rails);
    Layout {
        footings: Vec::new(),
        rails: Vec::new(),
        modules,
        rafters: Vec::new(),
        in_any_pattern: None,
    }
}

/// Every rail under other loads, with or without the checks that a solved beam is needed for.
fn rails(job: &Job, layout: &Layout, solved: bool) -> Vec<Rail> {
    let rail = |rail: &Rail| {
        let segments = rail.segments.iter().zip(&rail.line.segments);
        let segments =
            segments.map(|(laid, ends)| segment(job, layout, &rail.line, (laid, *ends), solved));
        Rail { line: rail.line.clone(), segments: segments.collect(), hooks: rail.hooks.clone() }
    };
    layout.rails.iter().map(rail).collect()
}

fn segment(
    job: &Job,
    layout: &Layout,
    line: &RailLine,
    (laid, ends): (&LaidSegment, [Length; 2]),
    solved: bool,
) -> LaidSegment {
    let hooks: Vec<_> = laid.hooks().cloned().collect();
    let found = Found::given(hooks.len());
    let mut segment = segments::segment(job, &layout.footings, line, ends, hooks);
    segment.least_apart = laid.segment.least_apart;
    let splices = laid.splices.clone();
    if solved {
        LaidSegment::checked(segment, found, splices)
    } else {
        LaidSegment { segment, found, result: None, splices }
    }
}
