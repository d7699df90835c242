//! Rolls with constant coefficients on even ground: the integrator of the
//! product against the exact integral.
//!
//! `dV/dt = A - B V²` of the airspeed, with thrust falling as its square.

use crate::engine::schedule::ThrustSchedule;
use crate::engine::thrust::Thrust;
use crate::entry::{argument, coefficient, kernel};
use crate::grip::wet_paved::WetCurve;
use crate::motion::ground::Ground;
use crate::motion::integrate::{Pace, State, Until, advance};
use crate::motion::roll::{Brakes, Roll, Wheels};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::{Dimension, STANDARD_GRAVITY_M_PER_S2 as GRAVITY};

/// Distance from rest in which a speed is reached, for `dV/dt = a - b V²`.
fn distance_from_rest(a: f64, b: f64, speed: f64) -> f64 {
    let fall = b * speed * speed / a;
    if fall.abs() < 1e-9 {
        return 0.5 * speed * speed / a * (1.0 + 0.5 * fall);
    }
    -(-fall).ln_1p() / (2.0 * b)
}

/// Time from rest in which a speed is reached, for `dV/dt = a - b V²`.
fn time_from_rest(a: f64, b: f64, speed: f64) -> f64 {
    let fall = b * speed * speed / a;
    if fall.abs() < 1e-9 {
        return speed / a * (1.0 + fall / 3.0);
    }
    let root = fall.abs().sqrt();
    let angle = if fall > 0.0 { root.atanh() } else { root.atan() };
    speed / a * angle / root
}

/// A take-off roll as its formula gives it.
struct TakeOffRoll {
    roll: Roll,
    rolling: f64,
    grade: f64,
    lift_off: f64,
    /// Thrust is `static_thrust - decrement V²`.
    static_thrust: f64,
    decrement: f64,
}

impl TakeOffRoll {
    #[expect(clippy::too_many_arguments, reason = "one for each argument of the formula")]
    fn new(
        mass: f64,
        area: f64,
        density: f64,
        static_thrust: f64,
        lift_off_thrust: f64,
        lift: f64,
        drag: f64,
        rolling: f64,
        grade: f64,
        headwind: f64,
        lift_off: f64,
    ) -> Self {
        let decrement = (static_thrust - lift_off_thrust) / (lift_off * lift_off);
        let roll = Roll {
            mass,
            half_density_area: 0.5 * density * area,
            lift,
            drag,
            thrust: Thrust::Polynomial([static_thrust, 0.0, -decrement]),
            headwind,
            wheels: Wheels::ALIKE,
            brakes: Brakes::Off,
            schedule: ThrustSchedule::full(),
            rolling_limit: f64::INFINITY,
            brake_target: f64::INFINITY,
            brake_force: f64::INFINITY,
            wading: None,
        };
        Self { roll, rolling, grade, lift_off, static_thrust, decrement }
    }

    /// `A` and `B`.
    fn constants(&self) -> (f64, f64) {
        let Roll { mass, half_density_area, lift, drag, .. } = self.roll;
        let a = self.static_thrust / mass - GRAVITY * (self.rolling + self.grade);
        let b = (half_density_area * (drag - self.rolling * lift) + self.decrement) / mass;
        (a, b)
    }

    fn exact_time(&self) -> f64 {
        let (a, b) = self.constants();
        time_from_rest(a, b, self.lift_off) - time_from_rest(a, b, self.roll.headwind)
    }

    fn exact_distance(&self) -> f64 {
        let (a, b) = self.constants();
        let wind = self.roll.headwind;
        let through_air = distance_from_rest(a, b, self.lift_off) - distance_from_rest(a, b, wind);
        through_air - wind * self.exact_time()
    }

    fn integrated(&self) -> Option<State> {
        let ground = Ground::uniform(self.rolling, 0.0, self.grade);
        let until = Until::Faster(self.lift_off - self.roll.headwind);
        let start = State::at(0.0, 0.0);
        advance((&self.roll, &ground), start, until, Pace::Long, &mut |_| ()).ok()
    }

    /// Distance with the acceleration that holds at a share of lift-off speed.
    fn frozen(&self, share: f64) -> f64 {
        let (a, b) = self.constants();
        let speed = share * self.lift_off;
        self.lift_off * self.lift_off / (2.0 * (a - b * speed * speed))
    }
}

