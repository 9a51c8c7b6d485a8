//! From loads on modules to load cases on a rail.
//!
//! A module stands on four points: its two side frames on its two rails. Every load on it is shared
//! among the four by the lever rule in both directions, from where it acts: even snow and weight at the
//! middle of the module, a drift at its centroid over the module, the wind on each zone it lies in at
//! the centroid of that part. A share may be negative or above 1. The slope force is shared like the normal one; it acts above the bolts of
//! the rails, and the couple of that presses the lower rail and lifts the upper one; where rails run up the
//! slope it presses the lower frame of the module and lifts the upper one, on both rails as they share the
//! force. The rail's own weight is a line load. Clamps stand at the side frames, half of a mid clamp on either neighbour.

use crate::checks::segment::{Case, Limit};
use crate::codes::vocabulary::{
    Arrangement, ByCase, Combination, Factors, GroundLevel, Sense, Situation, WindCase, WindField,
};
use crate::geometry::Rect;
use crate::mechanics::beam::{self, Superposition};
use crate::mechanics::lever;
use crate::units::{Area, Force, Length, LineLoad};

use super::Job;
use super::array::Placed;
use super::rail_axis::RailAxis;
use super::rail_lines::RailLine;

/// Direction of a load on the slope.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Component {
    /// Square to it.
    Normal,
    /// Down it.
    Slope,
}

/// Forces of the wind on a rail at the two frames of one module that lie on it, along the rail, for every
/// wind.
#[must_use]
pub fn wind_on_frames(wind: &WindField, line: &RailLine, module: &Rect) -> ByCase<[Force; 2]> {
    let axis = line.axis();
    let [left, right] = axis.sides(module)[0].map(Length::from_mm);
    let mut frames = ByCase::all([Force::ZERO; 2]);
    for patch in wind.patches(module) {
        let centre = patch.part.centre;
        let [x, across] = axis.turned([centre.x, centre.y]).map(Length::from_mm);
        let on_rail = line.share(across);
        for sense in Sense::ALL {
            let force = patch.force(sense) * on_rail;
            let [on_left, on_right] =
                frames.of_mut(WindCase { direction: patch.zone.direction, sense });
            *on_left += force * lever::share(x, left, right);
            *on_right += force * lever::share(x, right, left);
        }
    }
    frames
}

/// Loads on a rail that all combinations are made up of: the weight of the array, a load of 1 N on
/// every side frame for what acts alike on all of them, and every wind that does not.
pub(super) struct Loads {
    /// Square to the slope.
    pub(super) normal: Vec<beam::Case>,
    /// Down it.
    pub(super) slope: Vec<beam::Case>,
    taken: Taken,
    /// Of one module.
    area: Area,
    wind: Vec<(WindCase, WindLoad)>,
    /// Arrangements of the snow, from characteristic and from exceptional snow on the ground.
    snow: Vec<[SnowLoad; 2]>,
}

/// What a rail takes of a force that acts at the middle of a module.
#[derive(Debug, Clone, Copy)]
struct Taken {
    /// Share of a force square to the roof, and of one down the slope along the slope.
    share: f64,
    /// Force square to the roof per force down the slope.
    couple: f64,
    /// Where the rail runs up the slope, force square to the roof on the lower frame, per force down the slope
    /// on the module: the upper frame is lifted as much.
    tilt: f64,
}

impl Taken {
    fn by(job: &Job, line: &RailLine, module: Option<&Rect>) -> Self {
        let centre = |m: &Rect| {
            let [_, across] = line.axis().sides(m);
            Length::from_mm(f64::midpoint(across[0], across[1]))
        };
        let share = module.map_or(0.0, |m| line.share(centre(m)));
        let tilt = module.map_or(0.0, |m| tilt(job, line, m)) * share;
        Self { share, couple: line.couple(job.load_heights[line.field()]), tilt }
    }

