//! The roughness index on records with known answers.
//!
//! Sources: closed forms; the rest computed independently with NumPy and SciPy
//! (`scipy.linalg.expm`) from the equations of [ASTM-E1926] and [WTP-46].
#![allow(clippy::unwrap_used)]

use approx::assert_relative_eq;
use hardpan_model::{SurveyLine, SurveyPoint};
use hardpan_quantity::{Quantity, metres, millimetres};
use hardpan_surface::{Error, Profile, line_index, profile_index};
use proptest::prelude::*;
use rstest::rstest;

/// A record whose index is the mean over 100 m: one averaging length is added.
fn record(spacing: f64, level_mm: impl Fn(f64) -> f64) -> Profile {
    let reach = ((0.25 / spacing).round() as usize).max(1);
    let count = (100.0 / spacing).round() as usize + reach;
    let levels: Vec<_> = (0..count).map(|i| metres(level_mm(i as f64 * spacing) * 1e-3)).collect();
    Profile::evenly_spaced(metres(0.0), metres(0.0), metres(spacing), &levels).unwrap()
}

fn index(profile: &Profile) -> f64 {
    profile_index(profile).unwrap().overall.si() * 1e3
}

fn triangle(x: f64, from: f64) -> f64 {
    (10.0 * (1.0 - (x - from - 1.0).abs())).max(0.0)
}

/// At 0.10 m the average spans two and a half intervals: the printed program of
/// [WTP-46] takes three, others two, so no value is held there.
#[rstest]
#[case(0.01, 0.347_821)]
#[case(0.05, 0.348_161)]
#[case(0.25, 0.355_246)]
#[case(0.50, 0.361_719)]
fn oracle_triangle_at_20_m(#[case] spacing: f64, #[case] expected: f64) {
    assert_relative_eq!(index(&record(spacing, |x| triangle(x, 20.0))), expected, epsilon = 6e-6);
}

#[test]
fn oracle_triangle_at_10_m_meets_the_start_slope() {
    assert_relative_eq!(index(&record(0.25, |x| triangle(x, 10.0))), 0.380_792, epsilon = 1e-6);
}

#[rstest]
#[case(0.05, 0.343_666)]
#[case(0.25, 0.345_657)]
fn oracle_step_after_20_m(#[case] spacing: f64, #[case] expected: f64) {
    let step = record(spacing, |x| if x > 20.0 + 1e-9 { 10.0 } else { 0.0 });
    assert_relative_eq!(index(&step), expected, epsilon = 1e-6);
}

#[rstest]
#[case(0.05, 1.345_638)]
#[case(0.25, 1.345_535)]
#[case(0.50, 1.343_080)]
fn oracle_cosine_bump(#[case] spacing: f64, #[case] expected: f64) {
    let bump = record(spacing, |x| {
        if (20.0..=40.0).contains(&x) {
            25.0 * (1.0 - (std::f64::consts::TAU * (x - 20.0) / 20.0).cos())
        } else {
            0.0
        }
    });
    assert_relative_eq!(index(&bump), expected, epsilon = 1e-6);
}

#[rstest]
#[case(2.4, 2.693_914, 2.654_842)]
#[case(5.0, 0.929_064, 0.928_845)]
#[case(10.0, 0.500_116, 0.500_608)]
#[case(15.0, 0.385_102, 0.385_769)]
#[case(25.0, 0.117_132, 0.117_271)]
fn oracle_sine_from_the_start(#[case] wave: f64, #[case] fine: f64, #[case] coarse: f64) {
    let sine = |spacing| record(spacing, |x| (std::f64::consts::TAU * x / wave).sin());
    assert_relative_eq!(index(&sine(0.05)), fine, epsilon = 1e-6);
    assert_relative_eq!(index(&sine(0.25)), coarse, epsilon = 1e-6);
}

#[test]
fn exact_straight_grade_has_no_roughness() {
    assert!(index(&record(0.25, |x| 20.0 * x)) < 1e-9);
}

