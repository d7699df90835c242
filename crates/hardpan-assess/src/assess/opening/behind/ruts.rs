//! What the law of ruts was asked with: along the strip, under a take-off, and where
//! ruts were measured.

use super::{after, figure};
use crate::assess::figure_basis::{FigureBasis, of_step};
use crate::by_formula::catalogued;
use crate::context::Context;
use crate::draft::{
    beside, computed, constant, derived, given, given_as, plain_step, wheel_count, wheel_distance,
};
use crate::ground::LegKind;
use crate::ground::held_to_ruts::HeldToRuts;
use crate::ground::leg_load::{load_there, standing_steps};
use crate::ground::rut_drag::{Rolling, RutDrag};
use crate::ground::rut_record::{LawThere, law_there};
use crate::ground::ruts_along::ruts_along;
use crate::tyres::least_for;
use hardpan_ground::{BARBER_RUT, EQUIVALENT_SINGLE_WHEEL};
use hardpan_model::{BasisInput, MeasuredRut, Source, Step, Tier};
use hardpan_quantity::{Amount, Force, Length, Quantity};

const FIRST: Source = Source::new("", "the first pass", Tier::Derived);
const SOUNDINGS: &str = "soundings of the strip";
const LEG: &str = "load of the leg";

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

/// Steps from those of the load of the leg to the single wheel; the last gives it.
fn single_steps(
    context: &Context<'_>,
    pressure: BasisInput,
    load: Vec<Step>,
    of: &Single,
) -> Vec<Step> {
    let leg = LegKind::Main.leg(context.flight);
    let wheels = wheel_count(leg.wheels.as_ref());
    let at = load.len();
    let inputs = vec![
        of_step("wheel_load", of.wheel, at),
        pressure,
        wheels.clone(),
        wheel_distance("wheel_spacing", leg.spacing.as_ref()),
        wheel_distance("tandem_spacing", leg.tandem_spacing.as_ref()),
        computed("depth", of.depth, SOUNDINGS),
    ];
    let wheel = plain_step(
        "load of one wheel",
        "load of the leg / wheels",
        derived("wheels of a leg carry alike"),
        vec![
            of_step("load of the leg", of.leg, at.saturating_sub(1)).under("load of the leg"),
            wheels.under("wheels"),
        ],
        of.wheel,
    );
    let single = Step {
        computes: "equivalent single wheel at the bottom of the upper layer".to_owned(),
        ..catalogued(&EQUIVALENT_SINGLE_WHEEL, inputs, of.single)
    };
    load.into_iter().chain([wheel, single]).collect()
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
            let load = load_there(context, LegKind::Main, LEG, stretch.leg);
            let found = single_steps(context, pressure, vec![load], &of);
            steps.extend(after(steps.len(), found));
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
    steps.push(pressure(context, of));
    let set = computed("pressure", of.pressure, "stretches of the ruts, step before");
    if let Some(law) = drag.worst.as_ref().and_then(|worst| worst.law) {
        let single =
            Single { leg: of.leg, wheel: of.wheel, depth: law.thickness, single: law.single };
        let load = heaviest(context, of.leg);
        steps.extend(after(steps.len(), single_steps(context, set, load, &single)));
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

/// The standing load of the greatest take-off mass.
fn heaviest(context: &Context<'_>, leg: Force) -> Vec<Step> {
    let flight = context.flight;
    let plan = flight.take_off.as_ref();
    let masses = [flight.aeroplane.mass.maximum_take_off.as_ref()].into_iter();
    let masses = masses.chain([plan.and_then(|plan| plan.mass.as_ref())]).flatten();
    let mass = masses.max_by(|a, b| a.value.si().total_cmp(&b.value.si()));
    let centre = plan.and_then(|plan| plan.centre_of_gravity.as_ref());
    let of = mass.zip(centre).and_then(|(mass, centre)| {
        let inputs = (given("greatest take-off mass", mass), given("centre of gravity", centre));
        standing_steps(context, LegKind::Main, LEG, inputs, leg)
    });
    of.map_or_else(Vec::new, Vec::from)
}

/// The pressure as stated, else the highest of the tyre where the ground carries it, else
/// the least of the greatest mass.
fn pressure(context: &Context<'_>, of: &Rolling) -> Step {
    let flight = context.flight;
    let tyre = &flight.aeroplane.gear.main.tyre;
    let highest = tyre.maximum_pressure.as_ref().or(tyre.rated_pressure.as_ref());
    let stated = flight.main_tyre_pressure.as_ref();
    let greatest = flight.aeroplane.mass.maximum_take_off.as_ref();
    let least = greatest.and_then(|mass| least_for(flight, mass.value, of.leg));
    let rule = match (stated, highest) {
        (Some(_), _) => "as stated",
        (None, Some(highest)) if highest.value == of.pressure => {
            "the highest of the tyre, which the ground carries"
        }
        _ => "the least of the greatest mass, rounded up to 5 psi, no more than the highest",
    };
    let by = "by the chart, the table or the rating of the tyre at that mass and its load";
    let rows = [
        stated.map(|one| given("pressure stated", one)),
        least.map(|least| beside("least of the greatest mass", least, by)),
        highest.map(|one| given("highest of the tyre", one)),
        greatest.map(|one| given("greatest mass", one)),
    ];
    plain_step(
        "pressure no less than any mass sets",
        rule,
        derived("pressures of T10"),
        rows.into_iter().flatten().collect(),
        of.pressure,
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
    let pressure = || given("pressure", &rut.pressure);
    let wheels = LegKind::Main.leg(context.flight).wheels.as_ref();
    let wheels = f64::from(wheels.map_or(1, |wheels| wheels.value.max(1)));
    let single = Single {
        leg: law.load,
        wheel: law.load / wheels,
        depth: law.thickness,
        single: law.single,
    };
    let load = load_that_made(context, rut, law.load);
    steps.extend(after(steps.len(), single_steps(context, pressure(), load, &single)));
    let inputs = vec![
        of_step("load", law.single, steps.len().saturating_sub(1)),
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

/// The load of the leg there at the mass that made the rut.
fn load_that_made(context: &Context<'_>, rut: &MeasuredRut, load: Force) -> Vec<Step> {
    let flight = context.flight;
    let of_take_off = flight.take_off.as_ref().map(|plan| plan.centre_of_gravity.as_ref());
    let of_landing = || flight.landing.as_ref().map(|plan| plan.centre_of_gravity.as_ref());
    let centre = of_take_off.or_else(of_landing).flatten();
    let arms = context.measured.arms.as_ref().ok();
    let standing = centre.zip(arms).and_then(|(centre, arms)| {
        let loads = arms.standing(rut.mass.value, centre.value).ok()?;
        (loads.main_leg == load).then_some(centre)
    });
    let mass = || given("mass that made the rut", &rut.mass);
    let steps = standing.and_then(|centre| {
        let inputs = (mass(), given("centre of gravity", centre));
        standing_steps(context, LegKind::Main, LEG, inputs, load)
    });
    steps.map_or_else(
        || {
            let by = "of the movement planned, with that mass: lift, drag and brakes";
            let inputs = vec![mass(), beside("load of the run there", load, by).under("run")];
            vec![plain_step(LEG, "run", derived("moments about the main gear"), inputs, load)]
        },
        Vec::from,
    )
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
        plain_step(
            "passes in all",
            "so far + asked for",
            source,
            vec![had.under("so far"), asked_for.under("asked for")],
            both,
        ),
    ]
}
