//! Before the tiles are off: a layout for every place of the first rafter that is looked at, and one order
//! that suffices for all of them that do not fail.
//!
//! Each phase is a request with its rafters there: understood, laid out, counted and assessed like any
//! other, so that it comes to what that request would. Only the one that is shown is told in full.
//! Together they are one job and share its effort.

use crate::assessment;
use crate::effort::{Allowance, Effort};
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::wire::fault::Fault;
use crate::wire::layout::{LayoutAnswer, LayoutRequest};
use crate::wire::phases::{PhasesAnswer, ShownBecause, Unmeasured};

use super::answer::phases::{LaidPhase, Picked, phases};
use super::answer::{filled, worst_of};
use super::intake::{Phases, take, take_phases};
use super::laying::Laid;
use super::remedies::in_full;
use super::request::Options;

/// The job with the rafters that are shown, its layout, and the answer without reference, digest and trace.
pub fn laid_out(
    request: &LayoutRequest,
    said: &Unmeasured,
    options: &Options,
) -> Result<(Job, Layout, LayoutAnswer), Vec<Fault>> {
    let understood = take_phases(request, said)?;
    let mut laid = each(request, &understood, &options.effort)?;
    let picked = picked(&laid, understood.shown);
    let others = told(request, (&understood, &laid), picked, options);
    let mut shown = laid.swap_remove(picked.shown);

    // Fields that were filled once for all phases are told as what came to be filled.
    let here = understood.all[picked.shown].request(request);
    let mut taken = take(&here)?;
    taken.job.effort = options.effort.clone();
    taken.assumptions.extend(understood.assumptions);
    taken.remarks.unmeasured = Some(assessment::Unmeasured {
        places: others.phases.len(),
        step: understood.step,
        failing: usize::try_from(others.failing).unwrap_or(usize::MAX),
    });
    shown.understood_as(taken);
    let mut answer = shown.answer(&here, options.reader);
    answer.phases = Some(others);
    Ok((shown.taken.job, shown.layout, answer))
}

/// Every phase laid out, each with an equal part of the effort that those before it left.
fn each(
    request: &LayoutRequest,
    understood: &Phases,
    effort: &Effort,
) -> Result<Vec<Laid>, Vec<Fault>> {
    let Phases { all, first, .. } = understood;
    let in_full = in_full(request, &filled(&first.job, &first.filled));
    let request = in_full.as_ref().map_or(request, |(in_full, _)| in_full);
    let mut left = Allowance::from(effort);
    let mut laid: Vec<Laid> = Vec::with_capacity(all.len());
    for (at, phase) in all.iter().enumerate() {
        if at > 0 && effort.stop.is_said() {
            // Nobody wants what comes of it.
            break;
        }
        let taken = if at == 0 { first.clone() } else { take(&phase.request(request))? };
        let one = Laid::of(taken, left.effort((all.len() - at) as u64));
        left.spend(one.took.steps);
        laid.push(one);
    }
    Ok(laid)
}

/// Which phases are spoken of, and which is shown. Of equals it is the first.
fn picked(laid: &[Laid], asked: Option<usize>) -> Picked {
    let standing = |laid: &Laid| {
        let hooks = laid.layout.hooks().count();
        (hooks, worst_of(laid.job(), &laid.layout).used)
    };
    let standing: Vec<(usize, f64)> = laid.iter().map(standing).collect();
    let compared = |a: &usize, b: &usize| {
        let [(hooks, used), (others, other)] = [standing[*a], standing[*b]];
        hooks.cmp(&others).then(used.total_cmp(&other))
    };
    let passing = || (0..laid.len()).filter(|at| !laid[*at].fails());
    // The last of equals is the greatest, the first the least.
    let worst = passing().rev().max_by(compared);
    let (shown, because) = match (asked.filter(|at| *at < laid.len()), worst) {
        (Some(asked), _) => (asked, ShownBecause::Asked),
        (None, Some(worst)) => (worst, ShownBecause::MostHooks),
        (None, None) => {
            let most = (0..laid.len()).rev().max_by(compared);
            (most.unwrap_or_default(), ShownBecause::AllFail)
        }
    };
    Picked { best: passing().min_by(compared), worst, shown, because }
}

/// What is told of all phases.
fn told(
    request: &LayoutRequest,
    (understood, laid): (&Phases, &[Laid]),
    picked: Picked,
    options: &Options,
) -> PhasesAnswer {
    let each = understood.all.iter().zip(laid).map(|(phase, laid)| LaidPhase {
        phase,
        job: laid.job(),
        layout: &laid.layout,
        assessed: &laid.assessed,
        ordered: laid.ordered(request),
        cut_short: laid.took.cut_short,
    });
    let each: Vec<LaidPhase<'_>> = each.collect();
    phases(&each, understood.step, picked, options.reader.language)
}
