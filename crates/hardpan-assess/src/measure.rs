//! Running the measures of a flight in order.

pub(crate) mod along;

use crate::ground::lee_leg::{Blowing, moved_by, stated};
use crate::ground::loads::station_loads;
use crate::ground::rut_drag::{Rolling, RutDrag, rolling};
use crate::ground::season::strength_in_state;
use crate::ground::{Ground, LegKind, StationLoads};
use crate::measure::along::condition;
use crate::measured::{Carried, Known, Measured, OfTheStrip, Unavailable};
use crate::movements::brake_heat::BrakesBefore;
use crate::movements::{LandingCase, Surroundings, TakeOffCase, reverse_credit};
use crate::repairs::{Gravel, lay, weaken, weaken_between};
use crate::rides::{Asked, Rides};
use crate::runs::{RunStore, Runs};
use crate::shape::{ShapeRules, StripShape, shape};
use crate::tyres::{TyrePressure, choose};
use hardpan_ground::{GearArms, LegLoads};
use hardpan_model::{
    Condition, Day, Direction, Flight, Given, Landing, MonthDay, Need, SurfaceState, TakeOff,
};
use hardpan_quantity::{Force, Length, Mass, Quantity, metres, ratio};
use hardpan_run::{Air, Friction, LandingRun, TakeOffRun, WindComponents, friction};
use hardpan_surface::centre_profile;
use std::borrow::Cow;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

/// What mass, pressure and direction do not change: measured once, and used
/// again for every change that a remedy tries; and the runs of each movement
/// that was tried.
#[derive(Debug, Clone)]
pub(crate) struct Standing {
    pub(crate) shape: Arc<StripShape>,
    rides: Arc<OnceLock<Known<Rides>>>,
    once: Arc<OfTheStrip>,
    asked: Asked,
    profile: Known<Vec<(Length, Length)>>,
    ground: Known<Ground>,
    rut_drags: RutDrags,
    /// Rolling over ruts where there is no ground to tell it from.
    given_rut_drag: Option<Arc<RutDrag>>,
    /// Whether the season of the day still weakens the ground.
    season_counts: bool,
    take_offs: Arc<RunStore<OverRuts, TakeOffCase>>,
    landings: Arc<RunStore<(Landing, Day), LandingCase>>,
}

/// What a take-off is besides its mass: its plan, the day, the ruts that count and
/// the brakes before it.
type OverRuts = (TakeOff, Day, Option<Arc<RutDrag>>, BrakesBefore);

/// Rolling over the ruts of the ground as it stands, under what rolls.
type RutDrags = Arc<Mutex<Vec<((Rolling, Option<SurfaceState>), Arc<RutDrag>)>>>;

impl Standing {
    /// The strip under the gear of the aeroplane.
    pub(crate) fn of(flight: &Flight) -> Self {
        Self::beside(flight, |_| ()).0
    }

    /// The same, and some work on it that never asks for its shape: this takes longest,
    /// and the work goes beside it.
    pub(crate) fn beside<T: Send>(
        flight: &Flight,
        work: impl FnOnce(&Self) -> T + Send,
    ) -> (Self, T) {
        let shaping = || shape(&flight.strip, &shape_rules(flight));
        let (shape, (standing, done)) = rayon::join(shaping, || {
            let standing = Self::unshaped(flight);
            let done = work(&standing);
            (standing, done)
        });
        (Self { shape: Arc::new(shape), ..standing }, done)
    }

    fn unshaped(flight: &Flight) -> Self {
        Self {
            shape: Arc::new(StripShape::not_yet()),
            rides: Arc::default(),
            once: Arc::default(),
            asked: Asked::Whole,
            profile: centre_profile(&flight.strip).map_err(Unavailable::from),
            ground: Ground::new(flight),
            rut_drags: Arc::default(),
            given_rut_drag: None,
            season_counts: true,
            take_offs: Arc::default(),
            landings: Arc::default(),
        }
    }

    /// The same strip, on which the season of the day counts no more.
    pub(crate) fn without_season(&self) -> Self {
        Self { season_counts: false, ..self.clone() }
    }

