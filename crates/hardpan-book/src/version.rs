//! The versions of aeroplanes, strips, days and flights, each with its files as
//! they were read.

use crate::picture::sha256;
use crate::{Entry, Kind, Record};
use serde_json::Value;
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Why a newer version takes the place of an older one.
pub(crate) const WHY: &str = "a newer version of its files";

/// One version of an aeroplane, a strip, a day or a flight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Version<'r> {
    /// What it is a version of.
    pub kind: Kind,
    /// Its name.
    pub name: &'r str,
    /// The strip that it is used with; of a strip its own name.
    pub strip: Option<&'r str>,
    /// The aeroplane of a flight.
    pub tail: Option<&'r str>,
    /// The file that was read.
    pub file: &'r str,
    /// SHA-256 over the list of its files with their digests.
    pub digest: &'r str,
    files: &'r str,
}

/// A file of a version.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct VersionFile {
    /// All of it; none where it is large or no text.
    pub text: Option<String>,
    /// SHA-256 of it, in hexadecimal digits.
    pub digest: String,
}

impl<'r> Version<'r> {
    /// The version that a record holds; none of a record of another kind.
    #[must_use]
    pub fn of(record: &'r Record) -> Option<Self> {
        let kind = record.kind();
        let made = |name, strip, tail, (file, digest, files): (&'r str, &'r str, &'r str)| {
            Some(Self { kind, name, strip, tail, file, digest, files })
        };
        match record {
            Record::Aeroplane(one) => {
                made(&one.tail, None, Some(&one.tail), (&one.file, &one.digest, &one.files))
            }
            Record::Strip(one) => {
                made(&one.strip, Some(&one.strip), None, (&one.file, &one.digest, &one.files))
            }
            Record::Day(one) => {
                made(&one.day, one.strip.as_deref(), None, (&one.file, &one.digest, &one.files))
            }
            Record::Flight(one) => {
                let rest = (&*one.file, &*one.digest, &*one.files);
                made(&one.flight, one.strip.as_deref(), one.tail.as_deref(), rest)
            }
            _ => None,
        }
    }

    /// Its files by their names, as seen from the folder of the file that was read.
    #[must_use]
    pub fn files(&self) -> BTreeMap<String, VersionFile> {
        files_of(self.files).unwrap_or_default()
    }

    /// Whether a newer version of it takes this one's place.
    fn is_of_the_same(&self, other: &Self) -> bool {
        self.kind == other.kind
            && self.name == other.name
            && (self.kind == Kind::Aeroplane || self.strip == other.strip)
    }

    pub(crate) fn contradiction(&self) -> Option<(&'static str, String)> {
        match files_of(self.files) {
            Err(what) => Some(("files", what)),
            Ok(files) if digest_of_files(&files) != self.digest => {
                let what = format!("is not that of its files, {}", digest_of_files(&files));
                Some(("digest", what))
            }
            Ok(_) => None,
        }
    }
}

/// SHA-256 over a list with a line for each file: its own digest, two spaces and
/// its name, in the order of the names.
#[must_use]
pub fn digest_of_files(files: &BTreeMap<String, VersionFile>) -> String {
    let mut list = String::new();
    for (name, file) in files {
        // Writing into a text cannot fail.
        let _ = writeln!(list, "{}  {name}", file.digest);
    }
    sha256(list.as_bytes())
}

/// Files of a version: an object with `{"text": …}` or `{"sha256": …}` for each name.
fn files_of(text: &str) -> Result<BTreeMap<String, VersionFile>, String> {
    let value: Value =
        serde_json::from_str(text).map_err(|error| format!("is no JSON text: {error}"))?;
    let object = value.as_object().filter(|object| !object.is_empty());
    let object = object.ok_or("must be an object with at least one file")?;
    let mut files = BTreeMap::new();
    for (name, file) in object {
        let told = |key: &str| file.get(key).and_then(Value::as_str).map(str::to_owned);
        let file = match (told("text"), told("sha256")) {
            (Some(text), None) => VersionFile { digest: sha256(text.as_bytes()), text: Some(text) },
            (None, Some(digest))
                if digest.len() == 64 && digest.bytes().all(|b| b.is_ascii_hexdigit()) =>
            {
                VersionFile { digest, text: None }
            }
            _ => return Err(format!("`{name}` must hold its `text` or the 64 digits of `sha256`")),
        };
        files.insert(name.clone(), file);
    }
    Ok(files)
}

/// The newest standing version of the same aeroplane, strip, day or flight.
#[must_use]
pub fn newest_version<'e>(entries: &[&'e Entry], record: &Record) -> Option<&'e Entry> {
    let mine = Version::of(record)?;
    let same = |entry: &&&Entry| {
        Version::of(&entry.record).is_some_and(|other| other.is_of_the_same(&mine))
    };
    entries.iter().rev().find(same).copied()
}

/// The entry that holds a version by its digest; the newest if there are several.
#[must_use]
pub fn version_by_digest<'e>(entries: &'e [Entry], kind: Kind, digest: &str) -> Option<&'e Entry> {
    entries.iter().rev().find(|entry| {
        Version::of(&entry.record).is_some_and(|one| one.kind == kind && one.digest == digest)
    })
}

/// The versions that a kept assessment was made from: kind, digest and, if the
/// book holds it, the entry.
#[must_use]
pub fn versions_used<'e>(
    entries: &'e [Entry],
    versions: &str,
) -> Vec<(Kind, String, Option<&'e Entry>)> {
    let value: Value = serde_json::from_str(versions).unwrap_or_default();
    let object = value.as_object().into_iter().flatten();
    let told = object.filter_map(|(word, digest)| {
        let (kind, digest) = (Kind::of_word(word)?, digest.as_str()?);
        Some((kind, digest.to_owned(), version_by_digest(entries, kind, digest)))
    });
    told.collect()
}
