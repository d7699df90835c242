//! `hardpan assess`: the assessment of a user's flight.

use super::{book, reading};
use crate::arguments::Changes;
use crate::failure::Failure;
use crate::frozen::{Inputs, Keeper, KeptDamage, KeptRecord, frozen};
use crate::output::write_whole;
use crate::recorded::recorded;
use crate::screen;
use hardpan_assess::{Assessment, assess};
use hardpan_book::{Audit, Book, Entry, closed_times, current, strikes_so_far};
use hardpan_files::{Disk, FileSource, change_flight};
use hardpan_model::{Flight, Verdict};
use hardpan_quantity::{UnitSystem, counted};
use hardpan_report::{
    Produced, Report, TextStyle, card_pdf, climb_figure, decision_figure, json_text, runs_figure,
    stone_figure, strip_figure, text,
};
use std::path::{Path, PathBuf};

/// What to make of the assessment.
pub(crate) struct Wanted {
    pub(crate) card: Option<PathBuf>,
    pub(crate) figure: Option<PathBuf>,
    pub(crate) stones: Option<PathBuf>,
    pub(crate) climb: Option<PathBuf>,
    pub(crate) runs: Option<PathBuf>,
    pub(crate) decision_speed: Option<PathBuf>,
    pub(crate) change: Vec<String>,
    pub(crate) book: Option<PathBuf>,
    /// The book that keeps the assessment, and who keeps it.
    pub(crate) keep: Option<(PathBuf, String)>,
    pub(crate) json: bool,
    pub(crate) system: UnitSystem,
}

/// What draws one figure of a report.
type Picture = fn(&Report) -> String;

/// Assess a flight file; the exit code tells the verdict.
pub(crate) fn run(path: &Path, wanted: &Wanted) -> Result<u8, Failure> {
    let disk = Disk::default();
    let keeper = Keeper::new(&disk);
    let source: &dyn FileSource = if wanted.keep.is_some() { &keeper } else { &disk };
    let (flight, identifier) = reading::flight(source, &path.to_string_lossy())?;
    let changes = pairs(&wanted.change)?;
    let (mut flight, of_changes) = restated(flight, &changes)?;
    let mut damage = None;
    if let Some(book) = &wanted.book {
        damage = ask(&mut flight, book)?;
    }
    // The page joins them in the same order.
    let of_books: String =
        flight.strip_records.iter().map(|record| KeptRecord::of(record).text()).collect();
    let parts = [Some(of_books).filter(|text| !text.is_empty()), of_changes];
    let identifier =
        parts.iter().flatten().fold(identifier, |one, other| reading::joined(&one, other));
    let assessment = assess(&flight);
    let produced = reading::produced(&identifier);
    let report = Report::new(&assessment, wanted.system, produced.clone());
    if let Some((book, by)) = &wanted.keep {
        let inputs = Inputs {
            flight: path.to_string_lossy().into_owned(),
            changes,
            damage,
            state: flight.strip_records.iter().map(KeptRecord::of).collect(),
            files: keeper.files(),
        };
        keep(&assessment, produced, &inputs, (book, by))?;
    }
    if wanted.json {
        screen::say(&json_text(&report));
    } else {
        screen::say(&text(&report, TextStyle { width: screen::width(), colour: screen::colour() }));
    }
    if let Some(path) = &wanted.card {
        write_card(&report, path)?;
    }
    for (path, picture) in [
        (&wanted.figure, strip_figure as Picture),
        (&wanted.stones, stone_figure as Picture),
        (&wanted.climb, climb_figure as Picture),
        (&wanted.runs, runs_figure as Picture),
        (&wanted.decision_speed, decision_figure as Picture),
    ] {
        if let Some(path) = path {
            write_whole(path, picture(&report).as_bytes())?;
            screen::note(&format!("figure written: {}\n", path.display()));
        }
    }
    Ok(exit_code(assessment.answer.verdict))
}

/// Values stated again, by name.
pub(super) fn pairs(changes: &[String]) -> Result<Vec<(String, String)>, Failure> {
    let pair = |change: &String| {
        let what = || format!("--change: `{change}` is not of the form name=value");
        let (key, value) =
            change.split_once('=').ok_or_else(|| Failure::Argument { what: what() })?;
        Ok((key.trim().to_owned(), value.trim().to_owned()))
    };
    changes.iter().map(pair).collect()
}

