//! Which neighbouring hooks can be part of a choice that passes, told from one end of a rail.
//!
//! **Method.** A hook hardly feels what is a few hooks away. A [window](WINDOW) is cut out of the
//! rail; all that is behind it acts on its first hook with a force and a moment, of which ranges are
//! kept ([`Acting`]), by how many hooks are there. From windows and one more hook ahead of each follow
//! those of the next windows: the rail ahead acts on that hook through its force and the moment over
//! it, which have limits of their own and are narrowed by what every hook bears
//! (see `checks/unknown.rs`). What no range lets pass is no part of any choice that passes. Every
//! choice that does is a row of windows kept, each within its ranges: where they end before they
//! reach the other end of the rail, there is none.
//!
//! Told from the other end again, with what is known of the rail ahead of each window, ranges become
//! narrow and few windows are left. Choices are too many to look at; windows are not: their number
//! grows with that of the candidates, not with its power.
//!
//! Like everything of a [`Probe`], this may only refuse.

use crate::mechanics::beam::{Both, Chain, Influences, Lanes, Sag, Superposition, Units};

use super::bounds::Ranges;
use super::probe::{PROBES, Probe};
use super::segment::{Candidate, Segment};
use super::unknown::{Linear, Unknown};

/// Hooks of a window.
pub const WINDOW: usize = 3;

/// What is worked out of a window: under each combination, and by a unit of force and of moment on
/// its first hook.
const COLUMNS: usize = PROBES + 2;
const BY_FORCE: usize = PROBES;
const BY_MOMENT: usize = PROBES + 1;

/// The end of a rail that windows are told from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum From {
    /// From left to right.
    Left,
    /// From right to left.
    Right,
}

/// Ranges of the force and the moment that act on a hook from one side, under each combination.
#[derive(Debug, Clone, Copy)]
pub struct Acting([[Ranges; 2]; PROBES]);

/// Windows that may be part of a choice that passes.
#[derive(Debug, Clone)]
pub struct Windows {
    from: From,
    /// Hooks of the choices; any number without.
    hooks: Option<usize>,
    /// By their last place, in the order of their places.
    by_last: Vec<Vec<Window>>,
    asked: u64,
}

/// Neighbouring hooks, by their places from the end they are told from.
#[derive(Debug, Clone)]
struct Window {
    places: [usize; WINDOW],
    /// What hooks behind it do: by their number, ascending, or once for any number from the least
    /// possible on.
    behind: Vec<(usize, Acting)>,
}

impl Acting {
    const UNKNOWN: Self = Self([[Ranges::EVERYTHING; 2]; PROBES]);

    /// Force and moment under one of the combinations.
    pub(super) const fn under(&self, probe: usize) -> [Ranges; 2] {
        self.0[probe]
    }

    fn or(&self, other: &Self) -> Self {
        let of = |probe: usize, which: usize| self.0[probe][which].or(other.0[probe][which]);
        Self(std::array::from_fn(|probe| [0, 1].map(|which| of(probe, which))))
    }

    /// The same as told from the other end: a moment changes its sense.
    #[must_use]
    pub fn seen_from_ahead(&self) -> Self {
        Self(self.0.map(|[force, moment]| [force, moment.times(Both::splat(-1.0))]))
    }
}

impl Windows {
    /// Windows of choices of any number of hooks that may stay within the bound a probe was made ready
    /// for, told from the right; `None` where that takes more than so many questions.
    #[must_use]
    pub fn of_any(probe: &Probe<'_>, spans: &[bool], patience: u64) -> Option<Self> {
        let candidates = &probe.segment.candidates;
        let places = Places { candidates, spans, from: From::Right };
        Self::gathered(probe, &places, None, None, patience)
    }

    /// Those among these that belong to choices of exactly so many hooks, or, of any number where
    /// these do, of any; told from the other end.
    #[must_use]
    pub fn told_back(
        &self,
        probe: &Probe<'_>,
        spans: &[bool],
        hooks: Option<usize>,
        patience: u64,
    ) -> Option<Self> {
        let from = match self.from {
            From::Left => From::Right,
            From::Right => From::Left,
        };
        let places = Places { candidates: &probe.segment.candidates, spans, from };
        Self::gathered(probe, &places, hooks, Some(self), patience)
    }

