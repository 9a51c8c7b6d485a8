//! A job of its own computed: counted, named to its request, and held to what its caller may ask for.

use std::time::Instant;

use axum::body::Body as Sent;
use axum::http::Response;

use crate::effort::Stop;
use crate::http::body::Body;
use crate::http::call::Call;
use crate::http::job::{self, Answered, Kind};
use crate::http::metrics::{Lane, Metrics};
use crate::http::problem::Problem;
use crate::http::responses::json_text;
use crate::service::request::Options;
use crate::service::shown::{Look, Shown};

/// The same options, for a computation that ends when it is told to stop.
pub fn until(mut options: Options, stop: &Stop) -> Options {
    options.effort.stop = stop.clone();
    options
}

/// The same options, for who may ask for no more than its key says.
pub fn for_caller(options: Options, call: &Call) -> Options {
    let search_limit = call.key().map(|key| key.grant().search_limit);
    Options { search_limit, ..options }
}

/// The answer to a job, as JSON.
pub fn answered<R: Kind>(
    body: &Body,
    options: &Options,
    metrics: &Metrics,
) -> Result<Response<Sent>, Problem> {
    let begin = Instant::now();
    let done = job::answered::<R>(&body.bytes, options);
    count(metrics, &done, R::TAG, begin);
    let Answered { digest, answer } = done?;
    body.call.asks_about(&digest);
    if let Some(cut_short) = R::cut_short(&answer) {
        metrics.searched(cut_short);
    }
    job::written(&answer, options).map(json_text)
}

/// A job as people look at it.
pub fn shown<R: Kind>(
    body: &Body,
    look: &Look,
    options: &Options,
    metrics: &Metrics,
) -> Result<Shown, Problem> {
    let begin = Instant::now();
    let done = job::shown(&body.bytes, options, |request: &R, digest| {
        body.call.asks_about(digest);
        R::FORMS.show(look, request, digest, options)
    });
    count(metrics, &done, R::TAG, begin);
    done
}

fn count<T>(metrics: &Metrics, done: &Result<T, Problem>, tag: &'static str, begin: Instant) {
    let kind = if done.is_ok() { tag } else { "refused" };
    metrics.computed(kind, Lane::single, begin.elapsed());
}
