//! Where the sun stands at the movements of a flight.

use crate::by_formula::by_formula;
use crate::draft::{derived, given, given_as, plain_step};
use crate::ground::two_layers::from_step;
use crate::measured::Known;
use crate::on_strip::on_strip;
use hardpan_model::{BasisInput, Flight, Given, Step};
use hardpan_quantity::{Amount, Angle, Quantity};
use hardpan_run::{is_daylight, sun_elevation};
use jiff::Timestamp;
use jiff::civil::DateTime;
use std::f64::consts::{PI, TAU};

/// Noon UTC of 1 January 2000, from which days are counted.
const NOON_2000_S: i64 = 946_728_000;
const DAY_S: f64 = 86_400.0;

/// The darker of the movements of a flight.
pub(crate) struct Light<'a> {
    time: &'a Given<DateTime>,
    /// Latitude and longitude of the strip.
    place: (&'a Given<Angle>, &'a Given<Angle>),
    /// Days since noon UTC of 1 January 2000.
    days: f64,
}

/// The movement with the lower sun: that at the time stated, or the take-off at the end of
/// the time on the ground. None where no place on the globe is stated, or no time.
pub(crate) fn darker(flight: &Flight) -> Option<Light<'_>> {
    let time = flight.day.time_utc.as_ref()?;
    let place = place(flight)?;
    let stay = on_strip(flight)?;
    let sun = |days: &f64| sun_elevation(*days, place.0.value, place.1.value).si();
    let moments = [stay.from, stay.to].map(days);
    let days = moments.into_iter().min_by(|a, b| sun(a).total_cmp(&sun(b)))?;
    Some(Light { time, place, days })
}

/// Latitude and longitude of a threshold, else of the station whose climate is stated.
fn place(flight: &Flight) -> Option<(&Given<Angle>, &Given<Angle>)> {
    let strip = &flight.strip;
    let mut ends = [&strip.low_end, &strip.high_end].into_iter();
    let end = ends.find_map(|end| end.latitude.as_ref().zip(end.longitude.as_ref()));
    end.or_else(|| strip.climate.as_ref().map(|climate| (&climate.latitude, &climate.longitude)))
}

fn days(moment: Timestamp) -> f64 {
    (moment.as_second() - NOON_2000_S) as f64 / DAY_S
}

impl Light<'_> {
    /// Whether the sun is down.
    pub(crate) fn is_dark(&self) -> bool {
        !is_daylight(self.days, self.place.0.value, self.place.1.value)
    }

    /// The elevation of the sun step by step, the last of which gives it.
    pub(crate) fn steps(&self) -> Known<Vec<Step>> {
        let days = Amount::coefficient(self.days);
        let at = given_as("days since noon UTC of 1 January 2000", self.time, days);
        elevation_steps(&at, self.days, self.place)
    }
}

/// The elevation of the sun at a moment, in days since noon UTC of 1 January 2000, at a
/// latitude and a longitude: step by step, the last of which gives it.
pub(crate) fn elevation_steps(
    at: &BasisInput,
    moment: f64,
    (latitude, longitude): (&Given<Angle>, &Given<Angle>),
) -> Known<Vec<Step>> {
    let at = || at.clone();
    let declination = by_formula("sun-declination", vec![at()])?;
    let equation = by_formula("equation-of-time", vec![at()])?;
    let apparent = TAU * moment.rem_euclid(1.0) + longitude.value.si() + equation.result.si;
    let angle = Angle::from_si((apparent + PI).rem_euclid(TAU) - PI);
    let mean = plain_step(
        "hour angle of the mean sun at longitude 0",
        "a turn for each day since noon; whole turns left out",
        derived("time as an angle"),
        vec![at()],
        angle - longitude.value - equation.result.get::<Angle>().unwrap_or_default(),
    );
    let angle = plain_step(
        "hour angle of the sun",
        "mean + longitude + equation of time",
        derived("time as an angle"),
        vec![
            from_step("hour angle of the mean sun", mean.result, 2).under("mean"),
            given("longitude", longitude).under("longitude"),
            from_step("equation of time", equation.result, 1).under("equation of time"),
        ],
        angle,
    );
    let elevation = by_formula(
        "sun-elevation",
        vec![
            from_step("hour angle", angle.result, 3),
            given("latitude", latitude),
            from_step("declination", declination.result, 0),
        ],
    )?;
    Ok(vec![declination, equation, mean, angle, elevation])
}
