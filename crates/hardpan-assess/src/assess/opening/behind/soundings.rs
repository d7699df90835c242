//! The soundings of the strip, stratum by stratum, down to the rows of blows.

use super::figure;
use crate::assess::figure_basis::{FigureBasis, of_step};
use crate::by_formula::by_formula;
use crate::context::Context;
use crate::draft::{computed, constant, derived, given_as, plain_step};
use crate::ground::strength_finding::test_input;
use hardpan_ground::{Strata, Stratum, penetrometer};
use hardpan_model::{BasisInput, InputFrom, Origin, Reading, Sounding, Source, Step, Strip, Tier};
use hardpan_quantity::{Amount, BearingRatio, Length, Quantity};

/// Name of the figure that holds all of them.
const NAME: &str = "soundings of the strip";
/// Name of the figure of the surfacing.
const SURFACING: &str = "surfacing by the soundings";
const RATE: &str = "mean of the rates of the rows, by thickness; rate of a row = advance / blows, \
    as by the 8 kg hammer";
const FREE_END: Source = Source::new("", "the surface of the ground", Tier::Derived);

pub(super) fn figures(context: &Context<'_>) -> Vec<FigureBasis> {
    let strip = &context.flight.strip;
    let sounded: Vec<(&Sounding, Strata)> = strip
        .soundings
        .iter()
        .filter_map(|sounding| Some((sounding, Strata::of(sounding).ok()?)))
        .collect();
    let surfacing = sounded.iter().map(|(sounding, strata)| surfacing(sounding, strata));
    let surfacing = figure(SURFACING, surfacing.collect());
    let mut steps = Vec::new();
    for (sounding, strata) in &sounded {
        strata.strata.iter().for_each(|stratum| add_stratum(&mut steps, sounding, stratum));
    }
    for test in &strip.strength_tests {
        let Ok((_, bearing)) = hardpan_ground::counted(test) else { continue };
        steps.push(plain_step(
            &format!("bearing ratio of the test at {}", Amount::from(test.station.value).told()),
            "as measured in place, or half of that from stiffness",
            Source::new("", "strength tests in place", Tier::CommonPractice),
            vec![test_input(test)],
            bearing,
        ));
        add_credited(&mut steps, bearing);
    }
    surfacing.into_iter().chain(figure(NAME, steps)).collect()
}

fn add_stratum(steps: &mut Vec<Step>, sounding: &Sounding, stratum: &Stratum) {
    let at = Amount::from(sounding.station.value).told();
    let depths = Amount::from(stratum.top).told_to(stratum.bottom.into());
    steps.push(top(sounding, stratum));
    let mut rows: Vec<BasisInput> =
        before(sounding, stratum.top).map(|row| from_row(sounding, row)).into_iter().collect();
    rows.extend(within(sounding, stratum).map(|row| blows(sounding, row)));
    rows.push(given_hammer(sounding));
    steps.push(plain_step(
        &format!("penetration rate of the sounding at {at}, depth {depths}"),
        RATE,
        Source::new("ASTM-D6951", "rate by depth over blows", Tier::Secondary),
        rows,
        stratum.rate,
    ));
    let rate = of_step("penetration_rate", stratum.rate, steps.len() - 1);
    steps.push(by_law(&at, rate, stratum.bearing_ratio));
    add_credited(steps, stratum.bearing_ratio);
}

/// The bearing ratio of a rate by the law that gives it.
fn by_law(at: &str, rate: BasisInput, bearing: BearingRatio) -> Step {
    let laws = [
        &penetrometer::CBR_WEBSTER_1992,
        &penetrometer::CBR_LEAN_CLAY_WEBSTER_1994,
        &penetrometer::CBR_FAT_CLAY_WEBSTER_1994,
    ];
    let computes = format!("bearing ratio by the sounding at {at}");
    let same = |step: &Step| (step.result.si - bearing.si()).abs() <= 1e-12 * bearing.si();
    let found = laws.iter().filter_map(|law| by_formula(law.name, vec![rate.clone()]).ok());
    match found.into_iter().find(same) {
        Some(step) => Step { computes, result: bearing.into(), ..step },
        None => plain_step(
            &computes,
            "the lowest of the laws for the soil, at most CBR 100",
            penetrometer::CBR_WEBSTER_1992.source,
            vec![rate],
            bearing,
        ),
    }
}

fn add_credited(steps: &mut Vec<Step>, bearing: BearingRatio) {
    let mean = of_step("mean", bearing, steps.len().saturating_sub(1)).under("mean");
    let divisor = Amount::coefficient(penetrometer::credit_divisor(bearing));
    let divisor = constant("divisor", divisor, penetrometer::CREDIT_SOURCE).under("divisor");
    steps.push(plain_step(
        "bearing ratio credited",
        "mean / divisor",
        penetrometer::CREDIT_SOURCE,
        vec![mean, divisor],
        penetrometer::credited(bearing),
    ));
}

