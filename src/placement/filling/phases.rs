//! Columns at a fixed pitch: which phases of them hold the most modules.
//!
//! Left edges of modules lie at `phase + k · pitch`. A stretch `[a, b]` in which a left edge may lie holds
//! `⌊(b − a) / pitch⌋` of them whatever the phase, and one more if the phase lies on the arc from `a` as
//! long as the rest of that division, all modulo the pitch. How many all stretches hold together therefore
//! changes nowhere but at the ends of arcs, and a sweep over these ends finds the most: the textbook
//! stabbing of arcs on a circle. Exact, as a stretch and with it each arc is closed.

/// Places this near to each other are the same, mm: the rounding of the arithmetic.
const SAME: f64 = 1e-7;

/// Phases between two that are next to each other among the ends of arcs, both included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// First phase.
    pub from: f64,
    /// Last phase, not before the first.
    pub to: f64,
    /// How many modules they hold.
    pub modules: i64,
}

impl Cell {
    /// Its middle: there every module of it lies in its stretch.
    pub const fn middle(&self) -> f64 {
        f64::midpoint(self.from, self.to)
    }
}

/// Neighbouring columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Run {
    /// Number of the first.
    pub first: i64,
    /// How many.
    pub modules: i64,
}

/// The cells of the phases from 0 to the pitch, in their order: all that are longer than a point, and points
/// that hold more than what is beside them.
pub fn cells(stretches: impl Iterator<Item = [f64; 2]>, pitch: f64) -> Vec<Cell> {
    /// What happens at the end of an arc. Beginnings come first: both ends belong to an arc.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
    enum What {
        Begins,
        Ends,
    }
    let mut modules = 0;
    let mut ends: Vec<(f64, What)> = Vec::new();
    for [a, b] in stretches {
        let room = (b - a).max(0.0);
        let whole = (room / pitch).floor();
        modules += self::whole(whole);
        let rest = room - whole * pitch + 2.0 * SAME;
        if rest >= pitch {
            modules += 1;
            continue;
        }
        let begins = (a - SAME).rem_euclid(pitch);
        let mut until = begins + rest;
        if until >= pitch {
            // It goes on at phase 0.
            until -= pitch;
            modules += 1;
        }
        ends.extend([(begins, What::Begins), (until, What::Ends)]);
    }
    ends.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let mut cells = Vec::with_capacity(ends.len() + 1);
    let (mut from, mut last) = (0.0, What::Begins);
    for (at, what) in ends {
        // A point between two arcs that begin, or end, there holds no more than what is beside it.
        let is_peak = (last, what) == (What::Begins, What::Ends);
        if is_peak || at - from > 2.0 * SAME {
            cells.push(Cell { from, to: at, modules });
        }
        (from, last) = (at, what);
        match what {
            What::Begins => modules += 1,
            What::Ends => modules -= 1,
        }
    }
    cells.push(Cell { from, to: pitch, modules });
    cells
}

/// The most modules any phase holds.
pub fn most(cells: &[Cell]) -> i64 {
    cells.iter().map(|cell| cell.modules).max().unwrap_or(0)
}

/// The columns of a row at a phase, in runs of neighbours; `stretches` from left to right.
pub fn runs(stretches: &[[f64; 2]], phase: f64, pitch: f64) -> Vec<Run> {
    let mut runs: Vec<Run> = Vec::new();
    for [a, b] in stretches {
        let first = whole(((a - 2.0 * SAME - phase) / pitch).ceil());
        let last = whole(((b + 2.0 * SAME - phase) / pitch).floor());
        let modules = last - first + 1;
        if modules < 1 {
            continue;
        }
        match runs.last_mut() {
            Some(run) if run.first + run.modules == first => run.modules += modules,
            _ => runs.push(Run { first, modules }),
        }
    }
    runs
}

#[expect(clippy::cast_possible_truncation, reason = "rounded, and no roof is as long")]
const fn whole(rounded: f64) -> i64 {
    rounded as i64
}

#[cfg(test)]
mod tests {
    use super::*;

    fn held(stretches: &[[f64; 2]], phase: f64, pitch: f64) -> i64 {
        runs(stretches, phase, pitch).iter().map(|run| run.modules).sum()
    }

    #[test]
    fn a_stretch_as_long_as_whole_pitches_holds_one_more_at_a_single_phase() {
        let cells = cells(std::iter::once([300.0, 2300.0]), 1000.0);
        assert_eq!(most(&cells), 3);
        let best: Vec<&Cell> = cells.iter().filter(|cell| cell.modules == 3).collect();
        assert!(best.iter().all(|cell| (cell.middle() - 300.0).abs() < 1e-5), "{best:?}");
        assert_eq!(held(&[[300.0, 2300.0]], 300.0, 1000.0), 3);
        assert_eq!(held(&[[300.0, 2300.0]], 301.0, 1000.0), 2);
    }

    /// Against every phase to a tenth of a millimetre: a brute force of our own.
    #[test]
    fn no_phase_holds_more_than_the_best_cell_and_each_cell_holds_what_it_says() {
        let pitch = 154.3;
        let rows = [[12.0, 470.5], [-30.25, 61.0], [500.0, 500.0], [-700.0, -545.8], [33.3, 33.3]];
        let cells = cells(rows.into_iter(), pitch);
        for cell in &cells {
            assert_eq!(held(&rows, cell.middle(), pitch), cell.modules, "{cell:?}");
        }
        let tried = (0..1543).map(|step| held(&rows, f64::from(step) / 10.0, pitch)).max();
        assert!(tried.is_some_and(|tried| tried <= most(&cells)), "{tried:?}");
    }

    #[test]
    fn columns_on_either_side_of_a_narrow_gap_are_one_run() {
        let across = runs(&[[0.0, 1010.0], [1990.0, 3000.0]], 0.0, 1000.0);
        assert_eq!(across, [Run { first: 0, modules: 4 }]);
    }
}
