//! Some values of a flight stated again, for one question: what if it were
//! heavier, the wind stronger, the tyres softer? The texts go through the same
//! reader as a file, so that the same sentences refuse them, and a figure that
//! rests on one of them says so.

use crate::diagnose::page::{Files, Page};
use crate::flight::{direction_word, flap_word, load_sheet};
use crate::strip::states;
use crate::table::cursor::Table;
use crate::table::plausible;
use crate::table::toml_text::parse;
use crate::{Memory, Reading};
use hardpan_model::{Day, Flight, Given, Wind};
use hardpan_quantity::{Angle, Dimension, Pressure, Speed, Temperature};
use std::fmt::Write as _;
use std::sync::Arc;

/// Name under which changed values stand in diagnostics and in the basis of a figure.
pub const CHANGES: &str = "changes";

/// Keys that may be stated again, as they stand in the files.
pub const CHANGEABLE: [&str; 17] = [
    "landing.direction",
    "landing.mass",
    "landing.load",
    "landing.centre_of_gravity",
    "landing.flap",
    "take_off.direction",
    "take_off.mass",
    "take_off.load",
    "take_off.centre_of_gravity",
    "take_off.flap",
    "main_tyre_pressure",
    "nose_tyre_pressure",
    "wind.from",
    "wind.speed",
    "temperature",
    "sea_level_pressure",
    "surface_state",
];

/// The flight with some of its values stated again, each as a key and a text
/// with its unit, such as `take_off.mass` and `38 t`.
///
/// The name of the flight then says what was changed, so that no card of it is
/// taken for one of the files. A gust and a varying direction go when wind is stated again: they belonged
/// to the other wind. The keys of a movement that the
/// flight does not plan are unknown.
#[must_use]
pub fn change_flight(flight: Flight, changes: &[(String, String)]) -> Reading<Flight> {
    if changes.is_empty() {
        return Files::new(&Memory::default()).finish(Some(flight));
    }
    let changes: Vec<(String, String)> =
        changes.iter().map(|(key, value)| (key.clone(), unquoted(value).to_owned())).collect();
    let changes = changes.as_slice();
    let text = toml_of(changes);
    let source = Memory::default().with(CHANGES, text);
    let mut files = Files::new(&source);
    let Some(text) = files.load(CHANGES, None) else { return files.finish(None) };
    let file: Arc<str> = CHANGES.into();
    let page = Page::new(&file, &text);
    let changed = parse(&page, CHANGES).map(|root| {
        let mut table = Table::root(&page, &root);
        let mut changed = changed(&mut table, flight);
        table.finish();
        changed.name = Some(name(changed.name.take(), changes));
        changed
    });
    files.close(page);
    files.finish(changed)
}

/// One line a change. A key that is not a row of bare keys is quoted whole, so
/// that the reader names it as unknown.
fn toml_of(changes: &[(String, String)]) -> String {
    let is_bare = |key: &str| {
        key.split('.').all(|part| {
            !part.is_empty() && part.chars().all(|c| c.is_ascii_alphanumeric() || c == '_')
        }) && key.matches('.').count() < 3
    };
    let mut text = String::new();
    for (key, value) in changes {
        let key = if is_bare(key) { key.clone() } else { quoted(key) };
        let _ = writeln!(text, "{key} = {}", quoted(value));
    }
    text
}

/// A value without the one pair of quotes that stands around it in a file.
fn unquoted(value: &str) -> &str {
    let value = value.trim();
    let inside = |quote: char| value.strip_prefix(quote)?.strip_suffix(quote);
    inside('"').or_else(|| inside('\'')).unwrap_or(value)
}

/// A text as TOML writes it, whatever is in it.
#[must_use]
pub fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => out.extend(['\\', c]),
            c if c.is_control() => {
                let _ = write!(out, "\\u{:04X}", u32::from(c));
            }
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

fn changed(t: &mut Table<'_>, mut flight: Flight) -> Flight {
    let strip = flight.strip.clone();
    let flaps: Vec<String> =
        flight.aeroplane.flaps.iter().map(|flap| flap.name.value.clone()).collect();
    let movement = |t: &mut Table<'_>| {
        (
            direction_word(t, Some(&strip)),
            (t.quantity("mass", plausible::MASS), t.quantity("load", plausible::FUEL)),
            t.quantity("centre_of_gravity", plausible::CHORD_PLACE),
            flap_word(t, "flap", &flaps),
        )
    };
    if let Some(landing) = &mut flight.landing {
        let (direction, mass, balance, flap) = t.table("landing", movement);
        put(&mut landing.direction, direction);
        load_sheet::put((&mut landing.mass, &mut landing.load), mass);
        put(&mut landing.centre_of_gravity, balance);
        put(&mut landing.flap, flap);
    }
    if let Some(take_off) = &mut flight.take_off {
        let (direction, mass, balance, flap) = t.table("take_off", movement);
        put(&mut take_off.direction, direction);
        load_sheet::put((&mut take_off.mass, &mut take_off.load), mass);
        put(&mut take_off.centre_of_gravity, balance);
        put(&mut take_off.flap, flap);
    }
    put(&mut flight.main_tyre_pressure, t.quantity("main_tyre_pressure", plausible::TYRE_PRESSURE));
    put(&mut flight.nose_tyre_pressure, t.quantity("nose_tyre_pressure", plausible::TYRE_PRESSURE));
    day(t, &mut flight.day);
    load_sheet::complete(t.page(), &mut flight);
    flight
}

fn day(t: &mut Table<'_>, day: &mut Day) {
    let (from, speed): (Option<Given<Angle>>, Option<Given<Speed>>) = t.table("wind", |t| {
        (t.quantity("from", plausible::CIRCLE), t.quantity("speed", plausible::WIND))
    });
    let stated = from.as_ref().map(|from| from.origin.clone());
    let stated = stated.or_else(|| speed.as_ref().map(|speed| speed.origin.clone()));
    if let Some(origin) = stated {
        let before = day.wind.take().map(|wind| wind.value);
        let from = from.map(|from| from.value).or(before.and_then(|wind| wind.from));
        let speed = speed.map(|speed| speed.value).or(before.map(|wind| wind.speed));
        day.wind = speed.map(|speed| Given {
            value: Wind { from, speed, gust: None, between: None },
            origin,
            source: None,
        });
    }
    let temperature: Option<Given<Temperature>> = t.quantity("temperature", plausible::TEMPERATURE);
    put(&mut day.temperature, temperature);
    let pressure: Option<Given<Pressure>> =
        t.quantity_as("sea_level_pressure", Dimension::AirPressure, plausible::SEA_LEVEL_PRESSURE);
    put(&mut day.sea_level_pressure, pressure);
    put(&mut day.surface_state, t.word("surface_state", &states()));
}

/// The name with what was changed, such as `To North (changed: landing mass 38 t)`.
fn name(before: Option<Given<String>>, changes: &[(String, String)]) -> Given<String> {
    let words = changes.iter().map(|(key, value)| {
        format!("{} {value}", key.replace("take_off", "take-off").replace(['.', '_'], " "))
    });
    let words = words.collect::<Vec<_>>().join(", ");
    match before {
        Some(given) => given.map(|name| format!("{name} (changed: {words})")),
        None => Given::stated("name", format!("changed: {words}")),
    }
}

fn put<T>(place: &mut Option<T>, stated: Option<T>) {
    if stated.is_some() {
        *place = stated;
    }
}
