//! Rut depth of an unsurfaced or gravel-surfaced strip by the regression of
//! Barber, Odom and Patrick: one stronger layer over weaker ground.
//! Numbers: `validation/cases/ground/barber-1978.toml`.

use crate::demand::unsurfaced::{LOAD, PRESSURE, STRENGTH_PA};
use crate::formulas::{argument, kernel};
use hardpan_model::{Argument, Formula, Source, Tier};
use hardpan_quantity::{Dimension, STANDARD_GRAVITY_M_PER_S2};

pub(crate) const PASSES: Argument = argument("passes", "R", Dimension::Coefficient, 1.0, 100_000.0);

/// How ruts grow with passes.
pub(crate) const PASSES_EXPONENT: f64 = 0.2476;

/// Rut depth.
pub static BARBER_RUT: Formula = Formula {
    name: "rut-barber-1978",
    computes: "rut depth of a strong layer over weaker ground after passes of a single wheel",
    expression: "RD = 0.1741 (P/1000)^0.4704 p^0.5695 R^0.2476 / [(log10 t)^2.002 C1^0.9335 C2^0.2848]; \
                 RD and t in, P lbf, p psi; C1 above C2",
    arguments: &[
        LOAD,
        PRESSURE,
        PASSES,
        argument("thickness", "t", Dimension::Length, 0.0762, 0.6096).printed_in("in"),
        argument("bearing_ratio_above", "C1", Dimension::BearingRatio, 1.0, 100.0),
        argument("bearing_ratio_below", "C2", Dimension::BearingRatio, 0.5, 100.0),
    ],
    result: Dimension::Length,
    source: Source::new("BARBER-1978", "rut depth, unsurfaced and gravel-surfaced", Tier::Memory),
    scatter: "not known; the leading constant is the weakest part of the memory",
    evaluate: kernel!(|load, pressure, passes, thickness, above, below| barber_rut(
        load, pressure, passes, thickness, above, below
    )),
};

/// NaN unless the layer above is the stronger one.
fn barber_rut(
    load: f64,
    pressure: f64,
    passes: f64,
    thickness: f64,
    above: f64,
    below: f64,
) -> f64 {
    const KIP_N: f64 = 1000.0 * 0.453_592_37 * STANDARD_GRAVITY_M_PER_S2;
    const PSI_PA: f64 = STRENGTH_PA / 8.1;
    if above.partial_cmp(&below) != Some(std::cmp::Ordering::Greater) {
        return f64::NAN;
    }
    let top = 0.1741
        * (load / KIP_N).powf(0.4704)
        * (pressure / PSI_PA).powf(0.5695)
        * passes.powf(PASSES_EXPONENT);
    let bottom = (thickness / 0.0254).log10().powf(2.002) * above.powf(0.9335) * below.powf(0.2848);
    top / bottom * 0.0254
}