    pub fn size(&self) -> (usize, usize) { (self.by_last.iter().map(Vec::len).sum(), self.by_last.iter().flatten().map(|w| w.behind.len()).sum()) }
    /// Questions asked.
    #[must_use]
    pub const fn asked(&self) -> u64 {
        self.asked
    }

    /// The fewest hooks of choices these windows make up, if they reach from end to end.
    #[must_use]
    pub fn fewest(&self, segment: &Segment) -> Option<usize> {
        let places = Places { candidates: &segment.candidates, spans: &[], from: self.from };
        let ends = (0..self.by_last.len()).filter(|last| places.may_be_last(*last));
        let behind = ends.flat_map(|last| &self.by_last[last]).flat_map(|window| &window.behind);
        let hooks = behind.map(|(behind, _)| behind + WINDOW);
        hooks.filter(|hooks| self.hooks.is_none_or(|all| *hooks == all)).min()
    }

    /// What acts on the last of these hooks, the last so many of which are a window, when so many
    /// hooks are right of it; `None` where nothing can. Windows told from the right only.
    #[must_use]
    pub fn right_of(&self, hooks: &[usize], more: usize) -> Option<&Acting> {
        self.behind(*hooks.last_chunk()?, Some(more))
    }

    /// What so many hooks, or any number of them, do behind these candidates, from left to right.
    fn behind(&self, mut hooks: [usize; WINDOW], count: Option<usize>) -> Option<&Acting> {
        if self.from == From::Right {
            hooks = hooks.map(|candidate| self.by_last.len() - 1 - candidate);
            hooks.reverse();
        }
        let windows = &self.by_last[hooks[WINDOW - 1]];
        let at = windows.binary_search_by_key(&hooks, |window| window.places).ok()?;
        let behind = &windows[at].behind;
        let may_be = |known: usize| match (self.hooks, count) {
            (Some(_), Some(count)) => known == count,
            (None, Some(count)) => known <= count,
            (_, None) => true,
        };
        behind.iter().find(|(known, _)| may_be(*known)).map(|(_, acting)| acting)
    }

    fn gathered(
        probe: &Probe<'_>,
        places: &Places<'_>,
        hooks: Option<usize>,
        ahead: Option<&Self>,
        patience: u64,
    ) -> Option<Self> {
        let n = places.candidates.len();
        let mut windows =
            Self { from: places.from, hooks, by_last: vec![Vec::new(); n], asked: 0 };
        let mut chain = probe.cutting(places.from);
        windows.begin(places, &chain);
        for last in 0..n {
            let here = std::mem::take(&mut windows.by_last[last]);
            for window in &here {
                if windows.asked > patience {
                    return None;
                }
                windows.go_on(probe, places, &mut chain, window, ahead);
            }
            windows.by_last[last] = here;
        }
        Some(windows)
    }

    /// The windows next to the end they are told from: nothing but a free end is behind them.
    fn begin(&mut self, places: &Places<'_>, chain: &Chain<'_, COLUMNS>) {
        let mut open: Vec<Vec<usize>> = places.first().map(|first| vec![first]).collect();
        while let Some(part) = open.pop() {
            if let Ok(window) = <[usize; WINDOW]>::try_from(&part[..]) {
                let [on_first, _] = chain.on_free_ends(places.candidate(window[0]));
                let acting = std::array::from_fn(|probe| on_first[probe].map(Ranges::at));
                self.keep(window, 0, &Acting(acting));
            } else if let Some(last) = part.last() {
                open.extend(places.after(*last).map(|next| [&part[..], &[next]].concat()));
            }
        }
    }

