//! What one job may take: steps and bytes, counted and not timed, so that the same job ends in the same
//! place on every machine; and a word by which whoever waits says that no answer is wanted any more.
//!
//! A job that has spent its steps is answered with the best that is known. One that was told to stop
//! is not answered at all: what it still returns is thrown away by whoever told it.
//!
//! **Layer.** Bottom: names nothing.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// Steps of a job, unless somebody says otherwise: a few seconds. Roof jobs take far less than a
/// hundredth of that.
pub const USUAL_STEPS: u64 = 100_000_000;

/// Bytes that the tables of a job may take, unless somebody says otherwise.
pub const USUAL_BYTES: usize = 128 * 1024 * 1024;

/// What a job may take.
#[derive(Debug, Clone)]
pub struct Effort {
    /// Steps: a hook joined to a rail or asked about.
    pub steps: u64,
    /// Bytes of tables that grow with what is looked through.
    pub bytes: usize,
    /// Whether the answer is still wanted.
    pub stop: Stop,
}

impl Default for Effort {
    fn default() -> Self {
        Self { steps: USUAL_STEPS, bytes: USUAL_BYTES, stop: Stop::default() }
    }
}

impl Effort {
    /// As much as it takes.
    #[must_use]
    pub fn unlimited() -> Self {
        Self { steps: u64::MAX, bytes: usize::MAX, stop: Stop::default() }
    }
}

/// Tells a job that its answer is no longer wanted; the same word for all clones.
#[derive(Debug, Clone, Default)]
pub struct Stop(Arc<Word>);

#[derive(Debug, Default)]
struct Word {
    said: AtomicBool,
    above: Option<Stop>,
}

impl Stop {
    /// A word for a part, which is also told by whoever stops the whole.
    #[must_use]
    pub fn part(&self) -> Self {
        Self(Arc::new(Word { said: AtomicBool::new(false), above: Some(self.clone()) }))
    }

    /// From now on nobody wants the answer.
    pub fn say(&self) {
        self.0.said.store(true, Ordering::Relaxed);
    }

    /// Whether nobody wants the answer any more.
    #[must_use]
    pub fn is_said(&self) -> bool {
        self.0.said.load(Ordering::Relaxed) || self.0.above.as_ref().is_some_and(Self::is_said)
    }
}

/// What is left to a job, or to a part of it.
#[derive(Debug, Clone)]
pub struct Allowance {
    effort: Effort,
    spent: u64,
    ran_out: bool,
}

impl From<&Effort> for Allowance {
    fn from(effort: &Effort) -> Self {
        Self { effort: effort.clone(), spent: 0, ran_out: false }
    }
}

impl Allowance {
    /// Counts steps.
    pub const fn spend(&mut self, steps: u64) {
        self.spent = self.spent.saturating_add(steps);
    }

    /// Counts what a part of it spent, and whether that ran out.
    pub fn take_back(&mut self, part: &Self) {
        self.spend(part.spent);
        self.ran_out |= part.has_run_out();
    }

    /// Whether it or a part of it was spent to the end: with more, something else might have come out.
    #[must_use]
    pub fn has_run_out(&self) -> bool {
        self.ran_out || self.is_spent()
    }

    /// What is left of it as the effort of a job, one of so many equal parts.
    #[must_use]
    pub fn effort(&self, of: u64) -> Effort {
        self.part(of).effort
    }

    /// Steps counted so far.
    #[must_use]
    pub const fn spent(&self) -> u64 {
        self.spent
    }

    /// Steps that may still be taken.
    #[must_use]
    pub fn left(&self) -> u64 {
        if self.effort.stop.is_said() { 0 } else { self.effort.steps.saturating_sub(self.spent) }
    }

    /// Whether no further step may be taken.
    #[must_use]
    pub fn is_spent(&self) -> bool {
        self.left() == 0
    }

    /// Bytes that tables may take at one time.
    #[must_use]
    pub const fn bytes(&self) -> usize {
        self.effort.bytes
    }

    /// One of so many equal parts of what is left. What it spends is to be counted here as well.
    #[must_use]
    pub fn part(&self, of: u64) -> Self {
        let steps = if self.effort.steps == u64::MAX { u64::MAX } else { self.left() / of.max(1) };
        Self { effort: Effort { steps, ..self.effort.clone() }, spent: 0, ran_out: false }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_share_what_is_left_and_hear_the_same_word() {
        let effort = Effort { steps: 100, ..Effort::default() };
        let mut whole = Allowance::from(&effort);
        whole.spend(40);
        let mut part = whole.part(3);
        assert_eq!((part.left(), part.spent()), (20, 0));
        part.spend(25);
        assert!(part.is_spent() && !whole.is_spent());
        whole.spend(part.spent());
        assert_eq!(whole.left(), 35);
        let under = effort.stop.part();
        under.part().say();
        assert!(!under.is_said(), "a part does not stop the whole");
        effort.stop.say();
        assert!(under.is_said());
        assert!(whole.is_spent() && Allowance::from(&effort).is_spent());
    }
}
