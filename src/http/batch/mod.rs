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
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

use bytes::Bytes;
use futures_util::stream::{self, Stream, StreamExt};
use tokio::sync::watch;
use tokio_util::task::AbortOnDropHandle;

use crate::effort::Stop;
use crate::http::call::Call;
use crate::http::limits::{Held, Kept, Leaving, Places, Room, Unread};
use crate::http::metrics::Lane;
use crate::service::batch::{Line, Tally};
use crate::service::request::Options;
use crate::wire::batch::BatchSummary;

pub use line::prepare;
use source::{End, Source, Taken};

/// Most bytes of input one worker takes at a time, save for a single longer line.
pub const HANDFUL_BYTES: usize = 8 * 1024;

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
    /// Turns true when no further line is to be read, and none of those read to be begun.
    pub stop: watch::Receiver<bool>,
    /// What is borne of a caller; of a file everything is.
    pub patience: Option<Patience>,
    /// The request it came with.
    pub call: Call,
}

/// What is borne of a caller over the network.
#[derive(Debug, Clone)]
pub struct Patience {
    /// Longest time in which nothing arrives although it is waited for.
    pub idle: Duration,
    /// Most empty lines in a row.
    pub empty_lines: u64,
    /// Longest time what arrives is read over once the batch has ended.
    pub linger: Duration,
    /// Where the memory for its lines comes from.
    pub room: Room,
    /// Longest wait for some of it.
    pub wait_for_room: Duration,
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
    let leaving = Leaving(places.word());
    let shelf = Arc::new(Shelf::new(places.unread(Lane::batch).clone()));
    let stands = Arc::clone(&shelf);
    let work = Arc::new(Work { terms: terms.clone(), word: leaving.0.clone(), places });
    Source::new(input, terms)
        .handfuls()
        .zip(stream::iter(0..))
        .map(move |(taken, number)| {
            let (work, shelf) = (Arc::clone(&work), Arc::clone(&shelf));
            async move {
                let (lines, held) = match taken {
                    Taken::Lines(lines, held) => (lines, held),
                    Taken::End(end) => return Err(end),
                };
                let next_line = lines.first().map_or(1, |line| line.number);
                // In a task of its own: a place it is given must not wait until somebody reads.
                let answers = AbortOnDropHandle::new(tokio::spawn(async move {
                    let (places, call) = (work.places.clone(), work.terms.call.clone());
                    let standing = Arc::clone(&shelf);
                    let holds_up = || standing.holds_up(number);
                    // They count before their place is free, and with them the room of their lines.
                    let job = move || shelf.put(work.answers(&lines), held);
                    places.compute_in_turn(&call, holds_up, job).await
                }));
                match answers.await {
                    Ok(Ok(answers)) => Ok(answers),
                    // Lines guard themselves: this is an instance that is being torn down.
                    _ => Err(End { next_line, complete: false }),
                }
            }
        })
        .buffered(at_once)
        .scan(
            Account { total: Tally::default(), ended: false, shelf: stands, _leaving: leaving },
            |account, done| std::future::ready(Some(account.enter(done))),
        )
        .flat_map(stream::iter)
}

/// What a batch has come to so far; dropped when nobody takes its answers any more, which ends what
/// is computed for it.
struct Account {
    total: Tally,
    ended: bool,
    shelf: Arc<Shelf>,
    _leaving: Leaving,
}

impl Account {
    /// What is given for a handful, or for the end; nothing for what comes after that. The source is
    /// asked once more after the end, so that it can read over what is still sent.
    fn enter(&mut self, done: Result<Answers, End>) -> Vec<Output> {
        if self.ended {
            return Vec::new();
        }
        self.shelf.take();
        let (mut outputs, end): (Vec<Output>, _) = match done {
            Ok(Answers { text, tally, left_off, .. }) => {
                self.total.add(&tally);
                let end = left_off.map(|next_line| End { next_line, complete: false });
                let lines = (!text.is_empty()).then_some(Output::Lines { text, tally });
                (lines.into_iter().collect(), end)
            }
            Err(end) => (Vec::new(), Some(end)),
        };
        self.ended = end.is_some();
        outputs.extend(end.map(|end| Output::End(end.account(self.total))));
        outputs
    }
}

/// Answers to a handful of lines.
#[derive(Default)]
struct Answers {
    text: Vec<u8>,
    tally: Tally,
    /// The first of them that is not answered, because the batch ends before it.
    left_off: Option<u64>,
    /// The room their lines take.
    _held: Held,
    /// The memory they take themselves.
    _kept: Option<Kept>,
}

