//! The sheet as a table of values, one cell a row.

use super::{MASSES_LEAVE_OUT, MassesReport, amount_in, parts_of};
use hardpan_assess::{CAUTION, MassCell, MassPanel};
use hardpan_quantity::{Amount, Dimension, Pressure, Quantity, Speed, Temperature, UnitSystem};
use std::fmt::Write as _;

/// Largest masses as CSV: remarks with the caution, the columns with their
/// units, one row for each place of the sheet. A mass that is not shown is empty.
#[must_use]
pub fn masses_csv(report: &MassesReport) -> String {
    let [pressure, air, temperature, mass] = match report.units {
        UnitSystem::Metric => ["kpa", "hpa", "c", "kg"],
        UnitSystem::Imperial => ["psi", "inhg", "f", "lb"],
    };
    let mut out = String::new();
    for line in [&report.title(), &report.subtitle(), MASSES_LEAVE_OUT, CAUTION] {
        let _ = writeln!(out, "# {line}");
    }
    let _ = writeln!(
        out,
        "movement,surface_state,main_tyre_pressure_{pressure},sea_level_pressure_{air},\
         temperature_{temperature},headwind_kt,planned_mass_{mass},mass_{mass},verdict,code,check,flap,decision_speed_kt"
    );
    for panel in &report.sheet.panels {
        for (temperature, row) in report.sheet.temperatures.iter().zip(&panel.rows) {
            for (wind, cell) in report.sheet.headwinds.iter().zip(row) {
                let _ = writeln!(out, "{}", line(report, panel, (*temperature, *wind), cell));
            }
        }
    }
    out
}

fn line(
    report: &MassesReport,
    panel: &MassPanel,
    (temperature, wind): (Temperature, Speed),
    cell: &MassCell,
) -> String {
    let units = report.units;
    let number = |shown: Option<(String, String)>| shown.map_or_else(String::new, |parts| parts.0);
    let (code, check) = cell.by.as_ref().map_or(("", ""), |(code, title)| (*code, title.as_str()));
    let mass = cell.mass.map(|_| report.mass(cell).replace(['\u{a0}', '\u{202f}'], ""));
    [
        panel.movement.word().to_owned(),
        panel.state.map_or_else(String::new, |state| state.word().to_owned()),
        number(panel.pressure.map(|one| amount_in(one, units))),
        number(panel.air_pressure.map(|one| air_in(one, units))),
        amount_in(temperature, units).0,
        amount_in(wind, units).0,
        number(panel.planned.map(|one| amount_in(one, units))),
        mass.unwrap_or_default(),
        cell.verdict.word().to_owned(),
        code.to_owned(),
        quoted(check),
        cell.flap.as_deref().map_or_else(String::new, quoted),
        number(cell.decision.map(|speed| amount_in(speed, units))),
    ]
    .join(",")
}

fn air_in(pressure: Pressure, units: UnitSystem) -> (String, String) {
    parts_of(Amount::new(Dimension::AirPressure, pressure.si()), units)
}

/// A text as one cell.
fn quoted(text: &str) -> String {
    format!("\"{}\"", crate::wrap::plain(text).replace('"', "\"\""))
}
