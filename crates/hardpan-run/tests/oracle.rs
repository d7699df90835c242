//! One take-off and one landing against `tests/oracle/twin.py`, which shares
//! no code with the crate.

mod fixture;

use fixture::{ground_by, landing_flap, take_off_flap, twin};
use hardpan_model::{Direction, FieldRule, SurfaceState};
use hardpan_quantity::{Length, Quantity, kilograms, knots, metres, percent};
use hardpan_run::{
    Air, Available, DecisionChoice, Ground, LandingPlan, RunModel, Situation, TakeOffPlan,
    WindComponents, landing, take_off,
};

const LENGTH: f64 = 2500.0;

fn ground() -> Ground {
    let patch = |station: f64, centre: f64| (1.0 - (station - centre).abs() / 50.0).max(0.0);
    let condition = ground_by(LENGTH, 5.0, move |station| {
        let rolling = 0.03 + 0.09 * patch(station, 600.0) + 0.05 * patch(station, 900.0);
        (0.004 * station, rolling, 0.25 - 0.15 * patch(station, 1000.0))
    });
    Ground::new(&condition, Direction::Up, metres(LENGTH)).expect("ground")
}

fn situation(ground: &Ground) -> Situation<'_> {
    Situation {
        mass: kilograms(42_000.0),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(300.0), 10.0).expect("air"),
        wind: WindComponents::stated(knots(6.0), knots(0.0)),
        ground,
    }
}

/// The script steps 2 ms at a time, which is good for a few centimetres.
fn near(found: Length, expected: f64) {
    assert!((found.si() - expected).abs() < 0.15, "{} instead of {expected}", found.si());
}

#[test]
fn oracle_take_off_of_the_twin() {
    let ground = ground();
    let model = RunModel::for_take_off(&twin(), &take_off_flap()).expect("model");
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available::default(),
        wet_screen: None,
        decision_speed: None,
        brake_allowance: None,
        traces: false,
    };
    let run = take_off(&model, &situation(&ground), &plan).expect("a take-off");
    near(run.all_engines.rotation, 627.305);
    near(run.all_engines.lift_off, 755.474);
    near(run.all_engines.screen, 981.915);
    let decision = run.decision.expect("two engines");
    assert_eq!(decision.choice, DecisionChoice::Balanced);
    assert!((decision.ground_speed.si() - 59.7207).abs() < 0.005, "{decision:?}");
    near(decision.carried_on.expect("it climbs").screen, 1523.358);
    near(decision.stop, 1523.358);
    near(decision.stop_all_engines, 1518.466);
}

#[test]
fn oracle_landing_of_the_twin() {
    let ground = ground();
    let model = RunModel::for_landing(&twin(), &landing_flap()).expect("model");
    let plan = LandingPlan {
        own_factor: None,
        rule: FieldRule::LandingSixtyPercent,
        state: SurfaceState::Dry,
        speed_addition: knots(0.0),
        late_by: None,
        brake_target: None,
        traces: false,
    };
    let run = landing(&model, &situation(&ground), &plan).expect("a landing");
    near(run.touchdown, 426.212);
    near(run.brakes_on, 514.583);
    near(run.stop, 1280.361);
}
