//! Point clouds in LAS and LAZ.

mod footprint;
mod read;
mod signature;
mod unit;
mod wkt;

pub use footprint::cloud_footprint;
pub use read::{CloudInput, CloudRequest, read_cloud};
pub use unit::CloudUnit;
pub(crate) use unit::units_of_keys;
