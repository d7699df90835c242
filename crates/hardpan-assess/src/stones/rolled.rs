//! The loose stones that come under the edges of the tyres, at which speed, and
//! how many of them reach the airframe.

use crate::context::Context;
use crate::measured::{Known, Unavailable};
use crate::stones::Stones;
use crate::stones::stone_geometry::FlapPlace;
use crate::stones::technique::{Choice, Off, Thrust, not_counted};
use hardpan_debris::{StonePath, Thrown, stones_under_edges};
use hardpan_model::{Flight, Patch, RunPoint, RunTrace, TaxiStretch};
use hardpan_quantity::{Length, Quantity, Speed, metres};

/// Ground rolled over on the wheels: pieces with a speed each.
pub(crate) struct Rolled {
    take_off: Vec<Piece>,
    take_off_full: Vec<Piece>,
    landing: Vec<Piece>,
    taxi: Vec<Piece>,
}

/// A stretch at one speed, lower station first.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Piece {
    pub(crate) from: Length,
    pub(crate) to: Length,
    pub(crate) speed: Speed,
}

impl Piece {
    /// Ground that it shares with a patch.
    pub(crate) fn over(&self, patch: &Patch) -> Length {
        (self.to.min(patch.to) - self.from.max(patch.from.value)).max(metres(0.0))
    }
}

impl Rolled {
    /// On the planned movements, and on the take-off with full thrust.
    pub(crate) fn of(context: &Context<'_>) -> Known<Self> {
        let measured = context.measured;
        let run = |run: &RunTrace| pieces(run);
        let missing = || Unavailable::missing("the ground rolled over", Vec::new());
        let mut rolled =
            Self { take_off: vec![], take_off_full: vec![], landing: vec![], taxi: vec![] };
        if let Some(found) = &measured.take_off {
            let found = found.as_ref().map_err(Clone::clone)?;
            rolled.take_off = run(found.trace.as_ref().ok_or_else(missing)?);
            rolled.take_off_full = match at_full_thrust(context) {
                Some(full) => run(full?.trace.as_ref().ok_or_else(missing)?),
                None => rolled.take_off.clone(),
            };
        }
        if let Some(found) = &measured.landing {
            let found = found.as_ref().map_err(Clone::clone)?;
            rolled.landing = run(found.trace.as_ref().ok_or_else(missing)?);
        }
        rolled.taxi = taxi(context.flight);
        Ok(rolled)
    }
}

/// The take-off with full thrust at brake release, where another is planned.
pub(crate) fn at_full_thrust(context: &Context<'_>) -> Option<Known<hardpan_run::TakeOffRun>> {
    let plan = context.flight.take_off.as_ref().filter(|plan| !plan.thrust.is_empty())?;
    let mass = plan.mass.as_ref()?.value;
    let case = context.measured.take_off_case.as_ref()?.as_ref().ok()?;
    Some(case.at_full_thrust().run(mass, true))
}

/// Taxiing over its stretches, or once over the whole strip; nothing where
/// nobody says how fast.
pub(crate) fn taxi(flight: &Flight) -> Vec<Piece> {
    let Some(speed) = flight.technique.taxi_speed.as_ref().map(|given| given.value) else {
        return Vec::new();
    };
    let piece = |from: Length, to: Length| Piece { from, to, speed };
    match (&flight.taxi, &flight.strip.length) {
        (Some(stretches), _) => {
            let piece = |one: &TaxiStretch| piece(one.from.value, one.to);
            stretches.iter().map(piece).collect()
        }
        (None, Some(length)) => vec![piece(metres(0.0), length.value)],
        (None, None) => Vec::new(),
    }
}

fn pieces(trace: &RunTrace) -> Vec<Piece> {
    let piece = |pair: &[RunPoint]| {
        let [a, b] = pair else { return None };
        let on_ground = a.height.si() <= 0.0 && b.height.si() <= 0.0;
        let (from, to) = (a.station.min(b.station), a.station.max(b.station));
        on_ground.then(|| Piece { from, to, speed: a.ground_speed.max(b.ground_speed) })
    };
    trace.points.windows(2).filter_map(piece).collect()
}

/// Stones under tyre edges that reach the airframe, if each of them is thrown.
pub(crate) fn thrown_at_airframe(
    context: &Context<'_>,
    stones: &Stones,
    rolled: &Rolled,
    choice: &Choice,
) -> Known<f64> {
    let patches = context.flight.day.loose_material.as_deref().unwrap_or_default();
    let run = match choice.thrust {
        Thrust::Planned => &rolled.take_off,
        Thrust::AtBrakeRelease => &rolled.take_off_full,
    };
    let mut sum = 0.0;
    for patch in patches {
        for (size, count) in counted(patch)? {
            let thrown = stones.of_size(size).ok_or_else(not_counted)?;
            let down = by_speed(stones, thrown, FlapPlace::Down, choice.off);
            let taxi = by_speed(stones, thrown, choice.flaps, choice.off);
            let runs = run.iter().chain(&rolled.landing).map(|piece| (piece, &down));
            for (piece, shares) in runs.chain(rolled.taxi.iter().map(|piece| (piece, &taxi))) {
                let edges = u32::try_from(2 * stones.geometry.tyres.len()).unwrap_or(u32::MAX);
                let under = stones_under_edges(count, size, edges, piece.over(patch))
                    .map_err(|error| Unavailable::refused("stones under tyres", &error))?;
                sum += under * share_at(shares, piece.speed);
            }
        }
    }
    Ok(sum)
}

/// Sizes of a patch with the stones of each on a square metre.
pub(crate) fn counted(patch: &Patch) -> Known<Vec<(Length, f64)>> {
    if patch.sizes.is_empty() {
        let count = patch.stones_per_square_metre.as_ref().ok_or_else(not_counted)?;
        let largest = patch.largest_stone.as_ref().ok_or_else(not_counted)?;
        return Ok(vec![(largest.value, count.value)]);
    }
    let size =
        |one: &hardpan_model::StoneSize| (one.up_to.value, one.stones_per_square_metre.value);
    Ok(patch.sizes.iter().map(size).collect())
}

/// Share of the stones thrown that reach the airframe, by class of ground speed.
fn by_speed(stones: &Stones, thrown: &Thrown, flaps: FlapPlace, off: Off) -> Vec<(Speed, f64)> {
    let geometry = &stones.geometry;
    let guarded = |guard: usize| {
        let is_off = off == Off::All || off == Off::One(guard);
        geometry.is_working(guard) && !is_off
    };
    let strikes = |path: &StonePath| {
        let end = path.end(|surface| geometry.stands(surface, flaps, guarded));
        end.is_some_and(|end| geometry.zone_of(end.surface()).is_some())
    };
    let shares = thrown.share_by_speed(strikes).into_iter();
    shares.map(|(top, share)| (top, share.si())).collect()
}

fn share_at(shares: &[(Speed, f64)], speed: Speed) -> f64 {
    let class = shares.iter().find(|(top, _)| speed <= *top).or(shares.last());
    class.map_or(0.0, |(_, share)| *share)
}
