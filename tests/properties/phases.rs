//! Random roofs whose rafters nobody has seen: what is said of each place of the first rafter is what a layout
//! with the rafters there says, and the order suffices for each that does not fail and has no more than one
//! of them needs.

use hookspan::service::layout;
use hookspan::service::request::Options;
use hookspan::wire::layout::{LayoutAnswer, LayoutRequest};
use hookspan::wire::parts::{OrderedKind, PartLine};
use hookspan::wire::phases::{KnownOfRafters, PhaseAnswer, Unmeasured};
use hookspan::wire::remarks::Verdict;
use proptest::prelude::*;

use crate::jobs::any_job;
use crate::{Tally, runner};

fn answered(request: &LayoutRequest) -> Option<LayoutAnswer> {
    layout::run(request, String::new(), &Options::default()).ok()
}

/// The request with its rafters at centres of so much, looked at in so many steps.
fn unmeasured(mut request: LayoutRequest, spacing: f64, steps: u32) -> LayoutRequest {
    let rafters = &mut request.roof.rafters;
    rafters.positions_mm = None;
    rafters.spacing_mm = Some(spacing);
    rafters.unmeasured = Some(Unmeasured {
        known: KnownOfRafters::Spacing,
        spacings_mm: Vec::new(),
        step_mm: Some(spacing / f64::from(steps)),
        shown_first_mm: None,
    });
    request.remedies = Some(false);
    request
}

/// The request with its rafters where a phase has them.
fn there(request: &LayoutRequest, phase: &PhaseAnswer) -> LayoutRequest {
    let mut request = request.clone();
    let rafters = &mut request.roof.rafters;
    rafters.unmeasured = None;
    rafters.first_mm = Some(phase.first_mm);
    rafters.spacing_mm = Some(phase.spacing_mm);
    rafters.count = Some(u32::try_from(phase.count).expect("a count"));
    request
}

/// What is needed of a part.
fn of(lines: &[PartLine], kind: OrderedKind, size: Option<f64>) -> [u64; 2] {
    let line = lines.iter().find(|line| line.kind == kind && line.size_mm == size);
    line.map_or([0, 0], |line| [line.needed, line.ordered])
}

#[test]
fn an_order_suffices_for_every_place_looked_at_that_does_not_fail() {
    let [looked_at, failing, mixed, apart] = std::array::from_fn(|_| Tally::default());
    let drawn = (any_job(), 450.0..950.0, 2..5_u32);
    let outcome = runner(80).run(&drawn, |(draft, spacing, steps)| {
        let request = unmeasured(draft.request(), spacing, steps);
        let Some(answer) = answered(&request) else { return Ok(()) };
        let all = answer.phases.as_ref().expect("phases");
        prop_assert_eq!(all.phases.len(), steps as usize);
        prop_assert!(answer.verdict == Verdict::Incomplete || answer.verdict == Verdict::Fails);
        let mut passing: Vec<Vec<PartLine>> = Vec::new();
        for (at, phase) in all.phases.iter().enumerate() {
            let alone = answered(&there(&request, phase)).expect("a layout with the rafters there");
            prop_assert_eq!(phase.verdict, alone.verdict);
            prop_assert_eq!(phase.hooks, alone.hooks.len() as u64);
            prop_assert_eq!(phase.utilisation.to_bits(), alone.utilisation.max.to_bits());
            if at as u64 == all.shown {
                let told = |of: &LayoutAnswer| serde_json::to_string(&(&of.hooks, &of.parts)).ok();
                prop_assert_eq!(told(&answer), told(&alone));
            }
            looked_at.see(true);
            failing.see(alone.verdict == Verdict::Fails);
            if alone.verdict != Verdict::Fails {
                passing.push(alone.parts.lines);
            }
        }
        prop_assert_eq!(all.failing, (all.phases.len() - passing.len()) as u64);
        mixed.see(!passing.is_empty() && all.failing > 0);
        apart.see(all.least_hooks < all.most_hooks);
        // It suffices, and is needed: some layout has as much of each line.
        for line in passing.iter().flatten() {
            let [needed, ordered] = of(&all.order, line.kind, line.size_mm);
            prop_assert!(needed >= line.needed && ordered >= line.ordered, "{:?}", line);
        }
        for line in &all.order {
            let most = passing.iter().map(|lines| of(lines, line.kind, line.size_mm)).max();
            prop_assert_eq!(Some([line.needed, line.ordered]), most);
        }
        Ok(())
    });
    outcome.expect("every phase is what its layout is");
    looked_at.at_least(160, "places of the first rafter");
    failing.at_least(20, "places that fail");
    mixed.at_least(3, "roofs where some places fail and others do not");
    apart.at_least(10, "roofs where the number of hooks depends on the place");
}
