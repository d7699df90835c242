//! What a strip carries of an aeroplane, as people and programs read it:
//! tables of mass against tyre pressure, JSON, and a figure.

mod json;
mod text;

pub(crate) use json::stops_word;
pub use json::{BEARING_FORMAT, BEARING_VERSION, bearing_json, bearing_schema};
pub use text::{bearing_text, no_bearing_text};

use crate::measure::{at_most_text, station_number, station_unit};
use hardpan_assess::{BearingPoint, StoppedBy};
use hardpan_model::Lane;
use hardpan_quantity::{Amount, Quantity, UnitSystem};

/// What the figures may be used for.
pub(crate) const MARK: &str = "planning only";

/// Number of passes in words.
pub(crate) fn passes_text(passes: f64) -> String {
    let number = crate::measure::whole(passes);
    if passes == 1.0 { format!("{number} pass") } else { format!("{number} passes") }
}

/// Coverages behind a number of passes, and what they count as.
pub(crate) fn coverages_text(coverages: f64, counted: f64) -> String {
    let digits = if coverages < 10.0 { 10.0 } else { 1.0 };
    let made = Amount::count((coverages * digits).round() / digits).show(UnitSystem::Metric);
    if counted > coverages {
        format!("{made} coverages, counted as {}", crate::measure::whole(counted))
    } else {
        format!("{made} coverages")
    }
}

/// The largest of a point, never rounded up; and the place that gives first.
pub(crate) fn point_text<At, Found: Quantity>(
    point: &BearingPoint<At, Found>,
    end: &str,
    units: UnitSystem,
) -> (String, String) {
    let largest = point.largest.map_or("none".to_owned(), |found| at_most_text(found, units));
    (largest, place_text(&point.stops, end, units))
}

/// The place that gives first, or what else stops.
pub(crate) fn place_text(stops: &StoppedBy, end: &str, units: UnitSystem) -> String {
    match stops {
        StoppedBy::End => end.to_owned(),
        StoppedBy::Run(_) => "the run".to_owned(),
        StoppedBy::Ground(place) => {
            let (symbol, _) = station_unit(units);
            let lane = match place.lane {
                Lane::Left => "L",
                Lane::Nose => "N",
                Lane::Right => "R",
            };
            let unknown = if place.depth.is_none() { "?" } else { "" };
            format!("{}\u{a0}{symbol}\u{a0}{lane}{unknown}", station_number(place.station, units))
        }
    }
}
