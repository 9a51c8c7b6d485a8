//! EN 1990:2002+A1:2005, basis of structural design: which actions act together, and how much.
//!
//! **Signs.** Factors only; the sense of the wind is named, because the same roof is pressed by
//! one direction and lifted by another.
//!
//! **Left out.** Equilibrium of the whole
//! (set A), which roof hooks do not decide; frequent and quasi-permanent combinations.

use crate::codes::Clause;
use crate::codes::eurocode::annex::{Annex, PartialFactors as Printed, Strength};
use crate::codes::vocabulary::{ConsequenceClass, Factors, Sense, Situation};
use crate::units::Length;

/// `K_FI`: factor on unfavourable actions by consequence class.
///
/// EN 1990:2002 Annex B, Table B3: 0.9, 1.0, 1.1. The annex is informative: whether a country makes
/// use of it is a choice of its own.
///
/// Partly from memory: a help page on consequence classes prints the factors 0.9 and 1.1; which
/// countries do not lower is by none.
#[must_use]
pub const fn consequence_factor(class: ConsequenceClass, by_class: [f64; 3]) -> f64 {
    of_class(class, &by_class)
}

/// Of what stands by class: low, medium, high.
const fn of_class<T: Copy>(class: ConsequenceClass, by_class: &[T; 3]) -> T {
    let [low, medium, high] = by_class;
    match class {
        ConsequenceClass::Low => *low,
        ConsequenceClass::Medium => *medium,
        ConsequenceClass::High => *high,
    }
}

/// `ψ_0` of snow at the altitude of the site.
///
/// EN 1990:2002 Table A1.1: 0.5 up to 1000 m, 0.7 above.
///
/// Confirmed: a public library and a national summary; the list of northern countries that use
/// the higher value at any altitude is not part of this crate.
#[must_use]
pub fn snow_combination_factor(altitude: Length, annex: &Annex) -> f64 {
    if altitude > annex.snow_altitude_limit { annex.psi_0_snow_high } else { annex.psi_0_snow_low }
}

/// An action, as far as load duration tells them apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Action {
    /// Self-weight.
    Permanent,
    /// Snow.
    Snow,
    /// Wind.
    Wind,
}

/// One combination of actions: the factors on the characteristic values.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Combination {
    /// Actions in order of rank, leading variable action first after `G`; `-W` is lifting wind,
    /// `A` exceptional snow. Unique within a situation.
    pub name: &'static str,
    /// The limit it belongs to.
    pub situation: Situation,
    /// The rule it follows.
    pub clause: Clause,
    /// The sense of the wind, if any takes part.
    pub wind: Option<Sense>,
    /// Factors on the characteristic values.
    pub factors: Factors,
    /// The action of shortest duration taking part: it sets `k_mod` (EN 1995-1-1, 3.1.3(2)).
    pub shortest: Action,
}

/// Partial factors on the actions, `K_FI` included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartialFactors {
    /// `K_FI · γ_G,sup`.
    pub unfavourable: f64,
    /// `γ_G,inf`, on self-weight where it helps.
    pub favourable: f64,
    /// `K_FI · γ_Q`.
    pub variable: f64,
}

impl PartialFactors {
    /// Of what is known to act, not to be feared.
    pub const ONE: Self = Self { unfavourable: 1.0, favourable: 1.0, variable: 1.0 };

    /// Those an annex prints, with `K_FI` on what is unfavourable.
    const fn of(printed: Printed, k_fi: f64) -> Self {
        Self {
            unfavourable: k_fi * printed.permanent_unfavourable,
            favourable: printed.permanent_favourable,
            variable: k_fi * printed.variable,
        }
    }
}

/// Partial factors of every rule for strength that applies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DesignFactors {
    /// Of Eq. (6.10), or of Eq. (6.10b) where there is a pair.
    pub main: PartialFactors,
    /// The rule that one variable action acts by in full.
    pub clause: Clause,
    /// Of Eq. (6.10a), where there is a pair, and the rule.
    pub heavy: Option<(PartialFactors, Clause)>,
}

impl DesignFactors {
    /// Of what is known to act, not to be feared.
    pub const ONE: Self =
        Self { main: PartialFactors::ONE, clause: clause(Situation::Persistent), heavy: None };

