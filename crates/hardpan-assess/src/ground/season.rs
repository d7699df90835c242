//! The strength of the ground on a day of the year, by season and by frost.

use crate::draft::{given, need};
use crate::measured::{Known, Unavailable};
use hardpan_ground::{AirRecord, FrostClimate, FrostState, frost_year};
use hardpan_model::{
    AirTemperatures, BasisInput, Flight, Frost, Given, MonthDay, Season, SurfaceState,
    ThawWeakening,
};
use hardpan_quantity::{Amount, Quantity, Ratio, Temperature};
use jiff::civil::Date;

/// Steps in which the strength comes back after thaw, each counted from its end.
const RECOVERY_STEPS: f64 = 10.0;
const SECONDS_A_DAY: f64 = 86_400.0;

/// The strength of the ground on a day.
#[derive(Debug, Clone)]
pub(crate) struct DayStrength {
    /// Share of the strength sounded.
    pub(crate) share: f64,
    /// What sets it, in words.
    pub(crate) told: String,
    /// What sets it, as somebody gave it.
    pub(crate) inputs: Vec<BasisInput>,
}

/// The frost of the strip by day, where it states one.
pub(crate) type FrostByDay<'a> = Option<&'a Known<Vec<FrostState>>>;

/// The strength on a day: the least of its seasons, weakened while it thaws over
/// frost and until it has recovered, as far as the strip says how.
pub(crate) fn strength_on(
    flight: &Flight,
    frost: FrostByDay<'_>,
    day: MonthDay,
) -> Known<DayStrength> {
    let strip = &flight.strip;
    let weakening = strip.frost.as_ref().and_then(|frost| frost.weakening.as_ref());
    let of_season = match season_of(flight, day) {
        Some(season) => DayStrength {
            share: share(season),
            told: season_name(season),
            inputs: vec![given("share of the season", &season.strength)],
        },
        None if strip.seasons.is_empty() && weakening.is_some() => {
            DayStrength { share: 1.0, told: "not weakened by thaw".to_owned(), inputs: Vec::new() }
        }
        None => {
            return Err(Unavailable {
                because: format!("{day} lies in no season of the strip"),
                needs: vec![need("strip: [[season]]", &format!("one that {day} lies in"))],
            });
        }
    };
    let year = match frost {
        None => return Ok(of_season),
        Some(Ok(year)) => year,
        Some(Err(why)) => {
            return Err(Unavailable {
                because: format!("how the ground thaws is not known: {}", why.because),
                needs: why.needs.clone(),
            });
        }
    };
    let weakened = match (frost_on(year, day), weakening) {
        (Some(FrostState::Thawing(thawed, frozen)), None) if of_season.share >= 1.0 => {
            return Err(Unavailable {
                because: format!(
                    "by the temperatures of the year the ground has thawed to {} over frost to \
                     {}, and {} takes it at full strength",
                    Amount::from(thawed).told(),
                    Amount::from(frozen).told(),
                    of_season.told,
                ),
                needs: vec![need("strip: [[season]]", "the strength of the ground while it thaws")],
            });
        }
        (Some(FrostState::Thawing(..)), Some(weakening)) => Some(thawing(weakening)),
        (Some(FrostState::Thawed), Some(weakening)) => recovering(year, weakening, day),
        _ => None,
    };
    Ok(match weakened {
        Some(weakened) if weakened.share < of_season.share => weakened,
        _ => of_season,
    })
}

/// The strength on a day in a state of the surface: no more than what the season
/// has while it is wet, nor than thawing ground has.
pub(crate) fn strength_in_state(
    flight: &Flight,
    frost: FrostByDay<'_>,
    (day, state): (MonthDay, Option<SurfaceState>),
) -> Known<DayStrength> {
    let strength = strength_on(flight, frost, day)?;
    let in_state = state.and_then(|state| stated_in(flight, day, state));
    Ok(match in_state {
        Some(in_state) if in_state.share < strength.share => in_state,
        _ => strength,
    })
}

