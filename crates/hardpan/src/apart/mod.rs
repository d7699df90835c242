//! A survey that somebody brings is read in a process of its own, within bounds: what
//! its bytes do to a reader, they do not do to the page.

mod asking;
mod bounds;
mod reader;

pub(crate) use asking::ask;
pub(crate) use reader::run;

use hardpan_model::Verdict;
use serde::{Deserialize, Serialize};
use std::time::Duration;

/// Most bytes of a question.
const MOST_ASKED: u64 = 32 * 1024;
/// Most bytes of an answer.
const MOST_TOLD: u64 = 4 * 1024 * 1024;

/// What the reader may take.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Limits {
    /// Most memory, MiB.
    pub(crate) memory: u32,
    /// Most time of the processor, seconds.
    pub(crate) seconds: u32,
}

impl Limits {
    /// Most memory, bytes.
    fn bytes(self) -> u64 {
        u64::from(self.memory) * 1024 * 1024
    }

    /// Longest wait for an answer: the processor may be shared by two.
    fn patience(self) -> Duration {
        Duration::from_secs(2 * u64::from(self.seconds))
    }
}

/// What is asked: the strip as it is if its file names another file under a key.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Asked {
    /// The strip file.
    pub(crate) strip: String,
    /// Key of the strip file.
    pub(crate) key: String,
    /// The other file, as the strip file would name it.
    pub(crate) named: String,
    /// The same, as it is opened.
    pub(crate) file: String,
}

/// What is answered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) enum Told {
    /// The file cannot be used.
    Refused(Vec<Place>, String),
    /// It can.
    Read(Judged),
}

/// A mistake.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Place {
    pub(crate) code: String,
    pub(crate) file: String,
    pub(crate) line: u32,
    pub(crate) column: u32,
    pub(crate) message: String,
    pub(crate) expected: String,
    pub(crate) hint: String,
}

/// A strip by itself.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Judged {
    /// Warnings in the file that was brought.
    pub(crate) warnings: String,
    /// Word of the verdict.
    pub(crate) verdict: String,
    /// Code, title and word of the verdict of each check.
    pub(crate) checks: Vec<(String, String, String)>,
}

/// The verdict of a word.
pub(crate) fn verdict_of(word: &str) -> Option<Verdict> {
    let all = [Verdict::Pass, Verdict::Conditional, Verdict::Unproven, Verdict::Fail];
    all.into_iter().find(|verdict| verdict.word() == word)
}
