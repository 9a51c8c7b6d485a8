//! Request: the parts, each given in full or by the id of an embedded illustrative part.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::evidence::Evidence;
use super::shapes::PointSchema;
use crate::wire::enumeration::enumeration;

/// The parts of the job.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Components {
    /// The roof hook.
    pub hook: HookChoice,
    /// The screw that holds its foot.
    pub screw: ScrewChoice,
    /// The rail.
    pub rail: RailChoice,
    /// The module clamp.
    pub clamp: ClampChoice,
    /// The packers for under the foot.
    pub packers: PackersChoice,
}

impl Components {
    /// Id of the hook, named or described.
    #[must_use]
    pub fn hook_id(&self) -> &str {
        match &self.hook {
            HookChoice::Id(id) => id,
            HookChoice::Inline(part) => &part.id,
        }
    }
}

macro_rules! choice {
    ($(#[$doc:meta])* $name:ident($part:ident)) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
        #[serde(untagged)]
        pub enum $name {
            /// Id of an embedded illustrative part, see `GET /v1/components`.
            Id(String),
            /// The part in full.
            Inline(Box<$part>),
        }
    };
}
choice!(
    /// A hook in full or by id.
    HookChoice(Hook)
);
choice!(
    /// A screw in full or by id.
    ScrewChoice(Screw)
);
choice!(
    /// A rail in full or by id.
    RailChoice(Rail)
);
choice!(
    /// A clamp in full or by id.
    ClampChoice(Clamp)
);
choice!(
    /// Packers in full or by id.
    PackersChoice(Packers)
);

/// A roof hook: foot on the rafter, arm under the covering tile, bolt for the rail.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Hook {
    /// Id of the caller's choice.
    #[schema(min_length = 1, max_length = 64, example = "plain-tile-side-hook-12")]
    pub id: String,
    /// Name for people.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_length = 200)]
    pub name: Option<String>,
    /// What it carries at the rail bolt. Absent: what its arm bears as a flat bar, which needs
    /// `arm.grade`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub resistance: Option<HookResistance>,
    /// How far it gives at the rail bolt. Absent: as its arm does as a flat bar, on a foot that turns on
    /// its screws, where `arm.grade` is given; else rigid in the load sharing, and the clearance under load cannot be verified.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub stiffness: Option<HookStiffness>,
    /// The arm.
    pub arm: Arm,
    /// The bolt that holds the rail to the hook. Absent: not checked, unless the declared resistance
    /// includes it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub bolt: Option<HookBolt>,
    /// Height range of the slot the rail is bolted to, mm.
    #[schema(minimum = 0, maximum = 200, example = 25.0)]
    pub slot_range_mm: f64,
    /// The foot.
    pub foot: Foot,
    /// Mass, kg.
    #[schema(minimum = 0, maximum = 20, example = 1.1)]
    pub mass_kg: f64,
    /// Metal substitute tiles needed for one hook.
    #[schema(minimum = 0, maximum = 10, example = 2)]
    pub substitute_tiles: u32,
    /// What its figures rest on, one entry a figure. What is not among them rests on nothing that is
    /// stated.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 50)]
    pub evidence: Vec<Evidence>,
}

/// Resistance of a hook at the rail bolt.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct HookResistance {
    /// Pressing on the roof, kN.
    #[schema(minimum = 0.01, maximum = 100, example = 2.6)]
    pub press_kn: f64,
    /// Lifting off the roof, kN.
    #[schema(minimum = 0.01, maximum = 100, example = 2.1)]
    pub lift_kn: f64,
    /// Down the slope, kN.
    #[schema(minimum = 0.01, maximum = 100, example = 1.6)]
    pub slope_kn: f64,
    /// Whether the values are design or characteristic ones.
    pub kind: ResistanceKind,
    /// Partial factor for characteristic values. Assumed 1.25 (tension failure of steel, EN 1993).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1, maximum = 3, example = 1.25)]
    pub partial_factor: Option<f64>,
    /// What the values rest on.
    pub basis: ResistanceBasis,
    /// Whether the values include the rail bolt and its slot, in any setting of that. Absent: they do
    /// not.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = true)]
    pub includes_bolt: Option<bool>,
    /// How far the axis of the rail may lie from the bolt, up or down the slope, for the values and the
    /// stiffness to hold as they are, mm. Absent: they are values at the bolt.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 200, example = 25.0)]
    pub includes_offset_mm: Option<f64>,
}

