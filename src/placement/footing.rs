//! How a foot is set: packers, clearance, screws in the rafter and what they carry.

use crate::checks::arm;
use crate::checks::clearance;
use crate::checks::foot::turning::{self, TurningFoot};
use crate::checks::screws::{self, Seat};
use crate::checks::segment::Setting;
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{BearingTimber, Connection, Resistance};
use crate::codes::{Code, NotCovered};
use crate::hardware::{Foot, NormalSpring, Screw};
use crate::roof::Layers;
use crate::units::{Length, Stress};

use super::Job;
use super::rail_axis::RailAxis;

/// How a foot is set: the same everywhere in a layout, as found in a recheck.
#[derive(Debug, Clone)]
pub struct Footing {
    /// Packers, thickest first; `None` when no stack gives the clearance asked for.
    pub packers: Option<Vec<Length>>,
    /// Clearance without packers.
    pub bare_clearance: Length,
    /// Clearance with them.
    pub clearance: Length,
    /// Clearance under the rail with its bolt at the lower end of its slot, packers in place.
    pub lowest_rail: Length,
    /// The bolt in its slot, from that end, where it is known.
    pub slot: Option<Length>,
    /// From the tail edge the arm leaves under down the slope to the bolt.
    pub bolt_beyond_exit: Length,
    /// How far the arm comes down under load.
    pub spring: NormalSpring,
    /// What the heights are made up of.
    parts: Heights,
    /// How the foot turns, where its arm is told apart.
    turning: Option<TurningFoot>,
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

/// What the rails decide of the feet under them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnderRails {
    /// Least clear distance along a rafter from one foot to the next.
    pub clear: Length,
    /// From the tail edge an arm leaves under down the slope to its bolt.
    pub bolt_beyond_exit: Length,
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
    /// What its rail and the next ones decide.
    pub rails: UnderRails,
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
    pub fn drawn(job: &Job, rails: UnderRails) -> Self {
        Self {
            packers: drawn_packers(job, rails).unwrap_or_default(),
            layers: job.roof.layers.clone(),
            rafter_width: job.roof.rafters.width,
            screw_length: job.screw.length,
            rails,
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

    /// The same with its arm clear of the tile, however far it comes down.
    #[must_use]
    pub fn clear_of_tiles(self) -> Self {
        Self { clearance: Length::from_mm(f64::INFINITY), ..self }
    }

    /// Clearance where the arm leaves the covering; elsewhere it may be less.
    #[must_use]
    pub fn clearance_at_exit(&self, job: &Job) -> Length {
        self.clearance + self.narrowing(job)
    }

    /// How much less of it there is at the bolt.
    #[must_use]
    pub fn narrowing(&self, job: &Job) -> Length {
        clearance::narrowing(&job.hook, &job.covering, self.bolt_beyond_exit)
    }

    /// For a job as drawn, under such rails.
    #[must_use]
    pub fn of(job: &Job, rails: UnderRails) -> Self {
        Self::drawn(job, drawn_packers(job, rails), rails)
    }

    /// The same on these packers.
    #[must_use]
    pub fn stacked(job: &Job, packers: Vec<Length>, rails: UnderRails) -> Self {
        Self::drawn(job, Some(packers), rails)
    }

    fn drawn(job: &Job, packers: Option<Vec<Length>>, rails: UnderRails) -> Self {
        let way = FoundFooting::drawn(job, rails);
        let bare = bare_clearance(job, &job.roof.layers, rails);
        Self::set(job, packers, &way, &job.screw, bare)
    }

    /// As found.
    #[must_use]
    pub fn found(job: &Job, found: &FoundFooting) -> Self {
        let packed: Length = found.packers.iter().copied().sum();
        let bare = found.clearance.map_or_else(
            || bare_clearance(job, &found.layers, found.rails),
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
            clear: way.rails.clear,
            timber: job.bearing_timber,
        };
        let combinations = &job.actions.combinations;
        let strength = |combination| job.rules.bearing_strength(&on, combination);
        let heights = heights(job, layers, packed, way.slot);
        let across = job.rules.across_grain(job.bearing_timber);
        let apart = job.hook.arm_spring.is_some();
        let turning = turning::on_timber(&job.hook, (layers.bearing_width, across), screw, &seat)
            .filter(|_| apart);
        Self {
            spring: spring(job, turning.as_ref(), heights.ends()[0]),
            heights: heights.ends(),
            parts: heights,
            turning,
            bolt_beyond_exit: way.rails.bolt_beyond_exit,
            bearing_spread: job.rules.bearing_spread(&on),
            bearing: on,
            bearing_strength: combinations.iter().map(strength).collect(),
            lowest_rail: lowest_rail(job, way, bare_clearance) + packed,
            slot: way.slot,
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

    /// How the heights of the bolt were found, and what of the hook gives where arm and foot are told
    /// apart.
    pub fn steps(&self, job: &Job) -> impl Iterator<Item = Step> + use<> {
        let arm = job.hook.normal_spring.stiffness.map(|_| arm::steps(&job.hook));
        let foot = self.turning.map(|foot| foot.steps(turning_arm(job)));
        let heights = self.parts.steps().into_iter();
        let plate = job.hook.plate_bending.map(|moment| {
            const BAR: Source =
                Source::Other("EN 1993-1-1 6.2.5, b_p·t²/4·f_y/γ_M0 with the steel of the arm");
            Step::new(Quantity::PlateResistance, "M_pl", moment.knm(), "kN·m", BAR)
        });
        let heights = heights.chain(plate);
        heights.chain(arm.into_iter().flatten()).chain(foot.into_iter().flatten())
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
            spring: self.spring,
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
fn drawn_packers(job: &Job, rails: UnderRails) -> Option<Vec<Length>> {
    let bare = bare_clearance(job, &job.roof.layers, rails);
    clearance::packers_for(&job.packers, bare, job.wishes.min_clearance)
}

/// Clearance without packers.
fn bare_clearance(job: &Job, layers: &Layers, rails: UnderRails) -> Length {
    clearance::unloaded(&job.hook, layers, &job.covering, rails.bolt_beyond_exit)
}

/// Clearance under a rail at the lower end of its slots, without packers. Where that of the arm was measured
/// the tiles stand as much higher or lower under the rail.
fn lowest_rail(job: &Job, way: &FoundFooting, bare: Length) -> Length {
    let (depth, half) = (job.rail.depth, job.rail.depth / 2.0);
    let over = match job.rail_axis {
        // It is as wide as it is deep.
        RailAxis::AlongEaves => {
            let axis = way.rails.bolt_beyond_exit + job.rail.axis_offset;
            [axis - half, axis + half]
        }
        RailAxis::UpSlope => [Length::ZERO, job.covering.gauge],
    };
    let rail = (over, depth);
    let found = bare - bare_clearance(job, &way.layers, way.rails);
    clearance::under_rail(&job.hook, &way.layers, &job.covering, rail) + found
}

/// How far the arm is taken to come down on a foot that turns so, with its bolt so high above the face it bears on.
fn spring(job: &Job, turning: Option<&TurningFoot>, height: Length) -> NormalSpring {
    let Some(arm) = job.hook.arm_spring else { return job.hook.normal_spring };
    let foot = turning.map(TurningFoot::softened);
    turning::on_foot(arm, foot, [turning_arm(job), height])
}

/// From the edge a foot turns about to the axis of the rail.
fn turning_arm(job: &Job) -> Length {
    let down = match job.rail_axis {
        RailAxis::AlongEaves => job.rail.axis_offset,
        RailAxis::UpSlope => Length::ZERO,
    };
    turning::to_rail(&job.hook, down)
}

/// The rail bolt above the face the foot bears on, at its highest and at its lowest.
///
/// At its highest it stands on all packers and soft layers. Where a plate clamps the heads of screws
/// that cross a layer without support in it, it also takes their moment: half the layer at most. At
/// its lowest it stands on the hook alone, so that packers never relieve a foot.
fn heights(job: &Job, layers: &Layers, packed: Length, slot: Option<Length>) -> Heights {
    let hook = &job.hook;
    let crossed = layers.under_foot - layers.soft_under_foot;
    let half = hook.slot_range / 2.0;
    Heights {
        bolt: hook.bolt_height,
        packed,
        soft: layers.soft_under_foot,
        clamped: crossed * (job.rules.head_clamping(hook.foot.thickness, job.screw.diameter) / 2.0),
        slot: slot.map_or([half, -half], |slot| [slot - half; 2]),
    }
}

/// What the height of a rail bolt above the face under its foot is made up of.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Heights {
    bolt: Length,
    packed: Length,
    soft: Length,
    clamped: Length,
    /// In its slot, from the middle: highest and lowest.
    slot: [Length; 2],
}

impl Heights {
    /// Highest and lowest.
    fn ends(&self) -> [Length; 2] {
        let [up, down] = self.slot;
        [self.bolt + self.packed + self.soft + self.clamped + up, self.bolt + down]
    }

    fn steps(&self) -> [Step; 8] {
        const GEOMETRY: Source = Source::Other("geometry of hook and layers");
        const CLAMPED: Source = Source::Other(
            "half the layers times (t - 0.5·d)/(0.5·d) between 0 and 1, EN 1995-1-1 8.2.3(1)",
        );
        const SUM: Source = Source::Other("sum of these");
        const ALONE: Source = Source::Other("the hook alone: packers relieve no foot");
        let mm = |quantity, symbol, length: Length, source| {
            Step::new(quantity, symbol, length.mm(), "mm", source)
        };
        let ([up, down], [highest, lowest]) = (self.slot, self.ends());
        [
            mm(Quantity::BoltAboveFoot, "h_0", self.bolt, GEOMETRY),
            mm(Quantity::PackersUnderFoot, "h_p", self.packed, GEOMETRY),
            mm(Quantity::SoftUnderFoot, "h_w", self.soft, GEOMETRY),
            mm(Quantity::ClampedLayers, "h_c", self.clamped, CLAMPED),
            mm(Quantity::SlotReserve, "h_s", up, GEOMETRY),
            mm(Quantity::SlotReserveBelow, "h_s'", -down, GEOMETRY),
            mm(Quantity::BoltHighest, "h_max", highest, SUM),
            mm(Quantity::BoltLowest, "h_min", lowest, ALONE),
        ]
    }
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
