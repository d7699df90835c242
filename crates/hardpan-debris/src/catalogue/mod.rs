//! Every formula of this crate as data, so that people can list it and
//! evaluate it by hand. The kernel named in an entry is the one that is used.

mod dust;
mod ground;
mod stones;
mod vortex;

use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;

/// Adapts a kernel of plain SI values to the catalogue.
macro_rules! kernel {
    ($function:expr, $($value:ident),+) => {
        |values| match values {
            [$($value),+] => ($function)($(*$value),+),
            _ => f64::NAN,
        }
    };
}
pub(crate) use kernel;

pub(crate) const fn argument(
    name: &'static str,
    symbol: &'static str,
    dimension: Dimension,
    minimum: f64,
    maximum: f64,
) -> Argument {
    Argument::new(name, symbol, dimension, minimum, maximum)
}

/// Physics that follows from the equation as written.
pub(crate) const fn derived(locator: &'static str) -> Source {
    Source::new("TEXTBOOK-PHYSICS", locator, Tier::Derived)
}

/// Every formula of this crate.
pub static FORMULAS: &[&Formula] = &[
    &vortex::INLET_MASS_FLUX,
    &vortex::INLET_VELOCITY,
    &vortex::INLET_VELOCITY_AT_MACH,
    &vortex::PART_THRUST_FLOW,
    &vortex::ONSET_LINE,
    &vortex::CRITICAL_RATIO,
    &vortex::BLOW_AWAY_WIND,
    &vortex::STREAMTUBE_BOUND,
    &vortex::POINT_SINK_BOUND,
    &vortex::DISC_BOUND_AHEAD,
    &vortex::DISC_BOUND_ACROSS,
    &vortex::GROUND_INFLOW,
    &vortex::CORE_SPEED_TO_LIFT,
    &vortex::DISSIPATOR_GROUND_SPEED,
    &vortex::PROPELLER_INDUCED_SPEED,
    &vortex::PROPELLER_SLIPSTREAM_DIAMETER,
    &vortex::PROPELLER_STATIC_THRUST,
    &vortex::PROPELLER_BLOW_AWAY,
    &vortex::PROPELLER_FREE_THRUST,
    &stones::SPHERE_MASS,
    &stones::IMPACT_ENERGY,
    &stones::STOPPING_LENGTH,
    &stones::FLIGHT_RANGE,
    &stones::FLIGHT_APEX,
    &stones::FLIGHT_TIME,
    &stones::FLIGHT_LANDING_SPEED,
    &stones::DESCENT_SPEED,
    &stones::SPEED_TO_REACH,
    &stones::STRIKE_DISTANCE,
    &stones::EDGE_STONES,
    &stones::SECANT_STIFFNESS,
    &stones::PLUG_ENERGY,
    &stones::DENT_DEPTH,
    &stones::DELAMINATION_LOAD,
    &stones::SMALL_MASS_SPEED,
    &dust::SHAO_LU,
    &dust::BAGNOLD,
    &dust::SHEET_SPEED,
    &dust::WIND_AT_HEIGHT,
    &dust::SINGLE_STONE,
    &dust::SINGLE_STONE_SIZE,
    &dust::SPEED_IN_STREAM,
    &dust::STOKES,
    &dust::FERGUSON_CHURCH,
    &dust::HAIDER_LEVENSPIEL_CONSTANT,
    &dust::HAIDER_LEVENSPIEL_DRAG,
    &dust::HAIDER_LEVENSPIEL,
    &dust::SETTLING_EXPLICIT,
    &dust::VEHICLE_DUST,
    &dust::CLOUD_TIME,
    &dust::CLEARING_TIME,
    &ground::JET_SPEED,
    &ground::JET_REACH,
    &ground::MOMENTUM_DIAMETER,
    &ground::BLAST_PRESSURE,
    &ground::SPEED_OF_PRESSURE,
    &ground::PENETRATION,
    &ground::REVERSE_CUT_OFF,
    &ground::CAPTURED_RADIUS,
    &ground::LOWERING,
    &ground::CABLE_WAVE,
    &ground::EDGE_PUSH,
];
