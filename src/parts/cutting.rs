//! The cutting plan: which pieces make up each rail segment, and which bar each is cut from.
//!
//! **Objective**, in this order:
//! 1. every segment keeps the strictest [rules](super::splicing::Kept) it can;
//! 2. every segment has the fewest pieces under these rules: splices are weak points, bought and
//!    fixed one by one, so none is added to save rail;
//! 3. by the [aim](Aim): the least length bought, then the fewest bars; or the fewest bars, then
//!    the least length bought. Stock lengths differ, so these are not the same: the first is what
//!    rail costs, the second what is carried and sawn. With the pieces used given, the least
//!    length bought is the least waste.
//!
//! The first two are settled segment by segment in [`super::splicing`], the third over all rails
//! of the job at once in [`super::bars`], which shares offcuts between rails and chooses the
//! places of splices among those that are weighed. Splices that the statics counted on as hinges
//! stay where they were counted on.
//!
//! **Limits.** The third is proven best where the plan says so. On jobs of many different spliced
//! rails the bound is weak and the steps run out first: the plan then tells its lower bound.
//!
//! **Units.** Whole tenths of a millimetre: finer than any saw.
//!
//! **Checked by** `tests/properties/cutting.rs`.

use super::bars::{Aim, Bought, Group, Problem};
use super::splicing::{Cuttings, Kept, Rules, Run};

/// Steps after which the search for the bars stops with what it has: some milliseconds. Enough for
/// jobs of few different rails; on many different ones the plan is good and not proven best.
pub const USUAL_STEPS: u64 = 1_500;

/// How the segments of a job are cut.
#[derive(Debug, Clone)]
pub struct CuttingPlan {
    /// What was saved first.
    pub aim: Aim,
    /// The segments, in the order given.
    pub segments: Vec<SegmentCut>,
    /// The bars, longest first, those cut alike beside each other.
    pub bars: Vec<Bar>,
    /// What is bought.
    pub bought: Bought,
    /// What no plan on the same splice places can be better than.
    pub bound: Bought,
    /// No plan on the same splice places is better.
    pub proven: bool,
}

/// How one segment is made up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SegmentCut {
    /// Where its pieces meet, from its left end.
    pub splices: Vec<i64>,
    /// Rules these places keep.
    pub kept: Kept,
}

/// One bar.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bar {
    /// Its length.
    pub stock: i64,
    /// What is cut from it, longest first.
    pub pieces: Vec<Piece>,
    /// What remains; nothing where it is thinner than the saw.
    pub offcut: i64,
    /// Saw cuts.
    pub cuts: usize,
}

/// A piece of a segment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Piece {
    /// Which segment.
    pub segment: usize,
    /// Which of its pieces, from the left.
    pub number: usize,
    /// Where it begins, from the left end of the segment.
    pub start: i64,
    /// Its length.
    pub length: i64,
}

/// Cuts all segments of a job.
#[must_use]
pub fn plan(runs: &[Run], rules: &Rules, kerf: i64, aim: Aim, steps: u64) -> CuttingPlan {
    let kinds = Kinds::of(runs, rules);
    let mut lengths: Vec<i64> = kinds
        .groups
        .iter()
        .flat_map(|g| &g.cuttings.ways)
        .flat_map(|w| &w.pieces)
        .copied()
        .collect();
    lengths.sort_unstable_by(|a, b| b.cmp(a));
    lengths.dedup();
    let place = |piece: &i64| lengths.partition_point(|length| length > piece);
    let groups = kinds.groups.iter().map(|kind| Group {
        copies: kind.copies,
        ways: kind.cuttings.ways.iter().map(|w| w.pieces.iter().map(place).collect()).collect(),
    });
    let problem =
        Problem { groups: groups.collect(), stock: rules.stock.clone(), kerf, aim, lengths };
    let solved = problem.solve(steps);

    let complete = kinds.groups.iter().all(|kind| kind.cuttings.complete);
    let segments = kinds.made_up(solved.taken);
    let mut waiting = Waiting::new(&problem.lengths, runs, &segments);
    let mut bars = Vec::new();
    for alike in &solved.bars {
        for _ in 0..alike.times {
            let pieces: Vec<Piece> =
                alike.pieces.iter().filter_map(|length| waiting.next(*length)).collect();
            bars.push(Bar::of(rules.stock[alike.stock], pieces, kerf));
        }
    }
    let proven = solved.proven && complete;
    CuttingPlan { aim, segments, bars, bought: solved.bought, bound: solved.bound, proven }
}

