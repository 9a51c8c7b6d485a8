//! Random jobs whose rails run up the slope: rafters at any usual centres, modules that mostly lie across,
//! coverings that let arms out anywhere or in troughs, and fields that lie above each other.

use hookspan::wire::array::{ModuleField, Orientation, RailDirection, RailsHeldBy};
use hookspan::wire::layout::LayoutRequest;
use hookspan::wire::roof::Bond;
use hookspan::wire::watertight::StatedPitch;
use proptest::prelude::*;

use crate::jobs::{Draft, any_job, hook, rail};

const TERRACE: &str = include_str!("../data/layout-terrace.json");

/// Space between the outermost modules and the edges of the slope, mm.
const MARGIN: f64 = 1000.0;

/// What is drawn beside a job with rails along the eaves.
#[derive(Debug, Clone)]
pub struct UpSlope {
    /// The job it is made from, with its loads and its parts.
    pub draft: Draft,
    covering: CoveringDraft,
    timber: TimberDraft,
    pub fields: FieldsDraft,
    area_mm2: Option<f64>,
    splice_force_kn: Option<f64>,
    axis_offset_mm: Option<f64>,
    load_aside_mm: f64,
    held_by: Option<RailsHeldBy>,
    groove_slip_kn: Option<f64>,
}

#[derive(Debug, Clone)]
struct CoveringDraft {
    /// Slates instead of flat tiles.
    slates: bool,
    half_bond: bool,
    /// One trough in a tile instead of two: in half bond every other course then lets arms out.
    one_trough: bool,
    /// How much longer the foot is: some do not fit between two battens.
    longer_foot_mm: f64,
}

#[derive(Debug, Clone)]
struct TimberDraft {
    first_mm: f64,
    spacing_mm: f64,
    /// Shift of each rafter as a share of the spacing; empty where they are regular.
    shifts: Vec<f64>,
}

#[derive(Debug, Clone)]
pub struct FieldsDraft {
    pub rows: u32,
    pub columns: u32,
    portrait: bool,
    /// Clamps allowed so near to the corners that rails of neighbours may lie over one rafter.
    clamps_at_corners: bool,
    /// Distance of a second field above the first, mm.
    pub second_above_mm: Option<f64>,
    /// A module left out, row and column, where the field has it.
    omitted: Option<[u32; 2]>,
}

/// Jobs of every kind.
pub fn up_slope_job() -> impl Strategy<Value = UpSlope> {
    let coverings =
        (any::<bool>(), any::<bool>(), any::<bool>(), prop_oneof![1 => Just(0.0), 2 => 0.0..180.0]);
    let shifts = prop_oneof![Just(Vec::new()), prop::collection::vec(-0.15..0.15, 40)];
    let spacings = prop_oneof![2 => 400.0..600.0, 1 => 600.0..900.0];
    let timbers = (20.0..400.0, spacings, shifts);
    let fields = (
        (1..5_u32, 1..4_u32),
        prop::bool::weighted(0.2),
        prop::bool::weighted(0.2),
        prop::option::weighted(0.35, 0.0..500.0),
        prop::option::weighted(0.25, [0..4_u32, 0..3_u32]),
    );
    let aside = (prop::option::of(-40.0..40.0), prop_oneof![Just(0.0), 0.0..15.0]);
    let held_by = prop_oneof![
        2 => Just(None),
        1 => Just(Some(RailsHeldBy::AllHooks)),
        1 => Just(Some(RailsHeldBy::LowestHook)),
        1 => Just(Some(RailsHeldBy::HighestHook)),
    ];
    let held = (held_by, prop::option::weighted(0.3, 1.0..12.0));
    let rails = (prop::option::of(250.0..900.0), prop::option::of(2.0..20.0), aside, held);
    (any_job(), coverings, timbers, fields, rails).prop_map(
        |(draft, covering, timber, fields, (area_mm2, splice_force_kn, aside, held))| {
            let (slates, half_bond, one_trough, longer_foot_mm) = covering;
            let (first_mm, spacing_mm, shifts) = timber;
            let ((rows, columns), portrait, clamps_at_corners, second_above_mm, omitted) = fields;
            UpSlope {
                draft,
                covering: CoveringDraft { slates, half_bond, one_trough, longer_foot_mm },
                timber: TimberDraft { first_mm, spacing_mm, shifts },
                fields: FieldsDraft {
                    rows,
                    columns,
                    portrait,
                    clamps_at_corners,
                    second_above_mm,
                    omitted,
                },
                area_mm2,
                splice_force_kn,
                axis_offset_mm: aside.0,
                load_aside_mm: aside.1,
                held_by: held.0,
                groove_slip_kn: held.1,
            }
        },
    )
}