    /// Share of its strength that the ground has on the day, where the strip
    /// states less than all of it.
    fn day_share(&self, flight: &Flight) -> Option<f64> {
        let (strip, day) = (&flight.strip, &flight.day);
        let weakening = strip.frost.as_ref().is_some_and(|frost| frost.weakening.is_some());
        if !self.season_counts || (strip.seasons.is_empty() && !weakening) {
            return None;
        }
        let frost = self.once.frost(flight);
        let date = MonthDay::from(day.date.as_ref()?.value);
        let state = day.surface_state.as_ref().map(|state| state.value);
        let strength = strength_in_state(flight, frost, (date, state)).ok()?;
        Some(strength.share).filter(|share| *share < 1.0)
    }

    /// The same strip, for the verdict of runs that ride differently from those
    /// planned.
    pub(crate) fn riding_afresh(&self) -> Self {
        Self { rides: Arc::default(), asked: Asked::Verdict, ..self.clone() }
    }

    /// The same strip for another flight, which rides differently from the one before.
    pub(crate) fn for_another(&self) -> Self {
        Self { rides: Arc::default(), ..self.clone() }
    }

    /// The same strip without its ground, rolling over ruts as it was assessed, and
    /// with no run kept from before.
    pub(crate) fn for_a_draw(&self, given_rut_drag: Option<Arc<RutDrag>>) -> Self {
        let ground = Err(Unavailable::missing("the ground of a draw", Vec::new()));
        Self { ground, given_rut_drag, ..self.with_no_runs() }
    }

    /// The same strip with no run kept, for a place of a sheet whose runs no
    /// other place shares.
    pub(crate) fn with_no_runs(&self) -> Self {
        let (take_offs, landings) = (Arc::default(), Arc::default());
        Self { take_offs, landings, ..self.clone() }
    }

    /// The same strip with every layer of its ground at a share of its strength.
    pub(crate) fn with_strength(&self, share: f64) -> Self {
        let mut standing = Self { rut_drags: Arc::default(), ..self.clone() };
        if let Ok(ground) = &mut standing.ground {
            weaken(Arc::make_mut(&mut ground.lanes), share);
        }
        standing
    }

    /// The same strip with the ground of a stretch at a share of its strength.
    pub(crate) fn with_strength_between(&self, from: Length, to: Length, share: f64) -> Self {
        let mut standing = Self { rut_drags: Arc::default(), ..self.clone() };
        if let Ok(ground) = &mut standing.ground {
            weaken_between(Arc::make_mut(&mut ground.lanes), from, to, share);
        }
        standing
    }
}

impl Standing {
    /// Rolling over the ruts of the ground, with gravel laid on it already.
    fn rut_drag(
        &self,
        flight: &Flight,
        (ground, arms, friction): (&Known<Ground>, &Known<GearArms>, &Known<Friction>),
        gravel: &[Gravel],
    ) -> Option<Arc<RutDrag>> {
        let (Ok(ground), Ok(arms), Ok(friction)) = (ground, arms, friction) else {
            return self.given_rut_drag.clone();
        };
        let of = rolling(flight, ground, arms, &friction.rolling)?;
        let made = || Arc::new(RutDrag::of(flight, ground, of));
        if !gravel.is_empty() {
            return Some(made());
        }
        let state = flight.day.surface_state.as_ref().map(|state| state.value);
        let key = (of, state);
        let mut kept = self.rut_drags.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, drag)) = kept.iter().find(|(kept, _)| *kept == key) {
            return Some(Arc::clone(drag));
        }
        let drag = made();
        kept.push((key, Arc::clone(&drag)));
        Some(drag)
    }
}

