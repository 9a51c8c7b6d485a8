//! Every figure of a part that evidence can be stated for: where it stands, what kind of value it is,
//! and how to read it.

use crate::wire::array::Module;
use crate::wire::components::{Clamp, Hook, HookResistance, Rail, Screw, ScrewSpacings};
use crate::wire::evidence::PartKind;

/// What kind of value a figure is: what tests can say of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FigureKind {
    /// A measure, a mass or a limit of use: stated, not tested.
    Measure,
    /// A characteristic value.
    Characteristic,
    /// A design value.
    Design,
    /// A resistance of the hook, characteristic or design as the part says.
    OfHook,
    /// A stiffness, which is a mean.
    Mean,
}

/// A figure of a part.
#[derive(Debug)]
pub struct Figure<P> {
    /// JSON pointer inside the part.
    pub pointer: &'static str,
    /// What kind of value it is.
    pub kind: FigureKind,
    /// Its value, where the part states it.
    pub of: fn(&P) -> Option<f64>,
}

/// What kind of value a member of a part is; nothing where it is no figure.
#[must_use]
pub fn kind_of(part: PartKind, pointer: &str) -> Option<FigureKind> {
    fn among<P>(known: &[Figure<P>], pointer: &str) -> Option<FigureKind> {
        known.iter().find(|figure| figure.pointer == pointer).map(|figure| figure.kind)
    }
    match part {
        PartKind::Hook => among(HOOK, pointer),
        PartKind::Screw => among(SCREW, pointer),
        PartKind::Rail => among(RAIL, pointer),
        PartKind::Clamp => among(CLAMP, pointer),
        PartKind::Module => among(MODULE, pointer),
    }
}

