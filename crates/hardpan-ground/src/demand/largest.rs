//! How much load, or how much tyre pressure, does the ground carry?
//!
//! Points of a strip → [`LoadLimit`] or [`PressureLimit`]: the largest value
//! at which every point is known to hold, where the limit lies and what sets it.

use crate::demand::greatest_load::GreatestLoad;
use crate::demand::judge::{PointJudgement, judge_point, point_carries};
use crate::{EquivalentLoads, Error, RequirementTable};
use hardpan_math::largest_holding;
use hardpan_model::StrengthPoint;
use hardpan_quantity::{Force, Length, Pressure, Quantity};

/// Least leg load of the search, newtons.
const LIGHTEST_N: f64 = 100.0;
/// Greatest leg load of the search, newtons.
const HEAVIEST_N: f64 = 2e6;

/// What sets a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitedBy {
    /// The ground would not carry more.
    Strength,
    /// The ground is not known deep enough for more.
    KnownDepth,
    /// Nothing is known there.
    NothingKnown,
    /// Nothing within the range searched.
    SearchEnd,
}

/// Largest leg load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadLimit {
    /// The load, within 1 N below the limit; zero when not even 100 N is
    /// known to be carried.
    pub load: Force,
    /// Where the limit lies.
    pub station: Length,
    /// What sets it.
    pub by: LimitedBy,
}

/// Largest tyre pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PressureLimit {
    /// The pressure, within 10 Pa below the limit; none when not even the
    /// least pressure holds.
    pub pressure: Option<Pressure>,
    /// Where the limit lies.
    pub station: Length,
    /// What sets it.
    pub by: LimitedBy,
}

fn limited_by(judgement: &PointJudgement) -> LimitedBy {
    match judgement {
        PointJudgement::Known(_) => LimitedBy::Strength,
        PointJudgement::Unknown(unknown) if unknown.so_far.is_some() => LimitedBy::KnownDepth,
        PointJudgement::Unknown(_) => LimitedBy::NothingKnown,
    }
}

/// Largest load of one leg, up to 2 MN, that every point is known to carry;
/// none without points.
pub fn largest_leg_load<'a>(
    points: impl IntoIterator<Item = &'a StrengthPoint>,
    table: &RequirementTable,
) -> Option<LoadLimit> {
    let mut limit: Option<LoadLimit> = None;
    for point in points {
        let holds = |load: f64| judge_point(point, table, Force::from_si(load)).holds();
        let bound = limit.map_or(HEAVIEST_N, |limit| limit.load.si());
        if limit.is_some() && (bound <= 0.0 || holds(bound)) {
            continue;
        }
        let load = largest_holding(holds, LIGHTEST_N, bound.max(LIGHTEST_N), 1.0).unwrap_or(0.0);
        let by = if load >= HEAVIEST_N {
            LimitedBy::SearchEnd
        } else {
            let beyond = Force::from_si((load + 1.0).max(LIGHTEST_N));
            limited_by(&judge_point(point, table, beyond))
        };
        limit = Some(LoadLimit { load: Force::from_si(load), station: point.station, by });
    }
    limit
}

/// Largest tyre pressure between `low` and `high` at which every point is
/// known to carry a leg load, for one number of coverages; none without points.
///
/// # Errors
/// [`Error::NotPositive`] for a pressure or coverages that are not above zero,
/// [`Error::OutOfRange`] when `low` is above `high`.
pub fn largest_pressure<'a>(
    points: impl IntoIterator<Item = &'a StrengthPoint>,
    loads: &EquivalentLoads,
    coverages: f64,
    leg_load: Force,
    (low, high): (Pressure, Pressure),
) -> Result<Option<PressureLimit>, Error> {
    let greatest = RequirementTable::new(loads, high, coverages)?;
    let least = RequirementTable::new(loads, low, coverages)?;
    let (low, high) = (low.si(), high.si());
    crate::error::within("least pressure of the search", "Pa", low, 0.0, high)?;
    let mut limit: Option<PressureLimit> = None;
    let mut bound = greatest;
    let mut points = points.into_iter().peekable();
    let first = points.peek().map(|point| point.station);
    loop {
        let mut carried = GreatestLoad::of(&bound, &[leg_load]);
        let too_weak = points.find_map(|point| {
            if carried.used_at_most(point).is_some() {
                return None;
            }
            let judged = judge_point(point, &bound, leg_load);
            (!judged.holds()).then(|| (point, limited_by(&judged)))
        });
        let Some((point, by)) = too_weak else { break };
        let station = point.station;
        if !point_carries(point, &least, leg_load) {
            return Ok(Some(PressureLimit { pressure: None, station, by }));
        }
        let carries = |pressure| {
            let table = bound.at_pressure(pressure);
            table.is_some_and(|table| point_carries(point, &table, leg_load))
        };
        let found = largest_holding(carries, low, bound.pressure().si(), 10.0).unwrap_or(low);
        bound = RequirementTable::new(loads, Pressure::from_si(found), coverages)?;
        limit = Some(PressureLimit { pressure: Some(Pressure::from_si(found)), station, by });
    }
    let all_carry = |station| PressureLimit {
        pressure: Some(Pressure::from_si(high)),
        station,
        by: LimitedBy::SearchEnd,
    };
    Ok(limit.or_else(|| first.map(all_carry)))
}
