//! What reading a file gives: a value or mistakes, and the texts they point into.

use crate::{Diagnostic, Severity};
use std::sync::Arc;

/// Texts of the files that were read, in the order of reading; for a point cloud
/// the levels that came of it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Sources {
    texts: Vec<(Arc<str>, Arc<str>)>,
}

impl Sources {
    pub(crate) fn add(&mut self, file: Arc<str>, text: Arc<str>) {
        self.texts.push((file, text));
    }

    /// Text of a file, a byte order mark left out.
    #[must_use]
    pub fn text(&self, file: &str) -> Option<&str> {
        self.texts.iter().find(|(name, _)| &**name == file).map(|(_, text)| &**text)
    }

    /// Files and texts in the order of reading.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &str)> {
        self.texts.iter().map(|(file, text)| (&**file, &**text))
    }

    pub(crate) fn order(&self, file: &str) -> usize {
        self.texts.iter().position(|(name, _)| &**name == file).unwrap_or(usize::MAX)
    }
}

/// The outcome of reading.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading<T> {
    /// The value; none as soon as one diagnostic is an error, so that a value
    /// with a mistake in it can never be assessed.
    pub value: Option<T>,
    /// Everything that was found, file by file from top to bottom.
    pub diagnostics: Vec<Diagnostic>,
    /// Texts of the files, for [`render`](crate::render).
    pub sources: Sources,
    /// Keys of the format that the files leave out, in the order of reading.
    pub absent: Vec<String>,
}

impl<T> Reading<T> {
    /// How many diagnostics are errors.
    #[must_use]
    pub fn errors(&self) -> usize {
        self.diagnostics.iter().filter(|one| one.severity == Severity::Error).count()
    }

    /// The same diagnostics with another value.
    #[must_use]
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Reading<U> {
        Reading {
            value: self.value.map(change),
            diagnostics: self.diagnostics,
            sources: self.sources,
            absent: self.absent,
        }
    }
}
