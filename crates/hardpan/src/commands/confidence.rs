//! `hardpan confidence`: how sure the answer to a flight is.

use super::{assess, reading};
use crate::arguments::Sure;
use crate::failure::Failure;
use crate::output::write_whole;
use crate::progress::Progress;
use crate::screen;
use hardpan_assess::{FEWEST_DRAWS, MOST_DRAWS, Sampling, confidence, draws_in_full};
use hardpan_report::{
    ConfidenceReport, TextStyle, confidence_json, confidence_opened_text, confidence_pdf,
    confidence_text,
};

/// Draws between two signs of life.
const SHOWN_EVERY: usize = 32;

/// Draw a flight file many times; the exit code tells the verdict.
pub(crate) fn run(wanted: &Sure) -> Result<u8, Failure> {
    let in_full = wanted.in_full.unwrap_or(draws_in_full(wanted.draws));
    for (option, number) in [("--draws", wanted.draws), ("--in-full", in_full)] {
        if !(FEWEST_DRAWS..=MOST_DRAWS).contains(&number) {
            let what = format!("{option}: {number} is not between {FEWEST_DRAWS} and {MOST_DRAWS}");
            return Err(Failure::Argument { what });
        }
    }
    let (flight, identifier) = assess::read(&wanted.flight, &wanted.change)?;
    let progress = Progress::start("drawing the flight");
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    let Sure { draws, seed, .. } = *wanted;
    let sampling = Sampling { draws, in_full, seed, threads };
    let found = confidence(&flight, sampling, |done, every| {
        if done % SHOWN_EVERY == 0 {
            progress.step(format!("drawing the flight: {done} of {every}"));
        }
    });
    let report =
        ConfidenceReport::new(&found, wanted.show.system(), reading::produced(&identifier));
    let pdf = wanted.sheet.as_ref().map(|path| {
        progress.step("typesetting the sheet");
        let pdf = confidence_pdf(&report)
            .map_err(|error| Failure::Typeset { document: "the sheet", what: error.to_string() });
        (path, pdf)
    });
    drop(progress);
    if let Some(words) = &wanted.open {
        let style = TextStyle { width: screen::width(), colour: screen::colour() };
        let text = confidence_opened_text(&report, words, style);
        let what = || format!("--open: no figure has `{words}` in its name");
        screen::say(&text.ok_or_else(|| Failure::Argument { what: what() })?);
    } else if wanted.json {
        screen::say(&confidence_json(&report));
    } else {
        let style = TextStyle { width: screen::width(), colour: screen::colour() };
        screen::say(&confidence_text(&report, style));
    }
    if let Some((path, pdf)) = pdf {
        write_whole(path, &pdf?)?;
        screen::note(&format!("sheet written: {}\n", path.display()));
    }
    Ok(assess::exit_code(found.verdict))
}
