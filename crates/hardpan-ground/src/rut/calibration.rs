//! The rut law held to ruts that were measured on the strip: one factor on the
//! law, with its posterior.
//! Numbers: `validation/cases/ground/rut-calibration.toml`.

use crate::Error;
use crate::formulas::{argument, kernel};
use crate::rut::barber::{BARBER_RUT, PASSES, PASSES_EXPONENT};
use hardpan_math::{Sample, student_quantile};
use hardpan_model::{Formula, Source, Tier};
use hardpan_quantity::{Dimension, Length, Quantity};

/// Fewest measured ruts from which a factor is taken.
pub const FEWEST_RUTS: usize = 3;

/// Where the posterior comes from.
pub const POSTERIOR_SOURCE: Source = Source::new(
    "BDA-2013",
    "3.2, normal data with a noninformative prior: posterior of the mean and prediction",
    Tier::Memory,
);

/// A rut of the law, held to those measured.
pub static CALIBRATED_RUT: Formula = Formula {
    name: "rut-calibrated",
    computes: "rut that a place stays under with a probability, from the law and measured ruts",
    expression: "s_q = s_law exp(m + t(q, n - 1) d sqrt(1 + 1/n)); t Student's, m and d mean and standard \
                 deviation of ln(measured/law) over n ruts",
    arguments: &[
        argument("rut_of_law", "s_law", Dimension::Length, 1e-6, 10.0),
        argument("mean_log", "m", Dimension::Coefficient, -5.0, 5.0),
        argument("deviation_log", "d", Dimension::Coefficient, 0.0, 5.0),
        argument("ruts", "n", Dimension::Count, FEWEST_RUTS as f64, 1e6),
        argument("probability", "q", Dimension::Coefficient, 0.001, 0.999),
    ],
    result: Dimension::Length,
    source: POSTERIOR_SOURCE,
    scatter: "that of the ruts measured; the ground elsewhere is taken to scatter as they do",
    evaluate: kernel!(|law, mean, deviation, ruts, probability| {
        law * log_under((mean, deviation, ruts), probability).map_or(f64::NAN, f64::exp)
    }),
};

fn log_under((mean, deviation, ruts): (f64, f64, f64), probability: f64) -> Option<f64> {
    let quantile = student_quantile(ruts - 1.0, probability)?;
    Some(mean + quantile * deviation * (1.0 + 1.0 / ruts).sqrt())
}

/// Passes until a rut is reached, by the growth of the law.
pub static PASSES_TO_RUT: Formula = Formula {
    name: "passes-to-rut-barber-1978",
    computes: "passes at which a rut that grows by the law reaches a depth",
    expression: "R_limit = R (s_limit/s)^(1/0.2476)",
    arguments: &[
        argument("rut", "s", Dimension::Length, 1e-6, 10.0),
        PASSES,
        argument("limit", "s_limit", Dimension::Length, 1e-3, 1.0),
    ],
    result: Dimension::Coefficient,
    source: BARBER_RUT.source,
    scatter: "the growth of the law, as it stands",
    evaluate: kernel!(|rut, passes, limit| passes * (limit / rut).powf(1.0 / PASSES_EXPONENT)),
};

/// The factor of the law on one strip: its natural logarithm has a Student
/// posterior.
///
/// Measured ruts are taken as `law × factor × scatter`, the scatter log-normal
/// of unknown spread. The prior is flat in the logarithm of the factor and in
/// the logarithm of the spread: nothing is known beforehand, since no spread of
/// the law is published.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RutCalibration {
    size: usize,
    mean: f64,
    deviation: f64,
}

impl RutCalibration {
    /// The factor from pairs of a measured rut and that of the law at the same
    /// place after the same passes.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for fewer than [`FEWEST_RUTS`] pairs,
    /// [`Error::NotPositive`] for a rut that is not above zero.
    pub fn of(pairs: &[(Length, Length)]) -> Result<Self, Error> {
        let count = pairs.len() as f64;
        crate::error::within("measured ruts", "", count, FEWEST_RUTS as f64, 1e6)?;
        let ratio = |(measured, law): &(Length, Length)| {
            let measured = crate::error::positive("measured rut", "m", measured.si())?;
            let law = crate::error::positive("rut of the law", "m", law.si())?;
            Ok((measured / law).ln())
        };
        let logarithms = pairs.iter().map(ratio).collect::<Result<Vec<f64>, Error>>()?;
        let sample = Sample::new(logarithms).map_err(|_| Error::NoValues)?;
        let deviation = sample.standard_deviation().unwrap_or(0.0);
        Ok(Self { size: sample.size(), mean: sample.mean(), deviation })
    }

    /// Ruts that it rests on.
    #[must_use]
    pub fn size(&self) -> usize {
        self.size
    }

    /// Mean of the logarithms of the ratios.
    #[must_use]
    pub fn mean_log(&self) -> f64 {
        self.mean
    }

    /// Their standard deviation, with `n − 1`.
    #[must_use]
    pub fn deviation_log(&self) -> f64 {
        self.deviation
    }

    /// Median of the factor.
    #[must_use]
    pub fn factor(&self) -> f64 {
        self.mean.exp()
    }

    /// Logarithm of the factor that one more rut of the strip stays under with a
    /// probability; none at 0 and 1.
    #[must_use]
    pub fn log_under(&self, probability: f64) -> Option<f64> {
        log_under((self.mean, self.deviation, self.size as f64), probability)
    }

    /// Central interval that holds the factor with a probability.
    #[must_use]
    pub fn factor_interval(&self, probability: f64) -> Option<(f64, f64)> {
        let size = self.size as f64;
        let quantile = student_quantile(size - 1.0, 0.5 + 0.5 * probability)?;
        let half = quantile * self.deviation / size.sqrt();
        Some(((self.mean - half).exp(), (self.mean + half).exp()))
    }
}
