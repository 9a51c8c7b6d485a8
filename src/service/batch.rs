//! A batch: numbered lines out of bytes that come in pieces, and the account of what became of them.
//!
//! Pure and without transport: who brings the bytes and who computes the lines is decided above.
//! Lines are cut where they stand: a piece is kept until its last line is taken, a line that spans
//! pieces is copied together, and of a line that is too long nothing is kept.

use std::ops::RangeInclusive;

use bytes::{Buf, Bytes, BytesMut};
use memchr::memchr;

use crate::wire::batch::{BatchSummary, VerdictCounts};
use crate::wire::remarks::Verdict;

/// One line of a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Its number in the input, counted from 1; empty lines count.
    pub number: u64,
    /// Its text, or nothing when it is longer than allowed.
    pub text: Option<Bytes>,
}

/// Cuts lines.
#[derive(Debug)]
pub struct Cutter {
    limit: usize,
    wanted: RangeInclusive<u64>,
    number: u64,
    /// Begin of the line that is not complete yet; empty once it is too long.
    begun: BytesMut,
    too_long: bool,
    piece: Bytes,
    /// Empty lines since the last that was not.
    empty: u64,
}

impl Cutter {
    /// Lines of at most `limit` bytes, of which those outside `wanted` are only counted.
    #[must_use]
    pub fn new(limit: usize, wanted: RangeInclusive<u64>) -> Self {
        Self {
            limit,
            wanted,
            number: 1,
            begun: BytesMut::new(),
            too_long: false,
            piece: Bytes::new(),
            empty: 0,
        }
    }

    /// Takes the next piece of the input, once [`Self::cut`] has nothing more.
    pub fn feed(&mut self, piece: Bytes) {
        debug_assert!(self.piece.is_empty(), "lines of the piece before are still to be cut");
        self.piece = piece;
    }

    /// The next complete line that is wanted and not empty.
    pub fn cut(&mut self) -> Option<Line> {
        while !self.is_done()
            && let Some(end) = memchr(b'\n', &self.piece)
        {
            let tail = self.piece.split_to(end);
            self.piece.advance(1);
            if let Some(line) = self.complete(tail) {
                return Some(line);
            }
        }
        let rest = std::mem::take(&mut self.piece);
        if !self.is_done() {
            self.keep(&rest);
        }
        None
    }

    /// What stands after the last line feed, when the input is over.
    pub fn finish(&mut self) -> Option<Line> {
        if self.begun.is_empty() && !self.too_long {
            return None;
        }
        self.complete(Bytes::new())
    }

    /// Whether every wanted line has been cut.
    #[must_use]
    pub fn is_done(&self) -> bool {
        self.number > *self.wanted.end()
    }

    /// Bytes that are kept for lines to come.
    #[must_use]
    pub fn kept(&self) -> usize {
        self.begun.len() + self.piece.len()
    }

    /// Empty lines in a row, up to the line to come.
    #[must_use]
    pub const fn empty_lines(&self) -> u64 {
        self.empty
    }

    /// Number of the line to come.
    #[must_use]
    pub const fn next_number(&self) -> u64 {
        self.number
    }

    fn complete(&mut self, tail: Bytes) -> Option<Line> {
        let number = self.number;
        let text = if self.begun.is_empty() && tail.len() <= self.limit && !self.too_long {
            Some(tail)
        } else {
            self.keep(&tail);
            (!self.too_long).then(|| self.begun.split().freeze())
        };
        self.number += 1;
        self.too_long = false;
        let empty = text.as_ref().is_some_and(|text| text.iter().all(u8::is_ascii_whitespace));
        self.empty = if empty { self.empty + 1 } else { 0 };
        (self.wanted.contains(&number) && !empty).then_some(Line { number, text })
    }

    fn keep(&mut self, bytes: &[u8]) {
        if self.begun.len() + bytes.len() > self.limit {
            self.too_long = true;
            self.begun.clear();
        }
        if !self.too_long && self.wanted.contains(&self.number) {
            self.begun.extend_from_slice(bytes);
        }
    }
}

/// What became of the lines.
#[derive(Debug, Clone, Copy, Default)]
pub struct Tally(BatchSummary);

