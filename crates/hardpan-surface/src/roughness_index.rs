//! The International Roughness Index of a survey line, where the survey is dense
//! and quiet enough to have one.
//!
//! Method of [ASTM-E1926] and [WTP-46]: slope averaged over 250 mm, the
//! reference quarter car at 80 km/h, started on the mean slope of the first
//! 11 m; the mean of |zs' − zu'|. The index hardly hears the waves of 30 m to
//! 60 m that matter to aeroplanes: chords are checked beside it.

pub(crate) mod quarter_car;

use crate::error::{Error, setting};
use crate::profile::{Profile, Stretch, natural_spacing, resample};
use crate::roughness_index::quarter_car::QuarterCar;
use hardpan_model::SurveyLine;
use hardpan_quantity::{Length, Quantity, Ratio, metres, ratio};

/// Length over which the slope is averaged.
const BASE_M: f64 = 0.25;
/// Length whose mean slope starts the car.
const START_M: f64 = 11.0;
/// Longest sample interval: class 2 of the practice.
const INTERVAL_M: f64 = 0.5;
/// Length of one segment.
const SEGMENT_M: f64 = 100.0;
/// Noise over result at which the result is 5 % high: `1 − √(1 − r²)` = 5 %,
/// the bound of class 2 in [ASTM-E1364].
pub(crate) const NOISE_SHARE: f64 = 0.312;

/// The index of one line.
#[derive(Debug, Clone, PartialEq)]
pub struct RoughnessIndex {
    /// Stretch that it is taken over.
    pub stretch: Stretch,
    /// Mean over the stretch; 0.1 % is one metre for each kilometre.
    pub overall: Ratio,
    /// By whole segments of 100 m; a shorter rest counts in the mean only.
    pub segments: Vec<(Stretch, Ratio)>,
    /// What survey noise alone would show; it adds in quadrature.
    pub noise: Ratio,
}

/// Slopes over 250 mm, one for each interval.
fn slopes(z: &[f64], spacing: f64) -> impl Iterator<Item = f64> + '_ {
    let reach = ((BASE_M / spacing).round() as usize).max(1);
    let run = reach as f64 * spacing;
    z.iter().zip(z.iter().skip(reach)).map(move |(a, b)| (b - a) / run)
}

/// `|zs' − zu'|` after each interval.
pub(crate) fn rectified_slopes(z: &[f64], spacing: f64) -> Vec<f64> {
    let last = z.len().saturating_sub(1);
    let start = ((START_M / spacing).round() as usize).clamp(1, last.max(1));
    let mean = match (z.first(), z.get(start)) {
        (Some(first), Some(after)) => (after - first) / (start as f64 * spacing),
        _ => 0.0,
    };
    let car = QuarterCar::over(spacing);
    let mut state = [mean, 0.0, mean, 0.0];
    slopes(z, spacing)
        .map(|slope| {
            state = car.step(state, slope);
            (state[0] - state[2]).abs()
        })
        .collect()
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len().max(1) as f64
}

/// Index that independent level errors of unit standard deviation alone show:
/// `√(2/π)` times the root of the summed squares of the answer to one false
/// level. NaN for a spacing outside 1 mm to 10 m.
pub(crate) fn noise_index(level_noise: f64, spacing: f64) -> f64 {
    if !(1e-3..=10.0).contains(&spacing) {
        return f64::NAN;
    }
    let intervals = (300.0 / spacing).ceil() as usize;
    let reach = ((BASE_M / spacing).round() as usize).max(1);
    let run = reach as f64 * spacing;
    let car = QuarterCar::over(spacing);
    let mut state = [0.0; 4];
    let mut squares = 0.0;
    for index in 0..intervals {
        let slope = match index {
            0 => 1.0 / run,
            _ if index == reach => -1.0 / run,
            _ => 0.0,
        };
        state = car.step(state, slope);
        squares += (state[0] - state[2]) * (state[0] - state[2]);
    }
    level_noise * (2.0 / std::f64::consts::PI * squares).sqrt()
}

/// The index of an evenly spaced profile, without a look at its noise.
///
/// # Errors
/// [`Error`] for a spacing above 500 mm or a profile shorter than 11.5 m.
pub fn profile_index(profile: &Profile) -> Result<RoughnessIndex, Error> {
    let spacing = profile.spacing_m();
    setting("sample spacing for the roughness index", spacing, 1e-3..=INTERVAL_M + 1e-6, "m")?;
    let needed_m = START_M + INTERVAL_M;
    if profile.length_m() < needed_m {
        return Err(Error::TooShort {
            method: "the roughness index",
            length_m: profile.length_m(),
            needed_m,
        });
    }
    let rectified = rectified_slopes(profile.elevations_m(), spacing);
    let per_segment = profile.intervals(SEGMENT_M, 1);
    let segments = rectified
        .chunks_exact(per_segment)
        .enumerate()
        .map(|(index, segment)| {
            let from = profile.station_m(index * per_segment);
            let to = profile.station_m((index + 1) * per_segment);
            (Stretch { from: metres(from), to: metres(to) }, ratio(mean(segment)))
        })
        .collect();
    Ok(RoughnessIndex {
        stretch: profile.stretch(),
        overall: ratio(mean(&rectified)),
        segments,
        noise: ratio(0.0),
    })
}

/// The index of each gapless stretch of a survey line.
///
/// # Errors
/// [`Error`] when no stretch has a level at least every 500 mm over 11.5 m, or
/// when noise alone would make the result more than 5 % high.
pub fn line_index(line: &SurveyLine, level_noise: Length) -> Result<Vec<RoughnessIndex>, Error> {
    let noise_m = setting("noise of a level", level_noise.si(), 0.0..=10.0, "m")?;
    let spacing = natural_spacing(line, metres(INTERVAL_M))?;
    let profiles = resample(line, spacing, metres(INTERVAL_M))?.profiles;
    let noise = noise_index(noise_m, spacing.si());
    let mut found = Vec::new();
    for profile in profiles.iter().filter(|profile| profile.length_m() >= START_M + INTERVAL_M) {
        let index = RoughnessIndex { noise: ratio(noise), ..profile_index(profile)? };
        let most = NOISE_SHARE * index.overall.si();
        if noise > most {
            return Err(Error::TooNoisy {
                offset_m: line.offset.si(),
                noise_per_km: noise * 1e3,
                index_per_km: index.overall.si() * 1e3,
                most_per_km: most * 1e3,
            });
        }
        found.push(index);
    }
    let longest = profiles.iter().map(Profile::length_m).fold(0.0, f64::max);
    if found.is_empty() {
        return Err(Error::TooShort {
            method: "the roughness index, with levels dense enough,",
            length_m: longest,
            needed_m: START_M + INTERVAL_M,
        });
    }
    Ok(found)
}
