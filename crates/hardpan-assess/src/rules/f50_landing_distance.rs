//! F50: landing distance against what is declared.

use super::f10_take_off_distance::beyond;
use crate::context::Context;
use crate::draft::{Draft, computed, constant, given, given_as, lost, need, plain_step};
use crate::movements::{declared, displaced, reverse_credit};
use crate::rule::Rule;
use crate::run_basis::run_step;
use hardpan_model::{Finding, Mark, Phase, Source, Tier};
use hardpan_quantity::Amount;

pub(super) const RULE: Rule = Rule {
    code: "F50",
    name: "Landing distance",
    checks: "Distance from 50 ft over the threshold to a stop on wheel brakes, and on reverse \
             thrust where that is asked for and approved, lengthened by the rule that the flight \
             names, against the distance declared.",
    why: "Braking on loose or wet ground is a fraction of that on pavement, and reverse throws \
          stones.",
    limit: "Declared landing distance. The factor is that of the rule, or the operator's own where \
            that is greater.",
    applies: "Each planned landing.",
    source: Source::new("CFR-121-195", "(b), (d)", Tier::Published),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let Some(run) = &context.measured.landing else { return Vec::new() };
    let draft = Draft::new(&RULE, "landing distance", Phase::Landing).mark(Mark::PlanningOnly);
    let run = match run {
        Ok(run) => run,
        Err(why) => return vec![draft.unavailable(why)],
    };
    let flight = context.flight;
    let planned = flight.landing.as_ref();
    let mass = planned.and_then(|plan| plan.mass.as_ref());
    let flap = planned.and_then(|plan| plan.flap.as_ref());
    let target = planned.and_then(|plan| plan.brake_target.as_ref());
    let target = target.map(|target| given("target of the automatic brakes", target));
    let mass = mass.map(|mass| given("landing mass", mass));
    let inputs = mass.into_iter().chain(target).collect();
    let own = planned.and_then(|plan| plan.factor.as_ref());
    let draft = match planned.and_then(|plan| plan.speed_addition.as_ref()) {
        Some(_) => draft,
        None => draft.caveat("no addition to the reference speed is stated; none is counted"),
    };
    let reverse = reverse_credit::in_landing(flight);
    let draft = reverse.told(draft, "");
    let stop = run_step("landing distance", flight, context.measured, flap, inputs, run.stop);
    let draft = beyond(draft, run.beyond_survey)
        .value(run.distance_needed)
        .steps(context.measured.friction_steps())
        .step(reverse.in_step(stop))
        .step(plain_step(
            "distance needed",
            "landing distance × factor of the rule, or the operator's own if greater",
            RULE.source,
            [
                computed("landing distance", run.stop, "step above").under("landing distance"),
                constant("factor", Amount::coefficient(run.factor), RULE.source)
                    .under("factor of the rule, or the operator's own if greater"),
            ]
            .into_iter()
            .chain(own.map(|own| given_as("own factor", own, Amount::coefficient(own.value))))
            .collect(),
            run.distance_needed,
        ));
    let direction = planned.and_then(|plan| plan.direction.as_ref()).map(|given| given.value);
    let available =
        direction.and_then(|direction| declared(flight, direction).landing_distance.as_ref());
    let Some(available) = available else {
        return vec![draft.unproven(
            "the landing distance of this direction is not stated",
            [need("strip: declared distances", "of the runway end used, from the authority")],
        )];
    };
    let laid = planned.and_then(|plan| plan.displaced_threshold.as_ref());
    let laid = lost("threshold laid up by", laid);
    vec![
        draft
            .at_most(available.value - displaced(flight))
            .step(plain_step(
                "distance available",
                "declared landing distance − distance that the threshold is laid up the strip",
                RULE.source,
                vec![
                    given("declared", available).under("declared landing distance"),
                    laid.under("distance that the threshold is laid up the strip"),
                ],
                available.value - displaced(flight),
            ))
            .judged("stops within what is declared", "does not stop within what is declared"),
    ]
}
