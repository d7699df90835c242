//! Air, wind and friction of the day.

use super::{figure, results};
use crate::assess::figure_basis::{FigureBasis, of_step};
use crate::by_formula::by_formula;
use crate::context::Context;
use crate::draft::{computed, constant, derived, given, given_as, plain_step};
use hardpan_model::{BasisInput, Direction, Source, Step, Tier};
use hardpan_quantity::{Amount, Quantity, Speed};
use hardpan_run::WindComponents;

/// Gas constant of dry air, J/(kg K).
const GAS_CONSTANT: f64 = 287.052_87;
const STANDARD_AIR: Source =
    Source::new("TEXTBOOK-PHYSICS", "gas constant of dry air, J/(kg K)", Tier::Derived);
const COMPONENTS: &str = "along: v cos(direction − course), across: v sin(direction − course), at \
    the worst of the directions reported; gusts count across and from behind; credited 50 % from \
    ahead and 150 % from behind";

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
    let density = plain_step(
        "density of the air",
        "pressure / (gas constant × temperature)",
        derived("ideal gas"),
        [pressure]
            .into_iter()
            .chain(warmth)
            .chain([constant("gas constant", Amount::coefficient(GAS_CONSTANT), STANDARD_AIR)])
            .collect(),
        air.density(),
    );
    [station].into_iter().chain(altitude).chain([reported, density]).collect()
}

fn blown(context: &Context<'_>) -> Vec<BasisInput> {
    let (day, strip) = (&context.flight.day, &context.flight.strip);
    let wind = day.wind.as_ref().map(|one| given_as("wind", one, one.value.speed.into()));
    wind.into_iter().chain(strip.bearing.as_ref().map(|one| given("bearing", one))).collect()
}

fn wind(context: &Context<'_>) -> Vec<Step> {
    let inputs = blown(context);
    let both = [Direction::Up, Direction::Down].into_iter().filter_map(|direction| {
        WindComponents::at(&context.flight.strip, &context.flight.day, direction).ok()
    });
    let named = both.flat_map(|wind| {
        let behind: Speed = -wind.headwind;
        [
            ("headwind, the least that is sure", Amount::from(wind.headwind)),
            ("tailwind", behind.into()),
            ("tailwind, no less than nothing", behind.max(Speed::default()).into()),
            ("headwind credited", wind.credited.into()),
            ("crosswind, gusts included", wind.crosswind.into()),
        ]
    });
    results(&inputs, (COMPONENTS, derived("wind of the day")), named)
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
