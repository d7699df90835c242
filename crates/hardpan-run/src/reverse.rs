//! Reverse thrust in a stop, where it is counted.
//!
//! It is set some time after the brakes and follows its rows, straight between
//! them, from the fastest airspeed of the rows down to the one by which it is
//! back at idle. Outside those speeds the engines are at forward idle.
//!
//! After an engine failure the worst engine has failed: its reverse thrust and
//! that of the engine across from it are not counted.

use crate::engine::thrust::Thrust;
use crate::error::Error;
use crate::motion::ground::Ground;
use crate::motion::integrate::{Pace, State, Until, advance};
use crate::motion::roll::Roll;
use hardpan_quantity::{Force, Quantity, Speed, Time};

/// Net reverse thrust of one engine by airspeed, and how many have it.
#[derive(Debug, Clone, PartialEq)]
pub struct ReverseThrust {
    /// From the fastest down.
    stretches: Vec<Stretch>,
    set_after: f64,
    engines: u32,
}

/// Between two airspeeds, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Stretch {
    fast: f64,
    slow: f64,
    /// Force at no speed and its change by airspeed.
    law: [f64; 2],
}

/// Reverse thrust as a number of engines gives it in one stop.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Reversing<'a> {
    thrust: &'a ReverseThrust,
    /// Engines that give it, of those that run.
    engines: u32,
    running: u32,
}

impl ReverseThrust {
    /// Of rows of airspeed and force, rising, down to the airspeed by which it
    /// is back at idle.
    ///
    /// # Errors
    /// [`Error`] for a value outside the model, for rows that do not rise, and
    /// for rows that have no airspeed above that of idle.
    pub fn new(
        rows: &[(Speed, Force)],
        idle_by: Speed,
        set_after: Time,
        engines: u32,
    ) -> Result<Self, Error> {
        let idle_by = Error::check("airspeed by which reverse is idle", idle_by, 1.0..=110.0)?;
        let set_after = Error::check("time until reverse is set", set_after, 0.0..=30.0)?;
        let mut stretches = Vec::new();
        for pair in rows.windows(2) {
            let [(slow, low), (fast, high)] = [pair[0], pair[1]];
            let low = Error::check("reverse thrust of an engine", low, 0.0..=5e5)?;
            let high = Error::check("reverse thrust of an engine", high, 0.0..=5e5)?;
            let [from, to] = [slow.si(), fast.si()];
            if !(from.is_finite() && to > from) {
                return Err(Error::ReverseNotRising { speed: fast.into() });
            }
            let by_speed = (high - low) / (to - from);
            if to > idle_by {
                let law = [low - by_speed * from, by_speed];
                stretches.push(Stretch { fast: to, slow: from.max(idle_by), law });
            }
        }
        stretches.reverse();
        if stretches.is_empty() {
            return Err(Error::ReverseWithoutRows);
        }
        Ok(Self { stretches, set_after, engines })
    }

    /// With so many engines running of all there are.
    pub(crate) fn with(&self, running: u32, all: u32) -> Option<Reversing<'_>> {
        let failed = all.saturating_sub(running);
        let engines = self.engines.min(all).saturating_sub(2 * failed).min(running);
        (engines > 0).then_some(Reversing { thrust: self, engines, running })
    }
}

impl Reversing<'_> {
    /// The same stop with its engines in reverse.
    fn of(&self, roll: &Roll, [force, by_speed]: [f64; 2]) -> Roll {
        let (reversed, running) = (f64::from(self.engines), f64::from(self.running));
        let idle = roll.thrust.at(0.0) * (running - reversed) / running;
        let law = [idle - reversed * force, -reversed * by_speed, 0.0];
        Roll { thrust: Thrust::Polynomial(law), ..*roll }
    }
}

