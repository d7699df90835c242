//! The jets or the slipstream behind the standing aeroplane, from its thrust.

pub(crate) mod reverse_front;

use crate::by_formula::{by_formula, result_of};
use crate::context::Context;
use crate::draft::{beside, computed, given, need, plain_step};
use crate::ground::two_layers::from_step;
use crate::measured::{Known, Unavailable};
use crate::run_basis::TAKE_OFF_RUN;
use crate::vortex::{engines, is_propeller};
use hardpan_debris::{Air, flow_in_air, slipstream};
use hardpan_model::{Source, Step, Tier};
use hardpan_quantity::{Force, Length, Quantity, Ratio, Speed, metres_per_second};

/// Density of rock, kg/m³.
pub(crate) const STONE_DENSITY: f64 = 2_650.0;
/// Source of figures for single stones.
pub(crate) const STONES_OF_ROCK: Source = Source::new(
    "TEXTBOOK-PHYSICS",
    "drag, lift and friction on a stone of 2 650 kg/m³",
    Tier::Derived,
);

/// All engines at one thrust, as equal jets of air.
#[derive(Debug, Clone)]
pub(crate) struct BehindTheEngines {
    pub(crate) speed: Speed,
    pub(crate) diameter: Length,
    pub(crate) count: u32,
    pub(crate) steps: Vec<Step>,
}

/// The engines at a share of take-off thrust, standing.
pub(crate) fn behind(context: &Context<'_>, share: Ratio) -> Known<BehindTheEngines> {
    let flight = context.flight;
    let count = engines(flight)?.max(1);
    let missing = || Unavailable::missing("the thrust of the engines", Vec::new());
    let run = context.measured.take_off.as_ref().ok_or_else(missing)?;
    let run = run.as_ref().map_err(Clone::clone)?;
    let full: Force = run.full_thrust.at(Speed::default()) / f64::from(count);
    let air = context.measured.air.as_ref().map_err(Clone::clone)?;
    let inlet_air = Air { pressure: air.pressure(), temperature: air.temperature() };
    let refused = |error: hardpan_debris::Error| Unavailable::refused("the blast", &error);
    let thrust = share.si() * full;
    let mut of_day = None;
    let speed = if is_propeller(flight) {
        let wanted = || {
            let wanted = need("aeroplane: engines.propeller_diameter", "from the manual");
            Unavailable::missing("the slipstream", vec![wanted])
        };
        let diameter = flight.aeroplane.engines.propeller_diameter.as_ref().ok_or_else(wanted)?;
        let still = Speed::default();
        slipstream(thrust, diameter.value, still, &inlet_air).map_err(refused)?.far_speed
    } else {
        let wanted = || {
            let wanted = need("aeroplane: engines.air_flow", "from the engine's manual");
            Unavailable::missing("the jet", vec![wanted])
        };
        let flow = flight.aeroplane.engines.air_flow.as_ref().ok_or_else(wanted)?;
        let flow = flow_in_air(flow.value, &inlet_air).map_err(refused)?;
        of_day = Some(flow);
        metres_per_second(full.si() / flow.si() * share.si().sqrt())
    };
    let density = || computed("air density", air.density(), "air of the day");
    let engines = &flight.aeroplane.engines;
    let full = computed("thrust of one engine, standing", full, TAKE_OFF_RUN).under("standing");
    let at_share = beside("of it at this thrust", thrust, "times the share of thrust");
    let mut inputs = vec![full, at_share.under("thrust")];
    let rule = match of_day {
        Some(flow) => {
            let how =
                "air flow of the file as the pressure, and as the root of the temperature falls";
            inputs.push(beside("air flow in the air of the day", flow, how).under("flow"));
            "standing / flow × √(thrust / standing)"
        }
        None => "√(2 × thrust / (ρ × π × (D / 2)²)); far slipstream of an ideal propeller",
    };
    let is_jet = of_day.is_some();
    inputs.push(if is_jet { density() } else { density().under("ρ") });
    inputs.extend(engines.air_flow.as_ref().map(|flow| given("air flow", flow)));
    let across = engines.propeller_diameter.as_ref();
    inputs.extend(across.map(|across| {
        let across = given("propeller diameter", across);
        if is_jet { across } else { across.under("D") }
    }));
    let jet = plain_step("jet speed", rule, STONES_OF_ROCK, inputs, speed);
    let step = by_formula(
        "jet-equal-diameter",
        vec![
            computed("thrust of one engine", thrust, "the step before"),
            from_step("jet speed", speed, 0),
            density(),
        ],
    )?;
    Ok(BehindTheEngines { speed, diameter: result_of(&step)?, count, steps: vec![jet, step] })
}
