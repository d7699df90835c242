//! Levels of the survey as inputs of a basis, each at its line of the file.

use crate::context::Context;
use crate::draft::given;
use hardpan_model::{BasisInput, InputFrom, SurveyPoint};
use hardpan_quantity::{Amount, Length, Quantity};
use hardpan_surface::Event;
use std::cmp::Ordering;

/// Levels and stations that differ by less are the same, m.
const SAME_M: f64 = 1e-9;

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

/// The line that gives a deviation from an edge.
pub(crate) const UNDER_EDGE: &str = "|z − z1 − (z2 − z1) × (x − x1) / (x2 − x1)|";

/// Levels and stations of both ends of an edge and of the worst point under it, under
/// the symbols of [`UNDER_EDGE`]; none where the levels of the survey do not give the
/// event by themselves, as where the design grade was taken off them.
pub(crate) fn under_edge(context: &Context<'_>, event: &Event) -> Option<Vec<BasisInput>> {
    let places = [event.ends.0, event.ends.1, event.worst];
    let names = ["the near end", "the far end", "the worst point"];
    let symbols = [("z1", "x1"), ("z2", "x2"), ("z", "x")];
    let mut found = Vec::new();
    let mut inputs = Vec::new();
    for ((place, name), (z, x)) in places.into_iter().zip(names).zip(symbols) {
        let (level, from) = level_at(context, place, event.offset)?;
        found.push((level.si(), place.si()));
        inputs.push(BasisInput::new(&format!("level at {name}"), level, from.clone()).under(z));
        inputs.push(BasisInput::new(&format!("station of {name}"), place, from).under(x));
    }
    let [(z1, x1), (z2, x2), (z, x)] = found.as_slice() else { return None };
    let off = (z - z1 - (z2 - z1) * (x - x1) / (x2 - x1)).abs();
    ((off - event.height.si()).abs() <= SAME_M).then_some(inputs)
}

/// The level of the survey at a station, linear between its points.
fn level_at(context: &Context<'_>, station: Length, offset: Length) -> Option<(Length, InputFrom)> {
    let survey = context.flight.strip.survey.as_ref()?;
    let line = survey.lines.iter().find(|line| (line.offset - offset).abs().si() < SAME_M)?;
    let away = |point: &&SurveyPoint| (point.station - station).abs().si();
    if let Some(point) = line.points.iter().find(|point| away(point) < SAME_M) {
        let origin = context.survey_origin(point.line);
        return Some((point.elevation, InputFrom::File { origin, source: None }));
    }
    let after = line.points.iter().position(|point| point.station > station)?;
    let (before, after) = (line.points.get(after.checked_sub(1)?)?, line.points.get(after)?);
    let share = (station - before.station).si() / (after.station - before.station).si();
    let level = before.elevation + share * (after.elevation - before.elevation);
    Some((level, InputFrom::Beside("linear between the levels of the survey beside it")))
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
