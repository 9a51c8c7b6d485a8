//! Where rails and hooks go.
//!
//! **Layer.** Above `checks`: proposes, and lets the checks decide.

pub mod actions;
pub mod array;
pub mod built;
pub mod candidates;
pub mod capacity;
pub mod clamp_zones;
pub mod crossing;
pub mod departures;
pub mod expansion;
pub mod feet;
pub mod filling;
pub mod footing;
pub mod free_ends;
pub mod kept;
pub mod laid;
pub mod layout;
pub mod line;
pub mod loads;
pub mod mending;
pub mod modules;
pub mod moved;
pub mod names;
pub mod one_fewer;
pub mod places;
pub mod rail_axis;
pub mod rafters;
pub mod rafters_off;
pub mod rail_lines;
pub mod refit;
pub mod reload;
pub mod repair;
pub mod room;
pub mod running_on;
mod same_rafters;
pub mod search;
pub mod side_joints;
pub mod segments;
mod shared_rafters;
pub mod sideways;
pub mod splices;
pub mod there;
pub mod up_slope;

use crate::checks::bolt::BoltLimits;
use crate::checks::segment::Hold;
use crate::codes::{Rules, Timber};
use crate::covering::Covering;
use crate::covering::watertight::Watertight;
use crate::effort::Effort;
use crate::hardware::{Clamp, Hook, Module, Packers, RailProfile, Screw};
use crate::roof::Roof;
use crate::units::Length;

use actions::Actions;
use rail_axis::RailAxis;

/// A job, resolved: nothing is missing, nothing is assumed below here.
#[derive(Debug, Clone)]
pub struct Job {
    /// Rules it is computed by.
    pub rules: Rules,
    /// The slope.
    pub roof: Roof,
    /// Its covering.
    pub covering: Covering,
    /// What keeps the water out of it.
    pub watertight: Watertight,
    /// Timber of the rafters.
    pub timber: Timber,
    /// Timber of the face the feet bear on.
    pub bearing_timber: Timber,
    /// Fields of modules, each with its own kind of them.
    pub fields: Vec<array::Field>,
    /// Which way the rails run that stand on hooks.
    pub rail_axis: RailAxis,
    /// Whether these are lower rails, up the slope, that bear upper ones along the eaves, to which the modules
    /// are clamped.
    pub rails_cross: bool,
    /// Which hooks hold a rail along its axis, where rails run up the slope.
    pub hold: Hold,
    /// The hook.
    pub hook: Hook,
    /// The bolt that holds the rail to it; `None` where it is not known.
    pub bolt: Option<BoltLimits>,
    /// Its screw.
    pub screw: Screw,
    /// The rail.
    pub rail: RailProfile,
    /// The clamp.
    pub clamp: Clamp,
    /// The packers.
    pub packers: Packers,
    /// Height above the rail bolts at which the slope force of the modules acts, field by field.
    pub load_heights: Vec<Length>,
    /// What acts.
    pub actions: Actions,
    /// What the caller wants.
    pub wishes: Wishes,
    /// What laying it out may take.
    pub effort: Effort,
}

impl Job {
    /// The module that is placed somewhere.
    #[must_use]
    pub fn module(&self, placed: &array::Placed) -> &Module {
        &self.fields[placed.field].module
    }

    /// Which way the rails run that modules are clamped to.
    #[must_use]
    pub const fn clamped_axis(&self) -> RailAxis {
        if self.rails_cross { RailAxis::AlongEaves } else { self.rail_axis }
    }

    /// How far to the right of its arms a rail lies: one up the slope is bolted to the side of their uprights.
    #[must_use]
    pub const fn rail_aside(&self) -> Length {
        match self.rail_axis {
            RailAxis::AlongEaves => Length::ZERO,
            RailAxis::UpSlope => self.rail.axis_offset,
        }
    }
}

/// What the caller wants.
#[derive(Debug, Clone, Copy)]
pub struct Wishes {
    /// Aim.
    pub objective: Objective,
    /// Largest utilisation allowed.
    pub max_utilisation: f64,
    /// Least unloaded clearance.
    pub min_clearance: Length,
    /// Least room between arm and tile above.
    pub min_room_above: Length,
    /// Where arms stand under tiles that let them out anywhere.
    pub arms: ArmPosition,
    /// Patterns weighed per segment at most.
    pub search_limit: u64,
}

impl Wishes {
    /// Whether a utilisation is within what is wanted.
    #[must_use]
    pub fn allow(&self, utilisation: f64) -> bool {
        utilisation <= self.max_utilisation + ROUNDING
    }
}

/// A utilisation this little over its bound is the rounding of the arithmetic.
pub const ROUNDING: f64 = 1e-9;

/// Where arms stand under tiles that let them out anywhere.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ArmPosition {
    /// As near to a side joint as costs nothing.
    TowardsSideJoint,
    /// On the axis of the rafter.
    RafterAxis,
}

/// Aim of the layout.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Objective {
    /// Fewest hooks.
    FewestHooks,
    /// The same number of rafters from hook to hook.
    EvenSpacing,
    /// Rails of a row on alternate rafters, save the outermost.
    Staggered,
    /// All rails of a field on the same rafters.
    SameRafters,
}
