//! An axis along ground that a cloud or a grid covers from edge to edge.

use super::PlanePoint;
use super::fitted_axis::{AxisStart, FittedAxis, fitted_axis};
use crate::Error;
use hardpan_quantity::{Length, Quantity};

/// How much wider than the strip, and by how many metres more, or how much
/// narrower, the ground may be: it then ends at the edges of the strip and not
/// where somebody flew. Source: judgement.
const WIDER: f64 = 1.25;
const WIDER_MORE_M: f64 = 3.0;
const NARROWER: f64 = 0.75;
/// Share of the width by which a threshold may stand aside of the middle.
const ASIDE: f64 = 0.15;
/// Share of the points left out on each side, before the edges are read.
const EDGE: f64 = 0.02;

/// The axis along the middle of ground that is as wide as the strip, from even
/// places all over it.
///
/// # Errors
/// As [`fitted_axis`]; and [`Error::CoveredWidth`] for ground that is not as
/// wide as the strip, [`Error::ThresholdAside`] for a threshold that does not
/// stand in its middle.
pub fn covered_axis(
    points: &[PlanePoint],
    (length, width): (Length, Length),
    start: AxisStart,
) -> Result<FittedAxis, Error> {
    let fitted = fitted_axis(points, length, start)?;
    let mut offsets: Vec<f64> =
        points.iter().map(|point| fitted.axis.place(*point).1.si()).collect();
    offsets.sort_by(f64::total_cmp);
    let at = |share: f64| {
        let index = (share * offsets.len().saturating_sub(1) as f64).round() as usize;
        offsets.get(index).copied().unwrap_or(0.0)
    };
    let (left, right) = (at(EDGE), at(1.0 - EDGE));
    let (covered, wanted) = ((right - left) / (1.0 - 2.0 * EDGE), width.si());
    if !(NARROWER * wanted..=WIDER * wanted + WIDER_MORE_M).contains(&covered) {
        return Err(Error::CoveredWidth { covered_m: covered, width_m: wanted });
    }
    let aside = 0.5 * (left + right);
    if aside.abs() > ASIDE * wanted {
        return Err(Error::ThresholdAside { aside_m: aside.abs(), width_m: wanted });
    }
    Ok(fitted)
}
