//! How draws that are not calculated in full are told, as formulas with their
//! sources and as a worked line.

use super::{Chance, Tally};
use crate::assessment::FigureBasis;
use crate::by_formula::catalogued;
use crate::draft::{beside, derived, plain_step};
use hardpan_model::{Argument, BasisInput, Formula, InputFrom, Source, Step, Tier};
use hardpan_quantity::{Amount, Dimension, Quantity, Ratio, ratio};

const CONTROL_VARIATE: Source = Source::new(
    "GORODETSKY-2018",
    "estimate with a control whose mean is itself of more draws; of the errors of a fit without \
     the draw",
    Tier::Secondary,
);
const LEFT_OUT: Source = Source::new("ALLEN-1974", "error at a point left out", Tier::Memory);
const LIMITS: Source = Source::new("CLOPPER-PEARSON-1934", "both limits", Tier::Memory);

/// What the methods of the draws are.
pub(crate) static FORMULAS: &[&Formula] = &[&SHARE_BY_FIT, &FIT_WITHOUT_A_POINT];

const MOST_DRAWS: f64 = 65_536.0;

const fn count(name: &'static str, symbol: &'static str, minimum: f64) -> Argument {
    Argument::new(name, symbol, Dimension::Count, minimum, MOST_DRAWS)
}

const fn coefficient(
    name: &'static str,
    symbol: &'static str,
    (low, high): (f64, f64),
) -> Argument {
    Argument::new(name, symbol, Dimension::Coefficient, low, high)
}

/// Share of all draws over a limit: what is counted, moved by what the fit errs at
/// draws that it is not fitted to.
pub(super) fn share(over: f64, under: f64, wrongly_over: f64, draws: f64, fitted_to: f64) -> f64 {
    let shift = (under - wrongly_over) * (draws - fitted_to) / fitted_to;
    ((over + shift) / draws).clamp(0.0, 1.0)
}

fn without_a_point(value: f64, said: f64, own: f64) -> f64 {
    value - (value - said) / (1.0 - own)
}

static SHARE_BY_FIT: Formula = Formula {
    name: "share-by-fit",
    computes: "share of all draws that are over a limit, most of them told by a fit",
    expression: "P = (k + (u - o) (N - n)/n)/N; at least 0 and at most 1",
    arguments: &[
        count("over_a_limit", "k", 0.0),
        count("missed_by_the_fit", "u", 0.0),
        count("wrongly_over_by_the_fit", "o", 0.0),
        count("draws", "N", 1.0),
        count("draws_fitted_to", "n", 1.0),
    ],
    result: Dimension::Ratio,
    source: CONTROL_VARIATE,
    scatter: "without bias as far as the draws fitted to are like the others; its limits add the \
              binomial limit of k among N and (N - n)/N times that of u or o among n, which is wider \
              than both together",
    evaluate: |values| match *values {
        [over, under, wrongly_over, draws, fitted_to] => {
            share(over, under, wrongly_over, draws, fitted_to)
        }
        _ => f64::NAN,
    },
};

static FIT_WITHOUT_A_POINT: Formula = Formula {
    name: "fit-without-a-point",
    computes: "what a least-squares fit to all other points says of a point",
    expression: "s' = y - (y - s)/(1 - h)",
    arguments: &[
        coefficient("value", "y", (-1e12, 1e12)),
        coefficient("said_by_the_fit", "s", (-1e12, 1e12)),
        coefficient("weight_of_the_point", "h", (0.0, 0.999_999)),
    ],
    result: Dimension::Coefficient,
    source: LEFT_OUT,
    scatter: "exact for a fit by least squares; the fit is a plane over all inputs with squares and \
              products of the six that matter most, and errs where a limit bends or jumps",
    evaluate: |values| match *values {
        [value, said, own] => without_a_point(value, said, own),
        _ => f64::NAN,
    },
};

/// Every draw is one of these.
const COUNTED: &str = "counted over the draws, each assessed afresh with its inputs as drawn";
const AS_ASKED: &str = "as asked for, up to a power of two";

fn number(name: &str, value: usize, how: &'static str) -> BasisInput {
    beside(name, Amount::count(value as f64), how)
}

/// What a probability that a fit tells was counted from.
fn inputs_by_fit(tally: &Tally) -> Vec<BasisInput> {
    let missed = "counted over the draws fitted to, each by a fit without it";
    vec![
        number("over a limit", tally.counted, COUNTED),
        number("missed by the fit", tally.missed, missed),
        number("wrongly over by the fit", tally.wrongly, missed),
        number("draws", tally.draws, AS_ASKED),
        number("draws fitted to", tally.fitted_to, "those calculated in full"),
    ]
}

/// Both limits of a probability, then the probability itself.
fn by_fit(tally: &Tally, (low, high): (Ratio, Ratio)) -> Vec<Step> {
    let Tally { counted, missed, wrongly, draws, fitted_to } = *tally;
    let found =
        share(counted as f64, missed as f64, wrongly as f64, draws as f64, fitted_to as f64);
    let limits = [("lower limit of that share", low), ("upper limit of that share", high)];
    let expression = "limit of k among N, and (N - n)/N times the upper limit of what the fit is \
                      wrong of among n, each with 95 % certainty";
    let limit = |(computes, limit): (&str, Ratio)| {
        plain_step(computes, expression, LIMITS, inputs_by_fit(tally), limit)
    };
    let found: Amount = ratio(found).into();
    let found = catalogued(&SHARE_BY_FIT, inputs_by_fit(tally), found);
    limits.map(limit).into_iter().chain([found]).collect()
}

/// The same where every draw is calculated in full.
fn in_full(computes: &str, tally: &Tally, (low, high): (Ratio, Ratio)) -> Vec<Step> {
    let inputs = || {
        vec![
            number("draws that count", tally.counted, COUNTED).under("k"),
            number("draws", tally.draws, AS_ASKED).under("N"),
        ]
    };
    let limits = [
        ("lower limit of that share", "share at which k or more of N have a chance of 5 %", low),
        ("upper limit of that share", "share at which k or fewer of N have a chance of 5 %", high),
    ];
    let limit = |(computes, expression, limit): (&str, &str, Ratio)| {
        plain_step(computes, expression, LIMITS, inputs(), limit)
    };
    let share = ratio(tally.counted as f64 / tally.draws.max(1) as f64);
    let share = plain_step(computes, "k/N", derived("share of the draws"), inputs(), share);
    limits.map(limit).into_iter().chain([share]).collect()
}

/// A probability with how it came about, under a name.
pub(super) fn of_chance(name: &str, chance: &Chance) -> FigureBasis {
    let tally = &chance.tally;
    let steps = match tally.fitted_to < tally.draws {
        true => by_fit(tally, chance.between),
        false => in_full(name, tally, chance.between),
    };
    FigureBasis::new(name, chance.share, steps)
}

/// The share of the draws in which no limit is exceeded, from those by a fit in which one
/// is.
pub(super) fn worked(exceeded: &Chance) -> FigureBasis {
    let mut steps = by_fit(&exceeded.tally, exceeded.between);
    let held = ratio(1.0 - exceeded.share.si());
    let name = "share of the draws in which no limit is exceeded";
    let over = InputFrom::Step(steps.len() - 1);
    let over = BasisInput::new("share of all draws over a limit", exceeded.share, over);
    let told = derived("one less the share in which some limit is exceeded");
    steps.push(plain_step(name, "1 - P", told, vec![over.under("P")], held));
    FigureBasis::new(name, held, steps)
}
