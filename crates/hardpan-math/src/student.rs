//! Quantiles of Student's distribution.

use statrs::distribution::{ContinuousCDF as _, StudentsT};

/// The value that a standard Student variable of `freedom` degrees stays under
/// with a probability.
///
/// None unless the degrees of freedom are above zero and the probability lies
/// between 0 and 1, ends out.
#[must_use]
pub fn student_quantile(freedom: f64, probability: f64) -> Option<f64> {
    if !(freedom > 0.0 && freedom.is_finite() && probability > 0.0 && probability < 1.0) {
        return None;
    }
    let law = StudentsT::new(0.0, 1.0, freedom).ok()?;
    let tail = law.inverse_cdf(probability.max(1.0 - probability));
    let quantile = if probability < 0.5 { -tail } else { tail };
    quantile.is_finite().then_some(quantile)
}

#[cfg(test)]
mod tests {
    use super::student_quantile;
    use proptest::prelude::*;
    use rstest::rstest;

    /// Percentage points as every statistical table prints them, from memory.
    #[rstest]
    #[case(1.0, 0.95, 6.314)]
    #[case(2.0, 0.95, 2.920)]
    #[case(4.0, 0.95, 2.132)]
    #[case(4.0, 0.975, 2.776)]
    #[case(10.0, 0.95, 1.812)]
    #[case(30.0, 0.975, 2.042)]
    fn quantiles_agree_with_the_printed_tables(
        #[case] freedom: f64,
        #[case] probability: f64,
        #[case] printed: f64,
    ) {
        let found = student_quantile(freedom, probability);
        assert!(found.is_some_and(|found| (found - printed).abs() < 5.1e-4), "{found:?}");
        let mirrored = student_quantile(freedom, 1.0 - probability);
        assert!(mirrored.is_some_and(|found| (found + printed).abs() < 5.1e-4), "{mirrored:?}");
    }

    proptest! {
        #[test]
        fn prop_quantile_rises_with_the_probability(
            freedom in 1.0f64..200.0,
            low in 0.01f64..0.98,
            more in 0.001f64..0.01,
        ) {
            let (a, b) = (student_quantile(freedom, low), student_quantile(freedom, low + more));
            prop_assert!(a < b, "{:?} {:?}", a, b);
        }
    }

    #[test]
    fn out_of_range_is_refused() {
        for (freedom, probability) in [(0.0, 0.5), (3.0, 0.0), (3.0, 1.0), (f64::NAN, 0.5)] {
            assert_eq!(student_quantile(freedom, probability), None);
        }
    }
}
