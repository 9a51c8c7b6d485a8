//! Where the lines of a batch come from: pulled from the input when a worker may take them.

use bytes::Bytes;
use futures_util::stream::{self, Stream, StreamExt};
use tokio::sync::watch;

use super::{HANDFUL_BYTES, Terms};
use crate::model::batch::BatchSummary;
use crate::service::batch::{Cutter, Line, Tally};

/// What is taken from the input.
pub(super) enum Taken {
    /// One line or more.
    Lines(Vec<Line>),
    /// There is nothing more.
    End(End),
}

/// How the input ended.
#[derive(Debug, Clone, Copy)]
pub(super) struct End {
    /// First line that was not read.
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
        Self { input, cutter, stop: terms.stop, complete: None }
    }

    /// Handfuls of lines, then the end.
    pub fn handfuls(self) -> impl Stream<Item = Taken> + Send {
        stream::unfold(Some(self), |source| async {
            let mut source = source?;
            Some(match source.handful().await {
                Some(lines) => (Taken::Lines(lines), Some(source)),
                None => (Taken::End(source.end()), None),
            })
        })
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
            let piece = tokio::select! {
                biased;
                () = told(&mut self.stop) => {
                    self.complete = Some(false);
                    return None;
                }
                piece = self.input.next() => piece,
            };
            match piece {
                Some(Ok(piece)) => self.cutter.feed(piece),
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

    fn end(&self) -> End {
        End { next_line: self.cutter.next_number(), complete: self.complete.unwrap_or(false) }
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
