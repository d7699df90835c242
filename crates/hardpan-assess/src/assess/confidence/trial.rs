//! What one draw comes to: which limits hold, and the largest masses.

use super::draw::Drawn;
use super::ride::RideLimit;
use crate::context::{Context, bounds_today};
use crate::masses::{BEYOND, Check, landing_limits, lightest, take_off_limits};
use crate::rides::Asked;
use hardpan_model::{Bound, Flight, Phase};
use hardpan_quantity::{Mass, Quantity, kilograms};

/// Step in which the largest mass of a draw is found, kg.
const STEP_KG: f64 = 20.0;
/// Approved limits on these figures hold whatever the mass.
const OF_THE_DAY: [&str; 4] = ["crosswind", "tailwind", "outside temperature", "pressure altitude"];

/// Which movement.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Moving {
    /// The landing.
    Landing,
    /// The take-off.
    TakeOff,
}

impl Moving {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Landing => "landing",
            Self::TakeOff => "take-off",
        }
    }
}

/// One limit of a flight by name; the same limits in the same order in each draw.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Named {
    pub(super) code: &'static str,
    pub(super) title: String,
    pub(super) moving: Option<Moving>,
    /// Whether it can be judged as planned.
    pub(super) is_known: bool,
}

/// What a draw comes to.
#[derive(Debug, Clone, Default)]
pub(super) struct Trial {
    /// Whether each limit holds; none where something is missing.
    pub(super) holds: Vec<Option<bool>>,
    /// Largest mass that may be planned for landing and take-off, kg; none where
    /// not even the lightest holds.
    pub(super) largest: [Option<f64>; 2],
}

/// The movements of a flight.
pub(super) fn movements(flight: &Flight) -> Vec<Moving> {
    let landing = flight.landing.as_ref().map(|_| Moving::Landing);
    landing.into_iter().chain(flight.take_off.as_ref().map(|_| Moving::TakeOff)).collect()
}

fn limits<'a>(drawn: &'a Drawn, moving: Moving) -> Vec<Check<'a>> {
    let (flight, measured) = (&drawn.flight, &drawn.measured);
    match moving {
        Moving::Landing => landing_limits(flight, measured),
        Moving::TakeOff => take_off_limits(flight, measured),
    }
    .unwrap_or_default()
}

fn planned(flight: &Flight, moving: Moving) -> Option<Mass> {
    let given = match moving {
        Moving::Landing => flight.landing.as_ref()?.mass.as_ref(),
        Moving::TakeOff => flight.take_off.as_ref()?.mass.as_ref(),
    };
    given.map(|given| given.value)
}

fn structural(flight: &Flight, moving: Moving) -> Option<Mass> {
    let mass = &flight.aeroplane.mass;
    let given = match moving {
        Moving::Landing => mass.maximum_landing.as_ref(),
        Moving::TakeOff => mass.maximum_take_off.as_ref(),
    };
    given.map(|given| given.value)
}

/// The limits by name, as [`trial`] asks them.
pub(super) fn named(drawn: &Drawn, rides: &[RideLimit]) -> Vec<Named> {
    let mut names = Vec::new();
    for moving in movements(&drawn.flight) {
        names.extend(limits(drawn, moving).iter().map(|check| Named {
            code: check.code,
            title: check.title.to_owned(),
            moving: Some(moving),
            is_known:
                planned(&drawn.flight, moving).is_some_and(|mass| check.tried(mass).is_some()),
        }));
    }
    names.extend(of_the_day(drawn).into_iter().map(|(title, holds)| Named {
        code: "L10",
        title,
        moving: None,
        is_known: holds.is_some(),
    }));
    let ride = |ride: &RideLimit| Named {
        code: "R70",
        title: ride.title.clone(),
        moving: None,
        is_known: true,
    };
    names.extend(rides.iter().map(ride));
    names
}

