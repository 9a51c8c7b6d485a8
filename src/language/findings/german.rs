//! Findings in German.

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
                PatternAsked::Asked => " in der verlangten Anordnung",
            };
            let begin = format!("Keine Auswahl von Dachhaken hält Schiene {rail}{asked}");
            if let Some(limit) = free_end {
                let limit = say.length(*limit);
                return format!("{begin}: Ein Ende der Schiene kragt weiter aus als die erlaubten {limit}.");
            }
            match (element, check, utilisation, combination) {
                (Some(element), Some(check), Some(used), Some(combination)) => format!(
                    "{begin}: Selbst mit Haken an allen {candidates} möglichen Stellen ist {element} überlastet: {} {} in {combination}.{}",
                    label(*check), say.utilisation(*used), limit(*bound, say)
                ),
                _ => format!("{begin}; Haken an allen {candidates} möglichen Stellen würden sie halten."),
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
                        format!(", der Arm eines Hakens darauf {}", say.length(arm))
                    });
                    format!(
                        "Der erste Sparren innerhalb des {side} Endes von Schiene {rail}, Sparren {} bei {}, liegt {} von diesem Ende{arm}; die Schiene darf {limit} auskragen.",
                        ordinal(rafter), say.length(x), say.length(*free)
                    )
                }
                (Some(free), None) => format!(
                    "Am {side} Ende kragt Schiene {rail} {} über ihren äußersten Haken aus; erlaubt sind {limit}.",
                    say.length(*free)
                ),
                (None, _) => format!("Unter Schiene {rail} kann kein Sparren einen Dachhaken aufnehmen."),
            };
            let mut sentences = vec![first];
            if let Some(((rafter, x), longer)) = rafter_outside.zip(*rafter_outside_x).zip(*longer) {
                sentences.push(format!(
                    "Der nächste, Sparren {} bei {}, liegt außerhalb: Um {} länger würde die Schiene ihn erreichen.",
                    ordinal(rafter), say.length(x), say.length(longer)
                ));
            }
            sentences.join(" ")
        }
        Fact::FreeEndUpSlope {
            rail, end, limit, free, course_inside, course_outside, longer, field: _,
        } => {
            let end = match end {
                SlopeEnd::Lower => "untere",
                SlopeEnd::Upper => "obere",
            };
            let inside = match free.zip(*course_inside) {
                Some((free, course)) => format!(
                    "Der erste Dachhaken, der das {end} Ende von Schiene {rail} halten kann, unter Ziegelreihe {}, liegt {} von diesem Ende; die Schiene darf {} auskragen.",
                    course + 1, say.length(free), say.length(*limit)
                ),
                None => format!("Wo Schiene {rail} liegt, lässt keine Ziegelreihe einen Arm austreten."),
            };
            let outside = course_outside.zip(*longer).map(|(course, longer)| format!(
                " Unter der nächsten, Ziegelreihe {}, wäre sie {} länger gehalten.", course + 1, say.length(longer)
            ));
            inside + &outside.unwrap_or_default()
        }
        Fact::TooFewCourses { rail, candidates } => format!(
            "Schiene {rail} braucht zwei Dachhaken; Ziegelreihen, unter denen dort ein Arm austreten kann: {candidates}."
        ),
        Fact::TooFewRafters { rail, candidates } => format!(
            "Schiene {rail} braucht zwei Dachhaken; Sparren, die dort einen aufnehmen können: {candidates}."
        ),
        Fact::Unstable { rail } => {
            format!("Schiene {rail} ist nicht gehalten: Ihre Stöße drehen sich wie Gelenke, und ein Stück dazwischen hat zu wenige Dachhaken.")
        }
        Fact::InsideObstacleClearance { obstacle, modules, gap, clearance } => format!(
            "Module {} kommen Hindernis {} auf {} nahe; {} sind freizuhalten.",
            modules_named(modules, say), ordinal(*obstacle), say.length(*gap), say.length(*clearance)
        ),
        Fact::UpperRailNotHeld { rail, lower_rails, limit } => format!(
            "Untere Schienen können nicht so liegen, dass die obere Schiene {rail} auf zweien davon ruht und an keinem Ende weiter als {} auskragt; {lower_rails} können unter ihr liegen.",
            say.length(*limit)
        ),
        Fact::RailsOverlap { rail, other, x } => format!(
            "Schienen {rail} und {other} treffen bei {} entlang der Traufe aufeinander.",
            say.length(*x)
        ),
        Fact::FootLongerThanBay { foot, bay, clear } => format!(
            "Die Grundplatte passt nicht zwischen zwei Traglatten: Sie ist {} lang, der Zwischenraum {}, und die Ziegelköpfe lassen davon {} frei.",
            say.length(*foot), say.length(*bay), say.length(*clear)
        ),
        Fact::FootDoesNotFit { on_head, under_batten, reach, foot, clear, fitting_from, fitting_to } => {
            let meets = [(on_head, "auf dem Kopf des unteren Ziegels"), (under_batten, "unter der nächsten Traglatte")];
            let meets = meets.iter().filter(|(overlap, _)| **overlap > Length::ZERO);
            let meets: Vec<String> =
                meets.map(|(overlap, place)| format!("{} {place}", say.length(**overlap))).collect();
            let cure = match fitting_from.zip(*fitting_to) {
                Some((from, to)) => format!(
                    "Ein Haken mit einer Ausladung von {} bis {} würde passen", say.length(from), say.length(to)
                ),
                None => format!("Eine Grundplatte von höchstens {} würde passen", say.length(*clear)),
            };
            format!(
                "Die Grundplatte stünde {}, mehr als sich wegschneiden lässt: Der Haken passt nicht unter diese Deckung. {cure}; dieser hat eine Ausladung von {} und eine Grundplatte von {}.",
                meets.join(" und "), say.length(*reach), say.length(*foot)
            )
        }
        Fact::FootOffRoof { hooks, from, to } => format!(
            "Dachhaken {}: Die Grundplatte, {} bis {} über der Schiene, stünde außerhalb der Dachfläche oder auf einem Hindernis.",
            hooks.join(", "), say.length(*from), say.length(*to)
        ),
        Fact::RailOffRoof { rail, start, end, obstacle } => {
            let what = obstacle.map_or_else(
                || "läuft über den Rand der Dachfläche hinaus".to_owned(),
                |obstacle| format!("läuft in Hindernis {}", ordinal(obstacle)),
            );
            format!("Schiene {rail} von {} bis {} {what}.", say.length(*start), say.length(*end))
        }
        Fact::ClearanceLittleLeft { hook, left, least } => format!(
            "Unter Last kommt Dachhaken {hook} dem unteren Ziegel auf {} nahe; {} sollten bleiben, denn wie weit seine Grundplatte nachgibt, ist mit Steifigkeiten aus dem Gedächtnis gerechnet. Höher unterlegen, wenn die Schrauben es zulassen, oder die Steifigkeit des Hakens auf seiner Grundplatte prüfen lassen.",
            say.length(*left), say.length(*least)
        ),
        Fact::RailOnTile { hooks, short, need, slot } => {
            let at = slot.map_or_else(
                || "Selbst am oberen Ende ihres Langlochs".to_owned(),
                |slot| format!("Mit ihrer Schraube {} über dem unteren Ende des Langlochs", say.length(slot)),
            );
            format!(
                "{}{at} liegt die Schiene {} zu tief: Unbelastet braucht sie {} über dem Ziegel darunter.",
                whose(hooks.as_ref(), "Dachhaken"), say.length(*short), say.length(*need)
            )
        }
        Fact::RailLowInSlot { hooks, least, range, need } => format!(
            "{}Die Schiene mindestens {} über dem unteren Ende ihres Langlochs von {} Länge verschrauben: Tiefer bleiben ihr unbelastet weniger als die nötigen {} über dem Ziegel darunter.",
            whose(hooks.as_ref(), "Dachhaken"), say.length(*least), say.length(*range), say.length(*need)
        ),
        Fact::NoCourse { field, row } => format!(
            "Keine Ziegelreihe liegt so, dass Schienen in beiden Klemmbereichen von Modulreihe {} des Feldes {field}, von der Traufe gezählt, liegen können; sie sind an den Viertelspunkten gezeichnet, wo kein Arm austreten kann.",
            *row + 1
        ),
        Fact::NoRafter { field, column } => format!(
            "Kein Sparren liegt so, dass beide Schienen von Modulspalte {} des Feldes {field}, von links gezählt, in ihren Klemmbereichen liegen, wo Arme austreten können; sie sind an den Viertelspunkten gezeichnet, wo kein Dachhaken sie hält.",
            *column + 1
        ),
        Fact::ClearanceBelowMinimum { hooks: Some(hooks), clearance, least, .. } => {
            format!("Dachhaken {}: Der Arm {}.", hooks.join(", "), too_low(*clearance, *least, say))
        }
        Fact::ClearanceBelowMinimum { hooks: None, clearance, least, highest_stack } => format!(
            "Der Arm {}. Keine Unterlegplatten bis {} bringen ihn so hoch.",
            too_low(*clearance, *least, say), say.length(highest_stack.unwrap_or(Length::ZERO))
        ),
        Fact::ScrewTooShort { hooks, embedment, threaded, least, depth } => {
            let depth = depth.map_or_else(String::new, |depth| {
                format!(" Sie tritt unten aus dem Sparren aus, der {} hoch ist.", say.length(depth))
            });
            format!(
                "{}Die Schraube ist zu kurz: Sie reicht {} in den Sparren, davon {} mit Gewinde; nötig sind {} Gewinde.{depth}",
                whose(hooks.as_ref(), "Dachhaken"), say.length(*embedment), say.length(*threaded), say.length(*least)
            )
        }
        Fact::ModuleOverloaded { module, sense, load, utilisation, modules, bound } => {
            let module = say.module(module);
            let way = match sense {
                Sense::Pressing => "drückende",
                Sense::Lifting => "abhebende",
            };
            format!(
                "Auf Modul {module} wirkt eine {way} Bemessungslast von {}: {} dessen, was es trägt.{}{}",
                say.pressure(*load), say.utilisation(*utilisation), limit(*bound, say), more_modules(*modules)
            )
        }
        Fact::ClampOverloaded { module, lift, utilisation, modules, bound } => {
            let module = say.module(module);
            format!(
                "Eine Klemme von Modul {module} wird mit {} abgehoben: {} dessen, was sie hält.{}{}",
                say.force(*lift), say.utilisation(*utilisation), limit(*bound, say), more_modules(*modules)
            )
        }
        Fact::ClampSlips { module, slope, held_by, utilisation, modules, bound } => {
            let module = say.module(module);
            let what = match held_by {
                HeldBy::Stop => "Ein Anschlag unter",
                HeldBy::Clamp => "Eine Klemme von",
            };
            format!(
                "{what} Modul {module} wird mit {} dachabwärts gedrückt: zusammen mit dem Sog derselben Kombination {} dessen, was gehalten wird.{}{}",
                say.force(*slope), say.utilisation(*utilisation), limit(*bound, say), more_modules(*modules)
            )
        }
        Fact::RafterOverloaded { rafter, check, utilisation, combination, rafters } => {
            let what = match check {
                RafterCheck::Bending => "auf Biegung",
                RafterCheck::Shear => "auf Schub",
            };
            format!(
                "Sparren {} ist {what} zu {} ausgelastet, in {combination}; Sparren über der Grenze: {}. Keine versuchte Verteilung der Haken bringt sie darunter: Tragwerksplanung fragen.",
                ordinal(*rafter), say.utilisation(*utilisation), numbers(rafters, "und")
            )
        }
        Fact::RafterOverloadedBefore { rafter, check, utilisation, before, combination, rafters } => {
            let what = match check {
                RafterCheck::Bending => "auf Biegung",
                RafterCheck::Shear => "auf Schub",
            };
            format!(
                "Sparren {} ist {what} zu {} ausgelastet, in {combination}, und ohne die Anlage zu {}: Nach dieser Rechnung versagt schon das unbelegte Dach. Betroffene Sparren: {}. Spannweite, Querschnitt und Lasten prüfen; stimmen sie, die Tragwerksplanung fragen.",
                ordinal(*rafter), say.utilisation(*utilisation), say.utilisation(*before), numbers(rafters, "und")
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
            format!("Schiene {rail} braucht mindestens zwei Dachhaken; sie hat {hooks}.")
        }
        Fact::OutsideClampZone { rail, y, x, off } => format!(
            "Schiene {rail} bei {} liegt {} außerhalb des Klemmbereichs ihrer Module.",
            say.length(y.or(*x).unwrap_or_default()), say.length(*off)
        ),
        Fact::RowWithoutTwoRails { field, row, column, rails } => {
            let have = if *rails == 0 { "keine Schiene" } else { "nur eine Schiene" };
            match column {
                Some(column) => format!(
                    "Unter Modulen von Spalte {} des Feldes {field}, von links gezählt, liegt {have}.",
                    *column + 1
                ),
                None => format!(
                    "Unter Modulen von Reihe {} des Feldes {field}, von der Traufe gezählt, liegt {have}.",
                    row.unwrap_or_default() + 1
                ),
            }
        }
        Fact::LongerThanContinuous { rail, length, limit } => format!(
            "Schiene {rail} läuft {} ohne Dehnfuge; erlaubt sind {}.", say.length(*length), say.length(*limit)
        ),
        Fact::MissesRafter { hook, x, off, .. } => format!(
            "Dachhaken {hook} bei {} gilt als nicht tragend: Der nächste Sparren ist {} entfernt. Liegt dort doch einer, messen und {} angeben.",
            say.length(*x), say.length(*off), say.member("found.rafter_x_mm")
        ),
        Fact::OnRottenRafter { hook, rafter, .. } => format!(
            "Dachhaken {hook} gilt als nicht tragend: Sparren {} ist faul. Den Haken abnehmen, die Deckung dort schließen und den Sparren beurteilen lassen, bevor irgendetwas an ihm befestigt wird. In der nächsten Anfrage den Haken weglassen und den Sparren in {} nennen.",
            numbers(&[*rafter], "und"), say.member("roof.rafters.barred")
        ),
        Fact::BeyondRailEnd { hook, rail, x, y } => format!(
            "Dachhaken {hook} bei {} gilt als nicht tragend: Schiene {rail} reicht nicht bis dorthin. Tut sie es doch, messen und {} und {} angeben.",
            say.length(y.unwrap_or(*x)), say.member("start_mm"), say.member("end_mm")
        ),
        Fact::ArmBesideRail { hook, rail, off, limit } => format!(
            "Dachhaken {hook} gilt als nicht tragend: Sein Arm tritt {} neben der Linie von Schiene {rail} aus der Deckung, und mehr als {} ist zu weit.",
            say.length(*off), say.length(*limit)
        ),
        Fact::OnAnotherHook { hook, rail, x } => format!(
            "Dachhaken {hook} bei {} gilt als nicht tragend: An derselben Stelle hält schon ein anderer Haken Schiene {rail}.",
            say.length(*x)
        ),
        Fact::FootOnAnotherFoot { hook, below, apart, need, .. } => format!(
            "Dachhaken {hook} gilt als nicht tragend: Er steht nur {} über Dachhaken {below} auf demselben Sparren, und eine Grundplatte ist {} lang.",
            say.length(*apart), say.length(*need)
        ),
        Fact::StackTooHigh { hooks, stack, limit } => format!(
            "Dachhaken {}: Die Unterlegplatten sind {} hoch gestapelt; erlaubt sind {}.",
            hooks.join(", "), say.length(*stack), say.length(*limit)
        ),
        Fact::NoStackClearsTile { rail, hooks, by } => format!(
            "Schiene {rail}: Für Dachhaken {} passen keine Unterlegplatten; dem höchsten Stapel fehlen {}. Das Aufmaß sagt, was helfen würde.",
            hooks.join(", "), say.length(*by)
        ),
        Fact::RailNotStraight { rail, hooks, low, .. } if low.is_empty() => format!(
            "Schiene {rail}: Keine Unterlegplatten bringen Dachhaken {} in eine Flucht, denn ihre Dicken springen weiter, als die Langlöcher lang sind. Das Aufmaß sagt, was helfen würde.",
            hooks.join(", ")
        ),
        Fact::RailNotStraight { rail, hooks, low, by } => format!(
            "Schiene {rail}: Dachhaken {} stehen zu weit vor und {} liegen zu tief für eine gerade Schiene; den Langlöchern fehlen {}, gleich mit welchen Unterlegplatten. Das Aufmaß sagt, was helfen würde.",
            hooks.join(", "), low.join(", "), say.length(*by)
        ),
        Fact::NotMeasured { rail, hooks } => format!(
            "Schiene {rail}: Freiraum oder Flucht der Dachhaken {} ist nicht gemessen; {} zählt auf, was zu messen ist.",
            hooks.join(", "), say.member("missing")
        ),
        Fact::PackingNotDecided { rail, steps } => format!(
            "Schiene {rail}: In {steps} Suchschritten fanden sich keine passenden Unterlegplatten und Langlöcher; es kann dennoch welche geben."
        ),
        Fact::ScrewOutsideRules { hooks, embedment, threaded, clause, condition, declared } => {
            let cure = if *declared {
                "Ein Haken, dessen Grundplatte die Schrauben so setzt, oder eine Erklärung des Herstellers löst das."
            } else {
                "Den Ausziehparameter aus der Zulassung der Schraube angeben."
            };
            format!(
            "{}Die Schraube reicht {} in den Sparren, davon {} Gewinde. {clause} gilt dafür nur bei: {condition}. {cure}",
                whose(hooks.as_ref(), "Dachhaken"), say.length(*embedment), say.length(*threaded)
            )
        }
        Fact::ScrewNearRafterEdge { hooks, have, need } => format!(
            "{}Schrauben stehen {} vom Rand des Sparrens; nötig sind {}.",
            whose(hooks.as_ref(), "Dachhaken"), say.length(*have), say.length(*need)
        ),
        Fact::ScrewNearAnother { hooks, have, need } => format!(
            "{}Schrauben stehen entlang des Sparrens {} voneinander; nötig sind {}.",
            whose(hooks.as_ref(), "Dachhaken"), say.length(*have), say.length(*need)
        ),
        Fact::RafterThinForScrew { depth, least } => format!(
            "Der Sparren ist {} hoch; die Regeln für Schrauben auf Herausziehen verlangen {}. Erlaubt die Zulassung der Schraube weniger, deren Abstände angeben.",
            say.length(*depth), say.length(*least)
        ),
        Fact::SpacingsDeclared { source } => {
            format!("Die Abstände der Schrauben sind gegen die erklärten aus {source} geprüft.")
        }
        Fact::BasisUnknown {} => {
            "Worauf die Tragfähigkeit des Dachhakens beruht, ist als unbekannt angegeben. Beim Hersteller nach Versuch, Zulassung oder Berechnung fragen.".to_owned()
        }
        Fact::FootRolls { hook, force, utilisation } => format!(
            "Die Grundplatte von Haken {hook} will seitlich kippen; sie zu halten kann einen Haken mit {} mehr belasten, der dann bis zu {} ausgelastet ist. Mit mehr Reserve auslegen lassen, eine Grundplatte mit Schrauben auf der Sparrenachse nehmen oder die Befestigung prüfen lassen.",
            say.force(*force), say.utilisation(*utilisation)
        ),
        Fact::PlateBends { hook, utilisation, combination } => format!(
            "Die Platte unter Haken {hook} würde in {combination}, wo der Arm ansetzt, {} dessen nutzen, was sie als Stab trägt. Den Hersteller fragen, ob der Widerstand die Platte einschließt, und nach Versuchen oder einer Zulassung, oder eine dickere Platte nehmen.",
            say.utilisation(*utilisation)
        ),
        Fact::StrongerThanBar { declared, bar } => format!(
            "Der Haken soll {} tragen, sein Arm als Flachstab trägt aber {}. Beim Hersteller Versuche oder eine Zulassung erfragen oder angeben, was der Arm wirklich ist.",
            say.force(*declared), say.force(*bar)
        ),
        Fact::StifferThanBar { declared, bar } => format!(
            "Der Haken soll senkrecht zum Dach eine Steifigkeit von {} haben, sein Arm als Flachstab hat aber {}. Beim Hersteller Versuche oder eine Zulassung erfragen oder angeben, was der Arm wirklich ist.",
            say.stiffness(*declared), say.stiffness(*bar)
        ),
        Fact::TestedAboveBar { declared, bar } => format!(
            "Der Haken soll {} tragen, sein Arm als Flachstab trägt {}: Die Planung beruht auf den genannten Versuchen oder der Zulassung.",
            say.force(*declared), say.force(*bar)
        ),
        Fact::ResistanceOfBar {} => {
            "Der Widerstand des Hakens ist der seines Arms als Flachstab: Anschluss an die Grundplatte und die Platte selbst sind nicht nachgewiesen. Beim Hersteller den Widerstand des Hakens erfragen.".to_owned()
        }
        Fact::StiffnessOfBar {} => {
            "Die Steifigkeit des Hakens ist gerechnet: sein Arm als Flachstab auf einer Grundplatte, die sich auf ihren Schrauben dreht. Was Schrauben und Holz nachgeben, ist nur ungefähr bekannt: beim Hersteller eine gemessene Steifigkeit erfragen oder mehr Freiraum halten.".to_owned()
        }
        Fact::RollUnderRailUpSlope { hook } => format!(
            "Gezogene Schrauben von Dachhaken {hook} stehen neben der Achse seines Sparrens, sodass seine Grundplatte zu kippen neigt, und eine Schiene in Dachneigung hält sie nicht. Eine Grundplatte mit Schrauben auf der Achse wählen oder einen Tragwerksplaner dafür einstehen lassen."
        ),
        Fact::HoldAlongUnknown { slope, declared, restraint } => {
            let held = match declared {
                Some(declared) => format!("je mit bis zu {} von den {}, die sie laut Angabe hält", say.force(*slope), say.force(*declared)),
                None => format!("je mit bis zu {}, und was eine Schraube längs der Nut der Schiene hält, ist nicht bekannt", say.force(*slope)),
            };
            let restraint = match restraint {
                Some(force) => format!("fügt ein Temperaturwechsel von 30 K einem Dachhaken bis zu {} hinzu", say.force(*force)),
                None => "behindern sie die Dehnung der Schiene, und wie weit Dachhaken in Dachneigung nachgeben, ist nicht bekannt".to_owned(),
            };
            format!(
                "Schienen in Dachneigung werden entlang ihrer Achse von den Schrauben aller ihrer Haken gehalten, {held}. Wo Schrauben nicht gleiten, {restraint}. Jede Schiene an einem Haken festmachen und auf den anderen gleiten lassen ({}), oder ein Tragwerksplaner muss dafür einstehen.",
                say.member("array.rails_held_by")
            )
        }
        Fact::HoldOfOneUnknown { hook, slope } => format!(
            "Jede Schiene in Dachneigung wird entlang ihrer Achse von einem Haken gehalten, {hook} mit bis zu {}, und was die Schraube dort längs der Nut der Schiene hält, ist nicht bekannt. Beim Hersteller der Schiene erfragen und unter {} angeben.",
            say.force(*slope), say.member("components.rail.groove_slip_kn")
        ),
        Fact::SplicePlacesUnknown {} => {
            "Es ist angegeben, was ein Stoß der Schiene trägt, aber nicht, wo die gebauten Schienen gestoßen sind: ihre Stöße sind nicht nachgewiesen. Ein Tragwerksplaner muss sie ansehen.".to_owned()
        }
        Fact::EventJudged {} => {
            "Urteil, Nachweise und Einwirkungen sind die des beobachteten Ereignisses, mit allen Beiwerten 1 und gegen Bemessungswerte der Widerstände. Über die Lasten, für die der Standort zu bemessen ist, sagen sie nichts: Dafür ist gesondert nachzurechnen. Die am stärksten ausgelasteten Haken ansehen.".to_owned()
        }
        Fact::StiffnessUnknown {} => {
            "Die Steifigkeit des Dachhakens senkrecht zum Dach ist nicht angegeben: Ob der Arm unter Last den Ziegel berührt, ist nicht nachgewiesen. Beim Hersteller erfragen.".to_owned()
        }
        Fact::BoltUnknown {} => {
            format!(
                "Die Schienenschraube, die die Schiene am Haken hält, ist nicht nachgewiesen. Entweder {} angeben oder beim Hersteller erfragen, ob der Widerstand des Hakens Schraube und Langloch einschließt ({}).",
                say.member("components.hook.bolt"), say.member("components.hook.resistance.includes_bolt")
            )
        }
        Fact::SlotSlipUnknown { normal } => format!(
            "Bis zu {} ziehen die Schiene längs des Langlochs eines Hakens, und was die Schraube dort hält, ist nicht angegeben; mit Reibung wird nicht gerechnet. Beim Hersteller erfragen ({}).",
            say.force(*normal), say.member("components.hook.bolt.slot_slip_kn")
        ),
        Fact::InventedParts { parts, place: _ } => format!(
            "Diese Teile sind zur Anschauung erfunden: {}. Die Teile angeben, die verbaut werden, mit den Werten ihres Herstellers.",
            parts.join(", ")
        ),
        Fact::EdgeNotComputed { sides, edge } => {
            let sides = if sides.len() == 1 {
                format!("Seite {} der Dachfläche", numbers(sides, "und"))
            } else {
                format!("Seiten {} der Dachfläche", numbers(sides, "und"))
            };
            let what = match edge {
                EdgeName::Hip => "Grat; die Dachbereiche daran sind nicht berechnet",
                EdgeName::Valley => "Kehle; die Dachbereiche daran sind nicht berechnet",
                EdgeName::Abutment => {
                    "Wandanschluss; was der Wind neben der Wand bewirkt, ist nicht berechnet"
                }
                EdgeName::OffRectangle => {
                    "abseits des Rechtecks um die Dachfläche, auf dem die Dachbereiche liegen; die daran sind nicht berechnet"
                }
            };
            format!(
                "{sides}, entlang ihres Umrisses gezählt: {what}. Das ist Sache der Tragwerksplanung; Beiwerte, für die sie einsteht, kommen nach {}.",
                say.member("site.wind.net_coefficients")
            )
        }
        Fact::ExceptionalSnowUnasked {} => {
            format!(
                "Ob am Standort außergewöhnlicher Schnee anzusetzen ist, ist nicht gesagt; keine Kombination enthält ihn. Im Nationalen Anhang nachsehen und unter {} angeben.",
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
            let give = member.map(|member| format!(" den Wert in {} angeben,", say.member(member)));
            format!("Was der Nationale Anhang über {} sagt, lag nicht vor; an seiner Stelle steht, was die Norm empfiehlt, auf der sicheren Seite, soweit diese bekannt ist. Nachschlagen,{} oder jemand steht dafür ein.", rule_value(*value), give.unwrap_or_default())
        }
        Fact::GuardNotComputed { obstacle } => format!(
            "Hindernis {} ist ein Schneefang, und laut {} hält nichts den Schnee: das weglassen oder angeben, dass Schnee gehalten wird, damit der Formbeiwert nicht unter 0,8 fällt.",
            ordinal(*obstacle), say.member("site.snow_held")
        ),
        Fact::DriftUnknown { sides, edge } => {
            let at = numbers(sides, "und");
            match edge {
                EdgeName::Valley => format!(
                    "In der Kehle an Seite {at} der Dachfläche, entlang ihres Umrisses gezählt, sammelt sich Schnee; er ist nicht berechnet. Die Neigung der Dachfläche jenseits messen und unter {} angeben.",
                    say.member("roof.valleys")
                ),
                _ => format!(
                    "An der Wand an Seite {at} der Dachfläche, entlang ihres Umrisses gezählt, weht Schnee an und rutscht von oben nach; er ist nicht berechnet. Messen, wie hoch die Wand über der Deckung steht, wie breit das Dach darüber ist und wohin es fällt, und unter {} angeben.",
                    say.member("roof.abutments")
                ),
            }
        }
        Fact::ObstacleDriftUnknown { obstacle, unknown } => match unknown {
            ObstacleUnknown::Height => format!(
                "An Hindernis {} neben Modulen kann Schnee anwehen, es ist breit genug; seine Höhe ist nicht angegeben. Messen, wie weit es über die Deckung ragt, und als {} angeben.",
                ordinal(*obstacle), say.member_at("roof.obstacles.*.height_mm", *obstacle)
            ),
            ObstacleUnknown::Drift => format!(
                "An Hindernis {} neben Modulen weht Schnee an, es ist hoch und breit genug; die Regel dafür gilt nur für nahezu flache Dächer. Die Tragwerksplanung muss ihn angeben: {}.",
                ordinal(*obstacle), say.member_at("roof.obstacles.*.drift_shape_factor", *obstacle)
            ),
        },
        Fact::EdgeWindOnRafters { sides } => format!(
            "Die angegebenen Beiwerte gelten für Module. Der Wind auf der freien Deckung entlang Seite {} der Dachfläche, entlang ihres Umrisses gezählt, ist nicht berechnet: Die Sparren dort sind Sache der Tragwerksplanung.",
            numbers(sides, "und")
        ),
        Fact::RafterCut { obstacle, rafters, beside, hooks_on, stated } => {
            let obstacle = ordinal(*obstacle);
            let [cut, beside, hooks] = [rafters, beside, hooks_on].map(|of| numbers(of, "und"));
            if *stated {
                format!(
                    "Hindernis {obstacle} unterbricht Sparren {cut}: Wechsel legen, was dort fehlt, auf Sparren {beside}. Dachhaken stehen auf Sparren {hooks}; was das an Spannweite und Last ändert, ist nicht berechnet. Das ist Sache der Tragwerksplanung."
                )
            } else {
                format!(
                    "Ob Hindernis {obstacle} Sparren {cut} unterbricht, ist nicht angegeben. Im Dachboden nachsehen und sagen, welche Sparren unterbrochen sind oder dass es keiner ist. Dachhaken stehen auf Sparren {hooks}; Wechsel legten auf Sparren {beside}, was fehlt, und Spannweite und Last wären Sache der Tragwerksplanung."
                )
            }
        }
        Fact::RafterSplit { rafters } => format!(
            "Dachhaken stehen auf Sparren {}, die gerissen vorgefunden wurden. Was Schrauben in gerissenem Holz halten und was der Sparren noch trägt, ist nicht berechnet: Das ist Sache der Tragwerksplanung, oder der Sparren wird verdoppelt oder ersetzt.",
            numbers(rafters, "und")
        ),
        Fact::InsulationUnderFoot {} => {
            "Die Schrauben queren Dämmung: Die Konterlatte muss die Last allein weitergeben; das ist Sache der Tragwerksplanung.".to_owned()
        }
        Fact::RaftersUnmeasured { places, step, failing } => format!(
            "Wo die Sparren stehen, ist nicht gemessen: Diese Planung ist zum Bestellen, nicht zum Bauen. Von {places} Lagen des ersten Sparrens, alle {} eine, scheitern {failing}; über Lagen dazwischen ist nichts gesagt. Vor dem Befestigen jeden Sparren messen.",
            say.length(*step)
        ),
        Fact::RafterTrussed {} => {
            "Die Sparren sind Gurte von Nagelplattenbindern. Eine Schraube kann einen Gurt schwächen, und Dachhaken belasten ihn, wo er nicht dafür bemessen ist; die hier angewandten Regeln decken das nicht ab. Wer die Binder bemessen hat, muss beidem zustimmen.".to_owned()
        }
        Fact::RafterNotVerified {} => {
            format!(
                "Ohne Spannweite sind die Sparren selbst nicht nachgewiesen. Die längste freie Länge zwischen Auflagern entlang der Dachschräge messen und als {} angeben.",
                say.member("roof.rafters.span_m")
            )
        }
        Fact::SidewaysEdge { offset, angle, have, need } => format!(
            "Steht der Arm {} neben der Achse, so wirkt die Last einer Schraube {} zur Faser; sie steht {} vom Rand des Sparrens, nötig sind {}. Erlaubt die Zulassung der Schraube weniger, deren Abstände angeben.",
            say.length(*offset), say.angle(*angle), say.length(*have), say.length(*need)
        ),
        Fact::ClampSlipUnknown { slope, modules } => format!(
            "Was eine Klemme dachabwärts hält, ist nicht angegeben; das Abrutschen von {modules} Modulen ist nicht nachgewiesen. Auf eine Klemme wirken bis zu {}. Nach Herstellerangabe {} angeben, bei einer einzelnen Reihe auf Anschlägen {}.",
            say.force(*slope), say.member("components.clamp.slope_kn"), say.member("components.clamp.slope_stop_kn")
        ),
        Fact::SpliceForceUnknown { rail, force } => format!(
            "In Schiene {rail} werden Stäbe gestoßen, und entlang ihr wirken bis {}: Welche Normalkraft ein Stoß weitergibt, ist nicht bekannt.",
            say.force(*force)
        ),
        Fact::CrossingUnknown { crossings, lift, slide } => format!(
            "Obere Schienen kreuzen untere an {crossings} Stellen, wo bis {} sie abheben und bis {} längs der unteren Schiene wirken: Was die Kreuzverbinder tragen, ist nicht bekannt.",
            say.force(*lift), say.force(*slide)
        ),
        Fact::ShortSideZoneUnknown { field, place } => format!(
            "Die Module des Feldes {field} liegen quer und sind an ihren kurzen Seiten geklemmt; {} angeben.",
            say.member_of_module("short_side_clamp_zone_mm", *place)
        ),
        Fact::SlotNearlyUsedUp { hook, left } => format!(
            "Dachhaken {hook}: Die Schienenschraube sitzt nur {} vor dem Ende ihres Langlochs. Eine Unterlegplatte mehr oder weniger dort oder eine neu gelegte Flucht lässt mehr Spiel.",
            say.length(*left)
        ),
        Fact::PackingNotProven { rail, packing, bound } => format!(
            "Schiene {rail}: Mit zusammen {} Unterlegplatten wird sie gerade. Vielleicht reichen weniger, bis hinunter zu {}: Die Suche endete, bevor das geklärt war.",
            say.length(*packing), say.length(*bound)
        ),
        Fact::SpliceOutsideRules { rail, at, splice, .. }
        | Fact::SpliceInMiddleThird { rail, at, splice, .. } => {
            let place = match at {
                SplicePlace::MiddleThird => "im mittleren Drittel eines Feldes",
                SplicePlace::EndSpan => "in einem Endfeld, ein Stück auf nur einem Haken",
                SplicePlace::FreeEnd => "in einem Kragarm, ein Stück ohne Haken",
                SplicePlace::HookOrClamp => "an einem Haken oder unter einer Klemme",
            };
            let cure = match splice {
                SpliceKind::Hinge => {
                    "Die Stöße sind Gelenke und liegen, wo die Statik mit ihnen rechnet."
                }
                SpliceKind::Stiff => {
                    "Kein Zuschnitt der Schiene vermeidet das."
                }
            };
            format!("Ein Stoß von Schiene {rail} liegt {place}. {cure}")
        }
        Fact::EarlierRevision { asked, today } => format!(
            "Gerechnet mit Werten der Fassung {asked}, die durch {today} abgelöst ist: damit lässt sich ein früherer Nachweis nachvollziehen. Bestand und Neubau nach {today} beurteilen."
        ),
        Fact::BelowLeastPitch { pitch, least, rule, by, stated } => format!(
            "Das Dach hat {} Neigung; flacher als {} darf eine solche Deckung nicht verlegt werden, was auch immer darunter liegt. Die Regeldachneigung ist {} ({}). Nötig ist eine andere Deckung; welche, muss ein Dachdecker sagen.",
            say.angle(*pitch), say.angle(*least), say.angle(*rule), whose_rule(*by, stated.as_ref())
        ),
        Fact::BelowRulePitch { pitch, rule, by, stated, of_maker } => {
            let agree = of_maker.map_or_else(String::new, |maker| {
                format!(
                    " Der Hersteller gibt {} an: Ist das vertraglich vereinbart, den Vertrag unter {} nennen.",
                    say.angle(maker), say.member("roof.covering.maker_pitch.agreed_in")
                )
            });
            format!(
                "Das Dach hat {} Neigung, weniger als die Regeldachneigung der Deckung von {} ({}): Das Wasser muss abhalten, was darunter liegt. Einen Dachdecker ansehen lassen.{agree}",
                say.angle(*pitch), say.angle(*rule), whose_rule(*by, stated.as_ref())
            )
        }
        Fact::RulePitchAssumed { pitch, rule, steepest } => format!(
            "Das Dach hat {} Neigung. Eine Regeldachneigung ist nicht angegeben; angenommen sind {}, manche Deckungen dieser Art haben bis zu {}. Die dieses Ziegels nachsehen und als {} oder {} angeben.",
            say.angle(*pitch), say.angle(*rule), say.angle(*steepest),
            say.member("roof.covering.guild_pitch"), say.member("roof.covering.maker_pitch")
        ),
        Fact::MakersPitchAlone { pitch, rule, usual, stated } => format!(
            "Das Dach hat {} Neigung. Der Hersteller gibt eine Regeldachneigung von {} an ({stated}), weniger als die für solche Deckungen üblichen {}: vertraglich vereinbaren und unter {} nennen, oder {} angeben.",
            say.angle(*pitch), say.angle(*rule), say.angle(*usual),
            say.member("roof.covering.maker_pitch.agreed_in"), say.member("roof.covering.guild_pitch")
        ),
        Fact::UnderlayNotEnough { pitch, rule, need, have } => {
            let there = match have {
                Some(class) => format!("die der Klasse {class} reicht nicht: eine ausreichende einbauen"),
                None => format!(
                    "welche da ist, ist nicht angegeben: das Dach öffnen, nachsehen und als {} angeben",
                    say.member("roof.covering.underlay")
                ),
            };
            format!(
                "Bei {} Neigung und einer Regeldachneigung von {} braucht die Deckung eine Unterdeckung oder ein Unterdach der Klasse {need} oder besser; {there}.",
                say.angle(*pitch), say.angle(*rule)
            )
        }
        Fact::HooksThroughLaps { pitch, rule, passage } => {
            let passage = match passage {
                PassageName::Headlap => "durch die Überdeckung der Ziegel",
                PassageName::UniversalPart => "durch ein Teil, das nur annähernd zum Ziegel passt,",
            };
            format!(
                "Bei {} Neigung, unter der Regeldachneigung von {}, darf kein Haken {passage} geführt werden: Systemteile für diesen Ziegel verwenden und das unter {} angeben.",
                say.angle(*pitch), say.angle(*rule), say.member("roof.covering.hook_passage")
            )
        }
        Fact::InsideEdgeDistance { part, edge, side, element, have, need, stated } => {
            let element = say.module(element);
            format!(
                "{} {element} liegt {} von {} (Seite {}) entfernt; nötig sind {} ({stated}). Das Feld verschieben oder Module weglassen.",
                part_named(*part), say.length(*have), edge_named(*edge), ordinal(*side), say.length(*need)
            )
        }
        Fact::NearEdge { edge, side, element, have, need } => {
            let element = say.module(element);
            format!(
                "Modul {element} liegt {} von {} (Seite {}) entfernt; üblich sind {}. Erfragen, was der Hersteller der Schienen und die örtlichen Regeln zulassen, und das unter {} angeben.",
                say.length(*have), edge_named(*edge), ordinal(*side), say.length(*need),
                say.member("roof.edge_distances")
            )
        }
        Fact::InsideFireDistance { side, part, element, have, need, stated } => {
            let element = say.module(element);
            format!(
                "{} {element} liegt {} von der Haustrennwand (Seite {}) entfernt; für den Brandschutz nötig sind {} ({stated}). Das Feld verschieben oder Module weglassen.",
                part_named(*part), say.length(*have), ordinal(*side), say.length(*need)
            )
        }
        Fact::FireDistanceUnknown { side, element, have } => {
            let element = say.module(element);
            format!(
                "{element} liegt {} von der Haustrennwand (Seite {}) entfernt, und wie weit eine Anlage von ihr wegbleiben muss, ist nicht angegeben. In der geltenden Bauordnung nachsehen und mit Fundstelle als {} unter {} angeben.",
                say.length(*have), ordinal(*side),
                say.member("fire_distance"), say.member("roof.party_walls")
            )
        }
        Fact::ValuesAssumed { values } => format!(
            "Diese Werte sind als angenommen gekennzeichnet, niemand hat nachgesehen: {}. Messen.",
            say.pointers(values)
        ),
        Fact::ValuesInferred { values } => format!(
            "Diese Werte sind als abgeleitet gekennzeichnet, nicht gemessen: {}. Auf dem Dach bestätigen.",
            say.pointers(values)
        ),
        Fact::SearchLimit { rail, segment, weighed, lower_bound, hooks } => format!(
            "Die Suche an {} endete nach {weighed} Anordnungen; mindestens {lower_bound} Dachhaken sind dort nötig, {hooks} sind gesetzt.",
            stretch(rail, *segment)
        ),
        Fact::ArmOffAxis { offset } => format!(
            "Arme stehen bis zu {} neben der Sparrenachse, innerhalb des Bereichs der Grundplatte; die Schrauben sind dafür nachgewiesen. Tragfähigkeit und Steifigkeit des Hakens gelten nach Voraussetzung in diesem Bereich.",
            say.length(*offset)
        ),
        Fact::ArmBeyondRange { hooks, offset, range } => format!(
            "Haken {}: Der Arm steht bis zu {} neben der Sparrenachse, die Grundplatte ist für {} gemacht. Prüfen, ob Tragfähigkeit und Steifigkeit des Hakens dafür gelten.",
            hooks.join(", "), say.length(*offset), say.length(*range)
        ),
        Fact::FootTightInBay { foot, clear, lower, trim_head, trim_batten, rail, y, .. } => format!(
            "Die Grundplatte ist {} lang, und nur {} sind zwischen Ziegelkopf und nächster Traglatte frei: {}.{}",
            say.length(*foot), say.length(*clear), work(say, *lower, *trim_head, *trim_batten),
            set_lower(say, *lower, rail, *y)
        ),
        Fact::FootMeetsBattenOrTile { beyond, lower, trim_head, trim_batten, rail, y } => format!(
            "Sitzt die Schienenschraube {} unter der Kante des Ziegels über dem Arm, passt die Grundplatte nicht frei zwischen Ziegel und Traglatte: {}.{}",
            say.length(*beyond), work(say, *lower, *trim_head, *trim_batten),
            set_lower(say, *lower, rail, *y)
        ),
        Fact::ArmAlongJoint { hooks, .. } => format!(
            "Dachhaken {}: Der Arm liegt über einer Seitenfuge der unteren Ziegel. Ein Metallersatzziegel unter dem Arm oder ein Arm näher an der oberen Fuge deckt sie.",
            hooks.join(", ")
        ),
        Fact::NotchDeeperThanTile { room, tile } => format!(
            "Der Arm braucht mit seinen Freiräumen {}, und der obere Ziegel ist nur {} dick: Eine Ausklinkung ginge durch ihn hindurch. Metallersatzziegel nehmen.",
            say.length(*room), say.length(*tile)
        ),
        Fact::ProfileMustTakeArm { room, tile } => format!(
            "Der Arm braucht mit seinen Freiräumen {} über der Mulde; der obere Ziegel ist {} dick. Einen Haken an einen Ziegel halten: Lässt dessen Profil weniger Platz, den Arm einlassen oder Metallersatzziegel nehmen.",
            say.length(*room), say.length(*tile)
        ),
        Fact::CounterBattenEdge { width, have, need, width_needed, predrilling_helps } => {
            let drill = if *predrilling_helps { "Vorbohren oder eine" } else { "Eine" };
            format!(
                "Schrauben stehen {} vom Rand einer {} breiten Konterlatte; verlangt sind {}. {drill} mindestens {} breite nehmen.",
                say.length(*have), say.length(*width), say.length(*need), say.length(*width_needed)
            )
        }
        Fact::ScrewLongerThanRafter { hooks, reach, depth } => format!(
            "{}Die Schraube reicht {} unter die Oberseite eines {} hohen Sparrens; was herausragt, hält nichts.",
            whose(hooks.as_ref(), "Dachhaken"), say.length(*reach), say.length(*depth)
        ),
        Fact::AddedLoad { share } => format!(
            "Die Anlage erhöht die ständige Last eines Sparrens um bis zu {}. Fragen, ob ein Nachweis des Tragwerks nötig ist.",
            say.percent(share.0)
        ),
        Fact::RuleFromMemory { value } => {
            format!("Was der Nationale Anhang über {} sagt, stammt aus dem Gedächtnis; mit dem gedruckten Anhang vergleichen.", rule_value(*value))
        }
        Fact::SnowFromMemory {} => {
            "Die Schneelast folgt EN 1991-1-3 Anhang C aus dem Gedächtnis; mit gedruckter Karte und Tabelle vergleichen.".to_owned()
        }
        Fact::PlanMismatch { outline, expected } => format!(
            "Nach ihrem Umriss ist die Dachfläche im Grundriss {} tief; nach der Gebäudebreite wären es {}. Die Dachbereiche folgen dem Umriss.",
            say.distance(*outline), say.distance(*expected)
        ),
        Fact::ExpansionGapNeedsRoom { field, limit, gap, need, fields } => format!(
            "Schienen des Feldes {field} sind länger als {} und zwischen zwei Modulen getrennt. Schienenenden, Endklemmen und Dehnfuge brauchen dort {}; die Spalten stehen {} auseinander. {fields} Felder daraus machen, {} auseinander.",
            say.length(*limit), say.length(*need), say.length(*gap), say.length(*need)
        ),
        Fact::ClampGapDiffers { field, gap, clamp } => format!(
            "Die Spalten des Feldes {field} sind mit {} Abstand geplant; die Mittelklemme ergibt {}.",
            say.length(*gap), say.length(*clamp)
        ),
        Fact::OffCourseLine { rail, y, off } => format!(
            "Schiene {rail} bei {} liegt mehr als {} von der Linie, an der Arme aus einer regelmäßigen Deckung austreten; die Ziegelreihen darunter ansehen.",
            say.length(*y), say.length(*off)
        ),
        Fact::OffRafterLine { rail, x, beside, range, off } => format!(
            "Die Arme der Schiene {rail} bei {} stehen {} neben der Achse ihres Sparrens, und im Umkreis von {} kann dort kein Arm aus der Deckung treten. Arme dürfen bis zu {} neben der Achse stehen.",
            say.length(*x), say.length(*beside), say.length(*off), say.length(*range)
        ),
        Fact::OffCourse { hooks, off } => format!(
            "Dachhaken {} stehen mehr als {} von der Stelle, an der ihre Arme aus einer regelmäßigen Deckung austreten; die Ziegelreihen darunter ansehen.",
            hooks.join(", "), say.length(*off)
        ),
        Fact::ArmBesideTrough { hooks, beside, limit } => format!(
            "Dachhaken {}: Der Arm tritt bis zu {} neben einem Wellental aus seiner Ziegelreihe; bis {} gilt er als darin liegend. Die Ziegel dort ansehen.",
            hooks.join(", "), say.length(*beside), say.length(*limit)
        ),
        Fact::EndShorterThanClamp { have, need } => format!(
            "Schienen stehen {} über die äußeren Module hinaus; eine Endklemme braucht {}.",
            say.length(*have), say.length(*need)
        ),
        Fact::RailRunsOn { rails, longest } => format!(
            "Schienen {} laufen über die Module hinaus bis zum nächsten Sparren, um bis zu {}: Kein Sparren unter den Modulen kann ihre Enden halten. Die Haken dort stehen frei.",
            rails.join(", "), say.length(*longest)
        ),
        Fact::CuttingNotProven { aim, bought, bars, least, fewest } => {
            let least = say.length(*least);
            let proven = match aim {
                CuttingAim::LeastLength => format!(
                    "kein Plan weniger als {least} kauft und keiner, der nicht mehr kauft, mit weniger als {fewest} Stangen auskommt"
                ),
                CuttingAim::FewestBars => format!(
                    "kein Plan mit weniger als {fewest} Stangen auskommt und keiner, der nicht mehr braucht, weniger als {least} kauft"
                ),
            };
            format!(
                "Der Zuschnitt braucht {} Schiene in {bars} Stangen. Vielleicht gibt es einen besseren; bewiesen ist, dass {proven}.",
                say.length(*bought)
            )
        }
        Fact::NotRanked { rail, segment, hooks } => format!(
            "{} braucht {hooks} Dachhaken, weniger reichen nicht. Eine andere Auswahl von ebenso vielen wäre vielleicht weniger ausgelastet; danach wurde nicht zu Ende gesucht.",
            stretch(rail, *segment)
        ),
        Fact::SpreadForRafters { rail, segment, lower_bound, hooks } => format!(
            "{} hielte für sich auf {lower_bound} Dachhaken, doch die würden einen Sparren überlasten; eingeplant sind {hooks}.",
            stretch(rail, *segment)
        ),
        Fact::RailsBearOnEachOther { field, lower_rails, hooks } => format!(
            "Die {hooks} Dachhaken an {lower_rails} unteren Schienen des Feldes {field} wurden Schiene für Schiene gesucht, beide Lagen gemeinsam berechnet; dass weniger nicht reichen, ist nicht bewiesen."
        ),
        Fact::SameRaftersCost { hooks, in_any_pattern } if hooks > in_any_pattern => format!(
            "Alle Schienen eines Feldes haben ihre Dachhaken an denselben Sparren, zusammen {hooks}; in beliebiger Anordnung genügten {in_any_pattern}."
        ),
        Fact::SameRaftersCost { hooks, in_any_pattern } => format!(
            "Alle Schienen eines Feldes haben ihre Dachhaken an denselben Sparren, zusammen {hooks}; in beliebiger Anordnung wurden {in_any_pattern} gefunden, es kostet also keinen Haken."
        ),
        Fact::DeclaredInVain { check, who } => format!(
            "{who} steht für {check} ein, was bei diesem Auftrag gar nicht fehlt: Die Erklärung ändert hier nichts."
        ),
        Fact::NoTroughInReach { rafters, range } => format!(
            "Kein Wellental liegt innerhalb von {} um die Achse von Sparren {}.",
            say.length(*range), numbers(rafters, "und")
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
        format!(" Ebenfalls über der Grenze: {}.", others.join(", "))
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
        Check::Hook => "Tragfähigkeit des Hakens",
        Check::Bolt => "Schienenschraube und Langloch",
        Check::Screws => "Schrauben",
        Check::FootBearing => "Holz unter der Grundplatte",
        Check::Clearance => "Freiraum unter Last",
        Check::RailBending => "Biegung der Schiene",
        Check::RailDeflection => "Durchbiegung der Schiene",
        Check::Splice => "Biegung eines Schienenstoßes",
        Check::Crossing => "Kreuzverbinder",
        Check::Module => "Modul",
        Check::Clamp => "Klemmen",
        Check::ClampSlip => "Abrutschen der Klemmen",
        Check::Rafter => "Sparren",
    }
}

fn limit(bound: Option<Bound>, say: Reader) -> String {
    bound.map_or_else(String::new, |bound| {
        format!(" Verlangt sind höchstens {}.", say.limit(bound.0))
    })
}

fn more_modules(modules: usize) -> String {
    match modules {
        0 | 1 => String::new(),
        modules => format!(" Weitere Module über der Grenze: {}.", modules - 1),
    }
}

/// How an arm stands to the tile below it, as the rest of a sentence.
fn too_low(clearance: Length, least: Length, say: Reader) -> String {
    let by = say.length(least - clearance);
    let least = say.length(least);
    if clearance < Length::ZERO {
        let below = say.length(-1.0 * clearance);
        format!(
            "liegt {by} zu tief: {below} unter der Oberkante des unteren Ziegels, und {least} darüber sind verlangt"
        )
    } else {
        let clearance = say.length(clearance);
        format!(
            "liegt {by} zu tief: {clearance} über dem unteren Ziegel, und {least} sind verlangt"
        )
    }
}

const fn side(end: End) -> &'static str {
    match end {
        End::Left => "linken",
        End::Right => "rechten",
    }
}

