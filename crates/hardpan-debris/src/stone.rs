//! A loose stone in moving air: mass, drag, flight and where it comes down.

use crate::error::{Error, number, within};
use hardpan_quantity::{
    Density, Dimension, Energy, Length, Mass, Quantity, STANDARD_GRAVITY_M_PER_S2, Speed, Time,
    metres, metres_per_second, seconds,
};

/// Longest flight that is computed.
const LONGEST_FLIGHT_S: f64 = 60.0;
/// Longest time step of the integration; the landing is found within the last step.
const LONGEST_STEP_S: f64 = 0.05;

/// One loose stone, taken as a sphere of its mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stone {
    /// Diameter.
    pub diameter: Length,
    /// Density.
    pub density: Density,
    /// Drag coefficient: 0.44 for a smooth sphere, 0.7 to 1.4 for natural gravel.
    pub drag: f64,
    /// Lift coefficient, upward positive; 0 where nothing is known.
    pub lift: f64,
}

/// How a stone leaves the ground, seen from the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Launch {
    /// Speed in the direction of the run.
    pub forward: Speed,
    /// Speed to the right.
    pub sideways: Speed,
    /// Speed upward.
    pub upward: Speed,
}

/// What a thrown stone does until it is back on the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flight {
    /// Distance in the direction of the run.
    pub forward: Length,
    /// Distance to the right.
    pub sideways: Length,
    /// Greatest height.
    pub apex: Length,
    /// Time in the air.
    pub time: Time,
    /// Speed at which it comes down.
    pub landing_speed: Speed,
}

/// A stone that meets the aeroplane at a height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strike {
    /// Distance behind the wheel that threw it.
    pub aft: Length,
    /// Distance to the right of the wheel's path.
    pub sideways: Length,
    /// Time since it was thrown.
    pub time: Time,
    /// Speed relative to the aeroplane.
    pub speed: Speed,
    /// Energy at that speed.
    pub energy: Energy,
}

/// `π/6 ρ_s d³`: mass of a sphere.
pub(crate) fn sphere_mass(diameter: f64, density: f64) -> f64 {
    std::f64::consts::PI / 6.0 * density * diameter * diameter * diameter
}

/// `½ m V²` of a sphere.
pub(crate) fn impact_energy(diameter: f64, density: f64, speed: f64) -> f64 {
    0.5 * sphere_mass(diameter, density) * speed * speed
}

/// `4/3 ρ_s/ρ d/C_d`: distance over which drag takes the speed down by e.
pub(crate) fn stopping_length(diameter: f64, stone: f64, air: f64, drag: f64) -> f64 {
    4.0 / 3.0 * stone / air * diameter / drag
}

/// State of a flying stone: position and velocity, forward, right and up.
pub(crate) type State = [f64; 6];

/// Forces on a stone: deceleration by drag and lift per square of air speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Motion {
    pub(crate) drag_per_m: f64,
    pub(crate) lift_per_m: f64,
    pub(crate) gravity: f64,
}

impl Motion {
    pub(crate) fn of(diameter: f64, density: f64, air: f64, drag: f64, lift: f64) -> Self {
        let per_coefficient = 0.75 * air / (density * diameter);
        Self {
            drag_per_m: drag * per_coefficient,
            lift_per_m: lift * per_coefficient,
            gravity: STANDARD_GRAVITY_M_PER_S2,
        }
    }

    fn rate(&self, state: &State) -> State {
        let [_, _, _, vx, vy, vz] = *state;
        let speed = length([vx, vy, vz]);
        let pull = self.drag_per_m * speed;
        let up = self.lift_per_m * speed * speed - self.gravity;
        [vx, vy, vz, -pull * vx, -pull * vy, -pull * vz + up]
    }

