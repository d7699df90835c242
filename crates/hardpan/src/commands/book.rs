//! `hardpan book`: the record of a strip.

mod import;
mod kept;
mod opened;
mod passes;
mod photo;
mod state;

pub(super) use kept::new_versions;
pub(crate) use passes::{map_of, off_globe_of};

use crate::arguments::BookAction;
use crate::failure::Failure;
use crate::frozen::{self, digest_of};
use crate::output::while_writing;
use crate::screen;
use hardpan_assess::CAUTION;
use hardpan_book::{
    Audit, Book, BookError, Fields, Kind, NameOf, Record, Withdrawal, csv_text, current, due_dates,
    is_near, json_text, left_over, measured_ruts, must_know, parts_of, told_of_due,
};
use hardpan_quantity::{Time, counted, parse};
use hardpan_report::figure_json;
use jiff::Timestamp;
use jiff::tz::Offset;
use std::fmt::Write as _;
use std::fs::File;
use std::path::Path;

/// Exit code when an assessment made again is not the same.
const DIFFERS: u8 = 1;

/// The form of an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    Text,
    Csv,
    Json,
}

impl Form {
    const fn of(is_csv: bool, is_json: bool) -> Self {
        match (is_csv, is_json) {
            (_, true) => Self::Json,
            (true, false) => Self::Csv,
            (false, false) => Self::Text,
        }
    }
}

/// A document with the caution in it.
fn document(mut value: serde_json::Value) -> String {
    value["caution"] = CAUTION.into();
    format!("{value:#}\n")
}

impl From<BookError> for Failure {
    fn from(error: BookError) -> Self {
        Self::Book { what: error.to_string() }
    }
}

