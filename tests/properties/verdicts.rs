//! No verdict hides what was not checked.
//!
//! Jobs that would hold get flaws at random: something is not said, not computed or does not fit. What
//! must be wrong with an answer that says "holds" is worked out here from the request and from the
//! figures of the answer, without looking at its warnings.

use hookspan::service::layout::run;
use hookspan::service::request::Options;
use hookspan::wire::components::{
    ClampChoice, HookStiffness, RailChoice, ResistanceBasis, Screw, ScrewChoice,
};
use hookspan::wire::layout::{LayoutAnswer, LayoutRequest};
use hookspan::wire::remarks::Verdict;
use hookspan::wire::roof::{EdgeKind, Obstacle, ObstacleKind};
use proptest::prelude::*;

use crate::jobs::{Draft, any_job, hook};
use crate::{Tally, runner};

/// What may be wrong with a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flaw {
    NoSpan,
    NoStiffness,
    NoBasis,
    NoShortSideZone,
    ThinRafters,
    ShortScrew,
    DemoRail,
    DemoClamp,
    CopiedHook,
    Abutment,
    Notch,
    Guard,
    Opening,
    ShortReach,
    LongFoot,
    RailOverVerge,
    WeakModule,
    WeakClamp,
    NoSlipResistance,
    SlipperyClamp,
}

const FLAWS: [Flaw; 20] = [
    Flaw::NoSpan,
    Flaw::NoStiffness,
    Flaw::NoBasis,
    Flaw::NoShortSideZone,
    Flaw::ThinRafters,
    Flaw::ShortScrew,
    Flaw::DemoRail,
    Flaw::DemoClamp,
    Flaw::CopiedHook,
    Flaw::Abutment,
    Flaw::Notch,
    Flaw::Guard,
    Flaw::Opening,
    Flaw::ShortReach,
    Flaw::LongFoot,
    Flaw::RailOverVerge,
    Flaw::WeakModule,
    Flaw::WeakClamp,
    Flaw::NoSlipResistance,
    Flaw::SlipperyClamp,
];

/// A job that is strong enough as often as not, and its flaws: none for half of them.
fn flawed_job() -> impl Strategy<Value = (Draft, Vec<Flaw>)> {
    let flaws = prop_oneof![Just(Vec::new()), prop::sample::subsequence(FLAWS.to_vec(), 1..=2),];
    (any_job(), flaws)
}

fn screw(request: &mut LayoutRequest) -> &mut Screw {
    match &mut request.components.screw {
        ScrewChoice::Inline(screw) => screw,
        ScrewChoice::Id(id) => panic!("the examples give their parts in full, not as {id}"),
    }
}

pub fn request(draft: &Draft, flaws: &[Flaw]) -> LayoutRequest {
    let mut request = draft.request();
    request.roof.rafters.span_m = Some(2.0);
    request.site.snow.ground_load_kn_per_m2 =
        request.site.snow.ground_load_kn_per_m2.map(|load| load * 0.25);
    request.site.wind.peak_pressure_kn_per_m2 =
        request.site.wind.peak_pressure_kn_per_m2.map(|pressure| pressure * 0.4);
    let strong = screw(&mut request);
    strong.withdrawal_n_per_mm2 = Some(25.0);
    strong.yield_moment_nmm *= 2.0;
    let part = hook(&mut request);
    let resistance = part.resistance.as_mut().expect("declared");
    resistance.basis = ResistanceBasis::Test;
    resistance.press_kn *= 3.0;
    resistance.lift_kn *= 3.0;
    resistance.slope_kn *= 3.0;
    part.stiffness = Some(HookStiffness {
        normal_kn_per_mm: Some(2.0),
        includes_foot: Some(true),
        slope_kn_per_mm: part.stiffness.as_ref().and_then(|s| s.slope_kn_per_mm),
    });
    for flaw in flaws {
        put(&mut request, *flaw);
    }
    request
}

