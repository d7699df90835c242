//! Adding entries and reading them back.

use crate::chain::digest;
use crate::import_known::unknown_of;
use crate::names::InUse;
use crate::pictures::insert_content;
use crate::record::Standing;
use crate::version::WHY;
use crate::{
    Audit, Book, BookError, Entry, First, ImportError, Kind, PictureFile, Record, Taken, TakenOver,
    Version, current, fit_to_take_over, newest_version,
};
use hardpan_quantity::counted;
use rusqlite::types::Value;
use rusqlite::{OptionalExtension as _, Row, Transaction, TransactionBehavior, params_from_iter};
use std::collections::BTreeSet;

/// An entry that another names.
#[derive(Clone, Copy)]
pub(crate) enum Named {
    /// It stands in the book under this number.
    Standing(i64),
    /// It is put in with the others, as the one of this number from 1 on.
    Along(i64),
}

/// What an entry puts another in the place of.
#[derive(Clone, Copy)]
pub(crate) struct Superseding<'a> {
    pub(crate) id: Named,
    pub(crate) why: &'a str,
}

/// A record, what it supersedes, and who first wrote it.
pub(crate) struct Put<'a> {
    pub(crate) record: Record,
    pub(crate) old: Option<Superseding<'a>>,
    pub(crate) first: Option<First>,
    /// What a picture shows something of, where its record does not name it.
    pub(crate) shows: Option<Named>,
}

impl From<Record> for Put<'_> {
    fn from(record: Record) -> Self {
        Self { record, old: None, first: None, shows: None }
    }
}

/// What is put into the book in one step.
#[derive(Clone, Copy, Default)]
struct Along<'a> {
    mark: Option<&'a str>,
    /// The bytes of its pictures, unless the book keeps them.
    pictures: &'a [PictureFile],
}

/// Columns of `entry` that stand before those of the kind.
const AUDIT_COLUMNS: usize = 9;

/// What stands in the book once a marked record was sent.
#[derive(Debug, Clone, PartialEq)]
pub enum Once {
    /// It was recorded now.
    New(Entry),
    /// It stood there already, word for word, from an earlier sending.
    Known(Entry),
}

impl Once {
    /// The entry that stands.
    #[must_use]
    pub const fn entry(&self) -> &Entry {
        match self {
            Self::New(entry) | Self::Known(entry) => entry,
        }
    }
}

impl Book {
    /// Add a record; it is on the disk when the entry is given back.
    ///
    /// # Errors
    /// [`BookError`]: a value does not fit, the record lies ahead of
    /// `audit.at`, nobody is named, or the file cannot be written.
    pub fn add(&mut self, record: Record, audit: Audit) -> Result<Entry, BookError> {
        let mut added = self.append(vec![record.into()], &audit, Along::default())?;
        added.pop().ok_or_else(|| self.corrupt("nothing was added".to_owned()))
    }

    /// Add a record under a mark of the sender's own making, 8 to 64 letters,
    /// digits and hyphens. Sent again, it is recorded once.
    ///
    /// # Errors
    /// As [`Book::add`]; also [`BookError::Mark`] for a mark of another form, or
    /// one under which something else is recorded.
    pub fn add_once(
        &mut self,
        mark: &str,
        record: Record,
        audit: Audit,
    ) -> Result<Once, BookError> {
        fit_mark(mark)?;
        if let Some(known) = self.marked(mark, &record)? {
            return Ok(Once::Known(known));
        }
        self.add_with(record, Some(mark), &audit, &[])
    }

    pub(crate) fn add_with(
        &mut self,
        record: Record,
        mark: Option<&str>,
        audit: &Audit,
        pictures: &[PictureFile],
    ) -> Result<Once, BookError> {
        let along = Along { mark, pictures };
        match self.append(vec![record.clone().into()], audit, along) {
            Ok(mut added) => added
                .pop()
                .map(Once::New)
                .ok_or_else(|| self.corrupt("nothing was added".to_owned())),
            // Another sending of the same record may have come in between.
            Err(error) => {
                match mark.map(|mark| self.marked(mark, &record)).transpose()?.flatten() {
                    Some(known) => Ok(Once::Known(known)),
                    None => Err(error),
                }
            }
        }
    }

