//! A value that somebody gave, and where it stands.

use std::fmt;
use std::sync::Arc;

/// Where a value was read: file, line and column, and the key it stands under.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Origin {
    /// Path as the user named it.
    pub file: Arc<str>,
    /// Line, counted from 1.
    pub line: u32,
    /// Column in characters, counted from 1.
    pub column: u32,
    /// Dotted key or column name, such as `mass.maximum_landing`.
    pub key: Arc<str>,
}

impl Origin {
    /// An origin for a value that a test or a caller states in code.
    #[must_use]
    pub fn stated(key: &str) -> Self {
        Self { file: "stated in code".into(), line: 0, column: 0, key: key.into() }
    }
}

impl fmt::Display for Origin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.line == 0 {
            write!(f, "{} ({})", self.file, self.key)
        } else {
            write!(f, "{}:{}:{} ({})", self.file, self.line, self.column, self.key)
        }
    }
}

/// A value with its origin and, where the user gave one, its source.
#[derive(Debug, Clone, PartialEq)]
pub struct Given<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub origin: Origin,
    /// The document or person it comes from, in the user's words.
    pub source: Option<Arc<str>>,
}

impl<T> Given<T> {
    /// A value that a test or a caller states in code.
    #[must_use]
    pub fn stated(key: &str, value: T) -> Self {
        Self { value, origin: Origin::stated(key), source: None }
    }

    /// The same origin and source with another value.
    #[must_use]
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Given<U> {
        Given { value: change(self.value), origin: self.origin, source: self.source }
    }
}
