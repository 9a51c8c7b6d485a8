//! Which of two choices is better, and which are worth a look beside the best.
//!
//! A choice is ranked by the figures that are told of it, so that whoever reads them can rank as well. First
//! comes how good its verdict is, and only among equals what is aimed for: a layout that holds is never put
//! behind one that was not verified, however few hooks that has, and one that fails is never the best.

use std::cmp::Ordering;

use crate::assessment;
use crate::wire::choices::ChoiceRow;
use crate::wire::remarks::Verdict;

/// How good a verdict is: the less the better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Class {
    /// Nothing where it is at least as good as asked for; else the verdict.
    below: Option<assessment::Verdict>,
    /// Matters that are not verified, where that makes it worse than asked for.
    open: usize,
}

impl Class {
    /// At least as good as asked for.
    pub const REACHED: Self = Self { below: None, open: 0 };

    /// Of a choice, where a verdict is asked for at least.
    #[must_use]
    pub fn of(row: &ChoiceRow, least: assessment::Verdict) -> Self {
        let verdict = match row.verdict {
            Verdict::Holds => assessment::Verdict::Holds,
            Verdict::HoldsWithWarnings => assessment::Verdict::HoldsWithWarnings,
            Verdict::Incomplete => assessment::Verdict::Incomplete,
            Verdict::Fails => assessment::Verdict::Fails,
        };
        if verdict <= least {
            Self::REACHED
        } else {
            Self { below: Some(verdict), open: row.not_verified.len() }
        }
    }

    /// Whether it is that of layouts that fail.
    #[must_use]
    pub fn fails(self) -> bool {
        self.below == Some(assessment::Verdict::Fails)
    }
}

/// A choice that was laid out.
#[derive(Debug, Clone, PartialEq)]
pub struct Looked {
    /// Its place among the choices.
    pub at: usize,
    /// How good its verdict is.
    pub class: Class,
    /// What it comes to.
    pub row: ChoiceRow,
}

impl Looked {
    /// Which of two comes first: the better verdict, then less of what is aimed for, then fewer hooks, then the
    /// lower utilisation, then the one that comes first among the choices.
    #[must_use]
    pub fn compare(&self, other: &Self) -> Ordering {
        let [one, two] = [&self.row, &other.row];
        self.class
            .cmp(&other.class)
            .then(one.aim.total_cmp(&two.aim))
            .then(one.hooks.cmp(&two.hooks))
            .then(one.utilisation.max.total_cmp(&two.utilisation.max))
            .then(self.at.cmp(&other.at))
    }
}

/// Of choices in their order those than which none has as few hooks at as low a price with less of either: fewest
/// hooks first, and of equals the best.
#[must_use]
pub fn hooks_against_price<'a>(best_first: impl Iterator<Item = &'a Looked>) -> Vec<&'a Looked> {
    let mut priced: Vec<(f64, &Looked)> =
        best_first.filter_map(|looked| Some((looked.row.price?, looked))).collect();
    // The sort is stable: of equals the best stays first.
    priced.sort_by(|a, b| a.1.row.hooks.cmp(&b.1.row.hooks).then(a.0.total_cmp(&b.0)));
    let mut least = f64::INFINITY;
    priced.retain(|(price, _)| {
        let is_lower = *price < least;
        least = least.min(*price);
        is_lower
    });
    priced.into_iter().map(|(_, looked)| looked).collect()
}
