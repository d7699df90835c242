//! The final take-off segment.
//! Source: [CFR-25-121] (c): 1.2 %, 1.5 %, 1.7 % at maximum continuous thrust.
//! The gradient is worked out here from thrust and drag, apart from the code.

mod fixture;

use fixture::{even_ground, take_off_flap, twin};
use hardpan_model::Direction;
use hardpan_quantity::{Quantity, kilograms, metres, percent, ratio};
use hardpan_run::{
    Air, ClimbAtSpeed, FinalClimbModel, Ground, Situation, WindComponents, final_climb_gradient,
};

fn climb(mass: f64, continuous: f64, height: f64) -> ClimbAtSpeed {
    let condition = even_ground(3000.0, 0.0, 0.04, 0.25);
    let ground = Ground::new(&condition, Direction::Up, metres(3000.0)).expect("ground");
    let situation = Situation {
        mass: kilograms(mass),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(0.0), 0.0).expect("air"),
        wind: WindComponents::calm(),
        ground: &ground,
    };
    let flap = take_off_flap();
    let model = FinalClimbModel::new(&twin(), &flap, ratio(continuous), metres(height));
    model.expect("a model").climb(&situation).expect("a climb").expect("two engines")
}

#[test]
fn val_gradients_of_the_rule() {
    let wanted = [(2, 0.012), (3, 0.015), (4, 0.017)];
    for (engines, gradient) in wanted {
        assert!((final_climb_gradient(engines).si() - gradient).abs() < 1e-12);
    }
    assert_eq!(climb(44_000.0, 0.9, 0.0).required, final_climb_gradient(2));
}

/// Thrust alone differs between two settings at one speed and mass, so the
/// gradients differ by its difference over the weight: gradient = T/W - D/W.
#[test]
fn exact_thrust_sets_the_gradient() {
    let [full, part, less] = [1.0, 0.9, 0.8].map(|share| climb(44_000.0, share, 0.0));
    assert_eq!(full.true_airspeed, part.true_airspeed);
    let step = full.gradient.si() - part.gradient.si();
    assert!((part.gradient.si() - less.gradient.si() - step).abs() < 1e-12);
    // One engine of 90 kN static less 3 % bleed gives some 60 to 80 kN at speed.
    let thrust = step * 44_000.0 * 9.80665 / 0.1;
    assert!((55e3..85e3).contains(&thrust), "{thrust}");
    let stall = (2.0 * 44_000.0 * 9.80665 / (1.225 * 105.0 * lift_maximum())).sqrt();
    assert!((full.true_airspeed.si() - 1.18 * stall).abs() < 1e-3);
}

fn lift_maximum() -> f64 {
    take_off_flap().lift_maximum.expect("stated").value
}

#[test]
fn heavier_or_higher_never_climbs_better() {
    let base = climb(44_000.0, 0.9, 122.0).gradient;
    assert!(climb(46_000.0, 0.9, 122.0).gradient < base);
    assert!(climb(44_000.0, 0.9, 400.0).gradient < base);
}
