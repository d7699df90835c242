//! `hardpan demo`: the invented flight that ships with the program.

use super::{assess, reading};
use crate::failure::Failure;
use crate::screen;
use hardpan_files::Memory;
use hardpan_quantity::UnitSystem;
use hardpan_report::{Report, TextStyle, text};
use std::path::Path;

macro_rules! demo_files {
    ($($name:literal),+ $(,)?) => {
        [$((concat!("demo/", $name), include_str!(concat!("../../../../demo/", $name)))),+]
    };
}

const FILES: [(&str, &str); 13] = demo_files![
    "flight.toml",
    "aeroplane.toml",
    "strip.toml",
    "day.toml",
    "survey.csv",
    "soundings.csv",
    "strength_tests.csv",
    "take_off_15.csv",
    "take_off_25.csv",
    "stop_15.csv",
    "stop_25.csv",
    "landing_40.csv",
    "ruts.csv",
];

/// The files of the demo.
pub(super) fn files() -> Memory {
    FILES.into_iter().fold(Memory::default(), |files, (name, text)| files.with(name, text))
}

/// The files of the demo, each by its own name, to start from.
pub(super) fn starters() -> Vec<(&'static str, &'static str)> {
    let named = |(path, text): (&'static str, _)| (path.rsplit('/').next().unwrap_or(path), text);
    FILES.into_iter().map(named).collect()
}

/// Their names.
pub(super) fn names() -> Vec<&'static str> {
    FILES.into_iter().map(|(name, _)| name).collect()
}

/// Assess the demo and write its card. Ends well whatever the verdict is.
pub(crate) fn run(card: &Path, system: UnitSystem) -> Result<u8, Failure> {
    let (flight, identifier) = reading::flight(&files(), "demo/flight.toml")?;
    let assessment = hardpan_assess::assess(&flight);
    let report = Report::new(&assessment, system, reading::produced(&identifier));
    screen::say(&text(&report, TextStyle { width: screen::width(), colour: screen::colour() }));
    assess::write_card(&report, card)?;
    Ok(0)
}
