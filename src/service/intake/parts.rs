//! The parts: found by id or taken as given, and turned into design values.

use crate::assessment::Assumed;
use crate::checks;
use crate::checks::bolt::BoltLimits;
use crate::checks::foot::turning;
use crate::checks::screws::Seat;
use crate::codes::cited::Step;
use crate::codes::vocabulary::BoltClass;
use crate::codes::{Code, Rules};
use crate::components;
use crate::hardware::{Clamp, Hook, Metal, Packers, RailProfile, Screw, Spacings};
use crate::placement::rail_axis::RailAxis;
use crate::roof::Roof;
use crate::service::figures;
use crate::units::{
    Area, Density, Force, Length, LineLoad, Moment, SecondMoment, SectionModulus, Stress,
    weight_of_kg,
};
use crate::wire::array::RailDirection;
use crate::wire::components::{
    BoltClass as WireBoltClass, Clamp as WireClamp, ClampChoice, Components, HookBolt, HookChoice,
    Packers as WirePackers, PackersChoice, Rail as WireRail, RailChoice, Screw as WireScrew,
    ScrewChoice, Splice,
};
use crate::wire::evidence::PartKind;
use crate::wire::fault::FaultCode;

use super::evidence::{self, Of};
use super::{Notes, hook};

/// The parts, resolved.
pub struct Parts {
    /// Hook.
    pub hook: Hook,
    /// Whether its spring square to the roof is of its arm alone.
    pub arm_alone: bool,
    /// Whether its resistances are declared and do not say where the rail stood.
    pub rail_left_open: bool,
    /// Its bolt, not yet looked at by the rules.
    pub bolt: Option<HookBolt>,
    /// Screw.
    pub screw: Screw,
    /// Rail.
    pub rail: RailProfile,
    /// Clamp.
    pub clamp: Clamp,
    /// Packers.
    pub packers: Packers,
}

/// Resolves every part.
pub fn parts(
    wire: &Components,
    direction: RailDirection,
    rules: Rules,
    notes: &mut Notes,
) -> Option<Parts> {
    let hook = match &wire.hook {
        HookChoice::Id(id) => embedded("hook", id, components::hook, notes),
        HookChoice::Inline(part) => Some(given("hook", &part.id, components::hook, &**part, notes)),
    };
    let screw = match &wire.screw {
        ScrewChoice::Id(id) => embedded("screw", id, components::screw, notes),
        ScrewChoice::Inline(part) => {
            Some(given("screw", &part.id, components::screw, &**part, notes))
        }
    };
    let upright = hook.map(|part| part.arm.thickness_mm);
    let rail = chosen_rail(&wire.rail, upright, direction, notes);
    let clamp = chosen_clamp(&wire.clamp, notes);
    let packers = match &wire.packers {
        PackersChoice::Id(id) => embedded("packers", id, components::packers, notes),
        PackersChoice::Inline(part) => {
            Some(given("packers", &part.id, components::packers, &**part, notes))
        }
    };
    let bolt = hook.and_then(|part| part.bolt);
    let declared = hook.and_then(|part| part.resistance.as_ref());
    let rail_left_open = declared.is_some_and(|declared| declared.includes_offset_mm.is_none());
    // A rail up the slope stands beside the upright of the hook that it is bolted to.
    let beside = match (direction, &rail) {
        (RailDirection::UpSlope | RailDirection::Crossing, Some(rail)) => rail.axis_offset.abs(),
        _ => Length::ZERO,
    };
    let hook = hook.and_then(|part| hook::hook(part, beside, rules, notes));
    if let Some(part) = screw {
        evidence_of_screw(part, rules, notes);
    }
    evidence_of_rail_and_clamp(wire, rules, notes);
    let screw = screw.map(|part| self::screw(part, notes));
    let (hook, arm_alone) = hook?;
    Some(Parts {
        hook,
        arm_alone,
        rail_left_open,
        bolt,
        screw: screw?,
        rail: rail?,
        clamp: clamp?,
        packers: packers.map(self::packers)?,
    })
}

/// Looks at what the figures of a screw rest on.
pub fn evidence_of_screw(part: &WireScrew, rules: Rules, notes: &mut Notes) {
    let of = Of::job(PartKind::Screw, "/components/screw");
    evidence::of_part(of, part, (&part.evidence, figures::SCREW), rules, notes);
}

/// Looks at what the figures of a rail rest on.
pub fn evidence_of_rail(part: &WireRail, rules: Rules, notes: &mut Notes) {
    let of = Of::job(PartKind::Rail, "/components/rail");
    evidence::of_part(of, part, (&part.evidence, figures::RAIL), rules, notes);
}

