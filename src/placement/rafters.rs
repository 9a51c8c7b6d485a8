//! The rafters under a layout: what its hooks and the covering beside it put on each, whether it
//! bears that, and what it bore before.

use crate::checks::Governing;
use crate::checks::rafter::{RafterEffects, Train};
use crate::checks::segment::SegmentResult;
use crate::codes::cited::Step;
use crate::codes::vocabulary::{ByCase, Combination, Sense, Situation, WindCase, WindPatch};
use crate::codes::{Code, RafterSection};
use crate::geometry::{Rect, Region};
use crate::units::{Force, Length, LineLoad};

use super::Job;
use super::footing::Footing;
use super::laid::{Layout, ModuleResult, RafterResult, Rail, hooks_of};
use super::loads::snow_acting;

/// Sums of hook forces on every rafter, and its checks when its span is known.
pub(super) fn under(
    job: &Job,
    footings: &[Footing],
    rails: &[Rail],
    modules: &[ModuleResult],
) -> Vec<RafterResult> {
    under_some(job, footings, rails, modules, |_| true)
}

/// The same of some rafters.
pub(super) fn under_some(
    job: &Job,
    footings: &[Footing],
    rails: &[Rail],
    modules: &[ModuleResult],
    wanted: impl Fn(usize) -> bool,
) -> Vec<RafterResult> {
    by_rafter(job, rails, wanted)
        .map(|on| rafter_result(job, footings, rails, modules, on))
        .collect()
}

/// Whether some rafters are used no more than is allowed; true where their span is not known. What a bound from
/// above allows is not worked out.
pub(super) fn are_within(
    job: &Job,
    footings: &[Footing],
    (rails, modules): (&[Rail], &[ModuleResult]),
    wanted: impl Fn(usize) -> bool,
    allowed: impl Fn(f64) -> bool,
) -> bool {
    let Some(span) = job.roof.rafters.span else { return true };
    by_rafter(job, rails, wanted).all(|(rafter, hooks)| {
        let (section, carried) = (section(job, footings, rails, &hooks), carried(rails, &hooks));
        let strip = Strip::of(job, modules, rafter);
        Loading { job, section, span, strip: &strip, carried: &carried }.is_within(&allowed)
    })
}

/// Rafters that carry hooks, with their hooks.
fn by_rafter(
    job: &Job,
    rails: &[Rail],
    wanted: impl Fn(usize) -> bool,
) -> impl Iterator<Item = (usize, Vec<[usize; 3]>)> {
    let mut hooks: Vec<Vec<[usize; 3]>> = vec![Vec::new(); job.roof.rafters.positions.len()];
    for (at, place) in hooks_of(rails) {
        hooks[place.rafter].push(at);
    }
    let all = hooks.into_iter().enumerate();
    all.filter(move |(rafter, hooks)| !hooks.is_empty() && wanted(*rafter))
}

/// The section of a rafter under these hooks. Where widths were measured, the least of them: a rafter may be cut or
/// worn in one place.
fn section(job: &Job, footings: &[Footing], rails: &[Rail], hooks: &[[usize; 3]]) -> RafterSection {
    let found = hooks.iter().map(|[r, s, h]| {
        let laid = &rails[*r].segments[*s];
        footings[laid.segment.candidates[laid.found.subset[*h]].setting].rafter_width
    });
    let width = found.reduce(Length::min).unwrap_or(job.roof.rafters.width);
    RafterSection { width, depth: job.roof.rafters.depth, timber: job.timber }
}

