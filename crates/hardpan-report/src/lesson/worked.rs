//! One figure worked by hand: a catalogued formula with the numbers in place.

use crate::explain::from_text;
use crate::explain::in_place::in_place;
use crate::measure::amount_text;
use crate::report::Needed;
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
    /// The formula with numbers in place, or why there is no such line.
    pub(super) numbers: String,
    /// Each input with its symbol and value, and where it comes from.
    pub(super) inputs: Vec<(String, String)>,
    /// The result.
    pub(super) result: String,
    /// Where the formula comes from.
    pub(super) source: String,
    /// Spread of its results.
    pub(super) scatter: String,
}

impl Worked {
    /// What is worked by hand.
    pub(super) fn title(&self) -> String {
        format!("Worked line, {}: {}", self.code, self.computes)
    }

    /// Its lines, each with its label.
    pub(super) fn lines(&self) -> Vec<(&'static str, String)> {
        let inputs = self.inputs.iter().map(|(told, from)| ("with", format!("{told}, {from}")));
        let mut lines = vec![("rule", self.expression.clone()), ("numbers", self.numbers.clone())];
        lines.extend(inputs);
        lines.push(("source", self.source.clone()));
        lines
    }
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
    let filled = in_place(step, Some(*formula), units, &Needed::default())?;
    let inputs = step.inputs.iter().zip(filled.told).map(|(input, told)| {
        let value = || format!("{} = {}", input.name, amount_text(input.amount, units));
        (plain(&told.unwrap_or_else(value)), from_text(&input.from))
    });
    Some(Worked {
        code: finding.code,
        computes: plain(&step.computes),
        formula: formula.name,
        numbers: plain(&filled.numbers),
        expression: plain(&step.expression),
        inputs: inputs.collect(),
        result: amount_text(step.result, units),
        source: step.source.to_string(),
        scatter: plain(formula.scatter),
    })
}
