//! The best of all choices, and what fewer hooks cost, are those of an enumeration that knows nothing of the search:
//! every combination is put into the request and answered as a layout, and what comes of it is counted, priced
//! and ranked anew from that answer.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use hookspan::http::job;
use hookspan::service::request::Options;
use hookspan::wire::choices::ChoicesRequest;
use hookspan::wire::layout::LayoutRequest;
use proptest::prelude::*;
use serde_json::{Value, json};

use crate::jobs::{Draft, short_job};
use crate::{Tally, runner};

/// What may be chosen, and what for.
#[derive(Debug, Clone)]
struct Freedom {
    /// First shift, step and number of steps, to the right and up the slope.
    right: (f64, f64, usize),
    up: (f64, f64, usize),
    screw_mm: Option<f64>,
    stronger_hook: Option<f64>,
    stiffer_rail: Option<f64>,
    /// What hook, screw, metre of rail and clamp of the job cost; others cost so many times as much.
    prices: [f64; 4],
    times: f64,
    pack: u32,
    /// Of hooks, price, mass, tiles and minutes.
    weights: [f64; 5],
    least: &'static str,
}

fn freedom() -> impl Strategy<Value = Freedom> {
    let right = (-120.0..0.0, 20.0..90.0, 0_usize..3)
        .prop_map(|(from, step, n)| (f64::round(from), f64::round(step), n));
    let up = (-40.0..0.0, 5.0..40.0, 0_usize..2)
        .prop_map(|(from, step, n)| (f64::round(from), f64::round(step), n));
    let parts = (
        prop::option::of(prop_oneof![Just(90.0), Just(160.0), Just(200.0)]),
        prop::option::weighted(0.8, 1.5..4.0),
        prop::option::weighted(0.8, 0.8..6.0),
    );
    let rates =
        ([1.0..20.0, 0.1..2.0, 2.0..12.0, 0.5..3.0], 0.8..5.0, prop_oneof![Just(1_u32), Just(7)]);
    let weights = prop_oneof![
        2 => Just([1.0, 0.0, 0.0, 0.0, 0.0]),
        2 => Just([0.0, 1.0, 0.0, 0.0, 0.0]),
        1 => Just([0.0, 0.0, 1.0, 0.0, 0.0]),
        1 => Just([0.0, 0.0, 0.0, 1.0, 0.0]),
        2 => [0.0..5.0, 0.1..1.0, 0.0..1.0, 0.0..1.0, 0.0..1.0],
    ];
    let least = prop_oneof![
        1 => Just("holds"), 3 => Just("holds_with_warnings"), 2 => Just("incomplete")
    ];
    (right, up, parts, rates, weights, least).prop_map(
        |(
            right,
            up,
            (screw_mm, stronger_hook, stiffer_rail),
            (prices, times, pack),
            weights,
            least,
        )| {
            Freedom {
                right,
                up,
                screw_mm,
                stronger_hook,
                stiffer_rail,
                prices,
                times,
                pack,
                weights,
                least,
            }
        },
    )
}

const KINDS: [&str; 4] = ["hook", "screw", "rail", "clamp"];
const AIMS: [&str; 5] = ["hooks", "price", "mass", "tiles_lifted", "minutes"];

/// A number of a document made so many times as large.
fn scale(document: &mut Value, pointer: &str, times: f64) {
    if let Some(value) = document.pointer_mut(pointer).filter(|value| value.is_number()) {
        *value = json!(value.as_f64().expect("a number") * times);
    }
}

impl Freedom {
    /// Other parts beside that of the job, by kind.
    fn others(&self, job: &Value) -> [Vec<Value>; 4] {
        let own = |kind: &str| {
            let mut part = job["components"][kind].clone();
            part["id"] = json!(format!("other-{kind}"));
            part
        };
        let screw = self.screw_mm.map(|length| {
            let mut screw = own("screw");
            screw["length_mm"] = json!(length);
            screw["thread_length_mm"] = json!(length.min(90.0));
            screw
        });
        let hook = self.stronger_hook.map(|times| {
            let mut hook = own("hook");
            for figure in ["press_kn", "lift_kn", "slope_kn"] {
                scale(&mut hook, &format!("/resistance/{figure}"), times);
            }
            scale(&mut hook, "/stiffness/normal_kn_per_mm", times);
            scale(&mut hook, "/mass_kg", times);
            hook
        });
        let rail = self.stiffer_rail.map(|times| {
            let mut rail = own("rail");
            for figure in ["i_normal_mm4", "w_normal_mm3", "mass_kg_per_m"] {
                scale(&mut rail, &format!("/{figure}"), times);
            }
            rail
        });
        [hook, screw, rail, None].map(|part| part.into_iter().collect())
    }

