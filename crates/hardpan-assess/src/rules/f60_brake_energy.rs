//! F60: energy of one brake.

use crate::context::Context;
use crate::draft::{Draft, computed, given, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{Finding, Mark, Phase, Source, Tier};
use hardpan_quantity::{Energy, Speed};

pub(super) const RULE: Rule = Rule {
    code: "F60",
    name: "Brake energy",
    checks: "Kinetic energy that one brake takes in the landing and in a take-off rejected at the \
             decision speed against what the brake may take.",
    why: "A hot brake fades, burns or bursts its tyre; a short turn-round adds to what is left.",
    limit: "As entered from the approved manual.",
    applies: "Each planned movement. Heat left over from an earlier stop is not counted.",
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
        check(context, "brake energy, rejected take-off", Phase::TakeOff, run.brake_energy, speed)
    });
    let landing = measured.landing.as_ref().and_then(|run| run.as_ref().ok()).map(|run| {
        let speed = run.touchdown_ground_speed;
        check(context, "brake energy, landing", Phase::Landing, run.brake_energy, speed)
    });
    landing.into_iter().chain(take_off).collect()
}

fn check(
    context: &Context<'_>,
    title: &str,
    phase: Phase,
    energy: Energy,
    speed: Speed,
) -> Finding {
    let brakes = &context.flight.aeroplane.brakes;
    let draft =
        Draft::new(&RULE, title, phase).mark(Mark::PlanningOnly).value(energy).step(plain_step(
            "energy of one brake",
            "work of the wheel brakes from the ground speed to a stop / braked wheels",
            RULE.source,
            vec![computed("ground speed", speed, "the run")],
            energy,
        ));
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
            .judged("within what the brake may take", "more than the brake may take"),
    }
}
