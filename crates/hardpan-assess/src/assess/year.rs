//! The days and hours of the year at which the masses of a flight work: by
//! normal temperatures, the season of the ground and daylight.

mod hour;

pub use hour::{AssessedHour, OpenedHour, year_hour};

use crate::ground::bearing_curves::weeks::{calendar, weakest};
use crate::ground::season::{DayStrength, frost_by_day};
use crate::masses::{Wanted, landing_mass, take_off_mass};
use crate::measure::{Standing, measure};
use crate::measured::{Known, Unavailable};
use crate::{Largest, MassAnswer, MassLimit};
use hardpan_model::{Climate, Flight, Given, MonthDay, Need, Wind};
use hardpan_quantity::{
    Angle, Mass, Quantity, Ratio, Speed, Temperature, celsius, hectopascals, kelvins,
};
use hardpan_run::{day_length, is_daylight};
use jiff::civil::Date;
use std::collections::BTreeMap;
use std::f64::consts::TAU;

/// A leap year, so that 29 February is looked at.
const YEAR: i16 = 2024;
/// Days from noon of 1 January 2000 to midnight before 1 January of that year.
const YEAR_STARTS: f64 = 8765.5;
/// Solar time of the warmest hour: common practice, no source.
const WARMEST_HOUR: f64 = 15.0;
/// One-sided 95 % of the normal distribution.
const NINETEEN_IN_TWENTY: f64 = 1.645;
/// Step to which temperatures are rounded up, K.
const STEP_K: f64 = 2.0;

/// The year of a flight, week by week and hour by hour.
#[derive(Debug, Clone, PartialEq)]
pub struct YearSheet {
    /// Name of the strip; empty when it is not stated.
    pub strip: String,
    /// Name of the aeroplane; empty when it is not stated.
    pub aeroplane: String,
    /// Landing mass that is asked for; none where no landing is planned.
    pub landing: Option<Mass>,
    /// Take-off mass that is asked for; likewise.
    pub take_off: Option<Mass>,
    /// 52 weeks from 1 January.
    pub weeks: Vec<YearWeek>,
    /// Twelve months.
    pub months: Vec<YearMonth>,
    /// What the reader must know.
    pub caveats: Vec<String>,
}

/// Seven days of every year.
#[derive(Debug, Clone, PartialEq)]
pub struct YearWeek {
    /// First day.
    pub from: MonthDay,
    /// Last day.
    pub to: MonthDay,
    /// The season that is weakest in it and the share of strength; none where a
    /// day lies in no season that is stated.
    pub season: Option<(String, Ratio)>,
    /// 24 hours, UTC.
    pub hours: Vec<YearHour>,
}

/// One hour of the days of a week.
#[derive(Debug, Clone, PartialEq)]
pub struct YearHour {
    /// Whether the masses work in it.
    pub state: HourState,
    /// Temperature reckoned with.
    pub temperature: Temperature,
    /// Largest landing mass; none of an hour that is dark, and where no landing is planned.
    pub landing: Option<Largest>,
    /// Largest take-off mass; likewise.
    pub take_off: Option<Largest>,
}

/// Whether the masses work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum HourState {
    /// Every limit on the masses holds.
    Works,
    /// The sun is down at some time of the hour on some day of the week.
    Dark,
    /// A limit does not hold: its code and what it is.
    TooHeavy(&'static str, String),
    /// Not known: why.
    NotKnown(&'static str),
}

/// One month in figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct YearMonth {
    /// 1 to 12.
    pub month: i8,
    /// Length of the day in its middle, as a share of 24 hours.
    pub daylight: f64,
    /// Coldest and warmest hour reckoned with.
    pub temperatures: (Temperature, Temperature),
    /// Hours of a mean day at which the masses work.
    pub working_hours: f64,
    /// The largest masses over its hours of daylight: landing, take-off.
    pub masses: (MonthMass, MonthMass),
}

/// The largest masses of a movement over the hours of a month by daylight.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct MonthMass {
    /// Least of those that are known; none where there is none.
    pub least: Option<Mass>,
    /// Hours of a mean day in which no mass holds.
    pub none_holds: f64,
    /// Hours of a mean day in which it is not known.
    pub not_known: f64,
}

