//! What a report reads of a line of answers: few members of many, and nothing else is kept.
//!
//! An answer is read by the names of its members, whatever version of the service wrote it. What has changed
//! its meaning since makes the line one that could not be read, never a figure that is wrong.

use std::borrow::Cow;

use serde::Deserialize;
use serde_json::error::Category;

use crate::wire::capacity::{CapacityOutcome, CapacityScope};
use crate::wire::kinds::{EndTag, JobKind, ProblemTag, SummaryTag};
use crate::wire::remarks::{Severity, Verdict};
use crate::wire::report::UnreadReason;
use crate::wire::scopes::Verdicts;

/// Begin of a line in which its number is looked for where the rest cannot be read.
const BEGIN: usize = 4096;

/// What a line is.
#[derive(Debug)]
pub enum Line<'a> {
    /// An answer.
    Answer(Box<Answer<'a>>),
    /// A problem.
    Problem(Problem<'a>),
    /// The end of a batch.
    End {
        /// The batch was answered to its end.
        complete: bool,
    },
    /// Something that could not be read.
    Unread(Failure),
}

/// Why a line could not be read.
#[derive(Debug, PartialEq, Eq)]
pub struct Failure {
    /// Its number in the batch, where it can be made out.
    pub line: Option<u64>,
    /// The reason.
    pub reason: UnreadReason,
    /// What the reader says.
    pub detail: String,
}

/// An answer on its line.
#[derive(Debug)]
pub struct Answer<'a> {
    /// Number of the line in the batch.
    pub line: u64,
    /// Id of the line.
    pub id: Option<Cow<'a, str>>,
    /// Kind of the job.
    pub of: JobKind,
    /// What it says.
    pub told: Told<'a>,
}

/// A problem on its line.
#[derive(Debug)]
pub struct Problem<'a> {
    /// Number of the line in the batch.
    pub line: u64,
    /// Id of the line.
    pub id: Option<Cow<'a, str>>,
    /// What is wrong.
    pub told: Refusal<'a>,
}

/// A line as it is written.
#[derive(Deserialize)]
struct Envelope<'a> {
    #[serde(borrow)]
    kind: Cow<'a, str>,
    #[serde(borrow)]
    id: Option<Cow<'a, str>>,
    line: Option<u64>,
    #[serde(borrow)]
    result: Option<Box<Told<'a>>>,
    #[serde(borrow)]
    problem: Option<Refusal<'a>>,
    summary: Option<Account>,
}

/// What an answer says, in full or in short.
#[derive(Debug, Deserialize)]
pub struct Told<'a> {
    of: Option<JobKind>,
    #[serde(borrow)]
    reference: Option<Cow<'a, str>>,
    #[serde(borrow)]
    document: Option<Cow<'a, str>>,
    /// What computed it.
    #[serde(borrow)]
    pub engine: Engine<'a>,
    #[serde(borrow)]
    hook_part: Option<Cow<'a, str>>,
    /// The verdict, where its kind has one.
    pub verdict: Option<Verdict>,
    #[serde(borrow)]
    headline: Option<Cow<'a, str>>,
    verdicts: Option<Verdicts>,
    #[serde(borrow)]
    utilisation: Option<Used<'a>>,
    /// How a recheck differs from its record.
    #[serde(borrow)]
    pub difference: Option<Difference<'a>>,
    /// What a recheck says of an event.
    pub event: Option<Event>,
    #[serde(borrow)]
    capacity: Option<Capacity<'a>>,
    #[serde(borrow, default)]
    warnings: Vec<Finding<'a>>,
    #[serde(borrow)]
    codes: Option<Codes<'a>>,
    #[serde(borrow, default)]
    slopes: Vec<Slope<'a>>,
    /// Of choices, the best.
    #[serde(borrow)]
    layout: Option<Box<Told<'a>>>,
}

/// What computed an answer.
#[derive(Debug, Deserialize)]
pub struct Engine<'a> {
    /// Version of the service.
    #[serde(borrow)]
    pub version: Cow<'a, str>,
    /// Number of its mechanics; answers without one count as 1.
    #[serde(default = "first_model")]
    pub model: u32,
    /// Set of rules.
    #[serde(borrow)]
    pub rules: Rules<'a>,
}

