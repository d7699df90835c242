//! What a strip carries of an aeroplane: the largest mass by tyre pressure and
//! the largest pressure by mass, for numbers of passes.
//!
//! Both by bracketing on the judgement of G20, with the loads that the
//! movement brings to each station. Not part of an assessment, since it
//! searches many masses.

pub(crate) mod weeks;

pub use weeks::{
    CarryingWeeks, MovementWeeks, Week, WeekFrost, WeekGround, WetGround, carrying_weeks,
};

use crate::ground::loads::brought;
use crate::ground::{Ground, LegKind, StationLoads, Worst};
use crate::masses::lightest;
use crate::masses::mass_search::Grid;
use crate::measure::{Standing, measure};
use crate::measured::{Known, Measured, Unavailable};
use crate::movements::{LandingCase, TakeOffCase};
use crate::runs::Runs;
use crate::tyres::{first_of_tables, least};
use hardpan_ground::{FEWEST_COVERAGES, MOST_COVERAGES, PointJudgement, RequirementTable};
use hardpan_math::largest_holding;
use hardpan_model::{Flight, Given, Lane, Need};
use hardpan_quantity::{Length, Mass, Pressure, Quantity, Ratio, kilograms, psi};
use std::sync::Arc;

/// Numbers of passes where no others are asked for.
pub const CURVE_PASSES: [f64; 4] = [1.0, 10.0, 100.0, 1000.0];
/// Step of the pressures of a curve.
const STEP_PSI: f64 = 10.0;
/// Most pressures of a curve.
const MOST_PRESSURES: usize = 40;
/// Masses for which a pressure is looked for.
const MASSES: usize = 9;
/// Masses between the ends are rounded to this.
const MASS_STEP_KG: f64 = 500.0;
/// Width of the bracket of a pressure, pascals.
const PRESSURE_WIDTH_PA: f64 = 100.0;

/// What a strip carries of an aeroplane under its main wheels.
#[derive(Debug, Clone, PartialEq)]
pub struct BearingCurves {
    /// Name of the strip; empty when it is not stated.
    pub strip: String,
    /// Name of the aeroplane; empty when it is not stated.
    pub aeroplane: String,
    /// Each movement planned.
    pub movements: Vec<MovementCurves>,
    /// What the reader must know.
    pub caveats: Vec<String>,
}

/// The curves of one movement.
#[derive(Debug, Clone, PartialEq)]
pub struct MovementCurves {
    /// `take-off` or `landing`.
    pub movement: &'static str,
    /// The mass planned.
    pub planned: Option<Mass>,
    /// Lightest and heaviest mass searched.
    pub masses: (Mass, Mass),
    /// Largest mass that tyre and approved chart allow, by rising pressure:
    /// none when not even the lightest, or why it is not known.
    pub tyre: Known<Vec<(Pressure, Option<Mass>)>>,
    /// One curve for each number of passes, as asked for.
    pub curves: Vec<BearingCurve>,
}

/// One number of passes.
#[derive(Debug, Clone, PartialEq)]
pub struct BearingCurve {
    /// Passes.
    pub passes: f64,
    /// Coverages that they make of the busiest point.
    pub coverages: f64,
    /// Coverages counted: not fewer than the criterion is known for.
    pub counted: f64,
    /// Largest mass by rising pressure.
    pub by_pressure: Vec<BearingPoint<Pressure, Mass>>,
    /// Largest pressure by rising mass.
    pub by_mass: Vec<BearingPoint<Mass, Pressure>>,
}

/// The largest of one quantity at another, and what sets it.
#[derive(Debug, Clone, PartialEq)]
pub struct BearingPoint<At, Found> {
    /// Pressure or mass.
    pub at: At,
    /// Largest mass or pressure; none when not even the least is carried.
    pub largest: Option<Found>,
    /// What stops at it.
    pub stops: StoppedBy,
}

