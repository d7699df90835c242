//! A quantity whose kind is known only at run time: findings, bases and formula
//! arguments hold lengths, masses and pressures side by side.

use crate::{Dimension, Quantity};
use serde::{Deserialize, Serialize};

/// A value in the SI unit of its dimension.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Amount {
    /// What is measured.
    pub dimension: Dimension,
    /// Value in the SI unit of that dimension (bearing ratio in per cent).
    pub si: f64,
}

impl Amount {
    /// The amount of a dimension from its SI value.
    #[must_use]
    pub const fn new(dimension: Dimension, si: f64) -> Self {
        Self { dimension, si }
    }

    /// A plain coefficient (friction, lift, drag).
    #[must_use]
    pub const fn coefficient(value: f64) -> Self {
        Self::new(Dimension::Coefficient, value)
    }

    /// A number of things.
    #[must_use]
    pub const fn count(value: f64) -> Self {
        Self::new(Dimension::Count, value)
    }

    /// A pressure of the air, shown in the units of weather reports.
    #[must_use]
    pub fn air_pressure(pressure: crate::Pressure) -> Self {
        Self::new(Dimension::AirPressure, pressure.si())
    }

    /// The typed quantity, if the dimension fits. Air pressure fits pressure.
    #[must_use]
    pub fn get<Q: Quantity>(self) -> Option<Q> {
        let fits = self.dimension == Q::DIMENSION
            || (self.dimension == Dimension::AirPressure && Q::DIMENSION == Dimension::Pressure)
            || (self.dimension == Dimension::Coefficient && Q::DIMENSION == Dimension::Ratio);
        fits.then(|| Q::from_si(self.si))
    }
}

impl<Q: Quantity> From<Q> for Amount {
    fn from(quantity: Q) -> Self {
        Self::new(Q::DIMENSION, quantity.si())
    }
}
