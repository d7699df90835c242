//! Quantiles of the normal distribution.

use statrs::distribution::{ContinuousCDF as _, Normal};

/// The value that a standard normal variable stays under with a probability.
///
/// None unless the probability lies between 0 and 1, ends out.
#[must_use]
pub fn normal_quantile(probability: f64) -> Option<f64> {
    if !(probability > 0.0 && probability < 1.0) {
        return None;
    }
    Some(Normal::standard().inverse_cdf(probability))
}

/// The probability that a standard normal variable stays under a value.
#[must_use]
pub fn normal_probability(value: f64) -> f64 {
    Normal::standard().cdf(value)
}

#[cfg(test)]
mod tests {
    use super::{normal_probability, normal_quantile};
    use rstest::rstest;

    /// Percentage points as every statistical table prints them, from memory.
    #[rstest]
    #[case(0.95, 1.644_854)]
    #[case(0.975, 1.959_964)]
    #[case(0.99, 2.326_348)]
    #[case(0.999, 3.090_232)]
    fn quantiles_agree_with_the_printed_tables(#[case] probability: f64, #[case] printed: f64) {
        let found = normal_quantile(probability);
        assert!(found.is_some_and(|found| (found - printed).abs() < 6e-7), "{found:?}");
        let mirrored = normal_quantile(1.0 - probability);
        assert!(mirrored.is_some_and(|found| (found + printed).abs() < 6e-7), "{mirrored:?}");
        assert!((normal_probability(printed) - probability).abs() < 1e-7);
    }

    #[test]
    fn out_of_range_is_refused() {
        for probability in [0.0, 1.0, -0.1, f64::NAN] {
            assert_eq!(normal_quantile(probability), None);
        }
    }
}