/// What stops at the largest mass or pressure.
#[derive(Debug, Clone, PartialEq)]
pub enum StoppedBy {
    /// This place gives first beyond it.
    Ground(GivingPlace),
    /// Nothing gives: it is the end of the range, which structure or tyre sets.
    End,
    /// The movement cannot be made beyond it.
    Run(String),
}

/// A place that gives first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GivingPlace {
    /// Lane.
    pub lane: Lane,
    /// Station.
    pub station: Length,
    /// Top of the layer that gives; none where the ground is not known deep
    /// enough for more.
    pub depth: Option<Length>,
}

/// The curves of every movement planned, for numbers of passes above zero.
///
/// # Errors
/// [`Unavailable`] with everything that is missing.
pub fn bearing_curves(flight: &Flight, passes: &[f64]) -> Known<BearingCurves> {
    let measured = measure(flight, &Standing::of(flight), &[]);
    let pressures = pressures(flight)?;
    let limits = &flight.aeroplane.mass;
    let mut movements = Vec::new();
    if let (Some(plan), Some(runs)) = (&flight.take_off, &measured.take_off_runs) {
        let planned = (plan.mass.as_ref(), plan.centre_of_gravity.as_ref());
        let ends = ("take-off", "take_off", limits.maximum_take_off.as_ref());
        let search = Search::new(flight, &measured, ends, planned, Brings::TakeOff(runs))?;
        movements.push(search.movement(&pressures, passes)?);
    }
    if let (Some(plan), Some(runs)) = (&flight.landing, &measured.landing_runs) {
        let planned = (plan.mass.as_ref(), plan.centre_of_gravity.as_ref());
        let ends = ("landing", "landing", limits.maximum_landing.as_ref());
        let search = Search::new(flight, &measured, ends, planned, Brings::Landing(runs))?;
        movements.push(search.movement(&pressures, passes)?);
    }
    if movements.is_empty() {
        return Err(missing("flight: [take_off] or [landing]", "the movement whose loads count"));
    }
    let name = |given: Option<&Given<String>>| given.map_or_else(String::new, |g| g.value.clone());
    Ok(BearingCurves {
        strip: name(flight.strip.name.as_ref()),
        aeroplane: name(flight.aeroplane.name.as_ref()),
        movements,
        caveats: caveats(),
    })
}

fn caveats() -> Vec<String> {
    vec![
        "main wheels that roll straight, under vertical load only: braking zones and turning \
         places are judged by G22 and G24, the nose wheels by G30"
            .to_owned(),
        format!(
            "the criterion is known from {FEWEST_COVERAGES:.0} to {MOST_COVERAGES:.0} coverages; fewer \
             count as {FEWEST_COVERAGES}, so few passes may share one curve"
        ),
        "what the ground carries is no leave to use it: tyre, chart, structure, distances and \
         climb bind as the assessment says"
            .to_owned(),
    ]
}

fn missing(what: &str, how: &str) -> Unavailable {
    let need = Need { what: what.to_owned(), how: how.to_owned() };
    Unavailable::missing("the curve of mass against tyre pressure", vec![need])
}

/// Every step of pressure that the main tyres may have, both ends included.
fn pressures(flight: &Flight) -> Known<Vec<Pressure>> {
    let tyre = &flight.aeroplane.gear.main.tyre;
    let chart = first_of_tables(tyre);
    let low =
        tyre.minimum_pressure.as_ref().map(|given| given.value).or(chart).ok_or_else(|| {
            missing("aeroplane: gear.main.tyre.minimum_pressure", "least pressure ever allowed")
        })?;
    let high =
        tyre.maximum_pressure.as_ref().or(tyre.rated_pressure.as_ref()).ok_or_else(|| {
            missing("aeroplane: gear.main.tyre.maximum_pressure", "greatest pressure ever allowed")
        })?;
    let high = high.value;
    let span = (high.si() - low.si()).max(0.0) / (MOST_PRESSURES - 2) as f64;
    let step = psi(STEP_PSI).si() * (span / psi(STEP_PSI).si()).ceil().max(1.0);
    let first = (low.si() / step + 1e-6).floor() + 1.0;
    let between = (0..MOST_PRESSURES)
        .map(|index| Pressure::from_si(step * (first + index as f64)))
        .take_while(|pressure| pressure.si() < high.si() - 1e-6 * step);
    let mut pressures: Vec<Pressure> = std::iter::once(low).chain(between).collect();
    if high > low {
        pressures.push(high);
    }
    Ok(pressures)
}

