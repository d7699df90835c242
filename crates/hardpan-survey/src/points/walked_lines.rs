//! From positions on the axis to survey lines, by the offsets that were walked.

use super::scatter::{LEAST_NOISE_M, scatter};
use crate::Error;
use hardpan_model::{SurveyLine, SurveyPoint};
use hardpan_quantity::{Length, Quantity, metres};

/// Offsets further apart than this belong to different lines, and a line that
/// is wider than this was not walked as one. Source: judgement.
const BETWEEN_LINES_M: f64 = 0.8;
const WIDEST_LINE_M: f64 = 2.0;
/// A step across the axis steeper than this, before and after a point, is a
/// walk between lines.
const TURN_RAD: f64 = 0.6;
/// Points of a line closer together than this are averaged.
const SAME_STATION_M: f64 = 0.1;
/// Points this far beyond an end still belong to it.
const END_M: f64 = 0.5;
/// Crossfall over which a line that wanders across sees a false level. Source:
/// judgement, the usual crossfall of a crowned strip.
const CROSSFALL: f64 = 0.02;

/// One position on the axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlacedPoint {
    /// Station.
    pub station: Length,
    /// Offset.
    pub offset: Length,
    /// Height over the datum of the survey.
    pub height: Length,
    /// Line of the file.
    pub line: u32,
}

/// Survey lines and what became of the points.
#[derive(Debug, Clone, PartialEq)]
pub struct WalkedLines {
    /// Lines by rising offset.
    pub lines: Vec<SurveyLine>,
    /// Points before the low end or beyond the high end.
    pub beyond: usize,
    /// Points on the way from one line to the next.
    pub between: usize,
    /// Standard deviation that wandering across a crossfall of 2 % adds to a
    /// level.
    pub wander: Length,
    /// Scatter of a level about the line through its neighbours.
    pub scatter: Option<Length>,
}

impl WalkedLines {
    /// Standard deviation of a level: the greatest of what is stated, of the
    /// scatter and of 10 mm, and the wander besides.
    #[must_use]
    pub fn level_noise(&self, stated: Option<Length>) -> Length {
        let known = [stated, self.scatter].into_iter().flatten().map(Length::si);
        metres(known.fold(LEAST_NOISE_M, f64::max).hypot(self.wander.si()))
    }
}

/// The lines that were walked along a strip of a length.
///
/// Points more than 0.5 m beyond the ends are left out. A line holds offsets
/// without a gap of 0.8 m, stands at their mean, and is at most 2 m wide; where
/// the offsets run together, points on the way from line to line are left out
/// first. Points closer than 0.1 m along a line are averaged.
///
/// # Errors
/// [`Error`] when no point lies on the strip, or when offsets run together so
/// that no lines can be told apart.
pub fn walked_lines(points: &[PlacedPoint], length: Length) -> Result<WalkedLines, Error> {
    let on_strip =
        |point: &PlacedPoint| (-END_M..=length.si() + END_M).contains(&point.station.si());
    let kept: Vec<PlacedPoint> = points.iter().copied().filter(on_strip).collect();
    let beyond = points.len() - kept.len();
    if kept.is_empty() {
        return Err(nowhere(points, length));
    }
    let (groups, between) = match grouped(kept.clone()) {
        Ok(groups) => (groups, 0),
        Err(_) => {
            let along: Vec<PlacedPoint> = points
                .iter()
                .enumerate()
                .filter(|(index, point)| on_strip(point) && !is_between(points, *index))
                .map(|(_, point)| *point)
                .collect();
            let between = kept.len() - along.len();
            (grouped(along)?, between)
        }
    };
    let (mut lines, mut squares, mut count) = (Vec::new(), 0.0, 0);
    for walked in groups {
        let offset = walked.iter().map(|p| p.offset.si()).sum::<f64>() / walked.len() as f64;
        squares += walked.iter().map(|p| (p.offset.si() - offset).powi(2)).sum::<f64>();
        count += walked.len();
        lines.push(SurveyLine { offset: metres(offset), points: levels(walked, length) });
    }
    let wander = metres(CROSSFALL * (squares / count.max(1) as f64).sqrt());
    let scatter = scatter(&lines).map(metres);
    Ok(WalkedLines { lines, beyond, between, wander, scatter })
}

fn nowhere(points: &[PlacedPoint], length: Length) -> Error {
    let reach = |pick: fn(&PlacedPoint) -> f64| {
        points.iter().map(pick).fold((f64::INFINITY, f64::NEG_INFINITY), |reach, at| {
            (reach.0.min(at), reach.1.max(at))
        })
    };
    let (from_m, to_m) = reach(|point| point.station.si());
    let (left_m, right_m) = reach(|point| point.offset.si());
    Error::OffTheStrip { from_m, to_m, left_m, right_m, length_m: length.si() }
}

/// Points by line, each line no wider than a line is.
fn grouped(mut points: Vec<PlacedPoint>) -> Result<Vec<Vec<PlacedPoint>>, Error> {
    points.sort_by(|a, b| a.offset.si().total_cmp(&b.offset.si()));
    let near = |a: &PlacedPoint, b: &PlacedPoint| b.offset.si() - a.offset.si() <= BETWEEN_LINES_M;
    let mut groups = Vec::new();
    for walked in points.chunk_by(near) {
        if let (Some(first), Some(last)) = (walked.first(), walked.last()) {
            let (left_m, right_m) = (first.offset.si(), last.offset.si());
            if right_m - left_m > WIDEST_LINE_M {
                return Err(Error::NotInLines { left_m, right_m, most_m: WIDEST_LINE_M });
            }
        }
        groups.push(walked.to_vec());
    }
    Ok(groups)
}

/// Whether the walk goes across the axis both before and after a point.
fn is_between(points: &[PlacedPoint], index: usize) -> bool {
    let across = |one: Option<&PlacedPoint>, other: Option<&PlacedPoint>| match (one, other) {
        (Some(one), Some(other)) => {
            let over = (other.offset.si() - one.offset.si()).abs();
            let on = (other.station.si() - one.station.si()).abs();
            over > BETWEEN_LINES_M * 0.25 && over.atan2(on) > TURN_RAD
        }
        _ => false,
    };
    let before = index.checked_sub(1).and_then(|before| points.get(before));
    let (here, after) = (points.get(index), points.get(index + 1));
    across(before, here) && across(here, after)
}

fn levels(mut walked: Vec<PlacedPoint>, length: Length) -> Vec<SurveyPoint> {
    walked.sort_by(|a, b| a.station.si().total_cmp(&b.station.si()));
    let mut levels: Vec<SurveyPoint> = Vec::new();
    let mut rest = walked.as_slice();
    while let Some(first) = rest.first() {
        let near = |p: &PlacedPoint| p.station.si() - first.station.si() < SAME_STATION_M;
        let count = rest.iter().take_while(|p| near(p)).count().max(1);
        let (same, after) = rest.split_at(count.min(rest.len()));
        let mean = |pick: fn(&PlacedPoint) -> f64| {
            same.iter().map(pick).sum::<f64>() / same.len().max(1) as f64
        };
        let station = metres(mean(|p| p.station.si()).clamp(0.0, length.si()));
        let rises = levels.last().is_none_or(|last| station > last.station);
        if rises {
            let elevation = metres(mean(|p| p.height.si()));
            levels.push(SurveyPoint { station, elevation, line: first.line });
        }
        rest = after;
    }
    levels
}
