//! F52: a touchdown later than planned.

use super::f10_take_off_distance::beyond;
use crate::context::Context;
use crate::draft::{Draft, computed, constant, given, lost, need, plain_step};
use crate::movements::{LATE, declared, displaced};
use crate::rule::Rule;
use crate::run_basis::{LANDING_RUN, MOTION};
use hardpan_model::{FieldRule, Finding, Mark, Phase, Source, Tier};
use hardpan_quantity::Amount;

pub(super) const RULE: Rule = Rule {
    code: "F52",
    name: "Long touchdown",
    checks: "Distance to a stop, without factor, after a touchdown that is later than nineteen in \
             twenty, against the distance declared.",
    why: "Nobody touches down on the metre. Where the factor of the rule is small, or the far end \
          is soft, the late landing is the one that runs off.",
    limit: "Declared landing distance.",
    applies: "Landings whose scatter of touchdown the operator states. Without it a landing under \
              the 15 % rule is unproven; the dispatch factors are meant to cover it.",
    source: Source::new(
        "",
        "common practice, no source: 1.645 standard deviations",
        Tier::CommonPractice,
    ),
    judge,
};

const ONE_IN_TWENTY: Source =
    Source::new("", "one landing in twenty, by the normal law", Tier::Derived);

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    let (Some(Ok(run)), Some(planned)) = (&context.measured.landing, &flight.landing) else {
        return Vec::new();
    };
    let draft = Draft::new(&RULE, "long touchdown", Phase::Landing).mark(Mark::PlanningOnly);
    let (Some(scatter), Some(stop)) = (&planned.touchdown_scatter, run.late_stop) else {
        let rule = planned.rule.as_ref().map(|rule| rule.value);
        if rule != Some(FieldRule::LandingFifteenPercent) {
            return Vec::new();
        }
        let how = "standard deviation of the place of touchdown, from the operator's record";
        let wanted = need("flight: landing.touchdown_scatter", how);
        return vec![draft.unproven("how touchdowns scatter is not stated", [wanted])];
    };
    let later = scatter.value * LATE;
    let draft = beyond(draft, run.beyond_survey).value(stop).step(plain_step(
        "touchdown beyond the mean",
        "standard deviations × scatter",
        RULE.source,
        vec![
            given("scatter of touchdown", scatter).under("scatter"),
            constant("standard deviations", Amount::coefficient(LATE), ONE_IN_TWENTY)
                .under("standard deviations"),
        ],
        later,
    ));
    let draft = draft.step(plain_step(
        "distance to a stop after it",
        "the landing of F50 with its touchdown farther on, by station",
        MOTION,
        vec![
            computed("touchdown planned", run.touchdown, LANDING_RUN),
            computed("touchdown beyond it", later, "step above"),
        ],
        stop,
    ));
    let direction = planned.direction.as_ref().map(|given| given.value);
    let available =
        direction.and_then(|direction| declared(flight, direction).landing_distance.as_ref());
    let Some(available) = available else {
        return vec![draft.unproven(
            "the landing distance of this direction is not stated",
            [need("strip: declared distances", "of the runway end used, from the authority")],
        )];
    };
    let laid = lost("threshold laid up by", planned.displaced_threshold.as_ref());
    vec![
        draft
            .at_most(available.value - displaced(flight))
            .step(plain_step(
                "distance available",
                "declared landing distance − distance that the threshold is laid up the strip",
                RULE.source,
                vec![
                    given("declared", available).under("declared landing distance"),
                    laid.under("distance that the threshold is laid up the strip"),
                ],
                available.value - displaced(flight),
            ))
            .judged("stops even then", "does not stop then; go around instead"),
    ]
}
