//! F45: the net take-off flight path over obstacles.

use crate::by_formula::catalogued;
use crate::context::Context;
use crate::draft::{Draft, beside, computed, constant, derived, given, given_as, plain_step};
use crate::movements::obstacles::{CLEARANCE_M, FlownOver, Under, flown_over};
use crate::rule::Rule;
use hardpan_model::{FieldRule, Finding, Mark, Phase, Source, Step, Tier};
use hardpan_quantity::{Length, metres};
use hardpan_run::OBSTACLE_CORRIDOR;

/// Most obstacles that get a finding of their own.
const MOST: usize = 4;
const CORRIDOR: Source = Source::new("CAT-POL-A", ".210(a)", Tier::Secondary);

pub(super) const RULE: Rule = Rule {
    code: "F45",
    name: "Obstacles",
    checks: "Height of the net path with one engine out over each obstacle ahead, from the end of \
             the take-off distance on, straight ahead.",
    why: "Deflectors on a gear that stays down, bleeds that feed protection and a short strip take \
          height just where trees and masts stand.",
    limit: "35 ft over each obstacle in a corridor of half the span and 60 m (90 m from a span of \
            60 m on) and an eighth of the distance beyond the take-off distance available to \
            either side. Net is gross less 0.8 %, 0.9 % \
            or 1.0 % with two, three or four engines.",
    applies: "Take-offs under a rule that accounts for an engine failure. The path is levelled \
              where the gross path reaches the level-off height, and no climb after it is counted; \
              its gradients are those at that height. Short of the end of the take-off distance no \
              height is counted; obstacles beside the running surface are not judged.",
    source: Source::new("CFR-25-115", "(b), (c)", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    let Some(plan) = &flight.take_off else { return Vec::new() };
    if plan.rule.as_ref().is_none_or(|rule| rule.value != FieldRule::LargeTakeOff) {
        return Vec::new();
    }
    let draft = |title: String| Draft::new(&RULE, title, Phase::Climb).mark(Mark::PlanningOnly);
    let whole = || draft("net path over obstacles".to_owned());
    let run = match &context.measured.take_off {
        Some(Ok(run)) => run,
        Some(Err(why)) => return vec![whole().unavailable(why)],
        None => return Vec::new(),
    };
    let flown = match flown_over(flight, context.measured, run) {
        Ok(flown) => flown,
        Err(why) if why.needs.is_empty() => return vec![whole().fail(why.because)],
        Err(why) => return vec![whole().unavailable(&why)],
    };
    let counted: Vec<&Under<'_>> = flown.counted().collect();
    if counted.is_empty() {
        let because = match flown.obstacles.len() {
            0 => "no obstacle stands ahead of the take-off",
            _ => "no obstacle stands in the corridor ahead of the take-off",
        };
        return vec![elsewhere(whole().mark(Mark::Measured), &flown).pass(because)];
    }
    let one = |under: &&Under<'_>| over(context, &flown, under, counted.len(), draft);
    counted.iter().take(MOST).map(one).collect()
}

fn over(
    context: &Context<'_>,
    flown: &FlownOver<'_>,
    under: &Under<'_>,
    count: usize,
    draft: impl Fn(String) -> Draft,
) -> Finding {
    let mut draft = draft(format!("net path over {}", under.name()))
        .value(under.clearance())
        .at_least(metres(CLEARANCE_M))
        .step(corridor(context, flown, under))
        .step(net_path(context, flown, under))
        .step(plain_step(
            "height of the net path over the obstacle",
            "net path − top",
            derived("heights over the surface at the end of the take-off distance"),
            vec![
                computed("height of the net path", under.net, "step above").under("net path"),
                given_as("top of the obstacle", &under.obstacle.top, under.top.into()).under("top"),
                constant("least clearance", metres(CLEARANCE_M), CORRIDOR),
            ],
            under.clearance(),
        ));
    draft = elsewhere(draft, flown);
    if count > MOST {
        draft = draft.caveat(format!("{} more obstacles are cleared by more", count - MOST));
    }
    let plan = context.flight.take_off.as_ref();
    if context.flight.aeroplane.speeds.gear_up_after.is_none() {
        draft = draft
            .caveat("the time in which the gear comes up is not stated; it is taken to stay down");
    }
    if plan.is_some_and(|plan| plan.level_off.is_none()) {
        draft =
            draft.caveat("no level-off height is stated; 400 ft, the least of the rule, counts");
    }
    draft
        .caveat("straight ahead: no turn is counted")
        .judged("cleared by the net path", "not cleared by the net path")
}

fn elsewhere(draft: Draft, flown: &FlownOver<'_>) -> Draft {
    match flown.elsewhere {
        0 => draft,
        count => draft.caveat(format!(
            "beside the running surface or behind the take-off, and so not on the path: {count} of \
             the obstacles of the strip file"
        )),
    }
}

fn corridor(context: &Context<'_>, flown: &FlownOver<'_>, under: &Under<'_>) -> Step {
    let span = context.flight.aeroplane.wing.span.as_ref();
    let span =
        span.map_or_else(|| computed("span", flown.span, "aeroplane"), |span| given("span", span));
    let beyond = given_as(
        "distance beyond the take-off distance available",
        &under.obstacle.station,
        under.beyond_available.into(),
    );
    Step {
        computes: "half width of the corridor at the obstacle".to_owned(),
        ..catalogued(&OBSTACLE_CORRIDOR, vec![span, beyond], under.half_width)
    }
}

/// The line of the path: gear down, then up, then level, never below the surface.
fn path_rule(comes_up: bool, levels: bool) -> String {
    let reach = if levels { "(lesser of beyond and level at)" } else { "beyond" };
    match comes_up {
        true => format!(
            "greater of 0 and screen + (down − reduction) × (lesser of {reach} and gear up at) + \
             (up − reduction) × (greater of {reach} − gear up at and 0)"
        ),
        false => format!("greater of 0 and screen + (down − reduction) × {reach}"),
    }
}

fn net_path(context: &Context<'_>, flown: &FlownOver<'_>, under: &Under<'_>) -> Step {
    let [down, up] = flown.path.gross_gradients();
    let by = "the take-off run, with one engine out";
    let gear_up = flown.path.gear_up_beyond();
    let level = flown.path.level_beyond();
    let mut inputs = vec![
        beside("screen", flown.path.screen(), "of the rule, with one engine out").under("screen"),
        computed("gross gradient over the ground, gear down", down, by).under("down"),
        computed("gross gradient over the ground, gear up", up, by).under("up"),
        computed("what the rule takes off", flown.path.reduction(), by).under("reduction"),
        computed("take-off distance", flown.take_off_distance, "the take-off run, F10"),
        given_as("distance beyond it", &under.obstacle.station, under.beyond.into())
            .under("beyond"),
        beside("height of the gross path there", under.gross, "the same path, nothing taken off"),
    ];
    let plan = context.flight.take_off.as_ref();
    inputs.extend(plan.and_then(|plan| plan.mass.as_ref()).map(|one| given("take-off mass", one)));
    let after = context.flight.aeroplane.speeds.gear_up_after.as_ref();
    inputs.extend(after.map(|after| given("gear up after lift-off", after)));
    let level_off = plan.and_then(|plan| plan.level_off.as_ref());
    inputs.extend(level_off.map(|height| given("level-off height", height)));
    let name = |at: Length, words: &str, symbol| computed(words, at, by).under(symbol);
    inputs.extend(gear_up.map(|at| name(at, "gear is up beyond it at", "gear up at")));
    inputs.extend(level.map(|at| name(at, "levelled off beyond it at", "level at")));
    let is_short = under.beyond < metres(0.0);
    if is_short {
        inputs.iter_mut().for_each(|input| input.symbol = None);
    }
    let rule = match is_short {
        true => "none counts short of the end of the take-off distance".to_owned(),
        false => path_rule(gear_up.is_some(), level.is_some()),
    };
    plain_step("height of the net path", &rule, RULE.source, inputs, under.net)
}
