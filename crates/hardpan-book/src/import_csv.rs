//! Records of one kind from CSV.

use crate::import::{Column, ImportError, Place, Taken, Writing};
use crate::json_place::place_of;
use crate::{Fields, Kind, Record};

/// Records of one kind from CSV. A heading is the name of a value, and the cells
/// carry units; or it is that of an export, with the SI unit in it. Superseded
/// rows and withdrawals of an export are left out.
///
/// # Errors
/// [`ImportError`] with line and column of the first cell that cannot be used.
pub fn records_of_csv(kind: Kind, text: &str) -> Result<Vec<Taken>, ImportError> {
    let mut reader =
        csv::ReaderBuilder::new().trim(csv::Trim::Headers).from_reader(text.as_bytes());
    let form = |error: csv::Error| {
        let byte = error.position().map_or(0, byte_of);
        ImportError::Form { at: cell_at(text, byte, 0), what: format!("this is no CSV: {error}") }
    };
    let headings = reader.headers().map_err(form)?.clone();
    let columns: Vec<Column> = headings
        .iter()
        .enumerate()
        .map(|(index, heading)| {
            Column::of(kind, heading).map_err(|error| error.at(cell_at(text, 0, index)))
        })
        .collect::<Result<_, _>>()?;
    let mut taken = Vec::new();
    for row in reader.records() {
        let row = row.map_err(form)?;
        let byte = row.position().map_or(0, byte_of);
        if columns.iter().zip(&row).any(|(column, cell)| column.is_follower() && !cell.is_empty()) {
            continue;
        }
        taken.push(record(kind, &columns, &row, &|index| cell_at(text, byte, index))?);
    }
    Ok(taken)
}

fn record(
    kind: Kind,
    columns: &[Column],
    row: &csv::StringRecord,
    at: &dyn Fn(usize) -> Place,
) -> Result<Taken, ImportError> {
    let (mut fields, mut writing) = (Fields::new(), Writing::default());
    let cells = columns.iter().zip(row).enumerate();
    for (index, (column, cell)) in cells.filter(|(_, (_, cell))| !cell.trim().is_empty()) {
        fields.extend(column.field(cell));
        writing.take(column, cell).map_err(|error| error.at(at(index)))?;
    }
    let record = Record::from_fields(kind, &fields).map_err(|cause| {
        let index = columns.iter().position(|column| column.is_of(&cause));
        ImportError::Record { at: at(index.unwrap_or_default()), cause }
    })?;
    Ok(Taken { record, supersedes: None, first: writing.first(), at: at(0) })
}

fn byte_of(position: &csv::Position) -> usize {
    usize::try_from(position.byte()).unwrap_or(usize::MAX)
}

/// Where a cell of the row that begins at a byte of the text stands; a row may have
/// empty lines before it.
fn cell_at(text: &str, row: usize, index: usize) -> Place {
    let is_blank = |letter: char| letter == '\n' || letter == '\r';
    let rest = text.get(row..).unwrap_or_default();
    let row = row + (rest.len() - rest.trim_start_matches(is_blank).len());
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
