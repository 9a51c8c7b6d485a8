//! One job from bytes to answer, of whatever kind: the gate, the digest, the pipeline, faults in the
//! order of the document. No HTTP in here; the command line and batches use the same function.

use serde::Serialize;
use serde_json::Value;

use crate::http::forms::Forms;
use crate::http::gate::{self, Checkable, Checked};
use crate::http::problem::Problem;
use crate::http::signature;
use crate::service::answer::Summarised;
use crate::service::digest::input_digest;
use crate::service::request::{Names, Options, Request};
use crate::service::shown::Look;
use crate::wire::array::FilledField;
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::provenance::Assumption;
use crate::wire::remarks::Verdict;
use crate::wire::summary::AnswerSummary;

/// A kind of job this service takes: a published contract and a pipeline.
pub trait Kind: Checkable + Request + Sized {
    /// A request of this kind, as a caller would send it.
    const EXAMPLE: &'static str;

    /// Name of its kind in the description and in counters.
    const TAG: &'static str;

    /// What its answers have beside JSON.
    const FORMS: Forms<Self>;

    /// The same as a JSON value, for the description.
    ///
    /// # Panics
    /// When it is not JSON: a mistake of this crate that every test of the description shows.
    #[must_use]
    fn example() -> Value {
        serde_json::from_str(Self::EXAMPLE).expect("the embedded example is JSON")
    }
}

