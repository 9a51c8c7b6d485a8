//! What a job may take: steps and bytes are kept to, whatever the job, and an answer that was cut
//! short claims nothing that is not so.

use hookspan::checks::probe::Probe;
use hookspan::checks::segment::Segment;
use hookspan::checks::windows::Windows;
use hookspan::effort::{Allowance, Effort};
use hookspan::placement::layout::lay_out;
use hookspan::placement::search::{Found, Limit, Outcome, Pattern, fewest_hooks};
use hookspan::service::intake;
use hookspan::wire::array::Orientation;
use hookspan::wire::components::HookStiffness;
use hookspan::wire::fault::FaultCode;
use hookspan::wire::layout::LayoutRequest;
use proptest::prelude::*;

use crate::jobs::{hook, job, rail, short_job};
use crate::stronger::stronger;
use crate::{Tally, runner};

/// A search with what it may take, and what it took.
fn searched(segment: &Segment, pattern: Pattern, effort: &Effort) -> (Found, u64) {
    let mut allowance = Allowance::from(effort);
    let limit = Limit { weighed: u64::MAX, allowance: Some(&mut allowance) };
    let found = fewest_hooks(segment, 1.0, pattern, limit, &[]);
    (found, allowance.spent())
}

/// What is worked out before the first question, and the few questions after the last step: each
/// about half as many hooks again as the one before.
fn around_the_search(segment: &Segment) -> u64 {
    let n = segment.candidates.len();
    (6 * n * (segment.cases.len() + 1) + n * n) as u64
}

