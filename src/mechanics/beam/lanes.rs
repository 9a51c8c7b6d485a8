//! Numbers that go through the same equations side by side.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// A number, or one for each of several beams alike but for their stiffness and loads.
pub trait Lanes:
    Copy
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
{
    /// The same number for each.
    fn splat(value: f64) -> Self;

    /// Whether each is above the other's.
    fn exceeds(self, other: Self) -> bool;
}

impl Lanes for f64 {
    fn splat(value: f64) -> Self {
        value
    }
    fn exceeds(self, other: Self) -> bool {
        self > other
    }
}

/// One number for each of two beams.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Both(pub [f64; 2]);

impl Both {
    /// None for either.
    pub const ZERO: Self = Self([0.0; 2]);

    /// Both numbers through a function.
    #[must_use]
    pub fn map(self, of: impl Fn(f64) -> f64) -> Self {
        Self([of(self.0[0]), of(self.0[1])])
    }

    /// Both numbers of two through a function.
    #[must_use]
    pub fn zip(self, other: Self, of: impl Fn(f64, f64) -> f64) -> Self {
        Self([of(self.0[0], other.0[0]), of(self.0[1], other.0[1])])
    }

    /// The smaller of each two.
    #[must_use]
    pub fn min(self, other: Self) -> Self {
        self.zip(other, |a, b| if a < b { a } else { b })
    }

    /// The larger of each two.
    #[must_use]
    pub fn max(self, other: Self) -> Self {
        self.zip(other, |a, b| if a > b { a } else { b })
    }

    /// Without their signs.
    #[must_use]
    pub fn abs(self) -> Self {
        self.map(f64::abs)
    }
}

impl Lanes for Both {
    fn splat(value: f64) -> Self {
        Self([value; 2])
    }
    fn exceeds(self, other: Self) -> bool {
        self.0[0] > other.0[0] && self.0[1] > other.0[1]
    }
}

impl Add for Both {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self([self.0[0] + other.0[0], self.0[1] + other.0[1]])
    }
}

impl Sub for Both {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self([self.0[0] - other.0[0], self.0[1] - other.0[1]])
    }
}

impl Mul for Both {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self([self.0[0] * other.0[0], self.0[1] * other.0[1]])
    }
}

impl Mul<f64> for Both {
    type Output = Self;
    fn mul(self, by: f64) -> Self {
        self * Self([by; 2])
    }
}

impl Div for Both {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        Self([self.0[0] / other.0[0], self.0[1] / other.0[1]])
    }
}

impl Neg for Both {
    type Output = Self;
    fn neg(self) -> Self {
        Self([-self.0[0], -self.0[1]])
    }
}
