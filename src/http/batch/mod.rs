//! Batches: lines in, lines out, in order, over all cores, in bounded memory.
//!
//! The input is pulled: nothing more is read while as many lines are under way as may be, and
//! nothing more is computed while the answers before are not taken. A reader who stops reading
//! stops the batch, and one who leaves ends it. The same stream serves a connection
//! (`crate::http::routes::batches`) and a file ([`crate::solve`]).
//!
//! Lines are handed to the workers by the handful, so that small jobs do not cost more to hand
//! over than to compute. A handful is what has arrived, up to `HANDFUL_BYTES`: a line that comes
//! alone is computed at once.

mod line;
mod source;

use std::ops::RangeInclusive;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use bytes::Bytes;
use futures_util::stream::{Stream, StreamExt};
use tokio::sync::watch;

use crate::http::limits::Places;
use crate::model::batch::BatchSummary;
use crate::service::batch::{Line, Tally};
use crate::service::request::Options;

pub use line::{BatchLine, BatchOutput, LineAnswer, SummaryLine};
use source::{End, Source, Taken};

/// Most bytes of input one worker takes at a time, save for a single longer line.
const HANDFUL_BYTES: usize = 8 * 1024;

/// Handfuls under way in one batch for each place: enough that no place waits for the next.
const HANDFULS_PER_PLACE: usize = 8;

/// What a batch is to do.
#[derive(Debug, Clone)]
pub struct Terms {
    /// Largest line, bytes.
    pub max_line_bytes: usize,
    /// Lines to answer; others are counted and passed over.
    pub lines: RangeInclusive<u64>,
    /// What is asked of every answer.
    pub options: Options,
    /// Turns true when no further line is to be read.
    pub stop: watch::Receiver<bool>,
}

/// What a batch gives.
#[derive(Debug)]
pub enum Output {
    /// Answers, each on its line.
    Lines {
        /// Whole lines, each with its line feed.
        text: Vec<u8>,
        /// What became of these lines.
        tally: Tally,
    },
    /// The end, once.
    End(BatchSummary),
}

/// A batch over an input that comes in pieces.
pub fn run<I, E>(input: I, places: Places, terms: Terms) -> impl Stream<Item = Output> + Send
where
    I: Stream<Item = Result<Bytes, E>> + Send + Unpin,
    E: std::fmt::Display + Send,
{
    let at_once = HANDFULS_PER_PLACE * places.count();
    let (limit, options) = (terms.max_line_bytes, terms.options);
    let wanted = Wanted::default();
    let still_wanted = Arc::clone(&wanted.0);
    Source::new(input, terms)
        .handfuls()
        .map(move |taken| {
            let (places, still_wanted) = (places.clone(), Arc::clone(&still_wanted));
            async move {
                let lines = match taken {
                    Taken::Lines(lines) => lines,
                    Taken::End(end) => return Err(end),
                };
                let next_line = lines.first().map_or(1, |line| line.number);
                let work = move || answers(&lines, limit, options, &still_wanted);
                // Lines guard themselves: this is an instance that is being torn down.
                let torn_down = End { next_line, complete: false };
                places.compute_in_turn(work).await.map_err(|_| torn_down)
            }
        })
        .buffered(at_once)
        .scan(Some((Tally::default(), wanted)), |account, done| {
            let output = match done {
                Ok((text, tally)) => account.as_mut().map(|(total, _)| {
                    total.add(&tally);
                    Output::Lines { text, tally }
                }),
                Err(end) => account.take().map(|(total, _)| Output::End(end.account(total))),
            };
            std::future::ready(output)
        })
}

/// Answers to a handful of lines.
fn answers(
    lines: &[Line],
    limit: usize,
    options: Options,
    still_wanted: &AtomicBool,
) -> (Vec<u8>, Tally) {
    let (mut text, mut tally) = (Vec::new(), Tally::default());
    for line in lines {
        if still_wanted.load(Ordering::Relaxed) {
            line::answer(line, limit, options, &mut text, &mut tally);
        }
    }
    (text, tally)
}

