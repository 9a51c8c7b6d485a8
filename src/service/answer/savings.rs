//! What one change would save, and what one hook fewer would mean, as the answer shows it.

use crate::assessment::Utilisation;
use crate::assessment::remedies::{Change, Standing};
use crate::language::{self, Reader};
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::placement::one_fewer::OneFewer;
use crate::service::laying::Laid;
use crate::service::rounding;
use crate::wire::layout::JobUtilisation;
use crate::wire::remedies::Edit;
use crate::wire::savings::{OneHookFewer, Saving};

use super::choices::tiles_lifted;
use super::{elements, findings, optimality, worst_of};

/// How a layout stands, as far as a saving is judged by it.
#[derive(Debug, Clone)]
pub struct Stands {
    /// Verdict, hooks and what is found.
    pub standing: Standing,
    /// Tiles that come off, each counted once.
    pub tiles_lifted: u64,
    proven: bool,
    utilisation: JobUtilisation,
}

impl Stands {
    /// Of a layout.
    #[must_use]
    pub fn of(laid: &Laid) -> Self {
        let (job, layout) = (laid.job(), &laid.layout);
        Self {
            standing: Standing::of(layout, &laid.assessed),
            tiles_lifted: tiles_lifted(&elements::hooks(job, layout, &laid.taken.kept)),
            proven: optimality(job, layout, false).proven,
            utilisation: worst_of(job, layout).answer(job),
        }
    }

    /// What is counted: hooks first, then tiles.
    #[must_use]
    pub const fn counted(&self) -> (usize, u64) {
        (self.standing.hooks, self.tiles_lifted)
    }
}

/// Writes a change that saves something, for a reader.
#[must_use]
pub fn saving(
    change: &Change,
    edits: Vec<Edit>,
    (before, after): (&Stands, &Stands),
    reader: Reader,
) -> Saving {
    let [then, now] = [before, after].map(|of| &of.standing);
    let tiles = [before.tiles_lifted, after.tiles_lifted];
    let is_new = |code: &&&'static str| !then.warnings.contains(*code);
    Saving {
        change: change.kind(),
        message: language::savings::saving(change, (then, now), tiles, reader),
        edits,
        other_part: change.takes_another_part(),
        to_ask: change.to_ask(),
        verdict: findings::verdict(now.verdict),
        hooks: [then.hooks as u64, now.hooks as u64],
        tiles_lifted: tiles,
        proven: after.proven,
        utilisation: after.utilisation.clone(),
        new_warnings: now.warnings.iter().filter(is_new).copied().collect(),
    }
}

/// Writes what one hook fewer would mean on a segment, for a reader.
#[must_use]
pub fn one_hook_fewer(
    (job, layout): (&Job, &Layout),
    [rail, segment]: [usize; 2],
    fewer: &OneFewer,
    reader: Reader,
) -> OneHookFewer {
    let line = &layout.rails[rail].line;
    let number = (line.segments.len() > 1).then_some(segment + 1);
    let used = fewer.governing.map(|(check, most)| (check, Utilisation::new(most.utilisation)));
    let message = (&*line.id, number);
    let message =
        language::savings::one_hook_fewer(message, fewer.hooks, used, fewer.exact, reader);
    OneHookFewer {
        rail: line.id.clone(),
        segment: segment as u64,
        hooks: fewer.hooks as u64,
        utilisation: fewer.governing.map(|(_, most)| rounding::utilisation(most.utilisation)),
        exact: fewer.exact,
        check: fewer.governing.map(|(check, _)| check.name().to_owned()),
        combination: fewer
            .governing
            .map(|(_, most)| elements::combination_id(job, most.combination)),
        message,
    }
}
