//! Tables of several variables.

use hardpan_math::{Grid, GridError};
use proptest::prelude::*;

fn product(axes: &[Vec<f64>; 3], value: impl Fn(f64, f64, f64) -> f64) -> Grid {
    let mut values = Vec::new();
    for a in &axes[0] {
        for b in &axes[1] {
            for c in &axes[2] {
                values.push(value(*a, *b, *c));
            }
        }
    }
    Grid::new(axes.to_vec(), values).expect("a full grid")
}

fn axes() -> [Vec<f64>; 3] {
    [vec![30.0, 35.0, 43.0], vec![0.0, 2000.0], vec![-20.0, 0.0, 15.0, 40.0]]
}

proptest! {
    /// What is linear along each axis is given back exactly: a property of the
    /// method, textbook mathematics.
    #[test]
    fn prop_a_multilinear_function_is_exact(
        a in 30.0f64..43.0, b in 0.0f64..2000.0, c in -20.0f64..40.0,
    ) {
        let f = |a: f64, b: f64, c: f64| 3.0 + a * (2.0 - 0.01 * b) + 0.5 * c * a - 0.002 * b * c;
        let found = product(&axes(), f).at(&[a, b, c]).expect("inside");
        prop_assert!((found - f(a, b, c)).abs() < 1e-9 * f(a, b, c).abs().max(1.0));
    }

    /// A table that rises along each axis rises between its rows as well.
    #[test]
    fn prop_what_rises_at_the_rows_rises_between_them(
        steps in prop::collection::vec(0.0f64..10.0, 24),
        a in 30.0f64..43.0, b in 0.0f64..2000.0, c in -20.0f64..40.0, on in 0.0f64..1.0,
    ) {
        let axes = axes();
        let place = |axis: &[f64], at: f64| axis.iter().position(|row| *row == at).expect("a row");
        let cumulated = |x: f64, y: f64, z: f64| {
            let [i, j, k] = [place(&axes[0], x), place(&axes[1], y), place(&axes[2], z)];
            let below = |n: &usize| (n / 8, n / 4 % 2, n % 4);
            let counted = (0..24).filter(|n| {
                let (p, q, r) = below(n);
                p <= i && q <= j && r <= k
            });
            counted.map(|n| steps[n]).sum()
        };
        let grid = product(&axes, cumulated);
        let at = |a: f64, b: f64, c: f64| grid.at(&[a, b, c]).expect("inside");
        let here = at(a, b, c);
        prop_assert!(at(a + on * (43.0 - a), b, c) >= here - 1e-9);
        prop_assert!(at(a, b + on * (2000.0 - b), c) >= here - 1e-9);
        prop_assert!(at(a, b, c + on * (40.0 - c)) >= here - 1e-9);
    }

    #[test]
    fn prop_values_lie_between_the_least_and_the_greatest(
        a in 30.0f64..=43.0, b in 0.0f64..=2000.0, c in -20.0f64..=40.0,
    ) {
        let f = |a: f64, b: f64, c: f64| (a * 1.7).sin() + (b * 0.01).cos() + (c * 0.3).sin();
        let found = product(&axes(), f).at(&[a, b, c]).expect("inside");
        prop_assert!((-3.0..=3.0).contains(&found));
    }
}

#[test]
fn rows_are_given_back_and_nothing_lies_outside() {
    let grid = product(&axes(), |a, b, c| a + b + c);
    assert_eq!(grid.at(&[43.0, 2000.0, 40.0]), Ok(2083.0));
    assert_eq!(grid.at(&[30.0, 0.0, -20.0]), Ok(10.0));
    let outside = grid.at(&[30.0, 0.0, 40.1]);
    assert!(matches!(outside, Err(GridError::Outside { axis: 3, .. })), "{outside:?}");
    assert!(grid.at(&[f64::NAN, 0.0, 0.0]).is_err());
    assert!(matches!(grid.at(&[30.0]), Err(GridError::Arguments { .. })));
}

#[test]
fn a_grid_with_holes_or_rows_out_of_order_is_refused() {
    let values = Grid::new(vec![vec![1.0, 2.0]], vec![1.0]);
    assert!(matches!(values, Err(GridError::Values { wanted: 2, found: 1 })));
    assert!(matches!(Grid::new(vec![vec![2.0, 1.0]], vec![1.0, 2.0]), Err(GridError::Axis { .. })));
    assert!(Grid::new(vec![vec![1.0]], vec![f64::NAN]).is_err());
}

/// Expected values: SciPy 1.17.1, `RegularGridInterpolator`, method linear, on
/// the same grid, computed apart from this code. Tolerance: rounding.
#[test]
fn values_agree_with_a_reference_library() {
    let axes = vec![vec![30.0, 35.0, 43.0], vec![0.0, 600.0, 2000.0], vec![-20.0, 0.0, 15.0, 40.0]];
    let values = [
        0, 50, 100, 20, 110, 30, 80, 0, 90, 10, 60, 110, 170, 220, 140, 190, 150, 200, 120, 170,
        130, 180, 100, 150, 210, 260, 310, 230, 320, 240, 290, 210, 300, 220, 270, 320,
    ];
    let grid = Grid::new(axes, values.map(f64::from).to_vec()).expect("a full grid");
    for (at, expected) in [
        ([31.7, 250.0, 3.0], 100.626_666_666_666_64),
        ([35.0, 600.0, 15.0], 120.0),
        ([42.99, 1999.0, -19.5], 297.805_848_214_285_73),
        ([38.25, 1300.0, 27.5], 190.859_375),
        ([30.0, 0.0, -20.0], 0.0),
        ([33.3, 600.0, 39.0], 111.967_999_999_999_92),
    ] {
        let found = grid.at(&at).expect("inside");
        assert!((found - expected).abs() < 1e-10, "{at:?}: {found} for {expected}");
    }
}