/// Looks at what the figures of a clamp rest on.
pub fn evidence_of_clamp(part: &WireClamp, rules: Rules, notes: &mut Notes) {
    let of = Of::job(PartKind::Clamp, "/components/clamp");
    evidence::of_part(of, part, (&part.evidence, figures::CLAMP), rules, notes);
}

/// The same of both where they are given in full: embedded ones have none.
fn evidence_of_rail_and_clamp(wire: &Components, rules: Rules, notes: &mut Notes) {
    if let RailChoice::Inline(part) = &wire.rail {
        evidence_of_rail(part, rules, notes);
    }
    if let ClampChoice::Inline(part) = &wire.clamp {
        evidence_of_clamp(part, rules, notes);
    }
}

/// The rail by itself, on a hook whose upright is so thick.
pub fn chosen_rail(
    wire: &RailChoice,
    upright_mm: Option<f64>,
    direction: RailDirection,
    notes: &mut Notes,
) -> Option<RailProfile> {
    match wire {
        RailChoice::Id(id) => embedded("rail", id, components::rail, notes),
        RailChoice::Inline(part) => Some(given("rail", &part.id, components::rail, &**part, notes)),
    }
    .map(|part| rail(part, upright_mm, direction, notes))
}

/// The clamp by itself.
pub fn chosen_clamp(wire: &ClampChoice, notes: &mut Notes) -> Option<Clamp> {
    match wire {
        ClampChoice::Id(id) => embedded("clamp", id, components::clamp, notes),
        ClampChoice::Inline(part) => {
            Some(given("clamp", &part.id, components::clamp, &**part, notes))
        }
    }
    .map(clamp)
}

/// An embedded part, which is invented, or the fault that there is none of this id.
fn embedded<T>(
    kind: &'static str,
    id: &str,
    find: fn(&str) -> Option<&'static T>,
    notes: &mut Notes,
) -> Option<&'static T> {
    let found = find(id);
    if found.is_some() {
        notes.remarks.invented.push((kind, id.to_owned()));
    } else {
        notes.fault(
            format!("/components/{kind}"),
            FaultCode::UnknownComponent,
            format!("No embedded part of this kind is called \"{id}\"; see GET /v1/components."),
        );
    }
    found
}

/// A part given in full. One with the id of an embedded part is a copy of that, and as invented.
fn given<'a, T>(
    kind: &'static str,
    id: &str,
    find: fn(&str) -> Option<&'static T>,
    part: &'a T,
    notes: &mut Notes,
) -> &'a T {
    if find(id).is_some() {
        notes.remarks.invented.push((kind, id.to_owned()));
    }
    part
}

/// A hook on which a rail hangs off the bolt. Resistances that do not say where the rail stood are taken to
/// be of forces at the bolt.
pub fn hung(parts: &Parts, rail_axis: RailAxis, notes: &mut Notes) -> Hook {
    let (hook, offset) = (parts.hook.clone(), parts.rail.axis_offset);
    if parts.rail_left_open && offset != Length::ZERO {
        let pointer = "/components/hook/resistance/includes_offset_mm";
        notes.note(pointer, Assumed::ResistanceAtBolt(Length::ZERO));
    }
    // A hook without reach is a fault of its own.
    if hook.reach > Length::ZERO && offset.abs() > hook.reach {
        notes.fault(
            "/components/rail/axis_offset_mm",
            FaultCode::OutOfRange,
            "The axis of the rail lies farther from the bolt than the hook reaches.",
        );
        return hook;
    }
    match rail_axis {
        RailAxis::AlongEaves => checks::hook::hung(hook, offset),
        // What a rail beside its upright leaves of a hook is in its values already.
        RailAxis::UpSlope => hook,
    }
}

/// A hook whose spring is that of its arm alone, on a foot as drawn, without packers; any other as it is.
pub fn on_its_foot(
    hook: Hook,
    (roof, across_grain): (&Roof, Step),
    (parts, rail_axis): (&Parts, RailAxis),
    notes: &mut Notes,
) -> Hook {
    let Parts { screw, rail, arm_alone, .. } = parts;
    if !arm_alone {
        return hook;
    }
    let (layers, depth) = (&roof.layers, roof.rafters.depth);
    let seat = Seat::new(screw, &hook.foot, Length::ZERO, layers.under_foot, depth);
    let foot = turning::on_timber(&hook, (layers.bearing_width, across_grain), screw, &seat);
    let arm = hook.normal_spring;
    let height = hook.bolt_height + hook.slot_range / 2.0;
    let down = match rail_axis {
        RailAxis::AlongEaves => rail.axis_offset,
        RailAxis::UpSlope => Length::ZERO,
    };
    let at_bolt = [turning::to_rail(&hook, down), height];
    let spring = turning::on_foot(arm, foot.map(|foot| foot.spring()), at_bolt);
    if let Some(foot) = spring.foot {
        notes.note("/components/hook/stiffness/normal_kn_per_mm", Assumed::FootGives(foot));
    }
    Hook { normal_spring: spring, arm_spring: Some(arm), ..hook }
}

