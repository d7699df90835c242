//! What is wrong in a file that is to be taken over: all of it, each with its place.

use crate::BookError;

/// Most mistakes of a file that are told one by one; of the others the number is.
pub const MOST_TOLD: usize = 50;

/// Where in a text something stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// Line, from 1.
    pub line: u64,
    /// Column in letters, from 1.
    pub column: u64,
}

impl Place {
    /// Where every text begins.
    pub(crate) const BEGIN: Self = Self { line: 1, column: 1 };
}

impl std::fmt::Display for Place {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "line {}, column {}", self.line, self.column)
    }
}

/// Why something in a file cannot be used.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum Misfit {
    /// The text has not the form that was expected: what is wrong, and what is wanted.
    #[error("{0}")]
    Form(String),
    /// A record does not fit.
    #[error(transparent)]
    Record(#[from] BookError),
}

/// One thing that is wrong in a file.
#[derive(Debug)]
pub struct Mistake {
    /// Where.
    pub at: Place,
    /// Why.
    pub cause: Misfit,
}

impl std::fmt::Display for Mistake {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.at, self.cause)
    }
}

/// Everything that is wrong in a file.
#[derive(Debug, Default)]
pub struct Mistakes {
    told: Vec<Mistake>,
    more: usize,
}

impl Mistakes {
    /// The first of them in the order of the file, at most [`MOST_TOLD`].
    #[must_use]
    pub fn told(&self) -> &[Mistake] {
        &self.told
    }

    /// How many there are besides.
    #[must_use]
    pub const fn more(&self) -> usize {
        self.more
    }

    /// How many there are.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.told.len().saturating_add(self.more)
    }

    /// What is wrong at each of these places, if there is one.
    ///
    /// # Errors
    /// All of them.
    pub fn of_all(wrong: impl IntoIterator<Item = (Place, String)>) -> Result<(), Self> {
        let mut mistakes = Self::default();
        for (at, what) in wrong {
            mistakes.form(|| at, what);
        }
        mistakes.or(())
    }

    /// A record does not fit. The place is asked for only where it is told.
    pub(crate) fn record(&mut self, cause: BookError, at: impl FnOnce(&BookError) -> Place) {
        if self.has_room() {
            self.told.push(Mistake { at: at(&cause), cause: cause.into() });
        }
    }

    /// Something has not the form that was expected.
    pub(crate) fn form(&mut self, at: impl FnOnce() -> Place, what: String) {
        if self.has_room() {
            self.told.push(Mistake { at: at(), cause: Misfit::Form(what) });
        }
    }

    fn has_room(&mut self) -> bool {
        let has_room = self.told.len() < MOST_TOLD;
        if !has_room {
            self.more = self.more.saturating_add(1);
        }
        has_room
    }

    /// What was read, unless there is a mistake.
    pub(crate) fn or<T>(mut self, read: T) -> Result<T, Self> {
        if self.told.is_empty() {
            return Ok(read);
        }
        self.told.sort_by_key(|mistake| mistake.at);
        Err(self)
    }

    /// One mistake that hides whatever else there is.
    pub(crate) fn alone(at: Place, what: String) -> Self {
        Self { told: vec![Mistake { at, cause: Misfit::Form(what) }], more: 0 }
    }
}

impl std::fmt::Display for Mistakes {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        for (index, mistake) in self.told.iter().enumerate() {
            let line = if index == 0 { "" } else { "\n" };
            write!(f, "{line}{mistake}")?;
        }
        if self.more > 0 {
            write!(f, "\nand {} more", self.more)?;
        }
        Ok(())
    }
}

impl std::error::Error for Mistakes {}

/// Why nothing of a file is taken over.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ImportError {
    /// Something in it is wrong.
    #[error(transparent)]
    File(#[from] Mistakes),
    /// The book takes none of it.
    #[error(transparent)]
    Book(#[from] BookError),
}
