//! The thinnest surfacing that the soundings show.

use hardpan_ground::Strata;
use hardpan_model::Sounding;
use hardpan_quantity::Length;

/// The sounding with the thinnest surfacing, its thickness, and whether its
/// bottom was reached; where it was not, the depth reached counts.
pub(crate) fn thinnest(soundings: &[Sounding]) -> Option<(&Sounding, Length, bool)> {
    soundings
        .iter()
        .filter_map(|sounding| {
            let strata = Strata::of(sounding).ok()?;
            let bottomed = strata.surfacing.is_some();
            Some((sounding, strata.surfacing.unwrap_or(strata.known_to), bottomed))
        })
        .reduce(|least, next| if next.1 < least.1 { next } else { least })
}
