//! A number with its unit.

use hardpan_quantity::{Amount, Dimension, Quantity as Typed};
use schemars::JsonSchema;
use serde::Serialize;

/// A number in the SI unit of its dimension (bearing ratio in per cent).
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Quantity {
    /// The number; null when it is not finite.
    value: Option<f64>,
    /// Its unit; `1` for a plain number.
    unit: &'static str,
    /// What it measures.
    dimension: Dimension,
}

impl Quantity {
    pub(crate) fn new(amount: Amount) -> Self {
        Self {
            value: finite(amount.si),
            unit: unit_of(amount.dimension),
            dimension: amount.dimension,
        }
    }

    pub(crate) fn of<Q: Typed>(quantity: Q) -> Self {
        Self::new(Amount::new(Q::DIMENSION, quantity.si()))
    }
}

pub(crate) fn finite(value: f64) -> Option<f64> {
    value.is_finite().then_some(value)
}

const fn unit_of(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Length => "m",
        Dimension::Area => "m2",
        Dimension::Volume => "m3",
        Dimension::Mass => "kg",
        Dimension::Force => "N",
        Dimension::Pressure | Dimension::AirPressure => "Pa",
        Dimension::Speed => "m/s",
        Dimension::Temperature => "K",
        Dimension::Angle => "rad",
        Dimension::Ratio | Dimension::Coefficient | Dimension::Count => "1",
        Dimension::Time => "s",
        Dimension::Acceleration => "m/s2",
        Dimension::Density => "kg/m3",
        Dimension::Energy => "J",
        Dimension::Torque => "N m",
        Dimension::Power => "W",
        Dimension::MassFlow => "kg/s",
        Dimension::BearingRatio => "%",
        Dimension::PenetrationRate => "m/blow",
    }
}
