//! A15: planned masses without their fuel against the structural limit.

use crate::context::Context;
use crate::draft::{Draft, given, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{Finding, Given, Mark, Need, Phase, Source, Tier};
use hardpan_quantity::Mass;

pub(super) const RULE: Rule = Rule {
    code: "A15",
    name: "Mass without fuel",
    checks: "The planned take-off and landing mass, less the fuel aboard, against the maximum mass \
             without fuel.",
    why: "Load in the fuselage bends the wing; fuel in the wing does not lighten that.",
    limit: "As entered from the approved manual.",
    applies: "Each planned movement of an aeroplane whose maximum mass without fuel is stated.",
    source: Source::new("", "approved manual, as entered", Tier::Approved),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    let Some(maximum) = &flight.aeroplane.mass.maximum_zero_fuel else { return Vec::new() };
    let options = &flight.options;
    let landing = flight.landing.as_ref().map(|plan| {
        let keys = ("flight: landing.mass", "flight: options.landing_fuel");
        let parts = (plan.mass.as_ref(), options.landing_fuel.as_ref());
        check(Phase::Landing, "mass without fuel, landing", parts, maximum, keys)
    });
    let take_off = flight.take_off.as_ref().map(|plan| {
        let keys = ("flight: take_off.mass", "flight: options.take_off_fuel");
        let parts = (plan.mass.as_ref(), options.take_off_fuel.as_ref());
        check(Phase::TakeOff, "mass without fuel, take-off", parts, maximum, keys)
    });
    landing.into_iter().chain(take_off).collect()
}

fn check(
    phase: Phase,
    title: &str,
    (planned, fuel): (Option<&Given<Mass>>, Option<&Given<Mass>>),
    maximum: &Given<Mass>,
    keys: (&str, &str),
) -> Finding {
    let draft = Draft::new(&RULE, title, phase).mark(Mark::Approved);
    let (Some(planned), Some(fuel)) = (planned, fuel) else {
        let needs = [
            planned.is_none().then(|| need(keys.0, "the mass planned")),
            fuel.is_none().then(|| need(keys.1, "the fuel aboard, from the load sheet")),
        ];
        let missing: Vec<Need> = needs.into_iter().flatten().collect();
        return draft.unproven("the mass planned or the fuel in it is not stated", missing);
    };
    let without_fuel = planned.value - fuel.value;
    draft
        .value(without_fuel)
        .at_most(maximum.value)
        .step(plain_step(
            title,
            "planned − fuel; at most the maximum without fuel",
            RULE.source,
            vec![
                given("planned", planned).under("planned"),
                given("fuel", fuel).under("fuel"),
                given("maximum", maximum),
            ],
            without_fuel,
        ))
        .judged(
            "the mass without fuel is within the structural limit",
            "more load than the structure allows, whatever fuel is left out",
        )
}
