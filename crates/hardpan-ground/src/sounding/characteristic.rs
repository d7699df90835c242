//! Which one bearing ratio may stand for several?
//!
//! Bearing ratios → [`Characteristic`]: the lower quartile and the mean less
//! one standard deviation, side by side, as published practice has them. The
//! decision by station needs neither; they describe a strip as a whole.

use crate::Error;
use crate::error::within;
use hardpan_math::Sample;
use hardpan_model::{Lane, Source, StrengthLane, Tier};
use hardpan_quantity::{BearingRatio, Length, Quantity, Ratio};

/// Where the lower quartile as design value comes from.
pub const LOWER_QUARTILE_SOURCE: Source =
    Source::new("TC-BEARING", "bearing strength of a runway: lower quartile", Tier::Memory);

/// Where the mean less one standard deviation as design value comes from.
pub const MEAN_LESS_DEVIATION_SOURCE: Source = Source::new(
    "FAA-150-5320-6",
    "design CBR: mean less one standard deviation, about 85 % of values stronger",
    Tier::Memory,
);

/// Values that may stand for a sample of bearing ratios.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Characteristic {
    /// How many values.
    pub size: usize,
    /// Least.
    pub least: BearingRatio,
    /// Lower quartile (median-unbiased quantile at 25 %).
    pub lower_quartile: BearingRatio,
    /// Mean less one standard deviation with `n − 1`, not below zero; none for
    /// a single value.
    pub mean_less_deviation: Option<BearingRatio>,
    /// Mean.
    pub mean: BearingRatio,
}

/// The value that a share of a sample lies below (median-unbiased quantile).
///
/// # Errors
/// [`Error::NoValues`] when there is no value or one is not finite,
/// [`Error::OutOfRange`] for a share outside 0 to 1.
pub fn percentile(values: &[BearingRatio], share: Ratio) -> Result<BearingRatio, Error> {
    let share = within("percentile", "", share.si(), 0.0, 1.0)?;
    let percents = values.iter().map(|value| value.percent()).collect();
    let sample = Sample::new(percents).map_err(|_| Error::NoValues)?;
    Ok(BearingRatio::from_si(sample.quantile(share)))
}

/// Characteristic values of a sample.
///
/// # Errors
/// [`Error::NoValues`] when there is no value or one is not finite.
pub fn characteristic(values: &[BearingRatio]) -> Result<Characteristic, Error> {
    let percents = values.iter().map(|value| value.percent()).collect();
    let sample = Sample::new(percents).map_err(|_| Error::NoValues)?;
    let mean = sample.mean();
    Ok(Characteristic {
        size: sample.size(),
        least: BearingRatio::from_si(sample.least()),
        lower_quartile: BearingRatio::from_si(sample.quantile(0.25)),
        mean_less_deviation: sample
            .standard_deviation()
            .map(|deviation| BearingRatio::from_si((mean - deviation).max(0.0))),
        mean: BearingRatio::from_si(mean),
    })
}

/// The weakest layer of a strip within a depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeakestPlace {
    /// Lane.
    pub lane: Lane,
    /// Station.
    pub station: Length,
    /// Top of the layer.
    pub depth: Length,
    /// Its bearing ratio, mean of the law.
    pub bearing_ratio: BearingRatio,
}

/// What a strip is like as a whole, down to one depth.
#[derive(Debug, Clone, PartialEq)]
pub struct StripSummary {
    /// Weakest layer at each known point, characterised.
    pub characteristic: Characteristic,
    /// The weakest layer of all; the first by lane and station among equals.
    pub weakest: WeakestPlace,
    /// Points with at least one layer.
    pub known_points: usize,
    /// Points where nothing is known.
    pub unknown_points: usize,
}

/// Summary of the layers whose top lies above `depth`.
///
/// # Errors
/// [`Error::NoValues`] when nothing is known anywhere.
pub fn summarise(lanes: &[StrengthLane], depth: Length) -> Result<StripSummary, Error> {
    let mut weakest_layers: Vec<WeakestPlace> = Vec::new();
    let mut unknown_points = 0;
    for lane in lanes {
        for point in &lane.points {
            let weakest = point
                .layers
                .iter()
                .filter(|(top, _)| *top < depth)
                .min_by(|a, b| a.1.percent().total_cmp(&b.1.percent()));
            match weakest {
                Some(&(top, bearing_ratio)) => weakest_layers.push(WeakestPlace {
                    lane: lane.lane,
                    station: point.station,
                    depth: top,
                    bearing_ratio,
                }),
                None => unknown_points += 1,
            }
        }
    }
    let ratios: Vec<BearingRatio> = weakest_layers.iter().map(|at| at.bearing_ratio).collect();
    let characteristic = characteristic(&ratios)?;
    let weakest = weakest_layers
        .iter()
        .min_by(|a, b| a.bearing_ratio.percent().total_cmp(&b.bearing_ratio.percent()))
        .ok_or(Error::NoValues)?;
    Ok(StripSummary {
        characteristic,
        weakest: *weakest,
        known_points: weakest_layers.len(),
        unknown_points,
    })
}
