//! Screws in the rafter: how they sit, what the rules say they carry, and how much of it is used.

use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{
    Combination, Connection, PlacedScrew, ScrewDistances, ScrewResistance, ScrewedPlate,
};
use crate::codes::{Code, NotCovered, Rules, Timber};
use crate::hardware::{Foot, Screw};
use crate::units::{Angle, Length};

use super::foot::{Demand, LoadedFoot};

/// How a screw sits: what it crosses and how much of it is in the rafter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seat {
    /// Steel of the foot under the head.
    pub plate: Length,
    /// Packers and layers between foot and rafter.
    pub gap: Length,
    /// How far the point reaches below the face of the rafter, through it where it is that long.
    pub reach: Length,
    /// Length in the rafter.
    pub embedment: Length,
    /// Threaded length in the rafter.
    pub threaded: Length,
}

impl Seat {
    /// Seats a screw through foot, packers and layers into a rafter of a depth.
    ///
    /// Only timber holds: what stands out below the rafter counts neither as length nor as thread,
    /// and of a thread that begins above the face, only the part below it counts. The point counts
    /// as thread inside the timber (EN 1995-1-1:2004+A1:2008, 8.7.2(4)); where it comes out, what of it
    /// is still inside does not.
    #[must_use]
    pub fn new(
        screw: &Screw,
        foot: &Foot,
        packers: Length,
        layers: Length,
        rafter_depth: Length,
    ) -> Self {
        let gap = packers + layers;
        let reach = (screw.length - foot.thickness - gap).max(Length::ZERO);
        let embedment = reach.min(rafter_depth);
        let thread_begins = (reach - screw.thread).max(Length::ZERO);
        let thread_ends =
            if reach > rafter_depth { (reach - screw.point).min(rafter_depth) } else { reach };
        let threaded = (thread_ends - thread_begins).max(Length::ZERO);
        Self { plate: foot.thickness, gap, reach, embedment, threaded }
    }

    /// Whether the point comes out below the rafter.
    #[must_use]
    pub fn comes_out(&self) -> bool {
        self.reach > self.embedment
    }
}

/// What the screws of a foot carry in their seats, combination by combination.
///
/// # Errors
/// The rule that does not cover the connection.
pub fn capacity(
    rules: Rules,
    (screw, foot, seat): (&Screw, &Foot, &Seat),
    timber: Timber,
    combinations: &[Combination],
) -> Result<Connection, NotCovered> {
    let plate = ScrewedPlate {
        diameter: screw.diameter,
        core: screw.core,
        withdrawal: screw.withdrawal,
        tension: screw.tension,
        yield_moment: screw.yield_moment,
        predrilled: screw.predrilled,
        positions: &foot.screws,
        plate: seat.plate,
        gap: seat.gap,
        embedment: seat.embedment,
        threaded: seat.threaded,
    };
    rules.connection(&plate, timber, combinations)
}

/// Utilisation of a screw.
#[must_use]
pub fn used_by(demand: Demand, resistance: &ScrewResistance) -> f64 {
    resistance.utilisation(demand.pull, demand.shear)
}

/// [`used_by`] with its provenance.
#[must_use]
pub fn steps(demand: Demand, resistance: &ScrewResistance) -> [Step; 3] {
    const INTERACTION: Source =
        Source::Other("interaction of pull and shear, as the rules have it");
    let [pull, shear] = resistance.shares(demand.pull, demand.shear);
    [
        Step::new(Quantity::PullUsed, "T/F_ax,Rd", pull, "", INTERACTION),
        Step::new(Quantity::ShearUsed, "V/F_v,Rd", shear, "", INTERACTION),
        Step::new(Quantity::Utilisation, "u", used_by(demand, resistance), "", INTERACTION),
    ]
}

/// Utilisation of the most loaded screw of a foot.
#[must_use]
pub fn utilisation(foot: &LoadedFoot<'_>, resistance: &ScrewResistance) -> f64 {
    foot.demands().map(|demand| used_by(demand, resistance)).fold(0.0, f64::max)
}

/// From the outermost screw of a foot to the edge of a timber of this width, both on one axis.
#[must_use]
pub fn edge_distance(foot: &Foot, width: Length) -> Length {
    let outermost = foot.screws.iter().map(|s| s[0].abs()).fold(Length::ZERO, Length::max);
    width / 2.0 - outermost
}

