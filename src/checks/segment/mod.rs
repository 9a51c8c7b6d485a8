//! A rail segment on its hooks: every check of hook, screws, clearance and rail, in every
//! combination.
//!
//! A [`Segment`] is built once and then checks any subset of its candidates: the search asks whether
//! one stays within a bound (`within.rs`) and stops at the first check that does not, the answer is
//! written from all checks in full (`in_full.rs`). Both go through the same demands and resistances.

mod hold;
mod hooks;
mod in_full;
mod rail;
mod results;
mod setting;
mod splice;
mod steps;
mod within;
mod workspace;

use std::borrow::Cow;
use std::sync::Arc;

use crate::hardware::Hook;
use crate::mechanics::beam::{Reactions, Strip, Superposition};
use crate::units::{Force, Length};

use super::bolt::BoltLimits;
use super::foot::FootModel;
use super::rail::RailLimits;

pub use hold::{Held, Hold};
pub use results::{Forces, HookResult, SegmentResult};
pub use setting::Setting;
pub use workspace::Workspace;

/// One combination as the segment sees it.
#[derive(Debug, Clone, Copy)]
pub struct Case {
    /// Index in the job's list of combinations.
    pub combination: usize,
    /// Strength or serviceability.
    pub limit: Limit,
    /// Its load on the normal strip.
    pub normal: Superposition,
    /// Its load on the slope strip.
    pub slope: Superposition,
}

/// What a combination is checked for.
#[derive(Debug, Clone, Copy)]
pub enum Limit {
    /// Strength.
    Strength,
    /// Clearance and deflection.
    Service,
}

/// One place a hook can stand.
#[derive(Debug, Clone)]
pub struct Candidate {
    /// Rafter.
    pub rafter: usize,
    /// Course its arm leaves under.
    pub course: i64,
    /// Number of its rafter, or of its course where the rail runs up the slope: what hooks on the rail are so
    /// many apart.
    pub step: i64,
    /// Axis of the rafter.
    pub x: Length,
    /// Where the arm leaves the covering.
    pub arm_x: Length,
    /// Where the arm holds the rail, along the rail.
    pub at: Length,
    /// The foot with its levers, one for all that are alike.
    pub foot: Arc<FootModel>,
    /// How it is set: which of the segment's settings.
    pub setting: usize,
    /// Close enough to the left end to be the first.
    pub may_be_first: bool,
    /// Close enough to the right end to be the last.
    pub may_be_last: bool,
    /// A hook stands there already: every choice has it.
    pub stands: bool,
}

/// A rail segment with everything its checks need.
#[derive(Debug, Clone)]
pub struct Segment {
    /// Under load square to the roof.
    pub normal: Strip,
    /// Under load along the slope.
    pub slope: Strip,
    /// Which hooks hold it along its axis, where it runs up the slope.
    pub hold: Hold,
    /// The same strip with its loads gathered at the one hook that holds the rail, where a search has chosen one.
    pub gathered: Option<Box<Strip>>,
    /// Combinations, strength and serviceability.
    pub cases: Vec<Case>,
    /// Places a hook can stand, left to right; the strips' candidates.
    pub candidates: Vec<Candidate>,
    /// Forces on the strips' candidates, all of which it stands on, where lower rails bear it and no hooks.
    pub borne: Option<[Reactions; 2]>,
    /// The hook.
    pub hook: Hook,
    /// The bolt that holds the rail to it, where it is known.
    pub bolt: Option<BoltLimits>,
    /// The rail.
    pub limits: RailLimits,
    /// Ways the feet of the candidates are set.
    pub settings: Vec<Setting>,
    /// Least distance between two hooks; zero where the places for hooks are far enough apart by themselves.
    pub least_apart: Length,
    /// A foot no candidate's is loaded less than, for lower bounds; `None` when the feet are not
    /// all set alike, for a higher one is loaded more by one force and less by the other.
    pub least_foot: Option<FootModel>,
}

