//! What would turn an answer, as lines and rows in the reader's units.

use super::{actions, money};
use crate::measure::{at_most_text, quantity_text};
use crate::text::verdict_text;
use crate::wrap::plain;
use hardpan_assess::{MassAnswer, TradePoint, WayOut, WaysOut};
use hardpan_model::Verdict;
use hardpan_quantity::{Mass, Quantity, UnitSystem, kilograms};

/// Headings of [`ways_singles`].
pub const SINGLES_HEADER: [&str; 7] =
    ["Change", "Then", "Mends", "Still fails", "Landing", "Take-off", "Cost"];
/// Headings of [`ways_trade`].
pub const TRADE_HEADER: [&str; 6] =
    ["Repair", "Gravel", "Landing", "Take-off", "Over the plan", "Cost"];

/// What a list of changes is called: where data are missing after it, it turns nothing
/// by itself, and only leaves nothing that fails.
#[must_use]
pub fn ways_heading(way: &WayOut, word: &str) -> String {
    match way.verdict_after {
        Verdict::Unproven => format!("The {word} list after which nothing fails; data are missing"),
        _ => format!("The {word} list that turns it"),
    }
}

/// How the answer stands as planned.
#[must_use]
pub fn ways_opening(found: &WaysOut) -> String {
    match found.verdict {
        Verdict::Fail => {
            let verb = if found.failing.len() == 1 { "fails" } else { "fail" };
            format!("as planned; {} {verb}.", found.failing.join(", "))
        }
        Verdict::Unproven => "as planned: data are missing.".to_owned(),
        _ => "as planned; what follows raises the masses.".to_owned(),
    }
}

/// A list of changes: what to do in order, and what comes of it.
#[must_use]
pub fn ways_list(found: &WaysOut, way: &WayOut, units: UnitSystem) -> (Vec<String>, String) {
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
    (actions(&way.actions, units), format!("{then}."))
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

/// Each change by itself, with what comes of it.
#[must_use]
pub fn ways_singles(found: &WaysOut, units: UnitSystem) -> Vec<[String; 7]> {
    let or_dash =
        |codes: &[&str]| if codes.is_empty() { "–".to_owned() } else { codes.join(", ") };
    let row = |way: &WayOut| {
        [
            actions(&way.actions, units).join(" and "),
            verdict_text(way.verdict_after),
            or_dash(&way.mends),
            or_dash(&way.left),
            gained(way.landing_mass, found.landing_mass.as_ref(), units),
            gained(way.take_off_mass, found.take_off_mass.as_ref(), units),
            money(found, way.cost),
        ]
    };
    found.singles.iter().map(row).collect()
}

/// Mass against repair, none beaten in both.
#[must_use]
pub fn ways_trade(found: &WaysOut, units: UnitSystem) -> Vec<[String; 6]> {
    let mass =
        |mass: Option<Mass>| mass.map_or("none".to_owned(), |mass| at_most_text(mass, units));
    let row = |point: &TradePoint| {
        [
            repair(point, units),
            gravel(point, units),
            mass(point.landing_mass),
            mass(point.take_off_mass),
            signed(point.spare, units),
            money(found, point.cost),
        ]
    };
    found.trade.iter().map(row).collect()
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
