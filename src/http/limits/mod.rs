//! Limits of one instance, and the places computations take.

use std::sync::Arc;
use std::time::Duration;

use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio::task::AbortHandle;

use crate::effort::Stop;
use crate::http::problem::Problem;

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
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            max_body_bytes: 1024 * 1024,
            jobs_at_once: 1,
            waiting: 32,
            queue: Duration::from_secs(2),
            deadline: Some(Duration::from_secs(10)),
            body: Duration::from_secs(15),
            bodies_bytes: 32 * 1024 * 1024,
        }
    }
}

/// The places computations take.
///
/// Who comes first is served first. Batches come one by one through a lane as wide as there are
/// places, single requests through another, and there is one place more than either is wide: when
/// batches hold theirs, a single request still finds one, and the other way round.
#[derive(Debug, Clone)]
pub struct Places {
    free: Arc<Semaphore>,
    lane: Arc<Semaphore>,
    singles: Arc<Semaphore>,
    waiting: Arc<Semaphore>,
    stop: Stop,
    limits: Limits,
}

impl Places {
    /// As many places as the limits say.
    #[must_use]
    pub fn new(limits: &Limits) -> Self {
        let of = |count: usize| Arc::new(Semaphore::new(count));
        Self {
            free: of(limits.jobs_at_once + 1),
            lane: of(limits.jobs_at_once),
            singles: of(limits.jobs_at_once),
            waiting: of(limits.waiting),
            stop: Stop::default(),
            limits: *limits,
        }
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

    #[cfg(test)]
    pub(super) fn are_free(&self) -> bool {
        self.free.available_permits() == self.limits.jobs_at_once + 1
    }

    /// Whether a single request may still come to wait for a place.
    ///
    /// # Errors
    /// `busy`, before anything of its body is read.
    pub fn admit(&self) -> Result<(), Problem> {
        let room = self.waiting.available_permits() > 0 || self.singles.available_permits() > 0;
        if self.stop.is_said() {
            Err(Problem::ending())
        } else if room {
            Ok(())
        } else {
            Err(too_many_wait())
        }
    }

    /// Runs a computation off the threads that serve connections, once a place is free. It is told
    /// to stop when its time is over and when the caller has left; until it has, it keeps its place.
    ///
    /// # Errors
    /// `busy` when too many wait already or no place comes free in time, `overdue` when its time is
    /// over, `ending` when the instance ends, `internal` when the computation panics.
    pub async fn compute<R: Send + 'static>(
        &self,
        job: impl FnOnce(&Stop) -> R + Send + 'static,
    ) -> Result<R, Problem> {
        let place = self.single_place().await?;
        let word = Leaving(self.word());
        let stop = word.0.clone();
        let computed = run(move || job(&stop), place);
        let done = match self.limits.deadline {
            None => computed.await,
            Some(deadline) => tokio::time::timeout(deadline, computed)
                .await
                .unwrap_or_else(|_| Err(Problem::overdue(deadline))),
        };
        // What was cut short is no answer.
        if word.0.is_said() { Err(Problem::ending()) } else { done }
    }

    async fn single_place(&self) -> Result<impl Send + 'static, Problem> {
        let acquired = |lane: &Arc<Semaphore>| Arc::clone(lane).acquire_owned();
        let turn = if let Ok(turn) = Arc::clone(&self.singles).try_acquire_owned() {
            turn
        } else {
            let Ok(_waits) = self.waiting.try_acquire() else { return Err(too_many_wait()) };
            let turn = tokio::time::timeout(self.limits.queue, acquired(&self.singles));
            turn.await.ok().and_then(Result::ok).ok_or_else(waited_in_vain)?
        };
        let place = tokio::time::timeout(self.limits.queue, acquired(&self.free));
        let place = place.await.ok().and_then(Result::ok).ok_or_else(waited_in_vain)?;
        Ok((turn, place))
    }

    /// The same for work of a batch: waits as long as it takes, and lets single requests between.
    ///
    /// # Errors
    /// `internal` when the computation panics.
    pub async fn compute_in_turn<R: Send + 'static>(
        &self,
        job: impl FnOnce() -> R + Send + 'static,
    ) -> Result<R, Problem> {
        let turn = Arc::clone(&self.lane).acquire_owned().await;
        let place = Arc::clone(&self.free).acquire_owned().await;
        run(job, (turn, place)).await
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

/// Memory for bodies, shared by all requests.
#[derive(Debug, Clone)]
pub struct Room(Arc<Semaphore>);

/// Bytes that one permit stands for.
const PIECE: usize = 1024;

impl Room {
    /// Room for so many bytes.
    #[must_use]
    pub fn new(bytes: usize) -> Self {
        Self(Arc::new(Semaphore::new((bytes / PIECE).min(Semaphore::MAX_PERMITS))))
    }

    /// Room for so many bytes more, beside what is held.
    ///
    /// # Errors
    /// `busy` when there is none.
    pub fn hold(&self, held: &mut Option<OwnedSemaphorePermit>, all: usize) -> Result<(), Problem> {
        let wanted = all.div_ceil(PIECE);
        let more =
            wanted.saturating_sub(held.as_ref().map_or(0, OwnedSemaphorePermit::num_permits));
        let more = u32::try_from(more).unwrap_or(u32::MAX);
        let Ok(permit) = Arc::clone(&self.0).try_acquire_many_owned(more) else {
            return Err(Problem::busy("As many bodies are being read as there is memory for."));
        };
        match held {
            Some(held) => held.merge(permit),
            None => *held = Some(permit),
        }
        Ok(())
    }
}

/// Runs a computation that holds its place until it ends.
async fn run<R: Send + 'static>(
    job: impl FnOnce() -> R + Send + 'static,
    place: impl Send + 'static,
) -> Result<R, Problem> {
    let span = tracing::Span::current();
    let computation = tokio::task::spawn_blocking(move || {
        let _place = place;
        span.in_scope(job)
    });
    computation.await.map_err(|error| {
        tracing::error!(%error, "a computation did not end");
        Problem::internal()
    })
}

#[cfg(test)]
mod tests;
