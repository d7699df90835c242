//! F10: take-off distance and run against what is declared.

use crate::context::Context;
use crate::draft::{Draft, beside, computed, constant, given, lost, need, plain_step};
use crate::measure::along::loose_left_out;
use crate::movements::declared;
use crate::rule::Rule;
use crate::run_basis::{TAKE_OFF_RUN, run_step, rut_input, thrust_inputs};
use hardpan_model::{
    DeclaredDistances, Finding, Flight, Given, Mark, Phase, Source, Step, SurfaceState, Tier,
};
use hardpan_quantity::{Amount, Length, metres};
use hardpan_run::{CarriedOn, TakeOffRun};

pub(super) const RULE: Rule = Rule {
    code: "F10",
    name: "Take-off distance",
    checks: "The greater of the factored all-engine distance and the distance with an engine \
             failed, from brake release to the screen, against the take-off distance declared; \
             and the take-off run against the run declared.",
    why: "A soft surface slows the roll and leaves less strip than the paved figures promise.",
    limit: "Declared distance less what lining up takes.",
    applies: "Each planned take-off, by the rule that the flight names. In standing water the drag of \
              what the tyres push aside counts; spray on the airframe is not modelled. Loose material \
              drags by what is stated of it, else not.",
    source: Source::new("CFR-25-113", "(a), (b)", Tier::Published),
    judge,
};

const SPRAY: &str = "spray that strikes the airframe is not modelled: no law of it with a source that \
                     can be stated is at hand; what the tyres push aside is counted";

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let Some(run) = &context.measured.take_off else { return Vec::new() };
    let distance =
        || Draft::new(&RULE, "take-off distance", Phase::TakeOff).mark(Mark::PlanningOnly);
    let roll = || Draft::new(&RULE, "take-off run", Phase::TakeOff).mark(Mark::PlanningOnly);
    match run {
        Err(why) => vec![distance().unavailable(why)],
        Ok(run) => vec![
            check(context, distance(), run, &TO_THE_SCREEN, |declared| &declared.take_off_distance),
            check(context, roll(), run, &TO_HALF_WAY, |declared| &declared.take_off_run),
        ],
    }
}

fn check(
    context: &Context<'_>,
    draft: Draft,
    run: &TakeOffRun,
    reach: &Reach,
    pick: fn(&DeclaredDistances) -> &Option<Given<Length>>,
) -> Finding {
    let flight = context.flight;
    let planned = flight.take_off.as_ref();
    let direction = planned.and_then(|plan| plan.direction.as_ref()).map(|given| given.value);
    let available = direction.and_then(|direction| pick(declared(flight, direction)).as_ref());
    let line_up =
        planned.and_then(|plan| plan.line_up.as_ref()).map_or(metres(0.0), |given| given.value);
    let all_engines = run.all_engines.screen;
    let mass = planned.and_then(|plan| plan.mass.as_ref());
    let flap = planned.and_then(|plan| plan.flap.as_ref());
    let mass = mass.map(|mass| given("take-off mass", mass));
    let inputs =
        mass.into_iter().chain(thrust_inputs(flight)).chain(rut_input(context.measured)).collect();
    let wades = flight.day.standing_water.as_ref().is_some_and(|patches| !patches.is_empty());
    let sinks = context.measured.rut_drag.as_ref().and_then(|drag| drag.left_out());
    let draft = sinks.into_iter().chain(loose_left_out(flight)).fold(draft, Draft::caveat);
    let draft = if wades { draft.caveat(SPRAY) } else { draft };
    let draft = draft.step(run_step(
        "all-engine distance to the screen",
        flight,
        context.measured,
        flap,
        inputs,
        all_engines,
    ));
    let Some(needed) = (reach.needed)(run) else {
        return draft.fail("with one engine out the take-off does not reach the screen");
    };
    let lower = planned.and_then(|plan| plan.wet_screen.as_ref()).filter(|_| is_wet(flight));
    let draft = match lower {
        Some(_) => draft.caveat(
            "the lower screen counts on the wet strip with one engine out; no distance is taken \
             shorter than on the dry strip to 35 ft. The rule is for hard runways",
        ),
        None => draft,
    };
    let draft = draft.value(needed).step(needed_step(run, reach, lower, needed));
    let Some(available) = available else {
        return draft.unproven(
            "the declared distance of this direction is not stated",
            [need("strip: declared distances", "of the runway end used, from the authority")],
        );
    };
    let draft = line_up_stated(beyond(draft, run.beyond_survey), context);
    draft
        .at_most(available.value - line_up)
        .step(plain_step(
            "distance available",
            "declared distance − distance lost by lining up",
            RULE.source,
            vec![
                given("declared", available).under("declared distance"),
                lost("line-up", planned.and_then(|plan| plan.line_up.as_ref()))
                    .under("distance lost by lining up"),
            ],
            available.value - line_up,
        ))
        .judged("within what is declared", "longer than what is declared")
}