/// Everything that the measures say of a flight, with gravel laid where a
/// remedy lays it.
pub(crate) fn measure(flight: &Flight, standing: &Standing, gravel: &[Gravel]) -> Measured {
    let strip = &flight.strip;
    let (shape, profile) = (standing.shape.clone(), standing.profile.clone());
    let ground = standing.ground.clone();
    let air = Air::at(strip, &flight.day).map_err(|needs| Unavailable::missing("the air", needs));
    let friction = friction_of(flight);
    let arms = GearArms::of(&flight.aeroplane.balance, &flight.aeroplane.gear);
    let arms = arms.map_err(Unavailable::from);
    let ground = ground.map(|mut ground| {
        if !gravel.is_empty() {
            lay(Arc::make_mut(&mut ground.lanes), gravel);
        }
        ground
    });
    let level = condition(flight, &profile, (&friction, None));
    let rut_drag = standing.rut_drag(flight, (&ground, &arms, &friction), gravel);
    let raised = rut_drag.as_ref().filter(|drag| drag.raises());
    let rutted = raised.map(|drag| condition(flight, &profile, (&friction, Some(drag))));
    let dry = dry_condition(flight, &profile, raised);
    let around = |condition| Surroundings { air: &air, condition, dry: dry.as_ref() };
    let take_off_case = TakeOffCase::of(flight, &around(rutted.as_ref().unwrap_or(&level)), raised);
    let landing_case = LandingCase::of(flight, &around(&level));
    let take_off_runs = flight.take_off.as_ref().zip(take_off_case.as_ref()).map(|(plan, case)| {
        let plan = TakeOff { mass: None, ..plan.clone() };
        let brakes = BrakesBefore::of(flight);
        standing.take_offs.of((plan, flight.day.clone(), raised.cloned(), brakes), case)
    });
    let landing_runs = flight.landing.as_ref().zip(landing_case.as_ref()).map(|(plan, case)| {
        standing.landings.of((Landing { mass: None, ..plan.clone() }, flight.day.clone()), case)
    });
    let (take_off, landing) = rayon::join(
        || take_off_runs.as_ref().map(|runs| planned_take_off(flight, runs)),
        || landing_runs.as_ref().map(|runs| planned_landing(flight, runs)),
    );
    let static_loads = arms.clone().and_then(|arms| static_loads(flight, &arms));
    let loads = loads(
        flight,
        &ground,
        &static_loads,
        [&landing_trace(&landing), &take_off_traces(&take_off)],
    );
    let landing_wind = flight.landing.as_ref().map(|plan| wind(flight, plan.direction.as_ref()));
    let take_off_wind = flight.take_off.as_ref().map(|plan| wind(flight, plan.direction.as_ref()));
    let moved =
        on_the_lee_leg(flight, Blowing { air: &air, winds: [&landing_wind, &take_off_wind] });
    let day_share = standing.day_share(flight);
    let on_the_day = on_the_day(&ground, day_share);
    let under = |kind: LegKind, moved: Force| {
        let set = tyre(flight, (kind, moved), &static_loads, &loads, &on_the_day);
        let carried = carried(&ground, kind, &set, &loads);
        (set, carried)
    };
    let ((main_tyre, main_carried), (nose_tyre, nose_carried)) =
        rayon::join(|| under(LegKind::Main, moved), || under(LegKind::Nose, Force::from_si(0.0)));
    Measured {
        main_carried,
        nose_carried,
        landing_wind,
        take_off_wind,
        shape,
        rides: standing.rides.clone(),
        once: standing.once.clone(),
        asked: standing.asked,
        sounding_reach: strip
            .sounding_reach
            .as_ref()
            .map_or(metres(hardpan_ground::DEFAULT_REACH_M), |reach| reach.value),
        air,
        profile,
        friction,
        day_share,
        rut_drag,
        ruts_over_laws: ratio(1.0),
        ground,
        arms,
        take_off_case,
        take_off_runs,
        landing_case,
        landing_runs,
        take_off,
        landing,
        standing: static_loads,
        loads,
        main_tyre,
        nose_tyre,
    }
}

fn wind(flight: &Flight, direction: Option<&Given<Direction>>) -> Known<WindComponents> {
    let Some(direction) = direction else {
        return Err(Unavailable::missing(
            "the wind along and across the strip",
            vec![Need {
                what: "flight: direction".to_owned(),
                how: "designator of the runway of each movement".to_owned(),
            }],
        ));
    };
    WindComponents::at(&flight.strip, &flight.day, direction.value)
        .map_err(|needs| Unavailable::missing("the wind along and across the strip", needs))
}

