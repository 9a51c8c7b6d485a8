//! Models of our own: what no standard gives a formula for, worked apart from this code.

use hookspan::checks::foot::{FootModel, LoadedFoot, Stance};
use hookspan::checks::screws::Seat;
use hookspan::checks::{hook, module};
use hookspan::geometry::Outline;
use hookspan::hardware::{Clamp, Foot, Hook, NormalSpring, Screw};
use hookspan::mechanics::lever;
use hookspan::roof::{BearingFace, Distances, Layers, Obstacle, ObstacleKind, Rafters, Roof};
use hookspan::units::{Angle, Force, Length, Moment, Pressure, Stress};

use super::{Values, values};
use crate::case::Inputs;

/// Kinds of this file.
pub fn compute(kind: &str, inputs: &Inputs) -> Option<Values> {
    Some(match kind {
        "foot_on_strip" => foot_on_strip(inputs),
        "foot_pull_bound" => foot_pull_bound(inputs),
        "screw_seat" => screw_seat(inputs),
        "clamp_slip" => clamp_slip(inputs),
        "hook_offset" => hook_offset(inputs),
        "rafters_cut" => rafters_cut(inputs),
        _ => return None,
    })
}

fn numbers(inputs: &Inputs, name: &str) -> Vec<f64> {
    let list = inputs.get(name).and_then(serde_json::Value::as_array);
    list.into_iter().flatten().filter_map(serde_json::Value::as_f64).collect()
}

/// The foot of a case, and the stress its timber bears.
fn foot(inputs: &Inputs) -> (FootModel, Stress) {
    let mm = Length::from_mm;
    let width = mm(inputs.number("bearing_width_mm"));
    let foot = Foot {
        length: mm(inputs.number("foot_length_mm")),
        width,
        thickness: mm(6.0),
        lateral_range: Length::ZERO,
        screws: numbers(inputs, "screws_mm").into_iter().map(|up| [Length::ZERO, mm(up)]).collect(),
    };
    let bolt = inputs.number("bolt_height_mm");
    let slot = inputs.number_or("slot_range_mm", 0.0) / 2.0;
    let under =
        inputs.number_or("packers_mm", 0.0) + inputs.number_or("layers_not_bearing_mm", 0.0);
    // A rail hung down the slope of its bolt lengthens the arm.
    let reach = inputs.number("reach_mm") + inputs.number_or("rail_axis_offset_mm", 0.0).max(0.0);
    let spread = |edge| mm(inputs.number_or(edge, f64::INFINITY).min(30.0));
    let stance = Stance {
        reach: mm(reach),
        heights: [mm(bolt + under + slot), mm(bolt - slot)],
        load: [Length::ZERO; 2],
        bearing_width: width,
        spread: [spread("timber_beyond_lower_edge_mm"), spread("timber_beyond_upper_edge_mm")],
    };
    let strength = inputs.number_or("f_c90k_n_per_mm2", f64::INFINITY)
        * inputs.number("k_c90")
        * inputs.number("k_mod")
        / inputs.number("gamma_m");
    (FootModel::new(&foot, &stance), Stress::from_n_per_mm2(strength))
}

fn pulls(loaded: &LoadedFoot<'_>) -> Vec<f64> {
    loaded.demands().map(|demand| demand.pull.n()).collect()
}

fn foot_on_strip(inputs: &Inputs) -> Values {
    let (foot, strength) = foot(inputs);
    let force = |name| Force::from_n(inputs.number(name));
    let loaded = foot.under(force("normal_n"), force("slope_n"), strength);
    let [lower, upper] = loaded.edges();
    let mut named = values([
        ("strip_lower_mm", lower.strip),
        ("strip_upper_mm", upper.strip),
        ("compression_lower_n", lower.compression),
        ("compression_upper_n", upper.compression),
        ("bearing_utilisation", loaded.timber_used()),
    ]);
    for (i, pull) in pulls(&loaded).into_iter().enumerate() {
        named.insert(format!("pull_{}_n", i + 1), pull);
    }
    named
}

fn foot_pull_bound(inputs: &Inputs) -> Values {
    let (foot, strength) = foot(inputs);
    let range = |name| numbers(inputs, name);
    let (normal, slope) = (range("normal_range_n"), range("slope_range_n"));
    let corner = |end: usize| [normal[end], slope[end]].map(Force::from_n);
    let nearest = |of: &[f64]| Force::from_n(of[0].max(0.0) + of[1].min(0.0));
    let loaded =
        foot.least_under([corner(0), corner(1)], [nearest(&normal), nearest(&slope)], strength);
    values([("least_largest_pull_n", pulls(&loaded).into_iter().fold(0.0, f64::max))])
}

