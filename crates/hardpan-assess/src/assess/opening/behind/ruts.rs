//! What the law of ruts was asked with: along the strip, under a take-off, and where
//! ruts were measured.

use super::figure;
use crate::assess::figure_basis::{FigureBasis, of_step};
use crate::by_formula::catalogued;
use crate::context::Context;
use crate::draft::{
    computed, constant, derived, given, given_as, plain_step, wheel_count, wheel_distance,
};
use crate::ground::LegKind;
use crate::ground::held_to_ruts::HeldToRuts;
use crate::ground::rut_drag::RutDrag;
use crate::ground::rut_record::{LawThere, law_there};
use crate::ground::ruts_along::ruts_along;
use crate::ground::strength_finding::load_inputs;
use hardpan_ground::{BARBER_RUT, EQUIVALENT_SINGLE_WHEEL};
use hardpan_model::{BasisInput, MeasuredRut, Source, Step, Tier};
use hardpan_quantity::{Amount, Force, Length, Pressure};

const FIRST: Source = Source::new("", "the first pass", Tier::Derived);
const SOUNDINGS: &str = "soundings of the strip";

pub(super) fn figures(context: &Context<'_>) -> Vec<FigureBasis> {
    let ruts = &context.flight.strip.ruts;
    [
        figure("stretches of the ruts", stretches(context)),
        figure("law at the measured ruts", measured(context, ruts)),
        figure("passes so far and asked for", passes(context, ruts)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The single wheel of a leg at a depth, from the load of the leg.
struct Single {
    leg: Force,
    wheel: Force,
    depth: Length,
    single: Force,
}

fn single_steps(
    context: &Context<'_>,
    base: usize,
    pressure: BasisInput,
    (load, of): (Vec<BasisInput>, Single),
) -> [Step; 3] {
    let leg = LegKind::Main.leg(context.flight);
    let loads = "greatest of the runs there and of standing, by moments about the main gear";
    let wheels = wheel_count(leg.wheels.as_ref());
    let inputs = vec![
        of_step("wheel_load", of.wheel, base + 1),
        pressure,
        wheels.clone(),
        wheel_distance("wheel_spacing", leg.spacing.as_ref()),
        wheel_distance("tandem_spacing", leg.tandem_spacing.as_ref()),
        computed("depth", of.depth, SOUNDINGS),
    ];
    [
        plain_step("load of the leg", loads, derived("moments about the main gear"), load, of.leg),
        plain_step(
            "load of one wheel",
            "load of the leg / wheels",
            derived("wheels of a leg carry alike"),
            vec![of_step("leg load", of.leg, base), wheels],
            of.wheel,
        ),
        Step {
            computes: "equivalent single wheel at the bottom of the upper layer".to_owned(),
            ..catalogued(&EQUIVALENT_SINGLE_WHEEL, inputs, of.single)
        },
    ]
}

fn stretches(context: &Context<'_>) -> Vec<Step> {
    let mut steps = Vec::new();
    let wheels = LegKind::Main.leg(context.flight).wheels.as_ref();
    let wheels = f64::from(wheels.map_or(1, |wheels| wheels.value.max(1)));
    if let Ok((found, _)) = ruts_along(context) {
        for stretch in &found {
            let pressure = computed("pressure", stretch.pressure, "T10");
            let of = Single {
                leg: stretch.leg,
                wheel: stretch.leg / wheels,
                depth: stretch.thickness,
                single: stretch.single,
            };
            let load = load_inputs(context.flight);
            let base = steps.len();
            steps.extend(single_steps(context, base, pressure, (load, of)));
        }
    }
    if let Some(drag) = &context.measured.rut_drag {
        rolling(context, drag, &mut steps);
    }
    steps
}

/// The heaviest take-off over the ruts.
fn rolling(context: &Context<'_>, drag: &RutDrag, steps: &mut Vec<Step>) {
    let flight = context.flight;
    let of = &drag.of;
    let mut load = load_inputs(flight);
    load.extend(flight.aeroplane.mass.maximum_take_off.as_ref().map(|one| given("greatest", one)));
    steps.push(pressure(context, of.pressure));
    let set = of_step("pressure", of.pressure, steps.len() - 1);
    if let Some(law) = drag.worst.as_ref().and_then(|worst| worst.law) {
        let single =
            Single { leg: of.leg, wheel: of.wheel, depth: law.thickness, single: law.single };
        let base = steps.len();
        steps.extend(single_steps(context, base, set, (load, single)));
    }
    let rut = drag.worst.as_ref().and_then(|worst| worst.measured);
    let row = rut.and_then(|rut| flight.strip.ruts.iter().find(|one| one.depth.value == rut));
    let passes = flight.passes.as_ref();
    let asked = |one: f64| Amount::coefficient(one);
    steps.extend(passes.map(|passes| {
        let inputs = vec![given_as("passes", passes, Amount::count(passes.value))];
        plain_step("passes", "as asked", derived("flight file"), inputs, asked(passes.value))
    }));
    steps.push(plain_step(
        "the first pass",
        "one pass",
        derived("a rut deepens most in its first pass"),
        vec![constant("passes", asked(1.0), FIRST)],
        asked(1.0),
    ));
    steps.extend(row.map(|row| {
        let inputs = vec![given("rut", &row.depth)];
        plain_step("rut measured", "as measured", derived("ruts file"), inputs, row.depth.value)
    }));
}

fn pressure(context: &Context<'_>, set: Pressure) -> Step {
    let flight = context.flight;
    let tyre = &flight.aeroplane.gear.main.tyre;
    let highest = tyre.maximum_pressure.as_ref().or(tyre.rated_pressure.as_ref());
    let rows = [
        flight.main_tyre_pressure.as_ref().map(|one| given("pressure stated", one)),
        highest.map(|one| given("highest of the tyre", one)),
        flight.aeroplane.mass.maximum_take_off.as_ref().map(|one| given("greatest mass", one)),
    ];
    plain_step(
        "pressure no less than any mass sets",
        "as stated, else the highest of the tyre, or the least of the greatest mass rounded up",
        derived("pressures of T10"),
        rows.into_iter().flatten().collect(),
        set,
    )
}

fn measured(context: &Context<'_>, ruts: &[MeasuredRut]) -> Vec<Step> {
    let mut steps = Vec::new();
    for rut in ruts {
        if let Ok(law) = law_there(context.flight, context.measured, rut) {
            add_law(context, rut, &law, &mut steps);
        }
    }
    steps
}

fn add_law(context: &Context<'_>, rut: &MeasuredRut, law: &LawThere, steps: &mut Vec<Step>) {
    let mut load = load_inputs(context.flight);
    load.push(given("mass that made the rut", &rut.mass));
    let pressure = || given("pressure", &rut.pressure);
    let wheels = LegKind::Main.leg(context.flight).wheels.as_ref();
    let wheels = f64::from(wheels.map_or(1, |wheels| wheels.value.max(1)));
    let single = Single {
        leg: law.load,
        wheel: law.load / wheels,
        depth: law.thickness,
        single: law.single,
    };
    let base = steps.len();
    steps.extend(single_steps(context, base, pressure(), (load, single)));
    let inputs = vec![
        of_step("load", law.single, base + 2),
        pressure(),
        given_as("passes", &rut.passes, Amount::coefficient(rut.passes.value)),
        computed("thickness", law.thickness, SOUNDINGS),
        computed("bearing_ratio_above", law.above, SOUNDINGS),
        computed("bearing_ratio_below", law.below, SOUNDINGS),
    ];
    let at = Amount::from(rut.station.value).told();
    let computes = format!("rut of the law at {at}");
    steps.push(Step { computes, ..catalogued(&BARBER_RUT, inputs, law.rut) });
}

fn passes(context: &Context<'_>, ruts: &[MeasuredRut]) -> Vec<Step> {
    let so_far = HeldToRuts::of(context, ruts).so_far();
    let most = ruts.iter().find(|rut| rut.passes.value == so_far);
    let (Some(most), Some(asked)) = (most, &context.flight.passes) else { return Vec::new() };
    let had = given_as("passes of the rut that had most", &most.passes, Amount::count(so_far));
    let asked_for = given_as("passes asked for", asked, Amount::count(asked.value));
    let both = Amount::coefficient(so_far + asked.value);
    let source = derived("passes of the ruts file and of the flight");
    vec![
        plain_step(
            "passes so far",
            "most of the ruts",
            source,
            vec![had.clone()],
            Amount::count(so_far),
        ),
        plain_step("passes in all", "so far + asked for", source, vec![had, asked_for], both),
    ]
}
