//! The ground vortex under propellers.

use crate::context::Context;
use crate::draft::{given, need};
use crate::measured::{Known, Unavailable};
use crate::vortex::{Exposure, FOOTPRINT_OVER_DIAMETER, air_and_wind, engines};
use hardpan_debris::{PROPELLER_VORTEX_TIER, Propeller, VortexState, propeller_vortex_along};
use hardpan_model::{BasisInput, Flight, Source};
use hardpan_quantity::{Force, Speed};
use hardpan_run::TakeOffRun;

/// Source of every figure that rests on the sink disc.
pub(crate) const SINK_DISC: Source = Source::new(
    "TEXTBOOK-PHYSICS",
    "actuator disc as a sink disc and its image, with a judged band",
    PROPELLER_VORTEX_TIER,
);

/// The propeller as it stands.
pub(crate) fn propeller(flight: &Flight) -> Known<Propeller> {
    let engines = &flight.aeroplane.engines;
    match (&engines.propeller_diameter, &engines.propeller_height) {
        (Some(diameter), Some(height)) => {
            Ok(Propeller { diameter: diameter.value, height: height.value })
        }
        _ => Err(Unavailable::missing(
            "the propeller vortex",
            vec![need(
                "aeroplane: engines.propeller_diameter, propeller_height",
                "from the drawing, the aeroplane standing on its wheels",
            )],
        )),
    }
}

/// What the file says of the propeller, as inputs.
pub(crate) fn propeller_inputs(flight: &Flight) -> Vec<BasisInput> {
    let engines = &flight.aeroplane.engines;
    let rows = [
        engines.propeller_diameter.as_ref().map(|value| given("propeller diameter", value)),
        engines.propeller_height.as_ref().map(|value| given("height of its axis", value)),
        engines.shaft_power.as_ref().map(|value| given("shaft power of an engine", value)),
    ];
    rows.into_iter().flatten().collect()
}

/// Thrust of one propeller at take-off power, standing.
pub(crate) fn static_thrust(flight: &Flight, run: &TakeOffRun) -> Known<Force> {
    Ok(run.full_thrust.at(Speed::default()) / f64::from(engines(flight)?.max(1)))
}

/// Where a vortex stands under the propellers during a take-off with its trace.
pub(crate) fn propeller_exposure(context: &Context<'_>, run: &TakeOffRun) -> Known<Exposure> {
    propeller_exposure_of(context, run, &propeller(context.flight)?)
}

/// The same for a propeller at another height.
pub(crate) fn propeller_exposure_of(
    context: &Context<'_>,
    run: &TakeOffRun,
    propeller: &Propeller,
) -> Known<Exposure> {
    let (air, wind) = air_and_wind(context)?;
    let count = engines(context.flight)?;
    let missing = || Unavailable::missing("the vortex along the run", Vec::new());
    let trace = run.trace.as_ref().ok_or_else(missing)?;
    let points = propeller_vortex_along(trace, propeller, count, &air, &wind)
        .map_err(|error| Unavailable::refused("the vortex along the run", &error))?;
    let places = points.iter().map(|point| (point.station, point.state));
    let last = points.iter().rfind(|point| point.state != VortexState::Off);
    let last = last.map(|point| (point.time, point.ground_speed));
    Ok(Exposure::of(places, last, count, FOOTPRINT_OVER_DIAMETER * propeller.diameter))
}
