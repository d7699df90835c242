//! The figures of the answer that are no findings, each opened to what it came
//! from.

use super::account::speed_name;
use crate::assessment::{Assessment, MassAnswer, MassLimit, SketchMark, TyreAnswer};
use crate::by_formula::by_formula;
use crate::draft::{beside, computed, constant, derived, given, given_as, plain_step};
use crate::measured::{Known, Measured};
use crate::run_basis::day_inputs;
pub use hardpan_model::FigureBasis;
use hardpan_model::{BasisInput, Finding, Flight, Given, InputFrom, Source, Step, Tier};
use hardpan_quantity::{Amount, Mass, Quantity, Speed};
use hardpan_run::{BoundedSpeed, LandingRun};

/// Pressures of the rows of the table.
const ROW: Source =
    Source::new("", "row of the table, in whole steps of a gauge", Tier::CommonPractice);

/// Every figure of the answer, in the order of the card.
pub(super) fn figure_bases(
    flight: &Flight,
    measured: &Measured,
    found: &Assessment,
) -> Vec<FigureBasis> {
    let mut all = Vec::new();
    all.extend(masses(flight, found));
    all.extend(tyre(flight, &found.tyre, &found.findings));
    all.extend(speeds(flight, measured, found));
    all.extend(distances(found));
    all.extend(day(flight, measured, found));
    all.extend(turning(flight, found));
    all.extend(marks(flight, found));
    all
}

pub(super) fn of_step(name: &str, amount: impl Into<Amount>, index: usize) -> BasisInput {
    BasisInput::new(name, amount, InputFrom::Step(index))
}

fn masses(flight: &Flight, found: &Assessment) -> Vec<FigureBasis> {
    let limits = &flight.aeroplane.mass;
    let landing = flight.landing.as_ref().and_then(|plan| plan.mass.as_ref());
    let take_off = flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref());
    let both = [
        ("take-off mass", &found.take_off_mass, take_off, limits.maximum_take_off.as_ref()),
        ("landing mass", &found.landing_mass, landing, limits.maximum_landing.as_ref()),
    ];
    let fuels = [&flight.options.take_off_fuel, &flight.options.landing_fuel];
    let loads: Vec<FigureBasis> = both
        .iter()
        .zip(fuels)
        .filter_map(|((name, answer, ..), fuel)| {
            load(flight, name, answer.as_ref()?, fuel.as_ref())
        })
        .collect();
    let spares: Vec<FigureBasis> = both
        .iter()
        .filter_map(|(name, answer, planned, _)| spare(name, answer.as_ref()?, (*planned)?))
        .collect();
    both.into_iter()
        .filter_map(|(name, answer, planned, maximum)| {
            let range = [("planned", planned), ("structural limit", maximum)]
                .into_iter()
                .filter_map(|(name, value)| Some(given(name, value?)))
                .chain(limits.minimum.as_ref().map(|value| given("lightest", value)))
                .collect();
            Some(mass(name, answer.as_ref()?, range))
        })
        .flatten()
        .chain(loads)
        .chain(spares)
        .collect()
}

/// What is added to the reference speed; nothing where the flight states nothing.
fn added(stated: Option<&Given<Speed>>) -> BasisInput {
    let source =
        Source::new("", "the flight file states none: nothing is added", Tier::CommonPractice);
    let name = "speed addition";
    stated.map_or_else(|| constant(name, Speed::from_si(0.0), source), |stated| given(name, stated))
}

/// What lies between the mass planned and the largest.
fn spare(name: &str, answer: &MassAnswer, planned: &Given<Mass>) -> Option<FigureBasis> {
    let largest = answer.largest?;
    let apart = largest - planned.value;
    let (word, rule) = match apart.si() < 0.0 {
        true => ("too much", "planned mass − largest mass"),
        false => ("to spare", "largest mass − planned mass"),
    };
    let name_of_mass = format!("largest {name}");
    let inputs = vec![
        computed(&name_of_mass, largest, &name_of_mass).under("largest mass"),
        given("planned", planned).under("planned mass"),
    ];
    let name = format!("{name} {word}");
    let step = plain_step(&name, rule, derived("a difference of masses"), inputs, apart.abs());
    Some(FigureBasis::new(name, apart.abs(), vec![step]))
}

/// The load that a largest mass leaves.
fn load(
    flight: &Flight,
    name: &str,
    answer: &MassAnswer,
    fuel: Option<&Given<Mass>>,
) -> Option<FigureBasis> {
    let (largest, found) = (answer.largest?, answer.load?);
    let name_of_mass = format!("largest {name}");
    let inputs = vec![
        computed(&name_of_mass, largest, &name_of_mass).under("largest mass"),
        given("operating mass", flight.aeroplane.mass.operating.as_ref()?).under("operating mass"),
        given("fuel aboard", fuel?).under("fuel aboard"),
    ];
    let name = format!("load at the {name_of_mass}");
    let rule = "greater of largest mass − operating mass − fuel aboard and 0";
    let step = plain_step(&name, rule, derived("sum of the masses"), inputs, found);
    Some(FigureBasis::new(name, found, vec![step]))
}

