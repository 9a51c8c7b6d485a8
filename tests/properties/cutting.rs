//! Cutting plans: agreement with a general-purpose solver on random jobs, small and large, and what
//! every plan promises.

use hookspan::parts::bars::Aim;
use hookspan::parts::cutting::{CuttingPlan, SegmentCut, USUAL_STEPS, plan};
use hookspan::parts::splicing::{Kept, Rules, Run};
use serde_json::Value;

use crate::Tally;

struct Given {
    runs: Vec<Run>,
    rules: Rules,
    kerf: i64,
    aim: Aim,
}

fn whole(value: &Value) -> i64 {
    value.as_i64().unwrap_or_else(|| panic!("{value} is no whole number"))
}

fn list<T>(value: &Value, of: impl Fn(&Value) -> T) -> Vec<T> {
    value.as_array().expect("a list").iter().map(of).collect()
}

/// One job of the fixture.
fn given(case: &Value) -> Given {
    let given = &case["given"];
    let run = |segment: &Value| Run {
        length: whole(&segment["length"]),
        hooks: list(&segment["hooks"], whole),
        clamps: list(&segment["clamps"], |clamp| [whole(&clamp[0]), whole(&clamp[1])]),
        hinges: None,
    };
    Given {
        runs: list(&given["segments"], run),
        rules: Rules {
            stock: list(&given["stock"], whole),
            min_piece: whole(&given["min_piece"]),
            splice_half: whole(&given["splice_half"]),
            arm_half: whole(&given["arm_half"]),
        },
        kerf: whole(&given["kerf"]),
        aim: match given["aim"].as_str() {
            Some("least_length") => Aim::LeastLength,
            Some("fewest_bars") => Aim::FewestBars,
            other => panic!("an aim, not {other:?}"),
        },
    }
}

const fn name(kept: Kept) -> &'static str {
    match kept {
        Kept::All => "all",
        Kept::MiddleThirdUsed => "middle_third_used",
        Kept::EndSpanUsed => "end_span_used",
        Kept::FreeEndUsed => "free_end_used",
        Kept::None => "none",
    }
}

/// Everything a plan promises, checked from the job alone; what is broken, in words.
fn broken(job: &Given, plan: &CuttingPlan) -> Vec<String> {
    let mut broken = Vec::new();
    let mut demand = |holds: bool, what: String| {
        if !holds {
            broken.push(what);
        }
    };
    demand(plan.segments.len() == job.runs.len(), "one cutting per segment".into());
    // Every piece is cut once, from a bar that yields it.
    let mut waiting = Vec::new();
    for (s, (run, cut)) in job.runs.iter().zip(&plan.segments).enumerate() {
        let mut start = 0;
        for (number, end) in cut.splices.iter().chain([&run.length]).enumerate() {
            waiting.push((s, number, start, end - start));
            start = *end;
        }
    }
    let mut cut: Vec<_> = plan
        .bars
        .iter()
        .flat_map(|bar| &bar.pieces)
        .map(|piece| (piece.segment, piece.number, piece.start, piece.length))
        .collect();
    cut.sort_unstable();
    demand(cut == waiting, format!("pieces {waiting:?} are cut as {cut:?}"));
    for (b, bar) in plan.bars.iter().enumerate() {
        demand(job.rules.stock.contains(&bar.stock), format!("bar {b}: {} in stock", bar.stock));
        let used: i64 = bar.pieces.iter().map(|piece| piece.length).sum();
        let between = i64::try_from(bar.pieces.len()).expect("few") - 1;
        let left = bar.stock - used - job.kerf * between;
        demand(left >= 0, format!("bar {b}: {left} left"));
        let cuts = between + i64::from(left > 0);
        demand(i64::try_from(bar.cuts) == Ok(cuts), format!("bar {b}: {} cuts", bar.cuts));
        demand(bar.offcut == (left - job.kerf).max(0), format!("bar {b}: offcut {}", bar.offcut));
    }
    let bought: i64 = plan.bars.iter().map(|bar| bar.stock).sum();
    demand(bought == plan.bought.length, "length bought".into());
    demand(i64::try_from(plan.bars.len()) == Ok(plan.bought.bars), "bars bought".into());
    for (s, (run, cut)) in job.runs.iter().zip(&plan.segments).enumerate() {
        if !cut.splices.is_empty() {
            let rules = against_rules(&job.rules, run, cut.kept, &cut.splices);
            demand(rules.is_empty(), format!("segment {s}, {:?}: {rules:?}", cut.kept));
        }
    }
    broken
}

