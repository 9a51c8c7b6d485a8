//! The rail: bending about both axes, deflection of spans and free ends.
//!
//! Bending is elastic and about both axes at once, as the rules add them up. Deflection is taken in
//! each direction by itself, in the characteristic combinations, from the chord through the
//! neighbouring hooks: a span may give its length over the ratio, a free end twice that (a limit of
//! trade practice: EN 1999-1-1 leaves it to the client).
//!
//! The tip of a short free end moves by the slope of the rail at its hook times its length: as a share
//! of that length it tells the slope alone, however short the end is, and the slope is what the limit
//! of the span beside it is for. An end is therefore judged by itself from three depths of the rail on
//! (our own judgement), where it bends as a beam.

use crate::checks::crossing::CrossingLimits;
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{AxialResistance, RailResistance};
use crate::codes::{Code, Rules};
use crate::hardware::RailProfile;
use crate::mechanics::sweep::{self, Deflection, Part, Profile};
use crate::units::{Force, Length, Moment};

/// What a rail takes.
#[derive(Debug, Clone, Copy)]
pub struct RailLimits {
    /// In bending.
    pub bending: RailResistance,
    /// The same where pieces meet, if that is declared.
    pub splice: Option<RailResistance>,
    /// Along its axis, where the slope force goes that way.
    pub axial: Option<AxialResistance>,
    /// What a splice passes on of that, where it is known.
    pub splice_force: Option<Force>,
    /// What a connector bears where rails cross, if it is known.
    pub crossing: Option<CrossingLimits>,
    /// Span over deflection allowed.
    pub ratio: f64,
    /// Free ends shorter than this are not judged by their deflection.
    pub least_free_end: Length,
}

/// What a splice takes.
#[derive(Debug, Clone, Copy)]
pub struct SpliceLimits {
    /// In bending.
    pub bending: RailResistance,
    /// Along the axis of a rail that takes the slope force that way.
    pub force: Option<Force>,
}

impl SpliceLimits {
    /// Utilisation under two moments, normal and slope, and a force along the axis, as linear shares.
    #[must_use]
    pub fn utilisation(&self, [normal, slope]: [Moment; 2], axial: Force) -> f64 {
        let bent = self.bending.utilisation(normal, slope);
        bent + self.force.map_or(
            0.0,
            |force| {
                if axial == Force::ZERO { 0.0 } else { axial.abs() / force }
            },
        )
    }
}

/// Depths of a rail from which on a free end is judged by its deflection.
const DEPTHS_OF_FREE_END: f64 = 3.0;

impl RailLimits {
    /// Of a profile, which also takes the slope force along its axis or does not.
    #[must_use]
    pub fn of(rail: &RailProfile, rules: Rules, along_axis: bool) -> Self {
        let bending = rules.rail([rail.normal_modulus, rail.slope_modulus], rail.proof_strength);
        Self {
            splice: rail.splice_moment.map(|[normal, slope]| RailResistance {
                normal,
                slope,
                ..bending
            }),
            bending,
            axial: along_axis.then(|| {
                let softer = rail.normal_rigidity.min(rail.slope_rigidity);
                rules.rail_axial((rail.area, softer), rail.proof_strength)
            }),
            splice_force: rail.splice_force.filter(|_| along_axis),
            crossing: rail.crossing.map(|[lift, slide]| CrossingLimits { lift, slide }),
            ratio: rail.deflection_ratio,
            least_free_end: rail.depth * DEPTHS_OF_FREE_END,
        }
    }

    /// Bending utilisation under two moments in one place, normal and slope, N·mm.
    #[must_use]
    pub fn bending_of(&self, moments: [f64; 2]) -> f64 {
        let [n, s] = moments.map(Moment::from_nmm);
        self.bending.utilisation(n, s)
    }

    /// What a splice bears, where all of that is known: of bending what the rail does where nothing else is said,
    /// if it also bears a force along its axis that is.
    #[must_use]
    pub fn at_splices(&self) -> Option<SpliceLimits> {
        if self.axial.is_none() {
            return Some(SpliceLimits { bending: self.splice?, force: None });
        }
        let (bending, force) = (self.splice.unwrap_or(self.bending), self.splice_force?);
        Some(SpliceLimits { bending, force: Some(force) })
    }

