//! The figures of a day that are moved, each in whole steps.

use crate::phrase::Phrase;
use hardpan_model::{Direction, Flight, Given, Verdict, Wind};
use hardpan_quantity::{Amount, Angle, Quantity, Speed, celsius, hectopascals, knots, percent};
use std::f64::consts::PI;

/// Hottest and coldest day that is tried, °C.
const TEMPERATURES: (f64, f64) = (-50.0, 50.0);
/// Strongest tailwind that is tried, kt.
const TAILWIND: f64 = 25.0;
/// Strongest headwind that is tried, kt.
const HEADWIND: f64 = 40.0;
/// Strongest crosswind that is tried, kt.
const CROSSWIND: f64 = 45.0;
/// Lowest and highest air pressure that are tried, hPa.
const AIR_PRESSURES: (f64, f64) = (950.0, 1050.0);
/// Keeps a crosswind that stands at a limit from passing it by rounding.
const WITHIN: f64 = 1.0 - 1e-9;
/// Share of its strength that the ground is last tried at, %.
const WEAKEST: f64 = 40.0;

/// One figure, and what its steps make of the flight.
pub(super) struct Figure<'a> {
    pub(super) what: &'static str,
    pub(super) steps: usize,
    flight: &'a Flight,
    kind: Kind,
    first: f64,
    now: f64,
    /// Towards rising values or falling ones.
    towards: f64,
}

#[derive(Debug, Clone, Copy)]
enum Kind {
    Temperature,
    Along(Direction),
    Across(Direction),
    AirPressure,
    Strength,
}

/// The figures that the flight states, moved the harmful way; the helpful way
/// where the flight fails.
pub(super) fn figures(flight: &Flight, now: Verdict) -> Vec<Figure<'_>> {
    let harmful = now != Verdict::Fail;
    let mut figures: Vec<Figure<'_>> = Vec::new();
    let mut add = |what, kind, value: f64, lower_harms: bool, (least, most): (f64, f64)| {
        let falls = lower_harms == harmful;
        let (towards, first, last) =
            if falls { (-1.0, value.ceil(), least) } else { (1.0, value.floor(), most) };
        let steps = ((last - first) * towards).max(0.0);
        if steps >= 1.0 {
            let steps = steps as usize;
            figures.push(Figure { what, steps, flight, kind, first, now: value, towards });
        }
    };
    let day = &flight.day;
    if let Some(given) = &day.temperature {
        let value = given.value.si() - celsius(0.0).si();
        add("temperature", Kind::Temperature, value, false, TEMPERATURES);
    }
    for (landing, take_off, direction) in directions(flight) {
        let Some((along, across)) = components(flight, direction) else { continue };
        let (headwind, crosswind) = match (landing, take_off) {
            (true, true) => ("wind along the strip", "crosswind"),
            (true, false) => ("wind along the landing", "crosswind of the landing"),
            _ => ("wind along the take-off", "crosswind of the take-off"),
        };
        add(headwind, Kind::Along(direction), along, true, (-TAILWIND, HEADWIND));
        if figures_across(flight) == Some(direction) {
            add(crosswind, Kind::Across(direction), across.abs(), false, (0.0, CROSSWIND));
        }
    }
    if let Some(given) = &day.sea_level_pressure {
        let value = given.value.si() / hectopascals(1.0).si();
        add("air pressure", Kind::AirPressure, value, true, AIR_PRESSURES);
    }
    if harmful {
        add("strength of the ground", Kind::Strength, 100.0, true, (WEAKEST, 100.0));
    }
    figures
}

/// The direction of the movement whose crosswind is moved: it is the same in
/// size for both.
fn figures_across(flight: &Flight) -> Option<Direction> {
    directions(flight).first().map(|(_, _, direction)| *direction)
}

/// Each direction that is moved in, and by which movements.
fn directions(flight: &Flight) -> Vec<(bool, bool, Direction)> {
    let landing = flight.landing.as_ref().and_then(|plan| plan.direction.as_ref());
    let take_off = flight.take_off.as_ref().and_then(|plan| plan.direction.as_ref());
    match (landing.map(|given| given.value), take_off.map(|given| given.value)) {
        (Some(landing), Some(take_off)) if landing == take_off => vec![(true, true, landing)],
        (landing, take_off) => {
            let landing = landing.map(|direction| (true, false, direction));
            let take_off = take_off.map(|direction| (false, true, direction));
            landing.into_iter().chain(take_off).collect()
        }
    }
}

/// Course of a movement from true north.
fn course(flight: &Flight, direction: Direction) -> Option<f64> {
    let bearing = flight.strip.bearing.as_ref()?.value.si();
    Some(match direction {
        Direction::Up => bearing,
        Direction::Down => bearing + PI,
    })
}