    /// Take over the records of a file or the entries of another book, with what
    /// superseded what and why, who first wrote them, and the bytes of their pictures:
    /// all of them, or none. What stands in the book word for word is not recorded
    /// again.
    ///
    /// # Errors
    /// As of [`fit_to_take_over`]; or the file cannot be written.
    pub fn take_over(
        &mut self,
        history: Vec<Taken>,
        pictures: &[PictureFile],
        audit: &Audit,
    ) -> Result<TakenOver, ImportError> {
        fit_to_take_over(&history, pictures, &self.kept_pictures()?, audit)?;
        let standing = self.entries()?;
        let (puts, known) = unknown_of(&history, &standing)?;
        let recorded = self.append(puts, audit, Along { mark: None, pictures })?;
        Ok(TakenOver { recorded, known })
    }

    /// The entry of a mark, which must hold this record.
    pub(crate) fn marked(&self, mark: &str, record: &Record) -> Result<Option<Entry>, BookError> {
        let find = "SELECT id FROM entry WHERE mark = ?1";
        let known: Option<i64> = self
            .connection
            .query_row(find, [mark], |row| row.get(0))
            .optional()
            .map_err(|error| BookError::of_database(&self.path, &error))?;
        let Some(known) = known else { return Ok(None) };
        let kept = self.entries()?.into_iter().find(|entry| entry.id == known);
        let same = Record::from_fields(record.kind(), &record.fields())?;
        match kept {
            Some(entry) if entry.record != same => {
                let what =
                    format!("entry {} was recorded under it and holds something else", entry.id);
                Err(BookError::Mark { mark: mark.to_owned(), what })
            }
            kept => Ok(kept),
        }
    }

    /// Add several records: all of them, or none.
    ///
    /// # Errors
    /// As [`Book::add`], for the first that does not fit.
    pub fn add_all(
        &mut self,
        records: Vec<Record>,
        audit: &Audit,
    ) -> Result<Vec<Entry>, BookError> {
        self.append(records.into_iter().map(Put::from).collect(), audit, Along::default())
    }

    /// Add a record with the versions that it was made from: all of them, or none.
    /// A version that stands already is not recorded again; a new one supersedes
    /// the older one of the same aeroplane, strip, day or flight.
    ///
    /// # Errors
    /// As [`Book::add`], for the first that does not fit.
    pub fn keep(
        &mut self,
        first: Option<Record>,
        versions: Vec<Record>,
        audit: &Audit,
    ) -> Result<Vec<Entry>, BookError> {
        let entries = self.entries()?;
        let standing = current(&entries);
        let mut records: Vec<_> = first.into_iter().map(Put::from).collect();
        for record in versions {
            let older = newest_version(&standing, &record);
            let digest = |record: &Record| Version::of(record).map(|one| one.digest.to_owned());
            if older.is_none_or(|older| digest(&older.record) != digest(&record)) {
                let old =
                    older.map(|older| Superseding { id: Named::Standing(older.id), why: WHY });
                records.push(Put { old, ..Put::from(record) });
            }
        }
        self.append(records, audit, Along::default())
    }

    /// Put a record in the place of entry `id`, which stays readable.
    ///
    /// # Errors
    /// As [`Book::add`]; also if there is no such entry, it is of another kind
    /// or is superseded already, or no reason is given.
    pub fn correct(
        &mut self,
        id: i64,
        record: Record,
        why: &str,
        audit: Audit,
    ) -> Result<Entry, BookError> {
        let old = Some(Superseding { id: Named::Standing(id), why });
        let put = Put { old, ..Put::from(record) };
        let mut added = self.append(vec![put], &audit, Along::default())?;
        added.pop().ok_or_else(|| self.corrupt("nothing was added".to_owned()))
    }

    /// Every entry in the order of recording, the superseded ones too.
    ///
    /// # Errors
    /// [`BookError::Corrupt`] if an entry is missing, cannot be read, or does
    /// not fit its digest.
    pub fn entries(&self) -> Result<Vec<Entry>, BookError> {
        let told = |error: rusqlite::Error| BookError::of_database(&self.path, &error);
        let moment = self.connection.unchecked_transaction().map_err(told)?;
        let mut found = Vec::new();
        for kind in Kind::ALL {
            self.read_kind(&moment, *kind, &mut found)?;
        }
        let count: i64 =
            moment.query_row("SELECT count(*) FROM entry", [], |row| row.get(0)).map_err(told)?;
        found.sort_by_key(|(entry, _)| entry.id);
        if i64::try_from(found.len()) != Ok(count) {
            let entries = counted(count, "entry stands", "entries stand");
            let records = counted(found.len(), "record", "records");
            return Err(self.corrupt(format!("{entries} beside {records}")));
        }
        let mut previous = String::new();
        for ((entry, stated), expected) in found.iter().zip(1_i64..) {
            if entry.id != expected {
                return Err(self.corrupt(format!("entry {expected} is missing")));
            }
            previous = digest(&previous, entry);
            if previous != *stated {
                return Err(self.corrupt(format!("entry {} does not fit its digest", entry.id)));
            }
        }
        self.must_be_still()?;
        Ok(found.into_iter().map(|(entry, _)| entry).collect())
    }

