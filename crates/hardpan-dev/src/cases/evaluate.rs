//! Holding one case against what the product computes.

use super::written::Written;
use super::{Case, Subject};
use crate::Problem;
use hardpan_model::Formula;
use hardpan_quantity::{Amount, Dimension, parse_amount};
use std::collections::BTreeMap;

/// Rounding in the conversion of units, as a share of the expected value.
const CONVERSION_ROUNDING: f64 = 1e-12;

/// What came of one case, in words and figures for people.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// What was evaluated.
    pub subject: String,
    /// The expected value as written.
    pub expected: String,
    /// The computed value in the same unit, or why there is none.
    pub computed: String,
    /// The tolerance as written.
    pub tolerance: String,
    /// Pass, miss or known disagreement.
    pub state: State,
}

/// Whether a case holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum State {
    /// Within tolerance.
    Pass,
    /// Outside tolerance, with the reason stated in the case.
    KnownDisagreement,
    /// Outside tolerance, or a stated disagreement that does not exist.
    Miss(String),
}

/// Hold one case against the formulas.
///
/// # Errors
/// A [`Problem`] when the case names a formula or an argument that does not
/// exist, or writes an amount that cannot be read.
pub fn evaluate(path: &str, case: &Case, formulas: &[&Formula]) -> Result<Outcome, Problem> {
    let fault = |text: String| Problem::of_file(path, format!("{}: {text}", case.id));
    let (subject, dimension, computed) = match &case.subject {
        Subject::Formula { name, input } => {
            let formula = formulas
                .iter()
                .find(|formula| formula.name == name)
                .ok_or_else(|| fault(format!("no formula is named {name}")))?;
            let values = arguments(formula, input).map_err(fault)?;
            let value = formula.value(&values).map_err(|error| error.to_string());
            (name.clone(), formula.result, value)
        }
        Subject::Reading { text, dimension } => {
            let value = parse_amount(text, *dimension).map_err(|error| error.to_string());
            (text.clone(), *dimension, value)
        }
    };
    let expected = Written::value(&case.expect, dimension)
        .map_err(|error| fault(format!("expect: {error}")))?;
    let tolerance = tolerance(&case.tolerance, dimension).map_err(fault)?;
    let (shown, holds, why) = match computed {
        Ok(Amount { si, .. }) => {
            let difference = (si - expected.amount.si).abs();
            let allowed = tolerance + CONVERSION_ROUNDING * expected.amount.si.abs();
            let shown = expected.alike(si, tolerance);
            (shown, difference <= allowed, "outside the tolerance".to_owned())
        }
        Err(why) => ("no value".to_owned(), false, why),
    };
    Ok(Outcome {
        subject,
        expected: case.expect.clone(),
        computed: shown,
        tolerance: case.tolerance.clone(),
        state: state(holds, why, case.known_disagreement.is_some()),
    })
}

fn state(holds: bool, why: String, is_known_to_disagree: bool) -> State {
    match (holds, is_known_to_disagree) {
        (true, false) => State::Pass,
        (false, true) => State::KnownDisagreement,
        (false, false) => State::Miss(why),
        (true, true) => State::Miss("the stated disagreement does not exist".to_owned()),
    }
}

fn tolerance(text: &str, dimension: Dimension) -> Result<f64, String> {
    match Written::interval(text, dimension) {
        Ok(si) if si >= 0.0 => Ok(si),
        Ok(_) => Err(format!("tolerance: `{text}` is negative")),
        Err(error) => Err(format!("tolerance: {error}")),
    }
}

fn arguments(formula: &Formula, input: &BTreeMap<String, String>) -> Result<Vec<Amount>, String> {
    if let Some(stray) =
        input.keys().find(|name| formula.arguments.iter().all(|argument| argument.name != *name))
    {
        return Err(format!("{} has no argument {stray}", formula.name));
    }
    let mut values = Vec::new();
    for argument in formula.arguments {
        let text = input
            .get(argument.name)
            .ok_or_else(|| format!("{} of {} is not given", argument.name, formula.name))?;
        let value = parse_amount(text, argument.dimension)
            .map_err(|error| format!("{}: {error}", argument.name))?;
        values.push(value);
    }
    Ok(values)
}