/// Makes of the table of the kinds of job whatever is done with all of them: the lines of a batch that
/// ask for them and their answers, their contracts, their routes and what the description says of them.
macro_rules! job_kinds {
    ($(
        $(#[$doc:meta])+
        $kind:ident as $tag:ident: $request:ident => $answer:ident or $reply:ident,
        line $line:ident => $told:ident, by $handler:path, forms $forms:expr,
        about $name:literal $about:literal, example $example:literal;
    )+) => {
        $(
            $crate::http::gate::checkable!($request);

            impl $crate::http::job::Kind for $request {
                const EXAMPLE: &'static str = include_str!($example);
                const TAG: &'static str = $name;
                const FORMS: $crate::http::forms::Forms<Self> = $forms;
            }

            $(#[$doc])+
            #[derive(Debug, utoipa::ToSchema)]
            #[expect(dead_code, reason = "the description reads it, and nothing else")]
            pub struct $line {
                /// The caller's own name of the line; echoed. Lines are numbered, too.
                #[schema(nullable = false, max_length = 200, example = "contract-0815")]
                id: Option<String>,
                /// What is asked.
                #[schema(inline)]
                kind: $crate::wire::kinds::$tag,
                /// The request, as it would be sent by itself.
                job: Box<$request>,
            }

            /// The answer to such a line.
            #[derive(Debug, serde::Serialize, utoipa::ToSchema)]
            pub struct $told {
                /// Echo of the line's id.
                #[serde(skip_serializing_if = "Option::is_none")]
                #[schema(nullable = false, example = "contract-0815")]
                id: Option<String>,
                /// Number of the line in the batch, counted from 1; empty lines count.
                #[schema(minimum = 1, example = 1)]
                line: u64,
                /// What the line is.
                #[schema(inline)]
                kind: $crate::wire::kinds::$tag,
                /// HTTP status the job would have had by itself.
                #[schema(minimum = 200, maximum = 200, example = 200)]
                status: u16,
                /// The answer to the job.
                result: Box<$answer>,
            }

            /// The answer in full, or with `?answer=summary` in short.
            #[derive(Debug, utoipa::ToSchema)]
            #[serde(untagged)]
            #[expect(dead_code, reason = "the description reads it, and nothing else")]
            pub enum $reply {
                /// In full.
                Full(Box<$answer>),
                /// In short.
                Summary(Box<$crate::wire::summary::AnswerSummary>),
            }
        )+

        /// A line of a batch, on one line of text: a job of the kind it says.
        #[derive(Debug, utoipa::ToSchema)]
        #[serde(untagged)]
        #[expect(dead_code, reason = "the description reads it, and nothing else")]
        pub enum BatchLine {
            $($(#[$doc])+ $kind($line),)+
        }

        /// One line of the answer: of a line of the batch, or the last one of all.
        #[derive(Debug, serde::Serialize, utoipa::ToSchema)]
        #[serde(untagged)]
        pub enum BatchOutput {
            $($(#[$doc])+ $kind($told),)+
            /// The answer to a job of any kind, in short.
            Summary($crate::http::lines::SummaryLine),
            /// Why a line has no answer.
            Problem($crate::http::lines::ProblemLine),
            /// The last line: what became of all of them.
            End($crate::http::lines::EndLine),
        }

        /// The answer to a job of any kind.
        #[derive(Debug)]
        pub enum LineResult {
            $($(#[$doc])+ $kind(Box<$answer>),)+
            /// In short.
            Summary(Box<$crate::wire::summary::AnswerSummary>),
        }

        impl LineResult {
            /// The same on its line.
            pub fn on_line(self, id: Option<String>, line: u64) -> BatchOutput {
                match self {
                    $(Self::$kind(result) => {
                        let kind = $crate::wire::kinds::$tag;
                        BatchOutput::$kind($told { id, line, kind, status: 200, result })
                    })+
                    Self::Summary(result) => {
                        BatchOutput::Summary($crate::http::lines::SummaryLine::of(id, line, result))
                    }
                }
            }
        }

        impl JobKind {
            /// Every kind.
            pub const ALL: &'static [Self] = &[$(Self::$kind),+];

            /// Tags of their operations, and what they are about.
            pub const TAGS: &'static [(&'static str, &'static str)] = &[$(($name, $about)),+];

            /// Its name, as a line of a batch has it.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self {
                    $(Self::$kind => $crate::wire::kinds::$tag::NAME,)+
                }
            }

            /// What there is to ask for of its answers.
            #[must_use]
            pub const fn offer(self) -> $crate::http::forms::Offer {
                match self {
                    $(Self::$kind => <$request as $crate::http::job::Kind>::FORMS.offer(),)+
                }
            }

            /// The published contract of its requests.
            pub fn contract(self) -> &'static $crate::http::gate::Contract {
                match self {
                    $(Self::$kind => <$request as $crate::http::gate::Checkable>::contract(),)+
                }
            }

            /// What becomes of a job of this kind that its contract has found no fault in.
            ///
            /// # Errors
            /// A problem with every fault that only the pipeline sees.
            pub fn done(
                self,
                job: serde_json::Value,
                options: &$crate::service::request::Options,
            ) -> Result<$crate::http::job::Done<LineResult>, $crate::http::problem::Problem> {
                match self {
                    $(Self::$kind => {
                        let checked = $crate::http::gate::typed(job)?;
                        let answer =
                            $crate::http::job::answer_checked::<$request>(checked, options)?;
                        Ok($crate::http::job::Done {
                            tag: $name,
                            verdict: <$request as $crate::service::request::Request>::verdict(&answer),
                            cut_short: <$request as $crate::service::request::Request>::cut_short(&answer),
                            result: if options.summary {
                                LineResult::Summary(Box::new($crate::service::answer::Summarised::summary(&answer)))
                            } else {
                                LineResult::$kind(Box::new(answer))
                            },
                        })
                    })+
                }
            }

            /// What becomes of a job of this kind by itself, in bytes as over HTTP: its answer, or with a
            /// look what people see of it.
            ///
            /// # Errors
            /// A problem with everything that is wrong with the request.
            pub fn told(
                self,
                bytes: &[u8],
                look: Option<&$crate::service::shown::Look>,
                options: &$crate::service::request::Options,
            ) -> Result<$crate::http::job::Told, $crate::http::problem::Problem> {
                match self {
                    $(Self::$kind => $crate::http::job::told::<$request>(bytes, look, options),)+
                }
            }

            /// Digest of a request of this kind, as its answer names it.
            ///
            /// # Errors
            /// A problem with everything that is wrong with the request.
            pub fn digest(self, bytes: &[u8]) -> Result<String, $crate::http::problem::Problem> {
                match self {
                    $(Self::$kind => $crate::http::job::digest::<$request>(bytes),)+
                }
            }

            /// Every route that answers one job.
            pub fn routes() -> utoipa_axum::router::OpenApiRouter<$crate::http::App> {
                utoipa_axum::router::OpenApiRouter::new()
                    $(.routes(utoipa_axum::routes!($handler)))+
            }
        }
    };
}
pub(crate) use job_kinds;

/// What became of a job of any kind.
#[derive(Debug)]
pub struct Done<T> {
    /// Name of its kind in counters.
    pub tag: &'static str,
    /// Its verdict, where its kind has one.
    pub verdict: Option<Verdict>,
    /// Whether a limit ended one of its searches; nothing where it needed none.
    pub cut_short: Option<bool>,
    /// The answer.
    pub result: T,
}

/// An answer, and the digest that names its job.
#[derive(Debug)]
pub struct Answered<A> {
    /// The digest.
    pub digest: String,
    /// The answer.
    pub answer: A,
}

/// The answer to the request in `bytes`.
///
/// # Errors
/// A problem with everything that is wrong with the request.
pub fn answer<R: Kind>(bytes: &[u8], options: &Options) -> Result<R::Answer, Problem> {
    answer_checked::<R>(gate::read(bytes)?, options)
}

/// The same with the digest of the request.
///
/// # Errors
/// A problem with everything that is wrong with the request.
pub fn answered<R: Kind>(bytes: &[u8], options: &Options) -> Result<Answered<R::Answer>, Problem> {
    answered_checked::<R>(gate::read(bytes)?, options)
}

/// An answer as long as it was asked for.
#[derive(Debug, Serialize)]
#[serde(untagged)]
pub enum Length<'a, A> {
    /// All of it.
    Full(&'a A),
    /// In short.
    Summary(Box<AnswerSummary>),
}

impl<'a, A: Summarised> Length<'a, A> {
    /// An answer as these options ask for it.
    pub fn of(answer: &'a A, options: &Options) -> Self {
        if options.summary { Self::Summary(Box::new(answer.summary())) } else { Self::Full(answer) }
    }
}

/// What a job comes to, in the form asked for.
#[derive(Debug)]
pub struct Told {
    /// Its verdict, where its kind has one.
    pub verdict: Option<Verdict>,
    /// JSON, HTML or SVG.
    pub bytes: Vec<u8>,
}

/// What the request in `bytes` comes to: its answer as JSON, or with a look what people see of it.
///
/// # Errors
/// A problem with everything that is wrong with the request.
pub fn told<R: Kind>(
    bytes: &[u8],
    look: Option<&Look>,
    options: &Options,
) -> Result<Told, Problem> {
    if let Some(look) = look {
        let shown = shown(bytes, options, |request: &R, digest| {
            R::FORMS.show(look, request, digest, options)
        })?;
        return Ok(Told { verdict: shown.verdict, bytes: shown.text.into_bytes() });
    }
    let answer = answer::<R>(bytes, options)?;
    Ok(Told { verdict: R::verdict(&answer), bytes: written(&answer, options)? })
}

/// An answer as JSON: as long as it was asked for, and signed where there is a key.
///
/// # Errors
/// A problem where it cannot be written, which would be a mistake of this crate.
pub fn written<A: Serialize + Summarised>(
    answer: &A,
    options: &Options,
) -> Result<Vec<u8>, Problem> {
    let length = Length::of(answer, options);
    signature::written(&length, options.signer.as_deref()).map_err(|error| {
        tracing::error!(%error, "an answer could not be written as JSON");
        Problem::internal()
    })
}

/// Digest of the request in `bytes`.
///
/// # Errors
/// A problem with everything that is wrong with the request.
pub fn digest<R: Kind>(bytes: &[u8]) -> Result<String, Problem> {
    Ok(digest_of(&gate::read::<R>(bytes)?))
}

/// Another form of the answer to the request in `bytes`, made by `show` from the request and its
/// digest.
///
/// # Errors
/// A problem with everything that is wrong with the request.
pub fn shown<R: Kind, T>(
    bytes: &[u8],
    options: &Options,
    show: impl FnOnce(&R, &str) -> Result<T, Vec<Fault>>,
) -> Result<T, Problem> {
    let checked = gate::read::<R>(bytes)?;
    within_search_limit(&checked, options)?;
    let digest = digest_of(&checked);
    let (request, order) = checked.into_parts();
    show(&request, &digest).map_err(|faults| Problem::faults(order.sort(faults)))
}

/// The answer to a request that passed the gate.
///
/// # Errors
/// A problem with every fault that only the pipeline sees.
pub fn answer_checked<R: Kind>(
    checked: Checked<R>,
    options: &Options,
) -> Result<R::Answer, Problem> {
    answered_checked(checked, options).map(|answered| answered.answer)
}

fn answered_checked<R: Kind>(
    checked: Checked<R>,
    options: &Options,
) -> Result<Answered<R::Answer>, Problem> {
    within_search_limit(&checked, options)?;
    let digest = digest_of(&checked);
    let (request, order) = checked.into_parts();
    let key = |slope: Option<usize>, assumed: &[Assumption], filled: &[FilledField]| {
        order.job_key(slope, assumed, filled)
    };
    let answer = request
        .answer(Names::new(digest.clone(), &key).enclosing(&order), options)
        .map_err(|faults| Problem::faults(order.sort(faults)))?;
    Ok(Answered { digest, answer })
}

/// A caller may have to ask for less than the schema allows. What is asked for is never reduced in
/// silence: it is part of the job, and of its digest.
fn within_search_limit<R: Request>(checked: &Checked<R>, options: &Options) -> Result<(), Problem> {
    let pointer = R::SEARCH_LIMIT;
    let (Some(most), Some(asked)) =
        (options.search_limit, checked.at(pointer).and_then(Value::as_u64))
    else {
        return Ok(());
    };
    if asked <= most {
        return Ok(());
    }
    let detail = format!("{asked} is more than {most}, the most this key may ask for.");
    Err(Problem::faults(vec![Fault::new(pointer, FaultCode::OutOfRange, detail)]))
}

/// Digest of a request without what is no part of the job.
fn digest_of<R: Kind>(checked: &Checked<R>) -> String {
    input_digest(&checked.canonical(R::APART))
}
