//! Cutting plans: agreement with a general-purpose solver on random jobs, and what every plan
//! promises.

use hookspan::parts::bars::Aim;
use hookspan::parts::cutting::{CuttingPlan, USUAL_STEPS, plan};
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

/// The plan is the best where it says so and a plan everywhere; how often the search ends at the
/// best within its steps is counted, so that it cannot get worse unseen.
#[test]
fn random_jobs_are_cut_by_the_rules_and_never_better_than_a_general_purpose_solver_can() {
    let fixture: Value =
        serde_json::from_str(include_str!("cutting_milp.json")).expect("the fixture is JSON");
    let cases = fixture["cases"].as_array().expect("a list of cases");
    let [best, proven] = std::array::from_fn(|_| Tally::default());
    let mut wrong = Vec::new();
    for case in cases {
        let (id, found) = (&case["id"], &case["found"]);
        let job = given(case);
        let ours = plan(&job.runs, &job.rules, job.kerf, job.aim, USUAL_STEPS);
        let kept: Vec<Value> = ours.segments.iter().map(|s| name(s.kept).into()).collect();
        let pieces: Vec<i64> = ours
            .segments
            .iter()
            .map(|s| 1 + i64::try_from(s.splices.len()).expect("few"))
            .collect();
        if Some(&kept) != found["kept"].as_array() || pieces != list(&found["pieces"], whole) {
            wrong.push(format!("{id}: {kept:?}, {pieces:?}; the other program says {found}"));
        }
        let rank = |length: i64, bars: i64| match job.aim {
            Aim::LeastLength => [length, bars],
            Aim::FewestBars => [bars, length],
        };
        let theirs = rank(whole(&found["bought"]), whole(&found["bars"]));
        let bought = rank(ours.bought.length, ours.bought.bars);
        let bound = rank(ours.bound.length, ours.bound.bars);
        if bought < theirs || theirs < bound || (ours.proven && bought != theirs) {
            wrong.push(format!("{id}: {ours:?}; the solver says {found}"));
        }
        best.see(bought == theirs);
        proven.see(ours.proven);
        wrong.extend(broken(&job, &ours).into_iter().map(|what| format!("{id}: {what}")));
    }
    assert_eq!(wrong, Vec::<String>::new());
    assert_eq!(cases.len(), 100);
    best.at_least(60, "plans as good as the solver's");
    proven.at_least(20, "plans proven best");
}