/// The strength that the strip states for ground in a state on a day; the least
/// where seasons overlap, none where one of them does not say.
pub(crate) fn stated_in(
    flight: &Flight,
    day: MonthDay,
    state: SurfaceState,
) -> Option<DayStrength> {
    match state {
        SurfaceState::Dry | SurfaceState::Frozen => None,
        SurfaceState::Thawing => flight.strip.frost.as_ref()?.weakening.as_ref().map(thawing),
        SurfaceState::Wet => {
            let seasons = flight.strip.seasons.iter().filter(|season| season.covers(day));
            let stated: Option<Vec<(&Season, &Given<Ratio>)>> =
                seasons.map(|season| Some((season, season.wet_strength.as_ref()?))).collect();
            let (season, wet) =
                stated?.into_iter().min_by(|a, b| a.1.value.si().total_cmp(&b.1.value.si()))?;
            Some(DayStrength {
                share: wet.value.si(),
                told: format!("{}, wet", season_name(season)),
                inputs: vec![given("share of the season while wet", wet)],
            })
        }
    }
}

fn thawing(weakening: &ThawWeakening) -> DayStrength {
    DayStrength {
        share: weakening.strength.value.si(),
        told: "thaw over frost".to_owned(),
        inputs: vec![given("share while it thaws", &weakening.strength)],
    }
}

/// The strength so many days after the last one of thaw; none once it is whole.
fn recovering(
    year: &[FrostState],
    weakening: &ThawWeakening,
    day: MonthDay,
) -> Option<DayStrength> {
    let recovery = weakening.recovery.value.si() / SECONDS_A_DAY;
    let index = day_index(day)?;
    let since = (1..=recovery.ceil() as usize).find(|back| {
        let before = (index + year.len() - back % year.len().max(1)) % year.len().max(1);
        year.get(before).is_some_and(|state| *state != FrostState::Thawed)
    })?;
    let steps = (since as f64 / recovery * RECOVERY_STEPS).floor() / RECOVERY_STEPS;
    let thawed = weakening.strength.value.si();
    Some(DayStrength {
        share: thawed + (1.0 - thawed) * steps.min(1.0),
        told: format!("day {since} of the recovery after thaw"),
        inputs: vec![
            given("share while it thaws", &weakening.strength),
            given("recovery", &weakening.recovery),
        ],
    })
}

/// Days of a record without a gap: those missing on the line between the days
/// beside them, 29 February left out.
fn record(days: &[(Date, Temperature)]) -> Vec<(usize, Temperature)> {
    let mut whole: Vec<(usize, Temperature)> = Vec::with_capacity(days.len());
    let mut take = |date: Date, temperature: Temperature| {
        let day = MonthDay::from(date);
        if (day.month, day.day) != (2, 29) {
            whole.extend(day_index(day).map(|index| (index, temperature)));
        }
    };
    let mut before: Option<(Date, Temperature)> = None;
    for &(date, temperature) in days {
        if let Some((last, then)) = before {
            let gap = (date - last).get_days();
            let mut between = last;
            for step in 1..gap {
                let Ok(next) = between.tomorrow() else { break };
                between = next;
                let along = f64::from(step) / f64::from(gap);
                let degrees = then.si() + (temperature.si() - then.si()) * along;
                take(between, Temperature::from_si(degrees));
            }
        }
        take(date, temperature);
        before = Some((date, temperature));
    }
    whole
}

fn air(frost: &Frost) -> AirRecord {
    match &frost.air {
        AirTemperatures::Monthly(monthly) => AirRecord::Monthly(monthly.value),
        AirTemperatures::Daily(days) => AirRecord::Daily(record(&days.value)),
    }
}

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
        air: air(frost),
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
    year.get(day_index(day)?).copied()
}

/// Day of a plain year from 0.
fn day_index(day: MonthDay) -> Option<usize> {
    let in_month = if day.month == 2 { day.day.min(28) } else { day.day };
    let date = Date::new(2025, day.month, in_month).ok()?;
    usize::try_from(date.day_of_year() - 1).ok()
}
