//! The take-off: what layouts are built of, counted from their hooks, rails and modules. Several slopes
//! of one building have one: their rails are cut from the same bars.
//!
//! **What belongs to what.** A hook takes the screws of its foot, its substitute tiles, the packers
//! under it and one bolt with nut to the rail. A rail segment takes an end clamp beyond its first
//! and after its last module, a mid clamp between two neighbours and a cap at either end: at an
//! expansion gap both modules are held by end clamps, for nothing bridges it. A place left out of
//! a row ends the rail like an edge of the field. Clamps and splices come with their own bolts.
//!
//! **Units.** Counts; masses in kg, where they are known.
//!
//! **What is there already.** Hooks and rails that are kept are not counted again, nor are screws, packers
//! and caps of theirs; where a rail that is there goes on, the piece that is added is spliced to it. Modules
//! and clamps are counted in full.
//!
//! **Left out.** Cables, bonding, tiles broken on the way, and masses of small parts.
//!
//! **Checked by** `tests/properties/take_off.rs`: against a count of its own from the answer.

use crate::placement::Job;
use crate::placement::array::{self, Field};
use crate::placement::laid::{LaidSegment, Layout, Rail};
use crate::placement::segments::modules_over;
use crate::placement::splices::splices;
use crate::units::{Length, kg_of_weight};

use super::cutting::{self, CuttingPlan, SegmentCut, USUAL_STEPS};
use super::splicing::{Kept, Rules, Run};
use super::{Allowance, Order};

/// A slope that is to be built.
#[derive(Debug, Clone, Copy)]
pub struct Slope<'a> {
    /// Its job.
    pub job: &'a Job,
    /// Its layout.
    pub layout: &'a Layout,
}

/// Everything that layouts take.
#[derive(Debug, Clone)]
pub struct TakeOff {
    /// What is built in, of all slopes.
    pub total: Counts,
    /// The same slope by slope and field by field.
    pub fields: Vec<Vec<Counts>>,
    /// Gaps between segments.
    pub expansion_gaps: u64,
    /// How the rails are cut.
    pub cutting: CuttingPlan,
    /// The stretch of rail that each of the plan's segments is.
    pub stretches: Vec<Stretch>,
    /// Where rails that are there go on.
    pub joints: Vec<Joint>,
    /// Hooks that are there already.
    pub hooks_there: u64,
    /// What the arrays weigh.
    pub mass: Mass,
}

/// A stretch of rail to be added: all of a segment, or what goes on from a rail that is there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Slope.
    pub slope: usize,
    /// Rail of the slope.
    pub rail: usize,
    /// Segment of the rail.
    pub segment: usize,
    /// Its ends.
    pub ends: [Length; 2],
}

/// A place where a rail that is there goes on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Joint {
    /// Slope.
    pub slope: usize,
    /// Rail of the slope.
    pub rail: usize,
    /// Segment of the rail.
    pub segment: usize,
    /// Where.
    pub x: Length,
    /// Rules a splice there keeps.
    pub kept: Kept,
}