/// The year of a flight at the masses planned, or at those asked for.
///
/// # Errors
/// [`Unavailable`] with everything that is missing.
pub fn year_sheet(
    flight: &Flight,
    masses: (Option<Mass>, Option<Mass>),
    mut done: impl FnMut(usize, usize),
) -> Known<YearSheet> {
    let flight = with_masses(flight, masses);
    let (climate, landing, take_off) = needed(&flight)?;
    let frost = frost_by_day(&flight);
    let mut tried = Tried::of(&flight);
    let calendar = calendar();
    let every = calendar.len();
    let mut weeks = Vec::new();
    for days in calendar {
        let strength = weakest(&flight, frost.as_ref(), &days);
        let ground = share_of(strength.as_ref());
        let hours = (0..24).map(|hour| tried.on(&climate, &days, hour, ground));
        let hours = hours.collect();
        let season = strength.map(|(strength, _)| (strength.told, Ratio::from_si(strength.share)));
        let ends = days.first().copied().zip(days.last().copied());
        let (from, to) = ends.expect("a week has days");
        weeks.push(YearWeek { from, to, season, hours });
        done(weeks.len(), every);
    }
    let name =
        |given: Option<&Given<String>>| given.map_or_else(String::new, |given| given.value.clone());
    Ok(YearSheet {
        strip: name(flight.strip.name.as_ref()),
        aeroplane: name(flight.aeroplane.name.as_ref()),
        landing,
        take_off,
        months: months(&climate, &weeks),
        weeks,
        caveats: caveats(&climate),
    })
}

fn with_masses(flight: &Flight, (landing, take_off): (Option<Mass>, Option<Mass>)) -> Flight {
    let mut flight = flight.clone();
    set(flight.landing.as_mut().map(|plan| &mut plan.mass), landing);
    set(flight.take_off.as_mut().map(|plan| &mut plan.mass), take_off);
    flight
}

fn set(given: Option<&mut Option<Given<Mass>>>, mass: Option<Mass>) {
    if let (Some(given), Some(mass)) = (given, mass) {
        *given = Some(match given.take() {
            Some(given) => given.map(|_| mass),
            None => Given::stated("mass", mass),
        });
    }
}

type Needed = (Climate, Option<Mass>, Option<Mass>);

fn needed(flight: &Flight) -> Known<Needed> {
    let mut needs = Vec::new();
    let mut want = |is_there: bool, what: &str, how: &str| {
        if !is_there {
            needs.push(Need { what: what.to_owned(), how: how.to_owned() });
        }
    };
    let climate = flight.strip.climate.clone();
    want(
        climate.is_some(),
        "strip: [climate]",
        "monthly_mean, monthly_range, latitude and longitude, from a station's record",
    );
    want(
        !flight.strip.seasons.is_empty(),
        "strip: [[season]]",
        "days and the strength that the ground then has, with its source; none is assumed",
    );
    let mass = |given: Option<&Given<Mass>>| given.map(|given| given.value);
    let landing = flight.landing.as_ref().map(|plan| mass(plan.mass.as_ref()));
    let take_off = flight.take_off.as_ref().map(|plan| mass(plan.mass.as_ref()));
    want(landing != Some(None), "flight: landing.mass", "the mass planned, or ask for one");
    want(take_off != Some(None), "flight: take_off.mass", "the mass planned, or ask for one");
    want(
        landing.is_some() || take_off.is_some(),
        "flight: [landing] or [take_off]",
        "the movements whose masses are asked for",
    );
    match climate {
        Some(climate) if needs.is_empty() => Ok((climate, landing.flatten(), take_off.flatten())),
        _ => Err(Unavailable::missing("the year", needs)),
    }
}

/// Share of strength of the ground, or why it is not known.
fn share_of(strength: Option<&(DayStrength, bool)>) -> Result<f64, &'static str> {
    match strength {
        None => Err("no season is stated for the ground"),
        Some((_, false)) => Err("the ground may thaw over frost"),
        Some((strength, true)) => Ok(strength.share),
    }
}

/// Days since noon of 1 January 2000 at an hour of a day.
fn moment(day: MonthDay, hour: f64) -> f64 {
    let index = Date::new(YEAR, day.month, day.day).map_or(0, |date| date.day_of_year() - 1);
    YEAR_STARTS + f64::from(index) + hour / 24.0
}

fn place(climate: &Climate) -> (Angle, Angle) {
    (climate.latitude.value, climate.longitude.value)
}

/// The moments at which the light of an hour is looked at.
fn moments(days: &[MonthDay], hour: u8) -> impl Iterator<Item = f64> {
    let of = move |day: &MonthDay| [0.0, 0.5, 1.0].map(|part| moment(*day, f64::from(hour) + part));
    days.iter().flat_map(of)
}

/// Whether the sun is up from the beginning to the end of an hour on each day.
fn is_light(climate: &Climate, days: &[MonthDay], hour: u8) -> bool {
    let (latitude, longitude) = place(climate);
    moments(days, hour).all(|moment| is_daylight(moment, latitude, longitude))
}

