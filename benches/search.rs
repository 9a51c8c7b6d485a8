//! Time of the search where it is hard, and on the rails an independent program laid out.
//!
//! *Rows*: random rows over 70 rafters at irregular centres, loads by zone, several segments; each
//! laid out for every aim, with the limit a request has that sets none, and for few hooks without a
//! gap between segments as well. *Rails*: those of
//! `tests/properties/rails_enumerated.json`, from their loads to the proof; what
//! `benches/independent/rails_milp.py` needs for the same rails is printed by it.
//!
//! `cargo bench --bench search -- 20` takes 20 rows instead of 100.

mod figures;

#[path = "../tests/properties/jobs.rs"]
#[allow(dead_code, reason = "the tests draw other jobs as well")]
mod jobs;
#[path = "../tests/properties/rails_given.rs"]
mod rails_given;

use std::time::Duration;

use figures::{figure, percentile, time, timed};
use hookspan::placement::layout::lay_out;
use hookspan::placement::search::{Pattern, fewest_hooks};
use hookspan::wire::array::Objective;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngSeed, TestRunner};

/// That of the service.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// Turns every rail is searched; the fastest counts, since nothing but others slows it down.
const TURNS: usize = 20;

/// Longer than any of the rows.
const WHOLE_ROW_MM: f64 = 60_000.0;

fn main() {
    let rows = std::env::args().find_map(|argument| argument.parse().ok()).unwrap_or(100);
    rails();
    hard_rows(rows);
}

fn rails() {
    let mut fastest: Vec<Duration> = rails_given::cases()
        .iter()
        .map(|case| {
            let turn = || {
                timed(|| {
                    let segment = rails_given::segment(&case["given"]);
                    fewest_hooks(&segment, 1.0, Pattern::Free, u64::MAX, &[])
                })
            };
            let turns = std::iter::repeat_with(|| turn().1).take(TURNS);
            turns.min().unwrap_or_default()
        })
        .collect();
    time("independent", "search, median of a rail", percentile(&mut fastest, 0.5));
    time("independent", "search, slowest rail", percentile(&mut fastest, 1.0));
}

fn hard_rows(count: usize) {
    let mut runner = TestRunner::new(Config { rng_seed: RngSeed::Fixed(70), ..Config::default() });
    let drafts: Vec<_> = std::iter::repeat_with(|| {
        jobs::long_row().new_tree(&mut runner).expect("rows can be drawn").current()
    })
    .take(count)
    .collect();
    for (name, aim, whole) in [
        ("fewest", Objective::FewestHooks, false),
        ("even", Objective::EvenSpacing, false),
        ("staggered", Objective::Staggered, false),
        ("same rafters", Objective::SameRafters, false),
        ("fewest, no gap", Objective::FewestHooks, true),
    ] {
        let (mut times, mut passed, mut proven) = (Vec::new(), 0, 0);
        for draft in &drafts {
            let mut draft = draft.clone();
            draft.objective = aim;
            if whole {
                draft.parts.max_continuous_mm = WHOLE_ROW_MM;
            }
            let mut request = draft.request();
            if let Some(wishes) = &mut request.wishes {
                wishes.search_limit = None;
            }
            let job = jobs::job(&request);
            let (layout, took) = timed(|| lay_out(&job));
            times.push(took);
            let passes = layout.segments().all(|laid| laid.found.outcome.passes());
            passed += u32::from(passes);
            // That nothing holds is proven as well, wherever the search came to its end.
            proven += u32::from(layout.segments().all(|laid| {
                use hookspan::placement::search::Outcome::NonePasses;
                laid.found.outcome.is_proven() || laid.found.outcome == NonePasses
            }));
        }
        let row = |what: &str| format!("{name}: {what}");
        figure("hard rows", &row("proven"), f64::from(proven), "rows");
        figure("hard rows", &row("hold"), f64::from(passed), "rows");
        time("hard rows", &row("p50"), percentile(&mut times, 0.5));
        time("hard rows", &row("p95"), percentile(&mut times, 0.95));
        time("hard rows", &row("longest"), percentile(&mut times, 1.0));
    }
}
