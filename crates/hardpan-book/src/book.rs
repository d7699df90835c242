//! Starting, opening and checking the file.

mod still;

use crate::backup::part_of;
use crate::error::LONGEST_WAIT_SECONDS;
use crate::left_over::Making;
use crate::schema::{APPLICATION_ID, LAYOUT, MIGRATIONS};
use crate::{BookError, Entry};
use hardpan_quantity::counted;
use rusqlite::{Connection, OpenFlags};
use std::fs::File;
use std::io::{ErrorKind, Read as _};
use std::path::{Path, PathBuf};
use std::time::Duration;
use still::Still;

/// First bytes of every file of this database.
pub(crate) const MAGIC: &[u8; 16] = b"SQLite format 3\0";

/// The record of strips in one file.
#[derive(Debug)]
pub struct Book {
    pub(crate) connection: Connection,
    pub(crate) path: PathBuf,
    /// How the file stood when it was opened, where nothing may be written beside it.
    still: Option<Still>,
}

impl Book {
    /// Start a new record where no file stands; it appears under its name only
    /// when it is whole. What a run that was cut off left half made is taken away.
    ///
    /// # Errors
    /// [`BookError`]: a file stands there, another program makes it at this
    /// moment, or the system refuses.
    pub fn create(path: &Path) -> Result<Self, BookError> {
        if path.exists() {
            return Err(BookError::Exists { path: path.to_owned() });
        }
        let part = part_of(path);
        let _making = Making::begin(path)?;
        let begun = begin(&part).and_then(|()| named(&part, path));
        if part.exists() {
            std::fs::remove_file(&part).map_err(|error| BookError::of_system(&part, &error))?;
        }
        begun.and_then(|()| Self::open(path))
    }

    /// Open a record, and bring an older layout up to date. Where nothing may be written
    /// beside the file it is read as it stands, as long as nobody else writes to it.
    ///
    /// # Errors
    /// [`BookError`]: nothing stands there, the file is foreign, damaged, newer
    /// than this program or locked, or the system refuses.
    pub fn open(path: &Path) -> Result<Self, BookError> {
        check_beginning(path)?;
        let (mut connection, still) = readable(path)?;
        let number = |name: &str| {
            connection
                .pragma_query_value(None, name, |row| row.get::<_, i64>(0))
                .map_err(|error| BookError::of_database(path, &error))
        };
        let application = number("application_id")?;
        let found = number("user_version")?;
        let foreign = |what: String| BookError::Foreign { path: path.to_owned(), what };
        if application != APPLICATION_ID {
            return Err(foreign("the database carries the mark of another program".to_owned()));
        }
        if found > LAYOUT {
            return Err(BookError::Newer { path: path.to_owned(), found, known: LAYOUT });
        }
        check_integrity(&connection, path)?;
        if found < LAYOUT && still.is_some() {
            return Err(still::too_old(path));
        }
        if found < LAYOUT {
            migrate(&mut connection, path)?;
        }
        Ok(Self { connection, path: path.to_owned(), still })
    }

    /// That nobody wrote to a file that was taken to stand still.
    pub(crate) fn must_be_still(&self) -> Result<(), BookError> {
        match &self.still {
            Some(still) if Still::of(&self.path).as_ref() != Some(still) => {
                Err(still::moved(&self.path))
            }
            _ => Ok(()),
        }
    }

    /// Check the whole file: its structure, its references, the digest of every
    /// entry and of every picture. Gives the entries.
    ///
    /// # Errors
    /// [`BookError::Corrupt`] with the first thing that does not hold.
    pub fn verify(&self) -> Result<Vec<Entry>, BookError> {
        check_integrity(&self.connection, &self.path)?;
        let entries = self.verify_entries()?;
        self.verify_pictures(&entries)?;
        Ok(entries)
    }

    /// As [`Book::verify`] without the bytes of the pictures, which are compared
    /// with their digest whenever one is read.
    ///
    /// # Errors
    /// [`BookError::Corrupt`] with the first thing that does not hold.
    pub fn verify_entries(&self) -> Result<Vec<Entry>, BookError> {
        check_references(&self.connection, &self.path)?;
        self.entries()
    }

    /// Where it stands.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    pub(crate) fn corrupt(&self, what: String) -> BookError {
        BookError::Corrupt { path: self.path.clone(), what }
    }
}

/// Give a whole record its name.
fn named(part: &Path, path: &Path) -> Result<(), BookError> {
    // A link, unlike a new name, never takes the place of a file; some disks
    // know none.
    let linked = std::fs::hard_link(part, path).or_else(|error| match error.kind() {
        ErrorKind::AlreadyExists => Err(error),
        _ => std::fs::rename(part, path),
    });
    linked.map_err(|error| BookError::of_system(path, &error))
}

