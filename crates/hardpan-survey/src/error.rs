//! Why a survey gives no lines; all wording of this crate's errors.

/// Why no survey line is given.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// A coordinate is not finite or lies beyond any plane frame.
    #[error(
        "{name} is {value_m} m; a coordinate of a plane frame lies between -{limit_m} m and {limit_m} m"
    )]
    CoordinateOutOfRange {
        /// Which coordinate.
        name: &'static str,
        /// Its value, metres.
        value_m: f64,
        /// Greatest size accepted, metres.
        limit_m: f64,
    },
    /// The two thresholds are too close together or too far apart for a strip.
    #[error(
        "the thresholds are {apart_m} m apart; an axis needs them {least_m} m to {most_m} m apart"
    )]
    ThresholdsApart {
        /// Distance between them, metres.
        apart_m: f64,
        /// Least accepted, metres.
        least_m: f64,
        /// Greatest accepted, metres.
        most_m: f64,
    },
}
