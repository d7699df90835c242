//! T40: the tyre pressure at the strip, after the change of temperature and air.

use crate::by_formula::catalogued;
use crate::context::Context;
use crate::draft::{Draft, beside, computed, given, given_as, need, plain_step};
use crate::ground::LegKind;
use crate::ground::two_layers::from_step;
use crate::measured::{Known, Unavailable};
use crate::rule::Rule;
use crate::tyres::TyrePressure;
use crate::tyres::gauge::{set_above, set_near};
use hardpan_ground::{TYRE_PRESSURE_GAS_LAW, TyreAir, gauge_pressure_there};
use hardpan_model::{BasisInput, Finding, Mark, Phase, Source, Step, Tier, TyresSet};
use hardpan_quantity::{Amount, Dimension, Pressure, Quantity, Temperature, UnitSystem, psi};
use hardpan_run::Air;

pub(super) const RULE: Rule = Rule {
    code: "T40",
    name: "Tyre pressure and temperature",
    checks: "Where the tyres are set at another place or temperature: what a gauge reads at the \
             strip, against the least pressure, the greatest of the tyre and the greatest that \
             the ground carries; or, where none is set yet, what to set there, in whole psi \
             between the least and the greatest. Else what a gauge reads when it is 10 °C colder.",
    why: "A tyre set cold and carried to a warm strip is harder than planned; set in the warm and \
          carried into the cold, it may be below its least.",
    limit: "As T10, and the greatest pressure that the ground carries (G20, G30).",
    applies: "Every flight; with `tyres_set` in the flight file the set pressure is read there. \
              The gas has taken the temperature of the air; heat of rolling and braking is not \
              counted.",
    source: Source::new("TEXTBOOK-PHYSICS", "ideal gas at constant volume", Tier::Derived),
    judge,
};

const GAUGE: Source =
    Source::new("", "gauges are read in whole psi, never outside the bounds", Tier::CommonPractice);
/// Cold for which the change is shown.
const COLDER_K: f64 = 10.0;

fn judge(context: &Context<'_>) -> Vec<Finding> {
    let measured = context.measured;
    let legs = [(LegKind::Main, &measured.main_tyre), (LegKind::Nose, &measured.nose_tyre)];
    match &context.flight.tyres_set {
        Some(set) => legs.map(|(leg, tyre)| elsewhere(context, leg, tyre, set)).into(),
        None => vec![here(context, &measured.main_tyre)],
    }
}

/// Air at the strip on the day.
fn at_strip(context: &Context<'_>) -> Known<TyreAir> {
    let air = context.measured.air.as_ref().map_err(Clone::clone)?;
    Ok(TyreAir { pressure: air.pressure(), temperature: air.temperature() })
}

fn here(context: &Context<'_>, tyre: &Known<TyrePressure>) -> Finding {
    let draft = Draft::new(&RULE, "tyre pressure in the cold", Phase::Always)
        .advice()
        .mark(Mark::PlanningOnly);
    let (air, tyre) = match (at_strip(context), tyre) {
        (Ok(air), Ok(tyre)) => (air, tyre),
        (Err(why), _) => return draft.unavailable(&why),
        (_, Err(why)) => return draft.unavailable(why),
    };
    let colder =
        TyreAir { temperature: Temperature::from_si(air.temperature.si() - COLDER_K), ..air };
    match gauge_pressure_there(tyre.set, air, colder) {
        Ok(cold) => draft
            .value(cold)
            .step(step(
                "reading in the cold",
                [computed("gauge_pressure", tyre.set, "T10"), strip_air(&air, "air_pressure")],
                computed("temperature", air.temperature, "air of the day"),
                [
                    strip_air(&air, "air_pressure_there"),
                    beside("temperature_there", colder.temperature, "10 °C below that of the day"),
                ],
                cold,
            ))
            .pass(format!(
                "the main tyres, {} at {}, read so much at {}: set them by the temperature of \
                 the strip",
                gauge(tyre.set),
                celsius(air.temperature),
                celsius(colder.temperature)
            )),
        Err(error) => draft.unavailable(&Unavailable::refused("the tyre pressure", &error)),
    }
}

