//! Findings in English.

use crate::assessment::{
    Bound, CuttingAim, EdgeName, End, Fact, HeldBy, ObstacleUnknown, PartName, PassageName,
    PatternAsked, RafterCheck, RuleOf, RuleValue, Sense, SideName, SlopeEnd, SpliceKind,
    SplicePlace, Utilisation,
};
use crate::checks::Check;
use crate::language::{Reader, ordinal};
use crate::units::Length;

use super::{modules_named, numbers, whose};

#[expect(clippy::too_many_lines, reason = "one arm for every fact there is")]
pub(super) fn sentence(fact: &Fact, say: Reader) -> String {
    match fact {
        Fact::NoHookPattern {
            rail, candidates, pattern, free_end, element, check, utilisation, combination, bound,
        } => {
            let asked = match pattern {
                PatternAsked::Free => "",
                PatternAsked::Asked => " in the pattern asked for",
            };
            let begin = format!("No choice of hooks holds rail {rail}{asked}");
            if let Some(limit) = free_end {
                let limit = say.length(*limit);
                return format!("{begin}: it leaves an end of the rail free for more than the {limit} it may overhang.");
            }
            match (element, check, utilisation, combination) {
                (Some(element), Some(check), Some(used), Some(combination)) => format!(
                    "{begin}: even with a hook at all {candidates} places there are, {element} is overloaded: {} {} in {combination}.{}",
                    label(*check), say.utilisation(*used), limit(*bound, say)
                ),
                _ => format!("{begin}; a hook at each of the {candidates} places there are would hold it."),
            }
        }
        Fact::FreeEnd {
            rail, end, limit, free, rafter_inside, rafter_inside_x, arm, rafter_outside,
            rafter_outside_x, longer, field: _,
        } => {
            let (side, limit) = (side(*end), say.length(*limit));
            let first = match (free, rafter_inside.zip(*rafter_inside_x)) {
                (Some(free), Some((rafter, x))) => {
                    let arm = arm.map_or_else(String::new, |arm| {
                        format!(", the arm of a hook on it {}", say.length(arm))
                    });
                    format!(
                        "The first rafter inside the {side} end of rail {rail}, rafter {} at {}, is {} from that end{arm}; the rail may overhang {limit}.",
                        ordinal(rafter), say.length(x), say.length(*free)
                    )
                }
                (Some(free), None) => format!(
                    "The {side} end of rail {rail} is free for {} beyond its outermost hook; it may overhang {limit}.",
                    say.length(*free)
                ),
                (None, _) => format!("No rafter can take a hook under rail {rail}."),
            };
            let mut sentences = vec![first];
            if let Some(((rafter, x), longer)) = rafter_outside.zip(*rafter_outside_x).zip(*longer) {
                sentences.push(format!(
                    "The next one, rafter {} at {}, lies outside: the rail would reach it {} longer.",
                    ordinal(rafter), say.length(x), say.length(longer)
                ));
            }
            sentences.join(" ")
        }
        Fact::FreeEndUpSlope {
            rail, end, limit, free, course_inside, course_outside, longer, field: _,
        } => {
            let end = match end {
                SlopeEnd::Lower => "lower",
                SlopeEnd::Upper => "upper",
            };
            let inside = match free.zip(*course_inside) {
                Some((free, course)) => format!(
                    "The first hook that can hold the {end} end of rail {rail}, under course {}, is {} from that end; the rail may overhang {}.",
                    course + 1, say.length(free), say.length(*limit)
                ),
                None => format!("No course lets an arm out where rail {rail} lies."),
            };
            let outside = course_outside.zip(*longer).map(|(course, longer)| format!(
                " Under the next one, course {}, it would be held {} longer.", course + 1, say.length(longer)
            ));
            inside + &outside.unwrap_or_default()
        }
        Fact::TooFewCourses { rail, candidates } => format!(
            "Rail {rail} needs two hooks; courses an arm can come out under there: {candidates}."
        ),
        Fact::TooFewRafters { rail, candidates } => {
            format!("Rail {rail} needs two hooks; rafters that can take one there: {candidates}.")
        }
        Fact::Unstable { rail } => {
            format!("Rail {rail} is not held: its splices turn like hinges, and a piece between them has too few hooks.")
        }
        Fact::InsideObstacleClearance { obstacle, modules, gap, clearance } => format!(
            "Modules {} come within {} of obstacle {}; {} are to stay free.",
            modules_named(modules, say), say.length(*gap), ordinal(*obstacle), say.length(*clearance)
        ),
        Fact::UpperRailNotHeld { rail, lower_rails, limit } => format!(
            "No lower rails can lie so that upper rail {rail} rests on two of them and neither of its ends is free for more than {}; {lower_rails} can lie under it.",
            say.length(*limit)
        ),
        Fact::RailsOverlap { rail, other, x } => format!(
            "Rails {rail} and {other} meet at {} along the eaves.",
            say.length(*x)
        ),
        Fact::FootLongerThanBay { foot, bay, clear } => format!(
            "The foot does not fit between two battens: it is {} long, the gap is {}, and the heads of the tiles leave {} of it.",
            say.length(*foot), say.length(*bay), say.length(*clear)
        ),
        Fact::FootDoesNotFit { on_head, under_batten, reach, foot, clear, fitting_from, fitting_to } => {
            let meets = [(on_head, "on the head of the tile below"), (under_batten, "under the next batten")];
            let meets = meets.iter().filter(|(overlap, _)| **overlap > Length::ZERO);
            let meets: Vec<String> =
                meets.map(|(overlap, place)| format!("{} {place}", say.length(**overlap))).collect();
            let cure = match fitting_from.zip(*fitting_to) {
                Some((from, to)) => format!(
                    "A hook with a reach of {} to {} would fit", say.length(from), say.length(to)
                ),
                None => format!("A foot of at most {} would fit", say.length(*clear)),
            };
            format!(
                "The foot comes to stand {}, more than can be cut away: the hook cannot be fitted under this covering. {cure}; this one has a reach of {} and a foot of {}.",
                meets.join(" and "), say.length(*reach), say.length(*foot)
            )
        }
        Fact::FootOffRoof { hooks, from, to } => format!(
            "Hooks {}: the foot, {} to {} up the slope from its rail, would stand beyond the edge of the slope or on an obstacle.",
            hooks.join(", "), say.length(*from), say.length(*to)
        ),
        Fact::RailOffRoof { rail, start, end, obstacle } => {
            let what = obstacle.map_or_else(
                || "runs beyond the edge of the slope".to_owned(),
                |obstacle| format!("runs into obstacle {}", ordinal(obstacle)),
            );
            format!("Rail {rail} from {} to {} {what}.", say.length(*start), say.length(*end))
        }
        Fact::ClearanceLittleLeft { hook, left, least } => format!(
            "Under load hook {hook} comes within {} of the tile below, less than the {} that should be left: how far its foot gives is reckoned with stiffnesses from memory. Pack it higher if the screws allow it, or have the stiffness of the hook on its foot tested.",
            say.length(*left), say.length(*least)
        ),
        Fact::RailOnTile { hooks, short, need, slot } => {
            let at = slot.map_or_else(
                || "Even at the upper end of its slot".to_owned(),
                |slot| format!("Bolted {} above the lower end of its slot,", say.length(slot)),
            );
            format!(
                "{}{at} the rail lies {} too low: it needs {} above the tile below before any load.",
                whose(hooks.as_ref(), "Hooks"), say.length(*short), say.length(*need)
            )
        }
        Fact::RailLowInSlot { hooks, least, range, need } => format!(
            "{}Bolt the rail at least {} above the lower end of its slot, which is {} long: any lower, and it has less than the {} above the tile below that it needs before any load.",
            whose(hooks.as_ref(), "Hooks"), say.length(*least), say.length(*range), say.length(*need)
        ),
        Fact::NoCourse { field, row } => format!(
            "No courses lie so that both rails of row {} of field {field}, counted from the eaves, come inside the clamp zones of their modules; the rails are drawn at the quarter points, where no arm can come out.",
            *row + 1
        ),
        Fact::NoRafter { field, column } => format!(
            "No rafter lies so that both rails of column {} of field {field}, counted from the left, lie inside its clamp zones where arms leave the covering; they are drawn at the quarter points, where no hook can hold them.",
            *column + 1
        ),
        Fact::ClearanceBelowMinimum { hooks: Some(hooks), clearance, least, .. } => {
            format!("Hooks {}: the arm {}.", hooks.join(", "), too_low(*clearance, *least, say))
        }
        Fact::ClearanceBelowMinimum { hooks: None, clearance, least, highest_stack } => format!(
            "The arm {}. No packers up to {} bring it that high.",
            too_low(*clearance, *least, say), say.length(highest_stack.unwrap_or(Length::ZERO))
        ),
        Fact::ScrewTooShort { hooks, embedment, threaded, least, depth } => {
            let depth = depth.map_or_else(String::new, |depth| {
                format!(" It comes out below the rafter, which is {} deep.", say.length(depth))
            });
            format!(
                "{}The screw is too short: it reaches {} into the rafter, {} of that with thread; {} of thread are needed.{depth}",
                whose(hooks.as_ref(), "Hooks"), say.length(*embedment), say.length(*threaded), say.length(*least)
            )
        }
        Fact::ModuleOverloaded { module, sense, load, utilisation, modules, bound } => {
            let module = say.module(module);
            let way = match sense {
                Sense::Pressing => "pressing",
                Sense::Lifting => "lifting",
            };
            format!(
                "Module {module} has a {way} design load of {}: {} of what it takes.{}{}",
                say.pressure(*load), say.utilisation(*utilisation), limit(*bound, say), more_modules(*modules)
            )
        }
        Fact::ClampOverloaded { module, lift, utilisation, modules, bound } => {
            let module = say.module(module);
            format!(
                "A clamp of module {module} is lifted with {}: {} of what it takes.{}{}",
                say.force(*lift), say.utilisation(*utilisation), limit(*bound, say), more_modules(*modules)
            )
        }
        Fact::ClampSlips { module, slope, held_by, utilisation, modules, bound } => {
            let module = say.module(module);
            let what = match held_by {
                HeldBy::Stop => "stop below",
                HeldBy::Clamp => "clamp of",
            };
            format!(
                "A {what} module {module} is pushed down the slope with {}: with the lift in the same combination, {} of what it holds.{}{}",
                say.force(*slope), say.utilisation(*utilisation), limit(*bound, say), more_modules(*modules)
            )
        }
        Fact::RafterOverloaded { rafter, check, utilisation, combination, rafters } => {
            let what = match check {
                RafterCheck::Bending => "bending",
                RafterCheck::Shear => "shear",
            };
            format!(
                "Rafter {} reaches {} in {what} in {combination}; rafters over the limit: {}. No spread of the hooks that was tried brings them within it: ask a structural engineer.",
                ordinal(*rafter), say.utilisation(*utilisation), numbers(rafters, "and")
            )
        }
        Fact::RafterOverloadedBefore { rafter, check, utilisation, before, combination, rafters } => {
            let what = match check {
                RafterCheck::Bending => "bending",
                RafterCheck::Shear => "shear",
            };
            format!(
                "Rafter {} reaches {} in {what} in {combination}, and {} without the array: by this calculation the bare roof fails already. Rafters this holds for: {}. Check span, section and loads given; if they are right, ask a structural engineer.",
                ordinal(*rafter), say.utilisation(*utilisation), say.utilisation(*before), numbers(rafters, "and")
            )
        }
        Fact::HookOverloaded { element, check, utilisation, combination, others, bound }
        | Fact::ScrewOverloaded { element, check, utilisation, combination, others, bound }
        | Fact::BoltOverloaded { element, check, utilisation, combination, others, bound }
        | Fact::FootBearingOver { element, check, utilisation, combination, others, bound }
        | Fact::ClearanceCloses { element, check, utilisation, combination, others, bound }
        | Fact::RailOverloaded { element, check, utilisation, combination, others, bound }
        | Fact::SpliceOverloaded { element, check, utilisation, combination, others, bound }
        | Fact::CrossingOverloaded { element, check, utilisation, combination, others, bound }
        | Fact::RailDeflects { element, check, utilisation, combination, others, bound } => {
            over(say, (element, *check), *utilisation, combination, others, *bound)
        }
        Fact::TooFewHooks { rail, hooks } => {
            format!("Rail {rail} needs two hooks at least; it has {hooks}.")
        }
        Fact::OutsideClampZone { rail, y, x, off } => format!(
            "Rail {rail} at {} lies {} outside the clamp zone of its modules.",
            say.length(y.or(*x).unwrap_or_default()), say.length(*off)
        ),
        Fact::RowWithoutTwoRails { field, row, column, rails } => {
            let have = if *rails == 0 { "no rail" } else { "one rail only" };
            match column {
                Some(column) => format!(
                    "Modules of column {} of field {field}, counted from the left, have {have} under them.",
                    *column + 1
                ),
                None => format!(
                    "Modules of row {} of field {field}, counted from the eaves, have {have} under them.",
                    row.unwrap_or_default() + 1
                ),
            }
        }
        Fact::LongerThanContinuous { rail, length, limit } => format!(
            "Rail {rail} runs {} without a gap; {} are allowed.", say.length(*length), say.length(*limit)
        ),
        Fact::MissesRafter { hook, x, off, .. } => format!(
            "Hook {hook} at {} is taken to carry nothing: the nearest rafter is {} away. If there is a rafter under it, measure and give {}.",
            say.length(*x), say.length(*off), say.member("found.rafter_x_mm")
        ),
        Fact::OnRottenRafter { hook, rafter, .. } => format!(
            "Hook {hook} is taken to carry nothing: {} was found rotten. Take the hook off, close the roof there, and have the rafter looked at before anything else is fixed to it. In the next request leave the hook out and name the rafter in {}.",
            rafters_named(&[*rafter]), say.member("roof.rafters.barred")
        ),
        Fact::BeyondRailEnd { hook, rail, x, y } => format!(
            "Hook {hook} at {} is taken to carry nothing: rail {rail} does not reach it. If it does, measure and give {} and {}.",
            say.length(y.unwrap_or(*x)), say.member("start_mm"), say.member("end_mm")
        ),
        Fact::ArmBesideRail { hook, rail, off, limit } => format!(
            "Hook {hook} is taken to carry nothing: its arm comes out {} away from the line of rail {rail}, and more than {} is too far.",
            say.length(*off), say.length(*limit)
        ),
        Fact::OnAnotherHook { hook, rail, x } => format!(
            "Hook {hook} at {} is taken to carry nothing: another hook holds rail {rail} at the same place.",
            say.length(*x)
        ),
        Fact::FootOnAnotherFoot { hook, below, apart, need, .. } => format!(
            "Hook {hook} is taken to carry nothing: it stands only {} above hook {below} on the same rafter, and a foot is {} long.",
            say.length(*apart), say.length(*need)
        ),
        Fact::StackTooHigh { hooks, stack, limit } => format!(
            "Hooks {}: the packers are stacked {} high; {} is the most there may be.",
            hooks.join(", "), say.length(*stack), say.length(*limit)
        ),
        Fact::NoStackClearsTile { rail, hooks, by } => format!(
            "Rail {rail}: no packers are right for hooks {}; the highest stack is {} short. The survey says what would help.",
            hooks.join(", "), say.length(*by)
        ),
        Fact::RailNotStraight { rail, hooks, low, .. } if low.is_empty() => format!(
            "Rail {rail}: no packers bring hooks {} into line, as their thicknesses step further than the slots are long. The survey says what would help.",
            hooks.join(", ")
        ),
        Fact::RailNotStraight { rail, hooks, low, by } => format!(
            "Rail {rail}: hooks {} stand out too far and {} lie too low for one straight rail; the slots are {} short, whatever the packers. The survey says what would help.",
            hooks.join(", "), low.join(", "), say.length(*by)
        ),
        Fact::NotMeasured { rail, hooks } => format!(
            "Rail {rail}: clearance or level of hooks {} is not measured; {} lists what to measure.",
            hooks.join(", "), say.member("missing")
        ),
        Fact::PackingNotDecided { rail, steps } => format!(
            "Rail {rail}: {steps} steps of search found no packers and slots, and there may still be some."
        ),
        Fact::ScrewOutsideRules { hooks, embedment, threaded, clause, condition, declared } => {
            let cure = if *declared {
                "Ask for a hook whose foot places its screws so, or have the maker answer for this one."
            } else {
                "Take the withdrawal parameter from the approval of the screw."
            };
            format!(
            "{}The screw reaches {} into the rafter, {} of it threaded. {clause} covers this only where {condition}. {cure}",
                whose(hooks.as_ref(), "Hooks"), say.length(*embedment), say.length(*threaded)
            )
        }
        Fact::ScrewNearRafterEdge { hooks, have, need } => format!(
            "{}Screws stand {} from the edge of the rafter; {} are needed.",
            whose(hooks.as_ref(), "Hooks"), say.length(*have), say.length(*need)
        ),
        Fact::ScrewNearAnother { hooks, have, need } => format!(
            "{}Screws stand {} from each other along the rafter; {} are needed.",
            whose(hooks.as_ref(), "Hooks"), say.length(*have), say.length(*need)
        ),
        Fact::RafterThinForScrew { depth, least } => format!(
            "The rafter is {} deep; the rules for screws in withdrawal ask for {}. Give the spacings of the screw's approval if that allows less.",
            say.length(*depth), say.length(*least)
        ),
        Fact::SpacingsDeclared { source } => {
            format!("Distances of the screws are checked against those declared by {source}.")
        }
        Fact::BasisUnknown {} => {
            "The basis of the hook's resistances is given as unknown. Ask its maker for a test, an approval or a calculation.".to_owned()
        }
        Fact::FootRolls { hook, force, utilisation } => format!(
            "The foot of hook {hook} tends to tip sideways; holding it may put {} more on a hook, which is then used up to {}. Have the job laid out with more to spare, take a foot with its screws on the rafter's axis, or have the fixing tested.",
            say.force(*force), say.utilisation(*utilisation)
        ),
        Fact::PlateBends { hook, utilisation, combination } => format!(
            "The plate of the foot of hook {hook} would use {} of what it bears as a bar in {combination}, where its arm rises. Ask the hook's maker whether the resistance covers the plate, and for tests or an approval, or take a thicker plate.",
            say.utilisation(*utilisation)
        ),
        Fact::StrongerThanBar { declared, bar } => format!(
            "The hook is declared to bear {}, but its arm as a flat bar bears {}. Ask its maker for tests or an approval, or give what the arm really is.",
            say.force(*declared), say.force(*bar)
        ),
        Fact::StifferThanBar { declared, bar } => format!(
            "The hook is declared to have a stiffness of {} square to the roof, but its arm as a flat bar has {}. Ask its maker for tests or an approval, or give what the arm really is.",
            say.stiffness(*declared), say.stiffness(*bar)
        ),
        Fact::TestedAboveBar { declared, bar } => format!(
            "The hook is declared to bear {}, its arm as a flat bar {}: the layout rests on the tests or the approval named for it.",
            say.force(*declared), say.force(*bar)
        ),
        Fact::ResistanceOfBar {} => {
            "The hook's resistance is that of its arm as a flat bar: the joint between arm and foot and the plate of the foot are not verified. Ask its maker for the resistance of the hook.".to_owned()
        }
        Fact::StiffnessOfBar {} => {
            "The hook's stiffness is calculated: its arm as a flat bar on a foot that turns on its screws. What screws and timber give is only roughly known: ask the hook's maker for a measured stiffness, or keep more clearance.".to_owned()
        }
        Fact::RollUnderRailUpSlope { hook } => format!(
            "Screws of hook {hook} that pull stand beside the axis of its rafter, so that its foot tends to roll, and a rail up the slope does not hold it. Take a foot whose screws stand on the axis, or have a structural engineer answer for it."
        ),
        Fact::HoldAlongUnknown { slope, declared, restraint } => {
            let held = match declared {
                Some(declared) => format!("each with up to {} of the {} it is declared to hold", say.force(*slope), say.force(*declared)),
                None => format!("each with up to {}, and what a bolt holds along the groove of the rail is not known", say.force(*slope)),
            };
            let restraint = match restraint {
                Some(force) => format!("a change of temperature of 30 K adds up to {} to a hook", say.force(*force)),
                None => "a change of temperature restrains the rail, and how far hooks give down the slope is not known".to_owned(),
            };
            format!(
                "Rails up the slope are held along their axis by the bolts of all their hooks, {held}. Where bolts do not slip, {restraint}. Make each rail fast to one hook and let it slide on the others ({}), or have a structural engineer answer for it.",
                say.member("array.rails_held_by")
            )
        }
        Fact::HoldOfOneUnknown { hook, slope } => format!(
            "Each rail up the slope is held along its axis by one hook, {hook} with up to {}, and what the bolt there holds along the groove of the rail is not known. Ask the maker of the rail and give it in {}.",
            say.force(*slope), say.member("components.rail.groove_slip_kn")
        ),
        Fact::SplicePlacesUnknown {} => {
            "It is declared what a splice of the rail bears, but where the built rails are spliced is not known: their splices were not verified. A structural engineer has to look at them.".to_owned()
        }
        Fact::EventJudged {} => {
            "Verdict, checks and actions are those of the observed event, with every factor 1 and against design resistances. They say nothing of the loads the site is designed for: check the job for those by itself, and inspect the hooks that are used most.".to_owned()
        }
        Fact::StiffnessUnknown {} => {
            "The hook's stiffness square to the roof is not given: whether the arm touches the tile under load is not verified. Ask its maker for it.".to_owned()
        }
        Fact::BoltUnknown {} => {
            format!(
                "The bolt that holds the rail to the hook was not checked. Give {}, or ask the hook's maker whether its resistance includes bolt and slot ({}).",
                say.member("components.hook.bolt"), say.member("components.hook.resistance.includes_bolt")
            )
        }
        Fact::SlotSlipUnknown { normal } => format!(
            "Up to {} pull the rail along the slot of a hook, and what its bolt holds there is not given; friction is not counted on. Ask the hook's maker for it ({}).",
            say.force(*normal), say.member("components.hook.bolt.slot_slip_kn")
        ),
        Fact::InventedParts { parts, place: _ } => format!(
            "These parts are invented for demonstration: {}. Give the parts that will be used, with their maker's figures.",
            parts.join(", ")
        ),
        Fact::EdgeNotComputed { sides, edge } => {
            let sides = if sides.len() == 1 {
                format!("Side {} of the slope", numbers(sides, "and"))
            } else {
                format!("Sides {} of the slope", numbers(sides, "and"))
            };
            let what = match edge {
                EdgeName::Hip => "a hip: the wind zones along it are not computed",
                EdgeName::Valley => "a valley: the wind zones along it are not computed",
                EdgeName::Abutment => {
                    "an abutment: what the wind does beside the wall is not computed"
                }
                EdgeName::OffRectangle => {
                    "off the rectangle around the slope on which the wind zones are laid out: those along it are not computed"
                }
            };
            format!(
                "{sides}, counted along its outline: {what}. A structural engineer has to look at it; coefficients they answer for go into {}, with {} given.",
                say.member("site.wind.net_coefficients"), say.member("site.wind.model")
            )
        }
        Fact::ExceptionalSnowUnasked {} => {
            format!(
                "Whether the site calls for exceptional snow is not said, so no combination has any. Look it up in the national annex and say it in {}.",
                say.member("site.snow.exceptional")
            )
        }
        Fact::RuleStandsIn { value } => {
            let member = match value {
                RuleValue::GroundSnow => Some("site.snow.ground_load_kn_per_m2"),
                RuleValue::ExceptionalSnow => Some("site.snow.exceptional_load_kn_per_m2"),
                RuleValue::PeakPressure => Some("site.wind.peak_pressure_kn_per_m2"),
                RuleValue::WindCoefficients => Some("site.wind.net_coefficients"),
                RuleValue::SnowDrifts | RuleValue::CombinationFactors => None,
            };
            let give = member.map(|member| format!(" give the value in {},", say.member(member)));
            format!("What the national annex says of {} was not seen; what the standard recommends stands in for it, on the safe side where that is known. Look it up,{} or have somebody answer for it.", rule_value(*value), give.unwrap_or_default())
        }
        Fact::GuardNotComputed { obstacle } => format!(
            "Obstacle {} is a snow guard, and {} says that nothing holds the snow: leave that out or say that snow is held, so that the shape coefficient does not fall below 0.8.",
            ordinal(*obstacle), say.member("site.snow_held")
        ),
        Fact::DriftUnknown { sides, edge } => {
            let at = numbers(sides, "and");
            match edge {
                EdgeName::Valley => format!(
                    "Snow gathers in the valley at side {at} of the slope, counted along its outline, and is not computed: measure the pitch of the slope beyond it and give it in {}.",
                    say.member("roof.valleys")
                ),
                _ => format!(
                    "Snow drifts and slides against the wall at side {at} of the slope, counted along its outline, and is not computed: measure how high the wall stands above the covering, and how wide the roof above it is and which way it falls, and give them in {}.",
                    say.member("roof.abutments")
                ),
            }
        }
        Fact::ObstacleDriftUnknown { obstacle, unknown } => match unknown {
            ObstacleUnknown::Height => format!(
                "Obstacle {} is wide enough for snow to drift against it, beside modules, and its height is not given: measure how far it stands out above the covering and give it as {}.",
                ordinal(*obstacle), say.member_at("roof.obstacles.*.height_mm", *obstacle)
            ),
            ObstacleUnknown::Drift => format!(
                "Obstacle {} is high and wide enough for snow to drift against it, beside modules; the rule for it is for nearly flat roofs only. A structural engineer has to give {}.",
                ordinal(*obstacle), say.member_at("roof.obstacles.*.drift_shape_factor", *obstacle)
            ),
        },
        Fact::EdgeWindOnRafters { sides } => format!(
            "The coefficients given are for modules. The wind on the bare covering along side {} of the slope, counted along its outline, is not computed: a structural engineer has to look at the rafters there.",
            numbers(sides, "and")
        ),
        Fact::RafterCut { obstacle, rafters, beside, hooks_on, stated } => {
            let obstacle = ordinal(*obstacle);
            let [cut, beside, hooks] = [rafters, beside, hooks_on].map(|of| rafters_named(of));
            if *stated {
                format!(
                    "Obstacle {obstacle} cuts {cut}: trimmers lay what is cut on {beside}. Hooks stand on {hooks}; how span and load change is not computed. A structural engineer has to look at that."
                )
            } else {
                format!(
                    "Whether obstacle {obstacle} cuts {cut} is not given. Look in the loft and say which rafters are cut, or that none is. Hooks stand on {hooks}; trimmers would lay what is cut on {beside}, and a structural engineer would have to look at span and load."
                )
            }
        }
        Fact::RafterSplit { rafters } => format!(
            "Hooks stand on {}, found split. What screws hold in split timber is not computed, and neither is what is left of the rafter: a structural engineer has to look at it, or the rafter is doubled or replaced.",
            rafters_named(rafters)
        ),
        Fact::InsulationUnderFoot {} => {
            "The screws cross insulation: the counter-batten must pass the load on by itself, which is for a structural engineer.".to_owned()
        }
        Fact::RaftersUnmeasured { places, step, failing } => format!(
            "Where the rafters stand is not measured: this is a layout to order from, not to build. Of {places} places of the first rafter, one every {}, {failing} fail; of places between them nothing is said. Measure every rafter before anything is fixed.",
            say.length(*step)
        ),
        Fact::RafterTrussed {} => {
            "The rafters are chords of nail-plate trusses. A screw may weaken a chord and hooks load it where it was not designed for that; the rules applied here do not cover it. The designer of the trusses has to agree to both.".to_owned()
        }
        Fact::RafterNotVerified {} => {
            format!(
                "No rafter span is given, so the rafters themselves are not verified. Measure the longest free length along the slope between supports and give it as {}.",
                say.member("roof.rafters.span_m")
            )
        }
        Fact::SidewaysEdge { offset, angle, have, need } => format!(
            "With the arm {} off the axis a screw's load points {} off the grain; it stands {} from the edge of the rafter where {} are needed. Give the distances of the screw's approval if they allow less.",
            say.length(*offset), say.angle(*angle), say.length(*have), say.length(*need)
        ),
        Fact::ClampSlipUnknown { slope, modules } => format!(
            "What a clamp holds down the slope is not given, so slip of {modules} modules was not checked; up to {} act on one clamp. Give {} from the maker's data, or for a single row {} where it stands on stops.",
            say.force(*slope), say.member("components.clamp.slope_kn"), say.member("components.clamp.slope_stop_kn")
        ),
        Fact::SpliceForceUnknown { rail, force } => format!(
            "Bars of rail {rail} meet, and along it act up to {}: what force along its axis a splice passes on is not known.",
            say.force(*force)
        ),
        Fact::CrossingUnknown { crossings, lift, slide } => format!(
            "Upper rails cross lower ones in {crossings} places, where up to {} lift them off and up to {} act along the lower rail: what the connectors bear is not known.",
            say.force(*lift), say.force(*slide)
        ),
        Fact::ShortSideZoneUnknown { field, place } => format!(
            "The modules of field {field} lie landscape and are clamped on their short sides; give {}.",
            say.member_of_module("short_side_clamp_zone_mm", *place)
        ),
        Fact::SlotNearlyUsedUp { hook, left } => format!(
            "Hook {hook}: the bolt comes to sit {} from the end of its slot. A packer more or less there, or a rail line set anew, leaves more to adjust.",
            say.length(*left)
        ),
        Fact::PackingNotProven { rail, packing, bound } => format!(
            "Rail {rail}: {} of packers in all bring it straight. Fewer may do, down to {}: the search ended before that was settled.",
            say.length(*packing), say.length(*bound)
        ),
        Fact::SpliceOutsideRules { rail, at, splice, .. }
        | Fact::SpliceInMiddleThird { rail, at, splice, .. } => {
            let place = match at {
                SplicePlace::MiddleThird => "in the middle third of a span",
                SplicePlace::EndSpan => "in an end span, a piece on a single hook",
                SplicePlace::FreeEnd => "in a free end, a piece without hooks",
                SplicePlace::HookOrClamp => "at a hook or under a clamp",
            };
            let cure = match splice {
                SpliceKind::Hinge => {
                    "Its splices are hinges and stand where the statics counted on them."
                }
                SpliceKind::Stiff => {
                    "No cutting of the rail avoids it."
                }
            };
            format!("A splice of rail {rail} lies {place}. {cure}")
        }
        Fact::EarlierRevision { asked, today } => format!(
            "The values are those of revision {asked}, which {today} has replaced: they serve to follow a past job. Judge what stands or is to be built by {today}."
        ),
        Fact::BelowLeastPitch { pitch, least, rule, by, stated } => format!(
            "The roof has a pitch of {}; such a covering may not be laid flatter than {}, whatever lies under it. Its rule pitch is {} ({}). Another covering is needed, and a roofer has to say which.",
            say.angle(*pitch), say.angle(*least), say.angle(*rule), whose_rule(*by, stated.as_ref())
        ),
        Fact::BelowRulePitch { pitch, rule, by, stated, of_maker } => {
            let agree = of_maker.map_or_else(String::new, |maker| {
                format!(
                    " The maker states {}: where the contract agrees that, name it in {}.",
                    say.angle(maker), say.member("roof.covering.maker_pitch.agreed_in")
                )
            });
            format!(
                "The roof has a pitch of {}, less than the rule pitch of its covering of {} ({}): what lies under it has to keep the water out. Have a roofer look at it.{agree}",
                say.angle(*pitch), say.angle(*rule), whose_rule(*by, stated.as_ref())
            )
        }
        Fact::RulePitchAssumed { pitch, rule, steepest } => format!(
            "The roof has a pitch of {}. No rule pitch is given; {} is assumed, and some coverings of this kind have up to {}. Look up that of this tile and give it as {} or {}.",
            say.angle(*pitch), say.angle(*rule), say.angle(*steepest),
            say.member("roof.covering.guild_pitch"), say.member("roof.covering.maker_pitch")
        ),
        Fact::MakersPitchAlone { pitch, rule, usual, stated } => format!(
            "The roof has a pitch of {}. The maker states a rule pitch of {} ({stated}), less than the {} that is usual for such coverings: agree it in the contract and name that in {}, or give {}.",
            say.angle(*pitch), say.angle(*rule), say.angle(*usual),
            say.member("roof.covering.maker_pitch.agreed_in"), say.member("roof.covering.guild_pitch")
        ),
        Fact::UnderlayNotEnough { pitch, rule, need, have } => {
            let there = match have {
                Some(class) => format!("that of class {class} is not enough: put one under the covering that is"),
                None => format!(
                    "which one there is is not given: open the roof, look, and give it as {}",
                    say.member("roof.covering.underlay")
                ),
            };
            format!(
                "At a pitch of {} and a rule pitch of {} the covering needs an underlay or sub-roof of class {need} or tighter; {there}.",
                say.angle(*pitch), say.angle(*rule)
            )
        }
        Fact::HooksThroughLaps { pitch, rule, passage } => {
            let passage = match passage {
                PassageName::Headlap => "through the laps of the tiles",
                PassageName::UniversalPart => "through a part that fits this tile only roughly",
            };
            format!(
                "At a pitch of {}, below the rule pitch of {}, no hook may pass {passage}: use parts made for this tile and say so in {}.",
                say.angle(*pitch), say.angle(*rule), say.member("roof.covering.hook_passage")
            )
        }
        Fact::InsideEdgeDistance { part, edge, side, element, have, need, stated } => {
            let element = say.module(element);
            format!(
                "{} {element} lies {} from the {} at side {}; {} are needed ({stated}). Move the field or take modules away.",
                part_named(*part), say.length(*have), edge_named(*edge), ordinal(*side), say.length(*need)
            )
        }
        Fact::NearEdge { edge, side, element, have, need } => {
            let element = say.module(element);
            format!(
                "Module {element} lies {} from the {} at side {}; {} are usual. Ask what the maker of the rails and local rules allow, and give that in {}.",
                say.length(*have), edge_named(*edge), ordinal(*side), say.length(*need),
                say.member("roof.edge_distances")
            )
        }
        Fact::InsideFireDistance { side, part, element, have, need, stated } => {
            let element = say.module(element);
            format!(
                "{} {element} lies {} from the party wall at side {}; {} are needed for the sake of fire ({stated}). Move the field or take modules away.",
                part_named(*part), say.length(*have), ordinal(*side), say.length(*need)
            )
        }
        Fact::FireDistanceUnknown { side, element, have } => {
            let element = say.module(element);
            format!(
                "{element} lies {} from the party wall at side {}, and how far an array has to stay from it is not given. Look it up in the building regulations that hold there and give it with its source as {} in {}.",
                say.length(*have), ordinal(*side),
                say.member("fire_distance"), say.member("roof.party_walls")
            )
        }
        Fact::ValuesAssumed { values } => format!(
            "These values are marked as assumed; nobody has looked: {}. Measure them.",
            say.pointers(values)
        ),
        Fact::ValuesInferred { values } => format!(
            "These values are marked as inferred, not measured: {}. Confirm them on the roof.",
            say.pointers(values)
        ),
        Fact::SearchLimit { rail, segment, weighed, lower_bound, hooks } => format!(
            "The search on {} stopped after {weighed} hook patterns; at least {lower_bound} hooks are needed there, {hooks} are used.",
            stretch(rail, *segment)
        ),
        Fact::ArmOffAxis { offset } => format!(
            "Arms stand up to {} off the rafter axis, within the range of the foot; the screws are checked for it. The hook's declared resistance and stiffness are taken to hold within that range.",
            say.length(*offset)
        ),
        Fact::ArmBeyondRange { hooks, offset, range } => format!(
            "Hooks {}: the arm stands up to {} off the rafter axis, and the foot is made for {}. Check that the hook's declared resistance and stiffness hold for it.",
            hooks.join(", "), say.length(*offset), say.length(*range)
        ),
        Fact::FootTightInBay { foot, clear, lower, trim_head, trim_batten, rail, y, .. } => format!(
            "The foot is {} long and only {} are clear between the head of a tile and the next batten: {}.{}",
            say.length(*foot), say.length(*clear), work(say, *lower, *trim_head, *trim_batten),
            set_lower(say, *lower, rail, *y)
        ),
        Fact::FootMeetsBattenOrTile { beyond, lower, trim_head, trim_batten, rail, y } => format!(
            "With the bolt {} below the edge of the tile over the arm, the foot does not fit freely between tile and batten: {}.{}",
            say.length(*beyond), work(say, *lower, *trim_head, *trim_batten),
            set_lower(say, *lower, rail, *y)
        ),
        Fact::ArmAlongJoint { hooks, .. } => format!(
            "Hooks {}: the arm lies along a side joint of the tiles below it. A substitute tile under the arm, or an arm nearer to the joint above, covers it.",
            hooks.join(", ")
        ),
        Fact::NotchDeeperThanTile { room, tile } => format!(
            "The arm with its clearances takes up {}, and the tile above is only {} thick: a notch would cut right through it. Use metal substitute tiles.",
            say.length(*room), say.length(*tile)
        ),
        Fact::ProfileMustTakeArm { room, tile } => format!(
            "The arm with its clearances takes up {} over the trough; the tile above is {} thick. Hold a hook against a tile: where its profile leaves less room, let the arm in or use metal substitute tiles.",
            say.length(*room), say.length(*tile)
        ),
        Fact::CounterBattenEdge { width, have, need, width_needed, predrilling_helps } => {
            let drill = if *predrilling_helps { "Drill their holes first, or use one" } else { "Use one" };
            format!(
                "Screws stand {} from the edge of a counter-batten {} wide; {} are asked for. {drill} at least {} wide.",
                say.length(*have), say.length(*width), say.length(*need), say.length(*width_needed)
            )
        }
        Fact::ScrewLongerThanRafter { hooks, reach, depth } => format!(
            "{}The screw reaches {} below the face of a rafter {} deep; what stands out holds nothing.",
            whose(hooks.as_ref(), "Hooks"), say.length(*reach), say.length(*depth)
        ),
        Fact::AddedLoad { share } => format!(
            "The array adds up to {} to the permanent load of a rafter. Ask whether the structure needs an engineer's proof.",
            say.percent(share.0)
        ),
        Fact::RuleFromMemory { value } => {
            format!("What the national annex says of {} is written from memory; check it against the printed annex.", rule_value(*value))
        }
        Fact::SnowFromMemory {} => {
            "The ground snow follows EN 1991-1-3 Annex C as remembered; check it against the printed map and table.".to_owned()
        }
        Fact::PlanMismatch { outline, expected } => format!(
            "By its outline the slope runs {} in plan; by the building's width it would run {}. The wind zones follow the outline.",
            say.distance(*outline), say.distance(*expected)
        ),
        Fact::ExpansionGapNeedsRoom { field, limit, gap, need, fields } => format!(
            "Rails of field {field} are longer than {} and are cut between two modules. The rail ends, the end clamps and the expansion gap need {} there; the columns stand {} apart. Make {fields} fields of it, {} apart.",
            say.length(*limit), say.length(*need), say.length(*gap), say.length(*need)
        ),
        Fact::ClampGapDiffers { field, gap, clamp } => format!(
            "The columns of field {field} are planned {} apart; the mid clamp sets them {} apart.",
            say.length(*gap), say.length(*clamp)
        ),
        Fact::OffCourseLine { rail, y, off } => format!(
            "Rail {rail} at {} lies more than {} from where arms leave a regular covering; look at the courses under it.",
            say.length(*y), say.length(*off)
        ),
        Fact::OffRafterLine { rail, x, beside, range, off } => format!(
            "Rail {rail} at {}: its arms stand {} beside the axis of their rafter, and no arm can come out of the covering within {} of there. Arms may stand up to {} off the axis.",
            say.length(*x), say.length(*beside), say.length(*off), say.length(*range)
        ),
        Fact::OffCourse { hooks, off } => format!(
            "Hooks {} stand more than {} from where their arms leave a regular covering; look at the courses under them.",
            hooks.join(", "), say.length(*off)
        ),
        Fact::ArmBesideTrough { hooks, beside, limit } => format!(
            "Hooks {}: the arm leaves its course up to {} beside a trough; up to {} it is taken to lie in it. Look at the tiles there.",
            hooks.join(", "), say.length(*beside), say.length(*limit)
        ),
        Fact::EndShorterThanClamp { have, need } => format!(
            "Rails run {} beyond the outer modules; an end clamp needs {}.",
            say.length(*have), say.length(*need)
        ),
        Fact::RailRunsOn { rails, longest } => format!(
            "Rails {} run on beyond the modules to the next rafter, by up to {}: no rafter under the modules can hold their ends. The hooks there stand in the open.",
            rails.join(", "), say.length(*longest)
        ),
        Fact::CuttingNotProven { aim, bought, bars, least, fewest } => {
            let least = say.length(*least);
            let proven = match aim {
                CuttingAim::LeastLength => format!(
                    "no plan buys less than {least}, and none that buys no more than that takes fewer than {fewest} bars"
                ),
                CuttingAim::FewestBars => format!(
                    "no plan takes fewer than {fewest} bars, and none that takes no more than that buys less than {least}"
                ),
            };
            format!(
                "The cutting plan buys {} of rail in {bars} bars. A better plan may exist; what is proven is that {proven}.",
                say.length(*bought)
            )
        }
        Fact::NotRanked { rail, segment, hooks } => format!(
            "{hooks} hooks hold {}, and no fewer would. Another choice of as many may be loaded less: the search for it was not taken to its end.",
            stretch(rail, *segment)
        ),
        Fact::SpreadForRafters { rail, segment, lower_bound, hooks } => format!(
            "By itself {} would hold on {lower_bound} hooks, but they would overload a rafter: it has {hooks}.",
            stretch(rail, *segment)
        ),
        Fact::RailsBearOnEachOther { field, lower_rails, hooks } => format!(
            "The {hooks} hooks on {lower_rails} lower rails of field {field} were found with both layers of rails solved together, rail by rail; that fewer would not do is not proven."
        ),
        Fact::SameRaftersCost { hooks, in_any_pattern } if hooks > in_any_pattern => format!(
            "All rails of a field have their hooks on the same rafters, {hooks} in all; in any pattern {in_any_pattern} would do."
        ),
        Fact::SameRaftersCost { hooks, in_any_pattern } => format!(
            "All rails of a field have their hooks on the same rafters, {hooks} in all; in any pattern {in_any_pattern} were found, so that this costs no hook."
        ),
        Fact::DeclaredInVain { check, who } => format!(
            "{who} answers for {check}, which this job does not lack: the declaration changes nothing here."
        ),
        Fact::NoTroughInReach { rafters, range } => format!(
            "No trough lies within {} of the axis of {}.", say.length(*range), rafters_named(rafters)
        ),
    }
}