/// False once nobody takes the answers any more; what waits for a worker then is not computed.
struct Wanted(Arc<AtomicBool>);

impl Default for Wanted {
    fn default() -> Self {
        Self(Arc::new(AtomicBool::new(true)))
    }
}

impl Drop for Wanted {
    fn drop(&mut self) {
        self.0.store(false, Ordering::Relaxed);
    }
}

#[cfg(test)]
mod tests {
    use std::convert::Infallible;
    use std::sync::atomic::AtomicUsize;
    use std::time::Duration;

    use futures_util::stream;

    use super::*;
    use crate::http::limits::Limits;

    const PLACES: usize = 2;

    fn places() -> Places {
        Places::new(&Limits {
            max_body_bytes: 1,
            jobs_at_once: PLACES,
            queue: Duration::from_secs(1),
        })
    }

    fn terms(stop: watch::Receiver<bool>) -> Terms {
        Terms { max_line_bytes: 1000, lines: 1..=u64::MAX, options: Options::default(), stop }
    }

    /// An input without end, each piece with `lines` lines, that counts what was taken of it.
    fn endless(
        lines: usize,
        taken: Arc<AtomicUsize>,
    ) -> impl Stream<Item = Result<Bytes, Infallible>> + Send + Unpin {
        stream::iter(std::iter::repeat_with(move || {
            taken.fetch_add(1, Ordering::Relaxed);
            Ok(Bytes::from("{}\n".repeat(lines)))
        }))
    }

    #[tokio::test(flavor = "multi_thread")]
    async fn nothing_more_is_read_while_no_answer_is_taken() {
        let (_end, stop) = watch::channel(false);
        let taken = Arc::new(AtomicUsize::new(0));
        let input = endless(1, Arc::clone(&taken));
        let mut batch = Box::pin(run(input, places(), terms(stop)));
        let most = HANDFULS_PER_PLACE * PLACES;
        for answers in 1..=20 {
            assert!(matches!(batch.next().await, Some(Output::Lines { .. })));
            let read = taken.load(Ordering::Relaxed);
            assert!(read <= most + answers, "{read} lines read for {answers} answers");
        }
        let read = taken.load(Ordering::Relaxed);
        tokio::time::sleep(Duration::from_millis(50)).await;
        assert_eq!(taken.load(Ordering::Relaxed), read, "it reads on by itself");
    }

    #[tokio::test(flavor = "multi_thread")]
    async fn no_work_goes_on_for_who_has_left() {
        let (_end, stop) = watch::channel(false);
        let taken = Arc::new(AtomicUsize::new(0));
        let places = places();
        let mut batch =
            Box::pin(run(endless(100, Arc::clone(&taken)), places.clone(), terms(stop)));
        assert!(batch.next().await.is_some());
        drop(batch);
        let read = taken.load(Ordering::Relaxed);
        // A place would be taken at once if lines of the batch still stood in the queue.
        for _ in 0..PLACES {
            places.compute(|| ()).await.expect("a place is free");
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
        assert!(places.are_free(), "a line is still computed");
        assert_eq!(taken.load(Ordering::Relaxed), read, "it reads on");
    }

    #[tokio::test(flavor = "multi_thread")]
    async fn a_batch_that_is_told_to_stop_says_where_to_go_on() {
        let (end, stop) = watch::channel(false);
        let input = endless(3, Arc::default());
        let mut batch = Box::pin(run(input, places(), terms(stop)));
        let mut lines = 0;
        let summary = loop {
            match batch.next().await.expect("the summary comes") {
                Output::Lines { tally, .. } => {
                    lines += tally.lines();
                    end.send_replace(true);
                }
                Output::End(summary) => break summary,
            }
        };
        assert!(!summary.complete);
        assert_eq!((summary.lines, summary.next_line), (lines, lines + 1));
        assert!(batch.next().await.is_none(), "nothing follows the summary");
    }
}