    /// Windows that follow one with one more hook ahead of it.
    fn go_on<'a>(
        &mut self,
        probe: &Probe<'a>,
        places: &Places<'_>,
        chain: &mut Chain<'a, COLUMNS>,
        window: &Window,
        ahead: Option<&Self>,
    ) {
        let candidates = window.places.map(|place| places.candidate(place));
        let mut units = [[Both::ZERO; 2]; COLUMNS];
        (units[BY_FORCE][0], units[BY_MOMENT][1]) = (Both::splat(1.0), Both::splat(1.0));
        chain.cut_at(candidates[0], units);
        candidates[1..].iter().for_each(|candidate| chain.push(*candidate));
        for next in places.after(window.places[WINDOW - 1]) {
            let mut following = window.places;
            following.rotate_left(1);
            following[WINDOW - 1] = next;
            chain.push(places.candidate(next));
            let mut cut_out = None;
            for (behind, acting) in &window.behind {
                let more = match self.hooks.map(|hooks| hooks.checked_sub(behind + WINDOW + 1)) {
                    None => None,
                    Some(Some(more)) if more > 0 || places.may_be_last(next) => Some(more),
                    Some(_) => continue,
                };
                let ahead = match ahead.map(|ahead| ahead.behind(places.from_left(following), more)) {
                    None => None,
                    Some(None) => continue,
                    Some(Some(acting)) => Some(acting.seen_from_ahead()),
                };
                self.asked += 1;
                let cut_out = &*cut_out.get_or_insert_with(|| {
                    CutOut::of(probe, chain, candidates, places.candidate(next))
                });
                let handed_on = match cut_out {
                    None => Some(Acting::UNKNOWN),
                    Some(cut_out) => cut_out.hands_on(probe, acting, ahead.as_ref(), (*behind, more)),
                };
                if let Some(acting) = handed_on {
                    self.keep(following, behind + 1, &acting);
                }
            }
            chain.pop();
        }
    }

    fn keep(&mut self, places: [usize; WINDOW], count: usize, acting: &Acting) {
        let windows = &mut self.by_last[places[WINDOW - 1]];
        let at = windows.binary_search_by_key(&places, |window| window.places);
        let at = at.unwrap_or_else(|at| {
            windows.insert(at, Window { places, behind: Vec::new() });
            at
        });
        let behind = &mut windows[at].behind;
        if let (None, [(least, known)]) = (self.hooks, &mut behind[..]) {
            (*least, *known) = (count.min(*least), known.or(acting));
            return;
        }
        match behind.binary_search_by_key(&count, |(known, _)| *known) {
            Ok(at) => behind[at].1 = behind[at].1.or(acting),
            Err(at) => behind.insert(at, (count, *acting)),
        }
    }
}

/// Candidates counted from one end of the rail.
struct Places<'s> {
    candidates: &'s [Candidate],
    /// Which candidates can be neighbours, by left and right one.
    spans: &'s [bool],
    from: From,
}

impl Places<'_> {
    fn candidate(&self, place: usize) -> usize {
        match self.from {
            From::Left => place,
            From::Right => self.candidates.len() - 1 - place,
        }
    }

    /// The candidates of these places from left to right.
    fn from_left(&self, places: [usize; WINDOW]) -> [usize; WINDOW] {
        let mut candidates = places.map(|place| self.candidate(place));
        if self.from == From::Right {
            candidates.reverse();
        }
        candidates
    }

    fn may_be_first(&self, place: usize) -> bool {
        let candidate = &self.candidates[self.candidate(place)];
        match self.from {
            From::Left => candidate.may_be_first,
            From::Right => candidate.may_be_last,
        }
    }

    fn may_be_last(&self, place: usize) -> bool {
        let candidate = &self.candidates[self.candidate(place)];
        match self.from {
            From::Left => candidate.may_be_last,
            From::Right => candidate.may_be_first,
        }
    }

    /// Places without a hook that stands before them.
    fn up_to_standing(&self, from: usize) -> impl Iterator<Item = usize> {
        let stands = |place: &usize| self.candidates[self.candidate(*place)].stands;
        let end = (from..self.candidates.len()).find(stands).map_or(self.candidates.len(), |s| s + 1);
        from..end
    }

    /// Places of a first hook.
    fn first(&self) -> impl Iterator<Item = usize> {
        self.up_to_standing(0).filter(|place| self.may_be_first(*place))
    }

    /// Places of the next hook.
    fn after(&self, place: usize) -> impl Iterator<Item = usize> {
        let neighbours = move |next: &usize| {
            let [a, b] = [self.candidate(place), self.candidate(*next)];
            self.spans[a.min(b) * self.candidates.len() + a.max(b)]
        };
        self.up_to_standing(place + 1).filter(neighbours)
    }
}