fn put(request: &mut LayoutRequest, flaw: Flaw) {
    let corners = request.roof.outline_mm.clone();
    let [length, height] = corners[2];
    let rectangle = |left: f64, right: f64, bottom: f64, top: f64| {
        vec![[left, bottom], [right, bottom], [right, top], [left, top]]
    };
    match flaw {
        Flaw::NoSpan => request.roof.rafters.span_m = None,
        Flaw::NoStiffness => hook(request).stiffness = None,
        Flaw::NoBasis => {
            let resistance = hook(request).resistance.as_mut().expect("declared");
            resistance.basis = ResistanceBasis::Unknown;
        }
        Flaw::NoShortSideZone => request.array.module.short_side_clamp_zone_mm = None,
        Flaw::ThinRafters => request.roof.rafters.depth_mm = 68.0,
        Flaw::ShortScrew => {
            let screw = screw(request);
            (screw.length_mm, screw.thread_length_mm) = (75.0, 60.0);
        }
        Flaw::DemoRail => request.components.rail = RailChoice::Id("demo-rail-50".to_owned()),
        Flaw::DemoClamp => request.components.clamp = ClampChoice::Id("demo-clamp-30".to_owned()),
        Flaw::CopiedHook => "demo-trough-hook".clone_into(&mut hook(request).id),
        Flaw::Abutment => request.roof.edges[1] = EdgeKind::Abutment,
        Flaw::Notch => {
            request.roof.outline_mm = vec![
                [0.0, 0.0],
                [length, 0.0],
                [length, height],
                [300.0, height],
                [0.0, height - 300.0],
            ];
            request.roof.edges = vec![
                EdgeKind::Eaves,
                EdgeKind::Verge,
                EdgeKind::Ridge,
                EdgeKind::Verge,
                EdgeKind::Verge,
            ];
        }
        Flaw::Guard => {
            request.site.snow_held = Some(false);
            request.roof.obstacles.push(Obstacle {
                kind: ObstacleKind::SnowGuard,
                outline_mm: rectangle(0.0, length, 100.0, 200.0),
                clearance_mm: None,
                cuts_rafters: None,
                cuts_no_rafter: None,
                height_mm: None,
                drift_shape_factor: None,
            });
        }
        Flaw::Opening => {
            let rafters = request.roof.rafters.positions_mm.clone().expect("they are listed");
            let x = rafters[rafters.len() / 2];
            request.roof.obstacles.push(Obstacle {
                kind: ObstacleKind::RoofWindow,
                outline_mm: rectangle(x - 300.0, x + 300.0, 50.0, 600.0),
                clearance_mm: None,
                cuts_rafters: None,
                cuts_no_rafter: None,
                height_mm: None,
                drift_shape_factor: None,
            });
        }
        Flaw::ShortReach => hook(request).arm.reach_mm -= 90.0,
        Flaw::LongFoot => hook(request).foot.length_mm += 400.0,
        Flaw::RailOverVerge => {
            let field = &mut request.array.fields[0];
            field.origin_mm[0] = 10.0;
            if let RailChoice::Inline(rail) = &mut request.components.rail {
                rail.end_projection_mm = 60.0;
            }
        }
        Flaw::WeakModule => request.array.module.press_capacity_kn_per_m2 = 0.1,
        Flaw::WeakClamp => {
            if let ClampChoice::Inline(clamp) = &mut request.components.clamp {
                clamp.lift_kn = 0.01;
            }
        }
        Flaw::NoSlipResistance => {
            if let ClampChoice::Inline(clamp) = &mut request.components.clamp {
                clamp.slope_kn = None;
            }
        }
        Flaw::SlipperyClamp => {
            if let ClampChoice::Inline(clamp) = &mut request.components.clamp {
                clamp.slope_kn = Some(0.02);
            }
        }
    }
}

