//! The element that is used most: what the answer names, and what papers say in words.

use crate::checks::{Check, most_used};
use crate::placement::Job;
use crate::placement::laid::{self, Layout};
use crate::service::rounding;
use crate::wire::layout::JobUtilisation;

use super::elements;

/// The highest utilisation, and what it belongs to.
#[derive(Debug, Clone, PartialEq)]
pub struct Worst {
    /// The utilisation.
    pub used: f64,
    /// The element.
    pub element: Element,
    /// The check that governs there.
    pub check: Check,
    /// Index of the combination that governs there.
    pub combination: usize,
}

/// An element of a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Element {
    /// A hook, rail or module, by its id.
    Named(String),
    /// A rafter, by its number.
    Rafter(usize),
}

impl Element {
    /// What a check of a layout is of.
    #[must_use]
    pub fn of(job: &Job, layout: &Layout, element: laid::Element) -> Self {
        match element {
            laid::Element::Rail(r) => Self::Named(layout.rails[r].line.id.clone()),
            laid::Element::Hook(at) => Self::Named(elements::hook_id(layout, at)),
            laid::Element::Module(m) => {
                Self::Named(elements::module_id(job, &layout.modules[m].placed))
            }
            laid::Element::Rafter(r) => Self::Rafter(layout.rafters[r].rafter),
        }
    }

    /// As the answer has it.
    #[must_use]
    pub fn id(&self) -> String {
        match self {
            Self::Named(id) => id.clone(),
            Self::Rafter(rafter) => format!("rafter {rafter}"),
        }
    }
}

impl Worst {
    /// As the answer has it.
    #[must_use]
    pub fn answer(&self, job: &Job) -> JobUtilisation {
        JobUtilisation {
            max: rounding::utilisation(self.used),
            slope: None,
            element: self.element.id(),
            check: self.check.name().to_owned(),
            combination: elements::combination_id(job, self.combination),
        }
    }
}

/// The element that is used most; of equals the first.
#[must_use]
pub fn worst_of(job: &Job, layout: &Layout) -> Worst {
    let Some(((check, element), governing)) = most_used(layout.checks()) else {
        let nothing = Element::Named(String::new());
        return Worst { used: 0.0, element: nothing, check: Check::Hook, combination: 0 };
    };
    let element = Element::of(job, layout, element);
    Worst { used: governing.utilisation, element, check, combination: governing.combination }
}
