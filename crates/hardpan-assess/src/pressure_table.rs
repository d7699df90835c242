//! What each main tyre pressure allows: the table of pressure against mass.

use crate::assessment::{PressureRow, TyreAnswer};
use crate::ground::LegKind;
use crate::loads::station_loads;
use crate::mass_search::Grid;
use crate::masses::lightest;
use crate::measured::{Known, Measured};
use crate::runs::{landing_runs, landing_traces, take_off_runs, take_off_traces};
use crate::tyres::least;
use hardpan_model::{Flight, RunTrace};
use hardpan_quantity::{Mass, Pressure, Quantity, Ratio, psi};

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
        (None, Ok(Some(carried))) if *carried <= tyre.set => {
            "the greatest that the tyre allows; the ground carries it"
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

/// Traces of the governing movement at a mass: the take-off where one is planned.
type Traces<'a> = Box<dyn Fn(Mass) -> Known<Vec<RunTrace>> + 'a>;

fn table(flight: &Flight, measured: &Measured) -> Option<Vec<PressureRow>> {
    let (centre, maximum, traces): (Ratio, Mass, Traces<'_>) =
        match (&flight.take_off, &measured.take_off_case) {
            (Some(plan), Some(case)) => {
                let runs = take_off_runs(case);
                let maximum = flight.aeroplane.mass.maximum_take_off.as_ref()?.value;
                let traces = move |mass| runs.at(mass, take_off_traces);
                (plan.centre_of_gravity.as_ref()?.value, maximum, Box::new(traces))
            }
            _ => {
                let plan = flight.landing.as_ref()?;
                let runs = landing_runs(measured.landing_case.as_ref()?);
                let maximum = flight.aeroplane.mass.maximum_landing.as_ref()?.value;
                let traces = move |mass| runs.at(mass, landing_traces);
                (plan.centre_of_gravity.as_ref()?.value, maximum, Box::new(traces))
            }
        };
    let lightest = lightest(flight, maximum);
    let search = Search { flight, measured, centre, lightest, maximum, traces };
    let rows = pressures(flight)?.into_iter().map(|pressure| PressureRow {
        pressure,
        ground: search.ground(pressure).ok().flatten(),
        tyre: search.tyre(pressure).ok().flatten(),
    });
    Some(rows.collect())
}

/// Every step of pressure that the tyre may have.
fn pressures(flight: &Flight) -> Option<Vec<Pressure>> {
    let tyre = &flight.aeroplane.gear.main.tyre;
    let chart = tyre.chart.first().map(|row| row.pressure.value);
    let low = tyre.minimum_pressure.as_ref().map(|given| given.value).or(chart)?;
    let high = tyre.maximum_pressure.as_ref().or(tyre.rated_pressure.as_ref())?.value;
    let step = psi(STEP_PSI);
    let first = (low.si() / step.si() - 1e-9).ceil();
    let rising = (0..ROWS).map(|index| step * (first + index as f64));
    Some(rising.take_while(|pressure| *pressure <= high).collect())
}

struct Search<'a> {
    flight: &'a Flight,
    measured: &'a Measured,
    centre: Ratio,
    lightest: Mass,
    maximum: Mass,
    traces: Traces<'a>,
}

impl Search<'_> {
    fn largest(&self, holds: impl Fn(Mass) -> bool) -> Option<Mass> {
        Grid::new(self.lightest.min(self.maximum), self.maximum).search(self.maximum, holds)
    }

    /// Largest mass that tyre and chart allow.
    fn tyre(&self, pressure: Pressure) -> Known<Option<Mass>> {
        let arms = self.measured.arms.as_ref().map_err(Clone::clone)?;
        Ok(self.largest(|mass| {
            arms.standing(mass, self.centre).is_ok_and(|standing| {
                least(self.flight, LegKind::Main, mass, standing.main_leg)
                    .is_ok_and(|least| least.pressure <= pressure)
            })
        }))
    }

    /// Largest mass that the ground carries under the main wheels.
    fn ground(&self, pressure: Pressure) -> Known<Option<Mass>> {
        let ground = self.measured.ground.as_ref().map_err(Clone::clone)?;
        let arms = self.measured.arms.as_ref().map_err(Clone::clone)?;
        let table = ground.requirement(LegKind::Main, pressure)?;
        let stations = ground.stations();
        let taxi = self.flight.taxi.as_deref();
        Ok(self.largest(|mass| {
            let (Ok(standing), Ok(traces)) =
                (arms.standing(mass, self.centre), (self.traces)(mass))
            else {
                return false;
            };
            let runs: Vec<&RunTrace> = traces.iter().collect();
            let loads = station_loads(&stations, standing, taxi, &runs);
            ground.carries(LegKind::Main, &table, loads.of(LegKind::Main))
        }))
    }
}
