//! What repairs buy in mass: gravel and other work together, each row with more
//! mass than any that costs less.

use super::{How, Search, TradePoint, WORTH_KG, largest};
use crate::assess::Core;
use crate::measure::heavier_mass;
use crate::phrase::Phrase;
use crate::remedies::changes::{Changed, gravel, volume};
use crate::remedies::cost::Cost;
use crate::remedies::{MAIN_GROUND, Tyres, amounts_of_gravel, gravel_for};
use crate::repairs::Gravel;
use hardpan_quantity::{Mass, Quantity};

/// Amounts of gravel that are tried.
const STEPS: usize = 8;
/// Most kinds of other work that are combined with it.
const MOST_WORK: usize = 3;

/// Repairs tried together: work by its place in the list of changes, and gravel.
#[derive(Debug, Clone, Default)]
struct Repairs {
    work: Vec<usize>,
    laid: Vec<Gravel>,
}

impl Search<'_> {
    /// Gravel for rising loads with every set of other work whose cost is known
    /// and that leaves more mass.
    pub(super) fn trade(&mut self) -> Vec<TradePoint> {
        let mut amounts = vec![Vec::new()];
        // What the single change lays comes first: no other of the same price is told.
        amounts.extend(amounts_of_gravel(self.flight, &self.core));
        let masses = self.masses_carried().unwrap_or_default();
        let laid = |mass| gravel_for(self.flight, &self.core, (mass, Tyres::AtLeast));
        amounts.extend(masses.into_iter().filter_map(laid));
        let work = self.worth_doing(&amounts);
        if amounts.len() == 1 && work.is_empty() {
            return Vec::new();
        }
        let mut points = Vec::new();
        for work in subsets(&work) {
            for laid in &amounts {
                points.extend(self.traded(&Repairs { work: work.clone(), laid: laid.clone() }));
            }
        }
        unbeaten(points)
    }

    /// Work on the strip that leaves more mass, by itself or with the most gravel.
    /// None is weighed against gravel whose cost is not known.
    fn worth_doing(&mut self, amounts: &[Vec<Gravel>]) -> Vec<usize> {
        let has_gravel = amounts.iter().any(|laid| !laid.is_empty());
        if has_gravel && self.flight.options.costs.gravel_cubic_metre.is_none() {
            return Vec::new();
        }
        let is_priced = |index: &usize| {
            let change = &self.changes[*index];
            change.kind.is_repair() && !change.kind.is_gravel() && change.cost.is_some()
        };
        let priced: Vec<usize> = (0..self.changes.len()).filter(is_priced).collect();
        let extremes = [amounts.first(), amounts.last().filter(|_| has_gravel)];
        let mut spare = |work: Vec<usize>, laid: &Vec<Gravel>| {
            Some(self.traded(&Repairs { work, laid: laid.clone() })?.spare)
        };
        let before: Vec<(&Vec<Gravel>, Mass)> = extremes
            .into_iter()
            .flatten()
            .filter_map(|laid| Some((laid, spare(Vec::new(), laid)?)))
            .collect();
        let gains = |index: &usize| {
            before.iter().any(|(laid, before)| {
                spare(vec![*index], laid).is_some_and(|after| (after - *before).si() >= WORTH_KG)
            })
        };
        priced.into_iter().filter(gains).take(MOST_WORK).collect()
    }

    fn traded(&mut self, repairs: &Repairs) -> Option<TradePoint> {
        let mut changed = repairs
            .work
            .iter()
            .fold(Changed::of(self.flight), |changed, index| changed.with(&self.changes[*index]));
        changed.gravel.extend(repairs.laid.iter().copied());
        let is_planned = repairs.work.is_empty() && repairs.laid.is_empty();
        let after = (!is_planned).then(|| self.assessed(&changed, How::AsItStands));
        self.point(repairs, after.as_ref().unwrap_or(&self.core))
    }

    /// Masses that the ground is to carry, up to the structural limit, where it sets one.
    fn masses_carried(&self) -> Option<Vec<Mass>> {
        let answers = [&self.core.take_off_mass, &self.core.landing_mass];
        let limited = answers.into_iter().flatten().find(|answer| {
            answer.set_by().is_some_and(|limit| MAIN_GROUND.contains(&limit.code))
        })?;
        let planned = heavier_mass(self.flight)?;
        let first = limited.largest.map_or(planned, |mass| mass.min(planned));
        let most = self.flight.aeroplane.mass.maximum_take_off.as_ref()?.value.max(planned);
        let at = |step: usize| first + (most - first) * (step as f64 / STEPS as f64);
        Some((1..=STEPS).map(at).collect())
    }

    fn point(&self, repairs: &Repairs, core: &Core) -> Option<TradePoint> {
        let spare = [&core.take_off_mass, &core.landing_mass]
            .into_iter()
            .flatten()
            .filter_map(|answer| Some(answer.largest? - answer.planned?))
            .reduce(Mass::min)?;
        let work = repairs.work.iter().map(|index| &self.changes[*index]);
        let laid = (!repairs.laid.is_empty()).then(|| gravel(self.flight, repairs.laid.clone()));
        let made: Vec<_> = work.chain(&laid).collect();
        let actions: Vec<Phrase> = made.iter().map(|change| change.action.clone()).collect();
        let costs: Option<Vec<Cost>> = made.iter().map(|change| change.cost.clone()).collect();
        let cost = costs.map(Cost::sum);
        Some(TradePoint {
            repair: (!actions.is_empty()).then(|| Phrase::joined(&actions, "; ")),
            cubic_metres: volume(self.flight, &repairs.laid)?,
            cost: cost.as_ref().map(|cost| cost.amount),
            costed: cost.map_or_else(Vec::new, |cost| cost.steps),
            landing_mass: largest(&core.landing_mass),
            take_off_mass: largest(&core.take_off_mass),
            spare,
        })
    }
}

