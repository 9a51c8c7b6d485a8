//! What goes into a rail comes out of its hooks.

use hookspan::codes::vocabulary::{Combination, Sense, WindCase};
use hookspan::geometry::Rect;
use hookspan::placement::Job;
use hookspan::placement::laid::Rail;
use hookspan::placement::layout::lay_out;
use hookspan::placement::loads::wind_on_frames;
use hookspan::placement::rail_lines::{Position, rail_lines};
use hookspan::placement::segments::modules_over;
use hookspan::units::{Force, Length};
use proptest::prelude::*;

use crate::jobs::{any_job, job};
use crate::{Tally, runner};

/// Sums of hook forces, normal and slope, of one segment in one combination.
fn carried(rail: &Rail, segment: usize, combination: usize) -> Option<[f64; 2]> {
    let result = rail.segments[segment].result.as_ref()?;
    let sum = |axis: usize| result.forces[combination].iter().map(|f| f[axis].n()).sum();
    Some([sum(0), sum(1)])
}

#[test]
fn hooks_carry_the_loads_of_their_rail() {
    let (sums, hinged) = (Tally::default(), Tally::default());
    runner(120)
        .run(&any_job(), |draft| {
            let job = job(&draft.request());
            for laid in lay_out(&job).segments() {
                let Some(result) = &laid.result else { continue };
                hinged.see(job.rail.hinged_splices);
                for (case, forces) in laid.segment.cases.iter().zip(result.forces.iter()) {
                    let strips = [
                        (&laid.segment.normal, &case.normal, 0),
                        (&laid.segment.slope, &case.slope, 1),
                    ];
                    for (strip, strip_case, axis) in strips {
                        let sum: f64 = forces.iter().map(|f| f[axis].n()).sum();
                        let gross: f64 = forces.iter().map(|f| f[axis].n().abs()).sum();
                        let total = strip.total_load(strip_case);
                        prop_assert!(
                            (sum - total).abs() <= 1e-9 * gross.max(total.abs()),
                            "{sum} N of {total} N"
                        );
                        sums.see(true);
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    sums.at_least(5000, "sums of hook forces against the loads of a rail");
    hinged.at_least(20, "rails with hinged splices");
}

/// Loads on the two rails under some neighbouring modules, from areas, pressures and weights: their
/// sums square to the roof and down it, and the moment about the eaves of those square to it.
fn loads_on(
    job: &Job,
    combination: &Combination,
    modules: &[Rect],
    [lower, upper]: [&Rail; 2],
    length: Length,
) -> [f64; 3] {
    let factors = &combination.factors;
    let (sin, cos) = job.roof.pitch.deg().to_radians().sin_cos();
    let field = lower.line.field();
    let count = modules.len() as f64;
    let on_each_rail = (count + 1.0) * job.actions.weight.clamp.n()
        + length.mm() * job.actions.weight.rail.kn_per_m();
    let on_modules = count * on_module(job, field, combination);
    let on_rails = factors.permanent * on_each_rail;
    let vertical = on_modules + 2.0 * on_rails;
    let [wind, wind_moment] = modules.iter().fold([0.0; 2], |[sum, moment], module| {
        let [on, about] = wind_on(job, combination, module);
        [sum + on, moment + about]
    });
    let middle = modules.first().map_or(0.0, |module| f64::midpoint(module.y[0], module.y[1]));
    // The slope force of the modules acts above the bolts and turns them over towards the eaves.
    let moment = on_modules * (cos * middle - sin * job.load_heights[field].mm())
        + on_rails * cos * (lower.line.across + upper.line.across).mm()
        + wind_moment;
    [vertical * cos + wind, vertical * sin, moment]
}

/// Weight of a module of a field and of snow that lies evenly on it, from areas and pressures, N.
pub fn on_module(job: &Job, field: usize, combination: &Combination) -> f64 {
    let module = &job.fields[field].module;
    let factors = &combination.factors;
    let area = module.length.mm() * module.width.mm();
    let snow = &job.actions.snow;
    let (c_e, c_t) = (snow.conditions.exposure.value, snow.conditions.thermal.value);
    // s acts per area of plan, and every module covers cos α of its area there.
    let on_plan = |s: f64| s * area * job.roof.pitch.deg().to_radians().cos();
    let snow = factors.snow * on_plan(snow.roof.n_per_m2() / 1e6)
        + factors.exceptional_snow
            * on_plan(
                snow.exceptional_ground
                    .map_or(0.0, |ground| ground.n_per_m2() / 1e6 * snow.shape * c_e * c_t),
            );
    factors.permanent * module.weight.n() + snow
}

/// Wind on a module, zone by zone, N; and its moment about the eaves, each zone's at the middle of
/// what it covers, N·mm.
fn wind_on(job: &Job, combination: &Combination, module: &Rect) -> [f64; 2] {
    let wind = &job.actions.wind.zoned();
    let q_p = wind.peak.pressure.n_per_m2() / 1e6;
    let shared = |a: [f64; 2], b: [f64; 2]| [a[0].max(b[0]), a[1].min(b[1])];
    let length = |[from, to]: [f64; 2]| (to - from).max(0.0);
    let Some(case) = combination.wind else { return [0.0; 2] };
    wind.zones.iter().filter(|zone| zone.direction == case.direction).fold(
        [0.0; 2],
        |sums, zone| {
            let coefficient = zone.coefficients.of(case.sense);
            let bounds = zone.region.bounds();
            let [x, y] = [shared(bounds.x, module.x), shared(bounds.y, module.y)];
            let force = combination.factors.wind * q_p * coefficient * length(x) * length(y);
            [sums[0] + force, sums[1] + force * f64::midpoint(y[0], y[1])]
        },
    )
}

/// Force and both moments of what the wind does to a module, zone by zone, come out of its four
/// points; a wind on one zone alone is one patch.
#[test]
fn four_points_balance_every_patch_of_wind() {
    let [patches, beyond] = std::array::from_fn(|_| Tally::default());
    runner(120)
        .run(&any_job(), |draft| {
            let job = job(&draft.request());
            for pair in rail_lines(&job).chunks_exact(2) {
                let field = &job.fields[pair[0].field()];
                for column in pair[0].run.places[0]..=pair[0].run.places[1] {
                    let module = field.place(pair[0].run.lane, column);
                    for zone in &job.actions.wind.zoned().zones {
                        let mut wind = job.actions.wind.zoned().clone();
                        wind.zones = vec![zone.clone()];
                        let Some(patch) = wind.patches(&module).next() else { continue };
                        let centre = patch.part.centre;
                        for sense in Sense::ALL {
                            let case = WindCase { direction: zone.direction, sense };
                            let mut sums = [0.0; 3];
                            let mut gross = 0.0;
                            for line in pair {
                                let frames = wind_on_frames(&wind, line, &module).of(case);
                                for (x, force) in module.x.iter().zip(frames.map(Force::n)) {
                                    let y = line.across.mm();
                                    sums[0] += force;
                                    sums[1] += force * (x - centre.x);
                                    sums[2] += force * (y - centre.y);
                                    gross += force.abs();
                                }
                            }
                            let force = patch.force(sense).n();
                            prop_assert!((sums[0] - force).abs() <= 1e-9 * gross);
                            let lever = field.module.length.mm();
                            prop_assert!(sums[1].abs() <= 1e-9 * gross * lever, "about y");
                            prop_assert!(sums[2].abs() <= 1e-9 * gross * lever, "about x");
                            patches.see(force != 0.0);
                            beyond.see(gross > force.abs() * (1.0 + 1e-9));
                        }
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    patches.at_least(2000, "patches of wind");
    beyond.at_least(100, "of them beyond a rail, so that the other one feels the opposite");
}

#[test]
fn both_rails_of_a_row_carry_its_modules() {
    let sums = Tally::default();
    runner(80)
        .run(&any_job(), |draft| {
            let job = job(&draft.request());
            let rails = lay_out(&job).rails;
            for pair in rails.chunks_exact(2) {
                let [lower, upper] = pair else { continue };
                prop_assert_eq!(lower.line.position, Position::Lower);
                prop_assert_eq!(lower.line.run, upper.line.run);
                let field = &job.fields[lower.line.field()];
                for (s, ends) in lower.line.segments.iter().enumerate() {
                    let modules: Vec<Rect> = (lower.line.run.places[0]..=lower.line.run.places[1])
                        .map(|column| field.place(lower.line.run.lane, column))
                        .filter(|rect| {
                            let middle = f64::midpoint(rect.x[0], rect.x[1]);
                            ends[0].mm() < middle && middle < ends[1].mm()
                        })
                        .collect();
                    for (c, combination) in job.actions.combinations.iter().enumerate() {
                        // Only snow that lies evenly is added up here; drifts are in `drifts.rs`.
                        prop_assert_eq!(combination.snow, None);
                        let both = carried(lower, s, c).zip(carried(upper, s, c));
                        let Some((low, up)) = both else { continue };
                        let length = ends[1] - ends[0];
                        let loads = loads_on(&job, combination, &modules, [lower, upper], length);
                        let [low_y, up_y] = [lower, upper].map(|rail| rail.line.across.mm());
                        let moment = low[0] * low_y + up[0] * up_y;
                        let gross = low[0].abs() * low_y + up[0].abs() * up_y + loads[1] * up_y;
                        prop_assert!(
                            (moment - loads[2]).abs() <= 1e-6 * gross,
                            "{}: {moment} N·mm of {} N·mm",
                            combination.id,
                            loads[2]
                        );
                        for axis in [0, 1] {
                            let sum = low[axis] + up[axis];
                            let gross = loads[axis].abs() + loads[1].abs();
                            prop_assert!(
                                (sum - loads[axis]).abs() <= 1e-6 * gross,
                                "{}: {sum} N of {} N",
                                combination.id,
                                loads[axis]
                            );
                            sums.see(true);
                        }
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    sums.at_least(3000, "sums of hook forces against the loads of a row");
}

/// Wherever rails are cut: a module that lay on no part of its rail would weigh nothing on it.
#[test]
fn every_module_of_a_row_lies_on_one_part_of_its_rails() {
    let [rails, cut] = std::array::from_fn(|_| Tally::default());
    runner(150)
        .run(&(any_job(), any::<bool>()), |(draft, short)| {
            let mut request = draft.request();
            if short {
                // Cut between every two or three modules.
                crate::jobs::rail(&mut request).max_continuous_mm = 2600.0;
            }
            let job = job(&request);
            for line in rail_lines(&job) {
                let parts = line.segments.iter();
                let on: usize = parts.map(|ends| modules_over(&job, &line, *ends).count()).sum();
                prop_assert_eq!(on, line.run.modules().count());
                rails.see(true);
                cut.see(line.segments.len() > 1);
            }
            Ok(())
        })
        .unwrap();
    rails.at_least(300, "rails");
    cut.at_least(100, "of them in several parts");
}
