//! Obstacles about the strip and areas of its ground, by station and offset.

use crate::aeroplane::checks::in_order;
use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::{Files, Page};
use crate::rows::temperatures::temperatures;
use crate::strip::{load, path};
use crate::table::cursor::Table;
use crate::table::plausible::{self, Bounds};
use hardpan_model::{
    AirTemperatures, Area, AreaKind, AreaOutline, AxisPoint, Climate, Frost, Given, MonthDay,
    Obstacle, ObstacleTop, Season, ThawWeakening,
};
use hardpan_quantity::{Dimension, Length, Quantity, Temperature, metres};
use jiff::civil::Date;

/// The words of areas.
pub(crate) fn area_kinds() -> [(&'static str, AreaKind); 5] {
    AreaKind::ALL.map(|kind| (kind.word(), kind))
}

pub(super) fn obstacle(t: &mut Table<'_>) -> Option<Obstacle> {
    let name = t.text("name");
    let station = t.quantity("station", plausible::OBSTACLE_STATION);
    let offset = t.quantity("offset", plausible::OBSTACLE_OFFSET);
    let height = top(t, "height", plausible::OBSTACLE_HEIGHT);
    let elevation = top(t, "elevation", plausible::OBSTACLE_ELEVATION);
    for (key, example) in [("station", "\"-300 m\""), ("offset", "\"12 m\"")] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    match (t.has("height"), t.has("elevation")) {
        (true, true) => t.page().report(t.span_of("elevation"), &Mistake::TwoTops {}),
        (false, false) => t.lacks("height", "\"14 m\""),
        _ => {}
    }
    let over_threshold = height.map(|given| given.map(ObstacleTop::OverThreshold));
    let over_sea = elevation.map(|given| given.map(ObstacleTop::OverSea));
    Some(Obstacle { name, station: station?, offset: offset?, top: over_threshold.or(over_sea)? })
}

/// One of two keys that stand in for each other.
fn top(t: &mut Table<'_>, key: &'static str, bounds: Bounds) -> Option<Given<Length>> {
    let entry = t.alternative(key)?;
    let amount = t.amount_of(&entry, Dimension::Length, bounds)?;
    Some(t.given(&entry, amount)).map(|given| given.map(|amount| metres(amount.si)))
}

pub(super) fn area(t: &mut Table<'_>) -> Option<Area> {
    let name = t.text("name");
    let kind = t.word("kind", &area_kinds());
    let from: Option<Given<Length>> = t.quantity("from", plausible::AREA_STATION);
    let to: Option<Given<Length>> = t.quantity("to", plausible::AREA_STATION);
    let left: Option<Given<Length>> = t.quantity("offset_from", plausible::OFFSET);
    let right: Option<Given<Length>> = t.quantity("offset_to", plausible::OFFSET);
    let depth = t.quantity("depth", plausible::RUT_DEPTH);
    let sinkage = t.quantity("sinkage", plausible::SINKAGE);
    let reported_on = t.date("reported_on");
    for (key, example) in [("kind", "\"soft\""), ("from", "\"640 m\""), ("to", "\"700 m\"")] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    in_order(t.page(), &from, &to);
    in_order(t.page(), &left, &right);
    for (given, missing) in [("offset_from", "offset_to"), ("offset_to", "offset_from")] {
        if t.has(given) && !t.has(missing) {
            let mistake =
                Mistake::HalfWidth { given: given.to_owned(), missing: missing.to_owned() };
            t.page().report(t.span_of(given), &mistake);
        }
    }
    let (from, to) = (from?.value, to?.value);
    let outline = match (left, right) {
        (Some(left), Some(right)) => rectangle((from, to), (left.value, right.value)),
        _ => AreaOutline::Across { from, to },
    };
    Some(Area { name, kind: kind?, outline, depth, sinkage, reported_on })
}

pub(super) fn season(t: &mut Table<'_>) -> Option<Season> {
    let name = t.text("name");
    let from = month_day(t, "from");
    let to = month_day(t, "to");
    let strength = t.quantity("strength", plausible::SEASON_STRENGTH);
    let wet_strength = t.quantity("wet_strength", plausible::SEASON_STRENGTH);
    for (key, example) in [("from", "\"04-01\""), ("to", "\"05-20\""), ("strength", "\"60 %\"")] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    Some(Season { name, from: from?, to: to?.value, strength: strength?, wet_strength })
}

pub(super) fn climate(t: &mut Table<'_>) -> Option<Climate> {
    let monthly = t.quantities("monthly_mean", plausible::MONTHLY_MEAN);
    let range: Option<Given<[Temperature; 12]>> =
        t.quantities("monthly_range", plausible::DAILY_RANGE);
    let spread: Option<Given<Temperature>> = t.quantity("spread", plausible::UNSURE_KELVINS);
    let latitude = t.quantity("latitude", plausible::LATITUDE);
    let longitude = t.quantity("longitude", plausible::LONGITUDE);
    if t.is_present() {
        for (key, example) in [
            ("monthly_mean", "[\"-18 degC\", ...]"),
            ("monthly_range", "[\"9 K\", ...]"),
            ("latitude", "\"62 deg\""),
            ("longitude", "\"-130 deg\""),
        ] {
            if !t.has(key) {
                t.lacks(key, example);
            }
        }
    }
    Some(Climate {
        monthly: monthly?,
        range_kelvins: range?.map(|range| range.map(Quantity::si)),
        spread_kelvins: spread.map(|spread| spread.map(Quantity::si)),
        latitude: latitude?,
        longitude: longitude?,
    })
}

pub(super) fn frost(t: &mut Table<'_>, files: &mut Files<'_>) -> Option<Frost> {
    let air = air_temperatures(t, files);
    let freezing_factor = t.coefficient("freezing_factor", plausible::SURFACE_FACTOR);
    let thawing_factor = t.coefficient("thawing_factor", plausible::SURFACE_FACTOR);
    let frozen_conductivity = t.coefficient("frozen_conductivity", plausible::CONDUCTIVITY);
    let thawed_conductivity = t.coefficient("thawed_conductivity", plausible::CONDUCTIVITY);
    let dry_density = t.quantity("dry_density", plausible::DRY_DENSITY);
    let water_content = t.quantity("water_content", plausible::WATER_CONTENT);
    let weakening = weakening(t);
    for (key, example) in [
        ("freezing_factor", "0.95"),
        ("thawing_factor", "1.25"),
        ("frozen_conductivity", "2.5"),
        ("thawed_conductivity", "1.9"),
        ("dry_density", "\"1900 kg/m3\""),
        ("water_content", "\"8 %\""),
    ] {
        if !t.has(key) {
            t.lacks(key, example);
        }
    }
    Some(Frost {
        air: air?,
        freezing_factor: freezing_factor?,
        thawing_factor: thawing_factor?,
        frozen_conductivity: frozen_conductivity?,
        thawed_conductivity: thawed_conductivity?,
        dry_density: dry_density?,
        water_content: water_content?,
        weakening,
    })
}

/// The temperatures of the air: by month in the file itself, or by day in a file
/// that it names.
fn air_temperatures(t: &mut Table<'_>, files: &mut Files<'_>) -> Option<AirTemperatures> {
    let daily = path(t, "daily");
    if t.has("daily") && t.has("monthly_mean") {
        t.page().report(t.span_of("monthly_mean"), &Mistake::TwoClimates {});
        t.entry("monthly_mean");
        return None;
    }
    if t.has("daily") {
        let entry = daily?;
        let (file, text) = load(t.page(), files, &entry)?;
        let page = Page::new(&file, &text);
        let origin = t.given(&entry, ()).origin;
        let days = temperatures(&page, origin, entry.source.clone());
        files.close(page);
        return days.map(AirTemperatures::Daily);
    }
    if !t.has("monthly_mean") {
        t.lacks("monthly_mean", "[\"-18 degC\", ...]");
    }
    t.quantities("monthly_mean", plausible::MONTHLY_MEAN).map(AirTemperatures::Monthly)
}

/// Strength while the ground thaws and the time that it recovers in; both or
/// neither.
fn weakening(t: &mut Table<'_>) -> Option<ThawWeakening> {
    let strength = t.quantity("thaw_strength", plausible::SEASON_STRENGTH);
    let recovery = t.quantity("recovery", plausible::RECOVERY);
    match (t.has("thaw_strength"), t.has("recovery")) {
        (true, false) => t.lacks("recovery", "\"30 d\""),
        (false, true) => t.lacks("thaw_strength", "\"60 %\""),
        _ => {}
    }
    Some(ThawWeakening { strength: strength?, recovery: recovery? })
}

/// A day of every year, such as `04-01`; 29 February is one.
fn month_day(t: &mut Table<'_>, key: &'static str) -> Option<Given<MonthDay>> {
    let text = t.text(key)?;
    let read = || {
        let (month, day) = text.value.split_once('-')?;
        let digits = |part: &str| part.len() == 2 && part.bytes().all(|b| b.is_ascii_digit());
        let whole = digits(month) && digits(day);
        let (month, day) = whole.then(|| Some((month.parse().ok()?, day.parse().ok()?)))??;
        Date::new(2024, month, day).ok().map(MonthDay::from)
    };
    let found = read();
    if found.is_none() {
        let mistake = Mistake::NotADayOfTheYear { key: text.origin.key.to_string() };
        t.page().report(t.span_of(key), &mistake);
    }
    found.map(|day| text.map(|_| day))
}

fn rectangle((from, to): (Length, Length), (left, right): (Length, Length)) -> AreaOutline {
    let corner = |station, offset| AxisPoint { station, offset };
    AreaOutline::Polygon(vec![
        corner(from, left),
        corner(to, left),
        corner(to, right),
        corner(from, right),
    ])
}
