//! A value, its limit and its margin as they stand in one line.

use super::needed::Needed;
use crate::measure::{Rounding, amount_text, margin_text, rounded};
use hardpan_model::{Bound, Finding};
use hardpan_quantity::{Amount, Dimension, UnitSystem};

/// Value, limit and margin of a finding in the reader's units. Of lengths the
/// margin is the difference of the figures shown, in the unit of the value.
pub(super) struct Held {
    pub(super) value: Option<String>,
    pub(super) limit: Option<String>,
    pub(super) margin: Option<String>,
}

impl Held {
    pub(super) fn new(finding: &Finding, units: UnitSystem, needed: &Needed) -> Self {
        let value = finding.value.map(|value| needed.told(value, units));
        let limit = finding.limit.map(|limit| {
            let is_held = finding.value.is_some_and(|value| needed.holds(value));
            match (is_held, limit.bound) {
                (true, Bound::AtMost) => rounded(limit.amount, Rounding::Down, units),
                _ => limit.amount,
            }
        });
        Self {
            value: value.map(|value| beside(value, limit, units)),
            limit: limit.map(|limit| beside(limit, value, units)),
            margin: finding.margin().map(|margin| {
                let bound = finding.limit.map(|limit| limit.bound);
                let shown = value.zip(limit).zip(bound).and_then(|((value, limit), bound)| {
                    length_margin(margin, value, limit, bound, units)
                });
                shown.unwrap_or_else(|| margin_text(margin, units))
            }),
        }
    }
}

/// The amount; no length at all takes the unit of what stands beside it.
fn beside(amount: Amount, other: Option<Amount>, units: UnitSystem) -> String {
    let is_none = amount.dimension == Dimension::Length && amount.show(units).starts_with("0 ");
    match other.filter(|other| is_none && other.si.is_finite()) {
        Some(other) => amount.show_beside(other, units),
        None => amount_text(amount, units),
    }
}

/// The difference of two lengths as shown; none for other kinds, and where it
/// would lie on the other side of the limit than the value does.
fn length_margin(
    exact: Amount,
    value: Amount,
    limit: Amount,
    bound: Bound,
    units: UnitSystem,
) -> Option<String> {
    if exact.dimension != Dimension::Length || !exact.si.is_finite() {
        return None;
    }
    let [near, far] = [value, limit].map(|amount| rounded(amount, Rounding::Nearest, units).si);
    let inside = match bound {
        Bound::AtMost => far - near,
        Bound::AtLeast => near - far,
    };
    let (shown, shown_limit) =
        (beside(value, Some(limit), units), beside(limit, Some(value), units));
    let (value_decimals, unit) = digits(&shown)?;
    let (limit_decimals, limit_unit) = digits(&shown_limit)?;
    let decimals =
        if unit == limit_unit { value_decimals.max(limit_decimals) } else { value_decimals };
    let number = Amount::new(Dimension::Length, inside).show_with(unit, decimals);
    let number = number.strip_suffix(".0").filter(|_| value_decimals == 0).unwrap_or(&number);
    let is_nothing = !number.contains(|c| matches!(c, '1'..='9'));
    if (is_nothing && exact.si != 0.0) || (inside < 0.0) != (exact.si < 0.0) && !is_nothing {
        return None;
    }
    let sign = if is_nothing || inside < 0.0 { "" } else { "+" };
    Some(format!("{sign}{number} {unit}"))
}

/// Decimals and unit of an amount that is shown.
fn digits(shown: &str) -> Option<(usize, &str)> {
    let (number, unit) = shown.rsplit_once(' ')?;
    Some((number.split_once('.').map_or(0, |(_, fraction)| fraction.len()), unit))
}
