//! From a grid to survey lines along the strip.

use super::grid::Grid;
use crate::jumps::one_unit;
use crate::{Error, StationAxis};
use hardpan_model::{SurveyLine, SurveyPoint};
use hardpan_quantity::{Length, Quantity, metres};

/// Shortest step along a line and shortest distance between lines, however
/// fine the grid. Source: judgement.
const ALONG_M: f64 = 0.5;
const ACROSS_M: f64 = 1.0;
/// Longest strip and widest, in metres; they bound the work.
const LENGTH_LIMIT_M: f64 = 10_000.0;
const WIDTH_LIMIT_M: f64 = 300.0;

/// Survey lines and what of the strip has no level.
#[derive(Debug, Clone, PartialEq)]
pub struct SampledLines {
    /// Lines by rising offset.
    pub lines: Vec<SurveyLine>,
    /// Places that were looked up.
    pub places: usize,
    /// Places without a level: not surveyed.
    pub missing: usize,
}

/// The levels of a grid along the strip: at each step of a cell, but no finer
/// than 0.5 m along and 1 m across, offset 0 among the lines.
///
/// # Errors
/// [`Error`] when the strip is too large, no cell of it has a level, or its
/// levels are in two units.
pub fn sampled_lines(
    grid: &Grid,
    axis: &StationAxis,
    length: Length,
    width: Length,
) -> Result<SampledLines, Error> {
    let (length_m, width_m) = (length.si(), width.si());
    for (name, value_m, most_m) in [
        ("length of the strip", length_m, LENGTH_LIMIT_M),
        ("width of the strip", width_m, WIDTH_LIMIT_M),
    ] {
        if !(1.0..=most_m).contains(&value_m) {
            return Err(Error::SettingOutOfRange { name, value_m, least_m: 1.0, most_m });
        }
    }
    let (along, across) = (grid.cell_m().max(ALONG_M), grid.cell_m().max(ACROSS_M));
    // Both are bounded above, so that the casts keep the values.
    let steps = (length_m / along + 1e-9).floor() as usize;
    let each_side = (0.5 * width_m / across + 1e-9).floor() as i32;
    let (mut lines, mut missing) = (Vec::new(), 0);
    for side in -each_side..=each_side {
        let offset = metres(f64::from(side) * across);
        let mut points = Vec::new();
        for step in 0..=steps {
            let station = metres(step as f64 * along);
            let place = axis.point(station, offset);
            match grid.level_m(place.easting.si(), place.northing.si()) {
                Some(level) => {
                    points.push(SurveyPoint { station, elevation: metres(level), line: 0 });
                }
                None => missing += 1,
            }
        }
        if !points.is_empty() {
            lines.push(SurveyLine { offset, points });
        }
    }
    let places = (steps + 1) * (2 * each_side as usize + 1);
    if lines.is_empty() {
        return Err(misses(grid, axis, length_m));
    }
    one_unit(&lines)?;
    Ok(SampledLines { lines, places, missing })
}

/// Where the grid lies instead.
fn misses(grid: &Grid, axis: &StationAxis, length_m: f64) -> Error {
    let placed = grid.corners().map(|(east, north)| axis.place_m(east, north));
    let least =
        |pick: fn(&(f64, f64)) -> f64| placed.iter().map(pick).fold(f64::INFINITY, f64::min);
    let most =
        |pick: fn(&(f64, f64)) -> f64| placed.iter().map(pick).fold(f64::NEG_INFINITY, f64::max);
    Error::OffTheStrip {
        from_m: least(|at| at.0),
        to_m: most(|at| at.0),
        left_m: least(|at| at.1),
        right_m: most(|at| at.1),
        length_m,
    }
}
