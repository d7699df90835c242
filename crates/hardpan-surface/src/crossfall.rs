//! Crossfall by station, from the survey lines beside each other.

pub(crate) mod graded;

use crate::error::{Error, setting};
use crate::slope::elevations_at;
use hardpan_model::Survey;
use hardpan_quantity::{Length, Quantity, Ratio, metres, ratio};

/// Form of the cross-section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CrossSection {
    /// Falls to both sides.
    Crowned,
    /// Falls to one side.
    OneSided,
    /// Rises to both sides: water stays in the middle.
    Dished,
    /// Level within 0.1 % on both sides.
    Level,
}

/// Crossfall at one station. A positive fall drains away from the centre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossfall {
    /// Station.
    pub station: Length,
    /// Fall from the centre to the outermost line on the left.
    pub left: Option<Ratio>,
    /// Fall from the centre to the outermost line on the right.
    pub right: Option<Ratio>,
    /// Slope from the outermost line on the left to that on the right, positive
    /// when the right is lower.
    pub across: Ratio,
    /// Steepest slope between two lines beside each other, without sign.
    pub steepest: Ratio,
    /// Form; none without a line within 1 m of the centre and one on each side.
    pub form: Option<CrossSection>,
}

const CENTRE_REACH_M: f64 = 1.0;
const LEVEL_SLOPE: f64 = 0.001;

/// Crossfall every `step` along the strip, wherever at least two lines have a
/// level there; levels are interpolated along each line over `longest_gap` at most.
///
/// # Errors
/// [`Error`] without a line, for points out of range or order, or for a step
/// outside 0.1 m to 1 km.
pub fn crossfalls(
    survey: &Survey,
    step: Length,
    longest_gap: Length,
) -> Result<Vec<Crossfall>, Error> {
    let step = setting("step of the crossfall", step.si(), 0.1..=1_000.0, "m")?;
    if survey.lines.is_empty() {
        return Err(Error::NoLine);
    }
    let stations = stations(survey, step);
    let mut lines = Vec::new();
    for line in &survey.lines {
        lines.push((line.offset.si(), elevations_at(line, &stations, longest_gap)?));
    }
    lines.sort_by(|a, b| a.0.total_cmp(&b.0));
    let at = |(index, station): (usize, &f64)| {
        let section: Vec<(f64, f64)> = lines
            .iter()
            .filter_map(|(offset, levels)| Some((*offset, (*levels.get(index)?)?)))
            .collect();
        crossfall(*station, &section)
    };
    Ok(stations.iter().enumerate().filter_map(at).collect())
}

fn stations(survey: &Survey, step: f64) -> Vec<f64> {
    let ends = survey.lines.iter().filter_map(|line| {
        Some((line.points.first()?.station.si(), line.points.last()?.station.si()))
    });
    let (first, last) = ends
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (a, b)| (low.min(a), high.max(b)));
    if !(first.is_finite() && last.is_finite()) {
        return Vec::new();
    }
    let from = (first / step - 1e-9).ceil();
    let count = (last / step + 1e-9).floor() - from;
    (0..=count.clamp(-1.0, 1e7) as i64).map(|index| (from + index as f64) * step).collect()
}

/// Crossfall of levels by strictly rising offset.
fn crossfall(station: f64, section: &[(f64, f64)]) -> Option<Crossfall> {
    let slope = |a: &(f64, f64), b: &(f64, f64)| (a.1 - b.1) / (b.0 - a.0);
    let (first, last) = (section.first()?, section.last()?);
    if last.0 <= first.0 {
        return None;
    }
    let steepest = section
        .windows(2)
        .filter_map(|pair| Some((pair.first()?, pair.get(1)?)))
        .filter(|(a, b)| b.0 > a.0)
        .fold(0.0, |most: f64, (a, b)| most.max(slope(a, b).abs()));
    let centre = section.iter().min_by(|a, b| a.0.abs().total_cmp(&b.0.abs()))?;
    let centred = centre.0.abs() <= CENTRE_REACH_M;
    let left = (centred && first.0 < centre.0).then(|| -slope(first, centre));
    let right = (centred && last.0 > centre.0).then(|| slope(centre, last));
    Some(Crossfall {
        station: metres(station),
        left: left.map(ratio),
        right: right.map(ratio),
        across: ratio(slope(first, last)),
        steepest: ratio(steepest),
        form: left.zip(right).map(|(left, right)| form(left, right)),
    })
}

fn form(left: f64, right: f64) -> CrossSection {
    let falls = |slope: f64| slope > LEVEL_SLOPE;
    let rises = |slope: f64| slope < -LEVEL_SLOPE;
    match (falls(left), falls(right)) {
        (true, true) => CrossSection::Crowned,
        _ if rises(left) && rises(right) => CrossSection::Dished,
        _ if !falls(left) && !falls(right) && !rises(left) && !rises(right) => CrossSection::Level,
        (true, false) if !rises(right) => CrossSection::Crowned,
        (false, true) if !rises(left) => CrossSection::Crowned,
        _ => CrossSection::OneSided,
    }
}
