//! The foot plate: what a hook's forces do to its screws and to the timber it stands on.
//!
//! **Model.** Rigid plate, screws pull but do not push, and the edge the plate turns about bears on a
//! strip of timber ([`PressedEdge`]). With `reach` from the foot's lower edge down the slope to the
//! rail bolt, `h` the bolt's height above the face the foot bears on (packers included), `L_f` the
//! foot's length:
//! * pressing, the plate turns about its lower edge, `M = N·reach + S·h`;
//! * lifting, about its upper edge, `M = −N·(reach + L_f) − S·h`;
//! * both edges are looked at and the larger pull counts.
//! * Lifting, no screw is credited with less than its equal share of the lift: the moment of the
//!   slope force may relieve the turning, not the lift itself.
//! * The bolt may stand anywhere between two heights. A slope force that turns the plate acts at the
//!   upper one, one that relieves it at the lower one.
//!
//! Sideways, with the load `e` off the rafter axis, the plate turns about the edge of the timber it
//! bears on, half-width `b`: pressing by `N·(e − b)` once the load stands outside, lifting by
//! `|N|·e`; these pulls are added. The strip an edge bears on shifts towards the load, and is as much
//! narrower on either side ([`Self::new`](FootModel::new)). The slope force is shared equally, and its
//! moment about the screws' centre is added as a vector. A load that may stand in either of two places
//! asks of every screw what it does in the one and in the other.
//!
//! **Checked by** hand sums in the tests below and own derivations with worked cases in
//! `tests/reference/cases/models`; statics only, no source needed.

mod steps;
pub mod turning;

use crate::hardware::Foot;
use crate::mechanics::plate;
use crate::mechanics::pressed_edge::{Balance, PressedEdge};
use crate::units::{Force, Length, Moment, Stress};

/// Demand on one screw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Demand {
    /// Pull along the screw.
    pub pull: Force,
    /// Shear across it.
    pub shear: Force,
}

/// How a foot stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stance {
    /// From the foot's lower edge down the slope to the rail bolt.
    pub reach: Length,
    /// The rail bolt above the face the foot bears on, at its highest and at its lowest.
    pub heights: [Length; 2],
    /// Leftmost and rightmost place where the load may stand beside the rafter axis, positive to the right:
    /// one place where that is known.
    pub load: [Length; 2],
    /// Width of the timber under the foot.
    pub bearing_width: Length,
    /// How far pressure spreads in the timber beyond the lower and beyond the upper edge.
    pub spread: [Length; 2],
}

/// A foot with its levers worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct FootModel {
    /// Lower and upper.
    edges: [Edge; 2],
    /// Rail bolt at its highest and at its lowest.
    heights: [Length; 2],
    /// Area that takes plain pressing.
    bearing_area: f64,
    half_bearing: Length,
    /// Places where the load may stand beside the rafter axis, one or two.
    loads: Vec<Length>,
    /// Every screw under the load in the first place, and after these in the second.
    screws: Vec<ScrewLevers>,
    centre: Centre,
}

/// The middle of the screws.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Centre {
    aside: Length,
    up: Length,
    /// Sum of the squared distances of the screws from it, mm².
    polar: f64,
}

/// An edge of the foot.
#[derive(Debug, Clone, PartialEq)]
struct Edge {
    /// Arm of a normal force that turns the plate about it.
    arm: Length,
    /// Width of the strip it bears on.
    width: Length,
    pressed: PressedEdge,
}

/// A foot in a few numbers, for bounds on what it can carry.
#[derive(Debug, Clone, Copy)]
pub struct FootLevers {
    /// Largest pull per moment about the lower edge, 1/mm.
    pub lower_edge: f64,
    /// Largest pull per moment about the upper edge, 1/mm.
    pub upper_edge: f64,
    /// Arm of a pressing force about the lower edge.
    pub press_arm: Length,
    /// Arm of a lifting force about the upper edge.
    pub lift_arm: Length,
    /// Arm of a slope force that turns the plate.
    pub slope_arm: Length,
    /// Arm of a slope force that relieves it.
    pub relief_arm: Length,
    /// Largest shear per slope force.
    pub shear: f64,
}

/// What a screw is asked for under a load in one place.
#[derive(Debug, Clone, Copy, PartialEq)]
struct ScrewLevers {
    /// Its pull sideways per pressing force, about the near edge of the timber.
    pressed: f64,
    /// Its pull sideways per lifting force, about the far one.
    lifted: f64,
    /// Its shear per slope force.
    shear: f64,
    /// Where it stands beside the axis of the rafter.
    aside: Length,
    /// Where it stands up the slope.
    up: Length,
}

