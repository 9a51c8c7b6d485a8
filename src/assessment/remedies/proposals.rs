//! Which changes of a layout that fails are worth a try.
//!
//! Each belongs to a cause: what cannot bear on it is not tried. Figures are such as are bought and set
//! out: whole millimetres, usual lengths and diameters of screws.

use std::collections::BTreeSet;

use crate::assessment::{Assessment, Fact, Severity};
use crate::checks::screws::{self, Seat};
use crate::checks::stacks::Stacks;
use crate::covering::courses;
use crate::placement::footing::Footing;
use crate::placement::free_ends::{self, LongEnd};
use crate::placement::laid::Layout;
use crate::placement::rail_axis::RailAxis;
use crate::placement::search::Outcome;
use crate::placement::{Job, Objective, rail_lines, refit};
use crate::units::{Length, Stress};

use super::change::{Change, Move};

/// Something worth a try.
#[derive(Debug, Clone, PartialEq)]
pub enum Proposal {
    /// A change.
    One(Change),
    /// Changes each of which holds more than the one before it: where the last does not help, none does,
    /// and what is wanted is the first that does as much as the last.
    Growing(Vec<Change>),
}

impl Proposal {
    /// How often the job is laid out for it, at most.
    #[must_use]
    pub fn most_tries(&self) -> usize {
        match self {
            Self::One(_) => 1,
            Self::Growing(changes) => 1 + changes.len().next_power_of_two().ilog2() as usize,
        }
    }

    /// Whether a part is needed for it that the request does not have.
    #[must_use]
    pub fn takes_another_part(&self) -> bool {
        match self {
            Self::One(change) => change.takes_another_part(),
            Self::Growing(changes) => changes.iter().any(Change::takes_another_part),
        }
    }
}

/// Usual diameters of wood screws for hooks, mm (common practice, no source).
const USUAL_DIAMETERS_MM: [f64; 3] = [8.0, 10.0, 12.0];

/// Ranges of a foot that are tried.
const MOST_RANGES: usize = 3;

/// The least core of a thread as a share of its diameter, EN 1995-1-1:2004+A1:2008, 8.7.2(4): the
/// thinnest is the weakest across the screw.
const LEAST_CORE: f64 = 0.6;

// The largest values the request takes.
pub(super) const LARGEST_CLEARANCE: Length = Length::from_mm(50.0);
const LARGEST_STACK: Length = Length::from_mm(100.0);
const LARGEST_PROJECTION: Length = Length::from_mm(1000.0);
const LARGEST_RANGE: Length = Length::from_mm(500.0);
const MOST_WEIGHED: u64 = 20_000_000;

/// What is worth a try, without another part first.
#[must_use]
pub fn proposals(job: &Job, layout: &Layout, assessed: &Assessment) -> Vec<Proposal> {
    let fails = Failing(assessed);
    let Some(footing) = layout.footings.first() else { return Vec::new() };
    let mut out = Vec::new();
    let no_pattern = fails.any(|fact| matches!(fact, Fact::NoHookPattern { .. }));
    if no_pattern && job.wishes.objective != Objective::FewestHooks {
        out.push(Change::AnyPattern);
    }
    let cut_short = layout.segments().any(|laid| laid.found.outcome == Outcome::NoneFound);
    if cut_short && job.wishes.search_limit < MOST_WEIGHED {
        let weighed = job.wishes.search_limit.saturating_mul(10).min(MOST_WEIGHED);
        out.push(Change::WiderSearch { weighed });
    }
    let ends = free_ends::long_ends(job, &layout.rails);
    out.extend(along(job, layout, &ends));
    if fails.any(|fact| matches!(fact, Fact::NoCourse { .. })) {
        out.extend(up(job, layout));
    }
    out.extend(rail_ends(job, &ends));
    let closes = fails.any(|fact| matches!(fact, Fact::ClearanceCloses { .. }));
    if closes || fails.any(|fact| matches!(fact, Fact::ClearanceBelowMinimum { .. })) {
        out.extend(packers(job, layout, footing));
    }
    let screws = |fact: &Fact| {
        matches!(
            fact,
            Fact::ScrewOverloaded { .. }
                | Fact::ScrewTooShort { .. }
                | Fact::NoHookPattern { check: None, .. }
        )
    };
    let mut longer = Vec::new();
    if fails.any(screws) {
        longer = lengths(job, footing);
        out.extend(diameters(job));
    }
    let few = |fact: &Fact| matches!(fact, Fact::TooFewRafters { .. });
    if !ends.is_empty() || no_pattern || fails.any(few) {
        out.extend(reach_of_troughs(job, layout));
    }
    if fails.any(|fact| matches!(fact, Fact::FootBearingOver { .. } | Fact::ScrewOverloaded { .. }))
    {
        out.extend(width_of_timber(job, footing));
    }
    let mut out: Vec<Proposal> = out.into_iter().map(Proposal::One).collect();
    if !longer.is_empty() {
        out.push(Proposal::Growing(longer));
    }
    out
}

