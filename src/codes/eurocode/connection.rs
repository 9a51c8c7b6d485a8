//! Screws through a steel plate into timber, across packers and layers that do not bear.
//!
//! Withdrawal by the screw's declared parameter (EN 1995-1-1 Eq. (8.40a)) or Eq. (8.39); tension
//! by the declared capacity; head pull-through cannot govern, the head bears on steel; lateral
//! capacity by the yield model; both combined by Eq. (8.28).

use super::annex::Annex;
use super::en1995_1_1_2004::screws_axial::{self, Thread};
use super::en1995_1_1_2004::screws_lateral::{self, LateralCapacity, LateralRule, Predrilling};
use super::en1995_1_1_2004::timber::{EN338, Timber as Class};
use super::en1995_1_1_2004::{EN1995, screws_spacing};
use super::members::{connection_steps, duration_factor, partial_factor};
use crate::codes::cited::{Source, Step};
use crate::codes::code::Timber;
use crate::codes::quantity::Quantity;
use crate::codes::tr12_2015::TR12;
use crate::codes::vocabulary::{
    Combination, Connection, PlacedScrew, ScrewDistances, ScrewResistance, ScrewedPlate,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Angle, Density, Force, Length, Stress};

/// Characteristic capacity of one screw of a plate.
struct Capacity {
    /// Withdrawal of one screw acting alone.
    withdrawal: Force,
    /// Declared or computed withdrawal parameter, and whether the caller states it.
    parameter: (Stress, bool),
    /// Tension of its steel.
    tension: Force,
    /// Density of the timber.
    density: Density,
    /// Diameter of the screw for lateral load.
    effective_diameter: Length,
    /// Embedment strength of the timber.
    embedment_strength: Stress,
    /// Lateral capacity, with the mode that governs.
    lateral: LateralCapacity,
    /// Whether plate and timber do not touch.
    across_gap: bool,
    /// `n_ef/n` of screws pulled together, Eq. (8.41).
    group: f64,
    /// `n_ef/n` of screws in a row along the grain, Table 8.1.
    row: f64,
}

/// What the screws of a plate bear.
///
/// Silent when less thread is in the timber than 8.7.2(3) asks for, when no withdrawal parameter is
/// declared and the screw is outside Eq. (8.39), or when screws in a row are closer than Table 8.1
/// allows.
pub(super) fn connection(
    annex: &Annex,
    plate: &ScrewedPlate<'_>,
    timber: Timber,
    combinations: &[Combination],
) -> Result<Connection, NotCovered> {
    let Timber::Eurocode(timber) = timber;
    let capacity = capacity(plate, timber)?;
    let design = |combination: &Combination| {
        let strength = duration_factor(combination)
            / partial_factor(annex, combination, annex.gamma_m_connections);
        ScrewResistance {
            pull: (capacity.withdrawal * (strength * capacity.group))
                .min(capacity.tension / annex.gamma_m2_steel),
            shear: capacity.lateral.force * (strength * capacity.row),
            interaction: screws_lateral::combined_interaction(),
        }
    };
    Ok(Connection {
        design: combinations.iter().map(design).collect(),
        steps: capacity.steps().to_vec(),
    })
}

impl Capacity {
    fn steps(&self) -> [Step; 9] {
        let clause = |number| Source::clause(EN1995, number);
        let (parameter, declared) = self.parameter;
        let equation = if declared { "Eq. (8.40a)" } else { "Eq. (8.38)" };
        let parameter_from =
            if declared { Source::Other("declared") } else { clause("Eq. (8.39)") };
        let lateral_rule = if self.across_gap {
            Clause::new(TR12, "Table 1-1")
        } else {
            Clause::new(EN1995, "8.2.3")
        };
        let lateral = Source::Case(lateral_rule, self.lateral.mode);
        [
            Step::new(
                Quantity::WithdrawalParameter,
                "f_ax,k",
                parameter.n_per_mm2(),
                "N/mm²",
                parameter_from,
            ),
            Step::new(
                Quantity::Withdrawal,
                "F_ax,Rk",
                self.withdrawal.kn(),
                "kN",
                clause(equation),
            ),
            Step::new(
                Quantity::Tension,
                "F_tens,k",
                self.tension.kn(),
                "kN",
                Source::Other("declared"),
            ),
            Step::new(
                Quantity::TimberDensity,
                "ρ_k",
                self.density.kg_per_m3(),
                "kg/m³",
                Source::clause(EN338, "Table 1"),
            ),
            Step::new(
                Quantity::EffectiveDiameter,
                "d_ef",
                self.effective_diameter.mm(),
                "mm",
                clause("8.7.1(3)"),
            ),
            Step::new(
                Quantity::EmbedmentStrength,
                "f_h,k",
                self.embedment_strength.n_per_mm2(),
                "N/mm²",
                clause("8.3.1.1, 8.5.1.1"),
            ),
            Step::new(Quantity::LateralCapacity, "F_v,Rk", self.lateral.force.kn(), "kN", lateral),
            Step::new(Quantity::GroupFactor, "n_ef/n", self.group, "", clause("Eq. (8.41)")),
            Step::new(Quantity::RowFactor, "n_ef/n", self.row, "", clause("Table 8.1")),
        ]
    }
}

