//! The trace of an answer: the steps of every value, in order of the calculation, then the forces,
//! then the terms of every utilisation.
//!
//! Symbols, units and clauses come from the functions that computed the values; here they are only
//! put in order and given the element they belong to.

mod terms;

use crate::codes::Code;
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{
    Against, Coefficients, GroundLevel, LoadedArea, NetCoefficients, Person, Snow, WindCase,
    WindField,
};
use crate::covering::stack;
use crate::language::{Language, steps};
use crate::placement::Job;
use crate::placement::actions::{Actions, OnModules, Weight, Wind};
use crate::placement::array::{self, Placed};
use crate::placement::footing::Footing;
use crate::placement::laid::{LaidSegment, Layout};
use crate::placement::loads::{self, snow_on_frames, wind_on_frames};
use crate::placement::rail_axis::RailAxis;
use crate::placement::rail_lines::RailLine;
use crate::units::{Area, FlexuralRigidity, Force, Length, LineLoad, Stiffness};
use crate::wire::provenance::TraceLine;

use super::answer::{combination_name, hook_name, hooks_on};
use super::rounding;

/// Collects lines, in a language.
struct Trace {
    language: Language,
    lines: Vec<TraceLine>,
}

impl Trace {
    /// The steps of one element.
    fn add(&mut self, element: &str, steps: impl IntoIterator<Item = Step>) {
        let language = self.language;
        self.lines.extend(steps.into_iter().map(|step| TraceLine {
            element: element.to_owned(),
            quantity: steps::name(step.quantity, language).to_owned(),
            symbol: step.symbol.to_owned(),
            value: rounding::traced(step.value),
            unit: step.unit,
            clause: step.source.to_string(),
        }));
    }
}

/// The trace of a layout: actions, resistances, every hook's forces in every combination, and what
/// each check uses where it governs.
#[must_use]
pub fn lines(job: &Job, layout: &Layout, language: Language) -> Vec<TraceLine> {
    let lines = of_actions(&job.actions, &kinds(job), language);
    let mut trace = Trace { language, lines };
    on_rafters(&job.actions, &mut trace);
    screws(job, layout, &mut trace);
    rail(job, layout, &mut trace);
    covering(job, layout, &mut trace);
    modules(job, layout, &mut trace);
    forces(job, layout, &mut trace);
    plate(job, layout, &mut trace);
    terms::of(job, layout, &mut trace);
    trace.lines
}

/// A kind of module: what the trace calls it, its weight and its area.
#[derive(Debug)]
pub struct Kind {
    /// Empty where there is no other.
    name: String,
    weight: Force,
    area: Area,
}

impl Kind {
    /// The only one.
    #[must_use]
    pub const fn only((weight, area): (Force, Area)) -> Self {
        Self { name: String::new(), weight, area }
    }

    /// What something of it is called.
    fn name(&self, of: &str) -> String {
        if self.name.is_empty() { of.to_owned() } else { format!("{}/{of}", self.name) }
    }
}

/// Where fields have different modules, the trace names each kind by the first field that has it.
fn kinds(job: &Job) -> Vec<Kind> {
    let firsts = array::kinds(&job.fields);
    let kind = |field: &usize| {
        let module = &job.fields[*field].module;
        let name = kind_name(job, *field).unwrap_or_default();
        Kind { name, weight: module.weight, area: module.area() }
    };
    firsts.iter().map(kind).collect()
}

/// What the trace calls the kind of module of a field, where there are others.
#[must_use]
pub fn kind_name(job: &Job, field: usize) -> Option<String> {
    let several = array::kinds(&job.fields).len() > 1;
    let first = array::kind_of(&job.fields, field);
    several.then(|| format!("field/{}", job.fields[first].id))
}

