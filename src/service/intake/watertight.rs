//! Rule pitch, underlay, and how hooks pass through the covering.

use crate::assessment::Assumed;
use crate::covering::watertight::{Passage, RulePitchBy, Sheds, Watertight, is_flatter};
use crate::units::Angle;
use crate::wire::fault::FaultCode;
use crate::wire::roof::{Covering as WireCovering, CoveringKind};
use crate::wire::watertight::HookPassage;

use super::Notes;

const GUILD: &str = "/roof/covering/guild_pitch";
const MAKER: &str = "/roof/covering/maker_pitch";

/// What keeps the water out of a slope of this pitch.
pub fn watertight(wire: &WireCovering, pitch: Angle, notes: &mut Notes) -> Watertight {
    let sheds = sheds(wire.kind);
    let ruled = ruled(wire, notes);
    let (rule, pointer) = match &ruled {
        Ruled { by: RulePitchBy::Guild, rule, .. } => (*rule, GUILD),
        Ruled { by: RulePitchBy::Maker, rule, .. } => (*rule, MAKER),
        Ruled { by: RulePitchBy::Practice, .. } => {
            let [usual, _] = sheds.usual_rule_pitch();
            notes.note(GUILD, Assumed::RulePitch(usual));
            (usual, GUILD)
        }
    };
    let flatter = is_flatter(pitch, rule);
    // What nothing depends on is not assumed of a steeper roof.
    let least = if flatter {
        let pointer = format!("{pointer}/least_pitch_deg");
        notes.assume(&pointer, ruled.least, sheds.least_pitch(rule), Assumed::LeastPitch)
    } else {
        ruled.least.unwrap_or_else(|| sheds.least_pitch(rule))
    };
    let passage = if flatter {
        let assumed = |_| Assumed::HooksThroughLaps;
        let pointer = "/roof/covering/hook_passage";
        notes.assume(pointer, wire.hook_passage, HookPassage::Headlap, assumed)
    } else {
        wire.hook_passage.unwrap_or(HookPassage::Headlap)
    };
    Watertight {
        sheds,
        rule,
        least,
        by: ruled.by,
        source: ruled.source,
        agreed_in: ruled.agreed_in,
        lower_of_maker: ruled.lower_of_maker,
        underlay: wire.underlay.as_ref().map(|underlay| (underlay.class, underlay.source.clone())),
        passage: passage_of(passage),
    }
}

const fn sheds(kind: CoveringKind) -> Sheds {
    match kind {
        CoveringKind::PlainTileDoubleLap | CoveringKind::PlainTileCrown => Sheds::FlatTile,
        CoveringKind::SlateDoubleLap => Sheds::Slate,
        CoveringKind::Interlocking => Sheds::InterlockingTile,
    }
}

const fn passage_of(wire: HookPassage) -> Passage {
    match wire {
        HookPassage::Headlap => Passage::Headlap,
        HookPassage::UniversalPart => Passage::UniversalPart,
        HookPassage::SystemPart => Passage::SystemPart,
    }
}

/// What is said of the rule pitch; without a value where nothing is.
struct Ruled {
    by: RulePitchBy,
    rule: Angle,
    least: Option<Angle>,
    source: Option<String>,
    agreed_in: Option<String>,
    lower_of_maker: Option<Angle>,
}

/// The rule pitch that governs: the steeper of guild and maker, or the maker's where it is agreed.
fn ruled(wire: &WireCovering, notes: &mut Notes) -> Ruled {
    let guild = wire.guild_pitch.as_ref().map(|stated| Ruled {
        by: RulePitchBy::Guild,
        rule: Angle::from_deg(stated.rule_pitch_deg),
        least: least(GUILD, stated.rule_pitch_deg, stated.least_pitch_deg, notes),
        source: Some(stated.source.clone()),
        agreed_in: None,
        lower_of_maker: None,
    });
    let maker = wire.maker_pitch.as_ref().map(|stated| Ruled {
        by: RulePitchBy::Maker,
        rule: Angle::from_deg(stated.rule_pitch_deg),
        least: least(MAKER, stated.rule_pitch_deg, stated.least_pitch_deg, notes),
        source: Some(stated.source.clone()),
        agreed_in: stated.agreed_in.clone(),
        lower_of_maker: None,
    });
    match (guild, maker) {
        (None, None) => Ruled {
            by: RulePitchBy::Practice,
            rule: Angle::default(),
            least: None,
            source: None,
            agreed_in: None,
            lower_of_maker: None,
        },
        (Some(one), None) | (None, Some(one)) => one,
        (Some(guild), Some(maker)) if is_flatter(maker.rule, guild.rule) => {
            if maker.agreed_in.is_some() {
                maker
            } else {
                Ruled { lower_of_maker: Some(maker.rule), ..guild }
            }
        }
        (Some(_), Some(maker)) => maker,
    }
}

/// A least pitch that is stated, which cannot be steeper than the rule pitch stated with it.
fn least(pointer: &str, rule: f64, least: Option<f64>, notes: &mut Notes) -> Option<Angle> {
    if least.is_some_and(|least| least > rule) {
        notes.fault(
            format!("{pointer}/least_pitch_deg"),
            FaultCode::Contradiction,
            "The least pitch is steeper than the rule pitch it belongs to.",
        );
    }
    least.map(Angle::from_deg)
}
