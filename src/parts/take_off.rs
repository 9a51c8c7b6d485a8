//! The take-off: what a layout is built of, counted from its hooks, rails and modules.
//!
//! **What belongs to what.** A hook takes the screws of its foot, its substitute tiles, the packers
//! under it and one bolt with nut to the rail. A rail segment takes an end clamp beyond its first
//! and after its last module, a mid clamp between two neighbours and a cap at either end: at an
//! expansion gap both modules are held by end clamps, for nothing bridges it. A place left out of
//! a row ends the rail like an edge of the field. Clamps and splices come with their own bolts.
//!
//! **Units.** Counts; masses in kg, where they are known.
//!
//! **Left out.** Cables, bonding, tiles broken on the way, and masses of small parts.
//!
//! **Checked by** `tests/properties/take_off.rs`: against a count of its own from the answer.

use crate::placement::Job;
use crate::placement::laid::{LaidSegment, Layout, Rail};
use crate::placement::splices::splices;
use crate::units::{Length, kg_of_weight};

use super::cutting::{self, CuttingPlan, USUAL_STEPS};
use super::splicing::{Rules, Run};
use super::{Allowance, Order};

/// Everything a layout takes.
#[derive(Debug, Clone)]
pub struct TakeOff {
    /// What is built in, of the whole job.
    pub total: Counts,
    /// The same field by field.
    pub fields: Vec<Counts>,
    /// Gaps between segments.
    pub expansion_gaps: u64,
    /// How the rails are cut.
    pub cutting: CuttingPlan,
    /// Rail and segment of each of the plan's segments.
    pub places: Vec<[usize; 2]>,
    /// What the array weighs.
    pub mass: Mass,
}

/// Parts built in.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Counts {
    /// Modules.
    pub modules: u64,
    /// Hooks.
    pub hooks: u64,
    /// Screws.
    pub screws: u64,
    /// Substitute tiles.
    pub substitute_tiles: u64,
    /// Packers by thickness, thickest first.
    pub packers: Vec<(Length, u64)>,
    /// Bolts between hook and rail.
    pub bolt_sets: u64,
    /// Rail segments.
    pub segments: u64,
    /// Splices.
    pub splices: u64,
    /// Mid clamps.
    pub mid_clamps: u64,
    /// End clamps.
    pub end_clamps: u64,
    /// End caps.
    pub end_caps: u64,
    /// Pieces of rail by length in tenths of a millimetre, longest first.
    pub pieces: Vec<(i64, u64)>,
}

/// What the array weighs, kg.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Mass {
    /// Modules.
    pub modules: f64,
    /// Rails as built in.
    pub rails: f64,
    /// Hooks.
    pub hooks: f64,
    /// Clamps.
    pub clamps: f64,
}

/// Exact count, spare on top, and what to order of both in whole packs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Amount {
    /// Built in.
    pub needed: u64,
    /// On top.
    pub spare: u64,
    /// To order.
    pub ordered: u64,
}

impl Amount {
    /// For so many parts that are built in.
    #[must_use]
    pub fn of(needed: u64, allowance: &Allowance) -> Self {
        let spare = allowance.spare(needed);
        Self { needed, spare, ordered: allowance.in_packs(needed + spare) }
    }
}

impl Mass {
    /// All of it.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.modules + self.rails + self.hooks + self.clamps
    }

    /// What such counts weigh.
    #[must_use]
    pub fn of(job: &Job, counts: &Counts) -> Self {
        let tenths: i64 =
            counts.pieces.iter().map(|(length, n)| length * i64::try_from(*n).unwrap_or(0)).sum();
        Self {
            modules: counts.modules as f64 * kg_of_weight(job.module.weight),
            rails: kg_of_weight(job.rail.weight * millimetres(tenths)),
            hooks: counts.hooks as f64 * kg_of_weight(job.hook.weight),
            clamps: (counts.mid_clamps + counts.end_clamps) as f64 * kg_of_weight(job.clamp.weight),
        }
    }
}

/// Counts what a layout takes, and cuts its rails.
#[must_use]
pub fn take_off(job: &Job, layout: &Layout, order: &Order) -> TakeOff {
    let (runs, places) = runs(job, layout);
    let rules = rules(job, order);
    let kerf = tenths(job.rail.kerf);
    let cutting = cutting::plan(&runs, &rules, kerf, order.aim, USUAL_STEPS);

    let mut fields = vec![Counts::default(); job.fields.len()];
    for module in &layout.modules {
        fields[module.placed.field].modules += 1;
    }
    for (index, [r, s]) in places.iter().enumerate() {
        let rail = &layout.rails[*r];
        let counts = &mut fields[rail.line.field];
        counts.add_segment(job, layout, &rail.segments[*s]);
        counts.add_clamps(&runs[index]);
        counts.splices += cutting.segments[index].splices.len() as u64;
    }
    for piece in cutting.bars.iter().flat_map(|bar| &bar.pieces) {
        let field = layout.rails[places[piece.segment][0]].line.field;
        add(&mut fields[field].pieces, piece.length, 1);
    }
    let mut total = Counts::default();
    for field in &fields {
        total.add(field);
    }
    let expansion_gaps =
        layout.rails.iter().map(|rail| rail.segments.len().saturating_sub(1) as u64).sum();
    let mass = Mass::of(job, &total);
    TakeOff { total, fields, expansion_gaps, cutting, places, mass }
}

