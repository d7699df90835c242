//! The figures of a day that are moved, each in whole steps.

use crate::phrase::Phrase;
use hardpan_model::{Direction, Flight, Given, SurfaceState, Verdict, Wind};
use hardpan_quantity::{
    Amount, Angle, BearingRatio, Length, Mass, Quantity, Speed, celsius, hectopascals, kilograms,
    knots, millimetres, percent,
};
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

/// Step in which masses are moved, kg, and how far over the structural limit.
const MASS_STEP_KG: f64 = 100.0;
const HEAVIEST: f64 = 1.05;
/// Heaviest rain that is tried, mm in an hour.
const HEAVIEST_RAIN: f64 = 50.0;

/// The place that the ground is weakest at for the load that comes there.
#[derive(Debug, Clone, Copy)]
pub(super) struct WeakPlace {
    pub(super) from: Length,
    pub(super) to: Length,
    /// Mean bearing ratio of the layer that governs.
    pub(super) bearing: BearingRatio,
}

/// How much of its strength the ground keeps, and where.
#[derive(Debug, Clone, Copy)]
pub(super) enum Weaker {
    Nowhere,
    Everywhere(f64),
    At(WeakPlace, f64),
}

/// One figure, and what its steps make of the flight.
pub(super) struct Figure<'a> {
    pub(super) what: &'static str,
    pub(super) steps: usize,
    flight: &'a Flight,
    kind: Kind,
    first: f64,
    now: f64,
    /// Towards rising values or falling ones, and by how much a step.
    towards: f64,
}

#[derive(Debug, Clone, Copy)]
enum Kind {
    Temperature,
    /// The same towards cold.
    Colder,
    Along(Direction),
    Across(Direction, Side),
    AirPressure,
    Strength,
    Place(WeakPlace),
    LandingMass,
    TakeOffMass,
    Rain,
}

/// Which side a crosswind is moved to.
#[derive(Debug, Clone, Copy)]
enum Side {
    /// That it comes from now.
    Same,
    Other,
}

/// The figures that the flight states, moved the harmful way; the helpful way
/// where the flight fails.
pub(super) fn figures(flight: &Flight, now: Verdict, weak: Option<WeakPlace>) -> Vec<Figure<'_>> {
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
        if harmful {
            add("temperature, colder", Kind::Colder, value, true, TEMPERATURES);
        }
    }
    for (landing, take_off, direction) in directions(flight) {
        let Some((along, across)) = components(flight, direction) else { continue };
        let (headwind, crosswind, other_side) = match (landing, take_off) {
            (true, true) => ("wind along the strip", "crosswind", "crosswind from the other side"),
            (true, false) => (
                "wind along the landing",
                "crosswind of the landing",
                "crosswind of the landing from the other side",
            ),
            _ => (
                "wind along the take-off",
                "crosswind of the take-off",
                "crosswind of the take-off from the other side",
            ),
        };
        add(headwind, Kind::Along(direction), along, true, (-TAILWIND, HEADWIND));
        if figures_across(flight) == Some(direction) {
            let kind = |side| Kind::Across(direction, side);
            add(crosswind, kind(Side::Same), across.abs(), false, (0.0, CROSSWIND));
            if harmful {
                add(other_side, kind(Side::Other), -across.abs(), false, (0.0, CROSSWIND));
            }
        }
    }
    if let Some(given) = &day.sea_level_pressure {
        let value = given.value.si() / hectopascals(1.0).si();
        add("air pressure", Kind::AirPressure, value, true, AIR_PRESSURES);
    }
    if harmful {
        add("strength of the ground", Kind::Strength, 100.0, true, (WEAKEST, 100.0));
        if let Some(place) = weak {
            add("weakest place", Kind::Place(place), 100.0, true, (WEAKEST, 100.0));
        }
    }
    if harmful && may_become_wet(flight) {
        add("rain of an hour", Kind::Rain, 0.0, false, (0.0, HEAVIEST_RAIN));
    }
    figures.extend(masses(flight, harmful));
    figures
}

/// Whether the surface is dry and nothing falls on it, by what the day states.
fn may_become_wet(flight: &Flight) -> bool {
    let day = &flight.day;
    let dry = day.surface_state.as_ref().is_some_and(|state| state.value == SurfaceState::Dry);
    let no_rain = day.rain.as_ref().is_some_and(|rain| rain.value.si() <= 0.0);
    dry && no_rain && day.precipitation.is_none()
}

/// The masses planned, moved in steps of 100 kg.
fn masses(flight: &Flight, harmful: bool) -> Vec<Figure<'_>> {
    let limits = &flight.aeroplane.mass;
    let landing = flight.landing.as_ref().and_then(|plan| plan.mass.as_ref());
    let take_off = flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref());
    let both = [
        ("landing mass", Kind::LandingMass, landing, limits.maximum_landing.as_ref()),
        ("take-off mass", Kind::TakeOffMass, take_off, limits.maximum_take_off.as_ref()),
    ];
    both.into_iter()
        .filter_map(|(what, kind, planned, maximum)| {
            let (now, most) = (planned?.value.si(), maximum?.value);
            let least = crate::masses::lightest(flight, most).si();
            let (towards, first, last) = if harmful {
                (MASS_STEP_KG, (now / MASS_STEP_KG).floor() * MASS_STEP_KG, most.si() * HEAVIEST)
            } else {
                (-MASS_STEP_KG, (now / MASS_STEP_KG).ceil() * MASS_STEP_KG, least)
            };
            let steps = ((last - first) / towards).max(0.0) as usize;
            (steps >= 1).then_some(Figure { what, steps, flight, kind, first, now, towards })
        })
        .collect()
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

