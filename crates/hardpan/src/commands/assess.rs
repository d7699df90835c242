//! `hardpan assess`: the assessment of a user's flight.

use super::reading;
use crate::failure::Failure;
use crate::output::write_whole;
use crate::screen;
use hardpan_assess::assess;
use hardpan_files::Disk;
use hardpan_model::Verdict;
use hardpan_quantity::UnitSystem;
use hardpan_report::{Report, TextStyle, card_pdf, json_text, strip_figure, text};
use std::path::{Path, PathBuf};

/// What to make of the assessment.
pub(crate) struct Wanted {
    pub(crate) card: Option<PathBuf>,
    pub(crate) figure: Option<PathBuf>,
    pub(crate) json: bool,
    pub(crate) system: UnitSystem,
}

/// Assess a flight file; the exit code tells the verdict.
pub(crate) fn run(path: &Path, wanted: &Wanted) -> Result<u8, Failure> {
    let (flight, identifier) = reading::flight(&Disk::default(), &path.to_string_lossy())?;
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
    if let Some(path) = &wanted.figure {
        write_whole(path, strip_figure(&report).as_bytes())?;
        screen::note(&format!("figure written: {}\n", path.display()));
    }
    Ok(exit_code(assessment.answer.verdict))
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
