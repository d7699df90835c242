//! What the approved charts of the operator give for a movement.
//!
//! A chart is read inside its rows only. Below its lightest mass a distance is
//! read at that mass, which errs towards the longer distance.

use crate::draft::{computed, given, given_as};
use crate::measured::{Known, Measured, Unavailable};
use crate::movements::{declared, displaced};
use hardpan_math::{Grid, GridError};
use hardpan_model::{
    BasisInput, Chart, ChartArgument, ChartFigure, ChartWind, Direction, Flight, Given, Need,
    Source, Step, Tier,
};
use hardpan_quantity::{Amount, Dimension, Length, Mass, metres};
use hardpan_run::landing_factor;

/// A figure of an approved chart.
#[derive(Debug, Clone)]
pub(crate) struct Approved {
    pub(crate) amount: Amount,
    pub(crate) step: Step,
}

const CHART: Source =
    Source::new("", "approved chart, as entered, linear between its rows", Tier::Approved);

/// Whether the operator has entered a chart of a figure.
pub(crate) fn is_charted(flight: &Flight, figure: ChartFigure) -> bool {
    flight.aeroplane.charts.iter().any(|chart| chart.gives.value == figure)
}

/// The strictest figure of the charts that hold for a movement; none when the
/// movement is not planned or no chart gives the figure.
pub(crate) fn approved(
    flight: &Flight,
    measured: &Measured,
    figure: ChartFigure,
    mass: Mass,
) -> Option<Known<Approved>> {
    let planned = match figure.is_of_take_off() {
        true => flight.take_off.is_some(),
        false => flight.landing.is_some(),
    };
    if !planned || !is_charted(flight, figure) {
        return None;
    }
    let holding = flight.aeroplane.charts.iter().filter(|chart| holds(chart, figure, flight));
    let read = holding.map(|chart| read(chart, flight, measured, mass));
    let strictest = read.reduce(|a, b| {
        let (a, b) = (a?, b?);
        let a_is_less = a.amount.si <= b.amount.si;
        Ok(if a_is_less == figure.is_mass() { a } else { b })
    });
    Some(strictest.unwrap_or_else(|| Err(none_holds(flight, figure))))
}

/// Whether a chart is of a figure and for what the flight states.
fn holds(chart: &Chart, figure: ChartFigure, flight: &Flight) -> bool {
    fn agrees<T: PartialEq>(own: &Option<Given<T>>, stated: Option<&Given<T>>) -> bool {
        own.as_ref().is_none_or(|own| stated.is_some_and(|stated| stated.value == own.value))
    }
    let take_off = figure.is_of_take_off();
    let flap = match take_off {
        true => flight.take_off.as_ref().and_then(|plan| plan.flap.as_ref()),
        false => flight.landing.as_ref().and_then(|plan| plan.flap.as_ref()),
    };
    let bleeds = flight.take_off.as_ref().and_then(|plan| plan.bleeds.as_ref());
    chart.gives.value == figure
        && agrees(&chart.flap, flap)
        && agrees(&chart.surface, flight.strip.surface.as_ref())
        && agrees(&chart.state, flight.day.surface_state.as_ref())
        && agrees(&chart.bleeds, bleeds.filter(|_| take_off))
}

fn none_holds(flight: &Flight, figure: ChartFigure) -> Unavailable {
    let surface = flight.strip.surface.as_ref().map_or("not stated", |given| given.value.word());
    let state = flight.day.surface_state.as_ref().map_or("not stated", |s| s.value.word());
    Unavailable {
        because: format!(
            "the approved charts of {} are for other flaps, surfaces, states or bleeds than this \
             flight states",
            figure.word()
        ),
        needs: vec![Need {
            what: format!("aeroplane: [[chart]] {}", figure.word()),
            how: format!(
                "for surface {surface}, state {state}, and the flap and bleeds as planned"
            ),
        }],
    }
}

fn read(chart: &Chart, flight: &Flight, measured: &Measured, mass: Mass) -> Known<Approved> {
    let figure = chart.gives.value;
    let (mut entered, mut inputs) = (Vec::new(), Vec::new());
    for (argument, rows) in &chart.arguments {
        let mut input = input(*argument, chart, flight, measured, mass)?;
        let lightest = rows.first().copied().unwrap_or(f64::NAN);
        if *argument == ChartArgument::Mass && input.amount.si < lightest {
            input.amount.si = lightest;
            "mass, the lightest of the chart".clone_into(&mut input.name);
        }
        entered.push(input.amount.si);
        inputs.push(input);
    }
    let axes = chart.arguments.iter().map(|(_, rows)| rows.clone()).collect();
    let found = Grid::new(axes, chart.values.clone()).and_then(|grid| grid.at(&entered));
    let found = found.map_err(|error| match error {
        GridError::Outside { axis, argument, low, high } => {
            outside(chart, axis, [argument, low, high])
        }
        other => Unavailable::refused("the figure of the chart", &other),
    })?;
    let dimension = if figure.is_mass() { Dimension::Mass } else { Dimension::Length };
    let amount = Amount::new(dimension, found);
    inputs.push(given_as("chart", &chart.gives, Amount::count(values(chart))));
    let step = Step {
        computes: format!("{} of the approved chart {}", figure.word(), chart.file),
        formula: None,
        expression: "read from the chart, linear between its rows".to_owned(),
        source: CHART,
        inputs,
        result: amount,
    };
    Ok(Approved { amount, step })
}

fn values(chart: &Chart) -> f64 {
    chart.arguments.iter().map(|(_, rows)| rows.len() as f64).product()
}

