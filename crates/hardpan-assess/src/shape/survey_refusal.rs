//! Why a survey does not show a part of the shape, in words that hold for any line.

use hardpan_quantity::{Amount, metres};
use hardpan_surface::Error;

/// Why a part of the detail is not known, in words that hold for any line.
pub(crate) fn told(error: &Error) -> String {
    match error {
        Error::TooSparse { interval_m, .. } => {
            let interval = Amount::from(metres(*interval_m)).told();
            format!("levels nowhere stand {interval} apart or closer")
        }
        Error::TooShort { method, length_m, needed_m } if *length_m <= 0.0 => {
            let needed = Amount::from(metres(*needed_m)).told();
            format!("{method} needs a stretch of {needed}, and there is none")
        }
        Error::TooNoisy { noise_per_km, index_per_km, most_per_km, .. } => format!(
            "noise of the survey alone would show {noise_per_km:.2} m/km of the {index_per_km:.2} \
             m/km found; at most {most_per_km:.2} m/km may be noise"
        ),
        other => other.to_string(),
    }
}
