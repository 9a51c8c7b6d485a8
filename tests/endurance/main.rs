//! The real program against hostile requests and sudden ends: mutated requests and lines, and long
//! batches that are killed and gone on with.
//!
//! As part of `cargo test` all of it is short. How long it is meant to be is set from outside, and
//! the program should be the one that is deployed:
//!
//! ```text
//! ENDURANCE_REQUESTS=100000 ENDURANCE_LINES=50000 ENDURANCE_INTERRUPTED=1000000 \
//!     cargo test --release --test endurance -- --nocapture --test-threads 1
//! ```
//!
//! `ENDURANCE_KEEP=1` writes the mutated requests that showed something new to the corpus.

mod caller;
#[path = "../../benches/service/child.rs"]
mod child;
mod corpus;
mod interrupted;
mod mutated;
mod mutations;
mod places;
mod program;

/// A number set from outside, or the one that is quick.
fn size(variable: &str, quick: usize) -> usize {
    match std::env::var(variable) {
        Ok(text) => text.parse().unwrap_or_else(|_| panic!("{variable} is no number: {text}")),
        Err(_) => quick,
    }
}

/// Every thread draws numbers of its own, and draws them again when started with the same seed.
#[derive(Debug)]
struct Dice(proptest::test_runner::TestRng);

impl Dice {
    fn new(seed: u64) -> Self {
        use proptest::test_runner::{RngAlgorithm, TestRng};
        let mut bytes = [0; 32];
        bytes[..8].copy_from_slice(&seed.to_le_bytes());
        Self(TestRng::from_seed(RngAlgorithm::ChaCha, &bytes))
    }

    /// A number below `sides`, which is not 0.
    fn roll(&mut self, sides: usize) -> usize {
        use proptest::prelude::Rng;
        usize::try_from(self.0.next_u64() % sides as u64).expect("fewer sides than fit")
    }

    /// One of these; nothing where there are none.
    fn pick<'a, T>(&mut self, of: &'a [T]) -> Option<&'a T> {
        (!of.is_empty()).then(|| &of[self.roll(of.len())])
    }
}
