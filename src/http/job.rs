//! One job from bytes to answer, of whatever kind: the gate, the digest, the pipeline, faults in the
//! order of the document. No HTTP in here; the command line and batches use the same function.

use serde_json::Value;

use crate::http::gate::{self, Checkable, Checked};
use crate::http::problem::Problem;
use crate::service::digest::input_digest;
use crate::service::request::Options;
use crate::service::request::Request;
use crate::wire::fault::{Fault, FaultCode};

/// A kind of job this service takes: a published contract and a pipeline.
pub trait Kind: Checkable + Request {
    /// A request of this kind, as a caller would send it.
    const EXAMPLE: &'static str;

    /// Name of its kind in the description and in counters.
    const TAG: &'static str;

    /// The same as a JSON value, for the description.
    ///
    /// # Panics
    /// When it is not JSON: a mistake of this crate that every test of the description shows.
    #[must_use]
    fn example() -> Value {
        serde_json::from_str(Self::EXAMPLE).expect("the embedded example is JSON")
    }
}

/// Makes of the table of the kinds of job whatever is done with all of them: the kind of a line and
/// the answer to it, their contracts, their routes and what the description says of them.
macro_rules! job_kinds {
    ($(
        $(#[$doc:meta])+
        $kind:ident: $request:ident => $answer:ident, by $handler:path,
        tag $tag:literal $about:literal, example $example:literal;
    )+) => {
        /// Kinds of job a line can be.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Deserialize, utoipa::ToSchema)]
        #[serde(rename_all = "snake_case")]
        pub enum JobKind {
            $($(#[$doc])+ $kind,)+
        }

        /// The answer to a job of any kind.
        #[derive(Debug, serde::Serialize, utoipa::ToSchema)]
        #[serde(untagged)]
        pub enum LineResult {
            $($(#[$doc])+ $kind(Box<$answer>),)+
        }

        $(
            $crate::http::gate::checkable!($request);

            impl $crate::http::job::Kind for $request {
                const EXAMPLE: &'static str = include_str!($example);
                const TAG: &'static str = $tag;
            }
        )+

        impl JobKind {
            /// Every kind.
            pub const ALL: &'static [Self] = &[$(Self::$kind),+];

            /// Tags of their operations, and what they are about.
            pub const TAGS: &'static [(&'static str, &'static str)] = &[$(($tag, $about)),+];

            /// The published contract of its requests.
            pub fn contract(self) -> &'static $crate::http::gate::Contract {
                match self {
                    $(Self::$kind => <$request as $crate::http::gate::Checkable>::contract(),)+
                }
            }

            /// The answer to a job of this kind that its contract has found no fault in.
            ///
            /// # Errors
            /// A problem with every fault that only the pipeline sees.
            pub fn answer(
                self,
                job: serde_json::Value,
                options: &$crate::service::request::Options,
            ) -> Result<LineResult, $crate::http::problem::Problem> {
                match self {
                    $(Self::$kind => {
                        let checked = $crate::http::gate::typed(job)?;
                        $crate::http::job::answer_checked::<$request>(checked, options)
                            .map(|answer| LineResult::$kind(Box::new(answer)))
                    })+
                }
            }

            /// Every route that answers one job.
            pub fn routes() -> utoipa_axum::router::OpenApiRouter<$crate::http::App> {
                utoipa_axum::router::OpenApiRouter::new()
                    $(.routes(utoipa_axum::routes!($handler)))+
            }
        }

        impl LineResult {
            /// Its verdict, where its kind has one.
            pub fn verdict(&self) -> Option<$crate::wire::remarks::Verdict> {
                match self {
                    $(Self::$kind(answer) => {
                        <$request as $crate::service::request::Request>::verdict(answer)
                    })+
                }
            }

            /// Whether a limit ended one of its searches; nothing where it needed none.
            pub fn cut_short(&self) -> Option<bool> {
                match self {
                    $(Self::$kind(answer) => {
                        <$request as $crate::service::request::Request>::cut_short(answer)
                    })+
                }
            }

            /// Name of its kind in counters.
            pub const fn tag(&self) -> &'static str {
                match self {
                    $(Self::$kind(_) => $tag,)+
                }
            }
        }
    };
}
pub(crate) use job_kinds;

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

/// Another form of the answer to the request in `bytes`, made by `show` from the request and its
/// digest.
///
/// # Errors
/// A problem with everything that is wrong with the request.
pub fn shown<R: Kind>(
    bytes: &[u8],
    options: &Options,
    show: impl FnOnce(&R, &str) -> Result<String, Vec<Fault>>,
) -> Result<String, Problem> {
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
    let answer = request
        .answer(digest.clone(), options)
        .map_err(|faults| Problem::faults(order.sort(faults)))?;
    Ok(Answered { digest, answer })
}

/// A caller may have to ask for less than the schema allows. What is asked for is never reduced in
/// silence: it is part of the job, and of its digest.
fn within_search_limit<R>(checked: &Checked<R>, options: &Options) -> Result<(), Problem> {
    let pointer = "/wishes/search_limit";
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
