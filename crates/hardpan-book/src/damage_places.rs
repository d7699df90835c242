//! How often damage is done by place on the strip and on the aeroplane.

use crate::counts::movements;
use crate::rate::rate_of;
use crate::stretch::{cut, furthest, rolled_over};
use crate::{BookError, Damage, DamageRate, Entry, Record};
use hardpan_quantity::{Length, Ratio};
use std::collections::BTreeMap;

/// Damage over one stretch.
#[derive(Debug, Clone, PartialEq)]
pub struct StretchDamage {
    /// First station.
    pub from: Length,
    /// Last station; the last stretch holds what is recorded further on, too.
    pub to: Length,
    /// Reports there, and movements that rolled over it.
    pub rate: DamageRate,
}

/// Damage by stretch and by zone.
#[derive(Debug, Clone, PartialEq)]
pub struct DamagePlaces {
    /// By stretch of the strip.
    pub stretches: Vec<StretchDamage>,
    /// Reports that state no station, and are in no stretch.
    pub without_station: usize,
    /// By zone of the aeroplane, the most frequent first; over all movements.
    pub zones: Vec<(String, DamageRate)>,
}

/// Damage reports of a strip by stretch and by zone, each for 1,000 movements. The
/// movements of a stretch are those that rolled over it; one that does not state
/// its stretch counts everywhere.
///
/// # Errors
/// [`BookError::Step`] as of the passes by stretch, [`BookError::Confidence`] as of
/// the rate.
pub fn damage_places(
    entries: &[&Entry],
    strip: &str,
    step: Option<Length>,
    end: Option<Length>,
    confidence: Ratio,
) -> Result<DamagePlaces, BookError> {
    let reports: Vec<&Damage> = entries
        .iter()
        .filter_map(|entry| match &entry.record {
            Record::Damage(one) if one.strip == strip => Some(one),
            _ => None,
        })
        .collect();
    let mut stretches = Vec::new();
    if let Some(end) = end.or_else(|| furthest(entries, strip)) {
        for (from, to, is_last) in cut(step, end)? {
            let here = |at: Length| from <= at && (at < to || is_last);
            let count = reports.iter().filter(|one| one.station.is_some_and(here)).count();
            let moved = movements(entries, strip).filter(|one| rolled_over(one, from, to)).count();
            stretches.push(StretchDamage { from, to, rate: rate_of(count, moved, confidence)? });
        }
    }
    let mut zones: BTreeMap<String, usize> = BTreeMap::new();
    for one in &reports {
        *zones.entry(one.zone.trim().to_lowercase()).or_default() += 1;
    }
    let moved = movements(entries, strip).count();
    let rated =
        zones.into_iter().map(|(zone, count)| Ok((zone, rate_of(count, moved, confidence)?)));
    let mut zones: Vec<(String, DamageRate)> = rated.collect::<Result<_, BookError>>()?;
    zones.sort_by_key(|(_, rate)| std::cmp::Reverse(rate.reports));
    let without_station = reports.iter().filter(|one| one.station.is_none()).count();
    Ok(DamagePlaces { stretches, without_station, zones })
}
