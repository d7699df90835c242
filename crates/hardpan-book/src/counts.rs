//! Counts over the entries that stand.

use crate::{Entry, Inspection, Movement, MovementKind, Record, Repair};
use hardpan_model::EntryRange;
use hardpan_quantity::{Time, seconds};
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::Offset;
use std::collections::{BTreeMap, BTreeSet};

/// Passes over a strip since it was last mended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Passes {
    /// Landings and take-offs.
    pub count: usize,
    /// Day of the last repair; none if no repair is recorded, and then every
    /// movement counts.
    pub since: Option<Date>,
    /// The entries of the landings and take-offs.
    pub entries: Vec<EntryRange>,
    /// The entry of that repair.
    pub mended_by: Option<i64>,
}

/// The day of a moment, UTC.
pub(crate) fn day_of(at: Timestamp) -> Date {
    Offset::UTC.to_datetime(at).date()
}

pub(crate) fn movements<'a>(
    entries: &'a [&Entry],
    strip: &'a str,
) -> impl Iterator<Item = &'a Movement> {
    movement_entries(entries, strip).map(|(_, one)| one)
}

/// Movements of a strip with the numbers of their entries.
pub(crate) fn movement_entries<'a>(
    entries: &'a [&Entry],
    strip: &'a str,
) -> impl Iterator<Item = (i64, &'a Movement)> {
    entries.iter().filter_map(move |entry| match &entry.record {
        Record::Movement(one) if one.strip == strip => Some((entry.id, one)),
        _ => None,
    })
}

/// The last of the repairs of a strip that are meant, with the number of its entry.
pub(crate) fn last_repair<'a>(
    entries: &'a [&Entry],
    strip: &str,
    is_meant: impl Fn(&Repair) -> bool,
) -> Option<(i64, &'a Repair)> {
    let repairs = entries.iter().filter_map(|entry| match &entry.record {
        Record::Repair(one) if one.strip == strip && is_meant(one) => Some((entry.id, one)),
        _ => None,
    });
    repairs.max_by_key(|(_, one)| one.date)
}

pub(crate) fn last_inspection<'a>(
    entries: &[&'a Entry],
    strip: &str,
    now: Timestamp,
) -> Option<&'a Inspection> {
    last_inspection_entry(entries, strip, now).map(|(_, one)| one)
}

pub(crate) fn last_inspection_entry<'a>(
    entries: &[&'a Entry],
    strip: &str,
    now: Timestamp,
) -> Option<(&'a Entry, &'a Inspection)> {
    let inspections = entries.iter().filter_map(|entry| match &entry.record {
        Record::Inspection(one) if one.strip == strip && one.at <= now => Some((*entry, one)),
        _ => None,
    });
    inspections.max_by_key(|(_, one)| one.at)
}

/// Passes since the last repair anywhere on the strip. Movements on the day of
/// the repair count, because its hour is not recorded.
#[must_use]
pub fn passes_since_repair(entries: &[&Entry], strip: &str) -> Passes {
    let mended = last_repair(entries, strip, |_| true);
    let since = mended.map(|(_, one)| one.date);
    let after = |one: &Movement| since.is_none_or(|since| day_of(one.at) >= since);
    let over = movement_entries(entries, strip).filter(|(_, one)| after(one));
    let over: Vec<i64> = over.map(|(id, _)| id).collect();
    Passes {
        count: over.len(),
        since,
        entries: EntryRange::of(over),
        mended_by: mended.map(|(id, _)| id),
    }
}

/// The aeroplanes of all movements over a strip, each once, in the order of their names;
/// over every strip where none is named.
#[must_use]
pub fn tails(entries: &[&Entry], strip: Option<&str>) -> Vec<String> {
    let tails = entries.iter().filter_map(|entry| match &entry.record {
        Record::Movement(one) if strip.is_none_or(|strip| one.strip == strip) => Some(&one.tail),
        _ => None,
    });
    tails.cloned().collect::<BTreeSet<String>>().into_iter().collect()
}

/// Movements and damage reports of a strip so far.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StrikesSoFar {
    /// Landings and take-offs.
    pub movements: u32,
    /// Damage reports on or between the days of the movements.
    pub strikes: u32,
    /// Day of the first movement.
    pub first: Option<Date>,
    /// Day of the last movement.
    pub last: Option<Date>,
}

/// Movements of a strip and the damage reported while they were recorded. Damage
/// from days before the first or after the last recorded movement is left out:
/// its movements are not counted either.
#[must_use]
pub fn strikes_so_far(entries: &[&Entry], strip: &str) -> StrikesSoFar {
    let days = || movements(entries, strip).map(|one| day_of(one.at));
    let (first, last) = (days().min(), days().max());
    let within = |date: Date| {
        first.is_some_and(|first| first <= date) && last.is_some_and(|last| date <= last)
    };
    let reported = entries.iter().filter(|entry| {
        matches!(&entry.record, Record::Damage(one) if one.strip == strip && within(one.date))
    });
    let counted = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    StrikesSoFar {
        movements: counted(days().count()),
        strikes: counted(reported.count()),
        first,
        last,
    }
}

/// Landings and take-offs of a strip by calendar month, UTC, such as `2026-06`.
#[must_use]
pub fn movements_by_month(entries: &[&Entry], strip: &str) -> BTreeMap<String, (usize, usize)> {
    let mut months = BTreeMap::new();
    for one in movements(entries, strip) {
        let day = day_of(one.at);
        let (landings, take_offs): &mut (usize, usize) =
            months.entry(format!("{:04}-{:02}", day.year(), day.month())).or_default();
        match one.kind {
            MovementKind::Landing => *landings += 1,
            MovementKind::TakeOff => *take_offs += 1,
        }
    }
    months
}

/// Time since the last inspection of a strip; none if none is recorded.
#[must_use]
pub fn days_since_inspection(entries: &[&Entry], strip: &str, now: Timestamp) -> Option<Time> {
    let last = last_inspection(entries, strip, now)?;
    Some(seconds(now.duration_since(last.at).as_secs_f64()))
}
