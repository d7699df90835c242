//! A decision speed that is stated instead of chosen.
//! Source: [CFR-25-107] (a), [CFR-25-109] (a), [CFR-25-111]: a later decision
//! lengthens the stop and shortens the way on; between control and rotation.

mod fixture;

use fixture::{even_ground, take_off_flap, twin};
use hardpan_model::{Direction, FieldRule};
use hardpan_quantity::{Quantity, Speed, kilograms, knots, metres, percent};
use hardpan_run::{
    Air, Available, Decision, DecisionChoice, DecisionRange, Ground, RunModel, Situation,
    TakeOffPlan, WindComponents, take_off,
};
use proptest::prelude::*;

fn decided(stated: Option<Speed>, wind: f64) -> Decision {
    let condition = even_ground(4000.0, 0.0, 0.04, 0.2);
    let ground = Ground::new(&condition, Direction::Up, metres(4000.0)).expect("ground");
    let situation = Situation {
        mass: kilograms(44_000.0),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(600.0), 10.0).expect("air"),
        wind: WindComponents::stated(knots(wind), knots(0.0)),
        ground: &ground,
    };
    let declared = Some(metres(2400.0));
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available { take_off_distance: declared, accelerate_stop: declared },
        wet_screen: None,
        decision_speed: stated,
        brake_allowance: None,
        traces: false,
    };
    let model = RunModel::for_take_off(&twin(), &take_off_flap()).expect("model");
    take_off(&model, &situation, &plan).expect("a take-off").decision.expect("decided")
}

fn go(decision: &Decision) -> f64 {
    decision.carried_on.map_or(f64::INFINITY, |carried| carried.screen.si())
}

#[test]
fn the_speed_that_would_be_chosen_gives_the_same_when_stated() {
    let chosen = decided(None, 5.0);
    let stated = decided(Some(chosen.speed), 5.0);
    assert_eq!(stated.choice, DecisionChoice::Stated);
    assert_eq!(stated.speed, chosen.speed);
    // The search for the failure ends at 1e-5 m/s, some millimetres of ground.
    assert!((stated.stop - chosen.stop).si().abs() < 0.01);
    assert!((go(&stated) - go(&chosen)).abs() < 0.01);
    assert_eq!(stated.range, chosen.range);
}

/// Beyond control or rotation the distances are those of the end, and the speed
/// stays as stated, so that a reader sees what was asked for.
#[test]
fn a_speed_outside_has_the_distances_of_the_nearest_end() {
    let chosen = decided(None, 0.0);
    for (outside, end) in [(knots(60.0), chosen.lowest), (knots(180.0), chosen.highest)] {
        let (far, near) = (decided(Some(outside), 0.0), decided(Some(end), 0.0));
        assert_eq!(far.speed, outside);
        assert!((far.stop - near.stop).si().abs() < 0.01);
    }
}

proptest! {
    #[test]
    fn prop_a_later_decision_stops_farther_and_goes_shorter(
        a in 0.0_f64..1.0,
        b in 0.0_f64..1.0,
        wind in -5.0_f64..20.0,
    ) {
        let ends = decided(None, wind);
        let at = |share: f64| ends.lowest + (ends.highest - ends.lowest) * share;
        let (early, late) = (decided(Some(at(a.min(b))), wind), decided(Some(at(a.max(b))), wind));
        let slack = 0.01;
        prop_assert!(late.stop.si() >= early.stop.si() - slack);
        prop_assert!(go(&late) <= go(&early) + slack);
    }

    /// What the range of declared distances allows is what fits them.
    #[test]
    fn prop_a_speed_within_the_range_fits_both_distances(share in 0.0_f64..1.0) {
        let ends = decided(None, 0.0);
        let DecisionRange::Between(low, high) = ends.range else {
            return Err(TestCaseError::fail("no range"));
        };
        let within = decided(Some(low + (high - low) * share), 0.0);
        prop_assert!(go(&within) <= 2400.0 + 0.01 && within.stop.si() <= 2400.0 + 0.01);
    }
}
