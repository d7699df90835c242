//! Why a command cannot go on, in the words the user sees.

use hardpan_assess::AskedError;
use std::path::PathBuf;

/// A command that cannot go on; the exit code is 2.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Failure {
    /// Diagnostics have been printed already.
    #[error("{errors} error(s) in the files")]
    Files {
        /// How many errors.
        errors: usize,
    },
    /// A file cannot be written.
    #[error("cannot write: {cause}; check the folder and its rights: {}", path.display())]
    Write {
        /// Where.
        path: PathBuf,
        /// The system's reason.
        cause: std::io::Error,
    },
    /// A starter file would overwrite something.
    #[error("a file stands there already and is left alone: {}", path.display())]
    Exists {
        /// Where.
        path: PathBuf,
    },
    /// No finding or rule answers to the name.
    #[error("nothing answers to `{asked}`; there is\n{known}")]
    NoSuchFinding {
        /// As asked.
        asked: String,
        /// What there is, one to a line.
        known: String,
    },
    /// No formula has the name.
    #[error("no formula is called `{asked}`{}; `hardpan formula` lists them", hint(nearest))]
    NoSuchFormula {
        /// As asked.
        asked: String,
        /// The nearest name.
        nearest: Option<&'static str>,
    },
    /// An argument of a formula is wrong.
    #[error("{what}")]
    Argument {
        /// What is wrong and what is wanted.
        what: String,
    },
    /// The book refuses.
    #[error("{what}")]
    Book {
        /// The reason.
        what: String,
    },
    /// The page cannot be served.
    #[error("{what}")]
    Serve {
        /// The reason.
        what: String,
    },
    /// The card or the dossier cannot be typeset.
    #[error("{document} cannot be made: {what}")]
    Typeset {
        /// Which.
        document: &'static str,
        /// The reason.
        what: String,
    },
}

impl From<AskedError> for Failure {
    fn from(error: AskedError) -> Self {
        let is_of_option = !matches!(error, AskedError::TooManyPlaces { .. });
        let dashes = if is_of_option { "--" } else { "" };
        Self::Argument { what: format!("{dashes}{error}") }
    }
}

fn hint(nearest: &Option<&'static str>) -> String {
    nearest.map_or_else(String::new, |name| format!("; did you mean `{name}`?"))
}
