//! Installed thrust lapse as fitted to cycle computations, for comparison.
//!
//! The square root of the Mach number has an infinite slope at standstill, so
//! the runs use another law for speed; they use the fall beyond the break.

use crate::entry::{coefficient, kernel};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;

fn total_ratios(mach: f64, theta: f64, delta: f64) -> (f64, f64) {
    let ram = 1.0 + 0.2 * mach * mach;
    (theta * ram, delta * ram.powf(3.5))
}

fn high_bypass(mach: f64, theta: f64, delta: f64, throttle: f64) -> f64 {
    let (theta0, delta0) = total_ratios(mach, theta, delta);
    let beyond = (theta0 - throttle).max(0.0);
    delta0 * (1.0 - 0.49 * mach.sqrt() - 3.0 * beyond / (1.5 + mach))
}

/// Normalised to dry thrust at standstill, which the fit itself is not.
fn low_bypass_dry(mach: f64, theta: f64, delta: f64, throttle: f64) -> f64 {
    let (theta0, delta0) = total_ratios(mach, theta, delta);
    let beyond = (theta0 - throttle).max(0.0);
    delta0 * (1.0 - 3.8 * beyond / theta0)
}

fn turboprop(mach: f64, theta: f64, delta: f64, throttle: f64) -> f64 {
    let (theta0, delta0) = total_ratios(mach, theta, delta);
    if mach <= 0.1 {
        return delta0;
    }
    let beyond = (theta0 - throttle).max(0.0);
    delta0 * (1.0 - 0.96 * (mach - 0.1).powf(0.25) - 3.0 * beyond / (8.13 * (mach - 0.1)))
}

const ARGUMENTS: [Argument; 4] = [
    coefficient("mach", "M", 0.0, 0.9),
    coefficient("temperature_ratio", "theta", 0.7, 1.2),
    coefficient("pressure_ratio", "delta", 0.2, 1.1),
    coefficient("throttle_ratio", "TR", 0.9, 1.2),
];

/// Lapse of a high-bypass turbofan.
pub(crate) static CYCLE_HIGH_BYPASS: Formula = Formula {
    name: "cycle-high-bypass",
    computes: "installed thrust of a high-bypass turbofan over its static thrust",
    expression: "delta0 [1 - 0.49 sqrt M - 3 (theta0 - TR)/(1.5 + M)]",
    arguments: &ARGUMENTS,
    result: Dimension::Coefficient,
    source: Source::new("MATTINGLY-2002", "eq. 2.53", Tier::Secondary),
    scatter: "a few per cent; a fit to cycle computations",
    evaluate: kernel!(high_bypass, mach, theta, delta, throttle),
};

/// Lapse of a low-bypass turbofan, dry.
pub(crate) static CYCLE_LOW_BYPASS: Formula = Formula {
    name: "cycle-low-bypass",
    computes: "installed dry thrust of a low-bypass turbofan over its static dry thrust",
    expression: "delta0 [1 - 3.8 (theta0 - TR)/theta0]",
    arguments: &ARGUMENTS,
    result: Dimension::Coefficient,
    source: Source::new("MATTINGLY-2002", "eq. 2.54, divided by 0.6", Tier::Secondary),
    scatter: "a few per cent; thrust rises with speed, which low speed does not bear out",
    evaluate: kernel!(low_bypass_dry, mach, theta, delta, throttle),
};

/// Lapse of a turboprop.
pub(crate) static CYCLE_TURBOPROP: Formula = Formula {
    name: "cycle-turboprop",
    computes: "installed thrust of a turboprop over its static thrust",
    expression: "delta0 up to M 0.1; delta0 [1 - 0.96 (M - 0.1)^0.25 - 3 (theta0 - TR)/(8.13 \
        (M - 0.1))]",
    arguments: &ARGUMENTS,
    result: Dimension::Coefficient,
    source: Source::new("MATTINGLY-2002", "eq. 2.56", Tier::Secondary),
    scatter: "has a kink at M 0.1 and fails beyond the break; not used by the runs",
    evaluate: kernel!(turboprop, mach, theta, delta, throttle),
};
