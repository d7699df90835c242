//! One figure worked by hand: a catalogued formula with the numbers in place.

use crate::explain::{filled, from_text};
use crate::measure::amount_text;
use crate::wrap::plain;
use hardpan_assess::formulas;
use hardpan_model::{Finding, Step};
use hardpan_quantity::UnitSystem;

/// A figure worked by hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Worked {
    /// Code of the finding.
    pub(super) code: &'static str,
    /// What is computed.
    pub(super) computes: String,
    /// Name of the formula.
    pub(super) formula: &'static str,
    /// The formula.
    pub(super) expression: String,
    /// The formula with numbers in place, where all its symbols are known.
    pub(super) numbers: Option<String>,
    /// Each input with its value and where it comes from.
    pub(super) inputs: Vec<(String, String, String)>,
    /// The result.
    pub(super) result: String,
    /// Where the formula comes from.
    pub(super) source: String,
    /// Spread of its results.
    pub(super) scatter: String,
}

/// The last step of a finding that a catalogued formula gives; none without one.
pub(super) fn worked(finding: &Finding, units: UnitSystem) -> Option<Worked> {
    let catalogue = formulas();
    let known = |step: &&Step| {
        let formula = catalogue.iter().find(|formula| Some(formula.name) == step.formula);
        formula.is_some() && step.result.si.is_finite()
    };
    let step = finding.basis.steps.iter().rev().find(known)?;
    let formula = catalogue.iter().find(|formula| Some(formula.name) == step.formula)?;
    let expression = plain(&step.expression);
    let inputs = step.inputs.iter().map(|input| {
        let name = plain(&input.name).replace('_', " ");
        (name, amount_text(input.amount, units), from_text(&input.from))
    });
    Some(Worked {
        code: finding.code,
        computes: plain(&step.computes),
        formula: formula.name,
        numbers: filled(&expression, formula, step, units),
        expression,
        inputs: inputs.collect(),
        result: amount_text(step.result, units),
        source: step.source.to_string(),
        scatter: plain(formula.scatter),
    })
}
