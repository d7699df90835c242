//! The figures behind those that are told: what several checks rest on, each with
//! the steps to it. They are worked out when a figure is opened, and not before.

mod day;
mod grounds;
mod loads;
mod runs;
mod ruts;
mod soundings;
mod speeds;
mod surveyed;

use crate::assess::figure_basis::FigureBasis;
use crate::context::Context;
use crate::draft::plain_step;
use hardpan_model::{BasisInput, InputFrom, Source, Step};
use hardpan_quantity::Amount;

pub(crate) use grounds::layer;
pub(super) use soundings::of_soundings;

/// Every such figure of a flight.
pub(super) fn behind(context: &Context<'_>) -> Vec<FigureBasis> {
    [
        day::figures(context),
        runs::figures(context),
        loads::figures(context),
        grounds::figures(context),
        ruts::figures(context),
        soundings::figures(context),
        speeds::figures(context).into_iter().collect(),
        surveyed::figures(context).into_iter().collect(),
    ]
    .concat()
}

/// A figure of which any step may be asked for; none without a step.
fn figure(name: &str, steps: Vec<Step>) -> Option<FigureBasis> {
    let amount = steps.last()?.result;
    Some(FigureBasis::new(name, amount, steps))
}

/// Steps that stand behind `base` others: their references count on from there.
fn after(base: usize, mut steps: Vec<Step>) -> Vec<Step> {
    for input in steps.iter_mut().flat_map(|step| &mut step.inputs) {
        if let InputFrom::Step(at) = &mut input.from {
            *at += base;
        }
    }
    steps
}

/// Results of one computation: a step for each, all of the same inputs.
fn results(
    inputs: &[BasisInput],
    (how, source): (&str, Source),
    named: impl IntoIterator<Item = (&'static str, Amount)>,
) -> Vec<Step> {
    let step = |(name, amount)| plain_step(name, how, source, inputs.to_vec(), amount);
    named.into_iter().map(step).collect()
}
