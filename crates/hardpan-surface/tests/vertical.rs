//! Vertical curves on grades whose radius is known.
#![allow(clippy::unwrap_used)]

use approx::assert_relative_eq;
use hardpan_quantity::{Length, Quantity, metres, percent, ratio};
use hardpan_surface::{CodeLetter, CodeNumber, vertical_curves};
use rstest::rstest;

/// A grade of `before`, a parabola of `radius` from 300 m on, and `after`.
fn grade(before: f64, after: f64, radius: f64) -> Vec<(Length, Length)> {
    let length = radius * (after - before).abs();
    let level = |x: f64| {
        let along = (x - 300.0).clamp(0.0, length);
        let bend =
            if length > 0.0 { (after - before) * along * along / (2.0 * length) } else { 0.0 };
        let past = (x - 300.0 - length).max(0.0);
        before * (x - past) + bend + after * past
    };
    (0..=240).map(|i| f64::from(i) * 5.0).map(|x| (metres(x), metres(level(x)))).collect()
}

#[rstest]
#[case(0.01, -0.01, 7_500.0)]
#[case(0.01, -0.01, 15_000.0)]
#[case(-0.01, 0.005, 30_000.0)]
fn exact_a_parabola_has_its_radius_and_its_change(
    #[case] before: f64,
    #[case] after: f64,
    #[case] radius: f64,
) {
    // Change in 30 m = 30 m / R, as the standard pairs 0.4 % with 7 500 m.
    let found = vertical_curves(&grade(before, after, radius), percent(0.02)).unwrap();
    assert_eq!(found.len(), 1);
    assert_relative_eq!(found[0].radius.si(), radius, max_relative = 1e-6);
    assert_relative_eq!(found[0].per_30_m.si(), 30.0 / radius, max_relative = 1e-6);
    assert_relative_eq!(found[0].change.si(), after - before, epsilon = 2e-4);
    let length = radius * (after - before).abs();
    assert_relative_eq!(found[0].middle().si(), 300.0 + 0.5 * length, epsilon = 5.0);
}

#[test]
fn a_straight_grade_has_no_curve_and_a_short_one_is_refused() {
    assert!(vertical_curves(&grade(0.01, 0.01, 7_500.0), percent(0.02)).unwrap().is_empty());
    let short = grade(0.0, 0.0, 1.0);
    assert!(vertical_curves(&short[..5], percent(0.02)).is_err());
    assert!(vertical_curves(&[], percent(0.02)).is_err());
    assert!(vertical_curves(&short, ratio(f64::NAN)).is_err());
}

#[test]
fn codes_change_at_their_bounds() {
    for (metres_long, code) in [
        (799.9, CodeNumber::One),
        (800.0, CodeNumber::Two),
        (1_199.9, CodeNumber::Two),
        (1_200.0, CodeNumber::Three),
        (1_800.0, CodeNumber::Four),
    ] {
        assert_eq!(CodeNumber::of_length(metres(metres_long)), code);
    }
    for (span, letter) in [
        (14.9, Some(CodeLetter::A)),
        (15.0, Some(CodeLetter::B)),
        (28.5, Some(CodeLetter::C)),
        (36.0, Some(CodeLetter::D)),
        (79.9, Some(CodeLetter::F)),
        (80.0, None),
        (f64::NAN, None),
    ] {
        assert_eq!(CodeLetter::of_span(metres(span)), letter);
    }
}