fn outside(chart: &Chart, axis: usize, values: [f64; 3]) -> Unavailable {
    let argument = axis.checked_sub(1).and_then(|axis| chart.arguments.get(axis));
    let argument = argument.map_or(ChartArgument::Mass, |(argument, _)| *argument);
    let both = |si: f64| Amount::new(argument.dimension(), si).told();
    let [at, low, high] = values.map(both);
    let (figure, word) = (chart.gives.value.word(), argument.word());
    Unavailable {
        because: format!(
            "the approved chart of {figure} runs from {word} {low} to {high}; {at} is outside it, \
             and nothing is carried on beyond it"
        ),
        needs: vec![Need {
            what: format!("aeroplane: [[chart]] {figure}"),
            how: format!("rows for {word} {at}, if the manual has them"),
        }],
    }
}

/// What a chart is entered with, with where it comes from.
fn input(
    argument: ChartArgument,
    chart: &Chart,
    flight: &Flight,
    measured: &Measured,
    mass: Mass,
) -> Known<BasisInput> {
    let take_off = chart.gives.value.is_of_take_off();
    let direction = match take_off {
        true => flight.take_off.as_ref().and_then(|plan| plan.direction.as_ref()),
        false => flight.landing.as_ref().and_then(|plan| plan.direction.as_ref()),
    };
    Ok(match argument {
        ChartArgument::Mass => planned(flight, take_off, mass),
        ChartArgument::PressureAltitude => {
            let air = measured.air.as_ref().map_err(Clone::clone)?;
            computed("pressure altitude", air.pressure_altitude(), "air of the day")
        }
        ChartArgument::Temperature => {
            let temperature = flight.day.temperature.as_ref();
            given("temperature", temperature.ok_or_else(|| needs("day: temperature"))?)
        }
        ChartArgument::Headwind => {
            let wind = if take_off { &measured.take_off_wind } else { &measured.landing_wind };
            let wind = wind.as_ref().ok_or_else(|| needs("day: wind"))?;
            let wind = wind.as_ref().map_err(Clone::clone)?;
            match chart.wind.as_ref().map(|wind| wind.value) {
                Some(ChartWind::Reported) => {
                    computed("headwind reported", wind.headwind, "wind of the day")
                }
                _ => computed("headwind credited", wind.credited, "wind of the day, 50 % or 150 %"),
            }
        }
        ChartArgument::Slope => {
            let direction = direction.ok_or_else(|| needs("flight: direction"))?;
            let up = measured.centre_slopes()?.gradient.end_to_end;
            let along = if direction.value == Direction::Up { up } else { -up };
            given_as("slope, uphill positive", direction, along.into())
        }
        ChartArgument::Available => {
            let direction = direction.ok_or_else(|| needs("flight: direction"))?;
            computed(
                "distance available",
                shortest(flight, direction.value, take_off)?,
                "distances declared",
            )
        }
    })
}

/// The mass of a movement: as planned, or one that is tried.
fn planned(flight: &Flight, take_off: bool, mass: Mass) -> BasisInput {
    let plan = match take_off {
        true => flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref()),
        false => flight.landing.as_ref().and_then(|plan| plan.mass.as_ref()),
    };
    match plan {
        Some(planned) if planned.value == mass => given("mass", planned),
        _ => computed("mass", mass, "mass tried"),
    }
}

/// The shortest of what is declared for a movement, less what lining up takes.
fn shortest(flight: &Flight, direction: Direction, take_off: bool) -> Known<Length> {
    let declared = declared(flight, direction);
    let stated = |given: &Option<Given<Length>>| {
        given.as_ref().map(|given| given.value).ok_or_else(|| needs("strip: declared distances"))
    };
    if !take_off {
        return Ok(stated(&declared.landing_distance)? - displaced(flight));
    }
    let line_up = flight.take_off.as_ref().and_then(|plan| plan.line_up.as_ref());
    let line_up = line_up.map_or(metres(0.0), |given| given.value);
    Ok(stated(&declared.take_off_distance)?.min(stated(&declared.accelerate_stop)?) - line_up)
}

/// The distance declared for a figure, and what lining up takes from it.
pub(crate) fn available(flight: &Flight, figure: ChartFigure) -> Option<(&Given<Length>, Length)> {
    if !figure.is_of_take_off() {
        let direction = flight.landing.as_ref()?.direction.as_ref()?.value;
        return Some((declared(flight, direction).landing_distance.as_ref()?, displaced(flight)));
    }
    let plan = flight.take_off.as_ref()?;
    let declared = declared(flight, plan.direction.as_ref()?.value);
    let distance = match figure {
        ChartFigure::TakeOffRun => &declared.take_off_run,
        ChartFigure::AccelerateStop => &declared.accelerate_stop,
        _ => &declared.take_off_distance,
    };
    let line_up = plan.line_up.as_ref().map_or(metres(0.0), |given| given.value);
    Some((distance.as_ref()?, line_up))
}

/// The factor of the rule that a chart of demonstrated landing distance lacks.
pub(crate) fn factor(flight: &Flight, figure: ChartFigure) -> Option<f64> {
    if figure != ChartFigure::LandingDistance {
        return None;
    }
    let rule = flight.landing.as_ref()?.rule.as_ref()?;
    landing_factor(rule.value, flight.day.surface_state.as_ref()?.value)
}

fn needs(what: &str) -> Unavailable {
    let how = "the approved chart is entered with it".to_owned();
    Unavailable::missing("the figure of the chart", vec![Need { what: what.to_owned(), how }])
}
