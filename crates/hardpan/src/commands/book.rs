//! `hardpan book`: the record of a strip.

use crate::arguments::BookAction;
use crate::failure::Failure;
use crate::screen;
use hardpan_book::{
    Audit, Book, BookError, Entry, Fields, Kind, Record, csv_text, current, json_value,
    movements_by_month, passes_since_repair, status,
};
use hardpan_quantity::{Time, parse};
use jiff::Timestamp;
use std::fmt::Write as _;
use std::path::Path;

impl From<BookError> for Failure {
    fn from(error: BookError) -> Self {
        Self::Book { what: error.to_string() }
    }
}

/// Do one thing with a book; it is made by the first record.
pub(crate) fn run(path: &Path, action: &BookAction) -> Result<u8, Failure> {
    let text = match action {
        BookAction::Add { kind, values, by } => add(path, kind, values, by)?,
        BookAction::Correct { id, why, values, by } => correct(path, *id, why, values, by)?,
        BookAction::Status { strip, inspected_within } => {
            strip_status(path, strip, inspected_within)?
        }
        BookAction::List { kind } => csv_text(&Book::open(path)?.entries()?, kind_of(kind)?)?,
        BookAction::Export => format!("{:#}\n", json_value(&Book::open(path)?.entries()?)),
        BookAction::Verify => {
            let entries = Book::open(path)?.verify()?.len();
            format!("{entries} entries, each as it was written\n")
        }
        BookAction::Backup { to } => {
            let entries = Book::open(path)?.backup(to)?;
            format!("{entries} entries copied and verified: {}\n", to.display())
        }
    };
    screen::say(&text);
    if !matches!(action, BookAction::List { .. } | BookAction::Export) {
        screen::say(&format!("\n{}\n", hardpan_assess::CAUTION));
    }
    Ok(0)
}

fn kind_of(word: &str) -> Result<Kind, Failure> {
    Kind::of_word(word).ok_or_else(|| {
        let known: Vec<&str> = Kind::ALL.iter().map(|kind| kind.word()).collect();
        Failure::Argument {
            what: format!("`{word}` is no kind of record; there is {}", known.join(", ")),
        }
    })
}

fn fields_of(values: &[String]) -> Result<Fields, Failure> {
    values
        .iter()
        .map(|value| {
            let (name, text) = value.split_once('=').ok_or_else(|| Failure::Argument {
                what: format!("`{value}` is not of the form name=value"),
            })?;
            Ok((name.to_owned(), text.to_owned()))
        })
        .collect()
}

fn audit(by: &str) -> Audit {
    Audit { by: by.to_owned(), at: Timestamp::now() }
}

fn add(path: &Path, kind: &str, values: &[String], by: &str) -> Result<String, Failure> {
    let record = Record::from_fields(kind_of(kind)?, &fields_of(values)?)?;
    let is_new = !path.exists();
    let mut book = if is_new { Book::create(path)? } else { Book::open(path)? };
    let entry = book.add(record, audit(by))?;
    let made =
        if is_new { format!("a new book was made: {}\n", path.display()) } else { String::new() };
    Ok(format!("{made}recorded as entry {}\n", entry.id))
}

/// A new entry in the place of an old one: the fields given replace its own.
fn correct(
    path: &Path,
    id: i64,
    why: &str,
    values: &[String],
    by: &str,
) -> Result<String, Failure> {
    let mut book = Book::open(path)?;
    let entries = book.entries()?;
    let old = entries.iter().find(|entry| entry.id == id).ok_or_else(|| Failure::Argument {
        what: format!("there is no entry {id}; the book holds {}", entries.len()),
    })?;
    let mut fields = old.record.fields();
    fields.extend(fields_of(values)?);
    let record = Record::from_fields(old.record.kind(), &fields)?;
    let entry = book.correct(id, record, why, audit(by))?;
    Ok(format!("recorded as entry {}, in the place of entry {id}, which stays\n", entry.id))
}

fn strip_status(path: &Path, strip: &str, within: &str) -> Result<String, Failure> {
    let longest: Time = parse(within)
        .map_err(|error| Failure::Argument { what: format!("--inspected-within: {error}") })?;
    let entries = Book::open(path)?.entries()?;
    let standing: Vec<&Entry> = current(&entries);
    let found = status(&standing, strip, Timestamp::now(), longest);
    let mut text = format!("{strip}: {}\n", found.state.words());
    for reason in &found.reasons {
        let _ = writeln!(text, "  {reason}");
    }
    let passes = passes_since_repair(&standing, strip);
    let since =
        passes.since.map_or_else(String::new, |date| format!(" since the repair of {date}"));
    let _ = writeln!(text, "  passes{since}: {}", passes.count);
    for (month, (landings, take_offs)) in movements_by_month(&standing, strip) {
        let _ = writeln!(text, "  {month}: {landings} landings, {take_offs} take-offs");
    }
    Ok(text)
}
