//! What is true of every recheck? Properties of random built jobs, the same ones in every run.

use hookspan::jobs::{intake, layout, recheck};
use hookspan::model::built::{Built, BuiltHook, BuiltRail, Found};
use hookspan::model::layout::{LayoutAnswer, LayoutRequest, Verdict};
use hookspan::model::recheck::{RecheckAnswer, RecheckRequest, RepairOutcome};
use hookspan::placement::loading::{self, Footing};
use hookspan::placement::{built, repair};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed, TestRunner};

const BARN: &str = include_str!("data/layout-barn.json");
const COTTAGE: &str = include_str!("data/layout-cottage.json");

fn runner(cases: u32) -> TestRunner {
    TestRunner::new(Config {
        cases,
        rng_seed: RngSeed::Fixed(1_140_380),
        failure_persistence: None,
        ..Config::default()
    })
}

/// What is drawn for one roof; everything else stays as in the example.
#[derive(Debug, Clone)]
struct Draft {
    cottage: bool,
    pitch_deg: f64,
    snow: f64,
    wind: f64,
    rows: u32,
    columns: u32,
    /// Hundredths of a millimetre, as far as an answer tells them.
    shifts: Vec<i32>,
    strength: f64,
    rigid: bool,
}

fn drafts() -> impl Strategy<Value = Draft> {
    (
        any::<bool>(),
        20.0..55.0,
        0.2..2.0,
        0.3..1.0,
        1..3_u32,
        2..6_u32,
        prop::collection::vec(-6000..6000_i32, 40),
        1.0..2.0,
        prop::bool::weighted(0.2),
    )
        .prop_map(
            |(cottage, pitch_deg, snow, wind, rows, columns, shifts, strength, rigid)| Draft {
                cottage,
                pitch_deg,
                snow,
                wind,
                rows,
                columns,
                shifts,
                strength,
                rigid,
            },
        )
}

impl Draft {
    fn request(&self) -> LayoutRequest {
        let text = if self.cottage { COTTAGE } else { BARN };
        let mut job: serde_json::Map<_, _> = serde_json::from_str(text).expect("an example");
        job["site"]["snow"] = serde_json::json!({"ground_load_kn_per_m2": self.snow});
        job["site"]["wind"] = serde_json::json!({"peak_pressure_kn_per_m2": self.wind});
        job["roof"]["pitch_deg"] = self.pitch_deg.into();
        let mut request: LayoutRequest = serde_json::from_value(job.into()).expect("a request");
        let rafters = &mut request.roof.rafters;
        if let (Some(first), Some(spacing), Some(count)) =
            (rafters.first_mm.take(), rafters.spacing_mm.take(), rafters.count.take())
        {
            let regular = (0..count).map(|i| first + spacing * f64::from(i));
            rafters.positions_mm = Some(regular.collect());
        }
        for (x, shift) in rafters.positions_mm.iter_mut().flatten().zip(&self.shifts) {
            *x = ((*x * 100.0).round() + f64::from(*shift)) / 100.0;
        }
        request.array.fields.truncate(1);
        let field = &mut request.array.fields[0];
        field.rows = field.rows.min(self.rows);
        field.columns = field.columns.min(self.columns);
        field.omitted.clear();
        if let hookspan::model::components::HookChoice::Inline(hook) = &mut request.components.hook
        {
            hook.resistance.press_kn *= self.strength;
            hook.resistance.lift_kn *= self.strength;
            hook.resistance.slope_kn *= self.strength;
            if self.rigid {
                hook.stiffness = None;
            }
        }
        request
    }
}

fn lay_out(request: &LayoutRequest) -> Option<LayoutAnswer> {
    layout::run(request, String::new(), &layout::Options::default()).ok()
}

