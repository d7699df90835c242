//! Aggregate thickness over soft ground for a rut, and the rut of a
//! thickness, by Giroud and Han: saturated fine-grained ground that fails
//! undrained under a base course, with or without reinforcement.
//! Numbers: `validation/cases/ground/giroud-han-2004.toml`.

use crate::formulas::{argument, kernel};
use crate::wheel::tyre::contact_radius;
use hardpan_math::bracketed_root;
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;
use std::f64::consts::PI;

/// Least thickness that the method gives, metres.
const THINNEST_M: f64 = 0.10;
/// Cohesion of the ground per CBR, pascals.
const COHESION_PA: f64 = 30e3;
/// Rut that the method is calibrated to, metres.
const REFERENCE_RUT_M: f64 = 0.075;
/// Ruts for which the method holds, metres.
pub(crate) const RUTS_M: (f64, f64) = (0.050, 0.100);

const LOAD: Argument = argument("load", "P", Dimension::Force, 1e3, 3e5);
const PRESSURE: Argument = argument("pressure", "p", Dimension::Pressure, 1e5, 1.5e6);
const PASSES: Argument = argument("passes", "N", Dimension::Coefficient, 1.0, 100_000.0);
const BELOW: Argument =
    argument("bearing_ratio_below", "CBR_sg", Dimension::BearingRatio, 0.3, 5.0);
const ABOVE: Argument =
    argument("bearing_ratio_above", "CBR_bc", Dimension::BearingRatio, 5.0, 100.0);
const APERTURE: Argument = argument("aperture_stability", "J", Dimension::Coefficient, 0.0, 0.8);
const CAPACITY: Argument =
    argument("bearing_capacity_factor", "N_c", Dimension::Coefficient, 3.1, 5.71);
const SOURCE: Source = Source::new("GIROUD-HAN-2004", "design equation", Tier::Memory);
const SCATTER: &str = "generic until calibrated for a product; fine-grained saturated ground only";
const EXPRESSION: &str = "h = [0.868 + (0.661 - 1.006 J^2)(r/h)^1.5 log10 N] / f_E [sqrt(P/(pi r^2 \
                          m N_c c_u)) - 1] r, f_E = 1 + 0.204 (R_E - 1), R_E = min(5, 3.48 \
                          CBR_bc^0.3/CBR_sg), m = (s/75 mm)[1 - 0.9 exp(-(r/h)^2)], c_u = 30 kPa \
                          CBR_sg; h at least 0.10 m; N_c 3.14 without, 5.14 with geotextile, 5.71 \
                          with geogrid; J 0 but for geogrid, N m/deg";

/// Aggregate thickness.
pub static GIROUD_HAN_THICKNESS: Formula = Formula {
    name: "aggregate-thickness-giroud-han-2004",
    computes: "aggregate thickness over soft ground that holds a rut to a depth",
    expression: EXPRESSION,
    arguments: &[
        LOAD,
        PRESSURE,
        PASSES,
        argument("rut", "s", Dimension::Length, RUTS_M.0, RUTS_M.1),
        BELOW,
        ABOVE,
        APERTURE,
        CAPACITY,
    ],
    result: Dimension::Length,
    source: SOURCE,
    scatter: SCATTER,
    evaluate: kernel!(|load, pressure, passes, rut, below, above, aperture, capacity| {
        thickness(&Case { load, pressure, passes, below, above, aperture, capacity }, rut)
    }),
};

/// Rut of a thickness.
pub static GIROUD_HAN_RUT: Formula = Formula {
    name: "rut-giroud-han-2004",
    computes: "rut of an aggregate thickness over soft ground",
    expression: EXPRESSION,
    arguments: &[
        LOAD,
        PRESSURE,
        PASSES,
        argument("thickness", "h", Dimension::Length, THINNEST_M, 2.0),
        BELOW,
        ABOVE,
        APERTURE,
        CAPACITY,
    ],
    result: Dimension::Length,
    source: SOURCE,
    scatter: SCATTER,
    evaluate: kernel!(|load, pressure, passes, thickness, below, above, aperture, capacity| rut(
        &Case { load, pressure, passes, below, above, aperture, capacity },
        thickness
    )),
};

/// Everything but thickness and rut, in SI; bearing ratios in per cent.
#[derive(Debug, Clone, Copy)]
struct Case {
    load: f64,
    pressure: f64,
    passes: f64,
    below: f64,
    above: f64,
    aperture: f64,
    capacity: f64,
}

impl Case {
    /// The bracket of traffic and stiffness, by thickness over radius.
    fn spread(&self, radius: f64, thickness: f64) -> f64 {
        let modulus_ratio = (3.48 * self.above.powf(0.3) / self.below).min(5.0);
        let stiffness = 1.0 + 0.204 * (modulus_ratio - 1.0);
        let traffic = (0.661 - 1.006 * self.aperture * self.aperture)
            * (radius / thickness).powf(1.5)
            * self.passes.log10();
        (0.868 + traffic) / stiffness
    }
}

/// Share of the rut term that depends on thickness.
fn mobilised(radius: f64, thickness: f64) -> f64 {
    1.0 - 0.9 * (-(radius / thickness).powi(2)).exp()
}

/// The least thickness from 0.10 m up that needs no more than itself; NaN
/// where 5 m would not do.
fn thickness(case: &Case, rut: f64) -> f64 {
    let radius = contact_radius(case.load, case.pressure);
    let spare = |thickness: f64| {
        let share = rut / REFERENCE_RUT_M * mobilised(radius, thickness);
        let stress = case.load / (PI * radius * radius);
        let ratio = stress / (share * case.capacity * COHESION_PA * case.below);
        thickness - case.spread(radius, thickness) * (ratio.sqrt() - 1.0) * radius
    };
    if spare(THINNEST_M) >= 0.0 {
        return THINNEST_M;
    }
    bracketed_root(spare, THINNEST_M, 5.0, 1e-9).unwrap_or(f64::NAN)
}

/// The same equation solved for the rut, which it holds in closed form.
fn rut(case: &Case, thickness: f64) -> f64 {
    let radius = contact_radius(case.load, case.pressure);
    let spread = case.spread(radius, thickness) * radius;
    let stress = case.load / (PI * radius * radius);
    let share =
        stress / (case.capacity * COHESION_PA * case.below) / (1.0 + thickness / spread).powi(2);
    share * REFERENCE_RUT_M / mobilised(radius, thickness)
}
