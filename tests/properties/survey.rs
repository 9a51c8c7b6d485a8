//! Packers and slots of one rail: agreement with a general-purpose solver on random surveys, and
//! what must hold whatever was measured.

use hookspan::hardware::Packers;
use hookspan::survey::{
    Levelled, Measured, Outcome, Reason, Remedy, Survey, USUAL_LIMIT, straighten,
};
use hookspan::units::Length;
use proptest::prelude::*;
use serde_json::Value;

use crate::{Tally, runner};

/// Agreement asked for, mm: the solver's tolerance.
const CLOSE: f64 = 1e-6;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn close(one: f64, other: f64) -> bool {
    (one - other).abs() < CLOSE
}

fn lengths(values: &[f64]) -> Vec<Length> {
    values.iter().copied().map(Length::from_mm).collect()
}

/// One survey of the fixture.
fn survey_of(given: &Value) -> Survey {
    let number = |v: &Value, name: &str| v[name].as_f64();
    let length = |v: &Value, name: &str| number(v, name).map(mm);
    let list = |v: &Value| -> Vec<Length> {
        v.as_array().into_iter().flatten().filter_map(Value::as_f64).map(mm).collect()
    };
    let must = |name: &str| length(given, name).unwrap_or_else(|| panic!("{name} is missing"));
    let hooks = given["hooks"].as_array().expect("a list of hooks");
    let hooks = hooks.iter().map(|hook| Measured {
        x: length(hook, "x_mm").expect("x_mm"),
        clearance: length(hook, "clearance_mm"),
        level: length(hook, "level_mm"),
        deflection: length(hook, "deflection_mm"),
        room_above: length(hook, "room_above_mm"),
        built: list(&hook["built_mm"]),
    });
    Survey {
        hooks: hooks.collect(),
        slot_range: must("slot_range_mm"),
        packers: Packers {
            thicknesses: list(&given["thicknesses_mm"]),
            max_stack: must("max_stack_mm"),
        },
        min_clearance: must("min_clearance_mm"),
        min_room_above: must("min_room_above_mm"),
        max_tilt: number(given, "max_tilt"),
        search_limit: USUAL_LIMIT,
    }
}

/// Everything a result promises, checked from the survey alone; what is broken, in words.
fn broken(survey: &Survey, found: &Levelled) -> Vec<String> {
    let mut broken = Vec::new();
    let mut demand = |holds: bool, what: String| {
        if !holds {
            broken.push(what);
        }
    };
    demand(found.hooks.len() == survey.hooks.len(), "one setting per hook".into());
    for (i, (hook, set)) in survey.hooks.iter().zip(&found.hooks).enumerate() {
        let height: f64 = set.packers.iter().map(|t| t.mm()).sum();
        let built: f64 = hook.built.iter().map(|t| t.mm()).sum();
        demand(close(height, set.height.mm()), format!("{i}: the pieces make the height"));
        demand(height < survey.packers.max_stack.mm() + CLOSE, format!("{i}: stack limit"));
        let stocked = |t: &Length| survey.packers.thicknesses.iter().any(|s| close(s.mm(), t.mm()));
        let kept = set.packers == hook.built;
        demand(kept || set.packers.iter().all(stocked), format!("{i}: pieces are in stock"));
        let clearance = hook.clearance.expect("measured").mm() + height - built;
        demand(close(clearance, set.clearance.mm()), format!("{i}: clearance as told"));
        demand(clearance > survey.min_clearance.mm() - CLOSE, format!("{i}: least clearance"));
        if let Some(d) = hook.deflection {
            demand(clearance - d.mm() > -CLOSE, format!("{i}: contact under load"));
            let told = set.clearance_under_load.expect("told").mm();
            demand(close(told, clearance - d.mm()), format!("{i}: clearance under load as told"));
        }
        if let Some(room) = hook.room_above {
            let left = room.mm() - (height - built);
            demand(left > survey.min_room_above.mm() - CLOSE, format!("{i}: room above"));
        }
        let slot = set.slot.mm();
        demand(slot > -CLOSE && slot < survey.slot_range.mm() + CLOSE, format!("{i}: slot {slot}"));
        let bolt = hook.level.expect("measured").mm() + height + slot;
        let rail = found.rail_at_origin.mm() + found.rail_tilt * hook.x.mm();
        demand(close(bolt, rail), format!("{i}: bolt at {bolt}, rail at {rail}"));
    }
    if let Some(limit) = survey.max_tilt {
        demand(found.rail_tilt.abs() < limit + 1e-9, format!("tilt {}", found.rail_tilt));
    }
    let sum: f64 = found.hooks.iter().map(|set| set.height.mm()).sum();
    demand(close(sum, found.total.mm()), "the sum of heights".into());
    let pieces: usize = found.hooks.iter().map(|set| set.packers.len()).sum();
    demand(pieces == found.pieces, "the number of pieces".into());
    let middle = survey.slot_range.mm() / 2.0;
    let away: f64 = found.hooks.iter().map(|set| (set.slot.mm() - middle).abs()).sum();
    demand(close(away, found.slot_deviation.mm()), "the sum of slot distances".into());
    broken
}

