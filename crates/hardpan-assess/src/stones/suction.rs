//! The loose stones under inlet vortices over a whole flight, by handling.

use crate::context::Context;
use crate::draft::need;
use crate::measured::{Known, Unavailable};
use crate::stones::rolled::{at_full_thrust, taxi};
use crate::stones::stones_per_square_metre;
use crate::stones::technique::{Choice, Thrust, not_counted};
use crate::vortex::{exposure, footprint, inlet};
use hardpan_debris::{Air, Inlet, RunWind, VortexState, stones_met, stretches, vortex_along};
use hardpan_model::{EngineKind, Patch, ReverseUse, RunPoint, RunTrace};
use hardpan_quantity::{Length, Quantity, Ratio, knots, metres, newtons};

/// What the vortices of a flight with turbofans need to be known.
pub(crate) struct Suction {
    inlet: Inlet,
    air: Air,
    inlets: f64,
}

impl Suction {
    /// Of a flight; none for propellers.
    pub(crate) fn of(context: &Context<'_>) -> Known<Option<Self>> {
        let engines = &context.flight.aeroplane.engines;
        let kind = engines.kind.as_ref().map(|kind| kind.value);
        if kind.is_some_and(|kind| kind != EngineKind::Turbofan) {
            return Ok(None);
        }
        let inlet = inlet(context.flight)?;
        let count = crate::vortex::engines(context.flight)?;
        let air = context.measured.air.as_ref().map_err(Clone::clone)?;
        let air = Air { pressure: air.pressure(), temperature: air.temperature() };
        Ok(Some(Self { inlet, air, inlets: f64::from(count) }))
    }
}

/// Loose stones in the footprints of all inlets where a vortex is expected or
/// may stand: take-off, landing and taxiing.
pub(crate) fn swallowed(context: &Context<'_>, suction: &Suction, choice: &Choice) -> Known<f64> {
    let patches = context.flight.day.loose_material.as_deref().unwrap_or_default();
    let mut sum = 0.0;
    if let Some(run) = &context.measured.take_off {
        let full = match choice.thrust {
            Thrust::AtBrakeRelease => at_full_thrust(context).transpose()?,
            Thrust::Planned => None,
        };
        let run = run.as_ref().map_err(Clone::clone)?;
        let found = exposure(context, full.as_ref().unwrap_or(run))?;
        sum += found.stones(patches).ok_or_else(not_counted)??;
    }
    for ground in [after_touchdown(context, suction, choice)?, taxiing(context, suction, choice)?] {
        for patch in patches {
            let over = ground
                .iter()
                .map(|(from, to)| (to.min(patch.to) - from.max(patch.from.value)).max(metres(0.0)));
            let rolled = over.fold(metres(0.0), |sum, one| sum + one);
            sum += suction.inlets * under(suction, patch, rolled)?;
        }
    }
    Ok(sum)
}

fn under(suction: &Suction, patch: &Patch, rolled: Length) -> Known<f64> {
    if rolled <= metres(0.0) {
        return Ok(0.0);
    }
    let count = stones_per_square_metre(patch).ok_or_else(not_counted)?;
    stones_met(count, footprint(&suction.inlet), rolled)
        .map_err(|error| Unavailable::refused("stones met", &error))
}

type Ground = Vec<(Length, Length)>;

/// Where a vortex may stand after touchdown: at full reverse down to the speed
/// stated, at idle after it.
fn after_touchdown(context: &Context<'_>, suction: &Suction, choice: &Choice) -> Known<Ground> {
    let Some(run) = &context.measured.landing else { return Ok(Vec::new()) };
    let missing = || Unavailable::missing("the vortex after touchdown", Vec::new());
    let trace = run.as_ref().map_err(Clone::clone)?.trace.as_ref().ok_or_else(missing)?;
    let wind = context.measured.landing_wind.as_ref().ok_or_else(missing)?;
    let wind = wind.as_ref().map_err(Clone::clone)?;
    let until = context.flight.technique.reverse_until.as_ref();
    let until = until.map_or(knots(0.0), |given| given.value);
    let idle = context.flight.aeroplane.engines.idle_share.as_ref();
    let idle = idle.map(|given| given.value).ok_or_else(|| {
        let wanted = need("aeroplane: engines.idle_share", "share of static take-off thrust");
        Unavailable::missing("the vortex after touchdown", vec![wanted])
    })?;
    let thrust = |point: &RunPoint| match choice.reverse {
        ReverseUse::Full if point.ground_speed > until => newtons(1.0),
        _ => newtons(idle.si()),
    };
    let points = trace.points.iter();
    let points = points.map(|point| RunPoint { thrust: thrust(point), ..*point }).collect();
    let trace = RunTrace { points, events: Vec::new() };
    let wind = RunWind { headwind: wind.headwind, crosswind: knots(0.0) };
    let found = vortex_along(&trace, &suction.inlet, &suction.air, &wind, |_| newtons(1.0))
        .map_err(|error| Unavailable::refused("the vortex after touchdown", &error))?;
    let places = || found.iter().map(|point| (point.station, point.state));
    let mut ground = stretches(places(), VortexState::On);
    ground.extend(stretches(places(), VortexState::Uncertain));
    Ok(ground.into_iter().map(|(a, b)| (a.min(b), a.max(b))).collect())
}

/// Where a vortex may stand while taxiing, without wind.
fn taxiing(context: &Context<'_>, suction: &Suction, choice: &Choice) -> Known<Ground> {
    let Some(share) = choice.taxi_thrust else { return Ok(Vec::new()) };
    let calm = RunWind { headwind: knots(0.0), crosswind: knots(0.0) };
    let stands = |share: Ratio, speed| {
        let state = suction.inlet.vortex(share, &suction.air, speed, &calm);
        state.map_err(|error| Unavailable::refused("the vortex while taxiing", &error))
    };
    let mut ground = Vec::new();
    for piece in taxi(context.flight) {
        if stands(share, piece.speed)? != VortexState::Off {
            ground.push((piece.from, piece.to));
        }
    }
    Ok(ground)
}
