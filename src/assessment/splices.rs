//! Splices that could not keep their rules, and cutting plans without proof.

use crate::parts::bars::Aim;
use crate::parts::splicing::Kept;
use crate::parts::take_off::{TakeOff, millimetres};
use crate::placement::Job;
use crate::placement::laid::Layout;

use super::value::{CuttingAim, SpliceKind, SplicePlace};
use super::{Fact, Findings, Place};

/// Splices that could not keep their rules, and cutting plans without proof.
pub(super) fn splices(job: &Job, layout: &Layout, take_off: &TakeOff, out: &mut Findings) {
    for (place, cut) in take_off.places.iter().zip(&take_off.cutting.segments) {
        let [r, s] = *place;
        let at = match cut.kept {
            _ if cut.splices.is_empty() => continue,
            Kept::All => continue,
            Kept::MiddleThirdUsed => SplicePlace::MiddleThird,
            Kept::EndSpanUsed => SplicePlace::EndSpan,
            Kept::FreeEndUsed => SplicePlace::FreeEnd,
            Kept::None => SplicePlace::HookOrClamp,
        };
        let rail = layout.rails[r].line.id.clone();
        let splices = cut.splices.len();
        let splice = if job.rail.hinged_splices { SpliceKind::Hinge } else { SpliceKind::Stiff };
        let fact = if at == SplicePlace::MiddleThird {
            Fact::SpliceInMiddleThird { rail, splices, at, splice }
        } else {
            Fact::SpliceOutsideRules { rail, splices, at, splice }
        };
        out.add(Place::Segment(r, s), fact);
    }
    let plan = &take_off.cutting;
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
