//! How draws that are not calculated in full are told, as formulas with their
//! sources and as a worked line.

use crate::assessment::FigureBasis;
use crate::by_formula::catalogued;
use crate::draft::{computed, derived, plain_step};
use hardpan_model::{Argument, Basis, Formula, Source, Tier};
use hardpan_quantity::{Amount, Dimension, Ratio, ratio};

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

/// Draws over something, and how often a fit without the draw is wrong of it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Counted {
    pub(super) over: usize,
    pub(super) missed: usize,
    pub(super) wrongly_over: usize,
    pub(super) draws: usize,
    pub(super) fitted_to: usize,
    pub(super) between: (Ratio, Ratio),
}

/// The share of the draws in which some limit is exceeded, with how it came about.
pub(super) fn worked(counted: &Counted) -> FigureBasis {
    let Counted { over, missed, wrongly_over, draws, fitted_to, between } = *counted;
    let number =
        |name: &str, value: usize, what: &str| computed(name, Amount::count(value as f64), what);
    let inputs = vec![
        number("over a limit", over, "in full, or by the fit"),
        number("missed by the fit", missed, "draws fitted to, by a fit without the draw"),
        number("wrongly over by the fit", wrongly_over, "likewise"),
        number("draws", draws, "as asked for"),
        number("draws fitted to", fitted_to, "calculated in full"),
    ];
    let found =
        share(over as f64, missed as f64, wrongly_over as f64, draws as f64, fitted_to as f64);
    let found: Amount = ratio(found).into();
    let by_fit = catalogued(&SHARE_BY_FIT, inputs, found);
    let limits =
        [("lower limit of that share", between.0), ("upper limit of that share", between.1)];
    let [low, high] = limits.map(|(computes, limit)| {
        let inputs = vec![
            number("over a limit", over, "step above"),
            number("draws", draws, "step above"),
            number("missed by the fit", missed, "step above"),
            number("wrongly over by the fit", wrongly_over, "step above"),
            number("draws fitted to", fitted_to, "step above"),
        ];
        let expression = "limit of k among N, and (N - n)/N times the upper limit of what the fit is \
                          wrong of among n, each with 95 % certainty";
        plain_step(computes, expression, LIMITS, inputs, limit)
    });
    let amount = found;
    let told = derived("one less the share in which some limit is exceeded");
    let held = ratio(1.0 - found.si);
    let held = plain_step(
        "share of the draws in which no limit is exceeded",
        "1 - P",
        told,
        vec![computed("share of all draws that are over a limit", amount, "step above")],
        held,
    );
    FigureBasis {
        name: "share of the draws in which no limit is exceeded".to_owned(),
        amount: held.result,
        basis: Basis { steps: vec![by_fit, low, high, held] },
    }
}
