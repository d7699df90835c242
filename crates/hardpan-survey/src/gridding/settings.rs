//! What the user may set, and what holds where nothing is set.

use super::pilots::Pilots;
use crate::Error;
use hardpan_quantity::{Length, Quantity, metres};

/// Which points count as ground.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum GroundUse {
    /// Points marked as ground if there are any, else a filter.
    #[default]
    AsMarked,
    /// Only points marked as ground.
    Marked,
    /// All points, through a filter.
    Filtered,
}

/// How the strip is divided and what counts as a level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GridSettings {
    /// Length of a cell along the strip.
    pub cell_length: Length,
    /// Width of a cell, and so the distance between survey lines.
    pub cell_width: Length,
    /// Which points count as ground.
    pub ground: GroundUse,
    /// Fewest ground points that give a cell a level.
    pub least_points: u32,
    /// A hole no longer and no wider than this is filled from its neighbours.
    pub largest_filled: Length,
}

impl Default for GridSettings {
    /// Half a metre along, because long chords need a level each half metre; a
    /// metre across; three points for a level; holes of a metre filled.
    /// Source: judgement.
    fn default() -> Self {
        Self {
            cell_length: metres(0.5),
            cell_width: metres(1.0),
            ground: GroundUse::AsMarked,
            least_points: 3,
            largest_filled: metres(1.0),
        }
    }
}

/// Most cells of a grid, 2000 m by 49 m in cells of 0.05 m by 1 m: with their
/// pilots some 500 MB, however many the points and in whatever order.
const CELL_LIMIT: f64 = 2e6;
/// Points that are kept of a cell before its ground is settled: fewer where the
/// cells are so many that their pilots would fill the memory.
const PILOT: usize = 32;
const PILOT_OF_MANY: usize = 16;
const MANY_CELLS: usize = 1_000_000;
const CELL_LEAST_M: f64 = 0.05;
const CELL_MOST_M: f64 = 20.0;

/// The cells of one strip: nodes at whole multiples of the cell size, station 0
/// and offset 0 among them, each in the middle of its cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Layout {
    pub(crate) length_m: f64,
    pub(crate) width_m: f64,
    pub(crate) stations: usize,
    pub(crate) offsets: usize,
    /// Offset of the first line.
    pub(crate) left_m: f64,
}

impl Layout {
    pub(crate) fn new(
        settings: &GridSettings,
        strip_length: Length,
        strip_width: Length,
    ) -> Result<Self, Error> {
        let length_m = cell("length of a cell", settings.cell_length)?;
        let width_m = cell("width of a cell", settings.cell_width)?;
        let along = extent("length of the strip", strip_length)?;
        let across = extent("width of the strip", strip_width)?;
        let stations = (along / length_m + 1e-9).floor() + 1.0;
        let each_side = (0.5 * across / width_m + 1e-9).floor();
        let offsets = 2.0 * each_side + 1.0;
        if stations * offsets > CELL_LIMIT {
            return Err(Error::TooManyCells {
                cells: stations * offsets,
                limit: CELL_LIMIT,
                cell_length_m: length_m,
                cell_width_m: width_m,
            });
        }
        Ok(Self {
            length_m,
            width_m,
            stations: stations as usize,
            offsets: offsets as usize,
            left_m: -each_side * width_m,
        })
    }

    pub(crate) fn cells(&self) -> usize {
        self.stations * self.offsets
    }

    /// Pilots for its cells, none open.
    pub(crate) fn pilots(&self) -> Pilots {
        let points = if self.cells() > MANY_CELLS { PILOT_OF_MANY } else { PILOT };
        Pilots::new(points, (self.length_m, self.width_m))
    }

    pub(crate) fn station_m(&self, along: usize) -> f64 {
        along as f64 * self.length_m
    }

    pub(crate) fn offset_m(&self, across: usize) -> f64 {
        self.left_m + across as f64 * self.width_m
    }
}

fn cell(name: &'static str, value: Length) -> Result<f64, Error> {
    range(name, value.si(), CELL_LEAST_M, CELL_MOST_M)
}

fn extent(name: &'static str, value: Length) -> Result<f64, Error> {
    range(name, value.si(), 1.0, 100_000.0)
}

fn range(name: &'static str, value_m: f64, least_m: f64, most_m: f64) -> Result<f64, Error> {
    if (least_m..=most_m).contains(&value_m) {
        return Ok(value_m);
    }
    Err(Error::SettingOutOfRange { name, value_m, least_m, most_m })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gridding::cell::Cell;

    /// A cloud in no order keeps a pilot open in every cell: 600 MB are promised,
    /// and the rest of the product takes some 100 MB of them.
    #[test]
    fn cells_and_pilots_fit_the_memory_that_is_promised() {
        let pilot_point = 8;
        for (cells, points) in [(MANY_CELLS, PILOT), (CELL_LIMIT as usize, PILOT_OF_MANY)] {
            let bytes = cells * (size_of::<Cell>() + points * pilot_point + size_of::<u32>());
            assert!(bytes < 500_000_000, "{bytes} bytes for {cells} cells");
        }
    }

    #[test]
    fn fine_cells_over_a_long_strip_are_refused_with_the_way_out() {
        let settings = GridSettings { cell_length: metres(0.05), ..GridSettings::default() };
        let laid = Layout::new(&settings, metres(2000.0), metres(45.0)).expect("they fit");
        assert_eq!((laid.stations, laid.offsets), (40_001, 45));
        let error = Layout::new(&settings, metres(3000.0), metres(45.0)).expect_err("too many");
        assert_eq!(
            error.to_string(),
            "cells of 0.05 m by 1 m make 2700045 of them on this strip; at most 2000000 are kept: \
             state a larger cell"
        );
    }
}
