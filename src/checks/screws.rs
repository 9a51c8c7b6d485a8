//! Screws in the rafter: what they carry, and how much of it is used.
//!
//! Withdrawal by the screw's declared parameter (EN 1995-1-1 Eq. (8.40a)) or Eq. (8.39); tension
//! by the declared capacity; head pull-through cannot govern, the head bears on the steel foot;
//! lateral capacity by the yield model across packers and layers that do not bear; both combined
//! by Eq. (8.28).

use crate::codes::NotCovered;
use crate::codes::eurocode::en1995_1_1_2004::screws_axial::{self, Thread};
use crate::codes::eurocode::en1995_1_1_2004::screws_lateral::{self, LateralCapacity, Predrilling};
use crate::codes::eurocode::en1995_1_1_2004::screws_spacing;
use crate::codes::eurocode::en1995_1_1_2004::timber::Timber;
use crate::hardware::{Foot, Screw};
use crate::units::{Angle, Force, Length, Stress};

use super::foot::{Demand, FootModel};

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
    /// and of a thread that begins above the face, only the part below it counts.
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
        let threaded = (embedment - thread_begins).max(Length::ZERO);
        Self { plate: foot.thickness, gap, reach, embedment, threaded }
    }

    /// Whether the point comes out below the rafter.
    #[must_use]
    pub fn comes_out(&self) -> bool {
        self.reach > self.embedment
    }
}

/// Characteristic capacity of one screw in its seat.
#[derive(Debug, Clone, PartialEq)]
pub struct Capacity {
    /// Withdrawal of one screw acting alone.
    pub withdrawal: Force,
    /// Tension of its steel.
    pub tension: Force,
    /// Lateral capacity, with the mode that governs.
    pub lateral: LateralCapacity,
    /// `n_ef/n` of screws pulled together, Eq. (8.41).
    pub group: f64,
    /// `n_ef/n` of screws in a row along the grain, Table 8.1.
    pub row: f64,
    /// Declared or computed withdrawal parameter.
    pub withdrawal_parameter: Stress,
    /// Embedment strength of the timber.
    pub embedment_strength: Stress,
}

/// Characteristic capacity of the screws of a foot.
///
/// # Errors
/// [`NotCovered`] when the embedment is below 6 d, when no withdrawal parameter is declared and
/// the screw is outside Eq. (8.39), or when screws in a row are closer than Table 8.1 allows.
pub fn capacity(
    screw: &Screw,
    foot: &Foot,
    seat: &Seat,
    timber: &Timber,
) -> Result<Capacity, NotCovered> {
    const POINT: crate::codes::Clause =
        crate::codes::Clause::new("EN 1995-1-1:2004+A1:2008", "8.7.2(3)");
    let square = Angle::from_deg(90.0);
    POINT.covers(
        seat.threaded >= least_thread(screw),
        "the thread in the rafter is at least 6 d long",
    )?;
    let thread = Thread { outer: screw.diameter, inner: screw.core };
    let (withdrawal, parameter) = match screw.withdrawal {
        Some((f_ax_k, rho_a)) => (
            screws_axial::declared_withdrawal_capacity(
                f_ax_k,
                screw.diameter,
                seat.threaded,
                timber.rho_k,
                rho_a,
                square,
            ),
            f_ax_k,
        ),
        None => (
            screws_axial::thread_withdrawal_capacity(thread, seat.threaded, timber.rho_k, square)?,
            screws_axial::thread_withdrawal_strength(thread, seat.threaded, timber.rho_k)?,
        ),
    };
    let predrilling = predrilling(screw);
    let d_ef = screws_lateral::effective_diameter(screw.core);
    let f_h =
        screws_lateral::embedment_strength(d_ef, timber.rho_k, predrilling, Angle::from_deg(0.0));
    let lateral = screws_lateral::lateral_capacity(
        seat.plate,
        seat.gap,
        seat.embedment,
        f_h,
        d_ef,
        // The thread fills the hole of the plate, if anything does: safer than the core.
        screw.diameter,
        screw.yield_moment,
    );
    let n = foot.screws.len().max(1);
    Ok(Capacity {
        withdrawal,
        tension: screw.tension,
        lateral,
        group: screws_axial::effective_number(n) / n as f64,
        row: row_factor(foot, screw.diameter, predrilling)?,
        withdrawal_parameter: parameter,
        embedment_strength: f_h,
    })
}

