//! `hardpan strip`: a strip judged by itself, and its dossier.

use super::{assess, reading};
use crate::failure::Failure;
use crate::output::{make_folder, write_whole};
use crate::progress::Progress;
use crate::screen;
use hardpan_assess::{dossier, dossier_of_flight, flight_over, wheel_track};
use hardpan_files::{Disk, axis_on_globe};
use hardpan_model::{AxisPoint, Flight, Strip};
use hardpan_quantity::UnitSystem;
use hardpan_report::{
    DossierReport, TextStyle, dossier_json, dossier_pdf, dossier_places, dossier_text,
};
use std::path::{Path, PathBuf};

/// What to make of the strip.
pub(crate) struct Wanted {
    pub(crate) dossier: Option<PathBuf>,
    pub(crate) figures: Option<PathBuf>,
    pub(crate) places: Option<PathBuf>,
    pub(crate) track: Option<String>,
    pub(crate) flight: Option<PathBuf>,
    pub(crate) dated: Option<String>,
    pub(crate) json: bool,
    pub(crate) system: UnitSystem,
}

/// Judge a strip file; the exit code tells the verdict. Everything that is
/// asked for is made before the first file is written.
pub(crate) fn run(path: &Path, wanted: &Wanted) -> Result<u8, Failure> {
    let track = wanted.track.as_deref().map(wheel_track).transpose()?;
    let (strip, identifier) = reading::strip(&Disk::default(), &path.to_string_lossy())?;
    let flight = wanted.flight.as_deref().map(|path| on_strip(path, &strip)).transpose()?;
    let progress = Progress::start("measuring the strip");
    let judged = match &flight {
        Some(flight) => dossier_of_flight(flight),
        None => dossier(&strip, track),
    };
    let date = wanted.dated.as_deref().unwrap_or_default();
    let report = DossierReport::new(&judged, wanted.system, reading::dated(&identifier, date));
    let pdf = match &wanted.dossier {
        Some(path) => {
            progress.step("typesetting the dossier");
            let pdf = dossier_pdf(&report).map_err(|error| Failure::Typeset {
                document: "the dossier",
                what: error.to_string(),
            })?;
            Some((path, pdf))
        }
        None => None,
    };
    let places = match &wanted.places {
        Some(path) => Some((path, places(&report, &strip)?)),
        None => None,
    };
    drop(progress);
    if wanted.json {
        screen::say(&dossier_json(&report));
    } else {
        let style = TextStyle { width: screen::width(), colour: screen::colour() };
        screen::say(&dossier_text(&report, style));
    }
    if let Some((path, pdf)) = pdf {
        write_whole(path, &pdf)?;
        screen::note(&format!("dossier written: {}\n", path.display()));
    }
    if let Some((path, text)) = places {
        write_whole(path, text.as_bytes())?;
        screen::note(&format!("places written: {}\n", path.display()));
    }
    if let Some(folder) = &wanted.figures {
        make_folder(folder)?;
        for figure in report.figures() {
            let path = folder.join(format!("{}.svg", figure.name));
            write_whole(&path, figure.svg.as_bytes())?;
            screen::note(&format!("figure written: {}\n", path.display()));
        }
    }
    Ok(assess::exit_code(judged.verdict))
}

/// A flight, once it is known to use this strip.
fn on_strip(path: &Path, strip: &Strip) -> Result<Flight, Failure> {
    let (flight, _) = reading::flight(&Disk::default(), &path.to_string_lossy())?;
    Ok(flight_over(flight, strip)?)
}

/// Where things are on the globe, which only thresholds by latitude and
/// longitude tell.
fn places(report: &DossierReport, strip: &Strip) -> Result<String, Failure> {
    let why = |what: String| Failure::Argument { what: format!("--places: {what}") };
    let axis = axis_on_globe(strip)
        .ok_or_else(|| {
            why("the strip file has no `latitude` and `longitude` of both ends".to_owned())
        })?
        .map_err(|error| why(error.to_string()))?;
    let on_globe = |at: AxisPoint| {
        let place = axis.place(at.station, at.offset).ok()?;
        Some((place.latitude, place.longitude))
    };
    Ok(dossier_places(report, strip, &on_globe))
}