/// How the figure of a limit on a mass is named.
pub(super) fn limit_name(mass: &str, limit: &MassLimit) -> String {
    format!("{mass} by {} ({})", limit.title, limit.code)
}

/// The largest mass, each limit on it, and the mass planned.
fn mass(name: &str, answer: &MassAnswer, range: Vec<BasisInput>) -> Vec<FigureBasis> {
    let limit_step = |limit: &MassLimit| {
        let most = limit.mass?;
        Some(plain_step(
            &limit_name(name, limit),
            "the greatest mass at which the check holds, tried afresh mass by mass in steps of 10 kg",
            derived("search over mass"),
            range.clone(),
            most,
        ))
    };
    let steps: Vec<Step> = answer.limits.iter().filter_map(limit_step).collect();
    let by_limit = steps
        .iter()
        .map(|step| FigureBasis::new(step.computes.clone(), step.result, vec![step.clone()]));
    let mut all: Vec<FigureBasis> = by_limit.collect();
    if let Some(largest) = answer.largest {
        let inputs = steps.iter().enumerate().map(|(at, step)| of_step("limit", step.result, at));
        let least = plain_step(
            &format!("largest {name}"),
            "the least of the limits",
            derived("every limit on the mass holds"),
            inputs.collect(),
            largest,
        );
        let steps = steps.into_iter().chain([least]).collect();
        all.push(FigureBasis::new(format!("largest {name}"), largest, steps));
    }
    all
}

fn tyre(flight: &Flight, answer: &TyreAnswer, findings: &[Finding]) -> Vec<FigureBasis> {
    let mut all = Vec::new();
    let of_tyre = findings.iter().find(|one| one.code == "T10" && one.title.starts_with("main"));
    let steps = of_tyre.map_or_else(Vec::new, |finding| finding.basis.steps.clone());
    let planned = planned_masses(flight);
    let asked =
        flight.passes.iter().map(|passes| given_as("passes", passes, Amount::count(passes.value)));
    let loaded: Vec<BasisInput> = planned.iter().cloned().chain(asked).collect();
    if let Some(least) = answer.least {
        all.push(FigureBasis::new("least main tyre pressure", least, steps.clone()));
    }
    if let Some(greatest) = answer.greatest {
        let step = plain_step(
            "greatest main tyre pressure",
            "the greatest pressure at which tyre and ground carry the planned mass (T10, G20)",
            derived("search over pressure"),
            loaded.clone(),
            greatest,
        );
        all.push(FigureBasis::new("greatest main tyre pressure", greatest, vec![step]));
    }
    if let Some(set) = answer.set {
        let stated = flight.main_tyre_pressure.as_ref();
        let bounds = [
            ("least", answer.least, "T10"),
            ("greatest", answer.greatest, "greatest main tyre pressure"),
        ];
        let bounds =
            bounds.into_iter().filter_map(|(name, bound, by)| Some(computed(name, bound?, by)));
        let inputs = stated.map(|one| given("stated", one)).into_iter().chain(bounds).collect();
        let rule = format!("{}; a least is rounded up to 5 psi", answer.because);
        let last = plain_step("pressure to set", &rule, derived("T10"), inputs, set);
        let steps = steps.into_iter().chain([last]).collect();
        all.push(FigureBasis::new("main tyre pressure", set, steps));
    }
    for row in &answer.table {
        let pressure = Amount::from(row.pressure).told();
        let both =
            [("ground carries", row.ground, "G20"), ("tyre and chart allow", row.tyre, "T10")];
        for (name, mass, code) in both {
            let Some(mass) = mass else { continue };
            let inputs = loaded.iter().cloned();
            let inputs = inputs.chain([constant("pressure", row.pressure, ROW)]);
            let name = format!("{name} at {pressure}");
            let how = format!("the greatest mass at which {code} holds at this pressure");
            let step = plain_step(&name, &how, derived("search over mass"), inputs.collect(), mass);
            all.push(FigureBasis::new(name, mass, vec![step]));
        }
    }
    all
}

fn planned_masses(flight: &Flight) -> Vec<BasisInput> {
    let landing = flight.landing.as_ref().and_then(|plan| plan.mass.as_ref());
    let take_off = flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref());
    let named = [("landing mass", landing), ("take-off mass", take_off)];
    named.into_iter().filter_map(|(name, mass)| Some(given(name, mass?))).collect()
}

