//! How long the checks of a strip of 2 km with 20 lines take.

use criterion::{Criterion, criterion_group, criterion_main};
use hardpan_model::{Given, Strip, Survey, SurveyLine, SurveyPoint};
use hardpan_quantity::{
    Area, Length, Mass, Pressure, Quantity, Volume, kilonewtons, metres, metres_per_second,
    millimetres, ratio,
};
use hardpan_surface::{
    Edge, EvennessRules, Lanes, Motion, Oleo, Pace, Profile, RigidAeroplane, Support,
    centre_profile, events, greatest_deviation, measure, natural_spacing, noise_profile,
    profile_index, resample, ride_grounds, single_events,
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

/// A heavy aeroplane on struts and tyres, invented.
fn heavy() -> RigidAeroplane {
    let strut = |area, preload, volume, damping, unsprung, load, squash| {
        Support::Oleo(Oleo {
            piston_area: Area::from_si(area),
            preload: Pressure::from_si(preload),
            gas_volume: Volume::from_si(volume),
            polytropic: 1.1,
            damping: (kilonewtons(damping), metres_per_second(1.0)),
            unsprung: Mass::from_si(unsprung),
            tyre: (kilonewtons(load), metres(squash)),
            tyre_exponent: 1.3,
        })
    };
    RigidAeroplane {
        mass: Mass::from_si(39_000.0),
        gyration: metres(6.2),
        nose_ahead: metres(11.0),
        main_behind: metres(1.1),
        cockpit_ahead: metres(13.0),
        nose: strut(7e-3, 1.2e6, 2.6e-3, 60.0, 90.0, 36.0, 0.07),
        main: strut(40e-3, 2.6e6, 20e-3, 560.0, 620.0, 350.0, 0.09),
        lift_share: ratio(0.0),
    }
}

/// The ride over two lanes and noise: the baseline takes even steps, one ride
/// after the other.
fn rides(bench: &mut Criterion) {
    let Ok(level) =
        Profile::evenly_spaced(metres(0.0), metres(0.0), metres(2.5), &vec![metres(0.0); 801])
    else {
        return;
    };
    let rough: Vec<Profile> =
        (1..=3).filter_map(|seed| noise_profile(&level, millimetres(6.0), seed).ok()).collect();
    let grounds: Vec<Lanes<'_>> =
        rough.iter().map(|main| Lanes { nose: &rough[0], main }).collect();
    let motion = |station: Length| Motion {
        speed: metres_per_second(5.0 + 0.03 * station.si()),
        lift_share: ratio((0.0003 * station.si()).clamp(0.0, 0.6)),
    };
    let aeroplane = heavy();
    let mut group = bench.benchmark_group("ride of 2 km over three grounds");
    group.sample_size(10);
    group.bench_function("baseline: even steps, one after the other", |b| {
        b.iter(|| {
            grounds
                .iter()
                .filter_map(|ground| ride_grounds(&aeroplane, &[*ground], motion, Pace::Even).ok())
                .count()
        });
    });
    group.bench_function("adapted steps, all together", |b| {
        b.iter(|| ride_grounds(black_box(&aeroplane), &grounds, motion, Pace::Adapted));
    });
    group.finish();
}

/// How the time grows with the length of the strip and with that of the edge:
/// the baseline is the shortest of each. Eight times the strip takes eight times
/// as long, and eight times the chord hardly more.
fn growth(bench: &mut Criterion) {
    let of_length = |length: u32| {
        let levels: Vec<Length> =
            (0..=4 * length).map(|index| metres(level(f64::from(index) * 0.25, 0.0))).collect();
        Profile::evenly_spaced(metres(0.0), metres(0.0), metres(0.25), &levels).ok()
    };
    let mut group = bench.benchmark_group("growth, one line, a level each 0.25 m");
    group.sample_size(10);
    for length in [1_000, 2_000, 4_000, 8_000] {
        let Some(profile) = of_length(length) else { continue };
        group.bench_function(format!("chord of 60 m, strip of {length} m"), |b| {
            b.iter(|| greatest_deviation(black_box(&profile), metres(60.0)));
        });
        group.bench_function(format!("single irregularities, strip of {length} m"), |b| {
            b.iter(|| single_events(black_box(&profile), metres(120.0), 5));
        });
    }
    if let Some(profile) = of_length(4_000) {
        for chord in [15.0, 30.0, 120.0] {
            group.bench_function(format!("chord of {chord} m, strip of 4000 m"), |b| {
                b.iter(|| greatest_deviation(black_box(&profile), metres(chord)));
            });
        }
    }
    group.finish();
}

criterion_group!(benches, checks, growth, rides);
criterion_main!(benches);
