//! A book where nothing may be written beside it: it is read as it stands, and only while
//! it stands still.

use crate::BookError;
use rusqlite::ErrorCode;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// How a file stands that nobody writes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Still {
    length: u64,
    written: SystemTime,
}

impl Still {
    /// How a file stands; none while entries stand beside it that are not in it yet.
    pub(super) fn of(path: &Path) -> Option<Self> {
        if std::fs::metadata(beside(path)).is_ok_and(|told| told.len() > 0) {
            return None;
        }
        let told = std::fs::metadata(path).ok()?;
        Some(Self { length: told.len(), written: told.modified().ok()? })
    }
}

/// The file that holds the newest entries while a program has the book open.
fn beside(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push("-wal");
    name.into()
}

/// Whether the database gave up because it may not write beside the file.
pub(super) fn may_not_write(error: &rusqlite::Error) -> bool {
    matches!(error.sqlite_error_code(), Some(ErrorCode::CannotOpen | ErrorCode::ReadOnly))
}

/// The place of a file that the database takes as one that never changes.
#[cfg(unix)]
pub(super) fn as_it_stands(path: &Path) -> Option<String> {
    use std::fmt::Write as _;
    use std::os::unix::ffi::OsStrExt as _;
    let mut place = String::from("file:");
    for byte in path.as_os_str().as_bytes() {
        if byte.is_ascii_alphanumeric() || matches!(byte, b'/' | b'.' | b'-' | b'_') {
            place.push(char::from(*byte));
        } else {
            let _ = write!(place, "%{byte:02X}");
        }
    }
    Some(place + "?immutable=1")
}

#[cfg(not(unix))]
pub(super) fn as_it_stands(_: &Path) -> Option<String> {
    None
}

fn told(path: &Path, cause: &str) -> BookError {
    BookError::System { path: path.to_owned(), cause: cause.to_owned() }
}

/// The newest entries cannot be read.
pub(super) fn newest_out_of_reach(path: &Path) -> BookError {
    let cause = "its newest entries stand in the file beside it that ends with -wal, and are out \
                 of reach without the right to write in its folder; end the program that has \
                 it open, or give that right";
    told(path, cause)
}

/// Somebody wrote to it.
pub(super) fn moved(path: &Path) -> BookError {
    told(path, "another program wrote to it while it was read; read it again")
}

/// It must be brought up to date first.
pub(super) fn too_old(path: &Path) -> BookError {
    let cause = "it has an older layout, and may not be written, which would bring it up to \
                 date; copy it to a folder where it may";
    told(path, cause)
}
