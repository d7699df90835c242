//! How an aeroplane rides over a line of the survey: a rigid body in heave and
//! pitch on nose and main gear, driven at the speed that it has at each station.
//!
//! The answer is held against ± 0.4 g at the cockpit [MORRIS-HALL-1965]. No
//! bending of the fuselage: slender aeroplanes ride worse than this.

pub(crate) mod strut;
mod waves;

use crate::error::{Error, setting};
use crate::profile::Profile;
use crate::ride::strut::{Law, Support, runge_kutta};
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

/// Height, pitch (nose down), height of both wheels, and their rates.
type State = [f64; 8];

struct Leg {
    law: Law,
    /// Ahead of the centre of gravity; negative behind.
    ahead: f64,
    load: f64,
    stroke: f64,
    deflection: f64,
    /// Load on the ground when the wing carries nothing.
    standing: f64,
}

/// What one leg does at a moment.
struct Push {
    on_body: f64,
    on_ground: f64,
    wheel_acceleration: f64,
    bottomed: bool,
}

impl Leg {
    /// A leg that carries `load` of the body now, and `standing` without lift.
    fn new(support: &Support, ahead: f64, load: f64, standing: f64) -> Result<Self, Error> {
        match support.law()? {
            law @ Law::Spring { .. } => {
                Ok(Self { law, ahead, load, stroke: 0.0, deflection: 0.0, standing })
            }
            Law::Oleo(oleo) => {
                let oleo = oleo.for_a_ride();
                let wheels = oleo.unsprung * STANDARD_GRAVITY_M_PER_S2;
                Ok(Self {
                    law: Law::Oleo(oleo),
                    ahead,
                    load,
                    stroke: oleo.static_stroke(load),
                    deflection: oleo.static_deflection(load + wheels),
                    standing: standing + wheels,
                })
            }
        }
    }

    fn push(&self, body: (f64, f64), wheel: (f64, f64), ground: (f64, f64)) -> Push {
        match self.law {
            Law::Spring { stiffness, damping } => {
                let change = stiffness * (ground.0 - body.0) + damping * (ground.1 - body.1);
                let force = (self.load + change).max(0.0);
                Push { on_body: force, on_ground: force, wheel_acceleration: 0.0, bottomed: false }
            }
            Law::Oleo(oleo) => {
                let stroke = self.stroke + wheel.0 - body.0;
                let strut = oleo.force(stroke, wheel.1 - body.1);
                let tyre = oleo.tyre_force(self.deflection + ground.0 - wheel.0);
                let down = strut + oleo.unsprung * STANDARD_GRAVITY_M_PER_S2;
                Push {
                    on_body: strut,
                    on_ground: tyre,
                    wheel_acceleration: (tyre - down) / oleo.unsprung,
                    bottomed: stroke >= oleo.bottom(),
                }
            }
        }
    }

    fn fastest(&self, mass: f64) -> f64 {
        match self.law {
            Law::Spring { stiffness, damping } => (stiffness / mass).sqrt() + damping / mass,
            Law::Oleo(oleo) => oleo.fastest(),
        }
    }
}

struct Body {
    mass: f64,
    inertia: f64,
    cockpit: f64,
    nose: Leg,
    main: Leg,
}

struct Moment {
    rates: State,
    nose: Push,
    main: Push,
}

impl Body {
    fn of(aeroplane: &RigidAeroplane, lift_share: Ratio) -> Result<Self, Error> {
        let mass = setting("mass above the struts", aeroplane.mass.si(), 100.0..=1e6, "kg")?;
        let gyration = setting("radius of gyration", aeroplane.gyration.si(), 0.1..=50.0, "m")?;
        let ahead = setting("nose gear ahead", aeroplane.nose_ahead.si(), 0.1..=60.0, "m")?;
        let behind = setting("main gear behind", aeroplane.main_behind.si(), 0.01..=20.0, "m")?;
        let cockpit = setting("cockpit ahead", aeroplane.cockpit_ahead.si(), -60.0..=60.0, "m")?;
        let share = lift_share_of(lift_share)?;
        let weight = mass * STANDARD_GRAVITY_M_PER_S2;
        let carried = weight * (1.0 - share);
        let wheelbase = ahead + behind;
        Ok(Self {
            mass,
            inertia: mass * gyration * gyration,
            cockpit,
            nose: Leg::new(
                &aeroplane.nose,
                ahead,
                carried * behind / wheelbase,
                weight * behind / wheelbase,
            )?,
            main: Leg::new(
                &aeroplane.main,
                -behind,
                carried * ahead / wheelbase,
                weight * ahead / wheelbase,
            )?,
        })
    }