macro_rules! figures {
    ($($(#[$doc:meta])* $list:ident: $part:ident { $($pointer:literal $kind:ident = $of:expr;)+ })+) => {
        $($(#[$doc])*
        pub const $list: &[Figure<$part>] = &[$(
            Figure { pointer: $pointer, kind: FigureKind::$kind, of: $of },
        )+];)+
    };
}

fn resistance(hook: &Hook, of: fn(&HookResistance) -> f64) -> Option<f64> {
    hook.resistance.as_ref().map(of)
}

fn spacings(screw: &Screw, of: fn(&ScrewSpacings) -> f64) -> Option<f64> {
    screw.spacings.as_ref().map(of)
}

figures! {
    /// Figures of a hook.
    HOOK: Hook {
        "/resistance/press_kn" OfHook = |hook| resistance(hook, |r| r.press_kn);
        "/resistance/lift_kn" OfHook = |hook| resistance(hook, |r| r.lift_kn);
        "/resistance/slope_kn" OfHook = |hook| resistance(hook, |r| r.slope_kn);
        "/resistance/partial_factor" Measure = |hook| hook.resistance.as_ref()?.partial_factor;
        "/resistance/includes_offset_mm" Measure = |hook| hook.resistance.as_ref()?.includes_offset_mm;
        "/stiffness/normal_kn_per_mm" Mean = |hook| hook.stiffness.as_ref()?.normal_kn_per_mm;
        "/stiffness/slope_kn_per_mm" Mean = |hook| hook.stiffness.as_ref()?.slope_kn_per_mm;
        "/arm/underside_height_mm" Measure = |hook| Some(hook.arm.underside_height_mm);
        "/arm/underside_at_bolt_mm" Measure = |hook| hook.arm.underside_at_bolt_mm;
        "/arm/thickness_mm" Measure = |hook| Some(hook.arm.thickness_mm);
        "/arm/width_mm" Measure = |hook| Some(hook.arm.width_mm);
        "/arm/reach_mm" Measure = |hook| Some(hook.arm.reach_mm);
        "/arm/bolt_height_mm" Measure = |hook| Some(hook.arm.bolt_height_mm);
        "/arm/bolt_beyond_exit_mm" Measure = |hook| Some(hook.arm.bolt_beyond_exit_mm);
        "/arm/load_aside_mm" Measure = |hook| hook.arm.load_aside_mm;
        "/bolt/diameter_mm" Measure = |hook| hook.bolt.map(|bolt| bolt.diameter_mm);
        "/bolt/slot_slip_kn" Design = |hook| hook.bolt?.slot_slip_kn;
        "/slot_range_mm" Measure = |hook| Some(hook.slot_range_mm);
        "/foot/length_mm" Measure = |hook| Some(hook.foot.length_mm);
        "/foot/width_mm" Measure = |hook| Some(hook.foot.width_mm);
        "/foot/thickness_mm" Measure = |hook| Some(hook.foot.thickness_mm);
        "/foot/lateral_range_mm" Measure = |hook| Some(hook.foot.lateral_range_mm);
        "/mass_kg" Measure = |hook| Some(hook.mass_kg);
        "/substitute_tiles" Measure = |hook| Some(f64::from(hook.substitute_tiles));
    }
    /// Figures of a screw.
    SCREW: Screw {
        "/diameter_mm" Measure = |screw| Some(screw.diameter_mm);
        "/core_diameter_mm" Measure = |screw| Some(screw.core_diameter_mm);
        "/length_mm" Measure = |screw| Some(screw.length_mm);
        "/thread_length_mm" Measure = |screw| Some(screw.thread_length_mm);
        "/point_mm" Measure = |screw| screw.point_mm;
        "/head_diameter_mm" Measure = |screw| Some(screw.head_diameter_mm);
        "/withdrawal_n_per_mm2" Characteristic = |screw| screw.withdrawal_n_per_mm2;
        "/withdrawal_density_kg_per_m3" Measure = |screw| screw.withdrawal_density_kg_per_m3;
        "/tension_kn" Characteristic = |screw| Some(screw.tension_kn);
        "/yield_moment_nmm" Characteristic = |screw| Some(screw.yield_moment_nmm);
        "/spacings/a1_mm" Measure = |screw| spacings(screw, |s| s.a1_mm);
        "/spacings/a2_mm" Measure = |screw| spacings(screw, |s| s.a2_mm);
        "/spacings/edge_mm" Measure = |screw| spacings(screw, |s| s.edge_mm);
        "/spacings/timber_mm" Measure = |screw| screw.spacings.as_ref()?.timber_mm;
    }
    /// Figures of a rail.
    RAIL: Rail {
        "/depth_mm" Measure = |rail| Some(rail.depth_mm);
        "/i_normal_mm4" Measure = |rail| Some(rail.i_normal_mm4);
        "/i_slope_mm4" Measure = |rail| Some(rail.i_slope_mm4);
        "/w_normal_mm3" Measure = |rail| Some(rail.w_normal_mm3);
        "/w_slope_mm3" Measure = |rail| Some(rail.w_slope_mm3);
        "/modulus_n_per_mm2" Mean = |rail| Some(rail.modulus_n_per_mm2);
        "/proof_strength_n_per_mm2" Characteristic = |rail| Some(rail.proof_strength_n_per_mm2);
        "/mass_kg_per_m" Measure = |rail| Some(rail.mass_kg_per_m);
        "/kerf_mm" Measure = |rail| Some(rail.kerf_mm);
        "/max_cantilever_mm" Measure = |rail| Some(rail.max_cantilever_mm);
        "/max_continuous_mm" Measure = |rail| Some(rail.max_continuous_mm);
        "/end_projection_mm" Measure = |rail| Some(rail.end_projection_mm);
        "/deflection_limit_ratio" Measure = |rail| Some(rail.deflection_limit_ratio);
        "/splice_moment/normal_knm" Design = |rail| rail.splice_moment.map(|m| m.normal_knm);
        "/splice_moment/slope_knm" Design = |rail| rail.splice_moment.map(|m| m.slope_knm);
        "/splice_force_kn" Design = |rail| rail.splice_force_kn;
        "/crossing/lift_kn" Design = |rail| rail.crossing.map(|crossing| crossing.lift_kn);
        "/crossing/slide_kn" Design = |rail| rail.crossing.map(|crossing| crossing.slide_kn);
        "/groove_slip_kn" Design = |rail| rail.groove_slip_kn;
        "/area_mm2" Measure = |rail| rail.area_mm2;
        "/effective_share" Measure = |rail| rail.effective_share;
        "/splice_length_mm" Measure = |rail| rail.splice_length_mm;
        "/load_height_mm" Measure = |rail| rail.load_height_mm;
        "/axis_offset_mm" Measure = |rail| rail.axis_offset_mm;
    }
    /// Figures of a clamp.
    CLAMP: Clamp {
        "/mid_gap_mm" Measure = |clamp| Some(clamp.mid_gap_mm);
        "/lift_kn" Design = |clamp| Some(clamp.lift_kn);
        "/slope_kn" Design = |clamp| clamp.slope_kn;
        "/slope_stop_kn" Design = |clamp| clamp.slope_stop_kn;
        "/mass_kg" Measure = |clamp| Some(clamp.mass_kg);
        "/end_width_mm" Measure = |clamp| Some(clamp.end_width_mm);
    }
    /// Figures of a module.
    MODULE: Module {
        "/length_mm" Measure = |module| Some(module.length_mm);
        "/width_mm" Measure = |module| Some(module.width_mm);
        "/thickness_mm" Measure = |module| Some(module.thickness_mm);
        "/mass_kg" Measure = |module| Some(module.mass_kg);
        "/press_capacity_kn_per_m2" Design = |module| Some(module.press_capacity_kn_per_m2);
        "/lift_capacity_kn_per_m2" Design = |module| Some(module.lift_capacity_kn_per_m2);
    }
}