fn surfacing(sounding: &Sounding, strata: &Strata) -> Step {
    let found = strata.surfacing.unwrap_or(strata.known_to);
    let last = sounding.readings.iter().find(|row| row.depth.si() >= found.si() - 1e-9);
    plain_step(
        &format!(
            "thickness of the surfacing by the sounding at {}",
            Amount::from(sounding.station.value).told()
        ),
        "depth to the first clearly weaker stratum, or as deep as the sounding went",
        Source::new("", "1.5 times the rate above", Tier::Judgement),
        last.map(|row| from_row(sounding, row)).into_iter().collect(),
        found,
    )
}

fn top(sounding: &Sounding, stratum: &Stratum) -> Step {
    let row = before(sounding, stratum.top);
    let free = || constant("surface", stratum.top, FREE_END);
    plain_step(
        "top of the stratum",
        "depth at which the rate of the rows changes",
        derived("change points of the logarithm of the rate"),
        vec![row.map_or_else(free, |row| from_row(sounding, row))],
        stratum.top,
    )
}

fn before(sounding: &Sounding, top: Length) -> Option<&Reading> {
    sounding.readings.iter().find(|row| (row.depth - top).si().abs() < 1e-9)
}

fn within<'s>(sounding: &'s Sounding, stratum: &Stratum) -> impl Iterator<Item = &'s Reading> {
    let (top, bottom) = (stratum.top.si() + 1e-9, stratum.bottom.si() + 1e-9);
    sounding.readings.iter().filter(move |row| row.depth.si() > top && row.depth.si() <= bottom)
}

fn from_row(sounding: &Sounding, row: &Reading) -> BasisInput {
    row_input(sounding, row, "from")
}

fn blows(sounding: &Sounding, row: &Reading) -> BasisInput {
    let count = hardpan_quantity::counted(f64::from(row.blows), "blow", "blows");
    row_input(sounding, row, &format!("{count} to"))
}

fn row_input(sounding: &Sounding, row: &Reading, name: &str) -> BasisInput {
    let origin = Origin {
        line: row.line,
        column: 1,
        key: "blows, depth".into(),
        ..sounding.station.origin.clone()
    };
    BasisInput::new(name, row.depth, InputFrom::File { origin, source: None })
}

/// What one blow counts, by the hammer that the file names.
fn given_hammer(sounding: &Sounding) -> BasisInput {
    let factor = Amount::coefficient(penetrometer::hammer_factor(sounding.hammer.value));
    given_as("factor of the hammer", &sounding.hammer, factor)
}

/// Steps in which soundings stand by their station: each by the bearing ratio that it
/// gives there, which opens to its rows.
pub(in super::super) fn of_soundings(strip: &Strip, steps: &mut [Step]) {
    for step in steps {
        let mean = step.result;
        let depth = step.inputs.iter().find_map(|input| depth_of(strip, input, mean));
        for input in &mut step.inputs {
            let Some(stratum) = sounding_of(strip, input).and_then(|one| chosen(one, mean, depth))
            else {
                continue;
            };
            let at = input.amount.told();
            let name = format!("bearing ratio by the sounding at {at}");
            *input = computed(&name, stratum.bearing_ratio, NAME);
        }
    }
}

fn sounding_of<'s>(strip: &'s Strip, input: &BasisInput) -> Option<&'s Sounding> {
    let InputFrom::File { origin, .. } = &input.from else { return None };
    strip.soundings.iter().find(|one| input.name == "sounding" && one.station.origin == *origin)
}

/// Top of the stratum of a sounding that gives a bearing ratio.
fn depth_of(strip: &Strip, input: &BasisInput, mean: Amount) -> Option<Length> {
    let strata = Strata::of(sounding_of(strip, input)?).ok()?;
    let gives = |one: &&Stratum| Amount::from(one.bearing_ratio) == mean;
    strata.strata.iter().find(gives).map(|one| one.top)
}

/// The stratum of a sounding at a depth; without one the weakest.
fn chosen(sounding: &Sounding, mean: Amount, depth: Option<Length>) -> Option<Stratum> {
    let strata = Strata::of(sounding).ok()?.strata;
    let gives = |one: &&Stratum| Amount::from(one.bearing_ratio) == mean;
    let there = |one: &&Stratum| depth.is_some_and(|depth| one.top <= depth && depth < one.bottom);
    let weakest =
        |a: &&Stratum, b: &&Stratum| a.bearing_ratio.si().total_cmp(&b.bearing_ratio.si());
    let found = strata.iter().find(gives).or_else(|| strata.iter().find(there));
    found.or_else(|| strata.iter().min_by(weakest)).copied()
}
