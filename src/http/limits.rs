//! Limits of one instance: size of a body, computations at once, time spent waiting for a place.

use std::sync::Arc;
use std::time::Duration;

use tokio::sync::Semaphore;

use crate::http::problem::Problem;

/// The limits, as set at start.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// Largest request body, bytes.
    pub max_body_bytes: usize,
    /// Computations under way at once.
    pub jobs_at_once: usize,
    /// Longest wait for a computation to begin.
    pub queue: Duration,
}

/// The places computations take.
///
/// Who comes first is served first. Batches come one by one through a lane as wide as there are
/// places: when they hold them all, none of them stands in the queue, and a single request gets
/// the next place that comes free.
#[derive(Debug, Clone)]
pub struct Places {
    free: Arc<Semaphore>,
    lane: Arc<Semaphore>,
    count: usize,
    queue: Duration,
}

impl Places {
    /// As many places as the limits say.
    #[must_use]
    pub fn new(limits: &Limits) -> Self {
        let places = || Arc::new(Semaphore::new(limits.jobs_at_once));
        Self { free: places(), lane: places(), count: limits.jobs_at_once, queue: limits.queue }
    }

    /// How many there are.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.count
    }

    #[cfg(test)]
    pub(super) fn are_free(&self) -> bool {
        self.free.available_permits() == self.count
    }

    /// Runs a computation off the threads that serve connections, once a place is free. The
    /// place stays taken until the computation ends, even when the caller has hung up.
    ///
    /// # Errors
    /// `busy` when no place comes free in time, `internal` when the computation panics.
    pub async fn compute<R: Send + 'static>(
        &self,
        job: impl FnOnce() -> R + Send + 'static,
    ) -> Result<R, Problem> {
        let waiting = Arc::clone(&self.free).acquire_owned();
        let Ok(Ok(place)) = tokio::time::timeout(self.queue, waiting).await else {
            let seconds = u16::try_from(self.queue.as_secs()).unwrap_or(u16::MAX).max(1);
            return Err(Problem::busy(seconds));
        };
        run(job, place).await
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
mod tests {
    use std::sync::mpsc;

    use super::*;
    use crate::http::problem::ProblemCode;

    fn one_place(queue: Duration) -> Places {
        Places::new(&Limits { max_body_bytes: 1, jobs_at_once: 1, queue })
    }

    #[tokio::test]
    async fn who_finds_no_place_in_time_is_told_so() {
        let places = one_place(Duration::from_millis(20));
        let (release, held) = mpsc::channel::<()>();
        let first = {
            let places = places.clone();
            tokio::spawn(async move { places.compute(move || held.recv().is_ok()).await })
        };
        while places.free.available_permits() > 0 {
            tokio::task::yield_now().await;
        }
        let refused = places.compute(|| ()).await.expect_err("the only place is taken");
        assert_eq!(refused.code(), ProblemCode::Busy);
        release.send(()).expect("the first computation is waiting");
        assert!(first.await.expect("it ran").expect("it had its place"));
        assert!(places.compute(|| ()).await.is_ok(), "the place is free again");
    }

    /// However many lines of batches wait, a single request waits for one of them at most.
    #[tokio::test]
    async fn a_single_request_goes_before_the_waiting_lines_of_a_batch() {
        let places = one_place(Duration::from_secs(30));
        let (say, hear) = mpsc::channel();
        let (release, held) = mpsc::channel::<()>();
        let mut lines = Vec::new();
        let first = (places.clone(), say.clone());
        lines.push(tokio::spawn(async move {
            let (places, say) = first;
            let work = move || held.recv().is_ok() && say.send("line").is_ok();
            places.compute_in_turn(work).await.expect("it runs")
        }));
        while places.free.available_permits() > 0 {
            tokio::task::yield_now().await;
        }
        for _ in 0..3 {
            let (places, say) = (places.clone(), say.clone());
            lines.push(tokio::spawn(async move {
                places.compute_in_turn(move || say.send("line").is_ok()).await.expect("it runs")
            }));
        }
        let single = {
            let places = places.clone();
            tokio::spawn(async move { places.compute(move || say.send("single").is_ok()).await })
        };
        // All of them wait now: this runtime has one thread, and each was polled once.
        for _ in 0..10 {
            tokio::task::yield_now().await;
        }
        release.send(()).expect("the first line waits");
        assert!(single.await.expect("it ran").expect("it had its place"));
        for line in lines {
            assert!(line.await.expect("it ran"));
        }
        let order: Vec<_> = hear.iter().collect();
        assert_eq!(order, ["line", "single", "line", "line", "line"]);
    }

    #[tokio::test]
    async fn a_panic_becomes_a_bare_problem_and_frees_its_place() {
        let places = one_place(Duration::from_secs(5));
        let broken = places.compute(|| panic!("planted")).await.map(|(): ()| ());
        assert_eq!(broken.expect_err("it panicked").code(), ProblemCode::Internal);
        assert!(places.compute(|| ()).await.is_ok());
    }
}
