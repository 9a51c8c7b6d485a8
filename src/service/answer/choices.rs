//! What a choice comes to, as the answer shows it and as it is ranked by.

use std::collections::BTreeSet;

use crate::assessment::remedies::Standing;
use crate::language::Language;
use crate::service::intake::choices::Weights;
use crate::service::laying::Laid;
use crate::service::rounding::{factor, kg, load};
use crate::wire::choices::{Choice, ChoiceRow, Rates};
use crate::wire::layout::{HookAnswer, LayoutRequest, TileRow};
use crate::wire::parts::{OrderedKind, PartLine};

use super::parts::{OrderedSlope, lines};
use super::{elements, findings, worst_of};

/// Figures of a layout that choices are ranked by, as they are told.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Figures {
    /// Hooks.
    pub hooks: u64,
    /// Price.
    pub price: Option<f64>,
    /// Mass, kg.
    pub mass_kg: f64,
    /// Tiles that come off.
    pub tiles_lifted: u64,
    /// Minutes.
    pub minutes: Option<f64>,
}

impl Figures {
    /// What is aimed for: the less the better.
    #[must_use]
    pub fn aim(&self, weights: Weights) -> f64 {
        let sum = weights.hooks * self.hooks as f64
            + weights.price * self.price.unwrap_or_default()
            + weights.mass * self.mass_kg
            + weights.tiles_lifted * self.tiles_lifted as f64
            + weights.minutes * self.minutes.unwrap_or_default();
        factor(sum)
    }
}

/// A choice laid out, as a row of the answer; with the kinds of part in its order.
#[must_use]
pub fn row(
    choice: Choice,
    (laid, request): (&Laid, &LayoutRequest),
    (rates, weights): (&Rates, Weights),
) -> (ChoiceRow, Vec<OrderedKind>) {
    let (job, layout) = (laid.job(), &laid.layout);
    let standing = Standing::of(layout, &laid.assessed);
    let order =
        lines(&[OrderedSlope::alone(job, layout)], &laid.ordered(request), Language::default());
    let figures = figures(laid, &order, rates);
    let row = ChoiceRow {
        choice,
        verdict: findings::verdict(standing.verdict),
        fails_by: standing.failing.first().copied(),
        not_verified: standing.incomplete,
        utilisation: worst_of(job, layout).answer(job),
        hooks: figures.hooks,
        lower_bound: layout.segments().map(|laid| laid.found.lower_bound as u64).sum(),
        tiles_lifted: figures.tiles_lifted,
        mass_kg: figures.mass_kg,
        price: figures.price,
        minutes: figures.minutes,
        aim: figures.aim(weights),
    };
    (row, order.iter().map(|line| line.kind).collect())
}

fn figures(laid: &Laid, order: &[PartLine], rates: &Rates) -> Figures {
    let Laid { taken, layout, take_off, .. } = laid;
    let tiles_lifted = tiles_lifted(&elements::hooks(&taken.job, layout, &taken.kept));
    // In metres, of tenths of a millimetre.
    let pieces = take_off.total.pieces.iter();
    let built_in: f64 = pieces.map(|(length, count)| *length as f64 * *count as f64 / 1e4).sum();
    let bought: f64 = take_off.cutting.bars.iter().map(|bar| bar.stock as f64 / 1e4).sum();
    let [mut price, mut minutes] = [0.0; 2];
    if let Some(rate) = rates.lifted_tile {
        price += rate.price.unwrap_or_default() * tiles_lifted as f64;
        minutes += rate.minutes.unwrap_or_default() * tiles_lifted as f64;
    }
    if let Some(rate) = rates.rail {
        price += rate.price.unwrap_or_default() * bought;
        minutes += rate.minutes.unwrap_or_default() * built_in;
    }
    for line in order.iter().filter(|line| line.kind != OrderedKind::RailBar) {
        let Some(rate) = rates.of(line.kind) else { continue };
        price += rate.price.unwrap_or_default() * line.ordered as f64;
        minutes += rate.minutes.unwrap_or_default() * line.needed as f64;
    }
    let [has_price, has_minutes] = [rates.any(|rate| rate.price), rates.any(|rate| rate.minutes)];
    Figures {
        hooks: layout.hooks().count() as u64,
        price: has_price.then(|| load(price)),
        mass_kg: kg(take_off.mass.total()),
        tiles_lifted,
        minutes: has_minutes.then(|| load(minutes)),
    }
}

/// Tiles that come off at all hooks that are not there already, each counted once.
pub(super) fn tiles_lifted(hooks: &[HookAnswer]) -> u64 {
    let mut tiles: BTreeSet<(i64, bool, i64)> = BTreeSet::new();
    for hook in hooks.iter().filter(|hook| hook.kept.is_none()) {
        for run in &hook.tiles.lift {
            let [from, to] = run.columns;
            let in_bed = run.row == Some(TileRow::Bed);
            tiles.extend((from..=to).map(|column| (run.course, in_bed, column)));
        }
    }
    tiles.len() as u64
}
