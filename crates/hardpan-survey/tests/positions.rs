//! Single positions: lines, scatter, and an axis laid along them.

use hardpan_quantity::{Length, Quantity, degrees, metres};
use hardpan_survey::{
    AxisStart, Error, PlacedPoint, PlanePoint, WalkedLines, fitted_axis, walked_lines,
};
use proptest::prelude::*;
use rstest::rstest;

/// A stream of even numbers between 0 and 1, and of normal ones.
struct Dice(u64);

impl Dice {
    fn share(&mut self) -> f64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.share()).sum::<f64>() - 6.0
    }
}

fn placed(station: f64, offset: f64, height: f64) -> PlacedPoint {
    let (station, offset) = (metres(station), metres(offset));
    PlacedPoint { station, offset, height: metres(height), line: 1 }
}

/// Lines up and down at the offsets, a level each metre.
fn walked(offsets: &[f64], wobble: f64, noise: f64) -> Vec<PlacedPoint> {
    let mut dice = Dice(5);
    let mut points = Vec::new();
    for (index, offset) in offsets.iter().enumerate() {
        for step in 0..=600 {
            let along = if index % 2 == 0 { f64::from(step) } else { 600.0 - f64::from(step) };
            let o = offset + wobble * dice.normal();
            points.push(placed(along, o, 100.0 + 0.01 * along + noise * dice.normal()));
        }
        // The turn at the end, on the strip.
        if let Some(next) = offsets.get(index + 1) {
            let end = if index % 2 == 0 { 599.0 } else { 1.0 };
            for step in 1..8 {
                let o = offset + (next - offset) * f64::from(step) / 8.0;
                points.push(placed(end, o, 100.0));
            }
        }
    }
    points
}

fn lines(points: &[PlacedPoint], length: f64) -> WalkedLines {
    walked_lines(points, metres(length)).expect("lines")
}

#[test]
fn lines_are_told_apart_and_turns_left_out() {
    let found = lines(&walked(&[-5.0, 0.0, 5.0], 0.1, 0.0), 600.0);
    assert_eq!(found.lines.len(), 3);
    assert_eq!(found.beyond, 0);
    assert!((10..=14).contains(&found.between), "{}", found.between);
    for (line, offset) in found.lines.iter().zip([-5.0, 0.0, 5.0]) {
        assert!((line.offset.si() - offset).abs() < 0.03);
        assert!(line.points.len() > 590);
    }
    // 0.1 m across a crossfall of 2 %.
    assert!((found.wander.si() / 0.002 - 1.0).abs() < 0.1);
}

#[test]
fn cross_sections_are_lines_as_well() {
    let points: Vec<PlacedPoint> = (0..30)
        .flat_map(|at| [-8.0, -4.0, 0.0, 4.0, 8.0].map(|o| placed(20.0 * f64::from(at), o, 10.0)))
        .collect();
    let found = lines(&points, 600.0);
    assert_eq!((found.lines.len(), found.between), (5, 0));
    assert_eq!(found.scatter, None, "levels 20 m apart tell no scatter");
    assert!((found.level_noise(None).si() - 0.010).abs() < 1e-12);
}

/// Expected value of the estimator on pure normal noise: its own standard
/// deviation. 1800 levels, of which the median is sure to about 3 %.
#[test]
fn scatter_is_recovered_and_carried_on() {
    let found = lines(&walked(&[-5.0, 0.0, 5.0], 0.0, 0.025), 600.0);
    let scatter = found.scatter.expect("levels enough").si();
    assert!((scatter / 0.025 - 1.0).abs() < 0.08, "{scatter}");
    assert!(found.level_noise(None).si() >= scatter);
    assert!((found.level_noise(Some(metres(0.04))).si() - 0.04).abs() < 1e-4);
}

#[test]
fn nobody_states_less_than_a_receiver_can() {
    let found = lines(&walked(&[0.0], 0.0, 0.0), 600.0);
    assert_eq!(found.level_noise(Some(metres(0.001))).si(), 0.010);
}

#[test]
fn points_all_over_the_strip_are_no_lines() {
    let mut dice = Dice(9);
    let points: Vec<PlacedPoint> =
        (0..2000).map(|_| placed(600.0 * dice.share(), 20.0 * dice.share() - 10.0, 1.0)).collect();
    let error = walked_lines(&points, metres(600.0)).expect_err("no lines");
    assert!(matches!(error, Error::NotInLines { .. }), "{error}");
}

#[test]
fn points_beyond_the_ends_are_told() {
    let error = walked_lines(&[placed(900.0, 0.0, 1.0)], metres(600.0)).expect_err("beyond");
    assert!(error.to_string().contains("900 m"), "{error}");
}

