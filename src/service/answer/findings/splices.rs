//! Splices that could not keep their rules, and cutting plans without proof.

use crate::parts::bars::Aim;
use crate::parts::splicing::Kept;
use crate::parts::take_off::{TakeOff, millimetres};
use crate::placement::Job;
use crate::placement::layout::Layout;
use crate::service::warnings::{self as kinds, Warnings, number, text};

/// What is worth a warning in the cutting of the rails.
pub fn splices(job: &Job, layout: &Layout, take_off: &TakeOff, out: &mut Warnings) {
    for (place, cut) in take_off.places.iter().zip(&take_off.cutting.segments) {
        let [r, s] = *place;
        let rail = &layout.rails[r].line.id;
        let (kind, what) = match cut.kept {
            _ if cut.splices.is_empty() => continue,
            Kept::All => continue,
            Kept::MiddleThirdUsed => (&kinds::SPLICE_MIDDLE, "in the middle third of a span"),
            Kept::EndSpanUsed => (&kinds::SPLICE_RULES, "in an end span, a piece on a single hook"),
            Kept::FreeEndUsed => (&kinds::SPLICE_RULES, "in a free end, a piece without hooks"),
            Kept::None => (&kinds::SPLICE_RULES, "at a hook or under a clamp"),
        };
        let cure = if job.rail.hinged_splices {
            "Its splices are hinges and stand where the statics counted on them."
        } else {
            "Longer stock lengths, a shorter splice or another field would help."
        };
        out.add(
            kind,
            format!("/rails/{r}/segments/{s}"),
            format!("A splice of rail {rail} lies {what}. {cure}"),
            [("rail", text(rail)), ("splices", number(cut.splices.len() as f64))],
        );
    }
    let plan = &take_off.cutting;
    if !plan.proven {
        let [bought, least] = [plan.bought, plan.bound].map(|b| millimetres(b.length).mm());
        let [bars, fewest] = [plan.bought.bars, plan.bound.bars];
        let proven = match plan.aim {
            Aim::LeastLength => format!(
                "no plan buys less than {least} mm, and none that buys no more than that takes \
                 fewer than {fewest} bars"
            ),
            Aim::FewestBars => format!(
                "no plan takes fewer than {fewest} bars, and none that takes no more than that \
                 buys less than {least} mm"
            ),
        };
        out.add(
            &kinds::CUTTING_NOT_PROVEN,
            "/parts/cutting",
            format!(
                "The cutting plan buys {bought} mm of rail in {bars} bars. All that is proven is \
                 that {proven}."
            ),
            [
                ("bought_mm", number(bought)),
                ("bars", number(bars as f64)),
                ("lower_bound_mm", number(least)),
                ("lower_bound_bars", number(fewest as f64)),
            ],
        );
    }
}