/// What fails on the scopes that were asked.
struct Failing<'a>(&'a Assessment);

impl Failing<'_> {
    fn any(&self, is: impl Fn(&Fact) -> bool) -> bool {
        let failures = self.0.that_matter().filter(|f| f.kind().severity == Severity::Failure);
        failures.into_iter().any(|finding| is(&finding.fact))
    }
}

/// The smallest move of each field that leaves none of its rail ends too long, where there is one.
fn along(job: &Job, layout: &Layout, ends: &[LongEnd]) -> Option<Change> {
    let concerned =
        |field: &usize| ends.iter().any(|e| layout.rails[e.rail].line.field() == *field);
    let moves = (0..job.fields.len()).filter(concerned).filter_map(|field| {
        let by = away_from_zero(free_ends::smallest_shift(job, &layout.rails, field)?);
        Some(Move { field, name: job.fields[field].id.clone(), by })
    });
    some_of(moves.collect()).map(match job.rail_axis {
        RailAxis::AlongEaves => Change::MoveAlong,
        RailAxis::UpSlope => Change::MoveUp,
    })
}

/// The same up or down the slope, for courses inside the clamp zones.
fn up(job: &Job, layout: &Layout) -> Option<Change> {
    let off = |field: &usize| {
        layout.rails.iter().any(|rail| rail.line.field() == *field && !rail.line.on_grid)
    };
    let moves = (0..job.fields.len()).filter(off).filter_map(|field| {
        let by = rail_lines::smallest_shift_to_grid(job, &job.fields[field])?;
        Some(Move { field, name: job.fields[field].id.clone(), by: away_from_zero(by) })
    });
    some_of(moves.collect()).map(Change::MoveUp)
}

fn some_of(moves: Vec<Move>) -> Option<Vec<Move>> {
    (!moves.is_empty()).then_some(moves)
}

/// Rails cut shorter, and rails that reach the next rafter outside, where either cures every end.
fn rail_ends(job: &Job, ends: &[LongEnd]) -> Vec<Change> {
    let from = job.rail.end_projection;
    let longest = |over: Vec<Option<Length>>| {
        let over: Option<Vec<Length>> = over.into_iter().collect();
        over?.into_iter().reduce(Length::max)
    };
    let free = |end: &LongEnd| Some(end.to_rafter?.max(end.to_arm?) - job.rail.max_cantilever);
    let shorter = longest(ends.iter().map(free).collect())
        .map(|by| Length::from_mm((from - by).mm().floor()))
        .filter(|to| *to >= job.clamp.end_width);
    let longer = longest(ends.iter().map(|end| end.longer_by).collect())
        .map(|by| Length::from_mm((from + by).mm().ceil()))
        .filter(|to| *to <= LARGEST_PROJECTION);
    let changes = shorter.into_iter().chain(longer).filter(|to| *to != from);
    changes.map(|to| Change::RailEnds { from, to }).collect()
}

