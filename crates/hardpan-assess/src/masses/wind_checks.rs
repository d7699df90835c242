//! Approved limits on the wind of a movement, beside those on its mass.

use super::Check;
use super::sheet::SheetMovement;
use crate::context::bounds_today;
use crate::measured::{Known, Measured};
use hardpan_model::{Bound, Flight, Phase};
use hardpan_quantity::{Mass, Quantity, Speed};
use hardpan_run::{TakeOffRun, WindComponents, steering_needs};

/// Approved limits on the wind of a movement: no mass is light enough for too
/// much of it.
pub(super) fn wind_checks<'a>(
    flight: &'a Flight,
    movement: SheetMovement,
    wind: Option<&'a Known<WindComponents>>,
) -> Vec<Check<'a>> {
    let Some(Ok(wind)) = wind else { return Vec::new() };
    let components = [
        ("crosswind", "approved crosswind limit", wind.crosswind),
        ("tailwind", "approved tailwind limit", -wind.headwind),
    ];
    let phases: &[Phase] = match movement {
        SheetMovement::TakeOff => &[Phase::TakeOff, Phase::BeforeBrakeRelease, Phase::Always],
        SheetMovement::Landing => &[Phase::Landing, Phase::Always],
    };
    let holds = |name: &str, component: Speed| {
        let of_it = flight.aeroplane.limits.iter().filter(|limit| {
            limit.quantity.value == name
                && limit.bound == Bound::AtMost
                && phases.contains(&limit.phase)
                && bounds_today(flight, limit)
        });
        let mut most = of_it.filter_map(|limit| limit.value.value.get::<Speed>());
        most.all(|most| component <= most)
    };
    let checks = components.into_iter().map(|(name, title, component)| {
        let holds = holds(name, component);
        Check::new("L10", title, move |_| Ok(holds))
    });
    checks.collect()
}

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