    /// The same beside a force along its axis, N, in a rail so long without a support, mm.
    #[must_use]
    pub fn stressed(&self, moments: [f64; 2], axial: f64, length: f64) -> f64 {
        let bent = self.bending_of(moments);
        self.axial.map_or(bent, |resistance| {
            resistance.utilisation(bent, Force::from_n(axial), Length::from_mm(length))
        })
    }

    /// Largest utilisation along a rail under one combination, and where.
    fn stressed_most(&self, normal: &Profile, slope: &Profile) -> (f64, f64) {
        if self.axial.is_none() {
            return sweep::largest_of_two(normal, slope, |n, s, _| self.bending_of([n, s]));
        }
        let length = normal.longest_part();
        sweep::largest_of_two(normal, slope, |n, s, axial| self.stressed([n, s], axial, length))
    }

    /// Largest bending utilisation along a rail under one combination; 0 when it is not above
    /// `known`.
    #[must_use]
    pub fn bending_above(&self, known: f64, normal: &Profile, slope: &Profile) -> f64 {
        let (most, _) = self.stressed_most(normal, slope);
        if most < known { 0.0 } else { most }
    }

    /// The largest bending utilisation along a rail under one combination, with its provenance.
    #[must_use]
    pub fn bending_steps(&self, [normal, slope]: [&Profile; 2], along: Source) -> Vec<Step> {
        const STATICS: Source = Source::Other("beam on springs");
        let (used, x) = self.stressed_most(normal, slope);
        let place = Step::new(Quantity::PlaceOnRail, "x", x, "mm", STATICS);
        let moment = |quantity, symbol, profile: &Profile| {
            let moment = Moment::from_nmm(profile.moment_at(x));
            Step::new(quantity, symbol, moment.knm(), "kN·m", STATICS)
        };
        let bent = moment(Quantity::RailMomentNormal, "M_n", normal);
        if let Some(resistance) = &self.axial {
            const LONGEST: Source = Source::Other(
                "π²·E·I/l² about the softer axis, EN 1999-1-1 6.3.1.2, over the longest part without a hook",
            );
            let interaction = Source::Other("M_n/M_n,Rd / (1 - N/N_cr) + N/N_Rd");
            let axial = Force::from_n(slope.axial_at(x));
            let critical = resistance.critical_over(Length::from_mm(normal.longest_part()));
            return vec![
                place,
                bent,
                Step::new(Quantity::RailAxialForce, "N", axial.kn(), "kN", along),
                Step::new(Quantity::CriticalForce, "N_cr", critical.kn(), "kN", LONGEST),
                Step::new(Quantity::Utilisation, "u", used, "", interaction),
            ];
        }
        let interaction = Source::Other("interaction of both moments, as the rules have it");
        vec![
            place,
            bent,
            moment(Quantity::RailMomentSlope, "M_s", slope),
            Step::new(Quantity::Utilisation, "u", used, "", interaction),
        ]
    }

    /// What a deflection uses of what is allowed, with its provenance.
    #[must_use]
    pub fn deflection_steps(&self, deflection: &Deflection) -> [Step; 5] {
        const STATICS: Source = Source::Other("beam on springs");
        const LIMIT: Source = Source::Other("limit of deflection");
        let mm = |quantity, symbol, value, source| Step::new(quantity, symbol, value, "mm", source);
        let allowed = self.allowed(deflection);
        [
            mm(Quantity::PlaceOnRail, "x", deflection.x, STATICS),
            mm(Quantity::DeflectedLength, "l", Self::length_judged(deflection), STATICS),
            mm(Quantity::Deflection, "w", deflection.deflection, STATICS),
            mm(Quantity::AllowedDeflection, "w_max", allowed, LIMIT),
            Step::new(Quantity::Utilisation, "u", deflection.deflection / allowed, "", LIMIT),
        ]
    }

    /// Share of what is allowed that a deflection is, told as its share of the length of a span or
    /// of twice that of a free end.
    #[must_use]
    pub fn deflection_of(&self, share_of_length: f64) -> f64 {
        share_of_length * self.ratio
    }

    /// Whether a deflection is held against its limit: of every span, and of free ends that are long
    /// enough.
    #[must_use]
    pub fn judges(&self, deflection: &Deflection) -> bool {
        deflection.part == Part::Span || deflection.length >= self.least_free_end.mm()
    }

