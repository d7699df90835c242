//! What must hold for any ground: translation, grade, scale, mirror; and no
//! panic on any number.
#![allow(clippy::unwrap_used)]

use approx::assert_relative_eq;
use hardpan_model::{Given, Strip, Survey, SurveyLine, SurveyPoint};
use hardpan_quantity::{Amount, Length, Quantity, Volume, metres, millimetres};
use hardpan_surface::{
    CodeLetter, CodeNumber, CorrugationRules, Edge, EvennessRules, EventKind, FORMULAS,
    IrregularityGrade, Profile, RoughnessClass, centre_profile, corrugations, crossfalls,
    design_grade, events, fit_spectrum, greatest_deviation, greatest_gap, irregularity_grade,
    line_index, local_slopes, made_profile, measure, mid_chord_offsets, natural_spacing, ponds,
    profile_index, resample, sight_clearance, single_events, slope_changes, spectrum,
    without_design_grade,
};
use proptest::prelude::*;

fn profile(spacing: f64, levels: &[f64]) -> Profile {
    let levels: Vec<Length> = levels.iter().map(|level| metres(*level)).collect();
    Profile::evenly_spaced(metres(0.0), metres(0.0), metres(spacing), &levels).unwrap()
}

/// Every chord, every point under it: slow and plain.
fn by_hand(levels: &[f64], intervals: usize) -> (f64, f64) {
    let (mut up, mut down) = (0.0_f64, 0.0_f64);
    for left in 0..levels.len() - intervals {
        let right = left + intervals;
        for at in left..=right {
            let share = (at - left) as f64 / intervals as f64;
            let off = levels[at] - levels[left] - (levels[right] - levels[left]) * share;
            up = up.max(off);
            down = down.max(-off);
        }
    }
    (up, down)
}

/// Every window's upper hull, point by point: slow and plain.
fn gap_by_hand(levels: &[f64], intervals: usize) -> f64 {
    let mut most = 0.0_f64;
    for from in 0..levels.len() - intervals {
        let window = &levels[from..=from + intervals];
        for (at, level) in window.iter().enumerate() {
            for (a, left) in window.iter().enumerate().take(at + 1) {
                for (b, right) in window.iter().enumerate().skip(at + 1) {
                    let line = left + (right - left) * (at - a) as f64 / (b - a) as f64;
                    let rests = window.iter().enumerate().all(|(i, z)| {
                        *z <= left + (right - left) * (i as f64 - a as f64) / (b - a) as f64 + 1e-12
                    });
                    if rests {
                        most = most.max(line - level);
                    }
                }
            }
        }
    }
    most
}