const fn first_model() -> u32 {
    1
}

/// A set of rules.
#[derive(Debug, Deserialize)]
pub struct Rules<'a> {
    /// Its name.
    #[serde(borrow)]
    pub id: Cow<'a, str>,
    /// Its revision.
    #[serde(borrow)]
    pub revision: Cow<'a, str>,
}

/// The highest utilisation.
#[derive(Debug, Deserialize)]
pub struct Used<'a> {
    /// The utilisation.
    pub max: f64,
    /// Slope it is on.
    #[serde(borrow)]
    pub slope: Option<Cow<'a, str>>,
    /// Element it is of.
    #[serde(borrow)]
    pub element: Cow<'a, str>,
    /// Check that governs.
    #[serde(borrow)]
    pub check: Cow<'a, str>,
    /// Combination that governs.
    #[serde(borrow)]
    pub combination: Cow<'a, str>,
}

/// How an answer differs from a record.
#[derive(Debug, Deserialize)]
pub struct Difference<'a> {
    /// Utilisation now less that of the record.
    pub change: Option<f64>,
    /// Verdict of the record.
    pub recorded_verdict: Option<Verdict>,
    /// The verdict is another.
    pub verdict_changed: Option<bool>,
    /// The revision of the rules is another.
    pub rules_changed: Option<bool>,
    /// The version of the service is another.
    pub engine_changed: Option<bool>,
    /// The mechanics are others.
    pub model_changed: Option<bool>,
    /// The job is another.
    pub input_changed: Option<bool>,
    /// What may have made the difference.
    #[serde(borrow)]
    pub causes: Vec<Cow<'a, str>>,
}

/// What an event came to.
#[derive(Debug, Deserialize)]
pub struct Event {
    /// No check that was run passed its limit.
    pub within_resistances: bool,
}

/// What a job bears.
#[derive(Debug, Deserialize)]
pub struct Capacity<'a> {
    /// Of snow.
    #[serde(borrow)]
    pub ground_snow: Load<'a>,
    /// Of a gust.
    #[serde(borrow)]
    pub peak_pressure: Load<'a>,
}

/// What a job bears of a load.
#[derive(Debug, Deserialize)]
pub struct Load<'a> {
    /// What it is computed with, kN/m².
    pub of_the_job_kn_per_m2: f64,
    /// With every partial factor 1, by scope.
    #[serde(borrow)]
    pub observed: Vec<Bearing<'a>>,
}

/// What a scope bears of a load.
#[derive(Debug, Deserialize)]
pub struct Bearing<'a> {
    /// The scope.
    pub scope: CapacityScope,
    /// What can be said.
    pub outcome: CapacityOutcome,
    /// Every check of it was run.
    pub complete: bool,
    /// The load, kN/m².
    pub load_kn_per_m2: Option<f64>,
    /// Check that passes its limit next.
    #[serde(borrow)]
    pub check: Option<Cow<'a, str>>,
    /// Element it is of.
    #[serde(borrow)]
    pub element: Option<Cow<'a, str>>,
}

#[derive(Debug, Deserialize)]
struct Finding<'a> {
    #[serde(borrow)]
    code: Cow<'a, str>,
    severity: Severity,
}

#[derive(Debug, Deserialize)]
struct Codes<'a> {
    #[serde(borrow)]
    failures: Vec<Cow<'a, str>>,
    #[serde(borrow)]
    incomplete: Vec<Cow<'a, str>>,
    #[serde(borrow)]
    warnings: Vec<Cow<'a, str>>,
    #[serde(borrow)]
    notices: Vec<Cow<'a, str>>,
}

#[derive(Debug, Deserialize)]
struct Slope<'a> {
    #[serde(borrow)]
    id: Cow<'a, str>,
    #[serde(borrow)]
    capacity: Option<Capacity<'a>>,
    #[serde(borrow, default)]
    warnings: Vec<Finding<'a>>,
}

/// Why a line was refused.
#[derive(Debug, Deserialize)]
pub struct Refusal<'a> {
    /// Code of the problem.
    #[serde(borrow)]
    pub code: Cow<'a, str>,
    #[serde(borrow)]
    detail: Option<Cow<'a, str>>,
    #[serde(borrow, default)]
    errors: Vec<Fault<'a>>,
}

