//! Speed at which a tyre rides up on standing water.

use crate::entry::{argument, kernel};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::{Dimension, Pressure, Quantity, Speed};

const KNOT: f64 = 1852.0 / 3600.0;
const PSI: f64 = 6_894.757_293_168_361;

/// Ground speed above which a rotating tyre rides on water that is deeper than
/// its tread. Source: [NASA-TN-D-2056].
#[must_use]
pub fn hydroplaning_speed(tyre_pressure: Pressure) -> Speed {
    Speed::from_si(rotating(tyre_pressure.si()))
}

/// Ground speed above which a tyre that touches down does not spin up on water.
/// Source: [NASA-TM-85652].
#[must_use]
pub fn spin_up_hydroplaning_speed(tyre_pressure: Pressure) -> Speed {
    Speed::from_si(not_rotating(tyre_pressure.si()))
}

fn rotating(pressure: f64) -> f64 {
    9.0 * (pressure.max(0.0) / PSI).sqrt() * KNOT
}

fn not_rotating(pressure: f64) -> f64 {
    7.7 * (pressure.max(0.0) / PSI).sqrt() * KNOT
}

/// Hydroplaning speed of a rotating tyre.
pub(crate) static HYDROPLANING_ROTATING: Formula = Formula {
    name: "hydroplaning-rotating",
    computes: "ground speed at which a rotating tyre hydroplanes on flooded ground",
    expression: "V = 9 sqrt(p); kt and psi",
    arguments: &[argument("tyre_pressure", "p", Dimension::Pressure, 10.0 * PSI, 400.0 * PSI)
        .printed_in("psi")],
    result: Dimension::Speed,
    source: Source::new("NASA-TN-D-2056", "dynamic hydroplaning", Tier::Secondary),
    scatter: "water deeper than the tread; wet clay can be slippery far below it",
    evaluate: kernel!(rotating, pressure),
};

/// Hydroplaning speed of a tyre that does not turn yet.
pub(crate) static HYDROPLANING_NOT_ROTATING: Formula = Formula {
    name: "hydroplaning-not-rotating",
    computes: "ground speed at which a tyre does not spin up on flooded ground",
    expression: "V = 7.7 sqrt(p); kt and psi",
    arguments: &[argument("tyre_pressure", "p", Dimension::Pressure, 10.0 * PSI, 400.0 * PSI)
        .printed_in("psi")],
    result: Dimension::Speed,
    source: Source::new("NASA-TM-85652", "spin-up hydroplaning", Tier::Secondary),
    scatter: "water deeper than the tread; wet clay can be slippery far below it",
    evaluate: kernel!(not_rotating, pressure),
};
