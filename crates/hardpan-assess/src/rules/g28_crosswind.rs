//! G28: the ground under the lee leg in the crosswind of the day.

use crate::context::Context;
use crate::draft::{Draft, computed, derived, need, plain_step};
use crate::ground::judged::under_lee;
use crate::ground::lee_leg::{SOURCE, heaviest, moved_load, stated};
use crate::rule::Rule;
use hardpan_ground::PointJudgement;
use hardpan_model::{Finding, Mark, Phase};
use hardpan_quantity::{Force, Quantity, percent};

pub(super) const RULE: Rule = Rule {
    code: "G28",
    name: "Crosswind on the lee leg",
    checks: "The ground under the main wheels with the load that the crosswind moves to the lee \
             leg, in the wind of the day with its gusts.",
    why: "Wind from the side leans the aeroplane on one leg; where the ground only just carries \
          it level, that leg breaks through first.",
    limit: "As G20. The load moved is the side force times its height over the track, or the \
            share of the weight that the aeroplane file states; it is counted on both legs and \
            all along the lanes.",
    applies: "Flights whose aeroplane states `gear.side_force_area` and `gear.side_force_height`, \
              or `gear.crosswind_share`. Advice where it states none. Bank and rudder in the air \
              are not counted.",
    source: SOURCE,
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let gear = &context.flight.aeroplane.gear;
    let draft = Draft::new(&RULE, "main wheels in the crosswind", Phase::Always)
        .mark(Mark::PlanningOnly)
        .at_most(percent(100.0));
    if !stated(gear) {
        let how = "from the maker, or gear.crosswind_share of the weight";
        return vec![draft.advice().unproven(
            "how much the wind leans the aeroplane on its lee leg is not stated",
            [need("aeroplane: gear.side_force_area, gear.side_force_height", how)],
        )];
    }
    let (moved, worst) = match heaviest(context.flight).and_then(|mass| {
        let moved = moved_load(context.flight, context.measured, mass)?;
        let worst =
            under_lee(context, moved.result.get().unwrap_or(Force::from_si(f64::INFINITY)))?;
        Ok((moved, worst))
    }) {
        Ok(found) => found,
        Err(why) => return vec![draft.unavailable(&why)],
    };
    let demand = match &worst.judgement {
        PointJudgement::Known(demand) => demand,
        PointJudgement::Unknown(unknown) => {
            let because = "part of the lane is not known deep or densely enough for this load";
            return vec![draft.unproven(because, [unknown.need()])];
        }
    };
    let told = moved.result.told();
    let draft = draft
        .value(demand.utilisation)
        .place(demand.station, demand.station, Some(worst.lane))
        .step(moved)
        .step(plain_step(
            "strength used under the lee leg",
            "needed / credited; at the worst station, as in G20",
            derived("a ratio of two bearing ratios"),
            vec![
                computed("needed", demand.needed, "the ground under the lee leg").under("needed"),
                computed("credited", demand.credited, "the ground under the lee leg")
                    .under("credited"),
            ],
            demand.utilisation,
        ));
    vec![draft.judged(
        format!("holds with {told} more on the lee leg"),
        format!("too weak with {told} more on the lee leg: wait for less wind from the side"),
    )]
}