    /// One step of the classical fourth-order Runge–Kutta method.
    pub(crate) fn step(&self, state: &State, dt: f64) -> State {
        let along = |rate: &State, time: f64| -> State {
            std::array::from_fn(|i| {
                state.get(i).copied().unwrap_or(0.0) + time * rate.get(i).copied().unwrap_or(0.0)
            })
        };
        let k1 = self.rate(state);
        let k2 = self.rate(&along(&k1, 0.5 * dt));
        let k3 = self.rate(&along(&k2, 0.5 * dt));
        let k4 = self.rate(&along(&k3, dt));
        let mean: State = std::array::from_fn(|i| {
            let at = |rate: &State| rate.get(i).copied().unwrap_or(0.0);
            (at(&k1) + 2.0 * at(&k2) + 2.0 * at(&k3) + at(&k4)) / 6.0
        });
        along(&mean, dt)
    }

    /// One step through its middle: for a step so short that drag takes a small share
    /// of the speed, whose cube is what it leaves out.
    pub(crate) fn short_step(&self, state: &State, dt: f64) -> State {
        let along = |rate: &State, time: f64| -> State {
            std::array::from_fn(|i| {
                state.get(i).copied().unwrap_or(0.0) + time * rate.get(i).copied().unwrap_or(0.0)
            })
        };
        along(&self.rate(&along(&self.rate(state), 0.5 * dt)), dt)
    }

    /// A tenth of the rise without drag, so that every flight has some twenty steps.
    fn time_step(&self, start: &State) -> f64 {
        (0.1 * start[5] / self.gravity).clamp(1e-3, LONGEST_STEP_S)
    }

    /// Time, state and apex of a stone from the ground when it is back there;
    /// none when it is still flying after the longest flight.
    pub(crate) fn landing(&self, start: State) -> Option<(f64, State, f64)> {
        let step = self.time_step(&start);
        let (mut time, mut state, mut apex) = (0.0, start, 0.0_f64);
        while time < LONGEST_FLIGHT_S && state[2].is_finite() {
            let next = self.step(&state, step);
            if state[5] > 0.0 && next[5] <= 0.0 {
                apex = apex.max(self.part(&state, step, |s| s[5]).1[2]);
            }
            if next[2] < 0.0 {
                let (dt, end) = self.part(&state, step, |s| s[2]);
                return Some((time + dt, end, apex));
            }
            time += step;
            state = next;
        }
        None
    }

    /// Time and state when a rising stone reaches a height; none when it turns
    /// back before or is still below after the longest flight.
    pub(crate) fn rise_to(&self, start: State, height: f64) -> Option<(f64, State)> {
        let step = self.time_step(&start);
        let (mut time, mut state) = (0.0, start);
        while time < LONGEST_FLIGHT_S && state[2].is_finite() {
            let next = self.step(&state, step);
            let rising = if next[5] > 0.0 { step } else { self.part(&state, step, |s| s[5]).0 };
            if self.step(&state, rising)[2] >= height {
                let (dt, end) = self.part(&state, rising, |s| height - s[2]);
                return Some((time + dt, end));
            }
            if next[5] <= 0.0 {
                return None;
            }
            time += step;
            state = next;
        }
        None
    }

    /// The part of a step after which a falling quantity reaches zero, and the
    /// state then.
    fn part(&self, state: &State, most: f64, left: impl Fn(&State) -> f64) -> (f64, State) {
        let at = |dt: f64| left(&self.step(state, dt));
        let dt = hardpan_math::bracketed_root(at, 0.0, most, 1e-12).unwrap_or(most);
        (dt, self.step(state, dt))
    }
}

/// Which figure of a flight.
#[derive(Debug, Clone, Copy)]
pub(crate) enum LandingValue {
    Range,
    Apex,
    Time,
    Speed,
}

/// One figure of a flight from the ground to the ground; NaN when the stone is
/// still flying after the longest flight.
pub(crate) fn landing_value(
    diameter: f64,
    density: f64,
    air: f64,
    drag: f64,
    forward: f64,
    upward: f64,
    value: LandingValue,
) -> f64 {
    let motion = Motion::of(diameter, density, air, drag, 0.0);
    match motion.landing([0.0, 0.0, 0.0, forward, 0.0, upward]) {
        None => f64::NAN,
        Some((time, state, apex)) => match value {
            LandingValue::Range => state[0],
            LandingValue::Apex => apex,
            LandingValue::Time => time,
            LandingValue::Speed => length([state[3], state[4], state[5]]),
        },
    }
}

