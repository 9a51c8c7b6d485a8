//! Why hooks added do not make a segment hold.

use crate::checks::Check;
use crate::placement::Job;
use crate::placement::built::Checked;
use crate::placement::rail_axis::RailAxis;
use crate::placement::repair::Repair;

use super::Utilisation;

/// Why adding hooks does not help.
#[derive(Debug, Clone)]
pub enum NoHelp {
    /// The rail does not stand even with a hook in every place.
    NotStable,
    /// No free place holds an end of it.
    EndNotHeld,
    /// A check is over its limit all the same.
    Governs {
        /// What governs.
        element: Element,
        /// By which check.
        check: Check,
        /// How much of it is used.
        utilisation: Utilisation,
        /// In which combination.
        combination: String,
    },
}

/// What takes hooks that are added.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FreePlaces {
    /// Rafters, under rails along the eaves.
    Rafters,
    /// Courses, over the rafter of a rail up the slope.
    Courses,
}

impl FreePlaces {
    /// Of a job.
    #[must_use]
    pub const fn of(job: &Job) -> Self {
        match job.rail_axis {
            RailAxis::AlongEaves => Self::Rafters,
            RailAxis::UpSlope => Self::Courses,
        }
    }
}

/// What governs a segment with hooks in every free place.
#[derive(Debug, Clone)]
pub enum Element {
    /// The rail.
    Rail,
    /// A hook that stands, by name.
    Hook(String),
    /// A hook that would be added on a rafter.
    OnRafter(usize),
    /// A hook that would be added under a course of a rail up the slope.
    UnderCourse(i64),
}

/// Why no hooks added make a segment hold.
#[must_use]
pub fn why_no_help(job: &Job, checked: &Checked, repair: &Repair) -> NoHelp {
    let places = &repair.places;
    let Some(result) = &repair.result else { return NoHelp::NotStable };
    let ends_held = places.first().is_some_and(|place| place.may_be_first)
        && places.last().is_some_and(|place| place.may_be_last);
    if !ends_held {
        return NoHelp::EndNotHeld;
    }
    let (check, governing, hook) = result.governing();
    let element = match hook {
        None => Element::Rail,
        Some(at) if places[at].stands => {
            let number = places[..at].iter().filter(|place| place.stands).count();
            let name = checked.layout.hook_name([repair.rail, repair.segment, number]);
            Element::Hook(name.to_owned())
        }
        Some(at) => match job.rail_axis {
            RailAxis::AlongEaves => Element::OnRafter(places[at].rafter),
            RailAxis::UpSlope => Element::UnderCourse(places[at].course),
        },
    };
    NoHelp::Governs {
        element,
        check,
        utilisation: Utilisation::new(governing.utilisation),
        combination: job.combination_name(governing.combination).to_owned(),
    }
}