    /// Loads at every frame of so many modules on a rail, lower or left frame first, that a load of 1 N at
    /// each of them stands for, which acts down the slope as its own weight does.
    fn frames(&self, job: &Job, modules: usize) -> Vec<f64> {
        let tilted = self.tilted(job);
        [1.0 + tilted, 1.0 - tilted].repeat(modules)
    }

    /// How much more of such a load the lower frame of a module takes than the mean of both, as a share of that.
    fn tilted(&self, job: &Job) -> f64 {
        if self.tilt == 0.0 {
            return 0.0;
        }
        self.tilt * FRAMES * job.roof.pitch.tan() / self.share
    }

    /// Force square to the roof at each side frame, from what acts on the module in both directions.
    fn normal_at_frame(&self, normal: Force, slope: Force) -> Force {
        (normal * self.share + slope * self.couple) / FRAMES
    }

    /// Force down the slope at each side frame.
    fn slope_at_frame(&self, slope: Force) -> Force {
        slope * (self.share / FRAMES)
    }
}

/// Force square to the roof on the lower frame of a module per force down the slope on it, where its rails run
/// up the slope; the upper frame is lifted as much.
#[must_use]
pub fn tilt(job: &Job, line: &RailLine, module: &Rect) -> f64 {
    match line.axis() {
        RailAxis::AlongEaves => 0.0,
        RailAxis::UpSlope => {
            let [lower, upper] = module.y.map(Length::from_mm);
            lever::couple(job.load_heights[line.field()], lower, upper)
        }
    }
}

/// Wind of one case on a rail.
enum WindLoad {
    /// The same at every side frame.
    Alike(Force),
    /// Its place among the loads square to the roof.
    Case(usize),
}

/// Snow of one arrangement on a rail.
#[derive(Debug, Clone, Copy)]
enum SnowLoad {
    /// The same at every side frame: square to the slope and down it.
    Alike([Force; 2]),
    /// Its places among the loads square to the roof and down it.
    Cases([usize; 2]),
}

/// Forces on a rail at the two frames of one module that lie on it, along the rail, square to the slope and
/// down it, from snow in an arrangement.
#[must_use]
pub fn snow_on_frames(
    job: &Job,
    arrangement: &Arrangement,
    level: GroundLevel,
    line: &RailLine,
    module: &Rect,
) -> [[Force; 2]; 2] {
    let axis = line.axis();
    let [left, right] = axis.sides(module)[0].map(Length::from_mm);
    let couple = line.couple(job.load_heights[line.field()]);
    let tilt = tilt(job, line, module);
    let mut frames = [[Force::ZERO; 2]; 2];
    for patch in arrangement.on_module(job.actions.snow.at(level), module) {
        let [x, across] = axis.turned([patch.at.x, patch.at.y]).map(Length::from_mm);
        let [normal, slope] =
            [job.roof.pitch.cos(), job.roof.pitch.sin()].map(|c| patch.weight * c);
        let share = line.share(across);
        let on_rail = [normal * share + slope * couple, slope * share];
        for (of_frames, force) in frames.iter_mut().zip(on_rail) {
            of_frames[0] += force * lever::share(x, left, right);
            of_frames[1] += force * lever::share(x, right, left);
        }
        let tilted = slope * (share * tilt);
        frames[0][0] += tilted;
        frames[0][1] -= tilted;
    }
    frames
}

/// Place of the weight of the array.
const WEIGHT: usize = 0;

/// Place of the load on every side frame.
const EVERY_FRAME: usize = 1;

/// Side frames a module stands with on each of its rails.
const FRAMES: f64 = 2.0;