/// What is wrong with where the screws of a foot stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TooNear {
    /// What is too near what.
    pub what: Nearness,
    /// Distance there is.
    pub have: Length,
    /// Distance needed.
    pub need: Length,
}

/// Kinds of nearness.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Nearness {
    /// A screw to the edge of the rafter.
    RafterEdge,
    /// Two screws to each other.
    EachOther,
}

/// Least distances of a screw whose lateral load is at this angle to the grain: of its approval, or
/// of the rules.
#[must_use]
pub fn least_distances(rules: Rules, screw: &Screw, load_to_grain: Angle) -> ScrewDistances {
    let Screw { diameter, core, predrilled, .. } = *screw;
    let placed = PlacedScrew { diameter, core, predrilled };
    let least = rules.screw_distances(&placed, load_to_grain);
    screw.spacings.as_ref().map_or(least, |approved| ScrewDistances {
        timber: approved.timber.unwrap_or(least.timber),
        along: approved.along,
        across: approved.across,
        pulled_edge: approved.edge,
        unloaded_edge: approved.edge,
        loaded_edge: approved.edge,
    })
}

/// Distances of the screws from the rafter's edges and from each other.
///
/// The edge is unloaded: the load runs along the rafter. Two screws pass when they are far enough
/// apart along the grain or across it.
#[must_use]
pub fn too_near(rules: Rules, foot: &Foot, screw: &Screw, rafter_width: Length) -> Option<TooNear> {
    let along_grain = Angle::from_deg(0.0);
    let least = least_distances(rules, screw, along_grain);
    let need = least.pulled_edge.max(least.unloaded_edge);
    let have = edge_distance(foot, rafter_width);
    if have < need {
        return Some(TooNear { what: Nearness::RafterEdge, have, need });
    }
    for (i, a) in foot.screws.iter().enumerate() {
        for b in foot.screws.iter().skip(i + 1) {
            let along = (a[1] - b[1]).abs();
            if along < least.along && (a[0] - b[0]).abs() < least.across {
                return Some(TooNear { what: Nearness::EachOther, have: along, need: least.along });
            }
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seat(thread: f64, packers: f64, depth: f64) -> Seat {
        let mm = Length::from_mm;
        let screw = Screw {
            diameter: mm(8.0),
            core: mm(5.4),
            length: mm(140.0),
            thread: mm(thread),
            point: mm(8.0),
            withdrawal: None,
            tension: crate::units::Force::from_kn(20.0),
            yield_moment: crate::units::Moment::from_nmm(20_000.0),
            predrilled: true,
            spacings: None,
        };
        let foot = Foot {
            length: mm(90.0),
            width: mm(140.0),
            thickness: mm(6.0),
            lateral_range: mm(45.0),
            screws: vec![[mm(0.0), mm(15.0)]],
        };
        Seat::new(&screw, &foot, mm(packers), mm(30.0), mm(depth))
    }

    /// By hand, 140 mm through 6 mm of plate and 30 mm of counter-batten: the point is 104 mm below
    /// the rafter's face, 80 mm of thread begin 24 mm below it.
    #[test]
    fn only_thread_inside_the_rafter_counts() {
        for (thread, packers, depth, embedment, threaded) in [
            (80.0, 0.0, 160.0, 104.0, 80.0),
            // 4 mm stand out below: the point's 8 mm hold nothing any more.
            (80.0, 0.0, 100.0, 100.0, 72.0),
            // Hardly any thread is in so thin a timber.
            (80.0, 0.0, 40.0, 40.0, 16.0),
            // The whole thread is below it.
            (80.0, 0.0, 20.0, 20.0, 0.0),
            // Thread all along: it begins in the layers above.
            (134.0, 0.0, 160.0, 104.0, 104.0),
            (80.0, 60.0, 160.0, 44.0, 44.0),
            (80.0, 200.0, 160.0, 0.0, 0.0),
        ] {
            let seat = seat(thread, packers, depth);
            let is = |length: Length, mm: f64| (length.mm() - mm).abs() < 1e-9;
            assert!(is(seat.embedment, embedment) && is(seat.threaded, threaded), "{seat:?}");
            assert_eq!(seat.comes_out(), depth < 104.0, "{seat:?}");
        }
    }
}
