//! One hour of the calendar, opened to its basis.

use super::{
    NINETEEN_IN_TWENTY, STEP_K, Tried, WARMEST_HOUR, Warmth, YearHour, moments, months_about,
    needed, place, reckoned, share_of, step_of, with_masses,
};
use crate::assess::figure_basis::{FigureBasis, of_step};
use crate::assess::opening::Openings;
use crate::assess::{Core, answered, explained};
use crate::assessment::Assessment;
use crate::context::Context;
use crate::draft::{computed, derived, given, given_as, plain_step};
use crate::ground::bearing_curves::weeks::{calendar, weakest};
use crate::ground::season::{DayStrength, frost_by_day};
use crate::measured::Known;
use crate::movements::daylight::elevation_steps;
use crate::rides::Asked;
use crate::{HourState, Largest, MassAnswer};
use hardpan_model::{Basis, Climate, Flight, MonthDay, Source, Step, Tier};
use hardpan_quantity::{Amount, Mass, Quantity, Ratio, Temperature, celsius};
use hardpan_run::sun_elevation;

/// The daily course is judgement, its warmest hour and the normal distribution of days
/// common practice.
const DAILY_COURSE: Source = Source::new(
    "",
    "daily course of normals; warmest at 15 h of solar time, and 1.645 standard deviations: \
     common practice, no source",
    Tier::CommonPractice,
);

/// An hour of the calendar, opened.
#[derive(Debug, Clone)]
pub struct OpenedHour {
    /// The days of its week.
    pub days: (MonthDay, MonthDay),
    /// As the calendar has it.
    pub hour: YearHour,
    /// Its light, its warmth and the strength of its ground, from the files.
    pub reckoned: Vec<FigureBasis>,
    /// The flight at the masses asked for, with every step; none of an hour that is
    /// dark, or on ground that is not known.
    pub asked: Option<AssessedHour>,
    /// The flight at the largest masses of the hour: what sets them just holds in it.
    /// A movement for which no mass holds keeps the mass asked for.
    pub largest: Option<AssessedHour>,
}

/// A flight as it is assessed in an hour.
#[derive(Debug, Clone)]
pub struct AssessedHour {
    /// The assessment, without what would turn it or help.
    pub found: Assessment,
    /// What its figures open to.
    pub openings: Openings,
}

/// One hour of the calendar that [`crate::year_sheet`] tells, with the assessments that
/// it comes from: the week that begins on a day, and the hour in UTC. None where no week
/// begins on that day, or the day has no such hour.
///
/// # Errors
/// [`crate::Unavailable`] with everything that is missing.
pub fn year_hour(
    flight: &Flight,
    masses: (Option<Mass>, Option<Mass>),
    first: MonthDay,
    hour: u8,
) -> Known<Option<OpenedHour>> {
    let flight = with_masses(flight, masses);
    let (climate, ..) = needed(&flight)?;
    let days = calendar().into_iter().find(|days| days.first() == Some(&first));
    let Some(days) = days.filter(|_| hour < 24) else { return Ok(None) };
    let strength = weakest(&flight, frost_by_day(&flight).as_ref(), &days);
    let ground = share_of(strength.as_ref());
    let mut tried = Tried::of(&flight);
    let found = tried.on(&climate, &days, hour, ground);
    let share = ground.ok().filter(|_| found.state != HourState::Dark);
    let assessed = share.map(|share| {
        let standing = tried.standing.with_strength(share).without_season();
        let assessed = |flight: &Flight| {
            let on = reckoned(flight, step_of(found.temperature));
            let core = Core::of(&on, &standing);
            let found = explained(&on, &core, answered(&on, &core));
            let context = Context::tried(&on, &core.measured, Asked::Whole);
            let openings = Openings::of(&found, &context, &standing);
            AssessedHour { found, openings }
        };
        let most = (found.landing, found.take_off);
        let most = (most.0.and_then(Largest::mass), most.1.and_then(Largest::mass));
        (assessed(&flight), assessed(&with_masses(&flight, most)))
    });
    let (asked, largest) = assessed.unzip();
    let reckoned = [light(&climate, &days, hour)?, warmth(&climate, &days, hour)]
        .into_iter()
        .chain(strength.map(|(strength, _)| of_the_ground(strength)))
        .collect();
    let last = days.last().copied().unwrap_or(first);
    Ok(Some(OpenedHour { days: (first, last), hour: found, reckoned, asked, largest }))
}

