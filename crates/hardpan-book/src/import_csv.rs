//! Records of one kind from CSV.

use crate::import::{Column, Taken, Writing};
use crate::json_place::{behind, place_of};
use crate::{BookError, Fields, Kind, Mistakes, Place, Record};
use hardpan_quantity::counted;

/// Records of one kind from CSV. A heading is the name of a value, and the cells
/// carry units; or it is that of an export, with the SI unit in it. Superseded
/// rows and withdrawals of an export are left out.
///
/// # Errors
/// [`Mistakes`]: every cell that cannot be used, with line and column.
pub fn records_of_csv(kind: Kind, text: &str) -> Result<Vec<Taken>, Mistakes> {
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::Headers)
        .flexible(true)
        .from_reader(text.as_bytes());
    let no_csv = |error: csv::Error| {
        let byte = error.position().map_or(0, byte_of);
        Mistakes::alone(cell_at(text, byte, 0), format!("this is no CSV: {error}"))
    };
    let headings = reader.headers().map_err(no_csv)?.clone();
    let mut mistakes = Mistakes::default();
    let table = Table::of(kind, text, &headings, &mut mistakes);
    let (mut taken, mut told, mut place) = (Vec::new(), 0, Place::BEGIN);
    for row in reader.records() {
        let row = row.map_err(no_csv)?;
        let byte = first_cell(text, row.position().map_or(0, byte_of));
        place = behind(place, text.get(told..byte).unwrap_or_default());
        told = byte;
        let cells = table.columns.iter().zip(&row);
        let is_superseded = cells.into_iter().any(|(column, cell)| {
            column.as_ref().is_some_and(Column::is_follower) && !cell.is_empty()
        });
        if !is_superseded {
            taken.extend(table.record(&row, (byte, place), &mut mistakes));
        }
    }
    mistakes.or(taken)
}

/// What the headings say of the cells under them.
struct Table<'t> {
    kind: Kind,
    text: &'t str,
    /// None under a heading that says nothing.
    columns: Vec<Option<Column>>,
    /// Values of which a row does not tell that they are not stated, since their heading
    /// is told to be missing or wrong.
    untold: Vec<&'static str>,
}

impl<'t> Table<'t> {
    fn of(
        kind: Kind,
        text: &'t str,
        headings: &csv::StringRecord,
        mistakes: &mut Mistakes,
    ) -> Self {
        let mut columns: Vec<Option<Column>> = Vec::new();
        for (index, heading) in headings.iter().enumerate() {
            let found = Column::of(kind, heading).and_then(|column| {
                match column.doubled(columns.iter().flatten()) {
                    Some(what) => Err(what),
                    None => Ok(column),
                }
            });
            let told = found.map_err(|what| mistakes.form(|| cell_at(text, 0, index), what));
            columns.push(told.ok());
        }
        let is_whole = columns.iter().all(Option::is_some);
        let mut needed = Vec::new();
        Record::of_fields(kind, &Fields::new(), &mut needed);
        let missing: Vec<&str> = needed
            .iter()
            .filter(|cause| !columns.iter().flatten().any(|column| column.is_of(cause)))
            .filter_map(field_of)
            .collect();
        // Under a heading that says nothing may stand what is missing.
        if is_whole && !missing.is_empty() && !headings.is_empty() {
            let what = format!(
                "no column holds {}, which {} must state",
                missing.join(", "),
                kind.with_article()
            );
            mistakes.form(|| cell_at(text, 0, 0), what);
        }
        let is_untold = |name: &&&'static str| {
            missing.contains(name)
                || (!is_whole && !columns.iter().flatten().any(|one| one.holds(name)))
        };
        let untold = kind.fields().iter().filter(is_untold).copied().collect();
        Self { kind, text, columns, untold }
    }

    fn record(
        &self,
        row: &csv::StringRecord,
        (byte, place): (usize, Place),
        mistakes: &mut Mistakes,
    ) -> Option<Taken> {
        let at = |index: usize| cell_at(self.text, byte, index);
        let wanted = self.columns.len();
        if row.len() != wanted {
            let what = format!(
                "this row of the CSV has {} for {}; a cell with a comma in it stands in \
                 quotation marks",
                counted(row.len(), "cell", "cells"),
                counted(wanted, "heading", "headings")
            );
            mistakes.form(|| place, what);
            return None;
        }
        let (mut fields, mut writing) = (Fields::new(), Writing::default());
        let cells = self.columns.iter().zip(row).enumerate();
        for (index, (column, cell)) in cells.filter(|(_, (_, cell))| !cell.trim().is_empty()) {
            let Some(column) = column else { continue };
            fields.extend(column.field(cell));
            if let Err(what) = writing.take(column, cell) {
                mistakes.form(|| at(index), what);
            }
        }
        let mut wrong = Vec::new();
        let record = Record::of_fields(self.kind, &fields, &mut wrong);
        let told =
            |cause: &BookError| field_of(cause).is_none_or(|field| !self.untold.contains(&field));
        for cause in wrong.into_iter().filter(told) {
            mistakes.record(cause, |cause| {
                let is_of =
                    |one: &Option<Column>| one.as_ref().is_some_and(|column| column.is_of(cause));
                at(self.columns.iter().position(is_of).unwrap_or_default())
            });
        }
        Some(Taken { record: record?, supersedes: None, first: writing.first(), at: place })
    }
}

const fn field_of(cause: &BookError) -> Option<&'static str> {
    match cause {
        BookError::Value { field, .. } => Some(*field),
        _ => None,
    }
}

fn byte_of(position: &csv::Position) -> usize {
    usize::try_from(position.byte()).unwrap_or(usize::MAX)
}

/// Where a row begins that stands behind empty lines and spaces.
fn first_cell(text: &str, row: usize) -> usize {
    let rest = text.get(row..).unwrap_or_default();
    let row = row.min(text.len()) + (rest.len() - rest.trim_start_matches(['\n', '\r']).len());
    let rest = text.get(row..).unwrap_or_default();
    row + (rest.len() - rest.trim_start_matches(' ').len())
}

/// Where a cell of the row that begins at a byte of the text stands; a row may have
/// empty lines before it.
fn cell_at(text: &str, row: usize, index: usize) -> Place {
    let row = first_cell(text, row);
    let (mut cell, mut is_quoted) = (0, false);
    let mut begins = row;
    for (at, letter) in text.get(row..).unwrap_or_default().char_indices() {
        if cell == index {
            break;
        }
        match letter {
            // Two quotation marks in a cell are one letter of it: the state is the
            // same after them.
            '"' => is_quoted = !is_quoted,
            ',' if !is_quoted => {
                cell += 1;
                begins = row + at + 1;
            }
            '\n' if !is_quoted => break,
            _ => {}
        }
    }
    let rest = text.get(begins..).unwrap_or_default();
    let spaces = rest.len() - rest.trim_start_matches(' ').len();
    place_of(text, begins + spaces)
}
