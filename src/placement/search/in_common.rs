//! Fewest hooks on several segments that stand on the same places: one choice for all of them.
//!
//! **Method.** One walk over the subsets of all places, from left to right. Every segment has a [`Probe`] of
//! its own, and a left part is dropped with everything that could follow it as soon as the probe of one
//! segment shows that no completion of it passes there: what no completion passes on one segment, none
//! passes on all. A whole choice is weighed on every segment in every combination. That more hooks help is
//! nowhere taken for granted, on a segment or across them: a place that helps one may overload another.
//! * *Counting* leaves places out before it takes them, so that a choice of few hooks is met early, and drops
//!   what cannot do with fewer hooks in all than the fewest known. Of segments over the very same places each
//!   has as many hooks as the others, so that the one that needs most by itself bounds them all.
//! * *Ranking* takes places before it leaves them out, which is the lexicographic order, and keeps of all
//!   choices of that many hooks the one whose largest utilisation on any segment is least.
//!
//! **Limit.** As for one segment (see the folder). Cut short while counting, the fewest hooks met are the
//! answer and the lower bounds are those of the segments by themselves: choices in common are among theirs.
//!
//! **Checked by** `tests/properties/in_common.rs` (exhaustive enumeration).

use std::collections::BTreeMap;

use crate::checks::probe::Probe;
use crate::checks::segment::{Segment, Workspace};

use super::{EQUAL, Found, Limit, Outcome, STEPS};

/// Times the combinations a probe asks may change for one that refused.
const TURNS: u32 = 1000;

/// Searches segments for the fewest hooks in all on the same places, by their steps, with every utilisation
/// within `bound`.
///
/// `alone` is what was found on each segment by itself, which bounds what is found here.
#[must_use]
pub fn fewest_in_common(
    segments: &[&Segment],
    alone: &[Found],
    bound: f64,
    limit: Limit<'_>,
) -> Vec<Found> {
    let mut weighed = 0;
    let found = InCommon::of(segments, alone, bound, limit).and_then(|mut search| {
        let found = search.run();
        weighed = search.weighed;
        found
    });
    let ended = found.unwrap_or(Ended { taken: None, outcome: Outcome::NonePasses });
    let each = segments.iter().zip(alone).enumerate();
    each.map(|(s, (segment, alone))| {
        let taken = ended.taken.as_ref().map(|taken| taken[s].clone());
        let subset = taken.unwrap_or_else(|| segment.everything());
        let lower_bound = if ended.outcome.is_proven() { subset.len() } else { alone.lower_bound };
        Found { subset, outcome: ended.outcome, lower_bound, weighed }
    })
    .collect()
}

/// What came of it.
struct Ended {
    /// Candidates taken of each segment.
    taken: Option<Vec<Vec<usize>>>,
    outcome: Outcome,
}

/// A place, with the segments that have a candidate there: segment and candidate.
struct Column {
    on: Vec<[usize; 2]>,
    /// Segments that have none further right.
    ends: Vec<usize>,
}

/// A segment as the walk sees it.
struct Lane<'a> {
    segment: &'a Segment,
    probe: Probe<'a>,
    /// Which candidates can be neighbours, by left and right one.
    spans: Vec<bool>,
    /// Of each candidate the last one that can be its right neighbour, itself where none can.
    farthest: Vec<usize>,
    /// Of each candidate how many hooks right of it there must be at least.
    must_follow: Vec<usize>,
    /// Hooks it has at least.
    least: usize,
    /// Candidates taken.
    taken: Vec<usize>,
    /// Used at most where all its hooks are chosen.
    used: f64,
    /// Column of its last candidate.
    ends: usize,
    /// The combination that refused last what those asked first had let pass.
    refused_before: Option<usize>,
    turns: u32,
}

/// What is looked for.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Aim {
    /// Fewer hooks than the fewest known.
    Fewer,
    /// So many hooks, used less than the best known.
    LeastUsed(usize),
}

/// A whole choice: its columns, and what it uses at most.
#[derive(Clone)]
struct Choice {
    columns: Vec<usize>,
    hooks: usize,
    used: f64,
    /// Found by moving hooks: an equal choice met on the walk comes first in order.
    guessed: bool,
}

struct InCommon<'a, 'b> {
    lanes: Vec<Lane<'a>>,
    columns: Vec<Column>,
    /// Segments over the very same places.
    alike: Vec<Vec<usize>>,
    /// Of each column and all right of it the fewest segments that one of them is on.
    lightest: Vec<usize>,
    /// Of each column the hooks that it and all right of it would make.
    still: Vec<usize>,
    /// Columns taken.
    taken: Vec<usize>,
    /// Hooks taken.
    hooks: usize,
    /// Segments, those first that refused last.
    refusers: Vec<usize>,
    bound: f64,
    best: Option<Choice>,
    limit: Limit<'b>,
    weighed: u64,
    space: Workspace,
}