/// A window and one more hook ahead of it, cut out of the rail.
struct CutOut {
    /// The last hook.
    last: usize,
    /// The hooks before it, the nearest first, and the forces on them; how many these are.
    forces: [(usize, Form); WINDOW],
    count: usize,
    /// How the bays sag, and their lengths; nothing where no combination asks for it.
    sags: Vec<(f64, Form)>,
    /// The same of the free end behind, if nothing else is there.
    end_sag: Option<(f64, Form)>,
    /// What is left to hooks ahead, and the loads there; `None` where nothing is known of that: the
    /// hook ahead of the window hangs from a hinge, and the last one of the window is last here.
    rest: Option<(Form, [Both; PROBES])>,
    /// Force and moment on the second hook of the window from behind.
    handed_on: [Form; 2],
}

/// A quantity under each combination, by what acts from behind, and by force and moment on the last
/// hook.
#[derive(Debug, Clone, Copy)]
struct Form {
    certain: [Both; COLUMNS],
    by: [Both; 2],
}

impl Form {
    const ZERO: Self = Self { certain: [Both::ZERO; COLUMNS], by: [Both::ZERO; 2] };

    /// What one column says of it.
    fn put(&mut self, column: usize, [certain, force, moment]: [Both; 3]) {
        self.certain[column] = certain;
        self.by = [force, moment];
    }

    /// Under one combination and what acts from behind.
    fn under(&self, probe: usize, [force, moment]: [Ranges; 2]) -> Linear {
        let by_force = force.times(self.certain[BY_FORCE]);
        let by_moment = moment.times(self.certain[BY_MOMENT]);
        let certain = Ranges::at(self.certain[probe]).plus(by_force).plus(by_moment);
        Linear { certain, by: self.by }
    }
}

