//! Requests at the far ends of what the schema admits: an answer or faults, never a panic.

use hookspan::service::layout::run;
use hookspan::service::request::Options;
use hookspan::wire::array::Wishes;
use hookspan::wire::layout::LayoutRequest;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use serde_json::{Value, json};

use crate::jobs::any_job;
use crate::{Tally, runner};

/// Fields with the ends of their ranges, as the published schema has them.
const RANGES: &[(&str, [f64; 2])] = &[
    ("/site/altitude_m", [-50.0, 3000.0]),
    ("/site/snow/ground_load_kn_per_m2", [0.0, 30.0]),
    ("/site/wind/peak_pressure_kn_per_m2", [0.0, 10.0]),
    ("/site/exposure_factor", [0.5, 2.0]),
    ("/site/thermal_factor", [0.5, 1.2]),
    ("/roof/pitch_deg", [5.0, 75.0]),
    ("/roof/ridge_height_m", [2.0, 200.0]),
    ("/roof/length_m", [2.0, 500.0]),
    ("/roof/width_m", [2.0, 200.0]),
    ("/roof/rafters/width_mm", [20.0, 500.0]),
    ("/roof/rafters/depth_mm", [40.0, 1000.0]),
    ("/roof/rafters/span_m", [0.5, 20.0]),
    ("/roof/rafters/existing_load_kn_per_m2", [0.0, 5.0]),
    ("/roof/layers/counter_batten_mm", [0.0, 200.0]),
    ("/roof/layers/boarding_mm", [0.0, 100.0]),
    ("/roof/layers/insulation_mm", [0.0, 500.0]),
    ("/roof/covering/tile/length_mm", [100.0, 1500.0]),
    ("/roof/covering/tile/width_mm", [50.0, 1000.0]),
    ("/roof/covering/tile/thickness_mm", [3.0, 60.0]),
    ("/roof/covering/joint_mm", [0.0, 30.0]),
    ("/roof/covering/gauge_mm", [40.0, 1000.0]),
    ("/roof/covering/first_course_mm", [-1000.0, 5000.0]),
    ("/roof/covering/joint_origin_mm", [-10_000.0, 10_000.0]),
    ("/array/module/length_mm", [300.0, 3000.0]),
    ("/array/module/width_mm", [300.0, 3000.0]),
    ("/array/module/mass_kg", [1.0, 100.0]),
    ("/array/module/press_capacity_kn_per_m2", [0.1, 20.0]),
    ("/array/module/lift_capacity_kn_per_m2", [0.1, 20.0]),
    ("/array/fields/0/column_gap_mm", [0.0, 1000.0]),
    ("/array/fields/0/row_gap_mm", [0.0, 5000.0]),
    ("/components/hook/resistance/press_kn", [0.01, 100.0]),
    ("/components/hook/resistance/lift_kn", [0.01, 100.0]),
    ("/components/hook/resistance/slope_kn", [0.01, 100.0]),
    ("/components/hook/stiffness/normal_kn_per_mm", [0.001, 1000.0]),
    ("/components/hook/stiffness/slope_kn_per_mm", [0.001, 1000.0]),
    ("/components/hook/arm/underside_height_mm", [0.0, 500.0]),
    ("/components/hook/arm/reach_mm", [1.0, 1000.0]),
    ("/components/hook/arm/bolt_height_mm", [0.0, 500.0]),
    ("/components/hook/arm/bolt_beyond_exit_mm", [-200.0, 500.0]),
    ("/components/hook/foot/length_mm", [20.0, 1000.0]),
    ("/components/hook/foot/width_mm", [20.0, 1000.0]),
    ("/components/hook/foot/thickness_mm", [1.0, 50.0]),
    ("/components/hook/foot/lateral_range_mm", [0.0, 500.0]),
    ("/components/screw/diameter_mm", [3.0, 20.0]),
    ("/components/screw/core_diameter_mm", [1.5, 20.0]),
    ("/components/screw/length_mm", [20.0, 1000.0]),
    ("/components/screw/thread_length_mm", [10.0, 1000.0]),
    ("/components/screw/tension_kn", [0.1, 200.0]),
    ("/components/screw/yield_moment_nmm", [100.0, 1_000_000.0]),
    ("/components/rail/i_normal_mm4", [100.0, 100_000_000.0]),
    ("/components/rail/i_slope_mm4", [100.0, 100_000_000.0]),
    ("/components/rail/w_normal_mm3", [10.0, 10_000_000.0]),
    ("/components/rail/w_slope_mm3", [10.0, 10_000_000.0]),
    ("/components/rail/modulus_n_per_mm2", [1000.0, 300_000.0]),
    ("/components/rail/proof_strength_n_per_mm2", [10.0, 1000.0]),
    ("/components/rail/mass_kg_per_m", [0.0, 50.0]),
    ("/components/rail/stock_lengths_mm/0", [100.0, 20_000.0]),
    ("/components/rail/max_cantilever_mm", [0.0, 3000.0]),
    ("/components/rail/max_continuous_mm", [1000.0, 100_000.0]),
    ("/components/rail/end_projection_mm", [0.0, 1000.0]),
    ("/components/rail/deflection_limit_ratio", [50.0, 1000.0]),
    ("/components/clamp/lift_kn", [0.01, 100.0]),
    ("/components/packers/max_stack_mm", [0.0, 100.0]),
    ("/wishes/max_utilisation", [0.1, 1.0]),
    ("/wishes/min_clearance_mm", [0.0, 50.0]),
];

