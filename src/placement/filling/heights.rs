//! Heights at which rows are tried.

use super::room::Ground;

/// Flush heights this near to each other, or to a whole millimetre, are one, mm.
const SAME: f64 = 1e-6;

/// Heights of the lowest row, and where rows can lie above it.
#[derive(Debug)]
pub struct Heights {
    /// Lower edge of the lowest row, ascending: less than a pitch from the first to the last.
    pub lowest: Vec<f64>,
    /// Lower edge of the highest row there can be.
    highest: f64,
    pitch: f64,
    /// From one to the next, but for those that are flush with something.
    pub step: f64,
}

impl Heights {
    /// Heights of rows of modules this high, at this pitch; not more than so many sides are to be looked
    /// at for all of them.
    pub fn of(ground: &Ground<'_>, height: f64, pitch: f64, looks: f64) -> Self {
        let [low, high] = ground.heights();
        let highest = high - height;
        // Each height is looked at twice; half of them are flush with something.
        let most = (looks / (2.0 * ground.work_at_a_height(pitch)) / 2.0).max(8.0);
        let step = (pitch / most).ceil();
        let mut lowest = Vec::new();
        let mut next = low.ceil();
        while next <= highest && next < low + pitch {
            lowest.push(next);
            next += step;
        }
        let flush = ground.flush().filter(|y| (low - SAME..=highest + SAME).contains(y));
        let flush = flush.map(|y| low + (y - low).rem_euclid(pitch)).map(tidied);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at least 8")]
        lowest.extend(flush.take(most as usize));
        lowest.retain(|y| *y <= highest + SAME);
        lowest.sort_by(f64::total_cmp);
        lowest.dedup_by(|a, b| (*a - *b).abs() < SAME);
        Self { lowest, highest, pitch, step }
    }

    /// Rows from a lowest one, by number and lower edge.
    pub fn rows(&self, lowest: f64) -> impl Iterator<Item = (i64, f64)> + '_ {
        let heights = (0..).map(move |row| (row, lowest + row as f64 * self.pitch));
        heights.take_while(|(_, y)| *y <= self.highest + SAME)
    }
}

/// A height without the rounding of the arithmetic, to a thousandth of a millimetre.
pub fn tidied(mm: f64) -> f64 {
    (mm * 1000.0).round() / 1000.0
}
