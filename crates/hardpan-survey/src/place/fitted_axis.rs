//! An axis along the points themselves, where the thresholds do not give it.

use super::{PlanePoint, StationAxis};
use crate::Error;
use hardpan_quantity::{Angle, Length, Quantity, metres};
use std::f64::consts::TAU;

/// Cross-sections whose middles carry the axis.
const SECTIONS: usize = 24;
/// Fewest of them with points in them.
const SECTIONS_LEAST: usize = 8;
/// Rounds of turning the axis; the second hardly moves it.
const ROUNDS: usize = 4;
/// Middles further off than this, as a standard deviation, lie along no line.
/// Source: judgement, a third of the narrowest strip.
const SPREAD_MOST_M: f64 = 2.0;
/// Greatest difference between the span of the points and the length of the
/// strip, where only the span tells the ends. Source: judgement.
const SPAN_SHARE: f64 = 0.01;
const SPAN_MORE_M: f64 = 5.0;

/// What tells which way the stations count, and where from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AxisStart {
    /// The threshold of the low end, on the axis at station 0.
    Low(PlanePoint),
    /// The threshold of the high end, on the axis at the last station.
    High(PlanePoint),
    /// The bearing alone: the points then reach from end to end.
    Bearing(Angle),
}

/// An axis and how well the points agree with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FittedAxis {
    /// The axis.
    pub axis: StationAxis,
    /// Standard deviation of the middles of cross-sections about it.
    pub spread: Length,
}

/// The axis along points that cover both sides of a strip alike.
///
/// ```text
/// first direction: least squared distances of all points
/// middles:  half way between the 5th and the 95th of 100 offsets of each of
///           24 equal stretches
/// turned by: median of the slopes between middles i and i + n/2
///                                                [THEIL-1950] incomplete method
/// spread  = 1.4826 median |middle − median of the middles|
/// ```
///
/// The median holds while fewer than about three stretches in ten have points
/// on one side only. A threshold that is given lies on the axis; without one,
/// offset 0 is the middle of the middles and both ends share the difference
/// between the span of the points and the length.
///
/// # Errors
/// [`Error`] for too few points, points that lie along no line, or a span that
/// is not the length.
pub fn fitted_axis(
    points: &[PlanePoint],
    length: Length,
    start: AxisStart,
) -> Result<FittedAxis, Error> {
    let plain: Vec<(f64, f64)> =
        points.iter().map(|point| (point.easting.si(), point.northing.si())).collect();
    let centre = mean(&plain).ok_or(Error::NoAxis { sections: 0, least: SECTIONS_LEAST })?;
    let mut direction = towards(principal(&plain, centre), start, centre);
    let mut across = Vec::new();
    for _ in 0..ROUNDS {
        across = middles(&plain, centre, direction);
        if across.len() < SECTIONS_LEAST {
            return Err(Error::NoAxis { sections: across.len(), least: SECTIONS_LEAST });
        }
        direction += slope(&across).atan();
    }
    let offset = median(across.iter().map(|middle| middle.1).collect());
    let spread = 1.4826 * median(across.iter().map(|at| (at.1 - offset).abs()).collect());
    if spread.is_nan() || spread > SPREAD_MOST_M {
        return Err(Error::AxisSpread { spread_m: spread, most_m: SPREAD_MOST_M });
    }
    let (low, high) = ends(&plain, (centre, direction), offset, length.si(), start)?;
    Ok(FittedAxis { axis: StationAxis::between(low, high)?, spread: metres(spread) })
}

fn mean(points: &[(f64, f64)]) -> Option<(f64, f64)> {
    let count = points.len() as f64;
    let sum = points.iter().fold((0.0, 0.0), |sum, point| (sum.0 + point.0, sum.1 + point.1));
    (count > 0.0).then_some((sum.0 / count, sum.1 / count))
}

/// Direction of least squared distances, from north towards east; known but
/// for half a turn.
fn principal(points: &[(f64, f64)], centre: (f64, f64)) -> f64 {
    let (mut ee, mut en, mut nn) = (0.0, 0.0, 0.0);
    for point in points {
        let (e, n) = (point.0 - centre.0, point.1 - centre.1);
        ee += e * e;
        en += e * n;
        nn += n * n;
    }
    0.5 * (2.0 * en).atan2(nn - ee)
}

