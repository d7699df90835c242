//! The season of the ground on a day.

use hardpan_model::{Flight, MonthDay, Season};
use hardpan_quantity::Quantity;

/// The season with the least strength on a day.
pub(crate) fn season_of(flight: &Flight, day: MonthDay) -> Option<&Season> {
    let seasons = flight.strip.seasons.iter().filter(|season| season.covers(day));
    seasons.min_by(|a, b| share(a).total_cmp(&share(b)))
}

/// Share of the strength sounded.
pub(crate) fn share(season: &Season) -> f64 {
    season.strength.value.si()
}

/// Name and days.
pub(crate) fn season_name(season: &Season) -> String {
    let days = format!("{} to {}", season.from.value, season.to);
    match &season.name {
        Some(name) => format!("{} ({days})", name.value),
        None => days,
    }
}
