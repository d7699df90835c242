//! What a leg asks of the ground, and whether the ground has it.

mod gravel;
mod greatest_load;
mod judge;
mod largest;
pub(crate) mod leg_bearing;
mod requirement;
pub(crate) mod surface_shear;
pub(crate) mod unsurfaced;

pub use gravel::{NeededGravel, needed_thickness};
pub use greatest_load::GreatestLoad;
pub use judge::{
    DEEP_ENOUGH_PERCENT, DEEP_ENOUGH_SOURCE, LEAST_KNOWN_DEPTH_M, PointDemand, PointJudgement,
    UnknownGround, UnknownReason, judge_point, point_carries,
};
pub use largest::{LimitedBy, LoadLimit, PressureLimit, largest_leg_load, largest_pressure};
pub use leg_bearing::LEG_BEARING;
pub use requirement::{NOMINAL_COVER_M, NOMINAL_COVER_SOURCE, RequirementTable};
pub use surface_shear::{INCLINED_BEARING, SurfaceShear, UNDRAINED_STRENGTH, surface_shear};
pub use unsurfaced::{FEWEST_COVERAGES, HAMMITT_BEARING, HAMMITT_COVER, MOST_COVERAGES};