fn ground() -> impl Strategy<Value = Vec<f64>> {
    proptest::collection::vec(-0.2_f64..0.2, 40..160)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn prop_chords_agree_with_every_point_by_hand(levels in ground(), intervals in 2_usize..39) {
        let found =
            greatest_deviation(&profile(1.0, &levels), metres(intervals as f64)).unwrap();
        let (up, down) = by_hand(&levels, intervals);
        prop_assert!((found.0.si() - up).abs() < 1e-12);
        prop_assert!((found.1.si() - down).abs() < 1e-12);
    }

    #[test]
    fn prop_straightedge_agrees_with_every_hull_by_hand(
        levels in proptest::collection::vec(-0.2_f64..0.2, 20..40), intervals in 2_usize..9,
    ) {
        let found = greatest_gap(&profile(1.0, &levels), metres(intervals as f64)).unwrap();
        prop_assert!((found.si() - gap_by_hand(&levels, intervals)).abs() < 1e-12);
    }

    #[test]
    fn prop_grade_and_datum_change_no_deviation(
        levels in ground(), grade in -0.05_f64..0.05, datum in -500.0_f64..500.0,
    ) {
        let tilted: Vec<f64> =
            levels.iter().enumerate().map(|(i, z)| z + datum + grade * i as f64).collect();
        for chord in [3.0, 12.0, 30.0] {
            let plain = greatest_deviation(&profile(1.0, &levels), metres(chord)).unwrap();
            let moved = greatest_deviation(&profile(1.0, &tilted), metres(chord)).unwrap();
            prop_assert!((plain.0 - moved.0).abs() < metres(1e-9));
            prop_assert!((plain.1 - moved.1).abs() < metres(1e-9));
            let plain = greatest_gap(&profile(1.0, &levels), metres(chord)).unwrap();
            let moved = greatest_gap(&profile(1.0, &tilted), metres(chord)).unwrap();
            prop_assert!((plain - moved).abs() < metres(1e-9));
        }
        let plain = without_design_grade(&profile(1.0, &levels), metres(20.0)).unwrap();
        let moved = without_design_grade(&profile(1.0, &tilted), metres(20.0)).unwrap();
        for (a, b) in plain.levels().zip(moved.levels()) {
            prop_assert!((a.1 - b.1).abs() < metres(1e-9));
        }
    }

    #[test]
    fn prop_scaling_is_linear_and_upside_down_swaps(levels in ground(), factor in 0.1_f64..10.0) {
        let scaled: Vec<f64> = levels.iter().map(|z| factor * z).collect();
        let upside_down: Vec<f64> = levels.iter().map(|z| -z).collect();
        let chord = metres(12.0);
        let (up, down) = greatest_deviation(&profile(1.0, &levels), chord).unwrap();
        let (up2, down2) = greatest_deviation(&profile(1.0, &scaled), chord).unwrap();
        prop_assert!((up2.si() - factor * up.si()).abs() < 1e-12 * factor.max(1.0));
        prop_assert!((down2.si() - factor * down.si()).abs() < 1e-12 * factor.max(1.0));
        let (swapped, back) = greatest_deviation(&profile(1.0, &upside_down), chord).unwrap();
        prop_assert_eq!((swapped, back), (down, up));
        let list = |levels: &[f64], kind: EventKind| -> Vec<(Length, Length)> {
            let found =
                events(&profile(1.0, levels), Edge::Chord, chord, metres(0.1), 3).unwrap();
            let mut of_kind: Vec<_> =
                found.iter().filter(|e| e.kind == kind).map(|e| (e.worst, e.height)).collect();
            of_kind.truncate(1);
            of_kind
        };
        prop_assert_eq!(list(&levels, EventKind::Bump), list(&upside_down, EventKind::Rut));
    }

    #[test]
    fn prop_the_largest_event_is_the_greatest_deviation(levels in ground()) {
        let ground = profile(1.0, &levels);
        let (up, down) = greatest_deviation(&ground, metres(15.0)).unwrap();
        let found = events(&ground, Edge::Chord, metres(15.0), metres(0.05), 1).unwrap();
        prop_assert_eq!(found.first().map(|event| event.height), Some(up.max(down)));
        for event in &found {
            prop_assert!(event.from <= event.worst && event.worst <= event.to);
            prop_assert_eq!(event.exceeds, event.height > metres(0.05));
        }
    }

    #[test]
    fn prop_backwards_is_the_same_ground(levels in ground()) {
        let backwards: Vec<f64> = levels.iter().rev().copied().collect();
        for chord in [4.0, 17.0] {
            let there = greatest_deviation(&profile(1.0, &levels), metres(chord)).unwrap();
            let back = greatest_deviation(&profile(1.0, &backwards), metres(chord)).unwrap();
            prop_assert!((there.0 - back.0).abs() < metres(1e-12));
            prop_assert!((there.1 - back.1).abs() < metres(1e-12));
        }
    }

    #[test]
    fn prop_no_panic_on_any_number(
        values in proptest::collection::vec(any::<f64>(), 0..12),
        a in any::<f64>(), b in any::<f64>(), c in any::<f64>(),
    ) {
        let points = values.iter().enumerate().map(|(i, z)| SurveyPoint {
            station: metres(if i % 5 == 4 { *z } else { i as f64 }),
            elevation: metres(*z),
            line: 0,
        });
        let line = SurveyLine { offset: metres(a), points: points.collect() };
        let tame = SurveyLine {
            offset: metres(0.0),
            points: line
                .points
                .iter()
                .enumerate()
                .map(|(i, p)| SurveyPoint {
                    station: metres(i as f64),
                    elevation: metres(p.elevation.si().clamp(-1e3, 1e3)),
                    line: 0,
                })
                .collect(),
        };
        let survey = Survey {
            file: "survey.csv".into(),
            date: None,
            level_noise: Some(Given::stated("n", metres(b))),
            lines: vec![line.clone(), tame.clone(), tame.clone()],
        };
        let strip = Strip {
            length: Some(Given::stated("l", metres(c))),
            survey: Some(survey.clone()),
            ..Strip::default()
        };
        let _ = measure(&strip, &EvennessRules::default());
        let _ = centre_profile(&strip);
        for line in [&line, &tame] {
            let _ = resample(line, metres(a), metres(b));
            let _ = resample(line, metres(0.5), metres(2.0));
            let _ = natural_spacing(line, metres(c));
            let _ = local_slopes(line, metres(a), metres(b));
            let _ = slope_changes(line, metres(2.0), metres(b));
            let _ = line_index(line, metres(b));
        }
        let _ = ponds(&survey, metres(a), metres(b), metres(c));
        let _ = crossfalls(&survey, metres(a), metres(b));
        if let Ok(profile) = resample(&tame, metres(0.5), metres(2.0))
            && let Some(ground) = profile.profiles.first()
        {
            let _ = mid_chord_offsets(ground, metres(a));
            let _ = design_grade(ground, metres(b));
            let _ = sight_clearance(ground, metres(a), metres(b));
            let _ = single_events(ground, metres(c), 3);
            let _ = spectrum(ground, metres(a));
            let _ = corrugations(ground, &CorrugationRules::default());
            let _ = profile_index(ground);
            let _ = events(ground, Edge::Straightedge, metres(2.0), metres(a), 2);
        }
        for formula in FORMULAS {
            let arguments: Vec<f64> =
                (0..formula.arguments.len()).map(|i| [a, b, c][i % 3]).collect();
            let _ = (formula.evaluate)(&arguments);
        }
    }
}