    fn rate(&self, kind: usize, is_other: bool) -> Value {
        let price = self.prices[kind] * if is_other { self.times } else { 1.0 };
        json!({"price": price, "minutes": 1.0 + kind as f64})
    }

    fn request(&self, job: &Value) -> Value {
        let shifts = |(from, step, n): (f64, f64, usize)| json!({"from_mm": from, "to_mm": from + step * n as f64, "step_mm": step});
        let mut choices =
            json!({"positions": [{"right": shifts(self.right), "up": shifts(self.up)}]});
        for (kind, (name, others)) in KINDS.iter().zip(self.others(job)).enumerate() {
            let listed = others.into_iter().map(|part| {
                let mut listed = self.rate(kind, true);
                listed[name] = part;
                listed
            });
            choices[format!("{name}s")] = listed.collect();
        }
        let mut rates: serde_json::Map<String, Value> = KINDS
            .iter()
            .enumerate()
            .map(|(i, kind)| ((*kind).to_owned(), self.rate(i, false)))
            .collect();
        rates.insert("lifted_tile".to_owned(), json!({"price": 0.25, "minutes": 0.5}));
        let aim: Value =
            AIMS.iter().zip(self.weights).map(|(aim, w)| ((*aim).to_owned(), json!(w))).collect();
        json!({
            "job": job, "choices": choices, "aim": aim, "least_verdict": self.least,
            "rates": rates, "rows": 1000,
        })
    }

    /// Every combination: its shift and which parts are others.
    fn combinations(&self, job: &Value) -> Vec<([f64; 2], [bool; 4])> {
        let as_asked = ([0.0; 2], [false; 4]);
        let mut all = vec![as_asked];
        let steps =
            |(from, step, n): (f64, f64, usize)| (0..=n).map(move |k| from + step * k as f64);
        let others = self.others(job).map(|of| !of.is_empty());
        for x in steps(self.right) {
            for y in steps(self.up) {
                for bits in 0..16_u32 {
                    // The first kind changes slowest.
                    let taken = [8, 4, 2, 1].map(|bit| bits & bit != 0);
                    let listed = taken.iter().zip(others).all(|(taken, there)| there || !taken);
                    if listed && ([x, y], taken) != as_asked {
                        all.push(([x, y], taken));
                    }
                }
            }
        }
        all
    }

    fn made(&self, job: &Value, ([x, y], taken): ([f64; 2], [bool; 4])) -> Value {
        let mut made = job.clone();
        for (kind, (name, others)) in KINDS.iter().zip(self.others(job)).enumerate() {
            if taken[kind] {
                made["components"][name] = others[0].clone();
            }
        }
        for (axis, shift) in [x, y].into_iter().enumerate() {
            let at = &mut made["array"]["fields"][0]["origin_mm"][axis];
            *at = json!(at.as_f64().expect("a number") + shift);
        }
        made
    }
}

/// What an enumeration keeps of a layout.
struct Seen {
    at: usize,
    class: (usize, usize),
    aim: f64,
    hooks: u64,
    used: f64,
    price: f64,
    verdict: Value,
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}

