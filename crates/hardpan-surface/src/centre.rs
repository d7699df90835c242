//! The centre line's elevation, smoothed for the run: an aeroplane climbs the
//! grade, not the bumps.

use crate::error::Error;
use crate::profile::{Stretch, outside};
use crate::slope::elevations_at;
use hardpan_model::{Strip, Survey, SurveyLine};
use hardpan_quantity::{Length, Quantity, Ratio, metres};

/// Length of the moving average, metres.
pub const CENTRE_WINDOW_M: f64 = 30.0;
/// Distance between the points averaged.
const STEP_M: f64 = 1.0;
/// Distance between the points given.
const EVERY: usize = 5;
/// Longest stretch without a level that is bridged.
const GAP_M: f64 = 60.0;
/// A line within this distance is the centre line.
const AT_CENTRE_M: f64 = 1.0;
/// A single line within this distance stands for the centre line.
const NEAR_CENTRE_M: f64 = 5.0;

/// Stations and elevations of the centre line by rising station, every 5 m,
/// averaged over 30 m; the average narrows towards the ends so that a straight
/// grade stays itself.
///
/// The centre line is the survey line within 1 m of it, else the line between
/// the nearest lines on both sides, else the nearest line within 5 m. Up to
/// 60 m without a level are bridged (judgement).
///
/// # Errors
/// [`Error`] without a survey, without a line near the centre, for points out
/// of range or order, or when more than 60 m of the strip have no level.
pub fn centre_profile(strip: &Strip) -> Result<Vec<(Length, Length)>, Error> {
    let survey = strip.survey.as_ref().ok_or(Error::NoSurvey)?;
    let lines = centre_lines(survey)?;
    let (first, last) = extent(&lines)?;
    if let Some(length) = &strip.length {
        let whole = Stretch { from: metres(0.0), to: length.value };
        refuse_gaps(&[Stretch { from: metres(first), to: metres(last) }], whole)?;
    }
    let count = ((last - first) / STEP_M + 1e-9).floor().clamp(0.0, 1e6) as usize;
    let stations: Vec<f64> = (0..=count).map(|index| first + index as f64 * STEP_M).collect();
    let levels = levels(&lines, &stations)?;
    Ok(smoothed(&stations, &levels))
}

/// The survey lines that [`centre_profile`] rests on, each with its share.
///
/// # Errors
/// As [`centre_profile`], without a survey or a line near the centre.
pub fn centre_lines_of(strip: &Strip) -> Result<Vec<(Ratio, &SurveyLine)>, Error> {
    let survey = strip.survey.as_ref().ok_or(Error::NoSurvey)?;
    let lines = centre_lines(survey)?.into_iter();
    Ok(lines.map(|(share, line)| (Ratio::from_si(share), line)).collect())
}

/// The lines that the centre line is interpolated between, with their shares.
fn centre_lines(survey: &Survey) -> Result<Vec<(f64, &SurveyLine)>, Error> {
    let size = |line: &&SurveyLine| line.offset.si().abs();
    let nearest = |lines: &mut dyn Iterator<Item = &'_ SurveyLine>| {
        lines.min_by(|a, b| size(a).total_cmp(&size(b))).map(|line| line.offset.si())
    };
    let find = |offset: f64| survey.lines.iter().find(|line| line.offset.si() == offset);
    let closest = nearest(&mut survey.lines.iter()).ok_or(Error::NoLine)?;
    let single = |offset: f64| find(offset).map(|line| vec![(1.0, line)]).ok_or(Error::NoLine);
    if closest.abs() <= AT_CENTRE_M {
        return single(closest);
    }
    let left = nearest(&mut survey.lines.iter().filter(|line| line.offset.si() < 0.0));
    let right = nearest(&mut survey.lines.iter().filter(|line| line.offset.si() > 0.0));
    if let Some((left, right)) = left.zip(right)
        && let Some((a, b)) = find(left).zip(find(right))
    {
        let share = -left / (right - left);
        return Ok(vec![(1.0 - share, a), (share, b)]);
    }
    if closest.abs() <= NEAR_CENTRE_M {
        return single(closest);
    }
    Err(Error::NoCentreLine { accepted_m: NEAR_CENTRE_M, nearest_m: closest })
}

fn extent(lines: &[(f64, &SurveyLine)]) -> Result<(f64, f64), Error> {
    let (mut first, mut last) = (f64::NEG_INFINITY, f64::INFINITY);
    for (_, line) in lines {
        let points = crate::profile::checked_points(line)?;
        let (Some(low), Some(high), true) = (points.first(), points.last(), points.len() > 1)
        else {
            return Err(Error::TooFewPoints { offset_m: line.offset.si(), points: points.len() });
        };
        first = first.max(low.0);
        last = last.min(high.0);
    }
    if last > first { Ok((first, last)) } else { Err(Error::NoLine) }
}

fn refuse_gaps(covered: &[Stretch], whole: Stretch) -> Result<(), Error> {
    match outside(covered.iter().copied(), whole, GAP_M).first() {
        None => Ok(()),
        Some(gap) => Err(Error::Unsurveyed {
            method: "the centre line for the run",
            from_m: gap.from.si(),
            to_m: gap.to.si(),
            accepted_m: GAP_M,
        }),
    }
}

fn levels(lines: &[(f64, &SurveyLine)], stations: &[f64]) -> Result<Vec<f64>, Error> {
    let mut sums = vec![0.0; stations.len()];
    for (share, line) in lines {
        for (index, level) in elevations_at(line, stations, metres(GAP_M))?.into_iter().enumerate()
        {
            match (level, sums.get_mut(index)) {
                (Some(level), Some(sum)) => *sum += share * level,
                _ => {
                    let station = stations.get(index).copied().unwrap_or_default();
                    return Err(Error::Unsurveyed {
                        method: "the centre line for the run",
                        from_m: station - STEP_M,
                        to_m: station + GAP_M,
                        accepted_m: GAP_M,
                    });
                }
            }
        }
    }
    Ok(sums)
}

fn smoothed(stations: &[f64], levels: &[f64]) -> Vec<(Length, Length)> {
    let widest = (0.5 * CENTRE_WINDOW_M / STEP_M) as usize;
    let last = levels.len().saturating_sub(1);
    let mean = |at: usize| {
        let half = widest.min(at).min(last - at);
        let window = levels.get(at - half..=at + half)?;
        Some(window.iter().sum::<f64>() / window.len() as f64)
    };
    let mut chosen: Vec<usize> = (0..=last).step_by(EVERY).collect();
    if chosen.last() != Some(&last) {
        chosen.push(last);
    }
    chosen
        .into_iter()
        .filter_map(|at| Some((metres(*stations.get(at)?), metres(mean(at)?))))
        .collect()
}
