//! The hook: its arm as a bar, and what its maker declares.

use crate::assessment::Assumed;
use crate::checks::arm::{self, ArmAsBar, FAR_ABOVE};
use crate::checks::foot::turning;
use crate::codes::vocabulary::{FlatBar, SteelGrade};
use crate::codes::{Code, Rules};
use crate::hardware::{Foot, Hook, NormalSpring};
use crate::units::{Force, Length, Stiffness, weight_of_kg};
use crate::wire::components::{
    Arm, Foot as WireFoot, Hook as WireHook, HookResistance, HookStiffness, ResistanceBasis,
    ResistanceKind, SteelGrade as WireGrade,
};
use crate::wire::fault::FaultCode;

use super::{Notes, evidence};

/// A hook with its design values, on which a rail up the slope stands so far beside its upright, and whether its
/// spring square to the roof is of its arm alone; `None` where nothing says what it bears.
pub fn hook(
    wire: &WireHook,
    beside: Length,
    rules: Rules,
    notes: &mut Notes,
) -> Option<(Hook, bool)> {
    let foot = foot(&wire.foot, notes);
    plausible(&wire.arm, notes);
    spring_of_nothing(wire.stiffness.as_ref(), notes);
    if wire.slot_range_mm > 0.0 {
        let range = Length::from_mm(wire.slot_range_mm);
        notes.note("/components/hook/slot_range_mm", Assumed::SlotEnds(range));
    }
    let shape = shape(wire, foot);
    let aside = notes.assume(
        "/components/hook/arm/load_aside_mm",
        wire.arm.load_aside_mm.map(Length::from_mm),
        Length::ZERO,
        Assumed::LoadOnArmAxis,
    );
    if wire.arm.underside_at_bolt_mm.is_none() && wire.arm.bolt_beyond_exit_mm > 0.0 {
        let level = Assumed::ArmLevel(shape.arm_underside_at_bolt);
        notes.note("/components/hook/arm/underside_at_bolt_mm", level);
    }
    let grade = grade(&wire.arm, notes);
    let central = as_bar((&shape, aside), grade, rules);
    let bar = arm::beside(&shape, as_bar((&shape, aside + beside), grade, rules), beside);
    let known = wire.arm.grade.is_some();
    let declared = wire.resistance.as_ref();
    let [press, lift, slope] = match declared {
        Some(declared) => {
            let values = declared_resistances(declared, notes);
            compare(values, declared.basis, &central, notes);
            // Declared values are of a rail that stands on the axis of the arm, or up or down the slope from it.
            let [press, lift, slope] = values;
            let [normal_left, slope_left] =
                [bar.normal / central.normal, bar.slope / central.slope];
            [press * normal_left, lift * normal_left, slope * slope_left]
        }
        None if known => resistances_of(&bar, notes),
        None => {
            notes.fault(
                "/components/hook/resistance",
                FaultCode::ChooseOne,
                "Give resistance, or arm.grade for what the arm bears as a flat bar.",
            );
            return None;
        }
    };
    let stiffness = wire.stiffness.as_ref();
    compare_stiffness(wire, &bar, notes);
    let [normal_stiffness, slope_stiffness] = springs(stiffness, known.then_some(&bar), notes);
    let arm_alone = normal_stiffness.is_some() && !with_foot(wire, notes);
    evidence::of_hook(wire, known.then_some(&bar), rules, notes);
    let is_proven = resistance_rests_on_tests(wire);
    let includes_offset = declared.and_then(|r| r.includes_offset_mm).unwrap_or(0.0);
    let hook = Hook {
        press,
        lift,
        slope,
        includes_bolt: declared.and_then(|r| r.includes_bolt).unwrap_or(false),
        includes_offset: Length::from_mm(includes_offset),
        plate_bending: (!is_proven).then(|| rules.flat_bar(&plate(&shape, grade)).bending),
        normal_spring: NormalSpring {
            stiffness: normal_stiffness,
            foot: None,
            cross_share: bar.cross_share,
        },
        slope_stiffness,
        load_aside: aside,
        ..shape
    };
    Some((hook, arm_alone))
}

/// A hook without its design values.
fn shape(wire: &WireHook, foot: Foot) -> Hook {
    let mm = Length::from_mm;
    Hook {
        press: Force::ZERO,
        lift: Force::ZERO,
        slope: Force::ZERO,
        includes_bolt: false,
        includes_offset: Length::ZERO,
        plate_bending: None,
        turned_share: 0.0,
        normal_spring: NormalSpring::RIGID,
        arm_spring: None,
        slope_stiffness: None,
        load_aside: Length::ZERO,
        arm_underside: mm(wire.arm.underside_height_mm),
        arm_underside_at_bolt: mm(underside_at_bolt(&wire.arm)),
        arm_width: mm(wire.arm.width_mm),
        arm_thickness: mm(wire.arm.thickness_mm),
        slot_range: mm(wire.slot_range_mm),
        substitute_tiles: wire.substitute_tiles,
        reach: mm(wire.arm.reach_mm),
        bolt_height: mm(wire.arm.bolt_height_mm),
        bolt_beyond_exit: mm(wire.arm.bolt_beyond_exit_mm),
        foot,
        weight: weight_of_kg(wire.mass_kg),
    }
}