    /// Accelerations and loads with a share of the weight on the wing.
    fn moment(
        &self,
        state: &State,
        share: f64,
        (nose_ground, main_ground): ((f64, f64), (f64, f64)),
    ) -> Moment {
        let lift = share * self.mass * STANDARD_GRAVITY_M_PER_S2;
        let [z, pitch, nose, main, z_rate, pitch_rate, nose_rate, main_rate] = *state;
        let over = |leg: &Leg| (z - leg.ahead * pitch, z_rate - leg.ahead * pitch_rate);
        let nose_push = self.nose.push(over(&self.nose), (nose, nose_rate), nose_ground);
        let main_push = self.main.push(over(&self.main), (main, main_rate), main_ground);
        let force = nose_push.on_body + main_push.on_body + lift;
        let turning = -self.nose.ahead * nose_push.on_body - self.main.ahead * main_push.on_body;
        let rates = [
            z_rate,
            pitch_rate,
            nose_rate,
            main_rate,
            force / self.mass - STANDARD_GRAVITY_M_PER_S2,
            turning / self.inertia,
            nose_push.wheel_acceleration,
            main_push.wheel_acceleration,
        ];
        Moment { rates, nose: nose_push, main: main_push }
    }

    fn at_rest_on(&self, nose: (f64, f64), main: (f64, f64)) -> State {
        let wheelbase = self.nose.ahead - self.main.ahead;
        let pitch = (main.0 - nose.0) / wheelbase;
        let pitch_rate = (main.1 - nose.1) / wheelbase;
        let z = main.0 + self.main.ahead * pitch;
        let z_rate = main.1 + self.main.ahead * pitch_rate;
        [z, pitch, nose.0, main.0, z_rate, pitch_rate, nose.1, main.1]
    }
}

fn lift_share_of(share: Ratio) -> Result<f64, Error> {
    setting("share of lift", share.si(), 0.0..=0.95, "")
}

/// Level and slope of a profile, straight between its levels and level beyond them.
fn ground(profile: &Profile, station: f64) -> (f64, f64) {
    let z = profile.elevations_m();
    let at = (station - profile.station_m(0)) / profile.spacing_m();
    let last = z.len().saturating_sub(1);
    let index = (at.max(0.0) as usize).min(last.saturating_sub(1));
    match (z.get(index), z.get(index + 1)) {
        (Some(a), Some(b)) if at >= 0.0 && at <= last as f64 => {
            (a + (b - a) * (at - index as f64), (b - a) / profile.spacing_m())
        }
        (Some(first), _) if at < 0.0 => (*first, 0.0),
        _ => (z.last().copied().unwrap_or(0.0), 0.0),
    }
}

/// Ride over a whole profile, by rising station, at the speed of each station.
/// The wheels start on the profile's first stretch at rest relative to it; the
/// ride ends when the nose wheel reaches the last level.
///
/// # Errors
/// [`Error`] for values out of range, a speed outside 1 to 150 m/s, a step that
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
    let (nose_lane, main_lane) = (lanes.nose.stretch(), lanes.main.stretch());
    let from = nose_lane.from.max(main_lane.from).si();
    let to = nose_lane.to.min(main_lane.to).si();
    let first = from + aeroplane.main_behind.si();
    let at_start = motion_at(metres(first));
    let body = Body::of(aeroplane, at_start.lift_share)?;
    let wheelbase = body.nose.ahead - body.main.ahead;
    if to - from < 2.0 * wheelbase {
        return Err(Error::TooShort {
            method: "a ride",
            length_m: to - from,
            needed_m: 2.0 * wheelbase,
        });
    }
    let fastest = body.nose.fastest(body.mass).max(body.main.fastest(body.mass)).max(1.0);
    let step = (0.75 / fastest).min(1e-3);
    let last = to - body.nose.ahead;
    let motion = |station: f64| -> Result<(f64, f64), Error> {
        let motion = motion_at(metres(station));
        let speed = setting("speed of the ride", motion.speed.si(), 1.0..=150.0, "m/s")?;
        Ok((speed, lift_share_of(motion.lift_share)?))
    };
    let under = |station: f64, v: f64| {
        let (nose, nose_slope) = ground(lanes.nose, station + body.nose.ahead);
        let (main, main_slope) = ground(lanes.main, station + body.main.ahead);
        ((nose, nose_slope * v), (main, main_slope * v))
    };
    let (v, _) = motion(first)?;
    let (nose, main) = under(first, v);
    let mut state = body.at_rest_on(nose, main);
    let mut station = first;
    let mut level =
        Level { state: body.at_rest_on((0.0, 0.0), (0.0, 0.0)), share: at_start.lift_share.si() };
    let mut log = Log::new(first);
    let mut steps = 0_u32;
    while station < last {
        let (v, share) = motion(station)?;
        let moment = body.moment(&state, share, under(station, v));
        log.note(&body, &moment, level.accelerations(&body, share, step), station);
        state = advance(&body, state, (step, share), |time| under(station + time * v, v));
        station += step * v;
        steps += 1;
        setting("steps of the ride", f64::from(steps), 0.0..=2e7, "")?;
    }
    Ok(log.ride)
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

