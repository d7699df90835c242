//! Every formula of this crate as data, so that people can list it and
//! evaluate it by hand. The kernel named in an entry is the one that is used;
//! where a method works on a profile, the entry runs it over a shape whose
//! answer is known.

mod chords;
mod geometry;
mod ride;
mod roughness;
mod shapes;
mod water;

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

/// Geometry and mechanics that follow from the equation as written.
pub(crate) const fn derived(locator: &'static str) -> Source {
    Source::new("TEXTBOOK-PHYSICS", locator, Tier::Derived)
}

/// Every formula of this crate.
pub static FORMULAS: &[&Formula] = &[
    &chords::MID_CHORD_OF_CURVE,
    &chords::CHORD_OVER_COSINE,
    &chords::CHORD_OVER_SINE,
    &chords::CHORD_OVER_TRIANGLE,
    &chords::STRAIGHTEDGE_OVER_TRIANGLE,
    &chords::STRAIGHTEDGE_OVER_SINE,
    &chords::OFFSET_NOISE,
    &chords::FALSE_WORST,
    &chords::IRREGULARITY,
    &chords::IRREGULARITY_FOR_A_TIME,
    &chords::ACCEPTABLE_HEIGHT,
    &chords::SINGLE_OF_COSINE,
    &chords::SINGLE_OF_RAMP,
    &chords::SINGLE_OF_STEP,
    &chords::TAXI_BUMP,
    &roughness::TRANSITION,
    &roughness::GAIN,
    &roughness::INDEX_OF_SINE,
    &roughness::AVERAGED_INDEX_OF_SINE,
    &roughness::INDEX_OF_SAMPLED_SINE,
    &roughness::NOISE_INDEX,
    &roughness::SPRUNG,
    &roughness::DENSITY_AT,
    &roughness::DEVIATION_IN_BAND,
    &roughness::INDEX_OF_DENSITY,
    &roughness::PLAIN_INDEX_OF_DENSITY,
    &geometry::CREST_RADIUS,
    &geometry::SIGHT_CLEARANCE,
    &geometry::CURVE_LENGTH,
    &geometry::CHANGE_PER_30_M,
    &geometry::DISTANCE_BETWEEN_CHANGES,
    &ride::TRANSMISSIBILITY,
    &ride::RESIDUAL,
    &ride::ORIFICE,
    &ride::GAS_FORCE,
    &ride::DROP_PEAK,
    &water::RUT_STORAGE,
    &water::DEPRESSION_DEPTH,
    &water::DEPRESSION_VOLUME,
];
