//! Draws in full and by the fit against closed forms.

use super::TwoLevel;
use crate::assess::confidence::trial::{Named, Trial};
use crate::assess::confidence::{Chance, Moving, Outcome, Sampling};
use hardpan_math::{EvenPoints, normal_probability, normal_quantile};
use hardpan_quantity::Quantity;

const AXES: usize = 8;
const COUNT: u32 = 4096;
const IN_FULL: usize = 256;

fn normals(seed: u32) -> Vec<Vec<f64>> {
    let points = EvenPoints::new(AXES, seed).expect("few axes");
    let normal = |point: Vec<f64>| point.into_iter().filter_map(normal_quantile).collect();
    (0..COUNT).filter_map(|i| points.point(i)).map(normal).collect()
}

fn names() -> Vec<Named> {
    let title = String::new();
    vec![Named {
        code: "A10",
        title,
        moving: Some(Moving::Landing),
        is_known: true,
        advises: false,
    }]
}

/// A draw with one limit, and with as much mass as is left of it.
fn outcome(margin: f64) -> Outcome {
    let holds = vec![Some(margin >= 0.0)];
    let largest = [Some(40_000.0 + 1000.0 * margin), None];
    Outcome { point: Vec::new(), trial: Trial { holds, margins: vec![Some(margin)], largest } }
}

/// What is told with draws in full where they are wanted.
fn told<T>(seed: u32, margin: impl Fn(&[f64]) -> f64, tell: impl Fn(&TwoLevel<'_>) -> T) -> T {
    let (points, names) = (normals(seed), names());
    let full: Vec<Outcome> = points[..IN_FULL].iter().map(|z| outcome(margin(z))).collect();
    let mut fit = TwoLevel::new(&names, &full, &points, 0.95).expect("draws enough");
    let wanted = fit.wanted();
    let near = wanted.iter().map(|at| outcome(margin(&points[*at as usize]))).collect();
    fit.add(&wanted, near);
    tell(&fit)
}

fn exceeded(seed: u32, margin: impl Fn(&[f64]) -> f64) -> Chance {
    told(seed, margin, |fit| fit.exceeded(0).expect("a fit"))
}

fn has(chance: &Chance, exact: f64) -> bool {
    (chance.between.0.si()..=chance.between.1.si()).contains(&exact)
}

/// Closed form of the linear case: a limit two deviations off.
#[test]
fn a_sum_is_told_as_if_each_draw_were_in_full() {
    let sum = |z: &[f64]| 2.0 * (AXES as f64).sqrt() - z.iter().sum::<f64>();
    let exact = normal_probability(-2.0);
    for seed in 0..40 {
        let points = normals(seed);
        let count = points.iter().filter(|z| sum(z) < 0.0).count();
        let chance = exceeded(seed, sum);
        assert!((chance.share.si() - count as f64 / f64::from(COUNT)).abs() < 1e-12);
        assert!(has(&chance, exact), "{chance:?}");
        // Narrower than so many draws in full alone.
        assert!(chance.between.1.si() - chance.between.0.si() < 0.04);
    }
}

/// Closed form of a product, whose limit bends and which a square does not meet:
/// Π exp(s zᵢ) exceeds exp(1.5 s √n) with Φ(-1.5).
#[test]
fn a_product_is_told_without_bias_and_its_limits_hold() {
    let s = 0.35_f64;
    let limit = (1.5 * s * (AXES as f64).sqrt()).exp();
    let product = |z: &[f64]| limit - (s * z.iter().sum::<f64>()).exp();
    let exact = normal_probability(-1.5);
    let found: Vec<Chance> = (0..100).map(|seed| exceeded(seed, product)).collect();
    let mean = found.iter().map(|one| one.share.si()).sum::<f64>() / 100.0;
    let square: f64 = found.iter().map(|one| (one.share.si() - mean).powi(2)).sum();
    let deviation = (square / 99.0).sqrt();
    // Three standard errors of the mean of a hundred.
    assert!((mean - exact).abs() < 0.3 * deviation + 1e-4, "{mean} for {exact} by {deviation}");
    let held = found.iter().filter(|one| has(one, exact)).count();
    assert!(held >= 95, "{held} of 100");
}

/// A fit that knows nothing: the correction by the draws in full still holds the
/// closed form, P(cos 3z < -1/2) summed over the bands of the cosine.
#[test]
fn where_the_fit_is_of_no_use_the_limits_are_wide_and_hold() {
    let wave = |z: &[f64]| (3.0 * z[0]).cos() + 0.5;
    let third = std::f64::consts::PI / 3.0;
    let exact: f64 = (-20..20)
        .map(|turn| {
            let middle = third * (1.0 + 2.0 * f64::from(turn));
            normal_probability(middle + third / 3.0) - normal_probability(middle - third / 3.0)
        })
        .sum();
    let found: Vec<Chance> = (0..60).map(|seed| exceeded(seed, wave)).collect();
    let held = found.iter().filter(|one| has(one, exact)).count();
    assert!(held >= 57, "{held} of 60");
    let mean = found.iter().map(|one| one.share.si()).sum::<f64>() / 60.0;
    assert!((mean - exact).abs() < 0.01, "{mean} for {exact}");
}

/// The mass that holds in 95 % of the draws, by the closed form of a sum; what
/// the fit errs never carries more than draws in full.
#[test]
fn the_mass_at_the_level_is_that_of_the_closed_form() {
    let sum = |z: &[f64]| z.iter().sum::<f64>() / (AXES as f64).sqrt();
    for seed in 0..20 {
        let held = told(seed, sum, |fit| fit.at_level(Moving::Landing, 0.95)).expect("a mass");
        let exact = 40_000.0 - 1644.854;
        assert!((held - exact).abs() < 60.0, "{held} for {exact}");
        let kinked = |z: &[f64]| sum(z).min(0.3 + z[1] - 0.4 * z[2]);
        let held = told(seed, kinked, |fit| fit.at_level(Moving::Landing, 0.95)).expect("a mass");
        let all: Vec<f64> = normals(seed).iter().map(|z| 40_000.0 + 1000.0 * kinked(z)).collect();
        let reached = all.iter().filter(|mass| **mass >= held).count();
        assert!(reached as f64 >= 0.94 * f64::from(COUNT), "{reached}");
    }
}

#[test]
fn no_draw_is_near_and_nothing_is_misjudged_far_from_the_limit() {
    let far = |z: &[f64]| 50.0 - z[0];
    let (chance, misjudged) = told(1, far, |fit| (fit.exceeded(0), fit.misjudged()));
    assert_eq!(misjudged, 0.0);
    assert_eq!(chance.map(|one| one.share.si()), Some(0.0));
}

/// By definition: a fit rests on two draws for each axis and for the mean, and no more
/// are calculated in full than are made.
#[test]
fn more_axes_take_more_draws_in_full_and_not_all_at_once() {
    let sampling = Sampling { draws: 10_000, in_full: 512, seed: 1, threads: 1 };
    for (axes, in_full) in [(40, 512), (255, 512), (256, 1024), (600, 2048), (20_000, 16_384)] {
        assert_eq!(sampling.first(axes), in_full, "{axes} axes");
    }
}

/// By definition: a mass that is the same in every draw holds in every share of them.
#[test]
fn a_mass_that_nothing_moves_holds() {
    for margin in [0.0, 0.44, -21.56, 1.0 / 3.0] {
        let held = told(1, |_| margin, |fit| fit.at_level(Moving::Landing, 0.95));
        let held = held.expect("a mass");
        assert!((held - (40_000.0 + 1000.0 * margin)).abs() < 1e-2, "{held} at {margin}");
    }
}
