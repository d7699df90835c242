//! Statistics of a small sample.

use statrs::statistics::{Data, OrderStatistics, Statistics};

/// A sample of one or more finite values.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    values: Vec<f64>,
}

/// Why values are no sample.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SampleError {
    /// No value.
    #[error("the sample is empty")]
    Empty,
    /// A value is not finite.
    #[error("value {index} of the sample is not finite")]
    NotFinite {
        /// Position, counted from 1.
        index: usize,
    },
}

impl Sample {
    /// A sample.
    ///
    /// # Errors
    /// [`SampleError`] when empty or not finite.
    pub fn new(values: Vec<f64>) -> Result<Self, SampleError> {
        if values.is_empty() {
            return Err(SampleError::Empty);
        }
        match values.iter().position(|value| !value.is_finite()) {
            Some(index) => Err(SampleError::NotFinite { index: index + 1 }),
            None => Ok(Self { values }),
        }
    }

    /// How many values.
    #[must_use]
    pub fn size(&self) -> usize {
        self.values.len()
    }

    /// Arithmetic mean.
    #[must_use]
    pub fn mean(&self) -> f64 {
        self.values.iter().mean()
    }

    /// Standard deviation with `n − 1`; none for a single value.
    #[must_use]
    pub fn standard_deviation(&self) -> Option<f64> {
        (self.values.len() > 1).then(|| self.values.iter().std_dev())
    }

    /// Least value.
    #[must_use]
    pub fn least(&self) -> f64 {
        self.values.iter().copied().fold(f64::INFINITY, f64::min)
    }

    /// Greatest value.
    #[must_use]
    pub fn greatest(&self) -> f64 {
        self.values.iter().copied().fold(f64::NEG_INFINITY, f64::max)
    }

    /// Quantile for a share between 0 and 1, median-unbiased (Hyndman and Fan type 8).
    #[must_use]
    pub fn quantile(&self, share: f64) -> f64 {
        Data::new(self.values.clone()).quantile(share.clamp(0.0, 1.0))
    }
}
