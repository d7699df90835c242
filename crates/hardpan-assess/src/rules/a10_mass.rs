//! A10: planned masses against the structural limits.

use crate::context::Context;
use crate::draft::{Draft, given, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{Finding, Given, Mark, Phase, Source, Tier};
use hardpan_quantity::Mass;

pub(super) const RULE: Rule = Rule {
    code: "A10",
    name: "Structural mass",
    checks: "The planned take-off and landing mass against the maximum of the aeroplane, and \
             against its lightest mass.",
    why: "No strip makes the aeroplane stronger; a mass under the lightest flown is a mistake.",
    limit: "As entered from the approved manual.",
    applies: "Each planned movement.",
    source: Source::new("", "approved manual, as entered", Tier::Approved),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    let masses = &flight.aeroplane.mass;
    let mut findings = Vec::new();
    if let Some(landing) = &flight.landing {
        findings.push(check(
            Phase::Landing,
            "landing mass",
            landing.mass.as_ref(),
            masses.maximum_landing.as_ref(),
            masses.minimum.as_ref(),
            ("flight: landing.mass", "aeroplane: mass.maximum_landing"),
        ));
    }
    if let Some(take_off) = &flight.take_off {
        findings.push(check(
            Phase::TakeOff,
            "take-off mass",
            take_off.mass.as_ref(),
            masses.maximum_take_off.as_ref(),
            masses.minimum.as_ref(),
            ("flight: take_off.mass", "aeroplane: mass.maximum_take_off"),
        ));
    }
    findings
}

fn check(
    phase: Phase,
    title: &str,
    planned: Option<&Given<Mass>>,
    maximum: Option<&Given<Mass>>,
    minimum: Option<&Given<Mass>>,
    keys: (&str, &str),
) -> Finding {
    let draft = Draft::new(&RULE, title, phase).mark(Mark::Approved);
    let (Some(planned), Some(maximum)) = (planned, maximum) else {
        let mut needs = Vec::new();
        if planned.is_none() {
            let how = "the mass planned, or its load together with aeroplane: mass.operating and \
                       the fuel under flight: options";
            needs.push(need(keys.0, how));
        }
        if maximum.is_none() {
            needs.push(need(keys.1, "from the approved manual"));
        }
        return draft.unproven(format!("the {title} or its maximum is not stated"), needs);
    };
    let draft = draft.value(planned.value).at_most(maximum.value).step(plain_step(
        title,
        "planned mass ≤ maximum mass",
        RULE.source,
        vec![given("planned", planned), given("maximum", maximum)],
        planned.value,
    ));
    match minimum {
        Some(minimum) if planned.value < minimum.value => {
            draft.fail(format!("the {title} is under the lightest mass of this aeroplane"))
        }
        _ => draft.judged(
            format!("the {title} is within the structural limit"),
            format!("the {title} is over the structural limit"),
        ),
    }
}