impl Loads {
    /// On a line under these modules.
    pub(super) fn on(job: &Job, line: &RailLine, modules: &[Rect]) -> Self {
        let taken = Taken::by(job, line, modules.first());
        let case = |points| beam::Case { points, uniform: 0.0 };
        let module = &job.fields[line.field()].module;
        let on_fixings = &job.actions.wind.on(module.area()).fixings;
        let weight = |component| weight(job, (taken, module.weight), modules.len(), component);
        let mut slope = vec![weight(Component::Slope), case(vec![1.0; 2 * modules.len()])];
        let mut normal = vec![weight(Component::Normal), case(taken.frames(job, modules.len()))];
        let on_modules: Vec<ByCase<[Force; 2]>> =
            modules.iter().map(|module| wind_on_frames(on_fixings, line, module)).collect();
        let mut wind: Vec<(WindCase, WindLoad)> = Vec::new();
        for combination in &job.actions.combinations {
            let Some(case) = combination.wind else { continue };
            if wind.iter().any(|(known, _)| *known == case) {
                continue;
            }
            let frames = || on_modules.iter().flat_map(|frames| frames.of(case));
            let first = frames().next().unwrap_or(Force::ZERO);
            // What acts alike at all frames goes with what weighs on them, which it may not where they tilt.
            let load = if taken.tilt == 0.0 && are_alike(frames(), first) {
                WindLoad::Alike(first)
            } else {
                let points = frames().map(Force::n).collect();
                normal.push(beam::Case { points, uniform: 0.0 });
                WindLoad::Case(normal.len() - 1)
            };
            wind.push((case, load));
        }
        let mut put = |on_modules: Vec<[[Force; 2]; 2]>| {
            let frames = |component: usize| on_modules.iter().flat_map(move |m| m[component]);
            let first = [0, 1].map(|component| frames(component).next().unwrap_or(Force::ZERO));
            let alike = |component: usize| are_alike(frames(component), first[component]);
            if alike(0) && alike(1) {
                return SnowLoad::Alike(first);
            }
            SnowLoad::Cases([(0, &mut normal), (1, &mut slope)].map(|(component, cases)| {
                let points = frames(component).map(Force::n).collect();
                cases.push(beam::Case { points, uniform: 0.0 });
                cases.len() - 1
            }))
        };
        let arrangements = job.actions.snow.arrangements.iter();
        let snow = arrangements
            .map(|arrangement| {
                [GroundLevel::Characteristic, GroundLevel::Exceptional].map(|level| {
                    let on = |module| snow_on_frames(job, arrangement, level, line, module);
                    put(modules.iter().map(on).collect())
                })
            })
            .collect();
        Self { normal, slope, taken, area: module.area(), wind, snow }
    }

    /// The load case of a combination.
    pub(super) fn case(&self, job: &Job, index: usize, combination: &Combination) -> Case {
        let factors = &combination.factors;
        let (level, factor) = snow_acting(factors);
        let snow = combination.snow.map(|arrangement| self.snow[arrangement][level as usize]);
        let [mut on_frame, down_frame] = match snow {
            None => even_snow(job, (self.taken, self.area), factors),
            Some(SnowLoad::Alike(forces)) => forces.map(|force| force * factor),
            Some(SnowLoad::Cases(_)) => [Force::ZERO; 2],
        };
        let mut wind = (WEIGHT, 0.0);
        let blows = |known: &&(WindCase, WindLoad)| combination.wind == Some(known.0);
        match self.wind.iter().find(blows) {
            Some((_, WindLoad::Alike(load))) => on_frame += *load * factors.wind,
            Some((_, WindLoad::Case(place))) => wind = (*place, factors.wind),
            None => {}
        }
        let weight = (WEIGHT, factors.permanent);
        let [on_frame, down_frame] = [on_frame, down_frame].map(|load| (EVERY_FRAME, load.n()));
        // Where the snow differs from frame to frame, what is alike at all of them is wind alone, and
        // then there is no other wind.
        let [normal, slope] = match snow {
            Some(SnowLoad::Cases([normal, slope])) if wind.1 == 0.0 => {
                [[weight, (normal, factor), on_frame], [weight, (slope, factor), (WEIGHT, 0.0)]]
            }
            Some(SnowLoad::Cases([normal, slope])) => {
                [[weight, (normal, factor), wind], [weight, (slope, factor), (WEIGHT, 0.0)]]
            }
            // Wind has no component along the slope.
            _ => [[weight, on_frame, wind], [weight, down_frame, (WEIGHT, 0.0)]],
        };
        let limit = match combination.situation {
            Situation::Characteristic => Limit::Service,
            Situation::Persistent | Situation::Accidental => Limit::Strength,
        };
        Case {
            combination: index,
            limit,
            normal: Superposition::new(normal),
            slope: Superposition::new(slope),
        }
    }
}

