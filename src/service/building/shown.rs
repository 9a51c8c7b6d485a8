//! A building as people look at it: its slopes one below the other, and a sheet with one order for all.

use crate::drawing::{Caption, Figure};
use crate::language::{Language, Medium, Reader};
use crate::service::answer::{Worst, on_slope, worst_of};
use crate::service::layout::Told;
use crate::service::request::{Options, Request};
use crate::service::sheet::{BuildingSheet, Content, Sheet, write_building};
use crate::service::shown::{Shown, View, caption, drawn, in_pattern, readable, result};
use crate::service::trace;
use crate::wire::building::{BuildingAnswer, BuildingRequest, SlopeAnswer};
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::provenance::TraceLine;
use crate::wire::sheets::SheetPart;

use super::{LaidSlope, laid_out, used_most};

/// A drawing as an SVG file: of every slope its plan or its wind zones, one below the other, or the section
/// through one hook.
///
/// # Errors
/// Every fault of the request that its schema cannot see, and a hook that is not there.
pub fn drawing(
    request: &BuildingRequest,
    input_digest: &str,
    view: &View,
    options: &Options,
) -> Result<Shown, Vec<Fault>> {
    let language = options.reader.language;
    let (slopes, answer) = laid_out(request, options, Told::WithoutRemedies)?;
    let draw = |at: usize, view: &View| -> Result<Figure, Vec<Fault>> {
        let slope = &slopes[at];
        let caption = slope.caption(request, &answer, at, input_digest, language);
        drawn(&slope.taken.taken.job, &slope.layout, view, &caption, language)
    };
    let figure = match view {
        View::Section(hook) => {
            let (at, hook) = hooked(&slopes, hook.as_deref())?;
            draw(at, &View::Section(hook))?
        }
        View::Slope | View::Wind => {
            let all = (0..slopes.len()).map(|at| draw(at, view));
            let all: Vec<Figure> = all.collect::<Result<_, _>>()?;
            Figure::below_each_other(&all, language.words().slopes)
        }
    };
    Ok(Shown::page(figure.into_file(), BuildingRequest::verdict(&answer)))
}

/// The printable sheet as an HTML file.
///
/// # Errors
/// Every fault of the request that its schema cannot see.
pub fn sheet(
    request: &BuildingRequest,
    input_digest: &str,
    part: SheetPart,
    options: &Options,
) -> Result<Shown, Vec<Fault>> {
    let language = options.reader.language;
    let reader = Reader { medium: Medium::Paper, ..options.reader };
    let options = Options { reader, ..options.clone() };
    let (slopes, answer) = laid_out(request, &options, Told::WithRemedies)?;
    let worst: Vec<Worst> = slopes.iter().map(LaidSlope::worst).collect();
    let traces: Vec<Vec<TraceLine>> = slopes
        .iter()
        .map(|slope| trace::lines(&slope.taken.taken.job, &slope.layout, language))
        .collect();
    let most_used = used_most(&slopes);
    let on_most_used = &slopes[most_used];
    let mut caption = on_most_used.caption(request, &answer, most_used, input_digest, language);
    caption.title.clone_from(&request.reference);
    let request = readable(request);
    let slopes: Vec<Sheet<'_>> = slopes
        .iter()
        .zip(&answer.slopes)
        .zip(worst.iter().zip(&traces))
        .map(|((slope, told), (worst, trace))| Sheet {
            job: &slope.taken.taken.job,
            layout: &slope.layout,
            content: Content::of_slope(told, &answer),
            mended: None,
            built: None,
            slope: Some(&told.id),
            part,
            worst,
            caption: &caption,
            trace,
            request: &request,
        })
        .collect();
    let sheet = BuildingSheet {
        slopes: &slopes,
        most_used,
        part,
        answer: &answer,
        caption: &caption,
        request: &request,
    };
    let text = write_building(&sheet, language);
    Ok(Shown::page(text, BuildingRequest::verdict(&answer)))
}

/// The slope of a hook, and its name there: of the hook named with its slope, or of the slope that is used
/// most.
fn hooked(
    slopes: &[LaidSlope],
    named: Option<&str>,
) -> Result<(usize, Option<String>), Vec<Fault>> {
    let Some(named) = named else { return Ok((used_most(slopes), None)) };
    let found = slopes.iter().enumerate().find_map(|(at, slope)| {
        let mut hooks = slope.layout.hooks().map(|(hook, _)| slope.layout.hook_name(hook));
        let hook = hooks.find(|hook| on_slope(&slope.taken.id, hook) == named)?;
        Some((at, Some(hook.to_owned())))
    });
    found.ok_or_else(|| {
        let detail =
            "No slope has the hook given as \"hook\": it is named with its slope, such as S1/A1-1.";
        vec![Fault::new("", FaultCode::UnknownValue, detail)]
    })
}

impl LaidSlope {
    fn worst(&self) -> Worst {
        worst_of(&self.taken.taken.job, &self.layout)
    }

    /// What a drawing of the slope says of it.
    fn caption(
        &self,
        request: &BuildingRequest,
        answer: &BuildingAnswer,
        at: usize,
        input_digest: &str,
        language: Language,
    ) -> Caption {
        let words = language.words();
        let SlopeAnswer { id, verdict, verdicts, hooks, optimality, .. } = &answer.slopes[at];
        let text = result((*verdict, verdicts), hooks.len(), &self.worst(), language);
        let text =
            if optimality.proven { format!("{text}, {}", words.fewest_proven) } else { text };
        let text = in_pattern(text, &self.taken.taken.job, language);
        let slope = format!("{} {id}", words.slope);
        let title = match &request.reference {
            Some(reference) => format!("{reference} · {slope}"),
            None => slope,
        };
        caption(Some(&title), text, &answer.engine, input_digest, language)
    }
}
