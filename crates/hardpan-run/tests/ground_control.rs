//! Control on the ground by rudder and wheels.
//! Source: [CFR-25-149] (e): rudder alone, no nose wheel steering. Values were
//! worked out by hand from moments about the main wheels, apart from this code.

mod fixture;

use fixture::{even_ground, landing_flap, take_off_flap, twin};
use hardpan_model::{Aeroplane, Direction, FieldRule, Gear, Given, GroundControl};
use hardpan_quantity::{Area, Quantity, Speed, kilograms, knots, metres, percent};
use hardpan_run::{
    Air, Available, CrosswindHeld, Ground, RunModel, Situation, SpeedBound, TakeOffPlan,
    TakeOffRun, WindComponents, crosswind_held, steering_needs, take_off,
};
use proptest::prelude::*;

fn some<T>(value: T) -> Option<Given<T>> {
    Some(Given::stated("test", value))
}

fn steered(rudder: f64, engine_arm: f64) -> Aeroplane {
    let twin = twin();
    Aeroplane {
        control: GroundControl {
            rudder_force_area: some(Area::from_si(rudder)),
            rudder_arm: some(metres(13.0)),
            engine_arm: some(metres(engine_arm)),
            side_force_behind: some(metres(1.6)),
            nose_side_factor: some(0.6),
        },
        gear: Gear { side_force_area: some(Area::from_si(68.0)), ..twin.gear.clone() },
        ..twin
    }
}

fn with<T>(braking: f64, wind: f64, run: impl Fn(&Situation) -> T) -> T {
    let condition = even_ground(4000.0, 0.0, 0.04, braking);
    let ground = Ground::new(&condition, Direction::Up, metres(4000.0)).expect("ground");
    run(&Situation {
        mass: kilograms(44_000.0),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(0.0), 0.0).expect("air"),
        wind: WindComponents::stated(knots(0.0), Speed::from_si(wind)),
        ground: &ground,
    })
}

fn plan() -> TakeOffPlan {
    TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available::default(),
        wet_screen: None,
        decision_speed: None,
        brake_allowance: None,
        traces: true,
    }
}

fn run(aeroplane: &Aeroplane, braking: f64, wind: f64) -> TakeOffRun {
    let model = RunModel::for_take_off(aeroplane, &take_off_flap()).expect("model");
    with(braking, wind, |situation| take_off(&model, situation, &plan()).expect("a take-off"))
}

fn lowest(run: &TakeOffRun) -> (f64, SpeedBound) {
    let control = run.speeds.control.expect("two engines");
    (control.true_airspeed.si(), control.bound)
}

#[test]
fn without_the_maker_s_figures_the_published_speed_stands_and_the_lack_is_named() {
    let bare = twin();
    let (speed, bound) = lowest(&run(&bare, 0.3, 8.0));
    assert_eq!(bound, SpeedBound::PublishedControl);
    assert!((speed - knots(92.0).si()).abs() < 1e-6, "at sea level, standard");
    let needs = steering_needs(&bare);
    assert_eq!(needs.len(), 5, "all but the wheelbase: {needs:?}");
    assert!(steering_needs(&steered(9.0, 6.0)).is_empty());
    assert!(run(&bare, 0.3, 8.0).side_grip.is_none());
}

/// The balance by hand at the speed found: thrust of one engine from the trace's
/// own law, 105 m2 of wing with 0.012 of drag of the engine out.
#[test]
fn exact_the_rudder_balances_engine_and_wind_at_the_lowest_speed() {
    for wind in [0.0, 6.0] {
        let found = run(&steered(9.0, 6.0), 0.3, wind);
        let (speed, bound) = lowest(&found);
        assert_eq!(bound, SpeedBound::RudderBalance);
        let thrust = found.full_thrust.at(Speed::from_si(speed)).si() / 2.0;
        let dynamic = 0.5 * 1.225 * speed * speed;
        let engine = (thrust + dynamic * 0.012 * 105.0) * 6.0;
        let weathercock = 0.5 * 1.225 * speed.hypot(wind) * wind * 68.0 * 1.6;
        let spare = dynamic * 9.0 * 13.0 - engine - weathercock;
        assert!(spare.abs() < 1e-3 * engine, "{spare} of {engine} at {speed}");
        let decision = found.decision.expect("decided");
        assert!(decision.failure_speed >= found.speeds.control.expect("two").calibrated);
    }
}

