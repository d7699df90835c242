//! Distances that the runs need. Such a distance is told to nobody shorter than
//! it is: wherever it stands, it is rounded up to the digits shown.

use crate::measure::{Rounding, amount_text, rounded};
use hardpan_assess::Assessment;
use hardpan_quantity::{Amount, Dimension, Quantity, UnitSystem};

/// The distances needed of one assessment, exactly as computed.
#[derive(Debug, Clone, Default)]
pub(crate) struct Needed(Vec<f64>);

impl Needed {
    pub(crate) fn of(assessment: &Assessment) -> Self {
        Self(assessment.distances.iter().map(|row| row.needed.si()).collect())
    }

    pub(crate) fn holds(&self, amount: Amount) -> bool {
        amount.dimension == Dimension::Length && self.0.contains(&amount.si)
    }

    /// The amount as it is shown: up if it is a distance needed, else as it is.
    pub(crate) fn told(&self, amount: Amount, units: UnitSystem) -> Amount {
        match self.holds(amount) {
            true => rounded(amount, Rounding::Up, units),
            false => amount,
        }
    }

    pub(crate) fn text(&self, amount: Amount, units: UnitSystem) -> String {
        amount_text(self.told(amount, units), units)
    }
}