fn towards(direction: f64, start: AxisStart, centre: (f64, f64)) -> f64 {
    let from =
        |point: PlanePoint| (centre.0 - point.easting.si()).atan2(centre.1 - point.northing.si());
    let wanted = match start {
        AxisStart::Low(point) => from(point),
        AxisStart::High(point) => from(point) + 0.5 * TAU,
        AxisStart::Bearing(bearing) => bearing.si(),
    };
    if (direction - wanted).cos() < 0.0 { direction + 0.5 * TAU } else { direction }
}

fn turned(point: (f64, f64), centre: (f64, f64), direction: f64) -> (f64, f64) {
    let (e, n) = (point.0 - centre.0, point.1 - centre.1);
    let (sine, cosine) = direction.sin_cos();
    (e * sine + n * cosine, e * cosine - n * sine)
}

/// Place along and middle across of each stretch with points in it.
fn middles(points: &[(f64, f64)], centre: (f64, f64), direction: f64) -> Vec<(f64, f64)> {
    let mut placed: Vec<(f64, f64)> =
        points.iter().map(|point| turned(*point, centre, direction)).collect();
    placed.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (Some(first), Some(last)) = (placed.first(), placed.last()) else { return Vec::new() };
    let (from, each) = (first.0, (last.0 - first.0) / SECTIONS as f64);
    let section = |along: f64| ((along - from) / each).floor().min(SECTIONS as f64 - 1.0);
    placed
        .chunk_by(|a, b| section(a.0) == section(b.0))
        .filter_map(|stretch| {
            let mut offsets: Vec<f64> = stretch.iter().map(|point| point.1).collect();
            offsets.sort_by(f64::total_cmp);
            let at = |share: f64| {
                offsets.get((share * (offsets.len() - 1) as f64).round() as usize).copied()
            };
            let along = median(stretch.iter().map(|point| point.0).collect());
            Some((along, 0.5 * (at(0.05)? + at(0.95)?)))
        })
        .collect()
}

fn slope(middles: &[(f64, f64)]) -> f64 {
    let half = middles.len() / 2;
    let pairs = middles.iter().zip(middles.iter().skip(half));
    median(pairs.map(|(a, b)| (b.1 - a.1) / (b.0 - a.0)).filter(|s| s.is_finite()).collect())
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let half = values.len() / 2;
    match (values.get(half.wrapping_sub(1 - values.len() % 2)), values.get(half)) {
        (Some(one), Some(other)) => 0.5 * (one + other),
        _ => 0.0,
    }
}

fn ends(
    points: &[(f64, f64)],
    (centre, direction): ((f64, f64), f64),
    offset: f64,
    length: f64,
    start: AxisStart,
) -> Result<(PlanePoint, PlanePoint), Error> {
    let (sine, cosine) = direction.sin_cos();
    let moved = |from: (f64, f64), along: f64, across: f64| PlanePoint {
        easting: metres(from.0 + along * sine + across * cosine),
        northing: metres(from.1 + along * cosine - across * sine),
    };
    let plain = |point: PlanePoint| (point.easting.si(), point.northing.si());
    match start {
        AxisStart::Low(point) => Ok((point, moved(plain(point), length, 0.0))),
        AxisStart::High(point) => Ok((moved(plain(point), -length, 0.0), point)),
        AxisStart::Bearing(_) => {
            let along = points.iter().map(|point| turned(*point, centre, direction).0);
            let (first, last) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |reach, at| {
                (reach.0.min(at), reach.1.max(at))
            });
            let span = last - first;
            let apart = (span - length).abs();
            if apart.is_nan() || apart > SPAN_SHARE * length + SPAN_MORE_M {
                return Err(Error::FittedSpan { span_m: span, length_m: length });
            }
            let low = 0.5 * (first + last) - 0.5 * length;
            Ok((moved(centre, low, offset), moved(centre, low + length, offset)))
        }
    }
}