/// What a take-off says of one slope.
#[derive(Debug, Clone, Copy)]
pub struct OnSlope<'a> {
    /// All of it.
    pub whole: &'a TakeOff,
    slope: usize,
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
    /// Connectors where rails cross.
    pub crossings: u64,
    /// Rail segments.
    pub segments: u64,
    /// Those of them that modules are clamped to.
    pub clamped: u64,
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

    /// Both together.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            modules: self.modules + other.modules,
            rails: self.rails + other.rails,
            hooks: self.hooks + other.hooks,
            clamps: self.clamps + other.clamps,
        }
    }

    /// What the fields of a job weigh, by their counts.
    #[must_use]
    pub fn of_fields(job: &Job, fields: &[Counts]) -> Self {
        let mut all = Counts::default();
        let mut modules = vec![0; fields.len()];
        for (field, counts) in fields.iter().enumerate() {
            all.add(counts);
            modules[array::kind_of(&job.fields, field)] += counts.modules;
        }
        let kinds = job.fields.iter().zip(modules);
        let kinds = kinds.map(|(field, n)| n as f64 * kg_of_weight(field.module.weight));
        Self { modules: kinds.sum(), ..Self::without_modules(job, &all) }
    }

    /// What one field weighs, by its counts.
    #[must_use]
    pub fn of_field(job: &Job, field: &Field, counts: &Counts) -> Self {
        let modules = counts.modules as f64 * kg_of_weight(field.module.weight);
        Self { modules, ..Self::without_modules(job, counts) }
    }

    fn without_modules(job: &Job, counts: &Counts) -> Self {
        let tenths: i64 =
            counts.pieces.iter().map(|(length, n)| length * i64::try_from(*n).unwrap_or(0)).sum();
        Self {
            modules: 0.0,
            rails: kg_of_weight(job.rail.weight * millimetres(tenths)),
            hooks: counts.hooks as f64 * kg_of_weight(job.hook.weight),
            clamps: (counts.mid_clamps + counts.end_clamps) as f64 * kg_of_weight(job.clamp.weight),
        }
    }
}

/// Counts what a layout takes, and cuts its rails.
#[must_use]
pub fn take_off(job: &Job, layout: &Layout, order: &Order) -> TakeOff {
    take_off_of_slopes(&[Slope { job, layout }], order)
}

/// Counts what the slopes of a building take, and cuts the rails of all of them from the same bars. There
/// is a slope, and all have the same hook and rail.
#[must_use]
pub fn take_off_of_slopes(slopes: &[Slope<'_>], order: &Order) -> TakeOff {
    let first = slopes[0].job;
    let stretches = stretches(slopes);
    let runs: Vec<Run> = stretches.iter().map(|stretch| run(slopes, stretch)).collect();
    let rules = rules(first, order);
    let joints = joints(slopes, &rules);
    let kerf = tenths(first.rail.kerf);
    let cutting = cutting::plan(&runs, &rules, kerf, order.aim, USUAL_STEPS);

    let none = |slope: &Slope<'_>| vec![Counts::default(); slope.job.fields.len()];
    let mut fields: Vec<Vec<Counts>> = slopes.iter().map(none).collect();
    for (slope, fields) in slopes.iter().zip(&mut fields) {
        for module in &slope.layout.modules {
            fields[module.placed.field].modules += 1;
        }
    }
    for (slope, fields) in slopes.iter().zip(&mut fields) {
        let Slope { job, layout } = *slope;
        for rail in &layout.rails {
            let counts = &mut fields[rail.line.field()];
            for (laid, ends) in rail.segments.iter().zip(&rail.line.segments) {
                counts.add_segment(job, layout, laid);
                counts.clamped += u64::from(!rail.line.is_beneath());
                counts.add_clamps(&clamps(job, rail, *ends));
            }
        }
    }
    let field_of = |slope: usize, rail: usize| slopes[slope].layout.rails[rail].line.field();
    for (stretch, cut) in stretches.iter().zip(&cutting.segments) {
        let Stretch { slope, rail, segment, ends } = *stretch;
        let whole = slopes[slope].layout.rails[rail].line.segments[segment];
        let ends = ends.iter().zip(&whole).filter(|(end, of_rail)| end == of_rail);
        let counts = &mut fields[slope][field_of(slope, rail)];
        counts.end_caps += ends.count() as u64;
        counts.splices += cut.splices.len() as u64;
    }
    for joint in &joints {
        fields[joint.slope][field_of(joint.slope, joint.rail)].splices += 1;
    }
    for piece in cutting.bars.iter().flat_map(|bar| &bar.pieces) {
        let Stretch { slope, rail, .. } = stretches[piece.segment];
        add(&mut fields[slope][field_of(slope, rail)].pieces, piece.length, 1);
    }
    let (mut total, mut mass) = (Counts::default(), Mass::default());
    for (slope, fields) in slopes.iter().zip(&fields) {
        let mut of_slope = Counts::default();
        for field in fields {
            of_slope.add(field);
        }
        mass = mass.and(Mass::of_fields(slope.job, fields));
        total.add(&of_slope);
    }
    let rails = slopes.iter().flat_map(|slope| &slope.layout.rails);
    let expansion_gaps = rails.map(|rail| rail.segments.len().saturating_sub(1) as u64).sum();
    let mut hooks_there = 0;
    for Slope { job, layout } in slopes {
        let hooks = layout.hooks().filter(|(_, place)| place.stands).count() as u64;
        mass.hooks += hooks as f64 * kg_of_weight(job.hook.weight);
        mass.rails += kg_of_weight(job.rail.weight * rail_there(layout));
        hooks_there += hooks;
    }
    TakeOff { total, fields, expansion_gaps, cutting, stretches, joints, hooks_there, mass }
}

/// Length of rail that is there already.
fn rail_there(layout: &Layout) -> Length {
    let parts = layout.rails.iter().flat_map(|rail| {
        let there = rail.line.there;
        rail.line.segments.iter().filter_map(move |ends| there?.of(*ends))
    });
    parts.map(|part| part[1] - part[0]).sum()
}

impl TakeOff {
    /// What it says of one of its slopes, counted from 0.
    #[must_use]
    pub const fn on(&self, slope: usize) -> OnSlope<'_> {
        OnSlope { whole: self, slope }
    }
}

