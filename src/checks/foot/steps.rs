//! How a loaded foot found what it asks of its timber and of its screws.

use std::iter;

use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::mechanics::pressed_edge::Balance;
use crate::units::{Force, Length, Moment};

use super::{Centre, Demand, Edge, LoadedFoot};

const PLATE: Source = Source::Other("rigid plate");
const STRIP: Source = Source::Other("rigid plate on a strip of plastic timber");
const GEOMETRY: Source = Source::Other("geometry of the foot");
const STRIP_WIDTH: [Source; 2] = [
    Source::Other("B - 2·e·y/(y + e_N), at least B/5"),
    Source::Other("B - 2·e·y/(e_N - y), at least B/5"),
];
const STRIP_FORCE: Source = Source::Other("q·(a + min(a, s))");
const PULL: Source = Source::Other(
    "the larger of M·d/Σd² and ΣT·w/Σw of either edge, at least the equal share of a lift; and T_e",
);
const SIDEWAYS: Source = Source::Other(
    "N·(e - B/2) pressed about the near side, N·e lifted about the far one, each by z/Σz², z from that side of the timber to the screw",
);
const SHEAR: Source =
    Source::Other("√((1/n + λ·x/Σr²)² + (λ·y/Σr²)²), x and y from the centre of the screws");

impl LoadedFoot<'_> {
    /// How the plate is in balance on its lower and on its upper edge.
    #[must_use]
    pub fn edge_steps(&self) -> [Vec<Step>; 2] {
        let [lower, upper] = self.foot.moments(self.normal, self.slope);
        // A slope force that turns the plate about its lower edge relieves it about the upper one.
        let heights = [self.slope, -self.slope].map(|slope| self.foot.height_of(slope));
        let [by_lower, by_upper] = &self.foot.edges;
        [
            self.edge((by_lower, STRIP_WIDTH[0]), heights[0], lower, &self.edges[0]),
            self.edge((by_upper, STRIP_WIDTH[1]), heights[1], upper, &self.edges[1]),
        ]
    }

    fn edge(
        &self,
        (edge, narrowed): (&Edge, Source),
        height: Length,
        moment: Moment,
        balance: &Balance,
    ) -> Vec<Step> {
        let mm = |quantity, symbol, value, source| Step::new(quantity, symbol, value, "mm", source);
        let kn = |quantity, symbol, newton, source| {
            Step::new(quantity, symbol, Force::from_n(newton).kn(), "kN", source)
        };
        let knm = |quantity, symbol, nmm, source| {
            Step::new(quantity, symbol, Moment::from_nmm(nmm).knm(), "kN·m", source)
        };
        let pressed = &edge.pressed;
        let q = edge.borne_per_length(self.strength);
        let about_pulls = pressed.about_resultant(moment.nmm(), self.normal.n());
        vec![
            mm(Quantity::NormalArm, "e_N", edge.arm.mm(), GEOMETRY),
            mm(Quantity::SlopeArm, "h", height.mm(), GEOMETRY),
            knm(Quantity::MomentAboutEdge, "M", moment.nmm(), PLATE),
            mm(Quantity::PullArm, "y", pressed.resultant(), PLATE),
            knm(Quantity::MomentAboutPulls, "M_y", about_pulls, PLATE),
            mm(Quantity::ContactWidth, "B", (self.foot.half_bearing * 2.0).mm(), GEOMETRY),
            mm(Quantity::ArmAside, "e", self.foot.load_aside().mm(), GEOMETRY),
            mm(Quantity::StripWidth, "b", edge.width.mm(), narrowed),
            mm(Quantity::StripSpread, "s", pressed.spread(), STRIP),
            mm(Quantity::LongestStrip, "a_max", pressed.longest(), STRIP),
            Step::new(Quantity::StripStrength, "q", q, "N/mm", STRIP),
            knm(Quantity::LongestStripMoment, "M_y,max", pressed.most_moment(q), STRIP),
            mm(Quantity::StripLength, "a", balance.strip, STRIP),
            kn(Quantity::StripForce, "C", balance.compression, STRIP_FORCE),
            kn(Quantity::TotalPull, "ΣT", balance.pull, STRIP),
            Step::new(Quantity::StripUsed, "η", balance.used, "", STRIP),
        ]
    }

    /// What the timber is used to.
    #[must_use]
    pub fn timber_steps(&self) -> [Step; 3] {
        let area = self.foot.bearing_area;
        [
            Step::new(Quantity::BearingArea, "A_b", area, "mm²", GEOMETRY),
            Step::new(
                Quantity::PlainPressing,
                "N/(k_c,90 f_c,90,d A_b)",
                self.pressed_flat(),
                "",
                PLATE,
            ),
            Step::new(Quantity::Utilisation, "u", self.timber_used(), "", STRIP),
        ]
    }

    /// What is asked of every screw, one after the other, and how that was found; under a load that may stand
    /// in two places first of all in the left one.
    pub fn screw_steps(&self) -> impl Iterator<Item = (Demand, [Step; 11])> + '_ {
        let foot = self.foot;
        let [by_lower, by_upper] = [0, 1].map(|edge: usize| foot.edges[edge].pressed.screws());
        let loads = foot.loads.iter().flat_map(|at| iter::repeat_n(*at, foot.screws()));
        let levers = foot.screws.iter().zip(by_lower.iter().cycle()).zip(by_upper.iter().cycle());
        let levers = levers.zip(loads).zip(self.demands());
        levers.map(move |((((screw, by_lower), by_upper), load), demand)| {
            let pure = |quantity, symbol, value| Step::new(quantity, symbol, value, "", PLATE);
            let per_mm =
                |quantity, symbol, value| Step::new(quantity, symbol, value, "1/mm", PLATE);
            let kn = |quantity, symbol, force: Force, source| {
                Step::new(quantity, symbol, force.kn(), "kN", source)
            };
            let Centre { polar, aside, .. } = foot.centre;
            let steps = [
                pure(Quantity::ScrewCount, "n", foot.screws() as f64),
                per_mm(Quantity::SharpLeverLower, "d/Σd², lower", by_lower.sharp),
                pure(Quantity::PullShareLower, "w/Σw, lower", by_lower.share),
                per_mm(Quantity::SharpLeverUpper, "d/Σd², upper", by_upper.sharp),
                pure(Quantity::PullShareUpper, "w/Σw, upper", by_upper.share),
                kn(Quantity::SidewaysPull, "T_e", screw.pulled_sideways(self.normal), SIDEWAYS),
                Step::new(Quantity::ScrewsAboutCentre, "Σr²", polar, "mm²", GEOMETRY),
                Step::new(Quantity::ArmBesideCentre, "λ", (load - aside).mm(), "mm", GEOMETRY),
                Step::new(Quantity::ShearPerSlope, "V/S", screw.shear, "", SHEAR),
                kn(Quantity::ScrewPull, "T", demand.pull, PULL),
                kn(Quantity::ScrewShear, "V", demand.shear, PLATE),
            ];
            (demand, steps)
        })
    }
}
