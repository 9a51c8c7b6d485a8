//! Checks of rails and hooks that are over the limit, whatever else is wrong.

use crate::checks::segment::{HookResult, SegmentResult};
use crate::checks::{Check, Governing};
use crate::placement::Job;
use crate::placement::laid::Layout;

use super::value::{Bound, Utilisation};
use super::{Fact, Findings, Place};

/// What governs a check of a hook.
type GoverningOf = fn(&HookResult) -> Governing;

/// The checks of a hook.
const OF_HOOK: [(Check, GoverningOf); 5] = [
    (Check::Hook, |hook| hook.hook),
    (Check::Bolt, |hook| hook.bolt),
    (Check::Screws, |hook| hook.screws),
    (Check::FootBearing, |hook| hook.timber),
    (Check::Clearance, |hook| hook.clearance),
];

/// Every check of a segment that is over the limit, hook by hook.
pub(super) fn hook_by_hook(
    job: &Job,
    layout: &Layout,
    [r, s]: [usize; 2],
    hooks_before: usize,
    out: &mut Findings,
) {
    let Some(result) = &layout.rails[r].segments[s].result else { return };
    rail(job, layout, r, result, out);
    for (h, hook) in result.hooks.iter().enumerate() {
        for (check, used) in OF_HOOK {
            let element = layout.hook_name([r, s, h]);
            let place = Place::Hook(hooks_before + h);
            over(job, check, used(hook), (element, Vec::new()), place, out);
        }
    }
}

/// Every check of a segment that is over the limit, each once, with the hook that uses most.
pub(super) fn check_by_check(job: &Job, layout: &Layout, [r, s]: [usize; 2], out: &mut Findings) {
    let Some(result) = &layout.rails[r].segments[s].result else { return };
    rail(job, layout, r, result, out);
    let earlier = |[q, t, _]: [usize; 3]| (q, t) < (r, s);
    let before = layout.hooks().take_while(|(at, _)| earlier(*at)).count();
    for (check, of) in OF_HOOK {
        let used = |h: usize| of(&result.hooks[h]).utilisation;
        let failing = (0..result.hooks.len()).filter(|h| !job.wishes.allow(used(*h)));
        let failing: Vec<usize> = failing.collect();
        let worst = failing.iter().copied().reduce(|a, b| if used(b) > used(a) { b } else { a });
        let Some(worst) = worst else { continue };
        let name = |h: usize| layout.hook_name([r, s, h]);
        let others = failing.iter().filter(|h| **h != worst).map(|h| name(*h).to_owned());
        let element = (name(worst), others.collect());
        over(job, check, of(&result.hooks[worst]), element, Place::Hook(before + worst), out);
    }
}

fn rail(job: &Job, layout: &Layout, r: usize, result: &SegmentResult, out: &mut Findings) {
    let name = &layout.rails[r].line.id;
    for (check, governing) in
        [(Check::RailBending, result.bending), (Check::RailDeflection, result.deflection)]
    {
        over(job, check, governing, (name, Vec::new()), Place::Rail(r), out);
    }
}

fn over(
    job: &Job,
    check: Check,
    governing: Governing,
    (element, others): (&str, Vec<String>),
    place: Place,
    out: &mut Findings,
) {
    if job.wishes.allow(governing.utilisation) {
        return;
    }
    macro_rules! over {
        ($kind:ident) => {
            Fact::$kind {
                element: element.to_owned(),
                check,
                utilisation: Utilisation::new(governing.utilisation),
                combination: job.combination_name(governing.combination).to_owned(),
                others,
                bound: bound(job),
            }
        };
    }
    let fact = match check {
        Check::Hook => over!(HookOverloaded),
        Check::Bolt => over!(BoltOverloaded),
        Check::Screws => over!(ScrewOverloaded),
        Check::FootBearing => over!(FootBearingOver),
        Check::Clearance => over!(ClearanceCloses),
        Check::RailBending => over!(RailOverloaded),
        Check::RailDeflection => over!(RailDeflects),
        // Checks of other members have facts of their own.
        Check::Module | Check::Clamp | Check::ClampSlip | Check::Rafter => return,
    };
    out.add(place, fact);
}

/// The limit of utilisation, where it is not the usual one.
pub(super) fn bound(job: &Job) -> Option<Bound> {
    let bound = job.wishes.max_utilisation;
    (bound < 1.0).then_some(Bound(bound))
}
