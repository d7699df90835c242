//! Shorthand for the entries of the catalogue.

use hardpan_model::Argument;
use hardpan_quantity::Dimension;

/// The kernel of a formula from a function of several plain numbers; a wrong
/// number of values gives not-a-number, which [`hardpan_model::Formula::value`] refuses.
macro_rules! kernel {
    ($function:path, $($value:ident),+) => {
        |values: &[f64]| match *values {
            [$($value),+] => $function($($value),+),
            _ => f64::NAN,
        }
    };
}
pub(crate) use kernel;

/// One argument with its range in SI units.
pub(crate) const fn argument(
    name: &'static str,
    symbol: &'static str,
    dimension: Dimension,
    minimum: f64,
    maximum: f64,
) -> Argument {
    Argument::new(name, symbol, dimension, minimum, maximum)
}

/// A coefficient with its range.
pub(crate) const fn coefficient(
    name: &'static str,
    symbol: &'static str,
    minimum: f64,
    maximum: f64,
) -> Argument {
    argument(name, symbol, Dimension::Coefficient, minimum, maximum)
}
