//! Largest masses of a flight over a range of days: by temperature, wind along
//! the movement, tyre pressure and state of the surface.

mod cell;
mod place;
mod shared_out;

pub use place::flight_of_place;

use crate::assessment::Identity;
use crate::figures::identity;
use crate::masses::sheet::shared_out::{Places, found_by_all};
use hardpan_model::{Direction, Flight, Given, Origin, SurfaceState, Verdict, Wind};
use hardpan_quantity::{Angle, Mass, Pressure, Quantity, Speed, Temperature};
use std::f64::consts::PI;

/// What is varied; an empty list leaves the flight as it is.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SheetAxes {
    /// Outside temperatures, one row each.
    pub temperatures: Vec<Temperature>,
    /// Headwinds along the movement, negative for tailwinds, one column each.
    pub headwinds: Vec<Speed>,
    /// Main tyre pressures.
    pub pressures: Vec<Pressure>,
    /// States of the surface.
    pub states: Vec<SurfaceState>,
    /// Air pressures, reduced to sea level.
    pub air_pressures: Vec<Pressure>,
    /// Which flap settings are tried.
    pub flaps: FlapsTried,
}

/// Which flap settings a sheet tries.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum FlapsTried {
    /// The one that the flight plans.
    #[default]
    AsPlanned,
    /// Every one that the aeroplane file allows for the movement; each place
    /// takes the one with the greatest mass.
    Best,
}

/// Which movement a panel is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SheetMovement {
    /// The take-off.
    TakeOff,
    /// The landing.
    Landing,
}

/// Largest masses over a range of days.
#[derive(Debug, Clone, PartialEq)]
pub struct MassSheet {
    /// Who and where; date and state are those of the flight.
    pub identity: Identity,
    /// Rows.
    pub temperatures: Vec<Temperature>,
    /// Columns.
    pub headwinds: Vec<Speed>,
    /// Which flap settings were tried.
    pub flaps: FlapsTried,
    /// One panel for each movement, state, tyre pressure and air pressure.
    pub panels: Vec<MassPanel>,
}

/// One movement at one pressure in one state of the surface.
#[derive(Debug, Clone, PartialEq)]
pub struct MassPanel {
    /// Which movement.
    pub movement: SheetMovement,
    /// State of the surface; none when nobody stated it.
    pub state: Option<SurfaceState>,
    /// Main tyre pressure; none where the least that each mass allows is set.
    pub pressure: Option<Pressure>,
    /// Air pressure, reduced to sea level; none when nobody stated it.
    pub air_pressure: Option<Pressure>,
    /// Mass planned.
    pub planned: Option<Mass>,
    /// By temperature, then by wind.
    pub rows: Vec<Vec<MassCell>>,
}

/// The largest mass in one place of a panel.
#[derive(Debug, Clone, PartialEq)]
pub struct MassCell {
    /// Largest mass at which every safety check holds; none if none does or if
    /// something is missing.
    pub mass: Option<Mass>,
    /// Verdict of the whole at that mass; without a mass, why there is none.
    pub verdict: Verdict,
    /// Code of the check that limits, fails or is unproven, and what it checks.
    pub by: Option<(&'static str, String)>,
    /// Flap setting that it is for.
    pub flap: Option<String>,
    /// Decision speed at that mass; none for a landing or without a mass.
    pub decision: Option<Speed>,
}

impl SheetMovement {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::TakeOff => "take-off",
            Self::Landing => "landing",
        }
    }
}

/// Largest masses of each planned movement over a range of days; `done` is
/// called after each cell with how many are done and how many there are.
///
/// The wind blows straight along the movement, without gusts. Everything that
/// is not varied is as the flight has it. The places are shared out over the
/// processors; what stands in them does not depend on how many there are.
#[must_use]
pub fn mass_sheet(
    flight: &Flight,
    axes: &SheetAxes,
    mut done: impl FnMut(usize, usize),
) -> MassSheet {
    let temperatures = match (&axes.temperatures[..], &flight.day.temperature) {
        ([], Some(given)) => vec![given.value],
        _ => axes.temperatures.clone(),
    };
    let headwinds = match axes.headwinds[..] {
        [] => vec![Speed::from_si(0.0)],
        _ => axes.headwinds.clone(),
    };
    let panels = planned_panels(flight, axes);
    let places = Places {
        flight,
        panels: &panels,
        temperatures: &temperatures,
        headwinds: &headwinds,
        flaps: axes.flaps,
    };
    let cells = found_by_all(&places, &mut done);
    let mut rows = cells.chunks(headwinds.len()).map(<[MassCell]>::to_vec);
    let panels = panels.iter().map(|panel| MassPanel {
        movement: panel.movement,
        state: panel.state,
        pressure: panel.pressure,
        air_pressure: panel.air_pressure,
        planned: planned(flight, panel.movement),
        rows: rows.by_ref().take(temperatures.len()).collect(),
    });
    let panels = panels.collect();
    MassSheet { identity: identity(flight), temperatures, headwinds, flaps: axes.flaps, panels }
}

