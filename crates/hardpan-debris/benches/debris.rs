//! How long the vortex along a run and many thrown stones take.

use criterion::{Criterion, criterion_group, criterion_main};
use hardpan_debris::{
    Air, Assurance, Inlet, Launch, RunWind, Stone, Surface, Throw, Tyre, rolling_schedule,
    vortex_along,
};
use hardpan_model::{RunPoint, RunTrace};
use hardpan_quantity::{
    Density, MassFlow, Quantity, metres, metres_per_second, newtons, ratio, seconds,
};
use std::hint::black_box;

fn inlet() -> Inlet {
    Inlet { diameter: metres(1.5), height: metres(1.6), take_off_flow: MassFlow::from_si(280.0) }
}

fn calm() -> RunWind {
    RunWind { headwind: metres_per_second(0.0), crosswind: metres_per_second(0.0) }
}

fn trace() -> RunTrace {
    let point = |index: u32| RunPoint {
        station: metres(f64::from(index)),
        time: seconds(f64::from(index) * 0.05),
        ground_speed: metres_per_second(f64::from(index) * 0.05),
        airspeed: metres_per_second(f64::from(index) * 0.05),
        thrust: newtons(180e3),
        lift: newtons(0.0),
        braking: newtons(0.0),
        friction: ratio(0.0),
        main_leg_load: newtons(0.0),
        nose_leg_load: newtons(0.0),
        height: metres(0.0),
    };
    RunTrace { points: (0..1_500).map(point).collect(), events: Vec::new() }
}

fn vortex(bench: &mut Criterion) {
    let trace = trace();
    bench.bench_function("vortex along 1 500 points", |b| {
        b.iter(|| {
            vortex_along(black_box(&trace), &inlet(), &Air::standard(), &calm(), |_| newtons(200e3))
        });
    });
    bench.bench_function("rolling schedule", |b| {
        b.iter(|| rolling_schedule(black_box(&inlet()), &Air::standard(), &calm(), Assurance::Off));
    });
}

fn stones(bench: &mut Criterion) {
    let stone =
        Stone { diameter: metres(0.02), density: Density::from_si(2650.0), drag: 0.8, lift: 0.0 };
    let air = Density::from_si(1.225);
    let mut group = bench.benchmark_group("stones");
    group.sample_size(10);
    group.bench_function("100 000 trajectories", |b| {
        b.iter(|| {
            (0..100_000_u32)
                .filter_map(|index| {
                    let launch = Launch {
                        forward: metres_per_second(f64::from(index % 30)),
                        sideways: metres_per_second(f64::from(index % 11) - 5.0),
                        upward: metres_per_second(1.0 + f64::from(index % 19)),
                    };
                    stone.fly(black_box(&launch), air).ok()
                })
                .map(|flight| flight.forward.si())
                .sum::<f64>()
        });
    });
    let tyre = |right: f64| Tyre {
        aft: metres(0.0),
        right: metres(right),
        radius: metres(0.31),
        width: metres(0.2),
    };
    let belly = |height: f64| Surface {
        from: metres(2.0),
        to: metres(18.0),
        left: metres(-2.0),
        right: metres(2.0),
        height: metres(height),
    };
    let tyres = [tyre(-0.18), tyre(0.18)];
    let fastest = metres_per_second(65.0);
    let throw = Throw { tyres: &tyres, stone: metres(0.02), air, fastest, seed: 1 };
    group.bench_function("100 000 thrown at four surfaces", |b| {
        b.iter(|| throw.hits(black_box(&[0.4, 1.0, 1.3, 1.6].map(belly)), 100_000));
    });
    group.finish();
}

criterion_group!(benches, vortex, stones);
criterion_main!(benches);
