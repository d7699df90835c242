//! Whether crews see each other over a crest.

use crate::chord::greatest_deviation;
use crate::error::{Error, setting};
use crate::profile::Profile;
use hardpan_quantity::{Length, Quantity};

/// `S²/(8 h)`: least radius of a crest that hides nothing between two points S
/// apart and h over it.
pub(crate) fn crest_radius(distance: f64, height: f64) -> f64 {
    distance * distance / (8.0 * height)
}

/// `R |Δg|`: length of a vertical curve.
pub(crate) fn curve_length(radius: f64, change: f64) -> f64 {
    radius * change.abs()
}

/// `max(45 m, K Σ|Δg|)`: least distance between two slope changes.
pub(crate) fn distance_between_changes(per_change: f64, total_change: f64) -> f64 {
    (per_change * total_change.abs()).max(45.0)
}

/// Least clearance over the ground of any line of sight between two points
/// `height` over it and `distance` apart; negative where the ground hides them.
///
/// # Errors
/// [`Error`] when the distance is longer than the profile or the height is not
/// between 0 and 20 m.
pub fn sight_clearance(
    profile: &Profile,
    distance: Length,
    height: Length,
) -> Result<Length, Error> {
    setting("height of the eyes", height.si(), 0.0..=20.0, "m")?;
    let (crest, _) = greatest_deviation(profile, distance)?;
    Ok(height - crest)
}
