//! What is said to help helps, and by as much as is said.
//!
//! Random jobs are made to fail. Each remedy of an answer is made to the request as the answer edits it,
//! by a reader of JSON Patch that knows nothing of the product, and the request so changed is answered
//! like any other.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use hookspan::effort::Effort;
use hookspan::http::job;
use hookspan::service::request::Options;
use hookspan::wire::components::{PackersChoice, ScrewChoice};
use hookspan::wire::layout::LayoutRequest;
use proptest::prelude::*;
use serde_json::Value;

use crate::jobs::{Draft, any_job, hook};
use crate::{Tally, runner};

/// What makes a job fail as often as not.
#[derive(Debug, Clone)]
struct Weak {
    screw_mm: f64,
    all_thread: bool,
    arm_lower_mm: f64,
    max_stack_mm: f64,
    origin_mm: f64,
    deep: bool,
}

fn weak_job() -> impl Strategy<Value = (Draft, Weak)> {
    let screws = prop_oneof![Just(80.0), Just(90.0), Just(110.0), Just(140.0), Just(260.0)];
    let lower = prop_oneof![2 => Just(0.0), 1 => 0.0..12.0];
    let stack = prop_oneof![1 => 0.0..8.0, 1 => Just(20.0)];
    let weak = (screws, any::<bool>(), lower, stack, 900.0..1100.0, any::<bool>()).prop_map(
        |(screw_mm, all_thread, arm_lower_mm, max_stack_mm, origin_mm, deep)| Weak {
            screw_mm,
            all_thread,
            arm_lower_mm,
            max_stack_mm,
            origin_mm,
            deep,
        },
    );
    (any_job(), weak)
}

fn request((draft, weak): &(Draft, Weak)) -> Value {
    let mut request: LayoutRequest = draft.request();
    if let ScrewChoice::Inline(screw) = &mut request.components.screw {
        screw.length_mm = weak.screw_mm;
        screw.thread_length_mm = if weak.all_thread { weak.screw_mm } else { 70.0 };
    }
    if let PackersChoice::Inline(packers) = &mut request.components.packers {
        packers.max_stack_mm = weak.max_stack_mm;
    }
    hook(&mut request).arm.underside_height_mm -= weak.arm_lower_mm;
    request.array.fields[0].origin_mm[0] = weak.origin_mm;
    if weak.deep {
        request.roof.rafters.depth_mm = 240.0;
    }
    serde_json::to_value(request).expect("a request is JSON")
}

fn answer(request: &Value, effort: Effort) -> Value {
    let options = Options { effort, ..Options::default() };
    let answer = job::answer::<LayoutRequest>(request.to_string().as_bytes(), &options);
    let answer = answer.unwrap_or_else(|problem| panic!("{problem:?}: {request}"));
    serde_json::to_value(answer).expect("an answer is JSON")
}

/// A request with edits: operations `add` of RFC 6902 on members of objects.
fn edited(request: &Value, edits: &Value) -> Value {
    let mut request = request.clone();
    for edit in edits.as_array().expect("edits") {
        assert_eq!(edit["op"], "add");
        let path = edit["path"].as_str().expect("a pointer");
        let (parent, member) = path.rsplit_once('/').expect("a pointer");
        let parent = request.pointer_mut(parent).expect("the parent is there");
        let parent = parent.as_object_mut().expect("edits are of members");
        parent.insert(member.to_owned(), edit["value"].clone());
    }
    request
}

/// Codes of the causes of a severity.
fn causes(answer: &Value, severity: &str) -> BTreeSet<String> {
    let causes = answer["causes"].as_array().expect("causes").iter();
    let of = causes.filter(|cause| cause["severity"] == severity);
    of.map(|cause| cause["code"].as_str().expect("a code").to_owned()).collect()
}

/// What fails, without what says no more than that something does.
fn failing(answer: &Value) -> BTreeSet<String> {
    let mut all = causes(answer, "failure");
    if all.len() > 1 {
        all.remove("rail.no-hook-pattern-passes");
    }
    all
}

fn names(list: &Value) -> BTreeSet<String> {
    let names = list.as_array().expect("a list").iter();
    names.map(|name| name.as_str().expect("a name").to_owned()).collect()
}