    /// Whether a length that a deflection is a share of, see [`Self::deflection_of`], can only be that
    /// of a span or free end that is judged: with room for the rounding of another path to it.
    #[must_use]
    pub fn surely_judges(&self, length: f64) -> bool {
        length > 2.0 * self.least_free_end.mm() + 1e-6
    }

    /// Deflection allowed of a span or a free end, mm.
    #[must_use]
    pub fn allowed(&self, deflection: &Deflection) -> f64 {
        Self::length_judged(deflection) / self.ratio
    }

    /// Length a deflection is held against, mm.
    fn length_judged(deflection: &Deflection) -> f64 {
        match deflection.part {
            Part::Span => deflection.length,
            Part::FreeEnd => 2.0 * deflection.length,
        }
    }

    /// The deflection of a profile that uses most of what is allowed, and how much, where that is
    /// more than `known`.
    #[must_use]
    pub fn deflection_above(
        &self,
        known: f64,
        profile: &Profile,
        rigidity: f64,
    ) -> Option<(f64, Deflection)> {
        let mut worst = known;
        let mut found = None;
        sweep::deflections_above(known / self.ratio, profile, rigidity, |d| {
            let allowed = self.allowed(&d);
            if self.judges(&d) && allowed > 0.0 && d.deflection / allowed > worst {
                worst = d.deflection / allowed;
                found = Some((worst, d));
            }
            worst / self.ratio
        });
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::vocabulary::Interaction;

    fn limits() -> RailLimits {
        RailLimits {
            bending: RailResistance {
                normal: Moment::from_knm(1.0),
                slope: Moment::from_knm(0.5),
                interaction: Interaction::Linear,
            },
            splice: None,
            axial: None,
            splice_force: None,
            crossing: None,
            ratio: 200.0,
            least_free_end: Length::ZERO,
        }
    }

    /// 0.4 of 1.0 kN·m square to the roof and 0.1 of 0.5 kN·m along it: 0.4 + 0.2.
    #[test]
    fn a_rail_is_bent_about_both_axes_by_hand() {
        assert!((limits().bending_of([-4e5, 1e5]) - 0.6).abs() < 1e-12);
    }

    /// A splice that bears half as much as the rail, 0.5 and 0.25 kN·m, under the half of both moments:
    /// 0.2 / 0.5 + 0.05 / 0.25.
    #[test]
    fn a_splice_is_bent_by_hand() {
        let rail = limits().bending;
        let splice = RailResistance { normal: rail.normal * 0.5, slope: rail.slope * 0.5, ..rail };
        let used = splice.utilisation(Moment::from_knm(-0.2), Moment::from_knm(0.05));
        assert!((used - 0.6).abs() < 1e-12);
    }

    /// 3 mm in a span of 900 mm are 1/300 of it: 2/3 of 1/200.
    #[test]
    fn a_rail_gives_way_by_hand() {
        assert!((limits().deflection_of(3.0 / 900.0) - 2.0 / 3.0).abs() < 1e-12);
    }

    /// A rail 40 mm deep judges ends from 120 mm on. At a ratio of 200 an end of 120 mm may give
    /// 2·120/200 = 1.2 mm; one of 40 mm that gives 0.5 mm, over its 0.4 mm, is not looked at.
    #[test]
    fn short_free_ends_are_left_to_the_span_beside_them() {
        let moment = Moment::from_nmm(1.0);
        let limits = RailLimits {
            bending: RailResistance {
                normal: moment,
                slope: moment,
                interaction: Interaction::Linear,
            },
            splice: None,
            axial: None,
            splice_force: None,
            crossing: None,
            ratio: 200.0,
            least_free_end: Length::from_mm(40.0 * DEPTHS_OF_FREE_END),
        };
        let of = |part: Part, length: f64, deflection: f64| Deflection {
            length,
            deflection,
            part,
            x: 0.0,
        };
        let [short, just, span] = [
            of(Part::FreeEnd, 40.0, 0.5),
            of(Part::FreeEnd, 120.0, 1.0),
            of(Part::Span, 40.0, 0.5),
        ];
        assert_eq!([short, just, span].map(|d| limits.judges(&d)), [false, true, true]);
        assert!((limits.allowed(&just) - 1.2).abs() < 1e-12);
        // A bound may not take for a judged end what rounding made longer than it is.
        assert_eq!([240.0, 241.0].map(|twice| limits.surely_judges(twice)), [false, true]);
    }
}
