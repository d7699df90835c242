//! The kernel of a take-off: roll, rotation, climb to the screen, and what an
//! engine failure makes of it. All speeds are true airspeeds unless they are
//! called ground speeds; distances count from the threshold.

use crate::Error;
use crate::motion::airborne::{Airborne, Climb, PullUp, airborne};
use crate::motion::ground::Ground;
use crate::motion::integrate::{Pace, State, Until, advance};
use crate::motion::roll::Roll;
use crate::regulation::{ADDED_AT_DECISION_S, FAILURE_TO_ACTION_S};
use crate::reverse::{Reversing, to_standstill};
use hardpan_math::root_between;

/// Stretch behind the lift-off point over which the ground's rise counts.
const RISE_OVER_M: f64 = 300.0;

/// The aeroplane with some of its engines running.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Running<'a> {
    /// Rolling with the nose wheel down.
    pub(crate) roll: Roll,
    /// Rolling at the lift-off attitude.
    pub(crate) rotated: Roll,
    /// In the air, gear down.
    pub(crate) climb: Climb,
    /// Stopping with these engines at idle.
    pub(crate) stop: Roll,
    /// Reverse thrust in the stop, where it is counted.
    pub(crate) reversing: Option<Reversing<'a>>,
    /// Height over the surface at which the take-off distance ends, m.
    pub(crate) screen: f64,
}

/// A take-off ready to be run.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Departure<'a> {
    pub(crate) ground: &'a Ground,
    pub(crate) start: f64,
    pub(crate) headwind: f64,
    pub(crate) rotation: f64,
    pub(crate) lift_off: f64,
    pub(crate) safety: f64,
    pub(crate) rotation_time: f64,
    /// Where the climb path starts, m.
    pub(crate) screen: f64,
    pub(crate) pull_up: PullUp,
    pub(crate) all: Running<'a>,
    pub(crate) one_out: Option<Running<'a>>,
}

/// A take-off carried through to the screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Carried {
    pub(crate) rotation: State,
    pub(crate) lift_off: State,
    pub(crate) lift_off_airspeed: f64,
    pub(crate) screen_airspeed: f64,
    pub(crate) air: Airborne,
}

/// The all-engine roll, kept so that any failure can start from it.
#[derive(Debug, Clone)]
pub(crate) struct AllEngineRoll {
    states: Vec<State>,
    /// Greatest speed up to each state.
    fastest: Vec<f64>,
}

/// What comes of an engine failure at one speed; distances from brake release.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Failure {
    pub(crate) failure: State,
    pub(crate) decision: State,
    /// Carried on to the screen; none when it cannot be.
    pub(crate) carried: Option<Carried>,
    /// Stopped after the failure.
    pub(crate) stop: State,
    /// Stopped from the same speed with all engines running.
    pub(crate) stop_all: State,
}

impl Carried {
    pub(crate) fn screen_at(&self) -> f64 {
        self.lift_off.distance + self.air.distance
    }

    pub(crate) fn half_way_to_screen(&self) -> f64 {
        self.lift_off.distance + 0.5 * self.air.distance
    }
}

impl Failure {
    pub(crate) fn stopped_at(&self) -> f64 {
        self.stop.distance.max(self.stop_all.distance)
    }
}

