//! A bar held at both ends: the same as a span that bends, of force along the axis.

use super::joint::Element;

/// A bar held at both ends: what unit loads put on its ends, in the order of the element between them.
///
/// Nothing turns it. Its elements keep the rows of rotations, with a stiffness that nothing acts
/// against, so that one elimination serves beams and bars.
#[derive(Debug, Clone, Copy)]
pub(super) struct HeldBar {
    pub(super) length: f64,
}

impl HeldBar {
    /// Its stiffness under this axial rigidity: `E·A/l`.
    pub(super) fn stiffness(self, ea: f64) -> Element<f64> {
        let (k, idle) = (ea / self.length, ea * self.length);
        Element {
            left: [k, 0.0, idle],
            across: [[-k, 0.0], [0.0, 0.0]],
            right: [k, 0.0, idle],
            mechanism: false,
        }
    }

    /// Under a line load of 1 over its whole length: half of it on either end.
    pub(super) fn under_line_load(self) -> [f64; 4] {
        let half = self.length / 2.0;
        [half, 0.0, half, 0.0]
    }

    /// Under a point load of 1 at distance `a` from its left end: by the lever rule.
    pub(super) fn under_point_load(self, a: f64) -> [f64; 4] {
        let right = a / self.length;
        [1.0 - right, 0.0, right, 0.0]
    }
}

#[cfg(test)]
mod tests {
    use crate::mechanics::beam::{Case, Member, Strip, StripParts, Superposition};
    use crate::mechanics::sweep::Profile;

    /// A bar of 3 m over three hooks.
    fn bar(rigidity: f64, stiffness: Option<f64>) -> Strip {
        Strip::new(StripParts {
            member: Member::Bar,
            start: 0.0,
            end: 3000.0,
            rigidity,
            stiffness,
            candidates: vec![500.0, 1500.0, 2500.0],
            hinges: Vec::new(),
            load_points: vec![200.0, 1200.0, 2800.0],
            cases: vec![Case { points: vec![300.0, 600.0, 90.0], uniform: 0.1 }],
        })
    }

    fn forces(strip: &Strip) -> Vec<f64> {
        strip.reactions(&[0, 1, 2]).expect("a stable bar").of_case(0).to_vec()
    }

    fn close(have: &[f64], by_hand: [f64; 3], within: f64) {
        let off = have.iter().zip(by_hand).map(|(have, by_hand)| (have - by_hand).abs());
        assert!(off.fold(0.0, f64::max) < within, "{have:?}, by hand {by_hand:?}");
    }

    /// Stiff hooks take what is nearest: 300 + 50 below the first and 0.3·600 + 50 above it; 0.7·600 + 50 and
    /// 50; 50 and 90 + 50.
    #[test]
    fn stiff_hooks_share_by_the_lever_rule_by_hand() {
        close(&forces(&bar(3.5e7, None)), [580.0, 520.0, 190.0], 1e-9);
    }

    /// A bar that hardly gives on hooks that do: 1290 N in three equal parts.
    #[test]
    fn hooks_that_give_share_a_stiff_bar_equally() {
        close(&forces(&bar(1e13, Some(300.0))), [430.0; 3], 1e-3);
    }

    /// `E·A/l` of 600 N/mm between hooks of 300 N/mm. With 580, 520 and 190 N on hooks held fast, in units of
    /// 300 N/mm: `3a - 2b = 580/300`, `-2a + 5b - 2c = 520/300`, `-2b + 3c = 190/300`, so that
    /// `a = (580 + 600·b)/900` and `b = (520 + 2/3·770)/(700)`.
    #[test]
    fn hooks_share_by_how_far_bar_and_hooks_give_by_hand() {
        let b = (520.0 + 2.0 / 3.0 * 770.0) / 700.0;
        let [a, c] = [580.0, 190.0].map(|on| (on + 600.0 * b) / 900.0);
        close(&forces(&bar(6e5, Some(300.0))), [a, b, c].map(|moved: f64| 300.0 * moved), 1e-9);
    }

    /// Below the second of the stiff hooks the bar pushes 420 + 50 N at it, above it pulls 50.
    #[test]
    fn the_force_along_the_axis_is_told_on_both_sides_of_a_hook() {
        let strip = bar(3.5e7, None);
        let reactions = strip.reactions(&[0, 1, 2]).expect("a stable bar");
        let profile = Profile::of(&strip, &Superposition::alone(0), &[0, 1, 2], &reactions);
        assert!((profile.axial_at(1500.0) - 470.0).abs() < 1e-9, "{}", profile.axial_at(1500.0));
        assert!((profile.axial_at(2000.0) - 0.0).abs() < 1e-9, "{}", profile.axial_at(2000.0));
        assert!(profile.moment.iter().all(|moment| *moment == 0.0));
        // Two ends of 500 mm, twice as long as a span is counted, and spans of 1000 mm.
        assert!((profile.longest_part() - 1000.0).abs() < 1e-9);
    }
}
