//! What goes into a run, as inputs of its basis.

use crate::draft::{computed, given, given_as};
use crate::measure::along::sinking_steps;
use crate::measured::Measured;
use hardpan_model::{Aeroplane, BasisInput, FlapSetting, Flight, Given, Step};
use hardpan_quantity::{Amount, Length, Quantity};

/// Source of the equations of motion.
pub(crate) const MOTION: hardpan_model::Source = hardpan_model::Source::new(
    "",
    "equations of motion on the ground, integrated by station",
    hardpan_model::Tier::Derived,
);

/// Figures that the run of a take-off gives.
pub(crate) const TAKE_OFF_RUN: &str = "the take-off run";
/// Figures that the run of a landing gives.
pub(crate) const LANDING_RUN: &str = "the landing run";
/// Figures of the same take-off with full thrust at brake release.
pub(crate) const FULL_THRUST: &str = "the take-off run at full thrust";
/// Figures that one of the runs gives.
pub(crate) const RUNS: &str = "the take-off run or the landing run";

/// A run of which what a step tells of a place comes, told by where it ends.
pub(crate) fn by_station(measured: &Measured, is_landing: bool) -> Option<BasisInput> {
    if is_landing {
        let run = measured.landing.as_ref()?.as_ref().ok()?;
        return Some(computed("landing by station, stop at", run.stop, LANDING_RUN));
    }
    let run = measured.take_off.as_ref()?.as_ref().ok()?;
    let lift_off = run.all_engines.lift_off;
    Some(computed("take-off by station, lift-off at", lift_off, TAKE_OFF_RUN))
}

/// The step of an integrated run: everything that the user gave for it.
pub(crate) fn run_step(
    computes: &str,
    flight: &Flight,
    measured: &Measured,
    flap: Option<&Given<String>>,
    planned: Vec<BasisInput>,
    result: impl Into<Amount>,
) -> Step {
    let mut inputs = planned;
    let aeroplane = &flight.aeroplane;
    inputs.extend(aeroplane_inputs(aeroplane));
    inputs.extend(setting(aeroplane, flap).into_iter().flat_map(flap_inputs));
    let limit = aeroplane.brakes.force_limit.as_ref();
    inputs.extend(limit.map(|limit| given("greatest force of one brake", limit)));
    inputs.extend(brake_torque(aeroplane));
    inputs.extend(day_inputs(flight));
    if let Ok(friction) = &measured.friction {
        inputs.push(computed(
            "rolling coefficient credited",
            Amount::coefficient(friction.rolling.credited.si()),
            "friction of the day",
        ));
        inputs.push(computed(
            "braking coefficient credited",
            Amount::coefficient(friction.braking.credited.si()),
            "friction of the day",
        ));
    }
    inputs.extend(stretch_inputs(flight));
    Step {
        computes: computes.to_owned(),
        formula: None,
        expression: "m dV/dt = T − D − μ (W − L) − W sin s, by station, wheel brakes only"
            .to_owned(),
        source: MOTION,
        inputs,
        result: result.into(),
    }
}

/// Torque of a brake and the lever that makes a force of it.
fn brake_torque(aeroplane: &Aeroplane) -> Vec<BasisInput> {
    let Some(torque) = &aeroplane.brakes.torque_limit else { return Vec::new() };
    let radius = aeroplane.gear.main.tyre.loaded_radius.as_ref();
    let radius = radius.map(|radius| given("loaded radius of a main tyre", radius));
    std::iter::once(given("greatest torque of one brake", torque)).chain(radius).collect()
}

/// Friction, sinking and water of stretches of the strip.
fn stretch_inputs(flight: &Flight) -> Vec<BasisInput> {
    let place = |from: Length, to: Length| Amount::from(from).told_to(to.into());
    let state = flight.day.surface_state.as_ref().map(|state| state.value);
    let stated = flight.strip.friction.iter().filter(|stated| Some(stated.state) == state);
    let stated = stated.filter_map(|stated| Some((stated, stated.between.as_ref()?)));
    let mut inputs: Vec<BasisInput> = stated
        .flat_map(|(stated, (from, to))| {
            let place = place(from.value, *to);
            let kinds = [("rolling", &stated.rolling), ("braking", &stated.braking)];
            kinds.map(|(kind, value)| {
                let value = value.as_ref()?;
                let amount = Amount::coefficient(value.value.si());
                Some(given_as(&format!("{kind} coefficient {place}"), value, amount))
            })
        })
        .flatten()
        .collect();
    for ((from, to), step) in sinking_steps(flight).unwrap_or_default() {
        let name = format!("rolling added by sinking in {}", place(from, to));
        inputs.push(computed(&name, step.result, "work of pressing the ground"));
    }
    inputs.extend(flight.day.standing_water.iter().flatten().map(|patch| {
        given(&format!("depth of water {}", place(patch.from.value, patch.to)), &patch.depth)
    }));
    inputs.extend(flight.day.loose_material.iter().flatten().filter_map(|patch| {
        let rolling = patch.rolling.as_ref()?;
        let name = format!("rolling over loose material {}", place(patch.from.value, patch.to));
        Some(given_as(&name, rolling, Amount::coefficient(rolling.value.si())))
    }));
    inputs
}