impl CuttingPlan {
    /// Bars of each stock length, shortest first.
    #[must_use]
    pub fn bars_by_length(&self) -> Vec<(i64, usize)> {
        let mut counts: Vec<(i64, usize)> = Vec::new();
        for bar in self.bars.iter().rev() {
            match counts.last_mut() {
                Some((length, count)) if *length == bar.stock => *count += 1,
                _ => counts.push((bar.stock, 1)),
            }
        }
        counts
    }
}

impl Bar {
    fn of(stock: i64, pieces: Vec<Piece>, kerf: i64) -> Self {
        let used: i64 = pieces.iter().map(|piece| piece.length).sum();
        let between = pieces.len().saturating_sub(1);
        let left = stock - used - kerf * i64::try_from(between).unwrap_or(0);
        // Past the last piece there is a cut where anything is left.
        let cuts = between + usize::from(left > 0);
        Self { stock, pieces, offcut: (left - kerf).max(0), cuts }
    }
}

/// Segments that may be cut alike, and which of them each one is.
struct Kinds {
    groups: Vec<Kind>,
    of_run: Vec<usize>,
}

struct Kind {
    cuttings: Cuttings,
    copies: u32,
}

impl Kinds {
    /// Equal segments are looked at once.
    fn of(runs: &[Run], rules: &Rules) -> Self {
        let mut groups: Vec<Kind> = Vec::new();
        let mut seen: Vec<(&Run, usize)> = Vec::new();
        let mut of_run = Vec::with_capacity(runs.len());
        for run in runs {
            let known = seen.iter().find(|(other, _)| *other == run).map(|(_, kind)| *kind);
            let kind = known.unwrap_or_else(|| {
                groups.push(Kind { cuttings: rules.cuttings(run), copies: 0 });
                seen.push((run, groups.len() - 1));
                groups.len() - 1
            });
            groups[kind].copies += 1;
            of_run.push(kind);
        }
        Self { groups, of_run }
    }

    /// Hands the ways that were taken to the segments, in their order.
    fn made_up(self, mut taken: Vec<Vec<u32>>) -> Vec<SegmentCut> {
        self.of_run
            .iter()
            .map(|kind| {
                let way = taken[*kind].iter().position(|left| *left > 0).unwrap_or(0);
                taken[*kind][way] = taken[*kind][way].saturating_sub(1);
                let cuttings = &self.groups[*kind].cuttings;
                SegmentCut { splices: cuttings.ways[way].splices.clone(), kept: cuttings.kept }
            })
            .collect()
    }
}

/// Pieces by length, waiting for their bars.
struct Waiting(Vec<std::collections::VecDeque<Piece>>);

impl Waiting {
    fn new(lengths: &[i64], runs: &[Run], segments: &[SegmentCut]) -> Self {
        let mut by_length = vec![std::collections::VecDeque::new(); lengths.len()];
        let longest = lengths.first().copied().unwrap_or(0);
        for (segment, (run, cut)) in runs.iter().zip(segments).enumerate() {
            let mut start = 0;
            for (number, end) in cut.splices.iter().chain([&run.length]).enumerate() {
                // A hinge may be rounded to a tenth more than its bar: see `Rules::cutting`.
                let length = (end - start).min(longest);
                let place = lengths.partition_point(|other| *other > length);
                by_length[place].push_back(Piece { segment, number, start, length });
                start = *end;
            }
        }
        Self(by_length)
    }

    fn next(&mut self, length: usize) -> Option<Piece> {
        self.0[length].pop_front()
    }
}
