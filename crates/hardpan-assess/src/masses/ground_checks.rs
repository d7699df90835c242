//! What the ground under the wheels lets an aeroplane weigh.

use super::{Beside, Check, missing, pressure_at};
use crate::ground::lee_leg::{moved_load, raised, stated};
use crate::ground::loads::{at_least, station_loads};
use crate::ground::{Ground, Lack, LegKind, StationLoads};
use crate::measured::{Known, Measured, Unavailable};
use crate::repairs::weaken;
use crate::runs::{Case, Runs};
use hardpan_ground::{LegLoads, RequirementTable};
use hardpan_model::{Flight, Given};
use hardpan_quantity::{Force, Mass, Pressure, Ratio};
use std::borrow::Cow;
use std::sync::Arc;

/// What the limit of the nose wheels in the season is called.
pub(super) const SEASON_NOSE: &str = "ground under the nose wheels in the season";

/// Whether a leg stands level or in the lee of a crosswind.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Leg {
    Level,
    Lee,
}

/// The ground as sounded, or as weak as the season lets it be.
type OnGround<'a> = Arc<Cow<'a, Known<Ground>>>;

/// Ground under the wheels of one movement at any mass.
struct Loaded<'a, C: Case> {
    flight: &'a Flight,
    measured: &'a Measured,
    centre: Option<&'a Given<Ratio>>,
    beside: Beside,
    runs: &'a Runs<C>,
}

impl<C: Case> Clone for Loaded<'_, C> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<C: Case> Copy for Loaded<'_, C> {}

/// The checks of the ground, in the season too where it counts.
pub(super) fn ground_checks<'a>(
    flight: &'a Flight,
    measured: &'a Measured,
    (centre, beside): (Option<&'a Given<Ratio>>, Beside),
    runs: &'a Runs<impl Case>,
) -> Vec<Check<'a>> {
    let loaded = Loaded { flight, measured, centre, beside, runs };
    let as_sounded: OnGround<'a> = Arc::new(Cow::Borrowed(&measured.ground));
    let in_season = measured.day_share.map(|share| Arc::new(Cow::Owned(at_share(measured, share))));
    let check = |code, title, under, on: &OnGround<'a>| {
        let on = Arc::clone(on);
        let left = Arc::clone(&on);
        Check::new(code, title, move |mass| loaded.carried(mass, under, &on))
            .with_margin(move |mass| loaded.margin(mass, under, &left))
    };
    let (main, nose) = ((LegKind::Main, Leg::Level), (LegKind::Nose, Leg::Level));
    let mut checks = vec![
        check("G20", "ground under the main wheels", main, &as_sounded),
        check("G30", "ground under the nose wheels", nose, &as_sounded),
    ];
    if stated(&flight.aeroplane.gear) {
        let lee = (LegKind::Main, Leg::Lee);
        checks.push(check("G28", "main wheels in the crosswind", lee, &as_sounded));
    }
    if let Some(ground) = &in_season {
        checks.push(check("S65", "ground under the main wheels in the season", main, ground));
        checks.push(check("S65", SEASON_NOSE, nose, ground));
    }
    checks
}

/// The ground with every layer at a share of its strength.
fn at_share(measured: &Measured, share: f64) -> Known<Ground> {
    let mut ground = measured.ground.clone()?;
    weaken(Arc::make_mut(&mut ground.lanes), share);
    Ok(ground)
}

impl<C: Case> Loaded<'_, C> {
    /// Whether the ground carries a kind of leg at a mass.
    fn carried(self, mass: Mass, under: (LegKind, Leg), on: &Known<Ground>) -> Known<bool> {
        let Self { flight, runs, .. } = self;
        let ground = on.as_ref().map_err(Clone::clone)?;
        let standing = self.standing(mass)?;
        let Some(pressure) = self.pressure(mass, under.0)? else { return Ok(false) };
        if runs.is_known() && self.fails_at_rest((mass, pressure), standing, under, ground) {
            return Ok(false);
        }
        let loads = runs.loads(mass, |traces| {
            Ok(station_loads(&ground.stations(), standing, flight.taxi.as_deref(), traces))
        });
        let loads = loads.as_ref().as_ref().map_err(Clone::clone)?;
        let table = ground.requirement(under.0, pressure)?;
        match self.lacks(mass, under, (ground, &table), loads)? {
            None => Ok(true),
            Some(Lack::Strength) => Ok(false),
            Some(Lack::Knowledge(point)) => {
                Err(Unavailable::missing("the ground", vec![point.need()]))
            }
        }
    }

    /// Logarithm of the strength that is credited over that needed, where least.
    fn margin(
        self,
        mass: Mass,
        (kind, leaning): (LegKind, Leg),
        on: &Known<Ground>,
    ) -> Option<f64> {
        let ground = on.as_ref().ok()?;
        let standing = self.standing(mass).ok()?;
        let table = ground.requirement(kind, self.pressure(mass, kind).ok()??).ok()?;
        let loads = self.runs.loads(mass, |traces| {
            Ok(station_loads(&ground.stations(), standing, self.flight.taxi.as_deref(), traces))
        });
        let loads = self.leaning(mass, (kind, leaning), loads.as_ref().as_ref().ok()?).ok()?;
        let most = ground.most_used(kind, &table, &loads)?;
        (most > 0.0).then(|| -most.ln())
    }

    fn standing(self, mass: Mass) -> Known<LegLoads> {
        let arms = self.measured.arms.as_ref().map_err(Clone::clone)?;
        let centre = self.centre.ok_or_else(|| missing("the centre of gravity"))?;
        Ok(arms.standing(mass, centre.value)?)
    }

    /// Tyre pressure at a mass; none where the tyre does not allow it.
    fn pressure(self, mass: Mass, kind: LegKind) -> Known<Option<Pressure>> {
        pressure_at(self.flight, self.measured, (kind, self.beside), mass, self.centre)
    }

    /// Whether the ground is too weak for the static load already: it need not be
    /// asked what the run brings, as that is never less.
    fn fails_at_rest(
        self,
        (mass, pressure): (Mass, Pressure),
        standing: LegLoads,
        under: (LegKind, Leg),
        ground: &Ground,
    ) -> bool {
        let loads = at_least(self.flight, ground, standing);
        let table = ground.requirement(under.0, pressure);
        let lack = table.and_then(|table| self.lacks(mass, under, (ground, &table), &loads));
        lack.is_ok_and(|lack| lack == Some(Lack::Strength))
    }

    fn lacks(
        self,
        mass: Mass,
        under: (LegKind, Leg),
        (ground, table): (&Ground, &RequirementTable),
        loads: &StationLoads,
    ) -> Known<Option<Lack>> {
        Ok(ground.lacks(under.0, table, &self.leaning(mass, under, loads)?))
    }

    /// What comes to a kind of leg by station, with what a crosswind moves to it.
    fn leaning<'l>(
        self,
        mass: Mass,
        (kind, leaning): (LegKind, Leg),
        loads: &'l StationLoads,
    ) -> Known<Cow<'l, [Force]>> {
        Ok(if leaning == Leg::Lee {
            let moved = moved_load(self.flight, self.measured, mass)?.result.get();
            Cow::Owned(raised(loads.of(kind), moved.ok_or_else(|| missing("the wind"))?))
        } else {
            Cow::Borrowed(loads.of(kind))
        })
    }
}
