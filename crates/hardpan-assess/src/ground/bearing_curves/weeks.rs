//! The weeks of the year in which a strip carries a mass, by the strength that
//! the user states for each season.

use super::{Brings, Search, StoppedBy, missing};
use crate::ground::season::{
    DayStrength, FrostByDay, frost_by_day, frost_on, stated_in, strength_on,
};
use crate::ground::{Ground, LegKind};
use crate::masses::mass_search::Grid;
use crate::measure::{Standing, measure};
use crate::measured::{Known, Measured};
use crate::repairs::weaken;
use hardpan_ground::{FrostState, RequirementTable};
use hardpan_model::{Flight, MonthDay, SurfaceState};
use hardpan_quantity::{Length, Mass, Pressure, Quantity, Ratio};
use jiff::civil::{Date, date};
use std::sync::Arc;

/// Weeks of a year; the last has a day more.
const WEEKS: usize = 52;
/// A leap year, so that 29 February is looked at.
const YEAR: i16 = 2024;
/// Its 29 February, days after 1 January; it belongs to the week before it.
const LEAP_DAY: usize = 59;

/// When a strip carries a mass of an aeroplane.
#[derive(Debug, Clone, PartialEq)]
pub struct CarryingWeeks {
    /// Name of the strip; empty when it is not stated.
    pub strip: String,
    /// Name of the aeroplane; empty when it is not stated.
    pub aeroplane: String,
    /// Each movement planned.
    pub movements: Vec<MovementWeeks>,
    /// What the reader must know.
    pub caveats: Vec<String>,
}

/// The weeks of one movement.
#[derive(Debug, Clone, PartialEq)]
pub struct MovementWeeks {
    /// `take-off` or `landing`.
    pub movement: &'static str,
    /// The mass that is asked for.
    pub mass: Mass,
    /// Main and nose tyre pressure.
    pub pressures: (Pressure, Pressure),
    /// 52 weeks from 1 January.
    pub weeks: Vec<Week>,
}

/// Seven days of every year.
#[derive(Debug, Clone, PartialEq)]
pub struct Week {
    /// First day.
    pub from: MonthDay,
    /// Last day.
    pub to: MonthDay,
    /// The ground in it; none when a day lies in no season that is stated.
    pub ground: Option<WeekGround>,
    /// Its frost; none when the strip does not state what decides it.
    pub frost: Option<WeekFrost>,
}

/// The frost of a week.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WeekFrost {
    /// None in the ground on any day.
    Thawed,
    /// Frozen from the surface, at the deepest to here.
    Frozen(Length),
    /// Thaws over frost on some day: thawed to the first depth, frozen to the
    /// second.
    Thawing(Length, Length),
    /// The ground keeps frost, or its climate is not covered.
    NotKnown,
}

/// What the ground carries in a week.
#[derive(Debug, Clone, PartialEq)]
pub struct WeekGround {
    /// The season that is weakest in it.
    pub season: String,
    /// Share of the strength sounded.
    pub share: Ratio,
    /// Whether it is known how each of its days thaws.
    pub is_known: bool,
    /// Largest mass; none when not even the lightest is carried.
    pub largest: Option<Mass>,
    /// What stops at it.
    pub stops: StoppedBy,
    /// The same while its surface is wet; none where the strip does not say.
    pub wet: Option<WetGround>,
}

/// What wet ground carries in a week.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WetGround {
    /// Share of the strength sounded.
    pub share: Ratio,
    /// Largest mass; none when not even the lightest is carried.
    pub largest: Option<Mass>,
}

impl MovementWeeks {
    /// Whether the mass is carried in a week: none when it is not known.
    #[must_use]
    pub fn carried(&self, week: &Week) -> Option<bool> {
        let ground = week.ground.as_ref()?;
        if !ground.is_known {
            return None;
        }
        let carried = ground.largest.is_some_and(|largest| self.mass <= largest);
        match &ground.stops {
            StoppedBy::Ground(place) if !carried && place.depth.is_none() => None,
            _ => Some(carried),
        }
    }
}

