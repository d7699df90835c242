//! Rolling along the ground from one event to the next.
//!
//! A step covers a stretch with the mean grade and the mean coefficients of
//! just that stretch, so it may pass points of the ground and gravity still
//! does exactly the work of the profile. Over a step the acceleration is a
//! parabola in the ground speed, which is exact for thrust, drag and wheels that
//! carry load and else goes through three speeds; the step follows its series
//! in time. The last step is fitted until the event is met to rounding.

use crate::Error;
use crate::motion::ground::{Ground, Local};
use crate::motion::parabola::{Parabola, Smooth, brake_work};
use crate::motion::roll::Roll;
use hardpan_math::bracketed_root;
use hardpan_quantity::{Amount, Dimension};

/// Longest step where a trace is wanted and where thrust has corners.
const SHORT_STEP_S: f64 = 0.25;
/// Longest step where the coefficients of the ground change within it.
const MIDDLE_STEP_S: f64 = 1.0;
/// Longest step where they stay the same but change elsewhere.
const CALM_STEP_S: f64 = 2.0;
/// Longest step else; [`Parabola::at`] bounds the error of the series.
const LONG_STEP_S: f64 = 3.0;
/// Most that the speed may change in a step of a second where the ground or the
/// forces are not the same all along it, m/s.
const MOST_CHANGE: f64 = 3.0;
/// Shorter than this, a stretch is taken as a point.
const SHORTEST_STRETCH_M: f64 = 0.001;
const LONGEST_ACCELERATION_S: f64 = 240.0;
const LONGEST_STOP_S: f64 = 900.0;
const MOST_STEPS: u32 = 40_000;
/// Corrections of the last step before it is searched for between bounds.
const MOST_CORRECTIONS: u32 = 12;

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
    /// At a ground speed below the present one.
    Slower(f64),
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
    let rolling = Rolling::new(roll, ground, pace);
    let mut state = start;
    let mut tendency = rolling.tendency(&mut state);
    for _ in 0..MOST_STEPS {
        let end = match until {
            Until::Faster(target) if state.speed >= target => return Ok(state),
            Until::Slower(target) if state.speed <= target => return Ok(state),
            Until::Standstill if state.speed <= 0.0 => return Ok(state),
            Until::Faster(target) => End::Faster(target),
            Until::Slower(target) => End::Slower(target),
            Until::Standstill => End::Slower(0.0),
            Until::Elapsed(duration) => End::Time(start.time + duration - state.time),
        };
        if matches!(end, End::Time(left) if left <= 0.0) {
            return Ok(state);
        }
        let Some(next) = rolling.next(&mut state, tendency, end) else {
            return Err(stuck(&state, start, until));
        };
        if !(next.state.distance.is_finite() && next.state.speed.is_finite()) {
            return Err(Error::NotFinite { quantity: "speed or distance of the roll" });
        }
        observer(&next.state);
        let Some(after) = next.tendency else { return Ok(next.state) };
        give_up(&next.state, start, until)?;
        (state, tendency) = (next.state, after);
    }
    give_up(&state, State { time: f64::NEG_INFINITY, ..start }, until)?;
    Ok(state)
}

/// Acceleration, and the longest time over which the series is good.
type Tendency = (f64, f64);

/// What a step comes to; no tendency when it met the event.
struct Next {
    state: State,
    tendency: Option<Tendency>,
}

/// What ends the last step.
#[derive(Debug, Clone, Copy)]
enum End {
    Faster(f64),
    Slower(f64),
    Time(f64),
}

impl End {
    /// Distance at which it is met at an acceleration, if in a time.
    #[inline]
    fn guess(self, speed: f64, acceleration: f64, within: f64) -> Option<f64> {
        let then = speed + acceleration * within;
        let by_speed = |target: f64| (target * target - speed * speed) / (2.0 * acceleration);
        match self {
            Self::Faster(target) => (then >= target).then(|| by_speed(target)),
            Self::Slower(target) => (then <= target).then(|| by_speed(target)),
            Self::Time(left) => {
                (left <= within && then > 0.0).then_some(left * (speed + 0.5 * acceleration * left))
            }
        }
    }

    #[inline]
    fn is_met(self, time: f64, speed: f64) -> bool {
        match self {
            Self::Faster(target) => speed >= target,
            Self::Slower(target) => speed <= target,
            Self::Time(left) => time >= left,
        }
    }

