//! Heat that the brakes take on the way to a take-off, and how long they must
//! cool after a landing.

use crate::draft::{computed, derived, given, given_as, plain_step};
use crate::measured::{Known, Unavailable};
use crate::run_basis::TAKE_OFF_RUN;
use hardpan_model::{BasisInput, CoolingRow, Flight, Given, Need, Source, Step, Tier};
use hardpan_quantity::{Amount, Energy, Mass, Quantity, Speed, Time};

const CHART: Source =
    Source::new("", "approved chart of brake cooling, linear between its rows", Tier::Approved);
const TAXI: Source =
    Source::new("", "kinetic energy of each stop from taxi speed, no drag credited", Tier::Derived);

const MINUTE_S: f64 = 60.0;

/// What taxiing to the take-off is planned with.
struct Taxi<'a> {
    stops: &'a Given<u32>,
    speed: &'a Given<Speed>,
    wheels: &'a Given<u32>,
}

fn taxi(flight: &Flight) -> Option<Taxi<'_>> {
    Some(Taxi {
        stops: flight.technique.taxi_stops.as_ref()?,
        speed: flight.technique.taxi_speed.as_ref()?,
        wheels: flight.aeroplane.brakes.wheels.as_ref()?,
    })
}

/// Energy of one brake from taxiing at a mass; none when the flight does not
/// state the stops, the speed or the braked wheels.
pub(crate) fn taxi_energy(flight: &Flight, mass: Mass) -> Option<Energy> {
    let Taxi { stops, speed, wheels } = taxi(flight)?;
    let speed = speed.value.si();
    let each = 0.5 * mass.si() * speed * speed / f64::from(wheels.value.max(1));
    Some(Energy::from_si(f64::from(stops.value) * each))
}

/// What one brake may take, and what taxiing puts into it by the mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct BrakesBefore {
    limit: Option<Energy>,
    per_kilogram: Energy,
}

impl BrakesBefore {
    pub(crate) fn of(flight: &Flight) -> Self {
        Self {
            limit: flight.aeroplane.brakes.energy_limit.as_ref().map(|limit| limit.value),
            per_kilogram: taxi_energy(flight, Mass::from_si(1.0)).unwrap_or_default(),
        }
    }

    /// What is left for the stop of a rejected take-off; none without a limit.
    pub(crate) fn left(&self, mass: Mass) -> Option<Energy> {
        Some(self.limit? - self.per_kilogram * mass.si())
    }
}

/// The same as a step of a basis.
pub(crate) fn taxi_step(flight: &Flight, mass: Mass) -> Option<Step> {
    let energy = taxi_energy(flight, mass)?;
    let Taxi { stops, speed, wheels } = taxi(flight)?;
    let count =
        |name: &str, of: &Given<u32>| given_as(name, of, Amount::coefficient(f64::from(of.value)));
    Some(plain_step(
        "energy of one brake from taxiing",
        "stops × m × V² / 2 / braked wheels",
        TAXI,
        vec![
            count("stops from taxi speed", stops).under("stops"),
            given("taxi speed", speed).under("V"),
            computed("mass", mass, TAKE_OFF_RUN).under("m"),
            count("braked wheels", wheels).under("braked wheels"),
        ],
        energy,
    ))
}

/// Time that the approved chart asks for after a stop of an energy; below its
/// first row that of the row, above its last none.
pub(crate) fn cooling_time(flight: &Flight, energy: Energy) -> Known<(Time, Step)> {
    let rows = &flight.aeroplane.brakes.cooling;
    let above = rows.iter().position(|row| row.energy.value >= energy);
    let Some(above) = above else {
        let how = match rows.last() {
            None => "approved ground time after a stop by energy of one brake".to_owned(),
            Some(_) => "a row for this energy; the chart ends below it".to_owned(),
        };
        let what = "aeroplane: [[brakes.cooling]]".to_owned();
        return Err(Unavailable::missing("the time to cool", vec![Need { what, how }]));
    };
    let after = &rows[above];
    let before = above.checked_sub(1).and_then(|index| rows.get(index));
    let time = before.map_or(after.wait.value, |before| between(before, after, energy));
    let mut inputs =
        vec![computed("energy of one brake", energy, "the stop before, F60").under("E")];
    inputs.extend(before.into_iter().flat_map(|row| row_inputs(row, ("E1", "t1"))));
    inputs.extend(row_inputs(after, ("E2", "t2")));
    let rule = match before {
        Some(_) => "t1 + (t2 − t1) × (E − E1) / (E2 − E1); linear between the rows of the chart",
        None => "t2; the time of the first row of the chart, which counts below it",
    };
    let step = plain_step("time until the brakes may take another stop", rule, CHART, inputs, time);
    Ok((time, step))
}

fn between(before: &CoolingRow, after: &CoolingRow, energy: Energy) -> Time {
    let (low, high) = (before.energy.value.si(), after.energy.value.si());
    let share = (energy.si() - low) / (high - low).max(1e-9);
    before.wait.value + (after.wait.value - before.wait.value) * share
}

fn row_inputs(row: &CoolingRow, (energy, time): (&'static str, &'static str)) -> [BasisInput; 2] {
    [
        given("energy of the chart", &row.energy).under(energy),
        given("time of the chart", &row.wait).under(time),
    ]
}

/// A time that brakes must cool, as the crew is told it and holds it: in whole minutes, up.
pub(crate) fn held_for(wait: Time) -> Time {
    Time::from_si((wait.si() / MINUTE_S).ceil() * MINUTE_S)
}

/// The same as a step.
pub(crate) fn whole_minutes(time: Time) -> Step {
    let held = held_for(time);
    plain_step(
        &format!("time that the crew holds, {:.0} min", held.si() / MINUTE_S),
        "time, rounded up to whole minutes; up, since less would leave heat in the brakes that the \
         chart does not allow",
        derived("a clock shows whole minutes"),
        vec![
            computed("time until the brakes may take another stop", time, "step above")
                .under("time"),
        ],
        held,
    )
}
