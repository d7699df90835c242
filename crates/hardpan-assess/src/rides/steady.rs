//! The ride at steady speeds: over the strip's own lanes, and over 1-cosine
//! bumps, dips and rows of bumps of every length.

use super::{MOST_LIFT, Run, SLOWEST, lane_profiles, runs};
use crate::measured::{Known, Measured, Unavailable};
use hardpan_model::{Flight, Lane};
use hardpan_quantity::{
    Acceleration, Length, Quantity, Ratio, Speed, knots, metres, metres_per_second, ratio,
};
use hardpan_surface::{Lanes, Motion, Profile, Ride, cockpit_limit, ride_lanes};

/// Slowest steady speed and step of the sweep, knots.
const FIRST_KNOTS: f64 = 20.0;
const STEP_KNOTS: f64 = 10.0;
/// Most speeds of a sweep.
const MOST_SPEEDS: usize = 20;
/// Lengths of the waves, metres: from what a tyre still feels as a bump to the
/// longest of the chords.
const LENGTHS_M: [f64; 8] = [3.0, 5.0, 10.0, 15.0, 20.0, 30.0, 45.0, 60.0];
/// Shares of the greatest speed at which the waves are met.
const SHARES: [f64; 4] = [0.25, 0.5, 0.75, 1.0];
/// Bumps of a row.
const ROW: usize = 3;
/// Highest wave tried, metres.
const HIGHEST_M: f64 = 0.3;
/// Height that the search starts from, metres.
const START_M: f64 = 0.05;
/// How near to the limit a search ends, and its most rides.
const NEAR: f64 = 0.02;
const MOST_RIDES: usize = 7;
/// Time for which the ride goes on behind a wave, seconds.
const AFTER_S: f64 = 1.5;

/// The ride over the worse main lane at one steady speed.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct SpeedRide {
    pub(crate) speed: Speed,
    pub(crate) lane: Lane,
    pub(crate) ride: Ride,
}

/// How high a wave of one length may be at one speed until the cockpit feels
/// the limit; none where no height up to 300 mm does it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct WaveHeights {
    pub(crate) length: Length,
    pub(crate) speed: Speed,
    pub(crate) bump: Option<Length>,
    pub(crate) dip: Option<Length>,
    pub(crate) row: Option<Length>,
}

/// Rides at steady speeds of the heaviest planned movement.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Steady {
    pub(crate) by_speed: Vec<SpeedRide>,
    pub(crate) waves: Vec<WaveHeights>,
}

/// The rides at steady speeds up to the greatest of the planned runs, on the
/// struts of the heaviest of them; lift grows with the square of the speed.
pub(crate) fn steady(flight: &Flight, measured: &Measured) -> Known<Steady> {
    let runs = runs(flight, measured)?;
    let heaviest =
        runs.iter().reduce(|most, next| if next.weight > most.weight { next } else { most });
    let heaviest = heaviest.ok_or_else(|| Unavailable::missing("the ride by speed", Vec::new()))?;
    let [left, nose, right] = lane_profiles(flight)?;
    let speeds =
        runs.iter().flat_map(|run| run.on_ground().0).map(|point| point.1.ground_speed.si());
    let fastest = speeds.fold(SLOWEST, f64::max);
    let rolling = Rolling::of(heaviest);
    let mut by_speed = Vec::new();
    for speed in sweep(fastest) {
        let rides = [(Lane::Left, &left), (Lane::Right, &right)];
        let mut worst: Option<SpeedRide> = None;
        for (lane, main) in rides {
            let ride = rolling.over(Lanes { nose: &nose, main }, speed)?;
            let felt = ride.worst_at_cockpit().0;
            if worst.as_ref().is_none_or(|worst| felt > worst.ride.worst_at_cockpit().0) {
                worst = Some(SpeedRide { speed, lane, ride });
            }
        }
        by_speed.extend(worst);
    }
    let mut waves = Vec::new();
    for length in LENGTHS_M {
        for share in SHARES {
            let speed = metres_per_second((share * fastest).max(SLOWEST));
            let height = |sign: f64, count: usize| rolling.height(length, (sign, count), speed);
            waves.push(WaveHeights {
                length: metres(length),
                speed,
                bump: height(1.0, 1)?,
                dip: height(-1.0, 1)?,
                row: height(1.0, ROW)?,
            });
        }
    }
    Ok(Steady { by_speed, waves })
}

