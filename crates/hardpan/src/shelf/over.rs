//! Some files laid over others that stand.

use hardpan_files::{CloudInput, FileReadError, FileSource, Memory};

/// Files that hide those of the same name underneath.
pub(crate) struct Over<'s> {
    pub(crate) under: &'s dyn FileSource,
    pub(crate) over: Memory,
}

impl FileSource for Over<'_> {
    fn read(&self, path: &str) -> Result<Vec<u8>, FileReadError> {
        self.over.read(path).or_else(|_| self.under.read(path))
    }

    fn open(&self, path: &str) -> Result<Box<dyn CloudInput>, FileReadError> {
        self.over.open(path).or_else(|_| self.under.open(path))
    }
}
