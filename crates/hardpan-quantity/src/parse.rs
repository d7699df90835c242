//! Reading `"190 psi"`, `"4500 ft"`, `"-5 degC"`.

use crate::unit::{Unit, WITH_UNITS, units_of};
use crate::{Amount, Dimension, Quantity};
use std::ops::Range;
use winnow::Parser;
use winnow::ascii::float;
use winnow::error::ContextError;

/// Why a text is not the quantity asked for. `at` counts bytes from the start
/// of the text, so that the caller can point into its own file.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ParseError {
    /// Nothing was written.
    #[error("nothing is written where {} is expected", expected.with_article())]
    Empty {
        /// The kind asked for.
        expected: Dimension,
    },
    /// The text does not start with a number.
    #[error("`{read}` does not start with a number")]
    NotANumber {
        /// The text.
        read: String,
    },
    /// The number is infinite or not a number.
    #[error("`{read}` is not a finite number")]
    NotFinite {
        /// The text.
        read: String,
    },
    /// The number is broken by a comma or a space, which people read in two ways.
    #[error(
        "the number of `{read}` is broken by a comma or a space; write 1.5 for a fraction and \
         1500 for thousands"
    )]
    BrokenNumber {
        /// The text.
        read: String,
        /// Bytes from the break on.
        at: Range<usize>,
    },
    /// A number stands alone where a unit is needed.
    #[error("`{read}` has no unit; {} is written in {}", expected.with_article(), list(*expected))]
    MissingUnit {
        /// The text.
        read: String,
        /// The kind asked for.
        expected: Dimension,
    },
    /// A unit follows a plain number.
    #[error("{} is a plain number; `{unit}` is not wanted", expected.with_article())]
    UnwantedUnit {
        /// What follows the number.
        unit: String,
        /// The kind asked for.
        expected: Dimension,
        /// Bytes of the unit.
        at: Range<usize>,
    },
    /// The unit measures something else.
    #[error("`{unit}` is a unit of {}; {} is written in {}", is.name(), expected.with_article(), list(*expected))]
    WrongDimension {
        /// The unit as written.
        unit: String,
        /// What it measures.
        is: Dimension,
        /// The kind asked for.
        expected: Dimension,
        /// Bytes of the unit.
        at: Range<usize>,
    },
    /// No unit is written so.
    #[error("`{unit}` is no unit known here; {} is written in {}", expected.with_article(), list(*expected))]
    UnknownUnit {
        /// The unit as written.
        unit: String,
        /// The kind asked for.
        expected: Dimension,
        /// Bytes of the unit.
        at: Range<usize>,
    },
}

impl ParseError {
    /// The bytes of the text that are at fault; none means all of it.
    #[must_use]
    pub fn span(&self) -> Option<Range<usize>> {
        match self {
            Self::BrokenNumber { at, .. }
            | Self::UnwantedUnit { at, .. }
            | Self::WrongDimension { at, .. }
            | Self::UnknownUnit { at, .. } => Some(at.clone()),
            _ => None,
        }
    }
}

fn list(dimension: Dimension) -> String {
    let symbols: Vec<&str> = units_of(dimension)
        .iter()
        .map(|unit| unit.symbol)
        .filter(|symbol| symbol.is_ascii())
        .collect();
    match symbols.split_last() {
        None => "a plain number".to_owned(),
        Some((last, [])) => (*last).to_owned(),
        Some((last, head)) => format!("{} or {last}", head.join(", ")),
    }
}

fn named(units: &'static [Unit], symbol: &str) -> Option<&'static Unit> {
    units.iter().find(|unit| unit.symbol == symbol)
}

/// Read a typed quantity, such as `parse::<Pressure>("190 psi")`.
///
/// # Errors
/// [`ParseError`]: no number, no unit, a unit of another kind, or an unknown unit.
pub fn parse<Q: Quantity>(text: &str) -> Result<Q, ParseError> {
    parse_amount(text, Q::DIMENSION).map(|amount| Q::from_si(amount.si))
}

/// Read an amount of a dimension that is known at run time.
///
/// # Errors
/// As [`parse`].
pub fn parse_amount(text: &str, expected: Dimension) -> Result<Amount, ParseError> {
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(ParseError::Empty { expected });
    }
    let read = || trimmed.to_owned();
    let lead = text.len() - text.trim_start().len();
    let plain = plain_number(trimmed);
    let mut input = plain.as_str();
    let number: f64 = float::<_, f64, ContextError>
        .parse_next(&mut input)
        .map_err(|_| ParseError::NotANumber { read: read() })?;
    if !number.is_finite() {
        return Err(ParseError::NotFinite { read: read() });
    }
    let symbol = input.trim_start();
    let start = lead + trimmed.len() - symbol.len();
    let at = start..start + symbol.len();
    if symbol.starts_with(|c: char| c == ',' || c.is_ascii_digit()) {
        return Err(ParseError::BrokenNumber { read: read(), at });
    }
    let unit = resolve(trimmed, symbol, expected, at)?;
    let si = number * unit.factor + unit.offset;
    if si.is_finite() {
        Ok(Amount::new(expected, si))
    } else {
        Err(ParseError::NotFinite { read: read() })
    }
}

/// The text with its leading number in plain characters: a minus sign becomes a
/// hyphen, and no-break spaces between groups of three digits go. What follows
/// is unchanged.
fn plain_number(text: &str) -> String {
    let is_gap = |c: char| matches!(c, '\u{a0}' | '\u{202f}');
    let (sign, digits) = text.strip_prefix('−').map_or(("", text), |digits| ("-", digits));
    let end = digits.find(|c: char| !c.is_ascii_digit() && !is_gap(c)).unwrap_or(digits.len());
    let (head, tail) = digits.split_at(end);
    let number = head.trim_end_matches(is_gap);
    let mut groups = number.split(is_gap);
    let is_grouped = groups.next().is_some_and(|first| (1..=3).contains(&first.len()))
        && groups.all(|group| group.len() == 3);
    let kept = if is_grouped { number.replace(is_gap, "") } else { head.to_owned() };
    format!("{sign}{kept}{tail}")
}

fn resolve(
    read: &str,
    symbol: &str,
    expected: Dimension,
    at: Range<usize>,
) -> Result<Unit, ParseError> {
    const PLAIN: Unit = Unit { symbol: "", factor: 1.0, offset: 0.0 };
    match (symbol.is_empty(), expected.is_unitless()) {
        (true, true) => return Ok(PLAIN),
        (true, false) => return Err(ParseError::MissingUnit { read: read.to_owned(), expected }),
        (false, true) => {
            return Err(ParseError::UnwantedUnit { unit: symbol.to_owned(), expected, at });
        }
        (false, false) => {}
    }
    if let Some(unit) = named(units_of(expected), symbol) {
        return Ok(*unit);
    }
    let other = WITH_UNITS.iter().find(|dimension| named(units_of(**dimension), symbol).is_some());
    Err(match other {
        Some(is) => ParseError::WrongDimension { unit: symbol.to_owned(), is: *is, expected, at },
        None => ParseError::UnknownUnit { unit: symbol.to_owned(), expected, at },
    })
}
