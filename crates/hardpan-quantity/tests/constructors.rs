//! Every constructor against the definition of its unit.
//!
//! Source: [NIST-SP-811] appendix B.8 and tables 6 and 9, read as quoted; the
//! factors themselves are held to it, unit by unit, in
//! `validation/cases/quantity`. Prefixes are exact by definition of the SI.

use approx::assert_relative_eq;
use hardpan_quantity::{
    Amount, BearingRatio, Dimension, Pressure, Quantity, Ratio, STANDARD_GRAVITY_M_PER_S2, Speed,
    bearing_percent, celsius, degrees, feet, hectopascals, inches, kelvins, kilograms,
    kilometres_per_hour, kilonewtons, kilopascals, knots, megajoules, megapascals, metres,
    metres_per_second, millimetres, millimetres_per_blow, newtons, pascals, percent, pounds, psi,
    ratio, seconds, square_metres, tonnes, units_of,
};
use rstest::rstest;

const ROUNDING: f64 = 1e-14;
/// Half a unit of the seventh digit, as far as the table prints.
const SEVEN_DIGITS: f64 = 5e-8;

#[rstest]
#[case(bearing_percent(12.5).si(), 12.5)]
#[case(celsius(-5.0).si(), 268.15)]
#[case(degrees(180.0).si(), std::f64::consts::PI)]
#[case(feet(1000.0).si(), 304.8)]
#[case(hectopascals(1013.25).si(), 101_325.0)]
#[case(inches(10.0).si(), 0.254)]
#[case(kelvins(288.15).si(), 288.15)]
#[case(kilograms(3.0).si(), 3.0)]
#[case(kilometres_per_hour(36.0).si(), 10.0)]
#[case(kilonewtons(2.0).si(), 2000.0)]
#[case(kilopascals(620.0).si(), 620_000.0)]
#[case(knots(3600.0).si(), 1852.0)]
#[case(megajoules(1.5).si(), 1_500_000.0)]
#[case(megapascals(1.4).si(), 1_400_000.0)]
#[case(metres(7.0).si(), 7.0)]
#[case(metres_per_second(8.0).si(), 8.0)]
#[case(millimetres(25.0).si(), 0.025)]
#[case(millimetres_per_blow(15.0).si(), 0.015)]
#[case(newtons(9.0).si(), 9.0)]
#[case(pascals(11.0).si(), 11.0)]
#[case(percent(2.0).si(), 0.02)]
#[case(pounds(1.0).si(), 0.453_592_37)]
#[case(ratio(0.02).si(), 0.02)]
#[case(seconds(13.0).si(), 13.0)]
#[case(square_metres(14.0).si(), 14.0)]
#[case(tonnes(15.0).si(), 15_000.0)]
fn exact_by_definition(#[case] computed: f64, #[case] defined: f64) {
    assert_relative_eq!(computed, defined, max_relative = ROUNDING);
}

#[test]
fn pound_per_square_inch_to_the_printed_digits() {
    assert_relative_eq!(psi(1.0).si(), 6894.757, max_relative = SEVEN_DIGITS);
}

#[test]
fn standard_gravity_is_the_defined_value() {
    assert_relative_eq!(STANDARD_GRAVITY_M_PER_S2, 9.80665, max_relative = 0.0);
}

#[test]
fn percentages_and_blows_read_back_as_written() {
    assert_relative_eq!(bearing_percent(8.0).percent(), 8.0);
    assert_relative_eq!(millimetres_per_blow(15.0).millimetres_per_blow(), 15.0);
}

#[test]
fn an_amount_gives_back_only_its_own_kind() {
    let tyre = Amount::from(psi(100.0));
    assert_eq!(tyre.dimension, Dimension::Pressure);
    assert_eq!(tyre.get::<Pressure>(), Some(psi(100.0)));
    assert_eq!(tyre.get::<Speed>(), None);
    let air = Amount::air_pressure(hectopascals(1013.25));
    assert_eq!(air.get::<Pressure>(), Some(hectopascals(1013.25)));
    assert_eq!(Amount::coefficient(0.4).get::<Ratio>(), Some(ratio(0.4)));
    assert_eq!(Amount::from(percent(40.0)).get::<BearingRatio>(), None);
}

#[test]
fn a_symbol_means_one_unit_of_a_dimension() {
    for dimension in [Dimension::Length, Dimension::Mass, Dimension::Pressure, Dimension::Speed] {
        let mut symbols: Vec<&str> = units_of(dimension).iter().map(|unit| unit.symbol).collect();
        let all = symbols.len();
        symbols.sort_unstable();
        symbols.dedup();
        assert_eq!(symbols.len(), all, "{}", dimension.name());
    }
}
