//! Candidates and ends of a rail, as told from either end.

use crate::checks::segment::Candidate;

use super::WINDOW;

/// The end of a rail that windows are told from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum From {
    /// From left to right.
    Left,
    /// From right to left.
    Right,
}

impl From {
    /// The place of one of so many candidates, or the candidate at a place.
    fn place(self, candidate: usize, of: usize) -> usize {
        match self {
            Self::Left => candidate,
            Self::Right => of - 1 - candidate,
        }
    }

    /// The places of candidates from left to right, or the candidates of places, in order.
    pub(super) fn places(self, candidates: [usize; WINDOW], of: usize) -> [usize; WINDOW] {
        let mut places = candidates.map(|candidate| self.place(candidate, of));
        if self == Self::Right {
            places.reverse();
        }
        places
    }

    /// The other end.
    pub(super) const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

/// Candidates counted from one end of the rail.
pub(super) struct Places<'s> {
    pub(super) candidates: &'s [Candidate],
    /// Which candidates can be neighbours, by left and right one.
    pub(super) spans: &'s [bool],
    pub(super) from: From,
}

impl Places<'_> {
    /// The candidate at a place.
    pub(super) fn candidate(&self, place: usize) -> usize {
        self.from.place(place, self.candidates.len())
    }

    /// The candidates of these places from left to right.
    pub(super) fn in_order(&self, places: [usize; WINDOW]) -> [usize; WINDOW] {
        self.from.places(places, self.candidates.len())
    }

    fn may_be_first(&self, place: usize) -> bool {
        let candidate = &self.candidates[self.candidate(place)];
        match self.from {
            From::Left => candidate.may_be_first,
            From::Right => candidate.may_be_last,
        }
    }

    /// Whether a hook at a place may be the farthest.
    pub(super) fn may_be_last(&self, place: usize) -> bool {
        let candidate = &self.candidates[self.candidate(place)];
        match self.from {
            From::Left => candidate.may_be_last,
            From::Right => candidate.may_be_first,
        }
    }

    /// Places without a hook that stands before them.
    fn up_to_standing(&self, from: usize) -> impl Iterator<Item = usize> {
        let stands = |place: &usize| self.candidates[self.candidate(*place)].stands;
        let end =
            (from..self.candidates.len()).find(stands).map_or(self.candidates.len(), |s| s + 1);
        from..end
    }

    /// Places of a first hook.
    pub(super) fn first(&self) -> impl Iterator<Item = usize> {
        self.up_to_standing(0).filter(|place| self.may_be_first(*place))
    }

    /// Places of the next hook.
    pub(super) fn after(&self, place: usize) -> impl Iterator<Item = usize> {
        let neighbours = move |next: &usize| {
            let [a, b] = [self.candidate(place), self.candidate(*next)];
            self.spans[a.min(b) * self.candidates.len() + a.max(b)]
        };
        self.up_to_standing(place + 1).filter(neighbours)
    }
}
