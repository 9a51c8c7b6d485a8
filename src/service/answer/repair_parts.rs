//! What a repair of a built job changes in its parts.

use crate::covering::courses;
use crate::placement::Job;
use crate::placement::built::{self, Built};
use crate::placement::mending::Mending;
use crate::units::Length;
use crate::wire::layout::HookAnswer;
use crate::wire::recheck::{PackersChange, PartsChange, RepairParts, ScrewsNeeded};

use super::tiles;
use crate::service::rounding::mm;

/// What hooks that come off, feet set anew and the hooks that are added take and leave over.
pub fn repair_parts(
    (job, built): (&Job, &Built),
    with: &Mending,
    added: &[HookAnswer],
) -> RepairParts {
    let one_each = PartsChange { needed: count(added), freed: count(&with.taken_off) };
    let metal = |hook: &HookAnswer| count(&hook.tiles.substitute);
    let replaced = |hook: &usize| substitutes_at(job, built, *hook);
    let substitute_tiles = PartsChange {
        needed: added.iter().map(metal).sum(),
        freed: with.taken_off.iter().map(replaced).sum(),
    };
    RepairParts {
        hooks: one_each,
        bolt_sets: one_each,
        substitute_tiles,
        covering_tiles: substitute_tiles.freed,
        screws: screws(job, with, added),
        packers: packers(built, with, added),
    }
}

fn count<T>(of: &[T]) -> u64 {
    of.len() as u64
}

/// Metal tiles round a hook that stands.
fn substitutes_at(job: &Job, built: &Built, hook: usize) -> u64 {
    let hook = &built.hooks[hook];
    let bolt = hook.y.unwrap_or(built.rails[hook.rail].across);
    let (course, _) = built::course_at(job, bolt);
    let drawn = courses::exit_at(&job.covering, course, hook.arm_x.unwrap_or(hook.x)).side_joint;
    let side_joint = built.ways[hook.footing].side_joint.unwrap_or(drawn);
    tiles::substitutes_round_arm(&job.hook, side_joint)
}

/// Those of hooks that are added, and of feet set anew: a screw that comes out is not driven again.
fn screws(job: &Job, with: &Mending, added: &[HookAnswer]) -> Vec<ScrewsNeeded> {
    let in_foot = count(&job.hook.foot.screws);
    let of_added = (mm(job.screw.length.mm()), in_foot * count(added));
    let anew = with.refits.iter().map(|refit| (mm(refit.way.screw_length.mm()), in_foot));
    let mut out: Vec<ScrewsNeeded> = Vec::new();
    for (length_mm, needed) in std::iter::once(of_added).chain(anew).filter(|(_, n)| *n > 0) {
        match out.iter_mut().find(|of| same_size(of.length_mm, length_mm)) {
            Some(of) => of.needed += needed,
            None => out.push(ScrewsNeeded { length_mm, needed }),
        }
    }
    out.sort_by(|a, b| a.length_mm.total_cmp(&b.length_mm));
    out
}

/// Packers under the hooks that are added, those that change under feet set anew, and those under hooks that
/// come off.
fn packers(built: &Built, with: &Mending, added: &[HookAnswer]) -> Vec<PackersChange> {
    let sizes = |hook: usize| rounded(&built.ways[built.hooks[hook].footing].packers);
    let mut out = Packers::default();
    for packer in added.iter().flat_map(|hook| &hook.packers_mm) {
        out.of(*packer).needed += 1;
    }
    for refit in &with.refits {
        let (before, after) = (sizes(refit.hook), rounded(&refit.way.packers));
        without(&after, &before).for_each(|packer| out.of(packer).needed += 1);
        without(&before, &after).for_each(|packer| out.of(packer).freed += 1);
    }
    for packer in with.taken_off.iter().flat_map(|hook| sizes(*hook)) {
        out.of(packer).freed += 1;
    }
    out.0.sort_by(|a, b| b.thickness_mm.total_cmp(&a.thickness_mm));
    out.0
}

fn rounded(packers: &[Length]) -> Vec<f64> {
    packers.iter().map(|packer| mm(packer.mm())).collect()
}

/// Packers of a stack that have none of their size in another to stand for them.
fn without<'a>(stack: &'a [f64], other: &[f64]) -> impl Iterator<Item = f64> + use<'a> {
    let mut left = other.to_vec();
    let is_new = move |packer: &f64| match left.iter().position(|of| same_size(*of, *packer)) {
        Some(at) => {
            left.swap_remove(at);
            false
        }
        None => true,
    };
    stack.iter().copied().filter(is_new)
}

/// Both are rounded as answers are.
fn same_size(a: f64, b: f64) -> bool {
    a.total_cmp(&b).is_eq()
}

#[derive(Default)]
struct Packers(Vec<PackersChange>);

impl Packers {
    fn of(&mut self, thickness_mm: f64) -> &mut PackersChange {
        let at = self.0.iter().position(|of| same_size(of.thickness_mm, thickness_mm));
        let at = at.unwrap_or_else(|| {
            self.0.push(PackersChange { thickness_mm, needed: 0, freed: 0 });
            self.0.len() - 1
        });
        &mut self.0[at]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_packer_that_stays_under_a_foot_is_neither_taken_nor_left_over() {
        let left = |a: &[f64], b: &[f64]| without(a, b).collect::<Vec<_>>();
        assert_eq!(left(&[10.0, 5.0, 5.0], &[10.0, 5.0]), [5.0]);
        assert_eq!(left(&[10.0, 5.0], &[10.0, 5.0, 5.0]), [0.0; 0]);
        assert_eq!(left(&[10.0, 5.0, 2.0], &[8.0]), [10.0, 5.0, 2.0]);
    }
}
