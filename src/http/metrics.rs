//! What this instance counts, in the text format of `OpenMetrics` 1.0, which Prometheus reads.
//!
//! Labels are names of this program and statuses: nothing a caller sends becomes one, so their number
//! has a limit.

use std::sync::Arc;
use std::time::Duration;

use prometheus_client::encoding::{EncodeLabelSet, EncodeLabelValue, text};
use prometheus_client::metrics::counter::Counter;
use prometheus_client::metrics::family::Family;
use prometheus_client::metrics::gauge::Gauge;
use prometheus_client::metrics::histogram::Histogram;
use prometheus_client::metrics::info::Info;
use prometheus_client::registry::{Registry, Unit};
use std::sync::atomic::AtomicU64;

/// Media type of what is written.
pub const MEDIA_TYPE: &str = "application/openmetrics-text; version=1.0.0; charset=utf-8";

/// Upper limits of the classes of times, seconds: from a question for actions to the longest
/// computation there may be.
const SECONDS: [f64; 14] =
    [0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0];

/// How a job came.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, EncodeLabelValue)]
pub enum Lane {
    /// By itself.
    #[expect(non_camel_case_types, reason = "the name of a label")]
    single,
    /// As a line of a batch.
    #[expect(non_camel_case_types, reason = "the name of a label")]
    batch,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Answered {
    route: String,
    status: u16,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct OfLane {
    lane: Lane,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct OfKind {
    kind: &'static str,
    lane: Lane,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Coded {
    code: &'static str,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Outcome {
    outcome: &'static str,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Towards {
    direction: &'static str,
}

type Times<L> = Family<L, Histogram, fn() -> Histogram>;

fn times<L: Clone + std::hash::Hash + Eq>() -> Times<L> {
    Family::new_with_constructor(|| Histogram::new(SECONDS))
}

/// The counters of one instance; clones count together.
#[derive(Debug, Clone)]
pub struct Metrics(Arc<Counters>);

#[derive(Debug)]
struct Counters {
    registry: Registry,
    requests: Family<Answered, Counter>,
    refusals: Family<Coded, Counter>,
    waits: Times<OfLane>,
    computations: Times<OfKind>,
    cpu: Family<OfLane, Counter<f64, AtomicU64>>,
    searches: Family<Outcome, Counter>,
    bytes: Family<Towards, Counter>,
    lines: Family<Outcome, Counter>,
    batches: Family<Outcome, Counter>,
    reloads: Family<Outcome, Counter>,
    places: Gauge,
    taken: Family<OfLane, Gauge>,
    waiting: Family<OfLane, Gauge>,
    bodies: Gauge,
    answers: Gauge,
}

/// How full the instance is at the moment.
#[derive(Debug, Clone, Copy, Default)]
pub struct Fullness {
    /// Places for computations.
    pub places: usize,
    /// Those taken by single requests and by batches.
    pub taken: [usize; 2],
    /// Single requests, and handfuls of batches, that wait for one.
    pub waiting: [usize; 2],
    /// Bytes of bodies that are being read or wait for their answer.
    pub bodies: usize,
    /// Bytes of answers that are not yet taken.
    pub answers: usize,
}

impl Default for Metrics {
    fn default() -> Self {
        let mut counters = Counters {
            registry: Registry::with_prefix("hookspan"),
            requests: Family::default(),
            refusals: Family::default(),
            waits: times(),
            computations: times(),
            cpu: Family::default(),
            searches: Family::default(),
            bytes: Family::default(),
            lines: Family::default(),
            batches: Family::default(),
            reloads: Family::default(),
            places: Gauge::default(),
            taken: Family::default(),
            waiting: Family::default(),
            bodies: Gauge::default(),
            answers: Gauge::default(),
        };
        counters.register();
        Self(Arc::new(counters))
    }
}

impl Counters {
    fn register(&mut self) {
        let to = &mut self.registry;
        let version = vec![("version", env!("CARGO_PKG_VERSION"))];
        to.register("build", "The program that runs", Info::new(version));
        to.register("requests", "Requests answered, by route and status", self.requests.clone());
        to.register(
            "refusals",
            "Requests refused, by the code of the problem",
            self.refusals.clone(),
        );
        let seconds = || Unit::Seconds;
        let waits = self.waits.clone();
        to.register_with_unit("queue_wait", "Wait for a place to compute", seconds(), waits);
        let computations = self.computations.clone();
        let about = "Time to compute one job, by its kind; refused where it was none";
        to.register_with_unit("computation", about, seconds(), computations);
        let cpu = self.cpu.clone();
        to.register_with_unit("cpu", "Processor time of computations", seconds(), cpu);
        let about = "Answers that took a search, by whether it was cut short or proves its outcome";
        to.register("searches", about, self.searches.clone());
        let about = "Bytes of bodies, unpacked when received, as sent when sent";
        to.register_with_unit("body", about, Unit::Bytes, self.bytes.clone());
        to.register("batch_lines", "Lines of batches, by outcome", self.lines.clone());
        to.register("batches", "Batches that ended, by how", self.batches.clone());
        to.register("key_reloads", "Times the file of keys was read anew", self.reloads.clone());
        to.register("places", "Places for computations", self.places.clone());
        to.register("places_taken", "Places taken", self.taken.clone());
        to.register("waiting", "Computations that wait for a place", self.waiting.clone());
        let about = "Bodies that are being read or wait for their answer";
        to.register_with_unit("bodies_held", about, Unit::Bytes, self.bodies.clone());
        let about = "Answers that are computed and not yet taken";
        to.register_with_unit("answers_held", about, Unit::Bytes, self.answers.clone());
    }
}

/// A number of things as the counters take it.
fn count(of: usize) -> i64 {
    i64::try_from(of).unwrap_or(i64::MAX)
}

impl Metrics {
    /// A request was answered.
    pub fn answered(&self, route: &str, status: u16, refused_as: Option<&'static str>) {
        let labels = Answered { route: route.to_owned(), status };
        self.0.requests.get_or_create(&labels).inc();
        if let Some(code) = refused_as {
            self.0.refusals.get_or_create(&Coded { code }).inc();
        }
    }

    /// A computation has found its place.
    pub fn waited(&self, lane: Lane, time: Duration) {
        self.0.waits.get_or_create(&OfLane { lane }).observe(time.as_secs_f64());
    }

    /// A job was computed.
    pub fn computed(&self, kind: &'static str, lane: Lane, time: Duration) {
        self.0.computations.get_or_create(&OfKind { kind, lane }).observe(time.as_secs_f64());
    }

    /// A computation has taken so much of the processor.
    pub fn used(&self, lane: Lane, cpu: Duration) {
        self.0.cpu.get_or_create(&OfLane { lane }).inc_by(cpu.as_secs_f64());
    }

    /// Whether a limit ended what an answer searched for.
    pub fn searched(&self, cut_short: bool) {
        let outcome = if cut_short { "cut_short" } else { "proven" };
        self.0.searches.get_or_create(&Outcome { outcome }).inc();
    }

    /// Bodies have passed.
    pub fn moved(&self, received: u64, sent: u64) {
        for (direction, bytes) in [("received", received), ("sent", sent)] {
            self.0.bytes.get_or_create(&Towards { direction }).inc_by(bytes);
        }
    }

    /// Lines of a batch have been answered.
    pub fn lines(&self, answered: u64, refused: u64) {
        for (outcome, lines) in [("answered", answered), ("refused", refused)] {
            self.0.lines.get_or_create(&Outcome { outcome }).inc_by(lines);
        }
    }

    /// A batch has ended.
    pub fn batch(&self, outcome: &'static str) {
        self.0.batches.get_or_create(&Outcome { outcome }).inc();
    }

    /// The file of keys was read anew, or could not be.
    pub fn reloaded(&self, taken: bool) {
        let outcome = if taken { "taken" } else { "refused" };
        self.0.reloads.get_or_create(&Outcome { outcome }).inc();
    }

    /// Everything, with how full the instance is.
    #[must_use]
    pub fn text(&self, now: &Fullness) -> String {
        self.0.places.set(count(now.places));
        self.0.bodies.set(count(now.bodies));
        self.0.answers.set(count(now.answers));
        for (lane, at) in [(Lane::single, 0), (Lane::batch, 1)] {
            let lane = OfLane { lane };
            self.0.taken.get_or_create(&lane).set(count(now.taken[at]));
            self.0.waiting.get_or_create(&lane).set(count(now.waiting[at]));
        }
        let mut text = String::new();
        // Writing to a text does not fail.
        let _ = text::encode(&mut text, &self.0.registry);
        text
    }
}
