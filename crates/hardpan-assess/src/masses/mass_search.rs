//! Searching masses on a common grid of whole steps, so that runs are shared
//! between limits, and refining only the limits that matter.

use hardpan_quantity::{Mass, Quantity, kilograms};

/// Step in which masses are found and shown.
const STEP_KG: f64 = 10.0;
/// Steps at which a limit is known well enough to be put in order.
const COARSE: u32 = 32;

/// Width of a search in which every step is dear.
const TEN_STEPS: u32 = 10;

/// A range of masses in whole steps.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Grid {
    low: f64,
    steps: u32,
}

/// Where a limit lies: it holds at one step and not at the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bracket {
    /// Last step known to hold; none when not even the lightest mass does.
    good: Option<u32>,
    /// First step known not to hold.
    bad: u32,
}

impl Grid {
    /// Whole steps from the lightest mass to the first at or above the heaviest.
    pub(crate) fn new(lightest: Mass, heaviest: Mass) -> Self {
        let low = (lightest.si() / STEP_KG).floor() * STEP_KG;
        let steps = ((heaviest.si() - low) / STEP_KG).ceil().clamp(0.0, 1e6);
        Self { low, steps: steps as u32 }
    }

    fn mass(&self, step: u32) -> Mass {
        kilograms(self.low + STEP_KG * f64::from(step))
    }

    /// The lightest mass of the grid.
    pub(crate) fn lightest(&self) -> Mass {
        self.mass(0)
    }

    /// The first step above a mass, at most the last.
    pub(crate) fn next_above(&self, mass: Mass) -> Mass {
        let step = ((mass.si() - self.low) / STEP_KG + 1e-6).floor() + 1.0;
        self.mass(step.clamp(0.0, f64::from(self.steps)) as u32)
    }

    /// A coarse bracket of the largest mass that holds; none when the heaviest does.
    pub(crate) fn bracket(&self, holds: &impl Fn(Mass) -> bool) -> Option<Bracket> {
        if holds(self.mass(self.steps)) {
            return None;
        }
        if !holds(self.mass(0)) {
            return Some(Bracket { good: None, bad: 0 });
        }
        Some(self.narrowed(Bracket { good: Some(0), bad: self.steps }, COARSE, holds))
    }

    /// The same bracket, one step wide.
    pub(crate) fn refined(&self, bracket: Bracket, holds: &impl Fn(Mass) -> bool) -> Bracket {
        self.narrowed(bracket, 1, holds)
    }

    /// Halves from the ends of the whole grid, so that every limit tries the same masses.
    fn narrowed(&self, bracket: Bracket, width: u32, holds: &impl Fn(Mass) -> bool) -> Bracket {
        let Some(mut good) = bracket.good else { return bracket };
        let mut bad = bracket.bad;
        while bad - good > width {
            let middle = good + (bad - good) / 2;
            if holds(self.mass(middle)) { good = middle } else { bad = middle }
        }
        Bracket { good: Some(good), bad }
    }

    /// The largest mass that holds, to ten steps; none when the lightest does not.
    pub(crate) fn coarsely(&self, holds: &impl Fn(Mass) -> bool) -> Option<Mass> {
        match self.bracket(holds) {
            None => Some(self.mass(self.steps)),
            Some(bracket) => self.largest(self.narrowed(bracket, TEN_STEPS, holds)),
        }
    }

    /// The largest mass of a bracket that holds.
    pub(crate) fn largest(&self, bracket: Bracket) -> Option<Mass> {
        bracket.good.map(|step| self.mass(step))
    }

    /// The largest mass that holds, to the step; the heaviest when it does.
    pub(crate) fn search(&self, heaviest: Mass, holds: impl Fn(Mass) -> bool) -> Option<Mass> {
        match self.bracket(&holds) {
            None => Some(heaviest.min(self.mass(self.steps))),
            Some(bracket) => self.largest(self.refined(bracket, &holds)),
        }
    }
}

impl Bracket {
    /// Order of limits: the one that holds least first.
    pub(crate) fn rank(&self) -> u32 {
        self.good.map_or(0, |good| good + 1)
    }

    /// Whether this limit may lie below another.
    pub(crate) fn may_precede(&self, other: &Self) -> bool {
        self.rank() <= other.bad
    }
}

#[cfg(test)]
mod tests {
    use super::Grid;
    use hardpan_quantity::{Mass, Quantity, kilograms};
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn prop_search_finds_the_last_step_that_holds(limit in 20_000.0f64..70_000.0) {
            let (low, high) = (kilograms(30_000.0), kilograms(52_000.0));
            let found = Grid::new(low, high).search(high, |mass: Mass| mass.si() <= limit);
            match found {
                None => prop_assert!(limit < 30_000.0),
                Some(mass) => {
                    let mass = mass.si();
                    prop_assert!(mass <= limit);
                    prop_assert!(limit - mass < 10.0 || mass == 52_000.0);
                }
            }
        }
    }

    #[test]
    fn a_limit_on_a_step_is_found_exactly() {
        let (low, high) = (kilograms(30_000.0), kilograms(62_400.0));
        let found = Grid::new(low, high).search(high, |mass: Mass| mass.si() <= 48_000.0);
        assert!(found.is_some_and(|mass| (mass.si() - 48_000.0).abs() < 1e-6));
    }
}
