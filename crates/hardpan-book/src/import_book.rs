//! The entries of another book, from the JSON that it exports.

use crate::import::{Column, ImportError, Taken, Writing, no_json};
use crate::json_place::{Part, parts_of_list, whole};
use crate::{BookError, Fields, First, Kind, Record};
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// A row of an export as it stands there.
struct Row<'t> {
    id: i64,
    supersedes: Option<i64>,
    why: String,
    record: Record,
    first: Option<First>,
    part: Part<'t>,
}

/// Every entry of an export of a whole book in the order of its numbers, the
/// superseded ones and the withdrawals too.
///
/// # Errors
/// [`ImportError`] with line and column of the first that cannot be used.
pub fn history_of_json(text: &str) -> Result<Vec<Taken>, ImportError> {
    let all = whole(text);
    let value: Value = serde_json::from_str(text).map_err(|error| no_json(&error))?;
    let lists = value.as_object().ok_or_else(|| ImportError::Form {
        at: all.at(),
        what: "an object with a list for each kind is wanted".to_owned(),
    })?;
    let mut found = Vec::new();
    for (word, list) in lists {
        let wrong = |what: String| ImportError::Form { at: all.at_name(&[word]), what };
        let kind =
            Kind::of_word(word).ok_or_else(|| wrong(format!("`{word}` is no kind of record")))?;
        let rows = list.as_array();
        let rows = rows.ok_or_else(|| wrong(format!("`{word}` must hold a list")))?;
        let rows: Vec<&Map<String, Value>> = rows
            .iter()
            .map(|row| {
                row.as_object().ok_or_else(|| wrong(format!("a row of `{word}` must be an object")))
            })
            .collect::<Result<_, _>>()?;
        for (row, part) in rows.into_iter().zip(parts_of_list(text, word)) {
            found.push(row_of(kind, row, part)?);
        }
    }
    found.sort_by_key(|row| row.id);
    in_the_list(found)
}

fn row_of<'t>(
    kind: Kind,
    row: &Map<String, Value>,
    part: Part<'t>,
) -> Result<Row<'t>, ImportError> {
    let number = |name: &str| row.get(name).and_then(Value::as_i64);
    let (mut fields, mut writing) = (Fields::new(), Writing::default());
    for (heading, cell) in row {
        let at = |error: ImportError| error.at(part.at_name(&[heading]));
        let column = Column::of(kind, heading).map_err(at)?;
        let cell = match cell {
            Value::Null => continue,
            Value::String(text) => text.clone(),
            other => other.to_string(),
        };
        fields.extend(column.field(&cell));
        writing.take(&column, &cell).map_err(at)?;
    }
    let record = Record::from_fields(kind, &fields)
        .map_err(|cause| ImportError::Record { at: at_cause(kind, &part, &cause), cause })?;
    let why = row.get("why").and_then(Value::as_str).unwrap_or_default();
    Ok(Row {
        id: number("id").unwrap_or(i64::MAX),
        supersedes: number("supersedes"),
        why: why.to_owned(),
        record,
        first: writing.first(),
        part,
    })
}

/// Where the value stands that a record cannot be made of.
pub(crate) fn at_cause(kind: Kind, part: &Part<'_>, cause: &BookError) -> crate::Place {
    let BookError::Value { field, .. } = cause else { return part.at() };
    let column = kind.fields().iter().position(|name| name == field);
    let column = column.and_then(|at| kind.columns().get(at)).copied().unwrap_or(field);
    part.at_name(&[field, column])
}

/// Numbers of another book as places in the list.
fn in_the_list(rows: Vec<Row<'_>>) -> Result<Vec<Taken>, ImportError> {
    let places: BTreeMap<i64, i64> = rows.iter().map(|row| row.id).zip(1..).collect();
    let place = |row: (i64, Part<'_>), key: &str, named: i64| {
        let (of, part) = row;
        places.get(&named).copied().filter(|_| named < of).ok_or_else(|| ImportError::Form {
            at: part.at_name(&[key]),
            what: format!("entry {named}, which it names, is not among those before it"),
        })
    };
    let taken = rows.into_iter().map(|row| {
        let mine = (row.id, row.part);
        let old = row.supersedes.map(|old| place(mine, "supersedes", old)).transpose()?;
        let mut record = row.record;
        if let Record::Picture(picture) = &mut record {
            picture.of_entry = place(mine, "of_entry", picture.of_entry)?;
        }
        let (supersedes, at) = (old.map(|old| (old, row.why)), row.part.at());
        Ok(Taken { record, supersedes, first: row.first, at })
    });
    taken.collect()
}