fn length([x, y, z]: [f64; 3]) -> f64 {
    (x * x + y * y + z * z).sqrt()
}

impl Stone {
    /// Mass of the stone.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn mass(&self) -> Result<Mass, Error> {
        let (diameter, density) = self.checked()?;
        Ok(Mass::from_si(sphere_mass(diameter, density)))
    }

    /// Energy of the stone at a speed.
    ///
    /// # Errors
    /// [`Error`] for values out of range.
    pub fn energy(&self, speed: Speed) -> Result<Energy, Error> {
        let (diameter, density) = self.checked()?;
        let speed = within("speed of impact", speed, 0.0..=1_000.0)?;
        Ok(Energy::from_si(impact_energy(diameter, density, speed)))
    }

    pub(crate) fn checked(&self) -> Result<(f64, f64), Error> {
        Ok((
            within("stone diameter", self.diameter, 1e-5..=1.0)?,
            within("stone density", self.density, 500.0..=9_000.0)?,
        ))
    }

    fn motion(&self, air: Density) -> Result<Motion, Error> {
        let (diameter, density) = self.checked()?;
        let drag = number("drag coefficient", self.drag, 0.0..=10.0, Dimension::Coefficient)?;
        let lift = number("lift coefficient", self.lift, -2.0..=2.0, Dimension::Coefficient)?;
        let air = within("air density", air, 0.0..=2.0)?;
        Ok(Motion::of(diameter, density, air, drag, lift))
    }

    /// Flight from the ground back to the ground, in still air.
    ///
    /// # Errors
    /// [`Error`] for values out of range, a stone that does not leave the
    /// ground, or one that is still flying after a minute.
    pub fn fly(&self, launch: &Launch, air: Density) -> Result<Flight, Error> {
        let motion = self.motion(air)?;
        let start = launch.state()?;
        let (time, state, apex) =
            motion.landing(start).ok_or(Error::StillFlying { seconds: LONGEST_FLIGHT_S })?;
        let [x, y, _, vx, vy, vz] = state;
        Ok(Flight {
            forward: metres(x),
            sideways: metres(y),
            apex: metres(apex),
            time: seconds(time),
            landing_speed: metres_per_second(length([vx, vy, vz])),
        })
    }

    /// Where a stone thrown by a wheel that moves at `ground_speed` first
    /// reaches a height; none when it does not rise so far.
    ///
    /// # Errors
    /// As [`Self::fly`].
    pub fn strike(
        &self,
        launch: &Launch,
        air: Density,
        ground_speed: Speed,
        height: Length,
    ) -> Result<Option<Strike>, Error> {
        let motion = self.motion(air)?;
        let wheel = within("ground speed", ground_speed, 0.0..=200.0)?;
        let height = within("height", height, 0.001..=50.0)?;
        let Some((time, state)) = motion.rise_to(launch.state()?, height) else {
            return Ok(None);
        };
        let [x, y, _, vx, vy, vz] = state;
        let closing = length([vx - wheel, vy, vz]);
        Ok(Some(Strike {
            aft: metres(wheel * time - x),
            sideways: metres(y),
            time: seconds(time),
            speed: metres_per_second(closing),
            energy: self.energy(metres_per_second(closing))?,
        }))
    }
}

impl Launch {
    fn state(&self) -> Result<State, Error> {
        let forward = within("forward launch speed", self.forward, -300.0..=300.0)?;
        let sideways = within("sideways launch speed", self.sideways, -300.0..=300.0)?;
        let upward = within("upward launch speed", self.upward, 0.1..=300.0)?;
        Ok([0.0, 0.0, 0.0, forward, sideways, upward])
    }
}
