//! One place of the sheet: the largest mass, judged afresh by every rule.

use super::{MassCell, SheetMovement};
use crate::answer::verdict;
use crate::assess::judge;
use crate::assessment::MassAnswer;
use crate::context::Context;
use crate::masses::mass_search::Grid;
use crate::masses::{landing_mass, lightest, take_off_mass};
use crate::measure::{Standing, measure};
use crate::measured::Measured;
use hardpan_model::{Flight, Given, Origin, Verdict, Weight};
use hardpan_quantity::Mass;

/// Verdict of the whole at a mass, and the first check that gives it.
type Judged = (Verdict, Option<(&'static str, String)>);

/// The largest mass of the one movement of a flight.
pub(super) fn cell(flight: &Flight, standing: &Standing, movement: SheetMovement) -> MassCell {
    let maximum = match movement {
        SheetMovement::TakeOff => flight.aeroplane.mass.maximum_take_off.as_ref(),
        SheetMovement::Landing => flight.aeroplane.mass.maximum_landing.as_ref(),
    };
    let Some(maximum) = maximum.map(|given| given.value) else {
        let by = Some(("A10", "structural limit not stated".to_owned()));
        return MassCell { mass: None, verdict: Verdict::Unproven, by };
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
            return MassCell { mass: None, verdict: Verdict::Fail, by: by_limit };
        }
        return MassCell { mass: None, verdict, by };
    };
    let (verdict, by) = judged(largest);
    if verdict < Verdict::Unproven {
        return MassCell { mass: Some(largest), verdict, by: by_limit };
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
        return MassCell { mass: None, verdict, by };
    }
    match Grid::new(lightest, largest).coarsely(&holds) {
        Some(mass) => MassCell { mass: Some(mass), verdict: judged(mass).0, by },
        None => MassCell { mass: None, verdict, by },
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
