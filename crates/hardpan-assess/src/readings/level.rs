//! The level of the centre line, down to the levels of the survey.

use super::{Reading, told};
use crate::assessment::Sketch;
use crate::draft::{derived, plain_step};
use hardpan_model::{BasisInput, FigureBasis, Flight, InputFrom, Origin, Step, Survey, SurveyLine};
use hardpan_quantity::{Amount, Length, Quantity};
use hardpan_surface::{CENTRE_WINDOW_M, centre_lines_of};

/// Most levels of a survey that are named one by one, the nearest ones.
const MOST_NAMED: usize = 40;

pub(super) fn reading(flight: &Flight, sketch: &Sketch, station: Length) -> Reading {
    let figure = figure(flight, sketch, station);
    let figures = figure.into_iter().collect();
    Reading::new("level", "level of the centre line", figures, "no survey line tells it there")
}

fn figure(flight: &Flight, sketch: &Sketch, station: Length) -> Option<FigureBasis> {
    let survey = flight.strip.survey.as_ref()?;
    let [before, after] = sketch.profile.windows(2).find_map(|pair| {
        let [before, after] = pair else { return None };
        (before.0 <= station && station <= after.0).then_some([*before, *after])
    })?;
    let width = (after.0 - before.0).si();
    let share = if width > 0.0 { (station - before.0).si() / width } else { 0.0 };
    let level = Length::from_si(before.1.si() + share * (after.1 - before.1).si());
    let name = format!("level of the centre line at {}", told(station));
    let mut steps = vec![mean(flight, survey, before)?, mean(flight, survey, after)?];
    let at = |name: &str, amount: Length| {
        let how = "points of the profile, every 5 m, about the station".to_owned();
        BasisInput::new(name, amount, InputFrom::Computed(how))
    };
    let inputs = vec![
        of_step("level before", before.1, 0).under("a"),
        of_step("level after", after.1, 1).under("b"),
        at("station before", before.0).under("A"),
        at("station after", after.0).under("B"),
        at("station", station).under("s"),
    ];
    let rule = "a + (s − A) × (b − a) / (B − A)";
    steps.push(plain_step(&name, rule, derived("straight between two points"), inputs, level));
    Some(FigureBasis::new(name, level, steps))
}

fn of_step(name: &str, amount: impl Into<Amount>, at: usize) -> BasisInput {
    BasisInput::new(name, amount, InputFrom::Step(at))
}

/// A point of the profile from the levels of the survey about it.
fn mean(flight: &Flight, survey: &Survey, (station, level): (Length, Length)) -> Option<Step> {
    let lines = centre_lines_of(&flight.strip).ok()?;
    let half = 0.5 * CENTRE_WINDOW_M;
    let mut near: Vec<(f64, BasisInput)> = Vec::new();
    for (share, line) in &lines {
        let of_line = about(line, station, half).map(|point| {
            let off = (point.station - station).si().abs();
            let offset = Amount::from(line.offset).told();
            let name = match share.si() < 1.0 {
                true => format!("level at {}, offset {offset}", told(point.station)),
                false => format!("level at {}", told(point.station)),
            };
            let origin = Origin {
                file: survey.file.clone(),
                line: point.line,
                column: 1,
                key: "elevation".into(),
            };
            let from = InputFrom::File { origin, source: None };
            (off, BasisInput::new(&name, point.elevation, from))
        });
        near.extend(of_line);
    }
    if near.len() > MOST_NAMED {
        near.sort_by(|a, b| a.0.total_cmp(&b.0));
        near.truncate(MOST_NAMED);
    }
    Some(plain_step(
        &format!("level of the profile at {}", told(station)),
        "mean of the levels every 1 m over 30 m about it, fewer near an end of the survey, each \
         straight between the points surveyed, and between two lines by their distances from the \
         centre line; the nearest points are named",
        derived("an aeroplane climbs the grade, not the bumps"),
        near.into_iter().map(|(_, input)| input).collect(),
        level,
    ))
}

/// Points of a line that the mean about a station rests on: those within, and the next on
/// either side.
fn about(
    line: &SurveyLine,
    station: Length,
    half: f64,
) -> impl Iterator<Item = &hardpan_model::SurveyPoint> {
    let points = &line.points;
    let first = points.partition_point(|point| point.station.si() < station.si() - half);
    let last = points.partition_point(|point| point.station.si() <= station.si() + half);
    points.get(first.saturating_sub(1)..(last + 1).min(points.len())).unwrap_or_default().iter()
}
