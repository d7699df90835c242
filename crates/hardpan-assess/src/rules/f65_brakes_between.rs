//! F65: heat of the landing in the brakes at the take-off after it.

use crate::context::Context;
use crate::draft::{Draft, computed, derived, given, plain_step};
use crate::movements::brake_heat::{cooling_time, taxi_energy, whole_minutes};
use crate::rule::Rule;
use hardpan_model::{Finding, Given, Mark, Phase, Source, Tier};
use hardpan_quantity::Energy;

pub(super) const RULE: Rule = Rule {
    code: "F65",
    name: "Brakes between landing and take-off",
    checks: "Whether the brakes, with all the heat of the landing still in them, could take a \
             rejected take-off; if not, the cooling time of the approved chart against the time on \
             the ground.",
    why: "On a short strip the landing fills the brakes; a short turn-round leaves nothing for the \
          stop that may follow.",
    limit: "The energy that one brake may take; beyond it the planned time on the ground.",
    applies: "A landing and a take-off planned together. Nothing is credited for cooling but what \
              the chart says.",
    source: Source::new("", "approved manual, as entered", Tier::Approved),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let measured = context.measured;
    let (Some(Ok(landing)), Some(Ok(take_off))) = (&measured.landing, &measured.take_off) else {
        return Vec::new();
    };
    let flight = context.flight;
    let Some(limit) = &flight.aeroplane.brakes.energy_limit else { return Vec::new() };
    let mass = flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref());
    let taxi = mass.and_then(|mass| taxi_energy(flight, mass.value)).unwrap_or_default();
    let stop = take_off.brake_energy + taxi;
    vec![told(context, limit, landing.brake_energy, stop)]
}

fn told(
    context: &Context<'_>,
    limit: &Given<Energy>,
    of_landing: Energy,
    of_stop: Energy,
) -> Finding {
    let flight = context.flight;
    let both = of_landing + of_stop;
    let draft = Draft::new(&RULE, "brakes between landing and take-off", Phase::BeforeBrakeRelease)
        .mark(Mark::PlanningOnly)
        .step(plain_step(
            "energy of one brake, nothing cooled away",
            "landing + stop",
            derived("sum of two stops"),
            vec![
                computed("landing", of_landing, "F60").under("landing"),
                computed("taxiing and rejected take-off", of_stop, "F60").under("stop"),
                given("energy that one brake may take", limit),
            ],
            both,
        ));
    if both <= limit.value {
        let draft = draft.value(both).at_most(limit.value);
        return draft.pass("the brakes take both stops without cooling in between");
    }
    let (wait, step) = match cooling_time(flight, of_landing) {
        Ok(found) => found,
        Err(why) => return draft.value(both).at_most(limit.value).unavailable(&why),
    };
    let held = whole_minutes(wait);
    let minutes = held.result.si / 60.0;
    let draft =
        draft.value(wait).step(step).step(held).instruct(format!(
            "no take-off within {minutes:.0} min of the landing stop: brakes cool"
        ));
    match &flight.turn_round {
        Some(planned) => draft
            .at_most(planned.value)
            .step(plain_step(
                "time on the ground",
                "as planned",
                derived("flight file"),
                vec![given("turn-round", planned)],
                planned.value,
            ))
            .judged("the brakes cool while on the ground", "the brakes need longer to cool"),
        None => draft.conditional("the time on the ground is not stated; the crew holds it"),
    }
}
