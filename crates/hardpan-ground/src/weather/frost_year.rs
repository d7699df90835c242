//! Is the ground frozen, thawing over frost or thawed, day by day of a year?
//!
//! Temperatures of the air → indices at the surface → modified Berggren depth of
//! frost, and of thaw from above. Thaw from below is left out: the ground then
//! lies thawing for longer, which is the worse. Indices from monthly means miss
//! the swings within a month and come out small where it is near freezing; a
//! record day by day has them, and tells the worst that each day of the year was.

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

/// What is known of the temperature of the air.
#[derive(Debug, Clone, PartialEq)]
pub enum AirRecord {
    /// Mean of each month, January first.
    Monthly([Temperature; 12]),
    /// Day after day without a gap: the day of a plain year from 0 (29 February
    /// left out) and the mean of that day.
    Daily(Vec<(usize, Temperature)>),
}

/// The climate and the ground that freezes in it.
#[derive(Debug, Clone, PartialEq)]
pub struct FrostClimate {
    /// Temperature of the air.
    pub air: AirRecord,
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

/// The ground on each of the 365 days of a year from 1 January; by a daily
/// record, the worst that it was on that day in any of its years.
///
/// The year begins for the reckoning where it has been warm; a day of frost
/// closes what thawed before. Ground that keeps frost through a year is not
/// covered.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::OutOfRange`] and [`Error::NoSolution`] for a
/// climate, record or ground that is not covered.
pub fn frost_year(climate: &FrostClimate) -> Result<Vec<FrostState>, Error> {
    let density = within("dry density", "kg/m³", climate.dry_density.si(), 500.0, 2500.0)?;
    let water = within("water content", "", climate.water_content.si(), 0.005, 2.0)?;
    let frozen = positive("conductivity", "W/(m K)", climate.frozen_conductivity)?;
    let thawed = positive("conductivity", "W/(m K)", climate.thawed_conductivity)?;
    let freezing = positive("surface factor", "", climate.freezing_factor)?;
    let thawing = positive("surface factor", "", climate.thawing_factor)?;
    let (days, mean) = series(&climate.air)?;
    within("mean temperature of the year", "degC", mean, 1e-3, 60.0)?;
    let mut ground = Reckoning {
        ground: [density, water],
        conductivity: [frozen, thawed],
        factor: [freezing, thawing],
        mean,
        cold: (0.0, 0.0),
        warm: (0.0, 0.0),
        frost: 0.0,
    };
    let mut year: Vec<Option<FrostState>> = vec![None; YEAR];
    let mut lasting = 0;
    for (index, degrees) in days {
        let state = ground.pass(degrees);
        lasting = if state == FrostState::Thawed { 0 } else { lasting + 1 };
        if lasting >= YEAR {
            break;
        }
        if let Some(day) = year.get_mut(index) {
            *day = Some(day.map_or(state, |before| worse(before, state)));
        }
    }
    let monthly = matches!(climate.air, AirRecord::Monthly(_));
    if lasting >= YEAR || (monthly && ground.frost > 0.0) {
        let what = "the day on which all frost has thawed from above";
        return Err(Error::NoSolution { what, low: 1.0, high: YEAR as f64, unit: "days" });
    }
    Ok(year.into_iter().map(|day| day.unwrap_or(FrostState::Thawed)).collect())
}

/// The weaker of two states of one day: thaw over frost, then none, then frost.
fn worse(a: FrostState, b: FrostState) -> FrostState {
    let rank = |state: FrostState| match state {
        FrostState::Frozen(_) => 0,
        FrostState::Thawed => 1,
        FrostState::Thawing(..) => 2,
    };
    if rank(b) > rank(a) { b } else { a }
}

/// The indices of frost and thaw as the days pass.
struct Reckoning {
    ground: [f64; 2],
    conductivity: [f64; 2],
    factor: [f64; 2],
    mean: f64,
    /// Index and days.
    cold: (f64, f64),
    warm: (f64, f64),
    frost: f64,
}

impl Reckoning {
    /// The ground after a day of so many degrees over freezing.
    fn pass(&mut self, degrees: f64) -> FrostState {
        let ([frozen, thawed], [freezing, thawing]) = (self.conductivity, self.factor);
        let thaw = if degrees < 0.0 {
            self.warm = (0.0, 0.0);
            self.cold = (self.cold.0 - degrees * freezing, self.cold.1 + 1.0);
            self.frost = self.frost.max(depth(frozen, self.cold, self.ground, self.mean));
            0.0
        } else {
            self.warm = (self.warm.0 + degrees * thawing, self.warm.1 + 1.0);
            depth(thawed, self.warm, self.ground, 0.0)
        };
        if thaw >= self.frost {
            (self.frost, self.cold) = (0.0, (0.0, 0.0));
        }
        match (self.frost > 0.0, thaw > 0.0) {
            (false, _) => FrostState::Thawed,
            (true, false) => FrostState::Frozen(Length::from_si(self.frost)),
            (true, true) => FrostState::Thawing(Length::from_si(thaw), Length::from_si(self.frost)),
        }
    }
}

/// Days of the year with their degrees over freezing, from the first one after
/// which the sum of degrees only falls; and the mean of a year of them.
fn series(air: &AirRecord) -> Result<(Vec<(usize, f64)>, f64), Error> {
    let mean = |year: &[f64]| year.iter().sum::<f64>() / YEAR as f64;
    match air {
        AirRecord::Monthly(monthly) => {
            let days = daily(monthly);
            let first = warm_end(&days);
            let turned = (0..YEAR).map(|step| (first + step) % YEAR);
            let turned = turned.filter_map(|index| Some((index, *days.get(index)?))).collect();
            Ok((turned, mean(&days)))
        }
        AirRecord::Daily(record) => {
            within(
                "days of the temperature record",
                "d",
                record.len() as f64,
                2.0 * YEAR as f64,
                1e5,
            )?;
            let mut sums = vec![(0.0, 0.0); YEAR];
            for (index, temperature) in record {
                let degrees = within("temperature of a day", "K", temperature.si(), 180.0, 340.0)?
                    - FREEZING_K;
                if let Some(sum) = sums.get_mut(*index) {
                    *sum = (sum.0 + degrees, sum.1 + 1.0);
                }
            }
            let means: Vec<f64> =
                sums.iter().map(|(sum, count)| sum / f64::max(*count, 1.0)).collect();
            let first = warm_end(&means);
            let from = record.iter().position(|day| day.0 == first).unwrap_or(0);
            let days = record[from..].iter().map(|day| (day.0, day.1.si() - FREEZING_K));
            Ok((days.collect(), mean(&means)))
        }
    }
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
