//! F20: accelerate-stop distance against what is declared, and the decision speed.

use super::f10_take_off_distance::{beyond, line_up_stated};
use crate::context::Context;
use crate::draft::{Draft, computed, given, lost, need, plain_step};
use crate::movements::{declared, reverse_credit};
use crate::rule::Rule;
use crate::run_basis::{run_step, rut_input, thrust_inputs};
use hardpan_model::{FieldRule, Finding, Mark, Phase, Source, Tier};
use hardpan_quantity::{Amount, metres};
use hardpan_run::{Decision, DecisionChoice, DecisionRange, SpeedBound, TakeOffRun};

pub(super) const RULE: Rule = Rule {
    code: "F20",
    name: "Accelerate-stop distance",
    checks: "The distance to accelerate, lose an engine and stop on wheel brakes, and on reverse \
             thrust where that is asked for and approved, against the distance declared; and that a decision speed exists that allows both, or that the one \
             stated does.",
    why: "Braking on loose ground is a fraction of that on pavement; without reverse the stop is \
          what runs out first.",
    limit: "Declared distance less what lining up takes.",
    applies: "Take-offs under a rule that accounts for an engine failure.",
    source: Source::new("CFR-25-109", "(a)", Tier::Published),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let Some(run) = &context.measured.take_off else { return Vec::new() };
    let accounted = context
        .flight
        .take_off
        .as_ref()
        .and_then(|plan| plan.rule.as_ref())
        .is_none_or(|rule| rule.value == FieldRule::LargeTakeOff);
    if !accounted {
        return Vec::new();
    }
    let draft =
        Draft::new(&RULE, "accelerate-stop distance", Phase::TakeOff).mark(Mark::PlanningOnly);
    let run = match run {
        Ok(run) => run,
        Err(why) => return vec![draft.unavailable(why)],
    };
    let (Some(needed), Some(decision)) = (run.accelerate_stop_needed, &run.decision) else {
        return vec![draft.unproven("no decision speed was found", [])];
    };
    let draft = line_up_stated(beyond(draft, run.beyond_survey), context);
    vec![distance(context, draft, needed, decision), range(decision, run)]
}

fn distance(
    context: &Context<'_>,
    draft: Draft,
    needed: hardpan_quantity::Length,
    decision: &Decision,
) -> Finding {
    let flight = context.flight;
    let planned = flight.take_off.as_ref();
    let mass = planned.and_then(|plan| plan.mass.as_ref());
    let flap = planned.and_then(|plan| plan.flap.as_ref());
    let mut inputs: Vec<_> = mass.map(|mass| given("take-off mass", mass)).into_iter().collect();
    inputs.extend(thrust_inputs(flight).into_iter().chain(rut_input(context.measured)));
    let stated = planned.and_then(|plan| plan.decision_speed.as_ref());
    inputs.push(stated.map_or_else(
        || computed("decision speed V1", decision.speed, "chosen within the range of F20"),
        |stated| given("decision speed V1", stated),
    ));
    let reverse = reverse_credit::in_take_off(flight);
    let name = "accelerate-stop distance";
    let stop = run_step(name, flight, context.measured, flap, inputs, needed);
    let draft = reverse
        .told(
            draft,
            "; with an engine out only engines across from one another count, and the dry \
              distance without it counts if it is longer",
        )
        .value(needed)
        .steps(context.measured.friction_steps())
        .step(reverse.in_step(stop));
    let direction = planned.and_then(|plan| plan.direction.as_ref()).map(|given| given.value);
    let available =
        direction.and_then(|direction| declared(flight, direction).accelerate_stop.as_ref());
    let Some(available) = available else {
        return draft.unproven(
            "the accelerate-stop distance of this direction is not stated",
            [need("strip: declared distances", "of the runway end used, from the authority")],
        );
    };
    let line_up =
        planned.and_then(|plan| plan.line_up.as_ref()).map_or(metres(0.0), |given| given.value);
    draft
        .at_most(available.value - line_up)
        .step(plain_step(
            "distance available",
            "declared distance − distance lost by lining up",
            RULE.source,
            vec![
                given("declared", available).under("declared distance"),
                lost("line-up", planned.and_then(|plan| plan.line_up.as_ref()))
                    .under("distance lost by lining up"),
            ],
            available.value - line_up,
        ))
        .judged("stops within what is declared", "does not stop within what is declared")
}

fn range(decision: &Decision, run: &TakeOffRun) -> Finding {
    let control = match run.speeds.control.map(|control| control.bound) {
        Some(SpeedBound::RudderBalance) => {
            "the take-off run: balance of the rudder in the wind of the day, F35"
        }
        _ => "the take-off run: published VMCG, of a hard dry runway, and reaction",
    };
    let draft = Draft::new(&RULE, "decision speed", Phase::TakeOff)
        .mark(Mark::PlanningOnly)
        .value(decision.speed)
        .at_least(decision.lowest)
        .step(plain_step(
            "decision speed",
            "not below control on the ground, not above rotation, stop and go within what is declared",
            Source::new("CFR-25-107", "(a)", Tier::Published),
            vec![
                computed("lowest for control on the ground", decision.lowest, control),
                computed("highest", decision.highest, "the take-off run, no more than VR"),
            ],
            decision.speed,
        ));
    match decision.range {
        DecisionRange::Empty => {
            draft.fail("no decision speed allows both to go and to stop within what is declared")
        }
        DecisionRange::Between(low, high)
            if decision.choice == DecisionChoice::Stated
                && !(low..=high).contains(&decision.speed) =>
        {
            draft.fail(format!(
                "the decision speed stated is not within {} to {}, which control, rotation and \
                 the distances declared allow",
                Amount::from(low).told(),
                Amount::from(high).told()
            ))
        }
        DecisionRange::Between { .. } => {
            draft.judged("a decision speed exists", "below what control on the ground allows")
        }
        _ => draft.unproven(
            "distances are not declared, so the range of decision speeds is not known",
            [need("strip: declared distances", "of the runway end used, from the authority")],
        ),
    }
}
