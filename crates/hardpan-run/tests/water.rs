//! Standing water and soft stretches on the way, against closed forms.

mod fixture;

use fixture::{ground_by, take_off_flap, twin};
use hardpan_model::{Condition, Direction, FieldRule};
use hardpan_quantity::{Quantity, kilograms, knots, metres, millimetres, percent};
use hardpan_run::{
    Air, Available, Error, Ground, RunModel, Situation, TakeOffPlan, TakeOffRun, WindComponents,
    take_off,
};
use proptest::prelude::*;

const LENGTH: f64 = 3000.0;

fn ground(rolling: impl Fn(f64) -> f64, water: impl Fn(f64) -> f64) -> Condition {
    let mut ground = ground_by(LENGTH, 2.0, |station| (0.0, rolling(station), 0.25));
    for point in &mut ground.points {
        point.water = millimetres(water(point.station.si()));
    }
    ground
}

fn run(condition: &Condition, tyres: bool) -> Result<TakeOffRun, Error> {
    let ground = Ground::new(condition, Direction::Up, metres(LENGTH)).expect("ground");
    let situation = Situation {
        mass: kilograms(42_000.0),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(0.0), 0.0).expect("air"),
        wind: WindComponents::stated(knots(0.0), knots(0.0)),
        ground: &ground,
    };
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available::default(),
        wet_screen: None,
        decision_speed: None,
        brake_allowance: None,
        traces: true,
    };
    let mut aeroplane = twin();
    if !tyres {
        aeroplane.gear.main.tyre.width = None;
    }
    take_off(
        &RunModel::for_take_off(&aeroplane, &take_off_flap()).expect("model"),
        &situation,
        &plan,
    )
}

fn rotation(condition: &Condition) -> f64 {
    run(condition, true).expect("a take-off").all_engines.rotation.si()
}

#[test]
fn water_takes_the_energy_that_its_drag_takes() {
    // Work of the drag, 0.5 rho b d Cd V^2 each wheel with Cd of 0.75 ([AMC-25-1591], from
    // memory), along 42 m of water, half of the ramps of 1 m at its ends counted: the rest of the run is the same, so the square of the
    // speed behind it is lower by just that work. A slower aeroplane has more thrust
    // and less drag, which gives back about one part in a hundred on the way.
    let pond = |depth: f64| {
        ground(|_| 0.04, move |s| if (400.0..=440.0).contains(&s) { depth } else { 0.0 })
    };
    let speed_at = |condition: &Condition| {
        let trace = run(condition, true).expect("a take-off").trace.expect("a trace");
        let at = |wanted: f64| {
            let after = trace.points.iter().position(|p| p.station.si() >= wanted).expect("there");
            let (a, b) = (&trace.points[after - 1], &trace.points[after]);
            let share = (wanted - a.station.si()) / (b.station.si() - a.station.si());
            let square = |p: &hardpan_model::RunPoint| p.ground_speed.si().powi(2);
            square(a) + share * (square(b) - square(a))
        };
        (at(396.0), at(420.0), at(444.0))
    };
    let (dry, wet) = (speed_at(&pond(0.0)), speed_at(&pond(2.0)));
    let tyre = &twin().gear.main.tyre;
    let nose = &twin().gear.nose.tyre;
    let one = |tyre: &hardpan_model::Tyre| {
        let width = tyre.width.as_ref().expect("stated").value.si();
        let deflection = 0.5 * tyre.diameter.as_ref().expect("stated").value.si()
            - tyre.loaded_radius.as_ref().expect("stated").value.si();
        let share = (deflection + 0.002) / width;
        0.5 * 1000.0 * 2.0 * width * (share - share * share).sqrt() * 0.002 * 0.75
    };
    // Two main legs of two wheels and a nose leg of two: twice one wheel each.
    let drag = 2.0 * 2.0 * one(tyre) + 2.0 * one(nose);
    assert!((dry.0 - wet.0).abs() < 1e-6 * dry.0);
    let lost = 2.0 * drag * wet.1 * 42.0 / 42_000.0;
    let found = dry.2 - wet.2;
    assert!((found / lost - 1.0).abs() < 0.03, "{found} {lost}");
}

#[test]
fn water_without_the_tyres_is_refused_and_no_water_asks_for_nothing() {
    let pond = ground(|_| 0.04, |s| if s > 500.0 { 5.0 } else { 0.0 });
    assert!(matches!(run(&pond, false), Err(Error::TyresInWater)));
    assert!(run(&ground(|_| 0.04, |_| 0.0), false).is_ok());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(20) })]

    /// More water, a longer pond and softer ground never shorten the way to rotation.
    #[test]
    fn prop_deeper_longer_and_softer_never_shorten(
        depth in 0.0f64..8.0, more in 0.0f64..6.0, from in 50.0f64..800.0, long in 0.0f64..150.0,
        soft in 0.0f64..0.05,
    ) {
        let pond = |depth: f64, to: f64, soft: f64| {
            rotation(&ground(
                move |s| if (from..=to).contains(&s) { 0.04 + soft } else { 0.04 },
                move |s| if (from..=to).contains(&s) { depth } else { 0.0 },
            ))
        };
        let first = pond(depth, from + long, 0.0);
        for harder in [
            pond(depth + more, from + long, 0.0),
            pond(depth, from + long + 60.0, 0.0),
            pond(depth, from + long, soft),
        ] {
            prop_assert!(harder >= first - 1e-2, "{harder} {first}");
        }
    }
}