#[test]
fn a_strong_rudder_never_goes_below_the_published_speed() {
    let (speed, bound) = lowest(&run(&steered(40.0, 3.0), 0.3, 0.0));
    assert_eq!(bound, SpeedBound::PublishedControl);
    assert!((speed - knots(92.0).si()).abs() < 1e-6);
}

#[test]
fn a_rudder_that_never_holds_is_an_error() {
    let model = RunModel::for_take_off(&steered(0.2, 9.0), &take_off_flap()).expect("model");
    let error = with(0.3, 0.0, |situation| take_off(&model, situation, &plan()).expect_err("none"));
    assert!(error.to_string().contains("holds an engine failure at no speed"), "{error}");
}

fn held(aeroplane: &Aeroplane, braking: f64, landing: bool) -> CrosswindHeld {
    let model = match landing {
        true => RunModel::for_landing(aeroplane, &landing_flap()),
        false => RunModel::for_take_off(aeroplane, &take_off_flap()),
    };
    let model = model.expect("model");
    with(braking, 0.0, |situation| {
        crosswind_held(&model, situation).expect("held").expect("all stated")
    })
}

/// At rest the nose wheel alone holds the moment: by hand, the nose carries
/// (0.55 - 0.22) x 3.6/12 = 9.9 % of 431.49 kN, so 42.718 kN; 0.3 x 0.2 of it
/// across is 2.5631 kN; w = sqrt(2 x 2563.1 x 12/(1.225 x 68 x 1.6)).
#[test]
fn exact_at_rest_the_nose_wheel_holds_the_wind() {
    let mut aeroplane = steered(9.0, 6.0);
    aeroplane.control.nose_side_factor = some(0.3);
    let found = held(&aeroplane, 0.2, false);
    assert_eq!(found.ground_speed, Speed::from_si(0.0), "the rudder does nothing there");
    assert!(!found.by_grip);
    assert!((found.limit.si() - 21.4834).abs() < 0.01, "{:?}", found.limit);
}

#[test]
fn no_nose_side_factor_gives_no_limit() {
    let mut aeroplane = steered(9.0, 6.0);
    aeroplane.control.nose_side_factor = None;
    let model = RunModel::for_take_off(&aeroplane, &take_off_flap()).expect("model");
    let none = with(0.2, 0.0, |situation| crosswind_held(&model, situation).expect("no error"));
    assert_eq!(none, None);
}

proptest! {
    #[test]
    fn prop_more_wind_a_weaker_rudder_or_a_longer_arm_never_lower_the_speed(
        rudder in 6.0..14.0f64, arm in 3.0..7.0f64, wind in 0.0..12.0f64, more in 0.0..1.0f64,
    ) {
        let base = lowest(&run(&steered(rudder, arm), 0.3, wind)).0;
        let windier = lowest(&run(&steered(rudder, arm), 0.3, wind + 3.0 * more)).0;
        let weaker = lowest(&run(&steered(rudder - more, arm), 0.3, wind)).0;
        let wider = lowest(&run(&steered(rudder, arm + more), 0.3, wind)).0;
        for other in [windier, weaker, wider] {
            prop_assert!(other >= base - 1e-5, "{other} below {base}");
        }
    }

    #[test]
    fn prop_slippery_ground_holds_no_more_wind_and_uses_no_less_grip(
        braking in 0.15..0.4f64, less in 0.5..1.0f64,
    ) {
        for landing in [false, true] {
            let [firm, slippery] = [braking, braking * less].map(|on| held(&steered(9.0, 6.0), on, landing));
            prop_assert!(slippery.limit.si() <= firm.limit.si() + 1e-9);
        }
        let grip = |on: f64| run(&steered(9.0, 6.0), on, 5.0).side_grip.expect("grip").used.si();
        prop_assert!(grip(braking * less) >= grip(braking) - 1e-3);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(32) })]

    /// Grip and nose load go with weight, so by moments the wind that is held does.
    #[test]
    fn prop_a_heavier_aeroplane_holds_no_less_wind(mass in 30_000.0..44_000.0_f64, more in 500.0..8_000.0_f64) {
        let model = RunModel::for_take_off(&steered(11.0, 4.6), &take_off_flap()).expect("model");
        let held = |mass: f64| with(0.2, 0.0, |situation| {
            let situation = Situation { mass: kilograms(mass), ..*situation };
            crosswind_held(&model, &situation).expect("held").expect("all stated").limit.si()
        });
        let (light, heavy) = (held(mass), held(mass + more));
        prop_assert!(heavy >= light - 1e-9, "{light} {heavy}");
    }
}
