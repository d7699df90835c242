//! The figures of what would help, each opened: what is paid and where its price stands,
//! and the largest masses of the assessment with the changes made.

use super::ways::{TradePoint, WayOut, WaysOut};
use crate::assessment::{FigureBasis, MassAnswer};
use crate::draft::{beside, computed, derived, plain_step};
use hardpan_model::{BasisInput, InputFrom, Step};
use hardpan_quantity::{Amount, Mass, Quantity, UnitSystem};

impl WaysOut {
    /// Every figure that is told, with the steps behind it.
    #[must_use]
    pub fn opened(&self) -> Vec<FigureBasis> {
        let lists = [("the shortest list", &self.shortest), ("the cheapest list", &self.cheapest)];
        let lists =
            lists.into_iter().filter_map(|(name, way)| Some((name.to_owned(), way.as_ref()?)));
        let singles = self.singles.iter().map(|way| {
            let actions: Vec<String> =
                way.actions.iter().map(|one| one.show(UnitSystem::Metric)).collect();
            (actions.join(" and "), way)
        });
        let ways = lists.chain(singles).flat_map(|(name, way)| self.of_way(&name, way));
        ways.chain(self.trade.iter().flat_map(|point| self.of_point(point))).collect()
    }

    fn of_way(&self, name: &str, way: &WayOut) -> Vec<FigureBasis> {
        let mut all: Vec<FigureBasis> =
            way.cost.map(|cost| costing(name, cost, &way.costed)).into_iter().collect();
        all.extend(self.masses(name, [way.landing_mass, way.take_off_mass]));
        if way.load_left.si() > 0.0 {
            let of = format!("load left behind by {name}");
            let planned = [(&self.landing_mass, "landing"), (&self.take_off_mass, "take-off")];
            let planned = planned.into_iter().filter_map(|(answer, word)| {
                let planned = answer.as_ref()?.planned?;
                Some(computed("mass planned", planned, &format!("planned {word} mass")))
            });
            let how = "masses planned less those that then hold, these down to whole 100 kg";
            let arithmetic = derived("difference of masses");
            let step = plain_step(&of, how, arithmetic, planned.collect(), way.load_left);
            all.push(FigureBasis::new(of, way.load_left, vec![step]));
        }
        all
    }

    fn of_point(&self, point: &TradePoint) -> Vec<FigureBasis> {
        let Some(repair) = &point.repair else { return Vec::new() };
        let name = repair.show(UnitSystem::Metric);
        let mut all: Vec<FigureBasis> =
            point.cost.map(|cost| costing(&name, cost, &point.costed)).into_iter().collect();
        all.extend(self.masses(&name, [point.landing_mass, point.take_off_mass]));
        if point.cubic_metres > 0.0 {
            let of = format!("cubic metres of gravel: {name}");
            let volume = Amount::coefficient(point.cubic_metres);
            let (what, how) = super::changes::OF_GRAVEL;
            let input = vec![beside(what, volume, how)];
            let step =
                plain_step(&of, "as it is", derived("length by width by thickness"), input, volume);
            all.push(FigureBasis::new(of, volume, vec![step]));
        }
        all
    }

    /// The largest masses with changes made, beside those as planned.
    fn masses(&self, name: &str, after: [Option<Mass>; 2]) -> Vec<FigureBasis> {
        let before = [(&self.landing_mass, "landing"), (&self.take_off_mass, "take-off")];
        let told = after.into_iter().zip(before);
        told.filter_map(|(after, (before, word))| {
            let of = format!("largest {word} mass with {name}");
            let how = "an assessment from the ground up with the changes made: `hardpan explain` of \
                       the flight changed so opens the check that sets it";
            let planned = before.as_ref().and_then(|answer: &MassAnswer| answer.largest);
            let planned =
                planned.map(|mass| computed("as planned", mass, &format!("largest {word} mass")));
            let inputs = planned.into_iter().collect();
            let step = plain_step(&of, how, derived("assessed afresh"), inputs, after?);
            Some(FigureBasis::new(of, after?, vec![step]))
        })
        .collect()
    }
}

fn costing(name: &str, cost: f64, costed: &[Step]) -> FigureBasis {
    let name = format!("cost of {name}");
    let cost = Amount::coefficient(cost);
    let part = |(at, step): (usize, &Step)| {
        BasisInput::new(&step.computes, step.result, InputFrom::Step(at))
    };
    let mut parts: Vec<BasisInput> = costed.iter().enumerate().map(part).collect();
    if parts.is_empty() {
        parts.push(beside("costs", cost, "nothing of it has a price"));
    }
    let sum = plain_step(&name, "sum of what is paid", derived("sum"), parts, cost);
    FigureBasis::new(name, cost, costed.iter().cloned().chain([sum]).collect())
}
