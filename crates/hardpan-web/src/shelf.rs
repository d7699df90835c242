//! What READ and the clock hand in.

use hardpan_model::{Aeroplane, Flight, Strip, StripTold, Verdict};
use hardpan_quantity::Length;
use hardpan_report::Produced;
use jiff::Timestamp;
use jiff::civil::Date;

/// Station and offset, metres, of a latitude and a longitude, degrees; none off the strip.
pub type OffStrip = Box<dyn Fn(f64, f64) -> Option<(f64, f64)> + Send>;

/// The files that the page may open, and the clock.
///
/// The page asks for nothing by a path of the reader's own making: it lists the
/// entries, and opens one of those.
pub trait Shelf: Send + Sync {
    /// What stands on the shelf now, in the order in which it is listed.
    fn entries(&self) -> Vec<Entry>;

    /// Where the entries come from, in the user's words.
    fn place(&self) -> String;

    /// The flight of an entry with some values stated again, each as a key of
    /// the files and a text with its unit, and with what the books on the shelf record
    /// of its strip.
    ///
    /// # Errors
    /// [`Refusal`] with every mistake in the files or in the changes.
    fn flight(&self, file: &str, changes: &[(String, String)]) -> Result<Opened<Flight>, Refusal>;

    /// The flight of an entry with the ruts of a book as those measured on its strip;
    /// each says in which entry of the book it stands.
    ///
    /// # Errors
    /// [`Refusal`] with every mistake in the files or the ruts.
    fn flight_with_ruts(&self, file: &str, ruts: &RutsOfBook) -> Result<Opened<Flight>, Refusal>;

    /// What the books on the shelf say of a strip of a name at a moment: those that tell
    /// of it, and those that cannot be read.
    fn recorded(&self, strip: &str, at: Timestamp) -> Vec<Recorded>;

    /// The strip of an entry.
    ///
    /// # Errors
    /// [`Refusal`] with every mistake in the files.
    fn strip(&self, file: &str) -> Result<Opened<Strip>, Refusal>;

    /// Where on the strip of an entry a place lies.
    ///
    /// # Errors
    /// [`Refusal`] with every mistake in the files, or for a strip without both ends on
    /// the globe.
    fn off_globe(&self, file: &str) -> Result<OffStrip, Refusal>;

    /// What a book tells of the strip of an entry, as GeoJSON; ruts lie in their lane
    /// where `lane`, half the distance between the main wheels, is known.
    ///
    /// # Errors
    /// [`Refusal`] with every mistake in the files, or for a strip without name, length
    /// and both ends on the globe.
    fn map(
        &self,
        file: &str,
        entries: &[hardpan_book::Entry],
        lane: Option<Length>,
    ) -> Result<String, Refusal>;

    /// The aeroplane of an entry.
    ///
    /// # Errors
    /// [`Refusal`] with every mistake in the files.
    fn aeroplane(&self, file: &str) -> Result<Opened<Aeroplane>, Refusal>;

    /// Keep a plan as a flight file of its own, once it can be read; gives its
    /// file. No file that stands is changed.
    ///
    /// # Errors
    /// [`Refusal`] with every mistake; a mistake in a value of the plan names its
    /// key.
    fn plan(&self, plan: &Plan) -> Result<String, Refusal>;

    /// Keep the assessment of a flight in a book with all that it was made from, if it is
    /// still the one that was seen.
    ///
    /// # Errors
    /// [`Refusal`] with every mistake in the files or the changes, or why the book
    /// takes nothing; nothing is kept then.
    fn keep(&self, keeping: &Keeping) -> Result<Kept, Refusal>;

    /// Begin to take a survey that somebody brings.
    ///
    /// # Errors
    /// [`Refusal`] for a name, a kind or a place that cannot be.
    fn receive(&self, bringing: &Bringing) -> Result<Box<dyn Receiver>, Refusal>;

    /// What produces a report, and when.
    fn produced(&self, identifier: &str) -> Produced;

    /// What changes when one of these files does; none when that cannot be told, as
    /// of a file that was written a moment ago.
    fn mark_of(&self, files: &[String]) -> Option<String>;

    /// The moment of the clock.
    fn now(&self) -> Timestamp;

    /// Keys that may be stated again.
    fn changeable(&self) -> &[&'static str];
}

/// What an entry is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EntryKind {
    /// A flight file.
    Flight,
    /// A strip file.
    Strip,
    /// An aeroplane file.
    Aeroplane,
    /// The book of a strip.
    Book,
}

impl EntryKind {
    /// The word people see.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Flight => "flight",
            Self::Strip => "strip",
            Self::Aeroplane => "aeroplane",
            Self::Book => "book",
        }
    }
}

/// One file on the shelf.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its name in addresses: letters, digits, `.`, `-` and `_`; unique for its kind.
    pub slug: String,
    /// What it is.
    pub kind: EntryKind,
    /// Its file, as the shelf opens it.
    pub file: String,
    /// The name that it states.
    pub name: Option<String>,
    /// The other files that it names, such as its strip.
    pub names: Vec<(&'static str, String)>,
}