/// What is to be done for a foot, as the rest of a sentence.
fn work(say: Reader, lower: Length, trim_head: Length, trim_batten: Length) -> String {
    let steps = [
        (lower, format!("Haken und Schiene stehen {} tiefer", say.length(lower))),
        (trim_head, format!("{} vom Kopf des unteren Ziegels abschneiden", say.length(trim_head))),
        (
            trim_batten,
            format!(
                "{} aus der Unterkante der Traglatte darüber schneiden",
                say.length(trim_batten)
            ),
        ),
    ];
    let needed = steps.into_iter().filter(|(length, _)| *length > Length::ZERO);
    needed.map(|(_, step)| step).collect::<Vec<_>>().join("; ")
}

/// A rail, or a segment of it.
fn stretch(rail: &str, segment: Option<usize>) -> String {
    match segment {
        Some(number) => format!("Schiene {rail}, Abschnitt {number}"),
        None => format!("Schiene {rail}"),
    }
}

/// Where a rail that is set lower comes to lie; nothing where none is.
fn set_lower(say: Reader, lower: Length, rail: &str, y: Option<Length>) -> String {
    match y {
        _ if lower <= Length::ZERO => String::new(),
        Some(y) => format!(" Im y der Schiene {rail}, {}, ist das enthalten.", say.length(y)),
        None => format!(" Im y der Dachhaken von Schiene {rail} ist das enthalten."),
    }
}

