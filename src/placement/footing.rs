//! How a foot is set: packers, clearance, screws in the rafter and what they carry.

use crate::checks::clearance;
use crate::checks::screws::{self, Seat};
use crate::checks::segment::Setting;
use crate::codes::vocabulary::{BearingTimber, Connection, Resistance};
use crate::codes::{Code, NotCovered};
use crate::hardware::{Foot, Screw};
use crate::roof::Layers;
use crate::units::{Length, Stress};

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
    /// Rail bolt above the face the foot bears on, at its highest and at its lowest.
    pub heights: [Length; 2],
    /// Width of timber the foot bears on.
    pub bearing_width: Length,
    /// How far pressure spreads in it beyond the edges of the foot.
    pub bearing_spread: Length,
    /// That timber.
    pub bearing: BearingTimber,
    /// What it bears across the grain, combination by combination.
    pub bearing_strength: Vec<Stress>,
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
    /// Clear distance along the rafter to the foot of the next hook.
    pub clear: Length,
    /// The bolt in its slot, from the end nearer to the roof, where it is known.
    pub slot: Option<Length>,
    /// Measured clearance before load, packers in place.
    pub clearance: Option<Length>,
    /// Measured distance of the arm to the nearest side joint.
    pub side_joint: Option<Length>,
}

impl FoundFooting {
    /// As a layout would set it.
    #[must_use]
    pub fn drawn(job: &Job, clear: Length) -> Self {
        Self {
            packers: drawn_packers(job).unwrap_or_default(),
            layers: job.roof.layers.clone(),
            rafter_width: job.roof.rafters.width,
            screw_length: job.screw.length,
            clear,
            slot: None,
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

    /// Clearance where the arm leaves the covering; elsewhere it may be less.
    #[must_use]
    pub fn clearance_at_exit(&self, job: &Job) -> Length {
        self.clearance + clearance::narrowing(&job.hook, &job.covering)
    }

    /// For a job as drawn, with so clear a distance along a rafter from one foot to the next.
    #[must_use]
    pub fn of(job: &Job, clear: Length) -> Self {
        Self::drawn(job, drawn_packers(job), clear)
    }

    /// The same on these packers.
    #[must_use]
    pub fn stacked(job: &Job, packers: Vec<Length>, clear: Length) -> Self {
        Self::drawn(job, Some(packers), clear)
    }

    fn drawn(job: &Job, packers: Option<Vec<Length>>, clear: Length) -> Self {
        let way = FoundFooting::drawn(job, clear);
        let bare = clearance::unloaded(&job.hook, &job.roof.layers, &job.covering);
        Self::set(job, packers, &way, &job.screw, bare)
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
        let set = Self::set(job, Some(found.packers.clone()), found, &screw, bare);
        // What was measured stands as it was measured, to the last digit.
        let clearance = found.clearance.unwrap_or(set.clearance);
        Self { clearance, side_joint: found.side_joint, ..set }
    }

    fn set(
        job: &Job,
        packers: Option<Vec<Length>>,
        way: &FoundFooting,
        screw: &Screw,
        bare_clearance: Length,
    ) -> Self {
        let layers = &way.layers;
        let packed: Length = packers.iter().flatten().copied().sum();
        let foot = &job.hook.foot;
        let seat = Seat::new(screw, foot, packed, layers.under_foot, job.roof.rafters.depth);
        let on = BearingTimber {
            face: layers.face,
            backed: layers.soft_under_foot == Length::ZERO,
            clear: way.clear,
            timber: job.bearing_timber,
        };
        let combinations = &job.actions.combinations;
        let strength = |combination| job.rules.bearing_strength(&on, combination);
        Self {
            heights: heights(job, layers, packed, way.slot),
            bearing_spread: job.rules.bearing_spread(&on),
            bearing: on,
            bearing_strength: combinations.iter().map(strength).collect(),
            packers,
            bare_clearance,
            clearance: bare_clearance + packed,
            rafter_width: way.rafter_width,
            bearing_width: layers.bearing_width,
            side_joint: None,
            capacity: screws::capacity(job.rules, (screw, foot, &seat), job.timber, combinations),
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
            timber: self.bearing_strength.clone(),
        }
    }
}

/// The lowest stack that gives the clearance asked for.
fn drawn_packers(job: &Job) -> Option<Vec<Length>> {
    let bare = clearance::unloaded(&job.hook, &job.roof.layers, &job.covering);
    clearance::packers_for(&job.packers, bare, job.wishes.min_clearance)
}

/// The rail bolt above the face the foot bears on, at its highest and at its lowest.
///
/// At its highest it stands on all packers and soft layers. Where a plate clamps the heads of screws
/// that cross a layer without support in it, it also takes their moment: half the layer at most. At
/// its lowest it stands on the hook alone, so that packers never relieve a foot.
fn heights(job: &Job, layers: &Layers, packed: Length, slot: Option<Length>) -> [Length; 2] {
    let hook = &job.hook;
    let crossed = layers.under_foot - layers.soft_under_foot;
    let clamped = job.rules.head_clamping(hook.foot.thickness, job.screw.diameter) / 2.0;
    let half = hook.slot_range / 2.0;
    let [up, down] = slot.map_or([half, -half], |slot| [slot - half; 2]);
    [
        hook.bolt_height + packed + layers.soft_under_foot + crossed * clamped + up,
        hook.bolt_height + down,
    ]
}

/// Least clear distance along a rafter between the feet of rails, which are given by height and ends;
/// where an end is not known the rail is taken to reach over all others.
#[must_use]
pub fn clear_along_rafters(foot: &Foot, rails: &[(Length, [Option<Length>; 2])]) -> Length {
    let beside = |a: &[Option<Length>; 2], b: &[Option<Length>; 2]| {
        let ends = |one: Option<Length>, other: Option<Length>| {
            one.zip(other).is_some_and(|(end, start)| end < start)
        };
        ends(a[1], b[0]) || ends(b[1], a[0])
    };
    let mut clear = f64::INFINITY;
    for (i, (y, ends)) in rails.iter().enumerate() {
        for (other_y, other_ends) in &rails[i + 1..] {
            if !beside(ends, other_ends) {
                clear = clear.min(((*y - *other_y).abs() - foot.length).mm().max(0.0));
            }
        }
    }
    Length::from_mm(clear)
}
