//! How long one run takes.
#![allow(missing_docs)]

#[path = "../tests/fixture/mod.rs"]
mod fixture;

use criterion::{Criterion, criterion_group, criterion_main};
use fixture::{even_ground, landing_flap, take_off_flap, twin};
use hardpan_model::{Direction, FieldRule, SurfaceState};
use hardpan_quantity::{kilograms, knots, metres, percent};
use hardpan_run::{
    Air, Available, Ground, LandingPlan, RunModel, Situation, TakeOffPlan, WindComponents, landing,
    take_off,
};
use std::hint::black_box;

fn runs(criterion: &mut Criterion) {
    let condition = even_ground(2500.0, 0.002, 0.04, 0.25);
    let ground = Ground::new(&condition, Direction::Up, metres(2500.0)).expect("ground");
    let situation = |mass: f64| Situation {
        mass: kilograms(mass),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(300.0), 10.0).expect("air"),
        wind: WindComponents::stated(knots(5.0), knots(3.0)),
        ground: &ground,
    };
    let model = RunModel::for_take_off(&twin(), &take_off_flap()).expect("model");
    let plan = |rule, available, traces| TakeOffPlan {
        rule,
        line_up: metres(20.0),
        available,
        wet_screen: None,
        decision_speed: None,
        brake_allowance: None,
        traces,
    };
    let declared = Available {
        take_off_distance: Some(metres(2500.0)),
        accelerate_stop: Some(metres(2400.0)),
    };
    let cases = [
        (
            "take-off, all engines to the screen, and stop",
            FieldRule::AllEnginesTakeOff,
            None,
            false,
        ),
        ("take-off with balanced decision speed", FieldRule::LargeTakeOff, None, false),
        ("take-off with declared distances", FieldRule::LargeTakeOff, Some(declared), false),
        ("take-off with traces", FieldRule::LargeTakeOff, None, true),
    ];
    for (name, rule, available, traces) in cases {
        let plan = plan(rule, available.unwrap_or_default(), traces);
        criterion.bench_function(name, |bencher| {
            bencher.iter(|| take_off(&model, &situation(black_box(45_000.0)), &plan));
        });
    }
    let model = RunModel::for_landing(&twin(), &landing_flap()).expect("model");
    let plan = LandingPlan {
        own_factor: None,
        rule: FieldRule::LandingSixtyPercent,
        state: SurfaceState::Dry,
        speed_addition: knots(5.0),
        late_by: None,
        brake_target: None,
        traces: false,
    };
    criterion.bench_function("landing", |bencher| {
        bencher.iter(|| landing(&model, &situation(black_box(42_000.0)), &plan));
    });
}

criterion_group!(benches, runs);
criterion_main!(benches);
