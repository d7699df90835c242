//! Files that are kept while they are read.

use super::KeptFile;
use hardpan_files::{CloudInput, FileReadError, FileSource};
use sha2::{Digest as _, Sha256};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::io::Read;

/// Longest text that is kept whole, bytes.
const LONGEST_TEXT: usize = 4 * 1024 * 1024;

/// Bytes of a large file that are read at a time.
const PART: usize = 1 << 20;

/// A source of files that remembers what it gave.
pub(crate) struct Keeper<'s> {
    source: &'s dyn FileSource,
    kept: RefCell<BTreeMap<String, KeptFile>>,
}

impl<'s> Keeper<'s> {
    pub(crate) fn new(source: &'s dyn FileSource) -> Self {
        Self { source, kept: RefCell::default() }
    }

    /// What was read.
    pub(crate) fn files(&self) -> BTreeMap<String, KeptFile> {
        self.kept.borrow().clone()
    }
}

impl FileSource for Keeper<'_> {
    fn read(&self, path: &str) -> Result<Vec<u8>, FileReadError> {
        let bytes = self.source.read(path)?;
        let text = str::from_utf8(&bytes).ok().filter(|text| text.len() <= LONGEST_TEXT);
        let kept = match text {
            Some(text) => KeptFile::Text(text.to_owned()),
            None => KeptFile::Sha256(hex(Sha256::new().chain_update(&bytes))),
        };
        self.kept.borrow_mut().insert(path.to_owned(), kept);
        Ok(bytes)
    }

    fn open(&self, path: &str) -> Result<Box<dyn CloudInput>, FileReadError> {
        let digest = digest_of(&mut self.source.open(path)?)?;
        self.kept.borrow_mut().insert(path.to_owned(), KeptFile::Sha256(digest));
        self.source.open(path)
    }

    fn told(&self, path: &str, share: f64) {
        self.source.told(path, share);
    }
}

/// SHA-256 of all that a file holds.
pub(crate) fn digest_of(input: &mut dyn Read) -> Result<String, FileReadError> {
    let mut digest = Sha256::new();
    let mut part = vec![0; PART];
    loop {
        let read = input
            .read(&mut part)
            .map_err(|error| FileReadError::Refused { reason: error.to_string() })?;
        match part.get(..read) {
            None | Some([]) => return Ok(hex(digest)),
            Some(bytes) => digest.update(bytes),
        }
    }
}

pub(super) fn hex(digest: Sha256) -> String {
    digest.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
}
