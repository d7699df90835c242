//! Automatic brakes against the closed form of a steady deceleration.

mod fixture;

use fixture::{even_ground, landing_flap, twin};
use hardpan_model::{Direction, FieldRule, RunEventKind, SurfaceState};
use hardpan_quantity::{Acceleration, Quantity, kilograms, knots, metres, percent};
use hardpan_run::{
    Air, Error, Ground, LandingPlan, LandingRun, RunModel, Situation, WindComponents, landing,
};
use proptest::prelude::*;

fn landed(target: Option<f64>, braking: f64) -> Result<LandingRun, Error> {
    let condition = even_ground(2500.0, 0.0, 0.015, braking);
    let ground = Ground::new(&condition, Direction::Up, metres(2500.0)).expect("ground");
    let situation = Situation {
        mass: kilograms(42_000.0),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(300.0), 10.0).expect("air"),
        wind: WindComponents::stated(knots(6.0), knots(0.0)),
        ground: &ground,
    };
    let plan = LandingPlan {
        own_factor: None,
        rule: FieldRule::LandingSixtyPercent,
        state: SurfaceState::Dry,
        speed_addition: knots(0.0),
        late_by: None,
        brake_target: target.map(Acceleration::from_si),
        traces: true,
    };
    landing(&RunModel::for_landing(&twin(), &landing_flap()).expect("model"), &situation, &plan)
}

/// Speed where the brakes come on, and the distance from there to the stop.
fn braked(run: &LandingRun) -> (f64, f64) {
    let events = &run.trace.as_ref().expect("a trace").events;
    let on = events.iter().find(|event| event.kind == RunEventKind::BrakesOn).expect("brakes");
    (on.ground_speed.si(), run.stop.si() - run.brakes_on.si())
}

#[test]
fn exact_a_target_that_the_ground_allows_is_held_to_the_stop() {
    // Drag alone stays below 2.4 m/s2 and brakes reach it at every speed here.
    let run = landed(Some(2.4), 0.4).expect("a landing");
    let (speed, distance) = braked(&run);
    assert!((distance / (speed * speed / (2.0 * 2.4)) - 1.0).abs() < 1e-6, "{distance} {speed}");
}

#[test]
fn a_target_beyond_the_grip_changes_nothing_and_one_out_of_range_is_refused() {
    let (with, without) = (landed(Some(7.9), 0.2), landed(None, 0.2));
    let (with, without) = (with.expect("a landing").stop, without.expect("a landing").stop);
    assert!((with.si() - without.si()).abs() < 1e-3, "{with:?} {without:?}");
    assert!(matches!(landed(Some(0.1), 0.2), Err(Error::OutOfRange { .. })));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(24) })]

    /// A weaker target never stops shorter, and none stops shorter than full brakes.
    #[test]
    fn prop_a_weaker_target_never_stops_shorter(
        target in 0.8f64..4.0, less in 0.0f64..0.5, braking in 0.1f64..0.4,
    ) {
        let stop = |target: Option<f64>| landed(target, braking).map(|run| run.stop.si());
        let (weak, strong) = (stop(Some(target - less)).expect("a stop"), stop(Some(target)).expect("a stop"));
        prop_assert!(weak >= strong - 1e-3, "{weak} {strong}");
        prop_assert!(strong >= stop(None).expect("a stop") - 1e-3);
    }
}
