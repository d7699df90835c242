//! Runs against closed forms, balances of energy and moments, and themselves
//! on finer ground.

mod fixture;

use fixture::{even_ground, ground_by, landing_flap, take_off_flap, twin};
use hardpan_model::{
    Condition, Direction, FieldRule, RunEventKind, RunPoint, RunTrace, SurfaceState,
};
use hardpan_quantity::{
    Quantity, STANDARD_GRAVITY_M_PER_S2 as GRAVITY, kilograms, knots, metres, percent,
};
use hardpan_run::{
    Air, Available, FORMULAS, Ground, LandingPlan, RunModel, Situation, TakeOffPlan,
    WindComponents, landing, take_off,
};
use proptest::prelude::*;
use std::f64::consts::PI;

const LENGTH: f64 = 2500.0;
const MASS: f64 = 45_000.0;

fn value(name: &str, values: &[f64]) -> f64 {
    let formula = FORMULAS.iter().find(|formula| formula.name == name).expect("a formula");
    (formula.evaluate)(values)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn exact_integrated_rolls_agree_with_the_closed_form(
        mass in 2_000.0..80_000.0f64, loading in 150.0..600.0f64, thrust_share in 0.25..0.45f64,
        fall in 0.0..0.3f64, lift in 0.0..1.0f64, drag in 0.03..0.12f64, rolling in 0.02..0.1f64,
        grade in -0.02..0.02f64, headwind in 0.0..15.0f64, speed in 30.0..85.0f64,
    ) {
        let thrust = thrust_share * mass * GRAVITY;
        let values = [
            mass, mass / loading, 1.1, thrust, thrust * (1.0 - fall), lift, drag, rolling, grade,
            headwind, speed,
        ];
        let (found, exact) = (value("take-off-roll", &values), value("take-off-roll-exact", &values));
        // Without a solution, and with the wheels off the ground, the closed form does not hold.
        let lifted = 0.5 * 1.1 * speed * speed * lift > loading * GRAVITY;
        if exact.is_finite() && exact > 0.0 && exact < 10_000.0 && !lifted {
            prop_assert!((found / exact - 1.0).abs() < 1e-6, "{found} instead of {exact}");
        }
    }

    #[test]
    fn exact_integrated_stops_agree_with_the_closed_form(
        mass in 2_000.0..80_000.0f64, loading in 150.0..600.0f64, idle in 0.0..0.02f64,
        lift in 0.0..0.2f64, drag in 0.05..0.2f64, braking in 0.06..0.5f64,
        grade in -0.02..0.02f64, speed in 20.0..85.0f64,
    ) {
        let values = [
            mass, mass / loading, 1.1, idle * mass * GRAVITY, lift, drag, braking, grade, speed,
        ];
        let (found, exact) = (value("stop-roll", &values), value("stop-roll-exact", &values));
        if exact.is_finite() && exact > 0.0 {
            prop_assert!((found / exact - 1.0).abs() < 1e-6, "{found} instead of {exact}");
        }
    }
}

fn situation(ground: &Ground) -> Situation<'_> {
    Situation {
        mass: kilograms(MASS),
        centre_of_gravity: percent(22.0),
        air: Air::standard(metres(300.0), 10.0).expect("air"),
        wind: WindComponents::stated(knots(6.0), knots(0.0)),
        ground,
    }
}

fn run_take_off(condition: &Condition) -> hardpan_run::TakeOffRun {
    let ground = Ground::new(condition, Direction::Up, metres(LENGTH)).expect("ground");
    let model = RunModel::for_take_off(&twin(), &take_off_flap()).expect("model");
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: metres(0.0),
        available: Available::default(),
        wet_screen: None,
        decision_speed: None,
        brake_allowance: None,
        traces: true,
    };
    take_off(&model, &situation(&ground), &plan).expect("a take-off")
}

fn run_landing(condition: &Condition) -> hardpan_run::LandingRun {
    let ground = Ground::new(condition, Direction::Up, metres(LENGTH)).expect("ground");
    let model = RunModel::for_landing(&twin(), &landing_flap()).expect("model");
    let plan = LandingPlan {
        own_factor: None,
        rule: FieldRule::LandingSixtyPercent,
        state: SurfaceState::Dry,
        speed_addition: knots(0.0),
        late_by: None,
        brake_target: None,
        traces: true,
    };
    landing(&model, &situation(&ground), &plan).expect("a landing")
}

/// Linear in stretches of 50 m, so that finer stations describe the same ground.
fn patched(step: f64) -> Condition {
    let patch = |station: f64, centre: f64| (1.0 - (station - centre).abs() / 50.0).max(0.0);
    ground_by(LENGTH, step, move |station| {
        let rolling = 0.03 + 0.09 * patch(station, 600.0) + 0.05 * patch(station, 900.0);
        (0.0, rolling, 0.25 - 0.15 * patch(station, 1000.0))
    })
}