/// The bolt that holds a rail to a hook.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct HookBolt {
    /// Nominal diameter of a coarse thread, mm: 6, 8, 10, 12, 14 or 16.
    #[schema(minimum = 6, maximum = 16, example = 8.0)]
    pub diameter_mm: f64,
    /// Strength class.
    pub class: BoltClass,
    /// Declared design force along the slot, square to the roof, that the tightened bolt holds without
    /// slipping, kN. Absent: slip is not checked. Of no meaning without a slot.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.01, maximum = 100, example = 4.0)]
    pub slot_slip_kn: Option<f64>,
}

enumeration! {
    /// Strength class of a bolt, as its head is marked.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    pub enum BoltClass {
        /// Steel, 400 N/mm².
        #[serde(rename = "4.6")]
        Steel4Point6,
        /// Steel, 500 N/mm².
        #[serde(rename = "5.6")]
        Steel5Point6,
        /// Steel, 800 N/mm².
        #[serde(rename = "8.8")]
        Steel8Point8,
        /// Steel, 1000 N/mm².
        #[serde(rename = "10.9")]
        Steel10Point9,
        /// Stainless steel, 500 N/mm².
        #[serde(rename = "A2-50")]
        A2Class50,
        /// Stainless steel, 700 N/mm².
        #[serde(rename = "A2-70")]
        A2Class70,
        /// Stainless steel, 800 N/mm².
        #[serde(rename = "A2-80")]
        A2Class80,
        /// Stainless steel, 500 N/mm².
        #[serde(rename = "A4-50")]
        A4Class50,
        /// Stainless steel, 700 N/mm².
        #[serde(rename = "A4-70")]
        A4Class70,
        /// Stainless steel, 800 N/mm².
        #[serde(rename = "A4-80")]
        A4Class80,
    }
}

enumeration! {
    /// Whether resistances are design or characteristic values.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum ResistanceKind {
        /// Already divided by the partial factor.
        Design,
        /// To be divided by the partial factor.
        Characteristic,
    }
}

enumeration! {
    /// What declared values rest on.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum ResistanceBasis {
        /// Tests.
        Test,
        /// A technical approval or assessment.
        Approval,
        /// A calculation.
        Calculation,
        /// Nobody knows; a layout with it can never be said to hold.
        Unknown,
    }
}

/// Stiffness of a hook at the rail bolt.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct HookStiffness {
    /// Square to the roof, kN/mm. Absent: as arm and foot give, or rigid and the
    /// clearance not verified.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.001, maximum = 1000, example = 0.32)]
    pub normal_kn_per_mm: Option<f64>,
    /// Whether `normal_kn_per_mm` has in it what the foot gives on its screws and the timber: measured on
    /// a hook that is screwed to timber, not on one held in steel. Where it has not, that is added.
    /// Absent: it has where the stiffness or the resistance rests on tests or an approval.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = true)]
    pub includes_foot: Option<bool>,
    /// Along the slope, kN/mm. Absent: as the arm's bar, or rigid.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.001, maximum = 1000, example = 0.55)]
    pub slope_kn_per_mm: Option<f64>,
}

/// The arm of a hook: a flat bar that rises at the lower edge of the foot, runs down the slope and rises
/// to the bolt. Heights are measured from the underside of the foot.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Arm {
    /// Height of the arm's underside where it leaves the covering, mm.
    #[schema(minimum = 0, maximum = 500, example = 72.0)]
    pub underside_height_mm: f64,
    /// The same at the lower end of the arm, below the rail bolt, mm. The tile below rises to its tail:
    /// an arm that does not rise with it comes nearest to it there. Only of an arm whose bolt lies beyond
    /// the tail edge. Absent: the arm runs level, as high there as where it leaves the covering.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 500, example = 72.0)]
    pub underside_at_bolt_mm: Option<f64>,
    /// Thickness, mm.
    #[schema(minimum = 1, maximum = 50, example = 8.0)]
    pub thickness_mm: f64,
    /// Width, mm.
    #[schema(minimum = 5, maximum = 200, example = 30.0)]
    pub width_mm: f64,
    /// Distance along the slope from the foot's lower edge down to the rail bolt, mm.
    #[schema(minimum = 1, maximum = 1000, example = 262.0)]
    pub reach_mm: f64,
    /// Height of the rail bolt, slot in neutral position, mm.
    #[schema(minimum = 0, maximum = 500, example = 105.0)]
    pub bolt_height_mm: f64,
    /// Distance down the slope from the tail edge the arm leaves under to the rail bolt, mm.
    #[schema(minimum = -200, maximum = 500, example = 32.0)]
    pub bolt_beyond_exit_mm: f64,
    /// Steel it is made of. Absent: declared values are compared with those of a bar of S355.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub grade: Option<SteelGrade>,
    /// How far to the side of its axis the rail bears on it, mm: this twists the arm and turns the foot
    /// sideways. Absent: 0.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 200, example = 0.0)]
    pub load_aside_mm: Option<f64>,
}

