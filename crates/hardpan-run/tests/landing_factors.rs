//! Factors on the landing distance.
//! Source: [CFR-121-195] (b): 60 % of the length available; (c) 70 %; (d) wet 115 %
//! on it; [FAA-SAFO-06012]: 15 % on the distance at the time of arrival.

mod fixture;

use fixture::{even_ground, landing_flap, twin};
use hardpan_model::{Direction, FieldRule, SurfaceState};
use hardpan_quantity::{Quantity, kilograms, knots, metres, percent};
use hardpan_run::{
    Air, Error, Ground, LandingPlan, LandingRun, RunModel, Situation, WindComponents, landing,
};

fn landed(rule: FieldRule, state: SurfaceState, own: Option<f64>) -> Result<LandingRun, Error> {
    let condition = even_ground(4000.0, 0.0, 0.04, 0.25);
    let ground = Ground::new(&condition, Direction::Up, metres(4000.0)).expect("ground");
    let situation = Situation {
        mass: kilograms(42_000.0),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(300.0), 0.0).expect("air"),
        wind: WindComponents::stated(knots(0.0), knots(0.0)),
        ground: &ground,
    };
    let plan = LandingPlan {
        rule,
        own_factor: own,
        state,
        speed_addition: knots(0.0),
        late_by: None,
        brake_target: None,
        traces: false,
    };
    let model = RunModel::for_landing(&twin(), &landing_flap()).expect("model");
    landing(&model, &situation, &plan)
}

fn factor(rule: FieldRule, state: SurfaceState, own: Option<f64>) -> f64 {
    let run = landed(rule, state, own).expect("a landing");
    assert!((run.distance_needed.si() / run.stop.si() - run.factor).abs() < 1e-12);
    run.factor
}

#[test]
fn val_factors_of_the_rules() {
    use FieldRule::{LandingFifteenPercent, LandingSeventyPercent, LandingSixtyPercent};
    let rules = [
        (LandingSixtyPercent, SurfaceState::Dry, 1.0 / 0.60),
        (LandingSeventyPercent, SurfaceState::Dry, 1.0 / 0.70),
        (LandingSixtyPercent, SurfaceState::Wet, 1.15 / 0.60),
        (LandingSeventyPercent, SurfaceState::Wet, 1.15 / 0.70),
        (LandingFifteenPercent, SurfaceState::Dry, 1.15),
        (LandingFifteenPercent, SurfaceState::Wet, 1.15),
    ];
    for (rule, state, expected) in rules {
        assert!((factor(rule, state, None) - expected).abs() < 1e-12, "{rule:?} {state:?}");
    }
}

#[test]
fn the_operator_s_own_factor_counts_only_where_it_is_greater() {
    let rule = FieldRule::LandingSixtyPercent;
    assert!((factor(rule, SurfaceState::Dry, Some(1.92)) - 1.92).abs() < 1e-12);
    assert!((factor(rule, SurfaceState::Dry, Some(1.43)) - 1.0 / 0.60).abs() < 1e-12);
    for refused in [0.9, f64::NAN, 6.0] {
        assert!(landed(rule, SurfaceState::Dry, Some(refused)).is_err(), "{refused}");
    }
}
