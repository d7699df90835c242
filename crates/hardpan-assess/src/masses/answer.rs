//! The limits on a mass in their order, those that come and go with mass among them.

use super::both::grid;
use super::first_limit::first_limit;
use super::mass_search::{Bracket, Grid};
use super::same_strength::once_each;
use super::{Check, Wanted};
use crate::assessment::{MassAnswer, MassLimit};
use hardpan_model::Flight;
use hardpan_quantity::{Mass, Quantity};

/// Largest mass at which every check holds, with the first limits on it.
pub(super) fn answer(
    flight: &Flight,
    (planned, wanted): (Option<Mass>, Wanted),
    structural: Option<Mass>,
    checks: Vec<Check<'_>>,
) -> MassAnswer {
    let none = || MassAnswer::none(planned);
    let Some(structural) = structural else {
        let unknown = checks.first().map(|check| check.limit(None));
        return MassAnswer { unknown, ..none() };
    };
    let Wanted { limits: wanted, near, at_least } = wanted;
    if at_least.is_some_and(|least| checks.iter().any(|check| !check.holds_at(least))) {
        return none();
    }
    let grid = grid(flight, structural);
    let (dear, cheap): (Vec<_>, Vec<_>) = checks.into_iter().partition(|check| check.is_dear);
    let first = (wanted == 1)
        .then(|| first_limit(&grid, &cheap, planned, near.or(Some(structural))))
        .flatten();
    let mut found = first.unwrap_or_else(|| each_limit(&grid, &cheap, (planned, wanted)));
    for check in &dear {
        take_in(&grid, &mut found, wanted, check);
    }
    found
}

/// Limits that mass moves one way, each searched by itself as far as it matters.
fn each_limit(
    grid: &Grid,
    checks: &[Check<'_>],
    (planned, wanted): (Option<Mass>, usize),
) -> MassAnswer {
    let is_known = |check: &&Check<'_>| check.tried(grid.lightest()).is_some();
    let unknown = checks.iter().find(|check| !is_known(check));
    let known = checks.iter().filter(is_known);
    let mut found: Vec<(&Check<'_>, Bracket)> = known
        .filter_map(|check| Some((check, grid.bracket(&|mass| check.holds_at(mass))?)))
        .collect();
    found.sort_by_key(|(_, bracket)| bracket.rank());
    if let Some(last) = reach(&found, wanted) {
        found.retain(|(_, bracket)| bracket.may_precede(&last));
    }
    for (check, bracket) in &mut found {
        *bracket = grid.refined(*bracket, &|mass| check.holds_at(mass));
    }
    found.sort_by_key(|(_, bracket)| bracket.rank());
    let limits: Vec<MassLimit> = once_each(found, |(check, _)| (check.code, check.title))
        .into_iter()
        .take(wanted)
        .map(|(check, bracket)| check.limit(grid.largest(bracket)))
        .collect();
    let largest = limits.first().and_then(|limit| limit.mass).filter(|_| unknown.is_none());
    let none_holds = limits.first().is_some_and(|limit| limit.mass.is_none());
    let unknown = unknown.filter(|_| !none_holds).map(|check| check.limit(None));
    MassAnswer { planned, largest, load: None, limits, unknown }
}

/// Where the last of the limits that are wanted lies, each strength of the ground once.
fn reach(found: &[(&Check<'_>, Bracket)], wanted: usize) -> Option<Bracket> {
    let once = once_each(found.to_vec(), |(check, _)| (check.code, check.title));
    once.get(wanted.saturating_sub(1)).or(found.last()).map(|(_, bracket)| *bracket)
}

/// One more limit among those found: it may come and go with mass, so that it is asked
/// at the first of them, and at the last where more than one is wanted.
fn take_in(grid: &Grid, found: &mut MassAnswer, wanted: usize, check: &Check<'_>) {
    let end = |limit: Option<&MassLimit>| match limit {
        Some(limit) => limit.mass.unwrap_or_else(|| grid.lightest()),
        None => grid.heaviest(),
    };
    let (first, last) = (end(found.limits.first()), end(found.limits.last()));
    let holds = |mass| check.holds_at(mass);
    let mass = if !holds(first) {
        grid.below(first, &holds)
    } else if wanted > 1 && last > first && !holds(last) {
        Some(grid.between(first, last, &holds))
    } else {
        return;
    };
    found.put_in(check.limit(mass), wanted);
}

impl MassAnswer {
    /// One more limit in its order, and the largest mass no more than it.
    pub(super) fn put_in(&mut self, limit: MassLimit, wanted: usize) {
        let lower = limit.mass.zip(self.largest).is_none_or(|(mass, largest)| mass < largest);
        if lower {
            self.largest = self.largest.and(limit.mass);
        }
        if limit.mass.is_none() {
            self.unknown = None;
        }
        self.limits.push(limit);
        self.limits.sort_by(|a, b| a.rank().total_cmp(&b.rank()));
        self.limits.truncate(wanted);
    }
}

impl MassLimit {
    /// Order of limits: the one that holds least first.
    pub(super) fn rank(&self) -> f64 {
        self.mass.map_or(f64::NEG_INFINITY, Quantity::si)
    }
}
