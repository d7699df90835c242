//! The vortex along a run, and the thrust that may be set at which speed.

use crate::error::{Error, number};
use crate::inlet_flow::Air;
use crate::propeller::Propeller;
use crate::vortex::{Assurance, Inlet, RunWind, VortexState, relative_wind};
use hardpan_model::{RunPoint, RunTrace};
use hardpan_quantity::{
    Angle, Dimension, Force, Length, Quantity, Ratio, Speed, Time, metres, metres_per_second, ratio,
};

/// The vortex at one point of a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VortexPoint {
    /// Station.
    pub station: Length,
    /// Time since the run began.
    pub time: Time,
    /// Ground speed.
    pub ground_speed: Speed,
    /// Share of full thrust that the engines give there.
    pub share: Ratio,
    /// Mean velocity in the inlet.
    pub inlet_velocity: Speed,
    /// Relative wind, crosswind included, tailwind as nothing.
    pub relative_wind: Speed,
    /// Where it comes from: 0° ahead, 90° straight across.
    pub wind_angle: Angle,
    /// Velocity ratio over the critical one; infinite without relative wind.
    pub risk_index: f64,
    /// Whether a vortex stands there.
    pub state: VortexState,
}

/// One row of the thrust schedule for a rolling take-off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScheduleRow {
    /// Share of take-off thrust.
    pub share: Ratio,
    /// Do not set more before this ground speed.
    pub from_speed: Speed,
}

/// The vortex at every point of a run on the ground.
///
/// `full_thrust` is the thrust of all engines at take-off setting at an
/// airspeed; the share of it gives the air flow. Reverse thrust and a point
/// without a positive full thrust count as full flow. Points in the air are
/// left out.
///
/// # Errors
/// [`Error`] for values out of range or a choked inlet.
pub fn vortex_along(
    trace: &RunTrace,
    inlet: &Inlet,
    air: &Air,
    wind: &RunWind,
    full_thrust: impl Fn(Speed) -> Force,
) -> Result<Vec<VortexPoint>, Error> {
    let in_air = |point: &&RunPoint| point.height > metres(0.0);
    let on_ground = trace.points.iter().filter(|point| !in_air(point));
    // A run holds one share of thrust over most of its points.
    let mut before: Option<(Ratio, Speed)> = None;
    on_ground
        .map(|point| {
            let share = share_of(point.thrust.si(), full_thrust(point.airspeed).si());
            let inside = match before {
                Some((known, inside)) if known == share => inside,
                _ => inlet.velocity(share, air)?,
            };
            before = Some((share, inside));
            vortex_at(point, inlet, wind, (share, inside))
        })
        .collect()
}

fn vortex_at(
    point: &RunPoint,
    inlet: &Inlet,
    wind: &RunWind,
    (share, inside): (Ratio, Speed),
) -> Result<VortexPoint, Error> {
    let (ahead, across) = relative_wind(point.ground_speed, wind)?;
    let risk_index = inlet.risk_index_at(inside, (ahead, across))?;
    Ok(VortexPoint {
        station: point.station,
        time: point.time,
        ground_speed: point.ground_speed,
        share,
        inlet_velocity: inside,
        relative_wind: metres_per_second(ahead.hypot(across)),
        wind_angle: Angle::from_si(across.atan2(ahead)),
        risk_index,
        state: VortexState::of_index(risk_index),
    })
}

fn share_of(thrust: f64, full: f64) -> Ratio {
    if thrust >= 0.0 && full > 0.0 { ratio((thrust / full).min(1.0)) } else { ratio(1.0) }
}

/// The vortex under one propeller at one point of a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PropellerVortexPoint {
    /// Station.
    pub station: Length,
    /// Time since the run began.
    pub time: Time,
    /// Ground speed.
    pub ground_speed: Speed,
    /// Thrust of one propeller.
    pub thrust: Force,
    /// Whether a vortex stands there.
    pub state: VortexState,
}

