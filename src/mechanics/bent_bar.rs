//! A bar bent twice: how far its end gives.
//!
//! **Model.** A plane bar of constant rigidity `EI`, held at its foot. It rises by `h_1` square to the
//! roof, runs down the slope by `a`, and rises again by `h_2` to where it is loaded; `H = h_1 + h_2`.
//! Forces at its end press it towards the roof and push it down the slope. Bending alone counts: of a
//! bar as slender as the arm of a hook, shear and compression add less than one per cent.
//!
//! **Layer.** Knows no hook and no code.
//!
//! **Checked by** a published frame program on one arm (`tests/reference/cases/mechanics`).

use crate::units::{FlexuralRigidity, Length, Stiffness};

/// The legs of the bar, in order from its foot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BentBar {
    /// Up from the foot, `h_1`.
    pub rise: Length,
    /// Down the slope, `a`.
    pub run: Length,
    /// Up to the end, `h_2`.
    pub upstand: Length,
}

/// How far the end of a bar gives, mm³ over its rigidity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flexibility {
    /// Towards the roof, under a force that presses there.
    pub normal: f64,
    /// Down the slope, under a force down the slope.
    pub slope: f64,
    /// In one direction under a force in the other.
    pub cross: f64,
    /// Towards the roof, under a moment at the end: mm² over its rigidity.
    pub turned: f64,
}

impl BentBar {
    /// How far the end gives.
    ///
    /// By virtual work, `∫ M·m ds / EI`: `δ_NN = a²·h_1 + a³/3`, `δ_SS = H³/3 + a·h_2²`,
    /// `δ_NS = a·(H² - h_2²)/2 + a²·h_2/2`, `δ_Nθ = a·h_1 + a²/2`.
    #[must_use]
    pub fn flexibility(&self) -> Flexibility {
        let [rise, a, upstand] = [self.rise, self.run, self.upstand].map(Length::mm);
        let height = rise + upstand;
        Flexibility {
            normal: a * a * rise + a.powi(3) / 3.0,
            slope: height.powi(3) / 3.0 + a * upstand * upstand,
            cross: a * (height * height - upstand * upstand) / 2.0 + a * a * upstand / 2.0,
            turned: a * rise + a * a / 2.0,
        }
    }
}

impl Flexibility {
    /// The springs of a bar of this rigidity, towards the roof and down the slope.
    #[must_use]
    pub fn springs(&self, rigidity: FlexuralRigidity) -> [Stiffness; 2] {
        [self.normal, self.slope].map(|give| Stiffness::from_n_per_mm(rigidity.nmm2() / give))
    }

    /// How much farther a force towards the roof presses the end if it acts so far beyond it, down the
    /// slope, per what it does at the end.
    #[must_use]
    pub fn beyond_share(&self, beyond: Length) -> f64 {
        if self.normal > 0.0 { beyond.mm() * self.turned / self.normal } else { 0.0 }
    }

    /// How far a force down the slope presses the end towards the roof, per what the same force would
    /// if it acted towards the roof.
    #[must_use]
    pub fn cross_share(&self) -> f64 {
        if self.normal > 0.0 { self.cross / self.normal } else { 0.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A cantilever without upright legs: 3·EI/a³, and no force down the slope presses its end.
    #[test]
    fn a_straight_bar_is_a_cantilever() {
        let mm = Length::from_mm;
        let bar = BentBar { rise: Length::ZERO, run: mm(262.0), upstand: Length::ZERO };
        let flexibility = bar.flexibility();
        // A bar of 30 by 8 mm: 200 000·1280 N·mm².
        let rigidity = FlexuralRigidity::from_nmm2(200_000.0 * 1280.0);
        let [normal, _] = flexibility.springs(rigidity);
        assert!((normal.n_per_mm() - 3.0 * rigidity.nmm2() / 262.0_f64.powi(3)).abs() < 1e-9);
        assert!(flexibility.cross_share().abs() < f64::EPSILON);
        // A moment at the end of a cantilever: M·a²/(2·EI), beside N·a³/(3·EI).
        let share = flexibility.beyond_share(mm(26.2));
        assert!((share - 0.15).abs() < 1e-12, "{share}");
    }
}