/// Packers for the clearance that the arms use up where each rafter has a hook, and for the largest
/// there can be; and those for a clearance that cannot be had with the packers there are.
fn packers(job: &Job, layout: &Layout, footing: &Footing) -> Vec<Change> {
    let bare = footing.bare_clearance;
    let used = layout.segments().filter_map(|laid| laid.result.as_ref());
    let used = used.flat_map(|result| &result.hooks).map(|hook| hook.clearance.utilisation);
    let used = used.fold(0.0, f64::max) / job.wishes.max_utilisation;
    let moved = if footing.packers.is_some() && used.is_finite() {
        up_to_whole(footing.clearance * used)
    } else {
        Length::ZERO
    };
    let want = moved.max(job.wishes.min_clearance);
    let stacks = Stacks::of(&job.packers);
    let Some(enough) = stacks.lowest_from(want - bare).map(height) else {
        return limit(job, want, want - bare).into_iter().collect();
    };
    let highest = stacks.heights().map(|(of, _)| height(of)).last().unwrap_or(enough);
    // A tenth of a millimetre is asked for less than the highest stack gives.
    let most = Length::from_mm(((bare + highest).mm() * 10.0).floor() / 10.0);
    let all = [(want, enough), (most, highest)]
        .into_iter()
        .filter(|(clearance, stack)| *clearance <= LARGEST_CLEARANCE && *stack > footing.packed());
    let mut out: Vec<Change> = Vec::new();
    for (clearance, stack) in all {
        let change = Change::HigherPackers { clearance, stack, limit: None, piece: None };
        if !out.contains(&change) {
            out.push(change);
        }
    }
    out
}

/// Packers that would have to allow, or be, more than those there are.
fn limit(job: &Job, clearance: Length, lacks: Length) -> Option<Change> {
    let highest = up_to_whole(lacks);
    let mut raised = job.packers.clone();
    raised.max_stack = raised.max_stack.max(highest);
    let reached = Stacks::of(&raised).lowest_from(lacks).map(height);
    let limit = (highest > job.packers.max_stack).then_some(highest);
    let piece = reached.is_none().then_some(highest);
    let stack = reached.unwrap_or(highest);
    let fits = highest <= LARGEST_STACK && clearance <= LARGEST_CLEARANCE;
    fits.then_some(Change::HigherPackers { clearance, stack, limit, piece })
}

/// A height of a stack given in hundredths of a millimetre.
fn height(hundredths: usize) -> Length {
    Length::from_mm(hundredths as f64 / Stacks::GRAIN)
}

/// Usual lengths, each of which holds more than the shorter ones and does not come out of the rafter.
pub(super) fn lengths(job: &Job, footing: &Footing) -> Vec<Change> {
    let from = job.screw.length;
    let all_thread = job.screw.thread >= from;
    let mut screw = job.screw.clone();
    let mut held: Option<[f64; 2]> = None;
    let mut out = Vec::new();
    for to in std::iter::once(from).chain(refit::usual_lengths()) {
        let thread = if all_thread { to } else { job.screw.thread.min(to) };
        (screw.length, screw.thread) = (to, thread);
        let (foot, layers) = (&job.hook.foot, &job.roof.layers);
        let depth = job.roof.rafters.depth;
        let seat = Seat::new(&screw, foot, footing.packed(), layers.under_foot, depth);
        if seat.comes_out() && to != from {
            continue;
        }
        let combinations = &job.actions.combinations;
        let Ok(holds) =
            screws::capacity(job.rules, (&screw, foot, &seat), job.timber, combinations)
        else {
            continue;
        };
        let least =
            |of: &dyn Fn(usize) -> f64| (0..holds.design.len()).map(of).fold(f64::MAX, f64::min);
        let now = [least(&|c| holds.design[c].pull.n()), least(&|c| holds.design[c].shear.n())];
        let more = held.is_none_or(|[pull, shear]| now[0] > pull + SAME || now[1] > shear + SAME);
        if more {
            held = Some(now);
            if to != from {
                out.push(Change::ScrewLength { from, to, thread });
            }
        }
    }
    out
}