fn whose_rule(by: RuleOf, stated: Option<&String>) -> String {
    let whose = match by {
        RuleOf::Guild => "nach Fachregel",
        RuleOf::Maker => "nach Hersteller",
        RuleOf::Practice => "gängige Praxis, keine angegeben",
    };
    stated.map_or_else(|| whose.to_owned(), |stated| format!("{whose}: {stated}"))
}

const fn part_named(part: PartName) -> &'static str {
    match part {
        PartName::Modules => "Modul",
        PartName::Rails => "Schiene",
        PartName::Hooks => "Haken",
    }
}

/// A kind of edge, after "von".
const fn edge_named(edge: SideName) -> &'static str {
    match edge {
        SideName::Eaves => "der Traufe",
        SideName::Verge => "dem Ortgang",
        SideName::Ridge => "dem First",
        SideName::Hip => "dem Grat",
        SideName::Valley => "der Kehle",
        SideName::Abutment => "dem Wandanschluss",
        SideName::PartyWall => "der Haustrennwand",
    }
}

/// What the rules of a country say something of.
const fn rule_value(value: RuleValue) -> &'static str {
    match value {
        RuleValue::GroundSnow => "die Schneelast am Boden",
        RuleValue::ExceptionalSnow => "außergewöhnlichen Schnee",
        RuleValue::PeakPressure => "den Böengeschwindigkeitsdruck",
        RuleValue::WindCoefficients => "die Druckbeiwerte dieses Daches",
        RuleValue::CombinationFactors => "die Beiwerte der Kombinationen",
        RuleValue::SnowDrifts => "Schnee, der an Wände und Hindernisse verweht wird,",
    }
}
