//! Whether the covering keeps the water out at the pitch of the roof.

use crate::covering::watertight::{Passage, RulePitchBy, Watertight, is_flatter};
use crate::placement::Job;
use crate::units::Angle;

use super::value::{PassageName, RuleOf};
use super::{Fact, Findings, Place};

/// The pitch against rule pitch and least pitch, and what has to help below them.
pub(super) fn watertight(job: &Job, out: &mut Findings) {
    let (pitch, of) = (job.roof.pitch, &job.watertight);
    let (rule, by, stated) = (of.rule, rule_of(of.by), of.source.clone());
    if is_flatter(pitch, of.least) {
        let fact = Fact::BelowLeastPitch { pitch, least: of.least, rule, by, stated };
        out.add(Place::Covering, fact);
    } else if is_flatter(pitch, rule) {
        let of_maker = of.lower_of_maker.filter(|maker| !is_flatter(pitch, *maker));
        let fact = Fact::BelowRulePitch { pitch, rule, by, stated, of_maker };
        out.add(Place::Covering, fact);
        helped(pitch, of, out);
    } else {
        not_sure(pitch, of, out);
    }
}

/// What has to help below the rule pitch.
fn helped(pitch: Angle, of: &Watertight, out: &mut Findings) {
    let (rule, have) = (of.rule, of.underlay.as_ref().map(|(class, _)| *class));
    let need = of.underlay_needed(pitch);
    if let Some(need) = need.filter(|need| have.is_none_or(|have| have > *need)) {
        let (need, have) = (u64::from(need), have.map(u64::from));
        out.add(Place::Covering, Fact::UnderlayNotEnough { pitch, rule, need, have });
    }
    let passage = match of.passage {
        Passage::Headlap => PassageName::Headlap,
        Passage::UniversalPart => PassageName::UniversalPart,
        Passage::SystemPart => return,
    };
    out.add(Place::Covering, Fact::HooksThroughLaps { pitch, rule, passage });
}

/// Rule pitches that are met, and may not be those of this covering.
fn not_sure(pitch: Angle, of: &Watertight, out: &mut Findings) {
    let (rule, [usual, steepest]) = (of.rule, of.sheds.usual_rule_pitch());
    match (of.by, &of.source) {
        (RulePitchBy::Practice, _) if is_flatter(pitch, steepest) => {
            out.add(Place::Covering, Fact::RulePitchAssumed { pitch, rule, steepest });
        }
        (RulePitchBy::Maker, Some(stated))
            if of.agreed_in.is_none() && is_flatter(pitch, usual) =>
        {
            let stated = stated.clone();
            out.add(Place::Covering, Fact::MakersPitchAlone { pitch, rule, usual, stated });
        }
        _ => {}
    }
}

const fn rule_of(by: RulePitchBy) -> RuleOf {
    match by {
        RulePitchBy::Guild => RuleOf::Guild,
        RulePitchBy::Maker => RuleOf::Maker,
        RulePitchBy::Practice => RuleOf::Practice,
    }
}