macro_rules! take_off_roll {
    ($result:expr, $($extra:ident),*) => {
        |values: &[f64]| match *values {
            [mass, area, density, t0, t1, lift, drag, mu, grade, wind, speed, $($extra),*] => {
                let roll = TakeOffRoll::new(
                    mass, area, density, t0, t1, lift, drag, mu, grade, wind, speed,
                );
                $result(&roll, $($extra),*)
            }
            _ => f64::NAN,
        }
    };
}

/// A stop as its formula gives it.
#[derive(Clone, Copy)]
struct StopRoll {
    roll: Roll,
    braking: f64,
    grade: f64,
    speed: f64,
}

impl StopRoll {
    #[expect(clippy::too_many_arguments, reason = "one for each argument of the formula")]
    fn new(
        mass: f64,
        area: f64,
        density: f64,
        idle: f64,
        lift: f64,
        drag: f64,
        braking: f64,
        grade: f64,
        speed: f64,
    ) -> Self {
        let roll = Roll {
            mass,
            half_density_area: 0.5 * density * area,
            lift,
            drag,
            thrust: Thrust::constant(idle),
            headwind: 0.0,
            wheels: Wheels::ALIKE,
            brakes: Brakes::Ground,
            schedule: ThrustSchedule::full(),
            rolling_limit: f64::INFINITY,
            brake_target: f64::INFINITY,
            brake_force: f64::INFINITY,
            wading: None,
        };
        Self { roll, braking, grade, speed }
    }

    fn constants(&self) -> (f64, f64) {
        let Roll { mass, half_density_area, lift, drag, thrust, .. } = self.roll;
        let a = GRAVITY * (self.braking + self.grade) - thrust.at(0.0) / mass;
        let b = half_density_area * (drag - self.braking * lift) / mass;
        (a, -b)
    }

    fn exact_distance(&self) -> f64 {
        let (a, b) = self.constants();
        distance_from_rest(a, b, self.speed)
    }

    fn exact_time(&self) -> f64 {
        let (a, b) = self.constants();
        time_from_rest(a, b, self.speed)
    }

    fn integrated(&self, rolling: f64) -> Option<State> {
        let ground = Ground::uniform(rolling, self.braking, self.grade);
        let from = State::at(0.0, self.speed);
        advance((&self.roll, &ground), from, Until::Standstill, Pace::Long, &mut |_| ()).ok()
    }
}

macro_rules! stop_roll {
    ($result:expr) => {
        |values: &[f64]| match *values {
            [mass, area, density, idle, lift, drag, mu, grade, speed] => {
                $result(&StopRoll::new(mass, area, density, idle, lift, drag, mu, grade, speed))
            }
            _ => f64::NAN,
        }
    };
}

fn distance_of(state: Option<State>) -> f64 {
    state.map_or(f64::NAN, |state| state.distance)
}

fn time_of(state: Option<State>) -> f64 {
    state.map_or(f64::NAN, |state| state.time)
}

/// Stop of an aeroplane with a share of its load on unbraked wheels, on wet
/// smooth pavement.
#[expect(clippy::too_many_arguments, reason = "one for each argument of the formula")]
fn wet_stop(
    mass: f64,
    area: f64,
    density: f64,
    idle: f64,
    lift: f64,
    drag: f64,
    pressure: f64,
    efficiency: f64,
    unbraked: f64,
    rolling: f64,
    speed: f64,
) -> f64 {
    let mut stop = StopRoll::new(mass, area, density, idle, lift, drag, 0.0, 0.0, speed);
    stop.roll.wheels.nose_share = unbraked;
    stop.roll.brakes = Brakes::WetPaved(WetCurve::new(pressure, efficiency));
    distance_of(stop.integrated(rolling))
}

const MOTION: Source =
    Source::new("GUDMUNDSSON-2014", "eqs 17-4 and 17-5, integrated exactly", Tier::Derived);
