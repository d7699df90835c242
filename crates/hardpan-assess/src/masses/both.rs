//! The largest masses of both movements, found so that they hold together.

use super::mass_search::{FIRST_STRIDE, Grid};
use super::ride_check::{Again, within_the_ride};
use super::{
    BEYOND, Beside, Check, SheetMovement, Wanted, joint_limits, largest_alone, lightest,
    structural, with_load,
};
use crate::assessment::{MassAnswer, MassLimit};
use crate::measured::Measured;
use hardpan_model::Flight;
use hardpan_quantity::Mass;
use rayon::prelude::*;

/// Limits besides the first that rest on the strength of the ground under the main wheels.
const ON_ONE_STRENGTH: usize = 2;

/// Largest take-off and landing mass with the first limits on each; none for a
/// movement that is not planned. Where nobody measures the flight again, the ride is
/// not among the limits.
///
/// Tyres are set once for both: each is looked for by itself, then the landing at the
/// pressure that the largest take-off asks for, then the take-off beside that landing,
/// and last both within what rides at the pressure that both ask for.
pub(crate) fn both_masses(
    flight: &Flight,
    measured: &Measured,
    (wanted, again): (Wanted, Option<Again<'_>>),
) -> [Option<MassAnswer>; 2] {
    // Limits on one strength of the ground stand for one: more are looked for. The ride,
    // which is dear, is asked no further than the last that is told.
    let more = if wanted.limits > 1 { ON_ONE_STRENGTH } else { 0 };
    let searched = Wanted { limits: wanted.limits + more, ..wanted };
    let mut found = together(flight, measured, searched);
    found.iter_mut().flatten().for_each(|mass| mass.limits.truncate(wanted.limits));
    match again.filter(|_| measured.rides(flight).is_ok()) {
        Some(again) => within_the_ride(flight, again, (wanted, found)),
        None => found,
    }
}

/// The same without the ride. Any two masses up to them hold together as well.
fn together(flight: &Flight, measured: &Measured, wanted: Wanted) -> [Option<MassAnswer>; 2] {
    let alone = |movement| largest_alone(flight, measured, (movement, wanted));
    let (take_off, landing) =
        rayon::join(|| alone(SheetMovement::TakeOff), || alone(SheetMovement::Landing));
    let (Some(take_off), Some(landing)) = (&take_off, &landing) else { return [take_off, landing] };
    let together = |movement, answer: &MassAnswer, other: &MassAnswer, at: SheetMovement| {
        let beside = Beside::of(flight, measured, (at, other.largest?));
        beside_it(flight, measured, (movement, answer), (wanted, beside))
    };
    let (take_off, landing) = (take_off.clone(), landing.clone());
    let landing = together(SheetMovement::Landing, &landing, &take_off, SheetMovement::TakeOff)
        .unwrap_or(landing);
    let take_off = together(SheetMovement::TakeOff, &take_off, &landing, SheetMovement::Landing)
        .unwrap_or(take_off);
    [Some(take_off), Some(landing)]
}

/// The answer for a movement beside the other: limits that the other has no part in
/// stay, and those that it has are looked for from the last one named downwards. None
/// where nothing changes.
fn beside_it(
    flight: &Flight,
    measured: &Measured,
    (movement, answer): (SheetMovement, &MassAnswer),
    (wanted, beside): (Wanted, Beside),
) -> Option<MassAnswer> {
    answer.largest?;
    let structural = structural(flight, movement)?;
    let grid = grid(flight, structural);
    let last = answer.limits.last().and_then(|limit| limit.mass).unwrap_or(structural * BEYOND);
    let checks = joint_limits(flight, measured, movement, &beside)?;
    let lower: Vec<(&Check<'_>, Option<Mass>)> = checks
        .par_iter()
        .filter(|check| !check.holds_at(last))
        .map(|check| (check, largest(&grid, check, last)))
        .collect();
    if lower.is_empty() {
        return None;
    }
    let is_lower = |limit: &MassLimit| {
        lower.iter().any(|(check, _)| (check.code, check.title) == (limit.code, &*limit.title))
    };
    let mut limits: Vec<MassLimit> =
        answer.limits.iter().filter(|limit| !is_lower(limit)).cloned().collect();
    limits.extend(lower.iter().map(|(check, mass)| MassLimit {
        code: check.code,
        title: check.title.to_owned(),
        mass: *mass,
    }));
    limits.sort_by(|a, b| a.rank().total_cmp(&b.rank()));
    limits.truncate(wanted.limits);
    let largest = limits.first().and_then(|limit| limit.mass);
    Some(with_load(flight, movement, MassAnswer { largest, limits, ..answer.clone() }))
}

/// The masses that are tried.
pub(super) fn grid(flight: &Flight, structural: Mass) -> Grid {
    Grid::new(lightest(flight, structural).min(structural), structural * BEYOND)
}

fn largest(grid: &Grid, check: &Check<'_>, from: Mass) -> Option<Mass> {
    let holds = |mass| check.holds_at(mass);
    if !holds(grid.lightest()) {
        return None;
    }
    grid.edge(from, FIRST_STRIDE, &holds).map(|(good, _)| good)
}
