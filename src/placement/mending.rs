//! What would make a built job hold: feet set anew and hooks added, in either order. Hooks on rotten rafters
//! come off in both: they carry nothing, and the job is judged without them.
//!
//! **Feet first.** Where feet set anew suffice no hook is added; hooks are then added to feet that stand as
//! they do. **Hooks first.** Arms come down less where more hooks share the load, so hooks are chosen as if
//! no arm touched its tile, and feet are packed for what they carry beside them. As that asks less of a
//! choice of hooks, the fewest found so are the fewest if the whole then holds.

use super::Job;
use super::built::{self, Built, Checked, Idle};
use super::rail_lines::RailLine;
use super::refit::{self, Refit};
use super::repair::{self, Repair};

/// Hooks to take off, feet to set anew and hooks to add, and the job with all of it.
#[derive(Debug, Clone)]
pub struct Mending {
    /// The job as checked before hooks were added to it.
    pub before_hooks: Checked,
    /// Hooks that come off, because their rafters are rotten.
    pub taken_off: Vec<usize>,
    /// Feet that stand, to set anew.
    pub refits: Vec<Refit>,
    /// What hooks were added to, or was looked at in vain.
    pub repairs: Vec<Repair>,
    /// The job with all of it: hooks that are added follow those that stand.
    pub built: Built,
    /// The same, checked.
    pub checked: Checked,
}

/// Feet set anew, then hooks added; `None` where nothing is to be done.
#[must_use]
pub fn feet_first(
    job: &Job,
    (built, checked): (&Built, &Checked),
    lines: &[RailLine],
) -> Option<Mending> {
    let refits = refit::refits(job, built, checked);
    let (with, now) = if refits.is_empty() {
        (built.clone(), checked.clone())
    } else {
        set_anew(job, built, &refits, lines)
    };
    let repairs = repair::repairs(job, &with, &now);
    let taken_off = on_rotten(checked);
    if refits.is_empty() && repairs.is_empty() && taken_off.is_empty() {
        return None;
    }
    let before_hooks = now.clone();
    let (built, checked) = if repairs.is_empty() {
        (with, now)
    } else {
        let with = repair::repaired(job, &with, &repairs);
        let checked = built::check(job, &with, lines.to_vec());
        (with, checked)
    };
    let checked = without_those_on_rotten(checked);
    Some(Mending { before_hooks, taken_off, refits, repairs, built, checked })
}

/// Hooks added, then feet packed for what they carry beside them; `None` where a hook that is added would
/// need other screws than those of a layout.
#[must_use]
pub fn hooks_first(
    job: &Job,
    (built, before): (&Built, &Checked),
    lines: &[RailLine],
) -> Option<Mending> {
    let repairs = repair::repairs_beside_clearance(job, built, before);
    let with = repair::repaired(job, built, &repairs);
    let shared = built::check(job, &with, lines.to_vec());
    let feet = refit::refits(job, &with, &shared);
    let (with, checked) = set_anew(job, &with, &feet, lines);
    let (refits, added): (Vec<_>, Vec<_>) =
        feet.into_iter().partition(|refit| refit.hook < built.hooks.len());
    let same_screws = |refit: &Refit| refit.way.screw_length == job.screw.length;
    let before_hooks = before.clone();
    added.iter().all(same_screws).then_some(Mending {
        before_hooks,
        taken_off: on_rotten(before),
        refits,
        repairs,
        built: with,
        checked: without_those_on_rotten(checked),
    })
}

/// The hooks on rotten rafters, by place.
fn on_rotten(checked: &Checked) -> Vec<usize> {
    checked.idle.iter().filter(|(_, why)| is_rot(why)).map(|(hook, _)| *hook).collect()
}

/// A job as if the hooks on rotten rafters were gone. As they carry nothing, nothing else changes.
fn without_those_on_rotten(mut checked: Checked) -> Checked {
    checked.idle.retain(|(_, why)| !is_rot(why));
    checked
}

fn is_rot(why: &Idle) -> bool {
    matches!(why, Idle::OnRotten(_))
}

/// A job with feet set anew, checked.
fn set_anew(job: &Job, built: &Built, feet: &[Refit], lines: &[RailLine]) -> (Built, Checked) {
    let feet: Vec<_> = feet.iter().map(|refit| (refit.hook, refit.way.clone())).collect();
    let with = built.with_feet(job, &feet);
    let checked = built::check(job, &with, lines.to_vec());
    (with, checked)
}
