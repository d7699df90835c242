//! Figures opened down to what was given: every step, and behind each value that
//! was computed elsewhere the steps that gave it.

mod behind;
mod follow;
mod masses;

pub(crate) use behind::layer;

use super::figure_basis::FigureBasis;
use crate::assessment::Assessment;
use crate::context::Context;
use crate::measure::Standing;
use hardpan_model::{Finding, Step};

/// What the figures of one assessment open to.
#[derive(Debug, Clone, PartialEq)]
pub struct Openings {
    findings: Vec<Finding>,
    figures: Vec<FigureBasis>,
    behind: Vec<FigureBasis>,
}

/// A figure opened to the end.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Opening {
    /// The steps of the figure itself; the last gives it.
    pub own: Vec<Step>,
    /// What they rest on, each once, in the order in which it is first asked for.
    /// Steps count through from the first of `own`.
    pub further: Vec<Further>,
    /// Inputs whose way down ends in words alone.
    pub loose_ends: Vec<String>,
}

/// Steps behind a value of an earlier step.
#[derive(Debug, Clone, PartialEq)]
pub struct Further {
    /// The finding or figure that they belong to.
    pub of: String,
    /// The steps, of which the last gives the value.
    pub steps: Vec<Step>,
}

impl Openings {
    /// What an assessment of a flight as measured opens to, with each largest mass down
    /// to the check that limits it.
    pub(crate) fn of(found: &Assessment, context: &Context<'_>, standing: &Standing) -> Self {
        let mut openings = Self::of_findings(found.findings.clone(), context);
        openings.figures.clone_from(&found.figures);
        openings.sound(context);
        for mass in masses::figures(context.flight, standing, found) {
            let same = openings.figures.iter_mut().find(|one| one.name == mass.name);
            same.into_iter().for_each(|one| one.clone_from(&mass));
        }
        openings
    }

    /// What findings alone open to.
    fn of_findings(findings: Vec<Finding>, context: &Context<'_>) -> Self {
        let mut openings = Self { findings, figures: Vec::new(), behind: behind::behind(context) };
        openings.sound(context);
        openings
    }

    /// Open soundings to their rows, wherever they go into a step.
    fn sound(&mut self, context: &Context<'_>) {
        let openings = self;
        let findings = openings.findings.iter_mut().map(|one| &mut one.basis);
        let figures = openings.figures.iter_mut().chain(&mut openings.behind);
        let strip = &context.flight.strip;
        for basis in findings.chain(figures.map(|one| &mut one.basis)) {
            behind::of_soundings(strip, &mut basis.steps);
        }
    }

    /// The same with figures that are of no assessment but rest on it, behind its own.
    pub(crate) fn with(mut self, others: &[FigureBasis], context: &Context<'_>) -> Self {
        self.figures.extend_from_slice(others);
        self.sound(context);
        self
    }

    /// The finding at `index` of the assessment; none when there is no such finding.
    #[must_use]
    pub fn of_finding(&self, index: usize) -> Option<Opening> {
        self.findings.get(index)?;
        Some(self.followed(follow::Whose::Finding(index)))
    }

    /// The figure at `index` of [`Self::figures`]; none when there is no such figure.
    #[must_use]
    pub fn of_figure(&self, index: usize) -> Option<Opening> {
        self.figures.get(index)?;
        Some(self.followed(follow::Whose::Figure(index)))
    }

    /// The figures that open, those of the assessment first.
    #[must_use]
    pub fn figures(&self) -> &[FigureBasis] {
        &self.figures
    }
}
