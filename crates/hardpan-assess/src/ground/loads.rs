//! The load of each leg by station: what really comes there.

use crate::ground::{Ground, StationLoads};
use crate::measured::{Known, Measured};
use crate::runs::{Case, Runs};
use hardpan_ground::LegLoads;
use hardpan_model::{Flight, RunTrace, TaxiStretch};
use hardpan_quantity::{Force, Length, Mass, Quantity, Ratio};
use std::sync::Arc;

/// Loads that a movement brings to the stations of the ground at a mass and a
/// centre of gravity, which must be that of the movement.
pub(crate) fn brought<C: Case>(
    flight: &Flight,
    measured: &Measured,
    runs: &Runs<C>,
    (mass, centre): (Mass, Ratio),
) -> Arc<Known<StationLoads>> {
    runs.loads(mass, |traces| {
        let ground = measured.ground.as_ref().map_err(Clone::clone)?;
        let arms = measured.arms.as_ref().map_err(Clone::clone)?;
        let standing = arms.standing(mass, centre)?;
        Ok(station_loads(&ground.stations(), standing, flight.taxi.as_deref(), traces))
    })
}

/// What comes to the stations of the ground at the least, whatever the run is: the
/// static load wherever the aeroplane taxis.
pub(crate) fn at_least(flight: &Flight, ground: &Ground, standing: LegLoads) -> StationLoads {
    station_loads(&ground.stations(), standing, flight.taxi.as_deref(), &[])
}

/// Greatest leg loads by station: the runs as they went, and the static load
/// wherever the aeroplane taxis (everywhere when that is not stated).
pub(crate) fn station_loads(
    stations: &[Length],
    standing: LegLoads,
    taxi: Option<&[TaxiStretch]>,
    runs: &[&RunTrace],
) -> StationLoads {
    let taxis = |station: Length| match taxi {
        None => true,
        Some(stretches) => {
            stretches.iter().any(|stretch| station >= stretch.from.value && station <= stretch.to)
        }
    };
    let none = Force::from_si(0.0);
    let (mut main, mut nose): (Vec<Force>, Vec<Force>) =
        stations
            .iter()
            .map(|station| {
                if taxis(*station) { (standing.main_leg, standing.nose_leg) } else { (none, none) }
            })
            .unzip();
    for run in runs {
        for pair in run.points.windows(2) {
            let [before, after] = pair else { continue };
            let (from, to) = if before.station <= after.station {
                (before.station, after.station)
            } else {
                (after.station, before.station)
            };
            let first = stations.partition_point(|station| *station < from).saturating_sub(1);
            let last = stations.partition_point(|station| *station <= to);
            let main_load = before.main_leg_load.max(after.main_leg_load);
            let nose_load = before.nose_leg_load.max(after.nose_leg_load);
            let reached = first..(last + 1).min(stations.len());
            raise(&mut main, reached.clone(), main_load);
            raise(&mut nose, reached, nose_load);
        }
    }
    StationLoads { main, nose }
}

fn raise(loads: &mut [Force], reached: std::ops::Range<usize>, load: Force) {
    for one in loads.get_mut(reached).into_iter().flatten() {
        *one = one.max(load);
    }
}