fn elsewhere(
    context: &Context<'_>,
    leg: LegKind,
    tyre: &Known<TyrePressure>,
    set: &TyresSet,
) -> Finding {
    let title = format!("{} tyre pressure after the flight to the strip", leg.word());
    let draft = Draft::new(&RULE, title, Phase::Always).mark(Mark::PlanningOnly);
    let (Some(temperature), Some(elevation)) = (&set.temperature, &set.elevation) else {
        let rows = [
            (set.temperature.is_none(), "flight: tyres_set.temperature", "of the air there"),
            (set.elevation.is_none(), "flight: tyres_set.elevation", "of that place"),
        ];
        let needs = rows.iter().filter(|row| row.0).map(|row| need(row.1, row.2));
        return draft.unproven("it is not said how warm and how high the tyres are set", needs);
    };
    let (strip, tyre) = match (at_strip(context), tyre) {
        (Ok(air), Ok(tyre)) => (air, tyre),
        (Err(why), _) => return draft.unavailable(&why),
        (_, Err(why)) => return draft.unavailable(why),
    };
    let standard = match Air::standard(elevation.value, 0.0) {
        Ok(air) => air.pressure(),
        Err(error) => return draft.unavailable(&Unavailable::refused("the air there", &error)),
    };
    let there = TyreAir { pressure: standard, temperature: temperature.value };
    let outside = [
        air_input("standard", standard, &given_as("", elevation, elevation.value.into())),
        given("temperature", temperature),
    ];
    let draft = draft.caveat("standard air pressure is taken where the tyres are set");
    match &tyre.given {
        Some(stated) => {
            let arrived = match gauge_pressure_there(stated.value, there, strip) {
                Ok(arrived) => arrived,
                Err(error) => {
                    return draft.unavailable(&Unavailable::refused("the tyre pressure", &error));
                }
            };
            let [air, warmth] = outside;
            let draft = draft.step(step(
                "reading at the strip",
                [named("gauge_pressure", given("", stated)), named("air_pressure", air)],
                warmth,
                [
                    strip_air(&strip, "air_pressure_there"),
                    computed("temperature_there", strip.temperature, "air of the day"),
                ],
                arrived,
            ));
            against(draft.value(arrived), context, leg, tyre, arrived)
        }
        None => {
            let air = [strip, there];
            let found = to_set(context, (leg, tyre), air, (outside, temperature.value));
            match found {
                Ok(found) => told(draft, leg, &found),
                Err(why) => draft.unavailable(&why),
            }
        }
    }
}

/// What to set the tyres to where they are set, and what they then read at the strip.
struct Setting {
    steps: Vec<Step>,
    set: Pressure,
    reads: Pressure,
    /// Whether a pressure that a gauge shows lies between the bounds.
    is_between: bool,
    /// Temperatures where they are set, and at the strip.
    warmth: [Temperature; 2],
}

fn to_set(
    context: &Context<'_>,
    (leg, tyre): (LegKind, &TyrePressure),
    [strip, there]: [TyreAir; 2],
    (outside, warmth): ([BasisInput; 2], Temperature),
) -> Known<Setting> {
    let refused = |error: hardpan_ground::Error| Unavailable::refused("the tyre pressure", &error);
    let least = tyre.least.as_ref().map_err(Clone::clone)?.pressure;
    let highest = leg.leg(context.flight).tyre.maximum_pressure.as_ref().map(|most| most.value);
    let carried = tyre.greatest.as_ref().ok().copied().flatten();
    let bounds = highest.into_iter().chain(carried).reduce(Pressure::min);
    let most = bounds.filter(|most| *most >= least);
    let mut steps = Vec::new();
    let mut moved = |words: &str, pressure: Pressure| -> Known<(Pressure, BasisInput)> {
        let [air, warmth] = outside.clone();
        let moved = gauge_pressure_there(pressure, strip, there).map_err(refused)?;
        steps.push(step(
            words,
            [computed("gauge_pressure", pressure, "T10"), strip_air(&strip, "air_pressure")],
            computed("temperature", strip.temperature, "air of the day"),
            [named("air_pressure_there", air), named("temperature_there", warmth)],
            moved,
        ));
        Ok((moved, from_step(words, moved, steps.len() - 1)))
    };
    let (wanted, reading) = moved("reading where it is set", tyre.set)?;
    let (least, lowest) = moved("least where it is set", least)?;
    let most = most.map(|most| moved("greatest where it is set", most)).transpose()?;
    let bounds = (least, most.as_ref().map(|most| most.0));
    let between = set_near(wanted, bounds);
    let set = between.unwrap_or_else(|| set_above(least));
    let inputs = [reading, lowest].into_iter().chain(most.map(|most| most.1)).collect();
    let rule = "nearest whole psi between the least and the greatest, in kPa too; tenths where \
                none lies there, and up from the least where no tenth does";
    steps.push(plain_step("pressure to set", rule, GAUGE, inputs, set));
    let reads = gauge_pressure_there(set, there, strip).map_err(refused)?;
    let [air, warm] = outside;
    steps.push(step(
        "reading at the strip",
        [from_step("gauge_pressure", set, steps.len() - 1), named("air_pressure", air)],
        warm,
        [
            strip_air(&strip, "air_pressure_there"),
            computed("temperature_there", strip.temperature, "air of the day"),
        ],
        reads,
    ));
    let (is_between, warmth) = (between.is_some(), [warmth, strip.temperature]);
    Ok(Setting { steps, set, reads, is_between, warmth })
}