enumeration! {
    /// Grade of the steel of an arm: of structural steel by EN 10025-2, of stainless steel by EN 10088.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    pub enum SteelGrade {
        /// Structural steel.
        S235,
        /// Structural steel.
        S275,
        /// Structural steel.
        S355,
        /// Stainless steel.
        #[serde(rename = "1.4301")]
        Stainless1_4301,
        /// Stainless steel.
        #[serde(rename = "1.4401")]
        Stainless1_4401,
    }
}

/// The foot plate.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Foot {
    /// Length along the slope, mm.
    #[schema(minimum = 20, maximum = 1000, example = 90.0)]
    pub length_mm: f64,
    /// Width across the slope, mm.
    #[schema(minimum = 20, maximum = 1000, example = 140.0)]
    pub width_mm: f64,
    /// Thickness, mm.
    #[schema(minimum = 1, maximum = 50, example = 6.0)]
    pub thickness_mm: f64,
    /// How far the arm can sit to either side of the rafter axis, mm.
    #[schema(minimum = 0, maximum = 500, example = 45.0)]
    pub lateral_range_mm: f64,
    /// Screws: `[x, y]` from the rafter axis and from the foot's lower edge, mm.
    #[schema(value_type = Vec<PointSchema>, min_items = 1, max_items = 16, example = json!([[-14.0, 15.0], [14.0, 75.0]]))]
    pub screws_mm: Vec<[f64; 2]>,
}

/// A wood screw.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Screw {
    /// Id of the caller's choice.
    #[schema(min_length = 1, max_length = 64, example = "wood-screw-8x140")]
    pub id: String,
    /// Outer diameter of the thread, mm.
    #[schema(minimum = 3, maximum = 20, example = 8.0)]
    pub diameter_mm: f64,
    /// Core diameter of the thread, mm.
    #[schema(minimum = 1.5, maximum = 20, example = 5.4)]
    pub core_diameter_mm: f64,
    /// Length under the head, mm.
    #[schema(minimum = 20, maximum = 1000, example = 140.0)]
    pub length_mm: f64,
    /// Length of the thread at the point, mm.
    #[schema(minimum = 10, maximum = 1000, example = 80.0)]
    pub thread_length_mm: f64,
    /// Length of the point, mm; it holds nothing where the screw comes out below the rafter. Assumed
    /// one diameter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 60, example = 8.0)]
    pub point_mm: Option<f64>,
    /// Diameter of the head, mm.
    #[schema(minimum = 5, maximum = 60, example = 20.0)]
    pub head_diameter_mm: f64,
    /// Declared characteristic withdrawal parameter, N/mm². Absent: EN 1995-1-1 Eq. (8.39).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1, maximum = 50, example = 11.0)]
    pub withdrawal_n_per_mm2: Option<f64>,
    /// Timber density the parameter was declared for, kg/m³. Assumed 350.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 250, maximum = 800, example = 350.0)]
    pub withdrawal_density_kg_per_m3: Option<f64>,
    /// Characteristic tension capacity, kN.
    #[schema(minimum = 0.1, maximum = 200, example = 20.0)]
    pub tension_kn: f64,
    /// Characteristic yield moment, N·mm.
    #[schema(minimum = 100, maximum = 1_000_000, example = 20000.0)]
    pub yield_moment_nmm: f64,
    /// Holes are drilled before driving.
    #[schema(example = true)]
    pub predrilled: bool,
    /// Least distances of the screw's own approval; they take the place of those of the rules.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub spacings: Option<ScrewSpacings>,
    /// What its figures rest on, one entry a figure. What is not among them rests on nothing that is
    /// stated.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 50)]
    pub evidence: Vec<Evidence>,
}