impl ScrewLevers {
    /// Pull sideways by a normal force.
    #[inline]
    fn pulled_sideways(&self, normal: Force) -> Force {
        normal.max(Force::ZERO) * self.pressed + (-normal).max(Force::ZERO) * self.lifted
    }
}

/// A foot under the forces of its hook.
#[derive(Debug, Clone, Copy)]
pub struct LoadedFoot<'a> {
    foot: &'a FootModel,
    normal: Force,
    slope: Force,
    /// At the lower and at the upper edge.
    edges: [Balance; 2],
    strength: Stress,
}

impl FootModel {
    /// Moment of a hook's forces where its arm rises from the plate, which the plate has to bear; the larger
    /// of that with the bolt at its highest and at its lowest.
    #[must_use]
    pub fn root_moment(&self, normal: Force, slope: Force) -> Moment {
        let by_normal = normal * self.edges[0].arm;
        let of = |height: Length| (by_normal + slope * height).abs();
        let [highest, lowest] = self.heights;
        of(highest).max(of(lowest))
    }

    /// Works out the levers.
    ///
    /// Off the rafter axis, three forces are in balance on a line: the hook's, the pulls on the
    /// axis, and what the edge bears on. With `y` from the edge to the pulls and `r` to the hook's
    /// force, that is `e·y/(y + r)` off the axis when the force is outside the pressed edge, and
    /// `e·y/(r - y)` when it is beyond the screws. A strip centred there is narrower by twice that;
    /// a fifth of the timber's width is left whatever comes out.
    #[must_use]
    pub fn new(foot: &Foot, stance: &Stance) -> Self {
        let Stance { reach, heights, load, bearing_width, spread } = *stance;
        let width = foot.width.min(bearing_width);
        let half_bearing = width / 2.0;
        let centre = Centre::of(foot);
        let loads = if load[0] == load[1] { vec![load[0]] } else { load.to_vec() };
        let screws =
            loads.iter().flat_map(|at| screw_levers(foot, half_bearing, &centre, *at)).collect();
        let farthest = load[0].abs().max(load[1].abs());
        let strip_width = |off: f64| (width - farthest * (2.0 * off)).max(width / 5.0);
        let ups = foot.screws.iter().map(|s| s[1].mm());
        let lower = PressedEdge::new(ups.clone(), spread[0].mm());
        let upper = PressedEdge::new(ups.map(|up| foot.length.mm() - up), spread[1].mm());
        let arms = [reach, reach + foot.length];
        let off_lower = lower.resultant() / (lower.resultant() + arms[0].mm());
        let off_upper = upper.resultant() / (arms[1].mm() - upper.resultant());
        Self {
            edges: [
                Edge { arm: arms[0], width: strip_width(off_lower), pressed: lower },
                Edge { arm: arms[1], width: strip_width(off_upper), pressed: upper },
            ],
            heights,
            bearing_area: (width * (foot.length + spread[0] + spread[1])).mm2(),
            half_bearing,
            loads,
            screws,
            centre,
        }
    }

    /// Number of screws.
    #[must_use]
    pub fn screws(&self) -> usize {
        self.screws.len() / self.loads.len()
    }

    /// How far the load may stand from the axis of the rafter.
    fn load_aside(&self) -> Length {
        self.loads.iter().map(|at| at.abs()).fold(Length::ZERO, Length::max)
    }

    /// Least a unit of moment about the lower and about the upper edge pulls on the most pulled
    /// screw, the arms of normal and slope force about those edges, and the largest shear per slope
    /// force.
    #[must_use]
    pub fn levers(&self) -> FootLevers {
        let [lower, upper] = &self.edges;
        FootLevers {
            lower_edge: lower.pressed.least_lever(),
            upper_edge: upper.pressed.least_lever(),
            press_arm: lower.arm,
            lift_arm: upper.arm,
            slope_arm: self.heights[0],
            relief_arm: self.heights[1],
            shear: self.screws.iter().map(|s| s.shear).fold(0.0, f64::max),
        }
    }

