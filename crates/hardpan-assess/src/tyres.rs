//! Tyre pressure: the least that tyre and chart allow, the greatest that the
//! ground carries, and the one to set.

use crate::ground::{Ground, LegKind};
use crate::measured::{Known, Unavailable};
use hardpan_ground::{chart_pressure, load_table_pressure, minimum_pressure};
use hardpan_model::{Flight, Given, Leg, Need, Tyre};
use hardpan_quantity::{Force, Mass, Pressure, Quantity, psi};

/// Step to which a chosen pressure is rounded up, as gauges read.
const GAUGE_STEP_PSI: f64 = 5.0;

/// What bounds the pressure of a tyre from below.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum LeastBy {
    /// The least pressure ever allowed.
    Minimum,
    /// The approved chart at the mass.
    Chart,
    /// The maker's table at the wheel load.
    Table,
    /// The rated load and pressure at the wheel load.
    Rating,
}

/// Least pressure of a tyre, and what sets it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Least {
    pub(crate) pressure: Pressure,
    pub(crate) by: LeastBy,
}

/// Pressure of one kind of tyre for the flight.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct TyrePressure {
    /// The pressure to set or that is set.
    pub(crate) set: Pressure,
    /// Where it stands, when the crew states it.
    pub(crate) given: Option<Given<Pressure>>,
    /// Least at the planned mass.
    pub(crate) least: Known<Least>,
    /// Greatest that tyre and ground allow at the planned mass; none when the
    /// ground carries it at no pressure.
    pub(crate) greatest: Known<Option<Pressure>>,
}

impl TyrePressure {
    /// The least pressure at the planned mass, up to the gauge, where it lies below the
    /// one that was chosen.
    pub(crate) fn softer(&self) -> Option<Pressure> {
        let least = rounded_up(self.least.as_ref().ok()?.pressure);
        (self.given.is_none() && least < self.set).then_some(least)
    }
}

impl LegKind {
    pub(crate) fn leg(self, flight: &Flight) -> &Leg {
        match self {
            Self::Main => &flight.aeroplane.gear.main,
            Self::Nose => &flight.aeroplane.gear.nose,
        }
    }

    pub(crate) fn key(self) -> &'static str {
        match self {
            Self::Main => "gear.main",
            Self::Nose => "gear.nose",
        }
    }

    /// Key of a flight that states its pressure.
    pub(crate) const fn pressure_key(self) -> &'static str {
        match self {
            Self::Main => "main_tyre_pressure",
            Self::Nose => "nose_tyre_pressure",
        }
    }

    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Main => "main",
            Self::Nose => "nose",
        }
    }

    /// Pressure that the crew states.
    pub(crate) fn given(self, flight: &Flight) -> Option<&Given<Pressure>> {
        match self {
            Self::Main => flight.main_tyre_pressure.as_ref(),
            Self::Nose => flight.nose_tyre_pressure.as_ref(),
        }
    }

    pub(crate) fn given_mut(self, flight: &mut Flight) -> &mut Option<Given<Pressure>> {
        match self {
            Self::Main => &mut flight.main_tyre_pressure,
            Self::Nose => &mut flight.nose_tyre_pressure,
        }
    }
}

/// Load of one wheel of a leg.
pub(crate) fn wheel_load(leg: &Leg, leg_load: Force) -> Option<Force> {
    leg.wheels.as_ref().map(|wheels| leg_load / f64::from(wheels.value.max(1)))
}

/// Least pressure at a mass with the leg load that it brings: the approved
/// chart where there is one, else the maker's table at that load, else what the
/// rating asks there; in any case not below the tyre's own minimum.
pub(crate) fn least(flight: &Flight, kind: LegKind, mass: Mass, load: Force) -> Known<Least> {
    let (leg, key) = (kind.leg(flight), kind.key());
    let tyre = &leg.tyre;
    let (pressure, by) = if !tyre.chart.is_empty() {
        (chart_pressure(&tyre.chart, mass)?, LeastBy::Chart)
    } else if !tyre.load_table.is_empty() {
        (by_table(leg, key, load)?, LeastBy::Table)
    } else {
        (rating(leg, key, load)?, LeastBy::Rating)
    };
    Ok(match &tyre.minimum_pressure {
        Some(minimum) if minimum.value > pressure => {
            Least { pressure: minimum.value, by: LeastBy::Minimum }
        }
        _ => Least { pressure, by },
    })
}

fn by_table(leg: &Leg, key: &str, load: Force) -> Known<Pressure> {
    let Some(wheel) = wheel_load(leg, load) else {
        let what = format!("aeroplane: {key}.wheels");
        let needs = vec![Need { what, how: "wheels of one leg".to_owned() }];
        return Err(Unavailable::missing("the least tyre pressure", needs));
    };
    Ok(load_table_pressure(&leg.tyre.load_table, wheel)?)
}

/// The least pressure that the tables of a tyre begin with.
pub(crate) fn first_of_tables(tyre: &Tyre) -> Option<Pressure> {
    let chart = tyre.chart.first().map(|row| row.pressure.value);
    chart.or_else(|| tyre.load_table.first().map(|row| row.pressure.value))
}

