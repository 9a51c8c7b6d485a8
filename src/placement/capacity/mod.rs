//! How much snow or wind a layout bears before a check passes its limit.
//!
//! **What is stated.** Of one load, the other as the job has it: the largest value such that from the
//! value of the job up to it every check of a member stays within the limit of the job. Where one is
//! beyond its limit at the value of the job already, the largest lower value at which none is. What the
//! rolling of feet adds to hooks and rail is held against all of their resistance, as in the verdict.
//!
//! **How.** Hooks and resistances stay; forces are computed anew for each value looked at. Drifts and
//! exceptional snow follow from the snow on the ground by their clauses. The search is in `search.rs`.

mod search;

use std::collections::BTreeSet;

use crate::checks::roll::{BORNE, Rolling};
use crate::checks::{Check, Governing, Member};
use crate::effort::Allowance;
use crate::units::Pressure;

use super::actions::Actions;
use super::laid::{Element, LaidSegment, Layout};
use super::reload::{reloaded_modules, reloaded_rails, reloaded_segments};
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
            Self::PeakPressure => actions.wind.zoned().peak.pressure,
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
    /// With what the rolling of feet adds.
    pub rolling: bool,
}

impl Used {
    /// By how much it is used beyond its limit: zero and less keeps it.
    #[must_use]
    pub fn over(&self, job: &Job) -> f64 {
        let limit = if self.rolling { BORNE } else { job.wishes.max_utilisation };
        self.governing.utilisation - limit
    }
}

/// What a member bears of a load.
#[derive(Debug, Clone)]
pub enum Capacity {
    /// None of its checks is run.
    NotChecked,
    /// The steps of the job were spent before it was known.
    Undecided,
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
pub fn of(
    job: &Job,
    layout: &Layout,
    load: Load,
    allowance: &mut Allowance,
) -> [Capacity; Member::ALL.len()] {
    let mut readings = Readings { job, layout, load, known: Vec::new(), allowance };
    Member::ALL.map(|member| readings.capacity(member))
}

/// Steps that computing a hook anew in one combination is counted as: with the rail it takes about as long
/// as these in a search.
const STEPS_OF_A_HOOK: u64 = 16;

/// Steps that computing a layout anew is counted as.
fn steps_of(layout: &Layout) -> u64 {
    let of = |laid: &LaidSegment| (laid.found.subset.len() + 1) * laid.segment.cases.len();
    let hooks: usize = layout.segments().map(of).sum();
    (hooks as u64).saturating_mul(STEPS_OF_A_HOOK)
}

/// Every check of a layout whose utilisation grows with its loads, and once more with what the rolling
/// of feet adds, where feet roll.
#[must_use]
pub fn used(layout: &Layout) -> Vec<Used> {
    let checks = layout.checks();
    let mut used: Vec<Used> = checks
        .map(|((check, element), governing)| Used { check, element, governing, rolling: false })
        .collect();
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            let rolling = |result| laid.segment.rolling(&laid.found.subset, result);
            let Some(Rolling { hook, of_hook, rail, .. }) = laid.result.as_ref().and_then(rolling)
            else {
                continue;
            };
            let hook = (of_hook.0, Element::Hook([r, s, hook]), of_hook.1);
            let rail = (Check::RailBending, Element::Rail(r), rail);
            let rolls = [hook, rail].map(|(check, element, governing)| Used {
                check,
                element,
                governing,
                rolling: true,
            });
            used.extend(rolls);
        }
    }
    used
}

/// Whether every check of a layout is within its limit; a rail that is free to move bears nothing.
#[must_use]
pub fn within_limits(job: &Job, layout: &Layout) -> bool {
    layout.segments().all(|laid| laid.result.is_some())
        && used(layout).iter().all(|used| used.over(job) <= ROUNDING)
}

/// Most elements named to be inspected.
const INSPECTED: usize = 5;

/// What was computed for the values looked at so far.
struct Readings<'a> {
    job: &'a Job,
    layout: &'a Layout,
    load: Load,
    known: Vec<Reading>,
    allowance: &'a mut Allowance,
}

