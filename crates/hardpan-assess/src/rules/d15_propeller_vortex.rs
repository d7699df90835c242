//! D15: the ground vortex under propellers, at take-off power and along the run.

use super::d20_vortex_along_the_run::stones;
use crate::by_formula::{by_formula, result_of};
use crate::context::Context;
use crate::draft::{Draft, beside, computed, constant, derived, given, need, plain_step};
use crate::ground::two_layers::from_step;
use crate::measured::{Known, Unavailable};
use crate::propeller_vortex::{
    SINK_DISC, propeller, propeller_exposure, propeller_exposure_of, propeller_inputs,
    static_thrust,
};
use crate::rule::Rule;
use crate::run_basis::{by_station, thrust_inputs};
use crate::vortex::flat_tyre::{propeller_on_flat_tyre, with_flat_tyre};
use crate::vortex::{Exposure, air_and_wind, at_idle_told, is_propeller, swept, total};
use hardpan_debris::Assurance;
use hardpan_model::{Finding, Given, Mark, Phase, Source, Step, Tier};
use hardpan_quantity::{Amount, Density, Force, Length, Quantity, Ratio, Speed, knots};
use hardpan_run::TakeOffRun;

pub(super) const RULE: Rule = Rule {
    code: "D15",
    name: "Propeller vortex",
    checks: "The ground speed below which take-off power may hold a vortex between the ground and \
             the propellers, with its band; where along the run one is expected and the loose \
             stones that were counted there; and whether one stands at idle, lined up.",
    why: "A propeller lifts stones into its own disc: blades are cut at the leading edge and the \
          tip, mostly in the first seconds of a standing run-up.",
    limit: "None that fails by itself: it becomes an instruction with its speed. Approved power \
            limits bind over it.",
    applies: "Take-offs with turboprops. Screening: an inviscid disc and its image, derived, with \
              a judged band of risk 0.8 to 1.25; real vortices last to a somewhat higher speed. \
              No crosswind is credited, and a tailwind is nothing.",
    source: SINK_DISC,
    judge,
};

const BAND: Source = Source::new("", "risk below 0.8 none, above 1.25 expected", Tier::Judgement);

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let Some(run) = &context.measured.take_off else { return Vec::new() };
    if !is_propeller(context.flight) {
        return Vec::new();
    }
    let run = match run {
        Ok(run) => run,
        Err(why) => return vec![draft("propeller vortex", Phase::TakeOff).unavailable(why)],
    };
    let mut findings = vec![match at_power(context, run) {
        Ok(found) => lowest(found),
        Err(why) => draft("propeller vortex at take-off power", Phase::TakeOff).unavailable(&why),
    }];
    let lined_up = |title| draft(title, Phase::BeforeBrakeRelease);
    match propeller_exposure(context, run) {
        Ok(found) => {
            findings.push(along(context, &found, on_flat_tyre(context, run)));
            findings.push(stones(context, lined_up("loose stones under the propellers"), &found));
        }
        Err(why) => findings.push(lined_up("propeller vortex along the run").unavailable(&why)),
    }
    findings.push(at_idle(context, run));
    findings
}

fn draft(title: &str, phase: Phase) -> Draft {
    Draft::new(&RULE, title, phase)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat("screening only; inviscid, with a judged band")
}

/// Speeds at take-off power.
struct AtPower {
    flat: Known<(Speed, Step)>,
    off: Speed,
    not_on: Speed,
    headwind: Speed,
    steps: Vec<Step>,
}

fn at_power(context: &Context<'_>, run: &TakeOffRun) -> Known<AtPower> {
    let propeller = propeller(context.flight)?;
    let thrust: Force = static_thrust(context.flight, run)?;
    let (air, wind) = air_and_wind(context)?;
    let density: Density = context.measured.air.as_ref().map_err(Clone::clone)?.density();
    let speed = |assurance| {
        propeller
            .lowest_speed_for(thrust, &air, &wind, assurance)
            .map_err(|error| Unavailable::refused("the propeller vortex", &error))
    };
    let flat = propeller_on_flat_tyre(context.flight).and_then(|(lower, lowered)| {
        let off = lower
            .lowest_speed_for(thrust, &air, &wind, Assurance::Off)
            .map_err(|error| Unavailable::refused("the propeller vortex", &error))?;
        Ok((off, lowered))
    });
    let engines = &context.flight.aeroplane.engines;
    let rows = [
        Some(computed("thrust of one propeller, standing", thrust, "the take-off run")),
        engines.propeller_diameter.as_ref().map(|value| given("propeller diameter", value)),
        engines.propeller_height.as_ref().map(|value| given("height of its axis", value)),
        Some(computed("air density", density, "air of the day")),
    ];
    let step = by_formula("propeller-vortex-blow-away", rows.into_iter().flatten().collect())?;
    let steps = vec![step];
    Ok(AtPower {
        flat,
        off: speed(Assurance::Off)?,
        not_on: speed(Assurance::NotOn)?,
        headwind: wind.headwind,
        steps,
    })
}

