//! Random built jobs: layouts of the two example roofs, built as drawn or with something odd found.

use hookspan::service::request::Options;
use hookspan::service::{layout, recheck};
use hookspan::wire::built::{Built, BuiltHook, BuiltRail, Found};
use hookspan::wire::components::HookChoice;
use hookspan::wire::layout::{LayoutAnswer, LayoutRequest};
use hookspan::wire::recheck::{AddedHook, RecheckAnswer, RecheckRequest, RefittedFoot};
use proptest::prelude::*;

const BARN: &str = include_str!("../data/layout-barn.json");
const COTTAGE: &str = include_str!("../data/layout-cottage.json");

/// What is drawn for one roof; everything else stays as in the example.
#[derive(Debug, Clone)]
pub struct Draft {
    cottage: bool,
    pitch_deg: f64,
    snow: f64,
    wind: f64,
    rows: u32,
    columns: u32,
    /// Hundredths of a millimetre, as far as an answer tells them.
    shifts: Vec<i32>,
    strength: f64,
    rigid: bool,
}

/// Roofs of every kind.
pub fn drafts() -> impl Strategy<Value = Draft> {
    (
        any::<bool>(),
        20.0..55.0,
        0.2..2.0,
        0.3..1.0,
        1..3_u32,
        2..6_u32,
        prop::collection::vec(-6000..6000_i32, 40),
        1.0..2.0,
        prop::bool::weighted(0.2),
    )
        .prop_map(
            |(cottage, pitch_deg, snow, wind, rows, columns, shifts, strength, rigid)| Draft {
                cottage,
                pitch_deg,
                snow,
                wind,
                rows,
                columns,
                shifts,
                strength,
                rigid,
            },
        )
}

impl Draft {
    /// The request for a layout.
    pub fn request(&self) -> LayoutRequest {
        let text = if self.cottage { COTTAGE } else { BARN };
        let mut job: serde_json::Map<_, _> = serde_json::from_str(text).expect("an example");
        job["site"]["snow"] =
            serde_json::json!({"ground_load_kn_per_m2": self.snow, "exceptional": false});
        job["site"]["wind"] = serde_json::json!({"peak_pressure_kn_per_m2": self.wind});
        job["roof"]["pitch_deg"] = self.pitch_deg.into();
        let mut request: LayoutRequest = serde_json::from_value(job.into()).expect("a request");
        let rafters = &mut request.roof.rafters;
        if let (Some(first), Some(spacing), Some(count)) =
            (rafters.first_mm.take(), rafters.spacing_mm.take(), rafters.count.take())
        {
            let regular = (0..count).map(|i| first + spacing * f64::from(i));
            rafters.positions_mm = Some(regular.collect());
        }
        for (x, shift) in rafters.positions_mm.iter_mut().flatten().zip(&self.shifts) {
            *x = ((*x * 100.0).round() + f64::from(*shift)) / 100.0;
        }
        request.array.fields.truncate(1);
        let field = &mut request.array.fields[0];
        field.rows = field.rows.min(self.rows);
        field.columns = field.columns.min(self.columns);
        field.omitted.clear();
        if let HookChoice::Inline(hook) = &mut request.components.hook {
            let resistance = hook.resistance.as_mut().expect("declared");
            resistance.press_kn *= self.strength;
            resistance.lift_kn *= self.strength;
            resistance.slope_kn *= self.strength;
            if self.rigid {
                hook.stiffness = None;
            }
        }
        request
    }
}

/// Its layout, if the request has no faults.
pub fn lay_out(request: &LayoutRequest) -> Option<LayoutAnswer> {
    layout::run(request, String::new(), &Options::default()).ok()
}