const MASS: Argument = argument("mass", "m", Dimension::Mass, 100.0, 1e6);
const AREA: Argument = argument("wing_area", "S", Dimension::Area, 1.0, 2000.0);
const DENSITY: Argument = argument("density", "rho", Dimension::Density, 0.3, 1.8);
const STATIC_THRUST: Argument = argument("static_thrust", "T0", Dimension::Force, 0.0, 1e7);
const LIFT_OFF_THRUST: Argument = argument("lift_off_thrust", "T1", Dimension::Force, 0.0, 1e7);
const LIFT: Argument = coefficient("lift_coefficient", "CL", -1.0, 3.0);
const DRAG: Argument = coefficient("drag_coefficient", "CD", 0.0, 1.0);
const ROLLING: Argument = coefficient("rolling", "mu", 0.0, 1.0);
const GRADE: Argument = argument("grade", "s", Dimension::Ratio, -0.2, 0.2);
const HEADWIND: Argument = argument("headwind", "w", Dimension::Speed, -50.0, 50.0);
const LIFT_OFF: Argument = argument("lift_off", "V", Dimension::Speed, 1.0, 150.0);
const IDLE: Argument = argument("idle_thrust", "Ti", Dimension::Force, 0.0, 1e6);
const BRAKING: Argument = coefficient("braking", "mu_b", 0.0, 1.0);
const SPEED: Argument = argument("speed", "V", Dimension::Speed, 1.0, 150.0);

const TAKE_OFF_ARGUMENTS: [Argument; 11] = [
    MASS,
    AREA,
    DENSITY,
    STATIC_THRUST,
    LIFT_OFF_THRUST,
    LIFT,
    DRAG,
    ROLLING,
    GRADE,
    HEADWIND,
    LIFT_OFF,
];
const STOP_ARGUMENTS: [Argument; 9] =
    [MASS, AREA, DENSITY, IDLE, LIFT, DRAG, BRAKING, GRADE, SPEED];

const TAKE_OFF_EXPRESSION: &str = "dV/dt = (g/W) [T - D - mu (W - L) - W s], T = T0 - (T0 - T1) \
    (V/V_LOF)^2; distance over the ground, V through the air";
const TAKE_OFF_EXACT: &str = "x = -(1/2B) ln[(A - B V^2)/(A - B w^2)] - w t; A = g (T0/W - mu - s), \
    B = (g/W) [rho S (CD - mu CL)/2 + a]";
const STOP_EXPRESSION: &str = "dV/dt = (g/W) [T - D - mu_b (W - L) - W s], every wheel braked";
const NO_SCATTER: &str = "none: mathematics";

/// Take-off roll, integrated.
pub(crate) static TAKE_OFF_ROLL: Formula = Formula {
    name: "take-off-roll",
    computes: "take-off roll with constant coefficients, as the runs integrate it",
    expression: TAKE_OFF_EXPRESSION,
    arguments: &TAKE_OFF_ARGUMENTS,
    result: Dimension::Length,
    source: MOTION,
    scatter: NO_SCATTER,
    evaluate: take_off_roll!(|roll: &TakeOffRoll| distance_of(roll.integrated()),),
};

/// Time of the take-off roll, integrated.
pub(crate) static TAKE_OFF_ROLL_TIME: Formula = Formula {
    name: "take-off-roll-time",
    computes: "time of the take-off roll with constant coefficients, as the runs integrate it",
    expression: TAKE_OFF_EXPRESSION,
    arguments: &TAKE_OFF_ARGUMENTS,
    result: Dimension::Time,
    source: MOTION,
    scatter: NO_SCATTER,
    evaluate: take_off_roll!(|roll: &TakeOffRoll| time_of(roll.integrated()),),
};

/// Take-off roll, exact.
pub(crate) static TAKE_OFF_ROLL_EXACT: Formula = Formula {
    name: "take-off-roll-exact",
    computes: "take-off roll with constant coefficients, exact integral",
    expression: TAKE_OFF_EXACT,
    arguments: &TAKE_OFF_ARGUMENTS,
    result: Dimension::Length,
    source: MOTION,
    scatter: NO_SCATTER,
    evaluate: take_off_roll!(TakeOffRoll::exact_distance,),
};

/// Time of the take-off roll, exact.
pub(crate) static TAKE_OFF_ROLL_TIME_EXACT: Formula = Formula {
    name: "take-off-roll-time-exact",
    computes: "time of the take-off roll with constant coefficients, exact integral",
    expression: "t = [artanh(V sqrt(B/A)) - artanh(w sqrt(B/A))]/sqrt(A B)",
    arguments: &TAKE_OFF_ARGUMENTS,
    result: Dimension::Time,
    source: MOTION,
    scatter: NO_SCATTER,
    evaluate: take_off_roll!(TakeOffRoll::exact_time,),
};

