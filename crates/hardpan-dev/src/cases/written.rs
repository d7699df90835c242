//! Amounts as a case writes them: value, interval, and the same unit again.

use hardpan_quantity::{Amount, Dimension, ParseError, Unit, parse_amount, units_of};

/// An amount that remembers the unit it was written in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Written {
    pub(super) amount: Amount,
    unit: Unit,
}

impl Written {
    /// Read a value.
    pub(super) fn value(text: &str, dimension: Dimension) -> Result<Self, ParseError> {
        let amount = parse_amount(text, dimension)?;
        let plain = Unit { symbol: "", factor: 1.0, offset: 0.0 };
        let unit = units_of(dimension)
            .iter()
            .filter(|unit| text.trim_end().ends_with(unit.symbol))
            .max_by_key(|unit| unit.symbol.len());
        Ok(Self { amount, unit: unit.copied().unwrap_or(plain) })
    }

    /// Read a difference of two values, in SI: one kelvin for `1 degC`.
    pub(super) fn interval(text: &str, dimension: Dimension) -> Result<f64, ParseError> {
        Self::value(text, dimension).map(|written| written.amount.si - written.unit.offset)
    }

    /// Another value in the unit of this one, one digit finer than the tolerance,
    /// or to thirteen digits where the value is exact.
    pub(super) fn alike(&self, si: f64, tolerance_si: f64) -> String {
        let value = (si - self.unit.offset) / self.unit.factor;
        let finest = (tolerance_si / self.unit.factor).abs();
        let number = if finest > 0.0 {
            // Between 0 and 12 by the clamp, so nothing is lost.
            let decimals = (1.0 - finest.log10().floor()).clamp(0.0, 12.0) as usize;
            format!("{value:.decimals$}")
        } else {
            let exact = format!("{value:.12e}");
            exact.parse::<f64>().map_or(exact, |rounded| rounded.to_string())
        };
        format!("{number} {}", self.unit.symbol).trim_end().to_owned()
    }
}