/// Where answers of one batch stand until it is their turn to be given out.
#[derive(Debug)]
struct Shelf {
    unread: Unread,
    /// Handfuls given out.
    given: AtomicU64,
    /// Handfuls that are answered, those that are given out among them.
    answered: AtomicU64,
}

impl Shelf {
    fn new(unread: Unread) -> Self {
        Self { unread, given: AtomicU64::new(0), answered: AtomicU64::new(0) }
    }

    /// Whether answers of this batch hold memory and cannot be given out before this handful is.
    fn holds_up(&self, number: u64) -> bool {
        let given = self.given.load(Ordering::Relaxed);
        number == given && self.answered.load(Ordering::Relaxed) > given
    }

    fn put(&self, answers: Answers, held: Held) -> Answers {
        self.answered.fetch_add(1, Ordering::Relaxed);
        let kept = self.unread.keep(answers.text.len());
        // The one before may wait for nothing but this.
        self.unread.look_again();
        Answers { _held: held, _kept: Some(kept), ..answers }
    }

    /// The next handful is given out.
    fn take(&self) {
        self.given.fetch_add(1, Ordering::Relaxed);
    }
}

/// What is known wherever lines of a batch are answered.
struct Work {
    terms: Terms,
    places: Places,
    /// Said once nobody takes the answers any more.
    word: Stop,
}

impl Work {
    fn answers(&self, lines: &[Line]) -> Answers {
        let mut answers = Answers::default();
        for line in lines {
            if self.word.is_said() || *self.terms.stop.borrow() || !self.answer(line, &mut answers)
            {
                answers.left_off = Some(line.number);
                break;
            }
        }
        answers
    }

    /// Answers a line; whether that was still wanted when it was done.
    fn answer(&self, line: &Line, answers: &mut Answers) -> bool {
        let clock = self.places.clock(&self.word);
        let mut options = self.terms.options.clone();
        options.effort.stop = clock.stop.clone();
        let begin = Instant::now();
        let outcome = line::outcome(line, self.terms.max_line_bytes, &options);
        outcome.count(self.places.metrics(), begin.elapsed());
        // Read before the word, which may be said at any time: what was cut short is no answer.
        let overdue = clock.overdue();
        if self.word.is_said() {
            return false;
        }
        let outcome = outcome.unless(overdue);
        outcome.write(&mut answers.text, &mut answers.tally, options.signer.as_deref());
        true
    }
}

#[cfg(test)]
mod tests {
    use std::convert::Infallible;
    use std::sync::atomic::{AtomicUsize, Ordering};

    use super::*;
    use crate::http::limits::Limits;
    use crate::http::metrics::Metrics;

    const PLACES: usize = 2;
    const BATCHES: usize = 3;

    fn places() -> Places {
        let limits = Limits {
            max_body_bytes: 1,
            jobs_at_once: PLACES,
            queue: Duration::from_secs(1),
            ..Limits::default()
        };
        Places::new(&limits, Metrics::default())
    }

    fn terms(stop: watch::Receiver<bool>) -> Terms {
        let options = Options::default();
        let (lines, call) = (1..=u64::MAX, Call::default());
        Terms { max_line_bytes: 1000, lines, options, stop, patience: None, call }
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

    /// Answers hold memory until they are taken. Without any for a second one, the first of a batch
    /// still goes on, or none of those that wait behind it could ever be given out.
    #[tokio::test(flavor = "multi_thread")]
    async fn no_more_is_answered_than_there_is_memory_for() {
        let (_end, stop) = watch::channel(false);
        let limits = Limits { jobs_at_once: PLACES, answers_bytes: 2, ..Limits::default() };
        let places = Places::new(&limits, Metrics::default());
        let read = async |_: usize| {
            let input = endless(1, Arc::default());
            let mut batch = Box::pin(run(input, places.clone(), terms(stop.clone())));
            for _ in 0..200 {
                let Some(Output::Lines { text, .. }) = batch.next().await else { panic!("a line") };
                let held = places.unread(Lane::batch).bytes();
                let begun = PLACES + 1 + BATCHES;
                assert!(held <= begun * text.len(), "{held} bytes in answers of {}", text.len());
            }
        };
        let all = futures_util::future::join_all((0..BATCHES).map(read));
        tokio::time::timeout(Duration::from_secs(60), all).await.expect("they go on");
        tokio::time::sleep(Duration::from_millis(50)).await;
        assert_eq!(places.unread(Lane::batch).bytes(), 0, "all is free again");
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
            places.compute(&Call::default(), |_| ()).await.expect("a place is free");
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
