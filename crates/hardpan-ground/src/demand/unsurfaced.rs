//! How strong must unsurfaced ground be at a depth, for a load, a pressure and
//! a number of coverages?
//!
//! The unsurfaced criterion of the Waterways Experiment Station (Hammitt):
//! cover of stronger ground needed above ground of a bearing ratio until a rut
//! of about 75 mm, and the same turned round. It knows vertical load only:
//! braking and turning can break a surface that it passes.
//! Numbers: `validation/cases/ground/hammitt-1970.toml`.

use crate::formulas::{argument, kernel};
use crate::wheel::tyre::contact_area;
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;
use std::f64::consts::PI;

/// The 8.1 psi per CBR of the design equation, pascals.
pub(crate) const STRENGTH_PA: f64 = 8.1 * 0.453_592_37 * 9.806_65 / (0.0254 * 0.0254);

/// Fewest coverages for which the criterion holds.
pub const FEWEST_COVERAGES: f64 = 10.0;
/// Most coverages for which the criterion is published.
pub const MOST_COVERAGES: f64 = 10_000.0;

const SOURCE: Source = Source::new("HAMMITT-1970", "thickness by coverages", Tier::Memory);
const SCATTER: &str = "not published; read with the scatter of the bearing ratio itself";
pub(crate) const LOAD: Argument =
    argument("load", "P", Dimension::Force, 1.0, 2e6).printed_in("lbf");
pub(crate) const PRESSURE: Argument =
    argument("pressure", "p", Dimension::Pressure, 5e4, 2.5e6).printed_in("psi");
const COVERAGES: Argument =
    argument("coverages", "C", Dimension::Coefficient, FEWEST_COVERAGES, MOST_COVERAGES);

/// Cover over ground of a bearing ratio.
pub static HAMMITT_COVER: Formula = Formula {
    name: "unsurfaced-cover-hammitt-1970",
    computes: "thickness of stronger cover that ground of a bearing ratio needs, single wheel",
    expression: "t = (0.176 log10 C + 0.120) sqrt(P/(8.1 CBR) - A/pi), A = P/p; t in, P lbf, \
                 A in^2; no cover where the root is negative",
    arguments: &[
        LOAD,
        PRESSURE,
        argument("bearing_ratio", "CBR", Dimension::BearingRatio, 0.5, 100.0),
        COVERAGES,
    ],
    result: Dimension::Length,
    source: SOURCE,
    scatter: SCATTER,
    evaluate: kernel!(|load, pressure, cbr, coverages| cover(
        load,
        contact_area(load, pressure),
        cbr,
        factor(coverages)
    )),
};

/// Bearing ratio under a cover.
pub static HAMMITT_BEARING: Formula = Formula {
    name: "unsurfaced-bearing-ratio-hammitt-1970",
    computes: "bearing ratio that ground under a cover needs, single wheel",
    expression: "CBR = P / (8.1 [(t / (0.176 log10 C + 0.120))^2 + A/pi]), A = P/p; t in, P lbf, \
                 A in^2",
    arguments: &[
        LOAD,
        PRESSURE,
        argument("cover", "t", Dimension::Length, 0.0, 5.0).printed_in("in"),
        COVERAGES,
    ],
    result: Dimension::BearingRatio,
    source: SOURCE,
    scatter: SCATTER,
    evaluate: kernel!(|load, pressure, depth, coverages| bearing(
        load,
        contact_area(load, pressure),
        depth,
        factor(coverages)
    )),
};

/// The factor of coverages, `0.176 log10 C + 0.120`.
pub(crate) fn factor(coverages: f64) -> f64 {
    0.176 * coverages.log10() + 0.120
}

/// Cover needed, metres: `load` the equivalent single wheel load, `area` the
/// contact area of one tyre.
pub(crate) fn cover(load: f64, area: f64, cbr: f64, factor: f64) -> f64 {
    factor * (load / (STRENGTH_PA * cbr) - area / PI).max(0.0).sqrt()
}

/// The square of cover over the factor of coverages, square metres.
pub(crate) fn cover_term(depth: f64, factor: f64) -> f64 {
    (depth / factor).powi(2)
}

/// Bearing ratio needed, per cent; arguments as [`cover`].
fn bearing(load: f64, area: f64, depth: f64, factor: f64) -> f64 {
    load / (STRENGTH_PA * (cover_term(depth, factor) + area / PI))
}
