//! `hardpan station`: what stands at one station of the strip, each reading opened.

use super::{assess as changing, reading};
use crate::failure::Failure;
use crate::screen;
use hardpan_assess::{CAUTION, assess, readings_at};
use hardpan_files::Disk;
use hardpan_quantity::{Length, Quantity as _, UnitSystem, parse};
use hardpan_report::{readings_down, readings_json, readings_text};
use std::path::Path;

/// How the readings of a station are told.
pub(crate) enum Told {
    /// Each, for a program.
    Json,
    /// Each with its own steps.
    Each,
    /// Those whose names have some words, down to the files.
    Down(String),
}

/// Read a station of the strip of a flight file.
pub(crate) fn run(
    path: &Path,
    at: &str,
    change: &[String],
    told: &Told,
    system: UnitSystem,
) -> Result<u8, Failure> {
    let refused = |what: String| Failure::Argument { what };
    let station: Length = parse(at).map_err(|error| refused(error.to_string()))?;
    let (flight, identifier) = reading::flight(&Disk::default(), &path.to_string_lossy())?;
    let changes = changing::pairs(change)?;
    let (flight, _) = changing::changed(flight, identifier, &changes)?;
    let found = assess(&flight);
    let length = found.sketch.length;
    if station.si() < 0.0 || length.is_some_and(|length| station > length) {
        let length = length.map_or_else(String::new, |one| format!(" of {:.0} m", one.si()));
        return Err(refused(format!("{at} does not lie on the strip{length}")));
    }
    let readings = readings_at(&flight, &found, station);
    let text = match told {
        Told::Json => {
            screen::say(&readings_json(&readings, station));
            return Ok(0);
        }
        Told::Each => readings_text(&readings, station, system, screen::width()),
        Told::Down(words) => {
            let meant: Vec<_> =
                readings.iter().filter(|one| one.name.contains(&words.to_lowercase())).collect();
            if meant.is_empty() {
                let names: Vec<&str> = readings.iter().map(|one| one.name.as_str()).collect();
                return Err(refused(format!(
                    "no reading there has `{words}` in its name; there are: {}",
                    names.join("; ")
                )));
            }
            readings_down(&meant, station, system, screen::width())
        }
    };
    screen::say(&format!("{text}\n{CAUTION}\n"));
    Ok(0)
}