fn foot(wire: &WireFoot, notes: &mut Notes) -> Foot {
    let mm = Length::from_mm;
    for (i, [across, up]) in wire.screws_mm.iter().enumerate() {
        if across.abs() > wire.width_mm / 2.0 || *up < 0.0 || *up > wire.length_mm {
            notes.fault(
                format!("/components/hook/foot/screws_mm/{i}"),
                FaultCode::OutOfRange,
                "The screw lies beside the foot.",
            );
        }
    }
    let ups = || wire.screws_mm.iter().map(|[_, up]| *up);
    if ups().all(|up| up <= 0.0) || ups().all(|up| up >= wire.length_mm) {
        notes.fault(
            "/components/hook/foot/screws_mm",
            FaultCode::Contradiction,
            "All screws stand on one edge of the foot: none would hold it when it turns about that \
             edge.",
        );
    }
    Foot {
        length: mm(wire.length_mm),
        width: mm(wire.width_mm),
        thickness: mm(wire.thickness_mm),
        lateral_range: mm(wire.lateral_range_mm),
        screws: wire.screws_mm.iter().map(|s| s.map(mm)).collect(),
    }
}

/// Level, unless it is said to rise or fall.
fn underside_at_bolt(wire: &Arm) -> f64 {
    wire.underside_at_bolt_mm.unwrap_or(wire.underside_height_mm)
}

/// Faults of an arm that cannot be.
fn plausible(wire: &Arm, notes: &mut Notes) {
    if wire.bolt_height_mm < wire.underside_height_mm {
        notes.contradiction(
            ["/components/hook/arm/bolt_height_mm", "/components/hook/arm/underside_height_mm"],
            "The rail bolt cannot lie below the underside of the arm.",
        );
    }
    if wire.underside_at_bolt_mm.is_some() && wire.bolt_beyond_exit_mm <= 0.0 {
        notes.contradiction(
            [
                "/components/hook/arm/underside_at_bolt_mm",
                "/components/hook/arm/bolt_beyond_exit_mm",
            ],
            "An arm whose bolt does not lie beyond the tail edge has no underside there.",
        );
    }
    if wire.underside_at_bolt_mm.is_some_and(|at_bolt| wire.bolt_height_mm < at_bolt) {
        notes.contradiction(
            ["/components/hook/arm/bolt_height_mm", "/components/hook/arm/underside_at_bolt_mm"],
            "The rail bolt cannot lie below the underside of the arm.",
        );
    }
}

/// The fault of saying what a stiffness includes that is not given.
fn spring_of_nothing(wire: Option<&HookStiffness>, notes: &mut Notes) {
    let Some(wire) = wire else { return };
    if wire.includes_foot.is_some() && wire.normal_kn_per_mm.is_none() {
        notes.contradiction(
            [
                "/components/hook/stiffness/includes_foot",
                "/components/hook/stiffness/normal_kn_per_mm",
            ],
            "Give normal_kn_per_mm where includes_foot says what it includes.",
        );
    }
}

/// The steel of a hook, or the strongest usual one where none is given.
fn grade(wire: &Arm, notes: &mut Notes) -> SteelGrade {
    let usual = WireGrade::S355;
    let grade = notes
        .assume("/components/hook/arm/grade", wire.grade, usual, |_| Assumed::ArmGrade("S355"));
    match grade {
        WireGrade::S235 => SteelGrade::S235,
        WireGrade::S275 => SteelGrade::S275,
        WireGrade::S355 => SteelGrade::S355,
        WireGrade::Stainless1_4301 => SteelGrade::Stainless1_4301,
        WireGrade::Stainless1_4401 => SteelGrade::Stainless1_4401,
    }
}

/// The plate of the foot as a bar of the arm's steel.
fn plate(shape: &Hook, grade: SteelGrade) -> FlatBar {
    FlatBar { width: turning::plate_width(shape), thickness: shape.foot.thickness, grade }
}

/// The arm as a bar.
fn as_bar((shape, aside): (&Hook, Length), grade: SteelGrade, rules: Rules) -> ArmAsBar {
    let (width, thickness) = (shape.arm_width, shape.arm_thickness);
    arm::as_bar(shape, &rules.flat_bar(&FlatBar { width, thickness, grade }), aside)
}

/// Declared design resistances: pressing, lifting, down the slope.
fn declared_resistances(wire: &HookResistance, notes: &mut Notes) -> [Force; 3] {
    let divisor = match wire.kind {
        ResistanceKind::Design => {
            if wire.partial_factor.is_some() {
                notes.fault(
                    "/components/hook/resistance/partial_factor",
                    FaultCode::Contradiction,
                    "Design resistances are already divided by their partial factor.",
                );
            }
            1.0
        }
        ResistanceKind::Characteristic => notes.assume(
            "/components/hook/resistance/partial_factor",
            wire.partial_factor,
            evidence::USUAL_PARTIAL_FACTOR,
            Assumed::HookPartialFactor,
        ),
    };
    notes.remarks.hook.basis_unknown = wire.basis == ResistanceBasis::Unknown;
    [wire.press_kn, wire.lift_kn, wire.slope_kn].map(|value| Force::from_kn(value / divisor))
}

