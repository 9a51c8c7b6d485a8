//! Rails, hooks, rafters and modules as the answer shows them.

use crate::checks::Governing;
use crate::checks::segment::Candidate;
use crate::covering::courses;
use crate::covering::opening::{Row, Tile};
use crate::placement::Job;
use crate::placement::array::Placed;
use crate::placement::kept::Kept;
use crate::placement::laid::{LaidSegment, Layout, Rail, larger};
use crate::placement::line::Over;
use crate::units::Length;
use crate::wire::layout::{
    CrossingAnswer, HookAnswer, HookUtilisation, ModuleAnswer, ModuleUtilisation, RafterAnswer,
    RafterUtilisation, RailAnswer, RailLayer, RailUtilisation, SegmentAnswer,
};

use super::rounding::{load, mm, utilisation};
use super::tiles;

/// Name of a combination.
#[must_use]
pub fn combination_id(job: &Job, index: usize) -> String {
    job.combination_name(index).to_owned()
}

/// Name of a module.
pub fn module_id(job: &Job, placed: &Placed) -> String {
    let field = job.fields.get(placed.field).map_or("", |f| f.id.as_str());
    format!("{field}/{}/{}", placed.row, placed.column)
}

/// Name of a hook.
#[must_use]
pub fn hook_id(layout: &Layout, [rail, segment, hook]: [usize; 3]) -> String {
    layout.rails[rail].name_of([segment, hook]).to_owned()
}

/// Names of the hooks whose feet are set in one way, rail by rail.
pub fn hooks_on(layout: &Layout, footing: usize) -> impl Iterator<Item = String> + '_ {
    let set = move |(_, place): &([usize; 3], &Candidate)| place.setting == footing;
    layout.hooks().filter(set).map(|(at, _)| hook_id(layout, at))
}

/// The rails.
pub fn rails(job: &Job, layout: &Layout, kept: &Kept) -> Vec<RailAnswer> {
    layout.rails.iter().map(|rail| self::rail(job, layout, rail, kept)).collect()
}

fn rail(job: &Job, layout: &Layout, rail: &Rail, kept: &Kept) -> RailAnswer {
    let line = &rail.line;
    let used = rail.used();
    let deflected = used.deflected.map(|d| (d, &rail.segments[0].segment.limits));
    let middle = |pair: &[[Length; 2]]| mm(((pair[0][1] + pair[1][0]) / 2.0).mm());
    RailAnswer {
        id: line.id.clone(),
        kept: line.there.map(|there| kept.built.rails[there.rail].id.clone()),
        field: job.fields[line.field()].id.clone(),
        row: u64::from(line.run.row()),
        layer: match (line.is_upper(), line.is_beneath()) {
            (true, _) => Some(RailLayer::Upper),
            (_, true) => Some(RailLayer::Lower),
            _ => None,
        },
        column: (matches!(line.over, Over::Rafter(_)) && !line.is_beneath())
            .then_some(u64::from(line.run.lane)),
        x_mm: matches!(line.over, Over::Rafter(_)).then(|| mm(line.across.mm())),
        y_mm: mm(line.height_at(line.start()).mm()),
        course: line.course().filter(|_| line.on_grid),
        rafter: match line.over {
            Over::Rafter(rafter) if line.on_grid => Some(rafter as u64),
            Over::Rafter(_) | Over::Course(_) | Over::Rails => None,
        },
        start_mm: mm(line.start().mm()),
        end_mm: mm(line.end().mm()),
        length_mm: mm((line.end() - line.start()).mm()),
        segments: rail
            .segments
            .iter()
            .zip(&line.segments)
            .map(|(laid, ends)| segment(laid, *ends))
            .collect(),
        expansion_gaps_mm: line.segments.windows(2).map(middle).collect(),
        crossings: crossings(job, layout, rail),
        utilisation: utilisation(used.governing().utilisation),
        utilisation_by_check: RailUtilisation {
            bending: utilisation(used.bending.utilisation),
            deflection: utilisation(used.deflection.utilisation),
            splice: used.splice.map(|splice| utilisation(splice.utilisation)),
            crossing: used
                .crossing
                .filter(|_| job.rail.crossing.is_some())
                .map(|crossing| utilisation(crossing.utilisation)),
            combination: combination_id(job, used.governing().combination),
        },
        deflection_mm: deflected.map_or(0.0, |(d, _)| mm(d.deflection)),
        deflection_limit_mm: deflected.map_or(0.0, |(d, limits)| mm(limits.allowed(&d))),
    }
}

