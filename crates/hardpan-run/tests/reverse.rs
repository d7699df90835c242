//! Reverse thrust and the brakes' own force in whole landings and take-offs: what
//! must be shorter, what must stay, what is refused.

mod fixture;

use fixture::{even_ground, landing_flap, take_off_flap, twin};
use hardpan_model::{Aeroplane, Direction, FieldRule, Given, SurfaceState};
use hardpan_quantity::{
    Force, Quantity, Speed, Torque, kilograms, kilonewtons, knots, metres, percent, seconds,
};
use hardpan_run::{
    Air, Available, Error, Ground, LandingPlan, LandingRun, ReverseThrust, RunModel, Situation,
    TakeOffPlan, TakeOffRun, WindComponents, landing, take_off,
};
use proptest::prelude::*;

fn rows(force: f64) -> Vec<(Speed, Force)> {
    vec![(knots(50.0), kilonewtons(0.6 * force)), (knots(160.0), kilonewtons(force))]
}

fn reverse(force: f64, idle_by: f64, engines: u32) -> ReverseThrust {
    ReverseThrust::new(&rows(force), knots(idle_by), seconds(4.0), engines).expect("reverse")
}

fn with_engines(count: u32) -> Aeroplane {
    let mut aeroplane = twin();
    aeroplane.engines.count = Some(Given::stated("test", count));
    aeroplane.engines.static_thrust =
        Some(Given::stated("test", kilonewtons(180.0 / f64::from(count))));
    aeroplane
}

fn at<R>(braking: f64, run: impl FnOnce(&Situation<'_>) -> R) -> R {
    let condition = even_ground(3000.0, 0.0, 0.02, braking);
    let ground = Ground::new(&condition, Direction::Up, metres(3000.0)).expect("ground");
    run(&Situation {
        mass: kilograms(42_000.0),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(300.0), 10.0).expect("air"),
        wind: WindComponents::stated(knots(6.0), knots(0.0)),
        ground: &ground,
    })
}

fn landed(aeroplane: &Aeroplane, reverse: Option<ReverseThrust>, braking: f64) -> LandingRun {
    let plan = LandingPlan {
        own_factor: None,
        rule: FieldRule::LandingFifteenPercent,
        state: SurfaceState::Wet,
        speed_addition: knots(0.0),
        late_by: None,
        brake_target: None,
        traces: true,
    };
    let model = RunModel::for_landing(aeroplane, &landing_flap()).expect("model");
    let model = match reverse {
        Some(reverse) => model.with_reverse(reverse),
        None => model,
    };
    at(braking, |situation| landing(&model, situation, &plan).expect("a landing"))
}

fn departed(aeroplane: &Aeroplane, reverse: Option<ReverseThrust>, braking: f64) -> TakeOffRun {
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available::default(),
        wet_screen: None,
        decision_speed: Some(knots(105.0)),
        brake_allowance: None,
        traces: true,
    };
    let model = RunModel::for_take_off(aeroplane, &take_off_flap()).expect("model");
    let model = match reverse {
        Some(reverse) => model.with_reverse(reverse),
        None => model,
    };
    at(braking, |situation| take_off(&model, situation, &plan).expect("a take-off"))
}

fn stops(run: &TakeOffRun) -> [f64; 2] {
    let decision = run.decision.as_ref().expect("a decision");
    [decision.stop.si(), decision.stop_all_engines.si()]
}

#[test]
fn a_twin_with_an_engine_out_has_nothing_to_reverse() {
    let (with, without) =
        (departed(&twin(), Some(reverse(25.0, 60.0, 2)), 0.1), departed(&twin(), None, 0.1));
    let ([out, all], [out_before, all_before]) = (stops(&with), stops(&without));
    assert_eq!(out.to_bits(), out_before.to_bits());
    assert!(all < all_before - 50.0, "{all} {all_before}");
    assert!(with.accelerate_stop_needed <= without.accelerate_stop_needed);
    assert_eq!(with.brake_energy, without.brake_energy, "drag and reverse are not credited");
}

#[test]
fn four_engines_keep_two_after_a_failure() {
    let four = with_engines(4);
    let credit = |engines| Some(reverse(12.0, 60.0, engines));
    let (with, inner) = (departed(&four, credit(4), 0.1), departed(&four, credit(2), 0.1));
    let without = departed(&four, None, 0.1);
    assert!(stops(&with)[0] < stops(&without)[0] - 20.0);
    assert_eq!(stops(&inner)[0].to_bits(), stops(&without)[0].to_bits());
    assert!(stops(&with)[1] < stops(&inner)[1]);
}

#[test]
fn a_landing_shows_it_in_its_trace_down_to_its_speed() {
    let run = landed(&twin(), Some(reverse(25.0, 60.0, 2)), 0.1);
    let trace = run.trace.as_ref().expect("a trace");
    let pulls = |from: f64, to: f64| {
        let within = trace.points.iter().filter(move |point| {
            point.braking.si() > 0.0 && (from..to).contains(&point.airspeed.si())
        });
        within.map(|point| point.thrust.si()).fold(f64::NEG_INFINITY, f64::max)
    };
    assert!(pulls(0.0, knots(59.9).si()) > 0.0);
    assert!(pulls(knots(60.5).si(), knots(80.0).si()) < -30_000.0);
}