impl<'a> Lane<'a> {
    fn of(segment: &'a Segment, alone: &Found, bound: f64) -> Option<Self> {
        let n = segment.candidates.len();
        let probe = Probe::new(segment)?;
        let spans = probe.spans(bound);
        let follows = |left: usize, right: usize| spans[left * n + right];
        let farthest = (0..n)
            .map(|left| (left + 1..n).rev().find(|right| follows(left, *right)).unwrap_or(left))
            .collect();
        let mut must_follow = vec![n; n];
        for left in (0..n).rev() {
            let after = (left + 1..n).filter(|right| follows(left, *right));
            let fewest = after.map(|right| must_follow[right].saturating_add(1)).min();
            must_follow[left] =
                if segment.candidates[left].may_be_last { 0 } else { fewest.unwrap_or(n) };
        }
        Some(Self {
            segment,
            probe,
            spans,
            farthest,
            must_follow,
            least: alone.lower_bound,
            taken: Vec::with_capacity(n),
            used: 0.0,
            ends: 0,
            refused_before: None,
            turns: TURNS,
        })
    }

    /// Whether a candidate may be taken next.
    fn may_take(&self, candidate: usize) -> bool {
        let n = self.segment.candidates.len();
        match self.taken.last() {
            None => self.segment.candidates[candidate].may_be_first,
            Some(last) => self.spans[last * n + candidate],
        }
    }

    /// Whether a candidate may be left out.
    fn may_leave(&self, candidate: usize) -> bool {
        match self.taken.last() {
            // Candidates run away from the left end.
            None => self.segment.candidates.get(candidate + 1).is_some_and(|c| c.may_be_first),
            Some(last) => {
                self.segment.candidates[*last].may_be_last || self.farthest[*last] > candidate
            }
        }
    }

    /// How many hooks it has in the end at least.
    fn at_least(&self) -> usize {
        let more = self.taken.last().map_or(0, |last| self.must_follow[*last]);
        self.least.max(self.taken.len() + more)
    }

    /// Utilisation of the hooks taken, if it stays within `bound`.
    fn within(&mut self, bound: f64, space: &mut Workspace) -> Option<f64> {
        if self.taken.len() < 2 || !self.segment.ends_are_short(&self.taken) {
            return None;
        }
        self.probe.take(&self.taken);
        if !self.probe.passes(bound) {
            return None;
        }
        let used = self.segment.within(&self.taken, bound, space);
        if let (None, Some(case)) = (used, space.refused_last()) {
            // What refuses but once is not worth working everything out anew for.
            let again = self.refused_before.replace(case) == Some(case);
            if again && self.turns > 0 && self.probe.turn_to(case) {
                self.turns -= 1;
            }
        }
        used
    }
}