    /// Time and distance at which it is met.
    #[inline(always)]
    fn reached(self, along: &Parabola) -> Option<(f64, f64)> {
        match self {
            Self::Faster(target) | Self::Slower(target) => along.until_speed(target),
            Self::Time(left) => Some((left, along.distance_after(left))),
        }
    }

    /// Speed at most reached.
    #[inline]
    fn bounded(self, speed: f64) -> f64 {
        match self {
            Self::Faster(target) => speed.min(target),
            Self::Slower(target) => speed.max(target),
            Self::Time(_) => speed.max(0.0),
        }
    }
}

/// One configuration on one ground.
struct Rolling<'a> {
    roll: &'a Roll,
    smooth: Option<Smooth>,
    ground: &'a Ground,
    pace: Pace,
    longest: f64,
    most_change: f64,
}

impl<'a> Rolling<'a> {
    fn new(roll: &'a Roll, ground: &'a Ground, pace: Pace) -> Self {
        let smooth = Smooth::of(roll);
        let (longest, most_change) = match (pace, smooth, ground.is_alike()) {
            (Pace::Long, Some(_), true) => (LONG_STEP_S, f64::INFINITY),
            (Pace::Long, Some(_), false) => (CALM_STEP_S, 2.0 * MOST_CHANGE),
            _ => (SHORT_STEP_S, MOST_CHANGE),
        };
        Self { roll, smooth, ground, pace, longest, most_change }
    }

    #[inline(always)]
    fn along(&self, over: &Local, from: f64, towards: f64) -> Parabola {
        Parabola::of(self.roll, self.smooth.as_ref(), over, (from, towards))
    }

    /// Where a state is.
    fn tendency(&self, state: &mut State) -> Tendency {
        let here = self.ground.local(state.distance, &mut state.cursor);
        self.along(&here, state.speed, state.speed).at(state.speed)
    }

    /// One step from a state, or the event if that comes first; none when the
    /// aeroplane stands still.
    #[inline]
    fn next(&self, from: &mut State, (rate, good_for): Tendency, end: End) -> Option<Next> {
        let time = self.time(from, rate).min(good_for);
        let gap = match self.pace {
            Pace::Long => f64::INFINITY,
            Pace::EachPoint => {
                self.ground.next_point(from.distance, from.cursor).unwrap_or(f64::INFINITY)
            }
        };
        if let Some(guess) = end.guess(from.speed, rate, time)
            && guess <= gap
            && let Some(last) = self.met(from, guess, end)
        {
            return Some(Next { state: last, tendency: None });
        }
        let towards = end.bounded(from.speed + rate * time);
        let stretch = if from.speed + rate * time > 0.0 {
            time * (from.speed + 0.5 * rate * time)
        } else {
            0.5 * from.speed * from.speed / -rate
        };
        let stretch = stretch.min(gap);
        if stretch.is_nan() || stretch <= 0.0 {
            return None;
        }
        let over = self.over(from, stretch);
        let along = self.along(&over, from.speed, towards);
        let passed = along.time_over(stretch).map(|time| (time, along.speed_after(time)));
        match passed {
            Some((time, speed)) if !end.is_met(time, speed) => {
                let state = self.after(from, &over, &along, (time, stretch));
                Some(Next { state, tendency: Some(along.at(speed)) })
            }
            None if !matches!(end, End::Slower(_)) => None,
            _ => Some(Next { state: self.searched(from, stretch, end), tendency: None }),
        }
    }

    /// How long a step may last.
    #[inline]
    fn time(&self, from: &mut State, rate: f64) -> f64 {
        let (mut time, mut most_change) = (self.longest, self.most_change);
        if self.longest == CALM_STEP_S {
            let ahead = self.ground.alike_ahead(from.distance, &mut from.cursor);
            if ahead < CALM_STEP_S * from.speed {
                (time, most_change) = (MIDDLE_STEP_S, MOST_CHANGE);
            }
        }
        if rate.abs() * time > most_change { most_change / rate.abs() } else { time }
    }

    /// The ground under a stretch ahead.
    #[inline(always)]
    fn over(&self, from: &mut State, stretch: f64) -> Local {
        if stretch > SHORTEST_STRETCH_M {
            self.ground.mean(from.distance, stretch, &mut from.cursor)
        } else {
            self.ground.local(from.distance, &mut from.cursor)
        }
    }

    #[inline(always)]
    fn after(
        &self,
        from: &State,
        over: &Local,
        along: &Parabola,
        (time, stretch): (f64, f64),
    ) -> State {
        let work = brake_work(self.roll, self.smooth.as_ref(), over, along, time);
        State {
            distance: from.distance + stretch,
            time: from.time + time,
            speed: along.speed_after(time),
            brake_work: from.brake_work + work,
            cursor: from.cursor,
        }
    }

