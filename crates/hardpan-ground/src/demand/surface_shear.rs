//! Does the top of fine-grained ground stand a braked wheel?
//!
//! A braked wheel drags at the ground with a share of its load. Undrained
//! ground gives way by sliding when the drag reaches its shear strength, and
//! by bearing at less vertical pressure than without drag. Both are plane
//! plasticity for ground that fails at one shear strength: not for gravel.

use crate::formulas::{argument, kernel};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::{BearingRatio, Dimension, Pressure, Quantity, Ratio};
use std::f64::consts::PI;

/// Shear strength from bearing ratio.
pub static UNDRAINED_STRENGTH: Formula = Formula {
    name: "undrained-strength-giroud-han-2004",
    computes: "undrained shear strength of saturated fine-grained ground",
    expression: "c_u = 30 kPa CBR",
    arguments: &[argument("bearing_ratio", "CBR", Dimension::BearingRatio, 0.3, 20.0)],
    result: Dimension::Pressure,
    source: Source::new("GIROUD-HAN-2004", "cohesion from CBR", Tier::Memory),
    scatter: "not published",
    evaluate: kernel!(|cbr| undrained_strength(cbr)),
};

/// Bearing factor under an inclined load.
pub static INCLINED_BEARING: Formula = Formula {
    name: "inclined-bearing-green-1954",
    computes: "greatest vertical over shear strength under a strip that also drags",
    expression: "N = 1 + pi - arcsin h + sqrt(1 - h^2); h = drag over shear strength",
    arguments: &[argument("drag_share", "h", Dimension::Coefficient, 0.0, 1.0)],
    result: Dimension::Coefficient,
    source: Source::new("GREEN-1954", "strip on one strength, load inclined", Tier::Memory),
    scatter: "exact for plane strain and one strength; a round contact carries up to a fifth more",
    evaluate: kernel!(|share| inclined_bearing(share)),
};

fn undrained_strength(cbr: f64) -> f64 {
    30e3 * cbr
}

fn inclined_bearing(share: f64) -> f64 {
    1.0 + PI - share.asin() + (1.0 - share * share).max(0.0).sqrt()
}

/// What a braked wheel asks of the top of the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceShear {
    /// Drag on the contact area.
    pub drag: Pressure,
    /// Shear strength of the ground.
    pub strength: Pressure,
    /// Greatest vertical pressure beside that drag; zero where it slides.
    pub bearing: Pressure,
    /// The greater of drag over shear strength and of tyre pressure over the
    /// greatest vertical pressure; above 100 % the top gives way.
    pub utilisation: Ratio,
}

/// A wheel at a tyre pressure that drags with a share of its load, on ground
/// of a bearing ratio credited. What is not above zero or not a number is
/// answered with an infinite utilisation, which nothing meets.
#[must_use]
pub fn surface_shear(pressure: Pressure, share: Ratio, ground: BearingRatio) -> SurfaceShear {
    let (pressure, share) = (pressure.si(), share.si());
    let drag = pressure * share;
    let strength = undrained_strength(ground.percent());
    let slides = drag / strength;
    let sound = pressure > 0.0 && share >= 0.0 && slides.is_finite();
    let bearing = if sound && slides <= 1.0 { strength * inclined_bearing(slides) } else { 0.0 };
    let used = if sound { slides.max(pressure / bearing) } else { f64::INFINITY };
    SurfaceShear {
        drag: Pressure::from_si(drag),
        strength: Pressure::from_si(strength),
        bearing: Pressure::from_si(bearing),
        utilisation: Ratio::from_si(used),
    }
}
