//! Answers in short.

use crate::wire::actions::ActionsAnswer;
use crate::wire::building::{BuildingAnswer, SlopeAnswer};
use crate::wire::capacity::EventAnswer;
use crate::wire::choices::ChoicesAnswer;
use crate::wire::kinds::{JobKind, SummaryTag};
use crate::wire::layout::LayoutAnswer;
use crate::wire::recheck::RecheckAnswer;
use crate::wire::remarks::{Severity, Warning};
use crate::wire::statement::StatementAnswer;
use crate::wire::summary::{AnswerSummary, EventSummary, SummaryCodes, SummaryCounts};
use crate::wire::survey::SurveyAnswer;

/// An answer that can be told in short.
pub trait Summarised {
    /// The answer in short: nothing in it that the answer does not say.
    fn summary(&self) -> AnswerSummary;
}

/// Of an answer with a verdict on rails, hooks and modules.
macro_rules! judged {
    ($answer:expr, $kind:ident, $difference:expr, $event:expr) => {{
        let answer = $answer;
        let (counts, codes) = found(&answer.warnings);
        AnswerSummary {
            kind: SummaryTag,
            of: JobKind::$kind,
            reference: answer.reference.clone(),
            engine: answer.engine.clone(),
            input_digest: answer.input_digest.clone(),
            job_key: Some(answer.job_key.clone()),
            hook_part: Some(answer.hook_part.clone()),
            verdict: Some(answer.verdict),
            headline: Some(answer.headline.clone()),
            verdicts: Some(answer.verdicts.clone()),
            utilisation: Some(answer.utilisation.clone()),
            difference: $difference,
            event: $event,
            counts: SummaryCounts {
                rails: answer.rails.len() as u64,
                hooks: answer.hooks.len() as u64,
                modules: answer.modules.len() as u64,
                missing: answer.missing.len() as u64,
                assumptions: answer.assumptions.len() as u64,
                ..counts
            },
            codes,
        }
    }};
}

impl Summarised for LayoutAnswer {
    fn summary(&self) -> AnswerSummary {
        judged!(self, Layout, None, None)
    }
}

impl Summarised for BuildingAnswer {
    fn summary(&self) -> AnswerSummary {
        let of_slopes = self.slopes.iter().flat_map(|slope| &slope.warnings);
        let (counts, codes) = found(self.warnings.iter().chain(of_slopes));
        let of = |list: fn(&SlopeAnswer) -> usize| {
            self.slopes.iter().map(|slope| list(slope) as u64).sum::<u64>()
        };
        AnswerSummary {
            kind: SummaryTag,
            of: JobKind::Building,
            reference: self.reference.clone(),
            engine: self.engine.clone(),
            input_digest: self.input_digest.clone(),
            job_key: None,
            hook_part: Some(self.hook_part.clone()),
            verdict: Some(self.verdict),
            headline: Some(self.headline.clone()),
            verdicts: Some(self.verdicts),
            utilisation: Some(self.utilisation.clone()),
            difference: None,
            event: None,
            counts: SummaryCounts {
                rails: of(|slope| slope.rails.len()),
                hooks: of(|slope| slope.hooks.len()),
                modules: of(|slope| slope.modules.len()),
                missing: self.missing.len() as u64 + of(|slope| slope.missing.len()),
                assumptions: self.assumptions.len() as u64 + of(|slope| slope.assumptions.len()),
                ..counts
            },
            codes,
        }
    }
}

impl Summarised for ChoicesAnswer {
    /// That of the best, under the name of the question.
    fn summary(&self) -> AnswerSummary {
        let best = self.layout.as_ref().map(LayoutAnswer::summary);
        AnswerSummary {
            kind: SummaryTag,
            of: JobKind::Choices,
            reference: self.reference.clone(),
            engine: self.engine.clone(),
            input_digest: self.input_digest.clone(),
            verdict: Some(self.verdict),
            job_key: best.as_ref().and_then(|best| best.job_key.clone()),
            hook_part: best.as_ref().and_then(|best| best.hook_part.clone()),
            headline: best.as_ref().and_then(|best| best.headline.clone()),
            verdicts: best.as_ref().and_then(|best| best.verdicts),
            utilisation: best.as_ref().and_then(|best| best.utilisation.clone()),
            difference: None,
            event: None,
            counts: best.as_ref().map(|best| best.counts).unwrap_or_default(),
            codes: best.map(|best| best.codes).unwrap_or_default(),
        }
    }
}

impl Summarised for RecheckAnswer {
    fn summary(&self) -> AnswerSummary {
        judged!(self, Recheck, self.difference.clone(), self.event.as_ref().map(of_event))
    }
}

impl Summarised for SurveyAnswer {
    fn summary(&self) -> AnswerSummary {
        AnswerSummary { of: JobKind::Survey, ..self.recheck.summary() }
    }
}

impl Summarised for ActionsAnswer {
    fn summary(&self) -> AnswerSummary {
        let (counts, codes) = found(&self.warnings);
        let assumptions = self.assumptions.len() as u64;
        AnswerSummary {
            kind: SummaryTag,
            of: JobKind::Actions,
            reference: self.reference.clone(),
            engine: self.engine.clone(),
            input_digest: self.input_digest.clone(),
            job_key: None,
            hook_part: None,
            verdict: None,
            headline: None,
            verdicts: None,
            utilisation: None,
            difference: None,
            event: None,
            counts: SummaryCounts { assumptions, ..counts },
            codes,
        }
    }
}

impl Summarised for StatementAnswer {
    fn summary(&self) -> AnswerSummary {
        let counts = SummaryCounts {
            missing: self.needed.len() as u64,
            assumptions: self.assumptions.len() as u64,
            ..SummaryCounts::default()
        };
        AnswerSummary {
            kind: SummaryTag,
            of: JobKind::Statement,
            reference: Some(self.document.clone()),
            engine: self.engine.clone(),
            input_digest: self.input_digest.clone(),
            job_key: None,
            hook_part: None,
            verdict: None,
            headline: None,
            verdicts: None,
            utilisation: None,
            difference: None,
            event: None,
            counts,
            codes: SummaryCodes::default(),
        }
    }
}

/// An observed event in short.
fn of_event(event: &EventAnswer) -> EventSummary {
    EventSummary {
        within_resistances: event.within_resistances,
        ground_snow_kn_per_m2: event.ground_snow_kn_per_m2,
        peak_pressure_kn_per_m2: event.peak_pressure_kn_per_m2,
    }
}

/// How many findings there are of each severity, and their codes.
fn found<'a>(findings: impl IntoIterator<Item = &'a Warning>) -> (SummaryCounts, SummaryCodes) {
    let (mut counts, mut codes) = (SummaryCounts::default(), SummaryCodes::default());
    for finding in findings {
        let (count, known) = match finding.severity {
            Severity::Failure => (&mut counts.failures, &mut codes.failures),
            Severity::Incomplete => (&mut counts.incomplete, &mut codes.incomplete),
            Severity::Warning => (&mut counts.warnings, &mut codes.warnings),
            Severity::Notice => (&mut counts.notices, &mut codes.notices),
        };
        *count += 1;
        if !known.contains(&finding.code) {
            known.push(finding.code);
        }
    }
    (counts, codes)
}