/// The trace of the actions alone, on modules of these kinds.
#[must_use]
pub fn of_actions(actions: &Actions, kinds: &[Kind], language: Language) -> Vec<TraceLine> {
    let mut trace = Trace { language, lines: Vec::new() };
    snow(&actions.snow, &mut trace);
    wind(&actions.wind, kinds, &mut trace);
    weight(&actions.weight, kinds, &mut trace);
    trace.lines
}

/// Drifts are named by their arrangement and what they lie against.
fn snow(snow: &Snow, t: &mut Trace) {
    t.add("", snow.steps.iter().copied());
    for arrangement in &snow.arrangements {
        let name = arrangement.gathers.name();
        t.add(name, arrangement.steps.iter().copied());
        for drift in &arrangement.drifts {
            let (what, number) = match drift.against {
                Against::Side(side) => ("side", side),
                Against::Obstacle(obstacle) => ("obstacle", obstacle),
            };
            t.add(&format!("{name}/{what} {number}"), drift.steps.iter().copied());
        }
    }
}

/// What snow in its arrangements puts on the frames of every module over a rail.
fn drifted_snow(job: &Job, line: &RailLine, module: &Placed, t: &mut Trace) {
    const LEVER: Source = Source::Other("lever rule");
    let name = job.module_name(module);
    for arrangement in &job.actions.snow.arrangements {
        let level = GroundLevel::Characteristic;
        let frames = snow_on_frames(job, arrangement, level, line, &module.rect);
        let [[normal_left, normal_right], [slope_left, slope_right]] =
            frames.map(|component| component.map(Force::kn));
        let step = |quantity, symbol, value| Step::new(quantity, symbol, value, "kN", LEVER);
        t.add(
            &format!("{}/{name}/{}", line.id, arrangement.gathers.name()),
            [
                step(Quantity::SnowLeft, "S_l", normal_left),
                step(Quantity::SnowRight, "S_r", normal_right),
                step(Quantity::SnowDownLeft, "S_l,t", slope_left),
                step(Quantity::SnowDownRight, "S_r,t", slope_right),
            ],
        );
    }
}

/// Coefficients that are given hold for every element and are written once.
fn wind(wind: &Wind, kinds: &[Kind], t: &mut Trace) {
    let fixings = wind.zoned();
    t.add("", fixings.peak.steps.iter().copied());
    if let NetCoefficients::Equalised { suction, pressure } = fixings.net {
        let step = |quantity, symbol, value| Step::new(quantity, symbol, value, "", Source::Given);
        t.add(
            "",
            [
                step(Quantity::SuctionFactor, "f-", suction),
                step(Quantity::PressureFactor, "f+", pressure),
            ],
        );
    }
    if fixings.loaded_area.is_none() {
        coefficients("any", fixings, t);
        return;
    }
    for kind in kinds {
        let OnModules { fixings, modules, .. } = wind.on(kind.area);
        let fields = [
            (Quantity::FixingsLoadedArea, "fixings", fixings),
            (Quantity::ModulesLoadedArea, "modules", modules),
        ];
        for (quantity, _, field) in fields {
            let step =
                |area: LoadedArea| Step::new(quantity, "A", area.area.m2(), "m²", area.source);
            t.add(&kind.name, field.loaded_area.map(step));
        }
        for (_, on, field) in fields {
            coefficients(&kind.name(on), field, t);
        }
    }
}

fn coefficients(on: &str, wind: &WindField, t: &mut Trace) {
    for zone in &wind.zones {
        let Coefficients { suction, pressure } = zone.coefficients;
        let step = |quantity, symbol, value| Step::new(quantity, symbol, value, "", zone.source);
        t.add(
            &format!("{on}/{}/{}", zone.direction.name(), zone.name),
            [
                step(Quantity::SuctionCoefficient, "c_pe-", suction),
                step(Quantity::PressureCoefficient, "c_pe+", pressure),
            ],
        );
    }
}