/// What one panel is for, and the flight with just that.
struct Planned {
    movement: SheetMovement,
    state: Option<SurfaceState>,
    pressure: Option<Pressure>,
    air_pressure: Option<Pressure>,
    alone: Flight,
}

fn planned_panels(flight: &Flight, axes: &SheetAxes) -> Vec<Planned> {
    let movements = [
        flight.take_off.as_ref().map(|_| SheetMovement::TakeOff),
        flight.landing.as_ref().map(|_| SheetMovement::Landing),
    ];
    let states = or_as_stated(&axes.states, flight.day.surface_state.as_ref());
    let pressures = or_as_stated(&axes.pressures, flight.main_tyre_pressure.as_ref());
    let air_pressures = or_as_stated(&axes.air_pressures, flight.day.sea_level_pressure.as_ref());
    let mut panels = Vec::new();
    for movement in movements.into_iter().flatten() {
        for state in &states {
            for pressure in &pressures {
                for air_pressure in &air_pressures {
                    let (state, pressure, air_pressure) = (*state, *pressure, *air_pressure);
                    let alone = of_one_movement(flight, movement, state, (pressure, air_pressure));
                    panels.push(Planned { movement, state, pressure, air_pressure, alone });
                }
            }
        }
    }
    panels
}

fn or_as_stated<T: Copy>(wanted: &[T], stated: Option<&Given<T>>) -> Vec<Option<T>> {
    if wanted.is_empty() {
        return vec![stated.map(|given| given.value)];
    }
    wanted.iter().copied().map(Some).collect()
}

fn planned(flight: &Flight, movement: SheetMovement) -> Option<Mass> {
    let mass = match movement {
        SheetMovement::TakeOff => flight.take_off.as_ref()?.mass.as_ref(),
        SheetMovement::Landing => flight.landing.as_ref()?.mass.as_ref(),
    };
    mass.map(|given| given.value)
}

/// A value that the sheet sets in place of what the flight states.
fn set<T>(old: Option<&Given<T>>, key: &str, value: T) -> Given<T> {
    let origin = old.map_or_else(
        || Origin { file: "the sheet of masses".into(), line: 0, column: 0, key: key.into() },
        |given| given.origin.clone(),
    );
    Given { value, origin, source: None }
}

fn of_one_movement(
    flight: &Flight,
    movement: SheetMovement,
    state: Option<SurfaceState>,
    (pressure, air_pressure): (Option<Pressure>, Option<Pressure>),
) -> Flight {
    let mut alone = flight.clone();
    match movement {
        SheetMovement::TakeOff => alone.landing = None,
        SheetMovement::Landing => alone.take_off = None,
    }
    if let Some(state) = state {
        alone.day.surface_state =
            Some(set(flight.day.surface_state.as_ref(), "surface_state", state));
    }
    if let Some(pressure) = pressure {
        let key = "main_tyre_pressure";
        alone.main_tyre_pressure = Some(set(flight.main_tyre_pressure.as_ref(), key, pressure));
    }
    if let Some(pressure) = air_pressure {
        let (day, key) = (&mut alone.day, "sea_level_pressure");
        day.sea_level_pressure = Some(set(flight.day.sea_level_pressure.as_ref(), key, pressure));
    }
    alone
}

fn on_a_day(
    flight: &Flight,
    movement: SheetMovement,
    temperature: Temperature,
    headwind: Speed,
) -> Flight {
    let mut on = flight.clone();
    on.day.temperature = Some(set(flight.day.temperature.as_ref(), "temperature", temperature));
    let direction = match movement {
        SheetMovement::TakeOff => flight.take_off.as_ref().and_then(|plan| plan.direction.as_ref()),
        SheetMovement::Landing => flight.landing.as_ref().and_then(|plan| plan.direction.as_ref()),
    };
    let bearing = flight.strip.bearing.as_ref().map(|given| given.value.si());
    let from = bearing.zip(direction).map(|(bearing, direction)| {
        let course = if direction.value == Direction::Up { bearing } else { bearing + PI };
        let from = if headwind.si() < 0.0 { course + PI } else { course };
        Angle::from_si(from.rem_euclid(2.0 * PI))
    });
    let speed = Speed::from_si(headwind.si().abs());
    let wind = Wind { from, speed, gust: None, between: None };
    on.day.wind = Some(set(flight.day.wind.as_ref(), "wind", wind));
    on
}
