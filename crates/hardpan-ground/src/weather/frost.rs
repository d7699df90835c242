//! How deep does ground freeze, or thaw from the top?
//!
//! Stefan's depth and its correction for the heat that the ground holds
//! (modified Berggren). The same equation serves thaw with the thawing index
//! and the conductivity of thawed ground. An index is a sum of degrees below
//! (above) freezing over days, in kelvin days, at the surface.
//! Numbers: `validation/cases/ground/frost-depth.toml`.

use crate::formulas::{argument, kernel};
use hardpan_math::{bracketed_root, error_function};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;
use std::f64::consts::PI;

const SECONDS_A_DAY: f64 = 86_400.0;
/// Latent heat of fusion of water, joules per kilogram.
const FUSION_J_PER_KG: f64 = 334e3;
/// One Btu/(lb °F) in J/(kg K), which is one international calorie.
const HEAT_J_PER_KG_K: f64 = 4_186.8;
const FREEZING_K: f64 = 273.15;

const CONDUCTIVITY: Argument =
    argument("conductivity_watts_per_metre_kelvin", "k", Dimension::Coefficient, 0.1, 5.0);
const INDEX: Argument =
    argument("surface_index_kelvin_days", "n F", Dimension::Coefficient, 0.0, 10_000.0);
const DENSITY: Argument = argument("dry_density", "rho_d", Dimension::Density, 500.0, 2500.0);
const WATER: Argument = argument("water_content", "w", Dimension::Ratio, 0.005, 2.0);
const DURATION: Argument = argument("duration", "t", Dimension::Time, SECONDS_A_DAY, 4e7);
const ALPHA: Argument = argument("thermal_ratio", "alpha", Dimension::Coefficient, 0.0, 10.0);
const MU: Argument = argument("fusion_parameter", "mu", Dimension::Coefficient, 1e-3, 10.0);

/// Stefan.
pub static FROST_DEPTH_STEFAN: Formula = Formula {
    name: "frost-depth-stefan",
    computes: "depth of frost or thaw from the surface, heat held by the ground left out",
    expression: "X = sqrt(2 k (86400) n F / L), L = 334000 rho_d w",
    arguments: &[CONDUCTIVITY, INDEX, DENSITY, WATER],
    result: Dimension::Length,
    source: Source::new("UFC-3-130-04", "Stefan equation", Tier::Published),
    scatter: "too deep by 5 to 50 % where the ground is warm; see the correction",
    evaluate: kernel!(|k, index, density, water| stefan(k, index, density, water)),
};

/// Modified Berggren.
pub static FROST_DEPTH_BERGGREN: Formula = Formula {
    name: "frost-depth-modified-berggren",
    computes: "depth of frost or thaw from the surface",
    expression: "X = lambda sqrt(2 k (86400) n F / L), L = 334000 rho_d w",
    arguments: &[
        CONDUCTIVITY,
        INDEX,
        DENSITY,
        WATER,
        argument("correction", "lambda", Dimension::Coefficient, 0.1, 1.0),
    ],
    result: Dimension::Length,
    source: Source::new("UFC-3-130-04", "modified Berggren equation", Tier::Published),
    scatter: "conductivity and water content of the ground decide",
    evaluate: kernel!(|k, index, density, water, lambda| {
        lambda * stefan(k, index, density, water)
    }),
};

/// Thermal ratio.
pub static THERMAL_RATIO: Formula = Formula {
    name: "thermal-ratio",
    computes: "warmth of the ground over the cold of the season",
    expression: "alpha = (MAT - freezing point) / (n F / t)",
    arguments: &[
        argument("mean_annual_temperature", "MAT", Dimension::Temperature, 230.0, 310.0),
        argument("surface_index_kelvin_days", "n F", Dimension::Coefficient, 1.0, 10_000.0),
        DURATION,
    ],
    result: Dimension::Coefficient,
    source: Source::new("UFC-3-130-06", "thermal ratio", Tier::Secondary),
    scatter: "definition",
    evaluate: kernel!(|mean, index, duration| {
        (mean - FREEZING_K) / (index * SECONDS_A_DAY / duration)
    }),
};

/// Fusion parameter.
pub static FUSION_PARAMETER: Formula = Formula {
    name: "fusion-parameter",
    computes: "heat given off by cooling over heat given off by freezing",
    expression: "mu = (n F / t) C / L, C = rho_d (0.17 + 0.75 w) Btu/(ft3 F), L = 334000 rho_d w",
    arguments: &[INDEX, DURATION, WATER],
    result: Dimension::Coefficient,
    source: Source::new("UFC-3-130-06", "fusion parameter", Tier::Secondary),
    scatter: "definition; heat capacity as the mean of frozen and unfrozen ground",
    evaluate: kernel!(|index, duration, water| fusion(index, duration, water)),
};

/// Correction, Aldrich's approximation.
pub static BERGGREN_LAMBDA_ALDRICH: Formula = Formula {
    name: "berggren-lambda-aldrich",
    computes: "correction of Stefan's depth, approximate",
    expression: "lambda = 1 / sqrt(1 + mu (alpha + 0.5))",
    arguments: &[ALPHA, MU],
    result: Dimension::Coefficient,
    source: Source::new("UFC-3-130-06", "equation 2-33", Tier::Secondary),
    scatter: "too large by up to 35 % in temperate climates, so too deep",
    evaluate: kernel!(|alpha, mu| 1.0 / (1.0 + mu * (alpha + 0.5)).sqrt()),
};

/// Correction, exact for equal properties.
pub static BERGGREN_LAMBDA_EXACT: Formula = Formula {
    name: "berggren-lambda-exact",
    computes: "correction of Stefan's depth, exact for equal properties frozen and unfrozen",
    expression: "exp(-y^2)/erf y - alpha exp(-y^2)/erfc y = sqrt(pi) y/mu, lambda = y sqrt(2/mu)",
    arguments: &[ALPHA, MU],
    result: Dimension::Coefficient,
    source: Source::new(
        "NEUMANN-1860",
        "two-phase solidification, equal properties",
        Tier::Derived,
    ),
    scatter: "exact for equal properties",
    evaluate: kernel!(|alpha, mu| lambda_exact(alpha, mu)),
};

/// Fusion parameter of an index in kelvin days over seconds.
pub(super) fn fusion(index: f64, duration: f64, water: f64) -> f64 {
    let capacity = HEAT_J_PER_KG_K * (0.17 + 0.75 * water);
    index * SECONDS_A_DAY / duration * capacity / (FUSION_J_PER_KG * water)
}

/// Depth in metres from an index in kelvin days.
pub(super) fn stefan(conductivity: f64, index: f64, density: f64, water: f64) -> f64 {
    (2.0 * conductivity * SECONDS_A_DAY * index / (FUSION_J_PER_KG * density * water)).sqrt()
}

pub(super) fn lambda_exact(alpha: f64, mu: f64) -> f64 {
    let balance = |y: f64| {
        let bell = (-y * y).exp();
        let (inside, outside) = (error_function(y), libm::erfc(y));
        bell / inside - alpha * bell / outside - PI.sqrt() * y / mu
    };
    bracketed_root(balance, 1e-6, 5.0, 1e-12).map_or(f64::NAN, |y| y * (2.0 / mu).sqrt())
}
