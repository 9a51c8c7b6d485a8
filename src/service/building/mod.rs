//! `POST /v1/buildings`: several slopes of one building in, their layouts with one order out.
//!
//! Each slope is understood, laid out and assessed as by itself, with as much effort; what they share is
//! the order, and the bars that the rails of all of them are cut from.

pub mod shown;

use crate::assessment::{self, Assessment};
use crate::parts::take_off::{Slope, take_off_of_slopes};
use crate::placement::kept::Kept;
use crate::placement::laid::Layout;
use crate::placement::layout::{Took, counted};
use crate::wire::building::{BuildingAnswer, BuildingRequest};
use crate::wire::fault::Fault;
use crate::wire::layout::SearchOutcome;
use crate::wire::provenance::Assumption;
use crate::wire::remarks::Verdict;
use crate::wire::remedies::Remedies;
use crate::wire::short::Completion;

use super::answer::building::AssessedSlope;
use super::answer::{Ordered, OrderedSlope, record, worst_of};
use super::intake::short::{Completed, Said};
use super::intake::{self, TakenSlope, building};
use super::layout::Told;
use super::request::{Names, Options, Request};
use super::{answer, remedies, trace};

impl Request for BuildingRequest {
    type Answer = BuildingAnswer;
    const APART: &'static [&'static str] = &["capacity", "remedies"];

    fn completed(said: &dyn Said) -> Completed {
        building::completed(said)
    }

    fn with_completions(self, completions: Vec<Completion>) -> Self {
        building::with_completions(self, completions)
    }

    fn answer(&self, names: Names<'_>, options: &Options) -> Result<BuildingAnswer, Vec<Fault>> {
        run(self, names, options)
    }

    fn verdict(answer: &BuildingAnswer) -> Option<Verdict> {
        Some(answer.verdict)
    }

    fn cut_short(answer: &BuildingAnswer) -> Option<bool> {
        use SearchOutcome::{BestFound, NoneFound};
        let mut rails = answer.slopes.iter().flat_map(|slope| &slope.optimality.rails);
        Some(rails.any(|rail| matches!(rail.outcome, BestFound | NoneFound)))
    }
}

/// Lays out the slopes of a building. Pure: the same request gives the same answer.
///
/// # Errors
/// Every fault of the request that its schema cannot see.
pub fn run<'a>(
    request: &BuildingRequest,
    names: impl Into<Names<'a>>,
    options: &Options,
) -> Result<BuildingAnswer, Vec<Fault>> {
    let (slopes, mut answer) = laid_out(request, options, Told::WithRemedies)?;
    answer.reference.clone_from(&request.reference);
    let names = names.into();
    for (at, (of, slope)) in slopes.iter().zip(&mut answer.slopes).enumerate() {
        let assumed = answer.assumptions.iter().chain(&slope.assumptions).cloned();
        slope.job_key = names.slope_key(at, &assumed.collect::<Vec<Assumption>>(), &slope.fields);
        slope.record.recorded =
            record::recorded(&answer.engine, slope.verdict, slope.utilisation.max, &slope.job_key);
        if options.trace {
            let lines = trace::lines(&of.taken.taken.job, &of.layout, options.reader.language);
            slope.trace = Some(lines);
        }
    }
    answer.input_digest = names.input_digest;
    request.components.hook_id().clone_into(&mut answer.hook_part);
    Ok(answer)
}

/// A slope as it is laid out, with the rails cut.
#[derive(Debug)]
pub(super) struct LaidSlope {
    /// What was understood of it.
    pub taken: TakenSlope,
    /// Its layout.
    pub layout: Layout,
    /// What that took.
    took: Took,
}

/// The slopes laid out, and the answer without reference, digest, keys and traces.
pub(super) fn laid_out(
    request: &BuildingRequest,
    options: &Options,
    told: Told,
) -> Result<(Vec<LaidSlope>, BuildingAnswer), Vec<Fault>> {
    let taken = intake::take_building(request)?;
    let mut slopes: Vec<LaidSlope> = taken
        .into_iter()
        .map(|mut taken| {
            taken.taken.job.effort = options.effort.clone();
            let (layout, took) = counted(&taken.taken.job, &taken.taken.kept);
            LaidSlope { taken, layout, took }
        })
        .collect();
    let order = slopes[0].taken.taken.order.clone();
    let to_build: Vec<Slope<'_>> = slopes.iter().map(LaidSlope::to_build).collect();
    let take_off = take_off_of_slopes(&to_build, &order);
    for (at, slope) in slopes.iter_mut().enumerate() {
        take_off.on(at).cut(&mut slope.layout);
    }
    let assessed: Vec<Assessment> = slopes
        .iter()
        .enumerate()
        .map(|(at, LaidSlope { taken: TakenSlope { taken, .. }, layout, .. })| {
            assessment::of_layout(&taken.job, layout, take_off.on(at), &taken.remarks)
        })
        .collect();
    let remedies = slopes.iter().zip(&assessed).map(|(slope, assessed)| match told {
        Told::WithRemedies => slope.remedies(assessed, options),
        Told::WithoutRemedies => None,
    });
    let remedies = remedies.collect();
    let ordered = Ordered {
        components: &request.components,
        kept: &Kept::default(),
        there: None,
        order: &order,
        take_off: &take_off,
    };
    let ordered_slopes = slopes
        .iter()
        .map(|slope| OrderedSlope { id: Some(&*slope.taken.id), slope: slope.to_build() });
    let ordered_slopes: Vec<OrderedSlope<'_>> = ordered_slopes.collect();
    let parts = answer::parts(&ordered_slopes, &ordered, options.reader.language);
    let told = slopes.iter().zip(&assessed).map(|(slope, assessed)| AssessedSlope {
        id: &slope.taken.id,
        taken: &slope.taken.taken,
        layout: &slope.layout,
        assessed,
    });
    let told: Vec<AssessedSlope<'_>> = told.collect();
    let most_used = used_most(&slopes);
    let answer = answer::building::building(&told, remedies, parts, most_used, options.reader);
    Ok((slopes, answer))
}

impl LaidSlope {
    fn to_build(&self) -> Slope<'_> {
        Slope { job: &self.taken.taken.job, layout: &self.layout }
    }

    /// What would lift the failing checks of the slope, tried on it alone.
    fn remedies(&self, assessed: &Assessment, options: &Options) -> Option<Remedies> {
        let Slope { job, layout } = self.to_build();
        let laid_out = (job, layout, self.took);
        let filled = answer::filled(job, &self.taken.taken.filled);
        let request = (&self.taken.alone, &filled[..]);
        let tried = remedies::tried(request, laid_out, assessed, &options.effort);
        tried.map(|tried| answer::remedies(tried, options.reader))
    }
}

/// The slope with the highest utilisation; of equals the first.
pub(super) fn used_most(slopes: &[LaidSlope]) -> usize {
    let used = |of: &LaidSlope| worst_of(&of.taken.taken.job, &of.layout).used;
    let mut most = 0;
    for (at, slope) in slopes.iter().enumerate() {
        if used(slope) > used(&slopes[most]) {
            most = at;
        }
    }
    most
}
