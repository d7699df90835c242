//! From points of a plane frame to levels in cells of the strip.

mod accumulator;
mod cell;
mod gridded;
mod holes;
mod levels;
mod morphology;
mod pilots;
mod settings;

pub use accumulator::Accumulator;
pub(crate) use accumulator::{PointMetres, is_noise};
pub use gridded::Gridded;
pub use settings::{GridSettings, GroundUse};