/// Headwind and crosswind from the right of the mean wind, kt; none where the
/// wind has no one direction.
fn components(flight: &Flight, direction: Direction) -> Option<(f64, f64)> {
    let wind = flight.day.wind.as_ref()?.value;
    let speed = wind.speed.si() / knots(1.0).si();
    if speed == 0.0 && wind.gust.is_none() {
        return Some((0.0, 0.0));
    }
    if wind.between.is_some() {
        return None;
    }
    let off = wind.from?.si() - course(flight, direction)?;
    Some((speed * off.cos(), speed * off.sin()))
}

/// The wind of a headwind and a crosswind, with the gusts of the day on top.
fn blown(flight: &Flight, direction: Direction, along: f64, across: f64) -> Option<Given<Wind>> {
    let given = flight.day.wind.clone()?;
    let course = course(flight, direction)?;
    let speed = knots(along.hypot(across));
    let from = Angle::from_si((course + across.atan2(along)).rem_euclid(2.0 * PI));
    Some(given.map(|wind| Wind {
        from: Some(from),
        speed,
        gust: wind.gust.map(|gust| speed + (gust - wind.speed).max(Speed::from_si(0.0))),
        between: None,
    }))
}

impl Figure<'_> {
    fn at(&self, step: usize) -> f64 {
        if step == 0 { self.now } else { self.first + self.towards * step as f64 }
    }

    /// The value after so many steps.
    pub(super) fn value(&self, step: usize) -> Amount {
        let value = self.at(step);
        match self.kind {
            Kind::Temperature => celsius(value).into(),
            Kind::Along(_) | Kind::Across(_) => knots(value).into(),
            Kind::AirPressure => Amount::air_pressure(hectopascals(value)),
            Kind::Strength => percent(value).into(),
        }
    }

    /// The flight after so many steps, and the share of its strength that the
    /// ground then has, where that is what is moved.
    pub(super) fn moved(&self, step: usize) -> (Flight, Option<f64>) {
        let mut flight = self.flight.clone();
        let value = self.at(step);
        let day = &mut flight.day;
        match self.kind {
            _ if step == 0 => {}
            Kind::Temperature => {
                day.temperature = day.temperature.take().map(|given| given.map(|_| celsius(value)));
            }
            Kind::AirPressure => {
                let pressure = hectopascals(value);
                let given = day.sea_level_pressure.take();
                day.sea_level_pressure = given.map(|given| given.map(|_| pressure));
            }
            Kind::Along(direction) => {
                let across = components(self.flight, direction).map_or(0.0, |pair| pair.1);
                day.wind = blown(self.flight, direction, value, across);
            }
            Kind::Across(direction) => {
                let (along, across) = components(self.flight, direction).unwrap_or((0.0, 0.0));
                let across = WITHIN * value.copysign(across);
                day.wind = blown(self.flight, direction, along, across);
            }
            Kind::Strength => return (flight, Some(value / 100.0)),
        }
        (flight, None)
    }

    /// Whether the runs, and with them the ride, are others than planned.
    pub(super) fn changes_the_runs(&self) -> bool {
        matches!(self.kind, Kind::Temperature | Kind::Along(_) | Kind::AirPressure)
    }

    /// How far the answer holds and what turns it there, in one sentence.
    pub(super) fn sentence(&self, holds: usize, check: &str, verdict: Verdict) -> Phrase {
        let (named, amount) = self.named(holds);
        let word = verdict.word();
        let words = if verdict == Verdict::Fail && self.helps() {
            format!("would hold from {named}: short of it {check} gives {word}")
        } else {
            format!("holds to {named}: beyond it {check} gives {word}")
        };
        Phrase::new(words, [amount])
    }

    /// That the answer holds as far as was tried.
    pub(super) fn steady(&self) -> Phrase {
        let (named, amount) = self.named(self.steps);
        Phrase::new(format!("holds to {named}, as far as was tried"), [amount])
    }

    /// A value in a few words that name what it is.
    pub(super) fn short(&self, step: usize) -> Phrase {
        let (named, amount) = self.named(step);
        let words = match self.kind {
            Kind::Temperature | Kind::AirPressure | Kind::Across(_) => {
                format!("{} {named}", self.what)
            }
            Kind::Along(_) | Kind::Strength => named,
        };
        Phrase::new(words, [amount])
    }

    fn helps(&self) -> bool {
        let falls = self.towards < 0.0;
        match self.kind {
            Kind::Temperature | Kind::Across(_) => falls,
            Kind::Along(_) | Kind::AirPressure | Kind::Strength => !falls,
        }
    }

    /// A value in words, with a mark for its amount.
    fn named(&self, step: usize) -> (String, Amount) {
        let value = self.at(step);
        match self.kind {
            Kind::Along(_) if value < 0.0 => ("{} of tailwind".to_owned(), knots(-value).into()),
            Kind::Along(_) => ("{} of headwind".to_owned(), knots(value).into()),
            Kind::Strength => ("{} of the strength sounded".to_owned(), self.value(step)),
            _ => ("{}".to_owned(), self.value(step)),
        }
    }
}
