//! D20: where along the take-off a vortex stands under the inlets, and what it meets.

use crate::by_formula::by_formula;
use crate::context::{Context, bounds_today};
use crate::draft::{Draft, beside, computed, derived, given, given_as, need, plain_step};
use crate::ground::two_layers::from_step;
use crate::measured::{Known, Unavailable};
use crate::rule::Rule;
use crate::run_basis::{by_station, thrust_inputs};
use crate::stones::stones_per_square_metre;
use crate::vortex::flat_tyre::{inlet_on_flat_tyre, with_flat_tyre};
use crate::vortex::{
    BOUNDARY, Exposure, air_and_wind, at_idle_told, exposure, exposure_of, inlet, inlet_inputs,
    swept, total,
};
use hardpan_debris::{Air, Assurance, Inlet, flow_in_air};
use hardpan_model::{
    ApprovedLimit, BasisInput, EngineKind, Finding, Flight, Given, Mark, Patch, Phase, Source,
    Step, Tier,
};
use hardpan_quantity::{Amount, Length, Ratio, Speed, knots, percent};
use hardpan_run::TakeOffRun;

pub(super) const RULE: Rule = Rule {
    code: "D20",
    name: "Inlet vortex along the run",
    checks: "Where, from brake release on, a ground vortex is expected under the inlets at the \
             thrust and speed that the take-off really has there, as it stands and with the tyres \
             of one leg flat; the loose stones that were \
             counted on that ground; whether a vortex stands at idle, lined up; and up to \
             which speed the dissipators must be on.",
    why: "The stones that an engine swallows lie on the first stretch of the run: it is the \
          stretch to sweep, roll and walk.",
    limit: "None that fails by itself: it becomes an instruction with its stations.",
    applies: "Take-offs with turbofans. Screening: the formation boundary is from memory, its \
              band of ±25 % and the width of ground under a vortex (half the inlet's diameter) \
              are judgement. No rate of damage is published, and none is given.",
    source: BOUNDARY,
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let kind = context.flight.aeroplane.engines.kind.as_ref();
    let Some(run) = &context.measured.take_off else { return Vec::new() };
    if kind.is_some_and(|kind| kind.value != EngineKind::Turbofan) {
        return Vec::new();
    }
    let found = run.as_ref().map_err(Clone::clone).and_then(|run| exposure(context, run));
    let mut findings = match found {
        Err(why) => vec![draft("inlet vortex along the run").unavailable(&why)],
        Ok(found) => vec![
            along(context, &found, on_flat_tyre(context, run)),
            stones(context, draft("loose stones under the vortex"), &found),
        ],
    };
    findings.push(at_idle(context));
    findings.extend(dissipators(context));
    findings
}

fn draft(title: &str) -> Draft {
    Draft::new(&RULE, title, Phase::BeforeBrakeRelease)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat("screening only; the formation boundary is from memory")
}

/// Ground over which a vortex is expected with a flat tyre.
fn on_flat_tyre(context: &Context<'_>, run: &Known<TakeOffRun>) -> Known<(Length, Step)> {
    let (inlet, lowered) = inlet_on_flat_tyre(context.flight)?;
    let run = run.as_ref().map_err(Clone::clone)?;
    Ok((total(&exposure_of(context, run, &inlet)?.expected), lowered))
}

fn along(context: &Context<'_>, found: &Exposure, flat: Known<(Length, Step)>) -> Finding {
    let (expected, possible) = (total(&found.expected), total(&found.possible));
    let mut inputs = inlet_inputs(context.flight);
    inputs.extend(thrust_inputs(context.flight));
    inputs.extend(by_station(context.measured, false));
    inputs.push(beside("stretch near the onset", possible, "between 0.8 and 1.25 of the bound"));
    let what = "stretch with a vortex expected";
    let draft = draft("inlet vortex along the run").value(expected).step(plain_step(
        what,
        "where the velocity in the inlet over the wind stands 1.25 times above the boundary, station by \
         station; boundary r = max(24 H/D − 17, 4 (H/D)²)",
        BOUNDARY,
        inputs,
        expected,
    ));
    let (draft, flat) = with_flat_tyre(draft, what, BOUNDARY, flat);
    let flat = flat.map_or_else(String::new, |flat| {
        format!("; with a flat tyre expected over {}", Amount::from(flat).told())
    });
    let Some((from, to)) = found.span_in_doubt() else {
        return draft
            .pass(format!("at the thrust planned no vortex is expected under the inlets{flat}"));
    };
    draft
        .place(from, to, None)
        .instruct(format!("{}: inlet vortex expected or possible", swept(from, to)))
        .conditional(format!("under the inlets a vortex {}{flat}", found.told()))
}

