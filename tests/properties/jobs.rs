//! Random jobs: the two example roofs with everything varied that a layout depends on.

use hookspan::placement::Job;
use hookspan::service::intake;
use hookspan::wire::array::{ArmPosition, Objective, Orientation, Wishes};
use hookspan::wire::components::{
    Clamp, ClampChoice, Hook, HookChoice, HookStiffness, Rail, RailChoice, ResistanceBasis, Splice,
};
use hookspan::wire::layout::LayoutRequest;
use hookspan::wire::roof::{Abutment, EdgeKind};
use hookspan::wire::site::{SnowSite, WindSite};
use hookspan::wire::watertight::StatedPitch;
use proptest::prelude::*;

const BARN: &str = include_str!("../data/layout-barn.json");
const COTTAGE: &str = include_str!("../data/layout-cottage.json");

/// Space between the outermost modules and the edges of the slope, mm.
const MARGIN: f64 = 1000.0;

/// What is drawn for one job. Everything else stays as in the example.
#[derive(Debug, Clone)]
pub struct Draft {
    /// Interlocking tiles with troughs instead of flat tiles without.
    interlocking: bool,
    site: SiteDraft,
    timber: TimberDraft,
    array: ArrayDraft,
    pub parts: PartsDraft,
    /// Aim of the layout.
    pub objective: Objective,
    /// Where arms stand.
    pub arms: ArmPosition,
    /// A taller building beside the slope.
    pub wall: Option<Abutment>,
}

#[derive(Debug, Clone)]
struct SiteDraft {
    pitch_deg: f64,
    ground_load_kn_per_m2: f64,
    peak_pressure_kn_per_m2: f64,
    altitude_m: f64,
    exceptional: bool,
}

#[derive(Debug, Clone)]
struct TimberDraft {
    first_mm: f64,
    spacing_mm: f64,
    /// Shift of each rafter as a share of the spacing; empty = regular.
    shifts: Vec<f64>,
}

#[derive(Debug, Clone)]
struct ArrayDraft {
    landscape: bool,
    rows: u32,
    columns: u32,
    length_mm: f64,
    width_mm: f64,
    column_gap_mm: f64,
    /// A module of the first row that is left out, if the row is that long.
    omitted: Option<u32>,
}

#[derive(Debug, Clone)]
pub struct PartsDraft {
    strength: f64,
    stiffness: [Option<f64>; 2],
    rail_factor: f64,
    hinged: bool,
    stock_mm: f64,
    pub max_continuous_mm: f64,
    max_cantilever_mm: f64,
    end_projection_mm: f64,
    /// Narrow enough that some rafters have no trough in reach.
    lateral_range_mm: f64,
    /// How much of the rise of the tile below the arm follows; level where it is not said.
    arm_follows: Option<f64>,
}

/// Jobs of every kind.
pub fn any_job() -> impl Strategy<Value = Draft> {
    let arms = prop_oneof![Just(ArmPosition::TowardsSideJoint), Just(ArmPosition::RafterAxis)];
    (any::<bool>(), sites(), timbers(), arrays(), parts(), objectives(), arms).prop_map(
        |(interlocking, site, timber, array, parts, objective, arms)| Draft {
            interlocking,
            site,
            timber,
            array,
            parts,
            objective,
            arms,
            wall: None,
        },
    )
}

/// A taller building at the upper edge or at one of the verges of a slope with four sides.
pub fn walls() -> impl Strategy<Value = Abutment> {
    let heights = (0.0..12.0, prop::option::of(0.0..1.0));
    (1..4_u32, heights, 1.0..20.0, 0.0..60.0, prop::option::of(0.5..10.0)).prop_map(
        |(side, (height_m, least), upper_width_m, upper_pitch_deg, upper_run_m)| Abutment {
            side,
            height_m,
            least_height_m: least.map(|share| share * height_m),
            upper_width_m,
            upper_pitch_deg,
            upper_run_m,
        },
    )
}

/// The same jobs beside a taller building.
pub fn beside_walls(jobs: impl Strategy<Value = Draft>) -> impl Strategy<Value = Draft> {
    (jobs, walls()).prop_map(|(draft, wall)| Draft { wall: Some(wall), ..draft })
}

