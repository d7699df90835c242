//! Vertical curves of the centre line: where the slope changes, by how much and
//! how sharply.

pub(crate) mod sight;

use crate::error::{Error, setting};
use hardpan_quantity::{Length, Quantity, Ratio, metres, ratio};

/// Length over which a rate of change of slope is stated.
const BASE_M: f64 = 30.0;

/// One vertical curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VerticalCurve {
    /// First station.
    pub from: Length,
    /// Last station.
    pub to: Length,
    /// Slope after the curve less slope before it; a crest is negative.
    pub change: Ratio,
    /// Greatest change of slope in 30 m, without sign.
    pub per_30_m: Ratio,
    /// Radius where it is sharpest.
    pub radius: Length,
}

impl VerticalCurve {
    /// Station half way along it, where the two slopes would meet.
    #[must_use]
    pub fn middle(&self) -> Length {
        0.5 * (self.from + self.to)
    }
}

/// `30 m / |Δg|`: radius of a curve by its change of slope in 30 m.
pub(crate) fn radius_of(change_in_30_m: f64) -> f64 {
    BASE_M / change_in_30_m.abs()
}

/// A grade by station, linear between its points.
struct GradeLine<'a> {
    points: &'a [(Length, Length)],
}

impl GradeLine<'_> {
    fn level(&self, station: f64) -> Option<f64> {
        let after = self.points.partition_point(|point| point.0.si() < station - 1e-9);
        let next = self.points.get(after)?;
        let Some(before) = after.checked_sub(1).and_then(|index| self.points.get(index)) else {
            return (next.0.si() - station < 1e-9).then_some(next.1.si());
        };
        let share = (station - before.0.si()) / (next.0 - before.0).si();
        Some(before.1.si() + share * (next.1 - before.1).si())
    }

    fn slope(&self, from: f64) -> Option<f64> {
        Some((self.level(from + BASE_M)? - self.level(from)?) / BASE_M)
    }

    /// Slope of the 30 m after a station less that of the 30 m before it.
    fn change(&self, station: f64) -> Option<f64> {
        Some(self.slope(station)? - self.slope(station - BASE_M)?)
    }
}

/// The curves along a smooth grade, such as that of
/// [`centre_profile`](crate::centre_profile), by rising station: every run of
/// stations whose change of slope in 30 m is of one sign and more than `least`.
///
/// # Errors
/// [`Error`] for a least change outside 0.001 % to 100 %, or a grade shorter
/// than 60 m.
pub fn vertical_curves(
    grade: &[(Length, Length)],
    least: Ratio,
) -> Result<Vec<VerticalCurve>, Error> {
    let least = setting("least change of slope in 30 m", least.si(), 1e-5..=1.0, "")?;
    let (first, last) = match (grade.first(), grade.last()) {
        (Some(first), Some(last)) => (first.0.si(), last.0.si()),
        _ => (0.0, 0.0),
    };
    let length = setting("length of the grade", last - first, 0.0..=100_000.0, "m")?;
    if length < 2.0 * BASE_M {
        let (length_m, needed_m) = (length, 2.0 * BASE_M);
        return Err(Error::TooShort { method: "a vertical curve", length_m, needed_m });
    }
    let line = GradeLine { points: grade };
    let inside = grade.iter().map(|point| point.0.si());
    let changes: Vec<(f64, f64)> =
        inside.filter_map(|station| Some((station, line.change(station)?))).collect();
    let curved = |change: f64| if change.abs() > least { change.signum() } else { 0.0 };
    let curves = changes
        .chunk_by(|a, b| curved(a.1) == curved(b.1))
        .filter(|run| run.first().is_some_and(|one| curved(one.1) != 0.0))
        .filter_map(|run| {
            let (from, to) = (run.first()?.0, run.last()?.0);
            let sharpest = run.iter().fold(0.0, |most: f64, one| most.max(one.1.abs()));
            Some(VerticalCurve {
                from: metres(from),
                to: metres(to),
                change: ratio(line.slope(to)? - line.slope(from - BASE_M)?),
                per_30_m: ratio(sharpest),
                radius: metres(radius_of(sharpest)),
            })
        });
    Ok(curves.collect())
}
