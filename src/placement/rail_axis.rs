//! Which way rails run, and what that makes of places on the slope.

use crate::geometry::Rect;
use crate::units::Length;

/// Which way rails run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RailAxis {
    /// From verge to verge, a rail over the tails of one course.
    AlongEaves,
    /// From the eaves to the ridge, a rail over one rafter.
    UpSlope,
}

impl RailAxis {
    /// What of a rectangle lies along a rail, and what across it, mm.
    #[must_use]
    pub const fn sides(self, rect: &Rect) -> [[f64; 2]; 2] {
        match self {
            Self::AlongEaves => [rect.x, rect.y],
            Self::UpSlope => [rect.y, rect.x],
        }
    }

    /// The rectangle of which so much lies along a rail and so much across it, mm.
    #[must_use]
    pub const fn rect(self, along: [f64; 2], across: [f64; 2]) -> Rect {
        match self {
            Self::AlongEaves => Rect { x: along, y: across },
            Self::UpSlope => Rect { x: across, y: along },
        }
    }

    /// Of a pair told as along the eaves and up the slope what is along a rail and what across it, or the
    /// other way round.
    #[must_use]
    pub fn turned<T>(self, [x, y]: [T; 2]) -> [T; 2] {
        match self {
            Self::AlongEaves => [x, y],
            Self::UpSlope => [y, x],
        }
    }

    /// What is told of rails that run one way, for those that do.
    #[must_use]
    pub fn told<T>(self, of: Self, what: T) -> Option<T> {
        (self == of).then_some(what)
    }

    /// The place on the slope so far along a rail and across it.
    #[must_use]
    pub const fn place(self, along: Length, across: Length) -> [Length; 2] {
        match self {
            Self::AlongEaves => [along, across],
            Self::UpSlope => [across, along],
        }
    }
}