    /// Speeds between which a step to the event lies.
    fn towards(&self, from: &State, stretch: f64, end: End) -> f64 {
        match end {
            End::Faster(target) | End::Slower(target) => target,
            End::Time(left) => (2.0 * stretch / left - from.speed).max(0.0),
        }
    }

    /// The state at the event, from a guess of the distance to it; none when
    /// the corrections do not close.
    fn met(&self, from: &mut State, guess: f64, end: End) -> Option<State> {
        let mut stretch = guess;
        for count in 0..MOST_CORRECTIONS {
            let over = self.over(from, stretch);
            let along = self.along(&over, from.speed, self.towards(from, stretch, end));
            let (time, reached) = end.reached(&along)?;
            let miss = reached - stretch;
            if miss.abs() <= 1e-11 * (10.0 + stretch) {
                return Some(self.ended(from, &over, &along, (time, reached), end));
            }
            let gain = if count == 0 { 1.0 } else { self.gain(from, stretch, &along, end) };
            stretch += gain * miss;
            if !(0.0..=2.0 * guess + 1.0).contains(&stretch) {
                return None;
            }
        }
        None
    }

    /// How much farther the event moves than the mean over the stretch tells:
    /// the acceleration of the mean over that of the place.
    fn gain(&self, from: &State, stretch: f64, along: &Parabola, end: End) -> f64 {
        let target = match end {
            End::Time(_) => return 1.0,
            End::Faster(target) | End::Slower(target) => target,
        };
        let here = self.ground.local(from.distance + stretch, &mut { from.cursor });
        let there = self.roll.pull(target, &here).0 / self.roll.mass;
        let ratio = along.at(target).0 / there;
        if ratio.is_finite() { ratio.clamp(0.3, 3.0) } else { 1.0 }
    }

    /// The state at the event, searched for within a stretch that meets it.
    fn searched(&self, from: &mut State, stretch: f64, end: End) -> State {
        let base = *from;
        let tried = |stretch: f64| {
            let over = self.over(&mut { base }, stretch);
            (over, self.along(&over, base.speed, self.towards(&base, stretch, end)))
        };
        let miss = |stretch: f64| {
            end.reached(&tried(stretch).1).map_or(f64::MAX, |(_, reached)| reached - stretch)
        };
        let tolerance = 1e-13 * stretch.max(1e-3);
        let found = bracketed_root(miss, 1e-3 * tolerance, stretch, tolerance).unwrap_or(stretch);
        let (over, along) = tried(found);
        let reached = end.reached(&along).unwrap_or((0.0, 0.0));
        self.ended(from, &over, &along, reached, end)
    }

    /// The state at the event, with its speed to the last bit.
    fn ended(
        &self,
        from: &State,
        over: &Local,
        along: &Parabola,
        reached: (f64, f64),
        end: End,
    ) -> State {
        let state = self.after(from, over, along, reached);
        match end {
            End::Faster(target) | End::Slower(target) => State { speed: target, ..state },
            End::Time(_) => state,
        }
    }
}

/// Why a run that stands still does not come to its end.
fn stuck(state: &State, start: State, until: Until) -> Error {
    let wanted = match until {
        Until::Faster(target) => target,
        _ => start.speed,
    };
    Error::CannotAccelerate {
        wanted: Amount::new(Dimension::Speed, wanted),
        station: Amount::new(Dimension::Length, state.distance),
        speed: Amount::new(Dimension::Speed, state.speed),
        after: Amount::new(Dimension::Time, state.time),
    }
}

fn give_up(state: &State, start: State, until: Until) -> Result<(), Error> {
    let elapsed = state.time - start.time;
    match until {
        Until::Faster(_) if elapsed > LONGEST_ACCELERATION_S => Err(stuck(state, start, until)),
        Until::Elapsed(duration) if elapsed > duration.max(1.0) + 900.0 => {
            Err(stuck(state, start, until))
        }
        Until::Slower(_) | Until::Standstill if elapsed > LONGEST_STOP_S => {
            Err(Error::CannotStop {
                station: Amount::new(Dimension::Length, state.distance),
                speed: Amount::new(Dimension::Speed, state.speed),
                after: Amount::new(Dimension::Time, state.time),
            })
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
                water: metres(0.0),
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
            brake_target: f64::INFINITY,
            brake_force: f64::INFINITY,
            wading: None,
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