/// The bolt of a hook as the rules take it.
pub fn bolt(
    wire: &HookBolt,
    (slot_range, axis_offset): (Length, Length),
    rules: Rules,
    notes: &mut Notes,
) -> Option<BoltLimits> {
    let class = match wire.class {
        WireBoltClass::Steel4Point6 => BoltClass::Steel4Point6,
        WireBoltClass::Steel5Point6 => BoltClass::Steel5Point6,
        WireBoltClass::Steel8Point8 => BoltClass::Steel8Point8,
        WireBoltClass::Steel10Point9 => BoltClass::Steel10Point9,
        WireBoltClass::A2Class50 | WireBoltClass::A4Class50 => BoltClass::Stainless50,
        WireBoltClass::A2Class70 | WireBoltClass::A4Class70 => BoltClass::Stainless70,
        WireBoltClass::A2Class80 | WireBoltClass::A4Class80 => BoltClass::Stainless80,
    };
    let Some(resistance) = rules.bolt(Length::from_mm(wire.diameter_mm), class) else {
        notes.fault(
            "/components/hook/bolt/diameter_mm",
            FaultCode::OutOfRange,
            "Bolts with a coarse thread are known in 6, 8, 10, 12, 14 and 16 mm.",
        );
        return None;
    };
    if wire.slot_slip_kn.is_some() && slot_range <= Length::ZERO {
        notes.fault(
            "/components/hook/bolt/slot_slip_kn",
            FaultCode::Contradiction,
            "Without a slot there is no slip along it.",
        );
    }
    let prying = axis_offset.abs() / Length::from_mm(wire.diameter_mm);
    Some(BoltLimits {
        resistance: Some(resistance),
        slip: wire.slot_slip_kn.map(Force::from_kn),
        groove_slip: None,
        prying,
    })
}

/// The bolt with what it holds along the groove of a rail up the slope, whether its own resistance is asked for
/// or not.
pub fn in_groove(bolt: Option<BoltLimits>, groove_slip: Option<Force>) -> Option<BoltLimits> {
    let included = BoltLimits { resistance: None, slip: None, groove_slip: None, prying: 0.0 };
    match groove_slip {
        None => bolt,
        Some(_) => Some(BoltLimits { groove_slip, ..bolt.unwrap_or(included) }),
    }
}

pub fn screw(wire: &WireScrew, notes: &mut Notes) -> Screw {
    if wire.core_diameter_mm > wire.diameter_mm {
        notes.contradiction(
            ["/components/screw/core_diameter_mm", "/components/screw/diameter_mm"],
            "The core cannot be thicker than the thread.",
        );
    }
    if wire.thread_length_mm > wire.length_mm {
        notes.contradiction(
            ["/components/screw/thread_length_mm", "/components/screw/length_mm"],
            "The thread cannot be longer than the screw.",
        );
    }
    let withdrawal = wire.withdrawal_n_per_mm2.map(|f| {
        let density = notes.assume(
            "/components/screw/withdrawal_density_kg_per_m3",
            wire.withdrawal_density_kg_per_m3.map(Density::from_kg_per_m3),
            Density::from_kg_per_m3(350.0),
            Assumed::WithdrawalDensity,
        );
        (Stress::from_n_per_mm2(f), density)
    });
    if withdrawal.is_none() {
        notes.note("/components/screw/withdrawal_n_per_mm2", Assumed::WithdrawalByFormula);
    }
    Screw {
        diameter: Length::from_mm(wire.diameter_mm),
        core: Length::from_mm(wire.core_diameter_mm),
        length: Length::from_mm(wire.length_mm),
        thread: Length::from_mm(wire.thread_length_mm),
        point: notes.assume(
            "/components/screw/point_mm",
            wire.point_mm.map(Length::from_mm),
            Length::from_mm(wire.diameter_mm),
            Assumed::ScrewPoint,
        ),
        withdrawal,
        tension: Force::from_kn(wire.tension_kn),
        yield_moment: Moment::from_nmm(wire.yield_moment_nmm),
        predrilled: wire.predrilled,
        spacings: wire.spacings.as_ref().map(|given| Spacings {
            along: Length::from_mm(given.a1_mm),
            across: Length::from_mm(given.a2_mm),
            edge: Length::from_mm(given.edge_mm),
            timber: given.timber_mm.map(Length::from_mm),
            source: given.source.clone(),
        }),
    }
}

