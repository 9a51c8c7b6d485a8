//! A window and the hook ahead of it, by themselves.

use crate::checks::boundary::{Acting, Linear, Unknown};
use crate::checks::bounds::Ranges;
use crate::checks::probe::Probe;
use crate::checks::screening::PROBES;
use crate::mechanics::beam::{Both, Chain, Lanes, Sag, Superposition, Units};

use super::{From, WINDOW};

/// What is worked out of a window: under each combination, and by a unit of force and of moment on
/// its first hook.
pub(super) const COLUMNS: usize = PROBES + 2;
const BY_FORCE: usize = PROBES;
const BY_MOMENT: usize = PROBES + 1;

/// A window and one more hook ahead of it, cut out of the rail.
pub(super) struct CutOut {
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
    pub(super) fn of<'a>(
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
            let [certain, by_force, by_moment] =
                chain.handed_on(count - 1, units, &influences, column);
            force.put(column, [certain[0], by_force[0], by_moment[0]]);
            moment.put(column, [certain[1], by_force[1], by_moment[1]]);
            if sagging {
                for (bay, Sag { length, sag }) in chain.sags(units, &influences, column).enumerate()
                {
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
    fn with_rest(mut self, probe: &Probe<'_>, chain: &Chain<'_, COLUMNS>, units: &Units) -> Self {
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
    /// the last where that is known, with no hooks behind or any, and so many ahead, at most; `None`
    /// where no choice with that passes.
    pub(super) fn hands_on(
        &self,
        probe: &Probe<'_>,
        (behind, count): (&Acting, usize),
        (ahead, more): (Option<&Acting>, usize),
    ) -> Option<Acting> {
        let bearing = probe.bearing.as_ref()?;
        let mut handed_on = Acting::UNKNOWN;
        for load in 0..PROBES {
            let borne = |hook: usize| &probe.bears(bearing, hook)[load];
            let (last, behind) = (borne(self.last), behind.under(load));
            let mut unknown = Unknown { force: last.own, moment: last.moment };
            let rest =
                self.rest.as_ref().map(|(rest, beyond)| (rest.under(load, behind), beyond[load]));
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
            if let (Some((rest, _)), 1.., Some(least)) = (&rest, more, &bearing.least)
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

/// Cuts a window out of a rail: takes its hooks, with units acting on the first.
pub(super) fn cut(chain: &mut Chain<'_, COLUMNS>, hooks: [usize; WINDOW]) {
    let mut units = [[Both::ZERO; 2]; COLUMNS];
    (units[BY_FORCE][0], units[BY_MOMENT][1]) = (Both::splat(1.0), Both::splat(1.0));
    chain.cut_at(hooks[0], units);
    hooks[1..].iter().for_each(|hook| chain.push(*hook));
}

impl<'a> Probe<'a> {
    /// A chain to cut windows out of.
    pub(super) fn cutting(&self, from: From) -> Chain<'a, COLUMNS> {
        let segment = self.segment;
        let mut loads = [[Superposition::NOTHING; 2]; COLUMNS];
        for (load, case) in loads.iter_mut().zip(self.cases) {
            *load = [segment.cases[case].normal, segment.cases[case].slope];
        }
        let strips = [&segment.normal, segment.walked()];
        match from {
            From::Left => Chain::new(strips, loads),
            From::Right => Chain::from_right(strips, loads),
        }
    }
}
