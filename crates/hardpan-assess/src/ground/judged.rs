//! The ground at other loads, or in another state, than under G20 and G30: the worst
//! place of each, for the rules that judge it and for what they open to.

use super::lee_leg::{heaviest, moved_load, raised, stated};
use super::season::strength_in_state;
use super::{Ground, LegKind, Worst};
use crate::context::Context;
use crate::draft::given;
use crate::measured::{Known, Unavailable};
use crate::repairs::weaken;
use hardpan_ground::RequirementTable;
use hardpan_model::{BasisInput, Flight, MonthDay, TurningPlace};
use hardpan_quantity::{Force, Mass, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2};
use std::sync::Arc;

/// The worst place of a piece of ground under a kind of leg.
pub(crate) struct JudgedGround {
    /// By what name its rule tells of it.
    pub(crate) name: &'static str,
    /// What its load came from besides the movements planned: a rule by its code.
    pub(crate) load_by: Option<(&'static str, hardpan_quantity::Amount)>,
    /// What its strength came from besides the soundings.
    pub(crate) weakened_by: Vec<BasisInput>,
    pub(crate) kind: LegKind,
    pub(crate) ground: Ground,
    pub(crate) worst: Worst,
    pub(crate) table: RequirementTable,
}

/// Every such piece of ground that the flight has.
pub(crate) fn judged_grounds(context: &Context<'_>) -> Vec<JudgedGround> {
    let both = || [LegKind::Main, LegKind::Nose].into_iter();
    let places = &context.flight.strip.turning;
    places
        .iter()
        .filter_map(|place| turning(context, place))
        .chain(both().filter_map(|kind| balanced(context, kind)))
        .chain(leaning(context))
        .chain(sounded_apart(context))
        .chain(both().filter_map(|kind| in_season(context, kind)))
        .collect()
}

fn as_sounded(context: &Context<'_>) -> Known<Ground> {
    context.measured.ground.clone()
}

fn no_strength() -> Unavailable {
    Unavailable::missing("the strength of the ground", Vec::new())
}

/// Load that a turn adds to the outer leg, over the weight.
pub(crate) fn moved(context: &Context<'_>, place: &TurningPlace) -> Option<Ratio> {
    let aeroplane = &context.flight.aeroplane;
    let height = aeroplane.balance.centre_of_gravity_height.as_ref()?.value.si();
    let track = aeroplane.gear.track.as_ref()?.value.si();
    let radius = place.radius.as_ref()?.value.si();
    let speed = place.speed.as_ref()?.value.si();
    let share = speed * speed / (STANDARD_GRAVITY_M_PER_S2 * radius) * height / track;
    share.is_finite().then(|| Ratio::from_si(share))
}

/// A turning place under the outer leg.
pub(crate) struct Turned {
    /// Load of the outer leg.
    pub(crate) load: Force,
    /// Static load of a main leg.
    pub(crate) standing: Force,
    pub(crate) weight: Force,
    pub(crate) worst: Worst,
    pub(crate) table: RequirementTable,
}

/// The worst point of a turning place under the outer leg, to which the turn moves a
/// share of the weight.
pub(crate) fn turned(context: &Context<'_>, place: &TurningPlace, share: Ratio) -> Known<Turned> {
    let measured = context.measured;
    let ground = measured.ground.as_ref().map_err(Clone::clone)?;
    let standing = measured.standing.as_ref().map_err(Clone::clone)?.main_leg;
    let pressure = measured.main_tyre.as_ref().map_err(Clone::clone)?.set;
    let flight = context.flight;
    let landing = flight.landing.as_ref().and_then(|plan| plan.mass.as_ref());
    let take_off = flight.take_off.as_ref().and_then(|plan| plan.mass.as_ref());
    let masses = [landing, take_off].into_iter().flatten().map(|mass| mass.value.si());
    let weight = masses.fold(0.0, f64::max) * STANDARD_GRAVITY_M_PER_S2;
    let load = Force::from_si(standing.si() + weight * share.si());
    let (from, to) = (place.from.value, place.to);
    let none = Force::from_si(0.0);
    let loads: Vec<Force> = ground
        .stations()
        .into_iter()
        .map(|station| if station >= from && station <= to { load } else { none })
        .collect();
    let table = ground.requirement(LegKind::Main, pressure)?;
    let worst = ground
        .worst_where(LegKind::Main, &table, &loads, |station| station >= from && station <= to);
    let worst = worst
        .ok_or_else(|| Unavailable::missing("the strength of the turning place", Vec::new()))?;
    Ok(Turned { load, standing, weight: Force::from_si(weight), worst, table })
}

fn turning(context: &Context<'_>, place: &TurningPlace) -> Option<JudgedGround> {
    let found = turned(context, place, moved(context, place)?).ok()?;
    Some(JudgedGround {
        name: "the ground of the turning place",
        load_by: Some(("G24", found.load.into())),
        weakened_by: Vec::new(),
        kind: LegKind::Main,
        ground: as_sounded(context).ok()?,
        worst: found.worst,
        table: found.table,
    })
}

/// The planned movements with mass and centre of gravity.
fn plans(flight: &Flight) -> Vec<(Mass, Ratio)> {
    let landing = flight.landing.as_ref().map(|plan| (&plan.mass, &plan.centre_of_gravity));
    let take_off = flight.take_off.as_ref().map(|plan| (&plan.mass, &plan.centre_of_gravity));
    [landing, take_off]
        .into_iter()
        .flatten()
        .filter_map(|(mass, centre)| Some((mass.as_ref()?.value, centre.as_ref()?.value)))
        .collect()
}

/// How the standing load of a leg grows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Growth {
    /// At least 1.
    pub(crate) times: Ratio,
    /// Loads at the limit and as planned; none where no movement grows.
    pub(crate) of: Option<[Force; 2]>,
}