/// The weeks in which the strip carries a mass, or the masses planned.
///
/// # Errors
/// [`Unavailable`](crate::Unavailable) with everything that is missing.
pub fn carrying_weeks(flight: &Flight, mass: Option<Mass>) -> Known<CarryingWeeks> {
    let frost = flight.strip.frost.as_ref();
    let weakening = frost.is_some_and(|frost| frost.weakening.is_some());
    if flight.strip.seasons.is_empty() && !weakening {
        return Err(missing(
            "strip: [[season]]",
            "days and the strength that the ground then has, with its source; none is assumed",
        ));
    }
    let measured = measure(flight, &Standing::of(flight), &[]);
    let limits = &flight.aeroplane.mass;
    let mut movements = Vec::new();
    if let (Some(plan), Some(runs)) = (&flight.take_off, &measured.take_off_runs) {
        let planned = (plan.mass.as_ref(), plan.centre_of_gravity.as_ref());
        let ends = ("take-off", "take_off", limits.maximum_take_off.as_ref());
        let search = Search::new(flight, &measured, ends, planned, Brings::TakeOff(runs))?;
        movements.push(weeks(&search, &measured, mass)?);
    }
    if let (Some(plan), Some(runs)) = (&flight.landing, &measured.landing_runs) {
        let planned = (plan.mass.as_ref(), plan.centre_of_gravity.as_ref());
        let ends = ("landing", "landing", limits.maximum_landing.as_ref());
        let search = Search::new(flight, &measured, ends, planned, Brings::Landing(runs))?;
        movements.push(weeks(&search, &measured, mass)?);
    }
    if movements.is_empty() {
        return Err(missing("flight: [take_off] or [landing]", "the movement whose loads count"));
    }
    let name = |given: Option<&hardpan_model::Given<String>>| {
        given.map_or_else(String::new, |given| given.value.clone())
    };
    Ok(CarryingWeeks {
        strip: name(flight.strip.name.as_ref()),
        aeroplane: name(flight.aeroplane.name.as_ref()),
        movements,
        caveats: caveats(),
    })
}

fn caveats() -> Vec<String> {
    let lines = [
        "the strength of each season is the user's: none is published for gravel strips. A week \
         with a day in no season is not known, which is never a pass; nor is one that thaws over \
         frost in a season of full strength, nor wet ground in a season without `wet_strength`",
        "main and nose wheels that roll straight, under the loads that the movement brings with \
         the weather of the day file; braking zones and turning places are judged by G22 and G24",
        "every layer has the share of its strength: ground that thaws from the top over frost is \
         only met by a share found for it",
        "what the ground carries is no leave to use it: tyre, chart, structure, distances and \
         climb bind as the assessment says",
    ];
    lines.map(str::to_owned).to_vec()
}

fn weeks(search: &Search<'_>, measured: &Measured, mass: Option<Mass>) -> Known<MovementWeeks> {
    let mass = mass.or(search.planned).ok_or_else(|| {
        missing(&format!("flight: {}.mass", search.movement), "the mass planned, or ask for one")
    })?;
    let (_, main) = measured.main_carried.as_ref().map_err(Clone::clone)?;
    let (_, nose) = measured.nose_carried.as_ref().map_err(Clone::clone)?;
    search.loads(search.lightest).as_ref().as_ref().map_err(Clone::clone)?;
    let pressure = |tyre: &Known<crate::tyres::TyrePressure>| {
        tyre.as_ref().map(|tyre| tyre.set).map_err(Clone::clone)
    };
    let frost = frost_by_day(search.flight);
    let calendar = calendar();
    let masses: Vec<(f64, Option<Mass>, StoppedBy)> =
        shares(search.flight, frost.as_ref(), &calendar)
            .into_iter()
            .map(|share| {
                let (largest, stops) = carried(search, share, (main, nose));
                (share, largest, stops)
            })
            .collect();
    let weeks = calendar.into_iter().map(|days| {
        let weakest = weakest(search.flight, frost.as_ref(), &days);
        let ground = weakest.and_then(|(strength, is_known)| {
            let (_, largest, stops) = masses.iter().find(|row| row.0 == strength.share)?;
            let wet = wet_share(search.flight, &days, strength.share).and_then(|share| {
                let (_, largest, _) = masses.iter().find(|row| row.0 == share)?;
                Some(WetGround { share: Ratio::from_si(share), largest: *largest })
            });
            Some(WeekGround {
                wet,
                season: strength.told,
                share: Ratio::from_si(strength.share),
                is_known,
                largest: *largest,
                stops: stops.clone(),
            })
        });
        let frost = frost.as_ref().map(|year| week_frost(year, &days));
        let ends = days.first().copied().zip(days.last().copied());
        let (from, to) = ends.expect("a week has days");
        Week { from, to, ground, frost }
    });
    Ok(MovementWeeks {
        movement: search.movement,
        mass,
        pressures: (pressure(&measured.main_tyre)?, pressure(&measured.nose_tyre)?),
        weeks: weeks.collect(),
    })
}