fn speeds(flight: &Flight, measured: &Measured, found: &Assessment) -> Vec<FigureBasis> {
    let mut steps: Vec<(&str, Vec<Step>)> = Vec::new();
    if let (Some(plan), Some(Ok(run))) = (&flight.landing, &measured.landing) {
        let reference: Vec<Step> = bounded(measured, "VREF", run.reference).into_iter().collect();
        let at = reference.len();
        let added = added(plan.speed_addition.as_ref()).under("speed addition");
        let threshold = plain_step(
            "VTHR",
            "VREF + speed addition",
            derived("approach as planned"),
            vec![
                of_step("VREF", run.reference.calibrated, at.saturating_sub(1)).under("VREF"),
                added,
            ],
            run.threshold_speed,
        );
        let over: Vec<Step> = reference.iter().cloned().chain([threshold]).collect();
        let down = touchdown(flight, measured, run, at);
        steps.push(("VREF", reference));
        steps.push(("VTD", over.iter().cloned().chain(down).collect()));
        steps.push(("VTHR", over));
    }
    if let (Some(_), Some(Ok(run))) = (&flight.take_off, &measured.take_off) {
        let of = |symbol, speed| (symbol, bounded(measured, symbol, speed).into_iter().collect());
        steps.push(of("VR", run.speeds.rotation));
        steps.push(of("VLOF", run.speeds.lift_off));
        steps.push(of("V2", run.speeds.safety));
        let chosen = found.findings.iter().find(|one| one.title == "decision speed");
        steps.push(("V1", chosen.map_or_else(Vec::new, |one| one.basis.steps.clone())));
    }
    let row = |row: &crate::assessment::SpeedRow| {
        let (_, steps) = steps.iter().find(|(symbol, _)| *symbol == row.symbol)?;
        Some(FigureBasis::new(speed_name(row), row.speed, steps.clone()))
    };
    found.speeds.iter().filter_map(row).collect()
}

/// What is left of the speed over the threshold, whose step is given, at touchdown; the
/// share is of true airspeeds.
fn touchdown(flight: &Flight, measured: &Measured, run: &LandingRun, over: usize) -> Vec<Step> {
    let air = || -> Option<[BasisInput; 2]> {
        let air = measured.air.as_ref().ok()?;
        Some([
            computed("air pressure", Amount::air_pressure(air.pressure()), "air of the day"),
            computed("temperature", air.temperature(), "air of the day"),
        ])
    };
    let found = || -> Option<Vec<Step>> {
        let share = flight.aeroplane.speeds.touchdown.as_ref()?;
        let [pressure, temperature] = air()?;
        let threshold = of_step("VTHR", run.threshold_speed, over);
        let inputs = vec![threshold, pressure.clone(), temperature.clone()];
        let before = by_formula("true-from-calibrated", inputs).ok()?;
        let true_airspeed = before.result.get::<Speed>()? * share.value.si();
        let left = plain_step(
            "true airspeed at touchdown",
            "over the threshold × share",
            derived("flare"),
            vec![
                of_step("true airspeed over the threshold", before.result, over + 1)
                    .under("over the threshold"),
                given("share left at touchdown", share).under("share"),
            ],
            true_airspeed,
        );
        let inputs = vec![of_step("true airspeed", true_airspeed, over + 2), pressure, temperature];
        let last = by_formula("calibrated-from-true", inputs).ok()?;
        let last = Step { computes: "VTD".to_owned(), result: run.touchdown_speed.into(), ..last };
        Some(vec![before, left, last])
    };
    found().unwrap_or_default()
}

/// A speed of the rule as calibrated airspeed, and what set it.
fn bounded(measured: &Measured, symbol: &str, speed: BoundedSpeed) -> Option<Step> {
    let air = measured.air.as_ref().ok()?;
    let inputs = vec![
        computed("true airspeed", speed.true_airspeed, "speeds of the rule"),
        computed("air pressure", Amount::air_pressure(air.pressure()), "air of the day"),
        computed("temperature", air.temperature(), "air of the day"),
    ];
    let step = by_formula("calibrated-from-true", inputs).ok()?;
    let computes = format!("{symbol}, set by: {}", speed.bound.words());
    Some(Step { computes, result: speed.calibrated.into(), ..step })
}

fn distances(found: &Assessment) -> Vec<FigureBasis> {
    let of = |row: &crate::assessment::DistanceRow| {
        let title = row.name.trim_end_matches(" (binds)");
        let same = |one: &&Finding| {
            one.code == row.code && one.title == title && one.value == Some(row.needed.into())
        };
        let finding = found.findings.iter().find(same)?;
        let steps = finding.basis.steps.clone();
        Some(FigureBasis::new(row.name.clone(), row.needed, steps))
    };
    found.distances.iter().filter_map(of).collect()
}

