//! A copy of the record while it is in use.

use crate::left_over::{Making, claim_of};
use crate::{Book, BookError};
use rusqlite::backup::Backup;
use rusqlite::{Connection, OpenFlags};
use std::fs::File;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Pages copied between two looks at the lock.
const PAGES: i32 = 1024;
/// Pause between two steps.
const PAUSE: Duration = Duration::from_millis(5);

impl Book {
    /// Copy the record to a new file, check the copy, and give its number of
    /// entries. The copy appears under its name only when it is whole.
    ///
    /// # Errors
    /// [`BookError`]: a file stands there, the copy cannot be written, or it
    /// does not hold what the record holds.
    pub fn backup(&self, to: &Path) -> Result<usize, BookError> {
        if to.exists() {
            return Err(BookError::Exists { path: to.to_owned() });
        }
        let part = part_of(to);
        let _making = Making::begin(to)?;
        let whole = self.copy(&part).and_then(|()| Ok(Self::open(&part)?.verify()?.len()));
        let told = |error: std::io::Error| BookError::of_system(to, &error);
        match whole {
            Ok(entries) => {
                File::open(&part).and_then(|file| file.sync_all()).map_err(told)?;
                std::fs::rename(&part, to).map_err(told)?;
                Ok(entries)
            }
            Err(error) => {
                std::fs::remove_file(&part).map_err(told)?;
                Err(error)
            }
        }
    }

    fn copy(&self, part: &Path) -> Result<(), BookError> {
        let copied = || {
            let mut target = Connection::open_with_flags(part, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
            Backup::new(&self.connection, &mut target)?.run_to_completion(PAGES, PAUSE, None)
        };
        copied().map_err(|error| BookError::of_database(part, &error))
    }
}

/// Files in which a record grows, a new one or a copy, until it is whole and
/// takes its name: whoever stops it half way takes them away.
#[must_use]
pub fn parts_of(path: &Path) -> Vec<PathBuf> {
    let part = part_of(path);
    // The database keeps these beside it while it is open.
    let mut parts =
        ["", "-journal", "-wal", "-shm"].map(|ending| with_ending(&part, ending)).to_vec();
    parts.push(claim_of(path));
    parts
}

pub(crate) fn part_of(path: &Path) -> PathBuf {
    with_ending(path, ".part")
}

fn with_ending(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}
