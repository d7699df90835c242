//! Rut forecasts: monotone, and refused outside their ranges.

use hardpan_ground::{RutEstimate, RutLoading, rut_forecast};
use hardpan_model::FormulaError;
use hardpan_quantity::{Quantity, bearing_percent, kilonewtons, kilopascals, millimetres};
use proptest::prelude::*;

fn loading() -> RutLoading {
    RutLoading {
        load: kilonewtons(40.0),
        pressure: kilopascals(550.0),
        passes: 1000.0,
        thickness: millimetres(304.0),
        above: bearing_percent(20.0),
        below: bearing_percent(2.0),
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
                below: bearing_percent(below),
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
