//! Snow that drifts against a taller building: what lies on modules comes out of their four points,
//! and what goes into a rail out of its hooks.

use hookspan::codes::vocabulary::{Arrangement, GroundLevel, Situation};
use hookspan::geometry::Rect;
use hookspan::placement::Job;
use hookspan::placement::layout::lay_out;
use hookspan::placement::loads::snow_on_frames;
use hookspan::placement::rail_lines::rail_lines;
use hookspan::units::Force;
use hookspan::wire::array::ArmPosition;
use hookspan::wire::roof::Abutment;
use proptest::prelude::*;

use crate::jobs::{any_job, beside_walls, job};
use crate::{Tally, runner};

/// A load that varies evenly along a strip: `B (p0 + p1) / 2 · l` at `l/3 (p0 + 2 p1) / (p0 + p1)`.
fn strip(breadth: f64, [from, to]: [f64; 2], p: [f64; 2]) -> [f64; 2] {
    let length = to - from;
    let sum = p[0] + p[1];
    let force = breadth * sum / 2.0 * length;
    let centroid = if sum > 0.0 { from + length / 3.0 * (p[0] + 2.0 * p[1]) / sum } else { from };
    [force, centroid]
}

/// Vertical force of the snow on a module and its moments about the axes of `y` and `x`, strip by strip
/// between the edges of the module and the end of the drift.
fn lies_on(job: &Job, wall: &Abutment, arrangement: &Arrangement, module: &Rect) -> [f64; 3] {
    let snow = &job.actions.snow;
    let cos = job.roof.pitch.cos();
    let unit = snow.per_coefficient(GroundLevel::Characteristic).n_per_m2() / 1e6 * cos;
    let bounds = job.roof.outline.bounds();
    let (drift, base) = (&arrangement.drifts[0], arrangement.base);
    let reach = drift.reach.mm();
    let xi = |at: f64| match wall.side {
        1 => bounds.x[1] - at,
        2 => (bounds.y[1] - at) * cos,
        _ => at - bounds.x[0],
    };
    let p =
        |at: f64| unit * (base + (drift.factor - base).max(0.0) * (1.0 - xi(at) / reach).max(0.0));
    let up = wall.side == 2;
    let (along, across) = if up { (module.y, module.x) } else { (module.x, module.y) };
    let kink = match wall.side {
        1 => bounds.x[1] - reach,
        2 => bounds.y[1] - reach / cos,
        _ => bounds.x[0] + reach,
    };
    let kink = kink.clamp(along[0], along[1]);
    let middle = f64::midpoint(across[0], across[1]);
    [[along[0], kink], [kink, along[1]]].into_iter().fold([0.0; 3], |sums, ends| {
        let [force, at] = strip(across[1] - across[0], ends, ends.map(p));
        let [x, y] = if up { [middle, at] } else { [at, middle] };
        [sums[0] + force, sums[1] + force * x, sums[2] + force * y]
    })
}

#[test]
fn four_points_balance_every_drift() {
    let [modules, kinked] = std::array::from_fn(|_| Tally::default());
    runner(120)
        .run(&beside_walls(any_job()), |draft| {
            let job = job(&draft.request());
            let [arrangement] = &job.actions.snow.arrangements[..] else {
                return Err(TestCaseError::fail("one wall makes one arrangement"));
            };
            let wall = draft.wall.as_ref().expect("there is a wall");
            let [sin, cos] = [job.roof.pitch.sin(), job.roof.pitch.cos()];
            for pair in rail_lines(&job).chunks_exact(2) {
                let field = &job.fields[pair[0].field()];
                for column in pair[0].run.places[0]..=pair[0].run.places[1] {
                    let module = field.place(pair[0].run.lane, column);
                    let [weight, about_y, about_x] = lies_on(&job, wall, arrangement, &module);
                    let (mut normal, mut slope, mut gross) = ([0.0; 3], [0.0; 2], 0.0);
                    for line in pair {
                        let level = GroundLevel::Characteristic;
                        let [across, down] =
                            snow_on_frames(&job, arrangement, level, line, &module);
                        for (end, x) in module.x.into_iter().enumerate() {
                            let (n, s, y) = (across[end].n(), down[end].n(), line.across.mm());
                            normal = [normal[0] + n, normal[1] + n * x, normal[2] + n * y];
                            slope = [slope[0] + s, slope[1] + s * x];
                            gross += n.abs() + s.abs();
                        }
                    }
                    // The slope force turns modules over towards the eaves.
                    let about_x =
                        about_x * cos - weight * sin * job.load_heights[pair[0].field()].mm();
                    let balances = |sum: f64, of: f64, lever: f64| {
                        (sum - of).abs() <= 1e-9 * (gross * lever).max(1e-9)
                    };
                    let lever = module.x[1].abs().max(module.y[1].abs());
                    prop_assert!(balances(normal[0], weight * cos, 1.0), "{normal:?}");
                    prop_assert!(balances(normal[1], about_y * cos, lever), "{normal:?}");
                    prop_assert!(balances(normal[2], about_x, lever), "{normal:?}, {about_x}");
                    prop_assert!(balances(slope[0], weight * sin, 1.0), "{slope:?}");
                    prop_assert!(balances(slope[1], about_y * sin, lever), "{slope:?}");
                    modules.see(weight > 0.0);
                    let even = job.actions.snow.per_coefficient(GroundLevel::Characteristic);
                    let even = even.n_per_m2() / 1e6 * cos * arrangement.base * module.area();
                    kinked.see(weight > even * 1.05);
                }
            }
            Ok(())
        })
        .unwrap();
    modules.at_least(300, "modules under snow in an arrangement");
    kinked.at_least(100, "of them in a drift");
}

