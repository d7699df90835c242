//! A pressure as a gauge is set to it, between the least and the greatest that it may be.

use hardpan_quantity::{Pressure, Quantity, kilopascals, psi};

/// Share of a step within which a bound counts as that step.
const WITHIN: f64 = 1e-9;
/// Most steps between two bounds that are looked at.
const MOST_STEPS: usize = 10_000;

/// The pressure nearest to one that is wanted, in whole psi, that lies between its bounds
/// both as it is and as it is told in whole kPa; in tenths where no whole one does, and
/// none where no tenth does.
pub(crate) fn set_near(
    wanted: Pressure,
    (least, most): (Pressure, Option<Pressure>),
) -> Option<Pressure> {
    [1.0, 0.1].into_iter().find_map(|step| in_steps(step, wanted, (least, most)))
}

/// The first tenth of a psi that is not below a least, neither as it is nor as it is told
/// in whole kPa: where no pressure that a gauge shows lies between the bounds.
pub(crate) fn set_above(least: Pressure) -> Pressure {
    let (tenth, told) = (psi(0.1).si(), kilopascals(1.0).si());
    let first = (least.si() / tenth - WITHIN).ceil();
    let not_below = |pressure: &f64| (pressure / told).round() * told >= least.si();
    let tenths = (0..MOST_STEPS).map(|index| (first + index as f64) * tenth);
    Pressure::from_si(tenths.into_iter().find(not_below).unwrap_or(first * tenth))
}

fn in_steps(
    step: f64,
    wanted: Pressure,
    (least, most): (Pressure, Option<Pressure>),
) -> Option<Pressure> {
    let (unit, told) = (psi(step).si(), kilopascals(step).si());
    let most = most.map_or(f64::INFINITY, Quantity::si);
    let first = (least.si() / unit - WITHIN).ceil();
    let last = most.min(wanted.si().max(least.si()) + 3.0 * unit.max(told)) / unit + WITHIN;
    let inside = |pressure: &f64| {
        let as_told = (pressure / told).round() * told;
        as_told >= least.si() - WITHIN * unit && as_told <= most + WITHIN * unit
    };
    (0..MOST_STEPS)
        .map(|index| first + index as f64)
        .take_while(|count| *count <= last)
        .map(|count| count * unit)
        .filter(inside)
        .min_by(|a, b| (a - wanted.si()).abs().total_cmp(&(b - wanted.si()).abs()))
        .map(Pressure::from_si)
}

#[cfg(test)]
mod tests {
    use super::{set_above, set_near};
    use hardpan_quantity::{Pressure, Quantity, kilopascals, psi};
    use proptest::prelude::*;

    /// By hand.
    #[test]
    fn a_least_that_binds_is_rounded_up_and_a_greatest_down() {
        let to = |wanted: f64, least: f64, most: f64| {
            set_near(psi(wanted), (psi(least), Some(psi(most)))).map(|set| set.si() / psi(1.0).si())
        };
        let near =
            |set: Option<f64>, wanted: f64| set.is_some_and(|set| (set - wanted).abs() < 1e-6);
        assert!(near(to(95.24, 95.24, 120.0), 96.0));
        assert!(near(to(119.6, 95.0, 119.6), 119.0));
        assert!(near(to(100.0, 95.0, 120.0), 100.0));
        // No whole psi lies between: tenths.
        assert!(near(to(95.4, 95.38, 95.62), 95.4));
        assert_eq!(to(95.42, 95.42, 95.43), None);
    }

    proptest! {
        #[test]
        fn prop_what_is_set_lies_between_its_bounds_in_psi_and_in_kpa(
            least in 40.0f64..200.0, width in 0.0f64..60.0, share in 0.0f64..=1.0,
        ) {
            let (least, most) = (psi(least), psi(least + width));
            let wanted = Pressure::from_si(least.si() + share * (most.si() - least.si()));
            let Some(set) = set_near(wanted, (least, Some(most))) else {
                prop_assert!(width < 0.3, "{width} psi is wide enough");
                let above = set_above(least).si();
                prop_assert!(above >= least.si() - 1e-6);
                prop_assert!((above / 1000.0).round() * 1000.0 >= least.si());
                prop_assert!(above - least.si() < psi(0.2).si());
                return Ok(());
            };
            let slack = 1e-6;
            let step = if (set.si() / psi(1.0).si()).fract().abs() < 1e-6
                || (set.si() / psi(1.0).si()).fract() > 1.0 - 1e-6 { 1.0 } else { 0.1 };
            for told in [psi(step), kilopascals(step)] {
                let shown = (set.si() / told.si()).round() * told.si();
                prop_assert!(shown >= least.si() - slack && shown <= most.si() + slack);
            }
            prop_assert!(width < 2.5 || (set.si() - wanted.si()).abs() <= psi(2.0).si());
        }
    }
}