/// The layout of a record without an entry, in an empty file.
fn begin(part: &Path) -> Result<(), BookError> {
    let mut connection = connect(part)?;
    let told = |error: &rusqlite::Error| BookError::of_database(part, error);
    connection.pragma_update(None, "journal_mode", "WAL").map_err(|error| told(&error))?;
    migrate(&mut connection, part)?;
    connection.close().map_err(|(_, error)| told(&error))
}

fn check_beginning(path: &Path) -> Result<(), BookError> {
    let told = |error: &std::io::Error| BookError::of_system(path, error);
    let mut beginning = Vec::new();
    let file = File::open(path).map_err(|error| told(&error))?;
    let mut head = file.take(MAGIC.len() as u64);
    head.read_to_end(&mut beginning).map_err(|error| told(&error))?;
    if beginning == MAGIC {
        return Ok(());
    }
    let what = if beginning.is_empty() {
        "the file is empty"
    } else {
        "it does not begin as a database does"
    };
    Err(BookError::Foreign { path: path.to_owned(), what: what.to_owned() })
}

/// A connection over which the file can be read, and how the file stands where it is
/// read as it stands.
fn readable(path: &Path) -> Result<(Connection, Option<Still>), BookError> {
    let told = |error: &rusqlite::Error| BookError::of_database(path, error);
    let opened = connected(path, OpenFlags::SQLITE_OPEN_READ_WRITE).and_then(|connection| {
        connection.pragma_query_value(None, "application_id", |row| row.get::<_, i64>(0))?;
        Ok(connection)
    });
    let error = match opened {
        Ok(connection) => return Ok((connection, None)),
        Err(error) if still::may_not_write(&error) => error,
        Err(error) => return Err(told(&error)),
    };
    let still = Still::of(path).ok_or_else(|| still::newest_out_of_reach(path))?;
    let place = still::as_it_stands(path).ok_or_else(|| told(&error))?;
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
    let connection = connected(Path::new(&place), flags).map_err(|error| told(&error))?;
    Ok((connection, Some(still)))
}

fn connect(path: &Path) -> Result<Connection, BookError> {
    connected(path, OpenFlags::SQLITE_OPEN_READ_WRITE)
        .map_err(|error| BookError::of_database(path, &error))
}

fn connected(place: &Path, flags: OpenFlags) -> Result<Connection, rusqlite::Error> {
    let flags = flags | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let connection = Connection::open_with_flags(place, flags)?;
    connection.busy_timeout(Duration::from_secs(LONGEST_WAIT_SECONDS))?;
    connection.pragma_update(None, "foreign_keys", true)?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    connection.pragma_update(None, "trusted_schema", false)?;
    connection.pragma_update(None, "cell_size_check", true)?;
    Ok(connection)
}

fn check_integrity(connection: &Connection, path: &Path) -> Result<(), BookError> {
    let answer = connection
        .query_row("PRAGMA integrity_check(1)", [], |row| row.get::<_, String>(0))
        .map_err(|error| BookError::of_database(path, &error))?;
    if answer == "ok" {
        Ok(())
    } else {
        Err(BookError::Corrupt { path: path.to_owned(), what: answer })
    }
}

fn check_references(connection: &Connection, path: &Path) -> Result<(), BookError> {
    let strays = connection
        .query_row("SELECT count(*) FROM pragma_foreign_key_check", [], |row| row.get::<_, i64>(0))
        .map_err(|error| BookError::of_database(path, &error))?;
    if strays == 0 {
        return Ok(());
    }
    let rows = counted(strays, "row refers", "rows refer");
    let what = format!("{rows} to what is not there");
    Err(BookError::Corrupt { path: path.to_owned(), what })
}

/// Bring the tables up to date. References are not enforced meanwhile, because
/// a table that others refer to is made anew; they are checked at the end.
fn migrate(connection: &mut Connection, path: &Path) -> Result<(), BookError> {
    let enforced = |connection: &Connection, on: bool| {
        connection
            .pragma_update(None, "foreign_keys", on)
            .map_err(|error| BookError::of_database(path, &error))
    };
    enforced(connection, false)?;
    MIGRATIONS.to_latest(connection).map_err(|error| migration_failed(path, error))?;
    check_references(connection, path)?;
    enforced(connection, true)
}

fn migration_failed(path: &Path, error: rusqlite_migration::Error) -> BookError {
    match error {
        rusqlite_migration::Error::RusqliteError { err, .. } => BookError::of_database(path, &err),
        other => BookError::Database { path: path.to_owned(), cause: other.to_string() },
    }
}
