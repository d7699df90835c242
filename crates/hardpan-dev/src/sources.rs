//! The documents that formulas, limits and expected values come from.

use crate::{Problem, Workspace};
use serde::Deserialize;
use std::collections::BTreeMap;

const FOLDER: &str = "validation/sources";

/// One document.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SourceEntry {
    /// Title as printed.
    pub title: String,
    /// Authors or the body that publishes it.
    pub authors: String,
    /// Year or edition.
    pub year: String,
    /// How it was read.
    pub obtained: Obtained,
    /// Where it can be had, what to mind.
    #[serde(default)]
    pub note: String,
}

/// How a document was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Obtained {
    /// Read in full, as far as it is used.
    Read,
    /// Single pages seen.
    Page,
    /// Read as quoted by another document.
    Quoted,
    /// Written from memory.
    Memory,
}

impl Obtained {
    /// The words people see.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::Page => "single pages seen",
            Self::Quoted => "read as quoted elsewhere",
            Self::Memory => "from memory",
        }
    }
}

/// All documents by key, each with the file that describes it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct SourceList {
    /// Key, then file and document.
    pub entries: BTreeMap<String, (String, SourceEntry)>,
}

impl SourceList {
    /// Read every file of `validation/sources`.
    ///
    /// # Errors
    /// One [`Problem`] for each file that is no list of sources, and for each
    /// key that two files describe differently.
    pub fn load(workspace: &Workspace) -> Result<Self, Vec<Problem>> {
        let files = workspace.files_in(FOLDER, ".toml").map_err(|problem| vec![problem])?;
        let mut list = Self::default();
        let mut problems = Vec::new();
        for file in files {
            let added =
                workspace.read(&file).map_err(|p| vec![p]).and_then(|text| list.add(&file, &text));
            problems.extend(added.err().unwrap_or_default());
        }
        if problems.is_empty() { Ok(list) } else { Err(problems) }
    }

    /// Add the documents of one file.
    ///
    /// # Errors
    /// As [`Self::load`].
    pub fn add(&mut self, file: &str, text: &str) -> Result<(), Vec<Problem>> {
        let read: BTreeMap<String, SourceEntry> = toml::from_str(text)
            .map_err(|error| vec![Problem::of_file(file, error.to_string())])?;
        let mut problems = Vec::new();
        for (key, entry) in read {
            match self.entries.get(&key) {
                Some((other, same)) if *same != entry => problems.push(Problem::of_file(
                    file,
                    format!("[{key}] is described differently in {other}; make the two alike"),
                )),
                Some(_) => {}
                None => {
                    self.entries.insert(key, (file.to_owned(), entry));
                }
            }
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}
