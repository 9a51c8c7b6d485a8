//! The outline of the section, and from there to paper.

use crate::covering::{Covering, Laying, stack};
use crate::geometry::Rect;
use crate::placement::Job;
use crate::placement::footing::Footing;

/// The outline of the section, mm.
pub struct Shape {
    /// What is shown along the slope.
    pub u: [f64; 2],
    /// What is shown square to it.
    pub z: [f64; 2],
    /// Tail edge the arm leaves under.
    pub tail: f64,
    /// Ends of the foot.
    pub foot: [f64; 2],
    /// Top of the packers.
    pub packed: f64,
    /// Underside of the arm at the tail edge.
    pub arm: f64,
    /// The same at its lower end, below the bolt.
    pub arm_at_bolt: f64,
    /// The same at the foot.
    pub arm_at_foot: f64,
    /// Axis of the rail bolt.
    pub bolt: f64,
    /// Rise of a tile over the rafter, per mm.
    pub slope: f64,
    /// Layers beside the foot.
    pub battens: f64,
}

impl Shape {
    /// The outline for a foot set in a way.
    pub fn of(job: &Job, footing: &Footing) -> Self {
        let (hook, covering) = (&job.hook, &job.covering);
        let packed = footing.packed().mm();
        let battens = job.roof.layers.battens_above_foot.mm();
        let tail = footing.bolt_beyond_exit.mm();
        let foot = [hook.reach.mm(), (hook.reach + hook.foot.length).mm()];
        let gap = footing.clearance_at_exit(job).mm();
        let arm = battens + stack::lower_tile_top(covering).mm() + gap;
        let slope = tile_slope(covering);
        let bolt = hook.bolt_height.mm() + packed;
        let above = (bolt + job.rail.depth.mm() / 2.0).max(arm + hook.arm_thickness.mm());
        let below = job.roof.layers.under_foot.mm() + job.roof.rafters.depth.mm();
        Self {
            u: [
                (-95.0_f64).min(-(job.rail.axis_offset + job.rail.depth / 2.0).mm() - 45.0),
                foot[1].max(tail) + 130.0,
            ],
            z: [-below, above + 12.0],
            tail,
            foot,
            packed,
            arm,
            arm_at_bolt: arm + (hook.arm_underside_at_bolt - hook.arm_underside).mm(),
            arm_at_foot: (arm - slope * (foot[0] - tail)).max(packed + hook.foot.thickness.mm()),
            bolt,
            slope,
            battens,
        }
    }
}

/// Rise of a tile over the rafter, per mm; see [`stack`] for where it comes from.
fn tile_slope(covering: &Covering) -> f64 {
    let rise = covering.tile_thickness / covering.gauge;
    match covering.laying {
        Laying::DoubleLap | Laying::Interlocking => rise,
        Laying::Crown => 2.0 * rise,
    }
}

/// From the section to paper.
pub struct View {
    /// Paper left of it.
    pub left: f64,
    /// Paper above it.
    pub top: f64,
    /// Place along the slope at the left, mm.
    pub u: f64,
    /// Height at the top, mm.
    pub z: f64,
    /// Units to the mm.
    pub scale: f64,
}

impl View {
    /// A point.
    pub fn at(&self, u: f64, z: f64) -> [f64; 2] {
        [self.left + (u - self.u) * self.scale, self.top + (self.z - z) * self.scale]
    }
    /// A rectangle.
    pub fn rect(&self, u: [f64; 2], z: [f64; 2]) -> Rect {
        let ([left, bottom], [right, top]) = (self.at(u[0], z[0]), self.at(u[1], z[1]));
        Rect { x: [left, right], y: [top, bottom] }
    }
}
