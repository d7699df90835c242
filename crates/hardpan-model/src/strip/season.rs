//! Seasons of the ground, as the user states them.

use crate::Given;
use hardpan_quantity::{Angle, Density, Ratio, Temperature, Time};
use jiff::civil::Date;

/// A day of every year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct MonthDay {
    /// 1 to 12.
    pub month: i8,
    /// 1 to 31.
    pub day: i8,
}

impl From<Date> for MonthDay {
    fn from(date: Date) -> Self {
        Self { month: date.month(), day: date.day() }
    }
}

impl std::fmt::Display for MonthDay {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:02}-{:02}", self.month, self.day)
    }
}

/// A part of every year and the strength that the ground then has.
#[derive(Debug, Clone, PartialEq)]
pub struct Season {
    /// Name.
    pub name: Option<Given<String>>,
    /// First day.
    pub from: Given<MonthDay>,
    /// Last day; before the first where the season goes over the new year.
    pub to: MonthDay,
    /// Strength as a share of that found by the soundings.
    pub strength: Given<Ratio>,
    /// The same while its surface is wet.
    pub wet_strength: Option<Given<Ratio>>,
}

impl Season {
    /// Whether a day lies in it.
    #[must_use]
    pub fn covers(&self, day: MonthDay) -> bool {
        let from = self.from.value;
        if from <= self.to { from <= day && day <= self.to } else { from <= day || day <= self.to }
    }
}

/// Temperatures and daylight of the year. Normals, not the days themselves.
#[derive(Debug, Clone, PartialEq)]
pub struct Climate {
    /// Mean air temperature of each month, January first.
    pub monthly: Given<[Temperature; 12]>,
    /// Mean daily range of each month, from the coldest to the warmest hour, K.
    pub range_kelvins: Given<[f64; 12]>,
    /// Standard deviation of a day about its month, K.
    pub spread_kelvins: Option<Given<f64>>,
    /// Latitude, north positive.
    pub latitude: Given<Angle>,
    /// Longitude, east positive.
    pub longitude: Given<Angle>,
}

/// What decides how deep the ground freezes, and when it has thawed.
#[derive(Debug, Clone, PartialEq)]
pub struct Frost {
    /// Temperature of the air.
    pub air: AirTemperatures,
    /// Surface index over air index while it freezes.
    pub freezing_factor: Given<f64>,
    /// Surface index over air index while it thaws.
    pub thawing_factor: Given<f64>,
    /// Conductivity of the frozen ground, W/(m K).
    pub frozen_conductivity: Given<f64>,
    /// Conductivity of the thawed ground, W/(m K).
    pub thawed_conductivity: Given<f64>,
    /// Dry density of the ground.
    pub dry_density: Given<Density>,
    /// Water over dry mass of the ground.
    pub water_content: Given<Ratio>,
    /// How weak the ground is while it thaws, and how long it stays weakened.
    pub weakening: Option<ThawWeakening>,
}

/// Temperature of the air through the year.
#[derive(Debug, Clone, PartialEq)]
pub enum AirTemperatures {
    /// Mean of each month, January first.
    Monthly(Given<[Temperature; 12]>),
    /// Mean of each day of a record, rising, each day once.
    Daily(Given<Vec<(Date, Temperature)>>),
}

/// Strength of ground that thaws, as the user states it.
#[derive(Debug, Clone, PartialEq)]
pub struct ThawWeakening {
    /// Strength while it thaws over frost, as a share of that sounded.
    pub strength: Given<Ratio>,
    /// Time from the last day of thaw until it has its full strength again.
    pub recovery: Given<Time>,
}
