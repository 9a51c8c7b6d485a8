//! Which neighbouring hooks can be part of a choice that passes, told from one end of a rail.
//!
//! **Method.** A hook hardly feels what is a few hooks away. A [window](WINDOW) is cut out of the
//! rail; all that is behind it acts on its first hook with a force and a moment, of which ranges are
//! kept ([`Acting`]), by how many hooks are there. From windows and one more hook ahead of each follow
//! those of the next windows: the rail ahead acts on that hook through its force and the moment over
//! it, which have limits of their own and are narrowed by what every hook bears
//! (see `checks/boundary.rs`). What no range lets pass is no part of any choice that passes. Every
//! choice that does is a row of windows kept, each within its ranges: where they end before they
//! reach the other end of the rail, there is none.
//!
//! Told from the other end again, with what is known of the rail ahead of each window, ranges become
//! narrow and few windows are left. Choices are too many to look at; windows are not: their number
//! grows with that of the candidates, not with its power.
//!
//! Like everything of a [`Probe`], this may only refuse.

mod cut_out;
mod places;

use std::collections::BTreeMap;

use crate::effort::Allowance;
use crate::mechanics::beam::Chain;

use super::boundary::Acting;
use super::bounds::Ranges;
use super::probe::Probe;
use super::segment::Segment;
use cut_out::{COLUMNS, CutOut};
pub use places::From;
use places::Places;

/// Hooks of a window.
pub const WINDOW: usize = 3;

/// Steps that a question about a window is counted as.
const STEPS: u64 = 8;

/// What the tables of windows may take of the bytes of a job: three are kept at one time, and the
/// bays of a rail take the most of the rest.
const TABLES: usize = 8;

/// What an entry of a table of windows takes beside what is behind the window.
const ENTRY_BYTES: usize = 2 * (size_of::<Window>() + size_of::<Behind>());

/// How many hooks choices have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hooks {
    /// Any number up to this.
    AtMost(usize),
    /// This number.
    Exactly(usize),
}

/// Windows that may be part of a choice that passes.
#[derive(Debug, Clone)]
pub struct Windows {
    from: From,
    hooks: Hooks,
    /// By their last place.
    by_last: Vec<BTreeMap<Window, Behind>>,
    asked: u64,
    /// What the windows take in memory, about.
    bytes: usize,
}

/// Neighbouring hooks, by their places from the end they are told from.
type Window = [usize; WINDOW];

/// What hooks behind a window do: by their number, ascending, or, where choices may have any number,
/// once where there are none and once for any from the least possible on.
type Behind = Vec<(usize, Acting)>;

impl Windows {
    /// Windows of choices of at most so many hooks that may stay within the bound a probe was made
    /// ready for, told from the right.
    ///
    /// # Errors
    /// The steps taken in vain, where it takes more than so many questions or than the job is allowed.
    pub fn of_at_most(
        hooks: usize,
        probe: &Probe<'_>,
        spans: &[bool],
        patience: (u64, &Allowance),
    ) -> Result<Self, u64> {
        let candidates = &probe.segment.candidates;
        let places = Places { candidates, spans, from: From::Right };
        Self::gathered(probe, &places, Hooks::AtMost(hooks), None, patience)
    }

    /// Those among these that belong to choices of so many hooks, told from the other end.
    ///
    /// # Errors
    /// As [`Self::of_at_most`].
    pub fn told_back(
        &self,
        probe: &Probe<'_>,
        spans: &[bool],
        hooks: Hooks,
        patience: (u64, &Allowance),
    ) -> Result<Self, u64> {
        let candidates = &probe.segment.candidates;
        let places = Places { candidates, spans, from: self.from.other() };
        Self::gathered(probe, &places, hooks, Some(self), patience)
    }

    /// Questions asked.
    #[must_use]
    pub const fn asked(&self) -> u64 {
        self.asked
    }

    /// What that took of what a job is allowed.
    #[must_use]
    pub const fn steps(&self) -> u64 {
        self.asked * STEPS
    }

    /// The fewest hooks of choices these windows make up, if they reach from end to end.
    #[must_use]
    pub fn fewest(&self, segment: &Segment) -> Option<usize> {
        let places = Places { candidates: &segment.candidates, spans: &[], from: self.from };
        let ends = (0..self.by_last.len()).filter(|last| places.may_be_last(*last));
        let behind = ends.flat_map(|last| self.by_last[last].values()).flatten();
        let hooks = behind.map(|(behind, _)| behind + WINDOW);
        let may_be = |hooks: &usize| match self.hooks {
            Hooks::AtMost(most) => *hooks <= most,
            Hooks::Exactly(all) => *hooks == all,
        };
        hooks.filter(may_be).min()
    }

    /// What acts on the last of these hooks, the last so many of which are a window, when so many
    /// hooks are right of it; `None` where nothing can. Windows told from the right only.
    #[must_use]
    pub fn right_of(&self, hooks: &[usize], more: usize) -> Option<Acting> {
        self.behind(*hooks.last_chunk()?, more)
    }