/// Growth of the loads with the centre of gravity at a limit, and the worst place
/// under them.
pub(crate) fn at_limit(
    context: &Context<'_>,
    kind: LegKind,
    limit: Ratio,
) -> Known<(Growth, Worst, RequirementTable)> {
    let measured = context.measured;
    let arms = measured.arms.as_ref().map_err(Clone::clone)?;
    let ground = measured.ground.as_ref().map_err(Clone::clone)?;
    let loads = measured.loads.as_ref().map_err(Clone::clone)?;
    let tyre = match kind {
        LegKind::Main => &measured.main_tyre,
        LegKind::Nose => &measured.nose_tyre,
    };
    let pressure = tyre.as_ref().map_err(Clone::clone)?.set;
    let mut most = (1.0_f64, [Force::from_si(0.0); 2]);
    for (mass, centre) in plans(context.flight) {
        let (planned, there) = (arms.standing(mass, centre)?, arms.standing(mass, limit)?);
        let (planned, there) = match kind {
            LegKind::Main => (planned.main_leg, there.main_leg),
            LegKind::Nose => (planned.nose_leg, there.nose_leg),
        };
        let growth = there.si() / planned.si();
        if growth > most.0 {
            most = (growth, [there, planned]);
        }
    }
    let (growth, of) = most;
    let grown: Vec<Force> = loads.of(kind).iter().map(|load| *load * growth).collect();
    let table = ground.requirement(kind, pressure)?;
    let worst = ground.worst(kind, &table, &grown).ok_or_else(no_strength)?;
    let growth = Growth { times: Ratio::from_si(growth), of: (growth > 1.0).then_some(of) };
    Ok((growth, worst, table))
}