impl TakeOff {
    /// Puts the splices where the rails are cut.
    pub fn cut(&self, layout: &mut Layout) {
        for ([r, s], cut) in self.places.iter().zip(&self.cutting.segments) {
            let rail = &mut layout.rails[*r];
            let start = rail.line.segments[*s][0];
            let splices = cut.splices.iter().map(|x| start + millimetres(*x)).collect();
            rail.segments[*s].splice_at(splices);
        }
    }
}

/// A length in whole tenths of a millimetre.
fn tenths(length: Length) -> i64 {
    #[expect(clippy::cast_possible_truncation, reason = "lengths on a roof are small")]
    let tenths = (length.mm() * 10.0).round() as i64;
    tenths
}

/// A length of so many tenths of a millimetre.
#[must_use]
pub fn millimetres(tenths: i64) -> Length {
    Length::from_mm(tenths as f64 / 10.0)
}

fn rules(job: &Job, order: &Order) -> Rules {
    let mut stock: Vec<i64> =
        job.rail.stock_lengths.iter().map(|length| tenths(*length).max(1)).collect();
    stock.sort_unstable();
    stock.dedup();
    let half = stock.last().copied().unwrap_or(1) / 2;
    Rules {
        min_piece: tenths(order.min_piece).min(half),
        splice_half: tenths(job.rail.splice_length / 2.0),
        arm_half: tenths(job.hook.arm_width / 2.0),
        stock,
    }
}

/// Every segment to be cut, with rail and segment it is.
fn runs(job: &Job, layout: &Layout) -> (Vec<Run>, Vec<[usize; 2]>) {
    let mut runs = Vec::new();
    let mut places = Vec::new();
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, (laid, ends)) in rail.segments.iter().zip(&rail.line.segments).enumerate() {
            runs.push(run(job, rail, laid, *ends));
            places.push([r, s]);
        }
    }
    (runs, places)
}

fn run(job: &Job, rail: &Rail, laid: &LaidSegment, ends: [Length; 2]) -> Run {
    let from_left = |x: Length| tenths(x - ends[0]);
    let line = &rail.line;
    let field = &job.fields[line.field];
    let end_width = job.clamp.end_width;
    let mut clamps: Vec<[i64; 2]> = Vec::new();
    let mut edge = None;
    for column in line.columns[0]..=line.columns[1] {
        let x = field.place(&job.module, line.row, column).x.map(Length::from_mm);
        if ends[0] <= x[0] && x[1] <= ends[1] {
            let from = edge.unwrap_or(x[0] - end_width);
            clamps.push([from_left(from), from_left(x[0])]);
            edge = Some(x[1]);
        }
    }
    if let Some(edge) = edge {
        clamps.push([from_left(edge), from_left(edge + end_width)]);
    }
    Run {
        length: from_left(ends[1]).max(1),
        hooks: laid.hooks().map(|place| from_left(place.arm_x)).collect(),
        clamps,
        hinges: job.rail.hinged_splices.then(|| {
            let at = splices(job, None, ends);
            at.into_iter().map(from_left).collect()
        }),
    }
}

impl Counts {
    /// What belongs to the hooks and the ends of a segment.
    fn add_segment(&mut self, job: &Job, layout: &Layout, laid: &LaidSegment) {
        let hooks = laid.found.subset.len() as u64;
        self.hooks += hooks;
        self.bolt_sets += hooks;
        self.screws += hooks * job.hook.foot.screws.len() as u64;
        self.substitute_tiles += hooks * u64::from(job.hook.substitute_tiles);
        for place in laid.hooks() {
            let footing = &layout.footings[place.setting];
            for packer in footing.packers.iter().flatten() {
                add(&mut self.packers, *packer, 1);
            }
        }
        self.segments += 1;
        self.end_caps += 2;
    }

    /// A clamp on either side of the segment's modules and one between two of them.
    fn add_clamps(&mut self, run: &Run) {
        let clamps = run.clamps.len() as u64;
        self.end_clamps += clamps.min(2);
        self.mid_clamps += clamps.saturating_sub(2);
    }

    fn add(&mut self, other: &Self) {
        self.modules += other.modules;
        self.hooks += other.hooks;
        self.screws += other.screws;
        self.substitute_tiles += other.substitute_tiles;
        self.bolt_sets += other.bolt_sets;
        self.segments += other.segments;
        self.splices += other.splices;
        self.mid_clamps += other.mid_clamps;
        self.end_clamps += other.end_clamps;
        self.end_caps += other.end_caps;
        other.packers.iter().for_each(|(size, n)| add(&mut self.packers, *size, *n));
        other.pieces.iter().for_each(|(size, n)| add(&mut self.pieces, *size, *n));
    }
}

/// Adds to the count of a size, in a list with the largest size first.
fn add<Size: PartialOrd + Copy>(sizes: &mut Vec<(Size, u64)>, size: Size, count: u64) {
    let at = sizes.partition_point(|(other, _)| *other > size);
    match sizes.get_mut(at) {
        Some((other, known)) if *other == size => *known += count,
        _ => sizes.insert(at, (size, count)),
    }
}
