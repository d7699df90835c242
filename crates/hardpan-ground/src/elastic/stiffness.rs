//! From bearing ratio to stiffness, and from layers to one of equal stiffness.
//! Numbers: `validation/cases/ground/stiffness.toml`.

use crate::formulas::{argument, kernel};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;

const POISSON_ABOVE: Argument =
    argument("poisson_ratio_above", "nu1", Dimension::Coefficient, 0.0, 0.5);
const POISSON_BELOW: Argument =
    argument("poisson_ratio_below", "nu2", Dimension::Coefficient, 0.0, 0.5);

/// Heukelom and Klomp.
pub static STIFFNESS_HEUKELOM_1962: Formula = Formula {
    name: "stiffness-heukelom-klomp-1962",
    computes: "stiffness of soil from its bearing ratio, up to CBR 10",
    expression: "E = 10 CBR; MPa",
    arguments: &[argument("bearing_ratio", "CBR", Dimension::BearingRatio, 1.0, 10.0)],
    result: Dimension::Pressure,
    source: Source::new("HEUKELOM-KLOMP-1962", "dynamic modulus from CBR", Tier::Memory),
    scatter: "half to double",
    evaluate: kernel!(|cbr| 10e6 * cbr),
};

/// TRL.
pub static STIFFNESS_TRL: Formula = Formula {
    name: "stiffness-trl-1984",
    computes: "stiffness of soil from its bearing ratio",
    expression: "E = 17.6 CBR^0.64; MPa",
    arguments: &[argument("bearing_ratio", "CBR", Dimension::BearingRatio, 2.0, 12.0)],
    result: Dimension::Pressure,
    source: Source::new("TRL-LR1132", "stiffness from CBR", Tier::Memory),
    scatter: "half to double",
    evaluate: kernel!(|cbr| 17.6e6 * cbr.powf(0.64)),
};

/// Odemark.
pub static EQUIVALENT_THICKNESS_ODEMARK: Formula = Formula {
    name: "equivalent-thickness-odemark",
    computes: "thickness of the lower material that is as stiff in bending as a layer above it",
    expression: "he = f h [(E1/E2) (1 - nu2^2)/(1 - nu1^2)]^(1/3)",
    arguments: &[
        argument("thickness", "h", Dimension::Length, 1e-3, 10.0),
        argument("stiffness_above", "E1", Dimension::Pressure, 1e3, 1e12),
        POISSON_ABOVE,
        argument("stiffness_below", "E2", Dimension::Pressure, 1e3, 1e12),
        POISSON_BELOW,
        argument("correction", "f", Dimension::Coefficient, 0.5, 1.2),
    ],
    result: Dimension::Length,
    source: Source::new("ODEMARK-1949", "equivalent thickness", Tier::Memory),
    scatter: "3 to 8 % on vertical stress against the exact solution, f from 0.8 to 1",
    evaluate: kernel!(|h, e1, nu1, e2, nu2, f| {
        f * h * (e1 / e2 * (1.0 - nu2 * nu2) / (1.0 - nu1 * nu1)).cbrt()
    }),
};
