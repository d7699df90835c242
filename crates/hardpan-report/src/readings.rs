//! Readings at a station of the strip, as people and programs read them.

use crate::explain::{explain_apart, explain_basis, opened_apart_json};
use crate::measure::quantity_text;
use crate::wrap::{hanging, plain};
use hardpan_assess::{CAUTION, FigureBasis, Opening, Reading, formulas};
use hardpan_quantity::{Length, Quantity as _, UnitSystem};
use serde_json::json;

/// Every reading with its own steps, for a person at a terminal of `width` columns.
#[must_use]
pub fn readings_text(
    readings: &[Reading],
    station: Length,
    units: UnitSystem,
    width: usize,
) -> String {
    let catalogue = formulas();
    let all: Vec<&Reading> = readings.iter().collect();
    let mut out = told(&all, station, (units, width), |figure, _| {
        explain_basis(figure, &catalogue, units, width)
    });
    let more = "Each opens down to the files: name it behind the station, or words of its name.";
    out.push('\n');
    out.push_str(&hanging(more, width, ""));
    out
}

/// Some readings down to the files, for a person at a terminal of `width` columns.
#[must_use]
pub fn readings_down(
    readings: &[&Reading],
    station: Length,
    units: UnitSystem,
    width: usize,
) -> String {
    let catalogue = formulas();
    told(readings, station, (units, width), |figure, opening| {
        explain_apart(figure, opening, &catalogue, units, width)
    })
}

fn told(
    readings: &[&Reading],
    station: Length,
    (units, width): (UnitSystem, usize),
    opened: impl Fn(&FigureBasis, &Opening) -> String,
) -> String {
    let mut out = hanging(&format!("At station {}", quantity_text(station, units)), width, "");
    for reading in readings {
        out.push('\n');
        if let Some(none) = &reading.none {
            out.push_str(&hanging(
                &format!("{}: {}", plain(&reading.name), plain(none)),
                width,
                "",
            ));
        }
        for (figure, opening) in reading.figures.iter().zip(&reading.openings) {
            out.push_str(&opened(figure, opening));
        }
    }
    out
}

/// Every reading opened, as the text of a JSON file in SI units.
#[must_use]
pub fn readings_json(readings: &[Reading], station: Length) -> String {
    let reading = |one: &Reading| {
        let figures = one.figures.iter().zip(&one.openings);
        json!({
            "id": one.id, "name": one.name, "none": one.none,
            "figures": figures.map(|(figure, opening)| opened_apart_json(figure, opening)).collect::<Vec<_>>(),
        })
    };
    let value = json!({
        "caution": CAUTION,
        "station_m": station.si(),
        "readings": readings.iter().map(reading).collect::<Vec<_>>(),
    });
    format!("{value:#}\n")
}