/// The flap setting of a name.
pub(crate) fn setting<'a>(
    aeroplane: &'a Aeroplane,
    flap: Option<&Given<String>>,
) -> Option<&'a FlapSetting> {
    let name = flap?;
    aeroplane.flaps.iter().find(|setting| setting.name.value == name.value)
}

fn coefficient(name: &str, value: &Option<Given<f64>>) -> Option<BasisInput> {
    value.as_ref().map(|value| given_as(name, value, Amount::coefficient(value.value)))
}

fn aeroplane_inputs(aeroplane: &Aeroplane) -> Vec<BasisInput> {
    let (wing, engines, speeds) = (&aeroplane.wing, &aeroplane.engines, &aeroplane.speeds);
    let rows = [
        wing.area.as_ref().map(|value| given("wing area", value)),
        wing.span.as_ref().map(|value| given("span", value)),
        coefficient("drag of the gear", &wing.gear_drag),
        coefficient("drag of an engine out", &wing.engine_out_drag),
        engines.static_thrust.as_ref().map(|value| given("static thrust of an engine", value)),
        coefficient("bypass ratio", &engines.bypass_ratio),
        engines.shaft_power.as_ref().map(|value| given("shaft power of an engine", value)),
        engines.flat_rated_to.as_ref().map(|value| given("flat rated to", value)),
        engines.bleed_loss.as_ref().map(|value| given("thrust lost to bleeds", value)),
        engines.idle_share.as_ref().map(|value| given("idle thrust", value)),
        speeds.rotation.as_ref().map(|value| given("rotation over stall speed", value)),
        speeds.lift_off.as_ref().map(|value| given("lift-off over stall speed", value)),
        speeds.safety.as_ref().map(|value| given("safety speed over stall speed", value)),
        speeds.reference.as_ref().map(|value| given("reference over stall speed", value)),
        speeds.rotation_time.as_ref().map(|value| given("rotation time", value)),
        speeds.brake_delay.as_ref().map(|value| given("brake delay", value)),
    ];
    rows.into_iter().flatten().collect()
}

fn flap_inputs(flap: &FlapSetting) -> Vec<BasisInput> {
    let rows = [
        coefficient("maximum lift coefficient", &flap.lift_maximum),
        coefficient("lift coefficient rolling", &flap.lift_rolling),
        coefficient("lift coefficient stopping", &flap.lift_stopping),
        coefficient("drag coefficient at zero lift", &flap.drag_zero_lift),
        coefficient("drag of the spoilers", &flap.drag_spoilers),
        coefficient("induced drag factor", &flap.induced_factor),
    ];
    rows.into_iter().flatten().collect()
}

/// The thrust schedule of the take-off, row by row.
pub(crate) fn thrust_inputs(flight: &Flight) -> Vec<BasisInput> {
    let rows = flight.take_off.iter().flat_map(|plan| &plan.thrust);
    rows.map(|row| {
        let speed = Amount::from(row.ground_speed.value).told();
        given(&format!("take-off thrust set at {speed}"), &row.share)
    })
    .collect()
}

/// The greatest rolling coefficient that a take-off counts over ruts.
pub(crate) fn rut_input(measured: &Measured) -> Option<BasisInput> {
    let drag = measured.rut_drag.as_ref().filter(|drag| drag.raises())?;
    let worst = drag.worst.as_ref()?;
    let counted = Amount::coefficient(worst.rolling.si());
    Some(computed("greatest rolling coefficient counted, over ruts", counted, "G52"))
}

/// What the air and the wind of the day come from.
pub(crate) fn day_inputs(flight: &Flight) -> Vec<BasisInput> {
    let (day, strip) = (&flight.day, &flight.strip);
    let rows = [
        strip.elevation.as_ref().map(|value| given("elevation", value)),
        day.temperature.as_ref().map(|value| given("temperature", value)),
        day.sea_level_pressure
            .as_ref()
            .map(|value| given_as("altimeter setting", value, Amount::air_pressure(value.value))),
        day.wind.as_ref().map(|value| given_as("wind", value, value.value.speed.into())),
        strip.bearing.as_ref().map(|value| given("bearing of the strip", value)),
        day.wind_gradient.as_ref().map(|value| {
            given_as(
                "exponent of the wind near the ground",
                value,
                Amount::coefficient(value.value),
            )
        }),
    ];
    rows.into_iter().flatten().collect()
}