/// Where splices break the rules they are said to keep.
fn against_rules(rules: &Rules, run: &Run, kept: Kept, splices: &[i64]) -> Vec<String> {
    let mut broken = Vec::new();
    let per_piece = match kept {
        Kept::All | Kept::MiddleThirdUsed => 2,
        Kept::EndSpanUsed => 1,
        Kept::FreeEndUsed | Kept::None => 0,
    };
    let mut start = 0;
    for end in splices.iter().chain([&run.length]) {
        let hooks = run.hooks.iter().filter(|h| start < **h && *h < end).count();
        if hooks < per_piece && kept != Kept::None {
            broken.push(format!("{hooks} hooks between {start} and {end}"));
        }
        if end - start < rules.min_piece {
            broken.push(format!("only {} from {start} to {end}", end - start));
        }
        start = *end;
    }
    for x in splices {
        let arm = rules.splice_half + rules.arm_half;
        if kept != Kept::None && run.hooks.iter().any(|h| (h - x).abs() < arm) {
            broken.push(format!("{x} at a hook"));
        }
        let under = |[a, b]: &[i64; 2]| a - rules.splice_half < *x && *x < b + rules.splice_half;
        if kept != Kept::None && run.clamps.iter().any(under) {
            broken.push(format!("{x} under a clamp"));
        }
        let middle = |span: &[i64]| {
            let third = (span[1] - span[0]) / 3;
            span[0] + third < *x && *x < span[1] - third
        };
        if kept == Kept::All && run.hooks.windows(2).any(middle) {
            broken.push(format!("{x} in the middle of a span"));
        }
    }
    broken
}

/// Jobs and what the general-purpose solver found.
fn cases(fixture: &str) -> Vec<Value> {
    let fixture: Value = serde_json::from_str(fixture).expect("the fixture is JSON");
    fixture["cases"].as_array().expect("a list of cases").clone()
}

fn usual() -> Vec<Value> {
    cases(include_str!("cutting_milp.json"))
}

fn large() -> Vec<Value> {
    cases(include_str!("cutting_milp_large.json"))
}

/// What was bought, the more important first.
fn rank(aim: Aim, length: i64, bars: i64) -> [i64; 2] {
    match aim {
        Aim::LeastLength => [length, bars],
        Aim::FewestBars => [bars, length],
    }
}

/// A plan beside what the solver found.
struct Beside {
    job: Given,
    plan: CuttingPlan,
    bought: [i64; 2],
    theirs: [i64; 2],
    /// What is wrong with the plan, in words.
    wrong: Vec<String>,
}

/// Cuts a job: the plan keeps every rule, is never better than the solver's, and is as good where
/// it says that it is proven; no bound is beyond what the solver found.
fn beside_the_solver(case: &Value, steps: u64) -> Beside {
    let (id, found) = (&case["id"], &case["found"]);
    let job = given(case);
    let plan = plan(&job.runs, &job.rules, job.kerf, job.aim, steps);
    let kept: Vec<Value> = plan.segments.iter().map(|s| name(s.kept).into()).collect();
    let count = |s: &SegmentCut| 1 + i64::try_from(s.splices.len()).expect("few");
    let pieces: Vec<i64> = plan.segments.iter().map(count).collect();
    let mut wrong = Vec::new();
    if Some(&kept) != found["kept"].as_array() || pieces != list(&found["pieces"], whole) {
        wrong.push(format!("{id}: {kept:?}, {pieces:?}; the other program says {found}"));
    }
    let theirs = rank(job.aim, whole(&found["bought"]), whole(&found["bars"]));
    let bought = rank(job.aim, plan.bought.length, plan.bought.bars);
    let bound = rank(job.aim, plan.bound.length, plan.bound.bars);
    if bought < theirs || theirs < bound || (plan.proven && bought != theirs) {
        wrong.push(format!("{id}: {plan:?}; the solver says {found}"));
    }
    wrong.extend(broken(&job, &plan).into_iter().map(|what| format!("{id}: {what}")));
    Beside { job, plan, bought, theirs, wrong }
}

/// Every plan is as good as the solver's, and proven.
fn assert_best(cases: &[Value]) {
    for case in cases {
        let Beside { plan, bought, theirs, wrong, .. } = beside_the_solver(case, USUAL_STEPS);
        assert_eq!(wrong, Vec::<String>::new());
        assert_eq!(bought, theirs, "{}", case["id"]);
        assert!(plan.proven, "{}: no more than {:?} is proven", case["id"], plan.bound);
    }
}

#[test]
fn every_random_job_is_cut_as_well_as_by_a_general_purpose_solver_and_proven() {
    let cases = usual();
    assert_eq!(cases.len(), 100);
    assert_best(&cases);
}

#[test]
fn so_is_every_large_job() {
    let cases = large();
    assert_eq!(cases.len(), 40);
    assert_best(&cases);
}

#[test]
fn steps_that_do_not_suffice_give_a_plan_and_a_bound_all_the_same() {
    let open = Tally::default();
    for case in usual() {
        for steps in [0, 5_000, 50_000] {
            let Beside { plan, wrong, .. } = beside_the_solver(&case, steps);
            assert_eq!(wrong, Vec::<String>::new());
            open.see(!plan.proven);
        }
    }
    open.at_least(50, "plans without proof");
}

#[test]
fn rails_that_are_turned_round_are_cut_from_the_same_bars() {
    for case in usual() {
        let Beside { mut job, bought, .. } = beside_the_solver(&case, USUAL_STEPS);
        for run in job.runs.iter_mut().step_by(2) {
            let length = run.length;
            run.hooks = run.hooks.iter().rev().map(|x| length - x).collect();
            run.clamps = run.clamps.iter().rev().map(|[a, b]| [length - b, length - a]).collect();
        }
        let turned = plan(&job.runs, &job.rules, job.kerf, job.aim, USUAL_STEPS);
        assert_eq!(broken(&job, &turned), Vec::<String>::new(), "{}", case["id"]);
        let turned = rank(job.aim, turned.bought.length, turned.bought.bars);
        assert_eq!(turned, bought, "{}", case["id"]);
    }
}
