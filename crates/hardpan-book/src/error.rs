//! Why the record cannot be used, in words.

use crate::Kind;
use rusqlite::ErrorCode;
use std::path::{Path, PathBuf};

/// Why the record cannot be used.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum BookError {
    /// A strip cannot be told in steps so short.
    #[error("steps of {step_m} m cut {end_m} m into more than {most} stretches; take longer steps")]
    Step {
        /// Length of a step, metres.
        step_m: f64,
        /// End of the strip, metres.
        end_m: f64,
        /// Most stretches.
        most: usize,
    },
    /// No file stands there.
    #[error(
        "no book stands at {}; the first record makes one: `hardpan book {} add KIND NAME=VALUE … \
         --by NAME`",
        path.display(),
        path.display()
    )]
    NotThere {
        /// Where.
        path: PathBuf,
    },
    /// A file stands where a new one is wanted.
    #[error("a file stands there already and is left alone: {}", path.display())]
    Exists {
        /// Where.
        path: PathBuf,
    },
    /// Another program makes the file at this moment.
    #[error("another program is making {} at this moment; wait until it is done", part.display())]
    BeingMade {
        /// The half-made file.
        part: PathBuf,
    },
    /// A file that is nobody's half-made record stands in the way.
    #[error(
        "{} stands in the way, and it is no half-made record; give it another name",
        part.display()
    )]
    NotOurs {
        /// Where.
        part: PathBuf,
    },
    /// The file was made by something else, or is cut off at its start.
    #[error("{} is no record of a strip: {what}", path.display())]
    Foreign {
        /// Where.
        path: PathBuf,
        /// What was found.
        what: String,
    },
    /// The file is damaged.
    #[error("{} is damaged: {what}; keep it and go on from a backup", path.display())]
    Corrupt {
        /// Where.
        path: PathBuf,
        /// What was found.
        what: String,
    },
    /// A later program wrote the file.
    #[error(
        "{} has layout {found}, and this program knows layouts up to {known}; use a newer \
         program",
        path.display()
    )]
    Newer {
        /// Where.
        path: PathBuf,
        /// Layout of the file.
        found: i64,
        /// Newest layout that is known.
        known: i64,
    },
    /// Another program holds the file.
    #[error(
        "{} is locked by another program for more than {seconds} s; nothing was written, try \
         again",
        path.display()
    )]
    Locked {
        /// Where.
        path: PathBuf,
        /// How long was waited.
        seconds: u64,
    },
    /// The disk is full.
    #[error("the disk is full; nothing was written to {}", path.display())]
    Full {
        /// Where.
        path: PathBuf,
    },
    /// The system refuses.
    #[error("{} cannot be opened or written: {cause}", path.display())]
    System {
        /// Where.
        path: PathBuf,
        /// The system's reason.
        cause: String,
    },
    /// The database refuses for another reason.
    #[error("{}: {cause}", path.display())]
    Database {
        /// Where.
        path: PathBuf,
        /// Its reason.
        cause: String,
    },
    /// A value is missing or cannot be taken.
    #[error("{kind}, {field}: {what}")]
    Value {
        /// Kind of record.
        kind: Kind,
        /// Which value.
        field: &'static str,
        /// What is wrong, and what is wanted.
        what: String,
    },
    /// A kind of record has no value of that name.
    #[error("a record of kind {kind} has no value `{field}`; it has {}", known.join(", "))]
    NoSuchField {
        /// Kind of record.
        kind: Kind,
        /// As asked.
        field: String,
        /// What there is.
        known: Vec<&'static str>,
    },
    /// The book knows no strip or aeroplane of the name.
    #[error("the book knows no {what} `{name}`; {}", known_words(known))]
    NoSuchName {
        /// What carries the name.
        what: &'static str,
        /// As asked.
        name: String,
        /// What there is.
        known: Vec<String>,
    },
    /// Who records, or why, is not said.
    #[error("{what} must be said")]
    NotSaid {
        /// What is missing.
        what: &'static str,
    },
    /// No entry has the number.
    #[error("no entry has the number {id}")]
    NoEntry {
        /// As asked.
        id: i64,
    },
    /// The entry was superseded before.
    #[error("entry {id} is superseded by entry {by} already; correct that one")]
    Superseded {
        /// As asked.
        id: i64,
        /// Which supersedes it.
        by: i64,
    },
    /// The entry is of another kind.
    #[error("entry {id} is of kind {is}; {wanted} cannot supersede it")]
    OtherKind {
        /// As asked.
        id: i64,
        /// What it is.
        is: Kind,
        /// What was given.
        wanted: Kind,
    },
    /// A mark cannot be used.
    #[error("the mark `{mark}`: {what}")]
    Mark {
        /// As given.
        mark: String,
        /// What stands against it.
        what: String,
    },
    /// A picture cannot be kept.
    #[error("the picture: {what}")]
    Picture {
        /// What stands against it, and what is wanted.
        what: String,
    },
    /// No aeroplane of the book is known to have a gear.
    #[error(
        "no movement of `{asked}` is recorded; name as tail those with this gear: {}",
        known.join(", ")
    )]
    NoTail {
        /// Name that was taken.
        asked: String,
        /// Aeroplanes of the movements.
        known: Vec<String>,
    },
    /// A confidence outside 0 to 100 %.
    #[error("a confidence of {percent} % is outside 0 to 100 %, ends excluded")]
    Confidence {
        /// As given, per cent.
        percent: f64,
    },
    /// A text cannot be made of the entries.
    #[error("the entries cannot be written as text: {cause}")]
    Text {
        /// The reason.
        cause: String,
    },
}

fn known_words(known: &[String]) -> String {
    match known {
        [] => "nothing of the sort is recorded in it".to_owned(),
        names => format!("it knows {}", names.join(", ")),
    }
}

/// Longest wait for another program's lock, seconds.
pub(crate) const LONGEST_WAIT_SECONDS: u64 = 10;

impl BookError {
    /// The sentence for a refusal of the database.
    pub(crate) fn of_database(path: &Path, error: &rusqlite::Error) -> Self {
        let path = path.to_owned();
        let cause = error.to_string();
        match error.sqlite_error_code() {
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => {
                Self::Locked { path, seconds: LONGEST_WAIT_SECONDS }
            }
            Some(ErrorCode::DiskFull) => Self::Full { path },
            Some(ErrorCode::NotADatabase) => Self::Foreign { path, what: cause },
            Some(ErrorCode::DatabaseCorrupt) => Self::Corrupt { path, what: cause },
            Some(
                ErrorCode::CannotOpen
                | ErrorCode::ReadOnly
                | ErrorCode::PermissionDenied
                | ErrorCode::SystemIoFailure,
            ) => Self::System { path, cause },
            _ => Self::Database { path, cause },
        }
    }

    pub(crate) fn of_system(path: &Path, error: &std::io::Error) -> Self {
        let path = path.to_owned();
        match error.kind() {
            std::io::ErrorKind::AlreadyExists => Self::Exists { path },
            std::io::ErrorKind::NotFound => Self::NotThere { path },
            std::io::ErrorKind::StorageFull => Self::Full { path },
            _ => Self::System { path, cause: error.to_string() },
        }
    }
}
