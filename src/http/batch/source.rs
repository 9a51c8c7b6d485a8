//! Where the lines of a batch come from: pulled from the input when a worker may take them.

use std::time::Duration;

use bytes::Bytes;
use futures_util::stream::{self, Stream, StreamExt};
use tokio::sync::watch;

use super::{HANDFUL_BYTES, Patience, Terms};
use crate::http::call::Call;
use crate::http::limits::Held;
use crate::service::batch::{Cutter, Line, Tally};
use crate::wire::batch::BatchSummary;

/// What is taken from the input.
pub(super) enum Taken {
    /// One line or more, and the room they take.
    Lines(Vec<Line>, Held),
    /// There is nothing more.
    End(End),
}

/// How the input ended.
#[derive(Debug, Clone, Copy)]
pub(super) struct End {
    /// First line that was not answered.
    pub next_line: u64,
    /// Nothing is missing.
    pub complete: bool,
}

impl End {
    /// The account, closed.
    pub fn account(self, tally: Tally) -> BatchSummary {
        tally.close(self.next_line, self.complete)
    }
}

/// The input, its line cutter, and whether to go on.
pub(super) struct Source<I> {
    input: I,
    cutter: Cutter,
    stop: watch::Receiver<bool>,
    patience: Option<Patience>,
    call: Call,
    /// Room for what has arrived and is not handed on.
    held: Held,
    /// Set when nothing more comes: whether nothing is missing.
    complete: Option<bool>,
}

impl<I, E> Source<I>
where
    I: Stream<Item = Result<Bytes, E>> + Send + Unpin,
    E: std::fmt::Display + Send,
{
    pub fn new(input: I, terms: Terms) -> Self {
        let cutter = Cutter::new(terms.max_line_bytes, terms.lines);
        let Terms { stop, patience, call, .. } = terms;
        Self { input, cutter, stop, patience, call, held: Held::default(), complete: None }
    }

    /// Handfuls of lines, then the end.
    pub fn handfuls(self) -> impl Stream<Item = Taken> + Send {
        stream::unfold((self, false), |(mut source, ended)| async move {
            if ended {
                source.linger().await;
                return None;
            }
            Some(match source.handful().await {
                Some(lines) => {
                    // What is left is for the lines to come.
                    let held = source.held.split_off(source.cutter.kept());
                    (Taken::Lines(lines, held), (source, false))
                }
                None => (Taken::End(source.end()), (source, true)),
            })
        })
    }

    /// Reads over what a caller still sends who has not seen the summary yet: a connection that is
    /// closed while something arrives takes away what the caller has not read.
    async fn linger(&mut self) {
        let (Some(patience), Some(false)) = (&self.patience, self.complete) else { return };
        let longest = patience.linger;
        let rest = async { while let Some(Ok(_)) = self.input.next().await {} };
        // Who sends on and on is hung up on.
        let _ = tokio::time::timeout(longest, rest).await;
    }

    /// What has arrived, up to a measure; waits only for the first line.
    async fn handful(&mut self) -> Option<Vec<Line>> {
        let first = self.line().await?;
        let mut bytes = size(&first);
        let mut lines = vec![first];
        while bytes < HANDFUL_BYTES {
            let Some(line) = self.cutter.cut() else { break };
            bytes += size(&line);
            lines.push(line);
        }
        Some(lines)
    }

    async fn line(&mut self) -> Option<Line> {
        loop {
            if let Some(line) = self.cutter.cut() {
                return Some(line);
            }
            if self.complete.is_some() {
                return None;
            }
            if self.cutter.is_done() {
                self.complete = Some(true);
                return None;
            }
            let most_empty =
                self.patience.as_ref().map_or(u64::MAX, |patience| patience.empty_lines);
            if self.cutter.empty_lines() > most_empty {
                tracing::info!("a batch of empty lines was ended");
                self.complete = Some(false);
                return None;
            }
            // What is unpacked may go on for long without a line: others are served meanwhile.
            tokio::task::coop::consume_budget().await;
            let next =
                within(self.patience.as_ref().map(|patience| patience.idle), self.input.next());
            let piece = tokio::select! {
                biased;
                () = told(&mut self.stop) => {
                    self.complete = Some(false);
                    return None;
                }
                piece = next => piece,
            };
            let Some(piece) = piece else {
                tracing::info!("nothing more of a batch arrived in time");
                self.complete = Some(false);
                return None;
            };
            match piece {
                Some(Ok(piece)) => {
                    self.call.receive(piece.len());
                    self.cutter.feed(piece);
                    if !self.finds_room().await {
                        tracing::info!("a batch was ended for lack of memory for its lines");
                        self.complete = Some(false);
                        return None;
                    }
                }
                Some(Err(error)) => {
                    tracing::info!(%error, "the input of a batch broke off");
                    self.complete = Some(false);
                    return None;
                }
                None => {
                    self.complete = Some(true);
                    return self.cutter.finish();
                }
            }
        }
    }

    /// Room for what has arrived and is not handed on; of a file there is enough.
    async fn finds_room(&mut self) -> bool {
        let Some(Patience { room, wait_for_room, .. }) = &self.patience else { return true };
        room.hold_within(&mut self.held, self.cutter.kept(), *wait_for_room).await
    }

    fn end(&self) -> End {
        End { next_line: self.cutter.next_number(), complete: self.complete.unwrap_or(false) }
    }
}

/// What comes, or nothing when it does not come in time.
async fn within<T>(time: Option<Duration>, coming: impl Future<Output = T>) -> Option<T> {
    match time {
        None => Some(coming.await),
        Some(time) => tokio::time::timeout(time, coming).await.ok(),
    }
}

/// Returns when told to stop; never, when nobody is left to tell.
async fn told(stop: &mut watch::Receiver<bool>) {
    if stop.wait_for(|stop| *stop).await.is_err() {
        std::future::pending::<()>().await;
    }
}

/// A line that is too long is as cheap as an empty one.
fn size(line: &Line) -> usize {
    line.text.as_ref().map_or(0, Bytes::len)
}
