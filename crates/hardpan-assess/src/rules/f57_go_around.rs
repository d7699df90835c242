//! F57: climb of a go-around.

use crate::context::Context;
use crate::draft::Draft;
use crate::movements::climb_basis::{Climbing, gradient_step};
use crate::rule::Rule;
use hardpan_model::{Finding, Mark, Phase, Source, Tier};
use hardpan_run::ClimbAtSpeed;

pub(super) const RULE: Rule = Rule {
    code: "F57",
    name: "Climb of a go-around",
    checks: "Gross climb gradient with one engine out in the flap of the go-around, gear up, and \
             on all engines in landing flap, gear down, at the landing mass.",
    why: "A strip that turns out occupied, soft or flooded is left by going around, with the \
          drag of deflectors and the bleeds of the protection on.",
    limit: "One engine out 2.1 %, 2.4 % or 2.7 % with two, three or four engines; all engines \
            3.2 %.",
    applies: "Each planned landing; with one engine the second alone. Flown at the reference speed \
              of the flap. Thrust is that of the take-off model at full setting.",
    source: Source::new("CFR-25-121", "(d)", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let Some(planned) = &context.flight.landing else { return Vec::new() };
    let Some(Ok(case)) = &context.measured.landing_case else { return Vec::new() };
    let Some(mass) = &planned.mass else { return Vec::new() };
    let draft = |title: &str| Draft::new(&RULE, title, Phase::Landing).mark(Mark::PlanningOnly);
    let climb = match case.go_around(mass.value) {
        Ok(climb) => climb,
        Err(why) => return vec![draft("climb of a go-around").unavailable(&why)],
    };
    let check = |draft: Draft, climb: &ClimbAtSpeed, how: &str| {
        let climbing = Climbing {
            name: "landing mass",
            mass,
            true_airspeed: climb.true_airspeed,
            speed_of: "the go-around",
            forces: climb.forces,
            gradient: climb.gradient,
        };
        draft
            .value(climb.gradient)
            .at_least(climb.required)
            .steps(gradient_step(context, &climbing, how))
            .judged("climbs as the rule asks", "does not climb as the rule asks")
    };
    let one_out = climb.engine_out.as_ref().map(|climb| {
        let draft = draft("go-around with one engine out");
        check(draft, climb, "one engine out, gear up")
    });
    let all = draft("go-around in landing flap, all engines")
        .caveat("the rule counts the thrust that is there 8 s after idle; full thrust is taken");
    let all = check(all, &climb.all_engines, "all engines, gear down");
    one_out.into_iter().chain([all]).collect()
}
