//! The season of the ground on a day.

use crate::measured::Known;
use hardpan_ground::{FrostClimate, FrostState, frost_year};
use hardpan_model::{Flight, MonthDay, Season};
use hardpan_quantity::Quantity;
use jiff::civil::Date;

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

/// The ground by day of a plain year, where the strip states its frost.
pub(crate) fn frost_by_day(flight: &Flight) -> Option<Known<Vec<FrostState>>> {
    let frost = flight.strip.frost.as_ref()?;
    let year = frost_year(&FrostClimate {
        monthly: frost.monthly.value,
        freezing_factor: frost.freezing_factor.value,
        thawing_factor: frost.thawing_factor.value,
        frozen_conductivity: frost.frozen_conductivity.value,
        thawed_conductivity: frost.thawed_conductivity.value,
        dry_density: frost.dry_density.value,
        water_content: frost.water_content.value,
    });
    Some(year.map_err(Into::into))
}

/// The state on a day; 29 February is as the day before.
pub(crate) fn frost_on(year: &[FrostState], day: MonthDay) -> Option<FrostState> {
    let in_month = if day.month == 2 { day.day.min(28) } else { day.day };
    let date = Date::new(2025, day.month, in_month).ok()?;
    let index = usize::try_from(date.day_of_year() - 1).ok()?;
    year.get(index).copied()
}
