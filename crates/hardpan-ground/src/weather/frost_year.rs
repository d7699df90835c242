//! Is the ground frozen, thawing over frost or thawed, day by day of a year?
//!
//! Monthly mean temperatures → indices at the surface → modified Berggren depth
//! of frost, and of thaw from above. Thaw from below is left out: the ground
//! then lies thawing for longer, which is the worse. Indices from monthly means
//! miss the swings within a month and come out small where it is near freezing.

use crate::Error;
use crate::error::{positive, within};
use crate::weather::frost::{fusion, lambda_exact, stefan};
use hardpan_quantity::{Density, Length, Quantity, Ratio, Temperature};

const SECONDS_A_DAY: f64 = 86_400.0;
const FREEZING_K: f64 = 273.15;
const DAYS: [usize; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const YEAR: usize = 365;
/// Greatest warmth of the ground over cold of the season that is solved for.
const MOST_ALPHA: f64 = 1e3;

/// The climate and the ground that freezes in it.
#[derive(Debug, Clone, PartialEq)]
pub struct FrostClimate {
    /// Mean air temperature of each month, January first.
    pub monthly: [Temperature; 12],
    /// Surface index over air index while it freezes.
    pub freezing_factor: f64,
    /// Surface index over air index while it thaws.
    pub thawing_factor: f64,
    /// Conductivity of frozen ground, W/(m K).
    pub frozen_conductivity: f64,
    /// Conductivity of thawed ground, W/(m K).
    pub thawed_conductivity: f64,
    /// Dry density.
    pub dry_density: Density,
    /// Water over dry mass.
    pub water_content: Ratio,
}

/// The ground on one day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FrostState {
    /// No frost in the ground.
    Thawed,
    /// Frozen from the surface to this depth.
    Frozen(Length),
    /// Thawed to the first depth, frozen below it to the second.
    Thawing(Length, Length),
}

/// The ground on each of the 365 days of a year from 1 January.
///
/// The year begins for the reckoning where it has been warm; a day of frost
/// closes what thawed before. Ground that keeps frost through the year is not
/// covered.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::OutOfRange`] and [`Error::NoSolution`] for a
/// climate or ground that is not covered.
pub fn frost_year(climate: &FrostClimate) -> Result<Vec<FrostState>, Error> {
    let density = within("dry density", "kg/m³", climate.dry_density.si(), 500.0, 2500.0)?;
    let water = within("water content", "", climate.water_content.si(), 0.005, 2.0)?;
    let ground = [density, water];
    let frozen = positive("conductivity", "W/(m K)", climate.frozen_conductivity)?;
    let thawed = positive("conductivity", "W/(m K)", climate.thawed_conductivity)?;
    let freezing = positive("surface factor", "", climate.freezing_factor)?;
    let thawing = positive("surface factor", "", climate.thawing_factor)?;
    let days = daily(&climate.monthly);
    let mean = days.iter().sum::<f64>() / YEAR as f64;
    within("mean temperature of the year", "degC", mean, 1e-3, 60.0)?;
    let first = warm_end(&days);
    let mut year = vec![FrostState::Thawed; YEAR];
    let (mut cold, mut cold_days, mut warm, mut warm_days) = (0.0, 0.0, 0.0, 0.0);
    let mut frost: f64 = 0.0;
    for step in 0..YEAR {
        let index = (first + step) % YEAR;
        let degrees = days.get(index).copied().unwrap_or(0.0);
        let thaw = if degrees < 0.0 {
            (warm, warm_days) = (0.0, 0.0);
            cold -= degrees * freezing;
            cold_days += 1.0;
            frost = frost.max(depth(frozen, (cold, cold_days), ground, mean));
            0.0
        } else {
            warm += degrees * thawing;
            warm_days += 1.0;
            depth(thawed, (warm, warm_days), ground, 0.0)
        };
        if thaw >= frost {
            (frost, cold, cold_days) = (0.0, 0.0, 0.0);
        }
        if let Some(day) = year.get_mut(index) {
            *day = match (frost > 0.0, thaw > 0.0) {
                (false, _) => FrostState::Thawed,
                (true, false) => FrostState::Frozen(Length::from_si(frost)),
                (true, true) => FrostState::Thawing(Length::from_si(thaw), Length::from_si(frost)),
            };
        }
    }
    if frost > 0.0 {
        let what = "the day on which all frost has thawed from above";
        return Err(Error::NoSolution { what, low: 1.0, high: YEAR as f64, unit: "days" });
    }
    Ok(year)
}

/// Degrees over freezing, day by day.
fn daily(monthly: &[Temperature; 12]) -> Vec<f64> {
    let months = monthly.iter().zip(DAYS);
    months.flat_map(|(mean, days)| std::iter::repeat_n(mean.si() - FREEZING_K, days)).collect()
}

/// The day after which the sum of degrees of the year only falls: the top of
/// the curve from which a freezing index is read.
fn warm_end(days: &[f64]) -> usize {
    let mut top = (f64::NEG_INFINITY, 0);
    let mut sum = 0.0;
    // Two years, so that the top does not depend on where the year begins.
    for (index, degrees) in days.iter().chain(days).enumerate() {
        sum += degrees - days.iter().sum::<f64>() / YEAR as f64;
        if sum > top.0 && index >= YEAR / 2 {
            top = (sum, index + 1);
        }
    }
    top.1 % YEAR
}

/// Modified Berggren depth of an index in kelvin days over days.
fn depth(
    conductivity: f64,
    (index, days): (f64, f64),
    [density, water]: [f64; 2],
    mean: f64,
) -> f64 {
    if index <= 0.0 {
        return 0.0;
    }
    let seasonal = index / days;
    let alpha = (mean.max(0.0) / seasonal).min(MOST_ALPHA);
    let fusion = fusion(index, days * SECONDS_A_DAY, water);
    let lambda = lambda_exact(alpha, fusion);
    let plain = stefan(conductivity, index, density, water);
    if lambda.is_finite() { lambda.min(1.0) * plain } else { plain }
}
