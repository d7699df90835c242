//! Values of the flight that may be stated again. It works as a plain form; the
//! script of the page answers in place.

use crate::desk::Judged;
use crate::page::sentence;
use crate::query::Query;
use crate::shelf::RefusedPlace;
use hardpan_model::{Direction, Flight, SurfaceState};
use hardpan_quantity::{Amount, Dimension, Quantity, UnitSystem};
use hardpan_report::{amount_text, quantity_text};
use maud::{Markup, html};

/// One value that may be stated again.
struct Field {
    key: &'static str,
    label: &'static str,
    /// As the files have it.
    planned: Option<String>,
    /// What may be chosen; empty for a value with a unit.
    choices: Vec<String>,
}

/// The form with what was stated, and what is wrong with it.
pub(super) fn bench(
    address: &str,
    judged: &Judged,
    query: &Query,
    wrong: &[RefusedPlace],
) -> Markup {
    let flight = judged.planned();
    let groups = [
        ("Landing", movement(flight, query.units, true)),
        ("Take-off", movement(flight, query.units, false)),
        ("Tyres", tyres(flight, query.units)),
        ("Day", day(flight, query.units)),
    ];
    html! {
        details.fold #fold open {
        summary { "Change a value" }
        form.bench #bench method="get" action=(address) aria-label="Change a value" {
            @if query.units == UnitSystem::Imperial {
                input type="hidden" name="units" value="imperial";
            }
            @for (name, fields) in groups.iter().filter(|(_, fields)| !fields.is_empty()) {
                fieldset {
                    legend { (name) }
                    @for field in fields { (show(field, query, wrong)) }
                }
            }
            div.do {
                button type="submit" { "Answer with these" }
                a.reset href={ (address) (query.unchanged().text()) } { "As in the files" }
                p.note { "Empty means as in the files, which stay as they are." }
            }
        }
        }
    }
}

fn show(field: &Field, query: &Query, wrong: &[RefusedPlace]) -> Markup {
    let stated = query.change(field.key).unwrap_or_default();
    let planned = field.planned.as_deref();
    let mistake = wrong.iter().find(|place| place.key.as_deref() == Some(field.key));
    let help = mistake.map(|_| format!("wrong-{}", field.key));
    let class = if stated.is_empty() { "field" } else { "field stated" };
    html! {
        div class=(class) {
            label for=(field.key) { (field.label) }
            @if field.choices.is_empty() {
                input #(field.key) name=(field.key) type="text" value=(stated) size="9"
                    placeholder=(planned.unwrap_or("not stated")) autocomplete="off"
                    spellcheck="false" maxlength="40"
                    aria-invalid=[mistake.map(|_| "true")] aria-describedby=[help.as_deref()];
            } @else {
                select #(field.key) name=(field.key)
                    aria-invalid=[mistake.map(|_| "true")] aria-describedby=[help.as_deref()] {
                    option value="" selected[stated.is_empty()] {
                        (planned.unwrap_or("not stated"))
                    }
                    @for choice in field.choices.iter().filter(|c| Some(c.as_str()) != planned) {
                        option value=(choice) selected[choice == stated] { (choice) }
                    }
                    @if !stated.is_empty() && !field.choices.iter().any(|c| c == stated) {
                        option value=(stated) selected { (stated) }
                    }
                }
            }
            @if !stated.is_empty() {
                p.was { "files: " (planned.unwrap_or("not stated")) }
            }
            @if let Some(mistake) = mistake {
                p.wrong id=[help] { (sentence(&mistake.message)) " " (sentence(&mistake.hint)) }
            }
        }
    }
}

fn text<Q: Quantity>(given: Option<&hardpan_model::Given<Q>>, units: UnitSystem) -> Option<String> {
    given.map(|given| quantity_text(given.value, units))
}

fn value(key: &'static str, label: &'static str, planned: Option<String>) -> Field {
    Field { key, label, planned, choices: Vec::new() }
}

fn ends(flight: &Flight) -> [String; 2] {
    let strip = &flight.strip;
    let word = |end: &hardpan_model::StripEnd, other: &str| {
        end.designator.as_ref().map_or_else(|| other.to_owned(), |given| given.value.clone())
    };
    [word(&strip.low_end, "up"), word(&strip.high_end, "down")]
}

fn movement(flight: &Flight, units: UnitSystem, landing: bool) -> Vec<Field> {
    let parts = if landing {
        flight.landing.as_ref().map(|l| (&l.mass, &l.centre_of_gravity, &l.flap, &l.direction))
    } else {
        flight.take_off.as_ref().map(|t| (&t.mass, &t.centre_of_gravity, &t.flap, &t.direction))
    };
    let Some((mass, balance, flap, direction)) = parts else { return Vec::new() };
    let keys = if landing {
        ["landing.mass", "landing.centre_of_gravity", "landing.flap", "landing.direction"]
    } else {
        ["take_off.mass", "take_off.centre_of_gravity", "take_off.flap", "take_off.direction"]
    };
    let [mass_key, balance_key, flap_key, direction_key] = keys;
    let [low, high] = ends(flight);
    let way = direction.as_ref().map(|given| match given.value {
        Direction::Up => low.clone(),
        Direction::Down => high.clone(),
    });
    vec![
        value(mass_key, "mass", text(mass.as_ref(), units)),
        value(balance_key, "balance", text(balance.as_ref(), units)),
        Field {
            key: flap_key,
            label: "flap",
            planned: flap.as_ref().map(|given| given.value.clone()),
            choices: flight.aeroplane.flaps.iter().map(|flap| flap.name.value.clone()).collect(),
        },
        Field { key: direction_key, label: "runway", planned: way, choices: vec![low, high] },
    ]
}

fn tyres(flight: &Flight, units: UnitSystem) -> Vec<Field> {
    let chosen = |text: Option<String>| text.or_else(|| Some("chosen".to_owned()));
    let (main, nose) = (&flight.main_tyre_pressure, &flight.nose_tyre_pressure);
    vec![
        value("main_tyre_pressure", "main", chosen(text(main.as_ref(), units))),
        value("nose_tyre_pressure", "nose", chosen(text(nose.as_ref(), units))),
    ]
}

fn day(flight: &Flight, units: UnitSystem) -> Vec<Field> {
    let day = &flight.day;
    let wind = day.wind.as_ref().map(|wind| wind.value);
    let from = wind.map(|wind| match wind.from {
        Some(from) => quantity_text(from, units),
        None => "variable".to_owned(),
    });
    let pressure = day.sea_level_pressure.as_ref();
    let pressure = pressure
        .map(|given| amount_text(Amount::new(Dimension::AirPressure, given.value.si()), units));
    vec![
        value("wind.from", "wind from", from),
        value("wind.speed", "wind", wind.map(|wind| quantity_text(wind.speed, units))),
        value("temperature", "temperature", text(day.temperature.as_ref(), units)),
        value("sea_level_pressure", "pressure", pressure),
        Field {
            key: "surface_state",
            label: "surface",
            planned: day.surface_state.as_ref().map(|given| given.value.word().to_owned()),
            choices: SurfaceState::ALL.map(|state| state.word().to_owned()).to_vec(),
        },
    ]
}
