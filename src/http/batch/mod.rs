//! Batches: lines in, lines out, in order, over all cores, in bounded memory.
//!
//! The input is pulled: nothing more is read while as many lines are under way as may be, and
//! nothing more is computed while the answers before are not taken. A reader who stops reading
//! stops the batch, and one who leaves ends it. The same stream serves a connection
//! ([`crate::http::routes::batches`]) and a file ([`crate::solve`]).
//!
//! Lines are handed to the workers by the handful, so that small jobs do not cost more to hand
//! over than to compute. A handful is what has arrived, up to [`HANDFUL_BYTES`]: a line that comes
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
use crate::jobs::batch::{Line, Tally};
use crate::jobs::layout::Options;
use crate::model::batch::BatchSummary;

pub use line::{BatchLine, BatchOutput, LineAnswer, LineResult, SummaryLine};
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