/// What acts on rafters and on nothing else.
fn on_rafters(actions: &Actions, t: &mut Trace) {
    if let Some(covering) = &actions.wind.covering {
        let step = |area: LoadedArea| {
            Step::new(Quantity::RaftersLoadedArea, "A", area.area.m2(), "m²", area.source)
        };
        t.add("", covering.loaded_area.map(step));
        coefficients("covering", covering, t);
    }
    let quantity = Quantity::PersonAtWork;
    let weighs =
        |person: &Person| Step::new(quantity, "Q_k", person.weight.kn(), "kN", person.source);
    t.add("", actions.person.as_ref().map(weighs));
}

fn weight(weight: &Weight, kinds: &[Kind], t: &mut Trace) {
    const SOURCE: Source = Source::Other("mass times 9.81 m/s²");
    for Kind { name, weight, .. } in kinds {
        t.add(name, [Step::new(Quantity::ModuleWeight, "G_m", weight.kn(), "kN", SOURCE)]);
    }
    t.add(
        "",
        [
            Step::new(Quantity::ClampWeight, "G_c", weight.clamp.kn(), "kN", SOURCE),
            Step::new(Quantity::RailWeight, "g_r", weight.rail.kn_per_m(), "kN/m", SOURCE),
        ],
    );
}

/// Feet and screws are named `foot` and `screw`, or by the first hook they hold where feet are not all set
/// alike.
fn screws(job: &Job, layout: &Layout, t: &mut Trace) {
    for (i, footing) in layout.footings.iter().enumerate() {
        let hook = hooks_on(layout, i).next().filter(|_| layout.footings.len() > 1);
        let name = |of: &str| hook.as_ref().map_or(of.to_owned(), |hook| format!("{of}/{hook}"));
        t.add(&name("foot"), footing.steps(job));
        screw(job, footing, &name("screw"), t);
    }
}

fn screw(job: &Job, footing: &Footing, name: &str, t: &mut Trace) {
    let seat = &footing.seat;
    let length = |quantity, symbol, length: Length, source| {
        Step::new(quantity, symbol, length.mm(), "mm", Source::Other(source))
    };
    t.add(
        name,
        [
            length(Quantity::GapUnderFoot, "g", seat.gap, "packers and layers"),
            length(Quantity::LengthInRafter, "t", seat.embedment, "geometry"),
            length(Quantity::ThreadedLength, "l_ef", seat.threaded, "geometry"),
        ],
    );
    let Ok(connection) = &footing.capacity else { return };
    t.add(name, connection.steps.iter().copied());
    for (combination, design) in job.actions.combinations.iter().zip(&connection.design) {
        t.add(&format!("{name}/{}", combination.id), job.rules.screw_steps(combination, design));
    }
}

/// What a rail has of its own: its rigidity, the springs it lies on, its weight.
fn rail(job: &Job, layout: &Layout, t: &mut Trace) {
    supports(job, t);
    let Some(laid) = layout.segments().next() else { return };
    t.add("rail", job.rules.rail_steps(&laid.segment.limits.bending));
    t.add("rail", laid.segment.limits.axial.map(|axial| job.rules.rail_axial_step(&axial)));
    let ratio = job.rail.deflection_ratio;
    t.add(
        "rail",
        [Step::new(Quantity::SpanOverDeflection, "l/w", ratio, "", Source::Other("declared"))],
    );
}

