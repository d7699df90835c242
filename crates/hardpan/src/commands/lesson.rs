//! `hardpan lesson`: a briefing pack for the trainee, from one assessment.

use super::{assess, reading};
use crate::arguments::Changes;
use crate::failure::Failure;
use crate::output::write_whole;
use crate::progress::Progress;
use crate::screen;
use hardpan_quantity::UnitSystem;
use hardpan_report::{Lesson, Report, TextStyle, lesson_pdf, lesson_text};
use std::path::Path;

/// Make the lesson of a flight file; the exit code tells the verdict of the
/// flight.
pub(crate) fn run(
    path: &Path,
    change: &Changes,
    pack: Option<&Path>,
    with_answers: bool,
    system: UnitSystem,
) -> Result<u8, Failure> {
    let (flight, identifier) = assess::read(path, change)?;
    let progress = Progress::start("assessing the flight");
    let assessment = hardpan_assess::assess(&flight);
    let report = Report::new(&assessment, system, reading::produced(&identifier));
    let lesson = Lesson::new(&report, with_answers);
    let pdf = match pack {
        Some(path) => {
            progress.step("typesetting the lesson");
            let pdf = lesson_pdf(&lesson).map_err(|error| Failure::Typeset {
                document: "the lesson",
                what: error.to_string(),
            })?;
            Some((path, pdf))
        }
        None => None,
    };
    drop(progress);
    if let Some((path, pdf)) = pdf {
        write_whole(path, &pdf)?;
        screen::note(&format!("lesson written: {}\n", path.display()));
    } else {
        let style = TextStyle { width: screen::width(), colour: screen::colour() };
        screen::say(&lesson_text(&lesson, style));
    }
    Ok(assess::exit_code(assessment.answer.verdict))
}