    /// Those of an annex for a consequence class.
    #[must_use]
    pub const fn of(annex: &Annex, class: ConsequenceClass) -> Self {
        match annex.strength {
            Strength::Single { factors, consequence } => {
                let k_fi = consequence_factor(class, consequence);
                Self { main: PartialFactors::of(factors, k_fi), ..Self::ONE }
            }
            Strength::Pair { by_class, clauses: [heavy, light] } => {
                let pair = of_class(class, &by_class);
                Self {
                    main: PartialFactors::of(pair.light, 1.0),
                    clause: light,
                    heavy: Some((PartialFactors::of(pair.heavy, 1.0), heavy)),
                }
            }
        }
    }
}

/// All combinations a roof hook can be governed by.
///
/// EN 1990:2002, Eq. (6.10) or the pair (6.10a) and (6.10b) persistent, (6.11b) accidental, (6.14b)
/// characteristic, with the partial factors of design and `ψ_0` from the annex. Unfavourable factors
/// carry `k_fi`; the favourable permanent one does not.
///
/// In (6.10a), whose names begin with `Ga`, no variable action acts in full: each has its `ψ_0`. It is
/// left out where the weight helps, as (6.10b) has more of what lifts. What accompanies with `ψ_0 = 0` is
/// no part of a combination, and a combination that another one restates without it is left out.
///
/// Lifting wind is also combined with the full weight, with and without snow: on a steep slope snow
/// and weight drag the hook down the slope while the wind lifts it, and both components meet in one
/// check.
///
/// Snow takes no part where it helps (Table A1.2(B): 0 for favourable variable actions): each
/// combination of wind and snow stands here without the snow, too. So more snow never lowers what is
/// used most.
///
/// In the accidental combination snow itself is the accidental action. (6.11b) leaves the choice between
/// `ψ_1` and `ψ_2` of the leading variable action to the country: with `ψ_2 = 0` the wind takes no part,
/// with `ψ_1` a fifth of it presses beside the snow. Its duration is counted as that of
/// snow, on the safe side of "instantaneous".
///
/// Partly from memory: (6.10), the factors and `ψ_0` are confirmed by a public library and two
/// summaries; (6.11b) is not.
#[must_use]
pub fn combinations(
    annex: &Annex,
    design: DesignFactors,
    psi_0_snow: f64,
    exceptional: bool,
) -> Vec<Combination> {
    let psi_0_wind = annex.psi_0_wind;
    let PartialFactors { unfavourable: g_sup, favourable: g_inf, variable: q } = design.main;

    let strength = Row { situation: Situation::Persistent, clause: design.clause };
    let service = Row::of(Situation::Characteristic);
    let mut all = vec![
        strength.calm("G", g_sup, 0.0),
        strength.calm("G+S", g_sup, q),
        strength.windy("G+S+W", Sense::Pressing, g_sup, q, q * psi_0_wind),
        strength.windy("G+W+S", Sense::Pressing, g_sup, q * psi_0_snow, q),
        strength.windy("G+W", Sense::Pressing, g_sup, 0.0, q),
        strength.windy("G-W", Sense::Lifting, g_inf, 0.0, q),
        strength.windy("Gsup-W", Sense::Lifting, g_sup, 0.0, q),
        strength.windy("G-W+S", Sense::Lifting, g_sup, q * psi_0_snow, q),
        strength.windy("G+S-W", Sense::Lifting, g_sup, q, q * psi_0_wind),
        service.calm("G", 1.0, 0.0),
        service.calm("G+S", 1.0, 1.0),
        service.windy("G+S+W", Sense::Pressing, 1.0, 1.0, psi_0_wind),
        service.windy("G+W+S", Sense::Pressing, 1.0, psi_0_snow, 1.0),
        service.windy("G+W", Sense::Pressing, 1.0, 0.0, 1.0),
        service.windy("G-W", Sense::Lifting, 1.0, 0.0, 1.0),
    ];
    if let Some((PartialFactors { unfavourable: g, variable: q, .. }, clause)) = design.heavy {
        let heavy = Row { situation: Situation::Persistent, clause };
        let (snow, wind) = (q * psi_0_snow, q * psi_0_wind);
        all.extend([
            heavy.calm("Ga", g, 0.0),
            heavy.calm("Ga+S", g, snow),
            heavy.windy("Ga+W", Sense::Pressing, g, 0.0, wind),
            heavy.windy("Ga+S+W", Sense::Pressing, g, snow, wind),
            heavy.windy("Ga-W", Sense::Lifting, g, 0.0, wind),
            heavy.windy("Ga+S-W", Sense::Lifting, g, snow, wind),
        ]);
    }
    if exceptional {
        let accidental = Row::of(Situation::Accidental);
        let with_snow = |row: Combination| Combination {
            factors: Factors { exceptional_snow: 1.0, ..row.factors },
            shortest: Action::Snow,
            ..row
        };
        let wind = annex.psi_wind_accidental;
        all.push(with_snow(accidental.calm("G+A", 1.0, 0.0)));
        all.push(with_snow(accidental.windy("G+A+W", Sense::Pressing, 1.0, 0.0, wind)));
    }
    all.retain(Combination::has_what_it_names);
    all
}

