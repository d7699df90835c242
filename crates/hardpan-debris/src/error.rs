//! Why no hazard figure is given; all wording of this crate's errors.

use hardpan_quantity::{Amount, UnitSystem};

/// Why no figure is given.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// A value is outside what the method can use.
    #[error(
        "{name} is {}, outside {} to {}",
        value.show(UnitSystem::Metric), minimum.show(UnitSystem::Metric), maximum.show(UnitSystem::Metric)
    )]
    OutOfRange {
        /// The value in words.
        name: &'static str,
        /// What was given.
        value: Amount,
        /// Least allowed.
        minimum: Amount,
        /// Greatest allowed.
        maximum: Amount,
    },
    /// More air than the inlet can pass.
    #[error(
        "{flow_kg_per_s} kg/s is more than the inlet passes when choked, {choked_kg_per_s} kg/s"
    )]
    Choked {
        /// Mass flow asked for.
        flow_kg_per_s: f64,
        /// Greatest mass flow that passes.
        choked_kg_per_s: f64,
    },
    /// A stone does not come down within the time that is computed.
    #[error("the stone is still in the air after {seconds} s")]
    StillFlying {
        /// Time computed.
        seconds: f64,
    },
}

/// The SI value of a quantity, refused when not finite or outside its range.
pub(crate) fn within<Q: hardpan_quantity::Quantity>(
    name: &'static str,
    value: Q,
    range: std::ops::RangeInclusive<f64>,
) -> Result<f64, Error> {
    number(name, value.si(), range, Q::DIMENSION)
}

/// A plain number, refused likewise.
pub(crate) fn number(
    name: &'static str,
    value: f64,
    range: std::ops::RangeInclusive<f64>,
    dimension: hardpan_quantity::Dimension,
) -> Result<f64, Error> {
    if range.contains(&value) {
        return Ok(value);
    }
    let amount = |si: f64| Amount::new(dimension, si);
    Err(Error::OutOfRange {
        name,
        value: amount(value),
        minimum: amount(*range.start()),
        maximum: amount(*range.end()),
    })
}
