//! Records from files, as the exports write them or as a user does.

use crate::export::{AUDIT, LED};
pub use crate::import_book::history_of_json;
pub use crate::import_csv::records_of_csv;
pub use crate::import_map::records_of_geojson;
use crate::json_place::place_of;
use crate::record::FREE_TEXTS;
use crate::{BookError, First, Kind, Mistakes, OffGlobe, Place, Record};
use jiff::Timestamp;
use std::collections::BTreeMap;

/// Columns that say who wrote a record down, and when.
const FIRST: [&str; 4] = ["recorded_by", "recorded_at", "first_by", "first_at"];

/// Endings of columns that carry a unit, and the unit.
const UNITS: [(&str, &str); 3] = [("_m", "m"), ("_kg", "kg"), ("_pa", "Pa")];

/// A record of a file, or an entry of another book.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// What it records; the entry of a picture is counted in the list, from 1 on.
    pub record: Record,
    /// Which of the list it supersedes, from 1 on, and why.
    pub supersedes: Option<(i64, String)>,
    /// Who wrote it down there, and when, as far as the file says.
    pub first: Option<First>,
    /// Where in the file it stands.
    pub at: Place,
}

/// What a file holds, told apart by its beginning: CSV of one kind, the JSON of another
/// book, or features of GeoJSON, which are laid on a strip by `off_globe`.
///
/// # Errors
/// [`Mistakes`]: everything that cannot be used, with line and column.
pub fn taken_of(
    text: &str,
    kind: Option<Kind>,
    off_globe: Option<&OffGlobe<'_>>,
) -> Result<Vec<Taken>, Mistakes> {
    let wrong = |what: &str| Mistakes::alone(Place::BEGIN, what.to_owned());
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let is_json = text.trim_start().starts_with('{');
    let taken = match kind {
        Some(Kind::Picture) => {
            return Err(wrong("pictures are taken over with their whole book, as JSON"));
        }
        Some(kind) if !is_json => records_of_csv(kind, text)?,
        Some(kind) => {
            let one = kind.with_article();
            return Err(wrong(&format!("CSV with {one} in each row is wanted; this is JSON")));
        }
        None if !is_json => {
            return Err(wrong(
                "JSON begins with `{`; of CSV name the kind of record that it holds",
            ));
        }
        None if text.contains("\"FeatureCollection\"") => records_of_geojson(text, off_globe)?,
        None => history_of_json(text)?,
    };
    if taken.is_empty() {
        return Err(wrong("it holds no record"));
    }
    Ok(taken)
}

/// The text of a file.
///
/// # Errors
/// [`Mistakes`]: where its bytes stop being UTF-8.
pub fn text_of(bytes: Vec<u8>) -> Result<String, Mistakes> {
    String::from_utf8(bytes).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let bytes = error.as_bytes();
        let before = String::from_utf8_lossy(bytes.get(..good).unwrap_or_default());
        let wrong = bytes.get(good).copied().unwrap_or_default();
        let what = format!(
            "the byte {wrong:#04x} is no text in UTF-8; save the file as text in UTF-8, as CSV \
             UTF-8 of a spreadsheet"
        );
        Mistakes::alone(place_of(&before, before.len()), what)
    })
}

/// Who wrote a record down, as the columns of an export say.
#[derive(Default)]
pub(crate) struct Writing {
    cells: BTreeMap<&'static str, String>,
    at: BTreeMap<&'static str, Timestamp>,
}

impl Writing {
    /// Take a cell, where it says who or when.
    pub(crate) fn take(&mut self, column: &Column, cell: &str) -> Result<(), String> {
        let Some(name) = FIRST.into_iter().find(|name| *name == column.heading) else {
            return Ok(());
        };
        let cell = unled(cell).trim();
        if name.ends_with("_at") {
            let moment = cell.parse().map_err(|_| {
                format!("{name}: `{cell}` is no day and time such as 2026-06-18T15:00:00Z")
            })?;
            self.at.insert(name, moment);
        } else if !cell.is_empty() {
            self.cells.insert(name, cell.to_owned());
        }
        Ok(())
    }

    /// Who first wrote it: what was taken over there already keeps its first.
    pub(crate) fn first(&self) -> Option<First> {
        let of = |by: &str, at: &str| {
            let by = self.cells.get(by)?.clone();
            Some(First { by, at: self.at.get(at).copied() })
        };
        of("first_by", "first_at").or_else(|| of("recorded_by", "recorded_at"))
    }
}

/// Where a text stops being JSON.
pub(crate) fn no_json(text: &str, error: &serde_json::Error) -> Mistakes {
    let number = |place: usize| u64::try_from(place).unwrap_or(u64::MAX);
    // It counts bytes from the beginning of the line, the one that it cannot use too.
    let line = text.split('\n').nth(error.line().saturating_sub(1)).unwrap_or_default();
    let letters = line.char_indices().take_while(|(byte, _)| *byte < error.column()).count();
    let at = Place { line: number(error.line()), column: number(letters.max(1)) };
    Mistakes::alone(at, format!("this is no JSON: {error}"))
}

/// What stands under a heading.
pub(crate) struct Column {
    heading: String,
    field: Option<&'static str>,
    unit: Option<&'static str>,
}

impl Column {
    pub(crate) fn of(kind: Kind, heading: &str) -> Result<Self, String> {
        let made = |field, unit| Self { heading: heading.to_owned(), field, unit };
        if let Some(field) = kind.fields().iter().find(|field| **field == heading) {
            return Ok(made(Some(*field), None));
        }
        let position = kind.columns().iter().position(|column| *column == heading);
        if let Some(field) = position.and_then(|at| kind.fields().get(at)) {
            let unit = UNITS.iter().find(|(ending, _)| heading.ends_with(ending));
            return Ok(made(Some(*field), unit.map(|(_, unit)| *unit)));
        }
        if AUDIT.contains(&heading) {
            return Ok(made(None, None));
        }
        let known = kind.fields().join(", ");
        let one = kind.with_article();
        Err(format!("column `{heading}`: {one} has no such value; it has {known}"))
    }

    pub(crate) fn is_follower(&self) -> bool {
        self.heading == "superseded_by"
    }

    /// Whether what stands in the way of a record stands under it.
    pub(crate) fn is_of(&self, cause: &BookError) -> bool {
        matches!(cause, BookError::Value { field, .. } if self.holds(field))
    }

    pub(crate) fn holds(&self, field: &str) -> bool {
        self.field == Some(field)
    }

    /// That another before it holds the same value, if one does.
    pub(crate) fn doubled<'a>(&self, mut before: impl Iterator<Item = &'a Self>) -> Option<String> {
        let other = before.find(|one| {
            one.heading == self.heading || (one.field.is_some() && one.field == self.field)
        })?;
        let (mine, first) = (&self.heading, &other.heading);
        Some(format!("column `{mine}` holds what column `{first}` holds already; keep one"))
    }

    pub(crate) fn field(&self, cell: &str) -> Option<(String, String)> {
        let cell = unled(cell);
        let is_free = self.field.is_some_and(|field| FREE_TEXTS.contains(&field));
        let cell = if is_free { cell } else { cell.trim() };
        let text = match self.unit {
            Some(unit) => format!("{cell} {unit}"),
            None => cell.to_owned(),
        };
        self.field.map(|field| (field.to_owned(), text))
    }
}

/// A cell without the apostrophe with which an export leads what a spreadsheet would
/// compute.
fn unled(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(rest) if rest.starts_with(LED) => rest,
        _ => cell,
    }
}