impl OpenedHour {
    /// What limits each movement that is planned: its name, and the limits by rising mass.
    pub fn limits(&self) -> impl Iterator<Item = (&'static str, &MassAnswer)> {
        let both = self.asked.iter().flat_map(|AssessedHour { found, .. }| {
            [("landing", &found.landing_mass), ("take-off", &found.take_off_mass)]
        });
        both.filter_map(|(name, answer)| Some((name, answer.as_ref()?)))
    }
}

/// How low the sun stands in the hour, at worst.
fn light(climate: &Climate, days: &[MonthDay], hour: u8) -> Known<FigureBasis> {
    let (latitude, longitude) = place(climate);
    let height = |moment: f64| sun_elevation(moment, latitude, longitude);
    let lowest = moments(days, hour).min_by(|a, b| height(*a).si().total_cmp(&height(*b).si()));
    let lowest = lowest.expect("a week has days");
    let at = computed(
        "days since noon UTC of 1 January 2000",
        Amount::coefficient(lowest),
        "the lowest sun of the days and the hour, looked at every half hour",
    );
    let steps = elevation_steps(&at, lowest, (&climate.latitude, &climate.longitude))?;
    Ok(last_of("lowest sun of the hour; it is up from −0.833°", steps))
}

/// The temperature that the hour is reckoned with.
fn warmth(climate: &Climate, days: &[MonthDay], hour: u8) -> FigureBasis {
    let Warmth { temperature, day, hour, mean, range } = Warmth::of(climate, days, hour);
    let (month, other, way) = months_about(day);
    let monthly = |name: &str, at: usize| {
        given_as(name, &climate.monthly, Amount::from(climate.monthly.value[at]))
    };
    let way = |of: &str| computed(of, Amount::coefficient(way), "the day between their middles");
    let ranges = |name: &str, at: usize| {
        let amount = Amount::coefficient(climate.range_kelvins.value[at]);
        given_as(name, &climate.range_kelvins, amount)
    };
    let rule = "month + way to the next × (next − month), between the middles of the months";
    let between = || derived("straight line between the normals of months");
    let warm = vec![monthly("month", month), monthly("next", other), way("way to the next")];
    let wide = vec![ranges("month", month), ranges("next", other), way("way to the next")];
    let mean = Temperature::from_si(mean);
    let mean = plain_step("mean of the warmest day", rule, between(), warm, mean);
    let range = Amount::coefficient(range);
    let range = plain_step("range of that day in kelvins", rule, between(), wide, range);
    let when = "the warmest day and half hour of those looked at";
    let mut inputs = vec![
        of_step("mean", mean.result, 0),
        of_step("range", range.result, 1),
        computed("hour UTC", Amount::coefficient(hour), when),
        given("longitude", &climate.longitude),
    ];
    inputs.extend(climate.spread_kelvins.as_ref().map(|one| {
        given_as("standard deviation of a day in kelvins", one, Amount::coefficient(one.value))
    }));
    let rule = format!(
        "mean + range / 2 × cos(2π (hour + longitude / 15° − {WARMEST_HOUR}) / 24) + \
         {NINETEEN_IN_TWENTY} × standard deviation"
    );
    let warmest = plain_step("warmest of the hour", &rule, DAILY_COURSE, inputs, temperature);
    let taken = plain_step(
        "temperature reckoned with",
        &format!("the warmest, rounded up to whole steps of {STEP_K} K from 0 °C"),
        derived("rounded to the safe side"),
        vec![of_step("warmest of the hour", temperature, 2)],
        celsius(step_of(temperature) * STEP_K),
    );
    last_of("temperature reckoned with", vec![mean, range, warmest, taken])
}

/// The share of its strength that the ground has.
fn of_the_ground(strength: DayStrength) -> FigureBasis {
    let step = plain_step(
        "share of the strength sounded",
        &format!("{}: the weakest of the days; it counts for every layer", strength.told),
        derived("seasons of the strip"),
        strength.inputs,
        Ratio::from_si(strength.share),
    );
    last_of("ground, share of the strength sounded", vec![step])
}

fn last_of(name: &str, steps: Vec<Step>) -> FigureBasis {
    let amount = steps.last().map(|step| step.result);
    FigureBasis {
        name: name.to_owned(),
        amount: amount.expect("there is a step"),
        basis: Basis { steps },
    }
}
