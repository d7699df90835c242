//! The figures of the record, each opened: the formula with its numbers, its source, and
//! the entries that it was counted from.

mod due;
mod formulas;
mod grading;
mod passes;
mod rate;
mod ruts;
mod strip;

pub use due::opened_due;
pub use formulas::counting_formulas;
pub use passes::{LaneCoverage, opened_months};
pub use strip::opened_of_strip;

pub(crate) use ruts::opened_rut;

use hardpan_model::{BasisInput, EntryRange, FigureBasis, InputFrom, Source, Step, Tier};
use hardpan_quantity::Amount;

/// Figures by the names that their values have in JSON.
pub type Opened = Vec<(&'static str, FigureBasis)>;

/// How many there are.
const COUNTED: Source = Source::new("", "counted in the book", Tier::Derived);
/// What an entry says.
const AS_RECORDED: Source = Source::new("", "as recorded", Tier::Derived);
/// What follows from the steps before.
const ARITHMETIC: Source = Source::new("", "arithmetic", Tier::Derived);
/// Limits of a count.
const GARWOOD: Source =
    Source::new("GARWOOD-1936", "exact central limits of a Poisson mean", Tier::Secondary);
/// What the symbols of [`GARWOOD`] mean.
const QUANTILE: &str = "χ²(p, k) is the quantile of chi-square with k degrees of freedom at p";

/// A figure whose last step gives it.
fn figure(name: String, steps: Vec<Step>, otherwise: Amount) -> FigureBasis {
    let amount = steps.last().map_or(otherwise, |step| step.result);
    FigureBasis::new(name, amount, steps)
}

fn number(count: usize) -> Amount {
    Amount::count(count as f64)
}

/// A number of entries.
fn entries(name: &str, of: &[EntryRange], count: usize) -> BasisInput {
    BasisInput::new(name, number(count), InputFrom::Entries(of.to_vec()))
}

/// What one entry says.
fn entry(name: &str, amount: impl Into<Amount>, id: i64) -> BasisInput {
    BasisInput::new(name, amount, InputFrom::Entries(EntryRange::of([id])))
}

fn of_step(name: &str, amount: impl Into<Amount>, index: usize) -> BasisInput {
    BasisInput::new(name, amount, InputFrom::Step(index))
}

fn computed(name: &str, amount: impl Into<Amount>, how: &str) -> BasisInput {
    BasisInput::new(name, amount, InputFrom::Computed(how.to_owned()))
}

fn constant(name: &str, amount: impl Into<Amount>, source: Source) -> BasisInput {
    BasisInput::new(name, amount, InputFrom::Constant(source))
}

/// How many entries there are of something.
fn count_of(name: String, of: &[EntryRange], count: usize, how: &str) -> FigureBasis {
    let step = Step::new(&name, how, COUNTED, vec![entries("entries", of, count)], number(count));
    figure(name, vec![step], number(count))
}

/// Both limits of the mean of a count `n`, the part of them outside being `α`.
fn limits_of_count(
    (count, name): (usize, &str),
    outside: hardpan_quantity::Ratio,
    from: &[EntryRange],
    (lower, upper): (f64, f64),
) -> [Step; 2] {
    let inputs = || {
        let tails = "one less the confidence asked for";
        vec![entries(name, from, count).under("n"), computed("outside", outside, tails).under("α")]
    };
    let below = match count {
        0 => "0 for a count of 0".to_owned(),
        _ => format!("χ²(α / 2, 2 × n) / 2; {QUANTILE}"),
    };
    let above = format!("χ²(1 − α / 2, 2 × n + 2) / 2; {QUANTILE}");
    let low = match count {
        0 => vec![entries(name, from, count)],
        _ => inputs(),
    };
    [
        Step::new(
            "lower limit of the mean count",
            &below,
            GARWOOD,
            low,
            Amount::coefficient(lower),
        ),
        Step::new(
            "upper limit of the mean count",
            &above,
            GARWOOD,
            inputs(),
            Amount::coefficient(upper),
        ),
    ]
}