fn friction_of(flight: &Flight) -> Known<Friction> {
    let Some(state) = &flight.day.surface_state else {
        return Err(Unavailable::missing(
            "the friction of the surface",
            vec![Need {
                what: "day: surface_state".to_owned(),
                how: "dry, wet, frozen or thawing, as found on the day".to_owned(),
            }],
        ));
    };
    friction(&flight.strip, &flight.aeroplane, state.value)
        .map_err(|needs| Unavailable::missing("the friction of the surface", needs))
}

/// The rolling surface of the strip when dry, where the flight counts a lower
/// screen or reverse thrust because it is wet.
fn dry_condition(
    flight: &Flight,
    profile: &Known<Vec<(Length, Length)>>,
    ruts: Option<&Arc<RutDrag>>,
) -> Option<Known<Condition>> {
    let is_wet = flight.day.surface_state.as_ref()?.value == SurfaceState::Wet;
    let asked = flight.take_off.as_ref()?.wet_screen.is_some()
        || reverse_credit::in_take_off(flight).is_counted();
    (is_wet && asked).then(|| {
        let mut dry = flight.clone();
        dry.day.surface_state =
            flight.day.surface_state.clone().map(|state| state.map(|_| SurfaceState::Dry));
        dry.day.standing_water = None;
        condition(&dry, profile, (&friction_of(&dry), ruts))
    })
}

/// What the strip is held against under this aeroplane.
pub(crate) fn shape_rules(flight: &Flight) -> ShapeRules {
    let track = flight.aeroplane.gear.track.as_ref().map(|track| track.value);
    ShapeRules::of(&flight.strip, track)
}

fn mass_missing(key: &str) -> Unavailable {
    Unavailable::missing(
        "the run",
        vec![Need { what: format!("flight: {key}.mass"), how: "the mass planned".to_owned() }],
    )
}

fn planned_take_off(flight: &Flight, runs: &Runs<TakeOffCase>) -> Known<TakeOffRun> {
    let mass = flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref());
    let mass = mass.ok_or_else(|| mass_missing("take_off"));
    runs.traced(mass?.value, Clone::clone)
}

fn planned_landing(flight: &Flight, runs: &Runs<LandingCase>) -> Known<LandingRun> {
    let mass = flight.landing.as_ref().and_then(|plan| plan.mass.as_ref());
    let mass = mass.ok_or_else(|| mass_missing("landing"));
    runs.traced(mass?.value, Clone::clone)
}

/// Static leg loads of the planned movements, the greater of both.
fn static_loads(flight: &Flight, arms: &GearArms) -> Known<LegLoads> {
    let plans = [
        flight.landing.as_ref().map(|plan| ("landing", &plan.mass, &plan.centre_of_gravity)),
        flight.take_off.as_ref().map(|plan| ("take_off", &plan.mass, &plan.centre_of_gravity)),
    ];
    let mut greatest = LegLoads { main_leg: Force::from_si(0.0), nose_leg: Force::from_si(0.0) };
    for (key, mass, centre) in plans.into_iter().flatten() {
        let (Some(mass), Some(centre)) = (mass, centre) else {
            return Err(Unavailable::missing(
                "the load on the wheels",
                vec![Need {
                    what: format!("flight: {key}.mass, {key}.centre_of_gravity"),
                    how: "as planned".to_owned(),
                }],
            ));
        };
        let loads = arms.standing(mass.value, centre.value)?;
        greatest.main_leg = greatest.main_leg.max(loads.main_leg);
        greatest.nose_leg = greatest.nose_leg.max(loads.nose_leg);
    }
    Ok(greatest)
}

type Traces = Vec<hardpan_model::RunTrace>;

fn landing_trace(run: &Option<Known<LandingRun>>) -> Traces {
    let run = run.as_ref().and_then(|run| run.as_ref().ok());
    run.and_then(|run| run.trace.clone()).into_iter().collect()
}

fn take_off_traces(run: &Option<Known<TakeOffRun>>) -> Traces {
    let run = run.as_ref().and_then(|run| run.as_ref().ok());
    run.map_or_else(Vec::new, |run| {
        [run.trace.clone(), run.rejected_trace.clone()].into_iter().flatten().collect()
    })
}