fn told(draft: Draft, leg: LegKind, found: &Setting) -> Finding {
    let mut draft = draft.steps(found.steps.clone());
    let [there, strip] = found.warmth.map(celsius);
    if !found.is_between {
        draft = draft.caveat(
            "no tenth of a psi lies between the least and the greatest: it is the least rounded up, \
             and the ground carries no more",
        );
    }
    let (set, reads) = (found.set, found.reads);
    draft
        .value(set)
        .instruct(format!("set the {} tyres to {} at {there}", leg.word(), gauge(set)))
        .conditional(format!(
            "set so before the flight they read {} at the strip at {strip}",
            gauge(reads)
        ))
}

/// The pressure on arrival against all that bounds it.
fn against(
    draft: Draft,
    context: &Context<'_>,
    leg: LegKind,
    tyre: &TyrePressure,
    arrived: Pressure,
) -> Finding {
    let least = match &tyre.least {
        Ok(least) => least.pressure,
        Err(why) => return draft.unavailable(why),
    };
    if arrived < least {
        return draft.at_least(least).fail("at the strip the pressure is below the least allowed");
    }
    let highest = &leg.leg(context.flight).tyre.maximum_pressure;
    if let Some(highest) = highest
        && arrived > highest.value
    {
        return draft
            .at_most(highest.value)
            .fail("at the strip the pressure is above the greatest that the tyre allows");
    }
    match &tyre.greatest {
        Ok(Some(carried)) if arrived > *carried => draft
            .at_most(*carried)
            .fail("at the strip the pressure is above the greatest that the ground carries"),
        Ok(Some(carried)) => draft.at_most(*carried).pass("it stays between its bounds"),
        Ok(None) => draft.at_least(least).unproven(
            "the ground carries these wheels at no pressure allowed; see G20 and G30",
            [],
        ),
        Err(why) => draft.unavailable(why),
    }
}

fn step(
    computes: &str,
    gauge_and_air: [BasisInput; 2],
    temperature: BasisInput,
    there: [BasisInput; 2],
    result: Pressure,
) -> Step {
    let mut inputs: Vec<BasisInput> = gauge_and_air.into();
    inputs.push(named("temperature", temperature));
    inputs.extend(there);
    Step { computes: computes.to_owned(), ..catalogued(&TYRE_PRESSURE_GAS_LAW, inputs, result) }
}

fn named(name: &str, input: BasisInput) -> BasisInput {
    BasisInput { name: name.to_owned(), ..input }
}

fn strip_air(air: &TyreAir, name: &str) -> BasisInput {
    let amount = Amount::new(Dimension::AirPressure, air.pressure.si());
    computed(name, amount, "air of the day, at the strip")
}

/// Standard air pressure at an elevation that a file gives.
fn air_input(name: &str, pressure: Pressure, elevation: &BasisInput) -> BasisInput {
    let amount = Amount::new(Dimension::AirPressure, pressure.si());
    BasisInput::new(name, amount, elevation.from.clone())
}

/// Gauges are read in psi, whatever the reader's units: in whole ones, else in tenths.
fn gauge(pressure: Pressure) -> String {
    let tenths = (pressure.si() / psi(0.1).si()).round();
    if tenths % 10.0 == 0.0 {
        Amount::from(pressure).show(UnitSystem::Imperial)
    } else {
        format!("{:.1}\u{a0}psi", tenths / 10.0)
    }
}

fn celsius(temperature: Temperature) -> String {
    Amount::from(temperature).told()
}