/// What a rafter is used to, and what the bare roof uses of it: bending and shear, each with its
/// combination and provenance. Nothing where its span is not known.
#[must_use]
pub fn steps(job: &Job, layout: &Layout, rafter: &RafterResult) -> [Vec<(usize, Vec<Step>)>; 2] {
    let Some(span) = job.roof.rafters.span else { return [Vec::new(), Vec::new()] };
    let loaded = |modules: &[ModuleResult], carried: &[Carried<'_>], governing| {
        let Some(governing) = governing else { return Vec::new() };
        let strip = Strip::of(job, modules, rafter.rafter);
        let loading = Loading { job, section: rafter.section, span, strip: &strip, carried };
        loading.steps(governing)
    };
    let carried = carried(&layout.rails, &rafter.hooks);
    [loaded(&layout.modules, &carried, rafter.utilisation), loaded(&[], &[], rafter.before)]
}

fn rafter_result(
    job: &Job,
    footings: &[Footing],
    rails: &[Rail],
    modules: &[ModuleResult],
    (rafter, hooks): (usize, Vec<[usize; 3]>),
) -> RafterResult {
    let section = section(job, footings, rails, &hooks);
    let carried = carried(rails, &hooks);
    let mut out = RafterResult {
        rafter,
        hooks,
        press: Force::ZERO,
        lift: Force::ZERO,
        slope: Force::ZERO,
        added_share: 0.0,
        section,
        utilisation: None,
        before: None,
    };
    sums(job, &carried, &mut out);
    // This takes longest where hooks are very many, and nobody may want to know any more.
    let span = job.roof.rafters.span.filter(|_| !job.effort.stop.is_said());
    out.utilisation = span.map(|span| {
        let strip = Strip::of(job, modules, rafter);
        let loading = Loading { job, section, span, strip: &strip, carried: &carried };
        let mut worst = loading.worst();
        loading.with_person(&mut worst);
        worst
    });
    out
}

/// Sets beside each rafter what the bare roof, without an array, uses of it.
pub(super) fn compare(job: &Job, rafters: &mut [RafterResult]) {
    let span = job.roof.rafters.span.filter(|_| !job.effort.stop.is_said());
    let Some(span) = span else { return };
    for rafter in rafters {
        let (strip, section) = (Strip::of(job, &[], rafter.rafter), rafter.section);
        let bare = Loading { job, section, span, strip: &strip, carried: &[] };
        rafter.before = Some(bare.worst());
    }
}

/// A hook on a rafter, with its forces.
struct Carried<'a> {
    result: &'a SegmentResult,
    hook: usize,
    y: Length,
}

impl Carried<'_> {
    /// Its force in a combination, normal and slope.
    fn force(&self, combination: usize) -> [Force; 2] {
        self.result.forces[combination][self.hook]
    }
}

fn carried<'a>(rails: &'a [Rail], hooks: &[[usize; 3]]) -> Vec<Carried<'a>> {
    let forces = hooks.iter().filter_map(|[r, s, h]| {
        let result = rails[*r].segments[*s].result.as_ref()?;
        let laid = &rails[*r].segments[*s];
        let at = laid.segment.candidates[laid.found.subset[*h]].at;
        Some(Carried { result, hook: *h, y: rails[*r].line.height_at(at) })
    });
    forces.collect()
}