impl Combination {
    /// Whether no action in its name has come to nothing.
    fn has_what_it_names(&self) -> bool {
        let snow = self.factors.snow > 0.0 || !self.name.contains('S');
        let wind = self.factors.wind > 0.0 || self.wind.is_none();
        snow && wind
    }
}

const BASIS: &str = "EN 1990:2002";

/// The rule that combines actions in a situation.
pub(super) const fn clause(situation: Situation) -> Clause {
    match situation {
        Situation::Persistent => Clause::new(BASIS, "6.4.3.2, Eq. (6.10)"),
        Situation::Accidental => Clause::new(BASIS, "6.4.3.3, Eq. (6.11b)"),
        Situation::Characteristic => Clause::new(BASIS, "6.5.3(2)a, Eq. (6.14b)"),
    }
}

/// Writes combinations of one situation.
#[derive(Clone, Copy)]
struct Row {
    situation: Situation,
    clause: Clause,
}

impl Row {
    const fn of(situation: Situation) -> Self {
        Self { situation, clause: clause(situation) }
    }

    fn calm(self, name: &'static str, permanent: f64, snow: f64) -> Combination {
        Combination {
            name,
            situation: self.situation,
            clause: self.clause,
            wind: None,
            factors: Factors { permanent, snow, exceptional_snow: 0.0, wind: 0.0 },
            shortest: if snow > 0.0 { Action::Snow } else { Action::Permanent },
        }
    }

    fn windy(
        self,
        name: &'static str,
        sense: Sense,
        permanent: f64,
        snow: f64,
        wind: f64,
    ) -> Combination {
        let calm = self.calm(name, permanent, snow);
        Combination {
            wind: Some(sense),
            factors: Factors { wind, ..calm.factors },
            shortest: Action::Wind,
            ..calm
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::eurocode::annex;

    #[test]
    fn names_are_unique_within_a_situation() {
        for annex in annex::ALL {
            let design = DesignFactors::of(annex, ConsequenceClass::Medium);
            let all = combinations(annex, design, 0.5, true);
            for (i, one) in all.iter().enumerate() {
                let twin = |other: &Combination| {
                    other.name == one.name && other.situation == one.situation
                };
                assert!(!all.iter().skip(i + 1).any(twin), "{}: {} twice", annex.code, one.name);
            }
        }
    }

    #[test]
    fn the_consequence_class_spares_the_favourable_weight() {
        let design = DesignFactors::of(annex::ALL[0], ConsequenceClass::High);
        let all = combinations(annex::ALL[0], design, 0.5, false);
        let uplift = all.iter().find(|c| c.name == "G-W").copied();
        assert_eq!(uplift.map(|c| (c.factors.permanent, c.factors.wind)), Some((1.0, 1.1 * 1.5)));
        assert!(all.iter().all(|c| c.situation != Situation::Accidental));
    }

    #[test]
    fn what_was_observed_has_no_factor() {
        let PartialFactors { unfavourable, favourable, variable } = PartialFactors::ONE;
        assert_eq!((unfavourable, favourable, variable), (1.0, 1.0, 1.0));
    }
}