/// Snow that lies evenly, at every side frame: square to the slope and down it.
fn even_snow(job: &Job, (taken, area): (Taken, Area), factors: &Factors) -> [Force; 2] {
    let snow = &job.actions.snow;
    let (all, exceptional) = (&snow.on_slope, &snow.exceptional_on_slope);
    let on_module =
        (all.normal * factors.snow + exceptional.normal * factors.exceptional_snow) * area;
    let down_module =
        (all.slope * factors.snow + exceptional.slope * factors.exceptional_snow) * area;
    [taken.normal_at_frame(on_module, down_module), taken.slope_at_frame(down_module)]
}

/// Which snow on the ground a combination has, and how much of it: never both.
pub(super) const fn snow_acting(factors: &Factors) -> (GroundLevel, f64) {
    if factors.exceptional_snow > 0.0 {
        (GroundLevel::Exceptional, factors.exceptional_snow)
    } else {
        (GroundLevel::Characteristic, factors.snow)
    }
}

/// Whether loads at frames are the same but for rounding.
fn are_alike(mut frames: impl Iterator<Item = Force>, first: Force) -> bool {
    frames.all(|frame| (frame - first).abs() <= first.abs() * ALIKE)
}

/// Loads at two frames that differ by less than this share of them are the same but for rounding.
const ALIKE: f64 = 1e-12;

/// Weight of modules, clamps and rail.
fn weight(
    job: &Job,
    (taken, module): (Taken, Force),
    modules: usize,
    component: Component,
) -> beam::Case {
    let direction = direction_cosine(job, component);
    let clamp = job.actions.weight.clamp.n() * direction;
    let frame = on_frame(job, taken, module)[component as usize].n();
    let frames = match component {
        Component::Normal => taken.frames(job, modules),
        Component::Slope => vec![1.0; 2 * modules],
    };
    let half = |is_end: bool| if is_end { clamp } else { clamp / 2.0 };
    let clamps = (0..modules).flat_map(|k| [half(k == 0), half(k + 1 == modules)]);
    beam::Case {
        points: clamps.zip(frames).map(|(clamp, share)| frame * share + clamp).collect(),
        uniform: job.actions.weight.rail.kn_per_m() * direction,
    }
}

/// What a rail takes at each side frame of a weight on a module: square to the slope and down it.
fn on_frame(job: &Job, taken: Taken, weight: Force) -> [Force; 2] {
    let [normal, slope] = [Component::Normal, Component::Slope]
        .map(|component| weight * direction_cosine(job, component));
    [taken.normal_at_frame(normal, slope), taken.slope_at_frame(slope)]
}

/// What acts alike on every side frame of a module on a rail, before any factor: square to the slope and
/// down it.
#[derive(Debug, Clone, Copy)]
pub struct AtFrame {
    /// Weight of the module.
    pub module: [Force; 2],
    /// Weight of a clamp at the end of a row; between modules each frame has half of one.
    pub clamp: [Force; 2],
    /// Snow that lies evenly.
    pub snow: [Force; 2],
    /// The same of exceptional snow.
    pub exceptional_snow: [Force; 2],
    /// How much more of module and snow the lower frame takes square to the slope where rails run up it, and
    /// how much less the upper one, as a share of the mean told here.
    pub tilted: f64,
}