#[test]
fn exact_finer_stations_of_the_same_ground_change_nothing() {
    let (coarse, fine) = (run_take_off(&patched(50.0)), run_take_off(&patched(5.0)));
    let pairs = [
        (coarse.all_engines.screen, fine.all_engines.screen),
        (coarse.accelerate_stop_needed.expect("V1"), fine.accelerate_stop_needed.expect("V1")),
        (run_landing(&patched(50.0)).stop, run_landing(&patched(5.0)).stop),
    ];
    for (coarse, fine) in pairs {
        assert!((coarse.si() / fine.si() - 1.0).abs() < 1e-5, "{coarse:?} {fine:?}");
    }
}

/// Half the density times the wing area of the fixture on the day.
fn half_density_area() -> f64 {
    0.5 * Air::standard(metres(300.0), 10.0).expect("air").density().si() * 105.0
}

/// Drag coefficient of the fixture on the ground, written out once more.
fn drag(zero_lift: f64, lift: f64) -> f64 {
    let ideal = 105.0 / (PI * 30.0 * 30.0);
    let near = (16.0f64 * 2.0 / 30.0).powi(2);
    let lost = ideal * (1.0 - near / (1.0 + near));
    zero_lift + 0.02 + (0.045 - lost) * lift * lift
}

fn between(trace: &RunTrace, from: RunEventKind, to: RunEventKind) -> Vec<RunPoint> {
    let at = |kind| trace.events.iter().find(|event| event.kind == kind).expect("an event").time;
    let (from, to) = (at(from), at(to));
    trace.points.iter().filter(|point| point.time >= from && point.time <= to).copied().collect()
}

/// Work of a force along the points, by the trapezoid rule.
fn work(points: &[RunPoint], force: impl Fn(&RunPoint) -> f64) -> f64 {
    points
        .windows(2)
        .map(|pair| {
            let run = pair[1].station.si() - pair[0].station.si();
            0.5 * run * (force(&pair[0]) + force(&pair[1]))
        })
        .sum()
}

fn gained(points: &[RunPoint]) -> f64 {
    let square = |point: Option<&RunPoint>| point.map_or(0.0, |p| p.ground_speed.si().powi(2));
    0.5 * MASS * (square(points.last()) - square(points.first()))
}

#[test]
fn exact_energy_of_the_take_off_roll_balances() {
    let grade = 0.008;
    let run = run_take_off(&even_ground(LENGTH, grade, 0.05, 0.25));
    let trace = run.trace.expect("a trace");
    let points = between(&trace, RunEventKind::BrakeRelease, RunEventKind::Rotation);
    let net = work(&points, |point| {
        let pressure_area = half_density_area() * point.airspeed.si().powi(2);
        let load = 2.0 * point.main_leg_load.si() + point.nose_leg_load.si();
        assert!((load + point.lift.si() - MASS * GRAVITY).abs() < 1e-6 * MASS * GRAVITY);
        point.thrust.si() - drag(0.030, 0.4) * pressure_area - 0.05 * load - MASS * GRAVITY * grade
    });
    assert!((net / gained(&points) - 1.0).abs() < 1e-3, "{net} {}", gained(&points));
}

#[test]
fn exact_energy_of_the_landing_stop_balances() {
    let run = run_landing(&even_ground(LENGTH, -0.006, 0.015, 0.22));
    let trace = run.trace.expect("a trace");
    let points = between(&trace, RunEventKind::BrakesOn, RunEventKind::Stop);
    let net = work(&points, |point| {
        let pressure_area = half_density_area() * point.airspeed.si().powi(2);
        let drag = (drag(0.065, 0.05) + 0.06) * pressure_area;
        let braking = 0.22 * 2.0 * point.main_leg_load.si();
        // The first point still rolls without brakes.
        let braking = if point.braking.si() > 0.0 { point.braking.si() } else { braking };
        point.thrust.si() - drag - braking - 0.015 * point.nose_leg_load.si()
            + MASS * GRAVITY * 0.006
    });
    assert!((net / gained(&points) - 1.0).abs() < 1e-3, "{net} {}", gained(&points));
    let kinetic = 0.5 * MASS * points[0].ground_speed.si().powi(2) / 4.0;
    assert!((run.brake_energy.si() / kinetic - 1.0).abs() < 1e-9);
}

#[test]
fn exact_wheel_loads_balance_the_moments() {
    let run = run_landing(&even_ground(LENGTH, 0.0, 0.015, 0.22));
    let trace = run.trace.expect("a trace");
    let (wheelbase, height) = (12.0, 2.8);
    let ahead = (0.55 - 0.22) * 3.6;
    for point in between(&trace, RunEventKind::BrakesOn, RunEventKind::Stop).iter().skip(1) {
        let (main, nose) = (2.0 * point.main_leg_load.si(), point.nose_leg_load.si());
        let along = point.braking.si() + 0.015 * nose;
        // About the centre of gravity: nose load forward, main load aft, friction below.
        let moment = nose * (wheelbase - ahead) - main * ahead - along * height;
        assert!(moment.abs() < 1e-9 * MASS * GRAVITY * wheelbase, "{moment}");
    }
}
