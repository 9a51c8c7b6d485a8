//! The combinations a part of a rail is screened by before all others.

use super::segment::Segment;

/// Combinations asked before all others, carried along as hooks are taken from left to right.
pub(super) const PROBES: usize = 2;

impl Segment {
    /// The combination that uses hooks with equal shares of the loads most, and the next one,
    /// of the other sense if there is one.
    pub(super) fn likely_to_govern(&self) -> Option<[usize; PROBES]> {
        let foot = self.candidates.first().map(|first| &*first.foot)?;
        let used: Vec<f64> = (0..self.cases.len())
            .map(|case| self.used_on_equal_shares(case, foot, self.candidates.len()))
            .collect();
        let lifts = |case: usize| self.normal.total_load(&self.cases[case].normal) < 0.0;
        let most_used = |among: &dyn Fn(usize) -> bool| {
            let among = (0..used.len()).filter(|case| among(*case));
            among.reduce(|most, case| if used[case] > used[most] { case } else { most })
        };
        let first = most_used(&|_| true)?;
        let other = most_used(&|case| lifts(case) != lifts(first));
        let second = other.or_else(|| most_used(&|case| case != first)).unwrap_or(first);
        Some([first, second])
    }
}
