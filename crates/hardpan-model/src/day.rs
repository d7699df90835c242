//! The day: weather and the state of the surface.

use crate::{Given, SurfaceState};
use hardpan_quantity::{Angle, Length, Pressure, Ratio, Speed, Temperature};
use jiff::civil::{Date, DateTime};

/// One day at one strip. Anything may be missing.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Day {
    /// Local day of the movement.
    pub date: Option<Given<Date>>,
    /// Time of the movement, UTC, for judging the age of reports.
    pub time_utc: Option<Given<DateTime>>,
    /// Time of the weather report, UTC.
    pub observed_utc: Option<Given<DateTime>>,
    /// Wind.
    pub wind: Option<Given<Wind>>,
    /// Exponent by which the wind falls towards the ground; none to count it as
    /// reported.
    pub wind_gradient: Option<Given<f64>>,
    /// Outside air temperature.
    pub temperature: Option<Given<Temperature>>,
    /// Altimeter setting, reduced to sea level.
    pub sea_level_pressure: Option<Given<Pressure>>,
    /// State of the running surface.
    pub surface_state: Option<Given<SurfaceState>>,
    /// Water in the ground under the surfacing, mass of water over dry mass.
    pub ground_moisture: Option<Given<Ratio>>,
    /// Whether somebody walked or drove the whole strip on the day.
    pub inspected: Option<Given<bool>>,
    /// Rain that falls in an hour, as observed or forecast for the movement.
    pub rain: Option<Given<Length>>,
    /// Rain, drizzle, snow or hail that the weather report has falling at the place, as
    /// its group says it, such as `+RA`.
    pub precipitation: Option<Given<String>>,
    /// Standing water seen on the day; `Some(vec![])` when it was looked for and none is there.
    pub standing_water: Option<Vec<Patch>>,
    /// Loose stones or deep loose gravel seen on the day; likewise.
    pub loose_material: Option<Vec<Patch>>,
    /// Weather forecast for other times of the day, in the order of the file.
    pub forecast: Vec<Forecast>,
}

/// Weather forecast for one time.
#[derive(Debug, Clone, PartialEq)]
pub struct Forecast {
    /// The time, UTC.
    pub time_utc: Given<DateTime>,
    /// Wind.
    pub wind: Option<Given<Wind>>,
    /// Outside air temperature.
    pub temperature: Option<Given<Temperature>>,
    /// Altimeter setting, reduced to sea level.
    pub sea_level_pressure: Option<Given<Pressure>>,
}

/// Wind over the strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wind {
    /// True bearing that it blows from; none when variable or calm.
    pub from: Option<Angle>,
    /// Mean speed.
    pub speed: Speed,
    /// Gusts, if any.
    pub gust: Option<Speed>,
    /// Bounds of a varying direction.
    pub between: Option<(Angle, Angle)>,
}

/// A stretch of the strip with a depth of water or loose material.
#[derive(Debug, Clone, PartialEq)]
pub struct Patch {
    /// First station.
    pub from: Given<Length>,
    /// Last station.
    pub to: Length,
    /// Depth.
    pub depth: Given<Length>,
    /// Loose stones on a square metre, where they were counted.
    pub stones_per_square_metre: Option<Given<f64>>,
    /// Diameter of the largest loose stone.
    pub largest_stone: Option<Given<Length>>,
    /// Loose stones counted by size; empty where nobody sorted them.
    pub sizes: Vec<StoneSize>,
    /// Rolling resistance over loose material, where somebody measured it.
    pub rolling: Option<Given<Ratio>>,
}

/// Loose stones of one size, as counted.
#[derive(Debug, Clone, PartialEq)]
pub struct StoneSize {
    /// Diameter of the largest of them.
    pub up_to: Given<Length>,
    /// How many lie on a square metre.
    pub stones_per_square_metre: Given<f64>,
}
