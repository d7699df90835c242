//! Levels of the survey as inputs of a basis, each at its line of the file.

use crate::context::Context;
use crate::draft::given;
use hardpan_model::{BasisInput, InputFrom, SurveyPoint};
use hardpan_quantity::{Amount, Length};
use std::cmp::Ordering;

/// The level nearest to a place, on the line nearest to it.
pub(crate) fn level(
    context: &Context<'_>,
    name: &str,
    (station, offset): (Length, Length),
) -> BasisInput {
    let point = context.flight.strip.survey.as_ref().and_then(|survey| {
        let away = |from: Length, to: Length| (from - to).abs();
        let by = |a: Length, b: Length| a.partial_cmp(&b).unwrap_or(Ordering::Equal);
        let lines = survey.lines.iter();
        let line = lines.min_by(|a, b| by(away(a.offset, offset), away(b.offset, offset)))?;
        let nearest = |a: &&SurveyPoint, b: &&SurveyPoint| {
            by(away(a.station, station), away(b.station, station))
        };
        line.points.iter().min_by(nearest)
    });
    let amount = point.map_or(station, |point| point.elevation);
    let origin = context.survey_origin(point.map_or(0, |point| point.line));
    BasisInput::new(name, amount, InputFrom::File { origin, source: None })
}

/// The levels at both ends of a stretch of a line.
pub(crate) fn ends(
    context: &Context<'_>,
    (from, to): (Length, Length),
    offset: Length,
) -> [BasisInput; 2] {
    let name = |station: Length| format!("level at {}", Amount::from(station).told());
    [from, to].map(|station| level(context, &name(station), (station, offset)))
}

/// How many levels there are, from the first line of the survey's file on, and the
/// noise that is stated of one.
pub(crate) fn survey(context: &Context<'_>) -> Vec<BasisInput> {
    let Some(survey) = &context.flight.strip.survey else { return Vec::new() };
    let count = survey.lines.iter().map(|line| line.points.len()).sum::<usize>();
    let lines = survey.lines.iter().flat_map(|line| &line.points).map(|point| point.line);
    let origin = context.survey_origin(lines.min().unwrap_or(0).max(1));
    let from = InputFrom::File { origin, source: None };
    let levels = BasisInput::new("levels of the survey", Amount::count(count as f64), from);
    let noise = survey.level_noise.as_ref();
    std::iter::once(levels).chain(noise.map(|noise| given("noise of one level", noise))).collect()
}