/// Where an upper rail lies on lower ones.
fn crossings(job: &Job, layout: &Layout, rail: &Rail) -> Vec<CrossingAnswer> {
    let is_known = job.rail.crossing.is_some();
    let all = rail.segments.iter().filter_map(|laid| Some((laid, laid.result.as_ref()?)));
    let all = all.flat_map(|(laid, result)| laid.crossings().zip(&result.crossings));
    all.map(|(x, found)| CrossingAnswer {
        rail: layout.lower_rail_at(&rail.line, x).map_or_else(String::new, |line| line.id.clone()),
        x_mm: mm(x.mm()),
        press_kn: load(found.press.kn()),
        lift_kn: load(found.lift.kn()),
        slide_kn: load(found.slide.kn()),
        utilisation: is_known.then(|| utilisation(found.used.utilisation)),
    })
    .collect()
}

fn segment(laid: &LaidSegment, ends: [Length; 2]) -> SegmentAnswer {
    let bent = laid.result.as_ref().and_then(|result| result.splice);
    let arm = |candidate: Option<&usize>| candidate.map(|c| laid.segment.candidates[*c].at);
    let length = ends[1] - ends[0];
    let first = arm(laid.found.subset.first()).or_else(|| laid.crossings().next());
    let last = arm(laid.found.subset.last()).or_else(|| laid.crossings().last());
    let left = first.map_or(length, |x| x - ends[0]);
    let right = last.map_or(length, |x| ends[1] - x);
    SegmentAnswer {
        start_mm: mm(ends[0].mm()),
        end_mm: mm(ends[1].mm()),
        left_cantilever_mm: mm(left.mm()),
        right_cantilever_mm: mm(right.mm()),
        splices_mm: laid.splices.iter().map(|at| mm(at.mm())).collect(),
        splice_utilisation: bent.map(|bent| utilisation(bent.utilisation)),
    }
}

/// The hooks.
pub fn hooks(job: &Job, layout: &Layout, kept: &Kept) -> Vec<HookAnswer> {
    let answer = |(at, place): ([usize; 3], &Candidate)| HookAnswer {
        kept: kept.hook_at(at[0], place).map(|hook| kept.built.hooks[hook].id.clone()),
        ..hook(job, layout, at, place)
    };
    layout.hooks().map(answer).collect()
}

