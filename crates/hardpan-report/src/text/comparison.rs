//! Flights side by side, the best first.

use super::paint::{Paint, TextStyle, table_text, verdict_text};
use crate::measure::{at_most_text, quantity_text};
use crate::wrap::{entry, hanging, plain};
use hardpan_assess::{CAUTION, MassAnswer, Ranked};
use hardpan_quantity::UnitSystem;

const HEADER: [&str; 6] =
    ["Place", "Verdict", "Flight", "Ends", "Take-off, at most", "Landing, at most"];

/// The ranking as terminal text: a table, why each stands where it does, and
/// the caution.
#[must_use]
pub fn comparison(ranked: &[Ranked], units: UnitSystem, style: TextStyle) -> String {
    let paint = Paint::new(style);
    let mut table = paint.table(&HEADER, &[0, 4, 5]);
    for (place, one) in ranked.iter().enumerate() {
        table.add_row([
            format!("{}", place + 1),
            verdict_text(one.verdict),
            format!("{}{}", plain(&one.name), apart(one, ranked)),
            plain(&one.directions),
            mass(one.take_off_mass.as_ref(), units),
            mass(one.landing_mass.as_ref(), units),
        ]);
    }
    let mut out = paint.heading("The best first: by verdict, then by the mass to spare");
    out.push_str(&paint.verdicts(&table_text(&table)));
    out.push('\n');
    out.push_str(&paint.heading("Why"));
    for (place, one) in ranked.iter().enumerate() {
        let label = format!("{}.", place + 1);
        out.push_str(&entry(&label, &plain(&one.reason.show(units)), 4, paint.width()));
    }
    out.push('\n');
    out.push_str(&hanging(CAUTION, paint.width(), ""));
    out
}

/// What tells a flight apart: its aeroplane and its strip, each where not all have
/// the same.
fn apart(one: &Ranked, ranked: &[Ranked]) -> String {
    let differs =
        |name: fn(&Ranked) -> &String| ranked.iter().any(|other| name(other) != name(one));
    let aeroplane = differs(|one| &one.aeroplane).then_some(&one.aeroplane);
    let strip = differs(|one| &one.strip).then_some(&one.strip);
    aeroplane.into_iter().chain(strip).map(|name| format!(", {}", plain(name))).collect()
}

/// Largest mass, the load that it leaves, and the mass planned.
fn mass(answer: Option<&MassAnswer>, units: UnitSystem) -> String {
    let Some(answer) = answer else { return "not planned".to_owned() };
    let largest = answer.largest.map_or("none".to_owned(), |mass| at_most_text(mass, units));
    let load = answer.load.map(|load| format!("{} of it load", at_most_text(load, units)));
    let planned =
        answer.planned.map(|planned| format!("{} planned", quantity_text(planned, units)));
    let rest: Vec<String> = load.into_iter().chain(planned).collect();
    if rest.is_empty() { largest } else { format!("{largest} ({})", rest.join(", ")) }
}
