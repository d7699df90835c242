//! The tables at a terminal.

use super::{MARK, coverages_text, passes_text, point_text};
use crate::measure::{at_most_text, quantity_text};
use crate::text::{Paint, TextStyle, table_text};
use crate::wrap::{hanging, plain};
use hardpan_assess::{BearingCurve, BearingCurves, CAUTION, MovementCurves, Unavailable};
use hardpan_quantity::UnitSystem;

const LEGEND: &str = "Under each figure stands the place that gives first beyond it: station and \
                      lane, L left, R right; with ? the ground is not known deep enough there for \
                      more. \"end\" stands where nothing gives up to the structural limit or the \
                      greatest pressure of the tyre.";

/// Mass against tyre pressure by numbers of passes, and the caution.
#[must_use]
pub fn bearing_text(curves: &BearingCurves, units: UnitSystem, style: TextStyle) -> String {
    let paint = Paint::new(style);
    let title = format!(
        "What {} carries of {} ({})",
        named(&curves.strip, "the strip"),
        named(&curves.aeroplane, "the aeroplane"),
        MARK
    );
    let mut out = paint.heading(&title);
    for movement in &curves.movements {
        out.push('\n');
        out.push_str(&by_pressure(movement, units, &paint));
        out.push('\n');
        out.push_str(&by_mass(movement, units, &paint));
    }
    out.push('\n');
    out.push_str(&hanging(LEGEND, paint.width(), ""));
    for movement in &curves.movements {
        for curve in &movement.curves {
            let line = format!(
                "{}, {}: {}",
                movement.movement,
                passes_text(curve.passes),
                coverages_text(curve.coverages, curve.counted)
            );
            out.push_str(&hanging(&line, paint.width(), "  "));
        }
    }
    for caveat in &curves.caveats {
        out.push_str(&hanging(caveat, paint.width(), "  - "));
    }
    out.push('\n');
    out.push_str(&hanging(CAUTION, paint.width(), ""));
    out
}

/// Why there are no curves, and what to supply.
#[must_use]
pub fn no_bearing_text(why: &Unavailable, style: TextStyle) -> String {
    let paint = Paint::new(style);
    let mut out = hanging(&format!("Unproven: {}", plain(&why.because)), paint.width(), "");
    for need in &why.needs {
        let line = format!("{}: {}", plain(&need.what), plain(&need.how));
        out.push_str(&hanging(&line, paint.width(), "  - "));
    }
    out.push('\n');
    out.push_str(&hanging(CAUTION, paint.width(), ""));
    out
}

fn named(name: &str, otherwise: &str) -> String {
    if name.is_empty() { otherwise.to_owned() } else { plain(name) }
}

fn headings(first: &str, movement: &MovementCurves) -> Vec<String> {
    let passes = movement.curves.iter().map(|curve| passes_text(curve.passes));
    std::iter::once(first.to_owned()).chain(passes).collect()
}

fn by_pressure(movement: &MovementCurves, units: UnitSystem, paint: &Paint) -> String {
    let planned = movement
        .planned
        .map_or(String::new(), |mass| format!(", {} planned", quantity_text(mass, units)));
    let title = format!("Largest mass by main tyre pressure, {}{planned}", movement.movement);
    let mut header = headings("Pressure", movement);
    header.insert(1, "Tyre allows".to_owned());
    let names: Vec<&str> = header.iter().map(String::as_str).collect();
    let right: Vec<usize> = (0..header.len()).collect();
    let mut table = paint.table(&names, &right);
    let rows = movement.curves.first().map_or(&[][..], |curve| curve.by_pressure.as_slice());
    for (index, row) in rows.iter().enumerate() {
        let mut cells = vec![quantity_text(row.at, units), tyre(movement, index, units)];
        cells.extend(movement.curves.iter().map(|curve| {
            cell(curve.by_pressure.get(index).map(|point| point_text(point, "end", units)))
        }));
        table.add_row(cells);
    }
    let mut out = paint.heading(&title) + &table_text(&table);
    if let Err(why) = &movement.tyre {
        let line = format!("What the tyre allows is not known: {}", plain(&why.because));
        out.push_str(&hanging(&line, paint.width(), ""));
    }
    out
}

fn tyre(movement: &MovementCurves, index: usize, units: UnitSystem) -> String {
    match movement.tyre.as_ref().map(|rows| rows.get(index)) {
        Ok(Some((_, Some(mass)))) => at_most_text(*mass, units),
        Ok(_) => "none".to_owned(),
        Err(_) => "not known".to_owned(),
    }
}

fn by_mass(movement: &MovementCurves, units: UnitSystem, paint: &Paint) -> String {
    let title = format!("Largest main tyre pressure by mass, {}", movement.movement);
    let header = headings("Mass", movement);
    let names: Vec<&str> = header.iter().map(String::as_str).collect();
    let right: Vec<usize> = (0..header.len()).collect();
    let mut table = paint.table(&names, &right);
    let rows = movement.curves.first().map_or(&[][..], |curve| curve.by_mass.as_slice());
    for (index, row) in rows.iter().enumerate() {
        let of = |curve: &BearingCurve| {
            cell(curve.by_mass.get(index).map(|point| point_text(point, "end", units)))
        };
        let mut cells = vec![quantity_text(row.at, units)];
        cells.extend(movement.curves.iter().map(of));
        table.add_row(cells);
    }
    paint.heading(&title) + &table_text(&table)
}

fn cell(text: Option<(String, String)>) -> String {
    text.map_or_else(String::new, |(largest, place)| format!("{largest}\n{place}"))
}
