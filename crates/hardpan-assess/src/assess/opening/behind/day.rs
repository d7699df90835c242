//! Air, wind and friction of the day.

use super::{after, figure, results};
use crate::assess::figure_basis::{FigureBasis, of_step};
use crate::by_formula::by_formula;
use crate::context::Context;
use crate::draft::{computed, constant, derived, given, given_as, plain_step};
use hardpan_model::{BasisInput, Direction, Source, Step, Tier};
use hardpan_quantity::{Amount, Angle, Quantity, Speed};
use hardpan_run::WindComponents;

/// Gas constant of dry air, J/(kg K).
const GAS_CONSTANT: f64 = 287.052_87;
const STANDARD_AIR: Source =
    Source::new("TEXTBOOK-PHYSICS", "gas constant of dry air, J/(kg K)", Tier::Derived);
const COMPONENTS: &str = "along and across the strip at the worst of the directions reported, or \
    of all where none is; gusts count across and from behind";

pub(super) fn figures(context: &Context<'_>) -> Vec<FigureBasis> {
    let friction = figure("friction of the day", friction(context));
    let day = [figure("air of the day", air(context)), figure("wind of the day", wind(context))];
    day.into_iter().flatten().chain(friction).chain(of_this_flight(context)).collect()
}

fn air(context: &Context<'_>) -> Vec<Step> {
    let (day, strip) = (&context.flight.day, &context.flight.strip);
    let Ok(air) = &context.measured.air else { return Vec::new() };
    let reported = day.sea_level_pressure.as_ref();
    let inputs = reported
        .map(|one| given_as("sea level pressure", one, Amount::air_pressure(one.value)))
        .into_iter()
        .chain(strip.elevation.as_ref().map(|one| given("elevation", one)));
    let Ok(station) = by_formula("station-pressure", inputs.collect()) else { return Vec::new() };
    let pressure = of_step("pressure", station.result, 0);
    let altitude = by_formula("pressure-altitude", vec![pressure.clone()]);
    let warmth = day.temperature.as_ref().map(|one| given("temperature", one));
    let reported = plain_step(
        "temperature of the air",
        "as reported",
        derived("report of the day"),
        warmth.clone().into_iter().collect(),
        air.temperature(),
    );
    let gas = constant("gas constant", Amount::coefficient(GAS_CONSTANT), STANDARD_AIR);
    let density = plain_step(
        "density of the air",
        "pressure / (gas constant × temperature); the temperature in kelvin",
        derived("ideal gas"),
        [pressure.under("pressure")]
            .into_iter()
            .chain(warmth.map(|warmth| warmth.under("temperature")))
            .chain([gas.under("gas constant")])
            .collect(),
        air.density(),
    );
    [station].into_iter().chain(altitude).chain([reported, density]).collect()
}

/// The wind of each way along the strip.
fn wind(context: &Context<'_>) -> Vec<Step> {
    let mut steps = Vec::new();
    for direction in [Direction::Up, Direction::Down] {
        let found = WindComponents::at(&context.flight.strip, &context.flight.day, direction);
        let Ok(found) = found else { continue };
        let of = one_direction(context, direction, &found);
        let of = of.unwrap_or_else(|| any_direction(context, &found));
        steps.extend(after(steps.len(), of));
    }
    steps
}

/// The components of one direction reported; none where it varies or is not.
fn one_direction(
    context: &Context<'_>,
    direction: Direction,
    found: &WindComponents,
) -> Option<Vec<Step>> {
    let (day, strip) = (&context.flight.day, &context.flight.strip);
    let (wind, bearing) = (day.wind.as_ref()?, strip.bearing.as_ref()?);
    let (Some(from), None) = (wind.value.from, wind.value.between) else { return None };
    let peak = wind.value.gust.map_or(wind.value.speed, |gust| gust.max(wind.value.speed));
    let along = if found.headwind < Speed::default() { peak } else { wind.value.speed };
    let course = match direction {
        Direction::Up => given("bearing", bearing),
        Direction::Down => {
            let whole = bearing.value.si() + std::f64::consts::PI;
            given_as("bearing, the other way", bearing, Angle::from_si(whole).into())
        }
    };
    let speed = |speed: Speed| given_as("wind", wind, speed.into());
    let direction = || given_as("direction of the wind", wind, from.into());
    let headwind = by_formula("headwind", vec![speed(along), direction(), course.clone()]).ok()?;
    let headwind = Step {
        computes: "headwind, the least that is sure".to_owned(),
        result: found.headwind.into(),
        ..headwind
    };
    let across = plain_step(
        "crosswind, gusts included",
        "|v × sin(direction − course)|",
        headwind.source,
        vec![speed(peak).under("v"), direction().under("direction"), course.under("course")],
        found.crosswind,
    );
    let credited = by_formula("credited-headwind", vec![of_step("headwind", found.headwind, 0)]);
    let credited = credited.ok()?;
    let credited = Step { result: found.credited.into(), ..credited };
    Some([headwind].into_iter().chain(behind(found)).chain([credited, across]).collect())
}