fn balanced(context: &Context<'_>, kind: LegKind) -> Option<JudgedGround> {
    let balance = &context.flight.aeroplane.balance;
    let limit = match kind {
        LegKind::Main => balance.aft_limit.as_ref(),
        LegKind::Nose => balance.forward_limit.as_ref(),
    };
    let (growth, worst, table) = at_limit(context, kind, limit?.value).ok()?;
    Some(JudgedGround {
        name: "the ground at the limit of balance",
        load_by: Some(("G26", growth.times.into())),
        weakened_by: Vec::new(),
        kind,
        ground: as_sounded(context).ok()?,
        worst,
        table,
    })
}

/// The worst place under the main wheels with a load on top all along.
pub(crate) fn under_lee(context: &Context<'_>, moved: Force) -> Known<Worst> {
    let measured = context.measured;
    let ground = measured.ground.as_ref().map_err(Clone::clone)?;
    let (_, table) = measured.main_carried.as_ref().map_err(Clone::clone)?;
    let loads = measured.loads.as_ref().map_err(Clone::clone)?;
    let raised = raised(loads.of(LegKind::Main), moved);
    ground.worst(LegKind::Main, table, &raised).ok_or_else(no_strength)
}

fn leaning(context: &Context<'_>) -> Option<JudgedGround> {
    stated(&context.flight.aeroplane.gear).then_some(())?;
    let mass = heaviest(context.flight).ok()?;
    let moved = moved_load(context.flight, context.measured, mass).ok()?.result;
    let (_, table) = context.measured.main_carried.as_ref().ok()?;
    Some(JudgedGround {
        name: "the ground under the lee leg",
        load_by: Some(("G28", moved)),
        weakened_by: Vec::new(),
        kind: LegKind::Main,
        ground: as_sounded(context).ok()?,
        worst: under_lee(context, moved.get()?).ok()?,
        table: table.clone(),
    })
}

/// The worst place between soundings, on the ground as uncertain there as their reach
/// lets it be.
pub(crate) fn between(context: &Context<'_>) -> Known<(Ground, Worst)> {
    let measured = context.measured;
    let (_, table) = measured.main_carried.as_ref().map_err(Clone::clone)?;
    let loads = measured.loads.as_ref().map_err(Clone::clone)?;
    let ground = measured.ground.as_ref().map_err(Clone::clone)?;
    let between = ground.between_soundings().ok_or_else(no_strength)?;
    let worst = between.worst(LegKind::Main, table, loads.of(LegKind::Main));
    Ok((between.clone(), worst.ok_or_else(no_strength)?))
}

fn sounded_apart(context: &Context<'_>) -> Option<JudgedGround> {
    let (ground, worst) = between(context).ok()?;
    let (_, table) = context.measured.main_carried.as_ref().ok()?;
    let reach = context.flight.strip.sounding_reach.as_ref();
    Some(JudgedGround {
        name: "the ground between soundings",
        load_by: None,
        weakened_by: reach.map(|reach| given("reach of a sounding", reach)).into_iter().collect(),
        kind: LegKind::Main,
        ground,
        worst,
        table: table.clone(),
    })
}

fn in_season(context: &Context<'_>, kind: LegKind) -> Option<JudgedGround> {
    let flight = context.flight;
    let day = MonthDay::from(flight.day.date.as_ref()?.value);
    let state = flight.day.surface_state.as_ref().map(|state| state.value);
    let frost = context.measured.frost(flight);
    let strength = strength_in_state(flight, frost, (day, state)).ok()?;
    let mut ground = as_sounded(context).ok()?;
    if strength.share != 1.0 {
        weaken(Arc::make_mut(&mut ground.lanes), strength.share);
    }
    let carried = match kind {
        LegKind::Main => &context.measured.main_carried,
        LegKind::Nose => &context.measured.nose_carried,
    };
    let (_, table) = carried.as_ref().ok()?;
    let loads = context.measured.loads.as_ref().ok()?;
    let worst = ground.worst(kind, table, loads.of(kind))?;
    let table = table.clone();
    let name = "the ground in the season";
    let weakened_by = strength.inputs;
    Some(JudgedGround { name, load_by: None, weakened_by, kind, ground, worst, table })
}
