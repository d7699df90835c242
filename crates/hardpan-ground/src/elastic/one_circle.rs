//! One circle on a uniform half space: the closed forms of the handbooks.
//! Numbers: `validation/cases/ground/half-space.toml`.

use crate::elastic::circle_field::{Material, centre_deflection, circle_field};
use crate::formulas::{argument, kernel};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;
use std::f64::consts::PI;

pub(crate) const PRESSURE: Argument = argument("pressure", "q", Dimension::Pressure, 0.0, 1e8);
pub(crate) const RADIUS: Argument = argument("radius", "a", Dimension::Length, 1e-3, 10.0);
pub(crate) const DEPTH: Argument = argument("depth", "z", Dimension::Length, 0.0, 1e3);
const POISSON: Argument = argument("poisson_ratio", "nu", Dimension::Coefficient, 0.0, 0.5);
const STIFFNESS: Argument = argument("stiffness", "E", Dimension::Pressure, 1e3, 1e13);
const SCATTER: &str = "exact for a uniform elastic half space";

const fn source(locator: &'static str) -> Source {
    Source::new("BOUSSINESQ-1885", locator, Tier::Derived)
}

/// Vertical stress under the centre.
pub static CIRCLE_VERTICAL_STRESS: Formula = Formula {
    name: "circle-vertical-stress",
    computes: "vertical stress under the centre of a uniform circle on a half space",
    expression: "sz = q [1 - z^3 / (a^2 + z^2)^1.5]",
    arguments: &[PRESSURE, RADIUS, DEPTH],
    result: Dimension::Pressure,
    source: source("uniform circle, vertical stress on the axis"),
    scatter: SCATTER,
    evaluate: kernel!(|q, a, z| -q * circle_field(UNIT, a, 0.0, z).vertical),
};

/// Radial stress under the centre.
pub static CIRCLE_RADIAL_STRESS: Formula = Formula {
    name: "circle-radial-stress",
    computes: "radial stress under the centre of a uniform circle on a half space",
    expression: "sr = (q/2) [1 + 2 nu - 2 (1 + nu) z/R + z^3/R^3], R^2 = a^2 + z^2",
    arguments: &[PRESSURE, RADIUS, DEPTH, POISSON],
    result: Dimension::Pressure,
    source: source("uniform circle, radial stress on the axis"),
    scatter: SCATTER,
    evaluate: kernel!(|q, a, z, poisson| {
        -q * circle_field(Material { poisson, ..UNIT }, a, 0.0, z).radial
    }),
};

/// Deflection under the centre.
pub static CIRCLE_CENTRE_DEFLECTION: Formula = Formula {
    name: "circle-centre-deflection",
    computes: "deflection under the centre of a uniform circle on a half space",
    expression: "w = ((1 + nu) q a / E) [a/R + (1 - 2 nu)(R - z)/a], R^2 = a^2 + z^2",
    arguments: &[PRESSURE, RADIUS, DEPTH, STIFFNESS, POISSON],
    result: Dimension::Length,
    source: source("uniform circle, deflection on the axis"),
    scatter: SCATTER,
    evaluate: kernel!(|q, a, z, stiffness, poisson| {
        q * centre_deflection(Material { stiffness, poisson }, a, z)
    }),
};

/// Vertical stress anywhere.
pub static CIRCLE_VERTICAL_STRESS_ANYWHERE: Formula = Formula {
    name: "circle-vertical-stress-anywhere",
    computes: "vertical stress at any place under a uniform circle on a half space",
    expression: "sz = q a [I(1,0;0) + z I(1,0;1)], I(p,q;k) = integral of J_p(ma) J_q(mr) \
                 exp(-mz) m^k dm, in complete elliptic integrals",
    arguments: &[PRESSURE, RADIUS, DISTANCE, DEPTH],
    result: Dimension::Pressure,
    source: source("uniform circle, vertical stress"),
    scatter: SCATTER,
    evaluate: kernel!(|q, a, r, z| -q * circle_field(UNIT, a, r, z).vertical),
};

/// Deflection anywhere.
pub static CIRCLE_DEFLECTION_ANYWHERE: Formula = Formula {
    name: "circle-deflection-anywhere",
    computes: "deflection at any place under a uniform circle on a half space",
    expression: "w = q a (1 + nu)/E [2 (1 - nu) I(1,0;-1) + z I(1,0;0)], I(p,q;k) = integral of \
                 J_p(ma) J_q(mr) exp(-mz) m^k dm, in complete elliptic integrals",
    arguments: &[PRESSURE, RADIUS, DISTANCE, DEPTH, STIFFNESS, POISSON],
    result: Dimension::Length,
    source: source("uniform circle, deflection"),
    scatter: SCATTER,
    evaluate: kernel!(|q, a, r, z, stiffness, poisson| {
        q * circle_field(Material { stiffness, poisson }, a, r, z).down
    }),
};

/// Surface deflection at the edge.
pub static CIRCLE_EDGE_SURFACE_DEFLECTION: Formula = Formula {
    name: "circle-edge-surface-deflection",
    computes: "surface deflection at the edge of a uniform circle on a half space",
    expression: "w = 4 (1 - nu^2) q a / (pi E)",
    arguments: &[PRESSURE, RADIUS, STIFFNESS, POISSON],
    result: Dimension::Length,
    source: source("uniform circle, surface deflection at the edge"),
    scatter: SCATTER,
    evaluate: kernel!(|q, a, stiffness, poisson| {
        4.0 * (1.0 - poisson * poisson) * q * a / (PI * stiffness)
    }),
};

/// Deflection of a rigid plate.
pub static CIRCLE_RIGID_DEFLECTION: Formula = Formula {
    name: "circle-rigid-plate-deflection",
    computes: "deflection of a rigid circular plate on a half space, by its mean pressure",
    expression: "w = pi (1 - nu^2) q a / (2 E)",
    arguments: &[PRESSURE, RADIUS, STIFFNESS, POISSON],
    result: Dimension::Length,
    source: source("rigid plate"),
    scatter: SCATTER,
    evaluate: kernel!(|q, a, stiffness, poisson| {
        PI * (1.0 - poisson * poisson) * q * a / (2.0 * stiffness)
    }),
};

/// Distance from the axis of a load.
pub(crate) const DISTANCE: Argument = argument("distance", "r", Dimension::Length, 0.0, 1e3);

/// Constants where a stress does not depend on them.
const UNIT: Material = Material { stiffness: 1e6, poisson: 0.5 };