    fn read_kind(
        &self,
        moment: &Transaction<'_>,
        kind: Kind,
        found: &mut Vec<(Entry, String)>,
    ) -> Result<(), BookError> {
        let told = |error: rusqlite::Error| BookError::of_database(&self.path, &error);
        let columns: String = kind.columns().iter().map(|name| format!(", d.{name}")).collect();
        let query = format!(
            "SELECT e.id, e.recorded_at, e.recorded_by, e.supersedes, e.why, e.digest, \
             e.mark, e.first_by, e.first_at{columns} \
             FROM entry e JOIN {kind} d ON d.id = e.id ORDER BY e.id"
        );
        let mut statement = moment.prepare(&query).map_err(told)?;
        let mut rows = statement.query([]).map_err(told)?;
        while let Some(row) = rows.next().map_err(told)? {
            found.push(self.read_row(kind, row)?);
        }
        Ok(())
    }

    fn read_row(&self, kind: Kind, row: &Row<'_>) -> Result<(Entry, String), BookError> {
        let told = |error: rusqlite::Error| match error.sqlite_error_code() {
            Some(_) => BookError::of_database(&self.path, &error),
            None => self.corrupt(error.to_string()),
        };
        let id: i64 = row.get(0).map_err(told)?;
        let at: String = row.get(1).map_err(told)?;
        let at = at.parse().map_err(|_| self.corrupt(format!("entry {id}: no time: {at:?}")))?;
        let values: Vec<Value> = (0..kind.columns().len())
            .map(|index| row.get(AUDIT_COLUMNS + index))
            .collect::<Result<_, _>>()
            .map_err(told)?;
        let record = Record::restore(kind, values)
            .map_err(|what| self.corrupt(format!("entry {id}: {what}")))?;
        let entry = Entry {
            id,
            audit: Audit { by: row.get(2).map_err(told)?, at },
            supersedes: row.get(3).map_err(told)?,
            why: row.get(4).map_err(told)?,
            mark: row.get(6).map_err(told)?,
            first: self.first_of(id, row.get(7).map_err(told)?, row.get(8).map_err(told)?)?,
            record,
        };
        Ok((entry, row.get(5).map_err(told)?))
    }

    fn first_of(
        &self,
        id: i64,
        by: Option<String>,
        at: Option<String>,
    ) -> Result<Option<First>, BookError> {
        let moment = |at: String| {
            at.parse().map_err(|_| self.corrupt(format!("entry {id}: no time: {at:?}")))
        };
        let Some(by) = by else { return Ok(None) };
        Ok(Some(First { by, at: at.map(moment).transpose()? }))
    }

    fn append(
        &mut self,
        records: Vec<Put<'_>>,
        audit: &Audit,
        along: Along<'_>,
    ) -> Result<Vec<Entry>, BookError> {
        let (gone, gone_along) = superseded(&records);
        let records: Vec<Put<'_>> = records
            .into_iter()
            .zip(1..)
            .map(|(put, at)| {
                let standing = match gone_along.contains(&at) {
                    true => Standing::Superseded,
                    false => Standing::Stands,
                };
                let record = checked(&put.record, audit, put.old.as_ref(), standing)?;
                Ok(Put { record, ..put })
            })
            .collect::<Result<_, BookError>>()?;
        let path = self.path.clone();
        let told = |error: rusqlite::Error| BookError::of_database(&path, &error);
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(told)?;
        let last: Option<(i64, String)> = transaction
            .query_row("SELECT id, digest FROM entry ORDER BY id DESC LIMIT 1", [], |row| {
                Ok((row.get(0)?, row.get(1)?))
            })
            .optional()
            .map_err(told)?;
        let (mut last, mut previous) = last.unwrap_or_default();
        let before = last;
        let mut names = InUse::read(&transaction, &gone).map_err(told)?;
        for (put, _) in records.iter().zip(1..).filter(|(_, at)| !gone_along.contains(at)) {
            names.takes(&put.record)?;
            names.add(&put.record);
        }
        let number = |named: Named| match named {
            Named::Standing(id) => id,
            Named::Along(at) => before.saturating_add(at),
        };
        let mut added = Vec::new();
        for Put { mut record, old, first: writer, shows } in records {
            let superseding = old.map(|old| (number(old.id), old.why));
            if let Record::Picture(picture) = &mut record {
                picture.of_entry = shows.map_or(picture.of_entry, number);
                insert_content(&transaction, picture, along.pictures, told)?;
            }
            if let Some((id, _)) = superseding {
                may_supersede(&transaction, id, record.kind(), told)?;
            }
            last = last.saturating_add(1);
            let entry = Entry {
                id: last,
                audit: Audit { by: audit.by.trim().to_owned(), at: audit.at },
                supersedes: superseding.map(|(id, _)| id),
                why: superseding.map(|(_, why)| why.to_owned()),
                mark: along.mark.map(str::to_owned),
                first: writer,
                record,
            };
            previous = digest(&previous, &entry);
            insert(&transaction, &entry, &previous).map_err(told)?;
            added.push(entry);
        }
        transaction.commit().map_err(told)?;
        Ok(added)
    }
}

