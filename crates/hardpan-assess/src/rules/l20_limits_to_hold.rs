//! L20: approved limits that only the crew can hold.

use crate::context::{Context, bounds_today};
use crate::draft::{Draft, given_as, plain_step};
use crate::rule::Rule;
use hardpan_model::{ApprovedLimit, Bound, Finding, Mark, Source, Tier};

pub(super) const RULE: Rule = Rule {
    code: "L20",
    name: "Approved limits to hold",
    checks: "Nothing by itself: it hands each approved limit that the assessment cannot check to \
             the crew, in the phase where it applies.",
    why: "Thrust, speed and equipment limits of an unpaved-strip approval are kept in flight, not \
          at the desk.",
    limit: "As entered from the operator's approved manual.",
    applies: "Each limit of the aeroplane file whose quantity the assessment does not compute, \
              for this surface and its state.",
    source: Source::new("", "approved manual, as entered", Tier::Approved),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let limits = context.flight.aeroplane.limits.iter();
    let held = limits.filter(|limit| !is_checked(limit) && bounds_today(context.flight, limit));
    held.map(hold).collect()
}

/// Whether the assessment checks this limit by itself.
pub(super) fn is_checked(limit: &ApprovedLimit) -> bool {
    ApprovedLimit::CHECKED.contains(&limit.quantity.value.as_str())
}

/// The limit in words, such as `crosswind (dissipators on) at most 17 kt`.
pub(super) fn words(limit: &ApprovedLimit) -> String {
    let value = limit.value.value.told();
    let side = match limit.bound {
        Bound::AtMost => "at most",
        Bound::AtLeast => "at least",
    };
    match &limit.when {
        Some(when) => format!("{} ({}) {side} {value}", limit.quantity.value, when.value),
        None => format!("{} {side} {value}", limit.quantity.value),
    }
}

fn hold(limit: &ApprovedLimit) -> Finding {
    Draft::new(&RULE, limit.quantity.value.clone(), limit.phase)
        .mark(Mark::Approved)
        .limit(limit.bound, limit.value.value)
        .instruct(words(limit))
        .step(plain_step(
            &limit.quantity.value,
            "held by the crew",
            RULE.source,
            vec![given_as("approved limit", &limit.value, limit.value.value)],
            limit.value.value,
        ))
        .conditional("the crew holds this limit")
}
