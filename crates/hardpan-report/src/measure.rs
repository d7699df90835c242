//! Amounts, places and limits as people read them.

use hardpan_model::{Bound, Limit, Place};
use hardpan_quantity::{
    Amount, Dimension, Length, Mass, Pressure, Quantity, UnitSystem, parse, units_of,
};

/// A value with its unit; says so when it is not a finite number.
#[must_use]
pub fn amount_text(amount: Amount, units: UnitSystem) -> String {
    if amount.si.is_finite() { amount.show(units) } else { "not a number".to_owned() }
}

/// A typed quantity with its unit.
#[must_use]
pub fn quantity_text<Q: Quantity>(quantity: Q, units: UnitSystem) -> String {
    amount_text(Amount::new(Q::DIMENSION, quantity.si()), units)
}

/// Symbol and size of the unit in which stations are read.
#[must_use]
pub fn station_unit(units: UnitSystem) -> (&'static str, f64) {
    let symbol = match units {
        UnitSystem::Metric => "m",
        UnitSystem::Imperial => "ft",
    };
    let found = units_of(Dimension::Length).iter().find(|unit| unit.symbol == symbol);
    (symbol, found.map_or(1.0, |unit| unit.factor))
}

/// A station in whole metres or feet, without its unit.
#[must_use]
pub fn station_number(station: Length, units: UnitSystem) -> String {
    let (_, size) = station_unit(units);
    whole(station.si() / size)
}

/// An offset in metres or feet to one decimal, such as `−2.6 m`.
pub(crate) fn offset_text(offset: Length, units: UnitSystem) -> String {
    let (symbol, size) = station_unit(units);
    if !offset.si().is_finite() {
        return "not a number".to_owned();
    }
    format!("{}\u{a0}{symbol}", minus(&format!("{:.1}", offset.si() / size)))
}

/// A stretch of the strip, such as `600–690 m`; one station when both are the same.
#[must_use]
pub fn stretch_text(from: Length, to: Length, units: UnitSystem) -> String {
    let (symbol, _) = station_unit(units);
    let (first, last) = (station_number(from, units), station_number(to, units));
    if first == last {
        format!("{first}\u{a0}{symbol}")
    } else {
        format!("{first}–{last}\u{a0}{symbol}")
    }
}

/// A value of a record of a strip in the reader's units, by the name of its field; as it
/// was written where it is no amount.
#[must_use]
pub fn field_text(name: &str, text: &str, units: UnitSystem) -> String {
    fn read<Q: Quantity>(text: &str, units: UnitSystem) -> Option<String> {
        parse::<Q>(text).ok().map(|quantity| quantity_text(quantity, units))
    }
    let station = || parse::<Length>(text).ok().map(|at| stretch_text(at, at, units));
    let read = match name {
        "mass" => read::<Mass>(text, units),
        "pressure" => read::<Pressure>(text, units),
        "rut" | "water" | "loose" | "size" | "stone" => read::<Length>(text, units),
        "rut_station" | "water_station" | "loose_station" | "from" | "to" | "rolled_from"
        | "rolled_to" | "station" => station(),
        _ => None,
    };
    read.unwrap_or_else(|| text.to_owned())
}

/// Where a finding applies.
pub(crate) fn place_text(place: Place, units: UnitSystem) -> String {
    let stretch = stretch_text(place.from, place.to, units);
    match place.lane {
        Some(lane) => format!("{stretch}, {}", lane.word()),
        None => stretch,
    }
}

/// A limit with its side, such as `at least 8.8 %`.
pub(crate) fn limit_text(limit: Limit, units: UnitSystem) -> String {
    limit_of(limit, &amount_text(limit.amount, units))
}

/// A limit that is told already, with its side.
pub(crate) fn limit_of(limit: Limit, told: &str) -> String {
    format!("{} {told}", bound_word(limit.bound))
}

/// The words of a bound.
pub(crate) const fn bound_word(bound: Bound) -> &'static str {
    match bound {
        Bound::AtMost => "at most",
        Bound::AtLeast => "at least",
    }
}

/// A limit in a table, such as `≥ 8.8 %`.
pub(crate) fn limit_short(limit: Limit, told: &str) -> String {
    let sign = match limit.bound {
        Bound::AtMost => '≤',
        Bound::AtLeast => '≥',
    };
    format!("{sign} {told}")
}

/// Which way a figure is rounded so that the reader errs on the safe side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Rounding {
    /// For what is allowed or available.
    Down,
    /// For what is needed.
    Up,
    /// As a figure is shown that errs on neither side.
    Nearest,
}

/// A value rounded one way to the digits shown. A value within a millionth of
/// the last digit counts as that digit.
pub(crate) fn rounded(amount: Amount, way: Rounding, units: UnitSystem) -> Amount {
    let (number, symbol) = amount.show_parts(units);
    let decimals = number.split_once('.').map_or(0, |(_, fraction)| fraction.len());
    let step = 10_f64.powi(-i32::try_from(decimals).unwrap_or(0));
    let unit = units_of(amount.dimension).iter().find(|unit| unit.symbol == symbol);
    let (factor, offset) = unit.map_or((1.0, 0.0), |unit| (unit.factor, unit.offset));
    let steps = (amount.si - offset) / factor / step;
    let whole = match way {
        Rounding::Down => (steps + 1e-6).floor(),
        Rounding::Up => (steps - 1e-6).ceil(),
        Rounding::Nearest => steps.round(),
    };
    Amount::new(amount.dimension, whole * step * factor + offset)
}

/// What is allowed or available: never rounded up.
#[must_use]
pub fn at_most_text<Q: Quantity>(quantity: Q, units: UnitSystem) -> String {
    let amount = Amount::new(Q::DIMENSION, quantity.si());
    amount_text(rounded(amount, Rounding::Down, units), units)
}

/// What is needed: never rounded down.
pub(crate) fn at_least_text<Q: Quantity>(quantity: Q, units: UnitSystem) -> String {
    let amount = Amount::new(Q::DIMENSION, quantity.si());
    amount_text(rounded(amount, Rounding::Up, units), units)
}

/// A margin with its sign. A margin between temperatures is a difference, so
/// the zero of their scales plays no part in it.
pub(crate) fn margin_text(margin: Amount, units: UnitSystem) -> String {
    if !margin.si.is_finite() {
        return "not a number".to_owned();
    }
    let shown = difference_text(margin, units);
    if shown.starts_with('−') || margin.si <= 0.0 { shown } else { format!("+{shown}") }
}

/// An amount that is a difference: of temperatures the zero of their scales plays
/// no part in it.
pub(crate) fn difference_text(difference: Amount, units: UnitSystem) -> String {
    match difference.dimension {
        Dimension::Temperature => temperature_difference(difference.si, units),
        _ => amount_text(difference, units),
    }
}

fn temperature_difference(kelvins: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Metric => format!("{} °C", tenths(kelvins)),
        UnitSystem::Imperial => format!("{} °F", tenths(kelvins * 1.8)),
    }
}

fn tenths(value: f64) -> String {
    minus(&format!("{value:.1}"))
}

/// A whole number with its digits in threes, [ISO-80000-1] 7.3.1.
pub(crate) fn whole(value: f64) -> String {
    if !value.is_finite() {
        return "?".to_owned();
    }
    Amount::count(value.round()).show(UnitSystem::Metric)
}

/// The same text with a true minus sign.
pub(crate) fn minus(text: &str) -> String {
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().any(|c| c.is_ascii_digit() && c != '0') => format!("−{rest}"),
        Some(rest) => rest.to_owned(),
        None => text.to_owned(),
    }
}
