//! Exact limits of the mean of a count.

use statrs::distribution::{ChiSquared, ContinuousCDF as _};

/// Exact central limits of the mean of a Poisson count.
///
/// ```text
/// lower = χ²(α/2; 2 n) / 2,   upper = χ²(1 - α/2; 2 n + 2) / 2      [GARWOOD-1936]
/// ```
///
/// | symbol | argument     | meaning                         | unit | valid          |
/// |--------|--------------|---------------------------------|------|----------------|
/// | n      | `count`      | events counted                  | –    | 0 and more     |
/// | 1 - α  | `confidence` | confidence that the mean is held| –    | 0 to 1, ends out |
///
/// None outside that range.
#[must_use]
pub fn poisson_limits(count: u32, confidence: f64) -> Option<(f64, f64)> {
    if !(confidence > 0.0 && confidence < 1.0) {
        return None;
    }
    let tail = (1.0 - confidence) / 2.0;
    let half = |freedom: f64, part: f64| {
        ChiSquared::new(freedom).ok().map(|law| law.inverse_cdf(part) / 2.0)
    };
    let twice = 2.0 * f64::from(count);
    let lower = if count == 0 { 0.0 } else { half(twice, tail)? };
    let upper = half(twice + 2.0, 1.0 - tail)?;
    (lower.is_finite() && upper.is_finite()).then_some((lower, upper))
}
