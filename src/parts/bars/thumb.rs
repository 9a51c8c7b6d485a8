//! Plans by rule of thumb: soon found, good, and often the best.
//!
//! **Method.** The longest piece that is left goes into the bar that it and the best filling leave
//! least of, or into the longest bar, cut down where a shorter one will do; such bars are cut as
//! often as there are pieces for them.

use super::{Bars, Effort, Problem};

/// Pieces tried for one bar.
const TRIES: u32 = 200;

/// Which bar is taken for the longest piece left.
#[derive(Debug, Clone, Copy)]
pub(super) enum Thumb {
    /// The one its filling leaves least of, in proportion.
    Fullest,
    /// The longest, cut down to a shorter one where that will do.
    Longest,
}

/// Bars for so many pieces of each length.
pub(super) fn packed(
    problem: &Problem,
    mut counts: Vec<u32>,
    thumb: Thumb,
    effort: &mut Effort,
) -> Vec<Bars> {
    let mut bars = Vec::new();
    while let Some(first) = counts.iter().position(|n| *n > 0) {
        let mut best: Option<(i64, Bars)> = None;
        for stock in (0..problem.stock.len()).rev() {
            let room = problem.room(stock) - problem.size(first);
            if room < 0 {
                break;
            }
            counts[first] -= 1;
            let mut filling = Filling {
                problem,
                counts: &mut counts,
                tries: TRIES,
                best: Vec::new(),
                left: room,
            };
            filling.fill(first, room, &mut Vec::new());
            let Filling { best: fill, left, tries, .. } = filling;
            counts[first] += 1;
            effort.spend(4 * u64::from(TRIES - tries) + counts.len() as u64);
            let pieces: Vec<usize> = std::iter::once(first).chain(fill).collect();
            let wins = best.as_ref().is_none_or(|(known, bar)| {
                left * problem.stock[bar.stock] < known * problem.stock[stock]
            });
            if wins {
                best = Some((left, Bars { times: 1, stock, pieces }));
            }
            if matches!(thumb, Thumb::Longest) {
                break;
            }
        }
        let Some((left, mut bar)) = best else { break };
        let used = problem.room(bar.stock) - left;
        bar.stock = (0..bar.stock).find(|s| problem.room(*s) >= used).unwrap_or(bar.stock);
        // As often as there are pieces for it.
        let needs = bar.pieces.chunk_by(|a, b| a == b).map(|alike| (alike[0], alike.len()));
        let times = needs.map(|(piece, n)| counts[piece] / u32::try_from(n).unwrap_or(u32::MAX));
        bar.times = times.min().unwrap_or(1).max(1);
        bar.pieces.iter().for_each(|piece| counts[*piece] -= bar.times);
        bars.push(bar);
    }
    bars
}

/// The best filling of what room a bar has left.
struct Filling<'a> {
    problem: &'a Problem,
    counts: &'a mut [u32],
    tries: u32,
    best: Vec<usize>,
    left: i64,
}

impl Filling<'_> {
    fn fill(&mut self, from: usize, room: i64, pieces: &mut Vec<usize>) {
        if room < self.left {
            self.left = room;
            self.best.clone_from(pieces);
        }
        for next in from..self.counts.len() {
            if self.tries == 0 || self.left == 0 {
                return;
            }
            if self.counts[next] > 0 && self.problem.size(next) <= room {
                self.tries -= 1;
                self.counts[next] -= 1;
                pieces.push(next);
                self.fill(next, room - self.problem.size(next), pieces);
                pieces.pop();
                self.counts[next] += 1;
            }
        }
    }
}
