//! Water that a rut holds.

use super::{argument, derived, kernel};
use crate::pond::rut_storage;
use hardpan_model::Formula;

use hardpan_quantity::Dimension::{Length, Ratio};

/// Water in a rut.
pub(crate) static RUT_STORAGE: Formula = Formula {
    name: "rut-water-depth",
    computes: "depth of water that a rut holds along a level lane",
    expression: "r − b S, not below 0",
    arguments: &[
        argument("rut", "r", Length, 0.0, 1.0),
        argument("half_width", "b", Length, 0.0, 5.0),
        argument("crossfall", "S", Ratio, -0.2, 0.2),
    ],
    result: Length,
    source: derived("geometry of a rut on a slope"),
    scatter: "a flat-bottomed rut holds less",
    evaluate: kernel!(rut_storage, rut, half, crossfall),
};
