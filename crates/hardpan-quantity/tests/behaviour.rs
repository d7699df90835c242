//! Properties: what is shown can be read again, and no text stops the reader.

use hardpan_quantity::{Amount, Dimension, UnitSystem, parse_amount, units_of};
use proptest::prelude::*;

const ALL: [Dimension; 22] = [
    Dimension::Length,
    Dimension::Area,
    Dimension::Volume,
    Dimension::Mass,
    Dimension::Force,
    Dimension::Pressure,
    Dimension::AirPressure,
    Dimension::Speed,
    Dimension::Temperature,
    Dimension::Angle,
    Dimension::Ratio,
    Dimension::Coefficient,
    Dimension::Time,
    Dimension::Acceleration,
    Dimension::Density,
    Dimension::Energy,
    Dimension::Torque,
    Dimension::Power,
    Dimension::MassFlow,
    Dimension::Count,
    Dimension::BearingRatio,
    Dimension::PenetrationRate,
];

fn dimension() -> impl Strategy<Value = Dimension> {
    proptest::sample::select(&ALL[..])
}

fn system() -> impl Strategy<Value = UnitSystem> {
    prop_oneof![Just(UnitSystem::Metric), Just(UnitSystem::Imperial)]
}

/// Numbers of every size, and texts that come close to a quantity.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        any::<String>(),
        "[ \u{a0}]{0,2}[-+−]?[0-9., e\u{a0}\u{202f}]{0,12}[ \u{a0}]?[a-zA-Z°%/²0-9]{0,8}[ ]{0,2}",
        "(nan|inf|infinity|-inf|1e999|0x1f|[.]|[-]|e5) ?(m|kg|psi)?",
    ]
}

/// Half the last digit of the shown number, in its unit.
fn half_a_digit(number: &str) -> f64 {
    let decimals = number.split_once('.').map_or(0, |(_, fraction)| fraction.len());
    0.5 * 10f64.powi(-i32::try_from(decimals).unwrap_or(i32::MAX))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn what_is_shown_can_be_read(
        dimension in dimension(),
        system in system(),
        mantissa in -10.0..10.0f64,
        exponent in -9..9i32,
    ) {
        let amount = Amount::new(dimension, mantissa * 10f64.powi(exponent));
        let shown = amount.show(system);
        let read = parse_amount(&shown, dimension).map_err(|e| TestCaseError::fail(e.to_string()))?;
        let (number, symbol) = amount.show_parts(system);
        let unit = units_of(dimension).iter().find(|unit| unit.symbol == symbol);
        let factor = unit.map_or(1.0, |unit| unit.factor);
        let allowed = half_a_digit(&number) * factor * (1.0 + 1e-9) + 1e-12 * amount.si.abs();
        prop_assert!((read.si - amount.si).abs() <= allowed, "{shown} read as {}", read.si);
    }

    #[test]
    fn no_text_stops_the_reader(text in text(), dimension in dimension()) {
        match parse_amount(&text, dimension) {
            Ok(amount) => {
                prop_assert!(amount.si.is_finite());
                prop_assert_eq!(amount.dimension, dimension);
            }
            Err(error) => {
                prop_assert!(!error.to_string().is_empty());
                if let Some(span) = error.span() {
                    prop_assert!(text.get(span).is_some_and(|part| !part.is_empty()));
                }
            }
        }
    }

    #[test]
    fn every_unit_is_read_by_its_factor(dimension in dimension(), value in -1e6..1e6f64) {
        for unit in units_of(dimension) {
            let read = parse_amount(&format!("{value} {}", unit.symbol), dimension);
            let si = read.map(|amount| amount.si);
            prop_assert_eq!(si, Ok(value * unit.factor + unit.offset));
        }
    }

    #[test]
    fn any_value_can_be_shown(dimension in dimension(), system in system(), si in any::<f64>()) {
        prop_assert!(!Amount::new(dimension, si).show(system).is_empty());
    }
}
