//! Time of the calculation: one beam, one rail, one roof, and the stages of a job apart.
//!
//! Figures of one run are comparable with each other; across machines compare ratios.

mod scenes;

#[path = "../tests/properties/rails_given.rs"]
mod rails_given;

use std::hint::black_box;

use criterion::{BatchSize, BenchmarkId, Criterion, criterion_group, criterion_main};
use hookspan::assessment;
use hookspan::http::gate;
use hookspan::language::Reader;
use hookspan::mechanics::beam::Reactions;
use hookspan::mechanics::sweep::{Profile, Sweep};
use hookspan::parts::take_off::take_off;
use hookspan::placement::kept::Kept;
use hookspan::placement::layout::lay_out;
use hookspan::placement::search::{Pattern, fewest_hooks};
use hookspan::service::request::Options;
use hookspan::service::{answer, digest, intake, layout, recheck};
use hookspan::wire::actions::ActionsRequest;
use hookspan::wire::layout::LayoutRequest;
use hookspan::wire::recheck::RecheckRequest;

/// That of the service.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// The beam of the barn's first rail on the hooks it got, and everything along it.
fn beam(criterion: &mut Criterion) {
    let taken = intake::take(&scenes::read::<LayoutRequest>(scenes::BARN)).expect("no fault");
    let layout = lay_out(&taken.job);
    let laid = layout.segments().next().expect("the barn has rails");
    let (strip, hooks) = (&laid.segment.normal, &laid.found.subset);
    let load = &laid.segment.cases[0].normal;
    let (mut reactions, mut sweep) = (Reactions::default(), Sweep::default());
    let mut profile = Profile::default();

    let mut group = criterion.benchmark_group("beam");
    group.bench_function("all_cases", |b| {
        b.iter(|| black_box(strip.solve(black_box(hooks), &mut reactions)));
    });
    let reactions = strip.reactions(hooks).expect("it stands");
    group.bench_function("moments_of_all_cases", |b| {
        b.iter(|| {
            sweep.fill(strip, black_box(hooks), &reactions);
            black_box(sweep.moment_at_most(load))
        });
    });
    group.bench_function("profile", |b| {
        b.iter(|| {
            sweep.superpose(strip, black_box(load), &reactions, &mut profile);
            black_box(profile.moment_at_most())
        });
    });
    group.finish();
}

/// The search of one rail of the fixture, from its loads: nothing is known of it before.
fn rail(criterion: &mut Criterion) {
    let cases = rails_given::cases();
    let mut group = criterion.benchmark_group("rail");
    for id in ["rail-000", "rail-050", "rail-099"] {
        let case = cases.iter().find(|case| case["id"] == id).expect("it is in the fixture");
        group.bench_function(BenchmarkId::new("fewest_hooks", id), |b| {
            b.iter_batched(
                || rails_given::segment(&case["given"]),
                |segment| black_box(fewest_hooks(&segment, 1.0, Pattern::Free, u64::MAX, &[])),
                BatchSize::SmallInput,
            );
        });
    }
    group.finish();
}

/// Whole layouts from typed request to typed answer, and their stages.
fn layouts(criterion: &mut Criterion) {
    for (name, body) in scenes::LAYOUTS {
        let mut group = criterion.benchmark_group(name);
        let read = || gate::read::<LayoutRequest>(body).expect("a valid request");
        let checked = read();
        let input_digest = digest::input_digest(&checked.canonical(&[]));
        let request = &checked.request;
        let options = Options::default();
        let answer = || layout::run(request, input_digest.clone(), &options).expect("no fault");
        let intake::Taken { job, order, assumptions, remarks, .. } =
            intake::take(request).expect("no fault");
        let mut laid_out = lay_out(&job);
        let taken_off = take_off(&job, &laid_out, &order);
        let finished = answer();

        group.bench_function("read", |b| b.iter(|| black_box(read())));
        group.bench_function("digest", |b| {
            b.iter(|| black_box(digest::input_digest(&checked.canonical(&[]))));
        });
        group.bench_function("intake_and_actions", |b| {
            b.iter(|| black_box(intake::take(request)));
        });
        group.bench_function("placement_and_checks", |b| b.iter(|| black_box(lay_out(&job))));
        group.bench_function("take_off_and_cutting", |b| {
            b.iter(|| black_box(take_off(&job, &laid_out, &order)));
        });
        taken_off.on(0).cut(&mut laid_out);
        group.bench_function("report", |b| {
            let ordered = answer::Ordered {
                components: &request.components,
                kept: &Kept::default(),
                there: None,
                order: &order,
                take_off: &taken_off,
            };
            b.iter(|| {
                let assessed = assessment::of_layout(&job, &laid_out, taken_off.on(0), &remarks);
                black_box(answer::layout(
                    &job,
                    &laid_out,
                    &ordered,
                    &assumptions,
                    (&remarks, &assessed),
                    Reader::default(),
                ))
            });
        });
        group.bench_function("write", |b| {
            b.iter(|| black_box(serde_json::to_vec(black_box(&finished))));
        });
        group.bench_function("layout", |b| b.iter(|| black_box(answer())));
        group.bench_function("bytes_to_bytes", |b| b.iter(|| black_box(scenes::layout(body))));
        group.finish();
    }
}

/// The other kinds of job.
fn others(criterion: &mut Criterion) {
    let as_laid_out = scenes::built_as_laid_out();
    for (name, body) in [("recheck", scenes::BUILT), ("recheck that holds", &as_laid_out)] {
        let mut group = criterion.benchmark_group(name);
        let checked = gate::read::<RecheckRequest>(body).expect("a valid request");
        let input_digest = digest::input_digest(&checked.canonical(&[]));
        let options = Options::default();
        group.bench_function("recheck", |b| {
            b.iter(|| black_box(recheck::run(&checked.request, input_digest.clone(), &options)));
        });
        group.bench_function("bytes_to_bytes", |b| b.iter(|| black_box(scenes::recheck(body))));
        group.finish();
    }
    let mut group = criterion.benchmark_group("actions");
    let request: ActionsRequest = scenes::read(scenes::ACTIONS);
    group.bench_function("from_a_site", |b| {
        b.iter(|| black_box(intake::take_actions(black_box(&request))));
    });
    group.finish();
}

criterion_group!(benches, beam, rail, layouts, others);
criterion_main!(benches);