/// The runs whose loads count.
enum Brings<'a> {
    TakeOff(&'a Runs<TakeOffCase>),
    Landing(&'a Runs<LandingCase>),
}

struct Search<'a> {
    flight: &'a Flight,
    measured: &'a Measured,
    ground: &'a Ground,
    movement: &'static str,
    planned: Option<Mass>,
    centre: Ratio,
    lightest: Mass,
    heaviest: Mass,
    brings: Brings<'a>,
}

type Ends<'a> = (&'static str, &'static str, Option<&'a Given<Mass>>);
type Planned<'a> = (Option<&'a Given<Mass>>, Option<&'a Given<Ratio>>);

impl<'a> Search<'a> {
    fn new(
        flight: &'a Flight,
        measured: &'a Measured,
        (movement, key, heaviest): Ends<'_>,
        (planned, centre): Planned<'_>,
        brings: Brings<'a>,
    ) -> Known<Self> {
        let ground = measured.ground.as_ref().map_err(Clone::clone)?;
        let centre = centre.ok_or_else(|| {
            missing(&format!("flight: {key}.centre_of_gravity"), "of the movement planned")
        })?;
        let heaviest = heaviest.ok_or_else(|| {
            missing(&format!("aeroplane: mass.maximum_{key}"), "the structural limit")
        })?;
        let heaviest = heaviest.value;
        Ok(Self {
            flight,
            measured,
            ground,
            movement,
            planned: planned.map(|mass| mass.value),
            centre: centre.value,
            lightest: lightest(flight, heaviest).min(heaviest),
            heaviest,
            brings,
        })
    }

    fn movement(&self, pressures: &[Pressure], passes: &[f64]) -> Known<MovementCurves> {
        self.loads(self.lightest).as_ref().as_ref().map_err(Clone::clone)?;
        let masses = self.masses();
        let curves = passes.iter().map(|passes| self.curve(*passes, pressures, &masses));
        Ok(MovementCurves {
            movement: self.movement,
            planned: self.planned,
            masses: (self.lightest, self.heaviest),
            tyre: pressures.iter().map(|one| Ok((*one, self.by_tyre(*one)?))).collect(),
            curves: curves.collect::<Known<_>>()?,
        })
    }

    /// Round masses from the lightest to the heaviest.
    fn masses(&self) -> Vec<Mass> {
        let (low, high) = (self.lightest.si(), self.heaviest.si());
        let step = (high - low) / (MASSES - 1) as f64;
        let between = (1..MASSES - 1)
            .map(|index| ((low + step * index as f64) / MASS_STEP_KG).round() * MASS_STEP_KG)
            .filter(|mass| *mass > low && *mass < high);
        let mut masses: Vec<f64> =
            std::iter::once(low).chain(between).chain(std::iter::once(high)).collect();
        masses.dedup();
        masses.into_iter().map(kilograms).collect()
    }

    /// Loads by station that the movement brings at a mass.
    fn loads(&self, mass: Mass) -> Arc<Known<StationLoads>> {
        let at = (mass, self.centre);
        match self.brings {
            Brings::TakeOff(runs) => brought(self.flight, self.measured, runs, at),
            Brings::Landing(runs) => brought(self.flight, self.measured, runs, at),
        }
    }

    fn carries(&self, table: &RequirementTable, mass: Mass) -> bool {
        let loads = self.loads(mass);
        loads
            .as_ref()
            .as_ref()
            .is_ok_and(|loads| self.ground.carries(LegKind::Main, table, &loads.main))
    }

