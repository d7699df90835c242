//! Pictures in the book: each once by its digest, tied to the entry that it shows
//! something of.

use crate::picture::sha256;
use crate::store::fit_mark;
use crate::{Audit, Book, BookError, Entry, Kind, Once, Picture, PictureFile, Record, current};
use rusqlite::{OptionalExtension as _, Transaction};
use std::collections::{BTreeMap, BTreeSet};

/// Most pictures of one record.
pub const MOST_PICTURES: usize = 12;

/// Kinds of record that pictures belong to.
pub const PICTURED: [Kind; 3] = [Kind::Inspection, Kind::Damage, Kind::Repair];

/// What is said of a picture when it is handed in.
#[derive(Debug, Clone, Copy)]
pub struct Shown<'a> {
    /// Number of the entry that it shows something of.
    pub of_entry: i64,
    /// What it shows, for who cannot see it.
    pub what: &'a str,
    /// Name of its file.
    pub file: Option<&'a str>,
}

impl Book {
    /// SHA-256 of every picture whose bytes it keeps.
    pub(crate) fn kept_pictures(&self) -> Result<BTreeSet<String>, BookError> {
        let told = |error: rusqlite::Error| BookError::of_database(&self.path, &error);
        let mut find =
            self.connection.prepare("SELECT sha256 FROM picture_content").map_err(told)?;
        let digests = find.query_map([], |row| row.get(0)).map_err(told)?;
        digests.collect::<Result<_, _>>().map_err(told)
    }

    /// Keep a picture of what an inspection, damage or a repair tells. Under a mark
    /// it is recorded once, as by [`Book::add_once`].
    ///
    /// # Errors
    /// As [`Book::add_once`]; also [`BookError::Picture`] where the entry takes no
    /// picture, or none more.
    pub fn add_picture(
        &mut self,
        shown: Shown<'_>,
        picture: PictureFile,
        mark: Option<&str>,
        audit: Audit,
    ) -> Result<Once, BookError> {
        mark.map(fit_mark).transpose()?;
        let entries = self.entries()?;
        let owner =
            newest_of(&entries, shown.of_entry).ok_or(BookError::NoEntry { id: shown.of_entry })?;
        let record = Record::Picture(Picture {
            strip: owner.record.strip().unwrap_or_default().to_owned(),
            of_entry: owner.id,
            shown: shown.what.to_owned(),
            file: shown.file.map(str::to_owned),
            format: picture.format,
            width: picture.width,
            height: picture.height,
            bytes: picture.bytes(),
            digest: picture.digest.clone(),
        });
        if let Some(mark) = mark
            && let Some(known) = self.marked(mark, &record)?
        {
            return Ok(Once::Known(known));
        }
        let mine = pictures_of(&entries, owner.id);
        if let Some((old, _)) = mine.iter().find(|(_, one)| one.digest == picture.digest) {
            let what = format!("entry {} keeps the same one of entry {} already", old.id, owner.id);
            return Err(BookError::Picture { what });
        }
        if mine.len() >= MOST_PICTURES {
            let what = format!("entry {} has {MOST_PICTURES}, and takes no more", owner.id);
            return Err(BookError::Picture { what });
        }
        self.add_with(record, mark, &audit, &[picture])
    }

    /// A picture by its digest, once its bytes fit it; none if the book does not
    /// hold it.
    ///
    /// # Errors
    /// [`BookError::Corrupt`] if they do not fit.
    pub fn picture(&self, digest: &str) -> Result<Option<PictureFile>, BookError> {
        let find = "SELECT content FROM picture_content WHERE sha256 = ?1";
        let content: Option<Vec<u8>> = self
            .connection
            .query_row(find, [digest], |row| row.get(0))
            .optional()
            .map_err(|error| BookError::of_database(&self.path, &error))?;
        let Some(content) = content else { return Ok(None) };
        let damaged = || self.corrupt(format!("the picture {digest} does not fit its digest"));
        if sha256(&content) != digest {
            return Err(damaged());
        }
        PictureFile::read(content).map(Some).map_err(|_| damaged())
    }

