//! Steps of a basis that are done by a catalogued formula.

use crate::catalogue::formulas;
use crate::measured::{Known, Unavailable};
use hardpan_model::{BasisInput, Formula, Step};
use hardpan_quantity::{Amount, Quantity};

/// The step that a formula gives for its inputs, in the order of its arguments.
pub(crate) fn by_formula(name: &'static str, inputs: Vec<BasisInput>) -> Known<Step> {
    let formula = formulas()
        .into_iter()
        .find(|formula| formula.name == name)
        .ok_or_else(|| Unavailable::refused(name, &"no formula of the catalogue is named so"))?;
    let values: Vec<Amount> = inputs.iter().map(|input| input.amount).collect();
    let result =
        formula.value(&values).map_err(|error| Unavailable::refused(formula.computes, &error))?;
    Ok(catalogued(formula, inputs, result))
}

/// A step with a result of a formula, under the formula's own words.
pub(crate) fn catalogued(
    formula: &Formula,
    inputs: Vec<BasisInput>,
    result: impl Into<Amount>,
) -> Step {
    Step::of_formula(formula, formula.computes, inputs, result)
}

/// The result of a step as the quantity that its formula gives.
pub(crate) fn result_of<Q: Quantity>(step: &Step) -> Known<Q> {
    step.result.get().ok_or_else(|| Unavailable::missing(&step.computes, Vec::new()))
}