/// The shares that the weeks have, each once.
fn shares(flight: &Flight, frost: FrostByDay<'_>, weeks: &[Vec<MonthDay>]) -> Vec<f64> {
    let mut shares = Vec::new();
    for days in weeks {
        let Some((weakest, _)) = weakest(flight, frost, days) else { continue };
        shares.push(weakest.share);
        shares.extend(wet_share(flight, days, weakest.share));
    }
    shares.sort_by(f64::total_cmp);
    shares.dedup();
    shares
}

/// The weakest of some days, and whether the thaw of each of them is known; none
/// when a day lies in no season. A day whose thaw is not known counts with its season.
pub(crate) fn weakest(
    flight: &Flight,
    frost: FrostByDay<'_>,
    days: &[MonthDay],
) -> Option<(DayStrength, bool)> {
    let mut is_known = true;
    let strengths: Option<Vec<DayStrength>> = days
        .iter()
        .map(|day| match strength_on(flight, frost, *day) {
            Ok(strength) => Some(strength),
            Err(_) => {
                is_known = false;
                strength_on(flight, None, *day).ok()
            }
        })
        .collect();
    let weakest = strengths?.into_iter().min_by(|a, b| a.share.total_cmp(&b.share))?;
    Some((weakest, is_known))
}

/// The share that wet ground has on the worst of some days, no more than the
/// weakest has in any state; none where the strip does not say for each.
fn wet_share(flight: &Flight, days: &[MonthDay], weakest: f64) -> Option<f64> {
    let of_day = |day: &MonthDay| stated_in(flight, *day, SurfaceState::Wet);
    let wet: Option<Vec<DayStrength>> = days.iter().map(of_day).collect();
    Some(wet?.into_iter().map(|wet| wet.share).fold(weakest, f64::min))
}

/// The frost of some days: thaw where one of them thaws.
pub(crate) fn week_frost(year: &Known<Vec<FrostState>>, days: &[MonthDay]) -> WeekFrost {
    let Ok(year) = year else { return WeekFrost::NotKnown };
    let mut found = WeekFrost::Thawed;
    for day in days {
        found = match (frost_on(year, *day), found) {
            (None, _) => return WeekFrost::NotKnown,
            (Some(FrostState::Thawing(thawed, frozen)), _) => WeekFrost::Thawing(thawed, frozen),
            (_, WeekFrost::Thawing(..)) => found,
            (Some(FrostState::Frozen(depth)), _) => WeekFrost::Frozen(depth),
            (Some(FrostState::Thawed), _) => found,
        };
    }
    found
}

/// Largest mass that main and nose wheels may bring to ground at a share of its
/// strength, and what stops there.
fn carried(
    search: &Search<'_>,
    share: f64,
    (main, nose): (&RequirementTable, &RequirementTable),
) -> (Option<Mass>, StoppedBy) {
    let mut ground: Ground = search.ground.clone();
    weaken(Arc::make_mut(&mut ground.lanes), share);
    let legs = [(LegKind::Main, main), (LegKind::Nose, nose)];
    let holds = |mass: Mass| {
        search.loads(mass).as_ref().as_ref().is_ok_and(|loads| {
            legs.iter().all(|(leg, table)| ground.carries(*leg, table, loads.of(*leg)))
        })
    };
    let grid = Grid::new(search.lightest, search.heaviest);
    let largest = grid.search(search.heaviest, holds);
    let beyond = match largest {
        Some(mass) if mass >= search.heaviest => return (largest, StoppedBy::End),
        Some(mass) => grid.next_above(mass),
        None => grid.lightest(),
    };
    let stops = match search.loads(beyond).as_ref() {
        Err(why) => StoppedBy::Run(why.because.clone()),
        Ok(loads) => legs
            .iter()
            .filter_map(|(leg, table)| ground.worst(*leg, table, loads.of(*leg)))
            .find(|worst| !worst.judgement.holds())
            .map_or(StoppedBy::End, |worst| StoppedBy::Ground(super::place(&worst))),
    };
    (largest, stops)
}

/// The days of each week.
pub(crate) fn calendar() -> Vec<Vec<MonthDay>> {
    let mut weeks = vec![Vec::new(); WEEKS];
    let first: Date = date(YEAR, 1, 1);
    let days = std::iter::successors(Some(first), |day| day.tomorrow().ok())
        .take_while(|day| day.year() == YEAR);
    for (index, day) in days.enumerate() {
        let of_plain_year = if index < LEAP_DAY { index } else { index - 1 };
        if let Some(week) = weeks.get_mut((of_plain_year / 7).min(WEEKS - 1)) {
            week.push(MonthDay::from(day));
        }
    }
    weeks
}
