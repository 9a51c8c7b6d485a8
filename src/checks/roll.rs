//! Feet that tend to roll about the line of the slope, and what holds them.
//!
//! Screws that pull beside the axis of the rafter pull the foot over to their side: nothing under it
//! stands against that, as its edge is taken to bear centred. The arm passes the moment on to the rail,
//! which holds it by its bending and leans on the other hooks.
//!
//! **Bound.** Over equal spans `l` on stiff supports, moments of at most `M` at every support change a
//! reaction by at most `2·M/l` where all turn the same way, as those of two hooks alone do, and by at most
//! `3·M/l` whatever their senses, as three hooks do at the middle one. The span taken is the shortest
//! between two hooks. Soft hooks spread the moments farther and change less. Own derivation.

use crate::units::{Force, Length, Moment};

use super::segment::{Limit, Segment, SegmentResult};

/// Most that moments at all supports change a reaction by, of the largest over the span: where all turn
/// the same way, and whatever their senses.
const ON_A_HOOK: [f64; 2] = [2.0, 3.0];

/// A part of a rail that holds its feet against rolling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rolling {
    /// Largest moment of a foot.
    pub moment: Moment,
    /// Most it adds to a hook, or takes from it.
    pub force: Force,
    /// The hook used most with that in any combination of strength, and how far: itself, its bolt, its
    /// screws or the timber under it.
    pub hook: (usize, f64),
    /// Utilisation of the rail in bending with the moment on top.
    pub rail: f64,
}

impl Segment {
    /// What the rolling of feet adds on a subset with these results; `None` where no foot rolls or only
    /// one hook stands.
    #[must_use]
    pub fn rolling(&self, subset: &[usize], result: &SegmentResult) -> Option<Rolling> {
        let places = || subset.iter().map(|place| &self.candidates[*place]);
        let arms: Vec<Length> = places().map(|place| place.arm_x).collect();
        let spans = arms.windows(2).map(|pair| pair[1] - pair[0]);
        let shortest = spans.reduce(Length::min)?;
        let mut most = Rolling {
            moment: Moment::ZERO,
            force: Force::ZERO,
            hook: (0, 0.0),
            rail: result.bending.utilisation,
        };
        for (case, forces) in result.forces.iter().enumerate() {
            if matches!(self.cases[case].limit, Limit::Service) {
                continue;
            }
            let rolls = places().zip(forces).map(|(place, [n, s])| {
                let timber = self.settings[place.setting].timber[case];
                place.foot.under(*n, *s, timber).roll()
            });
            let [least, largest] = rolls.fold([Moment::ZERO; 2], |[least, largest], roll| {
                [least.min(roll), largest.max(roll)]
            });
            let moment = largest.max(-least);
            let alike = least == Moment::ZERO || largest == Moment::ZERO;
            let share = ON_A_HOOK[usize::from(!alike)];
            let force = Force::from_n(share * moment.nmm() / shortest.mm());
            most.moment = most.moment.max(moment);
            most.force = most.force.max(force);
            for (hook, (candidate, [n, s])) in subset.iter().zip(forces).enumerate() {
                for normal in [*n + force, *n - force] {
                    let used = self.hook_used(*candidate, case, [normal, *s]);
                    if used > most.hook.1 {
                        most.hook = (hook, used);
                    }
                }
            }
        }
        most.rail += most.moment / self.limits.bending.normal;
        (most.moment > Moment::ZERO).then_some(most)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reactions of a beam over equal spans of length 1 and stiffness 1 under a unit moment at one
    /// support, by the slope-deflection method: `4θ` and `2θ` at the ends of a span, shear `6(θ + θ')`.
    fn reactions(supports: usize, loaded: usize) -> Vec<f64> {
        let mut diagonal: Vec<f64> = vec![8.0; supports];
        diagonal[0] = 4.0;
        diagonal[supports - 1] = 4.0;
        let mut turn = vec![0.0; supports];
        turn[loaded] = 1.0;
        for i in 1..supports {
            let factor = 2.0 / diagonal[i - 1];
            diagonal[i] -= factor * 2.0;
            turn[i] -= factor * turn[i - 1];
        }
        turn[supports - 1] /= diagonal[supports - 1];
        for i in (0..supports - 1).rev() {
            turn[i] = (turn[i] - 2.0 * turn[i + 1]) / diagonal[i];
        }
        let shears: Vec<f64> = turn.windows(2).map(|pair| 6.0 * (pair[0] + pair[1])).collect();
        let shear = |span: Option<usize>| span.and_then(|s| shears.get(s)).copied().unwrap_or(0.0);
        (0..supports).map(|i| shear(i.checked_sub(1)) - shear(Some(i))).collect()
    }

    /// Largest change of a reaction over so many supports under moments up to 1: of one sense, of any.
    fn worst(supports: usize) -> [f64; 2] {
        let each: Vec<Vec<f64>> = (0..supports).map(|loaded| reactions(supports, loaded)).collect();
        let mut worst = [0.0_f64; 2];
        for support in 0..supports {
            let [up, down] = [1.0, -1.0]
                .map(|sign| each.iter().map(|r| (sign * r[support]).max(0.0)).sum::<f64>());
            worst = [worst[0].max(up).max(down), worst[1].max(up + down)];
        }
        worst
    }

    #[test]
    fn moments_at_the_supports_change_no_reaction_by_more() {
        let [two, three] = [worst(2), worst(3)];
        assert!((two[0] - ON_A_HOOK[0]).abs() < 1e-12, "{two:?}");
        assert!((three[1] - ON_A_HOOK[1]).abs() < 1e-12, "{three:?}");
        for supports in 2..40 {
            let most = worst(supports);
            let borne = most.iter().zip(ON_A_HOOK).all(|(most, counted)| *most <= counted + 1e-12);
            assert!(borne, "{supports}: {most:?}");
        }
    }
}
