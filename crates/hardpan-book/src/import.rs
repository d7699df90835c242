//! Records from CSV and JSON, as the exports write them or as a user does.

use crate::export::{AUDIT, LED};
use crate::record::FREE_TEXTS;
use crate::{BookError, Fields, Kind, Record};
use std::collections::BTreeMap;

/// Endings of columns that carry a unit, and the unit.
const UNITS: [(&str, &str); 3] = [("_m", "m"), ("_kg", "kg"), ("_pa", "Pa")];

/// Where in a text something stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// Line, from 1; of the JSON of a book the number of the record.
    pub line: u64,
    /// Column in letters, from 1; 0 where only the line is known.
    pub column: u64,
}

impl Place {
    pub(crate) const fn line(line: u64) -> Self {
        Self { line, column: 0 }
    }
}

impl std::fmt::Display for Place {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self.column {
            0 => write!(f, "line {}", self.line),
            column => write!(f, "line {}, column {column}", self.line),
        }
    }
}

/// Why records cannot be taken over.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ImportError {
    /// The text has not the form that was expected.
    #[error("{at}: {what}")]
    Form {
        /// Where.
        at: Place,
        /// What is wrong, and what is wanted.
        what: String,
    },
    /// A record does not fit.
    #[error("{at}: {cause}")]
    Record {
        /// Where.
        at: Place,
        /// Why.
        cause: BookError,
    },
}

impl ImportError {
    /// The same, at another place.
    pub(crate) fn at(self, at: Place) -> Self {
        match self {
            Self::Form { what, .. } => Self::Form { at, what },
            Self::Record { cause, .. } => Self::Record { at, cause },
        }
    }
}

/// Records of one kind from CSV. A heading is the name of a value, and the cells
/// carry units; or it is that of an export, with the SI unit in it. Superseded
/// rows and withdrawals of an export are left out.
///
/// # Errors
/// [`ImportError`] for the first line that cannot be used.
pub fn records_of_csv(kind: Kind, text: &str) -> Result<Vec<Record>, ImportError> {
    let mut reader =
        csv::ReaderBuilder::new().trim(csv::Trim::Headers).from_reader(text.as_bytes());
    let form = |error: csv::Error| {
        let at = Place::line(error.position().map_or(1, csv::Position::line));
        ImportError::Form { at, what: format!("this is no CSV: {error}") }
    };
    let headings = reader.headers().map_err(form)?.clone();
    let columns: Vec<Column> =
        headings.iter().map(|heading| Column::of(kind, heading)).collect::<Result<_, _>>()?;
    let mut records = Vec::new();
    for row in reader.records() {
        let row = row.map_err(form)?;
        let at = Place::line(row.position().map_or(0, csv::Position::line));
        if columns.iter().zip(&row).any(|(column, cell)| column.is_follower() && !cell.is_empty()) {
            continue;
        }
        let fields: Fields = columns
            .iter()
            .zip(&row)
            .filter(|(_, cell)| !cell.trim().is_empty())
            .filter_map(|(column, cell)| column.field(cell))
            .collect();
        let record = Record::from_fields(kind, &fields);
        records.push(record.map_err(|cause| ImportError::Record { at, cause })?);
    }
    Ok(records)
}

/// An entry of another book.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// What it records; the entry of a picture is counted in the list, from 1 on.
    pub record: Record,
    /// Which of the list it supersedes, from 1 on, and why.
    pub supersedes: Option<(i64, String)>,
}

/// A row of an export as it stands there.
struct Row {
    id: i64,
    supersedes: Option<i64>,
    why: String,
    record: Record,
}

