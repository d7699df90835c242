//! Times for which a strip is closed.

use crate::names::is_alike;
use crate::{ClosureAction, Entry, Record};
use jiff::Timestamp;

/// A time for which a strip is closed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closed<'e> {
    /// The entry that closes it.
    pub entry: &'e Entry,
    /// From when on.
    pub from: Timestamp,
    /// Why.
    pub reason: &'e str,
    /// Number of the entry that opens it again, and from when on.
    pub until: Option<(i64, Timestamp)>,
}

impl Closed<'_> {
    /// Whether the strip is closed by it at a moment.
    #[must_use]
    pub fn holds_at(&self, at: Timestamp) -> bool {
        self.from <= at && self.until.is_none_or(|(_, until)| at < until)
    }

    /// It in words: from and until when, why, and who recorded it.
    #[must_use]
    pub fn words(&self) -> String {
        let until = self.until.map_or_else(
            || "no reopening is recorded".to_owned(),
            |(id, until)| format!("reopened {} by entry {id}", moment(until)),
        );
        let (by, id) = (&self.entry.audit.by, self.entry.id);
        let from = moment(self.from);
        format!("closed from {from}: {} ({by}, entry {id}; {until})", self.reason)
    }
}

/// A moment inside a sentence.
pub(crate) fn moment(at: Timestamp) -> String {
    at.strftime("%Y-%m-%d %H:%MZ").to_string()
}

/// The times for which a strip is closed, in the order of their beginning. At one moment
/// a closure counts as the later. A strip whose name differs only by case, spaces or
/// hyphens is taken for the same one.
#[must_use]
pub fn closed_times<'e>(entries: &[&'e Entry], strip: &str) -> Vec<Closed<'e>> {
    let mut records: Vec<_> = entries
        .iter()
        .filter_map(|entry| match &entry.record {
            Record::Closure(one) if is_alike(&one.strip, strip) => Some((*entry, one)),
            _ => None,
        })
        .collect();
    records.sort_by_key(|(_, one)| (one.from, one.action == ClosureAction::Closed));
    let mut times: Vec<Closed<'e>> = Vec::new();
    for (entry, one) in records {
        match one.action {
            ClosureAction::Closed => {
                let (from, reason) = (one.from, one.reason.as_str());
                times.push(Closed { entry, from, reason, until: None });
            }
            ClosureAction::Reopened => {
                for open in times.iter_mut().filter(|time| time.until.is_none()) {
                    open.until = Some((entry.id, one.from));
                }
            }
        }
    }
    times
}
