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

/// Who first wrote down what was taken over from another book or a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct First {
    /// Who.
    pub by: String,
    /// When; none where the file does not say.
    pub at: Option<Timestamp>,
}

impl std::fmt::Display for First {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "first written by {}", self.by)?;
        self.at.map_or(Ok(()), |at| write!(f, ", {}", at.strftime("%Y-%m-%d %H:%MZ")))
    }
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
    /// Who first wrote it down, where it was taken over.
    pub first: Option<First>,
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