impl<'a> OnSlope<'a> {
    /// Every stretch of the slope, with how it is made up.
    pub fn stretches(self) -> impl Iterator<Item = (&'a Stretch, &'a SegmentCut)> {
        let all = self.whole.stretches.iter().zip(&self.whole.cutting.segments);
        all.filter(move |(stretch, _)| stretch.slope == self.slope)
    }

    /// Where rails of the slope that are there go on.
    pub fn joints(self) -> impl Iterator<Item = &'a Joint> {
        self.whole.joints.iter().filter(move |joint| joint.slope == self.slope)
    }

    /// Puts the splices where the rails of the slope are cut.
    pub fn cut(self, layout: &mut Layout) {
        for (stretch, cut) in self.stretches() {
            let rail = &mut layout.rails[stretch.rail];
            let mut splices: Vec<Length> = stretch.splices(cut).collect();
            let laid = &mut rail.segments[stretch.segment];
            if rail.line.there.is_some() {
                let [from, to] = stretch.ends;
                let beside = laid.splices.iter().filter(|at| **at <= from || to <= **at);
                splices.extend(beside);
                splices.sort_by(|a, b| a.mm().total_cmp(&b.mm()));
            }
            laid.splice_at(splices);
        }
    }
}

impl Stretch {
    /// Where its pieces meet.
    pub fn splices(&self, cut: &SegmentCut) -> impl Iterator<Item = Length> {
        let start = self.ends[0];
        cut.splices.iter().map(move |x| start + millimetres(*x))
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

/// Every stretch that is to be cut.
fn stretches(slopes: &[Slope<'_>]) -> Vec<Stretch> {
    let mut stretches = Vec::new();
    for (slope, Slope { layout, .. }) in slopes.iter().enumerate() {
        for (r, rail) in layout.rails.iter().enumerate() {
            for (s, ends) in rail.line.segments.iter().enumerate() {
                let added = rail.line.there.map_or_else(|| vec![*ends], |there| there.added(*ends));
                let stretch = |ends| Stretch { slope, rail: r, segment: s, ends };
                stretches.extend(added.into_iter().map(stretch));
            }
        }
    }
    stretches
}

/// Every place where a rail that is there goes on.
fn joints(slopes: &[Slope<'_>], rules: &Rules) -> Vec<Joint> {
    let mut joints = Vec::new();
    for (slope, Slope { layout, .. }) in slopes.iter().enumerate() {
        for (rail, of) in layout.rails.iter().enumerate() {
            let Some(there) = of.line.there else { continue };
            for (segment, ends) in of.line.segments.iter().enumerate() {
                let at = there.joints(*ends);
                if at.is_empty() {
                    continue;
                }
                let from_left = |x: &Length| tenths(*x - ends[0]);
                let whole = run(slopes, &Stretch { slope, rail, segment, ends: *ends });
                let whole = Run { hinges: Some(at.iter().map(from_left).collect()), ..whole };
                let kept = rules.cuttings(&whole).kept;
                joints.extend(at.into_iter().map(|x| Joint { slope, rail, segment, x, kept }));
            }
        }
    }
    joints
}

fn run(slopes: &[Slope<'_>], stretch: &Stretch) -> Run {
    let Slope { job, layout } = slopes[stretch.slope];
    let ends = stretch.ends;
    let rail = &layout.rails[stretch.rail];
    let within = |x: &Length| ends[0] <= *x && *x <= ends[1];
    let from_left = |x: &Length| tenths(*x - ends[0]);
    let of_segment = rail.line.segments[stretch.segment];
    let clamps = clamps(job, rail, of_segment);
    let near = clamps.into_iter().filter(|[from, to]| *from <= ends[1] && ends[0] <= *to);
    let laid = &rail.segments[stretch.segment];
    let hooks = laid.hooks().map(|place| place.at).chain(laid.crossings());
    Run {
        length: from_left(&ends[1]).max(1),
        hooks: hooks.filter(within).map(|x| from_left(&x)).collect(),
        clamps: near.map(|clamp| clamp.map(|x| from_left(&x))).collect(),
        hinges: job.rail.hinged_splices.then(|| {
            let at = splices(job, None, ends);
            at.iter().map(from_left).collect()
        }),
    }
}

/// Stretches that clamps cover on a segment, left to right.
fn clamps(job: &Job, rail: &Rail, ends: [Length; 2]) -> Vec<[Length; 2]> {
    let line = &rail.line;
    let end_width = job.clamp.end_width;
    let mut clamps: Vec<[Length; 2]> = Vec::new();
    let mut edge = None;
    for (_, module) in modules_over(job, line, ends) {
        let [from, to] = line.axis().sides(&module)[0].map(Length::from_mm);
        clamps.push([edge.unwrap_or(from - end_width), from]);
        edge = Some(to);
    }
    clamps.extend(edge.map(|edge| [edge, edge + end_width]));
    clamps
}

impl Counts {
    /// What belongs to the hooks that are added to a segment.
    fn add_segment(&mut self, job: &Job, layout: &Layout, laid: &LaidSegment) {
        let added = || laid.hooks().filter(|place| !place.stands);
        let hooks = added().count() as u64;
        self.hooks += hooks;
        self.bolt_sets += hooks;
        self.screws += hooks * job.hook.foot.screws.len() as u64;
        self.substitute_tiles += hooks * u64::from(job.hook.substitute_tiles);
        for place in added() {
            let footing = &layout.footings[place.setting];
            for packer in footing.packers.iter().flatten() {
                add(&mut self.packers, *packer, 1);
            }
        }
        self.crossings += laid.result.as_ref().map_or(0, |result| result.crossings.len()) as u64;
        self.segments += 1;
    }

    /// A clamp on either side of the segment's modules and one between two of them.
    fn add_clamps(&mut self, clamps: &[[Length; 2]]) {
        let clamps = clamps.len() as u64;
        self.end_clamps += clamps.min(2);
        self.mid_clamps += clamps.saturating_sub(2);
    }

    fn add(&mut self, other: &Self) {
        self.modules += other.modules;
        self.hooks += other.hooks;
        self.screws += other.screws;
        self.substitute_tiles += other.substitute_tiles;
        self.bolt_sets += other.bolt_sets;
        self.crossings += other.crossings;
        self.segments += other.segments;
        self.clamped += other.clamped;
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
