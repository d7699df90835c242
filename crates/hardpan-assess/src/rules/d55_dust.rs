//! D55: how long the next aeroplane waits for the dust, and on which side.

use crate::by_formula::{by_formula, result_of};
use crate::context::Context;
use crate::draft::{Draft, beside, computed, constant, derived, given, given_as, need, plain_step};
use crate::ground::two_layers::from_step;
use crate::jet::{STONE_DENSITY, behind};
use crate::measured::{Known, Unavailable};
use crate::rule::Rule;
use hardpan_debris::{AIR_VISCOSITY_PA_S, Grain, Jet, JetPath};
use hardpan_model::{
    Direction, Finding, Given, Mark, Phase, Source, Step, SurfaceKind, SurfaceState, Tier,
};
use hardpan_quantity::{
    Acceleration, Amount, Density, Length, Quantity, Speed, Time, metres, metres_per_second,
    percent, ratio,
};

pub(super) const RULE: Rule = Rule {
    code: "D55",
    name: "Dust",
    checks: "How far behind take-off thrust lifts the dust of the surface, and how long it then \
             hangs over the strip: until nine tenths have settled, or until the least sure \
             crosswind has carried the cloud off, whichever comes first; and the side to wait on.",
    why: "In another aeroplane's dust nobody sees the strip, and engines and filters swallow it.",
    limit: "None that fails by itself: it becomes a time to wait.",
    applies: "Take-offs from dry gravel and dirt, and from turf where a dust size is stated. \
              Screening: a cloud 10 m high reaching half a span beyond the strip's half width, \
              nine tenths settled and a skin friction of 0.005 are judgement; a gust is not \
              counted. Wet and frozen ground holds its dust (common practice).",
    source: CLOUD,
    judge,
};

const CLOUD: Source =
    Source::new("FERGUSON-CHURCH-2004", "settling, in a cloud taken by judgement", Tier::Judgement);
const TAKEN: Source = Source::new("", "cloud taken", Tier::Judgement);
const CLOUD_HEIGHT_M: f64 = 10.0;
const SHARE_LEFT_PERCENT: f64 = 10.0;
const SKIN_FRICTION: f64 = 0.005;
/// Below this a wind is no wind: it shifts and drops. Judgement.
const LEAST_WIND_KT: f64 = 1.0;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    let Some(take_off) = &flight.take_off else { return Vec::new() };
    let draft = Draft::new(&RULE, "dust behind the take-off", Phase::BeforeBrakeRelease)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat("screening only; look before you move");
    let state = flight.day.surface_state.as_ref().map(|state| state.value);
    if state.is_some_and(|state| state != SurfaceState::Dry) {
        return vec![draft.pass("ground that is not dry holds its dust")];
    }
    let Some(grain) = &flight.strip.dust_grain else {
        if flight.strip.surface.as_ref().is_some_and(|kind| kind.value == SurfaceKind::Grass) {
            return Vec::new();
        }
        return vec![draft.unproven(
            "how fine the dust of the surface is, is not known",
            [need("strip: dust_grain", "median size of the fines, by a sedimentation test")],
        )];
    };
    let direction = take_off.direction.as_ref().map(|direction| direction.value);
    vec![match found(context, grain, direction) {
        Ok(found) => told(draft, grain, &found),
        Err(why) => draft.unavailable(&why),
    }]
}

/// The cloud and its end.
struct Found {
    lifted_to: Length,
    settled: Time,
    blown: Option<Time>,
    /// The side that the wind comes from, in words.
    side: Option<&'static str>,
    steps: Vec<Step>,
}

fn found(
    context: &Context<'_>,
    grain: &Given<Length>,
    direction: Option<Direction>,
) -> Known<Found> {
    let flight = context.flight;
    let refused = |error: hardpan_debris::Error| Unavailable::refused("the dust", &error);
    let air = context.measured.air.as_ref().map_err(Clone::clone)?.density();
    let dust =
        Grain { diameter: grain.value, density: Density::from_si(STONE_DENSITY), air_density: air };
    let settling = dust.settling_speed().map_err(refused)?;
    let settles = settling_step(grain, (dust.density, air), settling)?;
    let settled = by_formula(
        "dust-settling-time",
        vec![
            from_step("settling speed", settling, 0),
            constant("share left in the air", percent(SHARE_LEFT_PERCENT), TAKEN),
            constant("height of the cloud", metres(CLOUD_HEIGHT_M), TAKEN),
        ],
    )?;
    let threshold = dust.sheet_threshold(SKIN_FRICTION).map_err(refused)?;
    let jets = behind(context, ratio(1.0))?;
    let jet = Jet {
        diameter: jets.diameter,
        speed: jets.speed,
        density_ratio: ratio(1.0),
        count: jets.count,
    };
    let lifted_to = jet.reach(threshold, JetPath::AlongGround).map_err(refused)?;
    let (Some(width), Some(span)) = (&flight.strip.width, &flight.aeroplane.wing.span) else {
        let wanted = need("strip: width; aeroplane: wing.span", "how wide the cloud is");
        return Err(Unavailable::missing("the dust", vec![wanted]));
    };
    let (cross, side) = crosswind(context, direction)?;
    let mut steps = vec![settles, settled];
    let mut blown = None;
    if cross >= hardpan_quantity::knots(LEAST_WIND_KT) {
        let step = by_formula(
            "dust-clearing-time",
            vec![
                given_as("half width of the strip", width, (0.5 * width.value).into()),
                given_as(
                    "half width of the cloud, of strip and span",
                    span,
                    (0.5 * (width.value + span.value)).into(),
                ),
                computed("crosswind, the least that is sure", cross, "wind of the day"),
            ],
        )?;
        blown = Some(result_of(&step)?);
        steps.push(step);
    }
    let settled = steps.get(1).map_or_else(|| Ok(Time::default()), result_of)?;
    Ok(Found { lifted_to, settled, blown, side, steps })
}

