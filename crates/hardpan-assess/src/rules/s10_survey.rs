//! S10: the survey is there and recent, and what it was made from.

use super::s30_day_reports::judge_age;
use crate::context::Context;
use crate::draft::{Draft, computed, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{
    AxisFrom, CloudFacts, Finding, GridFacts, GroundFrom, Phase, PositionFacts, Source, SurveyFrom,
    Tier,
};
use hardpan_quantity::{Amount, Length, Quantity, ratio};

pub(super) const RULE: Rule = Rule {
    code: "S10",
    name: "Survey",
    checks: "That the strip has a levelled survey no older than the operator allows; points, \
             noise and share without a level of a point cloud, positions or a grid are shown.",
    why: "Frost, traffic and grading move a loose surface; an old level proves nothing.",
    limit: "`survey_age` of the flight file, as the operator sets it.",
    applies: "Every flight. Gaps and noise of the survey are judged by R10.",
    source: Source::new("", "survey no older than the operator allows", Tier::CommonPractice),
    judge,
};

/// What was counted while reading.
const COUNTED: Source = Source::new("", "counted in the survey", Tier::Derived);

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = Draft::new(&RULE, "age of the survey", Phase::Always);
    let strip = &context.flight.strip;
    vec![match &strip.survey {
        None => draft.unproven(
            "the strip has no survey",
            [need("strip: survey", "levels along the wheel lanes and the edges, as CSV")],
        ),
        Some(survey) => {
            let draft = match &strip.survey_from {
                Some(SurveyFrom::Cloud(facts)) => of_cloud(draft, facts),
                Some(SurveyFrom::Positions(facts)) => {
                    let noise = survey.level_noise.as_ref().map(|given| given.value);
                    of_positions(draft, facts, noise)
                }
                Some(SurveyFrom::Grid(facts)) => of_grid(draft, facts),
                None => draft,
            };
            judge_age(draft, context, survey.date.as_ref(), "strip: survey_info.date")
        }
    }]
}

fn count(number: u64) -> Amount {
    Amount::count(number as f64)
}

fn share(part: u64, whole: u64) -> f64 {
    if whole == 0 { 1.0 } else { part as f64 / whole as f64 }
}

fn of_cloud(draft: Draft, facts: &CloudFacts) -> Draft {
    let draft = on_axis(draft, facts.axis);
    const BY: &str = "point cloud";
    let area = facts.cells as f64 * facts.cell_length.si() * facts.cell_width.si();
    let density = if area > 0.0 { facts.used as f64 / area } else { 0.0 };
    let missing = share(facts.unsurveyed, facts.cells);
    let mut inputs = vec![
        computed("points", count(facts.points), BY),
        computed("points that made levels", count(facts.used), BY),
        computed("of them in a square metre", Amount::coefficient(density), BY),
        computed("cells", count(facts.cells), BY),
        computed("cells without a level", count(facts.unsurveyed), BY),
    ];
    let noises =
        [("noise of one point", facts.point_noise), ("noise of one level", facts.level_noise)];
    inputs.extend(noises.into_iter().filter_map(|(name, noise)| Some(computed(name, noise?, BY))));
    let draft = draft.step(plain_step(
        "share of the strip without a level",
        "cells without a level / cells",
        COUNTED,
        inputs,
        ratio(missing),
    ));
    let draft = match facts.ground {
        GroundFrom::Classes => draft,
        GroundFrom::Filter => draft.caveat(
            "no point was marked as ground: a filter left out what stands up, and levels beside it \
             may be less sure than their noise",
        ),
    };
    match facts.holes.first() {
        None => draft,
        Some(hole) => draft.caveat(format!(
            "{:.1} % of the strip has no level; the largest part lies at stations {:.0} m to \
             {:.0} m, offsets {:.0} m to {:.0} m",
            100.0 * missing,
            hole.from.si(),
            hole.to.si(),
            hole.left.si(),
            hole.right.si()
        )),
    }
}

fn of_positions(draft: Draft, facts: &PositionFacts, noise: Option<Length>) -> Draft {
    const BY: &str = "positions";
    let mut inputs = vec![
        computed("positions", count(facts.positions), BY),
        computed("positions that made levels", count(facts.used), BY),
        computed("error by wandering across", facts.wander, BY),
        computed("least noise credited", facts.least, BY),
    ];
    inputs.extend(facts.scatter.map(|scatter| computed("scatter of a level", scatter, BY)));
    let noise = noise.unwrap_or(facts.least);
    let draft = draft
        .step(plain_step(
            "noise of one level",
            "√(greatest of stated, scatter and least² + wander²)",
            COUNTED,
            inputs,
            noise,
        ))
        .caveat(
            "levels are single positions of a satellite receiver: roughness index, spectrum and \
             washboard cannot be told from them, whatever the strip is like",
        );
    on_axis(draft, facts.axis)
}

/// What a fitted axis leaves unsure.
fn on_axis(draft: Draft, axis: AxisFrom) -> Draft {
    match axis {
        AxisFrom::Thresholds => draft,
        AxisFrom::Fitted { spread, .. } => draft.caveat(format!(
            "the axis was fitted to the survey, whose cross-sections stand {} off it; offsets and \
             stations are no surer than that",
            Amount::from(spread).told()
        )),
    }
}

fn of_grid(draft: Draft, facts: &GridFacts) -> Draft {
    const BY: &str = "grid";
    on_axis(draft, facts.axis)
        .step(plain_step(
            "share of the strip without a level",
            "places without a level / places",
            COUNTED,
            vec![
                computed("size of a cell", facts.cell, BY),
                computed("places", count(facts.places), BY),
                computed("places without a level", count(facts.unsurveyed), BY),
            ],
            ratio(share(facts.unsurveyed, facts.places)),
        ))
        .caveat(
            "the levels are those of a grid, smoothed by whoever made it: short bumps may be gone",
        )
}
