//! Splices that could not keep their rules, and cutting plans without proof.

use crate::parts::bars::Aim;
use crate::parts::splicing::Kept;
use crate::parts::take_off::{Joint, OnSlope, millimetres};
use crate::placement::Job;
use crate::placement::laid::Layout;

use super::value::{CuttingAim, SpliceKind, SplicePlace};
use super::{Fact, Findings, Place};

/// Splices that could not keep their rules, and cutting plans without proof.
pub(super) fn splices(job: &Job, layout: &Layout, take_off: OnSlope<'_>, out: &mut Findings) {
    let cut =
        take_off.stretches().map(|(of, cut)| ([of.rail, of.segment], cut.splices.len(), cut.kept));
    let joints: Vec<Joint> = take_off.joints().copied().collect();
    let joined = joints.chunk_by(|a, b| [a.rail, a.segment] == [b.rail, b.segment]);
    let joined = joined.map(|all| ([all[0].rail, all[0].segment], all.len(), all[0].kept));
    for ([r, s], splices, kept) in cut.chain(joined) {
        let at = match kept {
            _ if splices == 0 => continue,
            Kept::All => continue,
            Kept::MiddleThirdUsed => SplicePlace::MiddleThird,
            Kept::EndSpanUsed => SplicePlace::EndSpan,
            Kept::FreeEndUsed => SplicePlace::FreeEnd,
            Kept::None => SplicePlace::HookOrClamp,
        };
        let rail = layout.rails[r].line.id.clone();
        let splice = if job.rail.hinged_splices { SpliceKind::Hinge } else { SpliceKind::Stiff };
        let fact = if at == SplicePlace::MiddleThird {
            Fact::SpliceInMiddleThird { rail, splices, at, splice }
        } else {
            Fact::SpliceOutsideRules { rail, splices, at, splice }
        };
        out.add(Place::Segment(r, s), fact);
    }
    forces(layout, out);
    let plan = &take_off.whole.cutting;
    if !plan.proven {
        let fact = Fact::CuttingNotProven {
            aim: match plan.aim {
                Aim::LeastLength => CuttingAim::LeastLength,
                Aim::FewestBars => CuttingAim::FewestBars,
            },
            bought: millimetres(plan.bought.length),
            bars: plan.bought.bars.unsigned_abs(),
            least: millimetres(plan.bound.length),
            fewest: plan.bound.bars.unsigned_abs(),
        };
        out.add(Place::Cutting, fact);
    }
}

/// Splices of rails up the slope of which it is not known what force along the rail they pass on.
fn forces(layout: &Layout, out: &mut Findings) {
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            let limits = &laid.segment.limits;
            let asked = limits.axial.is_some() && limits.splice_force.is_none();
            if !asked || laid.splices.is_empty() {
                continue;
            }
            let Some(force) = laid.segment.axial_at(&laid.found.subset, &laid.splices) else {
                continue;
            };
            let rail = rail.line.id.clone();
            out.add(Place::Segment(r, s), Fact::SpliceForceUnknown { rail, force });
        }
    }
}
