//! G52: ruts by station, how they grow, and what they cost in rolling.

use crate::by_formula::by_formula;
use crate::context::Context;
use crate::draft::{Draft, computed, constant, given_as, need, plain_step};
use crate::ground::LegKind;
use crate::ground::ruts_along::{RutStretch, ruts_along};
use crate::ground::two_layers::from_step;
use crate::rule::Rule;
use hardpan_ground::{BARBER_RUT, PASSES_TO_RUT, ROLLING_OF_RUTTING};
use hardpan_model::{Finding, Given, Mark, Phase, Source, Step, Tier};
use hardpan_quantity::{Amount, Force, Length, Quantity, inches};

pub(super) const RULE: Rule = Rule {
    code: "G52",
    name: "Ruts along the strip",
    checks: "Ruts after the passes of the flight stretch by stretch along both main lanes, by the \
             regression of Barber, Odom and Patrick with the strength credited there; how they \
             grow; where they reach the limit first, and after how many passes; and the rolling \
             resistance of pressing them.",
    why: "It tells where to look, where to grade first, and whether the run reckons with the drag \
          of ground that gives way.",
    limit: "3 in, the greatest depression that a published rule for unpaved surfaces allows. \
            Rolling: what the run reckons with in all.",
    applies: "Stretches where a stronger layer lies over a weaker one; the others are counted and \
              say nothing. Advice: G20 decides. The walls of old ruts are not counted.",
    source: Source::new(
        "CFR-14-139-307",
        "holes or depressions at most 3 in deep",
        Tier::Published,
    ),
    judge,
};

/// Passes after which growth is told.
const TOLD: [f64; 4] = [1.0, 10.0, 100.0, 1000.0];
/// Most stretches that are told one by one.
const STRETCHES: usize = 5;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let ruts = draft("ruts along the strip").at_most(inches(3.0));
    let left = draft("passes until ruts reach the limit");
    let rolling = draft("rolling resistance of the ruts");
    let Some(passes) = &context.flight.passes else {
        let how = "how many passes the ground must carry before it is mended";
        let needs = || [need("flight: passes", how)];
        let because = "the flight does not say how many passes the ground must carry";
        return [ruts, left, rolling].map(|one| one.unproven(because, needs())).into();
    };
    let (stretches, all) = match ruts_along(context) {
        Ok(found) => found,
        Err(why) => return [ruts, left, rolling].map(|one| one.unavailable(&why)).into(),
    };
    let mut by_depth: Vec<(&RutStretch, Length)> = stretches
        .iter()
        .filter_map(|stretch| Some((stretch, stretch.after(passes.value)?)))
        .collect();
    by_depth.sort_by(|a, b| b.1.si().total_cmp(&a.1.si()));
    let Some((deepest, rut)) = by_depth.first().copied() else {
        return [ruts, left, rolling].map(|one| one.unproven("the law does not hold", [])).into();
    };
    let silent = all - stretches.len();
    vec![
        along(ruts, deepest, (rut, passes), &by_depth, silent),
        until(left, deepest, (rut, passes)),
        drag(rolling, context, deepest, passes),
    ]
}