/// Jobs that aim for the fewest hooks on rails without expansion gaps or hinges, where nothing but
/// the loads decides.
pub fn plain_job() -> impl Strategy<Value = Draft> {
    any_job().prop_map(|mut draft| {
        draft.objective = Objective::FewestHooks;
        draft.arms = ArmPosition::RafterAxis;
        draft.parts.hinged = false;
        draft.parts.max_continuous_mm = 50_000.0;
        draft
    })
}

/// Jobs with a short array, so that every choice of hooks can be tried.
pub fn short_job() -> impl Strategy<Value = Draft> {
    any_job().prop_map(|mut draft| {
        draft.objective = Objective::FewestHooks;
        draft.arms = ArmPosition::RafterAxis;
        draft.array.rows = 1;
        let places = if draft.array.landscape { 3 } else { 5 };
        draft.array.columns = draft.array.columns.min(places);
        draft.timber.spacing_mm = draft.timber.spacing_mm.max(600.0);
        draft
    })
}

/// Rafters under a long row.
pub const RAFTERS_OF_LONG_ROW: u32 = 70;

/// One row of modules over 70 rafters at irregular centres, its rails cut into several segments,
/// with loads that differ by zone of the roof and parts that hold most such rows.
pub fn long_row() -> impl Strategy<Value = Draft> {
    let rafters = RAFTERS_OF_LONG_ROW;
    let shifts = prop::collection::vec(-0.2..0.2, rafters as usize);
    let loads = (20.0..50.0, 0.4..1.6, 0.3..0.8);
    let rail = (1.0..2.5, 1.0..3.0, 8000.0..16_000.0, 450.0..700.0);
    (any_job(), shifts, 450.0..650.0, loads, rail).prop_map(
        move |(mut draft, shifts, spacing_mm, loads, rail)| {
            (draft.objective, draft.arms) = (Objective::FewestHooks, ArmPosition::RafterAxis);
            let site = &mut draft.site;
            (site.pitch_deg, site.ground_load_kn_per_m2, site.peak_pressure_kn_per_m2) = loads;
            (site.altitude_m, site.exceptional) = (400.0, false);
            let parts = &mut draft.parts;
            (parts.strength, parts.rail_factor, parts.max_continuous_mm, parts.max_cantilever_mm) =
                rail;
            parts.stiffness = parts.stiffness.map(|spring| Some(spring.unwrap_or(0.5)));
            parts.lateral_range_mm = 80.0;
            parts.arm_follows = Some(1.0);
            let array = &mut draft.array;
            (array.rows, array.omitted) = (1, None);
            let room = spacing_mm * f64::from(rafters) - 2.0 * MARGIN;
            let along = if array.landscape { array.length_mm } else { array.width_mm };
            let columns = (1_u32..).take_while(|n| f64::from(*n) * (along + 40.0) <= room);
            array.columns = columns.last().unwrap_or(1);
            draft.timber = TimberDraft { first_mm: 60.0, spacing_mm, shifts };
            // Just as many rafters as were asked for, the last one half a bay inside the verge.
            let [length, _] = draft.slope_mm();
            draft.timber.spacing_mm = (length - 60.0) / (f64::from(rafters) - 0.5);
            draft
        },
    )
}

fn sites() -> impl Strategy<Value = SiteDraft> {
    (15.0..65.0, 0.0..3.0, 0.1..1.2, 0.0..1500.0, any::<bool>()).prop_map(
        |(pitch_deg, ground_load_kn_per_m2, peak_pressure_kn_per_m2, altitude_m, exceptional)| {
            SiteDraft {
                pitch_deg,
                ground_load_kn_per_m2,
                peak_pressure_kn_per_m2,
                altitude_m,
                exceptional,
            }
        },
    )
}

fn timbers() -> impl Strategy<Value = TimberDraft> {
    let shifts = prop_oneof![Just(Vec::new()), prop::collection::vec(-0.2..0.2, 40)];
    (20.0..500.0, 450.0..950.0, shifts).prop_map(|(first_mm, spacing_mm, shifts)| TimberDraft {
        first_mm,
        spacing_mm,
        shifts,
    })
}

