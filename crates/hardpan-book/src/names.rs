//! Names by which records find each other: one strip, one name.

use crate::{BookError, Entry, Kind, Record};
use rusqlite::Transaction;
use std::collections::BTreeSet;

/// A name without what a slip of the pen changes: case, spaces and hyphens.
fn plain(name: &str) -> String {
    let is_hyphen = |letter: char| letter == '-' || ('\u{2010}'..='\u{2015}').contains(&letter);
    let kept = name.chars().filter(|letter| !letter.is_whitespace() && !is_hyphen(*letter));
    kept.flat_map(char::to_lowercase).collect()
}

/// Whether two names are the same but for case, spaces and hyphens.
pub(crate) fn is_alike(one: &str, other: &str) -> bool {
    one == other || (plain(one) == plain(other) && !plain(one).is_empty())
}

/// What carries a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum NameOf {
    /// A strip.
    Strip,
    /// An aeroplane.
    Tail,
}

impl NameOf {
    const ALL: [Self; 2] = [Self::Strip, Self::Tail];

    const fn field(self) -> &'static str {
        match self {
            Self::Strip => "strip",
            Self::Tail => "tail",
        }
    }

    const fn word(self) -> &'static str {
        match self {
            Self::Strip => "strip",
            Self::Tail => "aeroplane",
        }
    }

    fn of(self, record: &Record) -> Option<&str> {
        match self {
            Self::Strip => record.strip(),
            Self::Tail => record.tail(),
        }
    }
}

/// The names that the entries that stand carry.
#[must_use]
pub fn names_of(standing: &[&Entry], what: NameOf) -> BTreeSet<String> {
    standing.iter().filter_map(|entry| what.of(&entry.record).map(str::to_owned)).collect()
}

/// That the entries that stand know a strip or an aeroplane.
///
/// # Errors
/// [`BookError::NoSuchName`] with the names that they know.
pub fn must_know(standing: &[&Entry], what: NameOf, name: &str) -> Result<(), BookError> {
    let known = names_of(standing, what);
    if known.contains(name) {
        return Ok(());
    }
    let known = known.into_iter().collect();
    Err(BookError::NoSuchName { what: what.word(), name: name.to_owned(), known })
}

/// The names in use, against which those of new records are held.
#[derive(Default)]
pub(crate) struct InUse([BTreeSet<String>; 2]);

impl InUse {
    pub(crate) fn of<'r>(records: impl IntoIterator<Item = &'r Record>) -> Self {
        let mut all = Self::default();
        for record in records {
            all.add(record);
        }
        all
    }

    /// Those of the entries that stand, but for some of these numbers.
    pub(crate) fn read(
        transaction: &Transaction<'_>,
        gone: &BTreeSet<i64>,
    ) -> Result<Self, rusqlite::Error> {
        let mut all = Self::default();
        for (what, names) in NameOf::ALL.into_iter().zip(&mut all.0) {
            let field = what.field();
            for kind in Kind::ALL.iter().filter(|kind| kind.columns().contains(&field)) {
                let query = format!(
                    "SELECT d.id, d.{field} FROM {kind} d WHERE d.{field} IS NOT NULL AND NOT \
                     EXISTS (SELECT 1 FROM entry n WHERE n.supersedes = d.id)"
                );
                let mut statement = transaction.prepare(&query)?;
                let mut rows = statement.query([])?;
                while let Some(row) = rows.next()? {
                    if !gone.contains(&row.get(0)?) {
                        names.insert(row.get(1)?);
                    }
                }
            }
        }
        Ok(all)
    }

    pub(crate) fn add(&mut self, record: &Record) {
        for (what, names) in NameOf::ALL.into_iter().zip(&mut self.0) {
            names.extend(what.of(record).map(str::to_owned));
        }
    }

    /// That no name of a record differs from one in use by case, spaces or hyphens alone.
    pub(crate) fn takes(&self, record: &Record) -> Result<(), BookError> {
        let kind = record.kind();
        for (what, names) in NameOf::ALL.into_iter().zip(&self.0) {
            let Some(name) = what.of(record).filter(|name| !names.contains(*name)) else {
                continue;
            };
            if let Some(known) = names.iter().find(|known| is_alike(known, name)) {
                let field = what.field();
                let what = format!(
                    "`{name}` differs from `{known}`, which the book knows, only by case, spaces \
                     or hyphens; write `{known}`, or a name that differs by a letter or a digit"
                );
                return Err(BookError::Value { kind, field, what });
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::is_alike;

    #[test]
    fn names_are_alike_but_for_case_spaces_and_hyphens() {
        for (one, other, alike) in [
            ("Long Gravel", "long gravel", true),
            ("Long Gravel", "LONG-GRAVEL", true),
            ("Long Gravel", "long\u{2013}gravel", true),
            ("Long Gravel", "Long Grave", false),
            ("101", "1 01", true),
            ("101", "102", false),
            ("-", " ", false),
        ] {
            assert_eq!(is_alike(one, other), alike, "{one} and {other}");
        }
    }
}
