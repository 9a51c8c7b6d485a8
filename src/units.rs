//! Quantities the calculation is written in: one newtype per dimension, so that a length
//! cannot be added to a force and every unit is named where a number enters or leaves.
//!
//! **Canonical units.** mm, mm², N, N·mm, N/mm² (stress and area load), N/mm, kg/m³, rad, m/s.
//! Constructors and getters spell the unit; there is no unnamed conversion.
//!
//! **Operators.** Sum, difference, scaling and ratio within a quantity; across quantities only
//! products and quotients that are physically true.
//!
//! **Layer.** Bottom: knows nothing else of the crate.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

macro_rules! quantity {
    (
        $(#[$doc:meta])* $name:ident {
            $( $(#[$udoc:meta])* $from:ident / $get:ident = $factor:expr ),+ $(,)?
        }
    ) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            /// Nothing of this quantity.
            pub const ZERO: Self = Self(0.0);
            $(
                $(#[$udoc])*
                #[must_use]
                pub const fn $from(value: f64) -> Self { Self(value * $factor) }
                $(#[$udoc])*
                #[must_use]
                pub const fn $get(self) -> f64 { self.0 / $factor }
            )+
            /// Magnitude without sign.
            #[must_use]
            pub const fn abs(self) -> Self { Self(self.0.abs()) }
            /// The smaller of two values.
            #[must_use]
            pub const fn min(self, other: Self) -> Self { Self(self.0.min(other.0)) }
            /// The larger of two values.
            #[must_use]
            pub const fn max(self, other: Self) -> Self { Self(self.0.max(other.0)) }
        }

        impl Add for $name { type Output = Self; fn add(self, o: Self) -> Self { Self(self.0 + o.0) } }
        impl Sub for $name { type Output = Self; fn sub(self, o: Self) -> Self { Self(self.0 - o.0) } }
        impl Neg for $name { type Output = Self; fn neg(self) -> Self { Self(-self.0) } }
        impl AddAssign for $name { fn add_assign(&mut self, o: Self) { self.0 += o.0; } }
        impl SubAssign for $name { fn sub_assign(&mut self, o: Self) { self.0 -= o.0; } }
        impl Mul<f64> for $name { type Output = Self; fn mul(self, k: f64) -> Self { Self(self.0 * k) } }
        impl Mul<$name> for f64 { type Output = $name; fn mul(self, q: $name) -> $name { $name(self * q.0) } }
        impl Div<f64> for $name { type Output = Self; fn div(self, k: f64) -> Self { Self(self.0 / k) } }
        impl Div for $name { type Output = f64; fn div(self, o: Self) -> f64 { self.0 / o.0 } }
        impl Sum for $name { fn sum<I: Iterator<Item = Self>>(i: I) -> Self { i.fold(Self::ZERO, Add::add) } }
    };
}

/// `$a * $b = $c` in both orders, and `$c / $a = $b`.
macro_rules! product {
    ($a:ident * $b:ident = $c:ident) => {
        impl Mul<$b> for $a {
            type Output = $c;
            fn mul(self, o: $b) -> $c {
                $c(self.0 * o.0)
            }
        }
        impl Mul<$a> for $b {
            type Output = $c;
            fn mul(self, o: $a) -> $c {
                $c(self.0 * o.0)
            }
        }
        impl Div<$a> for $c {
            type Output = $b;
            fn div(self, o: $a) -> $b {
                $b(self.0 / o.0)
            }
        }
    };
}

quantity!(
    /// A length or a coordinate.
    Length {
        /// In millimetres.
        from_mm / mm = 1.0,
        /// In metres.
        from_m / m = 1000.0,
    }
);
quantity!(
    /// A surface.
    Area {
        /// In square millimetres.
        from_mm2 / mm2 = 1.0,
        /// In square metres.
        from_m2 / m2 = 1e6,
    }
);
quantity!(
    /// A force.
    Force {
        /// In newtons.
        from_n / n = 1.0,
        /// In kilonewtons.
        from_kn / kn = 1000.0,
    }
);
quantity!(
    /// A bending or turning moment.
    Moment {
        /// In newton millimetres.
        from_nmm / nmm = 1.0,
        /// In kilonewton metres.
        from_knm / knm = 1e6,
    }
);
quantity!(
    /// A stress, a strength or an elastic modulus.
    Stress {
        /// In newtons per square millimetre.
        from_n_per_mm2 / n_per_mm2 = 1.0,
    }
);
quantity!(
    /// A load spread over a surface.
    Pressure {
        /// In kilonewtons per square metre.
        from_kn_per_m2 / kn_per_m2 = 1e-3,
        /// In newtons per square metre.
        from_n_per_m2 / n_per_m2 = 1e-6,
    }
);
quantity!(
    /// A load spread along a line.
    LineLoad {
        /// In newtons per millimetre, which is also kilonewtons per metre.
        from_kn_per_m / kn_per_m = 1.0,
    }
);
quantity!(
    /// Force per displacement of a support.
    Stiffness {
        /// In kilonewtons per millimetre.
        from_kn_per_mm / kn_per_mm = 1000.0,
        /// In newtons per millimetre.
        from_n_per_mm / n_per_mm = 1.0,
    }
);
quantity!(
    /// Mass per volume.
    Density {
        /// In kilograms per cubic metre.
        from_kg_per_m3 / kg_per_m3 = 1.0,
    }
);
quantity!(
    /// An elastic section modulus.
    SectionModulus {
        /// In cubic millimetres.
        from_mm3 / mm3 = 1.0,
    }
);
quantity!(
    /// A second moment of area.
    SecondMoment {
        /// In millimetres to the fourth power.
        from_mm4 / mm4 = 1.0,
    }
);
quantity!(
    /// Resistance of a section to curvature, `E·I`.
    FlexuralRigidity {
        /// In newton square millimetres.
        from_nmm2 / nmm2 = 1.0,
    }
);
quantity!(
    /// A speed.
    Speed {
        /// In metres per second.
        from_m_per_s / m_per_s = 1.0,
    }
);

product!(Force * Length = Moment);
product!(Stress * Area = Force);
product!(Pressure * Area = Force);
product!(LineLoad * Length = Force);
product!(Stiffness * Length = Force);
product!(Stress * SectionModulus = Moment);
product!(Stress * SecondMoment = FlexuralRigidity);
product!(Pressure * Length = LineLoad);

impl Div<SectionModulus> for Moment {
    type Output = Stress;
    fn div(self, w: SectionModulus) -> Stress {
        Stress(self.0 / w.0)
    }
}

impl Div<Area> for Force {
    type Output = Stress;
    fn div(self, a: Area) -> Stress {
        Stress(self.0 / a.0)
    }
}

impl Mul for Length {
    type Output = Area;
    fn mul(self, o: Self) -> Area {
        Area(self.0 * o.0)
    }
}

/// An angle, given in degrees and kept in radians.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Angle(f64);

impl Angle {
    /// From degrees.
    #[must_use]
    pub const fn from_deg(value: f64) -> Self {
        Self(value.to_radians())
    }
    /// In degrees.
    #[must_use]
    pub const fn deg(self) -> f64 {
        self.0.to_degrees()
    }
    /// Sine.
    #[must_use]
    pub fn sin(self) -> f64 {
        self.0.sin()
    }
    /// Cosine.
    #[must_use]
    pub fn cos(self) -> f64 {
        self.0.cos()
    }
    /// Tangent.
    #[must_use]
    pub fn tan(self) -> f64 {
        self.0.tan()
    }
}

/// Weight of a mass under the standard acceleration of design documents, `g = 9.81 m/s²`.
#[must_use]
pub const fn weight_of_kg(mass_kg: f64) -> Force {
    Force::from_n(mass_kg * 9.81)
}

/// Mass of a [weight](weight_of_kg).
#[must_use]
pub const fn kg_of_weight(weight: Force) -> f64 {
    weight.n() / 9.81
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_kilonewton_per_square_metre_on_a_square_metre_is_a_kilonewton() {
        let load = Pressure::from_kn_per_m2(1.0) * Area::from_m2(1.0);
        assert!((load.kn() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_stress_on_a_section_modulus_is_a_moment() {
        let m = Stress::from_n_per_mm2(200.0) * SectionModulus::from_mm3(5000.0);
        assert!((m.knm() - 1.0).abs() < 1e-12);
    }
}