/// Leg loads by station; where a run could not be computed, the load that
/// braking would bring to the nose is not known, and nor are the loads.
fn loads(
    flight: &Flight,
    ground: &Known<Ground>,
    standing: &Known<LegLoads>,
    traces: [&Traces; 2],
) -> Known<StationLoads> {
    let ground = ground.as_ref().map_err(Clone::clone)?;
    let standing = *standing.as_ref().map_err(Clone::clone)?;
    let planned = usize::from(flight.landing.is_some()) + usize::from(flight.take_off.is_some());
    let known = traces.iter().filter(|traces| !traces.is_empty()).count();
    if planned == 0 || known < planned {
        return Err(Unavailable::missing("the load on the wheels along the run", Vec::new()));
    }
    let runs: Vec<_> = traces.into_iter().flatten().collect();
    Ok(station_loads(&ground.stations(), standing, flight.taxi.as_deref(), &runs))
}

pub(crate) fn heavier_mass(flight: &Flight) -> Option<Mass> {
    let landing = flight.landing.as_ref().and_then(|plan| plan.mass.as_ref());
    let take_off = flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref());
    [landing, take_off].into_iter().flatten().map(|mass| mass.value).reduce(Mass::max)
}

/// The ground that the tyres are set for: at the share of the day.
fn on_the_day(ground: &Known<Ground>, share: Option<f64>) -> Cow<'_, Known<Ground>> {
    match (ground, share) {
        (Ok(ground), Some(share)) => {
            let mut weaker = ground.clone();
            weaken(Arc::make_mut(&mut weaker.lanes), share);
            Cow::Owned(Ok(weaker))
        }
        _ => Cow::Borrowed(ground),
    }
}

/// What the crosswind moves to the lee leg, so that the tyres are set for it;
/// none where nobody states it: G28 then stays unproven.
fn on_the_lee_leg(flight: &Flight, blowing: Blowing<'_>) -> Force {
    let mass = heavier_mass(flight).filter(|_| stated(&flight.aeroplane.gear));
    let moved = mass.and_then(|mass| moved_by(flight, blowing, mass).ok());
    moved.and_then(|step| step.result.get()).unwrap_or(Force::from_si(0.0))
}

fn tyre(
    flight: &Flight,
    (kind, moved): (LegKind, Force),
    standing: &Known<LegLoads>,
    loads: &Known<StationLoads>,
    ground: &Known<Ground>,
) -> Known<TyrePressure> {
    let standing = standing.as_ref().map_err(Clone::clone)?;
    let mass = heavier_mass(flight).ok_or_else(|| mass_missing("take_off"))?;
    let leg = match kind {
        LegKind::Main => standing.main_leg,
        LegKind::Nose => standing.nose_leg,
    };
    let on_ground = loads.as_ref().ok().map(|loads| loads.greatest(kind) + moved);
    choose(flight, kind, mass, (leg, on_ground), ground)
}

/// Put measures that were made without ground on one: what comes to its stations,
/// and what it carries of the main wheels with the tyres as they are set.
pub(crate) fn put_on(flight: &Flight, measured: &mut Measured, ground: Known<Ground>) {
    let (landing, take_off) = (&measured.landing, &measured.take_off);
    let traces = [&landing_trace(landing), &take_off_traces(take_off)];
    measured.loads = loads(flight, &ground, &measured.standing, traces);
    measured.main_carried = carried(&ground, LegKind::Main, &measured.main_tyre, &measured.loads);
    measured.ground = ground;
}

fn carried(
    ground: &Known<Ground>,
    kind: LegKind,
    tyre: &Known<TyrePressure>,
    loads: &Known<StationLoads>,
) -> Known<Carried> {
    let ground = ground.as_ref().map_err(Clone::clone)?;
    let loads = loads.as_ref().map_err(Clone::clone)?;
    let table = ground.requirement(kind, tyre.as_ref().map_err(Clone::clone)?.set)?;
    let worst = ground
        .worst(kind, &table, loads.of(kind))
        .ok_or_else(|| Unavailable::missing("the strength of the ground", Vec::new()))?;
    Ok((worst, table))
}