/// The flight with some of its values stated again.
pub(super) fn changed(
    flight: Flight,
    identifier: String,
    changes: &[(String, String)],
) -> Result<(Flight, String), Failure> {
    let (flight, of_changes) = restated(flight, changes)?;
    let joined = of_changes.map(|other| reading::joined(&identifier, &other));
    Ok((flight, joined.unwrap_or(identifier)))
}

/// A flight file read with values stated again.
pub(super) fn read(path: &Path, changes: &Changes) -> Result<(Flight, String), Failure> {
    let (flight, identifier) = reading::flight(&Disk::default(), &path.to_string_lossy())?;
    changed(flight, identifier, &pairs(&changes.all)?)
}

/// The same, and what identifies the changes; nothing where there are none.
fn restated(
    flight: Flight,
    changes: &[(String, String)],
) -> Result<(Flight, Option<String>), Failure> {
    if changes.is_empty() {
        return Ok((flight, None));
    }
    let (flight, of_changes) = reading::usable(change_flight(flight, changes))?;
    Ok((flight, Some(of_changes)))
}

/// Keep an assessment in a book with what it was made from.
fn keep(
    assessment: &Assessment,
    produced: Produced,
    inputs: &Inputs,
    (path, by): (&Path, &str),
) -> Result<(), Failure> {
    let now = jiff::Timestamp::now();
    let (record, versions) = frozen(assessment, produced, inputs, now)?;
    let (mut book, made) = book::opened(path)?;
    let entries = book.keep(Some(record), versions, &Audit { by: by.to_owned(), at: now })?;
    let Some(((first, newer), file)) = entries.split_first().zip(Some(path.display())) else {
        return Ok(());
    };
    screen::note(&format!(
        "{made}kept as entry {0} of {file}; `hardpan book {file} again {0}` makes it again\n{1}",
        first.id,
        book::new_versions(newer),
    ));
    Ok(())
}

/// Ask a book for the state of the strip, and for the strikes and movements so far, which
/// are given back where it holds any.
fn ask(flight: &mut Flight, path: &Path) -> Result<Option<KeptDamage>, Failure> {
    let refused = |what: String| Failure::Argument { what: format!("--book: {what}") };
    let strip = flight.strip.name.as_ref().map(|name| name.value.clone());
    let strip =
        strip.ok_or_else(|| refused("the strip file states no name to look for".to_owned()))?;
    let entries = Book::open(path)?.entries()?;
    let standing: Vec<&Entry> = current(&entries);
    let book = path.to_string_lossy().into_owned();
    flight.strip_records.extend(recorded(&standing, &book, flight));
    let found = strikes_so_far(&standing, &strip);
    if found.movements == 0 {
        return Ok(None);
    }
    if flight.damage_record.is_some() {
        let movements = counted(found.movements, "movement", "movements");
        let closed = closed_times(&standing, &strip).into_iter().filter(|one| one.until.is_none());
        let closed: String = closed.map(|one| format!("; {strip} is {}", one.words())).collect();
        return Err(refused(format!(
            "the flight file has a [damage_record], and the book holds {movements} of {strip}: two \
             records of one thing; take [damage_record] out of the flight file, and the strikes of \
             the book count{closed}"
        )));
    }
    let kept = KeptDamage::new(book, found.movements, found.strikes, found.first, found.last);
    flight.damage_record = Some(kept.record());
    Ok(Some(kept))
}

/// Typeset and write the card, and say where.
pub(super) fn write_card(report: &Report, path: &Path) -> Result<(), Failure> {
    let pdf = card_pdf(report)
        .map_err(|error| Failure::Typeset { document: "the card", what: error.to_string() })?;
    write_whole(path, &pdf)?;
    screen::note(&format!("card written: {}\n", path.display()));
    Ok(())
}

/// Exit code of a verdict; 2 is kept for what cannot be used.
pub(super) const fn exit_code(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Pass => 0,
        Verdict::Fail => 1,
        Verdict::Unproven => 3,
        Verdict::Conditional => 4,
    }
}
