//! `hardpan new`: commented starter files.

use super::demo;
use crate::arguments::Starter;
use crate::failure::Failure;
use crate::output::{make_folder, write_new};
use crate::screen;
use hardpan_files::templates;
use std::path::Path;

/// Write the starter files of a kind into a folder; nothing is overwritten.
pub(crate) fn run(what: Starter, folder: &Path) -> Result<u8, Failure> {
    let wanted: &[&str] = match what {
        Starter::Demo => &[],
        Starter::Aeroplane => &["aeroplane.toml", "chart.csv"],
        Starter::Strip => {
            &["strip.toml", "survey.csv", "soundings.csv", "strength_tests.csv", "ruts.csv"]
        }
        Starter::Flight => &[
            "flight.toml",
            "aeroplane.toml",
            "chart.csv",
            "strip.toml",
            "survey.csv",
            "soundings.csv",
            "strength_tests.csv",
            "ruts.csv",
            "day.toml",
        ],
    };
    make_folder(folder)?;
    let files: Vec<_> = match what {
        Starter::Demo => demo::starters(),
        _ => templates::all().into_iter().filter(|(name, _)| wanted.contains(name)).collect(),
    };
    for (name, _) in &files {
        let path = folder.join(name);
        if path.exists() {
            return Err(Failure::Exists { path });
        }
    }
    for (name, text) in files {
        let path = folder.join(name);
        write_new(&path, text)?;
        screen::say(&format!("{}\n", path.display()));
    }
    if matches!(what, Starter::Flight | Starter::Demo) {
        let flight = folder.join("flight.toml");
        screen::say(&format!("\nnext: hardpan assess {}\n", flight.display()));
    }
    Ok(0)
}
