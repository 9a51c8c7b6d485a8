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
//! **Limits.** The third is proven best where the plan says so. On jobs of a hundred different
//! segments and more, and of more than four stock lengths, the steps may run out first: the
//! plan then tells its lower bound.
//!
//! **Units.** Whole tenths of a millimetre: finer than any saw.
//!
//! **Checked by** `tests/properties/cutting.rs`.

use std::collections::{HashMap, VecDeque};

use super::bars::{Aim, Bought, Group, Problem};
use super::splicing::{Cutting, Cuttings, Kept, Rules, Run};

/// Steps after which the search for the bars stops with what it has: some tens of milliseconds.
/// Most jobs take a thousandth of them.
pub const USUAL_STEPS: u64 = 20_000_000;

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
    let complete = kinds.all.iter().all(|kind| kind.cuttings.complete);
    let groups = kinds.groups();
    let pieces = groups.iter().copied().flatten().flat_map(|way| &way.pieces);
    let mut lengths: Vec<i64> = pieces.copied().collect();
    lengths.sort_unstable_by(|a, b| b.cmp(a));
    lengths.dedup();
    let place = |piece: &i64| lengths.partition_point(|length| length > piece);
    let groups = groups.iter().zip(&kinds.copies).map(|(ways, copies)| Group {
        copies: *copies,
        ways: ways.iter().map(|way| way.pieces.iter().map(place).collect()).collect(),
    });
    let problem =
        Problem { groups: groups.collect(), stock: rules.stock.clone(), kerf, aim, lengths };
    let solved = problem.solve(steps);

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
    all: Vec<Kind>,
    of_run: Vec<usize>,
    /// Segments of each group.
    copies: Vec<u32>,
}

/// Equal segments.
struct Kind {
    cuttings: Cuttings,
    /// Kinds of one group can be made up of the same pieces: mirror images of each other, say.
    group: usize,
}

impl Kinds {
    /// Equal segments are looked at once.
    fn of(runs: &[Run], rules: &Rules) -> Self {
        let mut kinds: Vec<Kind> = Vec::new();
        let mut seen: HashMap<&Run, usize> = HashMap::new();
        let mut groups: HashMap<Vec<Vec<i64>>, usize> = HashMap::new();
        let mut copies: Vec<u32> = Vec::new();
        let mut of_run = Vec::with_capacity(runs.len());
        for run in runs {
            let kind = *seen.entry(run).or_insert_with(|| {
                let mut cuttings = rules.cuttings(run);
                cuttings.ways.sort_by(|a, b| b.pieces.cmp(&a.pieces));
                let pieces = cuttings.ways.iter().map(|way| way.pieces.clone()).collect();
                let next = groups.len();
                let group = *groups.entry(pieces).or_insert(next);
                copies.resize(groups.len(), 0);
                kinds.push(Kind { cuttings, group });
                kinds.len() - 1
            });
            copies[kinds[kind].group] += 1;
            of_run.push(kind);
        }
        Self { all: kinds, of_run, copies }
    }

    /// Ways of each group, as lengths of pieces.
    fn groups(&self) -> Vec<&[Cutting]> {
        let mut groups: Vec<&[Cutting]> = vec![&[]; self.copies.len()];
        for kind in &self.all {
            groups[kind.group] = &kind.cuttings.ways;
        }
        groups
    }

    /// Hands the ways that were taken to the segments, in their order.
    fn made_up(self, mut taken: Vec<Vec<u32>>) -> Vec<SegmentCut> {
        self.of_run
            .iter()
            .map(|kind| {
                let Kind { cuttings, group } = &self.all[*kind];
                let way = taken[*group].iter().position(|left| *left > 0).unwrap_or(0);
                taken[*group][way] = taken[*group][way].saturating_sub(1);
                SegmentCut { splices: cuttings.ways[way].splices.clone(), kept: cuttings.kept }
            })
            .collect()
    }
}

/// Pieces by length, waiting for their bars.
struct Waiting(Vec<VecDeque<Piece>>);

impl Waiting {
    fn new(lengths: &[i64], runs: &[Run], segments: &[SegmentCut]) -> Self {
        let mut by_length = vec![VecDeque::new(); lengths.len()];
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
