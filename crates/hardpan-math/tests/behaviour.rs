//! Roots, tables, quadrature and samples against closed forms.

use approx::assert_relative_eq;
use hardpan_math::{
    Quadrature, RootError, Sample, SampleError, Table, TableError, bracketed_root, error_function,
    largest_holding, root_between,
};
use proptest::prelude::*;
use std::num::NonZeroUsize;

#[test]
fn exact_root_of_two() {
    let root = bracketed_root(|x| x * x - 2.0, 0.0, 2.0, 1e-12).expect("bracketed");
    assert_relative_eq!(root, 2f64.sqrt(), epsilon = 1e-11);
    let falling = bracketed_root(|x| 2.0 - x * x, 0.0, 2.0, 1e-12).expect("bracketed");
    assert_relative_eq!(falling, 2f64.sqrt(), epsilon = 1e-11);
}

#[test]
fn exact_root_between_known_values_in_few_looks() {
    let mut looks = 0;
    let function = |x: f64| x.exp() - 3.0;
    let counted = |x: f64| {
        looks += 1;
        function(x)
    };
    let ends = ((0.0, function(0.0)), (4.0, function(4.0)));
    let root = root_between(counted, ends.0, ends.1, 1e-10).expect("bracketed");
    assert_relative_eq!(root, 3f64.ln(), epsilon = 1e-10);
    assert!(looks <= 12, "{looks} looks");
    let step = |x: f64| if x < 1.7 { -1e-9 } else { 5.0 };
    let edge = root_between(step, (0.0, step(0.0)), (4.0, step(4.0)), 1e-9).expect("bracketed");
    assert_relative_eq!(edge, 1.7, epsilon = 4e-6);
    let refused = root_between(function, (0.0, -2.0), (1.0, -0.3), 1e-9);
    assert!(matches!(refused, Err(RootError::NoBracket { .. })));
}

#[test]
fn root_refuses_what_it_cannot_bracket() {
    assert!(matches!(
        bracketed_root(|x| x * x + 1.0, -1.0, 1.0, 1e-9),
        Err(RootError::NoBracket { .. })
    ));
    assert!(matches!(bracketed_root(|x| x, f64::NAN, 1.0, 1e-9), Err(RootError::Bounds { .. })));
}

#[test]
fn largest_holding_finds_the_edge_from_below() {
    let edge = largest_holding(|x| x <= 3.7, 0.0, 10.0, 1e-9).expect("holds at 0");
    assert!(edge <= 3.7 && 3.7 - edge < 1e-8);
    assert_eq!(largest_holding(|_| false, 0.0, 1.0, 1e-9), None);
    assert_eq!(largest_holding(|_| true, 0.0, 1.0, 1e-9), Some(1.0));
}

#[test]
fn table_refuses_outside_and_bad_rows() {
    let table = Table::new(vec![(0.0, 1.0), (2.0, 5.0)]).expect("rising");
    assert_relative_eq!(table.at(0.5).expect("inside"), 2.0);
    assert!(matches!(table.at(2.1), Err(TableError::Outside { .. })));
    assert_relative_eq!(table.at_or_end(9.0), 5.0);
    assert_eq!(Table::new(vec![]), Err(TableError::Empty));
    assert!(matches!(
        Table::new(vec![(1.0, 0.0), (1.0, 0.0)]),
        Err(TableError::NotRising { row: 2, .. })
    ));
}

#[test]
fn exact_quadrature_of_a_polynomial() {
    let rule = Quadrature::new(NonZeroUsize::new(4).expect("four"));
    assert_relative_eq!(rule.integrate(0.0, 2.0, |x| x.powi(7)), 32.0, max_relative = 1e-13);
}

/// Abramowitz and Stegun, Handbook of Mathematical Functions, table 7.1: erf(0.5), erf(1).
#[test]
fn val_error_function() {
    assert_relative_eq!(error_function(0.5), 0.520_499_877_8, epsilon = 5e-11);
    assert_relative_eq!(error_function(1.0), 0.842_700_792_9, epsilon = 5e-11);
}

#[test]
fn sample_statistics() {
    let sample = Sample::new(vec![8.0, 9.0, 10.0, 11.0, 12.0]).expect("finite");
    assert_relative_eq!(sample.mean(), 10.0);
    assert_relative_eq!(sample.standard_deviation().expect("five"), 2.5f64.sqrt());
    assert_relative_eq!(sample.quantile(0.5), 10.0);
    assert_eq!(Sample::new(vec![]), Err(SampleError::Empty));
    assert_eq!(Sample::new(vec![1.0, f64::NAN]), Err(SampleError::NotFinite { index: 2 }));
}

proptest! {
    #[test]
    fn prop_table_stays_between_neighbours(x in 0.0f64..10.0) {
        let table = Table::new(vec![(0.0, 0.0), (4.0, 3.0), (10.0, 1.0)]).expect("rising");
        let value = table.at(x).expect("inside");
        prop_assert!((0.0..=3.0).contains(&value));
    }
}