fn day(flight: &Flight, measured: &Measured, found: &Assessment) -> Vec<FigureBasis> {
    let day = &flight.day;
    let altitudes = altitudes(flight, measured);
    let row = |(name, amount): &(String, Amount)| {
        let as_reported = |input: BasisInput| {
            vec![plain_step(
                name,
                "as reported",
                derived("report of the day"),
                vec![input],
                *amount,
            )]
        };
        let steps = match name.as_str() {
            "outside temperature" => as_reported(given("temperature", day.temperature.as_ref()?)),
            "altimeter setting" => as_reported(given_as(
                "altimeter setting",
                day.sea_level_pressure.as_ref()?,
                *amount,
            )),
            "pressure altitude" => altitudes.get(..2)?.to_vec(),
            "density altitude" => {
                altitudes.first().into_iter().chain(altitudes.get(2)).cloned().collect()
            }
            _ => vec![plain_step(
                name,
                "as the wind of the day blows",
                derived("wind of the day"),
                vec![computed(name, *amount, "wind of the day")],
                *amount,
            )],
        };
        Some(FigureBasis::new(name.clone(), *amount, steps))
    };
    found.day.rows.iter().filter_map(row).collect()
}

/// Station pressure, pressure altitude and density altitude.
fn altitudes(flight: &Flight, measured: &Measured) -> Vec<Step> {
    let (day, strip) = (&flight.day, &flight.strip);
    let steps = || -> Known<Vec<Step>> {
        let pressure = day.sea_level_pressure.as_ref();
        let inputs = pressure
            .map(|one| given_as("sea level pressure", one, Amount::air_pressure(one.value)))
            .into_iter()
            .chain(strip.elevation.as_ref().map(|one| given("elevation", one)));
        let station = by_formula("station-pressure", inputs.collect())?;
        let pressure = of_step("pressure", station.result, 0);
        let altitude = by_formula("pressure-altitude", vec![pressure.clone()])?;
        let warmth = day.temperature.as_ref().map(|one| given("temperature", one));
        let density = [pressure].into_iter().chain(warmth).collect();
        Ok(vec![station, altitude, by_formula("density-altitude", density)?])
    };
    match (&measured.air, steps()) {
        (Ok(_), Ok(steps)) => steps,
        _ => Vec::new(),
    }
}

fn turning(flight: &Flight, found: &Assessment) -> Vec<FigureBasis> {
    let of = |point: &crate::turning::TurningPoint| {
        let mut inputs = vec![
            beside("as planned", point.now, "the plan and the day"),
            beside("next step, at which it no longer holds", point.beyond, "assessed afresh"),
        ];
        inputs.extend(planned_masses(flight));
        inputs.extend(day_inputs(flight));
        let step = plain_step(
            &format!("{}, up to which the answer holds", point.what),
            "moved in whole steps with all else as planned, each assessed afresh",
            derived("search over the figure"),
            inputs,
            point.holds_to,
        );
        FigureBasis::new(format!("{} turns the answer", point.what), point.holds_to, vec![step])
    };
    found.turning.points.iter().map(of).collect()
}

/// Figures of the places that are marked along the strip: those of the findings
/// that name the place, or as somebody reports them.
fn marks(flight: &Flight, found: &Assessment) -> Vec<FigureBasis> {
    let of = |mark: &SketchMark| {
        let amount = mark.amount?;
        let there = |one: &&Finding| {
            let meets = one.place.is_some_and(|p| p.from <= mark.to && p.to >= mark.from);
            let same = one.value.is_some_and(|value| value.dimension == amount.dimension);
            meets && same && !one.basis.steps.is_empty()
        };
        let finding = found.findings.iter().find(there);
        let stretch = Amount::from(mark.from).told_to(mark.to.into());
        let name = format!("{} at {stretch}", mark.label);
        let by = finding.map_or_else(
            || "survey of ruts and bumps".to_owned(),
            |one| format!("{} {}, or survey of ruts and bumps", one.code, one.title),
        );
        let patches = [&flight.day.standing_water, &flight.day.loose_material];
        let patch = patches.into_iter().flatten().flatten().find(|patch| {
            patch.from.value == mark.from && Amount::from(patch.depth.value) == amount
        });
        let measured = match patch {
            Some(patch) => given("depth reported there", &patch.depth),
            None => computed("measured there", amount, &by),
        };
        let last = plain_step(
            &name,
            "as measured at the place",
            derived("survey, soundings and reports of the strip"),
            vec![measured],
            amount,
        );
        let steps = finding.map_or_else(Vec::new, |one| one.basis.steps.clone());
        Some(FigureBasis::new(name, amount, steps.into_iter().chain([last]).collect()))
    };
    found.sketch.marks.iter().filter_map(of).collect()
}