/// A check over its limit.
fn over(
    say: Reader,
    (element, check): (&str, Check),
    used: Utilisation,
    combination: &str,
    others: &[String],
    bound: Option<Bound>,
) -> String {
    let others = if others.is_empty() {
        String::new()
    } else {
        format!(" Over the limit as well: {}.", others.join(", "))
    };
    format!(
        "{element}: {} {} in {combination}.{}{others}",
        label(check),
        say.utilisation(used),
        limit(bound, say)
    )
}

/// A check in words.
pub(super) const fn label(check: Check) -> &'static str {
    match check {
        Check::Hook => "hook strength",
        Check::Bolt => "rail bolt and its slot",
        Check::Screws => "screws",
        Check::FootBearing => "timber under the foot",
        Check::Clearance => "clearance under load",
        Check::RailBending => "bending of the rail",
        Check::RailDeflection => "deflection of the rail",
        Check::Splice => "bending of a splice",
        Check::Crossing => "connectors of crossing rails",
        Check::Module => "module",
        Check::Clamp => "clamps",
        Check::ClampSlip => "slip of clamps",
        Check::Rafter => "rafter",
    }
}

fn limit(bound: Option<Bound>, say: Reader) -> String {
    bound.map_or_else(String::new, |bound| {
        format!(" No more than {} was asked for.", say.limit(bound.0))
    })
}