/// What acts alike on the frames over a rail.
#[must_use]
pub fn at_frame(job: &Job, line: &RailLine) -> AtFrame {
    let place = line.run.end(&job.fields, 0);
    let taken = Taken::by(job, line, Some(&place));
    let module = &job.fields[line.field()].module;
    let area = module.area();
    let factors = |snow: f64, exceptional_snow: f64| Factors {
        permanent: 0.0,
        snow,
        exceptional_snow,
        wind: 0.0,
    };
    let clamp = [Component::Normal, Component::Slope]
        .map(|component| job.actions.weight.clamp * direction_cosine(job, component));
    AtFrame {
        module: on_frame(job, taken, module.weight),
        clamp,
        snow: even_snow(job, (taken, area), &factors(1.0, 0.0)),
        exceptional_snow: even_snow(job, (taken, area), &factors(0.0, 1.0)),
        tilted: taken.tilted(job),
    }
}

/// Weight of a rail along its length, square to the slope and down it.
#[must_use]
pub fn rail_weight(job: &Job) -> [LineLoad; 2] {
    [Component::Normal, Component::Slope]
        .map(|component| job.actions.weight.rail * direction_cosine(job, component))
}

/// Load square to a module in a combination, pressing, from the wind on all of it.
#[must_use]
pub fn load_on_module(
    job: &Job,
    combination: &Combination,
    module: &Placed,
    wind: &ByCase<Force>,
) -> Force {
    let [weight, snow, exceptional, wind] = loads_on_module(job, combination, module, wind);
    weight + snow + exceptional + wind
}

/// The same one by one, with their factors: weight, snow, exceptional snow, wind. Of snow that is
/// deeper on one part than on another the deepest counts everywhere: glass bears an even load.
#[must_use]
#[inline]
pub fn loads_on_module(
    job: &Job,
    combination: &Combination,
    placed: &Placed,
    wind: &ByCase<Force>,
) -> [Force; 4] {
    let factors = &combination.factors;
    let module = job.module(placed);
    let (snow, area) = (&job.actions.snow, module.area());
    let [all, exceptional] = match combination.snow {
        None => [snow.on_slope.normal, snow.exceptional_on_slope.normal].map(|load| load * area),
        Some(arrangement) => {
            let most = |level| {
                let on_plan =
                    snow.arrangements[arrangement].most_on_module(snow.at(level), &placed.rect);
                on_plan * job.roof.pitch.cos()
            };
            [GroundLevel::Characteristic, GroundLevel::Exceptional].map(most)
        }
    };
    let wind = combination.wind.map_or(Force::ZERO, |case| wind.of(case));
    [
        module.weight * direction_cosine(job, Component::Normal) * factors.permanent,
        all * factors.snow,
        exceptional * factors.exceptional_snow,
        wind * factors.wind,
    ]
}

/// Load down the slope on a module in a combination.
#[must_use]
pub fn slope_on_module(job: &Job, combination: &Combination, placed: &Placed) -> Force {
    let factors = &combination.factors;
    let module = job.module(placed);
    let (snow, area) = (&job.actions.snow, module.area());
    let snow = match combination.snow {
        None => {
            snow.on_slope.slope * area * factors.snow
                + snow.exceptional_on_slope.slope * area * factors.exceptional_snow
        }
        Some(arrangement) => {
            let (level, factor) = snow_acting(factors);
            let patches = snow.arrangements[arrangement].on_module(snow.at(level), &placed.rect);
            let weight: Force = patches.map(|patch| patch.weight).sum();
            weight * (factor * job.roof.pitch.sin())
        }
    };
    module.weight * direction_cosine(job, Component::Slope) * factors.permanent + snow
}

