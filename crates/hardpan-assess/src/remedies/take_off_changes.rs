//! Changes of how a take-off is flown: its decision speed and its thrust schedule.

use super::changes::{Change, Kind};
use super::cost::Cost;
use crate::assess::Core;
use crate::phrase::Phrase;
use hardpan_model::{Flight, ThrustRow};
use hardpan_quantity::{Amount, Quantity, Speed, knots, ratio};
use hardpan_run::DecisionRange;

/// Shares of the ground speeds planned at which thrust is set sooner.
const SOONER: [f64; 3] = [0.75, 0.5, 0.25];

/// Every other decision speed and every thrust set sooner that may help.
pub(super) fn take_off_changes(flight: &Flight, core: &Core) -> Vec<Change> {
    let mut all = decision_speeds(flight, core);
    all.extend(thrusts(flight));
    all
}

/// The decision speed chosen afresh where one is stated, and both ends of what
/// control and the declared distances allow: the lower spares brakes, the higher
/// helps going on.
fn decision_speeds(flight: &Flight, core: &Core) -> Vec<Change> {
    let change = |speed: Option<Speed>, action: Phrase| Change {
        kind: Kind::DecisionSpeed(speed),
        action,
        cost: Some(Cost::default()),
    };
    let mut all = Vec::new();
    let stated = flight.take_off.as_ref().and_then(|plan| plan.decision_speed.as_ref());
    if stated.is_some() {
        all.push(change(None, "choose the decision speed afresh".into()));
    }
    let run = core.measured.take_off.as_ref().and_then(|run| run.as_ref().ok());
    let Some(decision) = run.and_then(|run| run.decision.as_ref()) else { return all };
    let DecisionRange::Between(low, high) = decision.range else { return all };
    let whole = |speed: Speed, round: fn(f64) -> f64| {
        let knot = knots(1.0);
        round((speed / knot).si()) * knot
    };
    for speed in [whole(low, f64::ceil), whole(high, f64::floor)] {
        let is_other = (speed - decision.speed).si().abs() >= knots(1.0).si();
        if is_other && (low..=high).contains(&speed) {
            all.push(change(Some(speed), Phrase::new("decide at {}", [speed.into()])));
        }
    }
    all
}

/// Full thrust before brake release, and the planned schedule at lower speeds.
fn thrusts(flight: &Flight) -> Vec<Change> {
    let Some(plan) = flight.take_off.as_ref().filter(|plan| !plan.thrust.is_empty()) else {
        return Vec::new();
    };
    let change = |rows, action: Phrase| Change {
        kind: Kind::Thrust(rows),
        action,
        cost: Some(Cost::default()),
    };
    let mut all = vec![change(Vec::new(), "set full thrust before brake release".into())];
    let Some(last) = plan.thrust.last().filter(|last| last.ground_speed.value > knots(0.0)) else {
        return all;
    };
    for share in SOONER {
        let sooner = |row: &ThrustRow| ThrustRow {
            ground_speed: row.ground_speed.clone().map(|speed| speed * share),
            share: row.share.clone(),
        };
        let rows: Vec<ThrustRow> = plan.thrust.iter().map(sooner).collect();
        let amounts: [Amount; 2] = [ratio(share).into(), (last.ground_speed.value * share).into()];
        let words = "set each thrust at {} of the ground speed planned, full thrust at {}";
        all.push(change(rows, Phrase::new(words, amounts)));
    }
    all
}
