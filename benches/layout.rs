//! Time of one layout, beside the time of reading and writing alone.
//!
//! Figures from one run are comparable with each other; across machines compare ratios.

use criterion::{Criterion, criterion_group, criterion_main};
use hookspan::http::check;
use hookspan::jobs::{digest, intake, layout};
use hookspan::model::layout::LayoutRequest;
use hookspan::parts::take_off::take_off;
use hookspan::placement::layout::lay_out;
use std::hint::black_box;

const JOBS: [(&str, &[u8]); 2] = [
    ("barn", include_bytes!("../tests/data/layout-barn.json")),
    ("cottage", include_bytes!("../tests/data/layout-cottage.json")),
];

fn layouts(criterion: &mut Criterion) {
    for (name, body) in JOBS {
        let mut group = criterion.benchmark_group(name);
        let read = || check::read::<LayoutRequest>(body).expect("the example is a valid request");
        let checked = read();
        let input_digest = digest::input_digest(checked.document());
        let (request, _) = checked.into_parts();
        let options = layout::Options::default();
        let answer = || {
            layout::run(&request, input_digest.clone(), &options).expect("the example has no fault")
        };
        let intake::Taken { job, order, .. } =
            intake::take(&request).expect("the example has no fault");
        let laid_out = lay_out(&job);
        let finished = answer();

        group.bench_function("read", |b| b.iter(|| black_box(read())));
        group.bench_function("write", |b| {
            b.iter(|| black_box(serde_json::to_vec(black_box(&finished))));
        });
        group.bench_function("actions", |b| b.iter(|| black_box(intake::take(&request))));
        group.bench_function("placement_and_checks", |b| b.iter(|| black_box(lay_out(&job))));
        group.bench_function("take_off_and_cutting", |b| {
            b.iter(|| black_box(take_off(&job, &laid_out, &order)));
        });
        group.bench_function("layout", |b| b.iter(|| black_box(answer())));
        group.bench_function("end_to_end", |b| {
            b.iter(|| {
                let checked = read();
                let digest = digest::input_digest(checked.document());
                let (request, _) = checked.into_parts();
                let answer = layout::run(&request, digest, &options).expect("no fault");
                black_box(serde_json::to_vec(&answer))
            });
        });
        group.finish();
    }
}

criterion_group!(benches, layouts);
criterion_main!(benches);