/// Least distances of a screw by its approval.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct ScrewSpacings {
    /// Between screws along the grain, mm.
    #[schema(minimum = 5, maximum = 500, example = 40.0)]
    pub a1_mm: f64,
    /// Between screws across the grain, mm.
    #[schema(minimum = 5, maximum = 500, example = 20.0)]
    pub a2_mm: f64,
    /// To an edge of the timber, mm.
    #[schema(minimum = 5, maximum = 500, example = 24.0)]
    pub edge_mm: f64,
    /// Least thickness of the timber along the screw, mm. Left out, that of the rules stays.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 20, maximum = 500, example = 80.0)]
    pub timber_mm: Option<f64>,
    /// Where they are stated: the approval and its page.
    #[schema(min_length = 1, max_length = 200, example = "approval of the screw, table 4")]
    pub source: String,
}

/// A rail profile. `normal` is bending under load square to the roof, `slope` along it.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Rail {
    /// Id of the caller's choice.
    #[schema(min_length = 1, max_length = 64, example = "rail-40")]
    pub id: String,
    /// Material, for the record.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_length = 64, example = "EN AW-6063 T66")]
    pub material: Option<String>,
    /// Height of the profile, mm.
    #[schema(minimum = 10, maximum = 300, example = 40.0)]
    pub depth_mm: f64,
    /// Second moment of area under normal load, mm⁴.
    #[schema(minimum = 100, maximum = 100_000_000, example = 92000.0)]
    pub i_normal_mm4: f64,
    /// Second moment of area under slope load, mm⁴.
    #[schema(minimum = 100, maximum = 100_000_000, example = 61000.0)]
    pub i_slope_mm4: f64,
    /// Elastic section modulus under normal load, mm³.
    #[schema(minimum = 10, maximum = 10_000_000, example = 4400.0)]
    pub w_normal_mm3: f64,
    /// Elastic section modulus under slope load, mm³.
    #[schema(minimum = 10, maximum = 10_000_000, example = 3300.0)]
    pub w_slope_mm3: f64,
    /// Elastic modulus, N/mm².
    #[schema(minimum = 1000, maximum = 300_000, example = 70000.0)]
    pub modulus_n_per_mm2: f64,
    /// Characteristic 0.2 % proof strength, N/mm².
    #[schema(minimum = 10, maximum = 1000, example = 200.0)]
    pub proof_strength_n_per_mm2: f64,
    /// Mass, kg/m.
    #[schema(minimum = 0, maximum = 50, example = 0.95)]
    pub mass_kg_per_m: f64,
    /// Lengths the rail is delivered in, mm.
    #[schema(min_items = 1, max_items = 20, minimum = 100, maximum = 20_000, example = json!([3300.0, 4400.0, 5500.0]))]
    pub stock_lengths_mm: Vec<f64>,
    /// Width of a saw cut, mm.
    #[schema(minimum = 0, maximum = 20, example = 3.0)]
    pub kerf_mm: f64,
    /// Longest allowed free end beyond the outermost hook, mm.
    #[schema(minimum = 0, maximum = 3000, example = 400.0)]
    pub max_cantilever_mm: f64,
    /// Longest rail without an expansion gap, mm.
    #[schema(minimum = 1000, maximum = 100_000, example = 13000.0)]
    pub max_continuous_mm: f64,
    /// How far the rail runs beyond the outer edge of the outermost module, mm.
    #[schema(minimum = 0, maximum = 1000, example = 40.0)]
    pub end_projection_mm: f64,
    /// Deflection limit: span divided by this number.
    #[schema(minimum = 50, maximum = 1000, example = 200.0)]
    pub deflection_limit_ratio: f64,
    /// What a splice passes on.
    pub splice: Splice,
    /// Design moments that a stiff splice bears. Assumed: those of the uncut rail.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub splice_moment: Option<SpliceMoment>,
    /// Design force along its axis that a splice passes on, kN. It counts where rails run up the slope.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 1000, example = 8.0)]
    pub splice_force_kn: Option<f64>,
    /// What the connector bears that holds an upper rail on a lower one where rails cross. Without it that is not
    /// checked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub crossing: Option<RailCrossing>,
    /// Design force along the rail that the bolt at a hook, tightened in the groove of the rail, holds without
    /// slipping, kN. It counts where rails run up the slope. Absent: slip is not checked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.01, maximum = 100, example = 3.0)]
    pub groove_slip_kn: Option<f64>,
    /// Area of the section, mm². It counts where rails run up the slope and take the slope force along their
    /// axis. Assumed there: what its mass makes of it, at 2700 kg/m³, or 7850 kg/m³ where its modulus is that
    /// of steel.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 10, maximum = 100_000, example = 352.0)]
    pub area_mm2: Option<f64>,
    /// Share of the section moduli that counts where the walls of the rail are so thin that they buckle
    /// before they yield, as its maker declares. Assumed 1: they yield first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.01, maximum = 1, example = 1.0)]
    pub effective_share: Option<f64>,
    /// Length of rail a splice takes, half to either side of the joint, mm. Assumed 200 (common
    /// practice, no source).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 1000, example = 200.0)]
    pub splice_length_mm: Option<f64>,
    /// Height above the rail bolts at which snow and weight push the modules down the slope, mm.
    /// Assumed: half the depth of the rail and the thickness of the module, where snow lies.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 500, example = 50.0)]
    pub load_height_mm: Option<f64>,
    /// Axis of the rail from the axis of the hook's upright that it is bolted to, mm: down the slope, negative
    /// up it; of a rail up the slope to the right of the upright, seen from the eaves, negative to its left. The
    /// hook holds the rail against the turning this brings; to its side it bears as much less as its arm would as
    /// a flat bar. Assumed: half the depth of the rail and half the thickness of the arm, a rail at the side of
    /// its hook.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -200, maximum = 200, example = 20.0)]
    pub axis_offset_mm: Option<f64>,
    /// What its figures rest on, one entry a figure. What is not among them rests on nothing that is
    /// stated.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 50)]
    pub evidence: Vec<Evidence>,
}

