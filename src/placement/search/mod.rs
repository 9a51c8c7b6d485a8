//! Fewest hooks on a rail segment, with proof.
//!
//! **Method.** Two walks over the tree of all subsets whose free ends are short enough, each
//! support taken from left to right, so that subsets with the same left part share the elimination
//! of their beam equations. On the way a [`Probe`] asks the combinations that are likely to refuse:
//! a left part is dropped with everything that could follow it when [`Probe::refutes`] shows that no
//! completion of the size still of interest stays within the bound, and a whole choice where
//! [`Probe::passes`] does not let it. What is left is weighed in every combination.
//! * *Counting* looks for ever fewer hooks: it takes the farthest next hook first, so that a choice
//!   of few hooks is met early, and from then on drops all that cannot do with fewer. When nothing
//!   is left, or the valid lower bound [`Segment::fewest_by_equilibrium`] is met, the number known
//!   is the fewest: every choice of fewer hooks was dropped by an argument or weighed.
//! * *Ranking* walks the subsets of that very number in lexicographic order. Of those that pass, the
//!   one with the smallest largest utilisation is kept, of equals the first: the bound drops to the
//!   best utilisation known, which a quick descent from the choice counting ended with provides.
//!
//! Where candidates are many, both walks end where right parts, gathered once by a walk of the same
//! kind from the right end, begin: a left and a right part that share a hook make up a choice, and
//! where two parts meet a few numbers of each tell the forces on the hooks around (`right_parts.rs`).
//! Where they are so many that halves are too many to gather, what is looked through are windows of
//! a few neighbouring hooks, and only choices made up of those left over (`by_windows.rs`).
//!
//! The utilisation of a rail does not always fall with more hooks (two near each other may tear at
//! one another), so that no number of hooks is taken to follow from another.
//!
//! **Where it starts.** The fewer hooks a known choice has, the more is dropped. A choice that held
//! on a rail much like this one is weighed first; where it does not hold, or there is none, hooks
//! are taken away from all of them and neighbours exchanged for fewer (`guess.rs`). What is found
//! does not depend on the guess, only how soon.
//!
//! **Hooks that stand.** A choice always has the candidates that stand already; the fewest hooks
//! are then the fewest added to them. The quick descent, which moves hooks, is left out. Hooks stand in a
//! repair of what is built and in a layout that keeps some; `tests/properties/kept.rs` holds both counting
//! and ranking beside them against every choice there is.
//!
//! **Patterns.** Even rows are few; they are weighed one by one, fewest hooks first. Segments that stand on the
//! same places are walked over together (`in_common.rs`).
//!
//! **Rails that one hook holds.** Every candidate that may be that hook is searched by itself, and the best of
//! these counts (`by_holder.rs`).
//!
//! **Limit.** Each subset weighed, each part asked about and every few pairs of parts that meet count
//! against the limit of the segment, and what all that takes, in steps and in bytes, against what the
//! job is allowed. Cut short while counting, the fewest hooks met are the answer; where none passed yet, all candidates are
//! taken if they pass and hooks are taken away greedily. The lower bound is then that by
//! equilibrium, for even rows the number being tried. Cut short while ranking, the number is proven
//! all the same.
//!
//! **Deterministic.** No clock, no randomness, no threads.

mod by_holder;
mod by_windows;
mod even;
mod free;
mod guess;
mod in_common;
mod right_parts;

use crate::checks::probe::Probe;
use crate::checks::segment::{Hold, Segment, Workspace};
use crate::checks::windows::WINDOW;
use crate::effort::{Allowance, Effort};

pub use in_common::fewest_in_common;
use right_parts::RightParts;

/// Free candidates from which on they are many.
const MANY: usize = 18;

/// Steps that a question about a left part is counted as.
const STEPS: usize = 4;

/// Two utilisations closer than this count as equal, so that the order decides.
const EQUAL: f64 = 1e-9;

/// Extra rule the pattern of hooks has to follow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pattern {
    /// None.
    Free,
    /// The same number of rafters from hook to hook.
    Even,
}

/// What was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Candidates taken, ascending.
    pub subset: Vec<usize>,
    /// How the search ended.
    pub outcome: Outcome,
    /// No smaller number of hooks passes.
    pub lower_bound: usize,
    /// Subsets weighed.
    pub weighed: u64,
}

/// How a search ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Fewest, and of those the lowest utilisation.
    FewestProven,
    /// Fewest; a lower utilisation may exist with as many.
    FewestProvenNotRanked,
    /// Passes; fewer may, the limit was reached.
    BestFound,
    /// Passes; fewer overload a rafter, or may do: the rails of a job were looked at together.
    Spread,
    /// Passes; fewer may, for rails that cross bear on one another and were searched one by one.
    Together,
    /// Nothing passes; all candidates taken.
    NonePasses,
    /// Nothing found within the limit; all candidates taken.
    NoneFound,
    /// Nothing was searched: the hooks are given.
    Given,
}

