//! What people see.
//!
//! Grouping by [ISO-80000-1] 7.3.1, from memory; the rest is our own choice of
//! units and digits, pinned here so that a change is seen.

use hardpan_quantity::{
    Amount, Dimension, Energy, Quantity, UnitSystem, celsius, degrees, feet, hectopascals,
    kilograms, kilonewtons, kilopascals, knots, megapascals, metres, millimetres,
    millimetres_per_blow, percent, pounds, psi, seconds, tell, tonnes,
};
use rstest::rstest;

#[rstest]
#[case(metres(1240.0), "1240 m", "4068 ft")]
#[case(metres(12_400.0), "12\u{a0}400 m", "40\u{a0}682 ft")]
#[case(metres(64.04), "64.0 m", "210 ft")]
#[case(metres(6.404), "6.40 m", "21.0 ft")]
#[case(millimetres(120.0), "120 mm", "4.7 in")]
#[case(feet(-5.0), "−1.52 m", "−5.0 ft")]
#[case(tonnes(15.0), "15\u{a0}000 kg", "33\u{a0}069 lb")]
#[case(pounds(3.0), "1.4 kg", "3.0 lb")]
#[case(psi(90.0), "621 kPa", "90 psi")]
#[case(megapascals(50.0), "50 MPa", "50 MPa")]
#[case(kilonewtons(12.34), "12.3 kN", "2774 lbf")]
#[case(knots(130.4), "130 kt", "130 kt")]
#[case(celsius(-5.0), "−5 °C", "23 °F")]
#[case(degrees(70.0), "70°", "70°")]
#[case(percent(1.25), "1.25 %", "1.25 %")]
#[case(Energy::from_si(13.87), "13.9 J", "13.9 J")]
#[case(Energy::from_si(999.0), "999.0 J", "999.0 J")]
#[case(Energy::from_si(1e3), "1.0 kJ", "1.0 kJ")]
#[case(Energy::from_si(-450e3), "−450.0 kJ", "−450.0 kJ")]
#[case(Energy::from_si(18.1e6), "18.1 MJ", "18.1 MJ")]
#[case(seconds(42.0), "42.0 s", "42.0 s")]
#[case(seconds(3600.0), "60 min", "60 min")]
#[case(millimetres_per_blow(15.0), "15.0 mm/blow", "0.59 in/blow")]
fn units_and_digits(
    #[case] amount: impl Into<Amount>,
    #[case] metric: &str,
    #[case] imperial: &str,
) {
    let amount: Amount = amount.into();
    assert_eq!(amount.show(UnitSystem::Metric), metric);
    assert_eq!(amount.show(UnitSystem::Imperial), imperial);
}

#[rstest]
#[case(Amount::air_pressure(hectopascals(1013.25)), "1013 hPa", "29.92 inHg")]
#[case(Amount::coefficient(0.04), "0.040", "0.040")]
#[case(Amount::count(12.0), "12", "12")]
#[case(Amount::new(Dimension::BearingRatio, 12.5), "12.5 %", "12.5 %")]
fn plain_numbers_and_air(#[case] amount: Amount, #[case] metric: &str, #[case] imperial: &str) {
    assert_eq!(amount.show(UnitSystem::Metric), metric);
    assert_eq!(amount.show(UnitSystem::Imperial), imperial);
}

#[rstest]
#[case(Amount::from(kilopascals(0.02)), "0.02 kPa")]
#[case(Amount::from(kilonewtons(0.003)), "0.003 kN")]
#[case(Amount::from(percent(0.0004)), "0.0004 %")]
#[case(Amount::from(metres(1e-7)), "0.0001 mm")]
fn a_small_value_is_not_shown_as_zero(#[case] amount: Amount, #[case] shown: &str) {
    assert_eq!(amount.show(UnitSystem::Metric), shown);
}

#[rstest]
#[case(metres(0.0))]
#[case(metres(-1e-12))]
#[case(metres(4e-8))]
fn no_length_is_told_in_metres_or_feet(#[case] length: hardpan_quantity::Length) {
    let amount = Amount::from(length);
    assert_eq!(amount.show(UnitSystem::Metric), "0 m");
    assert_eq!(amount.show(UnitSystem::Imperial), "0 ft");
}