/// Whether the answer to the edited request is what the remedy says.
fn is_as_said(request: &Value, remedy: &Value) -> Result<Value, TestCaseError> {
    let after = answer(&edited(request, &remedy["edits"]), Effort::default());
    prop_assert_eq!(&after["verdict"], &remedy["verdict"], "{}", remedy);
    prop_assert_eq!(&after["optimality"]["hooks"], &remedy["hooks"][1], "{}", remedy);
    prop_assert_eq!(&after["utilisation"]["max"], &remedy["max_utilisation"][1], "{}", remedy);
    Ok(after)
}

#[test]
fn each_remedy_made_by_hand_gives_what_it_says() {
    let [failed, helped, cured, together, more_steps] = std::array::from_fn(|_| Tally::default());
    let kinds: RefCell<BTreeMap<String, u32>> = RefCell::default();
    runner(120)
        .run(&weak_job(), |job| {
            let request = request(&job);
            let before = answer(&request, Effort::default());
            let Some(remedies) = before.get("remedies") else {
                prop_assert_ne!(&before["verdict"], "fails");
                return Ok(());
            };
            prop_assert_eq!(&before["verdict"], "fails");
            failed.see(true);
            let then = failing(&before);
            let mut least = 0;
            for remedy in remedies["helping"].as_array().expect("a list") {
                let after = is_as_said(&request, remedy)?;
                prop_assert_eq!(&before["optimality"]["hooks"], &remedy["hooks"][0]);
                prop_assert_eq!(&before["utilisation"]["max"], &remedy["max_utilisation"][0]);
                let now = failing(&after);
                prop_assert!(now.is_subset(&then) && now.len() < then.len(), "{remedy}");
                prop_assert_eq!(&now, &names(&remedy["still_failing"]));
                let lifted: BTreeSet<String> = then.difference(&now).cloned().collect();
                prop_assert_eq!(lifted, names(&remedy["lifts"]));
                let new = |severity: &str| {
                    let (was, is) = (causes(&before, severity), causes(&after, severity));
                    is.difference(&was).cloned().collect::<BTreeSet<String>>()
                };
                prop_assert_eq!(new("incomplete"), names(&remedy["new_incomplete"]));
                prop_assert_eq!(new("warning"), names(&remedy["new_warnings"]));
                prop_assert!(now.len() >= least, "best first");
                least = now.len();
                let changes = remedy["changes"].as_array().expect("a list");
                for kind in changes {
                    let kind = kind.as_str().expect("a kind").to_owned();
                    *kinds.borrow_mut().entry(kind).or_default() += 1;
                }
                helped.see(true);
                cured.see(now.is_empty());
                together.see(changes.len() > 1);
                more_steps.see(remedies["tried"].as_u64() > Some(1));
            }
            Ok(())
        })
        .unwrap();
    println!("{:?}", kinds.borrow());
    failed.at_least(30, "jobs that fail");
    helped.at_least(15, "remedies");
    cured.at_least(8, "of them that cure");
    more_steps.at_least(5, "among several tries");
    assert!(kinds.borrow().len() >= 3, "few kinds: {:?}", kinds.borrow());
}

/// Steps that run out leave remedies out and change none.
#[test]
fn a_remedy_that_fewer_steps_find_is_the_same() {
    let [found, left_out] = std::array::from_fn(|_| Tally::default());
    runner(40)
        .run(&weak_job(), |job| {
            let request = request(&job);
            let all = answer(&request, Effort::default());
            for steps in [2_000, 20_000, 200_000] {
                let before = answer(&request, Effort { steps, ..Effort::default() });
                let Some(remedies) = before.get("remedies") else { continue };
                let helping = remedies["helping"].as_array().expect("a list");
                for remedy in helping {
                    is_as_said(&request, remedy)?;
                    found.see(true);
                }
                let of_all = all["remedies"]["helping"].as_array().map_or(0, Vec::len);
                left_out.see(helping.len() < of_all && remedies["complete"] == false);
            }
            Ok(())
        })
        .unwrap();
    found.at_least(10, "remedies within fewer steps");
    left_out.at_least(1, "jobs whose steps ran out before a remedy was found");
}