impl Tally {
    /// One more answer, and its verdict where its kind has one.
    pub fn answered(&mut self, verdict: Option<Verdict>) {
        self.0.lines += 1;
        self.0.answered += 1;
        let counts = &mut self.0.verdicts;
        match verdict {
            Some(Verdict::Holds) => counts.holds += 1,
            Some(Verdict::HoldsWithWarnings) => counts.holds_with_warnings += 1,
            Some(Verdict::Fails) => counts.fails += 1,
            Some(Verdict::Incomplete) => counts.incomplete += 1,
            None => {}
        }
    }

    /// One more line with a problem.
    pub fn refused(&mut self) {
        self.0.lines += 1;
        self.0.refused += 1;
    }

    /// Lines so far.
    #[must_use]
    pub const fn lines(&self) -> u64 {
        self.0.lines
    }

    /// Lines answered and lines refused so far.
    #[must_use]
    pub const fn outcomes(&self) -> (u64, u64) {
        (self.0.answered, self.0.refused)
    }

    /// Both accounts together.
    pub fn add(&mut self, other: &Self) {
        let (ours, theirs) = (&mut self.0, &other.0);
        ours.lines += theirs.lines;
        ours.answered += theirs.answered;
        ours.refused += theirs.refused;
        let (ours, theirs): (&mut VerdictCounts, _) = (&mut ours.verdicts, &theirs.verdicts);
        ours.holds += theirs.holds;
        ours.holds_with_warnings += theirs.holds_with_warnings;
        ours.fails += theirs.fails;
        ours.incomplete += theirs.incomplete;
    }

    /// The account at the end of the input.
    #[must_use]
    pub const fn close(self, next_line: u64, complete: bool) -> BatchSummary {
        BatchSummary { complete, next_line, ..self.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Cuts `input` fed in pieces of `size`.
    fn cut(input: &str, size: usize, limit: usize, wanted: RangeInclusive<u64>) -> Vec<Line> {
        let mut cutter = Cutter::new(limit, wanted);
        let mut lines = Vec::new();
        for piece in input.as_bytes().chunks(size) {
            cutter.feed(Bytes::copy_from_slice(piece));
            lines.extend(std::iter::from_fn(|| cutter.cut()));
        }
        lines.extend(cutter.finish());
        lines
    }

    fn shown(lines: &[Line]) -> Vec<(u64, Option<&str>)> {
        lines
            .iter()
            .map(|l| (l.number, l.text.as_ref().map(|t| std::str::from_utf8(t).expect("text"))))
            .collect()
    }

    #[test]
    fn lines_are_the_same_however_the_input_is_cut_up() {
        let input = "one\n\n  \r\nfour\r\nmuch too long\nsix";
        for size in 1..=input.len() {
            let lines = cut(input, size, 6, 1..=u64::MAX);
            let expected = [(1, Some("one")), (4, Some("four\r")), (5, None), (6, Some("six"))];
            assert_eq!(shown(&lines), expected, "in pieces of {size}");
        }
    }

    #[test]
    fn lines_that_are_not_wanted_are_only_counted() {
        for size in 1..8 {
            let lines = cut("a\nb\nc\nd\n", size, 6, 2..=3);
            assert_eq!(shown(&lines), [(2, Some("b")), (3, Some("c"))]);
        }
        let mut cutter = Cutter::new(6, 1..=1);
        cutter.feed(Bytes::from_static(b"a\n"));
        assert!(!cutter.is_done());
        assert!(cutter.cut().is_some() && cutter.is_done());
        let mut cutter = Cutter::new(6, 1..=2);
        cutter.feed(Bytes::from_static(b"a\nb\nc\nd\ne\n"));
        assert_eq!(std::iter::from_fn(|| cutter.cut()).count(), 2);
        assert_eq!(cutter.next_number(), 3, "the first line that is not answered");
    }

    #[test]
    fn nothing_is_kept_of_a_line_that_is_too_long() {
        let mut cutter = Cutter::new(10, 1..=u64::MAX);
        for _ in 0..1000 {
            cutter.feed(Bytes::from_static(b"12345678"));
            assert_eq!(cutter.cut(), None);
            assert!(cutter.begun.len() <= 10);
        }
        cutter.feed(Bytes::from_static(b"\nnext\n"));
        assert_eq!(cutter.cut(), Some(Line { number: 1, text: None }));
        assert_eq!(shown(&cutter.cut().into_iter().collect::<Vec<_>>()), [(2, Some("next"))]);
    }
}
