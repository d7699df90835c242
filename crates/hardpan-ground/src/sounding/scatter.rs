//! How do the soundings of a strip scatter from place to place?
//!
//! Of the surfacing and of the ground under it apart, since where the one ends
//! and the other begins is not a scatter of either.

use crate::sounding::along::{Sounded, SoundedLayer};
use hardpan_math::Sample;

/// Fewest soundings that show a scatter. Judgement.
const FEWEST: usize = 3;
/// Least deviation: that of one test repeated beside itself, so that soundings
/// that agree by chance do not pass for even ground. Judgement.
const LEAST_DEVIATION: f64 = 0.1;

/// Standard deviation of the logarithm of the bearing ratio from sounding to
/// sounding, each with its mean over depth; none for fewer than three.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct GroundScatter {
    /// Of the surfacing.
    pub(super) surfacing: Option<f64>,
    /// Of the ground under it.
    pub(super) under: Option<f64>,
}

impl GroundScatter {
    pub(super) fn of(soundings: &[Sounded]) -> Self {
        let (mut above, mut below) = (Vec::new(), Vec::new());
        for one in soundings {
            let bottom = one.surfacing.unwrap_or(0.0);
            above.extend(mean_log(one.layers.iter().filter(|layer| layer.top < bottom)));
            below.extend(mean_log(one.layers.iter().filter(|layer| layer.top >= bottom)));
        }
        Self { surfacing: deviation(above), under: deviation(below) }
    }
}

/// Mean of the logarithm over depth; none without a layer.
fn mean_log<'a>(layers: impl Iterator<Item = &'a SoundedLayer>) -> Option<f64> {
    let (mut thickness, mut sum) = (0.0, 0.0);
    for layer in layers.filter(|layer| layer.percent > 0.0) {
        thickness += layer.bottom - layer.top;
        sum += (layer.bottom - layer.top) * layer.percent.ln();
    }
    (thickness > 0.0).then(|| sum / thickness)
}

fn deviation(logs: Vec<f64>) -> Option<f64> {
    let enough = logs.len() >= FEWEST;
    let found = Sample::new(logs).ok()?.standard_deviation()?;
    enough.then_some(found.max(LEAST_DEVIATION))
}
