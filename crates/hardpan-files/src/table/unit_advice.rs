//! What to write in place of a number without unit, or with a wrong one.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::nearest::{list, nearest};
use crate::diagnose::page::shortened;
use crate::table::plausible::Bounds;
use hardpan_quantity::{Dimension, ParseError, parse_amount, units_of};

/// The units of a kind, in words.
pub(crate) fn units(dimension: Dimension) -> String {
    list(&symbols(dimension))
}

fn symbols(dimension: Dimension) -> Vec<&'static str> {
    units_of(dimension).iter().map(|unit| unit.symbol).filter(|symbol| symbol.is_ascii()).collect()
}

/// Spellings that are far from the unit they mean.
const SPELLINGS: [(&str, &str); 30] = [
    ("meter", "m"),
    ("meters", "m"),
    ("metre", "m"),
    ("metres", "m"),
    ("feet", "ft"),
    ("foot", "ft"),
    ("inch", "in"),
    ("inches", "in"),
    ("knot", "kt"),
    ("knots", "kt"),
    ("kts", "kt"),
    ("tonne", "t"),
    ("tonnes", "t"),
    ("pounds", "lb"),
    ("lbs", "lb"),
    ("kilograms", "kg"),
    ("percent", "%"),
    ("c", "degC"),
    ("deg c", "degC"),
    ("f", "degF"),
    ("deg f", "degF"),
    ("degrees", "deg"),
    ("hour", "h"),
    ("hours", "h"),
    ("day", "d"),
    ("days", "d"),
    ("minutes", "min"),
    ("seconds", "s"),
    ("kph", "km/h"),
    ("kmh", "km/h"),
];

/// The unit that a spelling means, if the kind has it.
fn meant(spelling: &str, dimension: Dimension) -> Option<&'static str> {
    let known = symbols(dimension);
    let lower = spelling.to_lowercase();
    let spelt = SPELLINGS.iter().find(|(spelling, _)| *spelling == lower);
    let spelt = spelt.map(|(_, unit)| *unit).filter(|unit| known.contains(unit));
    let same = known.iter().find(|symbol| symbol.eq_ignore_ascii_case(spelling)).copied();
    spelt.or(same).or_else(|| nearest(spelling, known))
}

/// Bounds in the units in which a value is written.
pub(crate) fn in_units_of(value: &str, dimension: Dimension, bounds: Bounds) -> (String, String) {
    let units = units_of(dimension);
    let unit = units.iter().filter(|unit| value.ends_with(unit.symbol));
    let show = |si: f64| match unit.clone().max_by_key(|unit| unit.symbol.len()) {
        Some(unit) => format!("{} {}", to_digits((si - unit.offset) / unit.factor, 3), unit.symbol),
        None => to_digits(si, 3),
    };
    (show(bounds.low), show(bounds.high))
}

/// A number to so many digits, without needless zeros.
fn to_digits(number: f64, digits: i32) -> String {
    if number == 0.0 {
        return "0".to_owned();
    }
    let places = f64::from(digits - 1) - number.abs().log10().floor();
    let scale = 10_f64.powf(places);
    let rounded = (number * scale).round() / scale;
    let decimals = places.clamp(0.0, 6.0) as usize;
    let text = format!("{rounded:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// A value of the kind that could stand there, in the first unit of its kind.
pub(crate) fn example(dimension: Dimension, bounds: Bounds) -> String {
    let middle = (bounds.low.max(1e-3) * bounds.high.max(1e-3)).sqrt();
    let shown = match units_of(dimension).first() {
        Some(unit) => {
            let number = (middle.clamp(bounds.low, bounds.high) - unit.offset) / unit.factor;
            format!("{} {}", to_digits(number, 1), unit.symbol)
        }
        None => to_digits(middle, 1),
    };
    format!("\"{shown}\"")
}

/// What to write for a number that stands alone: the units in which it can be right.
pub(crate) fn number_with_units(read: &str, dimension: Dimension, bounds: Bounds) -> String {
    let read = read.replace('_', "");
    let read = read.trim();
    let could_be = |symbol: &&str| {
        parse_amount(&format!("{read} {symbol}"), dimension)
            .is_ok_and(|amount| bounds.hold(amount.si))
    };
    let fitting: Vec<String> = symbols(dimension)
        .into_iter()
        .filter(could_be)
        .take(3)
        .map(|symbol| format!("\"{read} {symbol}\""))
        .collect();
    let fitting: Vec<&str> = fitting.iter().map(String::as_str).collect();
    if fitting.is_empty() {
        format!("write it with its unit, like {}", example(dimension, bounds))
    } else {
        format!("write {}", list(&fitting))
    }
}

/// The mistake behind a text that is not the quantity asked for.
pub(crate) fn unit_mistake(
    key: &str,
    text: &str,
    dimension: Dimension,
    bounds: Bounds,
    error: &ParseError,
) -> Mistake {
    let key = key.to_owned();
    let kind = dimension.with_article();
    let units = units(dimension);
    match error {
        ParseError::MissingUnit { read, .. } => {
            Mistake::NoUnit { key, kind, units, advice: number_with_units(read, dimension, bounds) }
        }
        ParseError::WrongDimension { unit, is, .. } => {
            Mistake::WrongUnit { key, unit: shortened(unit), is: is.name().to_owned(), kind, units }
        }
        ParseError::UnknownUnit { unit, .. } | ParseError::UnwantedUnit { unit, .. } => {
            if unit.starts_with(['\'', '_']) {
                return Mistake::SplitNumber { key, read: shortened(text) };
            }
            let advice = match meant(unit, dimension) {
                Some(symbol) => format!("write `{symbol}`, if that is what is meant"),
                None => format!("write {kind} with one of these units: {units}"),
            };
            Mistake::UnknownUnit { key, unit: shortened(unit), kind, units, advice }
        }
        ParseError::BrokenNumber { .. } => Mistake::SplitNumber { key, read: shortened(text) },
        ParseError::NotFinite { .. } => Mistake::NotFinite { key },
        _ => {
            let lower = text.trim().trim_start_matches(['+', '-']).to_ascii_lowercase();
            if lower.starts_with("nan") || lower.starts_with("inf") {
                return Mistake::NotFinite { key };
            }
            let wanted = format!("{kind} with its unit: {units}");
            Mistake::NotANumber { key, wanted, example: example(dimension, bounds) }
        }
    }
}