/// Jobs with rails so short that every choice of hooks can be tried, on rafters of which it is not known
/// what they bear.
pub fn short_up_slope_job() -> impl Strategy<Value = UpSlope> {
    up_slope_job().prop_map(|mut job| {
        job.fields.rows = job.fields.rows.min(2);
        job
    })
}

impl UpSlope {
    /// The request that says all this.
    pub fn request(&self) -> LayoutRequest {
        let mut request = self.draft.request();
        request.array.rail_direction = RailDirection::UpSlope;
        request.array.rails_held_by = self.held_by;
        self.put_covering(&mut request);
        let size = self.put_fields(&mut request);
        self.put_roof(&mut request, size);
        hook(&mut request).foot.length_mm += self.covering.longer_foot_mm;
        let rail = rail(&mut request);
        rail.area_mm2 = self.area_mm2;
        rail.splice_force_kn = self.splice_force_kn;
        rail.groove_slip_kn = self.groove_slip_kn;
        rail.axis_offset_mm = self.axis_offset_mm.or(rail.axis_offset_mm);
        hook(&mut request).arm.load_aside_mm = Some(self.load_aside_mm);
        request
    }

    fn put_covering(&self, request: &mut LayoutRequest) {
        let draft = &self.covering;
        let covering = &mut request.roof.covering;
        match &mut covering.trough_offsets_mm {
            Some(troughs) => {
                covering.bond = if draft.half_bond { Bond::Half } else { Bond::Straight };
                if draft.one_trough {
                    troughs.truncate(1);
                }
            }
            None if draft.slates => {
                let terrace: LayoutRequest = serde_json::from_str(TERRACE).expect("an example");
                *covering = terrace.roof.covering;
                covering.guild_pitch = Some(StatedPitch {
                    rule_pitch_deg: 10.0,
                    least_pitch_deg: None,
                    source: "any covering".to_owned(),
                });
            }
            None => {}
        }
    }

    /// Width and height of what the fields take, mm.
    fn put_fields(&self, request: &mut LayoutRequest) -> [f64; 2] {
        let draft = &self.fields;
        let array = &mut request.array;
        let module = &mut array.module;
        if draft.clamps_at_corners {
            module.clamp_zone_mm = [5.0, 400.0];
            module.short_side_clamp_zone_mm = Some([5.0, 300.0]);
        }
        let [wide, high] = if draft.portrait {
            [module.width_mm, module.length_mm]
        } else {
            [module.length_mm, module.width_mm]
        };
        let field = &mut array.fields[0];
        field.origin_mm = [MARGIN, 700.0];
        (field.rows, field.columns) = (draft.rows, draft.columns);
        field.orientation =
            if draft.portrait { Orientation::Portrait } else { Orientation::Landscape };
        let is_one = draft.rows * draft.columns == 1;
        let is_there =
            |[row, column]: &[u32; 2]| *row < draft.rows && *column < draft.columns && !is_one;
        field.omitted = draft.omitted.filter(is_there).into_iter().collect();
        let [rows, columns] = [draft.rows, draft.columns].map(f64::from);
        let width = columns * wide + (columns - 1.0) * field.column_gap_mm;
        let mut height = rows * high + (rows - 1.0) * field.row_gap_mm;
        if let Some(gap) = draft.second_above_mm {
            let second = ModuleField {
                id: "above".to_owned(),
                origin_mm: [MARGIN, 700.0 + height + gap],
                rows: 1,
                omitted: Vec::new(),
                ..field.clone()
            };
            array.fields.push(second);
            height += gap + high;
        }
        [width, height]
    }

    /// A slope just large enough for the array, with rafters all along it.
    fn put_roof(&self, request: &mut LayoutRequest, [width, height]: [f64; 2]) {
        let [length, height] = [width + 2.0 * MARGIN, height + 2.0 * MARGIN];
        let roof = &mut request.roof;
        roof.outline_mm = vec![[0.0, 0.0], [length, 0.0], [length, height], [0.0, height]];
        roof.length_m = length / 1000.0;
        roof.width_m = 2.0 * height / 1000.0 * roof.pitch_deg.to_radians().cos();
        // What the rafters bear is looked at job by job; here every rail is looked at by itself.
        roof.rafters.span_m = None;
        let draft = &self.timber;
        let shift = |i: usize| draft.shifts.get(i).copied().unwrap_or(0.0);
        let places = (0_u32..).map(|i| draft.first_mm + draft.spacing_mm * f64::from(i));
        roof.rafters.positions_mm = Some(
            places
                .take_while(|x| *x < length)
                .enumerate()
                .map(|(i, x)| x + draft.spacing_mm * shift(i))
                .collect(),
        );
    }
}