#[test]
fn a_bump_and_the_ground_beside_it_are_one_event() {
    let levels: Vec<f64> = (0..1_600)
        .map(|i| f64::from(i) * 0.25)
        .map(|x| {
            if (200.0..=210.0).contains(&x) {
                0.05 * (1.0 - (std::f64::consts::TAU * (x - 200.0) / 10.0).cos())
            } else {
                0.0
            }
        })
        .collect();
    let found =
        events(&profile(0.25, &levels), Edge::Chord, metres(30.48), metres(0.03), 0).unwrap();
    assert_eq!(found.len(), 1);
}

#[test]
fn exact_design_grade_halves_the_wave_it_is_named_for() {
    let levels: Vec<f64> =
        (0..4_001).map(|i| (std::f64::consts::TAU * f64::from(i) / 240.0).sin()).collect();
    let grade = design_grade(&profile(1.0, &levels), metres(240.0)).unwrap();
    for (index, (_, level)) in grade.levels().enumerate().skip(1_000).take(2_000) {
        assert_relative_eq!(level.si(), 0.5 * levels[index], epsilon = 1e-4);
    }
}

#[test]
fn exact_legal_curve_vanishes_with_the_grade_but_the_bump_stays() {
    let curve = |x: f64| x * x / 15_000.0;
    let bump = |x: f64| if (x - 600.0).abs() < 0.6 { 0.06 } else { 0.0 };
    let levels: Vec<f64> = (0..1_201).map(f64::from).map(|x| curve(x) + bump(x)).collect();
    let plain = profile(1.0, &levels);
    let removed = without_design_grade(&plain, metres(240.0)).unwrap();
    let chord = metres(60.0);
    let (left_in, removed) =
        (greatest_deviation(&plain, chord).unwrap(), greatest_deviation(&removed, chord).unwrap());
    assert!(left_in.1.si() > 0.0599);
    assert!(left_in.0.si() < 0.0565 && removed.0.si() > 0.057);
}

#[test]
fn irregularity_table_between_and_beyond_its_rows() {
    use IrregularityGrade::{Beyond, TemporarilyAccepted, Within};
    let grade = |length: f64, mm: f64| irregularity_grade(metres(length), millimetres(mm));
    assert_eq!(grade(25.0, 62.0), Some(Within));
    assert_eq!(grade(25.0, -80.0), Some(TemporarilyAccepted));
    assert_eq!(grade(25.0, 101.0), Some(Beyond));
    assert_eq!(grade(2.9, 1.0), None);
    assert_eq!(grade(60.1, 1.0), None);
    assert_eq!(grade(f64::NAN, 1.0), None);
    assert_eq!(grade(25.0, f64::NAN), None);
}

#[test]
fn val_slope_limits_by_code() {
    // [ICAO-ANNEX-14] 3.1.13 to 3.1.19, as quoted.
    let rows = [
        (CodeNumber::One, 2.0, 2.0, 2.0, 0.4, 7_500.0),
        (CodeNumber::Two, 2.0, 2.0, 2.0, 0.4, 7_500.0),
        (CodeNumber::Three, 1.0, 1.5, 1.5, 0.2, 15_000.0),
        (CodeNumber::Four, 1.0, 1.25, 1.5, 0.1, 30_000.0),
    ];
    for (code, effective, any, change, rate, radius) in rows {
        assert_relative_eq!(code.effective_gradient().value.si(), effective / 100.0);
        assert_relative_eq!(code.any_slope().value.si(), any / 100.0);
        assert_relative_eq!(code.slope_change().value.si(), change / 100.0);
        assert_relative_eq!(code.slope_change_per_30_m().value.si(), rate / 100.0);
        assert_relative_eq!(code.vertical_radius().value.si(), radius);
        assert_relative_eq!(30.0 / radius, code.slope_change_per_30_m().value.si());
    }
    assert_relative_eq!(CodeLetter::A.crossfall().value.1.si(), 0.02);
    assert_relative_eq!(CodeLetter::C.crossfall().value.1.si(), 0.015);
    assert_relative_eq!(CodeLetter::B.sight_height().value.si(), 2.0);
}

