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
//! **What is there already.** Hooks and rails that are kept are not counted again, nor are screws, packers
//! and caps of theirs; where a rail that is there goes on, the piece that is added is spliced to it. Modules
//! and clamps are counted in full.
//!
//! **Left out.** Cables, bonding, tiles broken on the way, and masses of small parts.
//!
//! **Checked by** `tests/properties/take_off.rs`: against a count of its own from the answer.

use crate::placement::Job;
use crate::placement::laid::{LaidSegment, Layout, Rail};
use crate::placement::splices::splices;
use crate::units::{Length, kg_of_weight};

use super::cutting::{self, CuttingPlan, USUAL_STEPS};
use super::splicing::{Kept, Rules, Run};
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
    /// The stretch of rail that each of the plan's segments is.
    pub stretches: Vec<Stretch>,
    /// Where rails that are there go on.
    pub joints: Vec<Joint>,
    /// Hooks that are there already.
    pub hooks_there: u64,
    /// What the array weighs.
    pub mass: Mass,
}

/// A stretch of rail to be added: all of a segment, or what goes on from a rail that is there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Rail.
    pub rail: usize,
    /// Segment of it.
    pub segment: usize,
    /// Its ends.
    pub ends: [Length; 2],
}

/// A place where a rail that is there goes on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Joint {
    /// Rail.
    pub rail: usize,
    /// Segment of it.
    pub segment: usize,
    /// Where.
    pub x: Length,
    /// Rules a splice there keeps.
    pub kept: Kept,
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
    let stretches = stretches(layout);
    let runs: Vec<Run> = stretches.iter().map(|stretch| run(job, layout, stretch)).collect();
    let rules = rules(job, order);
    let joints = joints(job, layout, &rules);
    let kerf = tenths(job.rail.kerf);
    let cutting = cutting::plan(&runs, &rules, kerf, order.aim, USUAL_STEPS);

    let mut fields = vec![Counts::default(); job.fields.len()];
    for module in &layout.modules {
        fields[module.placed.field].modules += 1;
    }
    for rail in &layout.rails {
        let counts = &mut fields[rail.line.field];
        for (laid, ends) in rail.segments.iter().zip(&rail.line.segments) {
            counts.add_segment(job, layout, laid);
            counts.add_clamps(&clamps(job, rail, *ends));
        }
    }
    let field_of = |rail: usize| layout.rails[rail].line.field;
    for (stretch, cut) in stretches.iter().zip(&cutting.segments) {
        let whole = layout.rails[stretch.rail].line.segments[stretch.segment];
        let ends = stretch.ends.iter().zip(&whole).filter(|(end, of_rail)| end == of_rail);
        let counts = &mut fields[field_of(stretch.rail)];
        counts.end_caps += ends.count() as u64;
        counts.splices += cut.splices.len() as u64;
    }
    for joint in &joints {
        fields[field_of(joint.rail)].splices += 1;
    }
    for piece in cutting.bars.iter().flat_map(|bar| &bar.pieces) {
        let field = field_of(stretches[piece.segment].rail);
        add(&mut fields[field].pieces, piece.length, 1);
    }
    let mut total = Counts::default();
    for field in &fields {
        total.add(field);
    }
    let expansion_gaps =
        layout.rails.iter().map(|rail| rail.segments.len().saturating_sub(1) as u64).sum();
    let hooks_there = layout.hooks().filter(|(_, place)| place.stands).count() as u64;
    let there = layout.rails.iter().flat_map(|rail| {
        let there = rail.line.there;
        let parts = rail.line.segments.iter().filter_map(move |ends| there?.of(*ends));
        parts.map(|part| part[1] - part[0])
    });
    let mut mass = Mass::of(job, &total);
    mass.hooks += hooks_there as f64 * kg_of_weight(job.hook.weight);
    mass.rails += kg_of_weight(job.rail.weight * there.sum::<Length>());
    TakeOff { total, fields, expansion_gaps, cutting, stretches, joints, hooks_there, mass }
}

impl TakeOff {
    /// Puts the splices where the rails are cut.
    pub fn cut(&self, layout: &mut Layout) {
        for (stretch, splices) in self.stretches.iter().zip(self.splices()) {
            let rail = &mut layout.rails[stretch.rail];
            let mut splices: Vec<Length> = splices.collect();
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

    /// Where the pieces of each stretch meet.
    pub fn splices(&self) -> impl Iterator<Item = impl Iterator<Item = Length>> {
        self.stretches.iter().zip(&self.cutting.segments).map(|(stretch, cut)| {
            let start = stretch.ends[0];
            cut.splices.iter().map(move |x| start + millimetres(*x))
        })
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
fn stretches(layout: &Layout) -> Vec<Stretch> {
    let mut stretches = Vec::new();
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, ends) in rail.line.segments.iter().enumerate() {
            let added = rail.line.there.map_or_else(|| vec![*ends], |there| there.added(*ends));
            stretches.extend(added.into_iter().map(|ends| Stretch { rail: r, segment: s, ends }));
        }
    }
    stretches
}

/// Every place where a rail that is there goes on.
fn joints(job: &Job, layout: &Layout, rules: &Rules) -> Vec<Joint> {
    let mut joints = Vec::new();
    for (rail, of) in layout.rails.iter().enumerate() {
        let Some(there) = of.line.there else { continue };
        for (segment, ends) in of.line.segments.iter().enumerate() {
            let at = there.joints(*ends);
            if at.is_empty() {
                continue;
            }
            let from_left = |x: &Length| tenths(*x - ends[0]);
            let whole = run(job, layout, &Stretch { rail, segment, ends: *ends });
            let whole = Run { hinges: Some(at.iter().map(from_left).collect()), ..whole };
            let kept = rules.cuttings(&whole).kept;
            joints.extend(at.into_iter().map(|x| Joint { rail, segment, x, kept }));
        }
    }
    joints
}

fn run(job: &Job, layout: &Layout, stretch: &Stretch) -> Run {
    let ends = stretch.ends;
    let from_left = |x: Length| tenths(x - ends[0]);
    let rail = &layout.rails[stretch.rail];
    let within = |x: &Length| ends[0] <= *x && *x <= ends[1];
    let of_segment = rail.line.segments[stretch.segment];
    let clamps = clamps(job, rail, of_segment);
    let near = clamps.into_iter().filter(|[from, to]| *from <= ends[1] && ends[0] <= *to);
    let hooks = rail.segments[stretch.segment].hooks().map(|place| place.arm_x);
    Run {
        length: from_left(ends[1]).max(1),
        hooks: hooks.filter(within).map(from_left).collect(),
        clamps: near.map(|clamp| clamp.map(from_left)).collect(),
        hinges: job.rail.hinged_splices.then(|| {
            let at = splices(job, None, ends);
            at.into_iter().map(from_left).collect()
        }),
    }
}

/// Stretches that clamps cover on a segment, left to right.
fn clamps(job: &Job, rail: &Rail, ends: [Length; 2]) -> Vec<[Length; 2]> {
    let line = &rail.line;
    let field = &job.fields[line.field];
    let end_width = job.clamp.end_width;
    let mut clamps: Vec<[Length; 2]> = Vec::new();
    let mut edge = None;
    for column in line.columns[0]..=line.columns[1] {
        let x = field.place(&job.module, line.row, column).x.map(Length::from_mm);
        if ends[0] <= x[0] && x[1] <= ends[1] {
            clamps.push([edge.unwrap_or(x[0] - end_width), x[0]]);
            edge = Some(x[1]);
        }
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
