//! How do the soundings of a strip scatter from place to place?
//!
//! Of the surfacing and of the ground under it apart, since where the one ends
//! and the other begins is not a scatter of either.

use crate::Error;
use crate::sounding::along::Sounded;
use crate::sounding::strata::Strata;
use hardpan_math::Sample;
use hardpan_model::Strip;
use hardpan_quantity::Quantity;

/// Fewest soundings that show a scatter. Judgement.
const FEWEST: usize = 3;
/// Least deviation: that of one test repeated beside itself, so that soundings
/// that agree by chance do not pass for even ground. Judgement.
const LEAST_DEVIATION: f64 = 0.1;

/// Standard deviation of the logarithm of the bearing ratio from sounding to
/// sounding, each with its mean over depth; none for fewer than three.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct GroundScatter {
    /// Of the surfacing.
    pub surfacing: Option<f64>,
    /// Of the ground under it.
    pub under: Option<f64>,
}

impl GroundScatter {
    /// The scatter of the soundings of a strip.
    ///
    /// # Errors
    /// [`Error`] when a sounding cannot be used.
    pub fn of_strip(strip: &Strip) -> Result<Self, Error> {
        let parts = strip.soundings.iter().map(|sounding| {
            let strata = Strata::of(sounding)?;
            let layers: Vec<(f64, f64, f64)> = strata
                .strata
                .iter()
                .map(|one| (one.top.si(), one.bottom.si(), one.bearing_ratio.percent()))
                .collect();
            Ok((layers, strata.surfacing.map(Quantity::si)))
        });
        Ok(Self::over(parts.collect::<Result<Vec<_>, Error>>()?.into_iter()))
    }

    pub(super) fn of(soundings: &[Sounded]) -> Self {
        Self::over(soundings.iter().map(|one| {
            let layers = one.layers.iter().map(|layer| (layer.top, layer.bottom, layer.percent));
            (layers.collect(), one.surfacing)
        }))
    }

    /// From the layers of each sounding and the bottom of its surfacing.
    fn over(soundings: impl Iterator<Item = (Vec<(f64, f64, f64)>, Option<f64>)>) -> Self {
        let (mut above, mut below) = (Vec::new(), Vec::new());
        for (layers, surfacing) in soundings {
            let bottom = surfacing.unwrap_or(0.0);
            above.extend(mean_log(layers.iter().filter(|layer| layer.0 < bottom)));
            below.extend(mean_log(layers.iter().filter(|layer| layer.0 >= bottom)));
        }
        Self { surfacing: deviation(above), under: deviation(below) }
    }
}

/// Mean of the logarithm over depth; none without a layer.
fn mean_log<'a>(layers: impl Iterator<Item = &'a (f64, f64, f64)>) -> Option<f64> {
    let (mut thickness, mut sum) = (0.0, 0.0);
    for (top, bottom, percent) in layers.filter(|layer| layer.2 > 0.0) {
        thickness += bottom - top;
        sum += (bottom - top) * percent.ln();
    }
    (thickness > 0.0).then(|| sum / thickness)
}

fn deviation(logs: Vec<f64>) -> Option<f64> {
    let enough = logs.len() >= FEWEST;
    let found = Sample::new(logs).ok()?.standard_deviation()?;
    enough.then_some(found.max(LEAST_DEVIATION))
}
