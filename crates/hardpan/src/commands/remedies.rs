//! `hardpan remedies`: what would turn the answer to a flight.

use super::{assess, reading};
use crate::arguments::Changes;
use crate::failure::Failure;
use crate::progress::Progress;
use crate::screen;
use hardpan_assess::ways_out;
use hardpan_quantity::UnitSystem;
use hardpan_report::{TextStyle, ways_json, ways_opened_text, ways_text};
use std::path::Path;

/// Search the ways out of a flight file; the exit code tells the verdict as planned.
pub(crate) fn run(
    path: &Path,
    change: &Changes,
    (open, json): (Option<&str>, bool),
    system: UnitSystem,
) -> Result<u8, Failure> {
    let (flight, identifier) = assess::read(path, change)?;
    let progress = Progress::start("trying changes");
    let found = ways_out(&flight, |tried| progress.step(format!("trying changes: {tried}")));
    drop(progress);
    let style = TextStyle { width: screen::width(), colour: screen::colour() };
    if let Some(words) = open {
        let text = ways_opened_text(&found, words, system, style);
        let what = || format!("--open: no figure has `{words}` in its name");
        screen::say(&text.ok_or_else(|| Failure::Argument { what: what() })?);
    } else if json {
        screen::say(&ways_json(&found, &reading::produced(&identifier)));
    } else {
        screen::say(&ways_text(&found, system, style));
    }
    Ok(assess::exit_code(found.verdict))
}