/// A measured road of 544 m at 0.25 m, by F. Šroubek, M. Šorel and J. Žák
/// (International Journal of Pavement Research and Technology, 2021, doi
/// 10.1007/s42947-021-00097-z), MIT licence. The profile is not part of this
/// repository: name the file in `HARDPAN_ROAD_PROFILE` to hold it against the
/// authors' results for its first five stretches of 100 m.
#[test]
fn val_measured_road_as_its_authors_found_it() {
    let Some(text) = std::env::var_os("HARDPAN_ROAD_PROFILE")
        .and_then(|path| std::fs::read_to_string(path).ok())
    else {
        eprintln!("not held: HARDPAN_ROAD_PROFILE names no readable profile");
        return;
    };
    let rows: Vec<Vec<f64>> = text
        .lines()
        .map(|line| line.split_whitespace().map(|cell| cell.parse().unwrap()).collect())
        .collect();
    let levels: Vec<_> = rows.iter().map(|row| metres(row[1])).collect();
    let road =
        Profile::evenly_spaced(metres(0.0), metres(rows[0][0]), metres(0.25), &levels).unwrap();
    let found = profile_index(&road).unwrap();
    let by_the_authors = [3.298_524_1, 2.442_111_8, 3.555_110_5, 4.085_536_9, 2.707_891_0];
    assert_eq!(found.segments.len(), by_the_authors.len());
    for ((_, segment), expected) in found.segments.iter().zip(by_the_authors) {
        // The authors start the car after 0.5 s, the practice after 11 m: it
        // moves the first stretch by 4e-5 m/km.
        assert_relative_eq!(segment.si() * 1e3, expected, epsilon = 5e-5);
    }
    assert_relative_eq!(found.overall.si() * 1e3, 3.335_454, epsilon = 1e-6);
}

fn line(interval: f64, level: impl Fn(f64) -> f64) -> SurveyLine {
    let points = (0..)
        .map(|index| f64::from(index) * interval)
        .take_while(|station| *station <= 200.0)
        .map(|station| SurveyPoint {
            station: metres(station),
            elevation: metres(level(station)),
            line: 1,
        })
        .collect();
    SurveyLine { offset: metres(0.0), points }
}

#[test]
fn refuses_sparse_and_noisy_surveys() {
    let rough = |x: f64| 0.01 * (x / 0.9).sin();
    let found = line_index(&line(0.25, rough), millimetres(0.5)).unwrap();
    assert_eq!(found.len(), 1);
    assert_relative_eq!(found[0].noise.si() * 1e3, 0.5 * 1.588_13, epsilon = 1e-4);
    assert!(matches!(line_index(&line(1.0, rough), millimetres(0.5)), Err(Error::TooShort { .. })));
    assert!(matches!(
        line_index(&line(0.25, rough), millimetres(10.0)),
        Err(Error::TooNoisy { .. })
    ));
    assert!(line_index(&line(0.25, rough), metres(f64::NAN)).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]
    #[test]
    fn prop_scales_and_forgets_sign_and_grade(
        levels in proptest::collection::vec(-50.0_f64..50.0, 80..200),
        factor in 0.1_f64..5.0, grade in -0.05_f64..0.05, datum in -100.0_f64..100.0,
    ) {
        let of = |change: &dyn Fn(usize, f64) -> f64| {
            let levels: Vec<_> =
                levels.iter().enumerate().map(|(i, z)| metres(change(i, z * 1e-3))).collect();
            let profile =
                Profile::evenly_spaced(metres(0.0), metres(0.0), metres(0.25), &levels).unwrap();
            profile_index(&profile).unwrap().overall.si()
        };
        let plain = of(&|_, z| z);
        prop_assert!((of(&|_, z| factor * z) - factor * plain).abs() < 1e-10);
        prop_assert!((of(&|_, z| -z) - plain).abs() < 1e-12);
        prop_assert!((of(&|i, z| z + datum + grade * 0.25 * i as f64) - plain).abs() < 1e-10);
    }
}