fn arrays() -> impl Strategy<Value = ArrayDraft> {
    let omitted = prop::option::weighted(0.3, 1..4_u32);
    (any::<bool>(), 1..3_u32, 1..8_u32, 1500.0..2100.0, 900.0..1200.0, 0.0..40.0, omitted).prop_map(
        |(landscape, rows, columns, length_mm, width_mm, column_gap_mm, omitted)| ArrayDraft {
            landscape,
            rows,
            columns,
            length_mm,
            width_mm,
            column_gap_mm,
            omitted,
        },
    )
}

fn parts() -> impl Strategy<Value = PartsDraft> {
    let spring = || prop::option::weighted(0.8, 0.1..3.0);
    (
        0.5..3.0,
        [spring(), spring()],
        0.5..3.0,
        any::<bool>(),
        2500.0..6500.0,
        4000.0..14_000.0,
        300.0..800.0,
        0.0..150.0,
        30.0..80.0,
        prop::option::weighted(0.7, 0.0..1.5),
    )
        .prop_map(
            |(
                strength,
                stiffness,
                rail_factor,
                hinged,
                stock_mm,
                max_continuous_mm,
                max_cantilever_mm,
                end_projection_mm,
                lateral_range_mm,
                arm_follows,
            )| PartsDraft {
                strength,
                stiffness,
                rail_factor,
                hinged,
                stock_mm,
                max_continuous_mm,
                max_cantilever_mm,
                end_projection_mm,
                lateral_range_mm,
                arm_follows,
            },
        )
}

fn objectives() -> impl Strategy<Value = Objective> {
    prop_oneof![
        2 => Just(Objective::FewestHooks),
        1 => Just(Objective::EvenSpacing),
        1 => Just(Objective::Staggered),
    ]
}

impl Draft {
    /// The request that says all this.
    pub fn request(&self) -> LayoutRequest {
        let example = if self.interlocking { COTTAGE } else { BARN };
        let mut request: LayoutRequest = serde_json::from_str(example).expect("an example");
        self.put_site(&mut request);
        self.put_array(&mut request);
        self.put_roof(&mut request);
        self.put_parts(&mut request);
        request.wishes = Some(Wishes {
            objective: Some(self.objective),
            arm_position: Some(self.arms),
            search_limit: Some(20_000),
            ..Wishes::default()
        });
        request
    }

    fn put_site(&self, request: &mut LayoutRequest) {
        let site = &mut request.site;
        site.altitude_m = self.site.altitude_m;
        site.snow = SnowSite {
            zone: None,
            region: None,
            ground_load_kn_per_m2: Some(self.site.ground_load_kn_per_m2),
            exceptional: Some(self.site.exceptional),
            exceptional_load_kn_per_m2: None,
        };
        site.wind = WindSite {
            zone: None,
            setting: None,
            basic_velocity_m_per_s: None,
            terrain_category: None,
            shore_distance_km: None,
            orography_factor: None,
            peak_pressure_kn_per_m2: Some(self.site.peak_pressure_kn_per_m2),
            model: None,
            net_coefficients: None,
            equalisation: None,
            loaded_area: None,
        };
    }

    fn put_array(&self, request: &mut LayoutRequest) {
        let draft = &self.array;
        let module = &mut request.array.module;
        module.length_mm = draft.length_mm;
        module.width_mm = draft.width_mm;
        module.short_side_clamp_zone_mm = Some([80.0, 420.0]);
        let field = &mut request.array.fields[0];
        field.origin_mm = [MARGIN, 700.0];
        field.rows = draft.rows;
        field.columns = draft.columns;
        field.column_gap_mm = draft.column_gap_mm;
        field.orientation =
            if draft.landscape { Orientation::Landscape } else { Orientation::Portrait };
        let omitted = draft.omitted.filter(|column| *column < draft.columns);
        field.omitted = omitted.map(|column| [0, column]).into_iter().collect();
    }