#[test]
fn hooks_carry_drifts_in_every_combination_with_snow() {
    let [sums, uneven] = std::array::from_fn(|_| Tally::default());
    runner(60)
        .run(&beside_walls(any_job()), |draft| {
            let job = job(&draft.request());
            let combinations = &job.actions.combinations;
            for even in combinations.iter().filter(|c| c.snow.is_none()) {
                let snowy = even.factors.snow > 0.0 || even.factors.exceptional_snow > 0.0;
                let twins = combinations.iter().filter(|c| {
                    c.snow.is_some()
                        && (c.situation, c.factors, c.wind, c.duration)
                            == (even.situation, even.factors, even.wind, even.duration)
                });
                prop_assert_eq!(twins.count(), usize::from(snowy), "{}", even.id);
            }
            for laid in lay_out(&job).segments() {
                let Some(result) = &laid.result else { continue };
                for (case, forces) in laid.segment.cases.iter().zip(result.forces.iter()) {
                    if combinations[case.combination].snow.is_none() {
                        continue;
                    }
                    let (normal, slope) = (&laid.segment.normal, &laid.segment.slope);
                    for (total, axis) in
                        [(normal.total_load(&case.normal), 0), (slope.total_load(&case.slope), 1)]
                    {
                        let sum: f64 = forces.iter().map(|f| f[axis].n()).sum();
                        let gross: f64 = forces.iter().map(|f| f[axis].n().abs()).sum();
                        prop_assert!((sum - total).abs() <= 1e-9 * gross.max(total.abs()));
                        sums.see(true);
                    }
                    let points = slope.as_case(&case.slope).points;
                    let differ = points.windows(2).any(|two| (two[0] - two[1]).abs() > 1.0);
                    uneven.see(differ);
                }
            }
            Ok(())
        })
        .unwrap();
    sums.at_least(1000, "sums of hook forces against drifts");
    uneven.at_least(100, "rails that a drift loads more at one end");
}

/// Snow that is deeper somewhere and as deep everywhere else uses nothing less: modules and rafters in
/// a drift against modules and rafters without one.
#[test]
fn a_drift_spares_no_module_and_no_rafter() {
    let [modules, rafters] = std::array::from_fn(|_| Tally::default());
    runner(40)
        .run(&beside_walls(any_job()), |mut draft| {
            // Arms move as far as that costs nothing, which is farther where more is used.
            draft.arms = ArmPosition::RafterAxis;
            let mut request = draft.request();
            request.roof.rafters.span_m = Some(2.5);
            // The snow is held, so that both are the same beyond the drift.
            request.site.snow_held = Some(true);
            let with = job(&request);
            let mut without = with.clone();
            without.actions.snow.arrangements.clear();
            without.actions.combinations.retain(|combination| combination.snow.is_none());
            let (drifted, even) = (lay_out(&with), lay_out(&without));
            for (a, b) in even.modules.iter().zip(&drifted.modules) {
                prop_assert!(b.press.n_per_m2() >= a.press.n_per_m2() * (1.0 - 1e-9));
                modules.see(b.press.n_per_m2() > a.press.n_per_m2() * 1.01);
            }
            let same = even.rails.iter().zip(&drifted.rails).all(|(a, b)| {
                let subset = |rail: &hookspan::placement::laid::Rail| {
                    rail.segments.iter().map(|s| s.found.subset.clone()).collect::<Vec<_>>()
                };
                subset(a) == subset(b)
            });
            if same {
                for (a, b) in even.rafters.iter().zip(&drifted.rafters) {
                    let used = a.utilisation.zip(b.utilisation).expect("a span is given");
                    for (a, b) in used.0.iter().zip(used.1) {
                        prop_assert!(b.utilisation >= a.utilisation * (1.0 - 1e-9));
                        rafters.see(b.utilisation > a.utilisation * 1.01);
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    modules.at_least(30, "modules a drift presses harder");
    rafters.at_least(5, "rafters it uses more");
}

/// The combinations of an accidental situation have the drift that the exceptional snow makes.
#[test]
fn exceptional_snow_drifts_as_well() {
    let seen = Tally::default();
    runner(30)
        .run(&beside_walls(any_job()), |draft| {
            let job = job(&draft.request());
            let accidental = |c: &&hookspan::codes::vocabulary::Combination| {
                c.situation == Situation::Accidental && c.snow.is_some()
            };
            let found = job.actions.combinations.iter().find(accidental);
            prop_assert_eq!(found.is_some(), job.actions.snow.exceptional_ground.is_some());
            let snow = &job.actions.snow;
            let Some(exceptional) = snow.exceptional_ground else { return Ok(()) };
            let field = &job.fields[0];
            let row = field.runs(0).first().map(|run| *run.start()).expect("a module");
            let module = field.place(0, row);
            let on = |level| -> Force {
                let patches = snow.arrangements[0].on_module(snow.at(level), &module);
                patches.map(|patch| patch.weight).sum()
            };
            let [usual, rare] =
                [GroundLevel::Characteristic, GroundLevel::Exceptional].map(on).map(Force::n);
            let times = exceptional.n_per_m2() / snow.ground.load.n_per_m2();
            prop_assert!((rare - usual * times).abs() <= 1e-9 * rare);
            seen.see(rare > 0.0);
            Ok(())
        })
        .unwrap();
    seen.at_least(8, "jobs with exceptional snow");
}
