//! W20: loose stones or deep loose gravel.

use crate::context::{Context, bounds_today};
use crate::draft::{Draft, given, need, plain_step};
use crate::rule::Rule;
use hardpan_model::{ApprovedLimit, Finding, Mark, Phase, Source, Tier};

pub(super) const RULE: Rule = Rule {
    code: "W20",
    name: "Loose material",
    checks: "Depth of loose stones or gravel seen on the day, by station.",
    why: "Loose stones are what tyres throw and inlets lift; deep loose gravel drags the wheels, \
          lengthens the take-off run and lets the nose wheel dig in.",
    limit: "An approved limit on `loose material depth` where the operator enters one. No depth \
            is published; without an approved limit each patch is a condition for the crew.",
    applies: "Every flight; it must have been looked for on the day.",
    source: Source::new("", "no deep loose gravel", Tier::CommonPractice),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let draft = || Draft::new(&RULE, "loose material", Phase::Always);
    let flight = context.flight;
    let Some(patches) = &flight.day.loose_material else {
        return vec![draft().unproven(
            "nobody says whether loose material lies on the strip",
            [need("day: loose_material", "\"none\" when it was looked for, or each patch")],
        )];
    };
    if patches.is_empty() {
        return vec![draft().pass("none was found")];
    }
    let of_depth = |limit: &&ApprovedLimit| {
        limit.quantity.value == "loose material depth" && bounds_today(flight, limit)
    };
    let limits = flight.aeroplane.limits.iter().filter(of_depth);
    let approved = limits.min_by(|a, b| a.value.value.si.total_cmp(&b.value.value.si));
    patches
        .iter()
        .map(|patch| {
            let mut inputs = vec![given("from", &patch.from), given("depth", &patch.depth)];
            if let Some(limit) = approved {
                inputs.push(given("approved depth", &limit.value));
            }
            let draft = draft()
                .value(patch.depth.value)
                .place(patch.from.value, patch.to, None)
                .step(plain_step(
                    "depth of loose material",
                    "depth ≤ approved depth",
                    RULE.source,
                    inputs,
                    patch.depth.value,
                ));
            match approved {
                Some(limit) => draft
                    .mark(Mark::Approved)
                    .limit(limit.bound, limit.value.value)
                    .judged("within the approved depth", "deeper than approved"),
                None => draft
                    .instruct("no high thrust and no turn over the loose stretch; roll it first")
                    .conditional("loose material lies here and no approved depth is entered"),
            }
        })
        .collect()
}
