//! One place of the sheet: the largest mass, judged afresh by every rule.

use super::{FlapsTried, MassCell, SheetMovement};
use crate::answer::verdict;
use crate::assess::judge;
use crate::assessment::MassAnswer;
use crate::context::Context;
use crate::masses::mass_search::Grid;
use crate::masses::{landing_mass, lightest, take_off_mass};
use crate::measure::{Standing, measure};
use crate::measured::Measured;
use hardpan_model::{Flight, Given, Origin, Verdict, Weight};
use hardpan_quantity::{Mass, Speed};

/// Verdict of the whole at a mass, and the first check that gives it.
type Judged = (Verdict, Option<(&'static str, String)>);

/// The largest mass of the one movement of a flight, with the flap planned or
/// the one that the aeroplane file allows and that carries most.
pub(super) fn best_cell(
    flight: &Flight,
    standing: &Standing,
    movement: SheetMovement,
    flaps: FlapsTried,
) -> MassCell {
    let planned = || complete(cell(flight, standing, movement), flight, standing, movement);
    if flaps == FlapsTried::AsPlanned {
        return planned();
    }
    let allowed = flight.aeroplane.flaps.iter().filter(|flap| {
        let own = match movement {
            SheetMovement::TakeOff => flap.take_off.as_ref(),
            SheetMovement::Landing => flap.landing.as_ref(),
        };
        own.is_some_and(|allowed| allowed.value)
    });
    let mut best: Option<(MassCell, Flight)> = None;
    for flap in allowed {
        let with = with_flap(flight, movement, &flap.name);
        let found = cell(&with, standing, movement);
        let is_more = best.as_ref().is_none_or(|(kept, _)| found.mass > kept.mass);
        if found.mass.is_some() && is_more {
            best = Some((found, with));
        }
    }
    match best {
        Some((found, with)) => complete(found, &with, standing, movement),
        None => planned(),
    }
}

fn with_flap(flight: &Flight, movement: SheetMovement, name: &Given<String>) -> Flight {
    let mut with = flight.clone();
    match movement {
        SheetMovement::TakeOff => {
            with.take_off.iter_mut().for_each(|plan| plan.flap = Some(name.clone()));
        }
        SheetMovement::Landing => {
            with.landing.iter_mut().for_each(|plan| plan.flap = Some(name.clone()));
        }
    }
    with
}

/// A cell with its flap and decision speed.
fn complete(
    found: MassCell,
    flight: &Flight,
    standing: &Standing,
    movement: SheetMovement,
) -> MassCell {
    let flap = match movement {
        SheetMovement::TakeOff => flight.take_off.as_ref().and_then(|plan| plan.flap.as_ref()),
        SheetMovement::Landing => flight.landing.as_ref().and_then(|plan| plan.flap.as_ref()),
    };
    let flap = flap.map(|name| name.value.clone());
    let decision = found.mass.and_then(|mass| decision(&at(flight, movement, mass), standing));
    MassCell { flap, decision, ..found }
}

fn decision(flight: &Flight, standing: &Standing) -> Option<Speed> {
    let mass = flight.take_off.as_ref()?.mass.as_ref()?.value;
    let runs = measure(flight, standing, &[]).take_off_runs?;
    runs.at(mass, |run| run.decision.map(|decision| decision.speed)).ok().flatten()
}

/// Largest mass, verdict and what limits it; the flap and decision speed are
/// still to come.
fn found(mass: Option<Mass>, verdict: Verdict, by: Option<(&'static str, String)>) -> MassCell {
    MassCell { mass, verdict, by, flap: None, decision: None }
}

fn cell(flight: &Flight, standing: &Standing, movement: SheetMovement) -> MassCell {
    let maximum = match movement {
        SheetMovement::TakeOff => flight.aeroplane.mass.maximum_take_off.as_ref(),
        SheetMovement::Landing => flight.aeroplane.mass.maximum_landing.as_ref(),
    };
    let Some(maximum) = maximum.map(|given| given.value) else {
        let by = Some(("A10", "structural limit not stated".to_owned()));
        return found(None, Verdict::Unproven, by);
    };
    let lightest = lightest(flight, maximum).min(maximum);
    let first = at(flight, movement, lightest);
    let answer = searched(&first, &measure(&first, standing, &[]), movement);
    let set_by = answer.as_ref().and_then(MassAnswer::set_by);
    let by_limit = set_by.map(|limit| (limit.code, limit.title.clone()));
    let largest = answer.as_ref().and_then(|answer| answer.largest);
    let judged = |mass: Mass| judged(&at(flight, movement, mass), standing);
    let Some(largest) = largest else {
        let (verdict, by) = judged(lightest);
        if verdict < Verdict::Unproven {
            return found(None, Verdict::Fail, by_limit);
        }
        return found(None, verdict, by);
    };
    let (verdict, by) = judged(largest);
    if verdict < Verdict::Unproven {
        return found(Some(largest), verdict, by_limit);
    }
    lighter(lightest, largest, (verdict, by), judged)
}

/// The largest mass below one at which a rule besides the limits on mass does
/// not hold.
fn lighter(
    lightest: Mass,
    largest: Mass,
    (verdict, by): Judged,
    judged: impl Fn(Mass) -> Judged,
) -> MassCell {
    let holds = |mass: Mass| judged(mass).0 < Verdict::Unproven;
    if !holds(lightest) {
        let (verdict, by) = judged(lightest);
        return found(None, verdict, by);
    }
    match Grid::new(lightest, largest).coarsely(&holds) {
        Some(mass) => found(Some(mass), judged(mass).0, by),
        None => found(None, verdict, by),
    }
}

fn searched(flight: &Flight, measured: &Measured, movement: SheetMovement) -> Option<MassAnswer> {
    match movement {
        SheetMovement::TakeOff => take_off_mass(flight, measured, 1),
        SheetMovement::Landing => landing_mass(flight, measured, 1),
    }
}

fn judged(flight: &Flight, standing: &Standing) -> Judged {
    let measured = measure(flight, &standing.riding_afresh(), &[]);
    let findings = judge(&Context { flight, measured: &measured, stones: None, handling: None });
    let whole = verdict(&findings);
    let gives = |finding: &&hardpan_model::Finding| {
        finding.weight == Weight::Safety && finding.verdict == whole
    };
    let first = findings.iter().find(gives);
    (whole, first.map(|finding| (finding.code, finding.title.clone())))
}

/// The flight at a mass.
fn at(flight: &Flight, movement: SheetMovement, mass: Mass) -> Flight {
    let mut changed = flight.clone();
    let planned = match movement {
        SheetMovement::TakeOff => changed.take_off.as_mut().map(|plan| &mut plan.mass),
        SheetMovement::Landing => changed.landing.as_mut().map(|plan| &mut plan.mass),
    };
    if let Some(planned) = planned {
        let origin = planned.as_ref().map_or_else(
            || Origin {
                file: "the sheet of masses".into(),
                line: 0,
                column: 0,
                key: "mass".into(),
            },
            |given| given.origin.clone(),
        );
        *planned = Some(Given { value: mass, origin, source: None });
    }
    changed
}
