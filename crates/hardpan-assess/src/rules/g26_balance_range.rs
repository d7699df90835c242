//! G26: the ground anywhere within the limits of the centre of gravity.

use crate::context::Context;
use crate::draft::{Draft, computed, derived, given, plain_step};
use crate::ground::LegKind;
use crate::ground::judged::{Growth, at_limit};
use crate::ground::leg_load::MOMENTS;
use crate::rule::Rule;
use hardpan_ground::PointJudgement;
use hardpan_model::{BasisInput, Finding, Given, Mark, Phase, Source, Tier};
use hardpan_quantity::{Ratio, percent};

pub(super) const RULE: Rule = Rule {
    code: "G26",
    name: "Ground over the range of the centre of gravity",
    checks: "The ground under the main wheels with the centre of gravity at its aft limit, and \
             under the nose wheels with it at its forward limit.",
    why: "The load sheet may change on the ramp; where the ground only holds at the planned \
          centre of gravity, the loader must know.",
    limit: "As G20 and G30. The loads along the runs grow in the ratio of the standing loads, \
            which for a braked nose is more than it gets.",
    applies: "Flights whose aeroplane states both limits. Advice: G20 and G30 decide as planned.",
    source: Source::new("", "moments about the main gear", Tier::Derived),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let balance = &context.flight.aeroplane.balance;
    let main = balance.aft_limit.as_ref().map(|limit| check(context, LegKind::Main, limit));
    let nose = balance.forward_limit.as_ref().map(|limit| check(context, LegKind::Nose, limit));
    main.into_iter().chain(nose).collect()
}

const fn side(kind: LegKind) -> &'static str {
    match kind {
        LegKind::Main => "aft",
        LegKind::Nose => "forward",
    }
}

fn check(context: &Context<'_>, kind: LegKind, limit: &Given<Ratio>) -> Finding {
    let (word, side) = (kind.word(), side(kind));
    let draft = Draft::new(
        &RULE,
        format!("{word} wheels with the centre of gravity at its {side} limit"),
        Phase::Always,
    )
    .advice()
    .mark(Mark::PlanningOnly)
    .at_most(percent(100.0));
    let (growth, worst, _) = match at_limit(context, kind, limit.value) {
        Ok(found) => found,
        Err(why) => return draft.unavailable(&why),
    };
    let demand = match &worst.judgement {
        PointJudgement::Known(demand) => demand,
        PointJudgement::Unknown(unknown) => {
            return draft.unproven(
                "part of the lane is not known deep enough for the load there",
                [unknown.need()],
            );
        }
    };
    let draft = draft
        .value(demand.utilisation)
        .place(demand.station, demand.station, Some(worst.lane))
        .step(plain_step(
            "growth of the standing load",
            growth_rule(&growth),
            derived(MOMENTS),
            growth_inputs(&growth, limit),
            growth.times,
        ))
        .step(plain_step(
            "strength used at the limit",
            "needed / credited; at the worst station, as in G20",
            derived("a ratio of two bearing ratios"),
            vec![
                computed("needed", demand.needed, "the ground at the limit of balance")
                    .under("needed"),
                computed("credited", demand.credited, "the ground at the limit of balance")
                    .under("credited"),
            ],
            demand.utilisation,
        ));
    if demand.holds() {
        return draft.pass(format!("the {word} wheels hold with it anywhere up to that limit"));
    }
    draft.instruct(format!("load no further {side} than planned")).conditional(format!(
        "with the centre of gravity at its {side} limit the ground does not carry the {word} \
             wheels"
    ))
}

const fn growth_rule(growth: &Growth) -> &'static str {
    match growth.of {
        Some(_) => "at the limit / as planned; the greater of the movements",
        None => "no load grows: 1",
    }
}

fn growth_inputs(growth: &Growth, limit: &Given<Ratio>) -> Vec<BasisInput> {
    let of = growth.of.into_iter().flat_map(|[there, planned]| {
        [
            computed("load at the limit", there, "loads at the limit of balance")
                .under("at the limit"),
            computed("load as planned", planned, MOMENTS).under("as planned"),
        ]
    });
    of.chain([given("limit", limit)]).collect()
}
