//! The governing layers of the ground, and the ground at other loads than those of
//! G20 and G30.

use super::{after, figure};
use crate::assess::figure_basis::FigureBasis;
use crate::context::Context;
use crate::draft::{computed, constant, derived, plain_step};
use crate::ground::judged::{JudgedGround, judged_grounds};
use crate::ground::leg_load::{MOMENTS, as_planned, load_there};
use crate::ground::passes_left::passes_left;
use crate::ground::strength_finding::{needed_step, strength_steps};
use crate::ground::{Ground, LegKind, Worst};
use crate::measured::Carried;
use hardpan_ground::{NOMINAL_COVER_M, PointDemand, PointJudgement};
use hardpan_model::{Source, Step, Tier};
use hardpan_quantity::{Amount, Force, Length, Quantity, Ratio, metres};

const SOUNDINGS: &str = "soundings of the strip";
const COVER: Source = Source::new("", "upper layer that wheels share", Tier::Judgement);

pub(super) fn figures(context: &Context<'_>) -> Vec<FigureBasis> {
    let judged = judged_grounds(context);
    let measured = context.measured;
    let worst = |carried: &Carried| carried.0.clone();
    let carried = [&measured.main_carried, &measured.nose_carried];
    let carried = carried.into_iter().filter_map(|one| one.as_ref().ok().map(worst));
    let all = carried.chain(judged.iter().map(|one| one.worst.clone())).chain(gives_first(context));
    let mut demands: Vec<PointDemand> = all.filter_map(|worst| demand(&worst)).collect();
    demands.sort_by(|a, b| a.depth.si().total_cmp(&b.depth.si()));
    demands.dedup_by(|a, b| a.depth == b.depth);
    let layers = figure("the governing layer", demands.into_iter().flat_map(layer).collect());
    let others = judged.iter().filter_map(|one| ground(context, one));
    layers.into_iter().chain(others).collect()
}

fn demand(worst: &Worst) -> Option<PointDemand> {
    match &worst.judgement {
        PointJudgement::Known(demand) => Some(*demand),
        PointJudgement::Unknown(_) => None,
    }
}

/// Where the ground gives first when more passes are counted.
fn gives_first(context: &Context<'_>) -> Vec<Worst> {
    let measured = context.measured;
    let (Ok(ground), Ok(loads), Some(asked)) =
        (&measured.ground, &measured.loads, &context.flight.passes)
    else {
        return Vec::new();
    };
    let kinds = [(LegKind::Main, &measured.main_tyre), (LegKind::Nose, &measured.nose_tyre)];
    let of = |(kind, tyre): (LegKind, &crate::measured::Known<crate::tyres::TyrePressure>)| {
        let set = tyre.as_ref().ok()?.set;
        Some(passes_left(ground, kind, set, loads.of(kind), asked.value).ok()?.gives?.0)
    };
    kinds.into_iter().filter_map(of).collect()
}

/// Top of a governing layer, and the depth at which it is held to the criterion.
pub(crate) fn layer(demand: PointDemand) -> [Step; 2] {
    let cover: Length = demand.depth.max(metres(NOMINAL_COVER_M));
    let top = || computed("top of its stratum", demand.depth, SOUNDINGS);
    let step = |computes, expression, inputs, result: Length| {
        plain_step(computes, expression, derived("layers of the soundings"), inputs, result)
    };
    let least = constant("upper layer", metres(NOMINAL_COVER_M), COVER);
    [
        step(
            "top of the governing layer",
            "the layer that is used most",
            vec![top()],
            demand.depth,
        ),
        step(
            "depth of its criterion",
            "greater of top and upper layer",
            vec![top().under("top"), least.under("upper layer")],
            cover,
        ),
    ]
}

fn ground(context: &Context<'_>, judged: &JudgedGround) -> Option<FigureBasis> {
    let demand = demand(&judged.worst)?;
    let mut steps = vec![load(context, judged)];
    steps.extend(strength(context, (&judged.ground, &judged.worst, &demand), judged));
    let worst = &judged.worst;
    steps.push(needed_step(context, judged.kind, worst, &judged.table, &demand));
    figure(judged.name, steps)
}

/// The load of the leg there, with what the rule makes of it.
fn load(context: &Context<'_>, judged: &JudgedGround) -> Step {
    const NAME: &str = "load of the leg there";
    let load = judged.worst.load;
    let Some((by, amount)) = judged.load_by else {
        return load_there(context, judged.kind, NAME, load);
    };
    let by_rule = |words: &str, symbol| computed(words, amount, by).under(symbol);
    let below = |load| as_planned(context, judged.kind, load);
    let (rule, inputs) = match (amount.get::<Ratio>(), amount.get::<Force>()) {
        (Some(growth), _) => (
            "load as planned × growth",
            vec![below(load / growth.si().max(f64::MIN_POSITIVE)), by_rule("growth", "growth")],
        ),
        (_, Some(whole)) if whole == load => {
            ("load; as the turn makes it", vec![by_rule("load of the outer leg", "load")])
        }
        (_, Some(moved)) => (
            "load as planned + moved",
            vec![below(load - moved), by_rule("load that the wind moves", "moved")],
        ),
        _ => ("as the rule finds it", vec![by_rule("by the rule", "load")]),
    };
    plain_step(NAME, rule, derived(MOMENTS), inputs, load)
}

/// Strength of the governing layer, with what weakens it besides the soundings.
fn strength(
    context: &Context<'_>,
    (ground, worst, demand): (&Ground, &Worst, &PointDemand),
    judged: &JudgedGround,
) -> Vec<Step> {
    let Some(point) = ground.point(worst.lane, worst.index) else { return Vec::new() };
    let mut steps = after(1, strength_steps(context, point, demand));
    for step in &mut steps {
        if step.result == Amount::from(demand.available) {
            step.inputs.extend(judged.weakened_by.iter().cloned());
        }
    }
    steps
}