/// The ground vortex under each of `count` equal propellers at every point of a
/// run on the ground. Reverse thrust counts as a vortex. Points in the air are
/// left out.
///
/// # Errors
/// [`Error`] for values out of range or no propeller.
pub fn propeller_vortex_along(
    trace: &RunTrace,
    propeller: &Propeller,
    count: u32,
    air: &Air,
    wind: &RunWind,
) -> Result<Vec<PropellerVortexPoint>, Error> {
    let count = number("propellers", f64::from(count), 1.0..=8.0, Dimension::Count)?;
    let in_air = |point: &&RunPoint| point.height > metres(0.0);
    let on_ground = trace.points.iter().filter(|point| !in_air(point));
    on_ground
        .map(|point| {
            let thrust = point.thrust / count;
            let state = if thrust.si() < 0.0 {
                VortexState::On
            } else {
                propeller.vortex(thrust, air, point.ground_speed, wind)?
            };
            Ok(PropellerVortexPoint {
                station: point.station,
                time: point.time,
                ground_speed: point.ground_speed,
                thrust,
                state,
            })
        })
        .collect()
}

/// Stretches of a run on which the vortex is in a state, by station, in the
/// order of the run.
#[must_use]
pub fn stretches(
    points: impl IntoIterator<Item = (Length, VortexState)>,
    state: VortexState,
) -> Vec<(Length, Length)> {
    let points: Vec<_> = points.into_iter().collect();
    points
        .chunk_by(|a, b| a.1 == b.1)
        .filter_map(|run| Some((run.first()?, run.last()?)))
        .filter(|(first, _)| first.1 == state)
        .map(|(first, last)| (first.0, last.0))
        .collect()
}

/// The thrust schedule of a rolling take-off: for each tenth of take-off
/// thrust the ground speed before which no more may be set.
///
/// # Errors
/// [`Error`] for values out of range or a choked inlet.
pub fn rolling_schedule(
    inlet: &Inlet,
    air: &Air,
    wind: &RunWind,
    assurance: Assurance,
) -> Result<Vec<ScheduleRow>, Error> {
    (1..=10)
        .map(|tenth| {
            let share = ratio(f64::from(tenth) / 10.0);
            let from_speed = inlet.lowest_speed_for(share, air, wind, assurance)?;
            Ok(ScheduleRow { share, from_speed })
        })
        .collect()
}

/// A schedule raised so that straight lines between its rows set no more than
/// the boundary allows: the share free of a vortex goes with the square of the
/// airspeed, and its chords lie above it, by `(a + b)²/(4 a b)` at most between
/// airspeeds a and b. Rows at standstill stay.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn straight_schedule(rows: &[ScheduleRow], wind: &RunWind) -> Result<Vec<ScheduleRow>, Error> {
    let still = metres_per_second(0.0);
    let airspeed = |row: &ScheduleRow| Ok(relative_wind(row.from_speed, wind)?.0);
    let moving = rows.iter().filter(|row| row.from_speed > still);
    let speeds = moving.map(airspeed).collect::<Result<Vec<f64>, Error>>()?;
    let pairs = speeds.windows(2).filter_map(|pair| match pair {
        [a, b] if *a > 0.0 && *b > 0.0 => Some((a + b) / (2.0 * (a * b).sqrt())),
        _ => None,
    });
    let raise = pairs.fold(1.0, f64::max);
    let raised = |row: &ScheduleRow| {
        if row.from_speed <= still {
            return *row;
        }
        let from_speed = raise * (row.from_speed + wind.headwind) - wind.headwind;
        ScheduleRow { from_speed, ..*row }
    };
    Ok(rows.iter().map(raised).collect())
}

/// Greatest share of take-off thrust that may be set standing still.
///
/// # Errors
/// [`Error`] for values out of range.
pub fn static_share(
    inlet: &Inlet,
    air: &Air,
    wind: &RunWind,
    assurance: Assurance,
) -> Result<Ratio, Error> {
    inlet.greatest_share(air, metres_per_second(0.0), wind, assurance)
}
