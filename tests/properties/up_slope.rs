//! Rails that run up the slope: what loads them, what holds them, where their hooks stand.
//!
//! What is held against the answer here is derived anew from areas, pressures, levers and bars, or found by
//! trying every choice; none of it is an outside check.

use hookspan::checks::segment::{Hold, Segment};
use hookspan::codes::vocabulary::Combination;
use hookspan::geometry::Rect;
use hookspan::placement::clamp_zones::clamp_zones;
use hookspan::placement::laid::Rail;
use hookspan::placement::layout::lay_out;
use hookspan::placement::line::Over;
use hookspan::placement::rail_lines::Position;
use hookspan::placement::search::{Outcome, Pattern, fewest_hooks};
use hookspan::placement::segments::modules_over;
use hookspan::placement::{ArmPosition, Job, Objective};
use hookspan::units::{Force, Length, Stiffness};
use hookspan::wire::layout::LayoutRequest;
use hookspan::wire::roof::Bond;
use proptest::prelude::*;

use crate::equilibrium::on_module;
use crate::jobs::{hook, job};
use crate::mirror::{close, complete, mirrored, other_side};
use crate::search::{Choice, best, bounds, lowest};
use crate::stronger::stronger;
use crate::up_slope_jobs::{short_up_slope_job, up_slope_job};
use crate::{Tally, runner};

/// A force on a module square to the roof, N, and where it acts.
pub type Acting = (f64, [f64; 2]);

/// Wind on a module, zone by zone, each at the middle of what it covers.
pub fn wind_on(job: &Job, combination: &Combination, module: &Rect) -> Vec<Acting> {
    let Some(case) = combination.wind else { return Vec::new() };
    let wind = job.actions.wind.zoned();
    let q_p = combination.factors.wind * wind.peak.pressure.n_per_m2() / 1e6;
    let shared = |a: [f64; 2], b: [f64; 2]| [a[0].max(b[0]), a[1].min(b[1])];
    let zones = wind.zones.iter().filter(|zone| zone.direction == case.direction);
    zones
        .filter_map(|zone| {
            let bounds = zone.region.bounds();
            let [x, y] = [shared(bounds.x, module.x), shared(bounds.y, module.y)];
            let area = (x[1] - x[0]).max(0.0) * (y[1] - y[0]).max(0.0);
            let centre = [x, y].map(|[from, to]| f64::midpoint(from, to));
            (area > 0.0).then(|| (q_p * zone.coefficients.of(case.sense) * area, centre))
        })
        .collect()
}

/// Share of a force at `x` of the rail at `own`, beside another one.
fn share(x: f64, own: f64, other: f64) -> f64 {
    (other - x) / (other - own)
}

/// What acts on one of the two rails of a column between its ends: square to the roof, down it, and about
/// the eaves; and the sum of what acts square to the roof whichever way, to measure rounding by.
fn on_rail(
    (job, field): (&Job, usize),
    combination: &Combination,
    (modules, ends): (&[Rect], [f64; 2]),
    [own, other]: [f64; 2],
) -> [f64; 4] {
    let (sin, cos) = job.roof.pitch.deg().to_radians().sin_cos();
    let height = job.load_heights[field].mm();
    let mut sums = [0.0; 4];
    let mut add = |normal: f64, slope: f64, y: f64, above: f64| {
        sums[0] += normal;
        sums[1] += slope;
        // What acts down the slope above the bolts turns the modules over towards the eaves.
        sums[2] += normal * y - slope * above;
        sums[3] += normal.abs() + slope.abs();
    };
    for module in modules {
        let [x, y] = [module.x, module.y].map(|[from, to]| f64::midpoint(from, to));
        let weighs = on_module(job, field, combination) * share(x, own, other);
        add(weighs * cos, weighs * sin, y, height);
        for (force, [x, y]) in wind_on(job, combination, module) {
            add(force * share(x, own, other), 0.0, y, 0.0);
        }
    }
    // One clamp below the modules, one above them and one between every two.
    let permanent = combination.factors.permanent;
    let clamp = permanent * job.actions.weight.clamp.n();
    let between = modules.windows(2).map(|pair| f64::midpoint(pair[0].y[1], pair[1].y[0]));
    let outer = modules.first().zip(modules.last()).map(|(first, last)| [first.y[0], last.y[1]]);
    for y in outer.into_iter().flatten().chain(between) {
        add(clamp * cos, clamp * sin, y, 0.0);
    }
    let rail = permanent * job.actions.weight.rail.kn_per_m() * (ends[1] - ends[0]);
    add(rail * cos, rail * sin, f64::midpoint(ends[0], ends[1]), 0.0);
    sums
}

