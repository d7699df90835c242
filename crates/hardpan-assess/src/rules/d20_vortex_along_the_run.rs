//! D20: where along the take-off a vortex stands under the inlets, and what it meets.

use crate::context::{Context, bounds_today};
use crate::draft::{Draft, beside, computed, given, given_as, need, plain_step};
use crate::measured::Known;
use crate::rule::Rule;
use crate::run_basis::{by_station, thrust_inputs};
use crate::vortex::flat_tyre::{inlet_on_flat_tyre, with_flat_tyre};
use crate::vortex::{
    BOUNDARY, Exposure, air_and_wind, at_idle_told, exposure, exposure_of, inlet, inlet_inputs,
    swept, total,
};
use hardpan_debris::Assurance;
use hardpan_model::{
    ApprovedLimit, EngineKind, Finding, Flight, Given, Mark, Phase, Source, Step, Tier,
};
use hardpan_quantity::{Amount, Length, knots, percent};
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
        "V_i/V_0 > 1.25 × max(24 H/D − 17, 4 (H/D)²), by station",
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
    let mut inputs = found.footprint_inputs(context.flight);
    for patch in patches {
        inputs.push(given("patch from", &patch.from));
        inputs.push(beside(
            "of it under a vortex",
            found.over(patch),
            "the stretches that meet it",
        ));
        inputs.extend(patch.stones_per_square_metre.as_ref().map(|count| {
            given_as("loose stones on a square metre", count, Amount::count(count.value))
        }));
        inputs.extend(patch.largest_stone.as_ref().map(|size| given("largest stone", size)));
    }
    let draft = draft.value(met).step(plain_step(
        "loose stones in the footprints",
        "stones on a square metre × 0.5 D × stretch, for each engine",
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

fn at_idle(context: &Context<'_>) -> Finding {
    let draft = draft("inlet vortex at idle, lined up");
    let Some(idle) = &context.flight.aeroplane.engines.idle_share else {
        return draft.unproven(
            "the thrust at idle is not known",
            [need("aeroplane: engines.idle_share", "share of static take-off thrust")],
        );
    };
    let index = inlet(context.flight).and_then(|inlet| {
        let (air, wind) = air_and_wind(context)?;
        let refused = |error| crate::measured::Unavailable::refused("the inlet vortex", &error);
        let state = inlet.vortex(idle.value, &air, knots(0.0), &wind).map_err(refused)?;
        let inside = inlet.velocity(idle.value, &air).map_err(refused)?;
        Ok((state, inside, wind.headwind))
    });
    let (state, inside, headwind) = match index {
        Ok(found) => found,
        Err(why) => return draft.unavailable(&why),
    };
    let mut inputs = inlet_inputs(context.flight);
    inputs.push(given("idle thrust", idle));
    inputs.push(computed("headwind, the least that is sure", headwind, "wind of the day"));
    let draft = draft.value(inside).step(plain_step(
        "velocity in the inlet at idle",
        "V_i at W √(F/F_max); held against V_0 × max(24 H/D − 17, 4 (H/D)²)",
        BOUNDARY,
        inputs,
        inside,
    ));
    at_idle_told(draft, state)
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
        "V_i/V_0 < 0.8 × max(24 H/D − 17, 4 (H/D)²)",
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
