//! `hardpan new`: commented starter files.

use super::demo;
use crate::arguments::Starter;
use crate::failure::Failure;
use crate::output::{make_folder, write_large, write_new};
use crate::screen;
use hardpan_files::templates;
use hardpan_survey::made::{Compression, MadeStrip};
use std::io::BufWriter;
use std::path::Path;

/// Write the starter files of a kind into a folder; nothing is overwritten.
pub(crate) fn run(what: Starter, folder: &Path, density: u16) -> Result<u8, Failure> {
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
        Starter::Scan => return scan(folder, density),
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

/// The strip file of an invented scan; its ends lie 2000 m apart.
const SCANNED: &str = r#"kind = "strip"

# Invented, to try a large survey with: no such strip exists.

name = "Invented scan"
elevation = "240 m"
length = "2000 m"
width = "45 m"
bearing = "37 deg"
surface = "gravel"

survey = { value = "scan.laz", source = "made by a generator" }

[low_end]
designator = "04"
easting = "500000 m"
northing = "4100000 m"

[high_end]
designator = "22"
easting = "501200 m"
northing = "4101600 m"
"#;

/// Invent a scan of so many points to the square metre; nothing is overwritten.
fn scan(folder: &Path, density: u16) -> Result<u8, Failure> {
    make_folder(folder)?;
    let (strip, cloud) = (folder.join("strip.toml"), folder.join("scan.laz"));
    for path in [&strip, &cloud] {
        if path.exists() {
            return Err(Failure::Exists { path: path.clone() });
        }
    }
    let made = MadeStrip {
        density: f64::from(density),
        holes: vec![(1_500.0, 1_520.0, -8.0, 8.0)],
        ..MadeStrip::default()
    };
    write_large(&cloud, |out| {
        made.write(BufWriter::new(out), Compression::Laz).map_err(std::io::Error::other)
    })?;
    write_new(&strip, SCANNED)?;
    screen::say(&format!(
        "{}\n{}: {density} points to the square metre\n\nnext: hardpan strip {}\n",
        strip.display(),
        cloud.display(),
        strip.display()
    ));
    Ok(0)
}
