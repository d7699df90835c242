//! Rolling along the ground from one event to the next.
//!
//! Classical fourth-order Runge–Kutta in time on distance, speed and the work
//! of the brakes. A step takes the mean grade and the mean coefficients of the
//! stretch that it covers, so it may pass points of the ground; what the mean
//! grade leaves over of the difference in height is settled in the speed, so
//! that gravity does exactly the work of the profile. The last step is
//! shortened until the event is met to rounding.

use crate::Error;
use crate::motion::ground::{Ground, Local};
use crate::motion::roll::Roll;
use hardpan_math::bracketed_root;
use hardpan_quantity::{Amount, Dimension, STANDARD_GRAVITY_M_PER_S2 as GRAVITY};

/// Longest step where a trace is wanted, where thrust has corners and where
/// the coefficients of the ground change along the way.
const SHORT_STEP_S: f64 = 0.25;
/// Longest step else. The error of a step is then below 1e-8 of the distance:
/// speeds change over tens of seconds.
const LONG_STEP_S: f64 = 1.0;
/// Most that the speed may gain in a step, m/s: keeps the step of a light
/// aeroplane with much thrust as exact as the others.
const MOST_GAIN: f64 = 3.0;
/// Shorter than this, a stretch is taken as a point.
const SHORTEST_STRETCH_M: f64 = 0.05;
const LONGEST_ACCELERATION_S: f64 = 240.0;
const LONGEST_STOP_S: f64 = 900.0;
const MOST_STEPS: u32 = 40_000;
/// Corrections of the last step before it is searched for between bounds.
const MOST_CORRECTIONS: u32 = 8;

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

/// How close the states of a run lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Pace {
    /// As far apart as accuracy allows.
    Long,
    /// One at each point of the ground.
    EachPoint,
}

