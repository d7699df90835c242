//! `hardpan compare`: several flights side by side, the best first.

use super::{assess, reading};
use crate::failure::Failure;
use crate::screen;
use hardpan_assess::{both_ends, ends_stated, rank};
use hardpan_files::Disk;
use hardpan_model::Flight;
use hardpan_quantity::UnitSystem;
use hardpan_report::{Candidate, TextStyle, comparison, comparison_json};
use std::path::PathBuf;

/// Rank flight files, each with the same values stated again; the exit code tells the verdict of the best.
pub(crate) fn run(
    paths: &[PathBuf],
    ends: bool,
    change: &[String],
    json: bool,
    system: UnitSystem,
) -> Result<u8, Failure> {
    let changes = assess::pairs(change)?;
    let mut flights: Vec<(String, Flight)> = Vec::new();
    let mut candidates: Vec<Candidate> = Vec::new();
    let mut identifiers = String::new();
    for path in paths {
        let path = path.to_string_lossy();
        let (flight, identifier) = reading::flight(&Disk::default(), &path)?;
        let (flight, identifier) = assess::changed(flight, identifier, &changes)?;
        identifiers = reading::joined(&identifiers, &identifier);
        let name = flight.name.as_ref().map_or_else(|| path.to_string(), |name| name.value.clone());
        let name = if paths.len() > 1 { format!("{name} [{path}]") } else { name };
        let choices = if ends { both_ends(&flight) } else { vec![flight.clone()] };
        for choice in choices {
            let ends = ends_stated(&flight, &choice);
            let is_kept = |(key, _): &&(String, String)| ends.iter().all(|(end, _)| end != key);
            let kept: Vec<(String, String)> = changes.iter().filter(is_kept).cloned().collect();
            let changes = kept.into_iter().chain(ends).collect();
            candidates.push(Candidate { flight: path.to_string(), changes });
            flights.push((name.clone(), choice));
        }
    }
    let ranked = rank(&flights);
    if json {
        let produced = reading::produced(&identifiers);
        screen::say(&comparison_json(&ranked, &candidates, &produced));
    } else {
        let style = TextStyle { width: screen::width(), colour: screen::colour() };
        screen::say(&comparison(&ranked, &candidates, system, style));
    }
    Ok(ranked.first().map_or(2, |best| assess::exit_code(best.verdict)))
}
