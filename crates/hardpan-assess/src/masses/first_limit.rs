//! The first limit alone: the largest mass at which every check holds, from a
//! mass nearby.

use super::Check;
use super::mass_search::{FIRST_STRIDE, Grid};
use crate::assessment::MassAnswer;
use hardpan_quantity::Mass;
use std::cell::Cell;

/// The checks as one, the one that failed last asked first.
struct Together<'a> {
    checks: &'a [Check<'a>],
    failed: Cell<usize>,
}

impl Together<'_> {
    fn hold(&self, mass: Mass) -> bool {
        let suspect = self.failed.get();
        let order =
            std::iter::once(suspect).chain((0..self.checks.len()).filter(|i| *i != suspect));
        for index in order {
            if self.checks.get(index).is_some_and(|check| !check.holds_at(mass)) {
                self.failed.set(index);
                return false;
            }
        }
        true
    }

    /// The first check of the list that does not hold at a mass.
    fn first(&self, mass: Mass) -> Option<&Check<'_>> {
        self.checks.iter().find(|check| !check.holds_at(mass))
    }
}

/// Largest mass and the limit that sets it, as the search of every limit by
/// itself would find them; none where something is missing or no limit is
/// reached, so that limits must be searched one by one.
pub(super) fn first_limit(
    grid: &Grid,
    checks: &[Check<'_>],
    planned: Option<Mass>,
    near: Option<Mass>,
) -> Option<MassAnswer> {
    let lightest = grid.lightest();
    if checks.iter().any(|check| check.tried(lightest).is_none()) {
        return None;
    }
    let together = Together { checks, failed: Cell::new(0) };
    let answer = |limit: &Check<'_>, mass: Option<Mass>| {
        let limits = vec![limit.limit(mass)];
        Some(MassAnswer { largest: mass, limits, ..MassAnswer::none(planned) })
    };
    if let Some(limit) = together.first(lightest) {
        return answer(limit, None);
    }
    let near = near.unwrap_or(lightest);
    let (good, bad) = grid.edge(near, FIRST_STRIDE, &|mass| together.hold(mass))?;
    answer(together.first(bad)?, Some(good))
}

#[cfg(test)]
mod tests {
    use super::first_limit;
    use crate::masses::Check;
    use crate::masses::mass_search::Grid;
    use hardpan_quantity::{Mass, Quantity, kilograms};
    use proptest::prelude::*;

    proptest! {
        /// The plain search: each limit by itself from the ends of the grid, the
        /// least of them kept.
        #[test]
        fn prop_the_same_mass_and_limit_to_the_bit_as_each_searched_by_itself(
            limits in prop::collection::vec(28_000.0f64..70_000.0, 1..9),
            near in 20_000.0f64..80_000.0,
        ) {
            const CODES: [&str; 9] = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];
            let grid = Grid::new(kilograms(30_000.0), kilograms(62_400.0));
            let named = CODES.into_iter().zip(limits);
            let checks: Vec<Check<'_>> = named
                .map(|(code, limit)| Check::new(code, "", move |mass: Mass| Ok(mass.si() <= limit)))
                .collect();
            let mut plain: Option<(&str, Option<Mass>, u32)> = None;
            for check in &checks {
                let holds = |mass| check.holds_at(mass);
                let Some(bracket) = grid.bracket(&holds) else { continue };
                let bracket = grid.refined(bracket, &holds);
                if plain.is_none_or(|plain| bracket.rank() < plain.2) {
                    plain = Some((check.code, grid.largest(bracket), bracket.rank()));
                }
            }
            let found = first_limit(&grid, &checks, None, Some(kilograms(near)));
            prop_assert_eq!(found.is_some(), plain.is_some());
            if let (Some(found), Some((code, mass, _))) = (found, plain) {
                let bits = |mass: Option<Mass>| mass.map(|mass| mass.si().to_bits());
                prop_assert_eq!(bits(found.largest), bits(mass));
                prop_assert_eq!(found.set_by().map(|limit| limit.code), Some(code));
            }
        }
    }
}
