//! `kind = "day"`: date, weather and the state of the surface.

use crate::aeroplane::checks::in_order;
use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use crate::metar;
use crate::metar::{ReportText, WeatherReport, report};
use crate::strip::states;
use crate::strip::stones::CountedStones;
use crate::table::cursor::Table;
use crate::table::plausible;
use hardpan_model::{Day, Forecast, Given, Patch, Wind};
use hardpan_quantity::{Angle, Dimension, Length, Speed, ratio};
use jiff::ToSpan;
use jiff::civil::{Date, DateTime};
use toml::de::DeValue;

/// A report's day is taken to be the nearest such day of the month, and no
/// farther away than this.
const FORTNIGHT_DAYS: i32 = 14;

/// Read the top table of a day file.
pub(crate) fn day(t: &mut Table<'_>) -> Day {
    let date = t.date("date");
    let civil = date.as_ref().map(|date| date.value);
    let time_utc = t.moment("time_utc", civil);
    let report = weather_report(t);
    let observed_utc = observed(t, report.as_ref(), civil, time_utc.as_ref());
    let own_wind = t.table("wind", own_wind);
    let own_temperature = t.quantity("temperature", plausible::TEMPERATURE);
    let own_pressure =
        t.quantity_as("sea_level_pressure", Dimension::AirPressure, plausible::SEA_LEVEL_PRESSURE);
    let (report_wind, report_temperature, report_pressure, precipitation) = match report {
        Some(WeatherReport { wind, temperature, sea_level_pressure, precipitation, .. }) => {
            (wind, temperature, sea_level_pressure, precipitation)
        }
        None => (None, None, None, None),
    };
    Day {
        date,
        time_utc,
        observed_utc,
        wind: one_of(t, "wind", own_wind, report_wind),
        wind_gradient: t.coefficient("wind_gradient", plausible::WIND_GRADIENT),
        temperature: one_of(t, "temperature", own_temperature, report_temperature),
        sea_level_pressure: one_of(t, "sea_level_pressure", own_pressure, report_pressure),
        surface_state: t.word("surface_state", &states()),
        ground_moisture: t.quantity("ground_moisture", plausible::MOISTURE),
        inspected: t.flag("inspected"),
        rain: t.quantity("rain_in_an_hour", plausible::RAIN_IN_AN_HOUR),
        precipitation,
        standing_water: t.list_or_none("standing_water", patch),
        loose_material: t.list_or_none("loose_material", loose_patch),
        forecast: t.list("forecast", |t| forecast(t, civil)).into_iter().collect(),
    }
}

fn forecast(t: &mut Table<'_>, civil: Option<Date>) -> Option<Forecast> {
    let time_utc = t.moment("time_utc", civil);
    if !t.has("time_utc") {
        t.lacks("time_utc", "\"18:00Z\"");
    }
    let wind = t.table("wind", own_wind);
    let temperature = t.quantity("temperature", plausible::TEMPERATURE);
    let sea_level_pressure =
        t.quantity_as("sea_level_pressure", Dimension::AirPressure, plausible::SEA_LEVEL_PRESSURE);
    Some(Forecast { time_utc: time_utc?, wind, temperature, sea_level_pressure })
}

/// A key of the file takes the place of the report's value, and is said to.
fn one_of<T>(
    t: &Table<'_>,
    key: &str,
    own: Option<Given<T>>,
    report: Option<Given<T>>,
) -> Option<Given<T>> {
    if own.is_some() && report.is_some() {
        t.page().report(t.span_of(key), &Mistake::Overridden { key: key.to_owned() });
    }
    own.or(report)
}

fn weather_report(t: &mut Table<'_>) -> Option<WeatherReport> {
    let entry = t.entry("metar")?;
    let DeValue::String(text) = entry.value else {
        t.wrong_type(
            &entry.path,
            entry.span,
            entry.value,
            "a weather report, in quotes",
            "metar = \"METAR ...\"",
        );
        return None;
    };
    let text = ReportText { text, whole: entry.span, key: entry.path, source: entry.source };
    report(t.page(), &text)
}

