//! How deep does rain stand while it runs off?
//!
//! Depth of sheet flow at a distance down the fall line under steady rain, by
//! rival laws. Gallaway and the Road Research Laboratory measured paved
//! surfaces: on gravel an order of magnitude. Ruts and dips that hold water
//! are geometry, not this. Numbers: `validation/cases/ground/sheet-flow.toml`.

use crate::formulas::{argument, kernel};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;

const MM_PER_H: f64 = 1e-3 / 3600.0;
const INCH_PER_H: f64 = 0.0254 / 3600.0;
const FOOT: f64 = 0.3048;

const LENGTH: Argument = argument("flow_length", "L", Dimension::Length, 0.5, 200.0);
const RAIN: Argument = argument("rain", "I", Dimension::Speed, 0.1 * MM_PER_H, 500.0 * MM_PER_H);
const SLOPE: Argument = argument("slope", "S", Dimension::Ratio, 1e-3, 0.2);
const RETARDANCE: Argument = argument("retardance", "c", Dimension::Coefficient, 0.005, 0.08);
const PAVED: &str = "fitted to paved surfaces; an order of magnitude on gravel";

/// Kinematic Manning.
pub static SHEET_FLOW_DEPTH_MANNING: Formula = Formula {
    name: "sheet-flow-depth-manning",
    computes: "depth of sheet flow under steady rain, kinematic wave with Manning's roughness",
    expression: "y = (n q / sqrt S)^0.6, q = I L; y and L m, I m/s",
    arguments: &[
        LENGTH.printed_in("m"),
        RAIN.printed_in("m/s"),
        SLOPE,
        argument("roughness", "n", Dimension::Coefficient, 0.01, 0.9),
    ],
    result: Dimension::Length,
    source: Source::new("MANNING-1891", "kinematic sheet flow", Tier::Memory),
    scatter: "roughness of bare soil 0.05 to 0.10, of grass 0.3 to 0.8",
    evaluate: kernel!(|length, rain, slope, roughness| {
        (roughness * rain * length / slope.sqrt()).powf(0.6)
    }),
};

/// Gallaway.
pub static SHEET_FLOW_DEPTH_GALLAWAY: Formula = Formula {
    name: "sheet-flow-depth-gallaway-1979",
    computes: "depth of water over the tops of the texture; below zero where it runs off within it",
    expression: "d = 0.01485 T^0.11 L^0.43 I^0.59 S^-0.42 - T, d and T mm, L m, I mm/h",
    arguments: &[
        LENGTH,
        RAIN,
        SLOPE,
        argument("texture_depth", "T", Dimension::Length, 1e-4, 5e-3),
    ],
    result: Dimension::Length,
    source: Source::new("GALLAWAY-1979", "water depth over the texture", Tier::Memory),
    scatter: PAVED,
    evaluate: kernel!(|length, rain, slope, texture| {
        let texture_mm: f64 = texture * 1e3;
        let film = 0.01485
            * texture_mm.powf(0.11)
            * length.powf(0.43)
            * (rain / MM_PER_H).powf(0.59)
            * slope.powf(-0.42);
        (film - texture_mm) * 1e-3
    }),
};

/// Road Research Laboratory.
pub static SHEET_FLOW_DEPTH_RRL: Formula = Formula {
    name: "sheet-flow-depth-rrl-1968",
    computes: "depth of water on a paved surface under steady rain",
    expression: "d = 0.046 (L I)^0.5 S^-0.2, d mm, L m, I mm/h",
    arguments: &[LENGTH, RAIN, SLOPE],
    result: Dimension::Length,
    source: Source::new("RRL-LR236", "depth of rain water", Tier::Memory),
    scatter: "two versions of the constant lie 3 % apart; fitted to paved surfaces",
    evaluate: kernel!(|length, rain, slope| {
        0.046e-3 * (length * rain / MM_PER_H).sqrt() * slope.powf(-0.2)
    }),
};

/// Izzard, mean depth.
pub static SHEET_FLOW_DEPTH_IZZARD: Formula = Formula {
    name: "sheet-flow-depth-izzard-1946",
    computes: "mean depth of sheet flow at equilibrium with steady rain",
    expression: "De/L = [(0.0007 i + c)/S^(1/3)] qe^(1/3), qe = i L/43200, ft, in/h; i L below 500",
    arguments: &[LENGTH, RAIN, SLOPE, RETARDANCE],
    result: Dimension::Length,
    source: Source::new("IZZARD-1946", "detention at equilibrium", Tier::Memory),
    scatter: "laminar sheet flow only",
    evaluate: kernel!(|length, rain, slope, retardance| {
        izzard(length, rain, slope, retardance).0
    }),
};

/// Izzard, time to equilibrium.
pub static SHEET_FLOW_TIME_IZZARD: Formula = Formula {
    name: "sheet-flow-time-izzard-1946",
    computes: "time until sheet flow is in equilibrium with steady rain",
    expression: "te = De/(30 qe) min, De and qe as for the mean depth",
    arguments: &[LENGTH, RAIN, SLOPE, RETARDANCE],
    result: Dimension::Time,
    source: Source::new("IZZARD-1946", "time to equilibrium", Tier::Memory),
    scatter: "laminar sheet flow only",
    evaluate: kernel!(|length, rain, slope, retardance| {
        izzard(length, rain, slope, retardance).1
    }),
};

/// Mean depth in metres and time in seconds; NaN beyond laminar flow.
fn izzard(length: f64, rain: f64, slope: f64, retardance: f64) -> (f64, f64) {
    let (feet, inches_per_hour) = (length / FOOT, rain / INCH_PER_H);
    if feet * inches_per_hour >= 500.0 {
        return (f64::NAN, f64::NAN);
    }
    let flow = inches_per_hour * feet / 43_200.0;
    let mean = (0.0007 * inches_per_hour + retardance) / slope.cbrt() * flow.cbrt();
    (mean * FOOT, mean * feet / (30.0 * flow) * 60.0)
}
