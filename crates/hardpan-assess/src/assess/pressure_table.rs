//! What each main tyre pressure allows: the table of pressure against mass.

use crate::assessment::{PressureRow, TyreAnswer};
use crate::ground::loads::{at_least, brought};
use crate::ground::{LegKind, StationLoads};
use crate::masses::lightest;
use crate::masses::mass_search::Grid;
use crate::measured::{Known, Measured};
use crate::runs::{Case, Runs};
use crate::tyres::{first_of_tables, least};
use hardpan_model::Flight;
use hardpan_quantity::{Mass, Pressure, Quantity, Ratio, psi};
use rayon::prelude::*;

/// Step of the table.
const STEP_PSI: f64 = 10.0;
/// Most rows.
const ROWS: usize = 24;

/// The tyre answer of a flight.
pub(crate) fn tyre_answer(flight: &Flight, measured: &Measured) -> TyreAnswer {
    let tyre = match &measured.main_tyre {
        Ok(tyre) => tyre,
        Err(why) => return TyreAnswer { because: why.because.clone(), ..TyreAnswer::default() },
    };
    let because = match (&tyre.given, &tyre.greatest) {
        (Some(_), _) => "set by the crew",
        (None, Ok(Some(_))) if greatest(flight).is_some_and(|greatest| tyre.set >= greatest) => {
            "the greatest that the tyre allows; the ground carries it"
        }
        (None, Ok(Some(carried))) if *carried <= tyre.set => {
            "the greatest that the ground carries, close to the least that the tyre allows"
        }
        (None, Ok(Some(_))) => "the least that the tyre allows, because the ground is soft",
        (None, Ok(None)) => "the least that the tyre allows; the ground does not carry it",
        (None, Err(_)) => "the greatest that the tyre allows; the ground is not known",
    };
    TyreAnswer {
        set: Some(tyre.set),
        because: because.to_owned(),
        least: tyre.least.as_ref().ok().map(|least| least.pressure),
        greatest: tyre.greatest.as_ref().ok().copied().flatten(),
        table: table(flight, measured).unwrap_or_default(),
    }
}

fn table(flight: &Flight, measured: &Measured) -> Option<Vec<PressureRow>> {
    let mass = &flight.aeroplane.mass;
    if let (Some(plan), Some(runs)) = (&flight.take_off, &measured.take_off_runs) {
        let centre = plan.centre_of_gravity.as_ref()?.value;
        return Search { flight, measured, centre, runs }
            .rows(mass.maximum_take_off.as_ref()?.value);
    }
    let centre = flight.landing.as_ref()?.centre_of_gravity.as_ref()?.value;
    let runs = measured.landing_runs.as_ref()?;
    Search { flight, measured, centre, runs }.rows(mass.maximum_landing.as_ref()?.value)
}

/// The greatest pressure of the main tyre.
fn greatest(flight: &Flight) -> Option<Pressure> {
    let tyre = &flight.aeroplane.gear.main.tyre;
    tyre.maximum_pressure.as_ref().or(tyre.rated_pressure.as_ref()).map(|given| given.value)
}

/// Every step of pressure that the tyre may have.
fn pressures(flight: &Flight) -> Option<Vec<Pressure>> {
    let tyre = &flight.aeroplane.gear.main.tyre;
    let chart = first_of_tables(tyre);
    let low = tyre.minimum_pressure.as_ref().map(|given| given.value).or(chart)?;
    let high = greatest(flight)?;
    let step = psi(STEP_PSI);
    let first = (low.si() / step.si() - 1e-9).ceil();
    let rising = (0..ROWS).map(|index| step * (first + index as f64));
    Some(rising.take_while(|pressure| *pressure <= high).collect())
}

/// The governing movement: the take-off where one is planned.
struct Search<'a, C: Case> {
    flight: &'a Flight,
    measured: &'a Measured,
    centre: Ratio,
    runs: &'a Runs<C>,
}

impl<C: Case> Search<'_, C> {
    fn rows(&self, maximum: Mass) -> Option<Vec<PressureRow>> {
        let rows = pressures(self.flight)?.into_par_iter().map(|pressure| PressureRow {
            pressure,
            ground: self.ground(pressure, maximum).ok().flatten(),
            tyre: self.tyre(pressure, maximum).ok().flatten(),
        });
        Some(rows.collect())
    }

    fn grid(&self, maximum: Mass) -> Grid {
        Grid::new(lightest(self.flight, maximum).min(maximum), maximum)
    }

    /// Largest mass that tyre and chart allow.
    fn tyre(&self, pressure: Pressure, maximum: Mass) -> Known<Option<Mass>> {
        let arms = self.measured.arms.as_ref().map_err(Clone::clone)?;
        Ok(self.grid(maximum).search(maximum, |mass| {
            arms.standing(mass, self.centre).is_ok_and(|standing| {
                least(self.flight, LegKind::Main, mass, standing.main_leg)
                    .is_ok_and(|least| least.pressure <= pressure)
            })
        }))
    }

    /// Largest mass that the ground carries under the main wheels.
    fn ground(&self, pressure: Pressure, maximum: Mass) -> Known<Option<Mass>> {
        let ground = self.measured.ground.as_ref().map_err(Clone::clone)?;
        let arms = self.measured.arms.as_ref().map_err(Clone::clone)?;
        let table = ground.requirement(LegKind::Main, pressure)?;
        let carries =
            |loads: &StationLoads| ground.carries(LegKind::Main, &table, loads.of(LegKind::Main));
        let at_rest = |mass| {
            let standing = arms.standing(mass, self.centre);
            standing.is_ok_and(|standing| carries(&at_least(self.flight, ground, standing)))
        };
        let on_the_run = |mass| {
            let loads = brought(self.flight, self.measured, self.runs, (mass, self.centre));
            loads.as_ref().as_ref().is_ok_and(carries)
        };
        Ok(self.grid(maximum).search_within(maximum, at_rest, on_the_run))
    }
}
