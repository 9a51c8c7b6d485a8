//! One support in the elimination from left to right.

use super::Strip;
use super::bay::Bay;

/// A support with everything left of it condensed onto it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Joint {
    /// Its spring and what is left of it, the block of its two unknowns.
    pub(super) left: [f64; 3],
    /// Rotational stiffness of the span to the left, with nothing condensed.
    pub(super) bending: f64,
    /// Inverse of its diagonal block, once the span to the right is known.
    pub(super) inverse: [f64; 3],
    /// Coupling to the next support.
    pub(super) coupling: [[f64; 2]; 2],
    /// Nothing left of it can move without bending.
    pub(super) stable: bool,
}

impl Joint {
    /// The first support.
    pub(super) fn first(strip: &Strip) -> Self {
        Self {
            left: Self::spring(strip),
            bending: 0.0,
            inverse: [0.0; 3],
            coupling: [[0.0; 2]; 2],
            stable: true,
        }
    }

    fn spring(strip: &Strip) -> [f64; 3] {
        [strip.stiffness.unwrap_or(1.0), 0.0, 0.0]
    }

    /// The next support beyond a bay, which settles this one.
    pub(super) fn next(&mut self, strip: &Strip, bay: &Bay) -> Self {
        let k = &bay.k;
        // A rigid support has no deflection to solve for: its rows and columns drop out.
        let w = if strip.stiffness.is_some() { 1.0 } else { 0.0 };
        let spring = Self::spring(strip);
        let s = [self.left[0] + w * k[0][0], self.left[1] + w * k[0][1], self.left[2] + k[1][1]];
        let (inverse, stable) = invert(s, self.bending + k[1][1]);
        self.inverse = inverse;
        self.coupling = [[w * k[0][2], w * k[0][3]], [w * k[1][2], k[1][3]]];
        let c = self.coupling;
        // Cᵀ S⁻¹ C, symmetric.
        let ic = [
            [
                inverse[0] * c[0][0] + inverse[1] * c[1][0],
                inverse[0] * c[0][1] + inverse[1] * c[1][1],
            ],
            [
                inverse[1] * c[0][0] + inverse[2] * c[1][0],
                inverse[1] * c[0][1] + inverse[2] * c[1][1],
            ],
        ];
        Self {
            left: [
                spring[0] + w * k[2][2] - (c[0][0] * ic[0][0] + c[1][0] * ic[1][0]),
                spring[1] + w * k[2][3] - (c[0][0] * ic[0][1] + c[1][0] * ic[1][1]),
                spring[2] + k[3][3] - (c[0][1] * ic[0][1] + c[1][1] * ic[1][1]),
            ],
            bending: k[3][3],
            inverse: [0.0; 3],
            coupling: [[0.0; 2]; 2],
            stable: self.stable && stable && !bay.mechanism,
        }
    }

    /// Inverse of the block of the last support; `None` where the beam can move without bending.
    pub(super) fn close(&self) -> Option<[f64; 3]> {
        let (inverse, stable) = invert(self.left, self.bending);
        (stable && self.stable).then_some(inverse)
    }

    /// Whether the beam left of it stands by itself.
    pub(super) fn stands(&self) -> bool {
        self.left[2] > MISSING * self.bending
    }

    /// Loads handed to the next support.
    pub(super) fn hand_on(&self, before: [f64; 2]) -> [f64; 2] {
        let (z, c) = (times(self.inverse, before), &self.coupling);
        [c[0][0] * z[0] + c[1][0] * z[1], c[0][1] * z[0] + c[1][1] * z[1]]
    }

    /// Displacement of this support from its loads and the displacement of the next.
    pub(super) fn follow(&self, loads: [f64; 2], next: [f64; 2]) -> [f64; 2] {
        let c = &self.coupling;
        let rest = [
            loads[0] - (c[0][0] * next[0] + c[0][1] * next[1]),
            loads[1] - (c[1][0] * next[0] + c[1][1] * next[1]),
        ];
        times(self.inverse, rest)
    }
}

/// Share of a rotational stiffness below which what condensation leaves of it is rounding.
const MISSING: f64 = 1e-12;

/// Inverse of a symmetric 2×2 block `[a, b, d]`, and whether it is safely positive definite.
///
/// A beam that can move without bending does so by turning over some support: of the rotational
/// stiffness `bending` put together there, condensation then leaves only what rounding does.
fn invert([a, b, d]: [f64; 3], bending: f64) -> ([f64; 3], bool) {
    let determinant = a * d - b * b;
    let sound = a > 0.0 && d > MISSING * bending && determinant > 1e-11 * a * d;
    if sound {
        ([d / determinant, -b / determinant, a / determinant], true)
    } else {
        ([0.0; 3], false)
    }
}

pub(super) fn times(m: [f64; 3], v: [f64; 2]) -> [f64; 2] {
    [m[0] * v[0] + m[1] * v[1], m[1] * v[0] + m[2] * v[1]]
}