    /// Of each screw, under the load in each of its places: its shear per slope force, and its pull sideways
    /// per pressing and per lifting force.
    pub fn screw_levers(&self) -> impl Iterator<Item = [f64; 3]> + '_ {
        self.screws.iter().map(|s| [s.shear, s.pressed, s.lifted])
    }

    /// The foot under a normal and a slope force on timber that bears this stress.
    #[must_use]
    #[inline]
    pub fn under(&self, normal: Force, slope: Force, strength: Stress) -> LoadedFoot<'_> {
        let [lower, upper] = &self.edges;
        let [about_lower, about_upper] = self.moments(normal, slope);
        let edges = [
            lower.balance(about_lower, normal, strength),
            upper.balance(about_upper, normal, strength),
        ];
        LoadedFoot { foot: self, normal, slope, edges, strength }
    }

    /// Moments of a normal and a slope force about the lower and about the upper edge.
    #[inline]
    fn moments(&self, normal: Force, slope: Force) -> [Moment; 2] {
        let [lower, upper] = &self.edges;
        [normal * lower.arm + self.turned_by(slope), self.turned_by(-slope) - normal * upper.arm]
    }

    /// The same under forces somewhere between two corners, each edge as little loaded as it may be:
    /// the lower one in the corner of the lowest forces, the upper one in that of the highest.
    #[must_use]
    pub fn least_under(
        &self,
        [low, high]: [[Force; 2]; 2],
        nearest_to_zero: [Force; 2],
        strength: Stress,
    ) -> LoadedFoot<'_> {
        let [lower, upper] = &self.edges;
        let edges = [
            lower.balance(low[0] * lower.arm + self.turned_by(low[1]), low[0], strength),
            upper.balance(self.turned_by(-high[1]) - high[0] * upper.arm, high[0], strength),
        ];
        let [normal, slope] = nearest_to_zero;
        LoadedFoot { foot: self, normal, slope, edges, strength }
    }

    /// Moment of a slope force, positive where it turns the plate about the edge it points to: at
    /// the height of the bolt that turns it most or relieves it least.
    fn turned_by(&self, slope: Force) -> Moment {
        (slope * self.heights[0]).max(slope * self.heights[1])
    }

    /// The height that a slope force acts at, of the two there are.
    fn height_of(&self, slope: Force) -> Length {
        let [upper, lower] = self.heights;
        if slope * upper >= slope * lower { upper } else { lower }
    }

    /// A foot none of whose screws, and no part of whose timber, is loaded more than those of any of
    /// `feet` that are set alike: for lower bounds. `None` of no feet.
    ///
    /// Sideways pulls are dropped, each screw keeps its smallest shear and each edge its widest strip.
    #[must_use]
    pub fn least_loaded<'a>(mut feet: impl Iterator<Item = &'a Self>) -> Option<Self> {
        let mut least = feet.next()?.clone();
        for screw in &mut least.screws {
            (screw.pressed, screw.lifted) = (0.0, 0.0);
        }
        for foot in feet {
            for (least, screw) in least.screws.iter_mut().zip(&foot.screws) {
                least.shear = least.shear.min(screw.shear);
            }
            for (least, edge) in least.edges.iter_mut().zip(&foot.edges) {
                least.width = least.width.max(edge.width);
            }
        }
        Some(least)
    }
}

impl Edge {
    #[inline]
    fn balance(&self, moment: Moment, normal: Force, strength: Stress) -> Balance {
        self.pressed.balance(moment.nmm(), normal.n(), self.borne_per_length(strength))
    }

    /// What the timber bears per length of the strip, N/mm.
    #[inline]
    fn borne_per_length(&self, strength: Stress) -> f64 {
        strength.n_per_mm2() * self.width.mm()
    }
}

