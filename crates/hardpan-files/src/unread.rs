//! A file that a reader of its own could not read to its end.

use crate::Diagnostic;
use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::megabytes;
use hardpan_quantity::{Quantity as _, Time};

/// Why a reader that was given bounds has no answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Unread {
    /// It took all the memory that it may take.
    Memory {
        /// Most memory, bytes.
        limit: u64,
    },
    /// It took all the time that it may take.
    Time {
        /// Most time.
        limit: Time,
    },
    /// It ended before it answered.
    Ended {
        /// How, as a part of a sentence.
        how: String,
    },
    /// It could not be started.
    NotStarted {
        /// The system's reason.
        reason: String,
    },
}

impl Unread {
    /// The mistake that is told of the file.
    #[must_use]
    pub fn diagnostic(&self, path: &str) -> Diagnostic {
        let name = path.to_owned();
        let mistake = match self {
            Self::Memory { limit } => {
                Mistake::ReaderMemory { path: name, limit: megabytes(*limit) }
            }
            Self::Time { limit } => {
                Mistake::ReaderTime { path: name, limit: format!("{:.0} s", limit.si()) }
            }
            Self::Ended { how } => Mistake::ReaderEnded { path: name, how: how.clone() },
            Self::NotStarted { reason } => Mistake::NoReader { path: name, reason: reason.clone() },
        };
        Diagnostic::of_file(&path.into(), &mistake)
    }
}
