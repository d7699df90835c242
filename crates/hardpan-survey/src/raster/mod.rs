//! Grids of levels in one plane frame.

mod ascii_grid;
mod geotiff;
mod grid;
mod sampled_lines;

pub use ascii_grid::{AsciiGridError, GridUnits, ascii_grid};
pub use geotiff::geotiff;
pub use grid::Grid;
pub use sampled_lines::{SampledLines, sampled_lines};
