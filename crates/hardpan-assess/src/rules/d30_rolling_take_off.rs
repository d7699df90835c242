//! D30: what a rolling take-off costs in distance and spares in stones.

use crate::context::Context;
use crate::draft::{Draft, beside, computed, plain_step};
use crate::measured::Known;
use crate::propeller_vortex::{SINK_DISC, propeller_inputs};
use crate::rides::Asked;
use crate::rule::Rule;
use crate::run_basis::{FULL_THRUST, MOTION, thrust_inputs};
use crate::vortex::schedule::{WithoutVortex, without_vortex};
use crate::vortex::{BOUNDARY, exposure, inlet_inputs, is_propeller, total};
use hardpan_debris::ScheduleRow;
use hardpan_model::{EngineKind, Finding, Flight, Mark, Phase, Source, Tier};
use hardpan_quantity::{Amount, Length, Quantity};
use hardpan_run::TakeOffRun;

pub(super) const RULE: Rule = Rule {
    code: "D30",
    name: "Rolling take-off",
    checks: "The distance that the stated thrust schedule adds to a take-off with full thrust at \
             brake release, and the ground over which a vortex is expected either way; besides, \
             the schedule that holds no vortex once rolling: the ground speeds before which no \
             more of the thrust may be set, and what it costs in distance.",
    why: "Thrust set while rolling keeps the vortex off the ground where stones lie; it is paid \
          for in distance, and the distances hold only if thrust is set no later than stated.",
    limit: "None by itself: the distances of F10 and F20 include it.",
    applies: "The cost: take-offs whose flight file states a thrust schedule. The schedule without \
              a vortex: every take-off over ground that was not found free of loose stones, in \
              fifths of the thrust, straight lines between; it begins with the least fifth that \
              carries the take-off through. Screening, as D10, D15 and D20.",
    source: Source::new("", "two runs by the equations of motion", Tier::Derived),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let mut findings = planned_schedule(context);
    if context.asked == Asked::Whole {
        findings.extend(free(context));
    }
    findings
}

fn planned_schedule(context: &Context<'_>) -> Vec<Finding> {
    let measured = context.measured;
    let planned = context.flight.take_off.as_ref().filter(|plan| !plan.thrust.is_empty());
    let (Some(planned), Some(run), Some(case)) =
        (planned, &measured.take_off, &measured.take_off_case)
    else {
        return Vec::new();
    };
    let standing = planned.mass.as_ref().and_then(|mass| {
        let case = case.as_ref().ok()?;
        Some(case.at_full_thrust().run(mass.value, true))
    });
    let cost = || {
        Draft::new(&RULE, "cost of the rolling take-off", Phase::BeforeBrakeRelease)
            .mark(Mark::PlanningOnly)
    };
    match (run, &standing) {
        (Err(why), _) | (_, Some(Err(why))) => vec![cost().unavailable(why)],
        (Ok(_), None) => Vec::new(),
        (Ok(rolling), Some(Ok(standing))) => {
            let mut findings = vec![added(context.flight, cost(), rolling, standing)];
            findings.extend(compared(context, rolling, standing));
            findings
        }
    }
}

/// Symbols of the distances that are compared.
const WITH: &str = "distance with the schedule";
const WITHOUT: &str = "distance with full thrust";

fn added(flight: &Flight, draft: Draft, rolling: &TakeOffRun, standing: &TakeOffRun) -> Finding {
    let (Some(with), Some(without)) = (rolling.distance_needed, standing.distance_needed) else {
        return draft.fail("with one engine out the take-off does not reach the screen");
    };
    let extra = with - without;
    let mut inputs = thrust_inputs(flight);
    inputs.push(computed("take-off distance with the schedule", with, "F10").under(WITH));
    let standing = computed("with full thrust at brake release", without, FULL_THRUST);
    inputs.push(standing.under(WITHOUT));
    draft
        .value(extra)
        .instruct(format!("set thrust by ground speed, no later: {}", schedule(flight)))
        .step(plain_step(
            "distance that the schedule adds",
            "distance with the schedule − distance with full thrust",
            MOTION,
            inputs,
            extra,
        ))
        .conditional(format!(
            "the distances hold only if thrust is set no later than planned, which costs {} \
             against full thrust at brake release",
            shown(extra)
        ))
}

