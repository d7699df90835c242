//! 1-cosine waves to ride over: the shape that load rules and tests of gear use.

use crate::error::{Error, setting};
use crate::profile::Profile;
use hardpan_quantity::{Length, Quantity};
use std::f64::consts::TAU;

/// Samples of a wave: few let its slope jump, which a damper feels.
const SAMPLES: f64 = 200.0;
/// Finest and coarsest spacing of them, metres.
const FINEST_M: f64 = 0.02;
const COARSEST_M: f64 = 0.25;

impl Profile {
    /// Level ground with `count` waves `h/2 (1 − cos 2πx/L)` in a row, after
    /// and before a stretch of level ground; a negative height is a dip.
    ///
    /// # Errors
    /// [`Error`] for a height over 2 m, a length outside 0.5 m to 500 m, more
    /// than 100 waves, or level ground longer than 5 km.
    pub fn cosine_waves(
        height: Length,
        length: Length,
        count: usize,
        (before, after): (Length, Length),
    ) -> Result<Self, Error> {
        let height = setting("height of a wave", height.si(), -2.0..=2.0, "m")?;
        let length = setting("length of a wave", length.si(), 0.5..=500.0, "m")?;
        let count = setting("waves in a row", count as f64, 1.0..=100.0, "")?;
        let before = setting("level ground before a wave", before.si(), 0.0..=5_000.0, "m")?;
        let after = setting("level ground behind a wave", after.si(), 0.0..=5_000.0, "m")?;
        let spacing = (length / SAMPLES).clamp(FINEST_M, COARSEST_M);
        let first = (before / spacing).ceil() * spacing;
        let whole = first + count * length + after;
        let level = |index: usize| {
            let along = index as f64 * spacing - first;
            if (0.0..=count * length).contains(&along) {
                0.5 * height * (1.0 - (TAU * along / length).cos())
            } else {
                0.0
            }
        };
        let levels = (0..=(whole / spacing).ceil() as usize).map(level).collect();
        Self::from_metres(0.0, 0.0, spacing, levels)
    }
}
