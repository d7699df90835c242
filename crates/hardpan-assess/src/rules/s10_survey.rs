//! S10: the survey is there and recent.

use super::s30_day_reports::judge_age;
use crate::context::Context;
use crate::draft::{Draft, need};
use crate::rule::Rule;
use hardpan_model::{Finding, Phase, Source, Tier};

pub(super) const RULE: Rule = Rule {
    code: "S10",
    name: "Survey",
    checks: "That the strip has a levelled survey no older than the operator allows.",
    why: "Frost, traffic and grading move a loose surface; an old level proves nothing.",
    limit: "`survey_age` of the flight file, as the operator sets it.",
    applies: "Every flight. Gaps and noise of the survey are judged by R10.",
    source: Source::new("", "survey no older than the operator allows", Tier::CommonPractice),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = Draft::new(&RULE, "age of the survey", Phase::Always);
    vec![match &context.flight.strip.survey {
        None => draft.unproven(
            "the strip has no survey",
            [need("strip: survey", "levels along the wheel lanes and the edges, as CSV")],
        ),
        Some(survey) => judge_age(draft, context, survey.date.as_ref(), "strip: survey_info.date"),
    }]
}