/// Area of a rail's section. It counts where the slope force goes along the rail; where nothing is said it is
/// that of its mass.
fn section(wire: &WireRail, direction: RailDirection, notes: &mut Notes) -> Area {
    const AT: &str = "/components/rail/area_mm2";
    let metal = Metal::of(Stress::from_n_per_mm2(wire.modulus_n_per_mm2));
    let by_mass = Area::from_mm2(wire.mass_kg_per_m / metal.density().kg_per_m3() * 1e6);
    match wire.area_mm2.map(Area::from_mm2) {
        Some(area) => area,
        None if direction == RailDirection::AlongEaves => by_mass,
        None if wire.mass_kg_per_m > 0.0 => {
            notes.note(AT, Assumed::AreaByMass(by_mass));
            by_mass
        }
        None => {
            let detail = "A rail up the slope takes the slope force along its axis: give the area of its section, or its mass.";
            notes.fault(AT, FaultCode::Missing, detail);
            by_mass
        }
    }
}

/// A rail on a hook whose upright is so thick. Where nothing is said of its axis it lies beside that
/// upright, down the slope: there it turns arm and foot the most.
pub fn rail(
    wire: &WireRail,
    upright_mm: Option<f64>,
    direction: RailDirection,
    notes: &mut Notes,
) -> RailProfile {
    let e = Stress::from_n_per_mm2(wire.modulus_n_per_mm2);
    let effective = notes.assume(
        "/components/rail/effective_share",
        wire.effective_share,
        1.0,
        Assumed::WholeSection,
    );
    let hinged_splices = wire.splice == Splice::Hinge;
    let splice_moment = wire
        .splice_moment
        .map(|moment| [moment.normal_knm, moment.slope_knm].map(Moment::from_knm));
    match splice_moment {
        Some(_) if hinged_splices => notes.contradiction(
            ["/components/rail/splice", "/components/rail/splice_moment"],
            "A hinge passes no moment.",
        ),
        None if !hinged_splices => {
            notes.note("/components/rail/splice_moment", Assumed::SpliceAsRail);
        }
        _ => {}
    }
    RailProfile {
        area: section(wire, direction, notes),
        modulus: e,
        splice_force: wire.splice_force_kn.map(Force::from_kn),
        groove_slip: wire.groove_slip_kn.map(Force::from_kn),
        crossing: wire
            .crossing
            .map(|crossing| [crossing.lift_kn, crossing.slide_kn].map(Force::from_kn)),
        depth: Length::from_mm(wire.depth_mm),
        normal_rigidity: e * SecondMoment::from_mm4(wire.i_normal_mm4),
        slope_rigidity: e * SecondMoment::from_mm4(wire.i_slope_mm4),
        normal_modulus: SectionModulus::from_mm3(wire.w_normal_mm3 * effective),
        slope_modulus: SectionModulus::from_mm3(wire.w_slope_mm3 * effective),
        proof_strength: Stress::from_n_per_mm2(wire.proof_strength_n_per_mm2),
        weight: LineLoad::from_kn_per_m(weight_of_kg(wire.mass_kg_per_m).kn()),
        longest_stock: Length::from_mm(wire.stock_lengths_mm.iter().copied().fold(0.0, f64::max)),
        stock_lengths: wire.stock_lengths_mm.iter().copied().map(Length::from_mm).collect(),
        kerf: Length::from_mm(wire.kerf_mm),
        load_height: wire.load_height_mm.map(Length::from_mm),
        axis_offset: notes.assume(
            "/components/rail/axis_offset_mm",
            wire.axis_offset_mm.map(Length::from_mm),
            Length::from_mm(f64::midpoint(wire.depth_mm, upright_mm.unwrap_or(0.0))),
            Assumed::RailBesideUpright,
        ),
        splice_length: notes.assume(
            "/components/rail/splice_length_mm",
            wire.splice_length_mm.map(Length::from_mm),
            Length::from_mm(200.0),
            Assumed::SpliceLength,
        ),
        max_cantilever: Length::from_mm(wire.max_cantilever_mm),
        max_continuous: Length::from_mm(wire.max_continuous_mm),
        end_projection: Length::from_mm(wire.end_projection_mm),
        deflection_ratio: wire.deflection_limit_ratio,
        hinged_splices,
        splice_moment,
    }
}

fn clamp(wire: &WireClamp) -> Clamp {
    Clamp {
        lift: Force::from_kn(wire.lift_kn),
        slope: wire.slope_kn.map(Force::from_kn),
        stop: wire.slope_stop_kn.map(Force::from_kn),
        weight: weight_of_kg(wire.mass_kg),
        mid_gap: Length::from_mm(wire.mid_gap_mm),
        end_width: Length::from_mm(wire.end_width_mm),
    }
}

fn packers(wire: &WirePackers) -> Packers {
    Packers {
        thicknesses: wire.thicknesses_mm.iter().copied().map(Length::from_mm).collect(),
        max_stack: Length::from_mm(wire.max_stack_mm),
    }
}
