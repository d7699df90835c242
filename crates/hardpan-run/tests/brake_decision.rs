//! A decision speed that the brakes allow.
//! Source: [CFR-23-735] kinetic energy of one brake, m V^2/(2 N), drag not
//! credited; the expected speeds were worked out by hand from it.

mod fixture;

use fixture::{even_ground, take_off_flap, twin};
use hardpan_model::{Direction, FieldRule};
use hardpan_quantity::{Energy, Quantity, kilograms, knots, metres, percent};
use hardpan_run::{
    Air, Available, DecisionChoice, Ground, RunModel, Situation, TakeOffPlan, TakeOffRun,
    WindComponents, take_off,
};
use proptest::prelude::*;

fn run(allowance: Option<f64>, declared: Option<f64>) -> TakeOffRun {
    let condition = even_ground(4000.0, 0.0, 0.04, 0.3);
    let ground = Ground::new(&condition, Direction::Up, metres(4000.0)).expect("ground");
    let situation = Situation {
        mass: kilograms(44_000.0),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(0.0), 0.0).expect("air"),
        wind: WindComponents::stated(knots(0.0), knots(0.0)),
        ground: &ground,
    };
    let declared = declared.map(metres);
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available { take_off_distance: declared, accelerate_stop: declared },
        wet_screen: None,
        decision_speed: None,
        brake_allowance: allowance.map(Energy::from_si),
        traces: false,
    };
    let model = RunModel::for_take_off(&twin(), &take_off_flap()).expect("model");
    take_off(&model, &situation, &plan).expect("a take-off")
}

/// 44 t on four brakes at 50 m/s: 44000 x 2500/2/4 = 13.75 MJ each; 50 m/s lies above
/// the first decision speed that control allows, and below balance.
#[test]
fn exact_the_decision_speed_is_lowered_to_what_the_brakes_take() {
    let free = run(None, None);
    let decided = free.decision.expect("decided");
    assert_eq!(decided.choice, DecisionChoice::Balanced);
    assert!(decided.brake_limit.is_none());
    assert!(decided.ground_speed.si() > 50.5, "{}", decided.ground_speed.si());
    let most = 0.5 * 44_000.0 * 50.0 * 50.0 / 4.0;
    let limited = run(Some(most), None);
    let decision = limited.decision.expect("decided");
    assert_eq!(decision.choice, DecisionChoice::BrakeEnergy);
    assert!((decision.ground_speed.si() - 50.0).abs() < 1e-3, "{}", decision.ground_speed.si());
    let told = decision.brake_limit.expect("a limit");
    assert!((told.si() - 50.0).abs() < 1e-6, "sea level, standard, calm");
    assert!(limited.brake_energy.si() <= most);
    assert!(limited.accelerate_stop_needed < free.accelerate_stop_needed);
    assert!(limited.distance_needed > free.distance_needed);
}

#[test]
fn brakes_never_push_the_speed_below_what_carrying_on_or_control_needs() {
    let free = run(None, Some(2000.0));
    let decided = free.decision.expect("decided");
    let tiny = run(Some(1e6), Some(2000.0)).decision.expect("decided");
    assert_eq!(tiny.choice, decided.choice, "no speed that the brakes take is allowed");
    assert_eq!(tiny.speed, decided.speed);
    let plenty = run(Some(1e9), Some(2000.0)).decision.expect("decided");
    assert_eq!((plenty.choice, plenty.speed), (decided.choice, decided.speed));
}

proptest! {
    #[test]
    fn prop_less_for_the_brakes_never_raises_the_decision_speed(
        speed in 45.0..75.0f64, less in 0.7..1.0f64, declared in 1500.0..3000.0f64,
    ) {
        let energy = 0.5 * 44_000.0 * speed * speed / 4.0;
        let decision = |most: f64| run(Some(most), Some(declared)).decision.expect("decided");
        let (more, fewer) = (decision(energy), decision(energy * less));
        let brakes = |choice| choice == DecisionChoice::BrakeEnergy;
        if brakes(fewer.choice) || !brakes(more.choice) {
            prop_assert!(fewer.speed.si() <= more.speed.si() + 1e-4);
        }
    }
}