    /// A slope just large enough for the array, with rafters all along it.
    fn put_roof(&self, request: &mut LayoutRequest) {
        let [length, height] = self.slope_mm();
        let roof = &mut request.roof;
        roof.pitch_deg = self.site.pitch_deg;
        // What is drawn here is what loads and statics depend on: a covering for any of these pitches.
        roof.covering.guild_pitch = Some(StatedPitch {
            rule_pitch_deg: 10.0,
            least_pitch_deg: None,
            source: "any covering".to_owned(),
        });
        roof.obstacles.clear();
        roof.outline_mm = vec![[0.0, 0.0], [length, 0.0], [length, height], [0.0, height]];
        roof.length_m = length / 1000.0;
        roof.width_m = 2.0 * height / 1000.0 * self.site.pitch_deg.to_radians().cos();
        if let Some(wall) = &self.wall {
            roof.edges[wall.side as usize] = EdgeKind::Abutment;
            roof.abutments = vec![wall.clone()];
        }
        let draft = &self.timber;
        let shift = |i: usize| draft.shifts.get(i).copied().unwrap_or(0.0);
        let places = (0_u32..).map(|i| draft.first_mm + draft.spacing_mm * f64::from(i));
        let rafters = &mut roof.rafters;
        (rafters.first_mm, rafters.spacing_mm, rafters.count) = (None, None, None);
        rafters.positions_mm = Some(
            places
                .take_while(|x| *x < length)
                .enumerate()
                .map(|(i, x)| x + draft.spacing_mm * shift(i))
                .collect(),
        );
    }

    fn slope_mm(&self) -> [f64; 2] {
        let draft = &self.array;
        let [along, up] = if draft.landscape {
            [draft.length_mm, draft.width_mm]
        } else {
            [draft.width_mm, draft.length_mm]
        };
        let columns = f64::from(draft.columns);
        let row = columns * along + (columns - 1.0) * draft.column_gap_mm;
        [row + 2.0 * MARGIN, f64::from(draft.rows) * (up + 20.0) + 2.0 * MARGIN]
    }

    fn put_parts(&self, request: &mut LayoutRequest) {
        let draft = &self.parts;
        let covering = &request.roof.covering;
        let slope = covering.tile.thickness_mm / covering.gauge_mm;
        let hook = hook(request);
        let arm = &mut hook.arm;
        arm.underside_at_bolt_mm = draft
            .arm_follows
            .map(|share| arm.underside_height_mm + share * slope * arm.bolt_beyond_exit_mm);
        let resistance = hook.resistance.as_mut().expect("declared");
        // As tested: half of the jobs have hooks far stronger than the bars they are drawn with.
        resistance.basis = ResistanceBasis::Test;
        resistance.press_kn *= draft.strength;
        resistance.lift_kn *= draft.strength;
        resistance.slope_kn *= draft.strength;
        let [normal_kn_per_mm, slope_kn_per_mm] = draft.stiffness;
        hook.foot.lateral_range_mm = draft.lateral_range_mm;
        hook.stiffness =
            Some(HookStiffness { normal_kn_per_mm, includes_foot: None, slope_kn_per_mm });
        let rail = rail(request);
        rail.i_normal_mm4 *= draft.rail_factor;
        rail.i_slope_mm4 *= draft.rail_factor;
        rail.w_normal_mm3 *= draft.rail_factor;
        rail.w_slope_mm3 *= draft.rail_factor;
        rail.splice = if draft.hinged { Splice::Hinge } else { Splice::Stiff };
        rail.stock_lengths_mm = vec![draft.stock_mm];
        rail.max_continuous_mm = draft.max_continuous_mm;
        rail.max_cantilever_mm = draft.max_cantilever_mm;
        rail.end_projection_mm = draft.end_projection_mm;
        clamp(request).slope_kn = Some(4.0);
    }
}

/// The clamp of a request that gives it in full.
pub fn clamp(request: &mut LayoutRequest) -> &mut Clamp {
    match &mut request.components.clamp {
        ClampChoice::Inline(clamp) => clamp,
        ClampChoice::Id(id) => panic!("the examples give their parts in full, not as {id}"),
    }
}

/// The hook of a request that gives it in full.
pub fn hook(request: &mut LayoutRequest) -> &mut Hook {
    match &mut request.components.hook {
        HookChoice::Inline(hook) => hook,
        HookChoice::Id(id) => panic!("the examples give their parts in full, not as {id}"),
    }
}

/// The rail of a request that gives it in full.
pub fn rail(request: &mut LayoutRequest) -> &mut Rail {
    match &mut request.components.rail {
        RailChoice::Inline(rail) => rail,
        RailChoice::Id(id) => panic!("the examples give their parts in full, not as {id}"),
    }
}

/// The job of a request without faults.
pub fn job(request: &LayoutRequest) -> Job {
    match intake::take(request) {
        Ok(taken) => taken.job,
        Err(faults) => panic!("a random job is a valid one: {faults:?}"),
    }
}
