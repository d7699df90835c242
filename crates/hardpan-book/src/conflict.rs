//! What in a book may stand against a record that was written away from it.

use crate::closures::moment;
use crate::{ClosureAction, Entry, Record};
use jiff::Timestamp;

/// Two records of one kind so close in time may tell the same thing, seconds.
/// Judgement.
const CLOSE_SECONDS: f64 = 600.0;

/// Why a record that was written away from the book should be looked at before it
/// is recorded: somebody else may have told the same, or the strip was closed
/// meanwhile. Nothing of this forbids it.
#[must_use]
pub fn conflict(entries: &[&Entry], record: &Record) -> Option<String> {
    let alike = entries.iter().rev().find(|entry| is_alike(&entry.record, record));
    if let Some(entry) = alike {
        return Some(format!(
            "entry {} by {} tells of the same {} at nearly the same time and place; it may be the \
             same one",
            entry.id,
            entry.audit.by,
            record.kind()
        ));
    }
    let Record::Movement(movement) = record else { return None };
    let closures = entries.iter().filter_map(|entry| match &entry.record {
        Record::Closure(one) if one.strip == movement.strip && one.from <= movement.at => {
            Some((entry.id, one))
        }
        _ => None,
    });
    let last = closures.max_by_key(|(_, one)| (one.from, one.action == ClosureAction::Closed));
    let (id, closure) = last.filter(|(_, one)| one.action == ClosureAction::Closed)?;
    Some(format!(
        "{} was closed from {} on: {} (entry {id})",
        closure.strip,
        moment(closure.from),
        closure.reason
    ))
}

fn is_alike(one: &Record, other: &Record) -> bool {
    let close =
        |a: Timestamp, b: Timestamp| a.duration_since(b).as_secs_f64().abs() <= CLOSE_SECONDS;
    match (one, other) {
        (Record::Movement(a), Record::Movement(b)) => {
            (&a.strip, &a.tail, a.kind) == (&b.strip, &b.tail, b.kind) && close(a.at, b.at)
        }
        (Record::Inspection(a), Record::Inspection(b)) => {
            (&a.strip, &a.rut_station) == (&b.strip, &b.rut_station) && close(a.at, b.at)
        }
        (Record::Damage(a), Record::Damage(b)) => {
            (&a.strip, &a.tail, a.date) == (&b.strip, &b.tail, b.date)
                && a.zone.trim().eq_ignore_ascii_case(b.zone.trim())
        }
        (Record::Repair(a), Record::Repair(b)) => {
            (&a.strip, a.date) == (&b.strip, b.date) && a.from <= b.to && b.from <= a.to
        }
        (Record::Closure(a), Record::Closure(b)) => {
            (&a.strip, a.action) == (&b.strip, b.action) && close(a.from, b.from)
        }
        (Record::Equipment(a), Record::Equipment(b)) => {
            (&a.tail, &a.item, a.state) == (&b.tail, &b.item, b.state) && close(a.at, b.at)
        }
        (Record::Survey(a), Record::Survey(b)) => {
            (&a.strip, a.what, a.date) == (&b.strip, b.what, b.date)
        }
        _ => false,
    }
}