/// Brake to standstill, with reverse thrust where it is counted.
pub(crate) fn to_standstill(
    (roll, ground): (&Roll, &Ground),
    reversing: Option<Reversing<'_>>,
    brakes_on: State,
    pace: Pace,
    observer: &mut impl FnMut(&State, &Roll),
) -> Result<State, Error> {
    let mut slow = |roll: &Roll, from: State, until: Until| {
        advance((roll, ground), from, until, pace, &mut |state| observer(state, roll))
    };
    let mut state = brakes_on;
    if let Some(reversing) = reversing {
        let set = Until::Elapsed(reversing.thrust.set_after);
        // It may stop before that; then there is nothing to count.
        let is_set = advance((roll, ground), state, set, Pace::Long, &mut |_| ()).is_ok();
        if is_set {
            state = slow(roll, state, set)?;
            for stretch in &reversing.thrust.stretches {
                let [fast, least] = [stretch.fast, stretch.slow].map(|at| at - roll.headwind);
                if state.speed > fast {
                    state = slow(roll, state, Until::Slower(fast.max(0.0)))?;
                }
                let reversed = reversing.of(roll, stretch.law);
                state = slow(&reversed, state, Until::Slower(least.max(0.0)))?;
            }
        }
    }
    slow(roll, state, Until::Standstill)
}

#[cfg(test)]
mod tests {
    use super::{ReverseThrust, to_standstill};
    use crate::engine::schedule::ThrustSchedule;
    use crate::engine::thrust::Thrust;
    use crate::motion::ground::Ground;
    use crate::motion::integrate::{Pace, State};
    use crate::motion::roll::{Brakes, Roll, Wheels};
    use hardpan_quantity::{Force, Quantity, Speed, Time};

    const MASS: f64 = 40_000.0;
    const WEIGHT: f64 = MASS * hardpan_quantity::STANDARD_GRAVITY_M_PER_S2;
    const BRAKING: f64 = 0.15;

    fn roll(drag: f64, brake_force: f64) -> Roll {
        Roll {
            mass: MASS,
            half_density_area: 60.0,
            lift: 0.0,
            drag,
            thrust: Thrust::constant(0.0),
            schedule: ThrustSchedule::full(),
            headwind: 0.0,
            wheels: Wheels::ALIKE,
            brakes: Brakes::Ground,
            rolling_limit: 0.02,
            brake_target: f64::INFINITY,
            brake_force,
            wading: None,
        }
    }

    fn reverse(rows: &[(f64, f64)], set_after: f64) -> ReverseThrust {
        let row = |(speed, force): &(f64, f64)| (Speed::from_si(*speed), Force::from_si(*force));
        let rows: Vec<_> = rows.iter().map(row).collect();
        let (idle_by, set_after) = (Speed::from_si(30.0), Time::from_si(set_after));
        ReverseThrust::new(&rows, idle_by, set_after, 2).expect("reverse thrust")
    }

    fn stopped(roll: &Roll, reverse: Option<&ReverseThrust>, pace: Pace) -> f64 {
        let ground = Ground::uniform(0.0, BRAKING, 0.0);
        let reversing = reverse.and_then(|reverse| reverse.with(2, 2));
        let from = State::at(0.0, 70.0);
        to_standstill((roll, &ground), reversing, from, pace, &mut |_, _| ())
            .expect("a stop")
            .distance
    }

    /// Distance between two speeds under `a + b V²`, the integral of `m V dV`.
    fn under(constant: f64, square: f64, fast: f64, slow: f64) -> f64 {
        let at = |speed: f64| constant + square * speed * speed;
        MASS / (2.0 * square) * (at(fast) / at(slow)).ln()
    }

    #[test]
    fn exact_a_steady_reverse_adds_its_force_between_its_speeds() {
        let (drag, force) = (0.12, 15_000.0);
        let square = 60.0 * drag;
        let braking = BRAKING * WEIGHT;
        let expected = under(braking, square, 70.0, 65.0)
            + under(braking + 2.0 * force, square, 65.0, 30.0)
            + under(braking, square, 30.0, 0.0);
        let reverse = reverse(&[(20.0, force), (45.0, force), (65.0, force)], 0.0);
        for pace in [Pace::Long, Pace::EachPoint] {
            let found = stopped(&roll(drag, f64::INFINITY), Some(&reverse), pace);
            assert!((found / expected - 1.0).abs() < 1e-6, "{found} instead of {expected}");
        }
    }

