//! How a foot is set: packers, clearance, screws in the rafter and what they carry.

use crate::checks::clearance;
use crate::checks::screws::{self, Seat};
use crate::checks::segment::Setting;
use crate::codes::NotCovered;
use crate::codes::vocabulary::{Connection, Resistance};
use crate::hardware::Screw;
use crate::roof::Layers;
use crate::units::Length;

use super::Job;

/// How a foot is set: the same everywhere in a layout, as found in a recheck.
#[derive(Debug, Clone)]
pub struct Footing {
    /// Packers, thickest first; `None` when no stack gives the clearance asked for.
    pub packers: Option<Vec<Length>>,
    /// Clearance without packers.
    pub bare_clearance: Length,
    /// Clearance with them.
    pub clearance: Length,
    /// Width of the rafter.
    pub rafter_width: Length,
    /// Width of timber the foot bears on.
    pub bearing_width: Length,
    /// Measured distance of the arm to the nearest side joint.
    pub side_joint: Option<Length>,
    /// How the screws sit.
    pub seat: Seat,
    /// What they carry.
    pub capacity: Result<Connection, NotCovered>,
}

/// What decides how a foot is set, where it is not as drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct FoundFooting {
    /// Packers in place.
    pub packers: Vec<Length>,
    /// Layers under the covering.
    pub layers: Layers,
    /// Width of the rafter.
    pub rafter_width: Length,
    /// Length of the screws.
    pub screw_length: Length,
    /// Measured clearance before load, packers in place.
    pub clearance: Option<Length>,
    /// Measured distance of the arm to the nearest side joint.
    pub side_joint: Option<Length>,
}

impl FoundFooting {
    /// As a layout would set it.
    #[must_use]
    pub fn drawn(job: &Job) -> Self {
        Self {
            packers: Footing::of(job).packers.unwrap_or_default(),
            layers: job.roof.layers.clone(),
            rafter_width: job.roof.rafters.width,
            screw_length: job.screw.length,
            clearance: None,
            side_joint: None,
        }
    }
}

impl Footing {
    /// Height of the packers.
    #[must_use]
    pub fn packed(&self) -> Length {
        self.packers.iter().flatten().copied().sum()
    }

    /// For a job as drawn.
    #[must_use]
    pub fn of(job: &Job) -> Self {
        let (layers, rafter_width) = (&job.roof.layers, job.roof.rafters.width);
        let bare = clearance::unloaded(&job.hook, layers, &job.covering);
        let packers = clearance::packers_for(&job.packers, bare, job.wishes.min_clearance);
        Self::set(job, packers, layers, rafter_width, &job.screw, bare)
    }

    /// As found.
    #[must_use]
    pub fn found(job: &Job, found: &FoundFooting) -> Self {
        let packed: Length = found.packers.iter().copied().sum();
        let bare = found.clearance.map_or_else(
            || clearance::unloaded(&job.hook, &found.layers, &job.covering),
            |measured| measured - packed,
        );
        let screw = Screw { length: found.screw_length, ..job.screw.clone() };
        let packers = Some(found.packers.clone());
        let set = Self::set(job, packers, &found.layers, found.rafter_width, &screw, bare);
        // What was measured stands as it was measured, to the last digit.
        let clearance = found.clearance.unwrap_or(set.clearance);
        Self { clearance, side_joint: found.side_joint, ..set }
    }

    fn set(
        job: &Job,
        packers: Option<Vec<Length>>,
        layers: &Layers,
        rafter_width: Length,
        screw: &Screw,
        bare_clearance: Length,
    ) -> Self {
        let packed: Length = packers.iter().flatten().copied().sum();
        let seat =
            Seat::new(screw, &job.hook.foot, packed, layers.under_foot, job.roof.rafters.depth);
        Self {
            packers,
            bare_clearance,
            clearance: bare_clearance + packed,
            rafter_width,
            bearing_width: layers.bearing_width,
            side_joint: None,
            capacity: screws::capacity(
                job.rules,
                (screw, &job.hook.foot, &seat),
                job.timber,
                &job.actions.combinations,
            ),
            seat,
        }
    }

    /// What the checks need of it.
    #[must_use]
    pub fn setting(&self) -> Setting {
        Setting {
            // Without a clearance to start from there is nothing to use up: that fails by itself.
            clearance: if self.packers.is_some() {
                self.clearance
            } else {
                Length::from_mm(f64::INFINITY)
            },
            screws: Resistance::from(
                self.capacity
                    .as_ref()
                    .map_or_else(|silent| Err(*silent), |connection| Ok(connection.design.clone())),
            ),
        }
    }
}