fn lowest(found: AtPower) -> Finding {
    let blown: Speed =
        found.steps.first().and_then(|step| result_of(step).ok()).unwrap_or_default();
    let what = "ground speed from which no vortex is expected";
    let draft = draft("propeller vortex at take-off power", Phase::TakeOff)
        .value(found.off)
        .steps(found.steps.iter().cloned())
        .step(plain_step(
            what,
            "greater of blow-away speed / risk − headwind and 0",
            SINK_DISC,
            vec![
                computed("blow-away speed", blown, "the step above").under("blow-away speed"),
                computed("headwind, the least that is sure", found.headwind, "wind of the day")
                    .under("headwind"),
                constant("risk below which none is expected", Amount::coefficient(0.8), BAND)
                    .under("risk"),
            ],
            found.off,
        ));
    let (draft, flat) = with_flat_tyre(draft, what, SINK_DISC, found.flat);
    let flat =
        flat.map_or_else(String::new, |flat| format!("; with a flat tyre up to {}", shown(flat)));
    if found.off <= Speed::default() {
        return draft.pass(format!("this headwind blows the vortex away even standing{flat}"));
    }
    let [off, not_on] = [found.off, found.not_on].map(shown);
    draft
        .instruct(format!(
            "do not set full power until {off} ground speed: power up while rolling over loose \
             ground"
        ))
        .conditional(format!(
            "at take-off power a vortex is expected below {not_on} and may stand up to {off}{flat}"
        ))
}

/// Ground over which a vortex is expected with a flat tyre.
fn on_flat_tyre(context: &Context<'_>, run: &TakeOffRun) -> Known<(Length, Step)> {
    let (propeller, lowered) = propeller_on_flat_tyre(context.flight)?;
    Ok((total(&propeller_exposure_of(context, run, &propeller)?.expected), lowered))
}

fn along(context: &Context<'_>, found: &Exposure, flat: Known<(Length, Step)>) -> Finding {
    let (expected, possible) = (total(&found.expected), total(&found.possible));
    let mut inputs = propeller_inputs(context.flight);
    inputs.extend(thrust_inputs(context.flight));
    inputs.extend(by_station(context.measured, false));
    inputs.push(beside("stretch near the onset", possible, "risk between 0.8 and 1.25"));
    let what = "stretch with a vortex expected";
    let draft = draft("propeller vortex along the run", Phase::BeforeBrakeRelease)
        .value(expected)
        .step(plain_step(
            what,
            "blow-away speed over relative wind above 1.25, by station",
            SINK_DISC,
            inputs,
            expected,
        ));
    let (draft, flat) = with_flat_tyre(draft, what, SINK_DISC, flat);
    let flat = flat.map_or_else(String::new, |flat| {
        format!("; with a flat tyre expected over {}", Amount::from(flat).told())
    });
    let Some((from, to)) = found.span_in_doubt() else {
        return draft.pass(format!(
            "at the power planned no vortex is expected under the propellers{flat}"
        ));
    };
    draft
        .place(from, to, None)
        .instruct(format!("{}: propeller vortex expected or possible", swept(from, to)))
        .conditional(format!("under the propellers a vortex {}{flat}", found.told()))
}

fn at_idle(context: &Context<'_>, run: &TakeOffRun) -> Finding {
    let draft = draft("propeller vortex at idle, lined up", Phase::BeforeBrakeRelease);
    let Some(idle) = &context.flight.aeroplane.engines.idle_share else {
        return draft.unproven(
            "the thrust at idle is not known",
            [need("aeroplane: engines.idle_share", "share of static take-off thrust")],
        );
    };
    let found = propeller(context.flight).and_then(|propeller| {
        let (air, wind) = air_and_wind(context)?;
        let refused = |error| Unavailable::refused("the propeller vortex", &error);
        let full = static_thrust(context.flight, run)?;
        let thrust = idle.value.si() * full;
        let state = propeller.vortex(thrust, &air, knots(0.0), &wind).map_err(refused)?;
        let blown = propeller.blow_away_speed(thrust, &air).map_err(refused)?;
        let steps = idle_steps(context, idle, (full, thrust), blown).unwrap_or_default();
        Ok((state, blown, steps, wind.headwind))
    });
    let (state, blown, mut steps, headwind) = match found {
        Ok(found) => found,
        Err(why) => return draft.unavailable(&why),
    };
    let headwind = computed("headwind, the least that is sure", headwind, "wind of the day");
    steps.last_mut().into_iter().for_each(|step| step.inputs.push(headwind.clone()));
    at_idle_told(draft.value(blown).steps(steps), state)
}

/// The wind that blows the vortex at idle away, by its laws.
fn idle_steps(
    context: &Context<'_>,
    idle: &Given<Ratio>,
    (full, thrust): (Force, Force),
    blown: Speed,
) -> Known<Vec<Step>> {
    let engines = &context.flight.aeroplane.engines;
    let density = context.measured.air.as_ref().map_err(Clone::clone)?.density();
    let at_idle = plain_step(
        "thrust of one propeller at idle",
        "standing × share",
        derived("a share of the thrust standing"),
        vec![
            computed("thrust of one propeller, standing", full, "the take-off run")
                .under("standing"),
            given("idle thrust", idle).under("share"),
        ],
        thrust,
    );
    let rows = [
        Some(from_step("thrust", thrust, 0)),
        engines.propeller_diameter.as_ref().map(|value| given("propeller diameter", value)),
        engines.propeller_height.as_ref().map(|value| given("height of its axis", value)),
        Some(computed("air density", density, "air of the day")),
    ];
    let step = by_formula("propeller-vortex-blow-away", rows.into_iter().flatten().collect())?;
    let computes = "wind that blows the vortex at idle away".to_owned();
    Ok(vec![at_idle, Step { computes, result: blown.into(), ..step }])
}

fn shown(speed: Speed) -> String {
    Amount::from(speed).told()
}
