//! An entry: a record with who made it, when, and what it supersedes.

use crate::Record;
use jiff::Timestamp;
use std::collections::BTreeSet;

/// Who records, and when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Audit {
    /// Who.
    pub by: String,
    /// When it is recorded.
    pub at: Timestamp,
}

/// One entry.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Its number; numbers rise by one.
    pub id: i64,
    /// Who recorded it, and when.
    pub audit: Audit,
    /// The entry that it supersedes.
    pub supersedes: Option<i64>,
    /// Why it supersedes that entry.
    pub why: Option<String>,
    /// What whoever records marked it with, so that sending it twice records it
    /// once.
    pub mark: Option<String>,
    /// What is recorded.
    pub record: Record,
}

/// The entries that stand: neither superseded nor withdrawals.
#[must_use]
pub fn current(entries: &[Entry]) -> Vec<&Entry> {
    let gone: BTreeSet<i64> = entries.iter().filter_map(|entry| entry.supersedes).collect();
    let stands = |entry: &&Entry| {
        !gone.contains(&entry.id) && !matches!(entry.record, Record::Withdrawal(_))
    };
    entries.iter().filter(stands).collect()
}
