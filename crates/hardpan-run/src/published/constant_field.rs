//! The balanced field with constant coefficients: the search of the product
//! on an aeroplane that a few numbers describe.

use crate::decision::{Chosen, decide};
use crate::engine::schedule::ThrustSchedule;
use crate::engine::thrust::Thrust;
use crate::entry::{argument, coefficient};
use crate::motion::airborne::{Climb, PullUp};
use crate::motion::departure::{Departure, Running};
use crate::motion::ground::Ground;
use crate::motion::roll::{Brakes, Roll, Wheels};
use crate::regulation::TAKE_OFF_SCREEN_M;
use crate::take_off::{Available, TakeOffPlan};
use hardpan_model::{Argument, FieldRule, Formula, Source, Tier};
use hardpan_quantity::{Dimension, Length, Quantity, STANDARD_GRAVITY_M_PER_S2 as GRAVITY};

/// The search starts from this share of lift-off speed.
const EARLIEST_FAILURE: f64 = 0.6;

/// The failure at which going on is as long as stopping.
fn balanced(values: &[f64]) -> Option<Chosen> {
    let [
        mass,
        area,
        density,
        t0,
        t1,
        lift,
        drag,
        rolling,
        braking,
        lift_off,
        safety,
        engine_out,
        stop_lift,
        stop_drag,
        idle,
        idle_out,
        air_drag,
        air_drag_out,
        induced,
    ] = *values
    else {
        return None;
    };
    let half_density_area = 0.5 * density * area;
    let decrement = (t0 - t1) / (lift_off * lift_off);
    let thrust = Thrust::Polynomial([t0, 0.0, -decrement]);
    let running = |thrust: Thrust, added: f64, zero_lift: f64, idle: f64, engines: u32| {
        let roll = Roll {
            mass,
            half_density_area,
            lift,
            drag: drag + added,
            thrust,
            headwind: 0.0,
            wheels: Wheels::ALIKE,
            brakes: Brakes::Off,
            schedule: ThrustSchedule::full(),
            rolling_limit: f64::INFINITY,
            brake_target: f64::INFINITY,
            brake_force: f64::INFINITY,
            wading: None,
        };
        Running {
            screen: TAKE_OFF_SCREEN_M,
            roll,
            rotated: roll,
            climb: Climb {
                weight: mass * GRAVITY,
                half_density_area,
                zero_lift,
                induced,
                thrust,
                engines,
            },
            stop: Roll {
                lift: stop_lift,
                drag: stop_drag,
                thrust: Thrust::constant(idle),
                brakes: Brakes::Ground,
                ..roll
            },
            reversing: None,
        }
    };
    let one_out = running(thrust.share(0.5), engine_out, air_drag_out, idle_out, 1);
    let ground = Ground::uniform(rolling, braking, 0.0);
    let departure = Departure {
        ground: &ground,
        start: 0.0,
        headwind: 0.0,
        rotation: lift_off,
        lift_off,
        safety,
        rotation_time: 0.0,
        screen: TAKE_OFF_SCREEN_M,
        pull_up: PullUp::Unbounded,
        all: running(thrust, 0.0, air_drag, idle, 2),
        one_out: Some(one_out),
    };
    let plan = TakeOffPlan {
        rule: FieldRule::LargeTakeOff,
        line_up: Length::from_si(0.0),
        available: Available::default(),
        wet_screen: None,
        decision_speed: None,
        brake_allowance: None,
        traces: false,
    };
    let roll = departure.roll().ok()?;
    decide(&departure, &roll, &one_out, ((EARLIEST_FAILURE * lift_off, None), None), &plan).ok()
}

fn balanced_length(values: &[f64]) -> f64 {
    balanced(values).map_or(f64::NAN, |chosen| chosen.failure.stopped_at())
}

fn balanced_decision(values: &[f64]) -> f64 {
    balanced(values).map_or(f64::NAN, |chosen| chosen.failure.decision.speed)
}

