//! Chords, single irregularities and spectrum of a measured road, against values
//! computed independently with NumPy and SciPy. The road is described in
//! `roughness_index.rs`; it is not part of this repository, so these values are
//! held only when `HARDPAN_ROAD_PROFILE` names its file.
#![allow(clippy::unwrap_used)]

use approx::assert_relative_eq;
use hardpan_quantity::{Quantity, metres};
use hardpan_surface::{Profile, fit_spectrum, greatest_deviation, single_events, spectrum};

fn road() -> Option<Profile> {
    let text = std::env::var_os("HARDPAN_ROAD_PROFILE")
        .and_then(|path| std::fs::read_to_string(path).ok());
    if text.is_none() {
        eprintln!("not held: HARDPAN_ROAD_PROFILE names no readable profile");
    }
    let levels: Vec<_> = text?
        .lines()
        .map(|line| metres(line.split_whitespace().nth(1).unwrap().parse().unwrap()))
        .collect();
    Some(Profile::evenly_spaced(metres(0.0), metres(478.0), metres(0.25), &levels).unwrap())
}

#[test]
fn oracle_chords_of_the_road() {
    let Some(road) = road() else { return };
    let expected = [
        (3.0, 21.8),
        (9.0, 24.047),
        (15.0, 26.433),
        (30.0, 59.522),
        (45.0, 91.58),
        (60.0, 129.193),
    ];
    for (chord, millimetres) in expected {
        let (up, down) = greatest_deviation(&road, metres(chord)).unwrap();
        assert_relative_eq!(up.max(down).si() * 1e3, millimetres, epsilon = 6e-4);
    }
}

#[test]
fn oracle_worst_irregularity_of_the_road() {
    let Some(road) = road() else { return };
    let worst = single_events(&road, metres(60.0), 1).unwrap()[0];
    assert_relative_eq!(worst.ratio.si(), 1.3346, epsilon = 5e-5);
    assert_relative_eq!(worst.height.si(), 0.129_19, epsilon = 1e-5);
    assert_relative_eq!(worst.length.si(), 20.5, epsilon = 1e-9);
    assert_relative_eq!(worst.edge_from.si(), 479.0, epsilon = 1e-9);
    assert_relative_eq!(worst.edge_length.si(), 60.0, epsilon = 1e-9);
}

#[test]
fn oracle_spectrum_of_the_road() {
    let Some(road) = road() else { return };
    let lines = spectrum(&road, metres(128.0)).unwrap();
    let fit = fit_spectrum(&lines, metres(1.0), metres(1.0 / 0.03)).unwrap();
    assert_relative_eq!(fit.exponent, 2.58, epsilon = 0.005);
    assert_relative_eq!(fit.at_ten_metres.si() * 1e6, 70.3, epsilon = 0.05);
}