/// Approved limits on the weather, and whether each holds.
fn of_the_day(drawn: &Drawn) -> Vec<(String, Option<bool>)> {
    let (flight, measured) = (&drawn.flight, &drawn.measured);
    let context = Context::tried(flight, measured, Asked::Verdict);
    let meant = flight.aeroplane.limits.iter().filter(|limit| {
        OF_THE_DAY.contains(&limit.quantity.value.as_str()) && bounds_today(flight, limit)
    });
    let judged = meant.filter_map(|limit| {
        let quantity = limit.quantity.value.as_str();
        let value = context.quantity(quantity, limit.phase)?;
        let most = limit.value.value;
        let holds = value.ok().filter(|value| value.dimension == most.dimension).map(|value| {
            match limit.bound {
                Bound::AtMost => value.si <= most.si,
                Bound::AtLeast => value.si >= most.si,
            }
        });
        let phase = match limit.phase {
            Phase::Always => String::new(),
            phase => format!(", {}", phase.word()),
        };
        Some((format!("{quantity}{phase}"), holds))
    });
    judged.collect()
}

/// Judge a draw; the largest masses are looked for from where those of the plan
/// lie.
pub(super) fn trial(drawn: &Drawn, rides: &[RideLimit], about: [Option<f64>; 2]) -> Trial {
    let mut trial = Trial::default();
    for moving in movements(&drawn.flight) {
        let checks = limits(drawn, moving);
        let real = planned(&drawn.flight, moving).map(|mass| mass * drawn.mass);
        trial.holds.extend(checks.iter().map(|check| check.tried(real?)));
        let at = moving as usize;
        let bound = structural(&drawn.flight, moving);
        trial.largest[at] = bound.and_then(|bound| {
            let low = lightest(&drawn.flight, bound).min(bound);
            let range = (low.si(), bound.si() * BEYOND);
            let found = largest(&checks, range, about[at].unwrap_or(range.0))?;
            Some(found / drawn.mass)
        });
    }
    trial.holds.extend(of_the_day(drawn).into_iter().map(|(_, holds)| holds));
    trial.holds.extend(rides.iter().map(|ride| Some(ride.holds(drawn.levels))));
    trial
}

/// The largest mass at which all limits hold: steps of doubling length from
/// where it is expected, then halving between.
fn largest(checks: &[Check<'_>], (low, high): (f64, f64), about: f64) -> Option<f64> {
    let mut first = 0;
    let mut holds = |mass: f64| {
        let count = checks.len();
        for turn in 0..count {
            // The limit that failed last is likely to fail again.
            let at = (first + turn) % count;
            if !checks[at].holds_at(kilograms(mass)) {
                first = at;
                return false;
            }
        }
        true
    };
    let mut step = 8.0 * STEP_KG;
    let start = about.clamp(low, high);
    let (mut good, mut bad) = if holds(start) {
        let mut good = start;
        loop {
            if good >= high {
                return Some(high);
            }
            let next = (good + step).min(high);
            if !holds(next) {
                break (good, next);
            }
            good = next;
            step *= 2.0;
        }
    } else {
        let mut bad = start;
        loop {
            if bad <= low {
                return None;
            }
            let next = (bad - step).max(low);
            if holds(next) {
                break (next, bad);
            }
            bad = next;
            step *= 2.0;
        }
    };
    while bad - good > STEP_KG {
        let middle = 0.5 * (good + bad);
        if holds(middle) { good = middle } else { bad = middle }
    }
    Some(good)
}

#[cfg(test)]
mod tests {
    use super::{Check, largest};
    use hardpan_quantity::Quantity;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn prop_the_least_limit_sets_the_largest_mass(
            a in 20_000.0_f64..60_000.0,
            b in 20_000.0_f64..60_000.0,
            about in 20_000.0_f64..60_000.0,
        ) {
            let check = |most: f64| {
                Check::new("A10", "limit", move |mass| Ok(mass.si() <= most))
            };
            let found = largest(&[check(a), check(b)], (30_000.0, 50_000.0), about);
            let least = a.min(b);
            match found {
                None => prop_assert!(least < 30_000.0),
                Some(found) => {
                    prop_assert!(found <= least);
                    prop_assert!(least - found <= 20.0 || found == 50_000.0);
                }
            }
        }
    }
}
