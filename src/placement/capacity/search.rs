//! The largest value of a load up to which a limit is kept.
//!
//! Forces grow evenly with a load, and a utilisation is a convex function of the forces: a largest
//! value, a sum of magnitudes or a root of squares. Between two values at which it is within its limit
//! it therefore is so all the way. Two things are not covered by this. A foot bears on a strip of timber
//! that yields, so neither what its timber and screws are used to is convex nor what its rolling adds;
//! that neither has a hump is a property of random jobs and no proof. Drifts do not grow evenly, for their shape changes with the
//! snow on the ground. So the range is looked at in cells, and that there is no hump is relied on inside
//! one of them only.

/// Between which values a limit is passed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bracket {
    /// It is passed at every value looked at, down to zero.
    Never,
    /// It is kept up to the greatest value.
    Beyond,
    /// It is kept at one value and passed at a greater one, a millionth apart at most.
    Between {
        /// The value at which it is kept.
        holds: f64,
        /// The value at which it is not.
        fails: f64,
    },
}

/// How near the two values of a [`Bracket`] are, in the unit of the load: a thousandth of a N/m² where
/// that is kN/m².
pub const WIDTH: f64 = 1e-6;

/// Cells above the value of the job, small ones first, and even ones below it.
const CELLS: u32 = 24;

/// Steps that narrow a cell at most: every third halves it, and 30 kN/m² are halved to [`WIDTH`] 25
/// times.
const STEPS: usize = 90;

/// Where a limit is passed first above `now`; where it is passed there already, where it was kept last
/// below. `over` is by how much a limit is passed at a value: zero and less keeps it.
pub fn largest(now: f64, greatest: f64, mut over: impl FnMut(f64) -> f64) -> Bracket {
    let here = (now, over(now));
    if here.1 > 0.0 {
        return below(here, over);
    }
    let mut holds = here;
    for cell in 1..=CELLS {
        let share = f64::from(cell) / f64::from(CELLS);
        let value = if cell == CELLS { greatest } else { now + (greatest - now) * share * share };
        if value <= holds.0 {
            continue;
        }
        let next = (value, over(value));
        if next.1 > 0.0 {
            return narrowed(holds, next, over);
        }
        holds = next;
    }
    Bracket::Beyond
}

/// The largest value below one at which a limit is passed.
fn below(now: (f64, f64), mut over: impl FnMut(f64) -> f64) -> Bracket {
    let (mut fails, mut least) = (now, now);
    let width = now.0 / f64::from(CELLS);
    if width <= 0.0 {
        return Bracket::Never;
    }
    for cell in (0..CELLS).rev() {
        let value = width * f64::from(cell);
        let next = (value, over(value));
        if next.1 <= 0.0 {
            return narrowed(next, fails, over);
        }
        if next.1 < least.1 {
            least = next;
        }
        fails = next;
    }
    // Between two cells it may be kept yet: where it is passed by least.
    let ends = [(least.0 - width).max(0.0), (least.0 + width).min(now.0)];
    match dip(ends, &mut over) {
        Some(holds) => narrowed(holds, (ends[1], f64::INFINITY), over),
        None => Bracket::Never,
    }
}

/// A value at which a limit is kept, of an excess that falls and then rises between two values; `None`
/// where it is passed at its least.
fn dip([mut low, mut high]: [f64; 2], over: &mut impl FnMut(f64) -> f64) -> Option<(f64, f64)> {
    while high - low > WIDTH {
        let third = (high - low) / 3.0;
        let [a, b] = [low + third, high - third].map(|value| (value, over(value)));
        if let Some(kept) = [b, a].into_iter().find(|at| at.1 <= 0.0) {
            return Some(kept);
        }
        if a.1 < b.1 { high = b.0 } else { low = a.0 }
    }
    None
}

/// Narrows a cell along its chord, which is near where the excess is nearly straight, and by halves in
/// turn.
fn narrowed(
    mut holds: (f64, f64),
    mut fails: (f64, f64),
    mut over: impl FnMut(f64) -> f64,
) -> Bracket {
    for step in 0..STEPS {
        let width = fails.0 - holds.0;
        if width <= WIDTH {
            break;
        }
        let chord = holds.1 / (holds.1 - fails.1);
        let share = if step % 3 < 2 && chord.is_finite() { chord } else { 0.5 };
        // A step past the root by a little closes the cell from the other side.
        let nudge = if step % 3 == 1 { WIDTH / 2.0 } else { 0.0 };
        let value = (holds.0 + width * share + nudge)
            .clamp(holds.0 + WIDTH / 2.0, (fails.0 - WIDTH / 2.0).max(holds.0 + WIDTH / 2.0));
        let next = (value, over(value));
        if next.1 <= 0.0 { holds = next } else { fails = next }
    }
    Bracket::Between { holds: holds.0, fails: fails.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn between(bracket: Bracket) -> [f64; 2] {
        let Bracket::Between { holds, fails } = bracket else { panic!("{bracket:?}") };
        assert!(0.0 <= fails - holds && fails - holds <= WIDTH, "{bracket:?}");
        [holds, fails]
    }

    /// |2 - x| within 1: from 1 to 3.
    #[test]
    fn a_limit_is_found_above_and_below_by_hand() {
        let over = |x: f64| (2.0 - x).abs() - 1.0;
        let near = |bracket, want: f64| {
            let [holds, fails] = between(bracket);
            assert!(holds <= want && want <= fails, "{holds} {want} {fails}");
        };
        near(largest(1.5, 30.0, over), 3.0);
        near(largest(3.0, 30.0, over), 3.0);
        near(largest(4.0, 30.0, over), 3.0);
        assert_eq!(largest(0.5, 30.0, over), Bracket::Never);
        assert_eq!(largest(0.0, 30.0, |x| x - 31.0), Bracket::Beyond);
        assert_eq!(largest(0.0, 30.0, |_| 0.1), Bracket::Never);
        assert_eq!(largest(2.0, 30.0, |_| 0.1), Bracket::Never);
    }

    /// Kept from 1.003 to 1.004 alone, far less than a cell.
    #[test]
    fn a_narrow_range_below_is_found_by_its_dip() {
        let [holds, _] = between(largest(4.0, 30.0, |x: f64| (x - 1.0035).abs() - 0.0005));
        assert!((holds - 1.004).abs() <= WIDTH, "{holds}");
    }

    /// A few steps suffice where the excess is straight or nearly so.
    #[test]
    fn a_smooth_limit_takes_few_steps() {
        let mut asked = 0;
        let [holds, _] = between(largest(1.0, 30.0, |x: f64| {
            asked += 1;
            (x * x + 0.3 * x).sqrt() - 2.0
        }));
        assert!((holds * holds + 0.3 * holds - 4.0).abs() < 1e-5);
        assert!(asked <= 24, "{asked}");
    }
}