/// By how much the limits of a member are passed.
#[derive(Debug, Clone, Copy)]
enum Excess {
    /// It was not looked at.
    Unknown,
    /// It has no check.
    NoCheck,
    /// By so much; zero and less keeps them.
    By(f64),
}

impl Excess {
    fn of(found: Option<f64>) -> Self {
        found.map_or(Self::NoCheck, Self::By)
    }
}

/// What was computed for one value.
struct Reading {
    value: f64,
    /// By how much the limits of each member are passed.
    excess: [Excess; Member::ALL.len()],
    /// What is beyond a limit, of what was looked at.
    over: Over,
}

/// What is beyond a limit.
#[derive(Debug, Default)]
struct Over {
    /// Segments, by their rails or hooks.
    segments: Vec<[usize; 2]>,
    /// Rafters.
    rafters: Vec<usize>,
}

impl Readings<'_> {
    fn capacity(&mut self, member: Member) -> Capacity {
        let now = self.load.of(&self.job.actions).kn_per_m2();
        if self.excess(member, now).is_none() {
            return Capacity::NotChecked;
        }
        let greatest = self.load.greatest().kn_per_m2();
        let over = |value: f64| {
            let over = self.excess(member, value).unwrap_or(0.0);
            // What the job is said to keep it keeps here.
            if value.to_bits() == now.to_bits() && over <= ROUNDING { over.min(0.0) } else { over }
        };
        let found = largest(now, greatest, over);
        if self.allowance.is_spent() {
            return Capacity::Undecided;
        }
        match found {
            Bracket::Never => Capacity::Never,
            Bracket::Beyond => Capacity::Beyond,
            Bracket::Between { holds, fails } => self.limit(member, holds, fails),
        }
    }

    fn limit(&self, member: Member, holds: f64, fails: f64) -> Capacity {
        let over = |used: &Used| used.over(self.job);
        let next = self.used_by(member, fails).into_iter();
        let next = next.reduce(|most, used| if over(&used) > over(&most) { used } else { most });
        let mut inspect = self.used_by(member, holds);
        let mut seen: Vec<Element> = Vec::new();
        inspect.retain(|used| {
            let first = !seen.contains(&used.element);
            seen.push(used.element);
            first
        });
        inspect.truncate(INSPECTED);
        next.map_or(Capacity::Never, |next| {
            Capacity::Limited(Limit { load: Pressure::from_kn_per_m2(holds), next, inspect })
        })
    }

    /// The checks of a member under a value, the most used first.
    fn used_by(&self, member: Member, value: f64) -> Vec<Used> {
        let job = &self.load.on(self.job, Pressure::from_kn_per_m2(value));
        let layout = match member {
            Member::Fixing | Member::Rail => reloaded_rails(job, self.layout, |_| false),
            Member::Module => reloaded_modules(job, self.layout),
            Member::Rafter => reloaded_rails(job, self.layout, |_| true),
        };
        let mut own = used(&layout);
        own.retain(|used| used.check.member() == member && used.governing.utilisation > 0.0);
        own.sort_by(|a, b| b.governing.utilisation.total_cmp(&a.governing.utilisation));
        own
    }

    /// By how much the limits of a member are passed under a value; nothing where it has no check.
    fn excess(&mut self, member: Member, value: f64) -> Option<f64> {
        let place = member as usize;
        let same = |known: &&Reading| known.value.to_bits() == value.to_bits();
        for known in self.known.iter().filter(same) {
            match known.excess[place] {
                Excess::Unknown => {}
                Excess::NoCheck => return None,
                Excess::By(excess) => return Some(excess),
            }
        }
        if self.allowance.is_spent() {
            // Whatever comes of it is thrown away: the search is to end.
            return Some(f64::INFINITY);
        }
        let (reading, steps) = self.read(member, value);
        self.allowance.spend(steps);
        self.known.push(reading);
        self.excess(member, value)
    }

    /// What is computed for a value, no more than what can decide about a member, and the steps it took.
    fn read(&self, member: Member, value: f64) -> (Reading, u64) {
        let job = &self.load.on(self.job, Pressure::from_kn_per_m2(value));
        let of = |members: &[Member], (found, over): ([Option<f64>; Member::ALL.len()], Over)| {
            let mut excess = [Excess::Unknown; Member::ALL.len()];
            for member in members {
                excess[*member as usize] = Excess::of(found[*member as usize]);
            }
            Reading { value, excess, over }
        };
        let beyond = self.beyond(member, value);
        match (member, beyond) {
            (Member::Fixing | Member::Rail, Some(Over { segments, .. })) => {
                let part = reloaded_segments(job, self.layout, segments);
                let (found, mut over) = self.of_layout(&part);
                over.segments.iter_mut().for_each(|[r, s]| [*r, *s] = segments[*r]);
                (of(&[member], (found, over)), steps_of(&part))
            }
            (Member::Fixing | Member::Rail, None) => {
                let rails = reloaded_rails(job, self.layout, |_| false);
                (of(&[Member::Fixing, Member::Rail], self.of_layout(&rails)), steps_of(&rails))
            }
            (Member::Module, _) => {
                let modules = reloaded_modules(job, self.layout);
                (of(&[Member::Module], self.of_layout(&modules)), modules.modules.len() as u64)
            }
            (Member::Rafter, beyond) => {
                let wanted = |rafter| beyond.is_none_or(|beyond| beyond.rafters.contains(&rafter));
                let part = reloaded_rails(job, self.layout, wanted);
                let members = [Member::Fixing, Member::Rail, Member::Rafter];
                (of(&members, self.of_layout(&part)), steps_of(&part))
            }
        }
    }

    /// What is beyond a limit at the next value above at which a member passes its own, where it
    /// keeps it at the next value below: in between, none of the others is.
    fn beyond(&self, member: Member, value: f64) -> Option<&Over> {
        let looked_at = || {
            self.known.iter().filter_map(|known| match known.excess[member as usize] {
                Excess::By(excess) => Some((known, excess)),
                Excess::Unknown | Excess::NoCheck => None,
            })
        };
        let nearest = |a: &Reading, b: &Reading| (a.value - value).abs() < (b.value - value).abs();
        let below = looked_at().filter(|(known, _)| known.value < value);
        let below = below.reduce(|a, b| if nearest(b.0, a.0) { b } else { a })?;
        let above = looked_at().filter(|(known, _)| known.value > value);
        let above = above.reduce(|a, b| if nearest(b.0, a.0) { b } else { a })?;
        (below.1 <= 0.0 && above.1 > 0.0).then_some(&above.0.over)
    }

    /// By how much the limits of each member are passed in a layout, and what is beyond one.
    fn of_layout(&self, layout: &Layout) -> ([Option<f64>; Member::ALL.len()], Over) {
        let mut excess = [None::<f64>; Member::ALL.len()];
        let mut segments = BTreeSet::new();
        let mut rafters = Vec::new();
        for used in used(layout) {
            let member = &mut excess[used.check.member() as usize];
            let over = used.over(self.job);
            *member = Some(member.map_or(over, |most| most.max(over)));
            match used.element {
                Element::Hook([r, s, _]) if over > 0.0 => segments.extend([[r, s]]),
                Element::Rail(r) if over > 0.0 => {
                    segments.extend((0..layout.rails[r].segments.len()).map(|s| [r, s]));
                }
                Element::Rafter(r) if over > 0.0 => rafters.push(layout.rafters[r].rafter),
                _ => {}
            }
        }
        // A rail that is free to move bears nothing, nor do its hooks.
        for (r, rail) in layout.rails.iter().enumerate() {
            let free = rail.segments.iter().enumerate().filter(|(_, laid)| laid.result.is_none());
            for (s, _) in free {
                segments.insert([r, s]);
                excess[Member::Fixing as usize] = Some(f64::INFINITY);
                excess[Member::Rail as usize] = Some(f64::INFINITY);
            }
        }
        (excess, Over { segments: segments.into_iter().collect(), rafters })
    }
}
