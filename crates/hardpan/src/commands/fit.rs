//! `hardpan fit`: the model calibrated to the operator's charts.

use super::reading;
use crate::failure::Failure;
use crate::progress::Progress;
use crate::screen;
use hardpan_assess::calibrate;
use hardpan_files::{Disk, read_aeroplane};
use hardpan_quantity::UnitSystem;
use hardpan_report::{TextStyle, calibration_text};
use std::path::Path;

/// Calibrate the model of an aeroplane file to its charts.
pub(crate) fn run(path: &Path, system: UnitSystem) -> Result<u8, Failure> {
    let read = read_aeroplane(&Disk::default(), &path.to_string_lossy());
    reading::show_diagnostics(&read);
    let errors = read.errors();
    let aeroplane = read.value.ok_or(Failure::Files { errors: errors.max(1) })?;
    let progress = Progress::start("calibrating to the charts");
    let found = calibrate(&aeroplane);
    drop(progress);
    let found = found.map_err(|needs| {
        let needs = needs.iter().map(|need| format!("{} ({})", need.what, need.how));
        let listed = needs.collect::<Vec<String>>().join("; ");
        Failure::Argument { what: format!("nothing can be fitted; missing: {listed}") }
    })?;
    let name = aeroplane.name.as_ref().map_or("the aeroplane", |name| name.value.as_str());
    let style = TextStyle { width: screen::width(), colour: screen::colour() };
    screen::say(&calibration_text(name, &found, system, style));
    Ok(0)
}