/// Largest sums of hook forces, and the share the weight of the array adds.
fn sums(job: &Job, carried: &[Carried<'_>], out: &mut RafterResult) {
    let [cos, sin] = [job.roof.pitch.cos(), job.roof.pitch.sin()];
    for (i, combination) in job.actions.combinations.iter().enumerate() {
        let sum: Force = carried.iter().map(|hook| hook.force(i)[0]).sum();
        let slope: Force = carried.iter().map(|hook| hook.force(i)[1]).sum();
        if combination.situation != Situation::Characteristic {
            out.press = out.press.max(sum);
            out.lift = out.lift.max(-sum);
            out.slope = out.slope.max(slope);
        } else if is_weight_alone(combination) {
            let bounds = job.roof.outline.bounds();
            let width = job.roof.rafters.carried_width(out.rafter);
            let permanent = job.roof.rafters.permanent * width;
            let before = permanent * Length::from_mm(bounds.y[1] - bounds.y[0]);
            let vertical = sum * cos + slope * sin;
            out.added_share = if before > Force::ZERO { vertical / before } else { 0.0 };
        }
    }
}

/// Whether nothing but weights acts.
fn is_weight_alone(combination: &Combination) -> bool {
    let factors = &combination.factors;
    factors.snow == 0.0 && factors.exceptional_snow == 0.0 && combination.wind.is_none()
}

/// The strip of roof a rafter carries, and what acts on its covering.
struct Strip {
    /// Width of the strip.
    width: Length,
    /// Heights, ascending, between which nothing changes.
    borders: Vec<Length>,
    /// The pieces between them, from the lowest up.
    pieces: Vec<Bare>,
}

/// The covering along a piece of a strip.
struct Bare {
    /// Width no module lies over.
    width: Length,
    /// All of the wind there, and under modules what they leave of it.
    wind: ByCase<LineLoad>,
    /// Greatest coefficient of snow in each of its arrangements.
    snow: Vec<f64>,
}

/// Length of a piece over which a drift counts as deep as where it is deepest.
const DRIFT_STEP: f64 = 250.0;

impl Strip {
    /// The strip of a rafter beside these modules.
    fn of(job: &Job, modules: &[ModuleResult], rafter: usize) -> Self {
        let bounds = job.roof.outline.bounds();
        let x = job.roof.rafters.strip(rafter).map(Length::mm);
        let strip = Rect { x, y: bounds.y };
        let over: Vec<Rect> = modules
            .iter()
            .map(|module| module.placed.rect.cut(&strip))
            .filter(|rect| rect.area() > 0.0)
            .collect();
        let wind = job.actions.wind.covering.as_ref();
        let zones = wind.iter().flat_map(|wind| &wind.zones).map(|zone| &zone.region);
        let zones: Vec<&Region> = zones.filter(|zone| zone.within(&strip).is_some()).collect();
        let rects = over.iter().copied().chain(zones.iter().map(|zone| zone.bounds().cut(&strip)));
        let mut borders: Vec<f64> = bounds.y.into_iter().chain(rects.flat_map(|r| r.y)).collect();
        let arrangements = &job.actions.snow.arrangements;
        // Beside a slanting border the wind is that of the mean over a step.
        if !arrangements.is_empty() || !zones.iter().all(|zone| zone.is_rect()) {
            let steps = std::iter::successors(Some(bounds.y[0]), |y| Some(y + DRIFT_STEP));
            borders.extend(steps.skip(1).take_while(|y| *y < bounds.y[1]));
        }
        borders.sort_by(f64::total_cmp);
        borders.dedup();
        let pieces = borders.windows(2).map(|y| {
            let piece = Rect { x, y: [y[0], y[1]] };
            // Mean width of what modules cover of a part as wide as the piece is or narrower, and of what
            // lies bare.
            let covered = |part: &Rect| {
                let covered: f64 = over.iter().map(|rect| rect.overlap(part)).sum();
                Length::from_mm(covered.min(part.area()) / (y[1] - y[0]))
            };
            let bare = |part: &Rect| Length::from_mm(part.area() / (y[1] - y[0])) - covered(part);
            let mut loads = ByCase::all(LineLoad::ZERO);
            for patch in wind.iter().flat_map(|wind| wind.patches(&piece)) {
                let under: f64 = over.iter().map(|rect| patch.overlap(rect)).sum();
                let under = under.min(patch.part.area);
                let per_height = |area: f64| Length::from_mm(area / (y[1] - y[0]));
                let covered = per_height(under);
                let bare = per_height(patch.part.area) - covered;
                for sense in Sense::ALL {
                    let case = WindCase { direction: patch.zone.direction, sense };
                    let below = patch.pressure(sense) * left_to_covering(job, &patch, sense);
                    *loads.of_mut(case) += patch.pressure(sense) * bare;
                    *loads.of_mut(case) += below * covered;
                }
            }
            let snow = arrangements.iter().map(|a| a.greatest_on(&piece)).collect();
            Bare { width: bare(&piece), wind: loads, snow }
        });
        Self {
            width: Length::from_mm(x[1] - x[0]),
            pieces: pieces.collect(),
            borders: borders.iter().copied().map(Length::from_mm).collect(),
        }
    }
}

/// Share of the wind on the roof that the covering under a module bears: what the module does not take of
/// it. A module that is given more than the roof leaves nothing.
fn left_to_covering(job: &Job, patch: &WindPatch<'_>, sense: Sense) -> f64 {
    let roof = patch.zone.coefficients;
    let module = job.actions.wind.zoned().net.of(roof).of(sense);
    let roof = roof.of(sense);
    if roof == 0.0 { 0.0 } else { (1.0 - module / roof).clamp(0.0, 1.0) }
}

/// A rafter with all it carries.
struct Loading<'a> {
    job: &'a Job,
    section: RafterSection,
    span: Length,
    strip: &'a Strip,
    carried: &'a [Carried<'a>],
}