    #[test]
    fn exact_a_reverse_that_falls_with_speed_follows_its_line() {
        // m V dV/ds = -(c + k V): s = m/k ((V1 - V2) - c/k ln((c + k V1)/(c + k V2))).
        let (low, high) = (8_000.0, 20_000.0);
        let slope = 2.0 * (high - low) / 40.0;
        let constant = BRAKING * WEIGHT + 2.0 * low - slope * 30.0;
        let at = |speed: f64| constant + slope * speed;
        let falling = MASS / slope * (40.0 - constant / slope * (at(70.0) / at(30.0)).ln());
        let expected = falling + MASS * 900.0 / (2.0 * BRAKING * WEIGHT);
        let reverse = reverse(&[(30.0, low), (70.0, high)], 0.0);
        let found = stopped(&roll(0.0, f64::INFINITY), Some(&reverse), Pace::Long);
        assert!((found / expected - 1.0).abs() < 1e-6, "{found} instead of {expected}");
    }

    #[test]
    fn exact_nothing_is_counted_before_it_is_set() {
        let deceleration = BRAKING * WEIGHT / MASS;
        let (set_after, force) = (4.0, 15_000.0);
        let then = 70.0 - deceleration * set_after;
        let reversed = deceleration + 2.0 * force / MASS;
        let expected = 0.5 * (70.0 + then) * set_after
            + (then * then - 900.0) / (2.0 * reversed)
            + 900.0 / (2.0 * deceleration);
        let reverse = reverse(&[(30.0, force), (80.0, force)], set_after);
        let found = stopped(&roll(0.0, f64::INFINITY), Some(&reverse), Pace::Long);
        assert!((found / expected - 1.0).abs() < 1e-6, "{found} instead of {expected}");
    }

    #[test]
    fn exact_brakes_give_the_least_of_grip_and_their_own_force() {
        let least = 0.1 * WEIGHT;
        let found = stopped(&roll(0.0, least), None, Pace::Long);
        let expected = MASS * 70.0 * 70.0 / (2.0 * least);
        assert!((found / expected - 1.0).abs() < 1e-6, "{found} instead of {expected}");
        let same = stopped(&roll(0.0, 0.2 * WEIGHT), None, Pace::Long);
        let grip = MASS * 70.0 * 70.0 / (2.0 * BRAKING * WEIGHT);
        assert!((same / grip - 1.0).abs() < 1e-6, "{same} instead of {grip}");
    }

    #[test]
    fn exact_grip_below_the_lift_and_the_brakes_own_force_above_it() {
        // Lift leaves a grip of BRAKING (W - l V²); it reaches the limit at one speed.
        let lifted = 60.0 * 0.8;
        let limit = 0.11 * WEIGHT;
        let meets = ((WEIGHT - limit / BRAKING) / lifted).sqrt();
        assert!((20.0..60.0).contains(&meets));
        let expected = under(BRAKING * WEIGHT, -BRAKING * lifted, 70.0, meets)
            + MASS * meets * meets / (2.0 * limit);
        let roll = Roll { lift: 0.8, ..roll(0.0, limit) };
        let found = stopped(&roll, None, Pace::Long);
        assert!((found / expected - 1.0).abs() < 1e-5, "{found} instead of {expected}");
    }

    #[test]
    fn exact_limited_brakes_balance_the_moments() {
        let wheels = Wheels { nose_share: 0.1, height: 0.25, braked_share: 0.5 };
        let ground = Ground::uniform(0.02, 0.5, 0.0);
        let roll = Roll { wheels, ..roll(0.0, 0.08 * WEIGHT) };
        let forces = roll.forces(10.0, ground.local(0.0, &mut 0));
        assert!((forces.braking - 0.08 * WEIGHT).abs() < 1e-9 * WEIGHT);
        // Weight ahead of the main wheels and every force at the ground turn the nose down.
        let along = forces.braking + forces.rolling;
        let nose = 0.1 * WEIGHT + 0.25 * along;
        assert!((forces.nose - nose).abs() < 1e-9 * WEIGHT, "{} {nose}", forces.nose);
        assert!((forces.nose + forces.main - WEIGHT).abs() < 1e-9 * WEIGHT);
    }
}