#[rstest]
#[case(metres(0.0), millimetres(3.0), "0 mm", "0 in")]
#[case(metres(0.0), metres(2.19), "0 m", "0 ft")]
#[case(millimetres(105.0), metres(0.895), "0.10 m", "0.3 ft")]
#[case(metres(2.0), millimetres(76.0), "2000 mm", "78.7 in")]
fn a_length_beside_another_takes_its_unit(
    #[case] length: hardpan_quantity::Length,
    #[case] other: hardpan_quantity::Length,
    #[case] metric: &str,
    #[case] imperial: &str,
) {
    let beside = |system| Amount::from(length).show_beside(other.into(), system);
    assert_eq!(beside(UnitSystem::Metric), metric);
    assert_eq!(beside(UnitSystem::Imperial), imperial);
}

#[test]
fn a_value_of_another_kind_keeps_its_unit_beside() {
    let beside = Amount::from(metres(4.0)).show_beside(knots(12.0).into(), UnitSystem::Metric);
    assert_eq!(beside, "4.00 m");
}

#[test]
fn a_number_in_a_stated_unit_has_the_decimals_asked_for() {
    let amount = Amount::from(kilopascals(689.476));
    assert_eq!(amount.show_with("psi", 2), "100.00");
    assert_eq!(Amount::from(celsius(15.0)).show_with("K", 2), "288.15");
}

#[test]
fn a_value_without_bounds_says_so() {
    let show = |si| Amount::new(Dimension::Length, si).show(UnitSystem::Metric);
    assert_eq!(show(f64::INFINITY), "∞ m");
    assert_eq!(show(f64::NEG_INFINITY), "−∞ m");
    assert_eq!(show(f64::NAN), "not a number m");
}

#[test]
fn a_stretch_that_ends_where_it_begins_is_one_station() {
    let at = |from: f64, to: f64| Amount::from(metres(from)).told_to(metres(to).into());
    assert_eq!(tell(&at(1780.0, 1780.2), UnitSystem::Metric), "1780 m");
    assert_eq!(tell(&at(1780.0, 1780.2), UnitSystem::Imperial), "5840–5841 ft");
}

#[test]
fn a_sentence_is_told_in_the_units_of_the_reader() {
    let amount = |length: hardpan_quantity::Length| Amount::from(length);
    let sentence = format!(
        "brake at {}, {} to the side, from {} on",
        amount(metres(837.0)).told_to(metres(1450.0).into()),
        amount(metres(8.5)).told_signed(),
        Amount::from(knots(60.0)).told()
    );
    let shown = |system| tell(&sentence, system);
    assert_eq!(
        shown(UnitSystem::Metric),
        "brake at 837–1450 m, +8.50 m to the side, from 60 kt on"
    );
    assert_eq!(
        shown(UnitSystem::Imperial),
        "brake at 2746–4757 ft, +27.9 ft to the side, from 60 kt on"
    );
    let unread: String = sentence.chars().filter(|c| *c != '\u{2063}').collect();
    assert!(unread.starts_with("brake at 837–1450 m (2746–4757 ft), +8.50 m (+27.9 ft)"));
}

#[test]
fn a_sentence_with_broken_marks_loses_no_word() {
    for text in ["", "a\u{2063}b", "a\u{2063}b\u{2063}c", "no marks (at all)"] {
        let shown = tell(text, UnitSystem::Metric);
        let words = text.replace('\u{2063}', "");
        assert!(words.starts_with(&shown), "{shown}");
    }
}

/// The pound is 0.453 592 37 kg by definition: 41 460 kg are 91 403.66 lb.
#[test]
fn what_is_allowed_is_told_no_greater_and_what_is_needed_no_less() {
    let mass = Amount::from(kilograms(41_460.0));
    let plain = |text: &str, units| tell(text, units).replace('\u{a0}', " ");
    assert_eq!(plain(&mass.told_no_more(), UnitSystem::Imperial), "91 403 lb");
    assert_eq!(plain(&mass.told_no_less(), UnitSystem::Imperial), "91 404 lb");
    for told in [mass.told_no_more(), mass.told_no_less(), mass.told()] {
        assert_eq!(plain(&told, UnitSystem::Metric), "41 460 kg");
    }
}