/// Part of a vertical force in a direction.
fn direction_cosine(job: &Job, component: Component) -> f64 {
    match component {
        Component::Normal => job.roof.pitch.cos(),
        Component::Slope => job.roof.pitch.sin(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::cited::Source;
    use crate::codes::vocabulary::{
        Coefficients, Direction, Evidence, NetCoefficients, PeakPressure, ZoneOnSlope,
    };
    use crate::placement::array::Run;
    use crate::placement::line::Over;
    use crate::placement::rail_lines::Position;
    use crate::units::Pressure;

    const WIND: WindCase = WindCase { direction: Direction::Front, sense: Sense::Lifting };

    fn zone(name: &'static str, [x, y]: [[f64; 2]; 2], suction: f64) -> ZoneOnSlope {
        ZoneOnSlope {
            direction: WIND.direction,
            name,
            region: Rect { x: x.map(|m| m * 1e3), y: y.map(|m| m * 1e3) }.into(),
            coefficients: Coefficients { suction, pressure: 0.0 },
            source: Source::Given,
        }
    }

    fn rail(y: f64, other: Option<f64>) -> RailLine {
        RailLine {
            runs_on: [Length::ZERO; 2],
            spliced_at: None,
            there: None,
            id: String::new(),
            run: Run { field: 0, axis: RailAxis::AlongEaves, lane: 0, places: [0, 0] },
            position: Position::Lower,
            across: Length::from_m(y),
            over: Over::Course(0),
            on_grid: true,
            lowered: Length::ZERO,
            other: other.map(Length::from_m),
            segments: Vec::new(),
        }
    }

    /// A module of 1.0 m by 1.8 m where corner, edge and field of a roof meet, at a peak pressure of 1 kN/m².
    ///
    /// | zone | part of the module | force, kN    | at x, y  | lower | left |
    /// |------|--------------------|--------------|----------|-------|------|
    /// | F    | 0.4 by 0.6         | 0.24·-1.8    | 1.8, 0.6 | 1.1   | 0.8  |
    /// | G    | 0.6 by 0.6         | 0.36·-1.2    | 2.3, 0.6 | 1.1   | 0.3  |
    /// | H    | 1.0 by 1.2         | 1.20·-0.6    | 2.1, 1.5 | 0.2   | 0.5  |
    ///
    /// The mean over the module, put at its middle, would be -1.584/4 = -0.396 everywhere.
    #[test]
    fn a_module_at_a_corner_loads_its_four_points_by_hand() {
        let peak = PeakPressure {
            pressure: Pressure::from_kn_per_m2(1.0),
            basic: None,
            described: String::new(),
            evidence: Evidence::Given,
            steps: Vec::new(),
        };
        let zones = vec![
            zone("F", [[0.0, 2.0], [0.0, 0.9]], -1.8),
            zone("G", [[2.0, 8.0], [0.0, 0.9]], -1.2),
            zone("H", [[0.0, 8.0], [0.9, 5.0]], -0.6),
        ];
        let net = NetCoefficients::RoofSurface;
        let wind = WindField { peak, net, evidence: Evidence::Given, loaded_area: None, zones };
        let module = Rect { x: [1600.0, 2600.0], y: [300.0, 2100.0] };
        let on = |y: f64, other: Option<f64>| {
            wind_on_frames(&wind, &rail(y, other), &module).of(WIND).map(Force::kn)
        };
        let close = |on: [f64; 2], by_hand: [f64; 2]| {
            let off = [0, 1].map(|frame| (on[frame] - by_hand[frame]).abs());
            assert!(off.iter().all(|off| *off < 1e-9), "{on:?}, by hand {by_hand:?}");
        };
        // Left: -0.432·1.1·0.8 - 0.432·1.1·0.3 - 0.72·0.2·0.5 = -0.38016 - 0.14256 - 0.072.
        // Right: -0.432·1.1·0.2 - 0.432·1.1·0.7 - 0.72·0.2·0.5 = -0.09504 - 0.33264 - 0.072.
        close(on(0.7, Some(1.7)), [-0.59472, -0.49968]);
        // What pulls below the lower rail presses on the upper one, with -0.1 of it.
        // Left: 0.432·0.1·0.8 + 0.432·0.1·0.3 - 0.72·0.8·0.5 = 0.03456 + 0.01296 - 0.288.
        // Right: 0.432·0.1·0.2 + 0.432·0.1·0.7 - 0.72·0.8·0.5 = 0.00864 + 0.03024 - 0.288.
        close(on(1.7, Some(0.7)), [-0.24048, -0.24912]);
        // A rail alone: -0.432·0.8 - 0.432·0.3 - 0.72·0.5, and the rest of -1.584.
        close(on(0.7, None), [-0.8352, -0.7488]);
    }
}
