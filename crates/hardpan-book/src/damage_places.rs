//! How often damage is done by place on the strip and on the aeroplane.

use crate::counts::movement_entries;
use crate::rate::rate_of;
use crate::stretch::{cut, furthest, rolled_over};
use crate::{BookError, Damage, DamageRate, Entry, Record};
use hardpan_model::EntryRange;
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
    /// Their entries.
    pub entries_without: Vec<EntryRange>,
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
    let reports: Vec<(i64, &Damage)> = entries
        .iter()
        .filter_map(|entry| match &entry.record {
            Record::Damage(one) if one.strip == strip => Some((entry.id, one)),
            _ => None,
        })
        .collect();
    let mut stretches = Vec::new();
    if let Some(end) = end.or_else(|| furthest(entries, strip)) {
        for (from, to, is_last) in cut(step, end)? {
            let here = |at: Length| from <= at && (at < to || is_last);
            let done = ids(reports.iter().filter(|(_, one)| one.station.is_some_and(here)));
            let moved = movement_entries(entries, strip);
            let moved = moved.filter(|(_, one)| rolled_over(one, from, to)).map(|(id, _)| id);
            let rate = rate_of(done, moved.collect(), confidence)?;
            stretches.push(StretchDamage { from, to, rate });
        }
    }
    let mut zones: BTreeMap<String, Vec<i64>> = BTreeMap::new();
    for (id, one) in &reports {
        zones.entry(one.zone.trim().to_lowercase()).or_default().push(*id);
    }
    let moved: Vec<i64> = movement_entries(entries, strip).map(|(id, _)| id).collect();
    let rated =
        zones.into_iter().map(|(zone, done)| Ok((zone, rate_of(done, moved.clone(), confidence)?)));
    let mut zones: Vec<(String, DamageRate)> = rated.collect::<Result<_, BookError>>()?;
    zones.sort_by_key(|(_, rate)| std::cmp::Reverse(rate.reports));
    let without = ids(reports.iter().filter(|(_, one)| one.station.is_none()));
    let without_station = without.len();
    let entries_without = EntryRange::of(without);
    Ok(DamagePlaces { stretches, without_station, entries_without, zones })
}

fn ids<'a>(reports: impl Iterator<Item = &'a (i64, &'a Damage)>) -> Vec<i64> {
    reports.map(|(id, _)| *id).collect()
}
