//! Why a survey does not show a part of the shape, in words that hold for any line.

use hardpan_surface::Error;

/// Why a part of the detail is not known, in words that hold for any line.
pub(crate) fn told(error: &Error) -> String {
    match error {
        Error::TooSparse { interval_m, .. } => {
            let inches = interval_m / 0.0254;
            format!("levels nowhere stand {interval_m:.3} m ({inches:.0} in) apart or closer")
        }
        Error::TooShort { method, length_m, needed_m } if *length_m <= 0.0 => {
            let feet = needed_m / 0.3048;
            format!("{method} needs a stretch of {needed_m:.1} m ({feet:.0} ft), and there is none")
        }
        Error::TooNoisy { noise_per_km, index_per_km, most_per_km, .. } => format!(
            "noise of the survey alone would show {noise_per_km:.2} m/km of the {index_per_km:.2} \
             m/km found; at most {most_per_km:.2} m/km may be noise"
        ),
        other => other.to_string(),
    }
}
