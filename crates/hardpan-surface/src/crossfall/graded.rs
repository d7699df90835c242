//! Slopes across the ground beside the running surface, which is graded so that
//! an aeroplane that leaves the runway comes to less harm, and so that water
//! runs off.

use super::stations;
use crate::error::{Error, setting};
use crate::slope::elevations_at;
use hardpan_model::{Survey, SurveyLine};
use hardpan_quantity::{Length, Quantity, Ratio, metres, ratio};

/// A line this close to the edge of the running surface stands for it.
const AT_EDGE_M: f64 = 1.0;
/// Out to here from the edge a slope belongs to its first 3 m.
const FIRST_M: f64 = 4.0;

/// A slope between two lines side by side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlopeAcross {
    /// Station.
    pub station: Length,
    /// Offset of the inner and of the outer line.
    pub offsets: (Length, Length),
    /// Fall away from the runway; negative where the ground rises.
    pub fall: Ratio,
}

/// The ground beyond one edge of the running surface.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct GradedSide {
    /// Distance from the centre line to the outermost line.
    pub outermost: Length,
    /// Slopes of the first 3 m beyond the edge, by station; empty without a
    /// line at the edge and one that far out.
    pub first: Vec<SlopeAcross>,
    /// Slopes further out, by station.
    pub beyond: Vec<SlopeAcross>,
}

/// The ground on the left and on the right beyond half a `width` from the
/// centre line, as far as `reach`, every `step` along the strip; none on a side
/// without a line there.
///
/// # Errors
/// [`Error`] for a width or reach outside 1 m to 1 km, for points out of range
/// or order, or for a step outside 0.1 m to 1 km.
pub fn graded_sides(
    survey: &Survey,
    width: Length,
    reach: Length,
    (step, longest_gap): (Length, Length),
) -> Result<[Option<GradedSide>; 2], Error> {
    let edge = 0.5 * setting("width of the strip", width.si(), 1.0..=1_000.0, "m")?;
    let reach = setting("reach of the graded ground", reach.si(), 1.0..=1_000.0, "m")?;
    let step = setting("step of the slopes across", step.si(), 0.1..=1_000.0, "m")?;
    let side = |sign: f64| side(survey, (edge, reach), sign, (step, longest_gap));
    Ok([side(-1.0)?, side(1.0)?])
}

fn side(
    survey: &Survey,
    (edge, reach): (f64, f64),
    sign: f64,
    (step, longest_gap): (f64, Length),
) -> Result<Option<GradedSide>, Error> {
    let out = |line: &SurveyLine| sign * line.offset.si();
    let mut lines: Vec<&SurveyLine> = survey
        .lines
        .iter()
        .filter(|line| (edge - AT_EDGE_M..=reach + AT_EDGE_M).contains(&out(line)))
        .collect();
    lines.sort_by(|a, b| out(a).total_cmp(&out(b)));
    let Some(outermost) = lines.last().map(|line| out(line)).filter(|out| *out > edge + AT_EDGE_M)
    else {
        return Ok(None);
    };
    let stations = stations(survey, step);
    let mut found = GradedSide { outermost: metres(outermost), ..GradedSide::default() };
    for pair in lines.windows(2) {
        let [inner, outer] = pair else { continue };
        let run = out(outer) - out(inner);
        if run <= 0.0 {
            continue;
        }
        let levels = elevations_at(inner, &stations, longest_gap)?;
        let beside = elevations_at(outer, &stations, longest_gap)?;
        let slopes =
            stations.iter().zip(levels.into_iter().zip(beside)).filter_map(|(at, pair)| {
                Some(SlopeAcross {
                    station: metres(*at),
                    offsets: (inner.offset, outer.offset),
                    fall: ratio((pair.0? - pair.1?) / run),
                })
            });
        let at_edge = out(inner) <= edge + AT_EDGE_M && out(outer) <= edge + FIRST_M;
        let list = if at_edge { &mut found.first } else { &mut found.beyond };
        list.extend(slopes);
    }
    Ok(Some(found))
}
