//! What to cut and fill, on strips whose volumes are known.
#![allow(clippy::unwrap_used)]

use approx::assert_relative_eq;
use hardpan_model::{Given, Strip, Survey, SurveyLine, SurveyPoint};
use hardpan_quantity::{Quantity, inches, metres, millimetres};
use hardpan_surface::{
    Edge, EdgeRule, EvennessRules, Repair, RepairAction, measure, repairs, volumes,
};
use proptest::prelude::*;
use std::f64::consts::TAU;

const OFFSETS: [f64; 5] = [-15.0, -2.6, 0.0, 2.6, 15.0];

fn survey(level: impl Fn(f64, f64) -> f64) -> Survey {
    let line = |offset: f64| SurveyLine {
        offset: metres(offset),
        points: (0..=800_u32)
            .map(|index| {
                let station = f64::from(index) * 0.5;
                SurveyPoint {
                    station: metres(station),
                    elevation: metres(level(station, offset)),
                    line: index,
                }
            })
            .collect(),
    };
    Survey {
        file: "survey.csv".into(),
        date: None,
        level_noise: Some(Given::stated("survey.level_noise", millimetres(1.0))),
        lines: OFFSETS.iter().map(|offset| line(*offset)).collect(),
    }
}

fn mended(level: impl Fn(f64, f64) -> f64, edges: Vec<EdgeRule>) -> Vec<Repair> {
    let survey = survey(level);
    let strip = Strip {
        length: Some(Given::stated("strip.length", metres(400.0))),
        survey: Some(survey.clone()),
        ..Strip::default()
    };
    let rules = EvennessRules { edges, ..EvennessRules::default() };
    repairs(&measure(&strip, &rules).unwrap(), &survey, Some(metres(45.0)))
}

/// A bump of a 1-cosine, `height` high and 40 m long from station 150 m.
fn bump(height: f64, station: f64) -> f64 {
    let along = station - 150.0;
    if (0.0..=40.0).contains(&along) {
        0.5 * height * (1.0 - (TAU * along / 40.0).cos())
    } else {
        0.0
    }
}

#[test]
fn exact_a_bump_on_one_lane_is_half_its_height_times_its_length() {
    // Section H λ/2 = 0.12 × 40/2 = 2.4 m², breadth 1.3 m + 6.2 m on the lane at 2.6 m.
    let level = |x: f64, y: f64| if y == 2.6 { bump(0.12, x) } else { 0.0 };
    let found = mended(level, vec![EdgeRule::chord_200_ft()]);
    let cut = found.iter().find(|repair| repair.action == RepairAction::Cut).unwrap();
    assert_relative_eq!(cut.volume.si(), 2.4 * 7.5, max_relative = 0.05);
    assert_eq!((cut.left.si(), cut.right.si()), (1.3, 8.8));
    assert_relative_eq!(cut.worst.0.si(), 170.0, epsilon = 0.5);
    assert_relative_eq!(cut.greatest.si(), 0.12, max_relative = 0.06);
    assert_eq!(cut.checks, ["chord-200-ft"]);
}

#[test]
fn exact_a_bump_right_across_is_one_repair_to_both_edges() {
    let found = mended(|x, _| bump(0.12, x), vec![EdgeRule::chord_200_ft()]);
    let cuts: Vec<_> = found.iter().filter(|repair| repair.action == RepairAction::Cut).collect();
    assert_eq!(cuts.len(), 1);
    assert_eq!((cuts[0].left.si(), cuts[0].right.si()), (-22.5, 22.5));
    assert_relative_eq!(cuts[0].volume.si(), 2.4 * 45.0, max_relative = 0.05);
}

#[test]
fn a_hole_is_filled_and_a_level_strip_left_alone() {
    let hole = |x: f64, y: f64| if y == 0.0 { -bump(0.2, x) } else { 0.0 };
    let found = mended(hole, vec![EdgeRule::chord_100_ft()]);
    assert!(found.iter().any(|repair| repair.action == RepairAction::Fill));
    let (cut, fill) = volumes(&found);
    assert!(fill > cut);
    assert!(mended(|x, _| 0.01 * x, vec![EdgeRule::chord_100_ft()]).is_empty());
}

#[test]
fn exact_the_middle_of_a_chord_shows_what_its_ends_and_middle_say() {
    // A parabola of radius 7 500 m: L²/8R = 60²/60 000 = 60 mm, in the middle.
    let edge =
        EdgeRule::given("60 m mid-chord".to_owned(), Edge::MidChord, metres(60.0), inches(2.0));
    let strip = Strip {
        length: Some(Given::stated("strip.length", metres(400.0))),
        survey: Some(survey(|x, _| -(x - 200.0) * (x - 200.0) / 15_000.0)),
        ..Strip::default()
    };
    let rules = EvennessRules { edges: vec![edge], ..EvennessRules::default() };
    let report = measure(&strip, &rules).unwrap();
    let (bump, _) = report.edges[0].worst_bump.unwrap();
    assert_relative_eq!(bump.height.si(), 0.06, epsilon = 1e-9);
    assert!(bump.exceeds);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// A higher bump never asks for less, and never for less than its length allows.
    #[test]
    fn more_height_is_more_volume(low in 0.11_f64..0.3, more in 0.0_f64..0.2) {
        let of = |height: f64| {
            volumes(&mended(|x, _| bump(height, x), vec![EdgeRule::chord_200_ft()])).0.si()
        };
        prop_assert!(of(low + more) >= of(low) - 1e-9);
    }

    /// Upside down, cuts are fills of the same volume.
    #[test]
    fn upside_down_cuts_are_fills(height in 0.12_f64..0.3) {
        let up = mended(|x, _| bump(height, x), vec![EdgeRule::chord_200_ft()]);
        let down = mended(|x, _| -bump(height, x), vec![EdgeRule::chord_200_ft()]);
        let (cut, fill) = volumes(&up);
        let (cut_down, fill_down) = volumes(&down);
        prop_assert!((cut.si() - fill_down.si()).abs() < 1e-6);
        prop_assert!((fill.si() - cut_down.si()).abs() < 1e-6);
    }
}
