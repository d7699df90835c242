//! How one aeroplane rides the strip: what pictures and programs show of it.

use super::Shown;
use crate::measured::{Measured, Unavailable};
use crate::rides::RunRide;
use crate::rides::steady::steady;
use hardpan_model::{Flight, Lane};
use hardpan_quantity::{Acceleration, Length, Mass, Quantity, Ratio, Speed};
use hardpan_surface::{Ride, cockpit_limit};

/// The rides of a flight's planned movements, and of its heaviest at steady speeds.
#[derive(Debug, Clone, PartialEq)]
pub struct RideSheet {
    /// Name of the aeroplane.
    pub aeroplane: String,
    /// Greatest acceleration at the cockpit where precise control is needed.
    pub limit: Acceleration,
    /// What survey noise alone would show there, if it was ridden over.
    pub noise: Option<Acceleration>,
    /// Each planned run over each main lane.
    pub runs: Vec<RidePlace>,
    /// Steady speeds over the worse main lane, by rising speed.
    pub by_speed: Vec<RidePlace>,
    /// By length, then by speed.
    pub waves: Vec<WaveLimit>,
}

/// The worst moment of one ride.
#[derive(Debug, Clone, PartialEq)]
pub struct RidePlace {
    /// The run in words, or `steady speed`.
    pub run: &'static str,
    /// The main lane; the nose wheels take the centre.
    pub lane: Lane,
    /// Mass on the struts; none at steady speeds, which ride the heaviest run's.
    pub mass: Option<Mass>,
    /// Greatest acceleration at the cockpit, either way.
    pub cockpit: Acceleration,
    /// Greatest acceleration at the centre of gravity, either way.
    pub centre: Acceleration,
    /// Greatest load of nose and main gear over that of standing still.
    pub load_factors: (Ratio, Ratio),
    /// Where the centre of gravity was when the cockpit felt most.
    pub station: Length,
    /// Ground speed there.
    pub speed: Speed,
    /// Whether a strut bottomed or a wheel left the ground.
    pub bottomed: bool,
    /// Whether wheels left the ground.
    pub left_ground: bool,
}

/// The height at which 1-cosine waves of one length bring the limit to the
/// cockpit at one speed; none where no height up to 300 mm does.
#[derive(Debug, Clone, PartialEq)]
pub struct WaveLimit {
    /// Length of the wave on the ground.
    pub length: Length,
    /// Ground speed.
    pub speed: Speed,
    /// Height of a single bump.
    pub bump: Option<Length>,
    /// Depth of a single dip.
    pub dip: Option<Length>,
    /// Height of each of three bumps in a row.
    pub row: Option<Length>,
}

pub(super) fn of(flight: &Flight, measured: &Measured) -> Shown<RideSheet> {
    let told = |why: &Unavailable| match why.needs.first() {
        Some(need) => format!("{}; first of them {}", why.because, need.what),
        None => why.because.clone(),
    };
    let rides = measured.rides(flight).map_err(told)?;
    let steady = steady(flight, measured).map_err(|why| told(&why))?;
    let name = flight.aeroplane.name.as_ref();
    Ok(RideSheet {
        aeroplane: name.map_or_else(|| "aeroplane".to_owned(), |name| name.value.clone()),
        limit: cockpit_limit(),
        noise: rides.noise,
        runs: rides.all.iter().map(run).collect(),
        by_speed: steady
            .by_speed
            .iter()
            .map(|one| place("steady speed", one.lane, &one.ride, one.speed))
            .collect(),
        waves: steady
            .waves
            .into_iter()
            .map(|one| WaveLimit {
                length: one.length,
                speed: one.speed,
                bump: one.bump,
                dip: one.dip,
                row: one.row,
            })
            .collect(),
    })
}

fn run(one: &RunRide) -> RidePlace {
    let ridden = place(one.run, one.lane, &one.ride, one.speed);
    RidePlace { mass: Some(one.mass), station: one.station, ..ridden }
}

fn place(run: &'static str, lane: Lane, ride: &Ride, speed: Speed) -> RidePlace {
    let (cockpit, station) = ride.worst_at_cockpit();
    let centre = ride.centre.up.0.si().max(-ride.centre.down.0.si());
    RidePlace {
        run,
        lane,
        mass: None,
        cockpit,
        centre: Acceleration::from_si(centre),
        load_factors: ride.load_factors,
        station,
        speed,
        bottomed: ride.bottomed.0 || ride.bottomed.1,
        left_ground: ride.left_ground.0 || ride.left_ground.1,
    }
}
