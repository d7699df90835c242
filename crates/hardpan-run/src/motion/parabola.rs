//! Acceleration as a parabola of the ground speed, and how a roll follows it.
//!
//! With `a(V) = a0 + p (V - V0) + c (V - V0)^2` the derivatives of the speed in
//! time are polynomials, so its series needs no evaluation of forces.

use crate::engine::thrust::Thrust;
use crate::motion::ground::Local;
use crate::motion::roll::{Brakes, Roll};
use hardpan_quantity::STANDARD_GRAVITY_M_PER_S2 as GRAVITY;

/// Most that the relative change of the acceleration in a step may be: the
/// first term that the series leaves out is then below 1e-7 of the change of speed.
const MOST_CHANGE: f64 = 0.06;
const CORRECTIONS: u32 = 8;
/// Corrections by Newton square the error: after one of these shares of the
/// time, what is left is rounding.
const CLOSE_OVER: f64 = 1e-5;
const CLOSE_UNTIL: f64 = 1e-6;
const THIRD: f64 = 1.0 / 3.0;
const SIXTH: f64 = 1.0 / 6.0;

/// A smooth configuration with its constants multiplied out: sums over the
/// powers of the ground speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Smooth {
    weight: f64,
    per_mass: f64,
    headwind: f64,
    /// Thrust less drag.
    drive: [f64; 3],
    lift: [f64; 3],
}

impl Smooth {
    /// The constants of a configuration whose forces have no corners.
    pub(crate) fn of(roll: &Roll) -> Option<Self> {
        let Thrust::Polynomial([c0, c1, c2]) = roll.thrust else { return None };
        let is_followed = matches!(roll.brakes, Brakes::WetPaved(_))
            || roll.brake_target.is_finite()
            || roll.brake_force.is_finite();
        if !roll.schedule.is_full() || is_followed {
            return None;
        }
        let wind = roll.headwind;
        let drag = roll.drag * roll.half_density_area;
        let lift = roll.lift * roll.half_density_area;
        let square = c2 - drag;
        Some(Self {
            weight: roll.mass * GRAVITY,
            per_mass: 1.0 / roll.mass,
            headwind: wind,
            drive: [c0 + wind * (c1 + wind * square), c1 + 2.0 * wind * square, square],
            lift: [lift * wind * wind, 2.0 * lift * wind, lift],
        })
    }

    #[inline(always)]
    fn load(&self, speed: f64) -> f64 {
        self.weight - self.lift[0] - speed * (self.lift[1] + speed * self.lift[2])
    }

    /// Whether the sums hold at a speed: wind from ahead, wheels on the ground.
    #[inline(always)]
    fn holds(&self, speed: f64) -> bool {
        speed + self.headwind >= 0.0 && self.load(speed) >= -1e-9 * self.weight
    }
}

/// Acceleration around a ground speed, and the braking force of the load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Parabola {
    speed: f64,
    acceleration: f64,
    slope: f64,
    curvature: f64,
    /// Coefficients of the first five powers of time in the speed.
    series: [f64; 5],
}

impl Parabola {
    /// Of a configuration on ground with these means, from one speed to about another.
    #[inline(always)]
    pub(crate) fn of(
        roll: &Roll,
        smooth: Option<&Smooth>,
        over: &Local,
        (from, towards): (f64, f64),
    ) -> Self {
        match smooth {
            Some(smooth) if smooth.holds(from) && smooth.holds(towards) => {
                let (resisting, _) = roll.resistance(over);
                let m = smooth.per_mass;
                let sum = |power: usize| m * (smooth.drive[power] + resisting * smooth.lift[power]);
                let curvature = sum(2) - m * roll.wading_drag(over);
                let linear = sum(1);
                let constant = sum(0) - m * smooth.weight * (resisting + over.grade);
                Self::new(
                    from,
                    constant + from * (linear + from * curvature),
                    linear + 2.0 * from * curvature,
                    curvature,
                )
            }
            _ => Self::through_three_speeds(roll, over, from, towards),
        }
    }

    #[inline(never)]
    fn through_three_speeds(roll: &Roll, over: &Local, from: f64, towards: f64) -> Self {
        let at = |speed: f64| roll.pull(speed, over).0 / roll.mass;
        let first = at(from);
        let half = 0.5 * (towards - from);
        if half.abs() < 1e-6 {
            return Self::new(from, first, 0.0, 0.0);
        }
        let (middle, last) = (at(from + half), at(towards));
        let curvature = (last - 2.0 * middle + first) / (2.0 * half * half);
        let slope = (middle - first) / half - curvature * half;
        Self::new(from, first, slope, curvature)
    }