impl<'a, 'b> InCommon<'a, 'b> {
    /// A search that has not begun yet; `None` where a segment holds on no choice.
    fn of(segments: &[&'a Segment], alone: &[Found], bound: f64, limit: Limit<'b>) -> Option<Self> {
        let lanes =
            segments.iter().zip(alone).map(|(segment, alone)| Lane::of(segment, alone, bound));
        let mut lanes: Vec<Lane<'_>> = lanes.collect::<Option<_>>()?;
        let mut by_step: BTreeMap<i64, Vec<[usize; 2]>> = BTreeMap::new();
        for (s, segment) in segments.iter().enumerate() {
            for (c, candidate) in segment.candidates.iter().enumerate() {
                by_step.entry(candidate.step).or_default().push([s, c]);
            }
        }
        let last = |[s, c]: &[usize; 2]| c + 1 == segments[*s].candidates.len();
        let columns = by_step.into_values().map(|on| {
            let ends = on.iter().filter(|at| last(at)).map(|[s, _]| *s).collect();
            Column { on, ends }
        });
        let columns: Vec<Column> = columns.collect();
        for (at, column) in columns.iter().enumerate() {
            column.ends.iter().for_each(|s| lanes[*s].ends = at);
        }
        let steps = |s: usize| segments[s].candidates.iter().map(|c| c.step);
        let mut alike: Vec<Vec<usize>> = Vec::new();
        for s in 0..segments.len() {
            match alike.iter_mut().find(|group| steps(group[0]).eq(steps(s))) {
                Some(group) => group.push(s),
                None => alike.push(vec![s]),
            }
        }
        let mut lightest = vec![usize::MAX; columns.len() + 1];
        let mut still = vec![0; columns.len() + 1];
        for (at, column) in columns.iter().enumerate().rev() {
            lightest[at] = lightest[at + 1].min(column.on.len());
            still[at] = still[at + 1] + column.on.len();
        }
        Some(Self {
            refusers: (0..lanes.len()).collect(),
            lanes,
            columns,
            alike,
            lightest,
            still,
            taken: Vec::new(),
            hooks: 0,
            bound,
            best: None,
            limit,
            weighed: 0,
            space: Workspace::default(),
        })
    }

    /// Counts, then ranks; `None` where nothing passes.
    fn run(&mut self) -> Option<Ended> {
        self.guess();
        self.walk(0, Aim::Fewer);
        let cut_short = self.exhausted();
        let Some(fewest) = self.best.clone() else {
            let outcome = Outcome::NoneFound;
            return cut_short.then_some(Ended { taken: None, outcome });
        };
        let proven = !cut_short || fewest.hooks <= self.at_least();
        let mut outcome = Outcome::BestFound;
        if proven {
            self.best = Some(Choice { guessed: true, ..fewest.clone() });
            self.improve();
            self.walk(0, Aim::LeastUsed(fewest.hooks));
            outcome = if self.exhausted() {
                Outcome::FewestProvenNotRanked
            } else {
                Outcome::FewestProven
            };
        }
        let best = self.best.take().unwrap_or(fewest);
        Some(Ended { taken: Some(self.of_each(&best.columns)), outcome })
    }

    /// The candidates of each segment in these columns.
    fn of_each(&self, columns: &[usize]) -> Vec<Vec<usize>> {
        let mut out = vec![Vec::new(); self.lanes.len()];
        for [s, c] in columns.iter().flat_map(|at| &self.columns[*at].on) {
            out[*s].push(*c);
        }
        out
    }

    fn exhausted(&self) -> bool {
        self.weighed >= self.limit.weighed
            || self.limit.allowance.as_ref().is_some_and(|allowance| allowance.is_spent())
    }

    fn spend(&mut self, steps: usize) {
        if let Some(allowance) = &mut self.limit.allowance {
            allowance.spend(steps as u64);
        }
    }

    /// How many hooks a choice that begins with those taken has in all at least.
    fn at_least(&self) -> usize {
        let of = |group: &Vec<usize>| {
            let most = group.iter().map(|s| self.lanes[*s].at_least()).max();
            most.unwrap_or(0) * group.len()
        };
        self.alike.iter().map(of).sum()
    }

    /// Hooks of interest at most.
    fn most(&self, aim: Aim) -> usize {
        match aim {
            Aim::LeastUsed(hooks) => hooks,
            Aim::Fewer => {
                self.best.as_ref().map_or(self.still[0], |best| best.hooks.saturating_sub(1))
            }
        }
    }

    /// What a choice has to stay within to be kept.
    fn bound_now(&self, aim: Aim) -> f64 {
        match (&self.best, aim) {
            (None, _) | (_, Aim::Fewer) => self.bound,
            (Some(best), _) if best.guessed => self.bound.min(best.used + EQUAL),
            (Some(best), _) => best.used - EQUAL,
        }
    }

    /// Looks through all choices that go on from those taken with column `at` and those right of it.
    fn walk(&mut self, at: usize, aim: Aim) {
        if self.exhausted() || self.at_least() > self.most(aim) {
            return;
        }
        let chosen = self.lanes.iter().filter(|lane| lane.ends < at);
        let used = chosen.map(|lane| lane.used).fold(0.0, f64::max);
        if let Aim::LeastUsed(hooks) = aim
            && (self.hooks + self.still[at] < hooks || used > self.bound_now(aim))
        {
            return;
        }
        if at == self.columns.len() {
            let (columns, hooks) = (self.taken.clone(), self.hooks);
            self.best = Some(Choice { columns, hooks, used, guessed: false });
            return;
        }
        match aim {
            Aim::Fewer => {
                self.leave(at, aim);
                self.take(at, aim);
            }
            Aim::LeastUsed(_) => {
                self.take(at, aim);
                self.leave(at, aim);
            }
        }
    }

    /// Goes on without a column.
    fn leave(&mut self, at: usize, aim: Aim) {
        let on = &self.columns[at].on;
        if on.iter().all(|[s, c]| self.lanes[*s].may_leave(*c)) && self.close(at, aim) {
            self.walk(at + 1, aim);
        }
    }

    /// Goes on with a column.
    fn take(&mut self, at: usize, aim: Aim) {
        let on = &self.columns[at].on;
        if !on.iter().all(|[s, c]| self.lanes[*s].may_take(*c)) {
            return;
        }
        for [s, c] in on {
            self.lanes[*s].taken.push(*c);
        }
        let hooks = on.len();
        self.hooks += hooks;
        self.taken.push(at);
        self.spend(hooks);
        let goes_on = self.at_least() <= self.most(aim);
        if goes_on && !self.refuted(at, aim) && self.close(at, aim) {
            self.walk(at + 1, aim);
        }
        self.taken.pop();
        self.hooks -= hooks;
        for [s, _] in &self.columns[at].on {
            self.lanes[*s].taken.pop();
        }
    }

    /// Whether on some segment no completion of what is taken up to this column passes.
    fn refuted(&mut self, at: usize, aim: Aim) -> bool {
        let room = self.most(aim) - self.hooks;
        let more = if at + 1 < self.columns.len() { room / self.lightest[at + 1] } else { 0 };
        let bound = self.bound_now(aim);
        if more == 0 {
            // Weighed at once.
            return false;
        }
        for place in 0..self.refusers.len() {
            let s = self.refusers[place];
            let lane = &mut self.lanes[s];
            let Some([_, candidate]) = self.columns[at].on.iter().find(|[on, _]| *on == s) else {
                continue;
            };
            let right = lane.segment.candidates.len() - candidate - 1;
            if lane.taken.len() < 2 || right == 0 {
                continue;
            }
            lane.probe.take(&lane.taken);
            let refutes = lane.probe.refutes(more.min(right).max(2), bound, None);
            self.weighed += 1;
            self.spend(STEPS);
            if refutes {
                self.refuses(place);
                return true;
            }
        }
        false
    }

    /// Weighs the segments that end with this column: false where one of them does not pass.
    fn close(&mut self, at: usize, aim: Aim) -> bool {
        if self.columns[at].ends.is_empty() {
            return true;
        }
        let bound = self.bound_now(aim);
        for place in 0..self.refusers.len() {
            let s = self.refusers[place];
            if self.columns[at].ends.contains(&s) && !self.weigh(s, bound) {
                self.refuses(place);
                return false;
            }
        }
        true
    }

    /// Weighs the hooks taken on a segment.
    fn weigh(&mut self, s: usize, bound: f64) -> bool {
        let lane = &mut self.lanes[s];
        let steps = lane.taken.len() * (1 + lane.segment.cases.len());
        let used = lane.within(bound, &mut self.space);
        lane.used = used.unwrap_or(lane.used);
        self.weighed += 1;
        self.spend(steps);
        used.is_some()
    }

    /// Asks the segment in this place first from now on.
    fn refuses(&mut self, place: usize) {
        self.refusers[..=place].rotate_right(1);
    }

    /// A whole choice, weighed on every segment; `None` where it is over the bound.
    fn whole(&mut self, columns: &[usize], bound: f64) -> Option<Choice> {
        for (s, taken) in self.of_each(columns).into_iter().enumerate() {
            self.lanes[s].taken = taken;
        }
        let mut used: Option<f64> = Some(0.0);
        for place in 0..self.refusers.len() {
            let s = self.refusers[place];
            if !self.weigh(s, bound) {
                self.refuses(place);
                used = None;
                break;
            }
            used = used.map(|used| used.max(self.lanes[s].used));
        }
        let hooks = self.lanes.iter().map(|lane| lane.taken.len()).sum();
        self.lanes.iter_mut().for_each(|lane| lane.taken.clear());
        used.map(|used| Choice { columns: columns.to_vec(), hooks, used, guessed: true })
    }

    /// Looks for a choice of few hooks: all, and hooks taken away from either end on.
    fn guess(&mut self) {
        let all: Vec<usize> = (0..self.columns.len()).collect();
        for from_right in [false, true] {
            let Some(mut choice) = self.whole(&all, self.bound) else { return };
            let mut order = all.clone();
            if from_right {
                order.reverse();
            }
            for column in order {
                if self.exhausted() {
                    break;
                }
                let mut fewer = choice.columns.clone();
                fewer.retain(|at| *at != column);
                choice = self.whole(&fewer, self.bound).unwrap_or(choice);
            }
            if self.best.as_ref().is_none_or(|best| choice.hooks < best.hooks) {
                self.best = Some(choice);
            }
        }
    }

    /// Quick descent from the best choice known: columns are moved to the next free one as long as that
    /// lowers the largest utilisation and takes as many hooks.
    fn improve(&mut self) {
        while let Some(best) = self.best.clone() {
            let mut better = None;
            for i in 0..best.columns.len() {
                for to in [best.columns[i].wrapping_sub(1), best.columns[i] + 1] {
                    let free = to < self.columns.len() && !best.columns.contains(&to);
                    if !free || self.exhausted() {
                        continue;
                    }
                    let mut moved = best.columns.clone();
                    moved[i] = to;
                    let bound = better.as_ref().unwrap_or(&best).used - EQUAL;
                    let choice = self.whole(&moved, bound);
                    better = choice.filter(|choice| choice.hooks == best.hooks).or(better);
                }
            }
            match better {
                Some(better) => self.best = Some(better),
                None => return,
            }
        }
    }
}