#[derive(Debug, Deserialize)]
struct Fault<'a> {
    #[serde(borrow)]
    pointer: Cow<'a, str>,
    #[serde(borrow)]
    detail: Cow<'a, str>,
}

#[derive(Debug, Deserialize)]
struct Account {
    complete: bool,
}

impl<'a> Told<'a> {
    /// The answer with the figures: itself, or of choices the best.
    fn judged(&self) -> &Self {
        self.layout.as_deref().unwrap_or(self)
    }

    /// The caller's name of the job; of a statement, its number.
    pub fn reference(&self) -> Option<&str> {
        self.reference.as_deref().or(self.document.as_deref())
    }

    /// The part that the hooks are.
    pub fn hook_part(&self) -> Option<&str> {
        self.judged().hook_part.as_deref()
    }

    /// The verdict and its reason in a sentence.
    pub fn headline(&self) -> Option<&str> {
        self.judged().headline.as_deref()
    }

    /// The verdict by scope.
    pub fn verdicts(&self) -> Option<&Verdicts> {
        self.judged().verdicts.as_ref()
    }

    /// The highest utilisation.
    pub fn used(&self) -> Option<&Used<'a>> {
        self.judged().utilisation.as_ref()
    }

    /// What it bears, with the slope where it is of one.
    pub fn capacities(&self) -> impl Iterator<Item = (Option<&str>, &Capacity<'a>)> {
        let whole = self.judged().capacity.iter().map(|capacity| (None, capacity));
        let slopes = self.slopes.iter();
        whole.chain(slopes.filter_map(|slope| Some((Some(&*slope.id), slope.capacity.as_ref()?))))
    }

    /// The loads it is said to bear, kN/m².
    fn loads(&self) -> impl Iterator<Item = f64> {
        let loads = self.capacities().flat_map(|(_, of)| [&of.ground_snow, &of.peak_pressure]);
        loads.flat_map(|load| &load.observed).filter_map(|scope| scope.load_kn_per_m2)
    }

    /// Codes of what was found, each once, with their severity.
    pub fn codes(&self) -> Vec<(Severity, &str)> {
        let judged = self.judged();
        let of_slopes = self.slopes.iter().flat_map(|slope| &slope.warnings);
        let found = judged.warnings.iter().chain(of_slopes);
        let mut codes: Vec<(Severity, &str)> =
            found.map(|finding| (finding.severity, &*finding.code)).collect();
        if let Some(Codes { failures, incomplete, warnings, notices }) = &judged.codes {
            for (severity, list) in [
                (Severity::Failure, failures),
                (Severity::Incomplete, incomplete),
                (Severity::Warning, warnings),
                (Severity::Notice, notices),
            ] {
                codes.extend(list.iter().map(|code| (severity, &**code)));
            }
        }
        codes.sort_unstable();
        codes.dedup();
        codes
    }
}

impl Refusal<'_> {
    /// Where the first fault is, and what is wrong there; or what is wrong with the whole.
    pub fn said(&self) -> (Option<&str>, &str) {
        match self.errors.first() {
            Some(fault) => (Some(&fault.pointer), &fault.detail),
            None => (None, self.detail.as_deref().unwrap_or_default()),
        }
    }
}

/// Reads a line.
#[must_use]
pub fn read(text: &[u8]) -> Line<'_> {
    let envelope = match serde_json::from_slice::<Envelope<'_>>(text) {
        Ok(envelope) => envelope,
        Err(error) => {
            let reason = match error.classify() {
                Category::Data => UnreadReason::NotAnAnswer,
                Category::Syntax | Category::Eof | Category::Io => UnreadReason::NotJson,
            };
            let failure = Failure { line: number_in(text), reason, detail: error.to_string() };
            return Line::Unread(failure);
        }
    };
    let number = envelope.line.filter(|line| *line > 0);
    understood(envelope).unwrap_or_else(|detail| {
        let reason = UnreadReason::NotAnAnswer;
        Line::Unread(Failure { line: number, reason, detail: detail.to_owned() })
    })
}