fn supports(job: &Job, t: &mut Trace) {
    const BESIDE: Source = Source::Other("declared, or half the rail and half the arm");
    const DECLARED: Source = Source::Other("declared");
    const AREA: Source = Source::Other("area declared, or by mass and density");
    const FOOT_AS_DRAWN: Source =
        Source::Other("declared, or arm and foot as drawn, for the whole rail");
    const BAR: Source = Source::Other("declared, or the arm as a flat bar");
    let rigidity = |quantity, symbol, of: FlexuralRigidity| {
        Step::new(quantity, symbol, of.nmm2(), "N·mm²", DECLARED)
    };
    let spring = |quantity, symbol, of: Option<Stiffness>, source| {
        of.map(|of| Step::new(quantity, symbol, of.kn_per_mm(), "kN/mm", source))
    };
    let (rail, hook) = (&job.rail, &job.hook);
    let normal = hook.normal_spring.stiffness;
    let [along, down] = loads::rail_weight(job).map(LineLoad::kn_per_m);
    let weight = |quantity, symbol, value| Step::new(quantity, symbol, value, "kN/m", PITCH);
    t.add(
        "rail",
        [
            Step::new(Quantity::RailAxis, "e_r", rail.axis_offset.mm(), "mm", BESIDE),
            rigidity(Quantity::RailRigidityNormal, "EI_N", rail.normal_rigidity),
            match job.rail_axis {
                RailAxis::AlongEaves => {
                    rigidity(Quantity::RailRigiditySlope, "EI_S", rail.slope_rigidity)
                }
                RailAxis::UpSlope => {
                    let of = rail.axial_rigidity().kn();
                    Step::new(Quantity::RailAxialRigidity, "EA", of, "kN", AREA)
                }
            },
            weight(Quantity::RailLineWeight, "g_N", along),
            weight(Quantity::RailLineWeightDown, "g_S", down),
        ],
    );
    if job.rails_cross {
        // Upper rails bend down the slope between lower ones.
        t.add("rail", [rigidity(Quantity::RailRigiditySlope, "EI_S", rail.slope_rigidity)]);
    }
    t.add("rail", spring(Quantity::SupportSpringNormal, "k_N", normal, FOOT_AS_DRAWN));
    t.add("rail", spring(Quantity::SupportSpringSlope, "k_S", hook.slope_stiffness, BAR));
}

/// Weights by the pitch of the roof.
const PITCH: Source = Source::Other("weight by the pitch of the roof");

/// What a module, a clamp and even snow put on a rail at a side frame, before any factor.
fn at_frames(job: &Job, line: &RailLine, t: &mut Trace) {
    const SHARE: Source =
        Source::Other("(weight square to the roof)·s/2 + (weight down it)·(e_z/Δy)/2");
    const DOWN: Source = Source::Other("(weight down the roof)·s/2");
    let found = loads::at_frame(job, line);
    let step = |quantity, symbol, force: Force, source| {
        Step::new(quantity, symbol, force.kn(), "kN", source)
    };
    let [weight, snow, exceptional] = [found.module, found.snow, found.exceptional_snow];
    if line.axis() == RailAxis::UpSlope {
        const TILTED: Source = Source::Other("1 + 2·(e_z/Δy)·tan α / s below, 1 - the same above");
        let share = |quantity, symbol, share| Step::new(quantity, symbol, share, "", TILTED);
        t.add(
            &line.id,
            [
                share(Quantity::LowerFrameShare, "f_l", 1.0 + found.tilted),
                share(Quantity::UpperFrameShare, "f_u", 1.0 - found.tilted),
            ],
        );
    }
    t.add(
        &line.id,
        [
            step(Quantity::FrameWeight, "G_f", weight[0], SHARE),
            step(Quantity::FrameWeightDown, "G_f,t", weight[1], DOWN),
            step(Quantity::FrameClamp, "C_f", found.clamp[0], PITCH),
            step(Quantity::FrameClampDown, "C_f,t", found.clamp[1], PITCH),
            step(Quantity::FrameSnow, "S_f", snow[0], SHARE),
            step(Quantity::FrameSnowDown, "S_f,t", snow[1], DOWN),
        ],
    );
    if exceptional != [Force::ZERO; 2] {
        t.add(
            &line.id,
            [
                step(Quantity::FrameExceptionalSnow, "A_f", exceptional[0], SHARE),
                step(Quantity::FrameExceptionalSnowDown, "A_f,t", exceptional[1], DOWN),
            ],
        );
    }
}

