//! Engine pressure ratio and the thrust of a convergent nozzle: why cutting
//! the ratio by a tenth does not cut the thrust by a tenth.

use crate::air::atmosphere::HEAT_RATIO;
use crate::entry::{coefficient, kernel};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::Dimension;

/// Nozzle pressure ratio from engine pressure ratio.
fn nozzle_ratio(engine_ratio: f64, recovery: f64, mach: f64) -> f64 {
    let ram = (1.0 + 0.5 * (HEAT_RATIO - 1.0) * mach * mach).powf(HEAT_RATIO / (HEAT_RATIO - 1.0));
    engine_ratio * recovery * ram
}

/// Gross thrust over exit area and pressure of the air.
fn gross_thrust(nozzle_ratio: f64, gamma: f64) -> f64 {
    let critical = (0.5 * (gamma + 1.0)).powf(gamma / (gamma - 1.0));
    if nozzle_ratio >= critical {
        nozzle_ratio * (gamma + 1.0) / critical - 1.0
    } else {
        2.0 * gamma / (gamma - 1.0) * (nozzle_ratio.powf((gamma - 1.0) / gamma) - 1.0)
    }
}

const NOZZLE: Source = Source::new("NASA-GLENN-THRUST", "thrust and exit speed", Tier::Derived);

/// Nozzle pressure ratio.
pub(crate) static NOZZLE_PRESSURE_RATIO: Formula = Formula {
    name: "nozzle-pressure-ratio",
    computes: "nozzle pressure ratio from engine pressure ratio",
    expression: "NPR = EPR r (1 + 0.2 M^2)^3.5, r intake recovery",
    arguments: &[
        coefficient("engine_pressure_ratio", "EPR", 1.0, 5.0),
        coefficient("recovery", "r", 0.5, 1.0),
        coefficient("mach", "M", 0.0, 0.9),
    ],
    result: Dimension::Coefficient,
    source: NOZZLE,
    scatter: "none: mathematics",
    evaluate: kernel!(nozzle_ratio, engine_ratio, recovery, mach),
};

/// Gross thrust of a convergent nozzle.
pub(crate) static NOZZLE_GROSS_THRUST: Formula = Formula {
    name: "nozzle-gross-thrust",
    computes: "gross thrust of a convergent nozzle over exit area and pressure of the air",
    expression: "choked: NPR (g + 1)(2/(g + 1))^(g/(g - 1)) - 1; else \
        [2g/(g - 1)] (NPR^((g - 1)/g) - 1)",
    arguments: &[
        coefficient("nozzle_pressure_ratio", "NPR", 1.0, 6.0),
        coefficient("gamma", "g", 1.2, 1.45),
    ],
    result: Dimension::Coefficient,
    source: NOZZLE,
    scatter: "none: mathematics of an ideal nozzle",
    evaluate: kernel!(gross_thrust, nozzle_ratio, gamma),
};
