//! The order, the cutting plan and the lists per field as the answer shows them.

use crate::hardware::Module;
use crate::language::{Language, tally};
use crate::parts::bars::Aim;
use crate::parts::cutting::{Bar, Piece};
use crate::parts::kinds::{self, Clamps, Modules};
use crate::parts::splicing::Kept;
use crate::parts::take_off::{Amount, Counts, Joint, Mass, Slope, Stretch, TakeOff, millimetres};
use crate::parts::tally::Tally;
use crate::parts::{Allowance, Allowances, Order};
use crate::placement::Job;
use crate::placement::array::{Field, kind_of};
use crate::placement::kept::Kept as KeptThere;
use crate::placement::laid::Layout;
use crate::service::rounding::{kg, mm, percent};
use crate::units::{Length, kg_of_weight};
use crate::wire::built::Built;
use crate::wire::components::{ClampChoice, Components, PackersChoice, RailChoice, ScrewChoice};
use crate::wire::parts::{
    ArrayMass, BarAnswer, CuttingAnswer, CuttingBound, FieldLine, FieldParts, OrderedKind,
    PartLine, PartsAnswer, PieceAnswer, SpliceAnswer, SpliceRules, StockAim,
};

/// An order: what every part of this report is read from, with what is laid out.
#[derive(Debug, Clone, Copy)]
pub struct Ordered<'a> {
    /// The parts as the request names them.
    pub components: &'a Components,
    /// What is there already.
    pub kept: &'a KeptThere,
    /// The same as the request has it.
    pub there: Option<&'a Built>,
    /// What the order should look like.
    pub order: &'a Order,
    /// What it takes.
    pub take_off: &'a TakeOff,
}

/// A slope that an order is for.
#[derive(Debug, Clone, Copy)]
pub struct OrderedSlope<'a> {
    /// Its id, where the order is for a building.
    pub id: Option<&'a str>,
    /// The slope.
    pub slope: Slope<'a>,
}

impl<'a> OrderedSlope<'a> {
    /// The only slope of its order.
    #[must_use]
    pub const fn alone(job: &'a Job, layout: &'a Layout) -> Self {
        Self { id: None, slope: Slope { job, layout } }
    }

    /// What people call something on it.
    fn named(&self, id: &str) -> String {
        self.id.map_or_else(|| id.to_owned(), |slope| on_slope(slope, id))
    }

    fn id(&self) -> Option<String> {
        self.id.map(str::to_owned)
    }
}

/// What people call a field, rail or hook of a building: the slope before it.
#[must_use]
pub fn on_slope(slope: &str, id: &str) -> String {
    format!("{slope}/{id}")
}

/// The parts of all slopes, with the reasons of their counts in a language.
#[must_use]
pub fn parts(
    slopes: &[OrderedSlope<'_>],
    ordered: &Ordered<'_>,
    language: Language,
) -> PartsAnswer {
    let take_off = ordered.take_off;
    let ids = Ids::of(ordered.components);
    let mass = &take_off.mass;
    let area = |of: &OrderedSlope<'_>| {
        let Slope { job, layout } = of.slope;
        let mut modules = vec![0; job.fields.len()];
        for module in &layout.modules {
            modules[kind_of(&job.fields, module.placed.field)] += 1;
        }
        let kinds = job.fields.iter().zip(modules);
        kinds.map(|(field, n)| f64::from(n) * field.module.area().m2()).sum::<f64>()
    };
    let area: f64 = slopes.iter().map(area).sum();
    let clamps = kinds::clamps(&self::fields(slopes, take_off));
    let frames_differ = clamps.len() > 1;
    let fields = slopes.iter().zip(&take_off.fields).flat_map(|(of, fields)| {
        let all = of.slope.job.fields.iter().zip(fields);
        let ids = &ids;
        all.map(move |(field, counts)| {
            let frame = Some(field.module.thickness).filter(|_| frames_differ);
            FieldParts {
                slope: of.id(),
                field: field.id.clone(),
                lines: field_lines((of.slope.job, field), counts, (ids, frame)),
                mass_kg: kg(Mass::of_field(of.slope.job, field, counts).total()),
            }
        })
    });
    PartsAnswer {
        lines: lines(slopes, ordered, language),
        cutting: cutting(slopes, ordered),
        expansion_gaps: take_off.expansion_gaps,
        fields: fields.collect(),
        mass: ArrayMass {
            modules_kg: kg(mass.modules),
            rails_kg: kg(mass.rails),
            hooks_kg: kg(mass.hooks),
            clamps_kg: kg(mass.clamps),
            total_kg: kg(mass.total()),
            total_kg_per_m2: kg(if area > 0.0 { mass.total() / area } else { 0.0 }),
        },
    }
}

