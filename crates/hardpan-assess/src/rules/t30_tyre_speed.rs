//! T30: ground speed on the wheels against the rated speed of the tyres.

use crate::context::Context;
use crate::draft::{Draft, computed, given, need, plain_step};
use crate::ground::LegKind;
use crate::rule::Rule;
use crate::run_basis::RUNS;
use hardpan_model::{Finding, Mark, Phase, Source, Tier};
use hardpan_quantity::Speed;

pub(super) const RULE: Rule = Rule {
    code: "T30",
    name: "Tyre speed",
    checks: "Greatest ground speed on the wheels, at lift-off and at touchdown, against the rated \
             speed of the slower tyre.",
    why: "A tyre run over its rated speed throws its tread; high, hot and tailwind strips bring \
          it there.",
    limit: "Rated speed as entered.",
    applies: "Each planned movement.",
    source: Source::new("", "tyre maker's data, as entered", Tier::Approved),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let measured = context.measured;
    let take_off = measured.take_off.as_ref().and_then(|run| run.as_ref().ok()).map(|run| {
        check(context, "tyre speed, lift-off", Phase::TakeOff, run.lift_off_ground_speed)
    });
    let landing = measured.landing.as_ref().and_then(|run| run.as_ref().ok()).map(|run| {
        check(context, "tyre speed, touchdown", Phase::Landing, run.touchdown_ground_speed)
    });
    landing.into_iter().chain(take_off).collect()
}

fn check(context: &Context<'_>, title: &str, phase: Phase, speed: Speed) -> Finding {
    let draft = Draft::new(&RULE, title, phase).mark(Mark::PlanningOnly).value(speed);
    let flight = context.flight;
    let rated =
        [LegKind::Main, LegKind::Nose].map(|kind| kind.leg(flight).tyre.rated_speed.as_ref());
    let [Some(main), Some(nose)] = rated else {
        return draft.unproven(
            "the rated speed of the tyres is not stated",
            [need(
                "aeroplane: gear.main.tyre.rated_speed, gear.nose.tyre.rated_speed",
                "from the tyre maker",
            )],
        );
    };
    draft
        .at_most(main.value.min(nose.value))
        .step(plain_step(
            "ground speed on the wheels",
            "true airspeed less headwind, as counted by the rule, ≤ rated speed",
            RULE.source,
            vec![
                computed("ground speed", speed, RUNS),
                given("main tyre", main),
                given("nose tyre", nose),
            ],
            speed,
        ))
        .judged("within the rated speed", "over the rated speed")
}
