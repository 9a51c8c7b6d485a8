//! What a job takes that does not depend on how busy the machine is: allocations, and, under a
//! profiler, instructions.
//!
//! Without arguments it prints allocations by stage. `-- barn 5` computes the barn five times in
//! [`measured`] and once before, so that a profiler which counts in that function alone gives five
//! times one job (`benches/table` does so with callgrind).

mod figures;
mod scenes;

#[path = "../tests/properties/jobs.rs"]
#[allow(dead_code, reason = "the tests draw other jobs as well")]
mod jobs;

use std::hint::black_box;

use allocation_counter::measure;
use figures::figure;
use hookspan::assessment;
use hookspan::http::gate;
use hookspan::language::Reader;
use hookspan::parts::take_off::take_off;
use hookspan::placement::layout::lay_out;
use hookspan::service::{answer, digest, intake};
use hookspan::wire::layout::LayoutRequest;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngSeed, TestRunner};

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).filter(|a| a != "--bench").collect();
    match &arguments[..] {
        [] => allocations(),
        [name, times] => {
            let times: u32 = times.parse().expect("how often is a number");
            let mut job = named(name);
            job();
            for _ in 0..times {
                measured(&mut *job);
            }
        }
        _ => panic!("nothing, or a job and how often: barn, recheck, holding, cottage, hall, row"),
    }
}

/// The one function a profiler counts in.
#[inline(never)]
fn measured(job: &mut dyn FnMut()) {
    job();
}

/// A job by name, ready to be computed again and again.
fn named(name: &str) -> Box<dyn FnMut()> {
    if name == "recheck" {
        return Box::new(|| drop(black_box(scenes::recheck(scenes::BUILT))));
    }
    if name == "holding" {
        let body = scenes::built_as_laid_out();
        return Box::new(move || drop(black_box(scenes::recheck(&body))));
    }
    if name == "row" {
        let job = row();
        return Box::new(move || drop(black_box(lay_out(&job))));
    }
    let found = scenes::LAYOUTS.into_iter().find(|(known, _)| *known == name);
    let (_, body) = found.unwrap_or_else(|| panic!("there is no job called {name}"));
    Box::new(move || drop(black_box(scenes::layout(body))))
}

/// One random row over 70 rafters.
fn row() -> hookspan::placement::Job {
    let mut runner = TestRunner::new(Config { rng_seed: RngSeed::Fixed(70), ..Config::default() });
    let draft = jobs::long_row().new_tree(&mut runner).expect("rows can be drawn").current();
    jobs::job(&draft.request())
}

fn allocations() {
    let body = scenes::BARN;
    let checked = gate::read::<LayoutRequest>(body).expect("a valid request");
    let request = &checked.request;
    let taken = intake::take(request).expect("no fault");
    let (job, order) = (&taken.job, &taken.order);
    let mut layout = lay_out(job);
    let taken_off = take_off(job, &layout, order);
    taken_off.on(0).cut(&mut layout);
    let ordered = answer::Ordered {
        components: &request.components,
        kept: &taken.kept,
        there: None,
        order,
        take_off: &taken_off,
    };
    let written = || {
        let (assumed, remarks) = (&taken.assumptions, &taken.remarks);
        let assessed = assessment::of_layout(job, &layout, taken_off.on(0), remarks);
        answer::layout(job, &layout, &ordered, assumed, (remarks, &assessed), Reader::default())
    };
    let answer = written();

    of("read", || drop(black_box(gate::read::<LayoutRequest>(body))));
    of("digest", || drop(black_box(digest::input_digest(&checked.canonical(&[])))));
    of("intake and actions", || drop(black_box(intake::take(request))));
    of("placement and checks", || drop(black_box(lay_out(job))));
    of("take-off and cutting", || drop(black_box(take_off(job, &layout, order))));
    of("report", || drop(black_box(written())));
    of("write", || drop(black_box(serde_json::to_vec(&answer))));
    of("barn, whole layout", || drop(black_box(scenes::layout(body))));
    of("barn, whole recheck", || drop(black_box(scenes::recheck(scenes::BUILT))));
}

fn of(name: &str, work: impl FnOnce()) {
    let taken = measure(work);
    figure("allocations", &format!("{name}: number"), taken.count_total as f64, "");
    figure("allocations", &format!("{name}: bytes"), taken.bytes_total as f64 / 1e3, "kB");
    figure("allocations", &format!("{name}: most at once"), taken.bytes_max as f64 / 1e3, "kB");
}
