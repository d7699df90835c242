//! The entries as CSV and JSON. Headings carry the SI unit.

use crate::{BookError, Entry, Kind};
use rusqlite::types::Value;
use serde_json::{Map, json};
use std::collections::BTreeMap;

/// Name under which an export bears the caution.
pub(crate) const CAUTION: &str = "caution";

pub(crate) const AUDIT: [&str; 9] = [
    "id",
    "recorded_at",
    "recorded_by",
    "supersedes",
    "superseded_by",
    "why",
    "mark",
    "first_by",
    "first_at",
];

/// Beginnings of a text that an apostrophe leads in a table.
pub(crate) const LED: [char; 5] = ['=', '+', '-', '@', '\''];

type Row = Vec<(&'static str, Value)>;

/// One kind as CSV with a line of headings, superseded entries too.
///
/// # Errors
/// [`BookError::Text`] if it cannot be written as text.
pub fn csv_text(entries: &[Entry], kind: Kind) -> Result<String, BookError> {
    let told = |cause: String| BookError::Text { cause };
    let mut writer = csv::Writer::from_writer(Vec::new());
    let headings = AUDIT.iter().chain(kind.columns());
    writer.write_record(headings).map_err(|error| told(error.to_string()))?;
    for row in rows(entries, kind) {
        let cells = row.into_iter().map(|(_, value)| plain(value));
        writer.write_record(cells).map_err(|error| told(error.to_string()))?;
    }
    let bytes = writer.into_inner().map_err(|error| told(error.to_string()))?;
    String::from_utf8(bytes).map_err(|error| told(error.to_string()))
}

/// Every kind as JSON: an object of lists, superseded entries too, and the caution.
#[must_use]
pub fn json_value(entries: &[Entry], caution: &str) -> serde_json::Value {
    let list = |kind: Kind| -> serde_json::Value {
        rows(entries, kind)
            .map(|row| {
                let cell = |(name, value): (&str, Value)| (name.to_owned(), json_cell(value));
                row.into_iter().map(cell).collect::<Map<_, _>>()
            })
            .collect()
    };
    let lists = Kind::ALL.iter().map(|kind| (kind.word().to_owned(), list(*kind)));
    std::iter::once((CAUTION.to_owned(), json!(caution))).chain(lists).collect()
}

/// The same as text.
#[must_use]
pub fn json_text(entries: &[Entry], caution: &str) -> String {
    format!("{:#}\n", json_value(entries, caution))
}

fn rows(entries: &[Entry], kind: Kind) -> impl Iterator<Item = Row> {
    let followers: BTreeMap<i64, i64> =
        entries.iter().filter_map(|entry| entry.supersedes.map(|old| (old, entry.id))).collect();
    entries.iter().filter(move |entry| entry.record.kind() == kind).map(move |entry| {
        let number = |id: Option<i64>| id.map_or(Value::Null, Value::Integer);
        let first = entry.first.as_ref();
        let audit = [
            Value::Integer(entry.id),
            Value::Text(entry.audit.at.to_string()),
            Value::Text(entry.audit.by.clone()),
            number(entry.supersedes),
            number(followers.get(&entry.id).copied()),
            entry.why.clone().map_or(Value::Null, Value::Text),
            entry.mark.clone().map_or(Value::Null, Value::Text),
            first.map_or(Value::Null, |first| Value::Text(first.by.clone())),
            first.and_then(|first| first.at).map_or(Value::Null, |at| Value::Text(at.to_string())),
        ];
        let names = AUDIT.into_iter().chain(kind.columns().iter().copied());
        names.zip(audit.into_iter().chain(entry.record.store())).collect()
    })
}

/// A cell of a table. A text that a spreadsheet would take for a formula is
/// led by an apostrophe.
fn plain(value: Value) -> String {
    match value {
        Value::Integer(number) => number.to_string(),
        Value::Real(number) => number.to_string(),
        Value::Text(text) if text.starts_with(LED) => format!("'{text}"),
        Value::Text(text) => text,
        Value::Null | Value::Blob(_) => String::new(),
    }
}

pub(crate) fn json_cell(value: Value) -> serde_json::Value {
    match value {
        Value::Integer(number) => json!(number),
        Value::Real(number) => json!(number),
        Value::Text(text) => json!(text),
        Value::Null | Value::Blob(_) => serde_json::Value::Null,
    }
}
