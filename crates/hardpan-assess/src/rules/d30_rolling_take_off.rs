//! D30: what a rolling take-off costs in distance and spares in stones.

use crate::context::Context;
use crate::draft::{Draft, computed, plain_step};
use crate::measured::Known;
use crate::rule::Rule;
use crate::run_basis::{MOTION, thrust_inputs};
use crate::vortex::{BOUNDARY, exposure, inlet_inputs, total};
use hardpan_model::{EngineKind, Finding, Flight, Mark, Phase, Source, Tier};
use hardpan_quantity::{Amount, Length, Quantity};
use hardpan_run::TakeOffRun;

pub(super) const RULE: Rule = Rule {
    code: "D30",
    name: "Rolling take-off",
    checks: "The distance that the stated thrust schedule adds to a take-off with full thrust at \
             brake release, and the ground over which a vortex is expected either way.",
    why: "Thrust set while rolling keeps the vortex off the ground where stones lie; it is paid \
          for in distance, and the distances hold only if thrust is set no later than stated.",
    limit: "None by itself: the distances of F10 and F20 include it.",
    applies: "Take-offs whose flight file states a thrust schedule. The comparison of the ground \
              under a vortex is screening, as D20.",
    source: Source::new("", "two runs by the equations of motion", Tier::Derived),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
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

fn added(flight: &Flight, draft: Draft, rolling: &TakeOffRun, standing: &TakeOffRun) -> Finding {
    let (Some(with), Some(without)) = (rolling.distance_needed, standing.distance_needed) else {
        return draft.fail("with one engine out the take-off does not reach the screen");
    };
    let extra = with - without;
    let mut inputs = thrust_inputs(flight);
    inputs.push(computed("take-off distance with the schedule", with, "F10"));
    inputs.push(computed("with full thrust at brake release", without, "a second run"));
    draft
        .value(extra)
        .instruct(format!("set thrust by ground speed, no later: {}", schedule(flight)))
        .step(plain_step(
            "distance that the schedule adds",
            "distance needed with the schedule − distance needed with full thrust",
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
    inputs.push(computed("with full thrust at brake release", lengths[1], "a second run"));
    let patches = context.flight.day.loose_material.as_deref().unwrap_or_default();
    let met = |found: Option<Known<f64>>| found.and_then(Result::ok).map(f64::ceil);
    let counts = [&with, &without].map(|found| met(found.stones(patches)));
    let stones = match (context.flight.day.loose_material.is_some(), counts) {
        (true, [Some(with), Some(without)]) => {
            inputs.push(computed("loose stones met", Amount::count(with), "D20"));
            inputs.push(computed(
                "loose stones met with full thrust",
                Amount::count(without),
                "a second run",
            ));
            format!("; of the stones counted, {with:.0} against {without:.0}")
        }
        _ => String::new(),
    };
    let draft = draft.value(lengths[0]).step(plain_step(
        "ground over which a vortex is expected",
        "stretches with V_i/V_0 > 1.25 × the boundary",
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
        format!("{share:.0} % at {}", Amount::from(row.ground_speed.value).show(Default::default()))
    });
    text.collect::<Vec<_>>().join(", ")
}

fn shown(length: Length) -> String {
    Amount::from(length).show(Default::default())
}
