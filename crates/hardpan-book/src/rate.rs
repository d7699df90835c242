//! How often damage is done, and how surely that is known.

use crate::counts::movement_entries;
use crate::{BookError, Entry, Record};
use hardpan_model::EntryRange;
use hardpan_quantity::{Quantity as _, Ratio};

/// Movements that the rate is told for.
const PER_MOVEMENTS: f64 = 1000.0;

/// Limits of the mean of a count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Lower limit; 0 for a count of 0.
    pub lower: f64,
    /// Upper limit.
    pub upper: f64,
}

/// Entries that a rate is counted from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RateCounted {
    /// Damage reports.
    pub reports: Vec<EntryRange>,
    /// Movements.
    pub movements: Vec<EntryRange>,
}

/// Damage reports for each 1,000 movements.
#[derive(Debug, Clone, PartialEq)]
pub struct DamageRate {
    /// Damage reports.
    pub reports: usize,
    /// Movements.
    pub movements: usize,
    /// Reports for each 1,000 movements; none without movements.
    pub rate: Option<f64>,
    /// Its limits; none without movements.
    pub limits: Option<Limits>,
    /// Confidence of the limits.
    pub confidence: Ratio,
    /// The entries that it is counted from.
    pub counted: RateCounted,
}

/// Exact central limits of the mean of a Poisson count [GARWOOD-1936].
///
/// # Errors
/// [`BookError::Confidence`] for a confidence outside 0 to 100 %, ends excluded.
pub fn poisson_limits(count: u32, confidence: Ratio) -> Result<Limits, BookError> {
    let confidence = confidence.si();
    hardpan_math::poisson_limits(count, confidence)
        .map(|(lower, upper)| Limits { lower, upper })
        .ok_or(BookError::Confidence { percent: confidence * 100.0 })
}

/// Damage reports of a strip for each 1,000 of its movements. A report counts
/// as one event; damage that nobody reported is not in it.
///
/// # Errors
/// As [`poisson_limits`].
pub fn damage_rate(
    entries: &[&Entry],
    strip: &str,
    confidence: Ratio,
) -> Result<DamageRate, BookError> {
    let of_strip =
        |entry: &&&Entry| matches!(&entry.record, Record::Damage(one) if one.strip == strip);
    let reports = entries.iter().filter(of_strip).map(|entry| entry.id).collect();
    let movements = movement_entries(entries, strip).map(|(id, _)| id).collect();
    rate_of(reports, movements, confidence)
}

/// The rate of reports over movements, by the numbers of their entries.
pub(crate) fn rate_of(
    reports: Vec<i64>,
    movements: Vec<i64>,
    confidence: Ratio,
) -> Result<DamageRate, BookError> {
    let counts = (u32::try_from(reports.len()).ok(), u32::try_from(movements.len()).ok());
    let mut rate = DamageRate {
        reports: reports.len(),
        movements: movements.len(),
        rate: None,
        limits: None,
        confidence,
        counted: RateCounted {
            reports: EntryRange::of(reports),
            movements: EntryRange::of(movements),
        },
    };
    if let (Some(count), Some(movements @ 1..)) = counts {
        let scale = PER_MOVEMENTS / f64::from(movements);
        let limits = poisson_limits(count, confidence)?;
        rate.rate = Some(f64::from(count) * scale);
        rate.limits = Some(Limits { lower: limits.lower * scale, upper: limits.upper * scale });
    }
    Ok(rate)
}
