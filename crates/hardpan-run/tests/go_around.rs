//! The climb of a go-around, and the bounds of speeds that the file states.

mod fixture;

use fixture::{even_ground, landing_flap, take_off_flap, twin};
use hardpan_model::{Aeroplane, Direction, FieldRule, Given};
use hardpan_quantity::{Quantity, kilograms, knots, metres, percent};
use hardpan_run::{
    Air, Available, GoAround, GoAroundModel, Ground, LandingPlan, RunModel, Situation, SpeedBound,
    TakeOffPlan, WindComponents, landing, take_off,
};
use proptest::prelude::*;

fn situation(ground: &Ground, mass: f64, elevation: f64, warmer: f64) -> Situation<'_> {
    Situation {
        mass: kilograms(mass),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(elevation), warmer).expect("air"),
        wind: WindComponents::stated(knots(0.0), knots(0.0)),
        ground,
    }
}

fn ground() -> Ground {
    let condition = even_ground(2500.0, 0.0, 0.04, 0.30);
    Ground::new(&condition, Direction::Up, metres(2500.0)).expect("ground")
}

fn climb(aeroplane: &Aeroplane, mass: f64, elevation: f64, warmer: f64) -> GoAround {
    let model = GoAroundModel::new(aeroplane, &take_off_flap(), &landing_flap()).expect("a model");
    model.climb(&situation(&ground(), mass, elevation, warmer)).expect("a climb")
}

/// Thrust over weight less drag over lift, from the fixture's figures: the
/// speed is 1.25 times the stall speed, so the lift coefficient is the greatest
/// over 1.25 squared.
#[test]
fn exact_gradients_differ_by_thrust_and_drag_alone() {
    let found = climb(&twin(), 45_000.0, 0.0, 0.0);
    let drag_over_lift = |zero_lift: f64, lift_maximum: f64| {
        let lift = lift_maximum / (1.25 * 1.25);
        zero_lift / lift + 0.045 * lift
    };
    let one_out = found.engine_out.expect("two engines");
    let thrust = one_out.gradient.si() + drag_over_lift(0.030 + 0.012, 2.0);
    let both = found.all_engines.gradient.si() + drag_over_lift(0.065 + 0.02, 2.6);
    // One engine gives half of what two give, at a speed that is sqrt(2.6/2.0) of theirs.
    let weight = 45_000.0 * 9.80665;
    assert!(thrust * weight < 0.97 * 90_000.0, "{}", thrust * weight);
    let ratio = both / (2.0 * thrust);
    assert!(ratio > 1.0 && ratio < 1.05, "{ratio}");
}

proptest! {
    #[test]
    fn prop_heavier_higher_and_hotter_never_climb_better(
        mass in 32_000.0..52_000.0f64,
        elevation in 0.0..2000.0f64,
        warmer in -10.0..25.0f64,
        more in 0.0..1.0f64,
    ) {
        let aeroplane = twin();
        let easy = climb(&aeroplane, mass, elevation, warmer);
        for hard in [
            climb(&aeroplane, mass + 6000.0 * more, elevation, warmer),
            climb(&aeroplane, mass, elevation + 800.0 * more, warmer),
            climb(&aeroplane, mass, elevation, warmer + 12.0 * more),
        ] {
            let one_out = |climb: &GoAround| climb.engine_out.expect("two engines").gradient.si();
            prop_assert!(one_out(&hard) <= one_out(&easy) + 1e-9);
            prop_assert!(
                hard.all_engines.gradient.si() <= easy.all_engines.gradient.si() + 1e-9
            );
        }
    }
}

#[test]
fn what_a_go_around_lacks_is_named_once() {
    let mut aeroplane = twin();
    aeroplane.engines.flat_rated_to = None;
    aeroplane.wing.engine_out_drag = None;
    let needs = GoAroundModel::new(&aeroplane, &take_off_flap(), &landing_flap());
    let needs = needs.expect_err("two figures are missing");
    assert_eq!(needs.len(), 2, "{needs:?}");
}

#[test]
fn unstick_speed_lifts_the_lift_off_and_control_the_reference() {
    let ground = ground();
    let situation = situation(&ground, 42_000.0, 0.0, 0.0);
    let mut aeroplane = twin();
    aeroplane.speeds.minimum_unstick = Some(Given::stated("test", percent(106.0)));
    aeroplane.speeds.minimum_control_approach = Some(Given::stated("test", knots(140.0)));
    let model = RunModel::for_take_off(&aeroplane, &take_off_flap()).expect("model");
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available::default(),
        wet_screen: None,
        decision_speed: None,
        brake_allowance: None,
        traces: false,
    };
    let speeds = take_off(&model, &situation, &plan).expect("a take-off").speeds;
    assert_eq!(speeds.lift_off.bound, SpeedBound::UnstickMargin);
    let ratio = speeds.lift_off.true_airspeed.si() / speeds.stall.si();
    assert!((ratio - 1.10 * 1.06).abs() < 1e-9, "{ratio}");
    let model = RunModel::for_landing(&aeroplane, &landing_flap()).expect("model");
    let plan = LandingPlan {
        own_factor: None,
        rule: FieldRule::LandingSixtyPercent,
        state: hardpan_model::SurfaceState::Dry,
        speed_addition: knots(0.0),
        late_by: Some(metres(150.0)),
        brake_target: None,
        traces: false,
    };
    let run = landing(&model, &situation, &plan).expect("a landing");
    assert_eq!(run.reference.bound, SpeedBound::ControlInApproach);
    assert!((run.reference.calibrated.si() - knots(140.0).si()).abs() < 1e-6);
    // On even, level ground a late touchdown moves the stop by as much.
    let late = run.late_stop.expect("a late touchdown");
    assert!((late.si() - run.stop.si() - 150.0).abs() < 1e-3, "{late:?}");
}
