//! What would turn an answer, at a terminal.

use super::{actions, money};
use crate::measure::{at_most_text, quantity_text};
use crate::text::{Paint, TextStyle, table_text, verdict_text};
use crate::wrap::{entry, hanging, plain};
use hardpan_assess::{CAUTION, MassAnswer, TradePoint, WayOut, WaysOut};
use hardpan_model::Verdict;
use hardpan_quantity::{Mass, Quantity, UnitSystem, kilograms};

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
    out.push_str(&paint.answer(found.verdict, &opening(found)));
    if let Some(way) = &found.shortest {
        out.push('\n');
        out.push_str(&paint.heading("The shortest list that turns it"));
        out.push_str(&list(found, way, units, &paint));
    }
    if let Some(way) = found.cheapest.as_ref().filter(|way| found.shortest.as_ref() != Some(*way)) {
        out.push('\n');
        out.push_str(&paint.heading("The cheapest that turns it"));
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

fn opening(found: &WaysOut) -> String {
    match found.verdict {
        Verdict::Fail => format!("as planned; {} fail.", found.failing.join(", ")),
        Verdict::Unproven => "as planned: data are missing.".to_owned(),
        _ => "as planned; what follows raises the masses.".to_owned(),
    }
}

fn list(found: &WaysOut, way: &WayOut, units: UnitSystem, paint: &Paint) -> String {
    let mut out = String::new();
    for (place, action) in actions(&way.actions, units).iter().enumerate() {
        out.push_str(&entry(&format!("{}.", place + 1), action, 3, paint.width()));
    }
    let mut then = format!("Then: {}", verdict_text(way.verdict_after));
    if !way.mends.is_empty() {
        then.push_str(&format!("; mends {}", way.mends.join(", ")));
    }
    for (word, mass) in [("landing", way.landing_mass), ("take-off", way.take_off_mass)] {
        if let Some(mass) = mass {
            then.push_str(&format!("; {word} at most {}", at_most_text(mass, units)));
        }
    }
    if let Some(speed) = way.decision_speed {
        then.push_str(&format!("; V1 {}", quantity_text(speed, units)));
    }
    if way.load_left.si() > 0.0 {
        then.push_str(&format!("; {} left behind", quantity_text(way.load_left, units)));
    }
    if !found.unit.is_empty() {
        then.push_str(&format!("; cost {}", money(found, way.cost)));
    }
    out.push_str(&hanging(&format!("{then}."), paint.width(), "  "));
    out
}

/// A mass after a change against the one before.
fn gained(after: Option<Mass>, before: Option<&MassAnswer>, units: UnitSystem) -> String {
    match (after, before.and_then(|before| before.largest)) {
        (Some(after), Some(before)) => {
            let gain = (after - before).si();
            let shown = quantity_text(kilograms(gain.abs()), units);
            match gain {
                gain if gain.abs() < 5.0 => "as it is".to_owned(),
                gain if gain > 0.0 => format!("+{shown}"),
                _ => format!("−{shown}"),
            }
        }
        (Some(after), None) => at_most_text(after, units),
        (None, Some(_)) => "none".to_owned(),
        (None, None) => "–".to_owned(),
    }
}

fn singles(found: &WaysOut, units: UnitSystem, paint: &Paint) -> String {
    if found.singles.is_empty() {
        return hanging("No single change helps.", paint.width(), "  ");
    }
    let header = ["Change", "Then", "Mends", "Still fails", "Landing", "Take-off", "Cost"];
    let mut table = paint.table(&header, &[4, 5, 6]);
    for way in &found.singles {
        let or_dash = |codes: &[&str]| {
            if codes.is_empty() { "–".to_owned() } else { codes.join(", ") }
        };
        table.add_row([
            actions(&way.actions, units).join(" and "),
            verdict_text(way.verdict_after),
            or_dash(&way.mends),
            or_dash(&way.left),
            gained(way.landing_mass, found.landing_mass.as_ref(), units),
            gained(way.take_off_mass, found.take_off_mass.as_ref(), units),
            money(found, way.cost),
        ]);
    }
    table_text(&table)
}

fn trade(found: &WaysOut, units: UnitSystem, paint: &Paint) -> String {
    let header = ["Repair", "Gravel", "Landing", "Take-off", "Over the plan", "Cost"];
    let mut table = paint.table(&header, &[1, 2, 3, 4, 5]);
    for point in &found.trade {
        let mass =
            |mass: Option<Mass>| mass.map_or("none".to_owned(), |mass| at_most_text(mass, units));
        table.add_row([
            repair(point, units),
            gravel(point, units),
            mass(point.landing_mass),
            mass(point.take_off_mass),
            signed(point.spare, units),
            money(found, point.cost),
        ]);
    }
    table_text(&table)
}

fn repair(point: &TradePoint, units: UnitSystem) -> String {
    match &point.repair {
        Some(repair) => plain(&repair.show(units)),
        None => "none".to_owned(),
    }
}

fn gravel(point: &TradePoint, units: UnitSystem) -> String {
    match units {
        UnitSystem::Metric => format!("{:.0} m³", point.cubic_metres),
        UnitSystem::Imperial => format!("{:.0} yd³", point.cubic_metres / CUBIC_YARD_M3),
    }
}

/// A cubic yard, m³: (3 × 0.3048)³.
const CUBIC_YARD_M3: f64 = 0.764_554_857_984;

fn signed(mass: Mass, units: UnitSystem) -> String {
    let sign = if mass.si() < 0.0 { "−" } else { "+" };
    format!("{sign}{}", quantity_text(kilograms(mass.si().abs()), units))
}