fn understood(envelope: Envelope<'_>) -> Result<Line<'_>, &'static str> {
    let Envelope { kind, id, line, result, problem, summary } = envelope;
    if kind == EndTag::NAME {
        let complete = summary.ok_or("the end of a batch without its summary")?.complete;
        return Ok(Line::End { complete });
    }
    let line = line.filter(|line| *line > 0).ok_or("no number of a line")?;
    if kind == ProblemTag::NAME {
        let told = problem.ok_or("a problem that is not told")?;
        return Ok(Line::Problem(Problem { line, id, told }));
    }
    let told = *result.ok_or("no result")?;
    let of = if kind == SummaryTag::NAME {
        told.of.ok_or("an answer in short that does not say of what")?
    } else {
        JobKind::ALL.iter().copied().find(|of| of.name() == kind).ok_or("an unknown kind")?
    };
    let judged = !matches!(of, JobKind::Actions | JobKind::Statement);
    if judged && told.verdict.is_none() {
        return Err("no verdict");
    }
    if told.used().is_some_and(|used| used.max < 0.0) {
        return Err("a utilisation below zero");
    }
    if told.loads().any(|load| load < 0.0) {
        return Err("a load below zero");
    }
    Ok(Line::Answer(Box::new(Answer { line, id, of, told })))
}

/// The number of a line that cannot be read. It stands before all that may be long, and in no text can there be
/// a member: there the quotes have a backslash before them.
fn number_in(text: &[u8]) -> Option<u64> {
    const MEMBER: &[u8] = b"\"line\":";
    let begin = text.get(..BEGIN).unwrap_or(text);
    let at = begin.windows(MEMBER.len()).position(|piece| piece == MEMBER)?;
    let rest = begin.get(at + MEMBER.len()..)?;
    let digits = rest.iter().take_while(|byte| byte.is_ascii_digit()).count();
    // Of a number that goes on or is cut off nothing is known.
    rest.get(digits).filter(|byte| matches!(byte, b',' | b'}'))?;
    std::str::from_utf8(rest.get(..digits)?).ok()?.parse().ok().filter(|line| *line > 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn failure(text: &str) -> Failure {
        match read(text.as_bytes()) {
            Line::Unread(failure) => failure,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn what_is_no_answer_is_told_and_named_by_its_number() {
        for (text, line, reason) in [
            ("", None, UnreadReason::NotJson),
            ("nonsense", None, UnreadReason::NotJson),
            (
                "{\"line\":7,\"kind\":\"layout\",\"status\":200,\"resu",
                Some(7),
                UnreadReason::NotJson,
            ),
            ("{\"line\":7", None, UnreadReason::NotJson),
            ("{\"id\":\"\\\"line\\\":9,\",\"line\":8,\"k", Some(8), UnreadReason::NotJson),
            ("[]", None, UnreadReason::NotAnAnswer),
            ("{\"line\":7,\"kind\":\"layout\"}", Some(7), UnreadReason::NotAnAnswer),
            ("{\"line\":0,\"kind\":\"problem\"}", None, UnreadReason::NotAnAnswer),
            ("{\"line\":-1,\"kind\":\"problem\"}", None, UnreadReason::NotAnAnswer),
            ("{\"line\":3,\"kind\":\"end\"}", Some(3), UnreadReason::NotAnAnswer),
            ("{\"line\":3,\"kind\":\"other\",\"result\":{}}", Some(3), UnreadReason::NotAnAnswer),
        ] {
            let failure = failure(text);
            assert_eq!((failure.line, failure.reason), (line, reason), "{text}");
            assert!(!failure.detail.is_empty(), "{text}");
        }
    }

    #[test]
    fn an_answer_in_short_without_its_verdict_is_none() {
        let engine = r#""engine":{"version":"0.0.1","rules":{"id":"a/B","revision":"B-1"}}"#;
        let line =
            |rest: &str| format!(r#"{{"line":1,"kind":"summary","result":{{{engine}{rest}}}}}"#);
        assert_eq!(failure(&line("")).detail, "an answer in short that does not say of what");
        assert_eq!(failure(&line(r#","of":"recheck""#)).detail, "no verdict");
        let text = line(r#","of":"actions""#);
        let Line::Answer(answer) = read(text.as_bytes()) else { panic!("no answer") };
        assert_eq!((answer.of, answer.told.engine.model), (JobKind::Actions, 1));
    }
}