fn rating(leg: &Leg, key: &str, load: Force) -> Known<Pressure> {
    let Tyre { rated_load, rated_pressure, .. } = &leg.tyre;
    let wheel = wheel_load(leg, load);
    let (Some(rated_load), Some(rated_pressure), Some(wheel)) = (rated_load, rated_pressure, wheel)
    else {
        let rows = [
            (rated_load.is_none(), "tyre.rated_load"),
            (rated_pressure.is_none(), "tyre.rated_pressure"),
            (wheel.is_none(), "wheels"),
        ];
        let needs = rows.iter().filter(|row| row.0).map(|row| Need {
            what: format!("aeroplane: {key}.{}", row.1),
            how: "from the tyre maker".to_owned(),
        });
        return Err(Unavailable::missing("the least tyre pressure", needs.collect()));
    };
    Ok(minimum_pressure(wheel, rated_load.value, rated_pressure.value)?)
}

/// The pressure to set: the crew's where it is stated; else the highest of the
/// tyre where the ground carries it; else the least allowed, rounded up to the
/// gauge. The tyre is rated for its standing load; the ground carries the
/// greatest of the runs.
pub(crate) fn choose(
    flight: &Flight,
    kind: LegKind,
    mass: Mass,
    (standing, on_ground): (Force, Option<Force>),
    ground: &Known<Ground>,
) -> Known<TyrePressure> {
    let leg = kind.leg(flight);
    let least = least(flight, kind, mass, standing);
    let highest = highest(leg, kind.key());
    let greatest = match (ground, &least, &highest) {
        (Ok(ground), Ok(least), Ok(highest)) => {
            let load = on_ground.unwrap_or(standing);
            greatest_carried(ground, kind, load, least.pressure, *highest)
        }
        (Err(why), ..) | (_, Err(why), _) | (.., Err(why)) => Err(why.clone()),
    };
    if let Some(given) = kind.given(flight) {
        let (set, given) = (given.value, Some(given.clone()));
        return Ok(TyrePressure { set, given, least, greatest });
    }
    let floor = least.clone()?.pressure;
    let top = highest?;
    let set = match &greatest {
        Ok(Some(carried)) if *carried >= top => top,
        Ok(Some(carried)) => rounded_up(floor).min(carried.max(floor)),
        Ok(None) => floor,
        Err(_) => top,
    };
    Ok(TyrePressure { set, given: None, least, greatest })
}

/// A main tyre pressure that is no less than the one set for a planned standing
/// load, nor than the least that a greater mass with its load asks for: known
/// before the runs are.
pub(crate) fn no_less_than_set(
    flight: &Flight,
    (mass, load): (Mass, Force),
    planned: Force,
    ground: &Ground,
) -> Option<Pressure> {
    let kind = LegKind::Main;
    if let Some(given) = kind.given(flight) {
        return Some(given.value);
    }
    let top = highest(kind.leg(flight), kind.key()).ok()?;
    let table = ground.requirement(kind, top).ok()?;
    let loads = vec![planned; ground.stations().len()];
    match least(flight, kind, mass, load) {
        Ok(least) if !ground.carries(kind, &table, &loads) => {
            Some(rounded_up(least.pressure).min(top.max(least.pressure)))
        }
        _ => Some(top),
    }
}

/// The least main tyre pressure at a mass with its standing load of a leg.
pub(crate) fn least_for(flight: &Flight, mass: Mass, load: Force) -> Option<Pressure> {
    Some(least(flight, LegKind::Main, mass, load).ok()?.pressure)
}

/// The highest pressure that a tyre may have.
pub(crate) fn highest(leg: &Leg, key: &str) -> Known<Pressure> {
    let tyre = &leg.tyre;
    let given = tyre.maximum_pressure.as_ref().or(tyre.rated_pressure.as_ref());
    given.map(|given| given.value).ok_or_else(|| {
        Unavailable::missing(
            "the tyre pressure",
            vec![Need {
                what: format!("aeroplane: {key}.tyre.maximum_pressure"),
                how: "from the tyre maker or the approved manual".to_owned(),
            }],
        )
    })
}

fn greatest_carried(
    ground: &Ground,
    kind: LegKind,
    load: Force,
    low: Pressure,
    high: Pressure,
) -> Known<Option<Pressure>> {
    if low > high {
        return Ok(None);
    }
    ground.largest_pressure(kind, load, low, high)
}

fn rounded_up(pressure: Pressure) -> Pressure {
    let steps = (pressure.si() / psi(GAUGE_STEP_PSI).si() - 1e-9).ceil();
    psi(steps * GAUGE_STEP_PSI)
}

#[cfg(test)]
mod tests {
    use super::rounded_up;
    use hardpan_quantity::{Quantity, psi};

    #[test]
    fn pressures_round_up_to_the_gauge() {
        for (from, to) in [(90.1, 95.0), (95.0, 95.0), (95.01, 100.0)] {
            assert!((rounded_up(psi(from)).si() - psi(to).si()).abs() < 1e-6);
        }
    }
}
