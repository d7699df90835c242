//! W10: no standing water on the strip.

use crate::context::Context;
use crate::draft::{Draft, given, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{Finding, Phase, Source, Tier};
use hardpan_quantity::{Amount, millimetres};

pub(super) const RULE: Rule = Rule {
    code: "W10",
    name: "Standing water",
    checks: "Whether any standing water was seen on the strip on the day.",
    why: "Water softens the ground under it, hides ruts, drags the wheels and is thrown at \
          engines and flaps.",
    limit: "None at all.",
    applies: "Every flight; it must have been looked for on the day.",
    source: Source::new("", "good drainage, no standing water", Tier::CommonPractice),
    judge,
};

const LOOKED: Source =
    Source::new("", "day file: standing_water = \"none\"", hardpan_model::Tier::CommonPractice);

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = || Draft::new(&RULE, "standing water", Phase::Always).at_most(millimetres(0.0));
    let Some(patches) = &context.flight.day.standing_water else {
        return vec![draft().unproven(
            "nobody says whether water stands on the strip",
            [need("day: standing_water", "\"none\" when it was looked for, or each patch")],
        )];
    };
    if patches.is_empty() {
        let none = Amount::from(millimetres(0.0));
        let looked = plain_step(
            "depth of standing water",
            "looked for on the day, and none found",
            RULE.source,
            vec![crate::draft::constant("patches found", Amount::count(0.0), LOOKED)],
            none,
        );
        return vec![draft().value(none).step(looked).pass("none was found")];
    }
    patches
        .iter()
        .map(|patch| {
            draft()
                .value(patch.depth.value)
                .place(patch.from.value, patch.to, None)
                .step(plain_step(
                    "depth of standing water",
                    "depth ≤ 0",
                    RULE.source,
                    vec![given("from", &patch.from), given("depth", &patch.depth)],
                    patch.depth.value,
                ))
                .instruct("drain it and let the ground dry; sound the ground there again")
                .fail("water stands on the strip")
        })
        .collect()
}
