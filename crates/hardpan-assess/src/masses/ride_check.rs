//! The ride as a limit on the masses of both movements, driven with the tyres as they
//! are then set for both.

use super::both::grid;
use super::sheet::SheetMovement;
use super::{Wanted, structural, with_load};
use crate::assessment::{MassAnswer, MassLimit};
use crate::context::Context;
use crate::measured::Measured;
use crate::rides::Asked;
use crate::rules::RULES;
use hardpan_model::{Flight, Given, Phase, Verdict, Weight};
use hardpan_quantity::Mass;
use rayon::prelude::*;

const CODE: &str = "R70";
const TITLE: &str = "ride at the cockpit";

/// The movements in the order of the answers.
const MOVEMENTS: [SheetMovement; 2] = [SheetMovement::TakeOff, SheetMovement::Landing];

/// Measures a flight anew that is another in its masses alone.
pub(crate) type Again<'a> = &'a (dyn Fn(&Flight) -> Measured + Sync);

/// A mass of take-off and landing; none of what has none.
type Masses = [Option<Mass>; 2];

/// Largest masses no more than ride within the limit when both are flown, and the ride
/// named where it is among the first limits. How a movement rides turns on the tyres,
/// and these are set for both: two masses may ride by themselves and not together.
pub(super) fn within_the_ride(
    flight: &Flight,
    again: Again<'_>,
    (wanted, mut found): (Wanted, [Option<MassAnswer>; 2]),
) -> [Option<MassAnswer>; 2] {
    let ride = Ride { flight, again };
    let planned = found.each_ref().map(|answer| answer.as_ref()?.planned);
    let largest = |found: &[Option<MassAnswer>; 2]| {
        let [take_off, landing] = found.each_ref().map(|answer| answer.as_ref()?.largest);
        [take_off.or(planned[0]), landing.or(planned[1])]
    };
    let first = largest(&found);
    let last = found.each_ref().map(|answer| last_named(answer.as_ref()?, wanted));
    let at_last = |at: usize| last[at].is_some_and(|mass| !ride.holds(at, with(first, at, mass)));
    let (mut fails, beyond) = rayon::join(
        || ride.fails(first),
        || -> Vec<bool> { (0..2).into_par_iter().map(at_last).collect() },
    );
    let has_largest =
        |one: &Option<MassAnswer>| one.as_ref().is_some_and(|one| one.largest.is_some());
    while let Some(at) = (0..2).find(|at| fails[*at] && has_largest(&found[*at])) {
        let lower = ride.below(at, largest(&found));
        put_in(flight, &mut found[at], (MOVEMENTS[at], lower, wanted));
        let other = 1 - at;
        fails[at] = false;
        fails[other] = has_largest(&found[other]) && !ride.holds(other, largest(&found));
    }
    let masses = largest(&found);
    for at in 0..2 {
        let (Some(from), Some(to)) = (masses[at], last[at]) else { continue };
        let set_by = found[at].as_ref().and_then(MassAnswer::set_by).map(|limit| limit.code);
        let fails =
            || if masses == first { beyond[at] } else { !ride.holds(at, with(masses, at, to)) };
        if set_by != Some(CODE) && fails() {
            let mass = ride.between(at, masses, (from, to));
            put_in(flight, &mut found[at], (MOVEMENTS[at], mass, wanted));
        }
    }
    found
}

/// The mass of the last limit that is named, where it lies above the largest.
fn last_named(answer: &MassAnswer, wanted: Wanted) -> Option<Mass> {
    let last = answer.limits.last()?.mass?;
    (wanted.limits > 1 && last > answer.largest?).then_some(last)
}

fn put_in(
    flight: &Flight,
    answer: &mut Option<MassAnswer>,
    (movement, mass, wanted): (SheetMovement, Option<Mass>, Wanted),
) {
    *answer = answer.take().map(|mut answer| {
        answer.limits.retain(|limit| limit.code != CODE);
        answer.put_in(MassLimit { code: CODE, title: TITLE.to_owned(), mass }, wanted.limits);
        with_load(flight, movement, answer)
    });
}

fn with(masses: Masses, at: usize, mass: Mass) -> Masses {
    let mut with = masses;
    with[at] = Some(mass);
    with
}

struct Ride<'a> {
    flight: &'a Flight,
    again: Again<'a>,
}

impl Ride<'_> {
    /// Of which movement the ride does not hold at two masses.
    fn fails(&self, masses: Masses) -> [bool; 2] {
        let (flight, measured) = self.at(masses);
        judged(&flight, &measured)
    }

    /// Whether that of one does; the other is not ridden.
    fn holds(&self, at: usize, masses: Masses) -> bool {
        let (flight, mut measured) = self.at(masses);
        match MOVEMENTS[at] {
            SheetMovement::TakeOff => measured.landing = None,
            SheetMovement::Landing => measured.take_off = None,
        }
        !judged(&flight, &measured)[at]
    }

    fn at(&self, [take_off, landing]: Masses) -> (Flight, Measured) {
        let mut flight = self.flight.clone();
        let set = |planned: Option<&mut Option<Given<Mass>>>, mass: Option<Mass>| {
            if let (Some(planned), Some(mass)) = (planned, mass) {
                *planned = planned.take().map(|given| given.map(|_| mass));
            }
        };
        set(flight.take_off.as_mut().map(|plan| &mut plan.mass), take_off);
        set(flight.landing.as_mut().map(|plan| &mut plan.mass), landing);
        let measured = (self.again)(&flight);
        (flight, measured)
    }

    /// The largest mass of one that rides below its mass beside the other.
    fn below(&self, at: usize, masses: Masses) -> Option<Mass> {
        let grid = grid(self.flight, structural(self.flight, MOVEMENTS[at])?);
        grid.below(masses[at]?, &|mass| self.holds(at, with(masses, at, mass)))
    }

    fn between(&self, at: usize, masses: Masses, (good, bad): (Mass, Mass)) -> Option<Mass> {
        let grid = grid(self.flight, structural(self.flight, MOVEMENTS[at])?);
        Some(grid.between(good, bad, &|mass| self.holds(at, with(masses, at, mass))))
    }
}

/// Whether the ride of take-off and landing fails or is not known to hold; where none
/// can be computed it is advice.
fn judged(flight: &Flight, measured: &Measured) -> [bool; 2] {
    let context = Context::tried(flight, measured, Asked::Verdict);
    let rules = RULES.iter().filter(|rule| rule.code == CODE);
    let findings = rules.flat_map(|rule| (rule.judge)(&context));
    let bad = findings.filter(|one| one.weight == Weight::Safety);
    bad.filter(|one| one.verdict >= Verdict::Unproven).fold([false; 2], |[up, down], one| {
        [up || one.phase == Phase::TakeOff, down || one.phase == Phase::Landing]
    })
}