/// The loose stones that were counted where a vortex stands or may stand.
pub(super) fn stones(context: &Context<'_>, draft: Draft, found: &Exposure) -> Finding {
    let Some(patches) = &context.flight.day.loose_material else {
        return draft.unproven(
            "nobody says whether loose stones lie where a vortex stands",
            [need("day: loose_material", "\"none\" when it was looked for, or each patch")],
        );
    };
    let met = match found.stones(patches) {
        None => {
            return draft.unproven(
                "loose stones lie where a vortex stands, and nobody counted them",
                [need(
                    "day: loose_material: stones_per_square_metre",
                    "count them on a square metre",
                )],
            );
        }
        Some(Err(why)) => return draft.unavailable(&why),
        Some(Ok(met)) => Amount::count(met.ceil()),
    };
    let (rule, inputs) = stone_inputs(context, patches, found);
    let draft = draft.value(met).step(plain_step(
        "loose stones in the footprints",
        rule,
        Source::new("", "geometry; width of the footprint", Tier::Judgement),
        inputs,
        met,
    ));
    if met.si > 0.0 {
        draft
            .instruct("clear the loose stones from the first stretch of the run before take-off")
            .conditional("loose stones lie where a vortex is expected or may stand")
    } else {
        draft.pass("no loose stones were seen where a vortex may stand")
    }
}

/// What the stones met are counted from, with the line that counts them.
fn stone_inputs(
    context: &Context<'_>,
    patches: &[Patch],
    found: &Exposure,
) -> (&'static str, Vec<BasisInput>) {
    let met = |patch: &&Patch| found.over(patch) > Length::default();
    let is_met = patches.iter().any(|patch| met(&patch));
    let mut inputs = found.footprint_inputs(context.flight);
    if is_met {
        let width = inputs.iter_mut().find(|input| input.name.starts_with("width"));
        width.into_iter().for_each(|width| width.symbol = Some("width"));
        let engines = context.flight.aeroplane.engines.count.as_ref();
        inputs.extend(engines.map(|count| {
            given_as("engines", count, Amount::count(f64::from(count.value))).under("engines")
        }));
    }
    for patch in patches {
        let over = found.over(patch);
        inputs.push(given("patch from", &patch.from));
        let over = beside("of it under a vortex", over, "the stretches that meet it");
        let count = patch.stones_per_square_metre.as_ref();
        let name = "loose stones on a square metre";
        let stones = match (count, stones_per_square_metre(patch)) {
            (Some(count), _) => Some(given_as(name, count, Amount::count(count.value))),
            (None, Some(all)) => Some(beside(name, Amount::count(all), "of all sizes counted")),
            (None, None) => None,
        };
        match met(&patch) {
            true => {
                inputs.push(over.under("stretch"));
                inputs.extend(stones.map(|stones| stones.under("stones")));
            }
            false => inputs.extend([over].into_iter().chain(stones)),
        }
        inputs.extend(patch.largest_stone.as_ref().map(|size| given("largest stone", size)));
    }
    match is_met {
        true => ("sum of (stones × stretch) × width × engines, rounded up", inputs),
        false => ("none: no patch lies under a vortex", inputs),
    }
}

fn at_idle(context: &Context<'_>) -> Finding {
    let draft = draft("inlet vortex at idle, lined up");
    let Some(idle) = &context.flight.aeroplane.engines.idle_share else {
        return draft.unproven(
            "the thrust at idle is not known",
            [need("aeroplane: engines.idle_share", "share of static take-off thrust")],
        );
    };
    let engines = &context.flight.aeroplane.engines;
    let index = inlet(context.flight).and_then(|inlet| {
        let (air, wind) = air_and_wind(context)?;
        let refused = |error| crate::measured::Unavailable::refused("the inlet vortex", &error);
        let state = inlet.vortex(idle.value, &air, knots(0.0), &wind).map_err(refused)?;
        let inside = inlet.velocity(idle.value, &air).map_err(refused)?;
        let steps = inside_steps(context, idle, (&inlet, &air), inside);
        let mut steps = steps.unwrap_or_default();
        let beside_it = [
            engines.inlet_height.as_ref().map(|height| given("inlet height", height)),
            Some(computed("headwind, the least that is sure", wind.headwind, "wind of the day")),
        ];
        let last = steps.last_mut().into_iter();
        last.for_each(|step| step.inputs.extend(beside_it.iter().flatten().cloned()));
        Ok((state, inside, steps))
    });
    let (state, inside, steps) = match index {
        Ok(found) => found,
        Err(why) => return draft.unavailable(&why),
    };
    at_idle_told(draft.value(inside).steps(steps), state)
}