/// Design forces of the connector of two rails that cross.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct RailCrossing {
    /// Lifting the upper rail off the lower one, kN.
    #[schema(minimum = 0.01, maximum = 100, example = 2.5)]
    pub lift_kn: f64,
    /// Along the lower rail, kN.
    #[schema(minimum = 0.01, maximum = 100, example = 1.2)]
    pub slide_kn: f64,
}

/// Design moments of a splice.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct SpliceMoment {
    /// Under load square to the roof, kN·m.
    #[schema(minimum = 0.001, maximum = 100, example = 0.6)]
    pub normal_knm: f64,
    /// Under load along the slope, kN·m.
    #[schema(minimum = 0.001, maximum = 100, example = 0.4)]
    pub slope_knm: f64,
}

enumeration! {
    /// What a splice passes on.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum Splice {
        /// Shear and bending, as the uncut rail.
        Stiff,
        /// Shear only.
        Hinge,
    }
}

/// A module clamp.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Clamp {
    /// Id of the caller's choice.
    #[schema(min_length = 1, max_length = 64, example = "clamp-30")]
    pub id: String,
    /// Gap between modules that a mid clamp makes, mm.
    #[schema(minimum = 0, maximum = 200, example = 20.0)]
    pub mid_gap_mm: f64,
    /// Design lifting force one clamp holds, kN.
    #[schema(minimum = 0.01, maximum = 100, example = 1.9)]
    pub lift_kn: f64,
    /// Design resistance of one clamp against its modules slipping down the slope, kN: across rails along the
    /// eaves, along rails up the slope, where the clamp itself must not slip either. Absent: slip is
    /// not checked, except in the lowest row where that stands on stops.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.01, maximum = 100, example = 1.6)]
    pub slope_kn: Option<f64>,
    /// Design resistance down the slope of one stop below the modules of the lowest row of a field,
    /// kN. With it, a stop stands at every clamp of the lower rail, or at the lowest clamp of every rail up
    /// the slope, and takes the place of friction.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.01, maximum = 100, example = 2.5)]
    pub slope_stop_kn: Option<f64>,
    /// Mass, kg.
    #[schema(minimum = 0, maximum = 5, example = 0.06)]
    pub mass_kg: f64,
    /// Length of rail an end clamp needs beyond the module, mm.
    #[schema(minimum = 0, maximum = 200, example = 30.0)]
    pub end_width_mm: f64,
    /// What its figures rest on, one entry a figure. What is not among them rests on nothing that is
    /// stated.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 50)]
    pub evidence: Vec<Evidence>,
}

/// The packers for under the foot.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Packers {
    /// Id of the caller's choice.
    #[schema(min_length = 1, max_length = 64, example = "packer-set")]
    pub id: String,
    /// Thicknesses on the lorry, mm.
    #[schema(min_items = 0, max_items = 20, minimum = 0.1, maximum = 100, example = json!([1.0, 2.0, 3.0, 5.0, 10.0]))]
    pub thicknesses_mm: Vec<f64>,
    /// Highest stack allowed, mm.
    #[schema(minimum = 0, maximum = 100, example = 20.0)]
    pub max_stack_mm: f64,
}
