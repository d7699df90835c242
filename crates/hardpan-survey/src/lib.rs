//! READ: what surveyors deliver, laid on the station axis of the strip and
//! turned into survey lines. It is handed bytes and numbers and opens no file.

mod error;
mod place;

pub use error::Error;
pub use place::{PlanePoint, StationAxis};
