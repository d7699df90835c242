//! The thinnest surfacing that the soundings show.

use hardpan_ground::Strata;
use hardpan_model::Sounding;
use hardpan_quantity::Length;

/// Where the surfacing is thinnest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Thinnest {
    /// Index of the sounding.
    pub(crate) sounding: usize,
    pub(crate) thickness: Length,
    /// Whether its bottom was reached; where it was not, the depth reached counts.
    pub(crate) bottomed: bool,
}

/// The thinnest surfacing of the soundings.
pub(crate) fn thinnest(soundings: &[Sounding]) -> Option<Thinnest> {
    let found = soundings.iter().enumerate().filter_map(|(sounding, one)| {
        let strata = Strata::of(one).ok()?;
        let bottomed = strata.surfacing.is_some();
        let thickness = strata.surfacing.unwrap_or(strata.known_to);
        Some(Thinnest { sounding, thickness, bottomed })
    });
    found.reduce(|least, next| if next.thickness < least.thickness { next } else { least })
}
