//! Strength of the ground available and needed under the main wheels, down to the
//! soundings and tests.

use super::{Reading, told};
use crate::assess::opening::layer;
use crate::context::Context;
use crate::draft::derived;
use crate::ground::strength_finding::{load_steps, needed_step, strength_steps};
use crate::ground::{LegKind, Worst};
use crate::measured::Measured;
use crate::rides::Asked;
use hardpan_ground::{PointJudgement, judge_point};
use hardpan_model::{BasisInput, FigureBasis, Flight, InputFrom, Lane, Step};
use hardpan_quantity::{Length, Quantity};

const WORDS: [(&str, &str); 2] =
    [("available", "bearing ratio available"), ("needed", "bearing ratio needed")];

pub(super) fn readings(flight: &Flight, measured: &Measured, station: Length) -> Vec<Reading> {
    let opened = opened(flight, measured, station);
    let none = "not known: no sounding or test reaches there, or load or pressure is missing";
    let [available, needed] = opened.map_or([None, None], |both| both);
    [available, needed]
        .into_iter()
        .zip(WORDS)
        .map(|(figure, (id, name))| Reading::new(id, name, figure.into_iter().collect(), none))
        .collect()
}

/// Available and needed in the weaker main lane, at the point nearest to the station.
fn opened(
    flight: &Flight,
    measured: &Measured,
    station: Length,
) -> Option<[Option<FigureBasis>; 2]> {
    let (ground, (worst, table), loads) = (
        measured.ground.as_ref().ok()?,
        measured.main_carried.as_ref().ok()?,
        measured.loads.as_ref().ok()?.of(LegKind::Main),
    );
    let off = |at: &Length| (*at - station).si().abs();
    let nearest = ground.stations().into_iter().enumerate();
    let (index, at) = nearest.min_by(|a, b| off(&a.1).total_cmp(&off(&b.1)))?;
    let load = loads.get(index).copied()?;
    let judged = [Lane::Left, Lane::Right].into_iter().filter_map(|lane| {
        let point = ground.point(lane, index)?;
        Some((lane, point, judge_point(point, table, load)))
    });
    let badness = |judgement: &PointJudgement| match judgement {
        PointJudgement::Known(demand) => demand.utilisation.si(),
        PointJudgement::Unknown(_) => f64::INFINITY,
    };
    let (lane, point, judgement) =
        judged.reduce(|a, b| if badness(&b.2) > badness(&a.2) { b } else { a })?;
    let (demand, credited) = match &judgement {
        PointJudgement::Known(demand) => (demand, true),
        PointJudgement::Unknown(unknown) => (unknown.so_far.as_ref()?, false),
    };
    let context = Context::tried(flight, measured, Asked::Whole);
    let here = Worst { lane, index, load, judgement, ..worst.clone() };
    let place = format!("{}, {} lane, by the point at {}", told(station), lane.word(), told(at));
    let needed = [
        load_steps(&context, LegKind::Main, &here),
        layer(*demand).to_vec(),
        vec![needed_step(&context, LegKind::Main, &here, table, demand)],
    ];
    let needed = last_of(&format!("bearing ratio needed at {place}"), needed.concat());
    let available = credited.then(|| {
        let steps = strength_steps(&context, point, demand);
        last_of(&format!("bearing ratio available at {place}"), steps)
    });
    Some([available.flatten(), needed])
}

/// A figure that the last step gives, under a name of its own.
fn last_of(name: &str, mut steps: Vec<Step>) -> Option<FigureBasis> {
    let last = steps.last()?;
    let (computes, result, at) = (last.computes.clone(), last.result, steps.len() - 1);
    steps.push(Step {
        computes: name.to_owned(),
        formula: None,
        expression: "as above, in the weaker of the main lanes".to_owned(),
        source: derived("point of the ground nearest to the station"),
        inputs: vec![BasisInput::new(&computes, result, InputFrom::Step(at))],
        result,
    });
    Some(FigureBasis::new(name, result, steps))
}
