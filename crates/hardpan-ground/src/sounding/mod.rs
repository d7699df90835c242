//! From soundings to strength by station.

mod along;
mod change_points;
mod characteristic;
pub mod penetrometer;
pub(crate) mod penetrometer_rivals;
mod strata;
pub(crate) mod strength_tests;
mod varied;

pub use along::{ACROSS_WEIGHT, DEFAULT_REACH_M, DEFAULT_REACH_SOURCE, strength_along};
pub use characteristic::{
    Characteristic, LOWER_QUARTILE_SOURCE, MEAN_LESS_DEVIATION_SOURCE, StripSummary, WeakestPlace,
    characteristic, summarise,
};
pub use penetrometer_rivals::{
    CBR_HARISON_1987, CBR_KLEYN_1975, CBR_LIVNEH_1987, CBR_TRL, ModelSpread, model_spread,
};
pub use strata::{CLEARLY_WEAKER, Strata, Stratum};
pub use strength_tests::{
    CBR_FROM_STIFFNESS_HEUKELOM_1962, CBR_FROM_STIFFNESS_TRL, NotCounted, STIFFNESS_CREDIT,
    Standing, bearing_from_stiffness, counted,
};
pub use varied::StrengthAlong;
