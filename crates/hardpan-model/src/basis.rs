//! How a figure came about, from the answer down to the measurements.

use crate::{Origin, Source};
use hardpan_quantity::Amount;

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
}
