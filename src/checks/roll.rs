//! Feet that tend to roll about the line of the slope, and what holds them.
//!
//! Screws that pull beside the axis of the rafter pull the foot over to their side: nothing under it
//! stands against that, as its edge is taken to bear centred. The arm passes the moment on to the rail,
//! which holds it by its bending and leans on the other hooks.
//!
//! **Model.** The rail is a beam over its hooks, bent by the moments of all feet; the hooks are taken as
//! stiff supports, as soft ones spread the moments farther and change less. Which way a foot is turned
//! when it is fitted is not known, so the change counts in either sense. Own derivation.

use crate::units::{Force, Moment};

use super::segment::{HookResult, Limit, Segment, SegmentResult};
use super::{Check, Governing};

/// Utilisation up to which hooks and rail are taken to bear what the rolling of feet adds: all of their
/// resistance, whatever margin the job wishes for the loads.
pub const BORNE: f64 = 1.0;

/// A part of a rail that holds its feet against rolling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rolling {
    /// Largest moment of a foot.
    pub moment: Moment,
    /// Most it adds to a hook, or takes from it.
    pub force: Force,
    /// The hook used most with that in any combination of strength.
    pub hook: usize,
    /// Its check that is used most, and how far: itself, its bolt, its screws or the timber under it.
    pub of_hook: (Check, Governing),
    /// The rail in bending with the moment on top.
    pub rail: Governing,
}

impl Rolling {
    /// How far it uses what it uses most.
    #[must_use]
    pub const fn utilisation(&self) -> f64 {
        self.of_hook.1.utilisation.max(self.rail.utilisation)
    }
}

impl Segment {
    /// What the rolling of feet adds on a subset with these results; `None` where no foot rolls or only
    /// one hook stands.
    #[must_use]
    pub fn rolling(&self, subset: &[usize], result: &SegmentResult) -> Option<Rolling> {
        let places = || subset.iter().map(|place| &self.candidates[*place]);
        let arms: Vec<f64> = places().map(|place| place.at.mm()).collect();
        let spans: Vec<f64> = arms.windows(2).map(|pair| pair[1] - pair[0]).collect();
        if spans.is_empty() {
            return None;
        }
        let mut most = Rolling {
            moment: Moment::ZERO,
            force: Force::ZERO,
            hook: 0,
            of_hook: (Check::Hook, Governing::NONE),
            rail: result.bending,
        };
        for (case, forces) in result.forces.iter().enumerate() {
            if matches!(self.cases[case].limit, Limit::Service) {
                continue;
            }
            let rolls = places().zip(forces).map(|(place, [n, s])| {
                let timber = self.settings[place.setting].timber[case];
                place.foot.under(*n, *s, timber).roll()
            });
            let rolls: Vec<f64> = rolls.map(Moment::nmm).collect();
            let largest = rolls.iter().fold(0.0_f64, |most, roll| most.max(roll.abs()));
            if largest == 0.0 {
                continue;
            }
            most.moment = most.moment.max(Moment::from_nmm(largest));
            let changes = changed_reactions(&spans, rolls);
            for (hook, (candidate, ([n, s], change))) in
                subset.iter().zip(forces.iter().zip(changes)).enumerate()
            {
                let change = Force::from_n(change);
                most.force = most.force.max(change.abs());
                for normal in [*n + change, *n - change] {
                    let forces = [normal, *s];
                    if self.hook_used(*candidate, case, forces) > most.of_hook.1.utilisation {
                        let mut used = HookResult::NONE;
                        self.check_hook(case, &self.candidates[*candidate], forces, &mut used);
                        (most.hook, most.of_hook) = (hook, used.governing());
                    }
                }
            }
        }
        most.rail.utilisation += most.moment / self.limits.bending.normal;
        (most.moment > Moment::ZERO).then_some(most)
    }
}

/// Changes of the reactions of a beam over these spans under a moment at each support, by the
/// slope-deflection method: moments `4θ` and `2θ` over the length at the ends of a span that turns.
fn changed_reactions(spans: &[f64], moments: Vec<f64>) -> Vec<f64> {
    let last = spans.len();
    let stiffness = |span: Option<usize>| {
        span.and_then(|span| spans.get(span)).map_or(0.0, |length| 1.0 / length)
    };
    let before = |support: usize| stiffness(support.checked_sub(1));
    let after = |support: usize| stiffness(Some(support));
    let mut diagonal: Vec<f64> = (0..=last).map(|at| 4.0 * (before(at) + after(at))).collect();
    let mut turns = moments;
    for at in 1..=last {
        let factor = 2.0 * before(at) / diagonal[at - 1];
        diagonal[at] -= factor * 2.0 * before(at);
        turns[at] -= factor * turns[at - 1];
    }
    turns[last] /= diagonal[last];
    for at in (0..last).rev() {
        turns[at] = (turns[at] - 2.0 * after(at) * turns[at + 1]) / diagonal[at];
    }
    let shears: Vec<f64> = turns
        .windows(2)
        .zip(spans)
        .map(|(turns, length)| 6.0 * (turns[0] + turns[1]) / (length * length))
        .collect();
    let shear = |span: Option<usize>| span.and_then(|span| shears.get(span)).map_or(0.0, |v| *v);
    (0..=last).map(|at| shear(at.checked_sub(1)) - shear(Some(at))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The change of every reaction, in pairs of what is wanted.
    fn is(spans: &[f64], moments: &[f64], wanted: &[f64]) {
        let have = changed_reactions(spans, moments.to_vec());
        let near = have.iter().zip(wanted).all(|(have, wanted)| (have - wanted).abs() < 1e-9);
        assert!(near && have.len() == wanted.len(), "{have:?}, not {wanted:?}");
    }

    /// Two hooks take 2 M/l between them, three in a row under equal moments 3 M/2l at the ends. A moment
    /// at the middle of three: 3 M/4l in each span, by the moments of half of it at the ends of two
    /// spans pinned at their far ends, M/2l.
    #[test]
    fn reactions_change_as_worked_by_hand() {
        is(&[2.0], &[3.0, 3.0], &[3.0, -3.0].map(|r: f64| -r));
        is(&[1.0, 1.0], &[1.0, 1.0, 1.0], &[-1.5, 0.0, 1.5]);
        is(&[1.0, 1.0], &[0.0, 1.0, 0.0], &[-0.5, 0.0, 0.5]);
    }

    /// Whatever the spans, the changes add up to nothing and turn back what the moments turn.
    #[test]
    fn changes_are_in_balance() {
        let spans = [0.4, 1.7, 0.9, 0.9, 2.3];
        let moments = [0.3, -1.0, 2.0, 0.7, 0.0, -0.4];
        let changes = changed_reactions(&spans, moments.to_vec());
        let places: Vec<f64> =
            (0..=spans.len()).map(|at| spans[..at].iter().sum::<f64>()).collect();
        let turned: f64 = changes.iter().zip(&places).map(|(change, x)| change * x).sum();
        assert!(changes.iter().sum::<f64>().abs() < 1e-12);
        assert!((turned.abs() - moments.iter().sum::<f64>().abs()).abs() < 1e-12, "{turned}");
    }
}
