//! The ride as a limit on mass.

use super::Check;
use super::sheet::SheetMovement;
use crate::context::Context;
use crate::measured::{Known, Measured, Unavailable};
use crate::rides::Asked;
use crate::rules::RULES;
use hardpan_model::{Flight, Given, Phase, Verdict, Weight};
use hardpan_quantity::Mass;
use std::sync::Arc;

const CODE: &str = "R70";

/// The ride at the cockpit of a movement at any mass; none where no ride can be
/// computed, which is then advice.
pub(super) fn ride_check<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    movement: SheetMovement,
) -> Option<Check<'a>> {
    measured.rides(flight).ok()?;
    Some(Check::dear(CODE, "ride at the cockpit", move |mass| {
        let ridden = at(flight, measured, movement, mass)?;
        let context = Context::tried(&ridden.0, &ridden.1, Asked::Verdict);
        let phase = match movement {
            SheetMovement::TakeOff => Phase::TakeOff,
            SheetMovement::Landing => Phase::Landing,
        };
        let rules = RULES.iter().filter(|rule| rule.code == CODE);
        let findings = rules.flat_map(|rule| (rule.judge)(&context));
        let mut asked =
            findings.filter(|found| found.phase == phase && found.weight == Weight::Safety);
        Ok(asked.all(|found| found.verdict < Verdict::Unproven))
    }))
}

/// The flight at a mass, with the runs of that mass and no ride yet.
fn at(
    flight: &Flight,
    measured: &Measured,
    movement: SheetMovement,
    mass: Mass,
) -> Known<(Flight, Measured)> {
    let mut flight = flight.clone();
    let mut measured =
        Measured { rides: Arc::default(), asked: Asked::Verdict, ..measured.clone() };
    let set = |planned: &mut Option<Given<Mass>>| {
        *planned = planned.take().map(|given| given.map(|_| mass));
    };
    let none = || Unavailable::missing("the movement", Vec::new());
    match movement {
        SheetMovement::TakeOff => {
            flight.landing = None;
            measured.landing = None;
            set(&mut flight.take_off.as_mut().ok_or_else(none)?.mass);
            let runs = measured.take_off_runs.clone().ok_or_else(none)?;
            measured.take_off = Some(runs.traced(mass, Clone::clone));
        }
        SheetMovement::Landing => {
            flight.take_off = None;
            measured.take_off = None;
            set(&mut flight.landing.as_mut().ok_or_else(none)?.mass);
            let runs = measured.landing_runs.clone().ok_or_else(none)?;
            measured.landing = Some(runs.traced(mass, Clone::clone));
        }
    }
    Ok((flight, measured))
}
