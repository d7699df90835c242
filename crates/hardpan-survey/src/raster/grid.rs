//! Levels in square or oblong cells of a plane frame.

use crate::{Error, PlanePoint};
use hardpan_quantity::{Length, metres};

/// Most cells that are held.
pub(crate) const CELL_LIMIT: usize = 20_000_000;

/// Most cells that an axis is laid along, about.
const FOOTPRINT_MOST: f64 = 200_000.0;

/// A grid of levels. A cell without a level is not surveyed.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    columns: usize,
    rows: usize,
    /// Middle of the cell of the first column and row: the north-west corner
    /// cell of a grid that is not turned.
    origin_m: (f64, f64),
    /// Step from column to column, east and north.
    column_m: (f64, f64),
    /// Step from row to row, east and north.
    row_m: (f64, f64),
    /// Row by row; not finite where there is no level.
    levels_m: Vec<f64>,
}

impl Grid {
    /// A grid from its cells, row by row.
    ///
    /// # Errors
    /// [`Error`] for a count of levels that is not columns times rows, too many
    /// cells, or steps that span no area.
    pub(crate) fn new(
        (columns, rows): (usize, usize),
        origin_m: (f64, f64),
        column_m: (f64, f64),
        row_m: (f64, f64),
        levels_m: Vec<f64>,
    ) -> Result<Self, Error> {
        let cells = columns.saturating_mul(rows);
        if cells == 0 || cells > CELL_LIMIT || cells != levels_m.len() {
            return Err(Error::GridSize {
                columns,
                rows,
                levels: levels_m.len(),
                limit: CELL_LIMIT,
            });
        }
        let spanned = (column_m.0 * row_m.1 - column_m.1 * row_m.0).abs();
        if !(spanned > 1e-6 && spanned < 1e8 && (origin_m.0 + origin_m.1).is_finite()) {
            return Err(Error::GridCell { area_m2: spanned });
        }
        Ok(Self { columns, rows, origin_m, column_m, row_m, levels_m })
    }

    /// Longer side of a cell, metres.
    pub(crate) fn cell_m(&self) -> f64 {
        self.column_m.0.hypot(self.column_m.1).max(self.row_m.0.hypot(self.row_m.1))
    }

    /// Columns and rows.
    #[must_use]
    pub fn size(&self) -> (usize, usize) {
        (self.columns, self.rows)
    }

    /// Longer side of a cell.
    #[must_use]
    pub fn cell(&self) -> Length {
        metres(self.cell_m())
    }

    /// Middles of cells with a level, at most some 200 000 of them, evenly over
    /// all: what an axis is laid along.
    #[must_use]
    pub fn footprint(&self) -> Vec<PlanePoint> {
        let skip = ((self.levels_m.len() as f64 / FOOTPRINT_MOST).sqrt().ceil() as usize).max(1);
        let mut found = Vec::new();
        for row in (0..self.rows).step_by(skip) {
            for column in (0..self.columns).step_by(skip) {
                if self.level_of(column, row).is_some() {
                    let (east, north) = self.middle_m(column, row);
                    found.push(PlanePoint { easting: metres(east), northing: metres(north) });
                }
            }
        }
        found
    }

    fn middle_m(&self, column: usize, row: usize) -> (f64, f64) {
        let (column, row) = (column as f64, row as f64);
        (
            self.origin_m.0 + column * self.column_m.0 + row * self.row_m.0,
            self.origin_m.1 + column * self.column_m.1 + row * self.row_m.1,
        )
    }

    /// Middles of the four cells at the corners.
    pub(crate) fn corners(&self) -> [(f64, f64); 4] {
        let (far, down) = (self.columns - 1, self.rows - 1);
        [(0, 0), (far, 0), (0, down), (far, down)].map(|(column, row)| self.middle_m(column, row))
    }

    /// Level at a point, from the four cells around it; none where one of them
    /// has no level, and outside the grid.
    pub(crate) fn level_m(&self, east: f64, north: f64) -> Option<f64> {
        let (de, dn) = (east - self.origin_m.0, north - self.origin_m.1);
        let determinant = self.column_m.0 * self.row_m.1 - self.column_m.1 * self.row_m.0;
        let column = (de * self.row_m.1 - dn * self.row_m.0) / determinant;
        let row = (dn * self.column_m.0 - de * self.column_m.1) / determinant;
        let (left, along) = split(column, self.columns)?;
        let (top, down) = split(row, self.rows)?;
        let mut level = 0.0;
        for (r, row_share) in [(top, 1.0 - down), (top + 1, down)] {
            for (c, column_share) in [(left, 1.0 - along), (left + 1, along)] {
                let share = row_share * column_share;
                if share > 0.0 {
                    level += share * self.level_of(c, r)?;
                }
            }
        }
        Some(level)
    }

    fn level_of(&self, column: usize, row: usize) -> Option<f64> {
        if column >= self.columns {
            return None;
        }
        self.levels_m.get(row * self.columns + column).copied().filter(|level| level.is_finite())
    }
}

/// Whole and broken part of a place among cells; rounding may not push the
/// middle of the last cell out of the grid.
fn split(place: f64, count: usize) -> Option<(usize, f64)> {
    let snapped = if (place - place.round()).abs() < 1e-9 { place.round() } else { place };
    if !(snapped >= 0.0 && snapped <= count as f64 - 1.0) {
        return None;
    }
    // Between 0 and the count of cells, so that the cast keeps the value.
    Some((snapped.floor() as usize, snapped - snapped.floor()))
}

#[cfg(test)]
mod tests {
    use super::Grid;

    fn tilted() -> Grid {
        let levels = (0..12).map(|n| f64::from(n % 4) * 0.5 + f64::from(n / 4) * 2.0).collect();
        Grid::new((4, 3), (100.0, 200.0), (2.0, 0.0), (0.0, -2.0), levels).expect("a grid")
    }

    #[test]
    fn a_plane_is_read_exactly_between_cells() {
        let grid = tilted();
        // Columns rise by 0.25 a metre east, rows by 1 a metre south.
        for (east, north) in [(100.0, 200.0), (101.0, 199.0), (103.7, 197.1), (106.0, 196.0)] {
            let expected = (east - 100.0) * 0.25 + (200.0 - north);
            let level = grid.level_m(east, north).expect("inside");
            assert!((level - expected).abs() < 1e-12, "{level} at {east}, {north}");
        }
        assert_eq!(grid.level_m(99.9, 200.0), None);
        assert_eq!(grid.level_m(103.0, 195.9), None);
    }

    #[test]
    fn a_turned_grid_gives_the_level_of_the_turned_place() {
        let levels = vec![0.0, 1.0, 2.0, 3.0];
        let grid = Grid::new((2, 2), (0.0, 0.0), (0.0, 1.0), (1.0, 0.0), levels).expect("a grid");
        // Columns run north by 1, rows run east by 2.
        assert_eq!(grid.level_m(0.5, 0.25), Some(0.5 * 2.0 + 0.25));
    }

    #[test]
    fn a_missing_cell_is_a_gap_around_it() {
        let levels = vec![1.0, f64::NAN, 1.0, 1.0];
        let grid = Grid::new((2, 2), (0.0, 0.0), (1.0, 0.0), (0.0, -1.0), levels).expect("a grid");
        assert_eq!(grid.level_m(0.5, -0.5), None);
        assert_eq!(grid.level_m(0.5, -1.0), Some(1.0));
    }
}