/// One step of the motion with the ground moving under the wheels: the time
/// runs as a ninth state.
fn advance(
    body: &Body,
    state: State,
    (step, share): (f64, f64),
    ground: impl Fn(f64) -> ((f64, f64), (f64, f64)),
) -> State {
    let [a, b, c, d, e, f, g, h] = state;
    let rate = |s: [f64; 9]| {
        let [a, b, c, d, e, f, g, h, time] = s;
        let [ra, rb, rc, rd, re, rf, rg, rh] =
            body.moment(&[a, b, c, d, e, f, g, h], share, ground(time)).rates;
        [ra, rb, rc, rd, re, rf, rg, rh, 1.0]
    };
    let [a, b, c, d, e, f, g, h, _] = runge_kutta([a, b, c, d, e, f, g, h, 0.0], step, &rate);
    [a, b, c, d, e, f, g, h]
}

/// The same motion over level ground: what a change of lift alone does.
struct Level {
    state: State,
    share: f64,
}

impl Level {
    /// Heave and pitch acceleration now, and on by a step; none while the lift
    /// has not changed yet.
    fn accelerations(&mut self, body: &Body, share: f64, step: f64) -> (f64, f64) {
        if share == self.share {
            return (0.0, 0.0);
        }
        self.share = f64::NAN;
        let flat = ((0.0, 0.0), (0.0, 0.0));
        let [.., heave, pitch, _, _] = body.moment(&self.state, share, flat).rates;
        self.state = advance(body, self.state, (step, share), |_| flat);
        (heave, pitch)
    }
}

struct Log {
    ride: Ride,
}

impl Log {
    fn new(station: f64) -> Self {
        let none = (Acceleration::from_si(0.0), metres(station));
        let still = Extremes { up: none, down: none };
        Self {
            ride: Ride {
                cockpit: still,
                centre: still,
                load_factors: (ratio(0.0), ratio(0.0)),
                left_ground: (false, false),
                bottomed: (false, false),
            },
        }
    }

    fn note(&mut self, body: &Body, moment: &Moment, level: (f64, f64), station: f64) {
        let [.., heave, pitch, _, _] = moment.rates;
        let (heave, pitch) = (heave - level.0, pitch - level.1);
        extend(&mut self.ride.centre, heave, station);
        extend(&mut self.ride.cockpit, heave - body.cockpit * pitch, station);
        let ride = &mut self.ride;
        let factor = |push: &Push, leg: &Leg| ratio(push.on_ground / leg.standing);
        ride.load_factors.0 = ride.load_factors.0.max(factor(&moment.nose, &body.nose));
        ride.load_factors.1 = ride.load_factors.1.max(factor(&moment.main, &body.main));
        ride.left_ground.0 |= moment.nose.on_ground <= 0.0;
        ride.left_ground.1 |= moment.main.on_ground <= 0.0;
        ride.bottomed.0 |= moment.nose.bottomed;
        ride.bottomed.1 |= moment.main.bottomed;
    }
}

fn extend(extremes: &mut Extremes, value: f64, station: f64) {
    let value = Acceleration::from_si(value);
    if value > extremes.up.0 {
        extremes.up = (value, metres(station));
    }
    if value < extremes.down.0 {
        extremes.down = (value, metres(station));
    }
}

impl Ride {
    /// The greater size of the two extremes at the cockpit.
    #[must_use]
    pub fn worst_at_cockpit(&self) -> (Acceleration, Length) {
        let Extremes { up, down } = self.cockpit;
        if -down.0 > up.0 { (-down.0, down.1) } else { up }
    }
}