/// The warmest that an hour is reckoned with on the days of a week: the mean of
/// the month, straight between the middles of months, with the daily range as a
/// cosine of solar time, and the spread from day to day on top.
struct Warmth {
    temperature: Temperature,
    /// When it is warmest: the day, and hours UTC.
    day: MonthDay,
    hour: f64,
    /// The mean of that day and its range, K.
    mean: f64,
    range: f64,
}

impl Warmth {
    fn of(climate: &Climate, days: &[MonthDay], hour: u8) -> Self {
        let spread = climate.spread_kelvins.as_ref().map_or(0.0, |one| one.value);
        let at = |day: MonthDay, hour: f64| {
            let mean = between_months(&climate.monthly.value.map(|mean| mean.si()), day);
            let range = between_months(&climate.range_kelvins.value, day);
            let solar = hour + climate.longitude.value.si() / TAU * 24.0;
            let warmth = mean + 0.5 * range * (TAU * (solar - WARMEST_HOUR) / 24.0).cos();
            let temperature = Temperature::from_si(warmth + NINETEEN_IN_TWENTY * spread);
            Self { temperature, day, hour, mean, range }
        };
        let hours = [0.0, 0.5, 1.0].map(|part| f64::from(hour) + part);
        let all = days.iter().flat_map(|day| hours.map(|hour| at(*day, hour)));
        let warmer = |a: Self, b: Self| if b.temperature > a.temperature { b } else { a };
        all.reduce(warmer).expect("a week has days")
    }
}

/// A month, the nearer of its neighbours, and the share of the way there, at a day.
fn months_about(day: MonthDay) -> (usize, usize, f64) {
    let length = Date::new(YEAR, day.month, 1).map_or(30.0, |date| f64::from(date.days_in_month()));
    let into = (f64::from(day.day) - 0.5) / length - 0.5;
    let month = usize::try_from(day.month - 1).unwrap_or(0).min(11);
    (month, if into < 0.0 { (month + 11) % 12 } else { (month + 1) % 12 }, into.abs())
}

/// A monthly figure straight between the middles of the months.
fn between_months(monthly: &[f64; 12], day: MonthDay) -> f64 {
    let (month, other, way) = months_about(day);
    monthly[month] + way * (monthly[other] - monthly[month])
}

/// Largest masses by temperature and strength, each found once.
struct Tried<'a> {
    flight: &'a Flight,
    standing: Standing,
    found: BTreeMap<(i64, u64), [Option<MassAnswer>; 2]>,
}

impl<'a> Tried<'a> {
    fn of(flight: &'a Flight) -> Self {
        Self { flight, standing: Standing::of(flight), found: BTreeMap::new() }
    }

    fn on(
        &mut self,
        climate: &Climate,
        days: &[MonthDay],
        hour: u8,
        ground: Result<f64, &'static str>,
    ) -> YearHour {
        let dark = !is_light(climate, days, hour);
        self.hour(Warmth::of(climate, days, hour).temperature, ground, dark)
    }

    fn hour(
        &mut self,
        temperature: Temperature,
        ground: Result<f64, &'static str>,
        dark: bool,
    ) -> YearHour {
        let step = step_of(temperature);
        let of = |state, [landing, take_off]: [Option<Largest>; 2]| YearHour {
            state,
            temperature,
            landing,
            take_off,
        };
        let strength = match ground {
            _ if dark => return of(HourState::Dark, [None; 2]),
            Err(why) => {
                let planned = [self.flight.landing.is_some(), self.flight.take_off.is_some()];
                let unknown = planned.map(|is_planned| is_planned.then_some(Largest::NotKnown));
                return of(HourState::NotKnown(why), unknown);
            }
            Ok(strength) => strength,
        };
        let answers = self.answers(step, strength);
        let mut state = HourState::Works;
        for answer in answers.iter().flatten() {
            match (answer.most(), too_heavy(answer)) {
                (_, Some(limit)) => {
                    state = HourState::TooHeavy(limit.code, limit.title.clone());
                    break;
                }
                (Largest::Mass(_), None) => {}
                _ => state = HourState::NotKnown("a limit lacks data"),
            }
        }
        of(state, answers.map(|answer| answer.map(|answer| answer.most())))
    }

    fn answers(&mut self, step: f64, strength: f64) -> [Option<MassAnswer>; 2] {
        let key = (step as i64, strength.to_bits());
        if let Some(found) = self.found.get(&key) {
            return found.clone();
        }
        let flight = reckoned(self.flight, step);
        let measured =
            measure(&flight, &self.standing.with_strength(strength).without_season(), &[]);
        let found = [landing_mass, take_off_mass]
            .map(|largest| largest(&flight, &measured, Wanted::first(1)));
        self.found.insert(key, found.clone());
        found
    }
}