/// `n_ef/n` of the longest row along the grain. Screws staggered by at least one diameter do not
/// form a row (8.3.1.1(8)).
fn row_factor(foot: &Foot, d: Length, predrilling: Predrilling) -> Result<f64, NotCovered> {
    let mut least = 1.0_f64;
    for screw in &foot.screws {
        let mut row: Vec<f64> = foot
            .screws
            .iter()
            .filter(|other| (other[0] - screw[0]).abs() < d)
            .map(|other| other[1].mm())
            .collect();
        row.sort_by(f64::total_cmp);
        let spacing = row.windows(2).map(|w| w[1] - w[0]).fold(f64::INFINITY, f64::min);
        if row.len() > 1 {
            let n = row.len();
            let n_ef = screws_spacing::effective_number_in_row(
                n,
                Length::from_mm(spacing),
                d,
                predrilling,
            )?;
            least = least.min(n_ef / n as f64);
        }
    }
    Ok(least)
}

/// Design resistance of one screw under one load duration.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Resistance {
    /// Against pull.
    pub pull: Force,
    /// Against shear.
    pub shear: Force,
}

impl Capacity {
    /// `F_Rd = k_mod · F_Rk / γ_M`, the steel by `γ_M2` alone.
    #[must_use]
    pub fn design(&self, k_mod: f64, gamma_m: f64, gamma_m2: f64) -> Resistance {
        let timber = k_mod / gamma_m;
        Resistance {
            pull: (self.withdrawal * (timber * self.group)).min(self.tension / gamma_m2),
            shear: self.lateral.force * (timber * self.row),
        }
    }
}

/// Utilisation of a screw, Eq. (8.28).
#[must_use]
pub fn used_by(demand: Demand, resistance: &Resistance) -> f64 {
    let Demand { pull, shear } = demand;
    screws_lateral::combined_utilisation(pull, resistance.pull, shear, resistance.shear)
}

/// Utilisation of the most loaded screw of a foot, Eq. (8.28).
#[must_use]
pub fn utilisation(foot: &FootModel, resistance: &Resistance, normal: Force, slope: Force) -> f64 {
    foot.demands(normal, slope).map(|demand| used_by(demand, resistance)).fold(0.0, f64::max)
}

/// Whether holes are drilled first, in the words of the rules.
#[must_use]
pub const fn predrilling(screw: &Screw) -> Predrilling {
    if screw.predrilled { Predrilling::Predrilled } else { Predrilling::None }
}

/// From the outermost screw of a foot to the edge of a timber of this width, both on one axis.
#[must_use]
pub fn edge_distance(foot: &Foot, width: Length) -> Length {
    let outermost = foot.screws.iter().map(|s| s[0].abs()).fold(Length::ZERO, Length::max);
    width / 2.0 - outermost
}

/// Thread in the rafter below which a screw holds nothing.
#[must_use]
pub fn least_thread(screw: &Screw) -> Length {
    screws_axial::minimum_point_side_length(screw.diameter)
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

/// Distances of the screws from the rafter's edges and from each other, Tables 8.2 and 8.6.
///
/// The edge is unloaded: the load runs along the rafter. Two screws pass when they are far enough
/// apart along the grain or across it.
#[must_use]
pub fn too_near(foot: &Foot, screw: &Screw, rafter_width: Length) -> Option<TooNear> {
    let d = screw.diameter;
    let axial = screws_axial::axial_distances(d);
    let predrilling = predrilling(screw);
    let lateral = screws_spacing::lateral_distances(d, predrilling, Angle::from_deg(0.0));
    let need = axial.a2_cg.max(lateral.a4_c);
    let have = edge_distance(foot, rafter_width);
    if have < need {
        return Some(TooNear { what: Nearness::RafterEdge, have, need });
    }
    for (i, a) in foot.screws.iter().enumerate() {
        for b in foot.screws.iter().skip(i + 1) {
            let along = (a[1] - b[1]).abs();
            if along < axial.a1 && (a[0] - b[0]).abs() < axial.a2 {
                return Some(TooNear { what: Nearness::EachOther, have: along, need: axial.a1 });
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
            withdrawal: None,
            tension: Force::from_kn(20.0),
            yield_moment: crate::units::Moment::from_nmm(20_000.0),
            predrilled: true,
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
            // 4 mm stand out below.
            (80.0, 0.0, 100.0, 100.0, 76.0),
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
