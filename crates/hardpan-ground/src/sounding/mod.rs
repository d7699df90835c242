//! From soundings to strength by station.

mod along;
pub(crate) mod between;
mod change_points;
mod characteristic;
pub mod penetrometer;
pub(crate) mod penetrometer_rivals;
mod scatter;
mod sections;
mod strata;
pub(crate) mod strength_tests;
mod varied;

pub use along::{
    ACROSS_WEIGHT, DEFAULT_REACH_M, DEFAULT_REACH_SOURCE, correlation_from_reach, strength_along,
    strength_along_and_grown,
};
pub use between::{
    DEFAULT_CORRELATION_SOURCE, DEVIATION_BESIDE_SOUNDING, DEVIATION_BETWEEN_SOUNDINGS,
    LENGTHS_IN_REACH,
};
pub use characteristic::{
    Characteristic, LOWER_QUARTILE_SOURCE, MEAN_LESS_DEVIATION_SOURCE, StripSummary, WeakestPlace,
    characteristic, percentile, summarise,
};
pub use penetrometer_rivals::{
    CBR_HARISON_1987, CBR_KLEYN_1975, CBR_LIVNEH_1987, CBR_TRL, ModelSpread, model_spread,
};
pub use sections::{CUT_PROBABILITY, FEWEST_IN_SECTION, SECTIONS_SOURCE, Section, sections};
pub use strata::{CLEARLY_WEAKER, Strata, Stratum};
pub use strength_tests::{
    CBR_FROM_STIFFNESS_HEUKELOM_1962, CBR_FROM_STIFFNESS_TRL, NotCounted, STIFFNESS_CREDIT,
    Standing, bearing_from_stiffness, counted,
};
pub use varied::StrengthAlong;