    #[inline(always)]
    fn new(speed: f64, acceleration: f64, slope: f64, curvature: f64) -> Self {
        let second = slope * acceleration;
        let third = slope * second + 2.0 * curvature * acceleration * acceleration;
        let fourth = slope * third + 6.0 * curvature * acceleration * second;
        let fifth =
            slope * fourth + curvature * (8.0 * acceleration * third + 6.0 * second * second);
        let series = [
            acceleration,
            0.5 * second,
            SIXTH * third,
            0.25 * SIXTH * fourth,
            0.05 * SIXTH * fifth,
        ];
        Self { speed, acceleration, slope, curvature, series }
    }

    /// Acceleration at a speed, and the longest time from there over which the
    /// series is good.
    #[inline(always)]
    pub(crate) fn at(&self, speed: f64) -> (f64, f64) {
        let gained = speed - self.speed;
        let acceleration = self.acceleration + gained * (self.slope + gained * self.curvature);
        let slope = self.slope + 2.0 * gained * self.curvature;
        let change = slope.abs().max((self.curvature * acceleration).abs().sqrt());
        (acceleration, MOST_CHANGE / change)
    }

    #[inline(always)]
    pub(crate) fn speed_after(&self, t: f64) -> f64 {
        let [a, b, c, d, e] = self.series;
        let square = t * t;
        self.speed + t * (a + t * b) + square * t * (c + t * d + square * e)
    }

    #[inline(always)]
    pub(crate) fn distance_after(&self, t: f64) -> f64 {
        let [a, b, c, d, e] = self.series;
        let square = t * t;
        t * self.speed
            + square * (0.5 * a + t * THIRD * b)
            + square * square * (0.25 * c + t * 0.2 * d + square * SIXTH * e)
    }

    /// Time over a distance; none when it stands still before.
    #[inline(always)]
    pub(crate) fn time_over(&self, distance: f64) -> Option<f64> {
        let square = self.speed * self.speed;
        let left = square + 2.0 * self.acceleration * distance;
        let mut time = if left > 0.02 * square || self.acceleration > 0.0 {
            2.0 * distance / (self.speed + left.sqrt())
        } else {
            let (time, stands) = self.until_speed(0.0)?;
            if stands <= distance {
                return None;
            }
            time * (1.0 - (1.0 - distance / stands).sqrt())
        };
        for _ in 0..CORRECTIONS {
            let speed = self.speed_after(time);
            if speed <= 0.0 {
                return None;
            }
            let change = (distance - self.distance_after(time)) / speed;
            time += change;
            if change.abs() <= CLOSE_OVER * time {
                break;
            }
        }
        (time > 0.0).then_some(time)
    }

    /// Time and distance until a speed; none when it is not reached from here.
    #[inline(always)]
    pub(crate) fn until_speed(&self, target: f64) -> Option<(f64, f64)> {
        let [a, b, c, d, e] = self.series;
        let mut time = (target - self.speed) / a;
        for _ in 0..CORRECTIONS {
            let rate = a + time * (2.0 * b + time * (3.0 * c + time * (4.0 * d + time * 5.0 * e)));
            let change = (target - self.speed_after(time)) / rate;
            time += change;
            if change.abs() <= CLOSE_UNTIL * time.abs() {
                break;
            }
        }
        let usable = time.is_finite() && time >= 0.0;
        usable.then(|| (time, self.distance_after(time)))
    }
}

/// Work of the brakes over a step, by Simpson's rule in time.
#[inline]
pub(crate) fn brake_work(
    roll: &Roll,
    smooth: Option<&Smooth>,
    over: &Local,
    along: &Parabola,
    time: f64,
) -> f64 {
    if roll.brakes == Brakes::Off {
        return 0.0;
    }
    let braking = roll.resistance(over).1;
    let power = |speed: f64| match smooth {
        Some(smooth) => speed * braking * smooth.load(speed).max(0.0),
        None => speed * roll.pull(speed, over).1,
    };
    let middle = power(along.speed_after(0.5 * time));
    time * (power(along.speed) + 4.0 * middle + power(along.speed_after(time))) / 6.0
}