impl LoadedFoot<'_> {
    /// Demand on every screw, under the load in each of its places.
    #[inline]
    pub fn demands(&self) -> impl Iterator<Item = Demand> + '_ {
        let Self { foot, normal, slope, edges: [lower, upper], .. } = self;
        let lift = (-*normal).max(Force::ZERO);
        let share = lift / foot.screws() as f64;
        let along = slope.abs();
        let [by_lower, by_upper] = [0, 1].map(|edge: usize| foot.edges[edge].pressed.screws());
        let levers = foot.screws.iter().zip(by_lower.iter().cycle()).zip(by_upper.iter().cycle());
        levers.map(move |((screw, by_lower), by_upper)| {
            let tilting = Force::from_n(lower.on(by_lower).max(upper.on(by_upper))).max(share);
            Demand { pull: tilting + screw.pulled_sideways(*normal), shear: along * screw.shear }
        })
    }

    /// Moment about the line of the slope that the pulls of screws beside the axis of the rafter leave
    /// without a balance under the foot: the larger of all screws pulling and of those farthest from an
    /// edge doing so alone, under the load in any of its places.
    #[must_use]
    pub fn roll(&self) -> Moment {
        let screws = &self.foot.screws;
        let ups = || screws.iter().map(|screw| screw.up);
        let [lowest, highest] = [ups().reduce(Length::min), ups().reduce(Length::max)];
        let pulls: [&dyn Fn(Length) -> bool; 3] =
            [&|_| true, &|up| Some(up) == highest, &|up| Some(up) == lowest];
        let loaded: Vec<(Demand, &ScrewLevers)> = self.demands().zip(screws).collect();
        let mut most = Moment::ZERO;
        for under_load in loaded.chunks_exact(self.foot.screws()) {
            for pulls in pulls {
                let pulling = under_load.iter().filter(|(_, screw)| pulls(screw.up));
                let roll: Moment = pulling.map(|(demand, screw)| demand.pull * screw.aside).sum();
                if roll.abs() > most.abs() {
                    most = roll;
                }
            }
        }
        most
    }

    /// Utilisation of the timber under the foot: of its edges, or of all of it where the foot is
    /// pressed flat.
    #[must_use]
    #[inline]
    pub fn timber_used(&self) -> f64 {
        self.edges.iter().map(|edge| edge.used).fold(self.pressed_flat(), f64::max)
    }

    /// Utilisation of the timber under a foot that is pressed flat.
    #[inline]
    fn pressed_flat(&self) -> f64 {
        self.normal.n().max(0.0) / (self.strength.n_per_mm2() * self.foot.bearing_area)
    }

    /// How the plate is in balance on its lower and on its upper edge.
    #[must_use]
    pub const fn edges(&self) -> &[Balance; 2] {
        &self.edges
    }
}

impl Centre {
    fn of(foot: &Foot) -> Self {
        let n = foot.screws.len() as f64;
        let [aside, up] =
            [0, 1].map(|axis: usize| foot.screws.iter().map(|s| s[axis]).sum::<Length>() / n);
        let squared = |s: &[Length; 2]| (s[0] - aside).mm().powi(2) + (s[1] - up).mm().powi(2);
        Self { aside, up, polar: foot.screws.iter().map(squared).sum() }
    }
}

/// What every screw of a foot on timber of this half-width is asked for by a load so far beside the rafter axis.
fn screw_levers(
    foot: &Foot,
    half_bearing: Length,
    centre: &Centre,
    load: Length,
) -> Vec<ScrewLevers> {
    let n = foot.screws.len() as f64;
    let sign = if load < Length::ZERO { -1.0 } else { 1.0 };
    let turn = if centre.polar > 0.0 { (load - centre.aside).mm() / centre.polar } else { 0.0 };
    let from_side = load.abs().mm();
    let beyond = (load.abs() - half_bearing).max(Length::ZERO).mm();
    let near = per_moment(foot, |s| half_bearing - sign * s[0]);
    let far = per_moment(foot, |s| half_bearing + sign * s[0]);
    let sides = near.zip(far);
    let levers = foot.screws.iter().zip(sides).map(|([x, y], (near, far))| {
        let along = 1.0 / n + turn * (*x - centre.aside).mm();
        let across = turn * (*y - centre.up).mm();
        ScrewLevers {
            pressed: beyond * near,
            lifted: from_side * far,
            shear: along.hypot(across),
            aside: *x,
            up: *y,
        }
    });
    levers.collect()
}

