//! Chord and straightedge values on shapes with known answers.
//!
//! Sources: closed forms `L²/8R` and `H/2 (1 − cos πL/λ)`; the rest computed
//! independently with NumPy by brute force over every chord.

#![allow(clippy::unwrap_used)]

use approx::assert_relative_eq;
use hardpan_quantity::{Quantity, metres};
use hardpan_surface::{
    Edge, EventKind, Profile, events, greatest_deviation, greatest_gap, mid_chord_offsets,
};

fn profile(spacing: f64, length: f64, level: impl Fn(f64) -> f64) -> Profile {
    let count = (length / spacing + 0.5).floor() as usize;
    let levels: Vec<_> = (0..=count).map(|index| metres(level(index as f64 * spacing))).collect();
    Profile::evenly_spaced(metres(0.0), metres(0.0), metres(spacing), &levels).unwrap()
}

fn cosine(x: f64, from: f64, base: f64, height: f64) -> f64 {
    if x < from || x > from + base {
        return 0.0;
    }
    0.5 * height * (1.0 - (std::f64::consts::TAU * (x - from) / base).cos())
}

#[test]
fn exact_parabola_shows_the_same_offset_everywhere() {
    for radius in [7_500.0, 15_000.0, 30_000.0] {
        for chord in [3.0, 30.0, 45.0, 60.0] {
            let vertical_curve = profile(0.25, 400.0, |x| x * x / (2.0 * radius));
            for (_, offset) in mid_chord_offsets(&vertical_curve, metres(chord)).unwrap() {
                assert_relative_eq!(offset.si(), -chord * chord / (8.0 * radius), epsilon = 1e-10);
            }
        }
    }
}

#[test]
fn oracle_cosine_bump_under_chords() {
    let bump = profile(0.25, 400.0, |x| cosine(x, 180.0, 40.0, 0.1));
    let expected = [
        (3.0, 1.38),
        (9.0, 11.98),
        (15.0, 30.87),
        (20.0, 50.0),
        (30.0, 85.36),
        (30.48, 86.72),
        (40.0, 100.0),
        (60.0, 100.0),
    ];
    for (chord, millimetres) in expected {
        let (up, _) = greatest_deviation(&bump, metres(chord)).unwrap();
        assert_relative_eq!(up.si() * 1e3, millimetres, epsilon = 0.005);
    }
}

#[test]
fn oracle_cosine_dips_under_100_and_200_feet() {
    const FOOT: f64 = 0.3048;
    for (base, short, long) in
        [(50.0, 3.0, 3.0), (100.0, 3.0, 3.0), (150.0, 2.25, 3.0), (200.0, 1.5, 3.0)]
    {
        let dip =
            profile(FOOT, 1_000.0 * FOOT, |x| -cosine(x, 400.0 * FOOT, base * FOOT, 3.0 * 0.0254));
        for (chord, inches) in [(100.0, short), (200.0, long)] {
            let (_, down) = greatest_deviation(&dip, metres(chord * FOOT)).unwrap();
            assert_relative_eq!(down.si() / 0.0254, inches, epsilon = 5e-5);
        }
    }
}

#[test]
fn oracle_triangle_tips_the_straightedge_but_not_the_chord() {
    let triangle = |x: f64| (0.03 * (1.0 - ((x - 51.5) / 1.5).abs())).max(0.0);
    let edge = metres(3.0);
    let (bump, dip) = (profile(0.05, 100.0, triangle), profile(0.05, 100.0, |x| -triangle(x)));
    assert_relative_eq!(greatest_deviation(&bump, edge).unwrap().0.si(), 0.030, epsilon = 1e-9);
    assert_relative_eq!(greatest_deviation(&dip, edge).unwrap().1.si(), 0.030, epsilon = 1e-9);
    assert_relative_eq!(greatest_gap(&bump, edge).unwrap().si(), 0.015, epsilon = 1e-9);
    assert_relative_eq!(greatest_gap(&dip, edge).unwrap().si(), 0.030, epsilon = 1e-9);
}

#[test]
fn oracle_sine_under_a_3_m_edge() {
    for (wave, millimetres) in [(3.0, 20.0), (6.0, 10.0), (12.0, 2.93)] {
        let sine = profile(0.05, 100.0, |x| 0.01 * (std::f64::consts::TAU * x / wave).sin());
        let (up, down) = greatest_deviation(&sine, metres(3.0)).unwrap();
        let gap = greatest_gap(&sine, metres(3.0)).unwrap();
        for found in [up, down, gap] {
            assert_relative_eq!(found.si() * 1e3, millimetres, epsilon = 0.005);
        }
    }
}

#[test]
fn one_bump_is_one_event_where_it_stands() {
    let bump = profile(0.25, 400.0, |x| cosine(x, 200.0, 10.0, 0.1));
    let found = events(&bump, Edge::Chord, metres(30.48), metres(0.0762), 3).unwrap();
    let over: Vec<_> = found.iter().filter(|event| event.exceeds).collect();
    assert_eq!(over.len(), 1);
    assert_eq!(over[0].kind, EventKind::Bump);
    assert_relative_eq!(over[0].worst.si(), 205.0, epsilon = 0.3);
    assert_relative_eq!(over[0].from.si(), 200.0, epsilon = 0.6);
    assert_relative_eq!(over[0].to.si(), 210.0, epsilon = 0.6);
    assert_relative_eq!(over[0].height.si(), 0.1, epsilon = 1e-6);
}