fn more_modules(modules: usize) -> String {
    match modules {
        0 | 1 => String::new(),
        modules => format!(" {} more modules exceed the limit.", modules - 1),
    }
}

/// How an arm stands to the tile below it, as the rest of a sentence.
fn too_low(clearance: Length, least: Length, say: Reader) -> String {
    let by = say.length(least - clearance);
    let least = say.length(least);
    if clearance < Length::ZERO {
        let below = say.length(-1.0 * clearance);
        format!(
            "is {by} too low: it would lie {below} below the top of the tile under it, and has to stand {least} above"
        )
    } else {
        let clearance = say.length(clearance);
        format!(
            "is {by} too low: it stands {clearance} above the tile below, and {least} are asked for"
        )
    }
}

const fn side(end: End) -> &'static str {
    match end {
        End::Left => "left",
        End::Right => "right",
    }
}

/// What is to be done for a foot, as the rest of a sentence.
fn work(say: Reader, lower: Length, trim_head: Length, trim_batten: Length) -> String {
    let steps = [
        (lower, format!("hooks and rail stand {} lower on the slope", say.length(lower))),
        (trim_head, format!("cut {} off the head of the tile below", say.length(trim_head))),
        (
            trim_batten,
            format!("cut {} out of the lower edge of the batten above it", say.length(trim_batten)),
        ),
    ];
    let needed = steps.into_iter().filter(|(length, _)| *length > Length::ZERO);
    needed.map(|(_, step)| step).collect::<Vec<_>>().join(", and ")
}

