//! How thick must a flexible pavement be over ground of a bearing ratio?
//!
//! The design equation of the Corps of Engineers in its two published forms:
//! the square root, and the cubic in the logarithm that replaced its stiff
//! end. They agree within 4 % up to CBR/p of 0.12 per psi. No decision on an
//! unpaved strip rests on them; they feed classification numbers and stand
//! beside the strain at the weak layer.
//! Numbers: `validation/cases/ground/cbr-equation.toml`.

use crate::demand::unsurfaced::{LOAD, PRESSURE, STRENGTH_PA, cover};
use crate::formulas::{argument, kernel};
use crate::wheel::tyre::contact_area;
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::Dimension;

const ALPHA: Argument =
    argument("load_repetition_factor", "alpha", Dimension::Coefficient, 0.1, 1.5);
const BEARING: Argument = argument("bearing_ratio", "CBR", Dimension::BearingRatio, 1.0, 100.0);
const SCATTER: &str = "the two forms differ by up to 4 % below CBR/p = 0.12 per psi, more above";

/// Square-root form.
pub static FLEXIBLE_COVER_ROOT: Formula = Formula {
    name: "flexible-cover-root",
    computes: "pavement thickness over ground of a bearing ratio, single wheel, square-root form",
    expression: "t = alpha sqrt(P/(8.1 CBR) - A/pi), A = P/p; t in, P lbf, A in^2; \
                 none where the root is negative",
    arguments: &[LOAD, PRESSURE, BEARING, ALPHA],
    result: Dimension::Length,
    source: Source::new("WES-S-77-1", "design equation, square-root form", Tier::Secondary),
    scatter: SCATTER,
    evaluate: kernel!(|load, pressure, cbr, alpha| cover(
        load,
        contact_area(load, pressure),
        cbr,
        alpha
    )),
};

/// Cubic form.
pub static FLEXIBLE_COVER_CUBIC: Formula = Formula {
    name: "flexible-cover-cubic",
    computes: "pavement thickness over ground of a bearing ratio, single wheel, cubic form",
    expression: "t = alpha sqrt(A) (-0.0481 - 1.1562 x - 0.6414 x^2 - 0.4730 x^3), \
                 x = log10(CBR/p), A = P/p; t in, P lbf, p psi",
    arguments: &[LOAD, PRESSURE, BEARING, ALPHA],
    result: Dimension::Length,
    source: Source::new("WES-S-77-1", "design equation, cubic form", Tier::Memory),
    scatter: SCATTER,
    evaluate: kernel!(|load, pressure, cbr, alpha| cubic_cover(
        load,
        contact_area(load, pressure),
        cbr,
        alpha
    )),
};

/// Factor of repetitions for a single wheel.
pub static SINGLE_WHEEL_FACTOR: Formula = Formula {
    name: "load-repetition-factor-single-wheel",
    computes: "load repetition factor of the design equation by coverages, single wheel",
    expression: "alpha = 0.23 log10 C + 0.15",
    arguments: &[argument("coverages", "C", Dimension::Coefficient, 10.0, 100_000.0)],
    result: Dimension::Coefficient,
    source: Source::new("WES-S-77-1", "single-wheel law as quoted", Tier::Secondary),
    scatter: "not published",
    evaluate: kernel!(|coverages| 0.23 * coverages.log10() + 0.15),
};

/// Cubic form, metres; `load` the equivalent single wheel load, `area` the
/// contact area of one tyre. Not below zero.
fn cubic_cover(load: f64, area: f64, cbr: f64, alpha: f64) -> f64 {
    const PSI_PA: f64 = STRENGTH_PA / 8.1;
    let x = (cbr * PSI_PA * area / load).log10();
    let bracket = -0.0481 - 1.1562 * x - 0.6414 * x * x - 0.4730 * x.powi(3);
    alpha * area.sqrt() * bracket.max(0.0)
}