/// Pull of each screw of a foot per unit of moment about the edge they are this far from.
fn per_moment(
    foot: &Foot,
    distance: impl Fn(&[Length; 2]) -> Length + Clone,
) -> impl Iterator<Item = f64> {
    plate::pulls(Moment::from_nmm(1.0), foot.screws.iter().map(distance)).map(Force::n)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn foot() -> Foot {
        let mm = Length::from_mm;
        Foot {
            length: mm(90.0),
            width: mm(140.0),
            thickness: mm(6.0),
            lateral_range: mm(45.0),
            screws: vec![[mm(-14.0), mm(15.0)], [mm(14.0), mm(75.0)]],
        }
    }

    fn model(screws: Vec<[Length; 2]>, offset: f64) -> FootModel {
        let mm = Length::from_mm;
        let stance = Stance {
            reach: mm(262.0),
            heights: [mm(105.0); 2],
            load: [mm(offset); 2],
            bearing_width: mm(50.0),
            spread: [mm(30.0); 2],
        };
        FootModel::new(&Foot { screws, ..foot() }, &stance)
    }

    const HARD: Stress = Stress::from_n_per_mm2(f64::INFINITY);

    fn demands(offset: f64, n: f64, s: f64) -> Vec<Demand> {
        let model = model(foot().screws, offset);
        model.under(Force::from_kn(n), Force::from_kn(s), HARD).demands().collect()
    }

    /// 1 kN at 262 mm and 0.5 kN at 105 mm: 314.5 N·m where the arm rises; lifted by 1 kN, the slope
    /// force takes 52.5 N·m off, and nothing where the bolt may lie as low as the plate.
    #[test]
    fn a_plate_is_bent_where_its_arm_rises() {
        let mut model = model(foot().screws, 0.0);
        let root = |model: &FootModel, n: f64, s: f64| {
            model.root_moment(Force::from_kn(n), Force::from_kn(s)).nmm()
        };
        assert!((root(&model, 1.0, 0.5) - 314_500.0).abs() < 1e-6);
        assert!((root(&model, -1.0, 0.5) - 209_500.0).abs() < 1e-6);
        model.heights[1] = Length::ZERO;
        assert!((root(&model, -1.0, 0.5) - 262_000.0).abs() < 1e-6);
    }

    /// The far screw of `pressing_pulls_the_upper_screw` stands 14 mm aside: 14·4.193 = 58.7 N·m. Of two
    /// screws in one row neither side wins.
    #[test]
    fn a_foot_rolls_to_the_side_of_its_pulled_screw() {
        let mm = Length::from_mm;
        let roll = |screws| {
            let model = model(screws, 0.0);
            model.under(Force::from_kn(1.0), Force::from_kn(0.5), HARD).roll().nmm()
        };
        assert!((roll(foot().screws) - 58_707.0).abs() < 1.0);
        let row = |up: f64| [[mm(-14.0), mm(up)], [mm(14.0), mm(up)]];
        assert!(roll([row(15.0), row(75.0)].concat()).abs() < 1e-6);
        assert!(roll(vec![[mm(0.0), mm(15.0)], [mm(0.0), mm(75.0)]]).abs() < 1e-6);
        assert!(roll(vec![[mm(14.0), mm(15.0)], [mm(-14.0), mm(75.0)]]) < -58_000.0);
    }

    /// By hand, on timber so hard that the edge is sharp: M = 1.0·262 + 0.5·105 = 314.5 kN·mm; the far
    /// screw alone pulls 314.5/75 = 4.193 kN. Were both to pull, Σd² = 15² + 75² = 5850 mm², the near
    /// one would with 314.5·15/5850 = 0.806 kN. Shear 0.25 kN each.
    #[test]
    fn pressing_pulls_the_upper_screw() {
        let d = demands(0.0, 1.0, 0.5);
        assert!((d[1].pull.kn() - 4.193_33).abs() < 1e-4);
        assert!((d[0].pull.kn() - 0.806_41).abs() < 1e-4);
        assert!((d[0].shear.kn() - 0.25).abs() < 1e-12);
    }

    /// By hand: M = 0.8·352 − 0.3·105 = 250.1 kN·mm about the upper edge; the lower screw is
    /// 75 mm from it: 250.1/75 = 3.335 kN.
    #[test]
    fn lifting_pulls_the_lower_screw() {
        let d = demands(0.0, -0.8, 0.3);
        assert!((d[0].pull.kn() - 3.334_67).abs() < 1e-4);
    }

    /// By hand, 1.0 kN and 0.5 kN on timber of 2.4 N/mm² under a strip of 50 mm: q = 120 N/mm, moment
    /// about the pulls 314.5 + 75 = 389.5 kN·mm. The longest strip, 37.5 mm, bears
    /// 120·(37.5 + 30)·(75 - 18.75) = 455.6 kN·mm: used to 0.8549. The strip is
    /// 75 - √(75² - 389 500/120) = 26.22 mm long and pressed with 2·120·26.22 = 6.294 kN, so the far
    /// screw pulls 5.294 kN.
    #[test]
    fn a_foot_presses_into_its_timber_by_hand() {
        let mm = Length::from_mm;
        let stance = Stance {
            reach: mm(262.0),
            heights: [mm(105.0); 2],
            load: [Length::ZERO; 2],
            bearing_width: mm(50.0),
            spread: [mm(30.0); 2],
        };
        let foot = FootModel::new(&foot(), &stance);
        let timber = Stress::from_n_per_mm2(2.4);
        let loaded = foot.under(Force::from_kn(1.0), Force::from_kn(0.5), timber);
        assert!((loaded.timber_used() - 0.8549).abs() < 1e-4, "{}", loaded.timber_used());
        let far = loaded.demands().map(|demand| demand.pull.kn()).fold(0.0, f64::max);
        assert!((far - 5.294).abs() < 1e-3, "{far}");
    }

    /// The moment of a large slope force must not wish the lift away: half of 0.1 kN each.
    #[test]
    fn a_lift_is_never_less_than_its_equal_share() {
        let d = demands(0.0, -0.1, 0.4);
        assert!(d.iter().all(|d| d.pull.kn() >= 0.05));
    }

    /// By hand, arm 45 mm right of the axis on a 50 mm batten: M = 1.0·(45 − 25) = 20 kN·mm about
    /// the batten's right edge, 11 and 39 mm from the screws: 20·39/(121 + 1521) = 0.475 kN on the
    /// left one, which the slope-wise moment pulls by 262·15/5850 = 0.672 kN.
    #[test]
    fn an_arm_beyond_the_batten_pulls_the_far_screw() {
        let d = demands(45.0, 1.0, 0.0);
        assert!((d[0].pull.kn() - (0.671_79 + 0.475_03)).abs() < 1e-4);
    }

    /// 1 kN down the slope, 10 mm to one side of the axis or to the other: Σr² = 2·(14² + 30²) = 2192 mm². Of the
    /// lower screw, 14 mm left of the axis, (1/2 - 10·14/2192, 10·30/2192) under the load to the right and
    /// (1/2 + 10·14/2192, 10·30/2192) to the left: 0.457 and 0.580 kN; of the upper one the other way round.
    /// Lifted by 1 kN either way by 10 kN·mm about the far edge, 11 and 39 mm away, or 39 and 11 mm.
    #[test]
    fn a_load_on_either_side_asks_of_screws_what_it_does_on_each() {
        let mm = Length::from_mm;
        let either = FootModel::new(
            &foot(),
            &Stance {
                reach: mm(262.0),
                heights: [mm(105.0); 2],
                load: [mm(-10.0), mm(10.0)],
                bearing_width: mm(50.0),
                spread: [mm(30.0); 2],
            },
        );
        assert_eq!(either.screws(), 2);
        let shear = either.screw_levers().map(|[shear, ..]| shear);
        let by_hand = [0.580_240, 0.457_101, 0.457_101, 0.580_240];
        for (shear, by_hand) in shear.zip(by_hand) {
            assert!((shear - by_hand).abs() < 1e-6, "{shear}, by hand {by_hand}");
        }
        let all = |model: &FootModel, n: f64| -> Vec<Demand> {
            model.under(Force::from_kn(n), Force::from_kn(0.4), HARD).demands().collect()
        };
        for normal in [0.8, -0.8] {
            let apart = [-10.0, 10.0].map(|at| all(&model(foot().screws, at), normal));
            assert_eq!(all(&either, normal), apart.concat());
        }
    }

    /// The strip that bears is centred ever farther out; a fifth of the 50 mm is left.
    #[test]
    fn a_fifth_of_the_timber_bears_however_far_aside_the_arm_stands() {
        let width = |offset: f64| model(foot().screws, offset).edges.map(|edge| edge.width.mm());
        assert!(width(20.0).iter().all(|width| (30.0..50.0).contains(width)), "{:?}", width(20.0));
        assert!((width(500.0)[1] - 10.0).abs() < 1e-9, "{:?}", width(500.0));
    }

    /// An arm to the left of screws is one to the right of them in a mirror.
    #[test]
    fn left_and_right_are_alike() {
        let mirrored = foot().screws.iter().map(|[x, y]| [-*x, *y]).collect();
        let sides = |model: FootModel| -> Vec<[f64; 3]> { model.screw_levers().collect() };
        let (right, left) = (sides(model(foot().screws, 20.0)), sides(model(mirrored, -20.0)));
        assert!(right.iter().all(|levers| levers.iter().any(|lever| *lever > 0.0)), "{right:?}");
        let pairs = right.iter().flatten().zip(left.iter().flatten());
        assert!(pairs.clone().all(|(r, l)| (r - l).abs() < 1e-12), "{right:?} {left:?}");
    }
}
