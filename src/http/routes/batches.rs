//! `POST /v1/batches`.

use std::convert::Infallible;
use std::time::{Duration, Instant};

use axum::body::Body;
use axum::extract::{RawQuery, Request, State};
use axum::response::Response;
use futures_util::{FutureExt, StreamExt};

use crate::http::App;
use crate::http::answers::for_caller;
use crate::http::batch::{self, HANDFUL_BYTES, Output, Patience, Terms};
use crate::http::body::declared_as_lines;
use crate::http::call::Call;
use crate::http::limits::Held;
use crate::http::lines::EndLine;
use crate::http::metrics::{Lane, Metrics};
use crate::http::pages::examples::{example_batch, example_batch_answer};
use crate::http::problem::Problem;
use crate::http::query::{self, BatchParameters, WrittenParameters};
use crate::http::representation::{self, Form};
use crate::http::responses::StreamProblems;
use crate::http::routes::{BatchLine, BatchOutput};
use crate::service::batch::Tally;
use crate::service::request::Options;
use crate::wire::batch::BatchSummary;

/// Most empty lines in a row: a few bytes of a packed body may be millions of them.
const MOST_EMPTY_LINES: u64 = 10_000;

/// Longest time that what still arrives is read over after the summary.
const LINGER: Duration = Duration::from_secs(2);

/// Compute many jobs, one on each line
///
/// Takes JSON documents one a line (newline-delimited JSON) and answers one line for each, in
/// order, as they are computed; the last line is the summary. A line that is not JSON, too long or
/// faulty gets the problem its job would have had by itself, with pointers into the line, and costs
/// no other line. Empty lines are passed over and counted; more than 10 000 of them in a row end the
/// batch, and so does a pause of 15 seconds, unless the operator set another, in what you send.
///
/// Read the answer while you send: the service reads on only as its answers are taken, and keeps a
/// few lines of each batch at a time, so a batch may be as long as you like. When the summary is
/// missing or `complete` is false, send the rest again from the line after the last one answered, or
/// everything with `first_line`.
/// A job has the same result here as by itself.
#[utoipa::path(
    post, path = "/v1/batches", tag = "batches", operation_id = "run_batch",
    params(BatchParameters, WrittenParameters),
    request_body(
        content = BatchLine, content_type = "application/x-ndjson",
        description = "Lines, each as the schema says, in UTF-8. The limit of a body holds for each line.",
        example = json!(example_batch()),
    ),
    responses(
        (status = OK, description = "Lines, each as the schema says.", body = BatchOutput, content_type = "application/x-ndjson", example = json!(example_batch_answer())),
        StreamProblems,
    ),
)]
pub async fn run_batch(
    State(app): State<App>,
    RawQuery(query): RawQuery,
    request: Request,
) -> Result<Response, Problem> {
    let (written, first_line) = query::of_batch(query.as_deref())?;
    representation::chosen(request.headers(), &[Form::Lines])?;
    declared_as_lines(request.headers())?;
    // Who cannot be served is told before anything is read.
    app.room.hold(&mut Held::default(), HANDFUL_BYTES)?;
    app.places.may_answer(Lane::batch)?;
    let call = request.extensions().get::<Call>().cloned().unwrap_or_default();
    let options = written.options(representation::language(request.headers()));
    let terms = Terms {
        max_line_bytes: app.limits.max_body_bytes,
        lines: first_line..=u64::MAX,
        options: Options { signer: app.signer.clone(), ..for_caller(options, &call) },
        stop: app.ending.clone(),
        patience: Some(Patience {
            idle: app.limits.body,
            empty_lines: MOST_EMPTY_LINES,
            linger: LINGER,
            room: app.room.clone(),
            wait_for_room: app.limits.queue,
        }),
        call,
    };
    let mut input = Box::pin(request.into_body().into_data_stream().peekable());
    // Who waits for `100 Continue` (RFC 9110, 10.1.1) is sent it once the body is asked for, and never
    // after the head of the answer: the body is asked for here, and the connection heard first.
    let _ = input.as_mut().peek().now_or_never();
    tokio::task::yield_now().await;
    let mut account = Account::new(app.places.metrics().clone());
    let unread = app.places.unread(Lane::batch).clone();
    let answers = batch::run(input, app.places, terms).map(move |output| {
        Ok::<_, Infallible>(match output {
            Output::Lines { text, tally } => {
                account.add(&tally);
                text
            }
            Output::End(summary) => {
                account.close(&summary);
                last_line(&EndLine::of(summary))
            }
        })
    });
    let lines = representation::text(Form::Lines, unread.counted(Body::from_stream(answers)));
    Ok(representation::spoken(lines))
}

/// What the log and the counters hear of a batch, at the latest when its caller has left.
struct Account {
    metrics: Metrics,
    begin: Instant,
    span: tracing::Span,
    total: Tally,
    closed: bool,
}

impl Account {
    fn new(metrics: Metrics) -> Self {
        let (begin, span) = (Instant::now(), tracing::Span::current());
        Self { metrics, begin, span, total: Tally::default(), closed: false }
    }

    fn add(&mut self, tally: &Tally) {
        let (answered, refused) = tally.outcomes();
        self.metrics.lines(answered, refused);
        self.total.add(tally);
    }

    fn close(&mut self, summary: &BatchSummary) {
        let ending = if summary.complete { "complete" } else { "incomplete" };
        self.end(ending, summary.next_line);
    }

    fn end(&mut self, ending: &'static str, next_line: u64) {
        self.closed = true;
        self.metrics.batch(ending);
        let (answered, refused) = self.total.outcomes();
        let took_ms = self.begin.elapsed().as_millis();
        let _inside = self.span.enter();
        tracing::info!(ending, answered, refused, next_line, took_ms, "a batch ended");
    }
}

impl Drop for Account {
    fn drop(&mut self) {
        if !self.closed {
            // Nobody knows which answers still arrived.
            self.end("left", 0);
        }
    }
}

fn last_line(end: &EndLine) -> Vec<u8> {
    // Made of names and numbers only.
    let mut line = serde_json::to_vec(end).unwrap_or_default();
    line.push(b'\n');
    line
}
