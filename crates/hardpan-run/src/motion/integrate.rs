//! Rolling along the ground from one event to the next.
//!
//! Classical fourth-order Runge–Kutta in time on distance, speed and the work
//! of the brakes. A step ends at the next point of the ground, so that kinks
//! fall between steps, and never lasts longer than a quarter of a second. The
//! last step is shortened until the event is met to rounding.

use crate::Error;
use crate::motion::ground::Ground;
use crate::motion::roll::Roll;
use hardpan_math::bracketed_root;
use hardpan_quantity::{Amount, Dimension};

const LONGEST_STEP_S: f64 = 0.25;
const LONGEST_ACCELERATION_S: f64 = 240.0;
const LONGEST_STOP_S: f64 = 900.0;
const MOST_STEPS: u32 = 40_000;

/// Where the aeroplane is, SI units, distance from the threshold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct State {
    pub(crate) distance: f64,
    pub(crate) time: f64,
    pub(crate) speed: f64,
    pub(crate) brake_work: f64,
    pub(crate) cursor: usize,
}

impl State {
    pub(crate) fn at(distance: f64, speed: f64) -> Self {
        Self { distance, time: 0.0, speed, brake_work: 0.0, cursor: 0 }
    }
}

/// When to end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Until {
    /// At a ground speed above the present one.
    Faster(f64),
    /// After a time.
    Elapsed(f64),
    /// At standstill.
    Standstill,
}

/// Roll until the event, showing every state to `observer`, the last included.
pub(crate) fn advance(
    roll: &Roll,
    ground: &Ground,
    start: State,
    until: Until,
    observer: &mut impl FnMut(&State),
) -> Result<State, Error> {
    let mut state = start;
    for _ in 0..MOST_STEPS {
        let left = match until {
            Until::Faster(target) if state.speed >= target => return Ok(state),
            Until::Standstill if state.speed <= 0.0 => return Ok(state),
            Until::Elapsed(duration) => start.time + duration - state.time,
            _ => LONGEST_STEP_S,
        };
        if left <= 0.0 {
            return Ok(state);
        }
        let first = rates(roll, ground, state.distance, state.speed, &mut state.cursor);
        let step = step_length(ground, &state, first.acceleration).min(left);
        let next = stepped(roll, ground, &state, first, step)?;
        let target = match until {
            Until::Faster(target) if next.speed >= target => Some(target),
            Until::Standstill if next.speed <= 0.0 => Some(0.0),
            _ => None,
        };
        if let Some(target) = target {
            let mut last = met(roll, ground, &state, first, step, target)?;
            last.speed = target;
            observer(&last);
            return Ok(last);
        }
        if step >= left && matches!(until, Until::Elapsed(_)) {
            observer(&next);
            return Ok(next);
        }
        give_up(&next, start, until)?;
        observer(&next);
        state = next;
    }
    give_up(&state, State { time: f64::NEG_INFINITY, ..start }, until)?;
    Ok(state)
}

/// How fast speed and the work of the brakes change.
#[derive(Debug, Clone, Copy)]
struct Rates {
    acceleration: f64,
    brake_power: f64,
}

#[inline]
fn rates(roll: &Roll, ground: &Ground, distance: f64, speed: f64, cursor: &mut usize) -> Rates {
    let forces = roll.forces(speed, ground.local(distance, cursor));
    Rates { acceleration: forces.net / roll.mass, brake_power: forces.braking * speed }
}

/// Time to the next point of the ground at the present acceleration.
#[inline]
fn step_length(ground: &Ground, state: &State, acceleration: f64) -> f64 {
    let Some(ahead) = ground.next_point(state.distance, state.cursor) else {
        return LONGEST_STEP_S;
    };
    let square = state.speed * state.speed + 2.0 * acceleration * ahead;
    if square <= 0.0 {
        return LONGEST_STEP_S;
    }
    (2.0 * ahead / (state.speed + square.sqrt())).clamp(1e-3, LONGEST_STEP_S)
}

#[inline]
fn stepped(
    roll: &Roll,
    ground: &Ground,
    from: &State,
    first: Rates,
    step: f64,
) -> Result<State, Error> {
    let mut cursor = from.cursor;
    let half = 0.5 * step;
    let v2 = from.speed + half * first.acceleration;
    let second = rates(roll, ground, from.distance + half * from.speed, v2, &mut cursor);
    let v3 = from.speed + half * second.acceleration;
    let third = rates(roll, ground, from.distance + half * v2, v3, &mut cursor);
    let v4 = from.speed + step * third.acceleration;
    let fourth = rates(roll, ground, from.distance + step * v3, v4, &mut cursor);
    let mean = |pick: fn(&Rates) -> f64| {
        (pick(&first) + 2.0 * (pick(&second) + pick(&third)) + pick(&fourth)) / 6.0
    };
    let next = State {
        distance: from.distance + step * (from.speed + 2.0 * (v2 + v3) + v4) / 6.0,
        time: from.time + step,
        speed: from.speed + step * mean(|rates| rates.acceleration),
        brake_work: from.brake_work + step * mean(|rates| rates.brake_power),
        cursor,
    };
    if next.distance.is_finite() && next.speed.is_finite() {
        Ok(next)
    } else {
        Err(Error::NotFinite { quantity: "speed or distance of the roll" })
    }
}

/// The state at which the speed is `target`, within a step that passes it.
fn met(
    roll: &Roll,
    ground: &Ground,
    from: &State,
    first: Rates,
    step: f64,
    target: f64,
) -> Result<State, Error> {
    let miss = |time: f64| {
        stepped(roll, ground, from, first, time).map_or(f64::NAN, |state| state.speed - target)
    };
    let time = bracketed_root(miss, 0.0, step, 1e-13 * step.max(1e-3)).unwrap_or(step);
    stepped(roll, ground, from, first, time)
}

fn give_up(state: &State, start: State, until: Until) -> Result<(), Error> {
    let elapsed = state.time - start.time;
    let station = Amount::new(Dimension::Length, state.distance);
    let speed = Amount::new(Dimension::Speed, state.speed);
    let after = Amount::new(Dimension::Time, state.time);
    match until {
        Until::Faster(target) if state.speed <= 0.0 || elapsed > LONGEST_ACCELERATION_S => {
            let wanted = Amount::new(Dimension::Speed, target);
            Err(Error::CannotAccelerate { wanted, station, speed, after })
        }
        Until::Standstill if elapsed > LONGEST_STOP_S => {
            Err(Error::CannotStop { station, speed, after })
        }
        Until::Elapsed(duration) if state.speed < 0.0 || elapsed > duration.max(1.0) + 900.0 => {
            let wanted = Amount::new(Dimension::Speed, start.speed);
            Err(Error::CannotAccelerate { wanted, station, speed, after })
        }
        _ => Ok(()),
    }
}
