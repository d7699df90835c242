//! Energy of one brake in a stop, from the speed at which the brakes come on.

use crate::by_formula::by_formula;
use crate::context::Context;
use crate::draft::{computed, derived, given, given_as, plain_step};
use crate::ground::two_layers::from_step;
use crate::run_basis::{LANDING_RUN, TAKE_OFF_RUN, run_step};
use hardpan_model::{Given, Step};
use hardpan_quantity::{Amount, Energy, Mass, Quantity, Speed};
use hardpan_run::{LandingRun, TakeOffRun};

/// Share by which the work of the brakes must pass the kinetic energy to be told.
const SAME: f64 = 1e-9;

/// A stop: who stops, the speed that it begins with, and what one brake takes in it.
struct Stop<'a> {
    mass: Option<&'a Given<Mass>>,
    name_of_mass: &'static str,
    flap: Option<&'a Given<String>>,
    speed: Speed,
    name_of_speed: &'static str,
    energy: Energy,
    run: &'static str,
}

/// The steps to the energy of one brake in the landing that is planned.
pub(crate) fn landing_steps(context: &Context<'_>, run: &LandingRun) -> Vec<Step> {
    let plan = context.flight.landing.as_ref();
    let stop = Stop {
        mass: plan.and_then(|plan| plan.mass.as_ref()),
        name_of_mass: "landing mass",
        flap: plan.and_then(|plan| plan.flap.as_ref()),
        speed: run.brakes_on_ground_speed,
        name_of_speed: "ground speed at which the brakes come on",
        energy: run.brake_energy,
        run: LANDING_RUN,
    };
    steps(context, &stop)
}

/// The same in the take-off that is rejected.
pub(crate) fn rejected_steps(context: &Context<'_>, run: &TakeOffRun) -> Vec<Step> {
    let plan = context.flight.take_off.as_ref();
    let stop = Stop {
        mass: plan.and_then(|plan| plan.mass.as_ref()),
        name_of_mass: "take-off mass",
        flap: plan.and_then(|plan| plan.flap.as_ref()),
        speed: run.rejected_ground_speed,
        name_of_speed: "ground speed at which the take-off is rejected",
        energy: run.brake_energy,
        run: TAKE_OFF_RUN,
    };
    steps(context, &stop)
}

fn steps(context: &Context<'_>, stop: &Stop<'_>) -> Vec<Step> {
    let Stop { mass, flap, speed, energy, run, .. } = *stop;
    let planned = mass.map(|mass| given(stop.name_of_mass, mass)).into_iter().collect();
    let Context { flight, measured, .. } = context;
    let begins = run_step(stop.name_of_speed, flight, measured, flap, planned, speed);
    let wheels = context.flight.aeroplane.brakes.wheels.as_ref();
    let kinetic = mass.zip(wheels).and_then(|(mass, wheels)| {
        let count = Amount::count(f64::from(wheels.value));
        let inputs = vec![
            given("mass", mass),
            from_step("ground speed", speed, 0),
            given_as("braked wheels", wheels, count),
        ];
        by_formula("kinetic-energy-per-brake", inputs).ok()
    });
    let of_motion = kinetic.as_ref().map_or(0.0, |step| step.result.si);
    let mut steps: Vec<Step> = [begins].into_iter().chain(kinetic).collect();
    if energy.si() > of_motion * (1.0 + SAME) {
        let last = steps.len() - 1;
        steps.push(plain_step(
            "energy of one brake",
            "work of the wheel brakes down to a stop / braked wheels, where it is more than the \
             kinetic energy: downhill",
            derived("equations of motion on the ground, integrated by station"),
            vec![from_step("step above", steps[last].result, last), computed("work", energy, run)],
            energy,
        ));
    }
    steps
}