fn check(request: &RecheckRequest) -> RecheckAnswer {
    recheck::run(request, String::new(), &layout::Options::default())
        .unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// A layout built as it was drawn.
fn as_drawn(request: &LayoutRequest, answer: &LayoutAnswer) -> RecheckRequest {
    RecheckRequest {
        reference: None,
        rules: request.rules.clone(),
        site: request.site.clone(),
        roof: request.roof.clone(),
        array: request.array.clone(),
        components: request.components.clone(),
        wishes: request.wishes.clone(),
        built: Built {
            rails: answer
                .rails
                .iter()
                .map(|rail| BuiltRail {
                    id: rail.id.clone(),
                    y_mm: rail.y_mm,
                    start_mm: None,
                    end_mm: None,
                })
                .collect(),
            hooks: answer
                .hooks
                .iter()
                .map(|hook| BuiltHook {
                    id: hook.id.clone(),
                    rail: hook.rail.clone(),
                    x_mm: hook.x_mm,
                    packers_mm: hook.packers_mm.clone(),
                    found: None,
                })
                .collect(),
        },
        recorded: None,
    }
}

/// Something else at some hooks than was drawn.
#[derive(Debug, Clone)]
struct Oddity {
    hook: prop::sample::Index,
    packers_mm: Vec<f64>,
    found: [Option<f64>; 5],
    gone: bool,
}

fn oddities() -> impl Strategy<Value = Vec<Oddity>> {
    let one = (
        any::<prop::sample::Index>(),
        prop::collection::vec(1.0..6.0, 0..3),
        [
            prop::option::of(-40.0..40.0),
            prop::option::of(50.0..140.0),
            prop::option::of(20.0..60.0),
            prop::option::of(-2.0..15.0),
            prop::option::of(60.0..240.0),
        ],
        prop::bool::weighted(0.15),
    )
        .prop_map(|(hook, packers_mm, found, gone)| Oddity { hook, packers_mm, found, gone });
    prop::collection::vec(one, 0..8)
}

fn change(built: &mut Built, oddities: &[Oddity]) {
    for odd in oddities {
        if built.hooks.is_empty() {
            return;
        }
        let at = odd.hook.index(built.hooks.len());
        if odd.gone {
            built.hooks.remove(at);
            continue;
        }
        let hook = &mut built.hooks[at];
        let [shift, width, batten, clearance, screw] = odd.found;
        hook.packers_mm.clone_from(&odd.packers_mm);
        hook.found = Some(Found {
            rafter_x_mm: shift.map(|by| hook.x_mm + by),
            rafter_width_mm: width,
            counter_batten_mm: batten,
            clearance_mm: clearance,
            screw_length_mm: screw,
        });
    }
}

/// 200 built jobs with whatever found: on every rail that stands, the hooks carry its loads, no
/// more and no less, in every combination.
#[test]
fn hooks_carry_the_loads_of_their_rail_whatever_was_found() {
    let sums = std::cell::Cell::new(0);
    runner(200)
        .run(&(drafts(), oddities()), |(draft, odd)| {
            let request = draft.request();
            let Some(answer) = lay_out(&request) else { return Ok(()) };
            let mut request = as_drawn(&request, &answer);
            change(&mut request.built, &odd);
            let taken = intake::take_built(&request).expect("nothing is wrong with the request");
            let checked = built::check(&taken.taken.job, &taken.built, taken.lines);
            for laid in checked.layout.segments() {
                let Some(result) = &laid.result else { continue };
                for (case, forces) in laid.segment.cases.iter().zip(&result.forces) {
                    let strips =
                        [(&laid.segment.normal, case.normal), (&laid.segment.slope, case.slope)];
                    for (axis, (strip, of)) in strips.into_iter().enumerate() {
                        let total = strip.total_load(of);
                        let sum: f64 = forces.iter().map(|f| f[axis].n()).sum();
                        let gross: f64 = forces.iter().map(|f| f[axis].n().abs()).sum();
                        prop_assert!((sum - total).abs() <= 1e-9 * gross.max(total.abs()));
                        sums.set(sums.get() + 1);
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    assert!(sums.get() > 10_000, "only {} sums were looked at", sums.get());
}

/// What a layout says of its hooks is what a recheck says of the same hooks built.
#[test]
fn a_layout_built_as_drawn_is_used_as_it_says() {
    let jobs = std::cell::Cell::new(0);
    runner(60)
        .run(&drafts(), |draft| {
            let request = draft.request();
            let Some(answer) = lay_out(&request) else { return Ok(()) };
            let again = check(&as_drawn(&request, &answer));
            // A height between two hundredths of a millimetre moves the rails by less than that.
            prop_assert!((again.utilisation.max - answer.utilisation.max).abs() <= 1e-9);
            for (now, then) in again.hooks.iter().zip(&answer.hooks) {
                prop_assert_eq!(&now.id, &then.id);
                prop_assert!((now.utilisation.max - then.utilisation.max).abs() <= 1e-9);
                prop_assert!((now.normal_kn - then.normal_kn).abs() <= 1e-9);
            }
            for (now, then) in again.rails.iter().zip(&answer.rails) {
                prop_assert!((now.utilisation - then.utilisation).abs() <= 1e-9);
            }
            prop_assert_eq!(again.hooks.len(), answer.hooks.len());
            prop_assert_eq!(again.verdict, answer.verdict);
            jobs.set(jobs.get() + 1);
            Ok(())
        })
        .unwrap();
    assert!(jobs.get() >= 50, "only {} jobs were looked at", jobs.get());
}

/// Of the fewest hooks none can go.
#[test]
fn without_any_hook_of_a_proven_layout_the_job_fails() {
    let removed = std::cell::Cell::new(0);
    runner(40)
        .run(&drafts(), |draft| {
            let request = draft.request();
            let Some(answer) = lay_out(&request) else { return Ok(()) };
            if answer.verdict == Verdict::Fails || !answer.optimality.proven {
                return Ok(());
            }
            let whole = as_drawn(&request, &answer);
            for at in 0..whole.built.hooks.len() {
                let mut fewer = whole.clone();
                let gone = fewer.built.hooks.remove(at);
                let answer = check(&fewer);
                prop_assert_eq!(answer.verdict, Verdict::Fails, "without {}", gone.id);
                removed.set(removed.get() + 1);
            }
            Ok(())
        })
        .unwrap();
    assert!(removed.get() >= 200, "only {} hooks were taken away", removed.get());
}

/// A job that held and lost hooks is told how few to add, never more than it lost on a rail; and
/// with those built it holds again.
#[test]
fn a_suggestion_that_is_built_holds() {
    let (mended, fewer) = (std::cell::Cell::new(0), std::cell::Cell::new(0));
    let lost = prop::collection::vec(any::<prop::sample::Index>(), 1..4);
    runner(120)
        .run(&(drafts(), lost), |(draft, lost)| {
            let request = draft.request();
            let Some(answer) = lay_out(&request) else { return Ok(()) };
            if answer.verdict == Verdict::Fails || !answer.optimality.proven {
                return Ok(());
            }
            let mut request = as_drawn(&request, &answer);
            for at in lost {
                request.built.hooks.remove(at.index(request.built.hooks.len()));
            }
            let broken = check(&request);
            let suggestion = broken.suggestion.expect("hooks of a proven layout are missing");
            for part in &suggestion.segments {
                let on = |rail: &str| rail == part.rail;
                let before = answer.hooks.iter().filter(|h| on(&h.rail)).count();
                let left = request.built.hooks.iter().filter(|h| on(&h.rail)).count();
                prop_assert!(part.add >= 1 && part.add as usize <= before - left);
                prop_assert_eq!(part.outcome, RepairOutcome::FewestProven);
            }
            fewer.set(fewer.get() + suggestion.segments.len());
            for (number, hook) in suggestion.add.iter().enumerate() {
                request.built.hooks.push(BuiltHook {
                    id: format!("new {number}"),
                    rail: hook.rail.clone(),
                    x_mm: hook.x_mm,
                    packers_mm: hook.packers_mm.clone(),
                    found: None,
                });
            }
            let mended_job = check(&request);
            prop_assert!(mended_job.suggestion.is_none());
            prop_assert_eq!(mended_job.verdict, suggestion.verdict);
            let max = mended_job.utilisation.max;
            prop_assert!((max - suggestion.max_utilisation).abs() <= 1e-9);
            mended.set(mended.get() + 1);
            Ok(())
        })
        .unwrap();
    assert!(mended.get() >= 40 && fewer.get() >= 60, "{} {}", mended.get(), fewer.get());
}

/// Every choice of free rafters, tried one by one, on short rails that lost hooks or whose feet
/// were packed: none with fewer hooks holds, and where none is said to help, none does.
#[test]
fn no_choice_of_free_rafters_beats_the_suggestion() {
    let (found, none) = (std::cell::Cell::new(0), std::cell::Cell::new(0));
    runner(60)
        .run(&(drafts(), oddities()), |(draft, odd)| {
            let request = draft.request();
            let Some(answer) = lay_out(&request) else { return Ok(()) };
            let mut request = as_drawn(&request, &answer);
            change(&mut request.built, &odd);
            let taken = intake::take_built(&request).expect("nothing is wrong with the request");
            let job = &taken.taken.job;
            let checked = built::check(job, &taken.built, taken.lines);
            for repair in repair::repairs(job, &taken.built, &checked) {
                let rail = &checked.layout.rails[repair.rail].line;
                let mut footings = taken.built.footings.clone();
                footings.push(Footing::of(job));
                let ends = rail.segments[repair.segment];
                let places = repair.places.clone();
                let segment = loading::segment(job, &footings, rail, ends, places.clone());
                let free: Vec<usize> = (0..places.len()).filter(|p| !places[*p].stands).collect();
                if free.len() > 10 {
                    continue;
                }
                let fewest = (0..1_u32 << free.len())
                    .filter_map(|bits| {
                        let chosen: Vec<usize> = (0..places.len())
                            .filter(|p| {
                                let at = free.iter().position(|f| f == p);
                                at.is_none_or(|at| bits >> at & 1 == 1)
                            })
                            .collect();
                        let (first, last) = chosen.first().zip(chosen.last())?;
                        let held = places[*first].may_be_first && places[*last].may_be_last;
                        let used = segment.examine(&chosen)?.governing().1.utilisation;
                        let holds = held && used <= job.wishes.max_utilisation;
                        holds.then_some(bits.count_ones())
                    })
                    .min();
                let said = repair.found.outcome.passes().then(|| repair.added().count() as u32);
                prop_assert_eq!(said, fewest);
                if said.is_some() { &found } else { &none }.update(|n| n + 1);
            }
            Ok(())
        })
        .unwrap();
    assert!(found.get() >= 20 && none.get() >= 5, "{} {}", found.get(), none.get());
}
