//! How much of the variance of an outcome one input alone explains.

/// Fewest pairs of which a share is told.
const FEWEST: usize = 64;

/// Share of the variance of an outcome that one input alone explains: the
/// first-order sensitivity index of [SOBOL-2001], from the pairs at hand.
///
/// ```text
/// η² = Σ n_b (m_b - m)² / Σ (y - m)²,   S = 1 - (1 - η²) (n - 1) / (n - B)
/// ```
///
/// with `B` classes of equal count by rising input, about the root of the number
/// of pairs, and the mean `m_b` of the outcome in each [PLISCHKE-2013]. The
/// second form takes out what chance alone would explain [KELLEY-1935].
///
/// None unless there are as many inputs as outcomes, at least 64, all finite, and
/// the outcome varies. Clipped to 0 to 1.
#[must_use]
pub fn variance_share(input: &[f64], outcome: &[f64]) -> Option<f64> {
    let count = input.len();
    let is_finite = input.iter().chain(outcome).all(|value| value.is_finite());
    if count < FEWEST || outcome.len() != count || !is_finite {
        return None;
    }
    let mean = outcome.iter().sum::<f64>() / count as f64;
    let total: f64 = outcome.iter().map(|value| (value - mean).powi(2)).sum();
    if total <= f64::EPSILON * mean * mean * count as f64 {
        return None;
    }
    let mut order: Vec<usize> = (0..count).collect();
    order.sort_by(|a, b| input[*a].total_cmp(&input[*b]).then(a.cmp(b)));
    let classes = (count as f64).sqrt().round() as usize;
    let between: f64 = (0..classes)
        .map(|class| {
            let members = &order[class * count / classes..(class + 1) * count / classes];
            let sum: f64 = members.iter().map(|at| outcome[*at]).sum();
            let size = members.len() as f64;
            size * (sum / size - mean).powi(2)
        })
        .sum();
    let left = (1.0 - between / total) * (count - 1) as f64 / (count - classes) as f64;
    Some((1.0 - left).clamp(0.0, 1.0))
}

#[cfg(test)]
mod tests {
    use super::variance_share;
    use crate::{EvenPoints, normal_quantile};
    use std::f64::consts::PI;

    /// Shares of a function of so many inputs between 0 and 1.
    fn shares(count: u32, dimensions: usize, of: impl Fn(&[f64]) -> f64) -> Vec<f64> {
        let sequence = EvenPoints::new(dimensions, 11).expect("few dimensions");
        let points: Vec<Vec<f64>> = (0..count).filter_map(|i| sequence.point(i)).collect();
        let outcome: Vec<f64> = points.iter().map(|point| of(point)).collect();
        let share = |axis: usize| {
            let input: Vec<f64> = points.iter().map(|point| point[axis]).collect();
            variance_share(&input, &outcome).expect("it varies")
        };
        (0..dimensions).map(share).collect()
    }

    fn normal(point: &[f64]) -> Vec<f64> {
        point.iter().map(|x| normal_quantile(*x).expect("inside")).collect()
    }

    /// Closed form: the shares of a sum of independent inputs are as the squares
    /// of their deviations.
    #[test]
    fn shares_of_a_sum_are_as_the_squares() {
        let found = shares(2048, 5, |x| {
            let z = normal(x);
            4.0 * z[0] - 2.0 * z[1] + z[2] + 0.5 * z[3]
        });
        let sum = 16.0 + 4.0 + 1.0 + 0.25;
        for (found, exact) in found.iter().zip([16.0, 4.0, 1.0, 0.25, 0.0]) {
            // Three standard errors of a share of 5 % from so many pairs.
            assert!((found - exact / sum).abs() < 0.03, "{found} for {}", exact / sum);
        }
    }

    /// Closed form: for a product of lognormal inputs each alone explains
    /// (exp σ² - 1) of (Π exp σ² - 1).
    #[test]
    fn shares_of_a_product_are_the_closed_form() {
        let sigma: [f64; 3] = [0.3, 0.2, 0.1];
        let found = shares(4096, 3, |x| {
            let z = normal(x);
            z.iter().zip(sigma).map(|(z, s)| (s * z).exp()).product()
        });
        let whole = sigma.iter().map(|s| s * s).sum::<f64>().exp() - 1.0;
        for (found, s) in found.iter().zip(sigma) {
            let exact = ((s * s).exp() - 1.0) / whole;
            assert!((found - exact).abs() < 0.02, "{found} for {exact}");
        }
    }

    /// Closed form of [ISHIGAMI-HOMMA-1990] with a = 7 and b = 0.1: 0.3139,
    /// 0.4424 and 0, as textbooks print them; from memory.
    #[test]
    fn shares_of_the_function_that_textbooks_use() {
        let found = shares(8192, 3, |x| {
            let x: Vec<f64> = x.iter().map(|x| PI * (2.0 * x - 1.0)).collect();
            x[0].sin() + 7.0 * x[1].sin().powi(2) + 0.1 * x[2].powi(4) * x[0].sin()
        });
        for (found, printed) in found.iter().zip([0.3139, 0.4424, 0.0]) {
            assert!((found - printed).abs() < 0.02, "{found} for {printed}");
        }
    }

    #[test]
    fn nothing_is_told_of_few_or_of_what_does_not_vary() {
        let few: Vec<f64> = (0..63).map(f64::from).collect();
        assert_eq!(variance_share(&few, &few), None);
        let many: Vec<f64> = (0..100).map(f64::from).collect();
        assert_eq!(variance_share(&many, &[3.0; 100]), None);
        assert_eq!(variance_share(&many, &[f64::NAN; 100]), None);
    }
}