    /// What stops at a mass that is not carried.
    fn stops(&self, table: &RequirementTable, mass: Mass) -> StoppedBy {
        match self.loads(mass).as_ref() {
            Err(why) => StoppedBy::Run(why.because.clone()),
            Ok(loads) => match self.ground.worst(LegKind::Main, table, &loads.main) {
                Some(worst) if !worst.judgement.holds() => StoppedBy::Ground(place(&worst)),
                _ => StoppedBy::End,
            },
        }
    }

    fn by_tyre(&self, pressure: Pressure) -> Known<Option<Mass>> {
        let arms = self.measured.arms.as_ref().map_err(Clone::clone)?;
        let needed = |mass: Mass| {
            let standing = arms.standing(mass, self.centre)?;
            least(self.flight, LegKind::Main, mass, standing.main_leg)
        };
        needed(self.lightest)?;
        let allowed = |mass| needed(mass).is_ok_and(|least| least.pressure <= pressure);
        Ok(Grid::new(self.lightest, self.heaviest).search(self.heaviest, allowed))
    }

    fn curve(&self, passes: f64, pressures: &[Pressure], masses: &[Mass]) -> Known<BearingCurve> {
        let (_, per_pass) = self.ground.coverages(LegKind::Main);
        let coverages = passes * per_pass;
        let table = |pressure| self.ground.requirement_after(LegKind::Main, pressure, coverages);
        let by_pressure = pressures.iter().map(|pressure| {
            let table = table(*pressure)?;
            Ok(self.largest_mass(*pressure, &table))
        });
        let by_mass = masses.iter().map(|mass| self.largest_pressure(*mass, pressures, &table));
        Ok(BearingCurve {
            passes,
            coverages,
            counted: coverages.max(FEWEST_COVERAGES),
            by_pressure: by_pressure.collect::<Known<_>>()?,
            by_mass: by_mass.collect::<Known<_>>()?,
        })
    }

    fn largest_mass(&self, at: Pressure, table: &RequirementTable) -> BearingPoint<Pressure, Mass> {
        let grid = Grid::new(self.lightest, self.heaviest);
        let largest = grid.search(self.heaviest, |mass| self.carries(table, mass));
        let stops = match largest {
            Some(mass) if mass >= self.heaviest => StoppedBy::End,
            Some(mass) => self.stops(table, grid.next_above(mass)),
            None => self.stops(table, grid.lightest()),
        };
        BearingPoint { at, largest, stops }
    }

    fn largest_pressure(
        &self,
        at: Mass,
        pressures: &[Pressure],
        table: &impl Fn(Pressure) -> Known<RequirementTable>,
    ) -> Known<BearingPoint<Mass, Pressure>> {
        let ends = pressures.first().copied().zip(pressures.last().copied());
        let (low, high) = ends.ok_or_else(|| missing("aeroplane: gear.main.tyre", "pressures"))?;
        let holds = |pressure: f64| {
            table(Pressure::from_si(pressure)).is_ok_and(|table| self.carries(&table, at))
        };
        let largest = largest_holding(holds, low.si(), high.si(), PRESSURE_WIDTH_PA);
        let stops = match largest {
            Some(pressure) if pressure >= high.si() => StoppedBy::End,
            Some(pressure) => {
                self.stops(&table(Pressure::from_si(pressure + 2.0 * PRESSURE_WIDTH_PA))?, at)
            }
            None => self.stops(&table(low)?, at),
        };
        Ok(BearingPoint { at, largest: largest.map(Pressure::from_si), stops })
    }
}

fn place(worst: &Worst) -> GivingPlace {
    let (station, depth) = match &worst.judgement {
        PointJudgement::Known(demand) => (demand.station, Some(demand.depth)),
        PointJudgement::Unknown(unknown) => (unknown.station, None),
    };
    GivingPlace { lane: worst.lane, station, depth }
}
