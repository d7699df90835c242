//! How far an estimate errs, by leaving a part of the draws out at a time.

/// Fewest parts of which an error is told.
const FEWEST: usize = 2;

/// Standard error of an estimate from draws that were put into parts of equal size, from
/// the estimates with one part left out each: the jackknife by groups of [SHAO-WU-1989].
///
/// ```text
/// s² = (G - 1) / G  Σ (θ_g - θ̄)²
/// ```
///
/// with `θ_g` the estimate without part `g` of `G`, and `θ̄` the mean of those. It holds
/// for quantiles as well where the parts are large, which leaving single draws out does
/// not.
///
/// None of fewer than two parts or where an estimate is not finite.
#[must_use]
pub fn error_by_parts(without: &[f64]) -> Option<f64> {
    if without.len() < FEWEST || without.iter().any(|one| !one.is_finite()) {
        return None;
    }
    let parts = without.len() as f64;
    let mean = without.iter().sum::<f64>() / parts;
    let squares: f64 = without.iter().map(|one| (one - mean).powi(2)).sum();
    Some(((parts - 1.0) / parts * squares).sqrt())
}

#[cfg(test)]
mod tests {
    use super::error_by_parts;
    use crate::{EvenPoints, normal_quantile};

    const PARTS: usize = 8;

    fn without<T>(drawn: &[f64], estimate: impl Fn(&[f64]) -> T) -> Vec<T> {
        let part = |part: usize| {
            let left: Vec<f64> = drawn
                .iter()
                .enumerate()
                .filter(|(at, _)| at % PARTS != part)
                .map(|x| *x.1)
                .collect();
            estimate(&left)
        };
        (0..PARTS).map(part).collect()
    }

    /// Closed form of the mean: the error is that of the means of the parts, the root of
    /// their sample variance over their number.
    #[test]
    fn of_a_mean_it_is_the_scatter_of_the_means_of_the_parts() {
        let drawn: Vec<f64> = (0..64).map(|at| f64::from(at * at % 37)).collect();
        let mean = |drawn: &[f64]| drawn.iter().sum::<f64>() / drawn.len() as f64;
        let of_parts: Vec<f64> = (0..PARTS)
            .map(|part| mean(&drawn.iter().skip(part).step_by(PARTS).copied().collect::<Vec<_>>()))
            .collect();
        let middle = mean(&of_parts);
        let variance: f64 =
            of_parts.iter().map(|one| (one - middle).powi(2)).sum::<f64>() / (PARTS - 1) as f64;
        let exact = (variance / PARTS as f64).sqrt();
        let found = error_by_parts(&without(&drawn, mean)).expect("parts");
        assert!((found - exact).abs() < 1e-12, "{found} for {exact}");
    }

    /// Closed form of a quantile of a large sample of a normal variable, by the theory of
    /// order statistics: `√(p (1 - p) / n) / φ(z_p)`. The mean of the squared error over 200
    /// samples lies about it; one in twenty of a standard normal lies below -1.645, where its
    /// density is 0.1031 (printed tables, from memory).
    #[test]
    fn of_a_quantile_it_is_that_of_order_statistics() {
        let count = 1024;
        let quantile = |drawn: &[f64]| {
            let mut sorted = drawn.to_vec();
            sorted.sort_by(f64::total_cmp);
            sorted[drawn.len() / 20]
        };
        let squares: f64 = (0..200)
            .map(|seed| {
                let drawn = independent(count, seed);
                error_by_parts(&without(&drawn, quantile)).expect("parts").powi(2)
            })
            .sum();
        let found = (squares / 200.0).sqrt();
        let exact = (0.05_f64 * 0.95 / count as f64).sqrt() / 0.1031;
        assert!((found / exact - 1.0).abs() < 0.15, "{found} for {exact}");
    }

    /// Independent normal draws: axes of points that are scrambled by seeds of their own,
    /// one point each.
    fn independent(count: usize, seed: u32) -> Vec<f64> {
        let drawn = |at: usize| {
            let seed = seed * 1_000_003 + u32::try_from(at).expect("few");
            let point = EvenPoints::new(1, seed)?.point(0)?;
            normal_quantile(point[0])
        };
        (0..count).filter_map(drawn).collect()
    }

    #[test]
    fn nothing_is_told_of_one_part_or_of_what_is_not_finite() {
        assert_eq!(error_by_parts(&[1.0]), None);
        assert_eq!(error_by_parts(&[1.0, f64::NEG_INFINITY]), None);
    }
}