/// When the report was made: the nearest such day of the month.
fn observed(
    t: &Table<'_>,
    report: Option<&WeatherReport>,
    date: Option<Date>,
    movement: Option<&Given<DateTime>>,
) -> Option<Given<DateTime>> {
    let report = report?;
    let at = t.span_of("metar");
    let Some(near) = movement.map(|moment| moment.value.date()).or(date) else {
        t.page().report(at, &Mistake::Undated { what: "the weather report".to_owned() });
        return None;
    };
    let Some(day) = nearest_day(near, report.day) else {
        t.page().report(at, &Mistake::NoSuchDay { day: report.day });
        return None;
    };
    let (hour, minute) = (i8::try_from(report.hour).ok()?, i8::try_from(report.minute).ok()?);
    let moment = day.at(hour, minute, 0, 0);
    if let Some(movement) = movement.filter(|movement| moment > movement.value) {
        let shown = |moment: DateTime| moment.strftime("%Y-%m-%d %H:%MZ").to_string();
        let mistake =
            Mistake::ReportAfter { report: shown(moment), movement: shown(movement.value) };
        t.page().report_with(at, &mistake, t.span_of("time_utc"), "the movement");
    }
    Some(report.station.clone().map(|_| moment))
}

/// The nearest date with a day of the month, within a fortnight.
pub(crate) fn nearest_day(near: Date, day: u8) -> Option<Date> {
    let day = i8::try_from(day).ok()?;
    (0..=FORTNIGHT_DAYS)
        .flat_map(|days| [-days, days])
        .filter_map(|days| near.checked_add(days.days()).ok())
        .find(|date| date.day() == day)
}

fn own_wind(t: &mut Table<'_>) -> Option<Given<Wind>> {
    let from = from(t);
    let speed: Option<Given<Speed>> = t.quantity("speed", plausible::WIND);
    let gust: Option<Given<Speed>> = t.quantity("gust", plausible::WIND);
    let between: Option<(Angle, Angle)> = t.pair("between", plausible::CIRCLE);
    in_order(t.page(), &speed, &gust);
    if t.is_present() && !t.has("speed") {
        t.page().report(t.span(), &Mistake::WindSpeed {});
    }
    let speed = speed?;
    let calm = speed.value == hardpan_quantity::knots(0.0);
    if !t.has("from") && !calm {
        t.page().report(t.span_of("speed"), &Mistake::WindDirection {});
        return None;
    }
    let from = from.flatten();
    let gust = gust.map(|gust| gust.value);
    let source = speed.source.clone();
    let mut wind = speed.map(|speed| Wind { from: from.filter(|_| !calm), speed, gust, between });
    wind.source = source;
    Some(wind)
}

/// The direction, or `Some(None)` when it is variable.
fn from(t: &mut Table<'_>) -> Option<Option<Angle>> {
    let entry = t.entry("from")?;
    if entry.value.as_str().is_some_and(|text| text.trim() == "variable") {
        return Some(None);
    }
    let amount = t.amount_of(&entry, Dimension::Angle, plausible::CIRCLE)?;
    Some(amount.get())
}

fn patch(t: &mut Table<'_>) -> Option<Patch> {
    let from: Option<Given<Length>> = t.quantity("from", plausible::STATION);
    let to: Option<Given<Length>> = t.quantity("to", plausible::STATION);
    let depth = t.quantity("depth", plausible::PATCH_DEPTH);
    for (key, example) in [("from", "\"1500 m\""), ("to", "\"1540 m\""), ("depth", "\"12 mm\"")] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    in_order(t.page(), &from, &to);
    let (from, to, depth) = (from?, to?.value, depth?);
    Some(Patch {
        from,
        to,
        depth,
        stones_per_square_metre: None,
        largest_stone: None,
        sizes: Vec::new(),
        rolling: None,
    })
}

fn loose_patch(t: &mut Table<'_>) -> Option<Patch> {
    let counted = CountedStones::read(t);
    let rolling = t.coefficient("rolling", plausible::ROLLING);
    let patch = patch(t)?;
    Some(Patch {
        stones_per_square_metre: counted.per_square_metre,
        largest_stone: counted.largest,
        sizes: counted.sizes,
        rolling: rolling.map(|given| given.map(ratio)),
        ..patch
    })
}

/// Read a file that holds a weather report and nothing else.
pub(crate) fn report_file(page: &Page<'_>) -> Option<WeatherReport> {
    if page.text.trim().is_empty() {
        page.report(0..0, &Mistake::EmptyFile { content: "a weather report".to_owned() });
        return None;
    }
    let text = ReportText {
        text: page.text,
        whole: 0..page.text.len(),
        key: "metar".to_owned(),
        source: None,
    };
    metar::report(page, &text)
}