#[test]
fn a_search_keeps_to_its_steps_and_claims_only_what_is_so() {
    let [cut, passes, proven] = std::array::from_fn(|_| Tally::default());
    let steps = prop_oneof![Just(0_u64), 1..200_u64, 200..5000_u64];
    runner(120)
        .run(&(short_job(), steps), |(draft, steps)| {
            let effort = Effort { steps, ..Effort::default() };
            for laid in lay_out(&job(&draft.request())).segments() {
                for pattern in [Pattern::Free, Pattern::Even] {
                    let (whole, _) = searched(&laid.segment, pattern, &Effort::unlimited());
                    let (short, spent) = searched(&laid.segment, pattern, &effort);
                    let most = steps + around_the_search(&laid.segment);
                    prop_assert!(spent <= most, "{spent} steps of {steps}");
                    cut.see(short.outcome != whole.outcome);
                    let fewest = whole.subset.len();
                    if whole.outcome.passes() {
                        prop_assert!(short.lower_bound <= fewest);
                        prop_assert!(short.subset.len() >= fewest);
                        prop_assert!(short.outcome != Outcome::NonePasses);
                    }
                    if short.outcome.passes() {
                        let result = laid.segment.check_all(&short.subset);
                        prop_assert!(result.is_some_and(|r| r.governing().1.utilisation <= 1.0));
                        passes.see(true);
                    }
                    if short.outcome.is_proven() {
                        prop_assert_eq!(short.subset.len(), fewest);
                        proven.see(true);
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    cut.at_least(100, "searches cut short");
    passes.at_least(100, "searches within few steps that found something");
    proven.at_least(50, "searches within few steps that are proven");
}

/// A row under soft hooks on very many rafters: the tables of what is looked through grow with the
/// third power of the hooks within reach of each other.
fn many_rafters(count: u32, rows: u32) -> LayoutRequest {
    let text = include_str!("../data/layout-barn.json");
    let mut request: LayoutRequest = serde_json::from_str(text).expect("the barn is a request");
    request.roof.obstacles.clear();
    request.roof.outline_mm =
        vec![[0.0, 0.0], [59_300.0, 0.0], [59_300.0, 34_000.0], [0.0, 34_000.0]];
    (request.roof.length_m, request.roof.width_m) = (59.3, 50.524);
    request.roof.ridge_height_m = 25.746;
    let wind = &mut request.site.wind;
    (wind.zone, wind.setting) = (None, None);
    wind.peak_pressure_kn_per_m2 = Some(0.65);
    let rafters = &mut request.roof.rafters;
    (rafters.first_mm, rafters.spacing_mm, rafters.count) = (None, None, None);
    rafters.positions_mm =
        Some((0..count).map(|i| 122.6 + 59_000.0 / f64::from(count) * f64::from(i)).collect());
    let module = &mut request.array.module;
    (module.length_mm, module.width_mm) = (1134.0, 300.0);
    module.clamp_zone_mm = [10.0, 300.0];
    module.short_side_clamp_zone_mm = Some([10.0, 290.0]);
    let field = &mut request.array.fields[0];
    (field.rows, field.columns) = (rows, 50);
    field.orientation = Orientation::Landscape;
    (field.column_gap_mm, field.row_gap_mm) = (20.0, 20.0);
    field.origin_mm = [800.0, 900.0];
    field.omitted.clear();
    hook(&mut request).stiffness = Some(HookStiffness {
        normal_kn_per_mm: Some(0.1),
        includes_foot: Some(true),
        slope_kn_per_mm: Some(1000.0),
    });
    let rail = rail(&mut request);
    rail.max_cantilever_mm = 3000.0;
    rail.max_continuous_mm = 100_000.0;
    let wishes = request.wishes.get_or_insert_default();
    wishes.max_utilisation = Some(0.2);
    wishes.search_limit = Some(20_000_000);
    request
}

#[test]
fn tables_keep_to_the_bytes_of_their_job() {
    const BYTES: usize = 1024 * 1024;
    let layout = lay_out(&job(&many_rafters(120, 1)));
    let laid = layout.segments().next().expect("there is a rail");
    // The more hooks bear, the more of them are within reach of each other.
    let segment = stronger(&laid.segment, 20.0);
    let mut probe = Probe::new(&segment).expect("there are combinations");
    probe.stay_within(1.0);
    let spans = probe.spans(1.0);
    let hooks = segment.candidates.len();
    let gathered = |effort: &Effort| {
        let allowance = Allowance::from(effort);
        let mut told = Ok(());
        let measured = allocation_counter::measure(|| {
            let windows = Windows::of_at_most(hooks, &probe, &spans, (u64::MAX, &allowance));
            told = windows.map(drop);
        });
        (told, measured.bytes_max)
    };
    let plenty = Effort { steps: 160_000, ..Effort::unlimited() };
    // Once for what is worked out of the rail itself.
    let _ = gathered(&plenty);
    let (_, needed) = gathered(&plenty);
    let (none, kept) = gathered(&Effort { bytes: BYTES, ..plenty });
    assert!(needed > 2 * BYTES as u64, "{needed} bytes are no table to speak of");
    assert!(none.is_err(), "it had enough");
    assert!(kept < BYTES as u64, "{kept} bytes");
    let (none, _) = gathered(&Effort { steps: 1000, ..Effort::unlimited() });
    assert!(none.is_err_and(|steps| steps >= 1000), "it had enough");
}

#[test]
fn a_job_that_is_told_to_stop_takes_no_further_step() {
    let job = job(&many_rafters(590, 1));
    job.effort.stop.say();
    for laid in lay_out(&job).segments() {
        let (found, spent) = searched(&laid.segment, Pattern::Free, &job.effort);
        assert!(!found.outcome.is_proven());
        assert!(spent <= around_the_search(&laid.segment), "{spent} steps");
    }
}

#[test]
fn a_job_has_no_more_places_for_hooks_than_there_is_memory_for() {
    assert!(intake::take(&many_rafters(590, 34)).is_ok());
    let faults = intake::take(&many_rafters(590, 100)).expect_err("there are far too many");
    let fault = faults.first().expect("there is one");
    assert_eq!((faults.len(), &*fault.pointer), (1, "/array/fields"));
    assert_eq!(fault.code, FaultCode::OutOfRange);
}
