//! F60: energy of one brake.

use crate::by_formula::by_formula;
use crate::context::Context;
use crate::draft::{Draft, beside, computed, derived, given, given_as, need, plain_step};
use crate::movements::brake_heat::taxi_step;
use crate::rule::Rule;
use crate::run_basis::{RUNS, by_station};
use hardpan_model::{BasisInput, Finding, Given, Mark, Phase, Source, Step, Tier};
use hardpan_quantity::{Amount, Energy, Quantity, Speed};

pub(super) const RULE: Rule = Rule {
    code: "F60",
    name: "Brake energy",
    checks: "Kinetic energy that one brake takes in the landing, and in a take-off rejected at the \
             decision speed after the stops while taxiing to it, against what the brake may take.",
    why: "A hot brake fades, burns or bursts its tyre; a short turn-round adds to what is left.",
    limit: "As entered from the approved manual. Where the distances declared leave a choice, the \
            decision speed is lowered until the brakes take the stop; never below control on \
            the ground, nor below what carrying on needs.",
    applies: "Each planned movement. Heat left over from the landing is judged by F65.",
    source: Source::new("CFR-23-735", "kinetic energy of one wheel brake", Tier::Published),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let measured = context.measured;
    let take_off = measured.take_off.as_ref().and_then(|run| run.as_ref().ok()).map(|run| {
        let speed = run
            .decision
            .as_ref()
            .map_or(run.lift_off_ground_speed, |decision| decision.ground_speed);
        let mass = context.flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref());
        let taxi = mass.map(|mass| taxi_step(context.flight, mass.value));
        let energy = (run.brake_energy, taxi);
        let limit = run.decision.as_ref().and_then(|decision| decision.brake_limit);
        let title = "brake energy, rejected take-off";
        check(context, title, Phase::TakeOff, energy, (speed, limit))
    });
    let landing = measured.landing.as_ref().and_then(|run| run.as_ref().ok()).map(|run| {
        let speed = run.touchdown_ground_speed;
        let energy = (run.brake_energy, None);
        check(context, "brake energy, landing", Phase::Landing, energy, (speed, None))
    });
    landing.into_iter().chain(take_off).collect()
}

fn check(
    context: &Context<'_>,
    title: &str,
    phase: Phase,
    (stop, taxi): (Energy, Option<Option<Step>>),
    (speed, highest): (Speed, Option<Speed>),
) -> Finding {
    let brakes = &context.flight.aeroplane.brakes;
    let from_taxi = taxi.iter().flatten().find_map(result);
    let energy = from_taxi.map_or(stop, |taxi| stop + taxi);
    let mut draft =
        Draft::new(&RULE, title, phase).mark(Mark::PlanningOnly).value(energy).step(plain_step(
            "energy of one brake",
            "work of the wheel brakes along the run from the ground speed to a stop, shared alike by \
             the braked wheels",
            RULE.source,
            work_inputs(context, speed, phase == Phase::Landing),
            stop,
        ));
    match taxi {
        None => {}
        Some(None) => draft = draft.caveat("no braking while taxiing is stated; none is counted"),
        Some(Some(step)) => {
            draft = draft.step(step).step(plain_step(
                "energy of one brake, taxiing included",
                "stop + taxiing",
                derived("sum of the steps above"),
                vec![
                    computed("rejected take-off", stop, "first step").under("stop"),
                    computed("taxiing", from_taxi.unwrap_or_default(), "step above")
                        .under("taxiing"),
                ],
                energy,
            ));
        }
    }
    match &brakes.energy_limit {
        None => draft.unproven(
            "the energy that a brake may take is not stated",
            [need("aeroplane: brakes.energy_limit", "from the approved manual")],
        ),
        Some(limit) => draft
            .at_most(limit.value)
            .step(plain_step(
                "energy allowed",
                "as entered",
                Source::new("", "approved manual, as entered", Tier::Approved),
                vec![given("limit", limit)],
                limit.value,
            ))
            .steps(highest.map_or_else(Vec::new, |highest| {
                highest_steps(context, highest, (limit, from_taxi))
            }))
            .judged("within what the brake may take", broken(highest)),
    }
}

