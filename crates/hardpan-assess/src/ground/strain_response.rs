//! What is left of the strain criterion of G60, for many draws of one flight.
//!
//! With the stiffness ratio of the layers fixed by the thickness of the upper one,
//! strain times the lower stiffness rests on thickness, pressure and load alone. It
//! is found once by layered response at loads 5 % apart; between them its logarithm
//! runs straight over that of the load, which errs by less than one in a thousand.

use super::two_layers::TwoLayers;
use crate::measured::{Known, Unavailable};
use hardpan_ground::{
    LegGeometry, STIFFNESS_HEUKELOM_1962, STIFFNESS_OF_GRAVEL_OVER_SOIL, STIFFNESS_TRL,
    STRAIN_ALLOWED, STRAIN_UNDER_LEG,
};
use hardpan_model::Formula;
use hardpan_quantity::{Amount, Dimension, Force, Length, Pressure, Quantity, bearing_percent};
use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

/// Ratio of neighbouring loads at which the response is found.
const APART: f64 = 1.05;
/// Lower stiffness at which it is found, Pa.
const AT_PA: f64 = 5e7;
/// Greatest bearing ratio of the law that reaches furthest, [TRL-LR1132].
pub(crate) const STIFFEST_PERCENT: f64 = 12.0;

/// Thickness, pressure and number of the load.
type Key = (u64, u64, i32);

/// Responses of one leg, each found once.
#[derive(Debug, Default)]
pub(crate) struct Strains {
    found: Mutex<BTreeMap<Key, Option<f64>>>,
}

impl Strains {
    /// Logarithm of the strain allowed over the strain.
    pub(crate) fn left(&self, place: &TwoLayers<'_>, coverages: f64) -> Known<f64> {
        let [_, below] = place.credited();
        let counted = bearing_percent(below.percent().min(STIFFEST_PERCENT));
        let by = |law: &Formula| law.value(&[counted.into()]).ok().map(|found| found.si);
        let laws = [by(&STIFFNESS_HEUKELOM_1962), by(&STIFFNESS_TRL)];
        let soft = laws.into_iter().flatten().reduce(f64::min);
        let soft = soft.ok_or_else(|| refused("no law of stiffness holds there"))?;
        let coverages = Amount::coefficient(coverages);
        let allowed = STRAIN_ALLOWED.value(&[Pressure::from_si(soft).into(), coverages]);
        let allowed = allowed.map_err(|error| refused(&error.to_string()))?.si;
        let under =
            Under { leg: &place.geometry, pressure: place.pressure, thickness: place.thickness };
        let strain = self.by_stiffness(&under, place.worst.load)? / soft;
        Ok((allowed / strain).ln())
    }

    /// Strain times the lower stiffness, Pa.
    fn by_stiffness(&self, under: &Under<'_>, load: Force) -> Known<f64> {
        let number = load.si().ln() / APART.ln();
        let below = number.floor();
        let ends = [below, below + 1.0].map(|at| self.at(under, at as i32));
        let [Some(a), Some(b)] = ends else {
            return Err(refused("layered response does not hold there"));
        };
        Ok((a.ln() + (number - below) * (b.ln() - a.ln())).exp())
    }

    fn at(&self, under: &Under<'_>, number: i32) -> Option<f64> {
        let key = (under.thickness.si().to_bits(), under.pressure.si().to_bits(), number);
        if let Some(found) = self.kept().get(&key) {
            return *found;
        }
        let found = under.response(Force::from_si(APART.powi(number)));
        self.kept().insert(key, found);
        found
    }

    /// What is kept is whole whenever a holder of the lock gives up.
    fn kept(&self) -> std::sync::MutexGuard<'_, BTreeMap<Key, Option<f64>>> {
        self.found.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// What a load stands on.
struct Under<'a> {
    leg: &'a LegGeometry,
    pressure: Pressure,
    thickness: Length,
}

impl Under<'_> {
    /// Strain times the lower stiffness, Pa, by layered response.
    fn response(&self, load: Force) -> Option<f64> {
        let soft = Pressure::from_si(AT_PA);
        let ratio = STIFFNESS_OF_GRAVEL_OVER_SOIL.value(&[soft.into(), self.thickness.into()]);
        self.strain(load, ratio.ok()?, soft).map(|strain| strain * AT_PA)
    }

    fn strain(&self, load: Force, stiff: Amount, soft: Pressure) -> Option<f64> {
        let none = Amount::new(Dimension::Length, 0.0);
        let spacing = |spacing: Option<Length>| spacing.map_or(none, Amount::from);
        let strain = STRAIN_UNDER_LEG.value(&[
            load.into(),
            Amount::count(f64::from(self.leg.wheels())),
            spacing(self.leg.spacing()),
            spacing(self.leg.tandem_spacing()),
            self.pressure.into(),
            self.thickness.into(),
            stiff,
            soft.into(),
        ]);
        Some(strain.ok()?.si).filter(|found| *found > 0.0)
    }
}

fn refused(because: &str) -> Unavailable {
    Unavailable { because: because.to_owned(), needs: Vec::new() }
}

#[cfg(test)]
mod tests {
    use super::{Strains, Under};
    use hardpan_ground::{LegGeometry, STIFFNESS_OF_GRAVEL_OVER_SOIL};
    use hardpan_quantity::{Quantity, kilonewtons, kilopascals, megapascals, metres};

    /// Against layered response itself, at its own stiffness and at others: less than
    /// one in a thousand between the loads at which it was found.
    #[test]
    fn what_lies_between_the_loads_is_the_layered_response_to_one_in_a_thousand() {
        let legs = [
            LegGeometry::of_wheels(2, Some(metres(0.6)), None),
            LegGeometry::of_wheels(4, Some(metres(0.7)), Some(metres(1.2))),
        ];
        for leg in legs.iter().map(|leg| leg.as_ref().expect("a leg")) {
            for (thickness, load, stiffness) in
                [(0.15, 93.0, 20.0), (0.15, 187.4, 60.0), (0.4, 101.3, 35.0), (0.6, 240.0, 90.0)]
            {
                let thickness = metres(thickness);
                let under = Under { leg, pressure: kilopascals(700.0), thickness };
                let (load, soft) = (kilonewtons(load), megapascals(stiffness));
                let stiff = STIFFNESS_OF_GRAVEL_OVER_SOIL.value(&[soft.into(), thickness.into()]);
                let exact = under.strain(load, stiff.expect("within"), soft).expect("within");
                let strains = Strains::default();
                let told = strains.by_stiffness(&under, load).expect("within") / soft.si();
                assert!((told / exact - 1.0).abs() < 1e-3, "{told} for {exact}");
            }
        }
    }
}