fn covering(job: &Job, layout: &Layout, t: &mut Trace) {
    let step = |quantity, symbol, length: Length| {
        Step::new(quantity, symbol, length.mm(), "mm", Source::Other("geometry of the covering"))
    };
    t.add(
        "",
        [
            step(Quantity::Headlap, "H", stack::headlap(&job.covering)),
            step(Quantity::LowerTileTop, "z", stack::lower_tile_top(&job.covering)),
        ],
    );
    for (i, footing) in layout.footings.iter().enumerate() {
        let first = hooks_on(layout, i).next();
        let hook = first.filter(|_| layout.footings.len() > 1).unwrap_or_default();
        t.add(
            &hook,
            [
                step(Quantity::BoltBeyondExit, "d", footing.bolt_beyond_exit),
                step(Quantity::Narrowing, "Δz", footing.narrowing(job)),
                step(Quantity::ClearanceWithoutPackers, "c_0", footing.bare_clearance),
                step(Quantity::ClearanceWithPackers, "c", footing.clearance),
                step(Quantity::ClearanceUnderRail, "c_rail", footing.lowest_rail),
            ],
        );
    }
}

/// From what acts on modules to what their frames put on a rail: the parts that zones cut a module
/// into, what a rail takes of a force at its middle, and the wind at each frame.
fn modules(job: &Job, layout: &Layout, t: &mut Trace) {
    const LEVER: Source = Source::Other("lever rule");
    for field in array::kinds(&job.fields) {
        let name = kind_name(job, field).unwrap_or_else(|| "rail".to_owned());
        let (quantity, height) = (Quantity::LoadHeight, job.load_heights[field].mm());
        t.add(&name, [Step::new(quantity, "e_z", height, "mm", Source::Other("rail and module"))]);
    }
    let wind_on = |module: &Placed| &job.actions.wind.on(job.module(module).area()).fixings;
    for module in layout.modules.iter().map(|module| &module.placed) {
        for patch in wind_on(module).patches(&module.rect) {
            let (zone, centre) = (patch.zone, patch.part.centre);
            let step = |quantity, symbol, value, unit| {
                Step::new(quantity, symbol, value, unit, Source::Other("geometry"))
            };
            t.add(
                &format!("{}/{}/{}", job.module_name(module), zone.direction.name(), zone.name),
                [
                    step(Quantity::PatchArea, "A_z", patch.area().m2(), "m²"),
                    step(Quantity::PatchAlong, "x_z", centre.x, "mm"),
                    step(Quantity::PatchUp, "y_z", centre.y, "mm"),
                ],
            );
        }
    }
    let mut cases: Vec<WindCase> = Vec::new();
    for case in job.actions.combinations.iter().filter_map(|combination| combination.wind) {
        if !cases.contains(&case) {
            cases.push(case);
        }
    }
    for line in layout.rails.iter().map(|rail| &rail.line) {
        let placed = layout.modules.iter().map(|module| &module.placed);
        let mut carried = placed.filter(|placed| line.carries(placed)).peekable();
        let Some(first) = carried.peek() else { continue };
        let centre = first.rect.centre();
        let [_, middle] = line.axis().turned([centre.x, centre.y]).map(Length::from_mm);
        let couple = match line.axis() {
            RailAxis::AlongEaves => line.couple(job.load_heights[line.field()]),
            RailAxis::UpSlope => loads::tilt(job, line, &first.rect) * line.share(middle),
        };
        t.add(
            &line.id,
            [
                Step::new(Quantity::ShareAtMiddle, "s", line.share(middle), "", LEVER),
                Step::new(Quantity::CouplePerSlope, "e_z/Δy", couple, "", LEVER),
            ],
        );
        at_frames(job, line, t);
        for module in carried {
            drifted_snow(job, line, module, t);
            let frames = wind_on_frames(wind_on(module), line, &module.rect);
            for case in &cases {
                let [left, right] = frames.of(*case).map(Force::kn);
                let name = job.module_name(module);
                let (direction, sense) = (case.direction.name(), case.sense.name());
                t.add(
                    &format!("{}/{name}/{direction}:{sense}", line.id),
                    [
                        Step::new(Quantity::WindLeft, "W_l", left, "kN", LEVER),
                        Step::new(Quantity::WindRight, "W_r", right, "kN", LEVER),
                    ],
                );
            }
        }
    }
}

