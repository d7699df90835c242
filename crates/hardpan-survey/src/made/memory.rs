//! Memory that a writer may keep and its owner may look into.

use std::io::{Cursor, Result, Seek, SeekFrom, Write};
use std::sync::{Arc, Mutex, PoisonError};

#[derive(Clone, Default)]
pub(super) struct Shared(Arc<Mutex<Cursor<Vec<u8>>>>);

impl Shared {
    /// What was written so far.
    pub(super) fn bytes(&self) -> Vec<u8> {
        self.with(|cursor| cursor.get_ref().clone())
    }

    fn with<T>(&self, act: impl FnOnce(&mut Cursor<Vec<u8>>) -> T) -> T {
        act(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

impl Write for Shared {
    fn write(&mut self, bytes: &[u8]) -> Result<usize> {
        self.with(|cursor| cursor.write(bytes))
    }

    fn flush(&mut self) -> Result<()> {
        Ok(())
    }
}

impl Seek for Shared {
    fn seek(&mut self, to: SeekFrom) -> Result<u64> {
        self.with(|cursor| cursor.seek(to))
    }
}