#[test]
fn rows_that_cannot_be_followed_are_refused() {
    let made = |rows: &[(Speed, Force)]| ReverseThrust::new(rows, knots(60.0), seconds(4.0), 2);
    let low = [(knots(30.0), kilonewtons(9.0)), (knots(55.0), kilonewtons(9.0))];
    assert_eq!(made(&low), Err(Error::ReverseWithoutRows));
    assert_eq!(made(&low[..1]), Err(Error::ReverseWithoutRows));
    let back = [(knots(90.0), kilonewtons(9.0)), (knots(80.0), kilonewtons(9.0))];
    assert!(matches!(made(&back), Err(Error::ReverseNotRising { .. })));
    let forward = [(knots(70.0), kilonewtons(-9.0)), (knots(80.0), kilonewtons(9.0))];
    assert!(matches!(made(&forward), Err(Error::OutOfRange { .. })));
}

fn with_brakes(force: f64) -> Aeroplane {
    let mut aeroplane = twin();
    aeroplane.brakes.force_limit = Some(Given::stated("test", kilonewtons(force)));
    aeroplane
}

#[test]
fn weak_brakes_lengthen_a_stop_on_good_grip_only() {
    let weak = with_brakes(15.0);
    let (good, poor) = (landed(&weak, None, 0.4), landed(&weak, None, 0.08));
    let (free, same) = (landed(&twin(), None, 0.4), landed(&twin(), None, 0.08));
    assert!(good.stop.si() > free.stop.si() + 100.0, "{:?} {:?}", good.stop, free.stop);
    assert!(
        (poor.stop.si() / same.stop.si() - 1.0).abs() < 1e-5,
        "{:?} {:?}",
        poor.stop,
        same.stop
    );
    let (rejected, before) = (departed(&weak, None, 0.4), departed(&twin(), None, 0.4));
    assert!(rejected.accelerate_stop_needed > before.accelerate_stop_needed);
    let trace = good.trace.expect("a trace");
    let most = trace.points.iter().map(|point| point.braking.si()).fold(0.0, f64::max);
    assert!((most - 60_000.0).abs() < 1e-6, "{most}");
}

/// Moments about the axle: the torque is the force times the height of the axle.
#[test]
fn exact_a_torque_brakes_as_its_force_at_the_loaded_radius() {
    let radius = twin().gear.main.tyre.loaded_radius.expect("stated").value;
    let torque = |force: f64| {
        let mut aeroplane = twin();
        let torque = Torque::from_si(force * 1e3 * radius.si());
        aeroplane.brakes.torque_limit = Some(Given::stated("test", torque));
        aeroplane
    };
    let stop = |aeroplane: &Aeroplane| landed(aeroplane, None, 0.4).stop.si();
    assert!((stop(&torque(15.0)) / stop(&with_brakes(15.0)) - 1.0).abs() < 1e-12);
    let mut both = with_brakes(15.0);
    both.brakes.torque_limit = torque(22.0).brakes.torque_limit;
    assert_eq!(stop(&both).to_bits(), stop(&with_brakes(15.0)).to_bits());
    let mut bare = torque(15.0);
    bare.gear.main.tyre.loaded_radius = None;
    let needs = RunModel::for_landing(&bare, &landing_flap()).expect_err("no lever is known");
    assert_eq!(needs.len(), 1, "{needs:?}");
    assert_eq!(needs[0].what, "aeroplane: gear.main.tyre.loaded_radius");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(32) })]

    #[test]
    fn prop_counted_reverse_never_lengthens(
        force in 0.0..40.0_f64,
        idle_by in 5.0..150.0_f64,
        braking in 0.05..0.5_f64,
        engines in 1..3_u32,
        brakes in 5.0..80.0_f64,
    ) {
        let aeroplane = with_brakes(brakes);
        let (with, without) = (
            landed(&aeroplane, Some(reverse(force, idle_by, engines)), braking),
            landed(&aeroplane, None, braking),
        );
        prop_assert!(with.stop.si() <= without.stop.si() * (1.0 + 1e-6));
        let (with, without) = (
            departed(&aeroplane, Some(reverse(force, idle_by, engines)), braking),
            departed(&aeroplane, None, braking),
        );
        for (with, without) in stops(&with).into_iter().zip(stops(&without)) {
            prop_assert!(with <= without * (1.0 + 1e-6), "{with} {without}");
        }
    }

    #[test]
    fn prop_weaker_brakes_never_shorten(
        weak in 2.0..60.0_f64,
        more in 1.0..40.0_f64,
        braking in 0.05..0.5_f64,
    ) {
        let (weaker, stronger) = (with_brakes(weak), with_brakes(weak + more));
        let (long, short) = (landed(&weaker, None, braking), landed(&stronger, None, braking));
        prop_assert!(long.stop.si() >= short.stop.si() * (1.0 - 1e-6));
    }
}
