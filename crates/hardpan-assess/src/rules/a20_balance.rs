//! A20: centre of gravity within its limits.

use crate::context::Context;
use crate::draft::{Draft, given, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{Bound, Finding, Given, Mark, Phase, Source, Tier};
use hardpan_quantity::Ratio;

pub(super) const RULE: Rule = Rule {
    code: "A20",
    name: "Centre of gravity",
    checks: "The planned centre of gravity against the forward and aft limits.",
    why: "It decides the load on the nose gear, which digs in on soft ground, and the grip left \
          for steering.",
    limit: "As entered from the approved manual.",
    applies: "Each planned movement.",
    source: Source::new("", "approved manual, as entered", Tier::Approved),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    let landing = flight.landing.as_ref().map(|plan| {
        check(context, Phase::Landing, plan.centre_of_gravity.as_ref(), "flight: landing")
    });
    let take_off = flight.take_off.as_ref().map(|plan| {
        check(context, Phase::TakeOff, plan.centre_of_gravity.as_ref(), "flight: take_off")
    });
    landing.into_iter().chain(take_off).collect()
}

fn check(
    context: &Context<'_>,
    phase: Phase,
    planned: Option<&Given<Ratio>>,
    table: &str,
) -> Finding {
    let draft = Draft::new(&RULE, format!("centre of gravity, {}", phase.word()), phase)
        .mark(Mark::Approved);
    let balance = &context.flight.aeroplane.balance;
    let (Some(planned), Some(forward), Some(aft)) =
        (planned, &balance.forward_limit, &balance.aft_limit)
    else {
        let missing = [
            (planned.is_none(), format!("{table}.centre_of_gravity"), "per cent of mean chord"),
            (
                balance.forward_limit.is_none(),
                "aeroplane: balance.forward_limit".to_owned(),
                "from the approved manual",
            ),
            (
                balance.aft_limit.is_none(),
                "aeroplane: balance.aft_limit".to_owned(),
                "from the approved manual",
            ),
        ];
        let needs = missing.iter().filter(|row| row.0).map(|row| need(&row.1, row.2));
        return draft.unproven("the centre of gravity or its limits are not stated", needs);
    };
    let forward_gap = planned.value - forward.value;
    let aft_gap = aft.value - planned.value;
    let (bound, limit) = if forward_gap < aft_gap {
        (Bound::AtLeast, forward.value)
    } else {
        (Bound::AtMost, aft.value)
    };
    draft
        .value(planned.value)
        .limit(bound, limit)
        .step(plain_step(
            "centre of gravity",
            "forward limit ≤ planned ≤ aft limit",
            RULE.source,
            vec![given("planned", planned), given("forward", forward), given("aft", aft)],
            planned.value,
        ))
        .judged("within the limits", "outside the limits")
}
