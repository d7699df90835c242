//! What does it take to press a rut?
//!
//! The work of pressing the ground down under the tyre pressure, over the
//! distance rolled: a resistance beside that of the tyre and of loose ground.
//! Numbers: `validation/cases/ground/rolling-of-rutting.toml`.

use crate::formulas::{argument, kernel};
use crate::wheel::tyre::contact_radius;
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::Dimension;
use std::f64::consts::PI;

/// Rolling resistance of a tyre on ground that does not give way, the least that
/// is printed for pavement.
pub const FIRM_ROLLING: f64 = 0.02;
/// Where [`FIRM_ROLLING`] comes from.
pub const FIRM_ROLLING_SOURCE: Source =
    Source::new("RAYMER-2018", "table 17.1, icy pavement", Tier::Secondary);

/// Rolling resistance of one pass that deepens a rut.
pub static ROLLING_OF_RUTTING: Formula = Formula {
    name: "rolling-resistance-of-rutting",
    computes: "rolling resistance, over the load, of a pass that deepens a rut",
    expression: "mu = p (2 a) ds / P = 2 ds / (pi a), a = sqrt(P/(pi p))",
    arguments: &[
        argument("deepening", "ds", Dimension::Length, 0.0, 1.0),
        argument("load", "P", Dimension::Force, 1.0, 1e6),
        argument("pressure", "p", Dimension::Pressure, 5e4, 2.5e6),
    ],
    result: Dimension::Ratio,
    source: Source::new(
        "BEKKER-1956",
        "motion resistance as the work of compaction, uniform pressure",
        Tier::Derived,
    ),
    scatter: "work under a uniform pressure; the walls of an old rut are not counted",
    evaluate: kernel!(|deepening, load, pressure| {
        2.0 * deepening / (PI * contact_radius(load, pressure))
    }),
};
