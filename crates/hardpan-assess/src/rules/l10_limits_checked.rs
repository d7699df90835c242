//! L10: approved limits that the assessment can check.

use super::l20_limits_to_hold::{is_checked, words};
use crate::context::{Context, bounds_today};
use crate::draft::{Draft, computed, given_as, plain_step};
use crate::rule::Rule;
use hardpan_model::{ApprovedLimit, Finding, Mark, Source, Tier};

pub(super) const RULE: Rule = Rule {
    code: "L10",
    name: "Approved limits",
    checks: "Wind, masses, tyre pressures, temperature, altitude, slope, surfacing and width of \
             this flight against the limits of the aeroplane file.",
    why: "Approved figures bind: outside them nothing that a model says counts.",
    limit: "As entered from the operator's approved manual.",
    applies: "Each limit of the aeroplane file whose quantity the assessment computes, in the \
              phases that are flown; one for another surface or state is left out. Gusts count in crosswind and tailwind.",
    source: Source::new("", "approved manual, as entered", Tier::Approved),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let limits = context.flight.aeroplane.limits.iter();
    limits
        .filter(|limit| is_checked(limit) && limit.quantity.value != "loose material depth")
        .filter(|limit| bounds_today(context.flight, limit))
        .flat_map(|limit| judge_limit(context, limit))
        .collect()
}

fn judge_limit(context: &Context<'_>, limit: &ApprovedLimit) -> Option<Finding> {
    let quantity = limit.quantity.value.as_str();
    let value = context.quantity(quantity, limit.phase)?;
    let draft = Draft::new(&RULE, quantity, limit.phase)
        .mark(Mark::Approved)
        .limit(limit.bound, limit.value.value)
        .instruct(words(limit));
    Some(match value {
        Err(why) => draft.unavailable(&why),
        Ok(value) if value.dimension != limit.value.value.dimension => draft.unproven(
            format!(
                "the limit is given as a {}, the {quantity} is a {}",
                limit.value.value.dimension.name(),
                value.dimension.name()
            ),
            [],
        ),
        Ok(value) => draft
            .value(value)
            .step(plain_step(
                quantity,
                "value within the approved limit",
                RULE.source,
                vec![
                    computed(quantity, value, "figures of this flight"),
                    given_as("approved limit", &limit.value, limit.value.value),
                ],
                value,
            ))
            .judged("within the approved limit", "outside the approved limit"),
    })
}
