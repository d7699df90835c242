//! A table of several variables on a full grid: linear in each between its
//! rows, refused outside them.

/// Values on a grid of strictly rising arguments along each axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    axes: Vec<Vec<f64>>,
    values: Vec<f64>,
}

/// Why a grid cannot be made or read.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum GridError {
    /// An axis has no row or rows that are not finite or not rising.
    #[error("axis {axis} has no rows that rise")]
    Axis {
        /// Axis, counted from 1.
        axis: usize,
    },
    /// Values are missing, too many or not finite.
    #[error("a full grid of {wanted} finite values is needed, not {found}")]
    Values {
        /// How many the axes call for.
        wanted: usize,
        /// How many there are.
        found: usize,
    },
    /// The number of arguments is not that of the axes.
    #[error("{found} arguments for {wanted} axes")]
    Arguments {
        /// How many axes there are.
        wanted: usize,
        /// How many arguments were given.
        found: usize,
    },
    /// An argument lies outside its axis.
    #[error("{argument} is outside axis {axis}, which runs from {low} to {high}")]
    Outside {
        /// Axis, counted from 1.
        axis: usize,
        /// The argument asked for.
        argument: f64,
        /// First row of the axis.
        low: f64,
        /// Last row of the axis.
        high: f64,
    },
}

impl Grid {
    /// A grid from the rows of each axis and its values, the last axis running
    /// fastest.
    ///
    /// # Errors
    /// [`GridError`] when an axis does not rise or values do not fill the grid.
    pub fn new(axes: Vec<Vec<f64>>, values: Vec<f64>) -> Result<Self, GridError> {
        for (index, axis) in axes.iter().enumerate() {
            let finite = axis.iter().all(|row| row.is_finite());
            let rising = axis.windows(2).all(|pair| pair[0] < pair[1]);
            if axis.is_empty() || !finite || !rising {
                return Err(GridError::Axis { axis: index + 1 });
            }
        }
        let wanted = axes.iter().fold(1_usize, |product, axis| product.saturating_mul(axis.len()));
        if values.len() != wanted || !values.iter().all(|value| value.is_finite()) {
            return Err(GridError::Values { wanted, found: values.len() });
        }
        Ok(Self { axes, values })
    }

    /// The value at one argument for each axis, linear along each between rows.
    ///
    /// # Errors
    /// [`GridError::Outside`] beyond the first or last row of an axis, not a
    /// number included; [`GridError::Arguments`] for too few or too many.
    pub fn at(&self, arguments: &[f64]) -> Result<f64, GridError> {
        let (wanted, found) = (self.axes.len(), arguments.len());
        if found != wanted {
            return Err(GridError::Arguments { wanted, found });
        }
        let mut corners = vec![(0_usize, 1.0_f64)];
        for (index, (axis, argument)) in self.axes.iter().zip(arguments).enumerate() {
            let (low, high) = (axis[0], axis[axis.len() - 1]);
            if !(low..=high).contains(argument) {
                let (axis, argument) = (index + 1, *argument);
                return Err(GridError::Outside { axis, argument, low, high });
            }
            let after = axis.partition_point(|row| row <= argument).min(axis.len() - 1);
            let before = after.saturating_sub(1);
            let share = if after == before {
                0.0
            } else {
                (argument - axis[before]) / (axis[after] - axis[before])
            };
            corners = corners
                .into_iter()
                .flat_map(|(place, weight)| {
                    let place = place * axis.len();
                    [(place + before, weight * (1.0 - share)), (place + after, weight * share)]
                })
                .filter(|(_, weight)| *weight != 0.0)
                .collect();
        }
        Ok(corners.into_iter().map(|(place, weight)| weight * self.values[place]).sum())
    }
}
