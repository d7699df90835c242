//! `hardpan assess`: the assessment of a user's flight.

use super::reading;
use crate::failure::Failure;
use crate::output::write_whole;
use crate::screen;
use hardpan_assess::assess;
use hardpan_book::{Book, Entry, current, strikes_so_far};
use hardpan_files::{Disk, change_flight};
use hardpan_model::{DamageRecord, Flight, Given, Origin, Verdict};
use hardpan_quantity::UnitSystem;
use hardpan_report::{
    Report, TextStyle, card_pdf, climb_figure, decision_figure, json_text, stone_figure,
    strip_figure, text,
};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What to make of the assessment.
pub(crate) struct Wanted {
    pub(crate) card: Option<PathBuf>,
    pub(crate) figure: Option<PathBuf>,
    pub(crate) stones: Option<PathBuf>,
    pub(crate) climb: Option<PathBuf>,
    pub(crate) decision_speed: Option<PathBuf>,
    pub(crate) change: Vec<String>,
    pub(crate) book: Option<PathBuf>,
    pub(crate) json: bool,
    pub(crate) system: UnitSystem,
}

/// What draws one figure of a report.
type Picture = fn(&Report) -> String;

/// Assess a flight file; the exit code tells the verdict.
pub(crate) fn run(path: &Path, wanted: &Wanted) -> Result<u8, Failure> {
    let (flight, identifier) = reading::flight(&Disk::default(), &path.to_string_lossy())?;
    let (mut flight, identifier) = changed(flight, identifier, &wanted.change)?;
    if let Some(book) = &wanted.book {
        flight.damage_record = Some(record(&flight, book)?);
    }
    let assessment = assess(&flight);
    let report = Report::new(&assessment, wanted.system, reading::produced(&identifier));
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
        (&wanted.decision_speed, decision_figure as Picture),
    ] {
        if let Some(path) = path {
            write_whole(path, picture(&report).as_bytes())?;
            screen::note(&format!("figure written: {}\n", path.display()));
        }
    }
    Ok(exit_code(assessment.answer.verdict))
}

/// The flight with some of its values stated again.
fn changed(
    flight: Flight,
    identifier: String,
    changes: &[String],
) -> Result<(Flight, String), Failure> {
    if changes.is_empty() {
        return Ok((flight, identifier));
    }
    let pair = |change: &String| {
        let what = || format!("--change: `{change}` is not of the form name=value");
        let (key, value) =
            change.split_once('=').ok_or_else(|| Failure::Argument { what: what() })?;
        Ok((key.trim().to_owned(), value.trim().to_owned()))
    };
    let pairs: Vec<(String, String)> = changes.iter().map(pair).collect::<Result<_, Failure>>()?;
    let (flight, of_changes) = reading::usable(change_flight(flight, &pairs))?;
    Ok((flight, reading::shown(&reading::joined(&identifier, &of_changes))))
}

/// Strikes and movements of the strip as its book has them.
fn record(flight: &Flight, path: &Path) -> Result<DamageRecord, Failure> {
    let refused = |what: &str| Failure::Argument { what: format!("--book: {what}") };
    if flight.damage_record.is_some() {
        return Err(refused("the flight file has a damage_record already; leave one of them out"));
    }
    let strip = flight.strip.name.as_ref();
    let strip = strip.ok_or_else(|| refused("the strip file states no name to look for"))?;
    let entries = Book::open(path)?.entries()?;
    let standing: Vec<&Entry> = current(&entries);
    let found = strikes_so_far(&standing, &strip.value);
    if found.movements == 0 {
        let what = format!("{} holds no movement of {}", path.display(), strip.value);
        return Err(refused(&what));
    }
    let file: Arc<str> = path.to_string_lossy().into();
    fn given<T>(file: &Arc<str>, key: &str, value: T) -> Given<T> {
        let origin = Origin { file: file.clone(), line: 0, column: 0, key: key.into() };
        Given { value, origin, source: None }
    }
    Ok(DamageRecord {
        movements: given(&file, "movement", found.movements),
        strikes: given(&file, "damage", found.strikes),
        from: found.first.map(|date| given(&file, "movement", date)),
        to: found.last.map(|date| given(&file, "movement", date)),
    })
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