    /// Every picture of the entries fits what they say of it, and there is no other.
    pub(crate) fn verify_pictures(&self, entries: &[Entry]) -> Result<(), BookError> {
        let told = |error: rusqlite::Error| BookError::of_database(&self.path, &error);
        let mut named = BTreeSet::new();
        for entry in entries {
            let Record::Picture(one) = &entry.record else { continue };
            let kept = self.picture(&one.digest)?;
            if !kept.is_some_and(|kept| fits(one, &kept)) {
                return Err(self.corrupt(format!("the picture of entry {} is another", entry.id)));
            }
            named.insert(one.digest.as_str());
        }
        let mut query =
            self.connection.prepare("SELECT sha256 FROM picture_content").map_err(told)?;
        let digests = query.query_map([], |row| row.get::<_, String>(0)).map_err(told)?;
        for digest in digests {
            let digest = digest.map_err(told)?;
            if !named.contains(digest.as_str()) {
                return Err(self.corrupt(format!("no entry knows of the picture {digest}")));
            }
        }
        Ok(())
    }
}

/// The bytes of a picture are put in, where they are not kept already; they must be
/// what the record says, and of an entry that takes pictures.
pub(crate) fn insert_content(
    transaction: &Transaction<'_>,
    record: &Picture,
    given: &[PictureFile],
    told: impl Fn(rusqlite::Error) -> BookError + Copy,
) -> Result<(), BookError> {
    let wrong = |what: String| BookError::Picture { what };
    let find = "SELECT kind FROM entry WHERE id = ?1";
    let word: Option<String> = transaction
        .query_row(find, [record.of_entry], |row| row.get(0))
        .optional()
        .map_err(told)?;
    let word = word.ok_or(BookError::NoEntry { id: record.of_entry })?;
    if !PICTURED.iter().any(|kind| kind.word() == word) {
        let known = PICTURED.map(Kind::word).join(", ");
        let what =
            format!("entry {} is of kind {word}; pictures are kept of {known}", record.of_entry);
        return Err(wrong(what));
    }
    let find = "SELECT content FROM picture_content WHERE sha256 = ?1";
    let kept: Option<Vec<u8>> =
        transaction.query_row(find, [&record.digest], |row| row.get(0)).optional().map_err(told)?;
    let is_kept = kept.is_some();
    let kept = kept.map(PictureFile::read).transpose()?;
    let given = given.iter().find(|one| one.digest == record.digest);
    let Some(picture) = kept.as_ref().or(given) else {
        return Err(wrong(format!("nothing with the SHA-256 {} was handed in", record.digest)));
    };
    if !fits(record, picture) {
        let what = format!("{} is of another kind or size than it is said to be", record.digest);
        return Err(wrong(what));
    }
    if !is_kept {
        transaction
            .execute(
                "INSERT INTO picture_content (sha256, content) VALUES (?1, ?2)",
                rusqlite::params![picture.digest, picture.content],
            )
            .map_err(told)?;
    }
    Ok(())
}

pub(crate) fn fits(record: &Picture, file: &PictureFile) -> bool {
    (record.format, record.width, record.height, record.bytes, &record.digest)
        == (file.format, file.width, file.height, file.bytes(), &file.digest)
}

/// The entry that stands in the place of another, after every correction; none
/// where there is no such entry or it was withdrawn.
#[must_use]
pub fn newest_of(entries: &[Entry], id: i64) -> Option<&Entry> {
    let after: BTreeMap<i64, &Entry> =
        entries.iter().filter_map(|entry| Some((entry.supersedes?, entry))).collect();
    let mut found = entries.iter().find(|entry| entry.id == id)?;
    // A successor has a higher number, so that this ends.
    while let Some(next) = after.get(&found.id).filter(|next| next.id > found.id) {
        found = next;
    }
    (found.record.kind() != Kind::Withdrawal).then_some(found)
}

/// The standing pictures of an entry, those of what it was corrected from too.
#[must_use]
pub fn pictures_of(entries: &[Entry], id: i64) -> Vec<(&Entry, &Picture)> {
    let mut mine = BTreeSet::from([id]);
    let mut old = entries.iter().find(|entry| entry.id == id).and_then(|entry| entry.supersedes);
    while let Some(before) = old.filter(|before| mine.insert(*before)) {
        old = entries.iter().find(|entry| entry.id == before).and_then(|entry| entry.supersedes);
    }
    let pictures = current(entries).into_iter().filter_map(|entry| match &entry.record {
        Record::Picture(one) if mine.contains(&one.of_entry) => Some((entry, one)),
        _ => None,
    });
    pictures.collect()
}

/// Digests of all pictures, the superseded ones too, each once.
#[must_use]
pub fn picture_digests(entries: &[Entry]) -> BTreeSet<&str> {
    let digests = entries.iter().filter_map(|entry| match &entry.record {
        Record::Picture(one) => Some(one.digest.as_str()),
        _ => None,
    });
    digests.collect()
}
