//! How long one full assessment of the demo takes, reading apart from judging, and
//! how long the draws take that say how sure it is.

use criterion::{Criterion, criterion_group, criterion_main};
use hardpan_assess::{Sampling, answer_alone, assess, confidence, draws_in_full};
use hardpan_files::{Disk, read_flight};
use std::hint::black_box;

/// That of the program.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const FLIGHT: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/flight.toml");

fn assessment(criterion: &mut Criterion) {
    let read = || read_flight(&Disk::default(), FLIGHT).value.expect("the demo can be read");
    let flight = read();
    let mut group = criterion.benchmark_group("assessment");
    group.sample_size(10);
    group.bench_function("read the files", |bencher| bencher.iter(|| black_box(read())));
    group.bench_function("assess, all limits and remedies", |bencher| {
        bencher.iter(|| black_box(assess(black_box(&flight))));
    });
    group.bench_function("the answer alone", |bencher| {
        bencher.iter(|| black_box(answer_alone(black_box(&flight))));
    });
    for draws in [256, 1024, 10_000] {
        let in_full = draws_in_full(draws).min(draws);
        let sampling = Sampling { draws, in_full, seed: 1, threads: 2 };
        let name = format!("{draws} draws, {in_full} in full, on two threads");
        group.bench_function(name, |bencher| {
            bencher.iter(|| black_box(confidence(black_box(&flight), sampling, |_, _| {})));
        });
    }
    group.finish();
}

criterion_group!(benches, assessment);
criterion_main!(benches);