/// Entries of the book, and places in the list from 1 on, that something in the list puts
/// another in the place of.
fn superseded(records: &[Put<'_>]) -> (BTreeSet<i64>, BTreeSet<i64>) {
    let (mut standing, mut along) = (BTreeSet::new(), BTreeSet::new());
    for old in records.iter().filter_map(|put| put.old) {
        match old.id {
            Named::Standing(id) => standing.insert(id),
            Named::Along(at) => along.insert(at),
        };
    }
    (standing, along)
}

/// Whether a mark has the form that one must have.
pub(crate) fn fit_mark(mark: &str) -> Result<(), BookError> {
    let fits = (8..=64).contains(&mark.len())
        && mark.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-');
    if fits {
        return Ok(());
    }
    let what = "it must have 8 to 64 letters, digits and hyphens".to_owned();
    Err(BookError::Mark { mark: mark.chars().take(64).collect(), what })
}

/// The record as it will be read back, once everything about it fits.
pub(crate) fn checked(
    record: &Record,
    audit: &Audit,
    superseding: Option<&Superseding<'_>>,
    standing: Standing,
) -> Result<Record, BookError> {
    let kind = record.kind();
    if audit.by.trim().is_empty() {
        return Err(BookError::NotSaid { what: "who records" });
    }
    let needs_reason = kind == Kind::Withdrawal || superseding.is_some();
    if needs_reason && superseding.is_none_or(|old| old.why.trim().is_empty()) {
        return Err(BookError::NotSaid { what: "what is superseded, and why," });
    }
    Record::read_at(kind, &record.fields(), audit.at, standing).map_err(|wrong| {
        wrong.into_iter().next().unwrap_or(BookError::NotSaid { what: "every value" })
    })
}

fn may_supersede(
    transaction: &Transaction<'_>,
    id: i64,
    wanted: Kind,
    told: impl Fn(rusqlite::Error) -> BookError,
) -> Result<(), BookError> {
    let find = "SELECT e.kind, (SELECT n.id FROM entry n WHERE n.supersedes = e.id) \
                FROM entry e WHERE e.id = ?1";
    let old: Option<(String, Option<i64>)> = transaction
        .query_row(find, [id], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()
        .map_err(told)?;
    let (word, by) = old.ok_or(BookError::NoEntry { id })?;
    let is = Kind::of_word(&word).ok_or(BookError::NoEntry { id })?;
    match by {
        Some(by) => Err(BookError::Superseded { id, by }),
        None if is == Kind::Withdrawal || (is != wanted && wanted != Kind::Withdrawal) => {
            Err(BookError::OtherKind { id, is, wanted })
        }
        None => Ok(()),
    }
}

fn insert(
    transaction: &Transaction<'_>,
    entry: &Entry,
    digest: &str,
) -> Result<(), rusqlite::Error> {
    let kind = entry.record.kind();
    transaction.execute(
        "INSERT INTO entry (id, kind, recorded_at, recorded_by, supersedes, why, digest, mark, \
         first_by, first_at) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
        rusqlite::params![
            entry.id,
            kind.word(),
            entry.audit.at.to_string(),
            entry.audit.by,
            entry.supersedes,
            entry.why,
            digest,
            entry.mark,
            entry.first.as_ref().map(|first| &first.by),
            entry.first.as_ref().and_then(|first| first.at).map(|at| at.to_string())
        ],
    )?;
    let columns: String = kind.columns().iter().map(|name| format!(", {name}")).collect();
    let places: String = (0..kind.columns().len()).map(|_| ", ?").collect();
    let values = std::iter::once(Value::Integer(entry.id)).chain(entry.record.store());
    transaction.execute(
        &format!("INSERT INTO {kind} (id{columns}) VALUES (?{places})"),
        params_from_iter(values),
    )?;
    Ok(())
}