/// The limit that is known not to hold at the mass asked for.
fn too_heavy(answer: &MassAnswer) -> Option<&MassLimit> {
    let limit = answer.limits.first()?;
    let exceeds = |planned: Mass| limit.mass.is_none_or(|most| planned > most);
    answer.planned.is_some_and(exceeds).then_some(limit)
}

/// Steps of temperature from 0 °C, rounded up.
fn step_of(temperature: Temperature) -> f64 {
    ((temperature.si() - celsius(0.0).si()) / STEP_K - 1e-9).ceil()
}

/// The flight as an hour is reckoned: in calm air of the standard pressure.
fn reckoned(flight: &Flight, step: f64) -> Flight {
    let mut flight = flight.clone();
    let day = &mut flight.day;
    day.temperature = Some(Given::stated("temperature", celsius(step * STEP_K)));
    day.sea_level_pressure = Some(Given::stated("pressure", hectopascals(1013.25)));
    let calm = Wind { from: None, speed: Speed::from_si(0.0), gust: None, between: None };
    day.wind = Some(Given::stated("wind", calm));
    flight
}

fn months(climate: &Climate, weeks: &[YearWeek]) -> Vec<YearMonth> {
    (1..=12)
        .map(|month| {
            let of_month: Vec<&YearWeek> =
                weeks.iter().filter(|week| week.from.month == month).collect();
            let hours: Vec<&YearHour> = of_month.iter().flat_map(|week| &week.hours).collect();
            let works = hours.iter().filter(|hour| hour.state == HourState::Works).count();
            let warmth = hours.iter().map(|hour| hour.temperature.si());
            let coldest = warmth.clone().fold(f64::INFINITY, f64::min);
            let warmest = warmth.fold(f64::NEG_INFINITY, f64::max);
            let days = of_month.len().max(1) as f64;
            let masses = |of: fn(&YearHour) -> Option<Largest>| {
                let found: Vec<Largest> = hours.iter().filter_map(|hour| of(hour)).collect();
                let hours_a_day = |wanted: Largest| {
                    found.iter().filter(|one| **one == wanted).count() as f64 / days
                };
                MonthMass {
                    least: found.iter().filter_map(|one| one.mass()).reduce(Mass::min),
                    none_holds: hours_a_day(Largest::NoneHolds),
                    not_known: hours_a_day(Largest::NotKnown),
                }
            };
            let middle = MonthDay { month, day: 15 };
            YearMonth {
                month,
                daylight: day_length(moment(middle, 12.0), climate.latitude.value),
                temperatures: (kelvins(coldest), kelvins(warmest)),
                working_hours: works as f64 / days,
                masses: (masses(|hour| hour.landing), masses(|hour| hour.take_off)),
            }
        })
        .collect()
}

fn caveats(climate: &Climate) -> Vec<String> {
    let warmth = match &climate.spread_kelvins {
        Some(_) => {
            "temperatures are normals with the spread stated, so that 19 days in 20 are no warmer; \
             a day is assessed with its own report"
        }
        None => {
            "temperatures are normals: about half of the days are warmer; a day is assessed with \
             its own report (strip: climate.spread brings the sheet to 19 days in 20)"
        }
    };
    let lines = [
        warmth,
        "calm air, 1013 hPa, and the state of the surface of the day file; wind, rain and what \
         somebody finds on the day are not in it",
        "only the limits on the masses are looked at; equipment, inspections, stones and the ride \
         count as the assessment of the day says",
        "the strength of each season is the user's; a week with a day in no season, or one that \
         may thaw over frost at full strength, is not known, which is never a pass",
        "daylight is from sunrise to sunset on a level horizon; terrain, twilight and local rules \
         are not in it",
    ];
    lines.map(str::to_owned).to_vec()
}

#[cfg(test)]
mod tests {
    use super::{YEAR_STARTS, between_months, moment};
    use hardpan_model::MonthDay;

    #[test]
    fn a_monthly_figure_is_itself_in_the_middle_and_the_mean_between() {
        let monthly = [0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 50.0, 40.0, 30.0, 20.0, 10.0];
        let at = |month, day| between_months(&monthly, MonthDay { month, day });
        assert!((at(4, 15) - 30.0).abs() < 0.2);
        assert!((at(1, 1) - 5.0).abs() < 0.4 && (at(12, 31) - 5.0).abs() < 0.4);
        assert!((at(6, 30) - 55.0).abs() < 0.4);
    }

    /// 2024 began 8,765.5 days after noon of 1 January 2000.
    #[test]
    fn moments_count_from_noon_of_the_first_day_of_2000() {
        assert!((moment(MonthDay { month: 1, day: 1 }, 0.0) - YEAR_STARTS).abs() < 1e-9);
        assert!((moment(MonthDay { month: 12, day: 31 }, 12.0) - 9131.0).abs() < 1e-9);
    }
}