impl Segment {
    /// The same rail under the same loads with other places for hooks.
    #[must_use]
    pub fn with_candidates(&self, candidates: Vec<Candidate>) -> Self {
        let places: Vec<f64> = candidates.iter().map(|place| place.at.mm()).collect();
        Self {
            normal: self.normal.with_candidates(places.clone()),
            slope: self.slope.with_candidates(places),
            hold: self.hold,
            gathered: None,
            cases: self.cases.clone(),
            least_foot: Self::least_foot(&candidates),
            candidates,
            borne: None,
            hook: self.hook.clone(),
            bolt: self.bolt,
            limits: self.limits,
            settings: self.settings.clone(),
            least_apart: self.least_apart,
        }
    }

    /// Gives back the memory of what was worked out; it is worked out anew when it is asked for.
    pub fn forget(&mut self) {
        self.normal.forget();
        self.slope.forget();
        self.gathered.iter_mut().for_each(|strip| strip.forget());
    }

    /// What it stands on, by place among the candidates of its strips: the hooks of a subset, or the lower rails
    /// that bear it.
    fn supports<'a>(&self, subset: &'a [usize]) -> Cow<'a, [usize]> {
        match self.borne {
            None => Cow::Borrowed(subset),
            Some(_) => Cow::Owned((0..self.normal.candidates().len()).collect()),
        }
    }

    /// Forces square to the slope on what it stands on, and which of the strip's candidates that is; `None` where
    /// it is not stable.
    #[must_use]
    pub fn reactions<'a>(&self, subset: &'a [usize]) -> Option<(Reactions, Cow<'a, [usize]>)> {
        let reactions = match &self.borne {
            Some([normal, _]) => normal.clone(),
            None => self.normal.reactions(subset)?,
        };
        Some((reactions, self.supports(subset)))
    }

    /// Forces at the crossings of a rail that lower ones bear, square to the slope and down it, case by case.
    pub fn borne_in(&self) -> impl Iterator<Item = Vec<[Force; 2]>> {
        let cases =
            self.borne.iter().flat_map(|borne| self.cases.iter().map(move |case| (borne, case)));
        cases.map(|([normal, slope], case)| {
            let (mut n, mut s) = (Vec::new(), Vec::new());
            normal.under(&case.normal, &mut n);
            slope.under(&case.slope, &mut s);
            n.into_iter().zip(s).map(|(n, s)| [Force::from_n(n), Force::from_n(s)]).collect()
        })
    }

    /// A foot none of these is loaded less than; `None` when they are not all set alike.
    #[must_use]
    pub fn least_foot(candidates: &[Candidate]) -> Option<FootModel> {
        let alike = candidates.windows(2).all(|pair| pair[0].setting == pair[1].setting);
        alike.then(|| FootModel::least_loaded(candidates.iter().map(|c| &*c.foot))).flatten()
    }

    /// As many of the candidates as can stand beside each other, from the first one on: all of them where the
    /// places for hooks are far enough apart.
    #[must_use]
    pub fn everything(&self) -> Vec<usize> {
        let mut all: Vec<usize> = Vec::with_capacity(self.candidates.len());
        for candidate in 0..self.candidates.len() {
            let stands = self.candidates[candidate].stands;
            all.push(candidate);
            if !stands && !self.are_apart(&all) {
                all.pop();
            }
        }
        all
    }

    /// Whether all hooks of a subset stand far enough from each other, but for those that stand already.
    #[must_use]
    pub fn are_apart(&self, subset: &[usize]) -> bool {
        /// What the grid of courses may be off by in rounding.
        const ROUNDING: Length = Length::from_mm(1e-6);
        let are_apart = |pair: &[usize]| {
            let [lower, upper] = [0, 1].map(|i| &self.candidates[pair[i]]);
            upper.at - lower.at >= self.least_apart - ROUNDING || lower.stands && upper.stands
        };
        self.least_apart == Length::ZERO || subset.windows(2).all(are_apart)
    }

    /// Whether both free ends of a subset are short enough.
    #[must_use]
    pub fn ends_are_short(&self, subset: &[usize]) -> bool {
        subset.first().zip(subset.last()).is_some_and(|(first, last)| {
            self.candidates[*first].may_be_first && self.candidates[*last].may_be_last
        })
    }
}