/// How far a take-off distance or run goes.
struct Reach {
    needed: fn(&TakeOffRun) -> Option<Length>,
    all_engines: fn(&CarriedOn) -> Length,
    /// On a strip that is dry or whose lower screen is not counted.
    one_out: fn(&CarriedOn) -> Length,
    /// In words.
    how: &'static str,
}

const TO_THE_SCREEN: Reach = Reach {
    needed: |run| run.distance_needed,
    all_engines: |carried| carried.screen,
    one_out: |carried| carried.screen,
    how: "to the screen",
};

/// The run ends half way between lift-off and the screen.
const TO_HALF_WAY: Reach = Reach {
    needed: |run| run.run_needed,
    all_engines: |carried| carried.half_way,
    one_out: |carried| carried.half_way,
    how: "each to half way between lift-off and the screen, with the lower screen of a wet strip \
          that with one engine out to the screen",
};

/// How the distance needed came about; none is taken shorter than on the dry strip.
fn needed_step(
    run: &TakeOffRun,
    reach: &Reach,
    lower: Option<&Given<Length>>,
    needed: Length,
) -> Step {
    let one_out: fn(&CarriedOn) -> Length = match lower {
        Some(_) => |carried| carried.screen,
        None => reach.one_out,
    };
    let mut inputs = vec![
        computed("all-engine distance", (reach.all_engines)(&run.all_engines), TAKE_OFF_RUN)
            .under("all-engine distance"),
        constant("factor", Amount::coefficient(run.factor), RULE.source).under("factor"),
    ];
    let carried_on = run.decision.as_ref().and_then(|decision| decision.carried_on);
    let one_out = carried_on.map(|carried| one_out(&carried));
    inputs.extend(one_out.map(|distance| {
        let out = computed("with one engine out", distance, TAKE_OFF_RUN);
        out.under("distance with one engine out")
    }));
    let factored = run.factor * (reach.all_engines)(&run.all_engines);
    let is_of_these = one_out.map_or(factored, |out| factored.max(out)) >= needed;
    let on_dry = (!is_of_these).then(|| {
        let how = "the same on the dry strip, to the full screen";
        beside("on the dry strip", needed, how).under("distance on the dry strip")
    });
    let rule = match (one_out, &on_dry) {
        (None, None) => "factor × all-engine distance",
        (None, Some(_)) => {
            "greater of factor × all-engine distance and the distance on the dry strip"
        }
        (Some(_), None) => {
            "greater of factor × all-engine distance and the distance with one engine out"
        }
        (Some(_), Some(_)) => {
            "greatest of factor × all-engine distance, the distance with one engine out and the \
             distance on the dry strip"
        }
    };
    inputs.extend(on_dry);
    inputs.extend(lower.map(|height| given("screen with one engine out", height)));
    let rule = format!("{rule}; {}", reach.how);
    plain_step("distance needed", &rule, RULE.source, inputs, needed)
}

fn is_wet(flight: &Flight) -> bool {
    flight.day.surface_state.as_ref().is_some_and(|state| state.value == SurfaceState::Wet)
}

/// Notes that nothing is taken off for lining up, where nobody states it.
pub(super) fn line_up_stated(draft: Draft, context: &Context<'_>) -> Draft {
    let planned = context.flight.take_off.as_ref();
    if planned.is_some_and(|plan| plan.line_up.is_some()) {
        draft
    } else {
        draft.caveat("no distance lost by lining up is stated; none is taken off")
    }
}

/// Notes that a run left the ground that is described.
pub(super) fn beyond(draft: Draft, beyond: bool) -> Draft {
    if beyond {
        draft.caveat("the run goes beyond the surveyed ground; its end values are carried on")
    } else {
        draft
    }
}
