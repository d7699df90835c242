//! Readings at a station of the strip, as people and programs read them.

use crate::explain::explain_basis;
use crate::json::figure_json;
use crate::measure::quantity_text;
use crate::wrap::{hanging, plain};
use hardpan_assess::{CAUTION, Reading, formulas};
use hardpan_quantity::{Length, Quantity as _, UnitSystem};
use serde_json::json;

/// Every reading opened, for a person at a terminal of `width` columns.
#[must_use]
pub fn readings_text(
    readings: &[Reading],
    station: Length,
    units: UnitSystem,
    width: usize,
) -> String {
    let catalogue = formulas();
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
        for figure in &reading.figures {
            out.push_str(&explain_basis(figure, &catalogue, units, width));
        }
    }
    out
}

/// Every reading opened, as the text of a JSON file in SI units.
#[must_use]
pub fn readings_json(readings: &[Reading], station: Length) -> String {
    let reading = |one: &Reading| {
        json!({
            "id": one.id, "name": one.name, "none": one.none,
            "figures": one.figures.iter().map(figure_json).collect::<Vec<_>>(),
        })
    };
    let value = json!({
        "caution": CAUTION,
        "station_m": station.si(),
        "readings": readings.iter().map(reading).collect::<Vec<_>>(),
    });
    format!("{value:#}\n")
}
