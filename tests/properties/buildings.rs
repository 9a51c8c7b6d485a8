//! A building of two random slopes: each is what its layout alone says, and their common cutting plan is no
//! worse than one for each.

use hookspan::service::request::Options;
use hookspan::service::{building, layout};
use hookspan::wire::building::{BuildingAnswer, BuildingRequest, SlopeAnswer, SlopeRequest};
use hookspan::wire::layout::{LayoutAnswer, LayoutRequest};
use hookspan::wire::parts::CuttingAnswer;
use proptest::prelude::*;
use serde::Serialize;
use serde_json::Value;

use crate::jobs::plain_job;
use crate::{Tally, runner};

fn json(told: &impl Serialize) -> Value {
    serde_json::to_value(told).expect("an answer is JSON")
}

/// What a layout and a slope of a building have in common, but for where rails are cut.
macro_rules! told {
    ($answer:expr) => {{
        let mut rails = $answer.rails.clone();
        for segment in rails.iter_mut().flat_map(|rail| &mut rail.segments) {
            segment.splices_mm.clear();
        }
        let judged = json(&($answer.verdict, &$answer.headline, &$answer.verdicts));
        let found = json(&(&$answer.utilisation, &$answer.optimality, &$answer.remedies));
        [
            judged,
            found,
            json(&rails),
            json(&$answer.hooks),
            json(&$answer.rafters),
            json(&$answer.modules),
        ]
    }};
}

fn of_layout(answer: &LayoutAnswer) -> [Value; 6] {
    told!(answer)
}

fn of_slope(answer: &SlopeAnswer) -> [Value; 6] {
    told!(answer)
}

/// Two jobs as slopes of one building, which has site and parts of the first.
fn together(first: &LayoutRequest, other: &LayoutRequest) -> BuildingRequest {
    let slope = |of: &LayoutRequest| SlopeRequest {
        completions: Vec::new(),
        id: None,
        roof: of.roof.clone(),
        array: of.array.clone(),
    };
    BuildingRequest {
        reference: None,
        rules: first.rules.clone(),
        site: first.site.clone(),
        slopes: vec![slope(first), slope(other)],
        components: first.components.clone(),
        wishes: first.wishes.clone(),
        capacity: None,
        remedies: Some(false),
        scopes: None,
        declarations: Vec::new(),
    }
}

/// A slope of a building as a job of its own.
fn alone(building: &BuildingRequest, slope: usize) -> LayoutRequest {
    LayoutRequest {
        completions: Vec::new(),
        reference: None,
        rules: building.rules.clone(),
        site: building.site.clone(),
        roof: building.slopes[slope].roof.clone(),
        array: building.slopes[slope].array.clone(),
        components: building.components.clone(),
        wishes: building.wishes.clone(),
        capacity: None,
        remedies: Some(false),
        savings: None,
        room_to_move: None,
        kept: None,
        scopes: None,
        declarations: Vec::new(),
    }
}

fn bought(plan: &CuttingAnswer) -> f64 {
    plan.bought_mm
}

#[test]
fn two_random_slopes_are_what_each_is_alone() {
    let (answered, saved) = (Tally::default(), Tally::default());
    let outcome = runner(40).run(&(plain_job(), plain_job()), |(first, other)| {
        let request = together(&first.request(), &other.request());
        let options = Options::default();
        let building: Result<BuildingAnswer, _> = building::run(&request, String::new(), &options);
        let layouts: Vec<Result<LayoutAnswer, _>> = [0, 1]
            .map(|slope| layout::run(&alone(&request, slope), String::new(), &options))
            .into();
        let Ok(layouts) = layouts.into_iter().collect::<Result<Vec<_>, _>>() else {
            prop_assert!(building.is_err(), "a slope is refused by itself");
            return Ok(());
        };
        let building = building.expect("both slopes are answered by themselves");
        answered.see(true);
        for (slope, layout) in building.slopes.iter().zip(&layouts) {
            prop_assert_eq!(of_slope(slope), of_layout(layout));
        }
        let plans = layouts.iter().map(|layout| &layout.parts.cutting);
        let apart: f64 = plans.map(bought).sum();
        let common = &building.parts.cutting;
        prop_assert!(!common.proven || bought(common) <= apart + 1e-6);
        saved.see(bought(common) < apart - 1e-6);
        Ok(())
    });
    outcome.expect("every slope is what it is alone");
    answered.at_least(20, "buildings answered");
    saved.at_least(3, "common plans that buy less");
}