/// Forces that differ by less are the same, N.
const SAME: f64 = 0.5;

/// The usual diameters above the one there is. Tension and yield moment stay those of the thinner
/// screw; the core is the thinnest the rules know, and the withdrawal parameter falls with the root of
/// the diameter as in EN 1995-1-1 Eq. (8.39). Distances of an approval hold for its own screw alone.
fn diameters(job: &Job) -> Vec<Change> {
    let from = job.screw.diameter;
    if job.screw.spacings.is_some() {
        return Vec::new();
    }
    let thicker = USUAL_DIAMETERS_MM.map(Length::from_mm).into_iter().filter(|d| *d > from);
    let change = |to: Length| Change::ThickerScrew {
        from,
        to,
        core: job.screw.core.max(Length::from_mm(tenths(LEAST_CORE * to.mm()))),
        withdrawal: job.screw.withdrawal.map(|(strength, _)| {
            let falls = (from / to).sqrt();
            Stress::from_n_per_mm2((strength.n_per_mm2() * falls * 100.0).floor() / 100.0)
        }),
    };
    thicker.map(change).collect()
}

/// Feet whose arms reach a trough from every rafter under the rails, and from fewer.
fn reach_of_troughs(job: &Job, layout: &Layout) -> Vec<Change> {
    let foot = &job.hook.foot;
    let (from, rafters) = (foot.lateral_range, &job.roof.rafters);
    let lines = layout.rails.iter().map(|rail| &rail.line);
    let crossings = lines.flat_map(|line| {
        let under = rafters.open().filter(|(_, x)| line.start() <= *x && *x <= line.end());
        under.filter_map(move |(_, x)| Some((line.course()?, x)))
    });
    let nearest = |(course, x): (i64, Length)| {
        let troughs = courses::troughs_around(&job.covering, course, x).into_iter();
        troughs.map(|at| (at - x).abs()).reduce(Length::min)
    };
    let in_fives = |off: Length| whole((off.mm() / 5.0).ceil());
    let farther: BTreeSet<u64> = crossings.filter_map(nearest).map(in_fives).collect();
    let farther: Vec<Length> = farther
        .into_iter()
        .map(|fives| Length::from_mm(fives as f64 * 5.0))
        .filter(|to| *to > from && *to <= LARGEST_RANGE)
        .collect();
    let change = |to: Length| {
        let width = foot.width.max(to * 2.0 + job.hook.arm_width);
        Change::WiderFoot { from, to, width }
    };
    // A few of them, evenly: the farther an arm stands off its rafter, the more it turns its foot.
    let few = (1..=MOST_RANGES).map(|part| farther.len() * part / MOST_RANGES);
    let few: BTreeSet<usize> = few.filter_map(|count| count.checked_sub(1)).collect();
    few.into_iter().map(|at| change(farther[at])).collect()
}

/// A foot as wide as the timber it bears on.
fn width_of_timber(job: &Job, footing: &Footing) -> Option<Change> {
    let foot = &job.hook.foot;
    let (range, width) = (foot.lateral_range, footing.bearing_width);
    (width > foot.width).then_some(Change::WiderFoot { from: range, to: range, width })
}

/// Whole millimetres, no less far.
fn away_from_zero(by: Length) -> Length {
    // What is a whole number but for rounding stays that.
    let whole = (by.mm().abs() - 1e-6).ceil();
    Length::from_mm(whole.copysign(by.mm()))
}

fn up_to_whole(length: Length) -> Length {
    Length::from_mm((length.mm() - 1e-6).ceil())
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the argument is a whole number, and a distance"
)]
const fn whole(rounded: f64) -> u64 {
    rounded as u64
}

fn tenths(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}
