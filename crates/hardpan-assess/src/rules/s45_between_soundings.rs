//! S45: how weak the ground between soundings may be.

use crate::context::Context;
use crate::draft::{Draft, computed, constant, derived, given, need, plain_step};
use crate::ground::judged::between;
use crate::rule::Rule;
use hardpan_ground::{
    DEFAULT_CORRELATION_SOURCE, LENGTHS_IN_REACH, PointJudgement, correlation_from_reach,
};
use hardpan_model::{Finding, Mark, Phase, Source, Tier};
use hardpan_quantity::{Amount, percent};

pub(super) const RULE: Rule = Rule {
    code: "S45",
    name: "Ground between soundings",
    checks: "The ground under the main wheels with its strength falling away from the soundings: \
             between them it counts no stronger than their mean less the deviation that grows \
             with the distance.",
    why: "A sounding tells of its own place. The further from it, the more the ground may differ, \
          and nobody has looked.",
    limit: "100 %, as G20. The ground is taken to be alike over half the reach of a sounding \
            (judgement), and to scatter as all soundings of the strip do.",
    applies: "Strips that do not state `soundings_info.correlation_length`: advice. Where they \
              do, the strength falls so in every check of the ground.",
    source: Source::new("MATHERON-1963", "ordinary kriging", Tier::Derived),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let strip = &context.flight.strip;
    if strip.sounding_rules.correlation_length.is_some() || strip.soundings.is_empty() {
        return Vec::new();
    }
    let draft = Draft::new(&RULE, "ground between soundings, main wheels", Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly)
        .at_most(percent(100.0));
    let worst = match between(context) {
        Ok((_, worst)) => worst,
        Err(why) => return vec![draft.unavailable(&why)],
    };
    let demand = match &worst.judgement {
        PointJudgement::Known(demand) => demand,
        PointJudgement::Unknown(unknown) => {
            let because = "part of the lane is not known deep or densely enough for this load";
            return vec![draft.unproven(because, [unknown.need()])];
        }
    };
    let (from, to) = worst
        .stretches
        .iter()
        .copied()
        .find(|(from, to)| *from <= demand.station && demand.station <= *to)
        .unwrap_or((demand.station, demand.station));
    let reach = match &strip.sounding_reach {
        Some(reach) => given("reach of a sounding", reach),
        None => constant(
            "reach of a sounding",
            context.measured.sounding_reach,
            hardpan_ground::DEFAULT_REACH_SOURCE,
        ),
    };
    let draft = draft
        .value(demand.utilisation)
        .place(from, to, Some(worst.lane))
        .step(plain_step(
            "length over which the ground is taken to be alike",
            "reach / lengths in the reach",
            DEFAULT_CORRELATION_SOURCE,
            vec![
                reach.under("reach"),
                constant(
                    "lengths in the reach",
                    Amount::coefficient(LENGTHS_IN_REACH),
                    DEFAULT_CORRELATION_SOURCE,
                )
                .under("lengths in the reach"),
            ],
            correlation_from_reach(strip),
        ))
        .step(plain_step(
            "strength used between soundings",
            "needed / credited; as in G20",
            derived("a ratio of two bearing ratios"),
            vec![
                computed("needed", demand.needed, "the ground between soundings").under("needed"),
                computed("credited", demand.credited, "the ground between soundings")
                    .under("credited"),
            ],
            demand.utilisation,
        ));
    if demand.holds() {
        return vec![draft.pass("it holds between the soundings too, as far as they scatter")];
    }
    let at = Amount::from(demand.station).told();
    vec![draft.unproven(
        "between soundings the ground may be too weak: the strip does not say how far it is alike",
        [
            need(&format!("strip: soundings, one at {at}"), "on the lane of the wheels"),
            need(
                "strip: soundings_info.correlation_length",
                "over which the ground is alike, from soundings close together",
            ),
        ],
    )]
}
