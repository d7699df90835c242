//! A published formula as data, so that people can list it and evaluate it by hand.

use crate::Source;
use hardpan_quantity::{Amount, Dimension};

/// One formula that the product uses.
#[derive(Debug, Clone, Copy)]
pub struct Formula {
    /// Permanent name, lower case with hyphens, such as `cbr-webster-1992`.
    pub name: &'static str,
    /// What it computes, in words.
    pub computes: &'static str,
    /// The formula as printed, in its printed units; after a semicolon stands what
    /// to mind, in which no symbol is to be filled in.
    pub expression: &'static str,
    /// Its arguments in order.
    pub arguments: &'static [Argument],
    /// Kind of the result.
    pub result: Dimension,
    /// Where it is published.
    pub source: Source,
    /// Spread of its results, in words with numbers.
    pub scatter: &'static str,
    /// The kernel itself, SI values in the order of the arguments.
    pub evaluate: fn(&[f64]) -> f64,
}

/// One argument of a formula.
#[derive(Debug, Clone, Copy)]
pub struct Argument {
    /// Name in words, with underscores.
    pub name: &'static str,
    /// Symbol in the expression.
    pub symbol: &'static str,
    /// Kind.
    pub dimension: Dimension,
    /// Least value for which the source holds, SI.
    pub minimum: f64,
    /// Greatest value for which the source holds, SI.
    pub maximum: f64,
    /// Unit in which the expression takes it, where only that unit will do.
    pub unit: Option<&'static str>,
}

/// Why a formula gives no value.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FormulaError {
    /// The number of values differs from the number of arguments.
    #[error("{formula} takes {wanted} arguments, {given} were given")]
    Arity {
        /// Formula name.
        formula: &'static str,
        /// Number wanted.
        wanted: usize,
        /// Number given.
        given: usize,
    },
    /// A value is of the wrong kind.
    #[error("{argument} of {formula} is a {}, not a {}", wanted.name(), given.name())]
    Kind {
        /// Formula name.
        formula: &'static str,
        /// Argument name.
        argument: &'static str,
        /// Kind wanted.
        wanted: Dimension,
        /// Kind given.
        given: Dimension,
    },
    /// A value lies outside the range for which the source holds.
    #[error(
        "{argument} of {formula} is {value}, outside the published range {minimum} to {maximum}"
    )]
    OutOfRange {
        /// Formula name.
        formula: &'static str,
        /// Argument name.
        argument: &'static str,
        /// The value, for people.
        value: String,
        /// Least allowed, for people.
        minimum: String,
        /// Greatest allowed, for people.
        maximum: String,
    },
    /// The formula has no finite value there.
    #[error("{formula} has no finite value for these arguments")]
    NoValue {
        /// Formula name.
        formula: &'static str,
    },
}

impl Formula {
    /// The value of the formula.
    ///
    /// # Errors
    /// [`FormulaError`] when the number, kind or range of the values is wrong.
    pub fn value(&self, values: &[Amount]) -> Result<Amount, FormulaError> {
        let formula = self.name;
        if values.len() != self.arguments.len() {
            return Err(FormulaError::Arity {
                formula,
                wanted: self.arguments.len(),
                given: values.len(),
            });
        }
        for (argument, value) in self.arguments.iter().zip(values) {
            argument.check(formula, *value)?;
        }
        let si: Vec<f64> = values.iter().map(|value| value.si).collect();
        let result = (self.evaluate)(&si);
        if result.is_finite() {
            Ok(Amount::new(self.result, result))
        } else {
            Err(FormulaError::NoValue { formula })
        }
    }
}

impl Argument {
    /// An argument that the expression takes in any unit.
    #[must_use]
    pub const fn new(
        name: &'static str,
        symbol: &'static str,
        dimension: Dimension,
        minimum: f64,
        maximum: f64,
    ) -> Self {
        Self { name, symbol, dimension, minimum, maximum, unit: None }
    }

    /// The same argument, printed for one unit alone.
    #[must_use]
    pub const fn printed_in(self, unit: &'static str) -> Self {
        Self { unit: Some(unit), ..self }
    }

    fn check(&self, formula: &'static str, value: Amount) -> Result<(), FormulaError> {
        if value.dimension != self.dimension {
            return Err(FormulaError::Kind {
                formula,
                argument: self.name,
                wanted: self.dimension,
                given: value.dimension,
            });
        }
        if value.si >= self.minimum && value.si <= self.maximum {
            return Ok(());
        }
        let show = |si: f64| Amount::new(self.dimension, si).show(Default::default());
        Err(FormulaError::OutOfRange {
            formula,
            argument: self.name,
            value: show(value.si),
            minimum: show(self.minimum),
            maximum: show(self.maximum),
        })
    }
}
