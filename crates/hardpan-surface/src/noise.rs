//! What the surveyor's own error does to a chord: a check whose noise comes
//! near its limit proves nothing.

use crate::error::{Error, setting};
use hardpan_quantity::{Length, Quantity, Ratio, metres, ratio};

/// What noise alone would show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NoiseFloor {
    /// Standard deviation of one level.
    pub level: Length,
    /// Standard deviation of a mid-chord offset.
    pub mid_chord: Length,
    /// Worst deviation that noise alone is expected to show on this survey.
    pub false_worst: Length,
    /// That worst deviation as a share of the limit.
    pub share_of_limit: Ratio,
}

/// `σ √(1 + t² + (1 − t)²)`: standard deviation of the offset at share t of a chord.
pub(crate) fn offset_noise(sigma: f64, share: f64) -> f64 {
    sigma * (1.0 + share * share + (1.0 - share) * (1.0 - share)).sqrt()
}

/// `σ √1.5 √(2 ln N)`: about the greatest of N normal offsets.
pub(crate) fn false_worst(sigma: f64, offsets: f64) -> f64 {
    offset_noise(sigma, 0.5) * (2.0 * offsets.max(1.0).ln()).sqrt()
}

/// What noise alone would show under a chord that spans `per_chord` levels on a
/// line of `levels` levels, if the errors of the levels are independent.
///
/// # Errors
/// [`Error`] when the noise is negative or above 10 m, or the limit is not
/// between 1 µm and 100 m.
pub fn noise_floor(
    level_noise: Length,
    levels: usize,
    per_chord: usize,
    limit: Length,
) -> Result<NoiseFloor, Error> {
    let sigma = setting("noise of a level", level_noise.si(), 0.0..=10.0, "m")?;
    let limit_m = setting("limit of the chord", limit.si(), 1e-6..=100.0, "m")?;
    let worst = false_worst(sigma, levels as f64 * per_chord as f64);
    Ok(NoiseFloor {
        level: level_noise,
        mid_chord: metres(offset_noise(sigma, 0.5)),
        false_worst: metres(worst),
        share_of_limit: ratio(worst / limit_m),
    })
}