/// Roll until the event, showing every state to `observer`, the last included.
pub(crate) fn advance(
    (roll, ground): (&Roll, &Ground),
    start: State,
    until: Until,
    pace: Pace,
    observer: &mut impl FnMut(&State),
) -> Result<State, Error> {
    let longest = match pace {
        Pace::Long if roll.is_smooth() && ground.is_alike() => LONG_STEP_S,
        _ => SHORT_STEP_S,
    };
    let mut state = start;
    for _ in 0..MOST_STEPS {
        let left = match until {
            Until::Faster(target) if state.speed >= target => return Ok(state),
            Until::Standstill if state.speed <= 0.0 => return Ok(state),
            Until::Elapsed(duration) => start.time + duration - state.time,
            _ => longest,
        };
        if left <= 0.0 {
            return Ok(state);
        }
        let step = Step::ahead((roll, ground), &mut state, (longest, left), pace);
        let next = step.taken(&state, step.duration)?;
        let target = match until {
            Until::Faster(target) if next.speed >= target => Some(target),
            Until::Standstill if next.speed <= 0.0 => Some(0.0),
            _ => None,
        };
        if let Some(target) = target {
            let mut last = step.met(&state, &next, target)?;
            last.speed = target;
            observer(&last);
            return Ok(last);
        }
        if step.duration >= left && matches!(until, Until::Elapsed(_)) {
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

/// One step over a stretch of ground with its mean values.
#[derive(Debug, Clone, Copy)]
struct Step<'a> {
    roll: &'a Roll,
    ground: &'a Ground,
    over: Local,
    elevation: f64,
    /// At the start.
    acceleration: f64,
    duration: f64,
}

impl<'a> Step<'a> {
    #[inline]
    fn ahead(
        on: (&'a Roll, &'a Ground),
        from: &mut State,
        (longest, left): (f64, f64),
        pace: Pace,
    ) -> Self {
        let mut step = Self::over(on, from, longest.min(left));
        if step.acceleration * step.duration > MOST_GAIN {
            step = Self::over(on, from, MOST_GAIN / step.acceleration);
        }
        if pace == Pace::EachPoint
            && let Some(gap) = step.ground.next_point(from.distance, from.cursor)
        {
            let to_point = time_over(gap, from.speed, step.acceleration, longest);
            if to_point < step.duration {
                step = Self::over(on, from, to_point);
            }
        }
        step
    }

    /// A step of a duration, over the stretch that it covers.
    #[inline]
    fn over((roll, ground): (&'a Roll, &'a Ground), from: &mut State, duration: f64) -> Self {
        let here = ground.local(from.distance, &mut from.cursor);
        let elevation = ground.elevation_near(from.distance, from.cursor);
        let acceleration = roll.pull(from.speed, &here).0 / roll.mass;
        let rolling =
            if acceleration < 0.0 { duration.min(from.speed / -acceleration) } else { duration };
        let stretch = rolling * (from.speed + 0.5 * acceleration * rolling);
        let over = if stretch > SHORTEST_STRETCH_M {
            ground.mean(from.distance, stretch, &mut from.cursor)
        } else {
            here
        };
        Self { roll, ground, over, elevation, acceleration, duration }
    }

    #[inline]
    fn rates(&self, speed: f64) -> Rates {
        let (net, braking) = self.roll.pull(speed, &self.over);
        Rates { acceleration: net / self.roll.mass, brake_power: braking * speed }
    }

    #[inline]
    fn taken(&self, from: &State, time: f64) -> Result<State, Error> {
        let half = 0.5 * time;
        let first = self.rates(from.speed);
        let v2 = from.speed + half * first.acceleration;
        let second = self.rates(v2);
        let v3 = from.speed + half * second.acceleration;
        let third = self.rates(v3);
        let v4 = from.speed + time * third.acceleration;
        let fourth = self.rates(v4);
        let mean = |pick: fn(&Rates) -> f64| {
            (pick(&first) + 2.0 * (pick(&second) + pick(&third)) + pick(&fourth)) / 6.0
        };
        let mut next = State {
            distance: from.distance + time * (from.speed + 2.0 * (v2 + v3) + v4) / 6.0,
            time: from.time + time,
            speed: from.speed + time * mean(|rates| rates.acceleration),
            brake_work: from.brake_work + time * mean(|rates| rates.brake_power),
            cursor: from.cursor,
        };
        if !(next.distance.is_finite() && next.speed.is_finite()) {
            return Err(Error::NotFinite { quantity: "speed or distance of the roll" });
        }
        next.speed = self.settled(from, &next);
        Ok(next)
    }

    /// Speed after gravity has done the work of the real difference in height.
    #[inline]
    fn settled(&self, from: &State, next: &State) -> f64 {
        let counted = self.over.grade * (next.distance - from.distance);
        let height = self.ground.elevation_near(next.distance, from.cursor) - self.elevation;
        let square = next.speed * next.speed + 2.0 * GRAVITY * (counted - height);
        if next.speed > 0.0 && square > 0.0 { square.sqrt() } else { next.speed }
    }

    /// The state at which the speed is `target`, within this step that passes it.
    fn met(&self, from: &State, beyond: &State, target: f64) -> Result<State, Error> {
        let on = (self.roll, self.ground);
        let shorter = |time: f64| Self::over(on, &mut { *from }, time);
        let mut time = self.duration * (target - from.speed) / (beyond.speed - from.speed);
        for _ in 0..MOST_CORRECTIONS {
            let step = shorter(time);
            let state = step.taken(from, time)?;
            let miss = target - state.speed;
            if miss.abs() <= 1e-12 * (1.0 + target) {
                return Ok(state);
            }
            let corrected = time + miss / step.rates(state.speed).acceleration;
            if !(0.0..=self.duration).contains(&corrected) {
                break;
            }
            time = corrected;
        }
        let at = |time: f64| shorter(time).taken(from, time);
        let miss = |time: f64| at(time).map_or(f64::NAN, |state| state.speed - target);
        let tolerance = 1e-13 * self.duration.max(1e-3);
        at(bracketed_root(miss, 0.0, self.duration, tolerance).unwrap_or(self.duration))
    }
}

/// Time over a gap at an acceleration.
#[inline]
fn time_over(gap: f64, speed: f64, acceleration: f64, longest: f64) -> f64 {
    let square = speed * speed + 2.0 * acceleration * gap;
    if square <= 0.0 {
        return longest;
    }
    (2.0 * gap / (speed + square.sqrt())).clamp(1e-3, longest)
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

#[cfg(test)]
mod tests {
    use super::{Pace, State, Until, advance};
    use crate::engine::schedule::ThrustSchedule;
    use crate::engine::thrust::Thrust;
    use crate::motion::ground::Ground;
    use crate::motion::roll::{Brakes, Roll, Wheels};
    use hardpan_model::{Condition, Direction, GroundPoint};
    use hardpan_quantity::{metres, ratio};
    use proptest::prelude::*;

    fn ground(wave: f64, length: f64, soft: f64) -> Ground {
        let points = (0..600).map(|index| {
            let station = 5.0 * f64::from(index);
            let patch = (1.0 - (station - 700.0).abs() / 60.0).max(0.0);
            GroundPoint {
                station: metres(station),
                elevation: metres(0.003 * station + wave * (station / length).sin()),
                rolling: ratio(0.04 + soft * patch),
                braking: ratio(0.25 - 0.5 * soft * patch),
            }
        });
        let condition = Condition { points: points.collect() };
        Ground::new(&condition, Direction::Up, metres(3000.0)).expect("ground")
    }

    fn roll(brakes: Brakes, thrust: f64) -> Roll {
        Roll {
            mass: 45_000.0,
            half_density_area: 60.0,
            lift: 0.4,
            drag: 0.09,
            thrust: Thrust::Polynomial([thrust, -0.002 * thrust, 0.0]),
            schedule: ThrustSchedule::full(),
            headwind: 3.0,
            wheels: Wheels { nose_share: 0.1, height: 0.2, braked_share: 1.0 },
            brakes,
            rolling_limit: f64::INFINITY,
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        /// Steps that pass points of the ground come to the same place as
        /// steps that end at each of them.
        #[test]
        fn prop_long_steps_agree_with_short_ones(
            wave in 0.0f64..0.25, length in 8.0f64..80.0, soft in 0.0f64..0.08,
        ) {
            let ground = ground(wave, length, soft);
            let (rolls, stops) = (roll(Brakes::Off, 150e3), roll(Brakes::Ground, 6e3));
            let mut ends = Vec::new();
            for pace in [Pace::Long, Pace::EachPoint] {
                let start = State::at(0.0, 0.0);
                let fast = advance((&rolls, &ground), start, Until::Faster(65.0), pace, &mut |_| ());
                let fast = fast.expect("it accelerates");
                let stop = advance((&stops, &ground), fast, Until::Standstill, pace, &mut |_| ());
                ends.push((fast, stop.expect("it stops")));
            }
            let (long, short) = (ends[0], ends[1]);
            prop_assert!((long.0.distance - short.0.distance).abs() < 0.25, "{long:?} {short:?}");
            prop_assert!((long.1.distance - short.1.distance).abs() < 0.5, "{long:?} {short:?}");
        }
    }
}
