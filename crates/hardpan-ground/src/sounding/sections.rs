//! Into which sections of like ground does a strip fall?
//!
//! Strengths by station → [`Section`]s, by cumulative differences: the area
//! under the strengths up to a station less what the mean of the whole would
//! give there. Where that difference turns from rising to falling, or back, the
//! strength changes. Neighbours whose means differ by no more than chance are
//! one section, and each section is looked at again.

use crate::Error;
use hardpan_math::{Sample, student_quantile};
use hardpan_model::{Source, Tier};
use hardpan_quantity::{BearingRatio, Length, Quantity};
use std::ops::Range;

/// Fewest soundings of a section. Judgement: fewer show no spread.
pub const FEWEST_IN_SECTION: usize = 3;
/// Probability that a difference of means is no chance, for a cut to be kept.
/// Judgement: cuts are looked for where the strength turns, so that the usual
/// 95 in 100 would find them in even ground.
pub const CUT_PROBABILITY: f64 = 0.99;

/// Where the cumulative differences come from.
pub const SECTIONS_SOURCE: Source = Source::new(
    "AASHTO-1993",
    "appendix J, analysis unit delineation by cumulative differences",
    Tier::Secondary,
);

/// A stretch of like ground.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// First station: half way from the last sounding of the section before.
    pub from: Length,
    /// Last station.
    pub to: Length,
    /// Indices of its soundings in what was handed over, by rising station.
    pub members: Vec<usize>,
}

/// Sections of a strip of a length, from bearing ratios at stations in any order.
///
/// Worked with the logarithm of the bearing ratio, since its spread grows with
/// it. Where fewer than twice [`FEWEST_IN_SECTION`] are given, one section.
///
/// # Errors
/// [`Error::NoValues`] without a value, or when one is not finite and above zero.
pub fn sections(values: &[(Length, BearingRatio)], length: Length) -> Result<Vec<Section>, Error> {
    let usable = |(station, ratio): &(Length, BearingRatio)| {
        station.si().is_finite() && ratio.percent().is_finite() && ratio.percent() > 0.0
    };
    if values.is_empty() || !values.iter().all(usable) {
        return Err(Error::NoValues);
    }
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|&a, &b| values[a].0.si().total_cmp(&values[b].0.si()));
    let points: Vec<(f64, f64)> =
        order.iter().map(|&index| (values[index].0.si(), values[index].1.percent().ln())).collect();
    let mut cuts = Vec::new();
    cut(&points, 0, &mut cuts);
    cuts.sort_unstable();
    let mut sections = Vec::with_capacity(cuts.len() + 1);
    let mut from = (0, 0.0);
    for end in cuts.into_iter().chain([points.len()]) {
        let to = match points.get(end) {
            Some(next) => 0.5 * (points[end - 1].0 + next.0),
            None => length.si().max(points[end - 1].0),
        };
        sections.push(Section {
            from: Length::from_si(from.1),
            to: Length::from_si(to),
            members: order[from.0..end].to_vec(),
        });
        from = (end, to);
    }
    Ok(sections)
}

/// Cut a run of points where it changes, and its parts again.
fn cut(points: &[(f64, f64)], first: usize, cuts: &mut Vec<usize>) {
    let parts = parts(points);
    if parts.len() < 2 {
        return;
    }
    for part in parts {
        if part.start > 0 {
            cuts.push(first + part.start);
        }
        cut(&points[part.clone()], first + part.start, cuts);
    }
}

/// Runs over which the cumulative difference only rises or only falls, joined
/// until each has soundings enough and differs from its neighbours.
fn parts(points: &[(f64, f64)]) -> Vec<Range<usize>> {
    let mean = weighted_mean(points);
    let mut parts: Vec<Range<usize>> = Vec::new();
    for (index, point) in points.iter().enumerate() {
        let above = point.1 > mean;
        match parts.last_mut() {
            Some(part) if (points[part.start].1 > mean) == above => part.end = index + 1,
            _ => parts.push(index..index + 1),
        }
    }
    while let Some(at) = least_different(points, &parts) {
        let next = parts.remove(at + 1);
        parts[at].end = next.end;
    }
    parts
}

/// The pair of neighbours to be joined next; none where all differ.
fn least_different(points: &[(f64, f64)], parts: &[Range<usize>]) -> Option<usize> {
    let distance = |pair: &[Range<usize>]| {
        let (before, after) = (&points[pair[0].clone()], &points[pair[1].clone()]);
        if before.len().min(after.len()) < FEWEST_IN_SECTION {
            // Short runs first, to the neighbour that is most like them.
            return Some((0, (mean(before) - mean(after)).abs()));
        }
        let apart = difference(before, after)?;
        (apart <= 1.0).then_some((1, apart))
    };
    parts
        .windows(2)
        .enumerate()
        .filter_map(|(index, pair)| Some((index, distance(pair)?)))
        .min_by(|(_, a), (_, b)| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)))
        .map(|(index, _)| index)
}

fn mean(points: &[(f64, f64)]) -> f64 {
    points.iter().map(|point| point.1).sum::<f64>() / points.len().max(1) as f64
}

/// Mean by the stretch that each point stands for, half way to its neighbours.
fn weighted_mean(points: &[(f64, f64)]) -> f64 {
    let (mut area, mut whole) = (0.0, 0.0);
    for pair in points.windows(2) {
        let along = pair[1].0 - pair[0].0;
        area += 0.5 * (pair[0].1 + pair[1].1) * along;
        whole += along;
    }
    if whole > 0.0 { area / whole } else { mean(points) }
}

/// Difference of two means over the one that is more than chance, by Student's
/// test with pooled spread; none where nothing can be said.
fn difference(before: &[(f64, f64)], after: &[(f64, f64)]) -> Option<f64> {
    let sample = |points: &[(f64, f64)]| {
        let sample = Sample::new(points.iter().map(|point| point.1).collect()).ok()?;
        Some((sample.mean(), sample.standard_deviation()?, points.len() as f64))
    };
    let ((mean_a, deviation_a, a), (mean_b, deviation_b, b)) = (sample(before)?, sample(after)?);
    let freedom = a + b - 2.0;
    let pooled = ((a - 1.0) * deviation_a.powi(2) + (b - 1.0) * deviation_b.powi(2)) / freedom;
    let wanted = student_quantile(freedom, 0.5 + 0.5 * CUT_PROBABILITY)?;
    let error = (pooled * (1.0 / a + 1.0 / b)).sqrt();
    Some((mean_a - mean_b).abs() / (wanted * error).max(1e-12))
}
