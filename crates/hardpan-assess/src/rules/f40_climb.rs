//! F40: climb with one engine out.

use crate::context::Context;
use crate::draft::{Draft, computed, given, plain_step};
use crate::rule::Rule;
use hardpan_model::{FieldRule, Finding, Mark, Phase, Source, Tier};
use hardpan_quantity::Ratio;

pub(super) const RULE: Rule = Rule {
    code: "F40",
    name: "Climb with one engine out",
    checks: "Gross climb gradient with one engine out, gear down at lift-off speed and gear up at \
             the take-off safety speed.",
    why: "Deflectors on a gear that stays down longer, and bleeds that feed protection, take \
          climb when it is needed most.",
    limit: "Two engines: positive and 2.4 %; three: 0.3 % and 2.7 %; four: 0.5 % and 3.0 %.",
    applies: "Take-offs under a rule that accounts for an engine failure.",
    source: Source::new("CFR-25-121", "(a), (b)", Tier::Published),
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
    let check = |title: &str, gradient: Ratio, required: Ratio, speed| {
        let mut inputs = vec![computed("true airspeed", speed, "speeds of the take-off")];
        inputs.extend(planned.mass.iter().map(|mass| given("take-off mass", mass)));
        Draft::new(&RULE, title, Phase::Climb)
            .mark(Mark::PlanningOnly)
            .value(gradient)
            .at_least(required)
            .step(plain_step(
                "gross climb gradient",
                "(T − D) / W, one engine out, out of ground effect",
                RULE.source,
                inputs,
                gradient,
            ))
            .judged("climbs as the rule asks", "does not climb as the rule asks")
    };
    vec![
        check(
            "climb, gear down",
            climb.gear_down,
            climb.gear_down_required,
            run.speeds.lift_off.true_airspeed,
        ),
        check(
            "climb, gear up",
            climb.gear_up,
            climb.gear_up_required,
            run.speeds.safety.true_airspeed,
        ),
    ]
}
