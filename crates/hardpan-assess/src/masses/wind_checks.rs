//! Wind and engine failure that an aeroplane is held straight in, as limits on its mass.

use super::Check;
use super::sheet::SheetMovement;
use crate::measured::Measured;
use hardpan_model::Flight;
use hardpan_quantity::{Mass, Quantity, Speed};
use hardpan_run::{TakeOffRun, steering_needs};

/// The wind from the side that rudder, nose wheel and grip hold. It rises with
/// mass: where it is too little, nothing lighter holds more. None where the
/// aeroplane does not state what it takes, which F35 tells.
pub(super) fn held_check<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    movement: SheetMovement,
) -> Option<Check<'a>> {
    flight.aeroplane.control.nose_side_factor.as_ref()?;
    let held = held_by(measured, movement);
    let wind = match movement {
        SheetMovement::TakeOff => measured.take_off_wind.as_ref(),
        SheetMovement::Landing => measured.landing_wind.as_ref(),
    };
    let wind = wind?.as_ref().ok()?.crosswind;
    held(flight.aeroplane.mass.maximum_take_off.as_ref()?.value)?;
    let check = Check::dear("F35", "wind from the side that is held", move |mass| {
        Ok(held(mass).is_some_and(|limit| wind <= limit))
    });
    Some(check.with_margin(move |mass| Some((held_by(measured, movement)(mass)? - wind).si())))
}

/// What holds the aeroplane straight as planned: limits that lighter aeroplanes meet
/// no better. None where the aeroplane does not state what they take, which F35 tells.
pub(crate) fn control_checks<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    movement: SheetMovement,
) -> Vec<Check<'a>> {
    if !steering_needs(&flight.aeroplane).is_empty() {
        return Vec::new();
    }
    let held = held_check(flight, measured, movement);
    let runs = measured.take_off_runs.as_deref().filter(|_| movement == SheetMovement::TakeOff);
    let of_failure = runs.into_iter().flat_map(|runs| {
        let rudder = Check::new("F35", "rudder after an engine failure", move |mass| {
            runs.at(mass, |run| rudder(run).is_none_or(|spare| spare.si() >= 0.0))
        });
        let grip = Check::new("F35", "side grip after an engine failure", move |mass| {
            runs.at(mass, |run| run.side_grip.as_ref().is_none_or(|grip| grip.used.si() <= 1.0))
        });
        [
            rudder.with_margin(move |mass| Some(runs.at(mass, self::rudder).ok()??.si())),
            grip.with_margin(move |mass| {
                runs.at(mass, |run| Some(1.0 - run.side_grip.as_ref()?.used.si())).ok()?
            }),
        ]
    });
    held.into_iter().chain(of_failure).collect()
}

/// The speed at which an engine fails over the lowest at which it is held.
fn rudder(run: &TakeOffRun) -> Option<Speed> {
    Some(run.decision.as_ref()?.failure_speed - run.speeds.control.as_ref()?.calibrated)
}

/// The wind from the side that a mass holds; none where that is not known.
pub(crate) fn held_by<'a>(
    measured: &'a Measured,
    movement: SheetMovement,
) -> impl Fn(Mass) -> Option<Speed> + 'a {
    move |mass| {
        let held = match movement {
            SheetMovement::TakeOff => {
                measured.take_off_case.as_ref()?.as_ref().ok()?.crosswind_held(mass)
            }
            SheetMovement::Landing => {
                measured.landing_case.as_ref()?.as_ref().ok()?.crosswind_held(mass)
            }
        };
        Some(held.ok()??.limit)
    }
}
