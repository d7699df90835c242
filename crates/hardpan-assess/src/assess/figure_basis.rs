//! The figures of the answer that are no findings, each opened to what it came
//! from.

use super::account::speed_name;
use crate::assessment::{Assessment, MassAnswer, MassLimit, SketchMark, TyreAnswer};
use crate::by_formula::by_formula;
use crate::draft::{beside, computed, constant, derived, given, given_as, plain_step};
use crate::measured::{Known, Measured};
use crate::run_basis::{day_inputs, setting};
pub use hardpan_model::FigureBasis;
use hardpan_model::{
    BasisInput, Finding, FlapSetting, Flight, Given, InputFrom, Source, Step, Tier,
};
use hardpan_quantity::{Amount, Mass, Quantity, Ratio};
use hardpan_run::BoundedSpeed;

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
    let mut inputs = vec![computed(&name_of_mass, largest, &name_of_mass)];
    inputs.push(given("operating mass", flight.aeroplane.mass.operating.as_ref()?));
    inputs.push(given("fuel aboard", fuel?));
    let name = format!("load at the {name_of_mass}");
    let rule = "largest mass − operating mass − fuel aboard, not below 0";
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
        let last = plain_step("pressure to set", &answer.because, derived("T10"), inputs, set);
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

/// The stall speed in a flap setting at a mass.
fn stall(
    flight: &Flight,
    measured: &Measured,
    mass: Option<&Given<Mass>>,
    flap: Option<&FlapSetting>,
) -> Option<Step> {
    let air = measured.air.as_ref().ok()?;
    let lift = flap?.lift_maximum.as_ref()?;
    let inputs = vec![
        given("mass", mass?),
        given("wing area", flight.aeroplane.wing.area.as_ref()?),
        computed("density", air.density(), "air of the day"),
        given_as("lift maximum", lift, Amount::coefficient(lift.value)),
    ];
    by_formula("stall-speed", inputs).ok()
}

fn speeds(flight: &Flight, measured: &Measured, found: &Assessment) -> Vec<FigureBasis> {
    let mut steps: Vec<(&str, Vec<Step>)> = Vec::new();
    let ratios = &flight.aeroplane.speeds;
    if let (Some(plan), Some(Ok(run))) = (&flight.landing, &measured.landing) {
        let flap = setting(&flight.aeroplane, plan.flap.as_ref());
        let stall = stall(flight, measured, plan.mass.as_ref(), flap);
        let reference = bounded(stall, ratios.reference.as_ref(), "VREF", run.reference);
        let at = reference.len();
        let added = plan.speed_addition.as_ref().map(|one| given("speed addition", one));
        let threshold = plain_step(
            "VTHR",
            "VREF + speed addition",
            derived("approach as planned"),
            [of_step("VREF", run.reference.calibrated, at - 1)].into_iter().chain(added).collect(),
            run.threshold_speed,
        );
        let over: Vec<Step> = reference.iter().cloned().chain([threshold]).collect();
        let share =
            ratios.touchdown.as_ref().map(|one| given("touchdown over threshold speed", one));
        let down = plain_step(
            "VTD",
            "share of the speed over the threshold that is left at touchdown",
            derived("flare"),
            [of_step("VTHR", run.threshold_speed, at)].into_iter().chain(share).collect(),
            run.touchdown_speed,
        );
        steps.push(("VREF", reference));
        steps.push(("VTD", over.iter().cloned().chain([down]).collect()));
        steps.push(("VTHR", over));
    }
    if let (Some(plan), Some(Ok(run))) = (&flight.take_off, &measured.take_off) {
        let flap = setting(&flight.aeroplane, plan.flap.as_ref());
        let stall = stall(flight, measured, plan.mass.as_ref(), flap);
        let of = |ratio, symbol, speed| (symbol, bounded(stall.clone(), ratio, symbol, speed));
        steps.push(of(ratios.rotation.as_ref(), "VR", run.speeds.rotation));
        steps.push(of(ratios.lift_off.as_ref(), "VLOF", run.speeds.lift_off));
        steps.push(of(ratios.safety.as_ref(), "V2", run.speeds.safety));
        let chosen = found.findings.iter().find(|one| one.title == "decision speed");
        steps.push(("V1", chosen.map_or_else(Vec::new, |one| one.basis.steps.clone())));
    }
    let row = |row: &crate::assessment::SpeedRow| {
        let (_, steps) = steps.iter().find(|(symbol, _)| *symbol == row.symbol)?;
        Some(FigureBasis::new(speed_name(row), row.speed, steps.clone()))
    };
    found.speeds.iter().filter_map(row).collect()
}

/// A speed over the stall speed, and what set it.
fn bounded(
    stall: Option<Step>,
    ratio: Option<&Given<Ratio>>,
    symbol: &str,
    speed: BoundedSpeed,
) -> Vec<Step> {
    let over = stall.as_ref().map(|step| of_step("stall speed", step.result, 0));
    let ratio = ratio.map(|one| given("ratio to the stall speed", one));
    let how = format!(
        "the greatest of the ratio of the file × stall speed and the margins of the rule, as \
         calibrated airspeed; set by: {}",
        speed.bound.words()
    );
    let last = plain_step(
        symbol,
        &how,
        derived("speeds of the rule"),
        over.into_iter().chain(ratio).collect(),
        speed.calibrated,
    );
    stall.into_iter().chain([last]).collect()
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
    let (day, strip) = (&flight.day, &flight.strip);
    let wind = || {
        let blown = day.wind.as_ref().map(|one| given_as("wind", one, one.value.speed.into()));
        blown.into_iter().chain(strip.bearing.as_ref().map(|one| given("bearing", one))).collect()
    };
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
                "along: v cos(direction − course), across: v sin(direction − course), at the \
                 worst of the directions reported; gusts count across and from behind",
                derived("wind of the day"),
                wind(),
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