fn draft(title: &str) -> Draft {
    Draft::new(&RULE, title, Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat(format!("spread of the law: {}", BARBER_RUT.scatter))
}

fn law(stretch: &RutStretch, passes: &Given<f64>, rut: Length) -> Step {
    let inputs = vec![
        computed("load", stretch.single, "equivalent single wheel of the leg, as in G50"),
        computed("pressure", stretch.pressure, "T10"),
        given_as("passes", passes, Amount::coefficient(passes.value)),
        computed("thickness", stretch.thickness, "top of the layer used most there"),
        computed("bearing_ratio_above", stretch.above, "strength credited, see G20"),
        computed("bearing_ratio_below", stretch.below, "strength credited, see G20"),
    ];
    Step {
        formula: Some(BARBER_RUT.name),
        ..plain_step("rut depth", BARBER_RUT.expression, BARBER_RUT.source, inputs, rut)
    }
}

fn told(stretch: &RutStretch) -> String {
    let (from, to) = (Amount::from(stretch.from), Amount::from(stretch.to));
    format!("{}, {}", from.told_to(to), stretch.lane.word())
}

fn along(
    draft: Draft,
    deepest: &RutStretch,
    (rut, passes): (Length, &Given<f64>),
    by_depth: &[(&RutStretch, Length)],
    silent: usize,
) -> Finding {
    let growth: Vec<String> = TOLD
        .iter()
        .filter_map(|after| {
            let rut = Amount::from(deepest.after(*after)?);
            Some(format!("{} after {}", rut.told(), Amount::count(*after).told()))
        })
        .collect();
    let next: Vec<String> = by_depth
        .iter()
        .skip(1)
        .take(STRETCHES - 1)
        .map(|(stretch, rut)| format!("{} at {}", Amount::from(*rut).told(), told(stretch)))
        .collect();
    let mut text = format!("there {} passes", growth.join(", "));
    if !next.is_empty() {
        text = format!("{text}; next {}", next.join(", "));
    }
    if silent > 0 {
        text = format!("{text}; of {silent} more stretches the law says nothing");
    }
    draft
        .value(rut)
        .place(deepest.from, deepest.to, Some(deepest.lane))
        .step(law(deepest, passes, rut))
        .judged(text.clone(), format!("deeper than allowed; {text}"))
}

fn until(draft: Draft, deepest: &RutStretch, (rut, passes): (Length, &Given<f64>)) -> Finding {
    let draft = draft.at_least(Amount::count(passes.value)).place(
        deepest.from,
        deepest.to,
        Some(deepest.lane),
    );
    let Some(left) = deepest.passes_to(inches(3.0)) else {
        return draft.unproven("the law does not hold at so many passes", []);
    };
    let limit = inches(3.0);
    let inputs = vec![
        from_step("rut", rut, 0),
        given_as("passes", passes, Amount::coefficient(passes.value)),
        constant("limit", limit, RULE.source),
    ];
    let step = match by_formula(PASSES_TO_RUT.name, inputs) {
        Ok(step) => step,
        Err(why) => return draft.unavailable(&why),
    };
    draft.value(Amount::count(left)).step(law(deepest, passes, rut)).step(step).judged(
        "on ground without ruts; the place that reaches the limit first",
        "fewer than the flight asks for: mend the ground before",
    )
}

fn drag(draft: Draft, context: &Context<'_>, deepest: &RutStretch, passes: &Given<f64>) -> Finding {
    let draft = draft.place(deepest.from, deepest.to, Some(deepest.lane));
    let (Some(first), Some(before)) =
        (deepest.after(1.0), deepest.after((passes.value - 1.0).max(1.0)))
    else {
        return draft.unproven("the law does not hold at one pass", []);
    };
    let reckoned = match &context.measured.friction {
        Ok(friction) => friction.rolling.credited,
        Err(why) => return draft.unavailable(why),
    };
    let wheels = LegKind::Main.leg(context.flight).wheels.as_ref().map_or(1, |count| count.value);
    let wheel = Force::from_si(deepest.leg.si() / f64::from(wheels.max(1)));
    let of = |deepening: Length| {
        by_formula(
            ROLLING_OF_RUTTING.name,
            vec![
                computed("deepening", deepening, "rut of the law on its first pass"),
                computed("load", wheel, "load of the leg over its wheels"),
                computed("pressure", deepest.pressure, "T10"),
            ],
        )
    };
    let last = if passes.value < 2.0 {
        first
    } else {
        deepest.after(passes.value).map_or(first, |rut| rut - before)
    };
    let (step, last) = match (of(first), of(last)) {
        (Ok(step), Ok(last)) => (step, last.result),
        (Err(why), _) | (_, Err(why)) => return draft.unavailable(&why),
    };
    let text = format!(
        "on the first pass over fresh ground; on pass {} it is {}",
        Amount::count(passes.value).told(),
        last.told()
    );
    draft.value(step.result).at_most(reckoned).step(step).judged(
        text.clone(),
        format!("more than the run reckons with in all, which is then too little; {text}"),
    )
}
