//! The rails of the fixture `rails_enumerated.json` as segments to search: everything but screws and
//! the deflection of the rail, which are made so strong that they never govern.

use std::sync::Arc;

use hookspan::checks::foot::{FootModel, Stance};
use hookspan::checks::rail::RailLimits;
use hookspan::checks::segment::{Candidate, Case, Hold, Limit, Segment, Setting};
use hookspan::codes::vocabulary::{Interaction, RailResistance, Resistance, ScrewResistance};
use hookspan::hardware::{Foot, Hook, NormalSpring};
use hookspan::mechanics::beam::{self, Member, Strip, StripParts, Superposition};
use hookspan::units::{Force, Length, Moment, Stiffness, Stress};
use serde_json::Value;

const FIXTURE: &str = include_str!("rails_enumerated.json");

/// The cases of the fixture: `id`, `given` and the fewest `hooks` found by trying all choices.
pub fn cases() -> Vec<Value> {
    let fixture: Value = serde_json::from_str(FIXTURE).expect("the fixture is JSON");
    fixture["cases"].as_array().expect("a list of cases").clone()
}

/// What a case of the fixture gives, as a segment.
pub fn segment(given: &Value) -> Segment {
    let hook = hook(given);
    let mm = Length::from_mm;
    let stance = Stance {
        reach: hook.reach,
        heights: [hook.bolt_height; 2],
        load: [Length::ZERO; 2],
        bearing_width: mm(60.0),
        spread: [mm(30.0); 2],
    };
    let model = FootModel::new(&hook.foot, &stance);
    let foot = Arc::new(model.clone());
    let (length, reach) = (number(given, "length_mm"), number(given, "max_cantilever_mm"));
    let candidates = numbers(&given["places_mm"])
        .into_iter()
        .enumerate()
        .map(|(rafter, x)| Candidate {
            rafter,
            course: 0,
            step: i64::try_from(rafter).expect("a few"),
            at: mm(x),
            x: mm(x),
            arm_x: mm(x),
            foot: Arc::clone(&foot),
            setting: 0,
            may_be_first: x <= reach,
            may_be_last: length - x <= reach,
            stands: false,
        })
        .collect();
    let limits = given["cases"].as_array().expect("a list of cases");
    let cases: Vec<Case> = limits
        .iter()
        .enumerate()
        .map(|(index, case)| Case {
            combination: index,
            limit: if case["limit"] == "strength" { Limit::Strength } else { Limit::Service },
            normal: Superposition::alone(index),
            slope: Superposition::alone(index),
        })
        .collect();
    let unbounded = Force::from_n(f64::INFINITY);
    let interaction = Interaction::RootOfSquares;
    let screw = ScrewResistance { pull: unbounded, shear: unbounded, interaction };
    Segment {
        normal: strip(given, ["normal_rigidity_nmm2", "normal_stiffness_n_per_mm", "normal_n"], 0),
        slope: strip(given, ["slope_rigidity_nmm2", "slope_stiffness_n_per_mm", "slope_n"], 1),
        settings: vec![Setting {
            clearance: mm(number(given, "clearance_mm")),
            spring: hook.normal_spring,
            screws: Resistance::Known(vec![screw; cases.len()]),
            timber: vec![Stress::from_n_per_mm2(f64::INFINITY); cases.len()],
        }],
        cases,
        candidates,
        hold: Hold::AllHooks,
        gathered: None,
        borne: None,
        hook,
        bolt: None,
        limits: RailLimits {
            splice: None,
            axial: None,
            splice_force: None,
            crossing: None,
            bending: RailResistance {
                normal: Moment::from_nmm(number(given, "normal_moment_nmm")),
                slope: Moment::from_nmm(number(given, "slope_moment_nmm")),
                interaction: Interaction::Linear,
            },
            ratio: 1e-3,
            least_free_end: Length::ZERO,
        },
        least_apart: Length::ZERO,
        least_foot: Some(model),
    }
}

fn number(given: &Value, name: &str) -> f64 {
    given[name].as_f64().unwrap_or_else(|| panic!("{name} is a number"))
}

fn numbers(list: &Value) -> Vec<f64> {
    list.as_array().expect("a list").iter().map(|x| x.as_f64().expect("a number")).collect()
}

/// A foot so strong that it never governs.
fn foot() -> Foot {
    let mm = Length::from_mm;
    Foot {
        length: mm(100.0),
        width: mm(100.0),
        thickness: mm(5.0),
        lateral_range: mm(0.0),
        screws: vec![[mm(0.0), mm(30.0)], [mm(0.0), mm(70.0)]],
    }
}

fn hook(given: &Value) -> Hook {
    let mm = Length::from_mm;
    let force = |name| Force::from_n(number(given, name));
    let spring = |name| Some(Stiffness::from_n_per_mm(number(given, name)));
    Hook {
        includes_bolt: true,
        includes_offset: Length::ZERO,
        plate_bending: None,
        turned_share: 0.0,
        press: force("press_n"),
        lift: force("lift_n"),
        slope: force("slope_n"),
        normal_spring: NormalSpring {
            stiffness: spring("normal_stiffness_n_per_mm"),
            ..NormalSpring::RIGID
        },
        arm_spring: None,
        slope_stiffness: spring("slope_stiffness_n_per_mm"),
        load_aside: Length::ZERO,
        arm_underside: mm(70.0),
        arm_underside_at_bolt: mm(70.0),
        arm_width: mm(30.0),
        arm_thickness: Length::ZERO,
        reach: mm(200.0),
        bolt_height: mm(100.0),
        bolt_beyond_exit: mm(30.0),
        slot_range: Length::ZERO,
        substitute_tiles: 0,
        weight: Force::ZERO,
        foot: foot(),
    }
}

fn strip(given: &Value, names: [&str; 3], direction: usize) -> Strip {
    let [rigidity, stiffness, points] = names;
    let cases = given["cases"].as_array().expect("a list of cases");
    Strip::new(StripParts {
        member: Member::Beam,
        start: 0.0,
        end: number(given, "length_mm"),
        rigidity: number(given, rigidity),
        stiffness: Some(number(given, stiffness)),
        candidates: numbers(&given["places_mm"]),
        hinges: Vec::new(),
        load_points: numbers(&given["loads_mm"]),
        cases: cases
            .iter()
            .map(|case| beam::Case {
                points: numbers(&case[points]),
                uniform: numbers(&case["line_n_per_mm"])[direction],
            })
            .collect(),
    })
}
