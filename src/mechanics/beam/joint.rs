//! One support in the elimination from left to right.

use super::lanes::{Both, Lanes};

/// Stiffness of a bay in the order `w_left, θ_left, w_right, θ_right`: symmetric, so one half.
#[derive(Debug, Clone, Copy)]
pub(super) struct Element<T> {
    /// Left end on left end.
    pub(super) left: [T; 3],
    /// Left end on right end: rows of the left, columns of the right.
    pub(super) across: [[T; 2]; 2],
    /// Right end on right end.
    pub(super) right: [T; 3],
    /// More than one hinge between two supports: a bar without a support of its own, refused.
    pub(super) mechanism: bool,
}

impl<T: Lanes> Element<T> {
    /// Forces at both ends that go with rotations of both, neither end moved.
    pub(super) fn on_held(&self, [left, right]: [T; 2]) -> [T; 2] {
        [
            self.left[1] * left + self.across[0][1] * right,
            self.across[1][0] * left + self.right[1] * right,
        ]
    }

    /// Forces at both ends that go with displacements of both.
    pub(super) fn on_moved(&self, left: [T; 2], right: [T; 2]) -> [T; 2] {
        let [[ww, wt], [tw, _]] = self.across;
        [
            self.left[0] * left[0] + self.left[1] * left[1] + ww * right[0] + wt * right[1],
            ww * left[0] + tw * left[1] + self.right[0] * right[0] + self.right[1] * right[1],
        ]
    }

    /// Force and moment at the right end that go with displacements of both.
    pub(super) fn on_right_end(&self, left: [T; 2], right: [T; 2]) -> [T; 2] {
        let [[_, wt], [_, tt]] = self.across;
        let [_, force] = self.on_moved(left, right);
        [force, wt * left[0] + tt * left[1] + self.right[1] * right[0] + self.right[2] * right[1]]
    }

    /// The same of the mirrored beam.
    pub(super) fn mirrored(&self) -> Self {
        let turned = |[w, between, turn]: [T; 3]| [w, -between, turn];
        let [[ww, wt], [tw, tt]] = self.across;
        Self {
            left: turned(self.right),
            across: [[ww, -tw], [-wt, tt]],
            right: turned(self.left),
            mechanism: self.mechanism,
        }
    }
}

impl Element<Both> {
    /// Of two members side by side.
    pub(super) fn of_both([a, b]: [Element<f64>; 2]) -> Self {
        let both = |of: &dyn Fn(&Element<f64>) -> f64| Both([of(&a), of(&b)]);
        Self {
            left: std::array::from_fn(|i| both(&|element| element.left[i])),
            across: std::array::from_fn(|i| {
                std::array::from_fn(|j| both(&|element| element.across[i][j]))
            }),
            right: std::array::from_fn(|i| both(&|element| element.right[i])),
            mechanism: a.mechanism || b.mechanism,
        }
    }
}

/// What supports are.
#[derive(Debug, Clone, Copy)]
pub(super) struct Springs<T> {
    /// Stiffness; 1 where rigid.
    pub(super) stiffness: T,
    /// 1 for springs, 0 where rigid: what multiplies everything that moves a support.
    pub(super) moves: T,
}

impl Springs<Both> {
    /// Of each beam the force of its kind of support.
    pub(super) fn of_kind(&self, spring: Both, rigid: Both) -> Both {
        let Both(moves) = self.moves;
        let of = |beam: usize| if moves[beam] > 0.0 { spring.0[beam] } else { rigid.0[beam] };
        Both([of(0), of(1)])
    }
}

/// A support with everything left of it condensed onto it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Joint<T> {
    /// Its spring and what is left of it, the block of its two unknowns.
    pub(super) left: [T; 3],
    /// Rotational stiffness of the span to the left, with nothing condensed.
    pub(super) bending: T,
    /// Inverse of its diagonal block, once the span to the right is known.
    pub(super) inverse: [T; 3],
    /// Coupling to the next support.
    pub(super) coupling: [[T; 2]; 2],
    /// Nothing left of it can move without bending.
    pub(super) stable: bool,
}

impl<T: Lanes> Joint<T> {
    /// The first support.
    pub(super) fn first(springs: &Springs<T>) -> Self {
        let zero = T::splat(0.0);
        Self {
            left: [springs.stiffness, zero, zero],
            bending: zero,
            inverse: [zero; 3],
            coupling: [[zero; 2]; 2],
            stable: true,
        }
    }

    /// The next support beyond a bay, which settles this one.
    pub(super) fn next(&mut self, springs: &Springs<T>, bay: &Element<T>) -> Self {
        // A rigid support has no deflection to solve for: its rows and columns drop out.
        let w = springs.moves;
        let s = [
            self.left[0] + w * bay.left[0],
            self.left[1] + w * bay.left[1],
            self.left[2] + bay.left[2],
        ];
        let (inverse, stable) = invert(s, self.bending + bay.left[2]);
        self.inverse = inverse;
        let c = [
            [w * bay.across[0][0], w * bay.across[0][1]],
            [w * bay.across[1][0], bay.across[1][1]],
        ];
        self.coupling = c;
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
        let zero = T::splat(0.0);
        Self {
            left: [
                springs.stiffness + w * bay.right[0] - (c[0][0] * ic[0][0] + c[1][0] * ic[1][0]),
                w * bay.right[1] - (c[0][0] * ic[0][1] + c[1][0] * ic[1][1]),
                bay.right[2] - (c[0][1] * ic[0][1] + c[1][1] * ic[1][1]),
            ],
            bending: bay.right[2],
            inverse: [zero; 3],
            coupling: [[zero; 2]; 2],
            stable: self.stable && stable && !bay.mechanism,
        }
    }

    /// Inverse of the block of the last support; `None` where the beam can move without bending.
    pub(super) fn close(&self) -> Option<[T; 3]> {
        let (inverse, stable) = invert(self.left, self.bending);
        (stable && self.stable).then_some(inverse)
    }

    /// Whether the beam left of it stands by itself.
    pub(super) fn stands(&self) -> bool {
        self.left[2].exceeds(T::splat(MISSING) * self.bending)
    }

    /// Loads handed to the next support.
    pub(super) fn hand_on(&self, before: [T; 2]) -> [T; 2] {
        let (z, c) = (times(self.inverse, before), &self.coupling);
        [c[0][0] * z[0] + c[1][0] * z[1], c[0][1] * z[0] + c[1][1] * z[1]]
    }

    /// Displacement of this support from its loads and the displacement of the next.
    pub(super) fn follow(&self, loads: [T; 2], next: [T; 2]) -> [T; 2] {
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
pub(super) fn invert<T: Lanes>([a, b, d]: [T; 3], bending: T) -> ([T; 3], bool) {
    let zero = T::splat(0.0);
    let determinant = a * d - b * b;
    let sound = a.exceeds(zero)
        && d.exceeds(T::splat(MISSING) * bending)
        && determinant.exceeds(T::splat(1e-11) * a * d);
    if sound {
        ([d / determinant, -b / determinant, a / determinant], true)
    } else {
        ([zero; 3], false)
    }
}

pub(super) fn times<T: Lanes>(m: [T; 3], v: [T; 2]) -> [T; 2] {
    [m[0] * v[0] + m[1] * v[1], m[1] * v[0] + m[2] * v[1]]
}