/// What the work of the brakes is counted from.
fn work_inputs(context: &Context<'_>, speed: Speed, is_landing: bool) -> Vec<BasisInput> {
    let wheels = context.flight.aeroplane.brakes.wheels.as_ref();
    let wheels = wheels.map(braked);
    std::iter::once(computed("ground speed", speed, RUNS))
        .chain(by_station(context.measured, is_landing))
        .chain(wheels)
        .collect()
}

fn braked(wheels: &Given<u32>) -> BasisInput {
    given_as("braked wheels", wheels, Amount::count(f64::from(wheels.value)))
}

/// The decision speed above which the brakes do not take the stop.
fn highest_steps(
    context: &Context<'_>,
    highest: Speed,
    (limit, taxi): (&Given<Energy>, Option<Energy>),
) -> Vec<Step> {
    let flight = context.flight;
    let mass = flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref());
    let wheels = flight.aeroplane.brakes.wheels.as_ref();
    let (Some(mass), Some(wheels), Ok(air)) = (mass, wheels, &context.measured.air) else {
        return Vec::new();
    };
    let left = limit.value - taxi.unwrap_or_default();
    let each = 2.0 * f64::from(wheels.value) * left.si() / mass.value.si();
    let ground = Speed::from_si(each.max(0.0).sqrt());
    let mut inputs = vec![
        given("limit", limit).under("limit"),
        given("take-off mass", mass).under("m"),
        braked(wheels).under("braked wheels"),
    ];
    inputs.extend(taxi.map(|taxi| computed("taxiing", taxi, "step above").under("taxiing")));
    let rule = match taxi {
        Some(_) => "√(2 × braked wheels × (limit − taxiing) / m); level, drag not credited",
        None => "√(2 × braked wheels × limit / m); level, drag not credited",
    };
    let filled =
        plain_step("ground speed that fills the brakes", rule, RULE.source, inputs, ground);
    let through_air = air.true_airspeed(highest);
    let faster = plain_step(
        "true airspeed at that ground speed",
        "ground speed + headwind",
        derived("wind along the run"),
        vec![
            computed("ground speed", ground, "step above").under("ground speed"),
            headwind(context, through_air - ground).under("headwind"),
        ],
        through_air,
    );
    let inputs = vec![
        computed("true airspeed", through_air, "step above"),
        computed("air pressure", Amount::air_pressure(air.pressure()), "air of the day"),
        computed("temperature", air.temperature(), "air of the day"),
    ];
    let Ok(last) = by_formula("calibrated-from-true", inputs) else { return Vec::new() };
    let computes = "highest decision speed for the brakes, VMBE".to_owned();
    vec![filled, faster, Step { computes, result: highest.into(), ..last }]
}

/// The headwind that the take-off counts.
fn headwind(context: &Context<'_>, counted: Speed) -> BasisInput {
    let wind = context.measured.take_off_wind.as_ref().and_then(|wind| wind.as_ref().ok());
    let is_same = |one: &Speed| (*one - counted).abs().si() < 1e-6;
    match wind.map(|wind| wind.credited).filter(is_same) {
        Some(credited) => computed("headwind credited", credited, "wind of the day"),
        None => beside("headwind credited", counted, "of the wind of the day, near the ground"),
    }
}

fn broken(highest: Option<Speed>) -> String {
    match highest {
        None => "more than the brake may take".to_owned(),
        Some(highest) => {
            let told = Amount::from(highest).told();
            format!("more than the brake may take: on level ground V1 may be at most {told}")
        }
    }
}

fn result(step: &Step) -> Option<Energy> {
    step.result.get()
}
