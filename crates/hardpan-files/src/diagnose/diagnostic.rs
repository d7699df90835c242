//! What is wrong in a file, where, and how to put it right.

use crate::diagnose::mistake::Mistake;
use std::ops::Range;
use std::sync::Arc;

/// Whether the file can be used in spite of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// The file is not used until it is put right.
    Error,
    /// The file is used; look at it.
    Warning,
}

impl Severity {
    /// The word people see.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
        }
    }
}

/// Another place in the same file that has to do with it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Related {
    /// Line, counted from 1.
    pub line: u32,
    /// Bytes of the file's text, a byte order mark left out.
    pub span: Range<usize>,
    /// What stands there.
    pub label: String,
}

/// One mistake in one file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Diagnostic {
    /// Error or warning.
    pub severity: Severity,
    /// Permanent code, such as `E301`.
    pub code: &'static str,
    /// File as the user named it.
    pub file: Arc<str>,
    /// Line, counted from 1; 0 when it concerns the file as a whole.
    pub line: u32,
    /// Column in characters, counted from 1; 0 when it concerns the file as a whole.
    pub column: u32,
    /// Bytes of the file's text, a byte order mark left out.
    pub span: Range<usize>,
    /// One sentence that says what is wrong.
    pub message: String,
    /// What was read there, shortened; empty when nothing was.
    pub read: String,
    /// What was expected there.
    pub expected: String,
    /// How to put it right.
    pub hint: String,
    /// Another place that has to do with it.
    pub related: Option<Related>,
}

impl Diagnostic {
    /// A mistake that concerns a file as a whole.
    pub(crate) fn of_file(file: &Arc<str>, mistake: &Mistake) -> Self {
        Self::at(file, (0, 0), 0..0, String::new(), mistake)
    }

    /// A mistake at a place.
    pub(crate) fn at(
        file: &Arc<str>,
        (line, column): (u32, u32),
        span: Range<usize>,
        read: String,
        mistake: &Mistake,
    ) -> Self {
        Self {
            severity: mistake.severity(),
            code: mistake.code(),
            file: Arc::clone(file),
            line,
            column,
            span,
            message: inert(&mistake.to_string()),
            read: inert(&read),
            expected: inert(&mistake.expected()),
            hint: inert(&mistake.hint()),
            related: None,
        }
    }
}

/// A text without characters that steer a terminal or turn the direction of
/// writing: those of a user's file must not act on its reader.
pub(crate) fn inert(text: &str) -> String {
    let steers =
        |c: char| c.is_control() || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    text.chars().map(|c| if steers(c) { '\u{fffd}' } else { c }).collect()
}
