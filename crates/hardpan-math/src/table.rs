//! A table of one variable: linear between its rows, refused outside them.

/// Rows by strictly rising argument.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    rows: Vec<(f64, f64)>,
}

/// Why a table cannot be made or read.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TableError {
    /// No row.
    #[error("the table has no row")]
    Empty,
    /// A row holds a value that is not finite.
    #[error("row {row} holds a value that is not finite")]
    NotFinite {
        /// Row, counted from 1.
        row: usize,
    },
    /// A row does not follow the one before.
    #[error("row {row} has argument {argument}, not above the row before")]
    NotRising {
        /// Row, counted from 1.
        row: usize,
        /// Its argument.
        argument: f64,
    },
    /// The argument lies outside the rows.
    #[error("{argument} is outside the table, which runs from {low} to {high}")]
    Outside {
        /// The argument asked for.
        argument: f64,
        /// First argument of the table.
        low: f64,
        /// Last argument of the table.
        high: f64,
    },
}

impl Table {
    /// A table from its rows.
    ///
    /// # Errors
    /// [`TableError`] when there is no row, or rows are not finite or not rising.
    pub fn new(rows: Vec<(f64, f64)>) -> Result<Self, TableError> {
        if rows.is_empty() {
            return Err(TableError::Empty);
        }
        for (index, (argument, value)) in rows.iter().enumerate() {
            if !argument.is_finite() || !value.is_finite() {
                return Err(TableError::NotFinite { row: index + 1 });
            }
            if index > 0 && *argument <= rows[index - 1].0 {
                return Err(TableError::NotRising { row: index + 1, argument: *argument });
            }
        }
        Ok(Self { rows })
    }

    /// First and last argument.
    #[must_use]
    pub fn range(&self) -> (f64, f64) {
        (self.rows[0].0, self.rows[self.rows.len() - 1].0)
    }

    /// The value at `argument`, linear between rows.
    ///
    /// # Errors
    /// [`TableError::Outside`] beyond the first or last row.
    pub fn at(&self, argument: f64) -> Result<f64, TableError> {
        let (low, high) = self.range();
        if !(low..=high).contains(&argument) {
            return Err(TableError::Outside { argument, low, high });
        }
        Ok(self.at_or_end(argument))
    }

    /// The value at `argument`, held at the end rows beyond them: for profiles
    /// of the ground, which go on past the last point; never for limits.
    #[must_use]
    pub fn at_or_end(&self, argument: f64) -> f64 {
        let after = self.rows.partition_point(|row| row.0 <= argument);
        if after == 0 {
            return self.rows[0].1;
        }
        if after == self.rows.len() {
            return self.rows[after - 1].1;
        }
        let ((x0, y0), (x1, y1)) = (self.rows[after - 1], self.rows[after]);
        y0 + (y1 - y0) * (argument - x0) / (x1 - x0)
    }
}
