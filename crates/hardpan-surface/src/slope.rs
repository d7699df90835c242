//! Gradients and local slopes along one line, straight from its levels.

use crate::error::{Error, setting};
use crate::profile::checked_points;
use hardpan_model::SurveyLine;
use hardpan_quantity::{Length, Quantity, Ratio, metres, ratio};

/// Gradient of a whole line. Rising stations count as uphill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gradient {
    /// Last level less first level, over the distance between them.
    pub end_to_end: Ratio,
    /// Highest level less lowest level, over the length of the strip.
    pub effective: Ratio,
    /// Station and elevation of the highest level.
    pub highest: (Length, Length),
    /// Station and elevation of the lowest level.
    pub lowest: (Length, Length),
}

/// A value over a stretch of one line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlopeAt {
    /// First station.
    pub from: Length,
    /// Last station.
    pub to: Length,
    /// Slope, or change of slope between the two halves of the stretch.
    pub value: Ratio,
}

/// Gradient of a line; `strip_length` is the length that the effective gradient
/// is taken over, the surveyed length when none is known.
///
/// # Errors
/// [`Error`] for points out of range or order, or fewer than two.
pub fn gradient(line: &SurveyLine, strip_length: Option<Length>) -> Result<Gradient, Error> {
    let points = checked_points(line)?;
    let too_few = || Error::TooFewPoints { offset_m: line.offset.si(), points: points.len() };
    let (Some(first), Some(last)) = (points.first(), points.last()) else { return Err(too_few()) };
    if points.len() < 2 {
        return Err(too_few());
    }
    let highest = points.iter().copied().fold(*first, |top, p| if p.1 > top.1 { p } else { top });
    let lowest = points.iter().copied().fold(*first, |low, p| if p.1 < low.1 { p } else { low });
    let surveyed = last.0 - first.0;
    let length = match strip_length {
        Some(length) => setting("length of the strip", length.si(), 1.0..=100_000.0, "m")?,
        None => surveyed,
    };
    let typed = |point: (f64, f64)| (metres(point.0), metres(point.1));
    Ok(Gradient {
        end_to_end: ratio((last.1 - first.1) / surveyed),
        effective: ratio((highest.1 - lowest.1) / length),
        highest: typed(highest),
        lowest: typed(lowest),
    })
}

/// The levels of a line in metres, with elevations between them where the
/// levels stand close enough.
struct Levels {
    points: Vec<(f64, f64)>,
    longest_gap: f64,
}

impl Levels {
    fn at(&self, station: f64) -> Option<f64> {
        let after = self.points.partition_point(|point| point.0 < station);
        let next = self.points.get(after)?;
        if next.0 - station <= 1e-9 {
            return Some(next.1);
        }
        let before = self.points.get(after.checked_sub(1)?)?;
        let gap = next.0 - before.0;
        let share = (station - before.0) / gap;
        (gap <= self.longest_gap + 1e-6).then_some(before.1 + share * (next.1 - before.1))
    }

    fn slope(&self, from: f64, base: f64) -> Option<f64> {
        Some((self.at(from + base)? - self.at(from)?) / base)
    }

    fn stations(&self, step: f64) -> impl Iterator<Item = f64> + '_ {
        let first = self.points.first().map_or(0.0, |point| point.0);
        let last = self.points.last().map_or(first, |point| point.0);
        let count = ((last - first) / step + 1e-9).floor().clamp(0.0, 1e7) as usize;
        (0..=count).map(move |index| first + index as f64 * step)
    }
}

fn levels(line: &SurveyLine, base: Length, longest_gap: Length) -> Result<(Levels, f64), Error> {
    let base = setting("base of a slope", base.si(), 0.1..=10_000.0, "m")?;
    let longest_gap = setting("longest gap", longest_gap.si(), 1e-3..=100_000.0, "m")?;
    Ok((Levels { points: checked_points(line)?, longest_gap }, base))
}

/// Slope over `base`, every quarter base along the line. Stretches with an end
/// between levels further apart than `longest_gap` are left out.
///
/// # Errors
/// [`Error`] for points out of range or order, a base outside 0.1 m to 10 km,
/// or a longest gap outside 1 mm to 100 km.
pub fn local_slopes(
    line: &SurveyLine,
    base: Length,
    longest_gap: Length,
) -> Result<Vec<SlopeAt>, Error> {
    let (levels, base) = levels(line, base, longest_gap)?;
    let slope_at = |from: f64| {
        let value = levels.slope(from, base)?;
        Some(SlopeAt { from: metres(from), to: metres(from + base), value: ratio(value) })
    };
    Ok(levels.stations(0.25 * base).filter_map(slope_at).collect())
}

/// Change of slope from each `base` to the next one, every quarter base along
/// the line; with a base of 30 m it is the rate of change per 30 m.
///
/// # Errors
/// As [`local_slopes`].
pub fn slope_changes(
    line: &SurveyLine,
    base: Length,
    longest_gap: Length,
) -> Result<Vec<SlopeAt>, Error> {
    let (levels, base) = levels(line, base, longest_gap)?;
    let change_at = |from: f64| {
        let value = levels.slope(from + base, base)? - levels.slope(from, base)?;
        Some(SlopeAt { from: metres(from), to: metres(from + 2.0 * base), value: ratio(value) })
    };
    Ok(levels.stations(0.25 * base).filter_map(change_at).collect())
}

/// Elevation of a line at a station; none outside it or where two levels stand
/// further apart than `longest_gap`.
///
/// # Errors
/// As [`local_slopes`].
pub fn elevation_at(
    line: &SurveyLine,
    station: Length,
    longest_gap: Length,
) -> Result<Option<Length>, Error> {
    let (levels, _) = levels(line, metres(1.0), longest_gap)?;
    Ok(levels.at(station.si()).map(metres))
}

/// Elevations of a line at many stations in metres.
pub(crate) fn elevations_at(
    line: &SurveyLine,
    stations: &[f64],
    longest_gap: Length,
) -> Result<Vec<Option<f64>>, Error> {
    let (levels, _) = levels(line, metres(1.0), longest_gap)?;
    Ok(stations.iter().map(|station| levels.at(*station)).collect())
}