/// Every entry of an export of a whole book in the order of its numbers, the
/// superseded ones and the withdrawals too.
///
/// # Errors
/// [`ImportError`] for the first that cannot be used.
pub fn history_of_json(text: &str) -> Result<Vec<Taken>, ImportError> {
    let wrong = |line: u64, what: String| ImportError::Form { at: Place::line(line), what };
    let value: serde_json::Value = serde_json::from_str(text).map_err(|error| no_json(&error))?;
    let lists = value
        .as_object()
        .ok_or_else(|| wrong(1, "an object with a list for each kind is wanted".to_owned()))?;
    let mut found = Vec::new();
    for (word, list) in lists {
        let kind = Kind::of_word(word)
            .ok_or_else(|| wrong(1, format!("`{word}` is no kind of record")))?;
        let rows = list.as_array();
        for row in rows.ok_or_else(|| wrong(1, format!("`{word}` must hold a list")))? {
            let row = row
                .as_object()
                .ok_or_else(|| wrong(1, format!("a row of `{word}` must be an object")))?;
            found.push(row_of(kind, row)?);
        }
    }
    found.sort_by_key(|row| row.id);
    in_the_list(found)
}

fn row_of(
    kind: Kind,
    row: &serde_json::Map<String, serde_json::Value>,
) -> Result<Row, ImportError> {
    let number = |name: &str| row.get(name).and_then(serde_json::Value::as_i64);
    let id = number("id").unwrap_or(i64::MAX);
    let mut fields = Fields::new();
    for (heading, cell) in row {
        let column = Column::of(kind, heading)?;
        let cell = match cell {
            serde_json::Value::Null => continue,
            serde_json::Value::String(text) => text.clone(),
            other => other.to_string(),
        };
        fields.extend(column.field(&cell));
    }
    let at = Place::line(u64::try_from(id).unwrap_or(u64::MAX));
    let record =
        Record::from_fields(kind, &fields).map_err(|cause| ImportError::Record { at, cause })?;
    let why = row.get("why").and_then(serde_json::Value::as_str).unwrap_or_default();
    Ok(Row { id, supersedes: number("supersedes"), why: why.to_owned(), record })
}

/// Numbers of another book as places in the list.
fn in_the_list(rows: Vec<Row>) -> Result<Vec<Taken>, ImportError> {
    let places: BTreeMap<i64, i64> = rows.iter().map(|row| row.id).zip(1..).collect();
    let place = |of: i64, named: i64| {
        places.get(&named).copied().filter(|_| named < of).ok_or_else(|| ImportError::Form {
            at: Place::line(u64::try_from(of).unwrap_or(u64::MAX)),
            what: format!("entry {named}, which it names, is not among those before it"),
        })
    };
    let taken = rows.into_iter().map(|row| {
        let supersedes = row.supersedes.map(|old| Ok((place(row.id, old)?, row.why)));
        let mut record = row.record;
        if let Record::Picture(picture) = &mut record {
            picture.of_entry = place(row.id, picture.of_entry)?;
        }
        Ok(Taken { record, supersedes: supersedes.transpose()? })
    });
    taken.collect()
}

/// Where a text stops being JSON.
pub(crate) fn no_json(error: &serde_json::Error) -> ImportError {
    let number = |place: usize| u64::try_from(place).unwrap_or(u64::MAX);
    let at = Place { line: number(error.line()), column: number(error.column()) };
    ImportError::Form { at, what: format!("this is no JSON: {error}") }
}

/// What stands under a heading.
pub(crate) struct Column {
    heading: String,
    field: Option<&'static str>,
    unit: Option<&'static str>,
}

impl Column {
    pub(crate) fn of(kind: Kind, heading: &str) -> Result<Self, ImportError> {
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
        let what = format!("column `{heading}`: a {kind} has no such value; it has {known}");
        Err(ImportError::Form { at: Place::line(1), what })
    }

    fn is_follower(&self) -> bool {
        self.heading == "superseded_by"
    }

    pub(crate) fn field(&self, cell: &str) -> Option<(String, String)> {
        // An export leads with an apostrophe what a spreadsheet would compute.
        let cell = match cell.strip_prefix('\'') {
            Some(rest) if rest.starts_with(LED) => rest,
            _ => cell,
        };
        let is_free = self.field.is_some_and(|field| FREE_TEXTS.contains(&field));
        let cell = if is_free { cell } else { cell.trim() };
        let text = match self.unit {
            Some(unit) => format!("{cell} {unit}"),
            None => cell.to_owned(),
        };
        self.field.map(|field| (field.to_owned(), text))
    }
}
