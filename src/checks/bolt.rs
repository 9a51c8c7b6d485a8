//! The bolt that holds the rail to a hook, and its slot.

use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::BoltResistance;
use crate::units::Force;

/// What a bolt and its slot take.
#[derive(Debug, Clone, Copy)]
pub struct BoltLimits {
    /// The bolt by the rules; `None` where the resistance of the hook includes it.
    pub resistance: Option<BoltResistance>,
    /// Declared design force along the slot at which the bolt slips; `None` where there is no slot or
    /// nothing is declared.
    pub slip: Option<Force>,
    /// Declared design force along the rail at which the bolt slips in its groove; `None` where the rail does not
    /// run up the slope or nothing is declared.
    pub groove_slip: Option<Force>,
    /// Pull on the bolt for every unit of normal force, of a rail whose axis lies beside it: that
    /// distance over the lever of the joint, which is one bolt diameter (on the safe side).
    pub prying: f64,
}

impl BoltLimits {
    /// Utilisation under the forces of a hook. The request does not say which way the bolt points, so
    /// both are looked at: along the slope, where the normal force shears it and the slope force
    /// pulls on it; and square to the roof, where they change places and only lift pulls. The slot
    /// runs square to the roof: nothing but its declared slip resists the normal force. Nothing but its declared
    /// slip resists the slope force in the groove of a rail up the slope either.
    #[must_use]
    pub fn utilisation(&self, normal: Force, slope: Force) -> f64 {
        let [along, square] = self.demands(normal, slope).map(|[shear, tension]| {
            self.resistance.map_or(0.0, |bolt| bolt.utilisation(shear, tension))
        });
        let slip = self.slip.map_or(0.0, |slip| normal.abs() / slip);
        let in_groove = self.groove_slip.map_or(0.0, |slip| slope.abs() / slip);
        along.max(square).max(slip).max(in_groove)
    }

    /// Shear and tension of a bolt along the slope, and of one square to the roof.
    fn demands(&self, normal: Force, slope: Force) -> [[Force; 2]; 2] {
        let pry = normal.abs() * self.prying;
        let lift = (-normal).max(Force::ZERO) + pry;
        [[normal.abs(), slope.abs() + pry], [slope.abs(), lift]]
    }

    /// [`Self::utilisation`] with its provenance, after the steps of the resistance.
    #[must_use]
    pub fn steps(&self, normal: Force, slope: Force) -> Vec<Step> {
        const STATICS: Source = Source::Other("statics of the joint");
        const DECLARED: Source = Source::Other("declared");
        let step = |quantity, symbol, force: Force, source| {
            Step::new(quantity, symbol, force.kn(), "kN", source)
        };
        let [along, square] = self.demands(normal, slope);
        let used = self.utilisation(normal, slope);
        let slip = self.slip.map(|slip| step(Quantity::SlotSlip, "F_slip", slip, DECLARED));
        let groove_slip = self.groove_slip.map(|slip| {
            [
                step(Quantity::ForceAlongGroove, "S", slope.abs(), STATICS),
                step(Quantity::GrooveSlip, "F_groove", slip, DECLARED),
            ]
        });
        let of_bolt = self.resistance.map(|_| {
            [
                step(Quantity::BoltShearAlong, "F_v,a", along[0], STATICS),
                step(Quantity::BoltTensionAlong, "F_t,a", along[1], STATICS),
                step(Quantity::BoltShearSquare, "F_v,q", square[0], STATICS),
                step(Quantity::BoltTensionSquare, "F_t,q", square[1], STATICS),
            ]
        });
        let prying = Step::new(Quantity::BoltPrying, "off/d", self.prying, "", STATICS);
        let prying = self.resistance.map(|_| prying);
        let worst =
            Step::new(Quantity::Utilisation, "u", used, "", Source::Other("the most used way"));
        prying
            .into_iter()
            .chain(slip)
            .chain(of_bolt.into_iter().flatten())
            .chain(groove_slip.into_iter().flatten())
            .chain([worst])
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 10 kN in shear and 20 kN in tension, 28 kN beside shear; 4 kN of lift and 7 kN down the slope:
    ///
    /// * along the slope: 4/10 + 7/28 = 0.65, above 7/20;
    /// * square to the roof: 7/10 + 4/28 = 0.842857;
    /// * slip at 5 kN: 0.8, at 4 kN: 1.
    #[test]
    fn a_bolt_points_either_way_by_hand() {
        let kn = Force::from_kn;
        let resistance =
            BoltResistance { shear: kn(10.0), tension: kn(20.0), tension_beside_shear: kn(28.0) };
        let used = |slip: Option<f64>, normal: f64, slope: f64| {
            BoltLimits {
                resistance: Some(resistance),
                slip: slip.map(kn),
                groove_slip: None,
                prying: 0.0,
            }
            .utilisation(kn(normal), kn(slope))
        };
        let square = 7.0 / 10.0 + 4.0 / 28.0;
        for (used, by_hand) in [
            (used(None, -4.0, 7.0), square),
            (used(Some(5.0), -4.0, 7.0), square),
            (used(Some(4.0), -4.0, 7.0), 1.0),
            // Pressing pulls on no bolt.
            (used(None, 4.0, 7.0), 0.7),
            (used(None, 0.0, -7.0), 0.7),
        ] {
            assert!((used - by_hand).abs() < 1e-12, "{used}, by hand {by_hand}");
        }
        // 7 kN along a groove that holds 6.4: 1.09375, whichever way they act.
        let groove_slip = Some(kn(6.4));
        for slope in [7.0, -7.0] {
            let held =
                BoltLimits { resistance: Some(resistance), slip: None, groove_slip, prying: 0.0 };
            let used = held.utilisation(kn(4.0), kn(slope));
            assert!((used - 1.09375).abs() < 1e-12, "{used}");
        }
        // A rail 20 mm beside a bolt of 8 mm pulls with 2.5 times 4 kN besides: 4/10 + 17/28.
        let beside =
            BoltLimits { resistance: Some(resistance), slip: None, groove_slip: None, prying: 2.5 };
        let used = beside.utilisation(kn(4.0), kn(7.0));
        // Square to the roof: 7/10 + 10/28.
        assert!((used - (7.0 / 10.0 + 10.0 / 28.0)).abs() < 1e-12, "{used}");
    }
}
