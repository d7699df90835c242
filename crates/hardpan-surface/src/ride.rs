//! How an aeroplane rides over a line of the survey: a rigid body in heave and
//! pitch on nose and main gear, driven at the speed that it has at each station.
//!
//! The answer is held against ± 0.4 g at the cockpit [MORRIS-HALL-1965]. No
//! bending of the fuselage: slender aeroplanes ride worse than this.

mod body;
mod both_legs;
mod curve;
mod leg;
mod lockstep;
mod log;
mod pacer;
mod peak;
mod roads;
pub(crate) mod strut;
mod track;
mod waves;
mod whole;

use crate::error::Error;
use crate::profile::Profile;
use crate::ride::lockstep::ride_in_step;
use crate::ride::strut::Support;
use hardpan_quantity::{
    Acceleration, Length, Mass, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2, Speed, metres, ratio,
};

/// A rigid aeroplane on two legs, seen from the side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RigidAeroplane {
    /// Mass above the struts.
    pub mass: Mass,
    /// Radius of gyration in pitch.
    pub gyration: Length,
    /// Nose gear ahead of the centre of gravity.
    pub nose_ahead: Length,
    /// Main gear behind the centre of gravity.
    pub main_behind: Length,
    /// Cockpit ahead of the centre of gravity.
    pub cockpit_ahead: Length,
    /// Nose gear.
    pub nose: Support,
    /// Main gear, all legs together.
    pub main: Support,
    /// Share of the weight that the wing carries where nothing else says so.
    pub lift_share: Ratio,
}

/// How the aeroplane moves at one station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Motion {
    /// Ground speed.
    pub speed: Speed,
    /// Share of the weight that the wing carries.
    pub lift_share: Ratio,
}

/// One way along the ground, by the station of the centre of gravity.
#[derive(Clone, Copy)]
pub struct Course<'a> {
    /// How the aeroplane moves at each station.
    pub motion: &'a dyn Fn(Length) -> Motion,
    /// Where it ends, if the ground does not end before.
    pub to: Length,
}

/// The ground under the wheels.
#[derive(Debug, Clone, Copy)]
pub struct Lanes<'a> {
    /// Under the nose gear.
    pub nose: &'a Profile,
    /// Under the main gear, both sides alike.
    pub main: &'a Profile,
}

/// Greatest upward and downward value with the station of the centre of gravity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extremes {
    /// Greatest upward acceleration, in excess of the same motion over level ground.
    pub up: (Acceleration, Length),
    /// Greatest downward acceleration, negative.
    pub down: (Acceleration, Length),
}

/// How the aeroplane rode.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ride {
    /// At the cockpit.
    pub cockpit: Extremes,
    /// At the centre of gravity.
    pub centre: Extremes,
    /// Greatest load of nose and main gear over that of standing still.
    pub load_factors: (Ratio, Ratio),
    /// Whether nose or main wheels left the ground.
    pub left_ground: (bool, bool),
    /// Whether a strut of nose or main gear bottomed.
    pub bottomed: (bool, bool),
}

/// Greatest incremental acceleration at the cockpit where precise control is
/// needed, in both directions. Source: [MORRIS-HALL-1965].
#[must_use]
pub fn cockpit_limit() -> Acceleration {
    Acceleration::from_si(0.4 * STANDARD_GRAVITY_M_PER_S2)
}

/// How long the steps of a ride are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pace {
    /// As long as the struts allow at each moment.
    Adapted,
    /// All alike, and short enough for a strut on its stop: for checks of the
    /// other.
    Even,
}

/// Ride over a whole profile, by rising station, at the speed of each station.
/// The wheels start on the profile's first stretch at rest relative to it; the
/// ride ends when the nose wheel reaches the last level.
///
/// # Errors
/// [`Error`] for values out of range, a speed outside 1 to 150 m/s, a ride that
/// would need more than 20 million of them, or a profile shorter than twice the
/// wheelbase.
pub fn ride(
    aeroplane: &RigidAeroplane,
    profile: &Profile,
    speed_at: impl Fn(Length) -> Speed,
) -> Result<Ride, Error> {
    let lift_share = aeroplane.lift_share;
    let lanes = Lanes { nose: profile, main: profile };
    ride_lanes(aeroplane, lanes, |station| Motion { speed: speed_at(station), lift_share })
}

/// Ride over the ground of each lane, at the speed and with the lift of each
/// station; otherwise as [`ride`]. The ride runs over what both lanes have.
///
/// # Errors
/// As [`ride`], and for a lift outside 0 to 95 % of the weight.
pub fn ride_lanes(
    aeroplane: &RigidAeroplane,
    lanes: Lanes<'_>,
    motion_at: impl Fn(Length) -> Motion,
) -> Result<Ride, Error> {
    let rides = ride_grounds(aeroplane, &[lanes], motion_at, Pace::Adapted)?;
    rides.into_iter().next().ok_or(Error::TooShort {
        method: "a ride",
        length_m: 0.0,
        needed_m: 0.0,
    })
}

/// Ride over several grounds at the same motion, each as [`ride_lanes`]; the rides
/// run over what all of them have.
///
/// # Errors
/// As [`ride_lanes`].
pub fn ride_grounds(
    aeroplane: &RigidAeroplane,
    grounds: &[Lanes<'_>],
    motion_at: impl Fn(Length) -> Motion,
    pace: Pace,
) -> Result<Vec<Ride>, Error> {
    let course = Course { motion: &motion_at, to: metres(f64::INFINITY) };
    let ridden = ride_in_step(aeroplane, grounds, &[course], metres(0.0), pace)?;
    Ok(ridden.into_iter().flatten().collect())
}

/// Ride over several grounds on several courses, each as [`ride_grounds`]. The
/// courses are the same up to `part_at`: so far they are ridden once. Gives the
/// rides over every ground by course.
///
/// # Errors
/// As [`ride_lanes`].
pub fn ride_courses(
    aeroplane: &RigidAeroplane,
    grounds: &[Lanes<'_>],
    courses: &[Course<'_>],
    part_at: Length,
) -> Result<Vec<Vec<Ride>>, Error> {
    ride_in_step(aeroplane, grounds, courses, part_at, Pace::Adapted)
}

/// The ride over the same lanes at each of several steady speeds, with no lift.
///
/// # Errors
/// As [`ride`].
pub fn ride_by_speed(
    aeroplane: &RigidAeroplane,
    lanes: Lanes<'_>,
    speeds: &[Speed],
) -> Result<Vec<(Speed, Ride)>, Error> {
    let mut found = Vec::with_capacity(speeds.len());
    for speed in speeds {
        let motion = Motion { speed: *speed, lift_share: ratio(0.0) };
        found.push((*speed, ride_lanes(aeroplane, lanes, |_| motion)?));
    }
    Ok(found)
}

impl Ride {
    /// The greater size of the two extremes at the cockpit.
    #[must_use]
    pub fn worst_at_cockpit(&self) -> (Acceleration, Length) {
        let Extremes { up, down } = self.cockpit;
        if -down.0 > up.0 { (-down.0, down.1) } else { up }
    }
}
