//! What on the day would turn the answer.

use super::document::VerdictJson;
use super::quantity::Quantity;
use hardpan_assess::{StateChange, Turn, Turning, TurningPoint};
use hardpan_quantity::UnitSystem;
use schemars::JsonSchema;
use serde::Serialize;

/// What on the day would turn the answer, all else as planned.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Turning")]
pub(super) struct TurningJson {
    /// Figures that turn it, or hold as far as they were moved.
    points: Vec<PointJson>,
    /// The answer in the other states of the surface.
    states: Vec<StateJson>,
}

/// A figure of the day, and how far it may move before the answer turns.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "TurningPoint")]
struct PointJson {
    /// What is moved.
    what: String,
    /// Its value in the plan; a headwind is positive.
    now: Quantity,
    /// The last value, in whole steps, at which the answer holds.
    holds_to: Quantity,
    /// The next value, at which it no longer does.
    beyond: Quantity,
    /// What turns it there; null where the answer holds as far as was tried.
    turn: Option<TurnJson>,
    /// The same in one sentence.
    sentence: String,
}

/// The check that turns the answer.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Turn")]
struct TurnJson {
    /// Verdict of the whole on the far side.
    verdict: VerdictJson,
    /// Code of the finding that gives it.
    code: String,
    /// What it checks.
    title: String,
}

/// The answer in another state of the surface.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "StateChange")]
struct StateJson {
    /// The state.
    state: String,
    /// Verdict of the whole in it.
    verdict: VerdictJson,
    /// Code of the finding that governs there.
    code: Option<String>,
}

impl TurningJson {
    pub(super) fn new(turning: &Turning) -> Self {
        Self {
            points: turning.points.iter().map(PointJson::new).collect(),
            states: turning.states.iter().map(StateJson::new).collect(),
        }
    }
}

impl PointJson {
    fn new(point: &TurningPoint) -> Self {
        Self {
            what: point.what.to_owned(),
            now: Quantity::new(point.now),
            holds_to: Quantity::new(point.holds_to),
            beyond: Quantity::new(point.beyond),
            turn: point.turn.as_ref().map(TurnJson::new),
            sentence: point.sentence.show(UnitSystem::Metric),
        }
    }
}

impl TurnJson {
    fn new(turn: &Turn) -> Self {
        let Turn { verdict, code, title } = turn;
        Self { verdict: (*verdict).into(), code: (*code).to_owned(), title: title.clone() }
    }
}

impl StateJson {
    fn new(change: &StateChange) -> Self {
        Self {
            state: change.state.word().to_owned(),
            verdict: change.verdict.into(),
            code: change.governed_by.as_ref().map(|(code, _)| (*code).to_owned()),
        }
    }
}