fn forces(job: &Job, layout: &Layout, t: &mut Trace) {
    let step = |quantity, symbol, force: Force| {
        Step::new(quantity, symbol, force.kn(), "kN", Source::Other("beam on springs"))
    };
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            crossings(job, layout, &rail.line, laid, t);
            let Some(result) = &laid.result else { continue };
            rolling(&rail.line, s, laid, t);
            for (case, forces) in result.forces.iter().enumerate() {
                for (h, [normal, slope]) in forces.iter().enumerate() {
                    let hook = hook_name(layout, [r, s, h]);
                    t.add(
                        &format!("{hook}/{}", combination_name(job, case)),
                        [
                            step(Quantity::ForceSquareToRoof, "N", *normal),
                            step(Quantity::ForceDownSlope, "S", *slope),
                        ],
                    );
                }
            }
        }
    }
}

/// What an upper rail puts on every lower one that it lies on.
fn crossings(job: &Job, layout: &Layout, line: &RailLine, laid: &LaidSegment, t: &mut Trace) {
    const GRID: Source = Source::Other("both layers of rails solved together");
    for (case, forces) in laid.segment.borne_in().enumerate() {
        for (x, [normal, slope]) in laid.crossings().zip(forces) {
            let lower = layout.lower_rail_at(line, x).map_or("", |lower| &lower.id);
            let combination = combination_name(job, laid.segment.cases[case].combination);
            t.add(
                &format!("{}/{lower}/{combination}", line.id),
                [
                    Step::new(Quantity::ForceSquareToRoof, "N", normal.kn(), "kN", GRID),
                    Step::new(Quantity::ForceDownSlope, "S", slope.kn(), "kN", GRID),
                ],
            );
        }
    }
}

/// What the rolling of feet adds in a segment, where feet roll.
fn rolling(line: &RailLine, segment: usize, laid: &LaidSegment, t: &mut Trace) {
    const FOOT: Source = Source::Other("pulls of the screws beside the rafter's axis");
    const BEAM: Source = Source::Other("beam over stiff supports, moments of all feet");
    const BOTH: Source =
        Source::Other("largest of hooks with N ± ΔN and of the rail with M_roll on top");
    let Some(result) = &laid.result else { return };
    let Some(found) = laid.segment.rolling(&laid.found.subset, result) else { return };
    t.add(
        &format!("{}/{segment}/roll", line.id),
        [
            Step::new(Quantity::RollingMoment, "M_roll", found.moment.knm(), "kN·m", FOOT),
            Step::new(Quantity::RollingForce, "ΔN", found.force.kn(), "kN", BEAM),
            Step::new(Quantity::Utilisation, "u", found.utilisation(), "", BOTH),
        ],
    );
}

/// The plate of the foot that is bent most, where nothing but a calculation stands behind the hook.
fn plate(job: &Job, layout: &Layout, t: &mut Trace) {
    const ROOT: Source = Source::Other("N·(a + e_r) + S·h, the larger of both heights");
    const BAR: Source = Source::Other("EN 1993-1-1 6.2.5");
    let Some(bent) = layout.plate_bent_most(job) else { return };
    let (hook, combination) =
        (hook_name(layout, bent.hook), combination_name(job, bent.combination));
    t.add(
        &format!("{hook}/{combination}/plate"),
        [
            Step::new(Quantity::PlateMoment, "M_root", bent.moment.knm(), "kN·m", ROOT),
            Step::new(Quantity::Utilisation, "M_root/M_pl", bent.used, "", BAR),
        ],
    );
}