/// Ids of the parts the request describes.
struct Ids<'a> {
    hook: &'a str,
    screw: &'a str,
    rail: &'a str,
    clamp: &'a str,
    packers: &'a str,
}

impl<'a> Ids<'a> {
    fn of(components: &'a Components) -> Self {
        Self {
            hook: components.hook_id(),
            screw: match &components.screw {
                ScrewChoice::Id(id) => id,
                ScrewChoice::Inline(part) => &part.id,
            },
            rail: match &components.rail {
                RailChoice::Id(id) => id,
                RailChoice::Inline(part) => &part.id,
            },
            clamp: match &components.clamp {
                ClampChoice::Id(id) => id,
                ClampChoice::Inline(part) => &part.id,
            },
            packers: match &components.packers {
                PackersChoice::Id(id) => id,
                PackersChoice::Inline(part) => &part.id,
            },
        }
    }

    /// The id of the part of a kind; none where the request describes no such part.
    fn of_kind(&self, kind: OrderedKind) -> Option<String> {
        let id = match kind {
            OrderedKind::Hook => self.hook,
            OrderedKind::Screw => self.screw,
            OrderedKind::Packer => self.packers,
            OrderedKind::RailBar | OrderedKind::RailPiece => self.rail,
            OrderedKind::MidClamp | OrderedKind::EndClamp => self.clamp,
            OrderedKind::Module
            | OrderedKind::SubstituteTile
            | OrderedKind::BoltSet
            | OrderedKind::CrossingConnector
            | OrderedKind::Splice
            | OrderedKind::EndCap => return None,
        };
        Some(id.to_owned())
    }
}

/// Mass of one part in kg, where it is known; `size` is the length of a piece of rail.
fn mass_of_one(
    (job, module): (&Job, &Module),
    kind: OrderedKind,
    size: Option<Length>,
) -> Option<f64> {
    match kind {
        OrderedKind::Module => Some(kg_of_weight(module.weight)),
        OrderedKind::Hook => Some(kg_of_weight(job.hook.weight)),
        OrderedKind::MidClamp | OrderedKind::EndClamp => Some(kg_of_weight(job.clamp.weight)),
        OrderedKind::RailBar | OrderedKind::RailPiece => {
            size.map(|length| kg_of_weight(job.rail.weight * length))
        }
        OrderedKind::Screw
        | OrderedKind::SubstituteTile
        | OrderedKind::Packer
        | OrderedKind::BoltSet
        | OrderedKind::CrossingConnector
        | OrderedKind::Splice
        | OrderedKind::EndCap => None,
    }
}

/// Collects the lines of the order, in a language.
struct Lines<'a> {
    language: Language,
    /// The parts but for the modules, and the module of the lines.
    job: (&'a Job, &'a Module),
    ids: &'a Ids<'a>,
    collected: Vec<PartLine>,
}

impl Lines<'_> {
    fn add(
        &mut self,
        (kind, size): (OrderedKind, Option<Length>),
        needed: u64,
        allowance: &Allowance,
        why: &Tally,
    ) {
        if needed == 0 {
            return;
        }
        let Amount { spare, ordered, .. } = Amount::of(needed, allowance);
        self.collected.push(PartLine {
            kind,
            part: self.ids.of_kind(kind),
            size_mm: size.map(|size| mm(size.mm())),
            module_mm: None,
            needed,
            spare,
            ordered,
            pack_size: u64::from(allowance.pack),
            mass_kg: mass_of_one(self.job, kind, size).map(|one| kg(one * needed as f64)),
            why: tally::reason(why, self.language),
        });
    }
}

