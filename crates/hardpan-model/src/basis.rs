//! How a figure came about, from the answer down to the measurements.

use crate::{Formula, Origin, Source};
use hardpan_quantity::Amount;
use std::collections::BTreeSet;

/// The steps behind one figure; the last step gives the figure itself.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Basis {
    /// Steps in the order of computation.
    pub steps: Vec<Step>,
}

/// One step: a formula with its inputs and its result.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What is computed, in words.
    pub computes: String,
    /// Name of the formula, if it is in the catalogue.
    pub formula: Option<&'static str>,
    /// The formula or the rule of comparison, in symbols or words.
    pub expression: String,
    /// Where it comes from.
    pub source: Source,
    /// What went in.
    pub inputs: Vec<BasisInput>,
    /// What came out.
    pub result: Amount,
}

impl Step {
    /// A step that no formula of the catalogue does.
    #[must_use]
    pub fn new(
        computes: impl Into<String>,
        expression: impl Into<String>,
        source: Source,
        inputs: Vec<BasisInput>,
        result: impl Into<Amount>,
    ) -> Self {
        Self {
            computes: computes.into(),
            formula: None,
            expression: expression.into(),
            source,
            inputs,
            result: result.into(),
        }
    }

    /// A step with a result of a formula: its inputs in the order of the arguments, each
    /// under its symbol. What comes after them stands for no argument.
    #[must_use]
    pub fn of_formula(
        formula: &Formula,
        computes: impl Into<String>,
        mut inputs: Vec<BasisInput>,
        result: impl Into<Amount>,
    ) -> Self {
        for (input, argument) in inputs.iter_mut().zip(formula.arguments) {
            input.symbol = Some(argument.symbol);
        }
        let step = Self::new(computes, formula.expression, formula.source, inputs, result);
        Self { formula: Some(formula.name), ..step }
    }
}

/// One input of a step.
#[derive(Debug, Clone, PartialEq)]
pub struct BasisInput {
    /// Name in words.
    pub name: String,
    /// Value used.
    pub amount: Amount,
    /// Where it comes from.
    pub from: InputFrom,
    /// Symbol that stands for it in the expression of the step, if one does.
    pub symbol: Option<&'static str>,
}

impl BasisInput {
    /// An input for which no symbol stands.
    #[must_use]
    pub fn new(name: &str, amount: impl Into<Amount>, from: InputFrom) -> Self {
        Self { name: name.to_owned(), amount: amount.into(), from, symbol: None }
    }

    /// The same input under the symbol of the expression.
    #[must_use]
    pub fn under(self, symbol: &'static str) -> Self {
        Self { symbol: Some(symbol), ..self }
    }
}

/// Where an input comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum InputFrom {
    /// A value in a file, with the source that the user stated for it.
    File {
        /// Where it stands.
        origin: Origin,
        /// The user's source, if stated.
        source: Option<String>,
    },
    /// An earlier step of the same basis, by its position.
    Step(usize),
    /// A constant or a planning value of the product.
    Constant(Source),
    /// A computation that has a finding or figure of its own, named in words.
    Computed(String),
    /// Found on the way with what else goes into the step, by the way told.
    Beside(&'static str),
    /// Entries of a book that it is read or counted from, by rising numbers.
    Entries(Vec<EntryRange>),
}

/// Entries of a book one after the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct EntryRange {
    /// Number of the first.
    pub first: i64,
    /// Number of the last; the same where it is one.
    pub last: i64,
}

impl EntryRange {
    /// Numbers of entries in any order, as ranges that rise.
    #[must_use]
    pub fn of(numbers: impl IntoIterator<Item = i64>) -> Vec<Self> {
        let numbers: BTreeSet<i64> = numbers.into_iter().collect();
        let mut ranges: Vec<Self> = Vec::new();
        for number in numbers {
            match ranges.last_mut() {
                Some(range) if range.last + 1 == number => range.last = number,
                _ => ranges.push(Self { first: number, last: number }),
            }
        }
        ranges
    }
}

/// A figure that is no finding, and what it came from.
#[derive(Debug, Clone, PartialEq)]
pub struct FigureBasis {
    /// What it is, in words; distinguishes it from the others.
    pub name: String,
    /// The figure.
    pub amount: Amount,
    /// The steps behind it; the last gives the figure.
    pub basis: Basis,
}

impl FigureBasis {
    /// A figure with its steps.
    #[must_use]
    pub fn new(name: impl Into<String>, amount: impl Into<Amount>, steps: Vec<Step>) -> Self {
        Self { name: name.into(), amount: amount.into(), basis: Basis { steps } }
    }
}

#[cfg(test)]
mod tests {
    use super::EntryRange;

    #[test]
    fn entries_one_after_the_other_are_one_range() {
        let range = |first, last| EntryRange { first, last };
        assert_eq!(EntryRange::of([7, 3, 5, 6, 5]), [range(3, 3), range(5, 7)]);
        assert_eq!(EntryRange::of([]), []);
    }
}
