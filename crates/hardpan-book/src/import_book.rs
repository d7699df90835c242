//! The entries of another book, from the JSON that it exports.

use crate::export::CAUTION;
use crate::import::{Column, Taken, Writing, no_json};
use crate::json_place::{Part, parts_of_list, whole};
use crate::record::Standing;
use crate::{BookError, Fields, First, Kind, Mistakes, Place, Record};
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
/// [`Mistakes`]: everything that cannot be used, with line and column.
pub fn history_of_json(text: &str) -> Result<Vec<Taken>, Mistakes> {
    let all = whole(text);
    let value: Value = serde_json::from_str(text).map_err(|error| no_json(text, &error))?;
    let Some(lists) = value.as_object() else {
        let what = "an object with a list for each kind is wanted".to_owned();
        return Err(Mistakes::alone(all.at(), what));
    };
    let mut mistakes = Mistakes::default();
    let mut found = Vec::new();
    for (word, list) in lists.iter().filter(|(word, _)| *word != CAUTION) {
        let at = || all.at_name(&[word]);
        let Some(kind) = Kind::of_word(word) else {
            let known: Vec<&str> = Kind::ALL.iter().map(|kind| kind.word()).collect();
            let known = known.join(", ");
            mistakes.form(at, format!("`{word}` is no kind of record; there is {known}"));
            continue;
        };
        let Some(rows) = list.as_array() else {
            mistakes.form(at, format!("`{word}` must hold a list"));
            continue;
        };
        let objects: Vec<&Map<String, Value>> = rows.iter().filter_map(Value::as_object).collect();
        if objects.len() < rows.len() {
            mistakes.form(at, format!("each row of `{word}` must be an object"));
        }
        for (row, part) in objects.into_iter().zip(parts_of_list(text, word)) {
            found.extend(row_of(kind, row, part, &mut mistakes));
        }
    }
    // Of rows that are left out nothing else can be said.
    let mut found = mistakes.or(found)?;
    found.sort_by_key(|row| row.id);
    in_the_list(found)
}

fn row_of<'t>(
    kind: Kind,
    row: &Map<String, Value>,
    part: Part<'t>,
    mistakes: &mut Mistakes,
) -> Option<Row<'t>> {
    let number = |name: &str| row.get(name).and_then(Value::as_i64);
    let (mut fields, mut writing) = (Fields::new(), Writing::default());
    let mut columns: Vec<Column> = Vec::new();
    let mut is_whole = true;
    for (heading, cell) in row {
        let at = || part.at_name(&[heading]);
        let cell = match cell {
            Value::Null => String::new(),
            Value::String(text) => text.clone(),
            other => other.to_string(),
        };
        let column = Column::of(kind, heading)
            .and_then(|column| column.doubled(columns.iter()).map_or(Ok(column), Err));
        match column {
            Ok(column) if cell.is_empty() => columns.push(column),
            Ok(column) => {
                fields.extend(column.field(&cell));
                if let Err(what) = writing.take(&column, &cell) {
                    mistakes.form(at, what);
                }
                columns.push(column);
            }
            Err(what) => {
                is_whole = false;
                mistakes.form(at, what);
            }
        }
    }
    let mut wrong = Vec::new();
    let standing = match number("superseded_by") {
        Some(_) => Standing::Superseded,
        None => Standing::Stands,
    };
    let record = Record::read_as(kind, &fields, standing, &mut wrong);
    tell(wrong, (kind, &fields, is_whole), mistakes, |cause| at_cause(kind, &part, cause));
    let why = row.get("why").and_then(Value::as_str).unwrap_or_default();
    Some(Row {
        id: number("id").unwrap_or(i64::MAX),
        supersedes: number("supersedes"),
        why: why.to_owned(),
        record: record?,
        first: writing.first(),
        part,
    })
}

/// What stands in the way of a record. Where a name is none of its values (`is_whole`
/// is false), that may be the name of what is not stated.
pub(crate) fn tell(
    wrong: Vec<BookError>,
    (kind, fields, is_whole): (Kind, &Fields, bool),
    mistakes: &mut Mistakes,
    at: impl Fn(&BookError) -> Place,
) {
    let is_stated = |field: &str| kind.fields().contains(&field) && fields.contains_key(field);
    for cause in wrong {
        let is_told = match &cause {
            BookError::Value { field, .. } => is_whole || is_stated(field),
            _ => true,
        };
        if is_told {
            mistakes.record(cause, &at);
        }
    }
}

/// Where the value stands that a record cannot be made of.
pub(crate) fn at_cause(kind: Kind, part: &Part<'_>, cause: &BookError) -> Place {
    let BookError::Value { field, .. } = cause else { return part.at() };
    let column = kind.fields().iter().position(|name| name == field);
    let column = column.and_then(|at| kind.columns().get(at)).copied().unwrap_or(field);
    part.at_name(&[field, column])
}

/// Numbers of another book as places in the list.
fn in_the_list(rows: Vec<Row<'_>>) -> Result<Vec<Taken>, Mistakes> {
    let places: BTreeMap<i64, i64> = rows.iter().map(|row| row.id).zip(1..).collect();
    let mut mistakes = Mistakes::default();
    let mut place = |(of, part): (i64, Part<'_>), key: &str, named: i64| {
        let found = places.get(&named).copied().filter(|_| named < of);
        if found.is_none() {
            let what = format!("entry {named}, which it names, is not among those before it");
            mistakes.form(|| part.at_name(&[key]), what);
        }
        found
    };
    let mut taken = Vec::new();
    for row in rows {
        let mine = (row.id, row.part);
        let old = row.supersedes.and_then(|old| place(mine, "supersedes", old));
        let mut record = row.record;
        if let Record::Picture(picture) = &mut record {
            let of = place(mine, "of_entry", picture.of_entry);
            picture.of_entry = of.unwrap_or(picture.of_entry);
        }
        let (supersedes, at) = (old.map(|old| (old, row.why)), row.part.at());
        taken.push(Taken { record, supersedes, first: row.first, at });
    }
    mistakes.or(taken)
}