impl Found {
    /// All of so many candidates, given and not searched.
    #[must_use]
    pub fn given(hooks: usize) -> Self {
        Self {
            subset: (0..hooks).collect(),
            outcome: Outcome::Given,
            lower_bound: hooks,
            weighed: 0,
        }
    }
}

impl Outcome {
    /// Whether it is certain that no smaller number passes.
    #[must_use]
    pub const fn is_proven(self) -> bool {
        matches!(self, Self::FewestProven | Self::FewestProvenNotRanked)
    }
    /// Whether the subset passes every check.
    #[must_use]
    pub const fn passes(self) -> bool {
        matches!(
            self,
            Self::FewestProven
                | Self::FewestProvenNotRanked
                | Self::BestFound
                | Self::Spread
                | Self::Together
        )
    }
}

/// How choices without a pattern are looked through. What is found does not depend on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// One walk from left to right.
    Walk,
    /// The same as far as right parts, which are gathered beforehand.
    Parts,
    /// Windows first.
    Windows,
}

/// How long the search of a segment may go on.
#[derive(Debug)]
pub struct Limit<'a> {
    /// Choices it may weigh.
    pub weighed: u64,
    /// What it may take of what the job may; nothing stands for as much as it takes.
    pub allowance: Option<&'a mut Allowance>,
}

impl From<u64> for Limit<'_> {
    fn from(weighed: u64) -> Self {
        Self { weighed, allowance: None }
    }
}

/// Searches a segment for the fewest hooks whose utilisation stays within `bound`.
///
/// `like` is a choice that held on a segment much like this one, or nothing: where it holds here as
/// well, the search starts from it. What is found does not depend on it, only how soon.
#[must_use]
pub fn fewest_hooks<'a>(
    segment: &Segment,
    bound: f64,
    pattern: Pattern,
    limit: impl Into<Limit<'a>>,
    like: &[usize],
) -> Found {
    let Limit { weighed, allowance } = limit.into();
    let mut unlimited = Allowance::from(&Effort::unlimited());
    let allowance = allowance.unwrap_or(&mut unlimited);
    let asked = Asked { bound, pattern, weighed };
    match segment.hold {
        Hold::AllHooks => asked.of(segment, like, allowance),
        Hold::LowestHook | Hold::HighestHook => by_holder::best(segment, asked, like, allowance),
    }
}

/// What a search is asked.
#[derive(Debug, Clone, Copy)]
struct Asked {
    /// Utilisation to stay within.
    bound: f64,
    /// Rule the hooks follow.
    pattern: Pattern,
    /// Choices it may weigh.
    weighed: u64,
}

impl Asked {
    /// Of a segment whose hooks all hold the rail along its axis, or of which one is known to.
    fn of(self, segment: &Segment, like: &[usize], allowance: &mut Allowance) -> Found {
        let search = Search::of(segment, self.bound, self.weighed, allowance);
        search.map_or_else(
            |found| found,
            |search| match self.pattern {
                Pattern::Free => search.free(like, None),
                Pattern::Even => search.even(),
            },
        )
    }
}

/// The same without a pattern, in a given way.
#[must_use]
pub fn fewest_hooks_by(way: Way, segment: &Segment, bound: f64, limit: u64) -> Found {
    let mut unlimited = Allowance::from(&Effort::unlimited());
    let search = Search::of(segment, bound, limit, &mut unlimited);
    search.map_or_else(|found| found, |search| search.free(&[], Some(way)))
}

/// How many hooks stand from each candidate on to the right end.
fn standing_right(segment: &Segment) -> Vec<usize> {
    let mut count = vec![0; segment.candidates.len() + 1];
    for (i, candidate) in segment.candidates.iter().enumerate().rev() {
        count[i] = count[i + 1] + usize::from(candidate.stands);
    }
    count
}

/// The best subset known of the number being tried.
struct Best {
    utilisation: f64,
    subset: Vec<usize>,
    /// Found by the quick descent: an equal subset met on the walk comes first in order.
    guessed: bool,
}

struct Search<'a> {
    segment: &'a Segment,
    bound: f64,
    limit: u64,
    weighed: u64,
    /// What the job allows beside the limit.
    allowance: &'a mut Allowance,
    lower_bound: usize,
    /// The fewest hooks met while counting, and their utilisation.
    fewest: Option<(Vec<usize>, f64)>,
    best: Option<Best>,
    probe: Probe<'a>,
    standing_right: Vec<usize>,
    /// Which candidates can be neighbours, by left and right one; asked only without a pattern.
    spans: Vec<bool>,
    /// Right parts to meet, where candidates are many.
    right: Option<RightParts<'a>>,
    /// Times other combinations may yet be asked first.
    turns: u32,
    /// The combination that refused last what those asked first had let pass.
    refused_before: Option<usize>,
    space: Workspace,
}