/// The order, with the reason of every count. All slopes have the same parts but the modules.
pub fn lines(
    slopes: &[OrderedSlope<'_>],
    ordered: &Ordered<'_>,
    language: Language,
) -> Vec<PartLine> {
    let ids = &Ids::of(ordered.components);
    let take_off = ordered.take_off;
    let (counts, spares) = (&take_off.total, &ordered.order.allowances);
    let job = slopes[0].slope.job;
    let mut out = Lines {
        language,
        job: (job, &job.fields[0].module),
        ids,
        collected: Vec::with_capacity(16),
    };
    let plain = |kind: OrderedKind| (kind, None);
    let sized = |kind: OrderedKind, size: Length| (kind, Some(size));
    let fields = fields(slopes, take_off);
    modules(&fields, &mut out);

    let hooks = counts.hooks;
    let all_rails = || slopes.iter().flat_map(|of| &of.slope.layout.rails);
    let rails = all_rails().filter(|rail| !rail.line.is_upper()).count() as u64;
    let is_kept = all_rails().any(|rail| rail.line.there.is_some());
    let on_rails = if is_kept {
        Tally::HooksAdded { hooks, there: take_off.hooks_there, rails }
    } else {
        Tally::HooksOnRails { hooks, rails }
    };
    out.add(plain(OrderedKind::Hook), hooks, &spares.hook, &on_rails);
    let screws = job.hook.foot.screws.len() as u64;
    out.add(
        plain(OrderedKind::Screw),
        counts.screws,
        &spares.screw,
        &Tally::ScrewsOfHooks { hooks, screws },
    );
    let tiles = u64::from(job.hook.substitute_tiles);
    out.add(
        plain(OrderedKind::SubstituteTile),
        counts.substitute_tiles,
        &spares.substitute_tile,
        &Tally::TilesOfHooks { hooks, tiles },
    );
    for (size, packers) in counts.packers.iter().copied() {
        let why = Tally::PackersUnderHooks { packers, hooks };
        out.add(sized(OrderedKind::Packer, size), packers, &spares.packer, &why);
    }
    let bolts = Tally::BoltsOfHooks { hooks };
    out.add(plain(OrderedKind::BoltSet), counts.bolt_sets, &spares.bolt_set, &bolts);
    let crossings = counts.crossings;
    let connectors = plain(OrderedKind::CrossingConnector);
    out.add(connectors, crossings, &spares.bolt_set, &Tally::OnePerCrossing { crossings });

    let all = take_off.cutting.bars.len() as u64;
    for (stock, bars) in take_off.cutting.bars_by_length().into_iter().rev() {
        let bars = bars as u64;
        let kind = sized(OrderedKind::RailBar, millimetres(stock));
        out.add(kind, bars, &Allowance::EXACT, &Tally::BarsOfPlan { bars, all });
    }
    let segments = counts.segments;
    let pieces = counts.pieces.iter().map(|(_, count)| count).sum();
    let joined = if is_kept {
        Tally::PiecesAdded { pieces, joints: take_off.joints.len() as u64 }
    } else {
        Tally::PiecesOfSegments { pieces, segments }
    };
    out.add(plain(OrderedKind::Splice), counts.splices, &spares.splice, &joined);

    clamps(&kinds::clamps(&fields), spares, &mut out);
    let ends = Tally::EndsOfSegments { segments };
    let caps = if is_kept { Tally::EndsAdded { ends: counts.end_caps } } else { ends };
    out.add(plain(OrderedKind::EndCap), counts.end_caps, &spares.end_cap, &caps);
    out.collected
}

/// The fields of all slopes with what they take.
fn fields<'a>(slopes: &[OrderedSlope<'a>], take_off: &'a TakeOff) -> Vec<kinds::OfField<'a>> {
    let all = slopes.iter().zip(&take_off.fields);
    let of_slope = |(of, counts): (&OrderedSlope<'a>, &'a Vec<Counts>)| {
        let of = *of;
        let fields = of.slope.job.fields.iter().zip(counts);
        fields.map(move |(field, counts)| (of.named(&field.id), field, counts))
    };
    all.flat_map(of_slope).collect()
}