/// A rail, or a segment of it.
fn stretch(rail: &str, segment: Option<usize>) -> String {
    match segment {
        Some(number) => format!("segment {number} of rail {rail}"),
        None => format!("rail {rail}"),
    }
}

/// Where a rail that is set lower comes to lie; nothing where none is.
fn set_lower(say: Reader, lower: Length, rail: &str, y: Option<Length>) -> String {
    match y {
        _ if lower <= Length::ZERO => String::new(),
        Some(y) => format!(" The y of rail {rail}, {}, already allows for that.", say.length(y)),
        None => format!(" The y of the hooks of rail {rail} already allow for that."),
    }
}

fn rafters_named(rafters: &[usize]) -> String {
    match rafters {
        [] => "nothing".to_owned(),
        [one] => format!("rafter {}", ordinal(*one)),
        several => format!("rafters {}", numbers(several, "and")),
    }
}

fn whose_rule(by: RuleOf, stated: Option<&String>) -> String {
    let whose = match by {
        RuleOf::Guild => "of the trade's rules",
        RuleOf::Maker => "of the maker",
        RuleOf::Practice => "common practice, none is given",
    };
    stated.map_or_else(|| whose.to_owned(), |stated| format!("{whose}: {stated}"))
}

const fn part_named(part: PartName) -> &'static str {
    match part {
        PartName::Modules => "Module",
        PartName::Rails => "Rail",
        PartName::Hooks => "Hook",
    }
}

const fn edge_named(edge: SideName) -> &'static str {
    match edge {
        SideName::Eaves => "eaves",
        SideName::Verge => "verge",
        SideName::Ridge => "ridge",
        SideName::Hip => "hip",
        SideName::Valley => "valley",
        SideName::Abutment => "abutment",
        SideName::PartyWall => "party wall",
    }
}

/// What the rules of a country say something of.
const fn rule_value(value: RuleValue) -> &'static str {
    match value {
        RuleValue::GroundSnow => "snow on the ground",
        RuleValue::ExceptionalSnow => "exceptional snow",
        RuleValue::PeakPressure => "the peak pressure of the wind",
        RuleValue::WindCoefficients => "the pressure coefficients of this roof",
        RuleValue::CombinationFactors => "the factors of combinations",
        RuleValue::SnowDrifts => "snow that drifts against walls and obstacles",
    }
}