fn failure_speed(values: &[f64]) -> f64 {
    balanced(values).map_or(f64::NAN, |chosen| chosen.failure.failure.speed)
}

fn all_engine_stop(values: &[f64]) -> f64 {
    balanced(values).map_or(f64::NAN, |chosen| chosen.failure.stop_all.distance)
}

const ARGUMENTS: [Argument; 19] = [
    argument("mass", "m", Dimension::Mass, 100.0, 1e6),
    argument("wing_area", "S", Dimension::Area, 1.0, 2000.0),
    argument("density", "rho", Dimension::Density, 0.3, 1.8),
    argument("static_thrust", "T0", Dimension::Force, 0.0, 1e7),
    argument("lift_off_thrust", "T1", Dimension::Force, 0.0, 1e7),
    coefficient("lift_coefficient", "CL", -1.0, 3.0),
    coefficient("drag_coefficient", "CD", 0.0, 1.0),
    coefficient("rolling", "mu", 0.0, 1.0),
    coefficient("braking", "mu_b", 0.0, 1.0),
    argument("lift_off", "V_LOF", Dimension::Speed, 1.0, 150.0),
    argument("safety_speed", "V2", Dimension::Speed, 1.0, 150.0),
    coefficient("engine_out_drag", "dCD", 0.0, 0.5),
    coefficient("stop_lift", "CL_s", -1.0, 3.0),
    coefficient("stop_drag", "CD_s", 0.0, 1.0),
    argument("idle_thrust", "Ti", Dimension::Force, 0.0, 1e6),
    argument("idle_thrust_one_out", "Ti1", Dimension::Force, 0.0, 1e6),
    coefficient("air_drag", "CD0", 0.0, 0.5),
    coefficient("air_drag_one_out", "CD01", 0.0, 0.5),
    coefficient("induced_factor", "k", 0.0, 0.5),
];
const RULE: Source = Source::new("CFR-25-109", "(a), with 25.113(a)(1)", Tier::Derived);
const EXPRESSION: &str = "half the thrust lost at V_EF; 1 s on to V1; either on to V_LOF and by \
    energy to V2 at 35 ft, or 2 s x V1 and stop; V1 at which both are equally long";

/// Balanced field length.
pub(crate) static BALANCED_FIELD_LENGTH: Formula = Formula {
    name: "balanced-field-length",
    computes: "balanced field length of a twin with constant coefficients",
    expression: EXPRESSION,
    arguments: &ARGUMENTS,
    result: Dimension::Length,
    source: RULE,
    scatter: "none: mathematics",
    evaluate: balanced_length,
};

/// Balanced decision speed.
pub(crate) static BALANCED_DECISION_SPEED: Formula = Formula {
    name: "balanced-decision-speed",
    computes: "decision speed of the balanced field of a twin with constant coefficients",
    expression: EXPRESSION,
    arguments: &ARGUMENTS,
    result: Dimension::Speed,
    source: RULE,
    scatter: "none: mathematics",
    evaluate: balanced_decision,
};

/// Engine-failure speed of the balanced field.
pub(crate) static BALANCED_FAILURE_SPEED: Formula = Formula {
    name: "balanced-failure-speed",
    computes: "engine-failure speed of the balanced field of a twin with constant coefficients",
    expression: EXPRESSION,
    arguments: &ARGUMENTS,
    result: Dimension::Speed,
    source: RULE,
    scatter: "none: mathematics",
    evaluate: failure_speed,
};

/// All-engine stop from the balanced decision speed.
pub(crate) static BALANCED_ALL_ENGINE_STOP: Formula = Formula {
    name: "balanced-all-engine-stop",
    computes: "accelerate-stop distance on both engines at the balanced decision speed",
    expression: EXPRESSION,
    arguments: &ARGUMENTS,
    result: Dimension::Length,
    source: RULE,
    scatter: "none: mathematics",
    evaluate: all_engine_stop,
};