/// The modules, a line for each kind of them.
fn modules(fields: &[kinds::OfField<'_>], out: &mut Lines<'_>) {
    let kinds = kinds::modules(fields);
    let several = kinds.len() > 1;
    for Modules { first, per_field } in kinds {
        let module = &first.module;
        let needed = per_field.iter().map(|(_, modules)| modules).sum();
        let job = (out.job.0, module);
        let mut of_kind = Lines { job, collected: Vec::new(), ..*out };
        let why = Tally::PerField(per_field);
        of_kind.add((OrderedKind::Module, None), needed, &Allowance::EXACT, &why);
        for line in &mut of_kind.collected {
            line.module_mm = several.then(|| measures(module));
        }
        out.collected.append(&mut of_kind.collected);
    }
}

/// Length, width and height of the frame of a module.
fn measures(module: &Module) -> [f64; 3] {
    [module.length, module.width, module.thickness].map(|length| mm(length.mm()))
}

/// The clamps, lines for each height of frames.
fn clamps(clamps: &[Clamps], spares: &Allowances, out: &mut Lines<'_>) {
    for Clamps { frame, mid, .. } in clamps {
        let kind = (OrderedKind::MidClamp, *frame);
        out.add(kind, *mid, &spares.mid_clamp, &Tally::BetweenNeighbours);
    }
    for Clamps { frame, end, segments, .. } in clamps {
        let (kind, segments) = ((OrderedKind::EndClamp, *frame), *segments);
        out.add(kind, *end, &spares.end_clamp, &Tally::EndsOfSegments { segments });
    }
}

fn field_lines(
    (job, field): (&Job, &Field),
    counts: &Counts,
    (ids, frame): (&Ids<'_>, Option<Length>),
) -> Vec<FieldLine> {
    let sized = |kind: OrderedKind| move |size: Length, n: u64| (kind, Some(size), n);
    let packers = counts.packers.iter().map(|(size, n)| sized(OrderedKind::Packer)(*size, *n));
    let pieces =
        counts.pieces.iter().map(|(size, n)| sized(OrderedKind::RailPiece)(millimetres(*size), *n));
    let plain = |kind: OrderedKind, n: u64| (kind, None, n);
    [
        plain(OrderedKind::Module, counts.modules),
        plain(OrderedKind::Hook, counts.hooks),
        plain(OrderedKind::Screw, counts.screws),
        plain(OrderedKind::SubstituteTile, counts.substitute_tiles),
    ]
    .into_iter()
    .chain(packers)
    .chain([
        plain(OrderedKind::BoltSet, counts.bolt_sets),
        plain(OrderedKind::CrossingConnector, counts.crossings),
    ])
    .chain(pieces)
    .chain([
        plain(OrderedKind::Splice, counts.splices),
        (OrderedKind::MidClamp, frame, counts.mid_clamps),
        (OrderedKind::EndClamp, frame, counts.end_clamps),
        plain(OrderedKind::EndCap, counts.end_caps),
    ])
    .filter(|(_, _, count)| *count > 0)
    .map(|(kind, size, count)| FieldLine {
        kind,
        part: ids.of_kind(kind),
        size_mm: size.map(|size| mm(size.mm())),
        count,
        mass_kg: mass_of_one((job, &field.module), kind, size).map(|one| kg(one * count as f64)),
    })
    .collect()
}

fn cutting(slopes: &[OrderedSlope<'_>], ordered: &Ordered<'_>) -> CuttingAnswer {
    let take_off = ordered.take_off;
    let plan = &take_off.cutting;
    let kept = |bar: &Bar| bar.offcut > 0 && millimetres(bar.offcut) >= ordered.order.min_piece;
    let used: i64 = plan.bars.iter().flat_map(|bar| &bar.pieces).map(|piece| piece.length).sum();
    let offcuts = |keep: bool| -> i64 {
        plan.bars.iter().filter(|bar| kept(bar) == keep).map(|bar| bar.offcut).sum()
    };
    let (kept_length, scrap) = (offcuts(true), offcuts(false));
    let bought = plan.bought.length;
    let wasted = if bought > 0 { (bought - used) as f64 / bought as f64 } else { 0.0 };
    let count = |bars: i64| u64::try_from(bars).unwrap_or(0);
    let length = |tenths: i64| mm(millimetres(tenths).mm());
    CuttingAnswer {
        aim: match plan.aim {
            Aim::LeastLength => StockAim::LeastLength,
            Aim::FewestBars => StockAim::FewestBars,
        },
        bars: plan
            .bars
            .iter()
            .zip(1..)
            .map(|(bar, number)| BarAnswer {
                bar: number,
                stock_mm: length(bar.stock),
                pieces: bar.pieces.iter().map(|p| piece(slopes, take_off, p)).collect(),
                cuts: bar.cuts as u64,
                offcut_mm: length(bar.offcut),
                offcut_kept: kept(bar),
            })
            .collect(),
        splices: splices(slopes, take_off),
        bought_mm: length(bought),
        used_mm: length(used),
        sawn_mm: length(bought - used - kept_length - scrap),
        kept_mm: length(kept_length),
        scrap_mm: length(scrap),
        waste_percent: percent(100.0 * wasted),
        proven: plan.proven && !slopes[0].slope.job.rail.stock_lengths.is_empty(),
        lower_bound: CuttingBound {
            bought_mm: length(plan.bound.length),
            bars: count(plan.bound.bars),
        },
    }
}

fn piece(slopes: &[OrderedSlope<'_>], take_off: &TakeOff, piece: &Piece) -> PieceAnswer {
    let Stretch { slope, rail, segment, ends } = take_off.stretches[piece.segment];
    let of = &slopes[slope];
    let rail = &of.slope.layout.rails[rail];
    // Pieces that are there are counted as well.
    let before = rail.segments[segment].splices.iter().filter(|at| **at <= ends[0]).count();
    PieceAnswer {
        slope: of.id(),
        rail: rail.line.id.clone(),
        segment: segment as u64,
        piece: (before + piece.number) as u64,
        start_mm: mm((ends[0] + millimetres(piece.start)).mm()),
        length_mm: mm(millimetres(piece.length).mm()),
    }
}

fn splices(slopes: &[OrderedSlope<'_>], take_off: &TakeOff) -> Vec<SpliceAnswer> {
    let cut = take_off.stretches.iter().zip(&take_off.cutting.segments);
    let cut = cut.flat_map(|(of, cut)| {
        let Stretch { slope, rail, segment, .. } = *of;
        of.splices(cut).map(move |x| Joint { slope, rail, segment, x, kept: cut.kept })
    });
    let mut all: Vec<Joint> = cut.chain(take_off.joints.iter().copied()).collect();
    all.sort_by(|a, b| {
        let [a_rail, b_rail] = [a, b].map(|at| (at.slope, at.rail, at.segment));
        a_rail.cmp(&b_rail).then(a.x.mm().total_cmp(&b.x.mm()))
    });
    let answer = |splice: Joint| {
        let of = &slopes[splice.slope];
        SpliceAnswer {
            slope: of.id(),
            rail: of.slope.layout.rails[splice.rail].line.id.clone(),
            segment: splice.segment as u64,
            x_mm: mm(splice.x.mm()),
            rules: match splice.kept {
                Kept::All => SpliceRules::All,
                Kept::MiddleThirdUsed => SpliceRules::MiddleThirdUsed,
                Kept::EndSpanUsed => SpliceRules::EndSpanUsed,
                Kept::FreeEndUsed => SpliceRules::FreeEndUsed,
                Kept::None => SpliceRules::None,
            },
        }
    };
    all.into_iter().map(answer).collect()
}
