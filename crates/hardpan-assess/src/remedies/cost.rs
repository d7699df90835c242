//! What a change costs, with how that came about.

use crate::draft::{beside, derived, given_as, plain_step};
use hardpan_model::{Given, Step};
use hardpan_quantity::Amount;

/// A cost in the unit of money that the user names; nothing by default.
#[derive(Debug, Clone, Default)]
pub(super) struct Cost {
    pub(super) amount: f64,
    /// One step for each thing that is paid.
    pub(super) steps: Vec<Step>,
}

impl Cost {
    /// Several costs as one.
    pub(super) fn sum(costs: impl IntoIterator<Item = Self>) -> Self {
        costs.into_iter().fold(Self::default(), |mut sum, one| {
            sum.amount += one.amount;
            sum.steps.extend(one.steps);
            sum
        })
    }
}

/// So many at a price; none where the price or the number is not known. `of` says what is
/// paid, and how its number is found.
pub(super) fn cost_of(
    price: &Option<Given<f64>>,
    many: Option<f64>,
    of: (&str, &'static str),
) -> Option<Cost> {
    let (price, many, (what, how)) = (price.as_ref()?, many?, of);
    let amount = price.value * many;
    let inputs = vec![
        beside(what, Amount::coefficient(many), how).under("n"),
        given_as("price of one", price, Amount::coefficient(price.value)).under("c"),
    ];
    let name = format!("cost of the {what}");
    let paid = derived("so many at the price of one");
    let step = plain_step(&name, "n c", paid, inputs, Amount::coefficient(amount));
    Some(Cost { amount, steps: vec![step] })
}