fn screw_seat(inputs: &Inputs) -> Values {
    let mm = |name| Length::from_mm(inputs.number(name));
    let screw = Screw {
        diameter: mm("diameter_mm"),
        core: mm("diameter_mm") * 0.7,
        length: mm("length_mm"),
        thread: mm("thread_mm"),
        point: Length::from_mm(inputs.number_or("point_mm", inputs.number("diameter_mm"))),
        withdrawal: None,
        tension: Force::from_kn(10.0),
        yield_moment: Moment::from_nmm(20_000.0),
        predrilled: false,
        spacings: None,
    };
    let foot = Foot {
        length: Length::from_mm(90.0),
        width: Length::from_mm(140.0),
        thickness: mm("plate_mm"),
        lateral_range: Length::ZERO,
        screws: vec![[Length::ZERO, Length::from_mm(15.0)]],
    };
    let seat = Seat::new(&screw, &foot, Length::ZERO, mm("gap_mm"), mm("rafter_depth_mm"));
    values([
        ("threaded_in_rafter_mm", seat.threaded.mm()),
        ("length_in_rafter_mm", seat.embedment.mm()),
        ("sticks_out_mm", (seat.reach - seat.embedment).mm()),
    ])
}

/// The larger share of the slope force of a module on the two halves of modules at a mid clamp.
fn clamp_slip(inputs: &Inputs) -> Values {
    let kn = |name| Force::from_kn(inputs.number(name));
    let [rails, module] = ["rails_mm", "module_y_mm"].map(|name| numbers(inputs, name));
    let [lower, upper] = [rails[0], rails[1]].map(Length::from_mm);
    let middle = Length::from_mm(f64::midpoint(module[0], module[1]));
    let most = lever::share(middle, lower, upper).max(lever::share(middle, upper, lower));
    let slope = Force::from_n(inputs.number("module_slope_n")) * most;
    let clamp = Clamp {
        lift: kn("clamp_lift_kn"),
        slope: Some(kn("clamp_slope_kn")),
        stop: None,
        weight: Force::ZERO,
        mid_gap: Length::ZERO,
        end_width: Length::ZERO,
    };
    let lift = Force::from_n(inputs.number("clamp_lift_force_n"));
    let used = module::slip(&clamp, slope, lift).expect("a resistance is given");
    values([("share_n", slope.n()), ("utilisation", used)])
}

/// A hook with the rail beside its bolt.
fn hook_offset(inputs: &Inputs) -> Values {
    let kn = |name| Force::from_kn(inputs.number(name));
    let mm = Length::from_mm;
    let part = Hook {
        press: kn("press_kn"),
        lift: kn("press_kn"),
        slope: kn("slope_kn"),
        includes_bolt: true,
        includes_offset: Length::ZERO,
        plate_bending: None,
        turned_share: 0.0,
        normal_spring: NormalSpring::RIGID,
        arm_spring: None,
        slope_stiffness: None,
        load_aside: Length::ZERO,
        arm_underside: mm(70.0),
        arm_underside_at_bolt: mm(70.0),
        arm_width: mm(30.0),
        arm_thickness: mm(8.0),
        reach: mm(inputs.number("reach_mm")),
        bolt_height: mm(inputs.number("bolt_height_mm")),
        bolt_beyond_exit: mm(30.0),
        slot_range: Length::ZERO,
        substitute_tiles: 0,
        foot: Foot {
            length: mm(90.0),
            width: mm(140.0),
            thickness: mm(6.0),
            lateral_range: Length::ZERO,
            screws: Vec::new(),
        },
        weight: Force::ZERO,
    };
    let hung = hook::hung(part, mm(inputs.number("offset_mm")));
    let used = hook::utilisation(&hung, kn("normal_kn"), kn("slope_force_kn"));
    values([("utilisation", used)])
}

/// A roof with rafters and openings; which it cuts, and which bear what is cut.
fn rafters_cut(inputs: &Inputs) -> Values {
    let mm = Length::from_mm;
    let opening = |x: &[f64]| Obstacle {
        kind: ObstacleKind::Other,
        outline: Outline::new(&[[x[0], 0.0], [x[1], 0.0], [x[1], 900.0], [x[0], 900.0]])
            .expect("a rectangle"),
        clearance: Length::ZERO,
        cuts: None,
    };
    let depth = mm(160.0);
    let roof = Roof {
        form: hookspan::roof::Form::Duopitch,
        pitch: Angle::from_deg(40.0),
        outline: Outline::new(&[[0.0, 0.0], [1e4, 0.0], [1e4, 5e3], [0.0, 5e3]])
            .expect("an outline"),
        edges: Vec::new(),
        obstacles: numbers(inputs, "openings_x_mm").chunks_exact(2).map(opening).collect(),
        rafters: Rafters {
            positions: numbers(inputs, "positions_mm").into_iter().map(mm).collect(),
            width: mm(inputs.number("width_mm")),
            depth,
            span: None,
            trussed: false,
            permanent: Pressure::ZERO,
            barred: Vec::new(),
            unsound: Vec::new(),
        },
        layers: Layers {
            under_foot: Length::ZERO,
            battens_above_foot: Length::ZERO,
            soft_under_foot: Length::ZERO,
            face: BearingFace::Rafter(depth),
            bearing_width: mm(100.0),
        },
        distances: Distances::default(),
    };
    let cuts = roof.cuts();
    let mut named = Values::new();
    for (what, of) in [("cut", 0), ("beside", 1)] {
        let all = cuts.iter().flat_map(|cut| [&cut.rafters, &cut.beside][of].iter());
        for (i, rafter) in all.clone().enumerate() {
            named.insert(format!("{what}_{}", i + 1), *rafter as f64);
        }
        named.insert(format!("{what}_count"), all.count() as f64);
    }
    named
}