/// A survey with the remedy carried out.
fn helped(survey: &Survey, remedy: Remedy) -> Survey {
    let mut helped = survey.clone();
    match remedy {
        Remedy::LongerSlot { by } => helped.slot_range += by,
        Remedy::HigherStack { to } => helped.packers.max_stack = to,
        Remedy::LowerFace { hook, by } => {
            let hook = &mut helped.hooks[hook];
            hook.level = hook.level.map(|level| level - by);
            hook.clearance = hook.clearance.map(|clearance| clearance - by);
            hook.room_above = hook.room_above.map(|room| room + by);
        }
    }
    helped
}

/// Only some hooks of a survey.
fn part(survey: &Survey, hooks: &[usize]) -> Survey {
    let hooks = hooks.iter().map(|i| survey.hooks[*i].clone()).collect();
    Survey { hooks, ..survey.clone() }
}

fn levelled(survey: &Survey) -> Option<Levelled> {
    match straighten(survey) {
        Ok(Outcome::Levelled(found)) => Some(found),
        _ => None,
    }
}

#[test]
fn every_random_survey_agrees_with_a_general_purpose_solver() {
    let text = include_str!("survey_milp.json");
    let fixture: Value = serde_json::from_str(text).expect("the fixture is JSON");
    let cases = fixture["cases"].as_array().expect("a list of cases");
    let (mut solved, mut refused, mut wrong) = (0, 0, Vec::new());
    for case in cases {
        let id = case["id"].as_str().expect("an id");
        let found = &case["found"];
        let survey = survey_of(&case["given"]);
        let outcome = straighten(&survey).expect("a readable survey");
        match outcome {
            Outcome::Levelled(ours) if found["possible"] == true => {
                solved += 1;
                let same = close(ours.total.mm(), found["total_mm"].as_f64().expect("total"))
                    && Some(ours.pieces as u64) == found["pieces"].as_u64()
                    && close(
                        ours.slot_deviation.mm(),
                        found["slot_deviation_mm"].as_f64().expect("deviation"),
                    );
                if !same || !ours.proven || ours.total != ours.total_bound {
                    wrong.push(format!(
                        "{id}: {} mm, {} pieces, {} mm, proven {}; the solver says {found}",
                        ours.total.mm(),
                        ours.pieces,
                        ours.slot_deviation.mm(),
                        ours.proven
                    ));
                }
                wrong
                    .extend(broken(&survey, &ours).into_iter().map(|what| format!("{id}: {what}")));
            }
            Outcome::Impossible(why) if found["possible"] == false => {
                refused += 1;
                let longer = why.remedies.iter().find_map(|remedy| match remedy {
                    Remedy::LongerSlot { by } => Some(by.mm()),
                    _ => None,
                });
                let same = match (longer, found["longer_slot_mm"].as_f64()) {
                    (Some(ours), Some(theirs)) => close(ours, theirs),
                    (ours, theirs) => ours.is_none() && theirs.is_none(),
                };
                if !same {
                    wrong.push(format!("{id}: {why:?}; the solver says {found}"));
                }
            }
            other => wrong.push(format!("{id}: {other:?}; the solver says {found}")),
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
    assert_eq!(solved + refused, 100);
    assert!(solved >= 50 && refused >= 20, "{solved} solved, {refused} impossible");
}

/// Whole tenths of a millimetre, so that what is added to them is exact too.
fn tenths(range: std::ops::Range<i32>) -> impl Strategy<Value = f64> {
    range.prop_map(|tenths| f64::from(tenths) / 10.0)
}

fn measured() -> impl Strategy<Value = Measured> {
    let built = prop_oneof![3 => Just(vec![]), 1 => Just(vec![2.0]), 1 => Just(vec![5.0, 1.0])];
    (
        tenths(-30..90),
        tenths(-120..120),
        proptest::option::weighted(0.9, tenths(0..70)),
        proptest::option::weighted(0.2, tenths(80..300)),
        built,
    )
        .prop_map(|(clearance, level, deflection, room, built)| Measured {
            x: Length::ZERO,
            clearance: Some(mm(clearance)),
            level: Some(mm(level)),
            deflection: deflection.map(mm),
            room_above: room.map(mm),
            built: lengths(&built),
        })
}

fn surveys(hooks: std::ops::Range<usize>) -> impl Strategy<Value = Survey> {
    let stocks = [vec![1.0, 2.0, 3.0, 5.0, 10.0], vec![2.0, 5.0], vec![5.0], vec![1.5, 4.0]];
    (
        proptest::collection::vec((measured(), 300_i32..1800), hooks),
        prop_oneof![3 => tenths(0..300), 2 => tenths(0..30)],
        proptest::sample::select(stocks.to_vec()),
        tenths(80..300),
        proptest::option::weighted(0.3, 0_i32..20),
    )
        .prop_map(|(hooks, slot, stock, limit, tilt)| {
            let mut x = 0.0;
            let hooks = hooks.into_iter().map(|(hook, bay)| {
                x += f64::from(bay);
                Measured { x: mm(x), ..hook }
            });
            Survey {
                hooks: hooks.collect(),
                slot_range: mm(slot),
                packers: Packers { thicknesses: lengths(&stock), max_stack: mm(limit) },
                min_clearance: mm(5.0),
                min_room_above: mm(3.0),
                max_tilt: tilt.map(|per_mille| f64::from(per_mille) / 1000.0),
                search_limit: USUAL_LIMIT,
            }
        })
}

/// Sum, pieces, slots; nothing where there is no solution.
fn objectives(survey: &Survey) -> Option<(f64, usize, f64)> {
    levelled(survey).map(|found| (found.total.mm(), found.pieces, found.slot_deviation.mm()))
}

fn same(one: Option<(f64, usize, f64)>, other: Option<(f64, usize, f64)>) -> bool {
    match (one, other) {
        (Some((total, pieces, away)), Some((total2, pieces2, away2))) => {
            close(total, total2) && pieces == pieces2 && close(away, away2)
        }
        (one, other) => one.is_none() && other.is_none(),
    }
}

#[test]
fn a_result_keeps_every_promise_and_a_refusal_can_be_helped() {
    let [solved, helpful, planed] = [(); 3].map(|()| Tally::default());
    let [without, bent, steps, minimal_ones] = [(); 4].map(|()| Tally::default());
    runner(900)
        .run(&surveys(1..12), |survey| {
            match straighten(&survey).expect("a readable survey") {
                Outcome::Levelled(found) => {
                    solved.see(true);
                    prop_assert!(found.proven);
                    prop_assert_eq!(broken(&survey, &found), Vec::<String>::new());
                }
                Outcome::Impossible(why) => {
                    for remedy in &why.remedies {
                        helpful.see(true);
                        planed.see(matches!(remedy, Remedy::LowerFace { .. }));
                        let helped = levelled(&helped(&survey, *remedy));
                        prop_assert!(helped.is_some(), "{remedy:?} does not help");
                    }
                    let bridged = |t: &Length| *t <= survey.slot_range;
                    let mut minimal = survey.packers.thicknesses.iter().all(bridged);
                    let conflict = match why.reason {
                        Reason::NoStack(hooks) => {
                            without.see(true);
                            for none in hooks {
                                let alone = part(&survey, &[none.hook]);
                                prop_assert!(levelled(&alone).is_none());
                            }
                            return Ok(());
                        }
                        Reason::NotStraight { proud, low, by } => {
                            bent.see(true);
                            prop_assert!(by > Length::ZERO && proud.len() + low.len() <= 3);
                            [proud, low].concat()
                        }
                        Reason::SlotShorterThanSteps { hooks } => {
                            steps.see(true);
                            minimal = true;
                            hooks
                        }
                    };
                    prop_assert!(levelled(&part(&survey, &conflict)).is_none());
                    for hook in &conflict {
                        let rest: Vec<usize> =
                            conflict.iter().copied().filter(|other| other != hook).collect();
                        if minimal && !rest.is_empty() {
                            minimal_ones.see(true);
                            prop_assert!(levelled(&part(&survey, &rest)).is_some(), "{conflict:?}");
                        }
                    }
                }
                other => prop_assert!(false, "{other:?}"),
            }
            Ok(())
        })
        .expect("every survey");
    solved.at_least(200, "surveys with a solution");
    helpful.at_least(100, "remedies carried out");
    planed.at_least(5, "of them a face planed");
    without.at_least(50, "surveys with a hook without a stack");
    bent.at_least(50, "rails that cannot be straight");
    steps.at_least(5, "slots shorter than the steps of stacks");
    minimal_ones.at_least(50, "conflicts that end without one of their hooks");
}

#[test]
fn a_string_pulled_higher_or_askew_changes_nothing() {
    let strings = (tenths(-500..500), -20_i32..20);
    let solved = Tally::default();
    runner(200)
        .run(&(surveys(1..10), strings), |(survey, (up, per_mille))| {
            let survey = Survey { max_tilt: None, ..survey };
            let mut moved = survey.clone();
            for hook in &mut moved.hooks {
                let by = up + f64::from(per_mille) * hook.x.mm() / 1000.0;
                hook.level = hook.level.map(|level| level + mm(by));
            }
            let found = objectives(&survey);
            solved.see(found.is_some());
            prop_assert!(same(found, objectives(&moved)));
            Ok(())
        })
        .expect("every survey");
    solved.at_least(50, "surveys with a solution");
}

#[test]
fn a_mirrored_rail_costs_the_same() {
    let solved = Tally::default();
    runner(200)
        .run(&surveys(1..10), |survey| {
            let mut mirrored = survey.clone();
            mirrored.hooks.reverse();
            for hook in &mut mirrored.hooks {
                hook.x = mm(20_000.0) - hook.x;
            }
            let found = objectives(&survey);
            solved.see(found.is_some());
            prop_assert!(same(found, objectives(&mirrored)));
            Ok(())
        })
        .expect("every survey");
    solved.at_least(50, "surveys with a solution");
}

#[test]
fn nothing_that_can_be_written_down_makes_it_panic() {
    let odd = || {
        prop_oneof![
            1 => proptest::sample::select(vec![0.0, -0.0, 1e-300, 1000.0, -1000.0, 1e300]),
            1 => proptest::sample::select(vec![f64::NAN, f64::INFINITY]),
            30 => -5.0..60.0,
        ]
    };
    let hook = (odd(), proptest::option::of(odd()), proptest::option::of(odd()), odd());
    let survey = (
        proptest::collection::vec(hook, 0..6),
        odd(),
        proptest::collection::vec(odd(), 0..4),
        odd(),
        odd(),
        proptest::option::of(odd()),
    );
    let answered = Tally::default();
    runner(500)
        .run(&survey, |(hooks, slot, stock, limit, least, tilt)| {
            let hooks = hooks.into_iter().map(|(x, clearance, level, other)| Measured {
                x: mm(x),
                clearance: clearance.map(mm),
                level: level.map(mm),
                deflection: Some(mm(other)),
                room_above: None,
                built: vec![],
            });
            let survey = Survey {
                hooks: hooks.collect(),
                slot_range: mm(slot),
                packers: Packers { thicknesses: lengths(&stock), max_stack: mm(limit) },
                min_clearance: mm(least),
                min_room_above: mm(3.0),
                max_tilt: tilt,
                search_limit: 50,
            };
            answered.see(straighten(&survey).is_ok());
            Ok(())
        })
        .expect("every survey");
    answered.at_least(100, "surveys that could be read");
}
