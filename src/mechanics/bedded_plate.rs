//! A rigid plate on an elastic bed, held down by springs: how far it turns.
//!
//! **Model.** A moment turns the plate about one of its edges. The bed resists by a force per length
//! and per length of settlement, `B`, where it is pressed and not where the plate lifts off; springs of
//! stiffness `k` at distances `d_i` from the edge pull where the plate lifts off and do not push. With
//! `a` the length that is pressed, the balance of forces is `B·a²/2 = k·Σ(d_i - a)` over the springs
//! beyond it, and the moment per angle `B·a³/3 + k·Σ(d_i - a)²`: a cracked section of reinforced
//! concrete turned into a plate. A force that presses the plate down, too, makes it turn less; none is
//! counted.
//!
//! **Layer.** Knows no hook and no code: plain numbers (N, mm).
//!
//! **Checked by** the neutral axis and second moment of a cracked section by hand below.

/// A plate that is turned about its edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turned {
    /// Length that is pressed, `a`, mm.
    pub pressed: f64,
    /// Moment per angle in radians, N·mm; zero where nothing holds the plate down.
    pub spring: f64,
}

/// How a plate turns: `bed` in N/mm per mm, `spring` in N/mm, distances in mm.
#[must_use]
pub fn turned(bed: f64, spring: f64, distances: impl Iterator<Item = f64>) -> Turned {
    let mut distances: Vec<f64> = distances.filter(|d| *d > 0.0).collect();
    distances.sort_by(|a, b| b.total_cmp(a));
    let pressed = pressed_length(bed, spring, &distances);
    let pulled = distances.iter().map(|d| (d - pressed).max(0.0).powi(2)).sum::<f64>();
    Turned { pressed, spring: bed * pressed.powi(3) / 3.0 + spring * pulled }
}

/// The length that is pressed, of springs from the farthest to the nearest: by those that pull.
fn pressed_length(bed: f64, spring: f64, distances: &[f64]) -> f64 {
    let (mut sum, mut pressed) = (0.0, 0.0);
    for (pulling, distance) in (1_u32..).zip(distances) {
        if *distance <= pressed {
            break;
        }
        sum += distance;
        let pulling = f64::from(pulling) * spring;
        pressed = ((pulling * pulling + 2.0 * bed * spring * sum).sqrt() - pulling) / bed;
    }
    pressed
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A slab of 1,000 mm with 8 · 1,000 mm² at 200 mm: x = (√(8² + 2 · 8 · 200) - 8) = 49.13 mm,
    /// and I = 1000 · x³/3 + 8000 · (200 - x)² = 221.6 · 10⁶ mm⁴.
    #[test]
    fn a_cracked_section_by_hand() {
        let pressed = pressed_length(1000.0, 8000.0, &[200.0]);
        assert!((pressed - 49.131_7).abs() < 1e-3, "{pressed}");
        let found = turned(1000.0, 8000.0, [200.0].into_iter());
        assert!((found.spring / 1e6 - 221.65).abs() < 0.05, "{found:?}");
        assert!((found.pressed - pressed).abs() < 1e-12);
    }

    /// A spring in the pressed part does nothing, one on the edge nothing either.
    #[test]
    fn springs_that_are_pressed_do_not_count() {
        let spring = |at: &[f64]| turned(1000.0, 8000.0, at.iter().copied()).spring;
        let far = spring(&[200.0]);
        let with = spring(&[40.0, 200.0, 0.0]);
        assert!((far - with).abs() < 1e-6 * far);
        let more = spring(&[100.0, 200.0]);
        assert!(more > far);
        assert!(spring(&[0.0]).abs() < f64::EPSILON);
    }
}
