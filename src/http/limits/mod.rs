//! Limits of one instance, and the places computations take.

mod processor;
mod room;
mod turns;
mod unread;

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

use tokio::task::AbortHandle;

use crate::effort::Stop;
use crate::http::call::Call;
use crate::http::metrics::{Fullness, Lane, Metrics};
use crate::http::problem::Problem;

use processor::metered;
pub use room::{Held, Room};
use turns::{Full, Turn, Turns};
pub use unread::{Kept, Unread};

/// The limits, as set at start.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// Largest request body, bytes.
    pub max_body_bytes: usize,
    /// Computations under way at once.
    pub jobs_at_once: usize,
    /// Single requests that wait for a place, at most.
    pub waiting: usize,
    /// Longest wait for a computation to begin.
    pub queue: Duration,
    /// Longest computation of a job; `None` for as long as it takes.
    pub deadline: Option<Duration>,
    /// Longest time a body may take to arrive, and a batch to go on.
    pub body: Duration,
    /// Bodies that are being read or wait for their answer, bytes in all.
    pub bodies_bytes: usize,
    /// Answers that are not yet taken, bytes in all, beyond which no further one is begun.
    pub answers_bytes: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            max_body_bytes: 4 * 1024 * 1024,
            jobs_at_once: 1,
            waiting: 32,
            queue: Duration::from_secs(2),
            deadline: Some(Duration::from_secs(10)),
            body: Duration::from_secs(15),
            bodies_bytes: 32 * 1024 * 1024,
            answers_bytes: 64 * 1024 * 1024,
        }
    }
}

/// The places computations take, the clock of each, and what it takes of the processor.
#[derive(Debug, Clone)]
pub struct Places {
    turns: Turns,
    stop: Stop,
    limits: Limits,
    /// Of single requests, and of batches: neither takes the memory of the other.
    unread: [Unread; 2],
    metrics: Metrics,
}

impl Places {
    /// As many places as the limits say.
    #[must_use]
    pub fn new(limits: &Limits, metrics: Metrics) -> Self {
        let turns = Turns::new(limits.jobs_at_once, limits.waiting);
        let unread = [(); 2].map(|()| Unread::new(limits.answers_bytes / 2));
        Self { turns, stop: Stop::default(), limits: *limits, unread, metrics }
    }

