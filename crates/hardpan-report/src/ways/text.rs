//! What would turn an answer, at a terminal.

use super::{
    SINGLES_HEADER, TRADE_HEADER, ways_heading, ways_list, ways_opening, ways_singles, ways_trade,
};
use crate::explain::by_words;
use crate::text::{Paint, TextStyle, table_text};
use crate::wrap::{entry, hanging, plain};
use hardpan_assess::{CAUTION, WayOut, WaysOut};
use hardpan_quantity::UnitSystem;

/// The ways out as terminal text: the shortest list that turns the answer, the
/// cheapest, every single change with its effect, and mass against repair.
#[must_use]
pub fn ways_text(found: &WaysOut, units: UnitSystem, style: TextStyle) -> String {
    let paint = Paint::new(style);
    let width = paint.width();
    let identity = &found.identity;
    let mut out = paint.heading(&format!(
        "What would help: {} at {}",
        plain(&identity.aeroplane),
        plain(&identity.strip)
    ));
    let line = format!("{}; {}", plain(&identity.flight), plain(&identity.directions));
    out.push_str(&hanging(&line, width, ""));
    out.push('\n');
    out.push_str(&paint.answer(found.verdict, &ways_opening(found)));
    if let Some(way) = &found.shortest {
        out.push('\n');
        out.push_str(&paint.heading(&ways_heading(way, "shortest")));
        out.push_str(&list(found, way, units, &paint));
    }
    if let Some(way) = found.cheapest.as_ref().filter(|way| found.shortest.as_ref() != Some(*way)) {
        out.push('\n');
        out.push_str(&paint.heading(&ways_heading(way, "cheapest")));
        out.push_str(&list(found, way, units, &paint));
    } else if found.cheapest.is_some() {
        out.push_str(&hanging("It is also the cheapest.", width, "  "));
    }
    out.push('\n');
    out.push_str(&paint.heading("Each change by itself"));
    out.push_str(&singles(found, units, &paint));
    if found.trade.len() > 1 {
        out.push('\n');
        out.push_str(&paint.heading("Mass against repair"));
        out.push_str(&trade(found, units, &paint));
    }
    out.push('\n');
    for note in &found.notes {
        out.push_str(&hanging(note, width, "  - "));
    }
    let tried = format!("{} lists of changes were assessed afresh.", found.tried);
    out.push_str(&hanging(&tried, width, ""));
    out.push_str(&hanging(CAUTION, width, ""));
    paint.verdicts(&out)
}

fn list(found: &WaysOut, way: &WayOut, units: UnitSystem, paint: &Paint) -> String {
    let (actions, then) = ways_list(found, way, units);
    let steps = actions.iter().enumerate();
    let steps = steps.map(|(at, one)| entry(&format!("{}.", at + 1), one, 3, paint.width()));
    let mut out: String = steps.collect();
    out.push_str(&hanging(&then, paint.width(), "  "));
    out
}

fn singles(found: &WaysOut, units: UnitSystem, paint: &Paint) -> String {
    if found.singles.is_empty() {
        return hanging("No single change helps.", paint.width(), "  ");
    }
    let mut table = paint.table(&SINGLES_HEADER, &[4, 5, 6]);
    for row in ways_singles(found, units) {
        table.add_row(row);
    }
    table_text(&table)
}

fn trade(found: &WaysOut, units: UnitSystem, paint: &Paint) -> String {
    let mut table = paint.table(&TRADE_HEADER, &[1, 2, 3, 4, 5]);
    for row in ways_trade(found, units) {
        table.add_row(row);
    }
    table_text(&table)
}

/// The figures whose names have some words in them, each down to the prices and masses that
/// it came from; every figure without words. None where no name has them.
#[must_use]
pub fn ways_opened_text(
    found: &WaysOut,
    words: &str,
    units: UnitSystem,
    style: TextStyle,
) -> Option<String> {
    by_words(&found.opened(), words, (units, style))
}