/// The schedule that holds no vortex; none on ground that was found free of
/// loose stones, or without a mass.
fn free(context: &Context<'_>) -> Option<Finding> {
    let flight = context.flight;
    if flight.day.loose_material.as_ref().is_some_and(Vec::is_empty) {
        return None;
    }
    let mass = flight.take_off.as_ref()?.mass.as_ref()?.value;
    let case = context.measured.take_off_case.as_ref()?.as_ref().ok()?;
    let draft = Draft::new(&RULE, "schedule without a vortex", Phase::TakeOff)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat("screening only; the boundary is from memory or derived, with a judged band");
    let found = without_vortex(context, mass)
        .and_then(|found| Ok((found, case.at_full_thrust().run(mass, false)?)));
    let (rows, run, standing) = match found {
        Err(why) => return Some(draft.unavailable(&why)),
        Ok((WithoutVortex::Standing, _)) => {
            return Some(draft.pass("full thrust holds no vortex even standing in this wind"));
        }
        Ok((WithoutVortex::Rolling { rows, run }, standing)) => (rows, run, standing),
    };
    let (Some(with), Some(without)) = (run.distance_needed, standing.distance_needed) else {
        return Some(
            draft.pass("with one engine out no take-off reaches the screen: none is told"),
        );
    };
    let extra = with - without;
    let mut inputs =
        if is_propeller(flight) { propeller_inputs(flight) } else { inlet_inputs(flight) };
    let by = "the take-off run with this schedule";
    inputs.push(beside("take-off distance with it", with, by).under(WITH));
    let standing = computed("with full thrust at brake release", without, FULL_THRUST);
    inputs.push(standing.under(WITHOUT));
    inputs.extend(rows.iter().map(|row| {
        let share = row.share.si() * 100.0;
        beside(&format!("no more than {share:.0} % before"), row.from_speed, "the boundary")
    }));
    let draft = draft.value(extra).step(plain_step(
        "distance that the schedule without a vortex adds",
        "distance with the schedule − distance with full thrust",
        if is_propeller(flight) { SINK_DISC } else { BOUNDARY },
        inputs,
        extra,
    ));
    let room = case.distance_available().filter(|there| with > *there).map_or_else(
        || format!("it needs {} and costs {}", shown(with), shown(extra)),
        |there| format!("it needs {}, more than the {} there is", shown(with), shown(there)),
    );
    let limits = limits(&rows);
    let is_planned = flight.take_off.as_ref().is_some_and(|plan| !plan.thrust.is_empty());
    Some(if is_planned {
        draft.pass(format!("to hold no vortex once rolling {limits}; {room}"))
    } else {
        draft
            .instruct(format!("rolling take-off: {limits}; break away over swept ground"))
            .conditional(format!("{room} against full thrust at brake release"))
    })
}

/// What may not be set until when, in words.
fn limits(rows: &[ScheduleRow]) -> String {
    let speed = |row: &ScheduleRow| Amount::from(row.from_speed).told();
    let share = |row: &ScheduleRow| format!("{:.0} %", row.share.si() * 100.0);
    let first = rows.first().map(share).unwrap_or_default();
    let held = rows.iter().skip(1).find(|row| Some(row.share) == rows.first().map(|one| one.share));
    let until = held.map_or_else(|| "standing".to_owned(), |row| format!("until {}", speed(row)));
    let above: Vec<String> = rows
        .iter()
        .skip(if held.is_some() { 2 } else { 1 })
        .map(|row| format!("{} at {}", share(row), speed(row)))
        .collect();
    if above.is_empty() {
        return format!("do not set more than {first} {until}");
    }
    let above = above.join(", ");
    format!("do not set more than {first} {until}, rising evenly to no more than {above}")
}

/// The ground under a vortex either way; none for propellers.
fn compared(context: &Context<'_>, rolling: &TakeOffRun, standing: &TakeOffRun) -> Option<Finding> {
    let kind = context.flight.aeroplane.engines.kind.as_ref();
    if kind.is_some_and(|kind| kind.value != EngineKind::Turbofan) {
        return None;
    }
    let draft = Draft::new(&RULE, "ground under a vortex, by handling", Phase::TakeOff)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat("screening only; lengths of ground, not rates of damage");
    let both =
        exposure(context, rolling).and_then(|rolling| Ok((rolling, exposure(context, standing)?)));
    let (with, without) = match both {
        Ok(both) => both,
        Err(why) => return Some(draft.unavailable(&why)),
    };
    let lengths = [&with, &without].map(|found| total(&found.expected));
    let mut inputs = inlet_inputs(context.flight);
    inputs.extend(thrust_inputs(context.flight));
    inputs.extend(standing.distance_needed.map(|distance| {
        computed("distance with full thrust at brake release", distance, FULL_THRUST)
    }));
    inputs.push(beside("with full thrust at brake release", lengths[1], "stretches of that run"));
    let patches = context.flight.day.loose_material.as_deref().unwrap_or_default();
    let met = |found: Option<Known<f64>>| found.and_then(Result::ok).map(f64::ceil);
    let counts = [&with, &without].map(|found| met(found.stones(patches)));
    let stones = match (context.flight.day.loose_material.is_some(), counts) {
        (true, [Some(with), Some(without)]) => {
            inputs.push(computed("loose stones met", Amount::count(with), "D20"));
            inputs.push(beside(
                "loose stones met with full thrust",
                Amount::count(without),
                "counted on the stretches of that run",
            ));
            format!("; of the stones counted, {with:.0} against {without:.0}")
        }
        _ => String::new(),
    };
    let draft = draft.value(lengths[0]).step(plain_step(
        "ground over which a vortex is expected",
        "stretches where the velocity in the inlet over the wind stands 1.25 times above the boundary",
        BOUNDARY,
        inputs,
        lengths[0],
    ));
    Some(draft.pass(format!(
        "a vortex is expected over {} with the schedule and over {} with full thrust at brake \
         release{stones}",
        shown(lengths[0]),
        shown(lengths[1])
    )))
}

fn schedule(flight: &Flight) -> String {
    let rows = flight.take_off.iter().flat_map(|plan| &plan.thrust);
    let text = rows.map(|row| {
        let share = row.share.value.si() * 100.0;
        format!("{share:.0} % at {}", Amount::from(row.ground_speed.value).told())
    });
    text.collect::<Vec<_>>().join(", ")
}

fn shown(length: Length) -> String {
    Amount::from(length).told()
}
