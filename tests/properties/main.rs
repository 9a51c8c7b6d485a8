//! What is true of every roof? Properties of random jobs, checked without knowing any result.
//!
//! Each file holds one theme. Every run draws the same jobs: the seed is part of the test, and
//! nothing is written down between runs.

mod acts;
mod answers;
mod arms;
mod beams;
mod built_jobs;
mod buildings;
mod capacity;
mod choices;
mod crossing;
mod cutting;
mod drifts;
mod effort;
mod equilibrium;
mod facts;
mod figures;
mod forms;
mod filling;
mod hostile;
mod jobs;
mod in_common;
mod kept;
mod members;
mod mirror;
mod more_load;
mod patterns;
mod one_fewer;
mod phases;
mod pushed_over;
mod rafters;
mod rails;
mod rails_given;
mod rechecks;
mod records;
mod remedies;
mod search;
mod stronger;
mod survey;
mod take_off;
mod up_slope;
mod up_slope_built;
mod up_slope_jobs;
mod verdicts;
mod windows;

use std::cell::Cell;

use proptest::test_runner::{Config, RngSeed, TestRunner};

/// A runner that draws the same cases every time.
fn runner(cases: u32) -> TestRunner {
    TestRunner::new(Config {
        cases,
        rng_seed: RngSeed::Fixed(20_240_607),
        failure_persistence: None,
        ..Config::default()
    })
}

/// How often something was looked at: a property of nothing proves nothing.
#[derive(Default)]
struct Tally(Cell<u32>);

impl Tally {
    /// Counts one more if `seen`.
    fn see(&self, seen: bool) {
        self.0.set(self.0.get() + u32::from(seen));
    }

    /// Fails unless it was seen often enough.
    fn at_least(&self, times: u32, what: &str) {
        let seen = self.0.get();
        println!("{what}: {seen}");
        assert!(seen >= times, "only {seen} of at least {times}: {what}");
    }
}