/// Take-off roll with one mean acceleration.
pub(crate) static TAKE_OFF_ROLL_FROZEN: Formula = Formula {
    name: "take-off-roll-frozen",
    computes: "take-off roll with the acceleration that holds at a share of lift-off speed",
    expression: "s = V^2/(2 a), a at V/sqrt 2 or at 0.7 V; no wind",
    arguments: &[
        MASS,
        AREA,
        DENSITY,
        STATIC_THRUST,
        LIFT_OFF_THRUST,
        LIFT,
        DRAG,
        ROLLING,
        GRADE,
        argument("headwind", "w", Dimension::Speed, 0.0, 0.0),
        LIFT_OFF,
        coefficient("share", "V'/V", 0.0, 1.0),
    ],
    result: Dimension::Length,
    source: Source::new("GUDMUNDSSON-2014", "eqs 17-4 and 17-5, at one speed", Tier::Derived),
    scatter: "about 1 % short of the integral",
    evaluate: take_off_roll!(TakeOffRoll::frozen, share),
};

/// Stop, integrated.
pub(crate) static STOP_ROLL: Formula = Formula {
    name: "stop-roll",
    computes: "stop with constant coefficients, as the runs integrate it",
    expression: STOP_EXPRESSION,
    arguments: &STOP_ARGUMENTS,
    result: Dimension::Length,
    source: MOTION,
    scatter: NO_SCATTER,
    evaluate: stop_roll!(|stop: &StopRoll| distance_of(stop.integrated(0.0))),
};

/// Time of the stop, integrated.
pub(crate) static STOP_ROLL_TIME: Formula = Formula {
    name: "stop-roll-time",
    computes: "time of the stop with constant coefficients, as the runs integrate it",
    expression: STOP_EXPRESSION,
    arguments: &STOP_ARGUMENTS,
    result: Dimension::Time,
    source: MOTION,
    scatter: NO_SCATTER,
    evaluate: stop_roll!(|stop: &StopRoll| time_of(stop.integrated(0.0))),
};

/// Stop, exact.
pub(crate) static STOP_ROLL_EXACT: Formula = Formula {
    name: "stop-roll-exact",
    computes: "stop with constant coefficients, exact integral",
    expression: "x = (1/2B) ln(1 + B V^2/A); A = g (mu_b - T/W + s), \
        B = (g/W) rho S (CD - mu_b CL)/2",
    arguments: &STOP_ARGUMENTS,
    result: Dimension::Length,
    source: MOTION,
    scatter: NO_SCATTER,
    evaluate: stop_roll!(StopRoll::exact_distance),
};

/// Time of the stop, exact.
pub(crate) static STOP_ROLL_TIME_EXACT: Formula = Formula {
    name: "stop-roll-time-exact",
    computes: "time of the stop with constant coefficients, exact integral",
    expression: "t = atan(V sqrt(B/A))/sqrt(A B)",
    arguments: &STOP_ARGUMENTS,
    result: Dimension::Time,
    source: MOTION,
    scatter: NO_SCATTER,
    evaluate: stop_roll!(StopRoll::exact_time),
};

/// Stop on wet smooth pavement.
pub(crate) static STOP_ROLL_WET_PAVED: Formula = Formula {
    name: "stop-roll-wet-paved",
    computes: "stop on wet smooth pavement, one part of the load on unbraked wheels",
    expression: "dV/dt as in stop-roll, mu_b = efficiency x wet-paved-grip on the braked part",
    arguments: &[
        MASS,
        AREA,
        DENSITY,
        IDLE,
        LIFT,
        DRAG,
        argument("tyre_pressure", "p", Dimension::Pressure, 3.44e5, 2.07e6),
        coefficient("efficiency", "eta", 0.0, 1.0),
        argument("unbraked_share", "share", Dimension::Ratio, 0.0, 1.0),
        ROLLING,
        SPEED,
    ],
    result: Dimension::Length,
    source: Source::new("CFR-25-109", "(b) and (c)", Tier::Derived),
    scatter: "very wet pavement may need 30 to 40 % more distance; pavement only",
    evaluate: kernel!(
        wet_stop, mass, area, density, idle, lift, drag, pressure, efficiency, unbraked, rolling,
        speed
    ),
};