/// Its recheck.
pub fn check(request: &RecheckRequest) -> RecheckAnswer {
    recheck::run(request, String::new(), &Options::default())
        .unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// A layout built as it was drawn.
pub fn as_drawn(request: &LayoutRequest, answer: &LayoutAnswer) -> RecheckRequest {
    let rails = answer.rails.iter().map(|rail| BuiltRail {
        id: rail.id.clone(),
        y_mm: Some(rail.y_mm),
        x_mm: None,
        start_mm: None,
        end_mm: None,
        splices_mm: Vec::new(),
    });
    let hooks = answer.hooks.iter().map(|hook| BuiltHook {
        id: hook.id.clone(),
        rail: hook.rail.clone(),
        x_mm: hook.x_mm,
        y_mm: None,
        arm_x_mm: Some(hook.arm_x_mm),
        packers_mm: hook.packers_mm.clone(),
        found: None,
    });
    as_built(request, Built { rails: rails.collect(), hooks: hooks.collect() })
}

/// A job of which this is built.
pub fn as_built(request: &LayoutRequest, built: Built) -> RecheckRequest {
    RecheckRequest {
        completions: Vec::new(),
        reference: None,
        rules: request.rules.clone(),
        site: request.site.clone(),
        roof: request.roof.clone(),
        array: request.array.clone(),
        components: request.components.clone(),
        wishes: request.wishes.clone(),
        scopes: request.scopes.clone(),
        declarations: request.declarations.clone(),
        built,
        recorded: None,
        capacity: None,
        event: None,
    }
}

/// The arms where the search for the fewest hooks has them.
pub fn on_axes(built: &mut Built) {
    built.hooks.iter_mut().for_each(|hook| hook.arm_x_mm = None);
}

/// Builds in the hooks of a suggestion.
pub fn add(built: &mut Built, hooks: &[AddedHook]) {
    for (number, hook) in hooks.iter().enumerate() {
        built.hooks.push(BuiltHook {
            id: format!("new {number}"),
            rail: hook.rail.clone(),
            x_mm: hook.x_mm,
            y_mm: hook.y_mm,
            arm_x_mm: None,
            packers_mm: hook.packers_mm.clone(),
            found: None,
        });
    }
}

/// Sets feet anew as a suggestion has them; a clearance that was measured rises with the packers.
pub fn refit(built: &mut Built, feet: &[RefittedFoot]) {
    for foot in feet {
        let hook = built.hooks.iter_mut().find(|hook| hook.id == foot.hook);
        let hook = hook.expect("a foot of a hook that stands");
        let rise = foot.packers_mm.iter().sum::<f64>() - hook.packers_mm.iter().sum::<f64>();
        let mut found = hook.found.clone().unwrap_or_default();
        found.clearance_mm = found.clearance_mm.map(|clearance| clearance + rise);
        found.screw_length_mm = Some(foot.screw_length_mm);
        hook.found = Some(found);
        hook.packers_mm.clone_from(&foot.packers_mm);
    }
}

/// Something else at some hooks than was drawn.
#[derive(Debug, Clone)]
pub struct Oddity {
    hook: prop::sample::Index,
    packers_mm: Vec<f64>,
    found: [Option<f64>; 5],
    gone: bool,
}

/// Up to eight of them.
pub fn oddities() -> impl Strategy<Value = Vec<Oddity>> {
    let one = (
        any::<prop::sample::Index>(),
        prop::collection::vec(1.0..6.0, 0..3),
        [
            prop::option::of(-40.0..40.0),
            prop::option::of(50.0..140.0),
            prop::option::of(20.0..60.0),
            prop::option::of(-2.0..15.0),
            prop::option::of(60.0..240.0),
        ],
        prop::bool::weighted(0.15),
    )
        .prop_map(|(hook, packers_mm, found, gone)| Oddity { hook, packers_mm, found, gone });
    prop::collection::vec(one, 0..8)
}

/// Builds them in.
pub fn change(built: &mut Built, oddities: &[Oddity]) {
    for odd in oddities {
        if built.hooks.is_empty() {
            return;
        }
        let at = odd.hook.index(built.hooks.len());
        if odd.gone {
            built.hooks.remove(at);
            continue;
        }
        let hook = &mut built.hooks[at];
        let [shift, width, batten, clearance, screw] = odd.found;
        hook.packers_mm.clone_from(&odd.packers_mm);
        hook.found = Some(Found {
            rafter_x_mm: shift.map(|by| hook.x_mm + by),
            rafter_width_mm: width,
            rafter_condition: None,
            counter_batten_mm: batten,
            clearance_mm: clearance,
            side_joint_mm: None,
            slot_mm: None,
            screw_length_mm: screw,
            provenance: None,
        });
    }
}