impl<'a> Search<'a> {
    /// A search that has not begun yet, or what is known without one.
    fn of(
        segment: &'a Segment,
        bound: f64,
        limit: u64,
        allowance: &'a mut Allowance,
    ) -> Result<Self, Found> {
        let n = segment.candidates.len();
        let standing_right = standing_right(segment);
        let standing = standing_right[0];
        let lower_bound = segment.fewest_by_equilibrium(bound).max(standing);
        let none_passes = |lower_bound: usize| Found {
            subset: segment.everything(),
            outcome: Outcome::NonePasses,
            lower_bound,
            weighed: 0,
        };
        let reachable = segment.candidates.iter().any(|c| c.may_be_first)
            && segment.candidates.iter().any(|c| c.may_be_last);
        if lower_bound > n || !reachable {
            return Err(none_passes(lower_bound.min(n.max(2))));
        }
        let probe = Probe::new(segment).ok_or_else(|| none_passes(n))?;
        Ok(Self {
            segment,
            bound,
            // Room to count beyond it.
            limit: limit.min(u64::MAX / 2),
            weighed: 0,
            allowance,
            lower_bound,
            fewest: None,
            best: None,
            probe,
            spans: Vec::new(),
            right: None,
            turns: u32::MAX,
            refused_before: None,
            standing_right,
            space: Workspace::default(),
        })
    }

    /// The way that takes least, as far as the numbers of candidates and of hooks tell.
    fn way(&self, hooks: usize) -> Way {
        if self.are_very_many(hooks) {
            Way::Windows
        } else if self.are_many() {
            Way::Parts
        } else {
            Way::Walk
        }
    }

    /// Whether so many candidates are free that a thorough guess and right parts gathered beforehand
    /// take less than they save.
    fn are_many(&self) -> bool {
        self.segment.candidates.len() - self.standing_right[0] >= MANY
    }

    /// Whether halves of choices of about so many hooks are more than their windows, when from hook
    /// to hook there may be up to twice as many candidates as in the mean.
    fn are_very_many(&self, hooks: usize) -> bool {
        let standing = self.standing_right[0];
        let free = (self.segment.candidates.len() - standing) as f64;
        let hooks = hooks.saturating_sub(standing).max(1);
        let halves = (0..hooks / 2).map(|i| (free / 2.0 - i as f64) / (i as f64 + 1.0));
        let windows = std::iter::repeat_n(2.0 * free / hooks as f64, WINDOW);
        halves.product::<f64>() > free * windows.product::<f64>()
    }

    fn exhausted(&self) -> bool {
        self.weighed >= self.limit || self.allowance.is_spent()
    }

    /// Counts steps against what the job allows: so many hooks each time.
    fn spend(&mut self, times: usize, hooks: usize) {
        self.allowance.spend((times * hooks) as u64);
    }

    fn proven(&self, subset: Vec<usize>, outcome: Outcome) -> Found {
        Found { lower_bound: subset.len(), subset, outcome, weighed: self.weighed }
    }

    fn none_passes(&self) -> Found {
        let lower_bound = self.lower_bound.min(self.segment.candidates.len());
        let weighed = self.weighed;
        Found { subset: self.everything(), outcome: Outcome::NonePasses, lower_bound, weighed }
    }

    fn cut_short(&self, best: Option<Vec<usize>>, lower_bound: usize) -> Found {
        let outcome = match &best {
            // Cut short or not: no fewer pass.
            Some(best) if best.len() <= lower_bound => Outcome::FewestProvenNotRanked,
            Some(_) => Outcome::BestFound,
            None => Outcome::NoneFound,
        };
        let subset = best.unwrap_or_else(|| self.everything());
        Found { subset, outcome, lower_bound, weighed: self.weighed }
    }

    fn everything(&self) -> Vec<usize> {
        self.segment.everything()
    }

    /// Utilisation of the hooks taken, if it stays within `bound`.
    fn within(&mut self, bound: f64) -> Option<f64> {
        self.weighed += 1;
        let hooks = self.probe.subset().len();
        self.spend(1, hooks);
        if !self.probe.passes(bound) {
            return None;
        }
        self.spend(self.segment.cases.len(), hooks);
        let used = self.segment.within(self.probe.subset(), bound, &mut self.space);
        if let (None, Some(case)) = (used, self.space.refused_last()) {
            // What refuses but once is not worth working everything out anew for.
            let again = self.refused_before.replace(case) == Some(case);
            if again && self.turns > 0 && self.probe.turn_to(case) {
                self.turns -= 1;
            }
        }
        used
    }

    /// What a subset has to stay within to be kept.
    fn bound_now(&self) -> f64 {
        match &self.best {
            None => self.bound,
            Some(Best { utilisation, guessed: true, .. }) => self.bound.min(utilisation + EQUAL),
            Some(Best { utilisation, .. }) => utilisation - EQUAL,
        }
    }
}