/// Why an answer must not say that the job holds: the first reason found.
fn reason_against(
    request: &LayoutRequest,
    flaws: &[Flaw],
    answer: &LayoutAnswer,
) -> Option<String> {
    let mut request = request.clone();
    let has = |flaw: Flaw| flaws.contains(&flaw);
    let over = |what: &str, used: f64| (used > 1.0).then(|| format!("{what} uses {used}"));
    for used in &answer.hooks {
        let all = &used.utilisation;
        let (Some(screws), Some(clearance)) = (all.screws, all.clearance) else {
            return Some(format!("a check of hook {} did not run", used.id));
        };
        for share in [all.hook, screws, clearance] {
            if let Some(why) = over(&used.id, share) {
                return Some(why);
            }
        }
        if used.clearance_mm.is_none_or(|clearance| clearance < 5.0) {
            return Some(format!("hook {} stands too low", used.id));
        }
    }
    let rails = answer.rails.iter().find_map(|rail| over(&rail.id, rail.utilisation));
    let modules = answer.modules.iter().find_map(|module| {
        over("press", module.utilisation.press)
            .or_else(|| over("lift", module.utilisation.lift))
            .or_else(|| over("clamp", module.utilisation.clamp))
            .or_else(|| match module.utilisation.clamp_slip {
                Some(slip) => over("clamp down the slope", slip),
                None => Some("slip of a clamp was not checked".to_owned()),
            })
    });
    if rails.is_some() || modules.is_some() {
        return rails.or(modules);
    }
    for rafter in &answer.rafters {
        match &rafter.utilisation {
            None => return Some("a rafter was not checked".to_owned()),
            Some(used) if used.max > 1.0 => return over("a rafter", used.max),
            Some(_) => {}
        }
    }
    // What the request says, held against it once more.
    let depth = request.roof.rafters.depth_mm;
    let packed: f64 = answer.hooks.iter().map(|h| h.packers_mm.iter().sum()).fold(0.0, f64::max);
    let layers = request.roof.layers.counter_batten_mm;
    let part = hook(&mut request).clone();
    let screw = screw(&mut request).clone();
    let point = screw.length_mm - part.foot.thickness_mm - packed - layers;
    let thread = point.min(depth) - (point - screw.thread_length_mm).max(0.0);
    if thread < 6.0 * screw.diameter_mm {
        return Some(format!("{thread} mm of thread are in the rafter"));
    }
    let covering = &request.roof.covering;
    let head = covering.tile.length_mm - covering.gauge_mm;
    let foot = part.arm.reach_mm - part.arm.bolt_beyond_exit_mm;
    let batten = head + covering.gauge_mm - covering.batten.width_mm;
    if foot < head - 25.0 || foot + part.foot.length_mm > batten + 25.0 {
        return Some("the foot stands on a head or under a batten".to_owned());
    }
    let [length, _] = request.roof.outline_mm[2];
    if answer.rails.iter().any(|rail| rail.start_mm < 0.0 || rail.end_mm > length) {
        return Some("a rail runs over the verge".to_owned());
    }
    let basis = part.resistance.as_ref().expect("declared").basis;
    let landscape =
        request.array.fields[0].orientation == hookspan::wire::array::Orientation::Landscape;
    [
        (basis == ResistanceBasis::Unknown, "nobody knows what the hook bears"),
        (landscape && has(Flaw::NoShortSideZone), "clamps sit where no zone is known"),
        (has(Flaw::DemoRail), "the rail is invented"),
        (has(Flaw::DemoClamp), "the clamp is invented"),
        (has(Flaw::CopiedHook), "the hook is invented"),
        (has(Flaw::Abutment), "snow at an abutment"),
        (has(Flaw::Notch), "wind along a notch"),
        (has(Flaw::Guard), "snow above a guard"),
        (cut_under_hooks(&request, answer), "a rafter is cut"),
    ]
    .into_iter()
    .find_map(|(wrong, why)| wrong.then(|| why.to_owned()))
}

/// Whether a window lies across a rafter that carries hooks, or beside one.
fn cut_under_hooks(request: &LayoutRequest, answer: &LayoutAnswer) -> bool {
    let rafters = request.roof.rafters.positions_mm.clone().expect("they are listed");
    let windows = request.roof.obstacles.iter().filter(|o| o.kind == ObstacleKind::RoofWindow);
    let mut cut = windows.flat_map(|window| {
        let [left, right] = [window.outline_mm[0][0], window.outline_mm[1][0]];
        let inside = move |x: f64| left < x && x < right;
        let cut: Vec<usize> = (0..rafters.len()).filter(|r| inside(rafters[*r])).collect();
        [cut[0].saturating_sub(1), cut[0], cut[cut.len() - 1], cut[cut.len() - 1] + 1]
    });
    cut.any(|rafter| answer.hooks.iter().any(|hook| hook.rafter == rafter as u64))
}

#[test]
fn nothing_silent_missing_or_over_its_limit_reads_holds() {
    let [hold, flawed, refused] = std::array::from_fn(|_| Tally::default());
    let seen: Vec<Tally> = FLAWS.iter().map(|_| Tally::default()).collect();
    runner(700)
        .run(&flawed_job(), |(draft, flaws)| {
            let request = request(&draft, &flaws);
            let answer = run(&request, String::new(), &Options::default());
            // Modules may come to lie on the window or off the notched roof: that is refused.
            let Ok(answer) = answer else {
                refused.see(true);
                return Ok(());
            };
            let holds = matches!(answer.verdict, Verdict::Holds | Verdict::HoldsWithWarnings);
            let against = reason_against(&request, &flaws, &answer);
            prop_assert!(!holds || against.is_none(), "{against:?}, {flaws:?}");
            prop_assert_eq!(answer.verdict == Verdict::Incomplete, {
                let incomplete = answer.warnings.first().map(|w| w.severity);
                incomplete == Some(hookspan::wire::remarks::Severity::Incomplete)
            });
            prop_assert!(
                answer.verdict != Verdict::Incomplete || !answer.missing.is_empty(),
                "nothing is said to be missing: {:?}",
                answer.warnings
            );
            hold.see(holds);
            flawed.see(!holds && against.is_some());
            for (flaw, seen) in FLAWS.iter().zip(&seen) {
                seen.see(flaws.contains(flaw));
            }
            Ok(())
        })
        .unwrap();
    hold.at_least(75, "jobs that hold");
    flawed.at_least(150, "jobs that do not, for a reason found here as well");
    for (flaw, seen) in FLAWS.iter().zip(&seen) {
        seen.at_least(8, &format!("{flaw:?}"));
    }
    println!("refused: {}", refused.0.get());
    assert!(refused.0.get() < 70, "{} jobs were refused", refused.0.get());
}
