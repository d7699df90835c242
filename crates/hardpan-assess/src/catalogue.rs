//! What the product knows: its formulas and its rules, and the runs calibrated.

use hardpan_model::Formula;

pub use crate::rule::Rule;
pub use hardpan_run::{Calibration, ChartResiduals, calibrate};

/// Every published formula in use, by measure, in the order of the method.
#[must_use]
pub fn formulas() -> Vec<&'static Formula> {
    [
        hardpan_surface::FORMULAS,
        hardpan_ground::FORMULAS,
        hardpan_run::FORMULAS,
        hardpan_debris::FORMULAS,
        crate::assess::confidence::method::FORMULAS,
    ]
    .concat()
}

/// Every rule, by code.
#[must_use]
pub fn rules() -> &'static [Rule] {
    crate::rules::RULES
}
