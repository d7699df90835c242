//! D10: the speed below which take-off thrust lifts stones into the inlet.

use crate::context::Context;
use crate::draft::{Draft, beside, computed, given, need, plain_step};
use crate::measured::Unavailable;
use crate::rule::Rule;
use crate::vortex::flat_tyre::{inlet_on_flat_tyre, with_flat_tyre};
use hardpan_debris::{Air, Assurance, Inlet, RunWind, VORTEX_TIER};
use hardpan_model::{Finding, Mark, Phase, Source, Tier};
use hardpan_quantity::{Amount, Quantity, Ratio, Speed, knots, percent};

pub(super) const RULE: Rule = Rule {
    code: "D10",
    name: "Inlet vortex",
    checks: "The lowest ground speed at which take-off thrust may be set before a ground vortex \
             under the inlet is blown away by the relative wind, and the thrust that may be set \
             standing still; both as the aeroplane stands, the speed besides with the tyres of one \
             leg flat.",
    why: "A vortex under the inlet lifts every loose stone it meets; rolling thrust schedules and \
          dissipators exist because of it.",
    limit: "None that fails by itself: it becomes an instruction with its speed. Approved thrust \
            limits bind over it.",
    applies: "Take-offs with turbofans of stated inlet. Screening: the formation boundary is from \
              memory, with a band of ±25 %. The height with a flat tyre is derived, at the place of \
              the pods' low points.",
    source: Source::new("NAKAYAMA-JONES-1999", "formation boundary", Tier::Memory),
    judge,
};

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let flight = context.flight;
    let (Some(_), Some(wind)) = (&flight.take_off, &context.measured.take_off_wind) else {
        return Vec::new();
    };
    if !is_turbofan(context) {
        return Vec::new();
    }
    let draft = Draft::new(&RULE, "inlet vortex at take-off thrust", Phase::TakeOff)
        .advice()
        .mark(Mark::PlanningOnly)
        .caveat("screening only; the crew cannot see a vortex until it lifts something");
    let engines = &flight.aeroplane.engines;
    let (Some(diameter), Some(height), Some(flow)) =
        (&engines.inlet_diameter, &engines.inlet_height, &engines.air_flow)
    else {
        return vec![draft.unproven(
            "the inlet is not described",
            [need(
                "aeroplane: engines.inlet_diameter, inlet_height, air_flow",
                "from the engine's manual",
            )],
        )];
    };
    let inlet = Inlet { diameter: diameter.value, height: height.value, take_off_flow: flow.value };
    let around = match (wind, &context.measured.air) {
        (Ok(wind), Ok(air)) => {
            let air = Air { pressure: air.pressure(), temperature: air.temperature() };
            (air, RunWind { headwind: wind.headwind, crosswind: knots(0.0) })
        }
        (Err(why), _) | (_, Err(why)) => return vec![draft.unavailable(why)],
    };
    let (speed, standing) = match lowest(&inlet, &around) {
        Ok(found) => found,
        Err(why) => return vec![draft.unavailable(&why)],
    };
    let percent_standing = (standing.si() * 100.0).floor();
    let shown = Amount::from(speed).told();
    let source = Source::new(RULE.source.key, RULE.source.locator, VORTEX_TIER);
    let what = "lowest ground speed for take-off thrust";
    let draft = draft.value(speed).step(plain_step(
        what,
        "speed at which the velocity in the inlet over the wind has fallen to 0.8 of the boundary; \
         boundary r = max(24 H/D − 17, 4 (H/D)²)",
        source,
        vec![
            given("inlet diameter", diameter),
            given("inlet height", height),
            given("air flow", flow),
            computed("headwind, the least that is sure", around.1.headwind, "wind of the day"),
            computed("air pressure", air_pressure(&around.0), "air of the day"),
            computed("temperature", around.0.temperature, "air of the day"),
            beside("thrust standing still", standing, "the same boundary at rest"),
        ],
        speed,
    ));
    let lower = inlet_on_flat_tyre(flight)
        .and_then(|(inlet, lowered)| Ok((lowest(&inlet, &around)?.0, lowered)));
    let (draft, flat) = with_flat_tyre(draft, what, source, lower);
    let flat = flat.map_or_else(String::new, |flat| {
        format!("; with a flat tyre from {}", Amount::from(flat).told())
    });
    let scheduled = flight.take_off.as_ref().is_some_and(|plan| !plan.thrust.is_empty());
    vec![if scheduled {
        draft.pass(format!(
            "no vortex from {shown} on, nor standing with no more than {percent_standing:.0} % of \
             take-off thrust{flat}; the thrust schedule of the flight is judged along the run by D20"
        ))
    } else if speed <= knots(0.0) {
        draft.pass(format!("this headwind blows the vortex away even standing{flat}"))
    } else {
        draft
            .instruct(format!(
                "do not set full thrust until {shown} ground speed, nor more than \
                 {percent_standing:.0} % of it standing still"
            ))
            .conditional(format!(
                "below {shown} at take-off thrust a vortex may stand under the inlet{flat}"
            ))
    }]
}

fn air_pressure(air: &Air) -> Amount {
    Amount::air_pressure(air.pressure)
}

fn is_turbofan(context: &Context<'_>) -> bool {
    let kind = context.flight.aeroplane.engines.kind.as_ref();
    kind.is_none_or(|kind| kind.value == hardpan_model::EngineKind::Turbofan)
}

fn lowest(inlet: &Inlet, (air, wind): &(Air, RunWind)) -> Result<(Speed, Ratio), Unavailable> {
    let refused = |error| Unavailable::refused("the inlet vortex", &error);
    let speed =
        inlet.lowest_speed_for(percent(100.0), air, wind, Assurance::Off).map_err(refused)?;
    let standing =
        hardpan_debris::static_share(inlet, air, wind, Assurance::Off).map_err(refused)?;
    Ok((speed, standing))
}