/// Runs a request: true for an answer, false for faults.
fn answers(request: &LayoutRequest) -> bool {
    match run(request, String::new(), &Options { trace: true, ..Options::default() }) {
        Ok(answer) => {
            let text = serde_json::to_string(&answer).expect("an answer is JSON");
            assert!(!text.contains(":null"), "a number that is none");
            true
        }
        Err(faults) => {
            assert!(!faults.is_empty(), "refused without a reason");
            false
        }
    }
}

/// Room around any array of a random job, so that larger modules still lie on the roof.
fn widen(request: &mut LayoutRequest) {
    request.roof.outline_mm =
        vec![[-5000.0, -5000.0], [60_000.0, -5000.0], [60_000.0, 40_000.0], [-5000.0, 40_000.0]];
    request.wishes.get_or_insert_default().search_limit = Some(200);
}

#[test]
fn far_ends_of_ranges_never_panic() {
    let [answered, refused] = std::array::from_fn(|_| Tally::default());
    let ends = prop::collection::vec((0..RANGES.len(), 0..2_usize), 1..8);
    runner(400)
        .run(&(any_job(), ends), |(draft, ends)| {
            let mut request = draft.request();
            widen(&mut request);
            let mut value = serde_json::to_value(&request).expect("a request is JSON");
            for (field, end) in ends {
                let (pointer, range) = RANGES[field];
                if let Some(place) = value.pointer_mut(pointer) {
                    *place = Value::from(range[end]);
                }
            }
            let request = serde_json::from_value(value).expect("still a request");
            let answer = answers(&request);
            answered.see(answer);
            refused.see(!answer);
            Ok(())
        })
        .unwrap();
    answered.at_least(150, "answers at far ends of ranges");
    refused.at_least(50, "refusals at far ends of ranges");
}

#[test]
fn every_far_end_by_itself_never_panics() {
    let drawn = any_job().new_tree(&mut runner(1)).expect("a job");
    let mut request = drawn.current().request();
    widen(&mut request);
    let tried = Tally::default();
    for (pointer, range) in RANGES {
        for end in range {
            let mut value = serde_json::to_value(&request).expect("a request is JSON");
            let Some(place) = value.pointer_mut(pointer) else { continue };
            *place = Value::from(*end);
            answers(&serde_json::from_value(value).expect("still a request"));
            tried.see(true);
        }
    }
    tried.at_least(110, "far ends tried");
}

fn barn(change: impl Fn(&mut Value)) -> LayoutRequest {
    let mut value: Value =
        serde_json::from_str(include_str!("../data/layout-barn.json")).expect("an example");
    change(&mut value);
    let mut request: LayoutRequest = serde_json::from_value(value).expect("still a request");
    request.roof.obstacles.clear();
    widen(&mut request);
    request
}

#[test]
fn the_largest_jobs_are_finished() {
    let rafters = json!({
        "first_mm": 0.0, "spacing_mm": 100.0, "count": 600,
        "width_mm": 60.0, "depth_mm": 160.0, "strength_class": "C24"
    });
    let many_rafters = barn(|job| {
        job["roof"]["rafters"] = rafters.clone();
        job["array"]["fields"][0]["rows"] = json!(1);
        job["array"]["fields"][0]["columns"] = json!(50);
    });
    assert!(answers(&many_rafters));

    let many_modules = barn(|job| {
        job["roof"]["rafters"]["positions_mm"] =
            (0..60).map(|i| 1000.0 * f64::from(i)).collect::<Vec<_>>().into();
        job["array"]["module"]["length_mm"] = json!(300.0);
        job["array"]["module"]["width_mm"] = json!(250.0);
        job["array"]["module"]["clamp_zone_mm"] = json!([0.0, 150.0]);
        job["array"]["fields"][0]["rows"] = json!(25);
        job["array"]["fields"][0]["columns"] = json!(200);
    });
    assert!(answers(&many_modules));
}

#[test]
fn odd_but_valid_shapes_are_answered() {
    let single = barn(|job| {
        job["array"]["fields"][0]["rows"] = json!(1);
        job["array"]["fields"][0]["columns"] = json!(1);
        job["components"]["rail"]["end_projection_mm"] = json!(0.0);
    });
    let no_rafter_in_reach = barn(|job| {
        job["roof"]["rafters"]["positions_mm"] = json!([-4000.0, 50_000.0]);
    });
    let rafters_side_by_side = barn(|job| {
        job["roof"]["rafters"]["positions_mm"] =
            json!([800.0, 800.000_001, 1_500.0, 1_500.000_001, 11_100.0, 11_100.000_001]);
    });
    let hinge_on_every_rafter = barn(|job| {
        job["components"]["rail"]["splice"] = json!("hinge");
        job["components"]["rail"]["stock_lengths_mm"] = json!([100.0]);
    });
    let one_screw = barn(|job| {
        job["components"]["hook"]["foot"]["screws_mm"] = json!([[0.0, 0.5]]);
    });
    let no_packers = barn(|job| {
        job["components"]["packers"]["thicknesses_mm"] = json!([]);
        job["components"]["packers"]["max_stack_mm"] = json!(0.0);
    });
    let modules_beside_each_other = barn(|job| {
        job["array"]["fields"][0]["column_gap_mm"] = json!(0.0);
        job["array"]["fields"][0]["row_gap_mm"] = json!(0.0);
        job["components"]["rail"]["max_continuous_mm"] = json!(1000.0);
    });
    let mut no_wishes = barn(|_| ());
    no_wishes.wishes = Some(Wishes { search_limit: Some(1), ..Wishes::default() });
    for request in [
        single,
        no_rafter_in_reach,
        rafters_side_by_side,
        hinge_on_every_rafter,
        one_screw,
        no_packers,
        modules_beside_each_other,
        no_wishes,
    ] {
        assert!(answers(&request));
    }
}
