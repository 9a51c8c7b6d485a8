//! How much snow or wind a layout bears before a check passes its limit.
//!
//! **What is stated.** Of one load, the other as the job has it: the largest value such that from the
//! value of the job up to it every check of a member stays within the limit of the job. Where one is
//! beyond its limit at the value of the job already, the largest lower value at which none is. More of
//! a load can relieve a check, as snow does one of uplift, so what holds at the largest value need not
//! hold at every value below that of the job.
//!
//! **How.** Hooks and resistances stay; forces are computed anew for each value looked at. Drifts and
//! exceptional snow follow from the snow on the ground by their clauses. The search is in `search.rs`.

mod search;

use crate::checks::{Check, Governing, Member};
use crate::units::Pressure;

use super::actions::Actions;
use super::laid::{Element, Layout};
use super::reload::reloaded;
use super::{Job, ROUNDING};

pub use search::{Bracket, largest};

/// A load whose size is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Load {
    /// Snow on the ground.
    GroundSnow,
    /// Peak velocity pressure of the wind.
    PeakPressure,
}

impl Load {
    /// Both.
    pub const ALL: [Self; 2] = [Self::GroundSnow, Self::PeakPressure];

    /// What acts of it.
    #[must_use]
    pub const fn of(self, actions: &Actions) -> Pressure {
        match self {
            Self::GroundSnow => actions.snow.ground.load,
            Self::PeakPressure => actions.wind.fixings.peak.pressure,
        }
    }

    /// The greatest value looked at: more than any site has.
    #[must_use]
    pub const fn greatest(self) -> Pressure {
        match self {
            Self::GroundSnow => Pressure::from_kn_per_m2(30.0),
            Self::PeakPressure => Pressure::from_kn_per_m2(10.0),
        }
    }

    /// The job under another value of it.
    #[must_use]
    pub fn on(self, job: &Job, value: Pressure) -> Job {
        let actions = match self {
            Self::GroundSnow => job.actions.with_ground_snow(job.rules, value),
            Self::PeakPressure => job.actions.with_peak_pressure(value),
        };
        Job { actions, ..job.clone() }
    }
}

/// A check with what it is of and what governs it.
#[derive(Debug, Clone, Copy)]
pub struct Used {
    /// The check.
    pub check: Check,
    /// What it is of.
    pub element: Element,
    /// What governs it.
    pub governing: Governing,
}

/// What a member bears of a load.
#[derive(Debug, Clone)]
pub enum Capacity {
    /// None of its checks is run.
    NotChecked,
    /// A check is beyond its limit whatever the load.
    Never,
    /// No check reaches its limit up to [`Load::greatest`].
    Beyond,
    /// So much.
    Limited(Limit),
}

/// The load before a limit is passed.
#[derive(Debug, Clone)]
pub struct Limit {
    /// The largest load at which every check holds.
    pub load: Pressure,
    /// The check that passes its limit next.
    pub next: Used,
    /// What is used most under that load, the most used first: each element once.
    pub inspect: Vec<Used>,
}

/// What each member bears of a load, in the order of [`Member::ALL`].
#[must_use]
pub fn of(job: &Job, layout: &Layout, load: Load) -> [Capacity; Member::ALL.len()] {
    let mut readings = Readings { job, layout, load, known: Vec::new() };
    Member::ALL.map(|member| readings.capacity(member))
}

/// Every check of a layout whose utilisation grows with its loads.
#[must_use]
pub fn used(layout: &Layout) -> Vec<Used> {
    let checks = layout.checks();
    checks.map(|((check, element), governing)| Used { check, element, governing }).collect()
}

/// Most elements named to be inspected.
const INSPECTED: usize = 5;

/// What was computed for the values looked at so far.
struct Readings<'a> {
    job: &'a Job,
    layout: &'a Layout,
    load: Load,
    /// Value, and the most each member is used to at it.
    known: Vec<(f64, [Option<f64>; Member::ALL.len()])>,
}

impl Readings<'_> {
    fn capacity(&mut self, member: Member) -> Capacity {
        let now = self.load.of(&self.job.actions).kn_per_m2();
        if self.most(now)[member as usize].is_none() {
            return Capacity::NotChecked;
        }
        let allowed = self.job.wishes.max_utilisation;
        let greatest = self.load.greatest().kn_per_m2();
        let over = |value: f64| {
            let over = self.most(value)[member as usize].unwrap_or(0.0) - allowed;
            // What the job is said to keep it keeps here.
            if value.to_bits() == now.to_bits() && over <= ROUNDING { over.min(0.0) } else { over }
        };
        match largest(now, greatest, over) {
            Bracket::Never => Capacity::Never,
            Bracket::Beyond => Capacity::Beyond,
            Bracket::Between { holds, fails } => self.limit(member, holds, fails),
        }
    }

    fn limit(&self, member: Member, holds: f64, fails: f64) -> Capacity {
        let mut next = self.used_by(member, fails).into_iter();
        let mut inspect = self.used_by(member, holds);
        let mut seen: Vec<Element> = Vec::new();
        inspect.retain(|used| {
            let first = !seen.contains(&used.element);
            seen.push(used.element);
            first
        });
        inspect.truncate(INSPECTED);
        next.next().map_or(Capacity::Never, |next| {
            Capacity::Limited(Limit { load: Pressure::from_kn_per_m2(holds), next, inspect })
        })
    }

    /// The checks of a member under a value, the most used first.
    fn used_by(&self, member: Member, value: f64) -> Vec<Used> {
        let mut own = used(&self.under(value));
        own.retain(|used| used.check.member() == member && used.governing.utilisation > 0.0);
        own.sort_by(|a, b| b.governing.utilisation.total_cmp(&a.governing.utilisation));
        own
    }

    fn under(&self, value: f64) -> Layout {
        reloaded(&self.load.on(self.job, Pressure::from_kn_per_m2(value)), self.layout)
    }

    /// The most each member is used to under a value; nothing of one that has no check.
    fn most(&mut self, value: f64) -> [Option<f64>; Member::ALL.len()] {
        let same = |known: &&(f64, _)| known.0.to_bits() == value.to_bits();
        if let Some((_, most)) = self.known.iter().find(same) {
            return *most;
        }
        let layout = self.under(value);
        let mut most = [None::<f64>; Member::ALL.len()];
        for used in used(&layout) {
            let member = &mut most[used.check.member() as usize];
            *member = Some(member.unwrap_or(0.0).max(used.governing.utilisation));
        }
        // A rail that is free to move bears nothing, nor do its hooks.
        if layout.segments().any(|laid| laid.result.is_none()) {
            most[Member::Fixing as usize] = Some(f64::INFINITY);
            most[Member::Rail as usize] = Some(f64::INFINITY);
        }
        self.known.push((value, most));
        most
    }
}
