//! Where the bytes of a file come from: the disk, or memory for tests and pages.

use hardpan_survey::CloudInput;
use std::collections::BTreeMap;
use std::io::{Cursor, Read};

/// Largest file that [`Disk`] reads, in bytes.
pub const LARGEST_FILE: u64 = 64 * 1024 * 1024;

/// Why a file gives no bytes.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum FileReadError {
    /// Nothing stands under that path.
    #[error("no file stands there")]
    NotFound,
    /// The path names a folder or a device.
    #[error("that is not a plain file")]
    NotAFile,
    /// The system refuses.
    #[error("the system says: {reason}")]
    Refused {
        /// What the system says.
        reason: String,
    },
    /// More bytes than are read into memory.
    #[error("it holds {size} bytes; at most {limit} are read")]
    TooLarge {
        /// Bytes of the file.
        size: u64,
        /// Greatest size allowed.
        limit: u64,
    },
}

/// Something that gives the bytes behind a path.
pub trait FileSource {
    /// All bytes of the file.
    ///
    /// # Errors
    /// [`FileReadError`] when there is no such file, it is too large, or the
    /// system refuses.
    fn read(&self, path: &str) -> Result<Vec<u8>, FileReadError>;

    /// The file for reading part by part; a source without large files hands
    /// over all its bytes.
    ///
    /// # Errors
    /// As for [`read`](Self::read).
    fn open(&self, path: &str) -> Result<Box<dyn CloudInput>, FileReadError> {
        Ok(Box::new(Cursor::new(self.read(path)?)))
    }

    /// Is told the share of a large file that has been read, from 0 to 1.
    fn told(&self, path: &str, share: f64) {
        let _ = (path, share);
    }
}

/// Files of this machine. The size is checked before a byte is read.
#[derive(Debug, Clone, Copy)]
pub struct Disk {
    /// Largest file read, in bytes.
    pub limit: u64,
}

impl Default for Disk {
    fn default() -> Self {
        Self { limit: LARGEST_FILE }
    }
}

impl FileSource for Disk {
    fn read(&self, path: &str) -> Result<Vec<u8>, FileReadError> {
        let told = std::fs::metadata(path).map_err(|error| refusal(&error))?;
        if !told.is_file() {
            return Err(FileReadError::NotAFile);
        }
        if told.len() > self.limit {
            return Err(FileReadError::TooLarge { size: told.len(), limit: self.limit });
        }
        let file = std::fs::File::open(path).map_err(|error| refusal(&error))?;
        let mut bytes = Vec::new();
        file.take(self.limit.saturating_add(1))
            .read_to_end(&mut bytes)
            .map_err(|error| refusal(&error))?;
        within(bytes, self.limit)
    }

    fn open(&self, path: &str) -> Result<Box<dyn CloudInput>, FileReadError> {
        let told = std::fs::metadata(path).map_err(|error| refusal(&error))?;
        if !told.is_file() {
            return Err(FileReadError::NotAFile);
        }
        Ok(Box::new(std::fs::File::open(path).map_err(|error| refusal(&error))?))
    }
}

/// Files held in memory, by path.
#[derive(Debug, Clone, Default)]
pub struct Memory {
    files: BTreeMap<String, Vec<u8>>,
}

impl Memory {
    /// The same files and one more.
    #[must_use]
    pub fn with(mut self, path: &str, bytes: impl Into<Vec<u8>>) -> Self {
        self.files.insert(path.to_owned(), bytes.into());
        self
    }
}

impl FileSource for Memory {
    fn read(&self, path: &str) -> Result<Vec<u8>, FileReadError> {
        let bytes = self.files.get(path).ok_or(FileReadError::NotFound)?;
        within(bytes.clone(), LARGEST_FILE)
    }
}

fn within(bytes: Vec<u8>, limit: u64) -> Result<Vec<u8>, FileReadError> {
    let size = u64::try_from(bytes.len()).unwrap_or(u64::MAX);
    if size > limit { Err(FileReadError::TooLarge { size, limit }) } else { Ok(bytes) }
}

fn refusal(error: &std::io::Error) -> FileReadError {
    match error.kind() {
        std::io::ErrorKind::NotFound => FileReadError::NotFound,
        _ => FileReadError::Refused { reason: error.to_string() },
    }
}
