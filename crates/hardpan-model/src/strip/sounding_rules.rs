//! What the strip's own rules ask of its soundings.

use crate::Given;
use hardpan_quantity::{Length, Ratio};

/// Rules for the soundings of a strip, as the user states them.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SoundingRules {
    /// Fewest soundings.
    pub fewest: Option<Given<u32>>,
    /// Greatest distance between neighbours along the strip.
    pub greatest_spacing: Option<Given<Length>>,
    /// Share of the strengths that may lie below the one that stands for them.
    pub percentile: Option<Given<Ratio>>,
    /// Distance over which the correlation of the ground falls to `1/e`.
    pub correlation_length: Option<Given<Length>>,
}