/// The velocity in the inlet by its laws.
fn inside_steps(
    context: &Context<'_>,
    idle: &Given<Ratio>,
    (inlet, air): (&Inlet, &Air),
    inside: Speed,
) -> Known<Vec<Step>> {
    let engines = &context.flight.aeroplane.engines;
    let (Some(flow), Some(diameter)) = (&engines.air_flow, &engines.inlet_diameter) else {
        return Ok(Vec::new());
    };
    let refused = |error| Unavailable::refused("the inlet vortex", &error);
    let pressure =
        || computed("air pressure", Amount::air_pressure(air.pressure), "air of the day");
    let of_day = flow_in_air(inlet.take_off_flow, air).map_err(refused)?;
    let of_day = plain_step(
        "air flow at take-off thrust in the air of the day",
        "flow × (p / 101325) × √(288.15 / T); p in Pa and T in K",
        derived("corrected flow: as the pressure, and as the root of the temperature falls"),
        vec![
            given("air flow", flow).under("flow"),
            pressure().under("p"),
            computed("temperature", air.temperature, "air of the day").under("T"),
        ],
        of_day,
    );
    let at_idle = by_formula(
        "part-thrust-air-flow",
        vec![from_step("air flow", of_day.result, 0), given("idle thrust", idle)],
    )?;
    let velocity = by_formula(
        "inlet-velocity",
        vec![
            from_step("air flow at idle", at_idle.result, 1),
            given("inlet diameter", diameter),
            pressure(),
            computed("temperature", air.temperature, "air of the day"),
        ],
    )?;
    let computes = "velocity in the inlet at idle".to_owned();
    Ok(vec![of_day, at_idle, Step { computes, result: inside.into(), ..velocity }])
}

/// When the dissipators must be on, and up to which crosswind they are approved.
fn dissipators(context: &Context<'_>) -> Option<Finding> {
    let aeroplane = &context.flight.aeroplane;
    let named = aeroplane.engines.dissipators.as_ref()?;
    let draft = draft("vortex dissipators");
    let name = &named.value;
    let Some(item) = aeroplane.equipment.iter().find(|item| item.name.value == *name) else {
        return Some(draft.unproven(
            format!("no equipment is named {name}"),
            [need("aeroplane: [[equipment]]", "list the dissipators with fitted, serviceable")],
        ));
    };
    let works = |given: &Option<Given<bool>>| given.as_ref().is_some_and(|given| given.value);
    let off = inlet(context.flight).and_then(|inlet| {
        let (air, wind) = air_and_wind(context)?;
        let speed = inlet.lowest_speed_for(percent(100.0), &air, &wind, Assurance::Off);
        speed.map_err(|error| crate::measured::Unavailable::refused("the inlet vortex", &error))
    });
    let off = match off {
        Ok(off) => off,
        Err(why) => return Some(draft.unavailable(&why)),
    };
    let mut inputs = inlet_inputs(context.flight);
    let approved = approved_crosswind(context.flight);
    inputs.extend(
        approved
            .iter()
            .map(|limit| given_as("approved crosswind", &limit.value, limit.value.value)),
    );
    let draft = draft.value(off).step(plain_step(
        "ground speed from which full thrust holds no vortex",
        "speed at which the velocity in the inlet over the wind has fallen to 0.8 of the boundary; \
         boundary r = max(24 H/D − 17, 4 (H/D)²)",
        BOUNDARY,
        inputs,
        off,
    ));
    let speed = Amount::from(off).told();
    if !(works(&item.fitted) && works(&item.serviceable)) {
        return Some(
            draft
                .instruct(format!(
                    "{name} not working: no thrust above idle over loose ground below {speed}"
                ))
                .conditional("without them only speed and wind keep the vortex off"),
        );
    }
    let crosswind: Vec<String> = approved
        .iter()
        .map(|limit| format!(", crosswind to {}", limit.value.value.told()))
        .collect();
    Some(
        draft
            .instruct(format!(
                "{name} on from before the first thrust above idle until {speed} ground speed{}",
                crosswind.concat()
            ))
            .conditional(
                "they cover what the wind does not: standing, turning, and the first of the run",
            ),
    )
}

/// The approved crosswinds of the take-off that hold under a condition, such
/// as with the dissipators on.
fn approved_crosswind(flight: &Flight) -> Vec<&ApprovedLimit> {
    let limits = flight.aeroplane.limits.iter();
    let of_take_off = |limit: &&ApprovedLimit| {
        limit.quantity.value == "crosswind"
            && bounds_today(flight, limit)
            && matches!(limit.phase, Phase::TakeOff | Phase::BeforeBrakeRelease)
            && limit.when.as_ref().is_some_and(|when| when.value.contains("dissipator"))
    };
    limits.filter(of_take_off).collect()
}
