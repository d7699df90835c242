//! READ: what surveyors deliver, laid on the station axis of the strip and
//! turned into survey lines. It is handed bytes and numbers and opens no file.

mod cloud;
mod error;
mod gridding;
pub mod made;
mod place;

pub use cloud::{CloudInput, CloudRequest, CloudUnit, read_cloud};
pub use error::Error;
pub use gridding::{Accumulator, GridSettings, Gridded, GroundUse};
pub use place::{PlanePoint, StationAxis};