    /// How many computations are under way at once, save for the one place more.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.limits.jobs_at_once
    }

    /// Ends every computation under way; it is answered with a problem.
    pub fn end(&self) {
        self.stop.say();
    }

    /// A word that ends what is computed for one caller.
    #[must_use]
    pub fn word(&self) -> Stop {
        self.stop.part()
    }

    /// A clock for one job of a batch, which is told to stop by the word of its batch as well.
    #[must_use]
    pub fn clock(&self, word: &Stop) -> Clock {
        Clock::start(word.part(), self.limits.deadline)
    }

    /// What is counted.
    #[must_use]
    pub const fn metrics(&self) -> &Metrics {
        &self.metrics
    }

    /// How full they are.
    #[must_use]
    pub fn fullness(&self) -> Fullness {
        let (places, taken, waiting) = self.turns.fullness();
        let answers = self.unread.iter().map(Unread::bytes).sum();
        Fullness { places, taken, waiting, bodies: 0, answers }
    }

    /// Answers in a lane that are not yet taken.
    #[must_use]
    pub const fn unread(&self, lane: Lane) -> &Unread {
        match lane {
            Lane::single => &self.unread[0],
            Lane::batch => &self.unread[1],
        }
    }

    #[cfg(test)]
    pub(super) fn are_free(&self) -> bool {
        self.turns.fullness().1 == [0, 0]
    }

    /// Whether a single request may still come to wait for a place.
    ///
    /// # Errors
    /// `busy`, before anything of its body is read.
    pub fn admit(&self, call: &Call) -> Result<(), Problem> {
        if self.stop.is_said() {
            return Err(Problem::ending());
        }
        self.may_answer(Lane::single)?;
        self.turns.has_room_for(&call.share()).map_err(|Full| too_many_wait())
    }

    /// Whether a further answer may be begun.
    ///
    /// # Errors
    /// `busy` while those that nobody has taken yet hold all the memory there is for them.
    pub fn may_answer(&self, lane: Lane) -> Result<(), Problem> {
        if self.unread(lane).has_room() {
            return Ok(());
        }
        Err(Problem::busy("As many answers wait to be taken as there is memory for."))
    }

    /// Runs a computation off the threads that serve connections, once a place is free. It is told
    /// to stop when its time is over and when the caller has left; until it has, it keeps its place.
    ///
    /// # Errors
    /// `busy` when too many wait already or no place comes free in time, `overdue` when its time is
    /// over, `ending` when the instance ends, `internal` when the computation panics.
    pub async fn compute<R: Send + 'static>(
        &self,
        call: &Call,
        job: impl FnOnce(&Stop) -> R + Send + 'static,
    ) -> Result<R, Problem> {
        let begin = Instant::now();
        let (share, lane) = (call.share(), Lane::single);
        let turn = tokio::time::timeout(self.limits.queue, self.turns.take(&share, lane)).await;
        let turn = turn.map_err(|_| waited_in_vain())?.map_err(|Full| too_many_wait())?;
        self.metrics.waited(lane, begin.elapsed());
        self.may_answer(lane)?;
        let word = Leaving(self.word());
        let stop = word.0.clone();
        let computed = self.run(call, lane, turn, move || job(&stop));
        let done = match self.limits.deadline {
            None => computed.await,
            Some(deadline) => tokio::time::timeout(deadline, computed)
                .await
                .unwrap_or_else(|_| Err(Problem::overdue(deadline))),
        };
        // What was cut short is no answer.
        if word.0.is_said() { Err(Problem::ending()) } else { done }
    }

    /// The same for work of a batch: waits as long as it takes, also for the quota of its key and for
    /// memory for its answers, unless it is said that they have to be worked out `anyway`.
    ///
    /// # Errors
    /// `internal` when the computation panics.
    pub async fn compute_in_turn<R: Send + 'static>(
        &self,
        call: &Call,
        anyway: impl Fn() -> bool,
        job: impl FnOnce() -> R + Send + 'static,
    ) -> Result<R, Problem> {
        let (share, lane) = (call.share(), Lane::batch);
        let turn = loop {
            call.in_budget().await;
            self.unread(lane).room_or(&anyway).await;
            let begin = Instant::now();
            let turn = self.turns.take(&share, lane).await.map_err(|Full| too_many_wait())?;
            self.metrics.waited(lane, begin.elapsed());
            // What was worked out before this may have used it up meanwhile.
            let has_room = self.unread(lane).has_room() || anyway();
            if has_room && call.budget_wait().is_none() {
                break turn;
            }
        };
        self.run(call, lane, turn, job).await
    }

    /// Runs a computation that holds its place until it ends, and bills it.
    async fn run<R: Send + 'static>(
        &self,
        call: &Call,
        lane: Lane,
        turn: Turn,
        job: impl FnOnce() -> R + Send + 'static,
    ) -> Result<R, Problem> {
        let span = tracing::Span::current();
        let bill = Bill { call: call.clone(), lane, metrics: self.metrics.clone() };
        let computation = tokio::task::spawn_blocking(move || {
            let _turn = turn;
            let (done, cpu) = metered(|| catch_unwind(AssertUnwindSafe(|| span.in_scope(job))));
            bill.pay(cpu);
            done
        });
        // A computation that breaks has taken its time all the same.
        match computation.await {
            Ok(Ok(done)) => return Ok(done),
            Ok(Err(_)) => tracing::error!("a computation did not end"),
            Err(error) => tracing::error!(%error, "a computation did not end"),
        }
        Err(Problem::internal())
    }
}

/// Who pays for a computation.
struct Bill {
    call: Call,
    lane: Lane,
    metrics: Metrics,
}

impl Bill {
    fn pay(&self, cpu: Duration) {
        self.call.spend(cpu);
        self.metrics.used(self.lane, cpu);
    }
}

fn too_many_wait() -> Problem {
    Problem::busy("As many requests wait for a computation as may.")
}

fn waited_in_vain() -> Problem {
    Problem::busy("Every place for a computation stayed taken while this request waited.")
}

/// Tells a computation to stop once nobody waits for it any more.
#[derive(Debug)]
pub struct Leaving(pub Stop);

impl Drop for Leaving {
    fn drop(&mut self) {
        self.0.say();
    }
}

/// The time one job of a batch has.
#[derive(Debug)]
pub struct Clock {
    /// The word that ends it.
    pub stop: Stop,
    deadline: Option<(Duration, Stop, AbortHandle)>,
}

impl Clock {
    fn start(word: Stop, deadline: Option<Duration>) -> Self {
        let stop = word.part();
        let deadline = deadline.map(|deadline| {
            let late = stop.clone();
            let timer = tokio::spawn(async move {
                tokio::time::sleep(deadline).await;
                late.say();
            });
            (deadline, word, timer.abort_handle())
        });
        Self { stop, deadline }
    }

    /// The problem of a job whose time was over; nothing where it had enough, or where all of its
    /// batch was stopped.
    #[must_use]
    pub fn overdue(&self) -> Option<Problem> {
        let (deadline, word, _) = self.deadline.as_ref()?;
        (self.stop.is_said() && !word.is_said()).then(|| Problem::overdue(*deadline))
    }
}

impl Drop for Clock {
    fn drop(&mut self) {
        if let Some((.., timer)) = &self.deadline {
            timer.abort();
        }
    }
}

#[cfg(test)]
mod tests;