/// The same of the arm as a bar.
fn resistances_of(bar: &ArmAsBar, notes: &mut Notes) -> [Force; 3] {
    notes.note("/components/hook/resistance/press_kn", Assumed::BarResistanceNormal(bar.normal));
    notes.note("/components/hook/resistance/slope_kn", Assumed::BarResistanceSlope(bar.slope));
    notes.remarks.hook.resistance_of_bar = true;
    [bar.normal, bar.normal, bar.slope]
}

/// Remarks on the declared resistance that is farthest above what the bar bears.
fn compare(
    [press, lift, slope]: [Force; 3],
    basis: ResistanceBasis,
    bar: &ArmAsBar,
    notes: &mut Notes,
) {
    let pairs = [[press.max(lift), bar.normal], [slope, bar.slope]];
    let farthest = pairs.into_iter().max_by(|a, b| (a[0] / a[1]).total_cmp(&(b[0] / b[1])));
    let above = farthest.filter(|[declared, bears]| *declared > *bears * FAR_ABOVE);
    if rests_on_tests(basis) {
        notes.remarks.hook.tested_above_bar = above;
    } else {
        notes.remarks.hook.stronger_than_bar = above;
    }
}

/// The same of a declared stiffness, which rests on what the resistance does unless its own evidence is
/// stated.
fn compare_stiffness(wire: &WireHook, bar: &ArmAsBar, notes: &mut Notes) {
    if stiffness_rests_on_tests(wire) {
        return;
    }
    let normal =
        wire.stiffness.as_ref().and_then(|s| s.normal_kn_per_mm).map(Stiffness::from_kn_per_mm);
    notes.remarks.hook.stiffer_than_bar = normal
        .map(|declared| [declared, bar.normal_stiffness])
        .filter(|[declared, gives]| *declared > *gives * FAR_ABOVE);
}

fn stiffness_rests_on_tests(wire: &WireHook) -> bool {
    resistance_rests_on_tests(wire) || evidence::stiffness_is_proven(wire)
}

fn resistance_rests_on_tests(wire: &WireHook) -> bool {
    wire.resistance.as_ref().is_some_and(|declared| rests_on_tests(declared.basis))
}

const fn rests_on_tests(basis: ResistanceBasis) -> bool {
    match basis {
        ResistanceBasis::Test | ResistanceBasis::Approval => true,
        ResistanceBasis::Calculation | ResistanceBasis::Unknown => false,
    }
}

/// The springs square to the roof and along the slope: declared, of the bar, or rigid.
fn springs(
    given: Option<&HookStiffness>,
    bar: Option<&ArmAsBar>,
    notes: &mut Notes,
) -> [Option<Stiffness>; 2] {
    notes.remarks.hook.stiffness_of_bar =
        bar.is_some() && given.is_none_or(|given| given.normal_kn_per_mm.is_none());
    let mut spring = |declared: Option<f64>, of_bar: Option<Stiffness>, pointer, assumed: Bends| {
        let declared = declared.map(Stiffness::from_kn_per_mm);
        if declared.is_none() {
            notes.note(pointer, of_bar.map_or(assumed.rigid, assumed.as_bar));
        }
        declared.or(of_bar)
    };
    [
        spring(
            given.and_then(|s| s.normal_kn_per_mm),
            bar.map(|bar| bar.normal_stiffness),
            "/components/hook/stiffness/normal_kn_per_mm",
            Bends { as_bar: Assumed::BarStiffnessNormal, rigid: Assumed::RigidNormal },
        ),
        spring(
            given.and_then(|s| s.slope_kn_per_mm),
            bar.map(|bar| bar.slope_stiffness),
            "/components/hook/stiffness/slope_kn_per_mm",
            Bends { as_bar: Assumed::BarStiffnessSlope, rigid: Assumed::RigidSlope },
        ),
    ]
}

/// Whether the spring square to the roof has in it what the foot gives.
fn with_foot(wire: &WireHook, notes: &mut Notes) -> bool {
    let given = wire.stiffness.as_ref().filter(|given| given.normal_kn_per_mm.is_some());
    let Some(given) = given else { return false };
    // Who tests a hook screws it to timber; who calculates one bends its arm.
    let tested = stiffness_rests_on_tests(wire);
    notes.assume(
        "/components/hook/stiffness/includes_foot",
        given.includes_foot,
        tested,
        Assumed::StiffnessWithFoot,
    )
}

/// What is assumed of a spring that is not declared.
struct Bends {
    as_bar: fn(Stiffness) -> Assumed,
    rigid: Assumed,
}