impl CutOut {
    /// The supports of a chain that is cut at the first hook of a window and ends at one ahead of it;
    /// `None` where nothing can be said of them.
    fn of<'a>(
        probe: &Probe<'a>,
        chain: &mut Chain<'a, COLUMNS>,
        window: [usize; WINDOW],
        ahead: usize,
    ) -> Option<Self> {
        let mut before = window;
        before.reverse();
        if let Some(units) = chain.units() {
            let cut_out = Self::standing(probe, chain, &units, ahead, &before);
            return Some(cut_out.with_rest(probe, chain, &units));
        }
        chain.pop();
        let units = chain.units();
        let shorter =
            units.map(|units| Self::standing(probe, chain, &units, before[0], &before[1..]));
        chain.push(ahead);
        shorter
    }

    /// Hooks that stand by themselves: the last one, and those before it, the nearest first.
    fn standing(
        probe: &Probe<'_>,
        chain: &Chain<'_, COLUMNS>,
        units: &Units,
        last: usize,
        before: &[usize],
    ) -> Self {
        let mut forces = [(last, Form::ZERO); WINDOW];
        let (mut sags, mut end_sag) = (Vec::new(), None);
        let mut handed_on = [Form::ZERO; 2];
        let count = before.len();
        let sagging = (0..PROBES).any(|load| probe.is_service(probe.cases[load]));
        for column in 0..COLUMNS {
            let influences = chain.influences(units, column);
            let near = before.iter().zip(units.near(&influences));
            for ((hook, force), (candidate, parts)) in forces.iter_mut().zip(near) {
                *hook = *candidate;
                force.put(column, parts);
            }
            let [force, moment] = &mut handed_on;
            let [certain, by_force, by_moment] = chain.handed_on(count - 1, units, &influences, column);
            force.put(column, [certain[0], by_force[0], by_moment[0]]);
            moment.put(column, [certain[1], by_force[1], by_moment[1]]);
            if sagging {
                for (bay, Sag { length, sag }) in chain.sags(units, &influences, column).enumerate() {
                    if column == 0 {
                        sags.push((length, Form::ZERO));
                    }
                    sags[bay].1.put(column, sag);
                }
                if let Some(Sag { length, sag }) = chain.end_sag(units, &influences, column) {
                    end_sag.get_or_insert((length, Form::ZERO)).1.put(column, sag);
                }
            }
        }
        Self { last, forces, count, sags, end_sag, rest: None, handed_on }
    }

    /// What is left to hooks ahead.
    fn with_rest(
        mut self,
        probe: &Probe<'_>,
        chain: &Chain<'_, COLUMNS>,
        units: &Units,
    ) -> Self {
        let [on_first, _] = chain.on_free_ends(self.forces[WINDOW - 1].0);
        let [_, on_last] = chain.on_free_ends(self.last);
        let mut rest = Form::ZERO;
        for column in 0..COLUMNS {
            let loads = match column {
                BY_FORCE => Both::splat(1.0),
                BY_MOMENT => Both::ZERO,
                load => probe.total[load] - on_first[load][0],
            };
            let [certain, by_force, by_moment] = units.sum(&chain.influences(units, column));
            rest.put(column, [loads - certain, Both::splat(-1.0) - by_force, -by_moment]);
        }
        self.rest = Some((rest, std::array::from_fn(|load| on_last[load][0])));
        self
    }

    /// What acts from behind on the second hook of the window, by what does on the first one, and on
    /// the last where that is known, with so many hooks behind, at least, and ahead, where that is
    /// known; `None` where no choice with that passes.
    fn hands_on(
        &self,
        probe: &Probe<'_>,
        behind: &Acting,
        ahead: Option<&Acting>,
        (count, more): (usize, Option<usize>),
    ) -> Option<Acting> {
        let bearing = probe.bearing.as_ref()?;
        let mut handed_on = Acting::UNKNOWN;
        for load in 0..PROBES {
            let borne = |hook: usize| &probe.bears(bearing, hook)[load];
            let (last, behind) = (borne(self.last), behind.under(load));
            let mut unknown = Unknown { force: last.own, moment: last.moment };
            let rest = self.rest.as_ref().map(|(rest, beyond)| (rest.under(load, behind), beyond[load]));
            if let (Some((rest, beyond)), Some(ahead)) = (&rest, ahead) {
                unknown = unknown.acted_on(ahead.under(load), *beyond, rest);
            }
            let forces = self.forces.map(|(hook, force)| (force.under(load, behind), borne(hook)));
            let forces = &forces[..self.count];
            let at = unknown.narrowed(forces.iter().map(|(force, borne)| (*force, borne.own)))?;
            let straight = |(length, sag): &(f64, Form)| {
                let least = at.of(&sag.under(load, behind)).nearest_to_zero();
                probe.segment.sag_used(probe.cases[load], *length, least) <= bearing.bound
            };
            if !last.may_bear(at.force)
                || !forces.iter().all(|(force, borne)| borne.may_bear(at.of(force)))
                || !self.sags.iter().all(straight)
                || !self.end_sag.iter().filter(|_| count == 0).all(straight)
            {
                return None;
            }
            if let (Some((rest, _)), Some(more @ 1..), Some(least)) = (&rest, more, &bearing.least)
                && !least[load].allows(at.of(rest).times(Both::splat(1.0 / more as f64)))
            {
                return None;
            }
            let [force, moment] = &self.handed_on;
            handed_on.0[load] = [
                at.of(&force.under(load, behind)),
                at.of(&moment.under(load, behind)).within(last.moment),
            ];
        }
        Some(handed_on)
    }
}

impl<'a> Probe<'a> {
    /// A chain to cut windows out of.
    fn cutting(&self, from: From) -> Chain<'a, COLUMNS> {
        let segment = self.segment;
        let mut loads = [[Superposition::NOTHING; 2]; COLUMNS];
        for (load, case) in loads.iter_mut().zip(self.cases) {
            *load = [segment.cases[case].normal, segment.cases[case].slope];
        }
        let strips = [&segment.normal, &segment.slope];
        match from {
            From::Left => Chain::new(strips, loads),
            From::Right => Chain::from_right(strips, loads),
        }
    }
}