/// Points of lines at some bearing about a place.
fn on_plane(points: &[PlacedPoint], bearing_deg: f64) -> Vec<PlanePoint> {
    let (sine, cosine) = bearing_deg.to_radians().sin_cos();
    points
        .iter()
        .map(|point| {
            let (s, o) = (point.station.si(), point.offset.si());
            PlanePoint {
                easting: metres(3000.0 + s * sine + o * cosine),
                northing: metres(7000.0 + s * cosine - o * sine),
            }
        })
        .collect()
}

const THRESHOLD: (f64, f64) = (3000.0, 7000.0);

#[rstest]
#[case(68.0)]
#[case(248.0)]
#[case(359.9)]
#[case(0.0)]
fn an_axis_is_laid_along_the_points(#[case] bearing: f64) {
    let points = on_plane(&walked(&[-9.0, -3.0, 0.0, 3.0, 9.0], 0.15, 0.0), bearing);
    let low = PlanePoint { easting: metres(THRESHOLD.0), northing: metres(THRESHOLD.1) };
    for start in [AxisStart::Low(low), AxisStart::Bearing(degrees(bearing + 1.5))] {
        let fit = fitted_axis(&points, metres(600.0), start).expect("an axis");
        let apart = (fit.axis.grid_bearing().si() - bearing.to_radians()).sin().abs();
        // Middles of 24 stretches are sure to some 0.05 m over 600 m.
        assert!(apart.to_degrees() < 0.02, "{}", apart.to_degrees());
        assert!(fit.spread.si() < 0.2);
        let (station, offset) = fit.axis.place(low);
        assert!(station.si().abs() < 1.0 && offset.si().abs() < 0.15, "{start:?}");
    }
}

/// A quarter of the strip was walked on one side only.
#[test]
fn one_sided_stretches_do_not_turn_the_axis() {
    let all = walked(&[-9.0, 0.0, 9.0], 0.1, 0.0);
    let part: Vec<PlacedPoint> = all
        .into_iter()
        .filter(|point| !(point.station.si() < 140.0 && point.offset.si() < -1.0))
        .collect();
    let low = PlanePoint { easting: metres(THRESHOLD.0), northing: metres(THRESHOLD.1) };
    let fit =
        fitted_axis(&on_plane(&part, 30.0), metres(600.0), AxisStart::Low(low)).expect("an axis");
    let apart = (fit.axis.grid_bearing().si().to_degrees() - 30.0).abs();
    assert!(apart < 0.1, "{apart}");
}

#[test]
fn the_high_threshold_turns_the_axis_round() {
    let points = on_plane(&walked(&[-3.0, 3.0], 0.1, 0.0), 68.0);
    let high = PlanePoint { easting: metres(THRESHOLD.0), northing: metres(THRESHOLD.1) };
    let fit = fitted_axis(&points, metres(600.0), AxisStart::High(high)).expect("an axis");
    assert!((fit.axis.grid_bearing().si().to_degrees() - 248.0).abs() < 0.02);
    assert!((fit.axis.place(high).0.si() - 600.0).abs() < 1e-6);
}

#[test]
fn a_span_that_is_not_the_length_gives_no_axis() {
    let points = on_plane(&walked(&[-3.0, 3.0], 0.1, 0.0), 68.0);
    let start = AxisStart::Bearing(degrees(68.0));
    let error = fitted_axis(&points, metres(700.0), start).expect_err("too short");
    assert!(matches!(error, Error::FittedSpan { .. }), "{error}");
    let error = fitted_axis(&points[..5], metres(600.0), start).expect_err("too few");
    assert!(matches!(error, Error::NoAxis { .. }), "{error}");
    let error = fitted_axis(&[], metres(600.0), start).expect_err("none");
    assert!(matches!(error, Error::NoAxis { .. }), "{error}");
}

proptest! {
    #[test]
    fn every_position_is_accounted_for(seed in 0_u64..1000, length in 10.0..700.0_f64) {
        let mut dice = Dice(seed);
        let points: Vec<PlacedPoint> = (0..60)
            .map(|_| {
                let line = (3.0 * dice.share()).floor() * 4.0;
                placed(800.0 * dice.share() - 50.0, line + 0.3 * dice.share(), dice.share())
            })
            .collect();
        if let Ok(found) = walked_lines(&points, metres(length)) {
            let levels: usize = found.lines.iter().map(|line| line.points.len()).sum();
            prop_assert!(levels + found.beyond + found.between <= points.len());
            for line in &found.lines {
                let rising = line.points.windows(2).all(|two| two[0].station < two[1].station);
                prop_assert!(rising);
                let inside = |s: Length| s.si() >= 0.0 && s.si() <= length;
                prop_assert!(line.points.iter().all(|point| inside(point.station)));
            }
        }
    }
}
