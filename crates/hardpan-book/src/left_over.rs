//! The half-made file of a run that was cut off, and how it is taken over.

use crate::BookError;
use crate::backup::{part_of, parts_of};
use crate::book::MAGIC;
use crate::schema::APPLICATION_ID;
use std::fs::{File, OpenOptions, TryLockError};
use std::io::{ErrorKind, Read as _};
use std::path::{Path, PathBuf};

/// Where the header of a database holds the mark of the program.
const MARK: std::ops::Range<usize> = 68..72;

/// The right to make the file of a name, held while it is made. The system
/// takes it back from a program that ends, however it ends.
#[derive(Debug)]
pub(crate) struct Making {
    claim: PathBuf,
    _held: File,
}

impl Making {
    /// Begin an empty part for `path`; what a run that was cut off left there is
    /// taken away, for nobody was told that it is whole.
    pub(crate) fn begin(path: &Path) -> Result<Self, BookError> {
        let (part, claim) = (part_of(path), claim_of(path));
        let told = |error: std::io::Error| BookError::of_system(&part, &error);
        let held = OpenOptions::new().create(true).append(true).open(&claim);
        let held = held.map_err(|error| BookError::of_system(&claim, &error))?;
        match held.try_lock() {
            Ok(()) if stands_at(&held, &claim) => {}
            // Whoever held it has just taken it away.
            Ok(()) => return Err(BookError::BeingMade { part }),
            Err(TryLockError::WouldBlock) => return Err(BookError::BeingMade { part }),
            // A disk without locks: then a part is left alone.
            Err(TryLockError::Error(_)) if part.exists() => {
                return Err(BookError::Exists { path: part });
            }
            Err(TryLockError::Error(_)) => {}
        }
        let making = Self { claim, _held: held };
        if part.exists() {
            if !is_ours(&part).map_err(told)? {
                return Err(BookError::NotOurs { part });
            }
            for left in parts_of(path).iter().filter(|left| **left != making.claim) {
                take_away(left).map_err(told)?;
            }
        }
        File::create_new(&part).map_err(told)?;
        Ok(making)
    }
}

impl Drop for Making {
    fn drop(&mut self) {
        // Left behind it does no harm: nobody holds it.
        let _ = std::fs::remove_file(&self.claim);
    }
}

/// The half-made file that a run which was cut off left for `path`, if one did;
/// making the file takes it away.
#[must_use]
pub fn left_over(path: &Path) -> Option<PathBuf> {
    Some(part_of(path)).filter(|part| part.exists())
}

pub(crate) fn claim_of(path: &Path) -> PathBuf {
    let mut name = part_of(path).into_os_string();
    name.push("-claim");
    PathBuf::from(name)
}

/// Whether the file that is held is the one that others find under the name.
#[cfg(unix)]
fn stands_at(held: &File, claim: &Path) -> bool {
    use std::os::unix::fs::MetadataExt as _;
    let same = |one: std::fs::Metadata, other: std::fs::Metadata| {
        (one.dev(), one.ino()) == (other.dev(), other.ino())
    };
    held.metadata()
        .ok()
        .zip(std::fs::metadata(claim).ok())
        .is_some_and(|(one, other)| same(one, other))
}

#[cfg(not(unix))]
fn stands_at(_held: &File, claim: &Path) -> bool {
    claim.exists()
}

/// Whether a part is empty, never reached the disk, or begins as a record does.
fn is_ours(part: &Path) -> std::io::Result<bool> {
    let mut head = Vec::new();
    File::open(part)?.take(MARK.end as u64).read_to_end(&mut head)?;
    if head.iter().all(|byte| *byte == 0) {
        return Ok(true);
    }
    let mark = head.get(MARK).and_then(|mark| <[u8; 4]>::try_from(mark).ok());
    let mark = mark.map(|mark| i64::from(i32::from_be_bytes(mark)));
    Ok(head.starts_with(MAGIC) && mark.is_some_and(|mark| mark == 0 || mark == APPLICATION_ID))
}

fn take_away(left: &Path) -> std::io::Result<()> {
    match std::fs::remove_file(left) {
        Err(error) if error.kind() != ErrorKind::NotFound => Err(error),
        _ => Ok(()),
    }
}
