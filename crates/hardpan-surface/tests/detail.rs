//! Standing water and the rest of the detail on invented strips.
#![allow(clippy::unwrap_used)]

use approx::assert_relative_eq;
use hardpan_model::{Given, Strip, Survey, SurveyLine, SurveyPoint};
use hardpan_quantity::{Quantity, metres, millimetres};
use hardpan_surface::{DetailRules, Error, detail, ponds};

fn survey(offsets: &[f64], interval: f64, level: impl Fn(f64, f64) -> f64) -> Survey {
    let line = |offset: f64| SurveyLine {
        offset: metres(offset),
        points: (0..=(200.0 / interval) as u32)
            .map(|i| SurveyPoint {
                station: metres(f64::from(i) * interval),
                elevation: metres(level(f64::from(i) * interval, offset)),
                line: i,
            })
            .collect(),
    };
    Survey {
        file: "survey.csv".into(),
        date: None,
        level_noise: Some(Given::stated("survey.level_noise", millimetres(0.3))),
        lines: offsets.iter().map(|offset| line(*offset)).collect(),
    }
}

/// A flat box 0.05 m deep, 20 m long and two lines wide, in a plane.
fn boxed(x: f64, y: f64) -> f64 {
    if (100.0..=120.0).contains(&x) && (0.0..=1.0).contains(&y) { -0.05 } else { 0.0 }
}

const OFFSETS: [f64; 6] = [-2.0, -1.0, 0.0, 1.0, 2.0, 3.0];

#[test]
fn exact_a_box_fills_to_its_brim() {
    let found =
        ponds(&survey(&OFFSETS, 1.0, boxed), metres(1.0), metres(1.0), millimetres(10.0)).unwrap();
    assert_eq!(found.len(), 1);
    let pond = found[0];
    assert_relative_eq!(pond.depth.si(), 0.05, epsilon = 1e-12);
    assert_eq!((pond.from.si(), pond.to.si()), (100.0, 120.0));
    assert_eq!((pond.left.si(), pond.right.si()), (0.0, 1.0));
    assert_relative_eq!(pond.area.si(), 42.0, epsilon = 1e-9);
    assert_relative_eq!(pond.volume.si(), 2.1, epsilon = 1e-9);
}

#[test]
fn exact_a_slope_lowers_the_brim_and_a_steep_one_drains_it() {
    let sloped = |grade: f64| {
        let level = move |x: f64, y: f64| boxed(x, y) + grade * y;
        ponds(&survey(&OFFSETS, 1.0, level), metres(1.0), metres(1.0), millimetres(1.0)).unwrap()
    };
    // Along the downhill line of the box the brim is one line lower.
    let found = sloped(0.02);
    assert_relative_eq!(found[0].depth.si(), 0.05 - 0.02, epsilon = 1e-9);
    assert!(sloped(0.06).is_empty());
}

#[test]
fn no_pond_is_claimed_without_levels_around_it() {
    let plain = survey(&OFFSETS[..2], 1.0, boxed);
    assert!(matches!(
        ponds(&plain, metres(1.0), metres(1.0), millimetres(1.0)),
        Err(Error::TooFewLines { lines: 2, needed: 3 })
    ));
    let sparse = survey(&OFFSETS, 10.0, boxed);
    assert!(ponds(&sparse, metres(1.0), metres(1.0), millimetres(1.0)).unwrap().is_empty());
}

#[test]
fn every_part_says_why_it_is_missing() {
    let strip = |survey| Strip { survey: Some(survey), ..Strip::default() };
    let wave = |x: f64, _: f64| 0.01 * (std::f64::consts::TAU * x / 0.8).sin();
    let dense = detail(&strip(survey(&[0.0], 0.05, wave)), &DetailRules::default()).unwrap();
    let line = &dense.lines[0];
    assert!(line.roughness.as_ref().unwrap().is_ok());
    assert_relative_eq!(line.corrugation.as_ref().unwrap()[0].wavelength.si(), 0.8, epsilon = 0.01);
    assert!(!line.irregularities.as_ref().unwrap().worst.is_empty());
    let one = ponds(&survey(&[0.0], 0.05, wave), metres(1.0), metres(5.0), millimetres(10.0));
    assert!(matches!(one, Err(Error::TooFewLines { .. })));
    let coarse = detail(&strip(survey(&[0.0], 5.0, wave)), &DetailRules::default()).unwrap();
    let line = &coarse.lines[0];
    assert!(line.roughness.as_ref().unwrap().is_err());
    assert!(matches!(line.corrugation, Err(Error::TooSparse { .. })));
    assert!(matches!(line.irregularities, Err(Error::TooSparse { .. })));
    assert_eq!(detail(&Strip::default(), &DetailRules::default()), Err(Error::NoSurvey));
}

/// Expected values: NumPy 2.4.6 and scikit-image 0.26.0,
/// `reconstruction(seed, z, method="erosion", footprint=ones((3, 3)))` with the
/// seed at the greatest level inside and at the ground on the border, depths
/// over 5 mm labelled with all eight neighbours: greatest depth, its station
/// and offset, area, volume, first and last station of each depression.
#[test]
fn oracle_priority_flood_agrees_with_morphological_reconstruction() {
    let wavy = |x: f64, y: f64| {
        0.05 * (0.7 * x + 0.3 * y).sin()
            + 0.04 * (0.9 * y - 0.2 * x).cos()
            + 0.03 * (0.11 * x).sin() * (1.3 * y).cos()
    };
    let offsets: Vec<f64> = (-5..=5).map(f64::from).collect();
    let mut survey = survey(&offsets, 1.0, wavy);
    for line in &mut survey.lines {
        line.points.truncate(61);
    }
    let found = ponds(&survey, metres(1.0), metres(1.0), millimetres(5.0)).unwrap();
    let expected = [
        (0.100_688_460_623, 8.0, -2.0, 21.0, 0.970_244_352_529, 5.0, 11.0),
        (0.091_909_963_599, 24.0, 2.0, 20.0, 0.858_907_316_629, 21.0, 26.0),
        (0.088_440_015_470, 43.0, 0.0, 17.0, 0.755_258_644_784, 41.0, 46.0),
        (0.077_184_680_929, 51.0, 1.0, 17.0, 0.692_847_930_904, 48.0, 53.0),
        (0.056_145_692_252, 16.0, -1.0, 27.0, 0.883_318_389_797, 14.0, 18.0),
        (0.029_279_699_316, 35.0, -3.0, 8.0, 0.155_366_126_792, 34.0, 36.0),
        (0.021_919_969_859, 32.0, 4.0, 3.0, 0.040_695_848_593, 31.0, 33.0),
        (0.006_834_097_766, 5.0, 4.0, 1.0, 0.006_834_097_766, 5.0, 5.0),
    ];
    assert_eq!(found.len(), expected.len());
    for (pond, (depth, station, offset, area, volume, from, to)) in found.iter().zip(expected) {
        assert_relative_eq!(pond.depth.si(), depth, epsilon = 1e-11);
        assert_eq!((pond.deepest.0.si(), pond.deepest.1.si()), (station, offset));
        assert_relative_eq!(pond.area.si(), area, epsilon = 1e-9);
        assert_relative_eq!(pond.volume.si(), volume, epsilon = 1e-10);
        assert_eq!((pond.from.si(), pond.to.si()), (from, to));
    }
}