/// Every set of some items, the empty one first.
fn subsets(items: &[usize]) -> Vec<Vec<usize>> {
    items.iter().fold(vec![Vec::new()], |sets, item| {
        let with: Vec<Vec<usize>> = sets.iter().map(|set| [set, &[*item][..]].concat()).collect();
        [sets, with].concat()
    })
}

/// Points that no other beats in both price and mass, by rising price: the cost
/// where it is known of all, otherwise the gravel.
fn unbeaten(mut points: Vec<TradePoint>) -> Vec<TradePoint> {
    let is_priced = points.iter().all(|point| point.cost.is_some());
    let price = |point: &TradePoint| match point.cost {
        Some(cost) if is_priced => cost,
        _ => point.cubic_metres,
    };
    points
        .sort_by(|a, b| price(a).total_cmp(&price(b)).then(b.spare.si().total_cmp(&a.spare.si())));
    let mut kept: Vec<TradePoint> = Vec::new();
    for point in points {
        let gained = kept.last().map(|last| (point.spare - last.spare).si());
        if gained.is_none_or(|gained| gained >= WORTH_KG) {
            kept.push(point);
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::{TradePoint, subsets, unbeaten};
    use hardpan_quantity::{Quantity, kilograms};
    use proptest::prelude::*;

    #[test]
    fn every_set_of_work_is_tried_once() {
        let mut sets = subsets(&[1, 4, 7]);
        assert_eq!(sets.first(), Some(&Vec::new()));
        sets.sort();
        sets.dedup();
        assert_eq!(sets.len(), 8);
    }

    proptest! {
        /// Of what is kept, more money (or gravel, where no cost is known) always
        /// buys more mass, and whatever is left out is beaten by something that is
        /// kept, to within 50 kg.
        #[test]
        fn prop_no_row_is_beaten(
            rows in prop::collection::vec((0.0_f64..500.0, -3e3_f64..3e3), 1..20),
            is_priced in any::<bool>(),
        ) {
            let point = |(price, spare): &(f64, f64)| TradePoint {
                repair: None,
                cubic_metres: if is_priced { 500.0 - price } else { *price },
                cost: is_priced.then_some(*price),
                costed: Vec::new(),
                landing_mass: None,
                take_off_mass: None,
                spare: kilograms(*spare),
            };
            let price = |one: &TradePoint| one.cost.unwrap_or(one.cubic_metres);
            let kept = unbeaten(rows.iter().map(point).collect());
            for pair in kept.windows(2) {
                prop_assert!(price(&pair[0]) <= price(&pair[1]));
                prop_assert!(pair[0].spare < pair[1].spare);
            }
            for (paid, spare) in rows {
                let beats =
                    |one: &TradePoint| price(one) <= paid && one.spare.si() > spare - 50.0 - 1e-9;
                prop_assert!(kept.iter().any(beats));
            }
        }
    }
}