impl Seen {
    fn of(at: usize, answer: &Value, freedom: &Freedom, taken: [bool; 4]) -> Self {
        let tiles: BTreeSet<(i64, String, i64)> = list(&answer["hooks"])
            .iter()
            .flat_map(|hook| list(&hook["tiles"]["lift"]))
            .flat_map(|run| {
                let [from, to] = [0, 1].map(|end| run["columns"][end].as_i64().expect("a column"));
                let row = run["row"].to_string();
                let course = run["course"].as_i64().expect("a course");
                (from..=to).map(move |column| (course, row.clone(), column))
            })
            .collect();
        let tiles = tiles.len() as f64;
        let (mut price, mut minutes) = (0.25 * tiles, 0.5 * tiles);
        for line in list(&answer["parts"]["lines"]) {
            let (kind, metres) = match line["kind"].as_str().expect("a kind") {
                "hook" => (0, 1.0),
                "screw" => (1, 1.0),
                "rail_bar" => (2, number(&line["size_mm"]) / 1e3),
                "mid_clamp" | "end_clamp" => (3, 1.0),
                _ => continue,
            };
            let rate = freedom.rate(kind, taken[kind]);
            price += number(&line["ordered"]) * metres * number(&rate["price"]);
            if kind != 2 {
                minutes += number(&line["needed"]) * number(&rate["minutes"]);
            }
        }
        minutes += number(&answer["parts"]["cutting"]["used_mm"]) / 1e3 * 3.0;
        let mass = number(&answer["parts"]["mass"]["total_kg"]);
        let hooks = answer["optimality"]["hooks"].as_u64().expect("a count");
        let figures = [hooks as f64, price, mass, tiles, minutes];
        let codes: BTreeSet<&str> = list(&answer["warnings"])
            .iter()
            .filter(|found| found["severity"] == "incomplete")
            .map(|found| found["code"].as_str().expect("a code"))
            .collect();
        let rank = |verdict: &str| {
            let all = ["holds", "holds_with_warnings", "incomplete", "fails"];
            all.iter().position(|one| *one == verdict).expect("a verdict")
        };
        let verdict = rank(answer["verdict"].as_str().expect("a verdict"));
        let class = if verdict <= rank(freedom.least) { (0, 0) } else { (verdict, codes.len()) };
        Self {
            at,
            class,
            aim: freedom.weights.iter().zip(figures).map(|(weight, figure)| weight * figure).sum(),
            hooks,
            used: number(&answer["utilisation"]["max"]),
            // As it is told.
            price: (price * 1e4).round() / 1e4,
            verdict: answer["verdict"].clone(),
        }
    }

    fn compare(&self, other: &Self) -> Ordering {
        let aims = if (self.aim - other.aim).abs() < 1e-3 {
            Ordering::Equal
        } else {
            self.aim.total_cmp(&other.aim)
        };
        self.class
            .cmp(&other.class)
            .then(aims)
            .then(self.hooks.cmp(&other.hooks))
            .then(self.used.total_cmp(&other.used))
            .then(self.at.cmp(&other.at))
    }
}

#[expect(clippy::cast_possible_truncation, reason = "a price of a roof")]
fn cents(price: f64) -> i64 {
    (price * 1e2).round() as i64
}

/// Those than which none has as few hooks at as low a price with less of either, as hooks and price.
fn front(seen: &[&Seen]) -> Vec<(u64, i64)> {
    let points: BTreeSet<(u64, i64)> =
        seen.iter().map(|one| (one.hooks, cents(one.price))).collect();
    let is_beaten = |(hooks, price): &(u64, i64)| {
        points.iter().any(|(h, p)| h <= hooks && p <= price && (h, p) != (hooks, price))
    };
    points.iter().filter(|point| !is_beaten(point)).copied().collect()
}

fn answered<R: job::Kind>(request: &Value) -> Result<Value, String> {
    let answer = job::answer::<R>(request.to_string().as_bytes(), &Options::default());
    let answer = answer.map_err(|problem| format!("{problem:?}"))?;
    Ok(serde_json::to_value(answer).expect("an answer is JSON"))
}