impl Loading<'_> {
    /// Bending and shear in the strength combination that uses most of each.
    fn worst(&self) -> [Governing; 2] {
        let job = self.job;
        let train = self.train();
        let (mut pieces, mut forces) = (Vec::new(), Vec::new());
        // What each combination uses at most.
        let mut at_most: Vec<([f64; 2], usize)> = Vec::new();
        for (i, combination) in job.actions.combinations.iter().enumerate() {
            if combination.situation != Situation::Characteristic {
                self.load(i, combination, &mut pieces, &mut forces);
                at_most.push((self.used(combination, train.at_most(&pieces, &forces)), i));
            }
        }
        // After those that may use most, few of the others can raise what is known.
        at_most.sort_by(|a, b| b.0[0].total_cmp(&a.0[0]));
        let mut worst = [Governing::NONE; 2];
        for (at_most, i) in at_most {
            if at_most.iter().zip(&worst).all(|(most, known)| *most < known.utilisation) {
                continue;
            }
            let combination = &job.actions.combinations[i];
            self.load(i, combination, &mut pieces, &mut forces);
            let used = self.used(combination, train.effects(&pieces, &forces));
            for (worst, used) in worst.iter_mut().zip(used) {
                worst.see(used, i);
            }
        }
        worst
    }

    /// Whether no strength combination uses more than is allowed.
    fn is_within(&self, allowed: impl Fn(f64) -> bool) -> bool {
        let train = self.train();
        let (mut pieces, mut forces) = (Vec::new(), Vec::new());
        let combinations = self.job.actions.combinations.iter().enumerate();
        let strength = combinations.filter(|(_, of)| of.situation != Situation::Characteristic);
        let mut each = strength.map(|(i, combination)| {
            self.load(i, combination, &mut pieces, &mut forces);
            let at_most = self.used(combination, train.at_most(&pieces, &forces));
            at_most.iter().all(|used| allowed(*used)) || {
                let used = self.used(combination, train.effects(&pieces, &forces));
                used.iter().all(|used| allowed(*used))
            }
        });
        each.all(|within| within)
            && self.beside_person().is_none_or(|(combination, effects)| {
                self.used(combination, effects).iter().all(|used| allowed(*used))
            })
    }

    /// Somebody at work on the roof, beside the weights.
    fn with_person(&self, worst: &mut [Governing; 2]) {
        let Some((combination, effects)) = self.beside_person() else { return };
        let used = self.used(combination, effects);
        for (worst, used) in worst.iter_mut().zip(used) {
            worst.see(used, self.job.actions.combinations.len());
        }
    }

    fn beside_person(&self) -> Option<(&Combination, RafterEffects)> {
        let combinations = &self.job.actions.combinations;
        let (i, _) = combinations.iter().enumerate().find(|(_, combination)| {
            combination.situation == Situation::Persistent && is_weight_alone(combination)
        })?;
        let person = self.job.actions.person.as_ref()?;
        let (mut pieces, mut forces) = (Vec::new(), Vec::new());
        self.load(i, &person.combination, &mut pieces, &mut forces);
        let across = person.weight * (person.factor * self.job.roof.pitch.cos());
        let effects = self.train().effects(&pieces, &forces).and_anywhere(across, self.span);
        Some((&person.combination, effects))
    }

    /// What governs bending and shear, each with its combination and provenance.
    fn steps(&self, [bending, shear]: [Governing; 2]) -> Vec<(usize, Vec<Step>)> {
        let [bent, sheared] = [bending, shear].map(|governing| {
            let (combination, effects) = self.effects(governing.combination)?;
            let RafterEffects { moment, shear } = effects;
            Some(self.job.rules.rafter_steps(&self.section, combination, moment, shear))
        });
        let bent = bent.map(|[steps, _]| (bending.combination, steps));
        let sheared = sheared.map(|[_, steps]| (shear.combination, steps));
        bent.into_iter().chain(sheared).collect()
    }

    /// Moment and shear in the combination of a number; beside a person in the one after all others.
    fn effects(&self, index: usize) -> Option<(&Combination, RafterEffects)> {
        let Some(combination) = self.job.actions.combinations.get(index) else {
            return self.beside_person();
        };
        let (mut pieces, mut forces) = (Vec::new(), Vec::new());
        self.load(index, combination, &mut pieces, &mut forces);
        Some((combination, self.train().effects(&pieces, &forces)))
    }

    fn train(&self) -> Train {
        let slope = self.job.roof.outline.bounds().y.map(Length::from_mm);
        let hooks = self.carried.iter().map(|hook| hook.y);
        Train::new(self.span, slope, hooks, &self.strip.borders)
    }

    fn used(&self, combination: &Combination, effects: RafterEffects) -> [f64; 2] {
        let RafterEffects { moment, shear } = effects;
        self.job.rules.rafter_utilisation(&self.section, combination, moment, shear)
    }

    /// Line loads and hook forces in a combination, the forces those of the combination of a number.
    fn load(
        &self,
        forces_of: usize,
        combination: &Combination,
        pieces: &mut Vec<LineLoad>,
        forces: &mut Vec<Force>,
    ) {
        let job = self.job;
        let (factors, snow) = (&combination.factors, &job.actions.snow);
        let permanent = job.roof.rafters.permanent
            * self.strip.width
            * (factors.permanent * job.roof.pitch.cos());
        let even = snow.on_slope.normal * factors.snow
            + snow.exceptional_on_slope.normal * factors.exceptional_snow;
        let (level, factor) = snow_acting(factors);
        let per_coefficient =
            snow.per_coefficient(level) * (factor * job.roof.pitch.cos() * job.roof.pitch.cos());
        pieces.clear();
        // Beyond eaves and ridge lies nothing but what the timber carries for good.
        pieces.push(permanent);
        pieces.extend(self.strip.pieces.iter().map(|bare| {
            let wind = combination.wind.map_or(LineLoad::ZERO, |case| bare.wind.of(case));
            let snow = combination.snow.map_or(even, |i| per_coefficient * bare.snow[i]);
            permanent + snow * bare.width + wind * factors.wind
        }));
        pieces.push(permanent);
        forces.clear();
        forces.extend(self.carried.iter().map(|hook| hook.force(forces_of)[0]));
    }
}

/// Whether every rafter bears what is on it, as far as its span is known.
pub(super) fn pass(job: &Job, rafters: &[RafterResult]) -> bool {
    rafters
        .iter()
        .flat_map(|r| r.utilisation.iter().flatten())
        .all(|governing| governing.utilisation <= job.wishes.max_utilisation)
}