/// Do one thing with a book; it is made by the first record.
pub(crate) fn run(path: &Path, action: &BookAction) -> Result<u8, Failure> {
    let mut code = 0;
    let text = match action {
        BookAction::Add { kind, values, by } => add(path, kind, values, by)?,
        BookAction::Correct { id, why, values, by } => correct(path, *id, why, values, by)?,
        BookAction::Withdraw { id, why, by } => {
            let gone = Record::Withdrawal(Withdrawal {});
            let entry = Book::open(path)?.correct(*id, gone, why, audit(by))?;
            format!("recorded as entry {}; entry {id} no longer stands, and stays\n", entry.id)
        }
        BookAction::Keep { file, name, by } => kept::keep(path, file, name.as_deref(), by)?,
        BookAction::Kept { json } => kept::list(path, *json)?,
        BookAction::Show { id, show } => kept::show(path, *id, show.system())?,
        BookAction::Files { id, to } => kept::files(path, *id, to)?,
        BookAction::Status { strip, inspected_within, surveyed_within, json, flight, tail } => {
            let within = (inspected_within.as_str(), surveyed_within.as_deref());
            if *json {
                let of_one = passes::of_gear(path, flight.as_deref(), tail)?;
                state::told(path, strip, within, (of_one, tail))?
            } else {
                state::status(path, strip, within)?
            }
        }
        BookAction::Grading { strip, rut, loose, csv, json } => {
            state::grading(path, strip, (rut, loose.as_deref()), Form::of(*csv, *json))?
        }
        BookAction::Damage { strip, step, file, csv, json } => {
            let asked = (step.as_deref(), file.as_deref());
            state::damage(path, strip, asked, Form::of(*csv, *json))?
        }
        BookAction::Due { within, json } => due(path, within.as_deref(), *json)?,
        BookAction::Ruts { strip } => ruts(path, strip)?,
        BookAction::Again { id } => {
            let (text, is_same) = again(path, *id)?;
            code = if is_same { 0 } else { DIFFERS };
            text
        }
        BookAction::Photo { id, file, shown, by } => photo::add(path, (*id, file), shown, by)?,
        BookAction::Photos { to, of } => photo::write_out(path, *of, to)?,
        BookAction::Import { from, file, kind, pictures, by } => {
            let folder = pictures.as_deref();
            import::import(path, from, (kind.as_deref(), file.as_deref(), folder), by)?
        }
        BookAction::List { kind } => csv_text(&Book::open(path)?.entries()?, kind_of(kind)?)?,
        BookAction::Passes { strip, step, file, flight, tail, json, show } => {
            let of_one = passes::of_gear(path, flight.as_deref(), tail)?;
            let asked = passes::Wanted {
                strip,
                step: step.as_deref(),
                file: file.as_deref(),
                of_one: of_one.as_ref(),
                tails: tail,
            };
            if *json {
                passes::told(path, &asked)?
            } else {
                passes::text(path, &asked, show.system())?
            }
        }
        BookAction::Explain { strip, figure, step, file, flight, tail, rut, loose, show } => {
            let of_one = passes::of_gear(path, flight.as_deref(), tail)?;
            let asked = passes::Wanted {
                strip,
                step: step.as_deref(),
                file: file.as_deref(),
                of_one: of_one.as_ref(),
                tails: tail,
            };
            let meant = (figure.as_deref(), show.system());
            opened::text(path, &asked, (rut, loose.as_deref()), meant)?
        }
        BookAction::Map { file, lane } => passes::map(path, file, lane.as_deref())?,
        BookAction::Export => json_text(&Book::open(path)?.entries()?, CAUTION),
        BookAction::Verify => {
            let entries = Book::open(path)?.verify()?.len();
            format!("{}, each as it was written\n", counted(entries, "entry", "entries"))
        }
        BookAction::Backup { to } => {
            let book = Book::open(path)?;
            let taken = taken_over(to);
            let entries = while_writing(parts_of(to), || book.backup(to))?;
            let entries = counted(entries, "entry", "entries");
            format!("{taken}{entries} copied and verified: {}\n", to.display())
        }
    };
    screen::say(&text);
    let is_data = matches!(
        action,
        BookAction::List { .. }
            | BookAction::Ruts { .. }
            | BookAction::Export
            | BookAction::Kept { json: true }
            | BookAction::Status { json: true, .. }
            | BookAction::Grading { csv: true, .. }
            | BookAction::Grading { json: true, .. }
            | BookAction::Damage { csv: true, .. }
            | BookAction::Damage { json: true, .. }
            | BookAction::Due { json: true, .. }
            | BookAction::Passes { json: true, .. }
            | BookAction::Map { .. }
    );
    if !is_data {
        screen::say(&format!("\n{CAUTION}\n"));
    }
    Ok(code)
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

/// Open a book, or make one; and say so.
pub(super) fn opened(path: &Path) -> Result<(Book, String), Failure> {
    if path.exists() {
        return Ok((Book::open(path)?, String::new()));
    }
    let taken = taken_over(path);
    let book = while_writing(parts_of(path), || Book::create(path))?;
    Ok((book, format!("{taken}a new book was made: {}\n", path.display())))
}

/// What is said of a half-made file that making `path` takes away.
fn taken_over(path: &Path) -> String {
    left_over(path).map_or_else(String::new, |part| {
        format!("taken away, half made by a run that was cut off: {}\n", part.display())
    })
}

fn add(path: &Path, kind: &str, values: &[String], by: &str) -> Result<String, Failure> {
    let kind = kind_of(kind)?;
    if kind == Kind::Picture {
        let what = "a picture is kept with `photo ENTRY FILE --shown TEXT`".to_owned();
        return Err(Failure::Argument { what });
    }
    let record = Record::from_fields_at(kind, &fields_of(values)?, Timestamp::now());
    let mut record = record.map_err(|wrong| mistaken(&wrong))?;
    if let Record::Survey(survey) = &mut record {
        let file = File::open(&survey.file);
        if let (None, Ok(mut file)) = (&survey.digest, file) {
            survey.digest = digest_of(&mut file).ok();
        }
    }
    let (mut book, made) = opened(path)?;
    let entry = book.add(record, audit(by))?;
    Ok(format!("{made}recorded as entry {}\n", entry.id))
}

/// Everything that is wrong with a record.
fn mistaken(wrong: &[BookError]) -> Failure {
    if let [one] = wrong {
        return Failure::Book { what: one.to_string() };
    }
    let lines: String = wrong.iter().map(|one| format!("\n  {one}")).collect();
    let what = format!("the record has {} mistakes; nothing was recorded:{lines}", wrong.len());
    Failure::Book { what }
}

/// What must be looked at again.
fn due(path: &Path, within: Option<&str>, is_json: bool) -> Result<String, Failure> {
    let longest = within.map(parse::<Time>).transpose();
    let longest =
        longest.map_err(|error| Failure::Argument { what: format!("--within: {error}") })?;
    let entries = Book::open(path)?.entries()?;
    if is_json {
        return Ok(document(told_of_due(&entries, Timestamp::now(), longest, figure_json)));
    }
    let today = Offset::UTC.to_datetime(Timestamp::now()).date();
    let mut text = format!("due, seen from {today}\n");
    let all = due_dates(&current(&entries));
    for one in &all {
        let line = match (one.date, one.days_left(today)) {
            (Some(date), Some(days)) if days < 0 => format!("OVERDUE since {date}, {} d", -days),
            (Some(date), Some(days)) if is_near(Some(days), longest) => {
                format!("by {date}, in {days} d")
            }
            (Some(_), _) => continue,
            (None, _) => "no day is stated, so nobody knows".to_owned(),
        };
        let _ = writeln!(text, "  {}, {}: {line}", one.subject, one.what);
    }
    if all.is_empty() {
        text.push_str(
            "  nothing of equipment or surveys is recorded; that says nothing of their state\n",
        );
    }
    Ok(text)
}

/// Ruts as a file; what is left out is told beside it.
fn ruts(path: &Path, strip: &str) -> Result<String, Failure> {
    let entries = Book::open(path)?.entries()?;
    let standing = current(&entries);
    must_know(&standing, NameOf::Strip, strip)?;
    let found = measured_ruts(&standing, strip);
    if found.places == 0 && found.left_out.is_empty() {
        let what = format!("{} holds no rut of {strip}", path.display());
        return Err(Failure::Argument { what });
    }
    for why in &found.left_out {
        screen::note(&format!("left out: {why}\n"));
    }
    Ok(found.text)
}

fn again(path: &Path, id: i64) -> Result<(String, bool), Failure> {
    let entries = Book::open(path)?.entries()?;
    let record = entries.iter().find(|entry| entry.id == id).map(|entry| &entry.record);
    match record {
        Some(Record::Assessment(record)) => frozen::again(id, record),
        Some(other) => Err(Failure::Argument {
            what: format!("entry {id} is no assessment, but of the kind {}", other.kind()),
        }),
        None => Err(Failure::Argument {
            what: format!("there is no entry {id}; the book holds {}", entries.len()),
        }),
    }
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
    let record = Record::from_fields_at(old.record.kind(), &fields, Timestamp::now())
        .map_err(|wrong| mistaken(&wrong))?;
    let entry = book.correct(id, record, why, audit(by))?;
    Ok(format!("recorded as entry {}, in the place of entry {id}, which stays\n", entry.id))
}