/// A design resistance in a combination with its clause.
pub(super) fn steps(
    annex: &Annex,
    combination: &Combination,
    resistance: &ScrewResistance,
) -> [Step; 4] {
    let clause = Source::clause(EN1995, "2.4.3");
    let [k_mod, gamma_m] = connection_steps(annex, combination);
    [
        k_mod,
        gamma_m,
        Step::new(Quantity::DesignPull, "F_ax,Rd", resistance.pull.kn(), "kN", clause),
        Step::new(Quantity::DesignShear, "F_v,Rd", resistance.shear.kn(), "kN", clause),
    ]
}

fn capacity(plate: &ScrewedPlate<'_>, timber: &Class) -> Result<Capacity, NotCovered> {
    const POINT: Clause = Clause::new(EN1995, "8.7.2(3)");
    let square = Angle::from_deg(90.0);
    let least = screws_axial::minimum_point_side_length(plate.diameter);
    POINT.covers(plate.threaded >= least, "the thread in the rafter is at least 6 d long")?;
    let thread = Thread { outer: plate.diameter, inner: plate.core };
    let (rho_k, threaded) = (timber.rho_k, plate.threaded);
    let (withdrawal, parameter) = match plate.withdrawal {
        Some((f_ax_k, rho_a)) => {
            let d = plate.diameter;
            let one = screws_axial::declared_withdrawal_capacity(
                f_ax_k, d, threaded, rho_k, rho_a, square,
            );
            (one, (f_ax_k, true))
        }
        None => (
            screws_axial::thread_withdrawal_capacity(thread, threaded, rho_k, square)?,
            (screws_axial::thread_withdrawal_strength(thread, threaded, rho_k)?, false),
        ),
    };
    let drilled = predrilling(plate.predrilled);
    let d_ef = screws_lateral::effective_diameter(plate.core);
    let rule = LateralRule::of(d_ef);
    let f_h = screws_lateral::embedment_strength(d_ef, rho_k, drilled, Angle::from_deg(0.0));
    let lateral = screws_lateral::lateral_capacity(
        plate.plate,
        plate.gap,
        plate.embedment,
        f_h,
        d_ef,
        // The thread fills the hole of the plate, if anything does: safer than the core.
        plate.diameter,
        plate.yield_moment,
    );
    let n = plate.positions.len().max(1);
    Ok(Capacity {
        withdrawal,
        parameter,
        tension: plate.tension,
        density: rho_k,
        effective_diameter: d_ef,
        embedment_strength: f_h,
        lateral,
        across_gap: plate.gap > Length::ZERO,
        group: screws_axial::effective_number(n) / n as f64,
        row: row_factor(plate, rule, drilled)?,
    })
}

/// `n_ef/n` of the longest row along the grain. Screws staggered by at least one diameter do not
/// form a row (8.3.1.1(8)).
fn row_factor(
    plate: &ScrewedPlate<'_>,
    rule: LateralRule,
    drilled: Predrilling,
) -> Result<f64, NotCovered> {
    let d = plate.diameter;
    let mut least = 1.0_f64;
    for screw in plate.positions {
        let mut row: Vec<f64> = plate
            .positions
            .iter()
            .filter(|other| (other[0] - screw[0]).abs() < d)
            .map(|other| other[1].mm())
            .collect();
        row.sort_by(f64::total_cmp);
        let spacing = row.windows(2).map(|w| w[1] - w[0]).fold(f64::INFINITY, f64::min);
        if row.len() > 1 {
            let n = row.len();
            let spacing = Length::from_mm(spacing);
            let n_ef = match rule {
                LateralRule::Nails => {
                    screws_spacing::effective_number_in_row(n, spacing, d, drilled)?
                }
                LateralRule::Bolts => screws_spacing::effective_number_of_bolts(n, spacing, d),
            };
            least = least.min(n_ef / n as f64);
        }
    }
    Ok(least)
}

/// Distances of Tables 8.6 (pull) and 8.2 or, for thick screws, 8.4 (lateral load): the larger.
pub(super) fn distances(screw: &PlacedScrew, load_to_grain: Angle) -> ScrewDistances {
    let axial = screws_axial::axial_distances(screw.diameter);
    let lateral = match LateralRule::of(screws_lateral::effective_diameter(screw.core)) {
        LateralRule::Nails => {
            let drilled = predrilling(screw.predrilled);
            screws_spacing::lateral_distances(screw.diameter, drilled, load_to_grain)
                .under_steel_plates()
        }
        LateralRule::Bolts => screws_spacing::bolt_distances(screw.diameter, load_to_grain),
    };
    ScrewDistances {
        timber: screws_axial::least_timber(screw.diameter),
        along: axial.a1.max(lateral.a1),
        across: axial.a2.max(lateral.a2),
        pulled_edge: axial.a2_cg,
        unloaded_edge: lateral.a4_c,
        loaded_edge: lateral.a4_t,
    }
}

const fn predrilling(predrilled: bool) -> Predrilling {
    if predrilled { Predrilling::Predrilled } else { Predrilling::None }
}
