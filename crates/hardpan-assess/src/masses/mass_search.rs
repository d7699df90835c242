//! Searching masses on a common grid of whole steps, so that runs are shared
//! between limits, and refining only the limits that matter.

use hardpan_quantity::{Mass, Quantity, kilograms};

/// Step in which masses are found and shown.
pub(crate) const STEP_KG: f64 = 10.0;
/// Steps at which a limit is known well enough to be put in order.
const COARSE: u32 = 32;

/// Steps to the first other mass that is tried where one is known nearby.
pub(super) const FIRST_STRIDE: u32 = 4;

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

    /// The heaviest mass of the grid.
    pub(crate) fn heaviest(&self) -> Mass {
        self.mass(self.steps)
    }

    fn step(&self, mass: Mass) -> u32 {
        ((mass.si() - self.low) / STEP_KG).round().clamp(0.0, f64::from(self.steps)) as u32
    }

    /// The largest mass that holds below one that does not, looked for in strides that
    /// double; none when none does.
    pub(crate) fn below(&self, bad: Mass, holds: &impl Fn(Mass) -> bool) -> Option<Mass> {
        let (mut bad, mut stride) = (self.step(bad), FIRST_STRIDE);
        while bad > 0 {
            let good = bad.saturating_sub(stride);
            if holds(self.mass(good)) {
                return self.largest(self.refined(Bracket { good: Some(good), bad }, holds));
            }
            (bad, stride) = (good, stride.saturating_mul(2));
        }
        None
    }

    /// The largest mass that holds between one that does and one that does not.
    pub(crate) fn between(&self, good: Mass, bad: Mass, holds: &impl Fn(Mass) -> bool) -> Mass {
        let ends = Bracket { good: Some(self.step(good)), bad: self.step(bad) };
        self.largest(self.refined(ends, holds)).unwrap_or(good)
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

    /// The last mass that holds and the first that does not, looked for from a mass
    /// in strides that double; none when the heaviest holds. The lightest is known
    /// to hold.
    pub(crate) fn edge(
        &self,
        near: Mass,
        stride: u32,
        holds: &impl Fn(Mass) -> bool,
    ) -> Option<(Mass, Mass)> {
        let start = ((near.si() - self.low) / STEP_KG).clamp(0.0, f64::from(self.steps)) as u32;
        let mut stride = stride.max(1);
        let (mut good, mut bad);
        if start == 0 || holds(self.mass(start)) {
            good = start;
            loop {
                if good == self.steps {
                    return None;
                }
                bad = good.saturating_add(stride).min(self.steps);
                if !holds(self.mass(bad)) {
                    break;
                }
                (good, stride) = (bad, stride.saturating_mul(2));
            }
        } else {
            bad = start;
            loop {
                good = bad.saturating_sub(stride);
                if good == 0 || holds(self.mass(good)) {
                    break;
                }
                (bad, stride) = (good, stride.saturating_mul(2));
            }
        }
        let found = self.narrowed(Bracket { good: Some(good), bad }, 1, holds);
        Some((self.largest(found)?, self.mass(found.bad)))
    }

    /// The largest mass of a bracket that holds.
    pub(crate) fn largest(&self, bracket: Bracket) -> Option<Mass> {
        bracket.good.map(|step| self.mass(step))
    }

    /// As [`Self::search`], for a condition that is dear to ask and cannot hold where
    /// a cheap one does not: the cheap one is searched, the dear one from there down.
    pub(crate) fn search_within(
        &self,
        heaviest: Mass,
        cheap: impl Fn(Mass) -> bool,
        dear: impl Fn(Mass) -> bool,
    ) -> Option<Mass> {
        let last = match self.bracket(&cheap) {
            None => self.steps,
            Some(bracket) => self.refined(bracket, &cheap).good?,
        };
        if dear(self.mass(last)) {
            return Some(if last == self.steps {
                heaviest.min(self.mass(last))
            } else {
                self.mass(last)
            });
        }
        self.below(self.mass(last), &dear)
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

    proptest! {
        #[test]
        fn prop_a_dear_condition_within_a_cheap_one_is_found_as_by_itself(
            cheap in 28_000.0f64..64_000.0, within in 0.0f64..3_000.0, heaviest in 40_000.0f64..52_000.0,
        ) {
            let (low, high) = (kilograms(30_000.0), kilograms(heaviest));
            let grid = Grid::new(low, high);
            let dear = |mass: Mass| mass.si() <= cheap - within;
            let plain = grid.search(high, dear);
            let found = grid.search_within(high, |mass| mass.si() <= cheap, dear);
            let bits = |mass: Option<Mass>| mass.map(|mass| mass.si().to_bits());
            prop_assert_eq!(bits(found), bits(plain));
        }
    }

    proptest! {
        #[test]
        fn prop_the_edge_is_the_same_from_everywhere(
            limit in 30_000.0f64..62_390.0, near in 20_000.0f64..70_000.0, stride in 0u32..40,
        ) {
            let grid = Grid::new(kilograms(30_000.0), kilograms(62_400.0));
            let holds = |mass: Mass| mass.si() <= limit;
            let (good, bad) = grid.edge(kilograms(near), stride, &holds).expect("reached");
            prop_assert!(holds(good) && !holds(bad));
            prop_assert!((bad.si() - good.si() - 10.0).abs() < 1e-6);
            prop_assert!(grid.edge(kilograms(near), stride, &|_| true).is_none());
        }
    }

    proptest! {
        #[test]
        fn prop_below_and_between_find_the_last_step_before_what_does_not_hold(
            from in 28_000.0f64..62_000.0, width in 400.0f64..9_000.0,
        ) {
            let grid = Grid::new(kilograms(30_000.0), kilograms(62_400.0));
            let holds = |mass: Mass| mass.si() < from || mass.si() > from + width;
            let top = kilograms((from + width).min(62_400.0));
            match grid.below(top, &holds) {
                None => prop_assert!(!holds(kilograms(30_000.0))),
                Some(found) => {
                    prop_assert!(holds(found) && !holds(found + kilograms(10.0)));
                    let between = grid.between(grid.lightest(), top, &holds);
                    prop_assert_eq!(between.si().to_bits(), found.si().to_bits());
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