/// The headwind of the step before as a tailwind.
fn behind(found: &WindComponents) -> [Step; 2] {
    let tailwind: Speed = -found.headwind;
    let step = |name, rule, result: Speed| {
        let input = of_step("headwind", found.headwind, 0).under("headwind");
        plain_step(name, rule, derived("a tailwind is a headwind from behind"), vec![input], result)
    };
    [
        step("tailwind", "0 − headwind", tailwind),
        step(
            "tailwind, no less than nothing",
            "greater of 0 − headwind and 0",
            tailwind.max(Speed::default()),
        ),
    ]
}

/// The components where the direction varies or is missing.
fn any_direction(context: &Context<'_>, found: &WindComponents) -> Vec<Step> {
    let (day, strip) = (&context.flight.day, &context.flight.strip);
    let wind = day.wind.as_ref().map(|one| given_as("wind", one, one.value.speed.into()));
    let bearing = strip.bearing.as_ref().map(|one| given("bearing", one));
    let inputs: Vec<BasisInput> = wind.into_iter().chain(bearing).collect();
    let named = [
        ("headwind, the least that is sure", Amount::from(found.headwind)),
        ("crosswind, gusts included", found.crosswind.into()),
    ];
    let mut steps = results(&inputs, (COMPONENTS, derived("wind of the day")), named);
    steps.extend(behind(found));
    let credited = by_formula("credited-headwind", vec![of_step("headwind", found.headwind, 0)]);
    steps.extend(credited.ok().map(|step| Step { result: found.credited.into(), ..step }));
    steps
}

fn friction(context: &Context<'_>) -> Vec<Step> {
    let Ok(friction) = &context.measured.friction else { return Vec::new() };
    let mut steps = context.measured.friction_steps();
    let credited = [
        ("rolling coefficient credited", friction.rolling.credited, 0),
        ("braking coefficient credited", friction.braking.credited, 1),
    ];
    for (name, value, of) in credited {
        let Some(step) = steps.get(of) else { continue };
        let input = of_step("coefficient of the step", step.result, of);
        for amount in [Amount::coefficient(value.si()), value.into()] {
            steps.push(plain_step(
                name,
                "on the safe side of the scatter; as stated where the user states it",
                derived("the step of that coefficient"),
                vec![input.clone()],
                amount,
            ));
        }
    }
    steps
}

/// The figures that an approved limit bounds.
fn of_this_flight(context: &Context<'_>) -> Option<FigureBasis> {
    let flight = context.flight;
    let step = |limit: &hardpan_model::ApprovedLimit| {
        let name = limit.quantity.value.as_str();
        let value = context.quantity(name, limit.phase)?.ok()?;
        let width = flight.strip.width.as_ref();
        let temperature = flight.day.temperature.as_ref();
        let plans = [
            flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref()),
            flight.landing.as_ref().and_then(|plan| plan.mass.as_ref()),
        ];
        let by = match name {
            "crosswind" | "tailwind" => vec![computed(name, value, "wind of the day")],
            "pressure altitude" => vec![computed(name, value, "air of the day")],
            "main tyre pressure" | "nose tyre pressure" => vec![computed(name, value, "T10")],
            "outside temperature" => temperature.map(|one| given(name, one)).into_iter().collect(),
            "take-off mass" => plans[0].map(|one| given(name, one)).into_iter().collect(),
            "landing mass" => plans[1].map(|one| given(name, one)).into_iter().collect(),
            "surfacing thickness" => vec![computed(name, value, "soundings of the strip")],
            "runway slope" => crate::shape::levels::survey(context),
            _ => width.map(|one| given(name, one)).into_iter().collect(),
        };
        Some(plain_step(name, "as it is on this flight", derived("its own figure"), by, value))
    };
    let steps = flight.aeroplane.limits.iter().filter_map(step).collect();
    figure("figures of this flight", steps)
}
