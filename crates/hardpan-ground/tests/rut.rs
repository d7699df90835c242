//! Rut forecasts: monotone, and refused outside their ranges.

use hardpan_ground::{
    CALIBRATED_RUT, Error, PASSES_TO_RUT, RutCalibration, RutEstimate, RutLoading, rut_forecast,
};
use hardpan_model::FormulaError;
use hardpan_quantity::{
    Amount, Length, Quantity, bearing_percent, kilonewtons, kilopascals, millimetres, ratio,
};
use proptest::prelude::*;

fn loading() -> RutLoading {
    RutLoading {
        load: kilonewtons(40.0),
        pressure: kilopascals(550.0),
        passes: 1000.0,
        thickness: millimetres(304.0),
        above: bearing_percent(20.0),
        below: bearing_percent(2.0),
        over_laws: ratio(1.0),
    }
}

/// Giroud and Han from memory: 304 mm over CBR 2 holds the rut to 75 mm.
#[test]
fn oracle_both_laws_answer_inside_their_ranges() {
    let forecast = rut_forecast(&loading());
    let Ok(RutEstimate::About(rut)) = forecast.giroud_han else { panic!("{forecast:?}") };
    assert!((rut.si() - 0.075).abs() < 2e-4);
    assert!(forecast.barber.is_ok());
}

#[test]
fn each_law_refuses_for_itself() {
    let firm = rut_forecast(&RutLoading { below: bearing_percent(9.0), ..loading() });
    assert!(firm.barber.is_ok());
    assert!(matches!(
        firm.giroud_han,
        Err(FormulaError::OutOfRange { argument: "bearing_ratio_below", .. })
    ));
    let upside_down = rut_forecast(&RutLoading {
        above: bearing_percent(4.0),
        below: bearing_percent(5.0),
        ..loading()
    });
    assert!(matches!(upside_down.barber, Err(FormulaError::NoValue { .. })));
    let thin = rut_forecast(&RutLoading { thickness: millimetres(50.0), ..loading() });
    assert!(thin.barber.is_err() && thin.giroud_han.is_err());
    let nonsense = rut_forecast(&RutLoading { passes: f64::NAN, ..loading() });
    assert!(nonsense.barber.is_err() && nonsense.giroud_han.is_err());
}

#[test]
fn ruts_outside_the_calibration_are_given_as_bounds() {
    let thick = rut_forecast(&RutLoading { thickness: millimetres(900.0), ..loading() });
    assert!(matches!(thick.giroud_han, Ok(RutEstimate::Below(_))), "{thick:?}");
    let thin = rut_forecast(&RutLoading { thickness: millimetres(120.0), ..loading() });
    assert!(matches!(thin.giroud_han, Ok(RutEstimate::Above(_))), "{thin:?}");
}

proptest! {
    #[test]
    fn prop_barber_grows_with_what_harms(
        load in 10.0f64..150.0, pressure in 200.0f64..1200.0, passes in 1.0f64..2e4,
        thickness in 80.0f64..300.0, above in 12.0f64..60.0, below in 1.0f64..10.0,
        more in 1.0f64..2.0
    ) {
        let of = |load, pressure, passes, thickness, above, below| {
            rut_forecast(&RutLoading {
                load: kilonewtons(load), pressure: kilopascals(pressure), passes,
                thickness: millimetres(thickness), above: bearing_percent(above),
                below: bearing_percent(below), over_laws: ratio(1.0),
            }).barber.expect("inside").si()
        };
        let here = of(load, pressure, passes, thickness, above, below);
        prop_assert!(of(load * more, pressure, passes, thickness, above, below) >= here);
        prop_assert!(of(load, pressure * more, passes, thickness, above, below) >= here);
        prop_assert!(of(load, pressure, passes * more, thickness, above, below) >= here);
        prop_assert!(of(load, pressure, passes, thickness * more, above, below) <= here);
        prop_assert!(of(load, pressure, passes, thickness, above * more.min(1.6), below) <= here);
        prop_assert!(of(load, pressure, passes, thickness, above, below / more) >= here);
    }
}

fn pairs(rows: &[(f64, f64)]) -> Vec<(Length, Length)> {
    rows.iter().map(|(measured, law)| (millimetres(*measured), millimetres(*law))).collect()
}

/// The logarithms by hand: ln 1.5, ln 1.25, ln 1.2.
#[test]
fn exact_the_factor_is_the_mean_of_the_logarithms() {
    let found = RutCalibration::of(&pairs(&[(60.0, 40.0), (50.0, 40.0), (48.0, 40.0)]));
    let found = found.expect("three ruts");
    assert!((found.factor() - (1.5f64 * 1.25 * 1.2).cbrt()).abs() < 1e-12);
    let (low, high) = found.factor_interval(0.9).expect("an interval");
    // t of two degrees of freedom at 95 %: 2.920 in every table.
    let half = 2.920 * found.deviation_log() / 3f64.sqrt();
    assert!((low.ln() - (found.mean_log() - half)).abs() < 1e-4, "{low}");
    assert!((high.ln() - (found.mean_log() + half)).abs() < 1e-4, "{high}");
}

#[test]
fn a_calibration_refuses_what_tells_nothing() {
    assert!(matches!(
        RutCalibration::of(&pairs(&[(60.0, 40.0), (50.0, 40.0)])),
        Err(Error::OutOfRange { .. })
    ));
    for broken in [0.0, -3.0, f64::NAN] {
        let rows = pairs(&[(60.0, 40.0), (50.0, 40.0), (broken, 40.0)]);
        assert!(matches!(RutCalibration::of(&rows), Err(Error::NotPositive { .. })));
    }
}

fn predicted(found: &RutCalibration, law: f64, probability: f64) -> f64 {
    let arguments = [
        Amount::from(millimetres(law)),
        Amount::coefficient(found.mean_log()),
        Amount::coefficient(found.deviation_log()),
        Amount::count(found.size() as f64),
        Amount::coefficient(probability),
    ];
    CALIBRATED_RUT.value(&arguments).expect("in range").si
}

proptest! {
    #[test]
    fn prop_deeper_ruts_and_more_certainty_never_give_less(
        ruts in prop::collection::vec((5.0f64..150.0, 5.0f64..150.0), 3..20),
        more in 1.0f64..2.0,
        probability in 0.5f64..0.95,
    ) {
        let found = RutCalibration::of(&pairs(&ruts)).expect("three or more");
        let deeper: Vec<_> = ruts.iter().map(|(rut, law)| (rut * more, *law)).collect();
        let deeper = RutCalibration::of(&pairs(&deeper)).expect("three or more");
        let rut = predicted(&found, 40.0, probability);
        prop_assert!((predicted(&deeper, 40.0, probability) / rut / more - 1.0).abs() < 1e-9);
        prop_assert!(predicted(&found, 40.0, probability + 0.04) >= rut - 1e-12);
    }

    #[test]
    fn prop_passes_to_a_rut_invert_the_law(passes in 10.0f64..5000.0, deeper in 1.0f64..3.0) {
        let at = |passes: f64| {
            let rut = rut_forecast(&RutLoading { passes, ..loading() }).barber;
            rut.expect("in range")
        };
        let limit = at(passes) * deeper;
        let arguments =
            [at(passes).into(), Amount::coefficient(passes), Amount::from(limit)];
        let found = PASSES_TO_RUT.value(&arguments).expect("in range").si;
        prop_assume!(found < 100_000.0);
        prop_assert!((at(found).si() / limit.si() - 1.0).abs() < 1e-9);
    }
}