impl Departure<'_> {
    fn ground_speed(&self, airspeed: f64) -> f64 {
        (airspeed - self.headwind).max(0.0)
    }

    /// Roll on all engines from brake release to rotation, remembering the way.
    pub(crate) fn roll(&self) -> Result<AllEngineRoll, Error> {
        let start = State::at(self.start, 0.0);
        let mut states = Vec::with_capacity(512);
        states.push(start);
        let target = Until::Faster(self.ground_speed(self.rotation));
        let on = (&self.all.roll, self.ground);
        advance(on, start, target, Pace::Long, &mut |state| states.push(*state))?;
        let fastest = states.iter().scan(0.0_f64, |fastest, state| {
            *fastest = fastest.max(state.speed);
            Some(*fastest)
        });
        Ok(AllEngineRoll { fastest: fastest.collect(), states })
    }

    /// Carry on from a state on the ground: to rotation, lift-off and screen.
    pub(crate) fn carry_on(
        &self,
        running: &Running,
        from: State,
        pace: Pace,
        observer: &mut impl FnMut(&State, &Roll),
    ) -> Result<Carried, Error> {
        let (roll, rotated) = (&running.roll, &running.rotated);
        let to_rotation = Until::Faster(self.ground_speed(self.rotation));
        let rotation = advance((roll, self.ground), from, to_rotation, pace, &mut |state| {
            observer(state, roll);
        })?;
        let show = &mut |state: &State| observer(state, rotated);
        let (turned, on) = (Until::Elapsed(self.rotation_time), (rotated, self.ground));
        let turned = advance(on, rotation, turned, pace, show)?;
        let to_lift_off = Until::Faster(self.ground_speed(self.lift_off));
        let lift_off = advance(on, turned, to_lift_off, pace, show)?;
        let lift_off_airspeed = (lift_off.speed + self.headwind).max(self.lift_off);
        let screen_airspeed = self.safety.max(lift_off_airspeed);
        let rise = self.ground.mean_grade(lift_off.distance, RISE_OVER_M);
        let speeds = (lift_off_airspeed, screen_airspeed);
        let air =
            airborne(&running.climb, speeds, running.screen, rise, self.headwind, self.pull_up)?;
        Ok(Carried { rotation, lift_off, lift_off_airspeed, screen_airspeed, air })
    }

    /// From an engine failure, one second on the engines that are left.
    pub(crate) fn decision(&self, one_out: &Running, failure: State) -> Result<State, Error> {
        let until = Until::Elapsed(FAILURE_TO_ACTION_S);
        advance((&one_out.roll, self.ground), failure, until, Pace::Long, &mut |_| ())
    }

    /// Two seconds at constant speed, then to standstill on the wheel brakes and
    /// what is counted of reverse thrust.
    pub(crate) fn stop(
        &self,
        running: &Running,
        decision: State,
        pace: Pace,
        observer: &mut impl FnMut(&State, &Roll),
    ) -> Result<State, Error> {
        let roll = &running.stop;
        let braking = added_at_decision(decision);
        observer(&braking, roll);
        to_standstill((roll, self.ground), running.reversing, braking, pace, observer)
    }

    /// What comes of an engine failure at a ground speed.
    pub(crate) fn failure(
        &self,
        roll: &AllEngineRoll,
        one_out: &Running,
        ground_speed: f64,
    ) -> Result<Failure, Error> {
        let nothing = &mut |_: &State, _: &Roll| ();
        let failure = roll.at_speed(self, ground_speed)?;
        let decision = self.decision(one_out, failure)?;
        let carried = self.carry_on(one_out, decision, Pace::Long, nothing).ok();
        let stop = self.stop(one_out, decision, Pace::Long, nothing)?;
        let from = roll.at_speed(self, decision.speed)?;
        let stop_all = self.stop(&self.all, from, Pace::Long, nothing)?;
        Ok(Failure { failure, decision, carried, stop, stop_all })
    }

    /// Greatest ground speed of an engine failure after which the decision
    /// speed is not above rotation speed.
    pub(crate) fn latest_failure(
        &self,
        roll: &AllEngineRoll,
        one_out: &Running,
        earliest: f64,
    ) -> f64 {
        let rotation = self.ground_speed(self.rotation);
        let over = |speed: f64| {
            roll.at_speed(self, speed)
                .and_then(|failure| self.decision(one_out, failure))
                .map_or(f64::NAN, |decision| decision.speed - rotation)
        };
        let (low, high) = ((earliest, over(earliest)), (rotation, over(rotation)));
        root_between(over, low, high, 1e-7).unwrap_or(if high.1 > 0.0 {
            earliest
        } else {
            rotation
        })
    }
}

/// State after the seconds that the rule adds at the decision speed.
pub(crate) fn added_at_decision(decision: State) -> State {
    State {
        distance: decision.distance + ADDED_AT_DECISION_S * decision.speed,
        time: decision.time + ADDED_AT_DECISION_S,
        ..decision
    }
}

impl AllEngineRoll {
    /// The state when a ground speed is first reached; beyond rotation speed
    /// the roll is carried on.
    pub(crate) fn at_speed(&self, departure: &Departure, speed: f64) -> Result<State, Error> {
        let after = self.fastest.partition_point(|fastest| *fastest < speed);
        let from = match after {
            0 => return Ok(self.states[0]),
            after if after < self.states.len() => self.states[after - 1],
            _ => self.end(),
        };
        let on = (&departure.all.roll, departure.ground);
        advance(on, from, Until::Faster(speed), Pace::Long, &mut |_| ())
    }

    /// The state at rotation.
    pub(crate) fn end(&self) -> State {
        self.states.last().copied().unwrap_or(State::at(0.0, 0.0))
    }
}