    /// What so many hooks, or as many at most, do behind these candidates, from left to right.
    fn behind(&self, hooks: [usize; WINDOW], count: usize) -> Option<Acting> {
        let window = self.from.places(hooks, self.by_last.len());
        let behind = self.by_last[window[WINDOW - 1]].get(&window)?;
        let may_be = |known: usize| match self.hooks {
            Hooks::AtMost(_) => known <= count,
            Hooks::Exactly(_) => known == count,
        };
        let acting = behind.iter().filter(|(known, _)| may_be(*known)).map(|(_, acting)| *acting);
        acting.reduce(|all, acting| all.or(&acting))
    }

    fn gathered(
        probe: &Probe<'_>,
        places: &Places<'_>,
        hooks: Hooks,
        ahead: Option<&Self>,
        (patience, allowance): (u64, &Allowance),
    ) -> Result<Self, u64> {
        let n = places.candidates.len();
        let by_last = vec![BTreeMap::new(); n];
        let mut windows = Self { from: places.from, hooks, by_last, asked: 0, bytes: 0 };
        let (most_asked, most_bytes) = (allowance.left() / STEPS, allowance.bytes() / TABLES);
        let mut chain = probe.cutting(places.from);
        windows.begin(places, &chain, most_bytes);
        for last in 0..n {
            let here = std::mem::take(&mut windows.by_last[last]);
            for (window, behind) in &here {
                let spent = windows.asked > most_asked || windows.bytes > most_bytes;
                if windows.asked > patience || spent || allowance.is_spent() {
                    return Err(windows.steps());
                }
                windows.go_on(probe, places, &mut chain, (*window, behind), ahead);
            }
            windows.by_last[last] = here;
        }
        Ok(windows)
    }

    /// The windows next to the end they are told from: nothing but a free end is behind them. Not all
    /// of them where that is too many bytes already.
    fn begin(&mut self, places: &Places<'_>, chain: &Chain<'_, COLUMNS>, most_bytes: usize) {
        let mut open: Vec<Vec<usize>> = places.first().map(|first| vec![first]).collect();
        while self.bytes <= most_bytes
            && let Some(part) = open.pop()
        {
            if let Ok(window) = Window::try_from(&part[..]) {
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
        (window, behind): (Window, &Behind),
        ahead: Option<&Self>,
    ) {
        let hooks = window.map(|place| places.candidate(place));
        cut_out::cut(chain, hooks);
        for next in places.after(window[WINDOW - 1]) {
            let mut following = window;
            following.rotate_left(1);
            following[WINDOW - 1] = next;
            chain.push(places.candidate(next));
            let mut cut_out = None;
            for (behind, acting) in behind {
                let Some(more) = self.more(*behind) else { continue };
                if more == 0 && !places.may_be_last(next) {
                    continue;
                }
                let beyond = match ahead {
                    None => None,
                    Some(ahead) => match ahead.behind(places.in_order(following), more) {
                        None => continue,
                        Some(acting) => Some(acting.seen_from_ahead()),
                    },
                };
                self.asked += 1;
                let cut_out = cut_out
                    .get_or_insert_with(|| CutOut::of(probe, chain, hooks, places.candidate(next)));
                let handed_on = match &*cut_out {
                    None => Some(Acting::UNKNOWN),
                    Some(cut_out) => {
                        cut_out.hands_on(probe, (acting, *behind), (beyond.as_ref(), more))
                    }
                };
                if let Some(acting) = handed_on {
                    self.keep(following, behind + 1, &acting);
                }
            }
            chain.pop();
        }
    }

    /// How many hooks there are, at most or exactly, beyond one ahead of a window with so many behind
    /// that; `None` where these are too many.
    const fn more(&self, behind: usize) -> Option<usize> {
        let (Hooks::AtMost(hooks) | Hooks::Exactly(hooks)) = self.hooks;
        hooks.checked_sub(behind + WINDOW + 1)
    }

    fn keep(&mut self, window: Window, count: usize, acting: &Acting) {
        let behind = self.by_last[window[WINDOW - 1]].entry(window).or_insert_with(|| {
            self.bytes += ENTRY_BYTES;
            Behind::new()
        });
        let room = behind.capacity();
        if let Hooks::AtMost(_) = self.hooks
            && count > 0
            && let Some((least, known)) = behind.last_mut().filter(|(least, _)| *least > 0)
        {
            (*least, *known) = (count.min(*least), known.or(acting));
            return;
        }
        match behind.binary_search_by_key(&count, |(known, _)| *known) {
            Ok(at) => behind[at].1 = behind[at].1.or(acting),
            Err(at) => behind.insert(at, (count, *acting)),
        }
        self.bytes += (behind.capacity() - room) * size_of::<(usize, Acting)>();
    }
}