/// Steady speeds from the slowest to the first that is not below the fastest run.
fn sweep(fastest: f64) -> impl Iterator<Item = Speed> {
    let speed = |step: usize| knots(FIRST_KNOTS + STEP_KNOTS * step as f64);
    let count =
        (0..MOST_SPEEDS).take_while(move |step| *step == 0 || speed(step - 1).si() < fastest);
    count.map(speed)
}

/// An aeroplane at a steady speed, with what its wing carries at any.
struct Rolling<'a> {
    run: &'a Run<'a>,
    /// Share of the weight on the wing over the square of the speed.
    lift_by_square: f64,
}

impl<'a> Rolling<'a> {
    /// The lift of the fastest moment with all wheels on the ground.
    fn of(run: &'a Run<'a>) -> Self {
        let fastest =
            run.on_ground().0.into_iter().map(|point| point.1).reduce(|most, next| {
                if next.ground_speed > most.ground_speed { next } else { most }
            });
        let lift_by_square = fastest.map_or(0.0, |point| {
            let speed = point.ground_speed.si().max(SLOWEST);
            (point.lift.si() / run.weight).max(0.0) / (speed * speed)
        });
        Self { run, lift_by_square }
    }

    fn lift_share(&self, speed: Speed) -> Ratio {
        ratio((self.lift_by_square * speed.si() * speed.si()).min(MOST_LIFT))
    }

    fn over(&self, lanes: Lanes<'_>, speed: Speed) -> Known<Ride> {
        let motion = Motion { speed, lift_share: self.lift_share(speed) };
        ride_lanes(&self.run.aeroplane, lanes, |_| motion)
            .map_err(|error| Unavailable::refused("the ride at a steady speed", &error))
    }

    /// The height at which waves bring the limit to the cockpit: by regula falsi
    /// between a height that does not and one that does.
    fn height(&self, length: f64, shape: (f64, usize), speed: Speed) -> Known<Option<Length>> {
        let limit = cockpit_limit().si();
        let (mut low, mut high) = ((0.0, 0.0), None);
        let mut height = START_M;
        for _ in 0..MOST_RIDES {
            let felt = self.felt(length, (height, shape), speed)?.si();
            if (felt / limit - 1.0).abs() < NEAR {
                break;
            }
            if felt < limit {
                if height >= HIGHEST_M {
                    return Ok(None);
                }
                low = (height, felt);
            } else {
                high = Some((height, felt));
            }
            height = match high {
                Some((over, most)) => {
                    let share = ((limit - low.1) / (most - low.1)).clamp(0.1, 0.9);
                    low.0 + share * (over - low.0)
                }
                None => (height * limit / felt.max(1e-3)).clamp(1.2 * height, 4.0 * height),
            }
            .min(HIGHEST_M);
        }
        Ok(Some(metres(height)))
    }

    fn felt(
        &self,
        length: f64,
        (height, (sign, count)): (f64, (f64, usize)),
        speed: Speed,
    ) -> Known<Acceleration> {
        let aeroplane = &self.run.aeroplane;
        let wheelbase = (aeroplane.nose_ahead + aeroplane.main_behind).si();
        let flat = (metres(2.0 * wheelbase), metres(AFTER_S * speed.si() + 2.0 * wheelbase));
        let ground = Profile::cosine_waves(metres(sign * height), metres(length), count, flat)
            .map_err(|error| Unavailable::refused("the ride over a wave", &error))?;
        let ride = self.over(Lanes { nose: &ground, main: &ground }, speed)?;
        Ok(ride.worst_at_cockpit().0)
    }
}
