//! What a figure opens to, down to the files, in the reader's units.

use super::{OpenedStep, opened_steps};
use crate::Report;
use crate::report::Needed;
use hardpan_assess::Opening;
use hardpan_model::Formula;
use hardpan_quantity::UnitSystem;

/// A figure opened to the end. Steps count through from the first of its own.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct OpenedWhole {
    /// The steps of the figure itself; the last gives it.
    pub own: Vec<OpenedStep>,
    /// What they rest on: the name of the check or figure, and its steps.
    pub further: Vec<(String, Vec<OpenedStep>)>,
}

impl OpenedWhole {
    /// The number, from 1, of the first step of each part of `further`.
    #[must_use]
    pub fn first_numbers(&self) -> Vec<usize> {
        let lengths = self.further.iter().map(|(_, steps)| steps.len());
        let next = |first: &mut usize, length: usize| {
            let this = *first;
            *first += length;
            Some(this)
        };
        lengths.scan(self.own.len() + 1, next).collect()
    }
}

/// What a finding or figure of a report opens to. For `formulas` see [`super::explain`].
#[must_use]
pub fn opened_whole(report: &Report, opening: &Opening, formulas: &[&Formula]) -> OpenedWhole {
    whole(opening, formulas, report.units, &Needed::of(&report.assessment))
}

/// What a figure that is of no report opens to.
#[must_use]
pub fn opened_apart(opening: &Opening, formulas: &[&Formula], units: UnitSystem) -> OpenedWhole {
    whole(opening, formulas, units, &Needed::default())
}

fn whole(
    opening: &Opening,
    formulas: &[&Formula],
    units: UnitSystem,
    needed: &Needed,
) -> OpenedWhole {
    let opening = crate::told::opening(opening, units);
    let part = |steps: &[_]| opened_steps(steps, formulas, units, needed);
    OpenedWhole {
        own: part(&opening.own),
        further: opening
            .further
            .iter()
            .map(|one| (crate::wrap::plain(&one.of), part(&one.steps)))
            .collect(),
    }
}