#[test]
fn oracle_made_profiles_have_the_spectrum_and_roughness_of_their_class() {
    // Standard deviation √ΣGΔn and mean index 2.1726 m/km, deviation 0.0108
    // over 20 records of 2 km: computed independently with NumPy.
    let class = RoughnessClass::A;
    let (mut index, mut fitted, mut exponent) = (0.0, 0.0, 0.0);
    const RECORDS: u64 = 8;
    for seed in 0..RECORDS {
        let made = made_profile(class.mean(), metres(2_000.0), metres(0.05), seed).unwrap();
        let levels: Vec<f64> = made.levels().map(|(_, z)| z.si()).collect();
        let square = levels.iter().map(|z| z * z).sum::<f64>() / levels.len() as f64;
        assert_relative_eq!(square.sqrt() * 1e3, 3.850_3, epsilon = 5e-5);
        index += profile_index(&made).unwrap().overall.si() * 1e3 / RECORDS as f64;
        let lines = spectrum(&made, metres(100.0)).unwrap();
        let fit = fit_spectrum(&lines, metres(1.0), metres(20.0)).unwrap();
        fitted += fit.at_ten_metres.si() * 1e6 / RECORDS as f64;
        exponent += fit.exponent / RECORDS as f64;
    }
    assert_relative_eq!(index, 2.172_6, epsilon = 0.02);
    assert_relative_eq!(exponent, 2.0, epsilon = 0.03);
    assert_relative_eq!(fitted, 16.0, epsilon = 1.0);
}

#[test]
fn classes_by_density() {
    let class = |density: f64| RoughnessClass::of(Volume::from_si(density * 1e-6));
    assert_eq!(class(16.0), Some(RoughnessClass::A));
    assert_eq!(class(32.1), Some(RoughnessClass::B));
    assert_eq!(class(1_024.0), Some(RoughnessClass::D));
    assert_eq!(class(1e9), Some(RoughnessClass::H));
    assert_eq!(class(0.0), None);
    assert_eq!(class(f64::NAN), None);
}

#[test]
fn a_washboard_is_found_with_wavelength_height_and_extent() {
    let levels: Vec<f64> = (0..4_000)
        .map(|i| f64::from(i) * 0.1)
        .map(|x| {
            let wave = 0.012 * (std::f64::consts::TAU * x / 0.8).sin();
            0.01 * x + if (120.0..140.0).contains(&x) { wave } else { 0.0 }
        })
        .collect();
    let found = corrugations(&profile(0.1, &levels), &CorrugationRules::default());
    // Eight samples to a wave of 0.8 m: fine for the waves, too coarse for 0.3 m.
    assert!(found.is_err());
    let rules = CorrugationRules { shortest: metres(0.4), ..CorrugationRules::default() };
    let found = corrugations(&profile(0.1, &levels), &rules).unwrap();
    assert_eq!(found.len(), 1);
    assert_relative_eq!(found[0].wavelength.si(), 0.8, epsilon = 0.02);
    assert_relative_eq!(found[0].height.si(), 0.024, epsilon = 0.002);
    assert_relative_eq!(found[0].from.si(), 120.0, epsilon = 1.7);
    assert_relative_eq!(found[0].to.si(), 140.0, epsilon = 1.7);
}

#[test]
fn formula_names_are_unique_and_take_their_arguments() {
    let mut names: Vec<&str> = FORMULAS.iter().map(|formula| formula.name).collect();
    names.sort_unstable();
    let count = names.len();
    names.dedup();
    assert_eq!(names.len(), count);
    for formula in FORMULAS {
        assert!((formula.evaluate)(&[]).is_nan(), "{}", formula.name);
        let low: Vec<Amount> =
            formula.arguments.iter().map(|a| Amount::new(a.dimension, a.minimum)).collect();
        let _ = formula.value(&low);
    }
}
