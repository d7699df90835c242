//! How long the checks of a strip of 2 km with 20 lines take.

use criterion::{Criterion, criterion_group, criterion_main};
use hardpan_model::{Given, Strip, Survey, SurveyLine, SurveyPoint};
use hardpan_quantity::{metres, millimetres};
use hardpan_surface::{
    Edge, EvennessRules, Profile, centre_profile, events, measure, natural_spacing, profile_index,
    resample, single_events,
};
use std::hint::black_box;

fn level(station: f64, offset: f64) -> f64 {
    0.004 * station - 0.02 * offset.abs()
        + 0.03 * (station / 4.1).sin()
        + 0.02 * (station / 1.3 + offset).sin()
}

fn line(offset: f64) -> SurveyLine {
    let points = (0..=8_000).map(|index| {
        let station = f64::from(index) * 0.25;
        SurveyPoint {
            station: metres(station),
            elevation: metres(level(station, offset)),
            line: index as u32,
        }
    });
    SurveyLine { offset: metres(offset), points: points.collect() }
}

fn strip() -> Strip {
    Strip {
        length: Some(Given::stated("length", metres(2_000.0))),
        survey: Some(Survey {
            file: "survey.csv".into(),
            date: None,
            level_noise: Some(Given::stated("survey.level_noise", millimetres(3.0))),
            lines: (0..20).map(|index| line(f64::from(index) - 9.5)).collect(),
        }),
        ..Strip::default()
    }
}

fn profile() -> Option<Profile> {
    let line = line(0.0);
    let spacing = natural_spacing(&line, metres(0.25)).ok()?;
    resample(&line, spacing, metres(1.0)).ok()?.profiles.into_iter().next()
}

fn checks(bench: &mut Criterion) {
    let strip = strip();
    let mut group = bench.benchmark_group("2 km");
    group.sample_size(10);
    group.bench_function("everything, 20 lines", |b| {
        b.iter(|| measure(black_box(&strip), &EvennessRules::default()));
    });
    group.bench_function("centre line for the run", |b| {
        b.iter(|| centre_profile(black_box(&strip)));
    });
    if let Some(profile) = profile() {
        group.bench_function("chord of 60.96 m, one line", |b| {
            b.iter(|| {
                events(black_box(&profile), Edge::Chord, metres(60.96), millimetres(101.6), 5)
            });
        });
        group.bench_function("roughness index, one line", |b| {
            b.iter(|| profile_index(black_box(&profile)));
        });
        group.bench_function("single irregularities to 60 m, one line", |b| {
            b.iter(|| single_events(black_box(&profile), metres(60.0), 5));
        });
    }
    group.finish();
}

criterion_group!(benches, checks);
criterion_main!(benches);