fn change_mass(given: Option<&mut Option<Given<Mass>>>, mass: Mass) {
    if let Some(given) = given {
        *given = given.take().map(|given| given.map(|_| mass));
    }
}

impl Figure<'_> {
    fn at(&self, step: usize) -> f64 {
        if step == 0 { self.now } else { self.first + self.towards * step as f64 }
    }

    /// The value after so many steps.
    pub(super) fn value(&self, step: usize) -> Amount {
        let value = self.at(step);
        match self.kind {
            Kind::Temperature | Kind::Colder => celsius(value).into(),
            Kind::Along(_) | Kind::Across(..) => knots(value).into(),
            Kind::AirPressure => Amount::air_pressure(hectopascals(value)),
            Kind::Strength => percent(value).into(),
            Kind::Place(place) => BearingRatio::from_si(place.bearing.si() * value / 100.0).into(),
            Kind::LandingMass | Kind::TakeOffMass => kilograms(value).into(),
            Kind::Rain => millimetres(value).into(),
        }
    }

    /// The flight after so many steps, and the strength that the ground then has.
    pub(super) fn moved(&self, step: usize) -> (Flight, Weaker) {
        let mut flight = self.flight.clone();
        let value = self.at(step);
        let day = &mut flight.day;
        match self.kind {
            _ if step == 0 => {}
            Kind::Temperature | Kind::Colder => {
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
            Kind::Across(direction, side) => {
                let (along, across) = components(self.flight, direction).unwrap_or((0.0, 0.0));
                let size = WITHIN * value.copysign(across);
                let across = if matches!(side, Side::Other) { -size } else { size };
                day.wind = blown(self.flight, direction, along, across);
            }
            Kind::Strength => return (flight, Weaker::Everywhere(value / 100.0)),
            Kind::Place(place) => return (flight, Weaker::At(place, value / 100.0)),
            Kind::Rain => {
                day.rain = day.rain.take().map(|given| given.map(|_| millimetres(value)));
                let state = day.surface_state.take();
                day.surface_state = state.map(|given| given.map(|_| SurfaceState::Wet));
            }
            Kind::LandingMass => {
                let plan = flight.landing.as_mut();
                change_mass(plan.map(|plan| &mut plan.mass), kilograms(value));
            }
            Kind::TakeOffMass => {
                let plan = flight.take_off.as_mut();
                change_mass(plan.map(|plan| &mut plan.mass), kilograms(value));
            }
        }
        (flight, Weaker::Nowhere)
    }

    /// Whether the runs, and with them the ride, are others than planned.
    pub(super) fn changes_the_runs(&self) -> bool {
        !matches!(self.kind, Kind::Strength | Kind::Place(_))
    }

    /// Whether it is worth telling that the answer, as it is now, stays the same as far
    /// as was tried: not of one that nobody has shown to hold.
    pub(super) const fn tells_if_steady(&self, now: Verdict) -> bool {
        let holds = matches!(now, Verdict::Pass | Verdict::Conditional);
        holds && !matches!(self.kind, Kind::Colder)
    }

    /// How far the answer, as it is now, holds and what turns it there, in one sentence.
    pub(super) fn sentence(
        &self,
        holds: usize,
        check: &str,
        (now, verdict): (Verdict, Verdict),
    ) -> Phrase {
        let (named, amount) = self.named(holds);
        let word = verdict.word();
        let words = if verdict == Verdict::Fail && self.helps() {
            format!("would hold from {named}: short of it {check} gives {word}")
        } else if now == Verdict::Unproven {
            format!("stays unproven to {named}: beyond it {check} gives {word}")
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
            Kind::Along(_) | Kind::Strength | Kind::Place(_) | Kind::Rain => named,
            Kind::Colder => format!("temperature down to {named}"),
            _ => format!("{} {named}", self.what),
        };
        Phrase::new(words, [amount])
    }

    fn helps(&self) -> bool {
        let falls = self.towards < 0.0;
        match self.kind {
            Kind::Along(_) | Kind::AirPressure | Kind::Strength | Kind::Place(_) | Kind::Colder => {
                !falls
            }
            _ => falls,
        }
    }

    /// A value in words, with a mark for its amount.
    fn named(&self, step: usize) -> (String, Amount) {
        let value = self.at(step);
        match self.kind {
            Kind::Along(_) if value < 0.0 => ("{} of tailwind".to_owned(), knots(-value).into()),
            Kind::Along(_) => ("{} of headwind".to_owned(), knots(value).into()),
            Kind::Strength => ("{} of the strength sounded".to_owned(), self.value(step)),
            Kind::Place(place) => {
                let stretch = Amount::from(place.from).told_to(place.to.into());
                (format!("CBR {{}} at {stretch}"), self.value(step))
            }
            Kind::Rain if value <= 0.0 => {
                ("no rain that wets the surface".to_owned(), self.value(step))
            }
            Kind::Rain => {
                ("{} of rain in an hour, the surface wet by it".to_owned(), self.value(step))
            }
            _ => ("{}".to_owned(), self.value(step)),
        }
    }
}
