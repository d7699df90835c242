//! What the books say of the state of a strip.

use crate::Given;
use jiff::Timestamp;
use std::sync::Arc;

/// What one book says of the strip of a flight.
#[derive(Debug, Clone, PartialEq)]
pub struct StripRecord {
    /// The book, as it was named.
    pub book: Arc<str>,
    /// What it says.
    pub told: StripTold,
}

/// What a book says of a strip.
#[derive(Debug, Clone, PartialEq)]
pub enum StripTold {
    /// It cannot be read, and why.
    Unreadable(String),
    /// It records nothing of a strip of that name, but of these.
    Nothing(Vec<String>),
    /// The state that it records.
    State(StripState),
}

/// The state of a strip as a book records it.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct StripState {
    /// Closures in the order of time.
    pub closures: Vec<ClosedSpan>,
    /// Last inspection by the time of the flight.
    pub inspected: Option<Given<Timestamp>>,
    /// What else stands against unrestricted use at the time of the flight, a sentence
    /// each.
    pub restrictions: Vec<Given<String>>,
}

/// A time for which a strip is closed.
#[derive(Debug, Clone, PartialEq)]
pub struct ClosedSpan {
    /// From when on.
    pub from: Given<Timestamp>,
    /// When it is opened again; none where no record says so.
    pub until: Option<Given<Timestamp>>,
    /// Why.
    pub reason: String,
    /// Who recorded it.
    pub by: String,
}
