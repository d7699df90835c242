//! F40: climb with one engine out.

use crate::context::Context;
use crate::draft::{Draft, need};
use crate::movements::climb_basis::{Climbing, gradient_step};
use crate::rule::Rule;
use hardpan_model::{FieldRule, Finding, Mark, Phase, Source, Tier};

pub(super) const RULE: Rule = Rule {
    code: "F40",
    name: "Climb with one engine out",
    checks: "Gross climb gradient with one engine out, gear down at lift-off speed, gear up at \
             the take-off safety speed, and in the final segment.",
    why: "Deflectors on a gear that stays down longer, and bleeds that feed protection, take \
          climb when it is needed most.",
    limit: "Two engines: positive, 2.4 % and in the final segment \
            1.2 %; three: 0.3 %, 2.7 % and 1.5 %; four: 0.5 %, 3.0 % and 1.7 %.",
    applies: "Take-offs under a rule that accounts for an engine failure; the final segment in the \
              flap that `final_flap` names, unproven without it. The climb en route is not judged.",
    source: Source::new("CFR-25-121", "(a), (b), (c)", Tier::Published),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let (Some(Ok(run)), Some(planned)) = (&context.measured.take_off, &context.flight.take_off)
    else {
        return Vec::new();
    };
    let Some(climb) = run.climb.engine_out else { return Vec::new() };
    if planned.rule.as_ref().is_some_and(|rule| rule.value == FieldRule::AllEnginesTakeOff) {
        return Vec::new();
    }
    let check = |title: &str, (gradient, required), (forces, true_airspeed)| {
        let climbing = |mass| Climbing {
            name: "take-off mass",
            mass,
            true_airspeed,
            speed_of: "speeds of the rule",
            forces,
            gradient,
        };
        let steps = planned.mass.as_ref().and_then(|mass| {
            gradient_step(context, &climbing(mass), "one engine out, out of ground effect")
        });
        Draft::new(&RULE, title, Phase::Climb)
            .mark(Mark::PlanningOnly)
            .value(gradient)
            .at_least(required)
            .steps(steps)
            .judged("climbs as the rule asks", "does not climb as the rule asks")
    };
    let last = context.measured.take_off_case.as_ref().and_then(|case| case.as_ref().ok());
    let last = last.zip(planned.mass.as_ref());
    let last = last.and_then(|(case, mass)| case.final_climb(mass.value));
    let last = last.and_then(|climb| match climb {
        Ok(climb) => climb.map(|climb| {
            let title = "climb, final segment";
            check(title, (climb.gradient, climb.required), (climb.forces, climb.true_airspeed))
        }),
        Err(why) => {
            let draft = Draft::new(&RULE, "climb, final segment", Phase::Climb);
            Some(draft.mark(Mark::PlanningOnly).unavailable(&why))
        }
    });
    let last = match &planned.final_flap {
        Some(_) => last,
        None => Some(not_stated(context)),
    };
    let first = [
        check(
            "climb, gear down",
            (climb.gear_down, climb.gear_down_required),
            (climb.gear_down_forces, run.speeds.lift_off.true_airspeed),
        ),
        check(
            "climb, gear up",
            (climb.gear_up, climb.gear_up_required),
            (climb.gear_up_forces, run.speeds.safety.true_airspeed),
        ),
    ];
    first.into_iter().chain(last).collect()
}

fn not_stated(context: &Context<'_>) -> Finding {
    let how = "flap setting of the final segment, from the approved manual";
    let mut needs = vec![need("flight: take_off.final_flap", how)];
    if context.flight.aeroplane.engines.continuous_share.is_none() {
        let how = "maximum continuous thrust or power over that of the take-off";
        needs.push(need("aeroplane: engines.continuous_share", how));
    }
    Draft::new(&RULE, "climb, final segment", Phase::Climb)
        .mark(Mark::PlanningOnly)
        .unproven("the flap setting of the final segment is not stated", needs)
}