/// The settling speed by its law.
fn settling_step(
    grain: &Given<Length>,
    (density, air): (Density, Density),
    settling: Speed,
) -> Known<Step> {
    let of_law = |name: &str, value: f64| constant(name, Amount::coefficient(value), CLOUD);
    let gravity = Acceleration::from_si(hardpan_quantity::STANDARD_GRAVITY_M_PER_S2);
    let inputs = vec![
        given("dust grain", grain),
        constant("density of the grain", density, CLOUD),
        computed("air density", air, "air of the day"),
        of_law("viscosity", AIR_VISCOSITY_PA_S),
        constant("gravity", gravity, CLOUD),
        of_law("viscous constant", 18.0),
        of_law("drag constant", 1.0),
    ];
    let step = by_formula("settling-speed-ferguson-church-2004", inputs)?;
    Ok(Step { result: settling.into(), ..step })
}

/// The wait, and what the crew is told of it.
fn wait_steps(grain: &Given<Length>, found: &Found, wait: Time) -> [Step; 2] {
    let lifted = beside("dust lifted behind, to", found.lifted_to, "threshold of Shao and Lu");
    let mut inputs = vec![from_step("settling", found.settled, 1).under("settling")];
    inputs.extend(found.blown.map(|blown| from_step("clearing", blown, 2).under("clearing")));
    inputs.extend([given("dust grain", grain), lifted]);
    let rule = match found.blown {
        Some(_) => "lesser of settling and clearing; clearing by the wind",
        None => "settling; no wind is sure to carry it off",
    };
    let last = found.steps.len();
    let minutes = minutes(wait);
    let held = Time::from_si(minutes * 60.0);
    let told = "wait, rounded up to whole minutes; up, since the last of the dust would still hang";
    [
        plain_step("wait for the dust", rule, CLOUD, inputs, wait),
        plain_step(
            &format!("wait that the crew holds, {minutes:.0} min"),
            told,
            derived("a clock shows whole minutes"),
            vec![from_step("wait for the dust", wait, last).under("wait")],
            held,
        ),
    ]
}

/// Whole minutes, at least one.
fn minutes(wait: Time) -> f64 {
    (wait.si() / 60.0).ceil().max(1.0)
}

fn told(draft: Draft, grain: &Given<Length>, found: &Found) -> Finding {
    let wait = found.blown.map_or(found.settled, |blown| blown.min(found.settled));
    let minutes = minutes(wait);
    let steps = found.steps.iter().cloned().chain(wait_steps(grain, found, wait));
    let draft = draft.value(wait).steps(steps);
    let side = match found.side {
        Some(side) => format!(", holding on the upwind side ({side} of the take-off)"),
        None => ", and longer while it is seen to hang: no side is sure to be upwind".to_owned(),
    };
    let by = match found.blown {
        Some(blown) if blown <= found.settled => "the wind carries it off first",
        Some(_) => "it settles before the wind carries it off",
        None => "there is no crosswind that is sure to carry it off",
    };
    draft.instruct(format!("the next aeroplane waits {minutes:.0} min for dust{side}")).conditional(
        format!(
            "take-off thrust lifts the dust to {} behind; {by}",
            Amount::from(found.lifted_to).told()
        ),
    )
}

/// The least crosswind that is sure and the side that it comes from: none
/// where the direction is not one.
fn crosswind(
    context: &Context<'_>,
    direction: Option<Direction>,
) -> Known<(Speed, Option<&'static str>)> {
    let missing = |what: &str| {
        let wanted = need(what, "the wind carries the dust");
        Unavailable::missing("where the dust goes", vec![wanted])
    };
    let wind = context.flight.day.wind.as_ref().ok_or_else(|| missing("day: wind"))?;
    let bearing = context.flight.strip.bearing.as_ref().ok_or_else(|| missing("strip: bearing"))?;
    let direction = direction.ok_or_else(|| missing("flight: take_off.direction"))?;
    let (Some(from), None) = (wind.value.from, wind.value.between) else {
        return Ok((Speed::default(), None));
    };
    let along = match direction {
        Direction::Up => bearing.value.si(),
        Direction::Down => bearing.value.si() + std::f64::consts::PI,
    };
    let cross = wind.value.speed.si() * (from.si() - along).sin();
    let side = match cross {
        c if c.abs() < hardpan_quantity::knots(LEAST_WIND_KT).si() => None,
        c if c > 0.0 => Some("right"),
        _ => Some("left"),
    };
    Ok((metres_per_second(cross.abs()), side))
}
