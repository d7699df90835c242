//! Exact limits of a probability from a count.

use statrs::distribution::{Beta, ContinuousCDF as _};

/// Exact central limits of the probability of an event that was counted.
///
/// ```text
/// lower = B(α/2; k, n - k + 1),   upper = B(1 - α/2; k + 1, n - k)   [CLOPPER-PEARSON-1934]
/// ```
///
/// with B the quantile of the beta distribution; 0 and 1 where `k` is 0 or `n`.
///
/// | symbol | argument     | meaning                                 | unit | valid            |
/// |--------|--------------|-----------------------------------------|------|------------------|
/// | k      | `count`      | how often it happened                   | –    | 0 to n           |
/// | n      | `trials`     | how often it could have                 | –    | 1 and more       |
/// | 1 - α  | `confidence` | confidence that the probability is held | –    | 0 to 1, ends out |
///
/// None outside that range. For points that fill the cube evenly the limits err
/// on the wide side.
#[must_use]
pub fn binomial_limits(count: u32, trials: u32, confidence: f64) -> Option<(f64, f64)> {
    if !(confidence > 0.0 && confidence < 1.0) || trials == 0 || count > trials {
        return None;
    }
    let tail = (1.0 - confidence) / 2.0;
    let (k, n) = (f64::from(count), f64::from(trials));
    let quantile =
        |a: f64, b: f64, part: f64| Beta::new(a, b).ok().map(|law| law.inverse_cdf(part));
    let lower = if count == 0 { 0.0 } else { quantile(k, n - k + 1.0, tail)? };
    let upper = if count == trials { 1.0 } else { quantile(k + 1.0, n - k, 1.0 - tail)? };
    (lower.is_finite() && upper.is_finite()).then_some((lower, upper))
}

#[cfg(test)]
mod tests {
    use super::binomial_limits;
    use rstest::rstest;

    /// Closed forms: with no event the upper limit is 1 - (α/2)^(1/n), with one
    /// trial the limits are α/2 and 1. The row of 5 in 10 is as the tables print
    /// it, from memory.
    #[rstest]
    #[case(0, 10, 0.0, 1.0 - 0.025_f64.powf(0.1))]
    #[case(10, 10, 0.025_f64.powf(0.1), 1.0)]
    #[case(1, 1, 0.025, 1.0)]
    #[case(5, 10, 0.187_086, 0.812_914)]
    #[case(0, 4096, 0.0, 1.0 - 0.025_f64.powf(1.0 / 4096.0))]
    fn limits_agree(
        #[case] count: u32,
        #[case] trials: u32,
        #[case] lower: f64,
        #[case] upper: f64,
    ) {
        let found = binomial_limits(count, trials, 0.95);
        let agrees =
            |(low, high): (f64, f64)| (low - lower).abs() < 1e-6 && (high - upper).abs() < 1e-6;
        assert!(found.is_some_and(agrees), "{found:?}");
    }

    /// The sum of the binomial tail at each limit is α/2: the definition.
    #[test]
    fn each_limit_leaves_its_tail() {
        let (n, k) = (60_u32, 7_u32);
        let (low, high) = binomial_limits(k, n, 0.9).expect("in range");
        let term = |p: f64, j: u32| {
            let choose: f64 = (0..j).map(|i| f64::from(n - i) / f64::from(i + 1)).product();
            choose * p.powi(j as i32) * (1.0 - p).powi((n - j) as i32)
        };
        let at_least: f64 = (k..=n).map(|j| term(low, j)).sum();
        let at_most: f64 = (0..=k).map(|j| term(high, j)).sum();
        assert!((at_least - 0.05).abs() < 1e-6 && (at_most - 0.05).abs() < 1e-6);
    }

    #[test]
    fn out_of_range_is_refused() {
        for (count, trials, confidence) in [(0, 0, 0.9), (3, 2, 0.9), (1, 2, 1.0)] {
            assert_eq!(binomial_limits(count, trials, confidence), None);
        }
    }
}