impl Entry {
    /// Its name, or else its file.
    #[must_use]
    pub fn title(&self) -> &str {
        self.name.as_deref().filter(|name| !name.trim().is_empty()).unwrap_or(&self.file)
    }
}

/// What a file holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened<T> {
    /// The value.
    pub value: T,
    /// The value as the files have it, where some of it was stated again.
    pub before: Option<T>,
    /// Digest of everything that was read, changes included.
    pub identifier: String,
    /// Warnings in the files as text; empty if there are none.
    pub warnings: String,
    /// Every file that was read, as the shelf opens it.
    pub files: Vec<String>,
    /// What [`Shelf::mark_of`] tells of them for as long as none is touched; none when
    /// one of them may have been written while it was read.
    pub mark: Option<String>,
}

/// Ruts that a book tells of a strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RutsOfBook {
    /// File of the book, as the shelf lists it.
    pub book: String,
    /// The text of a file of ruts.
    pub text: String,
    /// For each row the number of its entry, and who recorded it and when, in words.
    pub rows: Vec<(i64, String)>,
}

/// What a book says of a strip.
#[derive(Debug, Clone, PartialEq)]
pub struct Recorded {
    /// The book, as the shelf lists it.
    pub file: String,
    /// Its state.
    pub told: StripTold,
    /// The day by which it must be graded first, and where; none if that cannot be told.
    pub due: Option<(Date, String)>,
}

/// A flight that somebody plans.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// Its name.
    pub name: String,
    /// File of its aeroplane, as the shelf lists it.
    pub aeroplane: String,
    /// File of its strip, likewise.
    pub strip: String,
    /// Keys of the files with texts, `day.` before those of the day.
    pub values: Vec<(String, String)>,
}

/// An assessment that somebody keeps.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Keeping {
    /// File of the flight, as the shelf lists it.
    pub flight: String,
    /// Values stated again.
    pub changes: Vec<(String, String)>,
    /// What identifies the inputs of the assessment that was seen, as it was shown.
    pub identifier: String,
    /// File of the book, as the shelf lists it.
    pub book: String,
    /// Who keeps it.
    pub by: String,
}

/// What came of keeping an assessment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kept {
    /// It is kept as the entry of this number.
    As(i64),
    /// Nothing is kept: files or books are no longer as they were seen.
    Otherwise,
}

/// A survey that somebody brings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bringing {
    /// File of the strip, as the shelf lists it.
    pub strip: String,
    /// What was measured.
    pub what: String,
    /// Name that the sender gives the file; nothing of it but letters, digits and
    /// its ending is kept.
    pub name: String,
    /// Day on which it was measured.
    pub date: String,
}

/// What takes a file part by part. Given up before its end, it leaves nothing.
pub trait Receiver: Send {
    /// Take the next part.
    ///
    /// # Errors
    /// [`Refusal`] when it cannot be kept.
    fn take(&mut self, bytes: &[u8]) -> Result<(), Refusal>;

    /// Have the whole read as if its strip named it, by a process of its own within
    /// bounds, and keep it if that can be.
    ///
    /// # Errors
    /// [`Refusal`] with every mistake; nothing is kept then.
    fn finish(self: Box<Self>) -> Result<Brought, Refusal>;
}

/// A survey that was brought.
#[derive(Debug, Clone, PartialEq)]
pub struct Brought {
    /// Its name beside the strip file.
    pub name: String,
    /// SHA-256 of it, in hexadecimal digits.
    pub digest: String,
    /// What the strip file must say to use it.
    pub says: String,
    /// Warnings in it as text; empty if there are none.
    pub warnings: String,
    /// Verdict of the strip by itself, as it would then be.
    pub verdict: Verdict,
    /// Its checks.
    pub checks: Vec<StripCheck>,
}

/// A check of a strip by itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StripCheck {
    /// Code of its rule.
    pub code: &'static str,
    /// What was checked, and where.
    pub title: String,
    /// What came of it.
    pub verdict: Verdict,
}

/// Why a file or a change cannot be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// Every mistake as text, with the line of the file shown.
    pub text: String,
    /// The same place by place.
    pub places: Vec<RefusedPlace>,
}

/// One mistake.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RefusedPlace {
    /// Permanent code.
    pub code: &'static str,
    /// File; `changes` for a value stated again.
    pub file: String,
    /// Line, from 1; 0 for the file as a whole.
    pub line: u32,
    /// Column, from 1; 0 for the file as a whole.
    pub column: u32,
    /// Key that was stated again, if the mistake stands in one.
    pub key: Option<String>,
    /// What is wrong, in a sentence.
    pub message: String,
    /// What was expected.
    pub expected: String,
    /// How to put it right.
    pub hint: String,
}
