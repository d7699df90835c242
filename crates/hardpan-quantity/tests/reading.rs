//! What may be written, and what people are told when it may not.

use hardpan_quantity::{Dimension, ParseError, Pressure, Quantity, parse, parse_amount, psi};
use rstest::rstest;

/// Expected values follow from the definitions of the units: [NIST-SP-811] appendix B.8.
#[rstest]
#[case("4500 ft", Dimension::Length, 1371.6)]
#[case("1e3 m", Dimension::Length, 1000.0)]
#[case("1.5E-3 km", Dimension::Length, 1.5)]
#[case("+2 m", Dimension::Length, 2.0)]
#[case(".5 m", Dimension::Length, 0.5)]
#[case("-0.5m", Dimension::Length, -0.5)]
#[case("15t", Dimension::Mass, 15_000.0)]
#[case("  15 t  ", Dimension::Mass, 15_000.0)]
#[case("15\u{a0}t", Dimension::Mass, 15_000.0)]
#[case("12\u{a0}400 m", Dimension::Length, 12_400.0)]
#[case("1\u{202f}234\u{202f}567 m", Dimension::Length, 1_234_567.0)]
#[case("-5 degC", Dimension::Temperature, 268.15)]
#[case("\u{2212}5 °C", Dimension::Temperature, 268.15)]
#[case("50 degF", Dimension::Temperature, 283.15)]
#[case("2 %", Dimension::Ratio, 0.02)]
#[case("2%", Dimension::BearingRatio, 2.0)]
#[case("0.04", Dimension::Coefficient, 0.04)]
#[case("3", Dimension::Count, 3.0)]
#[case("15 mm/blow", Dimension::PenetrationRate, 0.015)]
#[case("29.5 inHg", Dimension::AirPressure, 99_898.475_5)]
#[case("7 m²", Dimension::Area, 7.0)]
fn a_quantity_is_read(#[case] text: &str, #[case] dimension: Dimension, #[case] si: f64) {
    let amount = parse_amount(text, dimension).expect("the text is well formed");
    assert_eq!(amount.dimension, dimension);
    assert!((amount.si - si).abs() <= 1e-12 * si.abs().max(1.0), "{text}: {}", amount.si);
}

#[test]
fn a_space_before_the_unit_is_optional() {
    assert_eq!(parse::<Pressure>("190psi"), Ok(psi(190.0)));
    assert_eq!(parse::<Pressure>("190 psi"), Ok(psi(190.0)));
}

#[rstest]
#[case("", Dimension::Length, "nothing is written where a length is expected", None)]
#[case(" \t ", Dimension::Angle, "nothing is written where an angle is expected", None)]
#[case("long", Dimension::Length, "`long` does not start with a number", None)]
#[case("- 5 m", Dimension::Length, "`- 5 m` does not start with a number", None)]
#[case("--5 m", Dimension::Length, "`--5 m` does not start with a number", None)]
#[case("NaN m", Dimension::Length, "`NaN m` is not a finite number", None)]
#[case("inf m", Dimension::Length, "`inf m` is not a finite number", None)]
#[case("-inf m", Dimension::Length, "`-inf m` is not a finite number", None)]
#[case("1e400 m", Dimension::Length, "`1e400 m` is not a finite number", None)]
#[case("1e307 km", Dimension::Length, "`1e307 km` is not a finite number", None)]
#[case(
    "190",
    Dimension::Pressure,
    "`190` has no unit; a pressure is written in kPa, psi, bar, MPa, Pa, hPa or GPa",
    None
)]
#[case("2", Dimension::Ratio, "`2` has no unit; a ratio is written in %", None)]
#[case(
    "0.04 %",
    Dimension::Coefficient,
    "a coefficient is a plain number; `%` is not wanted",
    Some("%")
)]
#[case(
    "190 kg",
    Dimension::Pressure,
    "`kg` is a unit of mass; a pressure is written in kPa, psi, bar, MPa, Pa, hPa or GPa",
    Some("kg")
)]
#[case(
    "9 kt",
    Dimension::Acceleration,
    "`kt` is a unit of speed; an acceleration is written in m/s2 or g",
    Some("kt")
)]
#[case(
    " 190 PSI ",
    Dimension::Pressure,
    "`PSI` is no unit known here; a pressure is written in kPa, psi, bar, MPa, Pa, hPa or GPa",
    Some("PSI")
)]
#[case(
    "0x10 deg",
    Dimension::Angle,
    "`x10 deg` is no unit known here; an angle is written in deg or rad",
    Some("x10 deg")
)]
#[case(
    "1,5 m",
    Dimension::Length,
    "the number of `1,5 m` is broken by a comma or a space; write 1.5 for a fraction and 1500 \
     for thousands",
    Some(",5 m")
)]
#[case(
    "12 400 m",
    Dimension::Length,
    "the number of `12 400 m` is broken by a comma or a space; write 1.5 for a fraction and 1500 \
     for thousands",
    Some("400 m")
)]
#[case(
    "12\u{a0}40 m",
    Dimension::Length,
    "the number of `12\u{a0}40 m` is broken by a comma or a space; write 1.5 for a fraction and \
     1500 for thousands",
    Some("40 m")
)]
fn a_fault_is_told(
    #[case] text: &str,
    #[case] dimension: Dimension,
    #[case] told: &str,
    #[case] points_at: Option<&str>,
) {
    let error = parse_amount(text, dimension).expect_err("the text is faulty");
    assert_eq!(error.to_string(), told);
    assert_eq!(error.span().and_then(|span| text.get(span)), points_at);
}

#[test]
fn a_typed_reading_tells_the_same() {
    let error = parse::<Pressure>("3 kg").expect_err("a mass is no pressure");
    let expected = Pressure::DIMENSION;
    assert_eq!(
        error,
        ParseError::WrongDimension {
            unit: "kg".to_owned(),
            is: Dimension::Mass,
            expected,
            at: 2..4
        }
    );
}
