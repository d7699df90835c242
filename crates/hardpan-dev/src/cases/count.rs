//! How many cases hold.

use super::{Kind, Outcomes, State, Tier};

/// Cases of one sort, and what came of them.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Count {
    /// All of them.
    pub cases: usize,
    /// Within tolerance.
    pub pass: usize,
    /// Outside it, with a stated reason.
    pub known: usize,
}

impl Count {
    /// Count the cases of the kinds and tiers that are wanted.
    pub fn of(outcomes: &Outcomes, wanted: impl Fn(Kind, Tier) -> bool) -> Self {
        let mut count = Self::default();
        for (file, rows) in outcomes {
            for (case, row) in file.cases.iter().zip(rows) {
                if wanted(file.kind, case.tier) {
                    count.cases += 1;
                    count.pass += usize::from(row.state == State::Pass);
                    count.known += usize::from(row.state == State::KnownDisagreement);
                }
            }
        }
        count
    }

    /// Those outside tolerance without a stated reason.
    #[must_use]
    pub fn miss(self) -> usize {
        self.cases - self.pass - self.known
    }
}