fn hook(job: &Job, layout: &Layout, at: [usize; 3], candidate: &Candidate) -> HookAnswer {
    let rail = &layout.rails[at[0]];
    let laid = &rail.segments[at[1]];
    let result = laid.result.as_ref().map(|r| r.hooks[at[2]]);
    let footing = &layout.footings[candidate.setting];
    let exit = courses::exit_at(&job.covering, candidate.course, candidate.arm_x);
    let side_joint = footing.side_joint.unwrap_or(exit.side_joint);
    let y = rail.line.height_at(candidate.at);
    let edges = job.roof.outline.edges_beside(candidate.x.mm(), y.mm());
    let governing = result.map(|r| r.governing().1);
    let used = |of: fn(&crate::checks::segment::HookResult) -> Governing| {
        utilisation(result.as_ref().map_or(0.0, |r| of(r).utilisation))
    };
    let under_load = footing
        .spring
        .stiffness
        .zip(result)
        .map(|(k, r)| mm((footing.clearance - r.service_press / k).mm()));
    HookAnswer {
        id: hook_id(layout, at),
        kept: None,
        rail: rail.line.id.clone(),
        rafter: candidate.rafter as u64,
        x_mm: mm(candidate.x.mm()),
        y_mm: mm(y.mm()),
        arm_x_mm: mm(candidate.arm_x.mm()),
        from_left_edge_mm: edges.map_or(0.0, |e| mm(candidate.x.mm() - e[0])),
        from_right_edge_mm: edges.map_or(0.0, |e| mm(e[1] - candidate.x.mm())),
        course: exit.course,
        column: exit.column,
        column_from_verge: tiles::from_verge(
            job,
            Tile { course: exit.course, column: exit.column },
            Row::Cover,
        ),
        arm_shift_mm: mm((candidate.arm_x - candidate.x).mm()),
        side_joint_mm: mm(side_joint.mm()),
        tiles: tiles::work(
            job,
            candidate.course,
            candidate,
            side_joint,
            footing.clearance_at_exit(job),
        ),
        normal_kn: load(result.map_or(0.0, |r| r.normal.kn())),
        slope_kn: load(result.map_or(0.0, |r| r.slope.kn())),
        combination: governing.map_or_else(String::new, |g| combination_id(job, g.combination)),
        utilisation: HookUtilisation {
            hook: used(|r| r.hook),
            bolt: job.bolt.is_some().then(|| used(|r| r.bolt)),
            screws: footing.capacity.is_ok().then(|| used(|r| r.screws)),
            foot_bearing: used(|r| r.timber),
            clearance: (footing.spring.stiffness.is_some() && footing.packers.is_some())
                .then(|| used(|r| r.clearance)),
            max: utilisation(governing.map_or(0.0, |g| g.utilisation)),
        },
        clearance_mm: Some(mm(footing.clearance.mm())),
        clearance_under_load_mm: under_load,
        packers_mm: footing.packers.iter().flatten().map(|p| mm(p.mm())).collect(),
        embedment_mm: mm(footing.seat.embedment.mm()),
        holds_rail: laid.segment.holder(&laid.found.subset) == Some(at[2]),
        screw_tension_kn: load(result.map_or(0.0, |r| r.screw_pull.kn())),
        screw_shear_kn: load(result.map_or(0.0, |r| r.screw_shear.kn())),
    }
}

/// The rafters that carry hooks.
pub fn rafters(job: &Job, layout: &Layout) -> Vec<RafterAnswer> {
    let area = job.actions.wind.covering.as_ref().and_then(|covering| covering.loaded_area);
    layout
        .rafters
        .iter()
        .map(|rafter| RafterAnswer {
            rafter: rafter.rafter as u64,
            x_mm: mm(job.roof.rafters.positions[rafter.rafter].mm()),
            hooks: rafter.hooks.iter().map(|at| hook_id(layout, *at)).collect(),
            press_kn: load(rafter.press.kn()),
            lift_kn: load(rafter.lift.kn()),
            slope_kn: load(rafter.slope.kn()),
            added_load_share: load(rafter.added_share),
            loaded_area_m2: area.map(|of| load(of.area.m2())),
            utilisation: rafter.utilisation.map(|used| rafter_utilisation(job, used)),
            before: rafter.before.map(|used| rafter_utilisation(job, used)),
        })
        .collect()
}

fn rafter_utilisation(job: &Job, [bending, shear]: [Governing; 2]) -> RafterUtilisation {
    let worst = larger(bending, shear);
    RafterUtilisation {
        bending: utilisation(bending.utilisation),
        shear: utilisation(shear.utilisation),
        max: utilisation(worst.utilisation),
        combination: combination_id(job, worst.combination),
    }
}

/// The modules.
pub fn modules(job: &Job, layout: &Layout) -> Vec<ModuleAnswer> {
    layout
        .modules
        .iter()
        .map(|module| {
            let rect = &module.placed.rect;
            let check = &module.check;
            ModuleAnswer {
                id: module_id(job, &module.placed),
                origin_mm: [mm(rect.x[0]), mm(rect.y[0])],
                size_mm: [mm(rect.x[1] - rect.x[0]), mm(rect.y[1] - rect.y[0])],
                press_kn_per_m2: load(module.press.kn_per_m2()),
                lift_kn_per_m2: load(module.lift.kn_per_m2()),
                clamp_lift_kn: load(check.clamp_lift.kn()),
                clamp_slope_kn: load(check.clamp_slope.kn()),
                clamps_from_ends_mm: module.clamps.map(|c| mm(c.mm())),
                utilisation: ModuleUtilisation {
                    press: utilisation(check.press),
                    lift: utilisation(check.lift),
                    clamp: utilisation(check.clamp),
                    clamp_slip: check.slip.map(utilisation),
                    max: utilisation(check.largest()),
                },
            }
        })
        .collect()
}
