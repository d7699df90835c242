//! Formulas by which figures of the record are counted, so that their numbers can be put
//! in place and worked by hand.

use super::ARITHMETIC;
use hardpan_model::{Argument, Formula};
use hardpan_quantity::Dimension;

/// Most that a count or a number of passes is taken for.
const MOST: f64 = 1e12;

const fn number(name: &'static str, symbol: &'static str, least: f64) -> Argument {
    Argument::new(name, symbol, Dimension::Coefficient, least, MOST)
}

const fn depth(name: &'static str, symbol: &'static str) -> Argument {
    Argument::new(name, symbol, Dimension::Length, -100.0, 100.0)
}

/// Events for each 1,000 movements.
pub(super) static RATE_PER_THOUSAND: Formula = Formula {
    name: "rate-per-thousand",
    computes: "events for each 1,000 movements",
    expression: "1000 × n / m",
    arguments: &[number("events", "n", 0.0), number("movements", "m", 1.0)],
    result: Dimension::Coefficient,
    source: ARITHMETIC,
    scatter: "that of the count",
    evaluate: |values| match *values {
        [events, movements] => 1000.0 * events / movements,
        _ => f64::NAN,
    },
};

/// Passes in a week.
pub(super) static PASSES_A_WEEK: Formula = Formula {
    name: "passes-a-week",
    computes: "passes in a week",
    expression: "7 × n / d",
    arguments: &[number("passes", "n", 0.0), number("days", "d", 1.0)],
    result: Dimension::Coefficient,
    source: ARITHMETIC,
    scatter: "that of the count",
    evaluate: |values| match *values {
        [passes, days] => 7.0 * passes / days,
        _ => f64::NAN,
    },
};

/// Passes until a straight line meets a depth.
pub(super) static PASSES_LEFT_BY_LINE: Formula = Formula {
    name: "passes-left-by-line",
    computes: "passes until a straight line through depths over passes meets a depth",
    expression: "X + 1000 × (D − Y) / B − P; B for each 1,000 passes, and 0 where that is past",
    arguments: &[
        number("mean_of_the_passes", "X", 0.0),
        depth("depth_that_is_the_limit", "D"),
        depth("mean_of_the_depths", "Y"),
        depth("growth_in_1000_passes", "B"),
        number("passes_so_far", "P", 0.0),
    ],
    result: Dimension::Coefficient,
    source: ARITHMETIC,
    scatter: "that of the line; its band tells it",
    evaluate: |values| match *values {
        [middle, limit, height, growth, so_far] => {
            (middle + 1000.0 * (limit - height) / growth - so_far).max(0.0)
        }
        _ => f64::NAN,
    },
};

/// Whole days in which so many passes are made.
pub(super) static DAYS_OF_PASSES: Formula = Formula {
    name: "days-of-passes",
    computes: "whole days in which so many passes are made",
    expression: "7 × N / w; rounded down to whole days",
    arguments: &[number("passes", "N", 0.0), number("passes_a_week", "w", 0.0)],
    result: Dimension::Coefficient,
    source: ARITHMETIC,
    scatter: "that of the passes",
    evaluate: |values| match *values {
        [passes, a_week] => (7.0 * passes / a_week).floor(),
        _ => f64::NAN,
    },
};

/// Formulas by which the figures of a book are counted.
#[must_use]
pub fn counting_formulas() -> Vec<&'static Formula> {
    vec![&RATE_PER_THOUSAND, &PASSES_A_WEEK, &PASSES_LEFT_BY_LINE, &DAYS_OF_PASSES]
}
