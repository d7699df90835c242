//! READ: what surveyors deliver, laid on the station axis of the strip and
//! turned into survey lines. It is handed bytes and numbers and opens no file.

mod cloud;
mod error;
mod gridding;
mod jumps;
pub mod made;
mod place;
mod points;
mod raster;

pub use cloud::{CloudInput, CloudRequest, CloudUnit, cloud_footprint, read_cloud};
pub use error::Error;
pub use gridding::{Accumulator, GridSettings, Gridded, GroundUse};
pub use jumps::{LevelJump, level_jumps};
pub use place::{
    AxisStart, FittedAxis, Geographic, GlobeAxis, LocalPlane, PlanePoint, StationAxis,
    covered_axis, fitted_axis,
};
pub use points::{LEAST_NOISE_M, PlacedPoint, WalkedLines, walked_lines};
pub use raster::{
    AsciiGridError, Grid, GridUnits, SampledLines, ascii_grid, geotiff, sampled_lines,
};