/// The two rails under every column of modules.
fn pairs(rails: &[Rail]) -> impl Iterator<Item = [&Rail; 2]> {
    rails.chunks_exact(2).map(|pair| [&pair[0], &pair[1]])
}

#[test]
fn hooks_carry_what_acts_on_their_rail_and_turns_about_the_eaves() {
    let [sums, unlike, lifting, columns] = std::array::from_fn(|_| Tally::default());
    runner(60)
        .run(&up_slope_job(), |draft| {
            let job = job(&draft.request());
            let layout = lay_out(&job);
            for [left, right] in pairs(&layout.rails) {
                prop_assert_eq!(
                    [left.line.position, right.line.position],
                    [Position::Left, Position::Right]
                );
                prop_assert_eq!(left.line.run, right.line.run);
                let field = left.line.field();
                let x = [left, right].map(|rail| rail.line.across.mm());
                prop_assert_eq!(left.segments.len(), right.segments.len());
                for (s, ends) in left.line.segments.iter().enumerate() {
                    let modules: Vec<Rect> =
                        modules_over(&job, &left.line, *ends).map(|(_, rect)| rect).collect();
                    // Either may run on beyond the modules to a course that holds it.
                    let ends = [left, right].map(|rail| rail.line.segments[s].map(Length::mm));
                    for (c, combination) in job.actions.combinations.iter().enumerate() {
                        prop_assert_eq!(combination.snow, None);
                        let mut about_left = [0.0; 3];
                        let mut seen = 0;
                        for (rail, x, ends) in [(left, x, ends[0]), (right, [x[1], x[0]], ends[1])]
                        {
                            let laid = &rail.segments[s];
                            let Some(result) = &laid.result else { continue };
                            let [normal, slope, moment, gross] =
                                on_rail((&job, field), combination, (&modules, ends), x);
                            let mut carried = [0.0; 3];
                            let mut most = gross;
                            for (hook, force) in laid.hooks().zip(&result.forces[c]) {
                                let [n, s] = force.map(Force::n);
                                carried[0] += n;
                                carried[1] += s;
                                carried[2] += n * hook.at.mm();
                                most += n.abs();
                            }
                            for (carried, acting) in carried.iter().zip([normal, slope]) {
                                let off = (carried - acting).abs();
                                prop_assert!(off <= 1e-9 * most, "{carried} N of {acting} N");
                            }
                            let off = (carried[2] - moment).abs();
                            prop_assert!(
                                off <= 1e-9 * most * ends[1],
                                "{}: {} N·mm of {moment} N·mm",
                                combination.id,
                                carried[2]
                            );
                            sums.see(true);
                            lifting.see(normal < 0.0);
                            unlike.see(
                                combination.wind.is_some()
                                    && modules.len() > 1
                                    && (carried[0] - normal / 2.0).abs() > 1.0,
                            );
                            seen += 1;
                            about_left[0] += carried[0];
                            about_left[1] += carried[0] * (x[0] - left.line.across.mm());
                            about_left[2] += most;
                        }
                        if seen < 2 {
                            continue;
                        }
                        // Both together: however the rails share it, all of it and its moment about the
                        // left one.
                        let (cos, mut all) = (job.roof.pitch.cos(), [0.0; 2]);
                        for module in &modules {
                            let x = f64::midpoint(module.x[0], module.x[1]) - left.line.across.mm();
                            let weighs = on_module(&job, field, combination) * cos;
                            all = [all[0] + weighs, all[1] + weighs * x];
                            for (force, [at, _]) in wind_on(&job, combination, module) {
                                let x = at - left.line.across.mm();
                                all = [all[0] + force, all[1] + force * x];
                            }
                        }
                        let clamps = (modules.len() as f64 + 1.0) * job.actions.weight.clamp.n();
                        let own = ends.map(|[from, to]| {
                            let rail = (to - from) * job.actions.weight.rail.kn_per_m();
                            combination.factors.permanent * cos * (clamps + rail)
                        });
                        all = [all[0] + own[0] + own[1], all[1] + own[1] * (x[1] - x[0])];
                        let [sum, about, gross] = about_left;
                        prop_assert!((sum - all[0]).abs() <= 1e-9 * gross, "{sum} of {}", all[0]);
                        let wide = x[1] - x[0];
                        prop_assert!((about - all[1]).abs() <= 1e-9 * gross * wide);
                        columns.see(true);
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    sums.at_least(2500, "rails under a combination");
    lifting.at_least(500, "of them lifted");
    unlike.at_least(500, "of them with wind on several modules");
    columns.at_least(1000, "columns under a combination");
}

/// Displacements and forces of a chain of bars `E·A/l` on springs: the stiffness of all nodes, at hooks and
/// loads, put together and eliminated. Hooks without a spring do not move.
fn forces_along(
    ea: f64,
    spring: Option<f64>,
    hooks: &[f64],
    (loads, uniform): (&[(f64, f64)], f64),
    ends: [f64; 2],
) -> Vec<f64> {
    let mut nodes: Vec<f64> = hooks.to_vec();
    nodes.extend(loads.iter().map(|(y, _)| *y));
    nodes.extend(ends);
    nodes.sort_by(f64::total_cmp);
    nodes.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    let node = |y: f64| nodes.iter().position(|node| (node - y).abs() < 1e-6).expect("a node");
    let n = nodes.len();
    let mut stiffness = vec![vec![0.0; n]; n];
    let mut acting = vec![0.0; n];
    for i in 1..n {
        let length = nodes[i] - nodes[i - 1];
        let k = ea / length;
        stiffness[i - 1][i - 1] += k;
        stiffness[i][i] += k;
        stiffness[i - 1][i] -= k;
        stiffness[i][i - 1] -= k;
        acting[i - 1] += uniform * length / 2.0;
        acting[i] += uniform * length / 2.0;
    }
    for (y, force) in loads {
        acting[node(*y)] += force;
    }
    let free = stiffness.clone();
    let held: Vec<usize> = hooks.iter().map(|y| node(*y)).collect();
    for i in &held {
        if let Some(spring) = spring {
            stiffness[*i][*i] += spring;
        } else {
            for row in &mut stiffness {
                row[*i] = 0.0;
            }
            stiffness[*i] = vec![0.0; n];
            stiffness[*i][*i] = 1.0;
        }
    }
    let mut moved = acting.clone();
    if spring.is_none() {
        for i in &held {
            moved[*i] = 0.0;
        }
    }
    eliminate(stiffness, &mut moved);
    let force = |i: &usize| match spring {
        Some(spring) => spring * moved[*i],
        None => acting[*i] - free[*i].iter().zip(&moved).map(|(k, u)| k * u).sum::<f64>(),
    };
    held.iter().map(force).collect()
}

/// Solves a system of equations by Gauss, the largest of a column first; the right side becomes the solution.
fn eliminate(mut matrix: Vec<Vec<f64>>, right: &mut [f64]) {
    let n = right.len();
    for i in 0..n {
        let pivot = (i..n).max_by(|a, b| matrix[*a][i].abs().total_cmp(&matrix[*b][i].abs()));
        let pivot = pivot.expect("rows are left");
        matrix.swap(i, pivot);
        right.swap(i, pivot);
        for row in i + 1..n {
            let factor = matrix[row][i] / matrix[i][i];
            if factor != 0.0 {
                let pivot = matrix[i].clone();
                for (entry, above) in matrix[row].iter_mut().zip(&pivot).skip(i) {
                    *entry -= factor * above;
                }
                right[row] -= factor * right[i];
            }
        }
    }
    for i in (0..n).rev() {
        let known: f64 = (i + 1..n).map(|column| matrix[i][column] * right[column]).sum();
        right[i] = (right[i] - known) / matrix[i][i];
    }
}

#[test]
fn slope_forces_are_those_of_bars_on_springs() {
    let [rigid, springs, many, by_one] = std::array::from_fn(|_| Tally::default());
    runner(60)
        .run(&(up_slope_job(), any::<bool>()), |(draft, is_rigid)| {
            let request = draft.request();
            let mut job = job(&request);
            if is_rigid {
                // Of an arm of known steel a spring is worked out where none is given.
                job.hook.slope_stiffness = None;
            }
            let ea = axial_rigidity(&request);
            let layout = lay_out(&job);
            for rail in &layout.rails {
                let own = rail.line.across.mm();
                let other = rail.line.other.expect("two rails").mm();
                for (laid, ends) in rail.segments.iter().zip(&rail.line.segments) {
                    let Some(result) = &laid.result else { continue };
                    let ends = ends.map(Length::mm);
                    let modules: Vec<Rect> =
                        modules_over(&job, &rail.line, ends.map(Length::from_mm))
                            .map(|(_, rect)| rect)
                            .collect();
                    let hooks: Vec<f64> = laid.hooks().map(|hook| hook.at.mm()).collect();
                    for (c, combination) in job.actions.combinations.iter().enumerate() {
                        let sin = job.roof.pitch.sin();
                        let clamp =
                            combination.factors.permanent * job.actions.weight.clamp.n() * sin;
                        let weighs = on_module(&job, rail.line.field(), combination) * sin;
                        let last = modules.len() - 1;
                        let mut loads = Vec::new();
                        for (m, module) in modules.iter().enumerate() {
                            let x = f64::midpoint(module.x[0], module.x[1]);
                            let frame = weighs * share(x, own, other) / 2.0;
                            let [below, above] = [m == 0, m == last]
                                .map(|is_end| if is_end { clamp } else { clamp / 2.0 });
                            loads.push((module.y[0], frame + below));
                            loads.push((module.y[1], frame + above));
                        }
                        let uniform = combination.factors.permanent
                            * job.actions.weight.rail.kn_per_m()
                            * sin;
                        let spring = job.hook.slope_stiffness.map(Stiffness::n_per_mm);
                        let whole = loads.iter().map(|(_, load)| load).sum::<f64>()
                            + uniform * (ends[1] - ends[0]);
                        let alone = |holder: usize| {
                            let mut forces = vec![0.0; hooks.len()];
                            forces[holder] = whole;
                            forces
                        };
                        let solved: Vec<f64> = match job.hold {
                            Hold::AllHooks => {
                                forces_along(ea, spring, &hooks, (&loads, uniform), ends)
                            }
                            Hold::LowestHook => alone(0),
                            Hold::HighestHook => alone(hooks.len() - 1),
                        };
                        by_one.see(job.hold != Hold::AllHooks);
                        let gross: f64 = solved.iter().map(|force| force.abs()).sum();
                        for (solved, force) in solved.iter().zip(&result.forces[c]) {
                            let off = (solved - force[1].n()).abs();
                            prop_assert!(off <= 1e-9 * gross, "{solved} N, not {} N", force[1].n());
                            springs.see(spring.is_some());
                            rigid.see(spring.is_none());
                            many.see(hooks.len() > 3);
                        }
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    rigid.at_least(1000, "forces of hooks that do not give");
    springs.at_least(4000, "forces of hooks on springs");
    many.at_least(1000, "of them on rails of four hooks and more");
    by_one.at_least(1000, "of them on rails that one hook holds");
}

/// `E·A` of the rail of a request; where its area is not given, that of an aluminium one of its mass.
fn axial_rigidity(request: &LayoutRequest) -> f64 {
    let rail = crate::jobs::rail(&mut request.clone()).clone();
    let area = rail.area_mm2.unwrap_or(rail.mass_kg_per_m / 2700.0 * 1e6);
    rail.modulus_n_per_mm2 * area
}

/// How far to the right of its arms a rail lies, mm.
fn beside_arms(request: &LayoutRequest) -> f64 {
    let mut request = request.clone();
    let arm_mm = hook(&mut request).arm.thickness_mm;
    let rail = crate::jobs::rail(&mut request);
    rail.axis_offset_mm.unwrap_or(f64::midpoint(rail.depth_mm, arm_mm))
}

/// Every choice of hooks that stand far enough apart and hold both ends, fewest first.
fn every_choice(job: &Job, segment: &Segment, ends: [f64; 2]) -> Vec<Choice> {
    let (gauge, foot) = (job.covering.gauge.mm(), job.hook.foot.length.mm());
    let mut apart = gauge;
    while apart < foot - 1e-6 {
        apart += gauge;
    }
    let free = job.rail.max_cantilever.mm();
    let at: Vec<f64> = segment.candidates.iter().map(|place| place.at.mm()).collect();
    let stands = |hooks: &[usize]| {
        let holds = hooks.len() > 1
            && at[hooks[0]] - ends[0] <= free
            && ends[1] - at[hooks[hooks.len() - 1]] <= free;
        holds && hooks.windows(2).all(|pair| at[pair[1]] - at[pair[0]] >= apart - 1e-6)
    };
    let mut all: Vec<Choice> = (0..1_u32 << at.len())
        .map(|bits| (0..at.len()).filter(|i| bits >> i & 1 == 1).collect::<Vec<_>>())
        .filter(|hooks| stands(hooks))
        .filter_map(|hooks| {
            let utilisation = segment.check_all(&hooks)?.governing().1.utilisation;
            Some(Choice { hooks, utilisation })
        })
        .collect();
    all.sort_by(|a, b| (a.hooks.len(), &a.hooks).cmp(&(b.hooks.len(), &b.hooks)));
    all
}

#[test]
fn no_choice_beats_the_hooks_of_a_rail_up_the_slope() {
    let [laid_out, apart, between, none, least_used, by_one] =
        std::array::from_fn(|_| Tally::default());
    runner(130)
        .run(&short_up_slope_job(), |draft| {
            let mut job = job(&draft.request());
            job.wishes.objective = Objective::FewestHooks;
            let layout = lay_out(&job);
            for rail in &layout.rails {
                for (laid, ends) in rail.segments.iter().zip(&rail.line.segments) {
                    let places = laid.segment.candidates.len();
                    if !(2..=11).contains(&places) {
                        continue;
                    }
                    let ends = ends.map(Length::mm);
                    let choices = every_choice(&job, &laid.segment, ends);
                    let wanted = best(&choices, job.wishes.max_utilisation);
                    if let Some(wanted) = wanted {
                        prop_assert_eq!(laid.found.outcome, Outcome::FewestProven);
                        prop_assert_eq!(&laid.found.subset, &wanted.hooks);
                        laid_out.see(true);
                    } else {
                        prop_assert_eq!(laid.found.outcome, Outcome::NonePasses);
                        prop_assert_eq!(&laid.found.subset, &laid.segment.everything());
                    }
                    apart.see(job.hook.foot.length > job.covering.gauge);
                    by_one.see(job.hold != Hold::AllHooks);
                    // The same rail of stronger parts, within every bound that matters.
                    let two = lowest(&choices, 2);
                    let times = if two.is_finite() { two } else { 1.0 };
                    let segment = &stronger(&laid.segment, times);
                    let choices = every_choice(&job, segment, ends);
                    for bound in bounds(&choices, places) {
                        let found = fewest_hooks(segment, bound, Pattern::Free, u64::MAX, &[]);
                        let Some(best) = best(&choices, bound) else {
                            prop_assert_eq!(found.outcome, Outcome::NonePasses);
                            none.see(true);
                            continue;
                        };
                        prop_assert_eq!(found.outcome, Outcome::FewestProven);
                        prop_assert_eq!(&found.subset, &best.hooks);
                        prop_assert_eq!(found.lower_bound, best.hooks.len());
                        between.see(2 < best.hooks.len() && best.hooks.len() < places);
                        let as_many = choices.iter().filter(|c| c.hooks.len() == best.hooks.len());
                        least_used.see(as_many.count() > 1);
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    laid_out.at_least(40, "rails laid out with the fewest hooks there are");
    by_one.at_least(60, "rails that one hook holds");
    apart.at_least(15, "rails whose neighbouring courses do not hold two feet");
    between.at_least(60, "answers between two hooks and all");
    least_used.at_least(60, "answers out of several choices of as many hooks");
    none.at_least(40, "bounds no choice meets");
}

#[test]
fn a_mirrored_roof_has_the_mirrored_hooks() {
    let [rails, forces, packed_alike, tied] = std::array::from_fn(|_| Tally::default());
    runner(80)
        .run(&up_slope_job(), |draft| {
            let mut request = draft.request();
            let aside = beside_arms(&request);
            let mut image = mirrored(&request);
            crate::jobs::rail(&mut request).axis_offset_mm = Some(aside);
            crate::jobs::rail(&mut image).axis_offset_mm = Some(-aside);
            let (mut job, mut other_job) = (job(&request), job(&image));
            for job in [&mut job, &mut other_job] {
                job.wishes.objective = Objective::FewestHooks;
                job.wishes.arms = ArmPosition::RafterAxis;
            }
            // Of columns that need one rafter the left one has it, mirrored or not.
            let contested = lines_of_neighbours_in_reach_of_one(&job);
            let length = 1000.0 * request.roof.length_m;
            let (layout, other) = (lay_out(&job), lay_out(&other_job));
            let alike = layout.footings[0].packed() == other.footings[0].packed();
            packed_alike.see(alike);
            if !alike {
                return Ok(());
            }
            for rail in &layout.rails {
                let columns = job.fields[rail.line.field()].columns;
                let is_image = |other: &&Rail| {
                    let [one, run] = [rail.line.run, other.line.run];
                    one.field == run.field
                        && one.lane == columns - 1 - run.lane
                        && one.places == run.places
                        && rail.line.position != other.line.position
                };
                let image = other.rails.iter().find(is_image).expect("every rail has an image");
                if contested && rail.line.on_grid != image.line.on_grid {
                    continue;
                }
                prop_assert_eq!(rail.line.on_grid, image.line.on_grid);
                let away = length - image.line.across.mm() - rail.line.across.mm();
                // The rail that shares its column may lie elsewhere, and so this one bear another share.
                let others = [rail, image].map(|rail| rail.line.other.map_or(0.0, Length::mm));
                let other_away = length - others[0] - others[1];
                if contested && (away.abs() > 1e-6 || other_away.abs() > 1e-6) {
                    continue;
                }
                if away.abs() > 1e-6 {
                    let beside = [(rail, &job), (image, &other_job)].map(|(rail, job)| {
                        let Over::Rafter(rafter) = rail.line.over else { return f64::NAN };
                        (rail.line.across - job.roof.rafters.positions[rafter]).abs().mm()
                    });
                    prop_assert!((beside[0] - beside[1]).abs() <= 1.0, "{beside:?}");
                    tied.see(true);
                    continue;
                }
                let pairs = rail.segments.iter().zip(&image.segments);
                for (laid, seen) in pairs.filter(|(a, b)| complete(a) && complete(b)) {
                    prop_assert_eq!(laid.found.outcome, seen.found.outcome);
                    let subsets = [laid, seen].map(|laid| laid.found.subset.clone());
                    prop_assert_eq!(&subsets[0], &subsets[1]);
                    let Some((a, b)) = laid.result.as_ref().zip(seen.result.as_ref()) else {
                        continue;
                    };
                    rails.see(laid.found.outcome.passes());
                    for (a, b) in a.hooks.iter().zip(&b.hooks) {
                        let pairs = [
                            (a.hook, b.hook),
                            (a.screws, b.screws),
                            (a.timber, b.timber),
                            (a.clearance, b.clearance),
                        ];
                        for (a, b) in pairs.map(|(a, b)| (a.utilisation, b.utilisation)) {
                            prop_assert!(close(a, b, a), "{a} and {b}");
                        }
                    }
                    for (c, combination) in job.actions.combinations.iter().enumerate() {
                        let id = other_side(&combination.id);
                        let there = other_job.actions.combinations.iter().position(|o| o.id == id);
                        let there = there.expect("wind blows from both sides");
                        let gross: f64 = a.forces[c].iter().flatten().map(|f| f.n().abs()).sum();
                        for (a, b) in a.forces[c].iter().zip(b.forces[there].iter()) {
                            prop_assert!(close(a[0].n(), b[0].n(), gross), "{a:?} and {b:?}");
                            prop_assert!(close(a[1].n(), b[1].n(), gross), "{a:?} and {b:?}");
                            forces.see(true);
                        }
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    tied.at_least(0, "rails with two places that are as good");
    packed_alike.at_least(70, "layouts of 80 packed as their images");
    rails.at_least(80, "rails that hold, and their images");
    forces.at_least(4000, "hook forces and their images");
}

/// Whether some rafter is in reach of the right rail of a column and of the left one of the next.
fn lines_of_neighbours_in_reach_of_one(job: &Job) -> bool {
    let range = job.hook.foot.lateral_range;
    let field = &job.fields[0];
    let zones = clamp_zones(field, job.rail_axis).expect("clamp zones on both sides");
    let at = |column: u32| Length::from_mm(field.place(0, column).x[0]) - job.rail_aside();
    (1..field.columns).any(|column| {
        let [right, left] = [(column - 1, 1), (column, 0)]
            .map(|(column, rail): (u32, usize)| zones[rail].map(|edge| at(column) + edge));
        let in_reach = |x: Length, zone: [Length; 2]| zone[0] - range <= x && x <= zone[1] + range;
        let rafters = &job.roof.rafters.positions;
        rafters.iter().any(|x| in_reach(*x, right) && in_reach(*x, left))
    })
}

#[test]
fn feet_on_a_rafter_do_not_meet() {
    let [pairs, near, across_gaps, across_fields, crowded] =
        std::array::from_fn(|_| Tally::default());
    runner(200)
        .run(&up_slope_job(), |draft| {
            let job = job(&draft.request());
            let layout = lay_out(&job);
            crowded.see(lines_of_neighbours_in_reach_of_one(&job));
            let mut feet: Vec<(usize, f64, [usize; 3])> =
                layout.hooks().map(|(at, place)| (place.rafter, place.at.mm(), at)).collect();
            feet.sort_by(|a, b| (a.0, a.1).partial_cmp(&(b.0, b.1)).expect("numbers"));
            for pair in feet.windows(2).filter(|pair| pair[0].0 == pair[1].0) {
                let apart = pair[1].1 - pair[0].1;
                prop_assert!(
                    apart >= job.hook.foot.length.mm() - 1e-6,
                    "hooks {:?} and {:?} on rafter {} are {apart} mm apart",
                    pair[0].2,
                    pair[1].2,
                    pair[0].0
                );
                pairs.see(true);
                near.see(apart < 1.5 * job.hook.foot.length.mm());
                let [one, other] = [&pair[0].2, &pair[1].2];
                across_gaps.see(one[0] == other[0] && one[1] != other[1]);
                let field = |at: &[usize; 3]| layout.rails[at[0]].line.field();
                across_fields.see(field(one) != field(other));
            }
            Ok(())
        })
        .unwrap();
    pairs.at_least(800, "neighbouring feet on a rafter");
    near.at_least(100, "of them nearer than half a foot to each other");
    crowded.at_least(4, "arrays with rafters in reach of the rails of two columns");
    across_gaps.at_least(4, "of them on both sides of an expansion gap");
    across_fields.at_least(15, "of them under two fields");
}

#[test]
fn rails_lie_in_clamp_zones_over_rafters_and_hooks_under_courses() {
    let [lines, off_axis, in_troughs, lowered, portraits, unplaced] =
        std::array::from_fn(|_| Tally::default());
    runner(120)
        .run(&up_slope_job(), |draft| {
            let request = draft.request();
            let job = job(&request);
            let covering = &request.roof.covering;
            let layout = lay_out(&job);
            for rail in &layout.rails {
                if !rail.line.on_grid {
                    prop_assert!(rail.segments.iter().all(|laid| laid.hooks().next().is_none()));
                    unplaced.see(true);
                    continue;
                }
                let Over::Rafter(rafter) = rail.line.over else {
                    return Err(TestCaseError::fail("a rail up the slope lies over a rafter"));
                };
                let axis = request.roof.rafters.positions_mm.as_ref().expect("given")[rafter];
                let x = rail.line.across.mm();
                let arm_x = x - beside_arms(&request);
                let range = job.hook.foot.lateral_range.mm();
                prop_assert!((arm_x - axis).abs() <= range + 0.1, "{arm_x} over {axis}");
                let field = &request.array.fields[rail.line.field()];
                let module = &request.array.module;
                let is_portrait = job.fields[rail.line.field()].portrait;
                let (wide, zone) = if is_portrait {
                    (module.width_mm, module.short_side_clamp_zone_mm.expect("given"))
                } else {
                    (module.length_mm, module.clamp_zone_mm)
                };
                let column = f64::from(rail.line.run.lane);
                let left = field.origin_mm[0] + column * (wide + field.column_gap_mm);
                let from_side = match rail.line.position {
                    Position::Left => x - left,
                    Position::Right => left + wide - x,
                    other => panic!("{other:?} of a rail up the slope"),
                };
                prop_assert!(zone[0] - 0.1 <= from_side && from_side <= zone[1] + 0.1);
                lines.see(true);
                off_axis.see((arm_x - axis).abs() > 1.0);
                portraits.see(is_portrait);
                let beyond = job.hook.bolt_beyond_exit.mm() + rail.line.lowered.mm();
                lowered.see(rail.line.lowered.mm() > 0.0);
                for (laid, ends) in rail.segments.iter().zip(&rail.line.segments) {
                    for hook in laid.hooks() {
                        prop_assert_eq!(hook.rafter, rafter);
                        prop_assert!((hook.x.mm() - axis).abs() < 1e-9);
                        prop_assert!((hook.arm_x.mm() - arm_x).abs() < 1e-9);
                        let tail = covering.first_course_mm
                            + hook.course as f64 * covering.gauge_mm
                            - beyond;
                        prop_assert!((hook.at.mm() - tail).abs() < 1e-6);
                        prop_assert!(ends[0] <= hook.at && hook.at <= ends[1]);
                        prop_assert!(hook.course >= 0);
                        let Some(troughs) = &covering.trough_offsets_mm else { continue };
                        let cover = covering.cover_width_mm.expect("interlocking tiles");
                        let is_half = matches!(covering.bond, Bond::Half);
                        let shift = if is_half && hook.course % 2 == 1 { cover / 2.0 } else { 0.0 };
                        let into = (arm_x - covering.joint_origin_mm - shift).rem_euclid(cover);
                        let off = |trough: &f64| {
                            let off = (into - trough).abs();
                            off.min(cover - off)
                        };
                        let off = troughs.iter().map(off).fold(f64::INFINITY, f64::min);
                        prop_assert!(off <= 0.1 + 1e-9, "{off} mm beside a trough");
                        in_troughs.see(true);
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    lines.at_least(150, "rails over rafters");
    off_axis.at_least(40, "of them beside the axis");
    portraits.at_least(15, "of them under modules that stand upright");
    lowered.at_least(15, "of them whose arms are lowered");
    in_troughs.at_least(60, "arms in troughs");
    unplaced.at_least(20, "rails no rafter lets lie in the clamp zones");
}
