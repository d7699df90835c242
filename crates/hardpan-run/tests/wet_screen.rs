//! The screen of a wet strip, and wind that falls towards the ground.
//! Source: [CFR-25-113] (b) and (c), 15 ft on a wet runway, never shorter than dry;
//! [WIND-POWER-LAW].

mod fixture;

use fixture::{even_ground, take_off_flap, twin};
use hardpan_model::{Direction, FieldRule};
use hardpan_quantity::{Length, Quantity, feet, kilograms, knots, metres, percent};
use hardpan_run::{
    Air, Available, Error, Ground, RunModel, Situation, TakeOffPlan, TakeOffRun, WindComponents,
    take_off,
};

fn run(screen: Option<Length>, braking: f64, wind: WindComponents) -> Result<TakeOffRun, Error> {
    let condition = even_ground(4000.0, 0.0, 0.04, braking);
    let ground = Ground::new(&condition, Direction::Up, metres(4000.0)).expect("ground");
    let situation = Situation {
        mass: kilograms(44_000.0),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(300.0), 5.0).expect("air"),
        wind,
        ground: &ground,
    };
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available::default(),
        wet_screen: screen,
        decision_speed: None,
        brake_allowance: None,
        traces: false,
    };
    take_off(&RunModel::for_take_off(&twin(), &take_off_flap()).expect("model"), &situation, &plan)
}

#[test]
fn the_lower_screen_shortens_only_the_take_off_with_an_engine_out() {
    let still = WindComponents::calm();
    let (full, lower) = (run(None, 0.12, still), run(Some(feet(15.0)), 0.12, still));
    let (full, lower) = (full.expect("a take-off"), lower.expect("a take-off"));
    assert_eq!(full.all_engines, lower.all_engines);
    assert!(lower.distance_needed < full.distance_needed);
    let (Some(a), Some(b)) = (full.decision, lower.decision) else { panic!("decided") };
    // A shorter way on lets the decision speed, and with it the stop, come down.
    assert!(b.speed <= a.speed && lower.accelerate_stop_needed <= full.accelerate_stop_needed);
    let climb = |run: &TakeOffRun| {
        run.climb_path
            .as_ref()
            .map(|path| path.height(metres(0.0), hardpan_run::PathKind::Net).si())
    };
    assert_eq!(climb(&lower), Some(35.0 * 0.3048), "the climb starts at 35 ft all the same");
    let dry = run(None, 0.40, still).expect("a take-off");
    let both = lower.clone().no_shorter_than(&dry);
    let longer = lower.distance_needed.zip(dry.distance_needed).map(|(a, b)| a.max(b));
    assert_eq!(both.distance_needed, longer);
    assert_eq!(both.accelerate_stop_needed, lower.accelerate_stop_needed, "dry stops shorter");
    for outside in [14.0, 36.0] {
        assert!(matches!(run(Some(feet(outside)), 0.12, still), Err(Error::OutOfRange { .. })));
    }
}

#[test]
fn wind_near_the_ground_takes_from_a_headwind_and_leaves_a_tailwind() {
    let ahead = WindComponents::stated(knots(20.0), knots(3.0));
    let behind = WindComponents::stated(knots(-6.0), knots(3.0));
    let near = |wind: WindComponents| wind.near_ground(1.0 / 7.0, metres(2.0));
    // 20 kt at 10 m is 20 x 0.2^(1/7) = 15.892 kt at 2 m, of which half counts.
    let fallen = near(ahead).expect("a law");
    assert!((fallen.credited.si() - knots(7.946).si()).abs() < 3e-4, "{fallen:?}");
    assert_eq!((fallen.headwind, fallen.crosswind), (ahead.headwind, ahead.crosswind));
    assert_eq!(near(behind), Ok(behind));
    assert_eq!(ahead.near_ground(0.0, metres(2.0)), Ok(ahead));
    assert!(ahead.near_ground(0.6, metres(2.0)).is_err());
    let (with, without) = (run(None, 0.3, fallen), run(None, 0.3, ahead));
    let (with, without) = (with.expect("a take-off"), without.expect("a take-off"));
    assert!(with.distance_needed > without.distance_needed);
}