fn compare_with_enumeration(
    draft: &Draft,
    freedom: &Freedom,
    tally: &Tallies,
) -> Result<(), TestCaseError> {
    let mut request = draft.request();
    request.remedies = Some(false);
    let mut job = serde_json::to_value(request).expect("a request is JSON");
    // What an answer tells of a length in hundredths of a millimetre is then all of it.
    for stock in job["components"]["rail"]["stock_lengths_mm"].as_array_mut().expect("a list") {
        *stock = json!(number(stock).round());
    }
    let spares = json!({"spare_percent": 3.0, "pack_size": freedom.pack});
    job["wishes"]["order"] = json!({"allowances": {"hook": spares, "screw": spares}});
    // Strong enough to hold as often as not, and screws so strong that it is the hooks that decide.
    scale(&mut job, "/components/screw/withdrawal_n_per_mm2", 2.0);
    scale(&mut job, "/site/snow/ground_load_kn_per_m2", 0.4);
    scale(&mut job, "/site/wind/peak_pressure_kn_per_m2", 0.5);
    job["scopes"] = json!(["fixing", "rail", "covering", "data"]);
    let hook = &mut job["components"]["hook"];
    hook["resistance"]["basis"] = json!("test");
    for figure in ["press_kn", "lift_kn", "slope_kn"] {
        scale(hook, &format!("/resistance/{figure}"), 0.7);
    }
    let combinations = freedom.combinations(&job);
    let mut seen = Vec::new();
    let mut refused = 0;
    for (at, combination) in combinations.iter().enumerate() {
        match answered::<LayoutRequest>(&freedom.made(&job, *combination)) {
            Ok(answer) => seen.push(Seen::of(at, &answer, freedom, combination.1)),
            Err(_) => refused += 1,
        }
    }
    let Ok(answer) = answered::<ChoicesRequest>(&freedom.request(&job)) else {
        prop_assert!(seen.is_empty(), "refused, and {} can be laid", seen.len());
        return Ok(());
    };
    let counts = &answer["counts"];
    prop_assert_eq!(&counts["choices"], combinations.len());
    prop_assert_eq!(&counts["refused"], refused);
    prop_assert_eq!(&counts["not_reached"], 0);
    prop_assert_eq!(&counts["laid_out"], seen.len());
    seen.sort_by(Seen::compare);
    let best = seen.first().filter(|best| best.class.0 < 3);
    let told = answer.get("best");
    prop_assert_eq!(best.is_some(), told.is_some());
    let Some((best, told)) = best.zip(told) else { return Ok(()) };
    let (shift, taken) = combinations[best.at];
    let others = KINDS.iter().zip(taken);
    prop_assert_eq!(&told["choice"]["shifts_mm"], &json!([shift]), "{}", told);
    for (kind, is_other) in others {
        prop_assert_eq!(told["choice"][kind] == format!("other-{kind}"), is_other, "{}", told);
    }
    prop_assert_eq!(&told["verdict"], &best.verdict);
    prop_assert_eq!(&told["hooks"], best.hooks);
    prop_assert!((number(&told["aim"]) - best.aim).abs() < 1e-2, "{told}: {}", best.aim);
    prop_assert!(number(&answer["no_better_than"]) <= best.aim + 1e-2);
    let alike: Vec<&Seen> = seen.iter().filter(|one| one.class == best.class).collect();
    let told_front: Vec<(u64, i64)> = list(&answer["hooks_against_price"])
        .iter()
        .map(|row| (row["hooks"].as_u64().expect("a count"), cents(number(&row["price"]))))
        .collect();
    let front = front(&alike);
    prop_assert_eq!(&told_front, &front);
    tally.trade.see(front.len() > 1);
    tally.better.see(best.at > 0);
    tally.reached.see(answer["reached"] == true);
    tally.mixed.see(seen.iter().any(|one| one.class != best.class));
    Ok(())
}

#[derive(Default)]
struct Tallies {
    better: Tally,
    reached: Tally,
    mixed: Tally,
    trade: Tally,
}

#[test]
fn the_best_of_all_choices_is_that_of_an_enumeration() {
    let tally = Tallies::default();
    runner(80)
        .run(&(short_job(), freedom()), |(draft, freedom)| {
            compare_with_enumeration(&draft, &freedom, &tally)
        })
        .unwrap();
    tally.better.at_least(20, "jobs with a better choice than they are");
    tally.reached.at_least(15, "jobs with a choice that is as good as asked for");
    tally.mixed.at_least(8, "jobs with choices of several verdicts");
    tally.trade.at_least(3, "jobs where fewer hooks cost more");
}
