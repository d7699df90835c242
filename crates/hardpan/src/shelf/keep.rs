//! An assessment of a flight that is kept in a book, as the command keeps it.

use super::{FileShelf, sound};
use crate::commands::reading;
use crate::failure::Failure;
use crate::frozen::{Inputs, Keeper, KeptRecord, frozen};
use hardpan_assess::assess;
use hardpan_book::{Audit, Book, BookError};
use hardpan_files::{change_flight, read_flight};
use hardpan_web::{Keeping, Kept, Refusal};
use jiff::Timestamp;
use std::path::Path;

/// Read the flight again, and keep its assessment if it is the one that was seen.
pub(super) fn keep(shelf: &FileShelf, keeping: &Keeping) -> Result<Kept, Refusal> {
    let reader = shelf.reader();
    let keeper = Keeper::new(&*reader);
    let (mut flight, came) = sound(read_flight(&keeper, &keeping.flight))?;
    let mut identifier = came.identifier;
    let (records, said) = shelf.books.of_flight(&shelf.book_files(), &flight);
    if !records.is_empty() {
        identifier = reading::joined(&identifier, &said);
    }
    flight.strip_records = records;
    if !keeping.changes.is_empty() {
        let (restated, of_changes) = sound(change_flight(flight, &keeping.changes))?;
        identifier = reading::joined(&identifier, &of_changes.identifier);
        flight = restated;
    }
    let produced = reading::produced(&identifier);
    if produced.identifier != keeping.identifier {
        return Ok(Kept::Otherwise);
    }
    let inputs = Inputs {
        flight: keeping.flight.clone(),
        changes: keeping.changes.clone(),
        damage: None,
        state: flight.strip_records.iter().map(KeptRecord::of).collect(),
        files: keeper.files(),
    };
    let now = Timestamp::now();
    let made = frozen(&assess(&flight), produced, &inputs, now);
    let (record, versions) = made.map_err(|failure| unkept(&failure))?;
    let audit = Audit { by: keeping.by.clone(), at: now };
    let written = Book::open(Path::new(&keeping.book))
        .and_then(|mut book| book.keep(Some(record), versions, &audit));
    let entries = written.map_err(|error| of_book(&error))?;
    let first = entries.first().ok_or_else(|| refusal("nothing was recorded".to_owned()))?;
    Ok(Kept::As(first.id))
}

fn unkept(failure: &Failure) -> Refusal {
    refusal(failure.to_string())
}

fn of_book(error: &BookError) -> Refusal {
    refusal(error.to_string())
}

fn refusal(why: String) -> Refusal {
    Refusal { text: why, places: Vec::new() }
}
