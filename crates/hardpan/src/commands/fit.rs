//! `hardpan fit`: the model calibrated to the operator's charts.

use super::reading;
use crate::failure::Failure;
use crate::output::write_whole;
use crate::progress::Progress;
use crate::screen;
use hardpan_assess::{Calibration, calibrate};
use hardpan_files::{Disk, fitted_text, quoted, read_aeroplane_as_stated};
use hardpan_quantity::UnitSystem;
use hardpan_report::{TextStyle, calibration_text};
use std::path::Path;

/// Calibrate the model of an aeroplane file to its charts; write the constants.
pub(crate) fn run(path: &Path, write: Option<&Path>, system: UnitSystem) -> Result<u8, Failure> {
    let read = read_aeroplane_as_stated(&Disk::default(), &path.to_string_lossy());
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
    if let Some(file) = write {
        refuse_far(&found)?;
        write_whole(file, fitted_text(&found.fitted, &source(&found)).as_bytes())?;
        screen::say(&format!(
            "Written to {}. The aeroplane's file takes it in by: fitted = {}\n",
            file.display(),
            quoted(&file.file_name().unwrap_or_default().to_string_lossy())
        ));
    }
    Ok(0)
}

/// Constants far from those stated are written nowhere.
fn refuse_far(found: &Calibration) -> Result<(), Failure> {
    let far: Vec<&str> = found.moved_far().iter().map(|constant| constant.name.as_str()).collect();
    if far.is_empty() {
        return Ok(());
    }
    let what = format!(
        "nothing is written: the charts pull {} further than two of the deviations that it is held \
         with, so the file or a chart is wrong; mend it, or leave the chart that misfits out of \
         the file, and fit again",
        far.join("; ")
    );
    Err(Failure::Argument { what })
}

/// What the constants were fitted to and how far the runs stay from it.
fn source(found: &Calibration) -> String {
    let charts = found.charts.iter().map(|chart| {
        format!(
            "{} ({} points, root mean square {:.1} %, {:+.1} % to {:+.1} %)",
            chart.file.rsplit(['/', '\\']).next().unwrap_or_default(),
            chart.points,
            100.0 * chart.after.root_mean_square,
            100.0 * chart.after.shortest,
            100.0 * chart.after.longest
        )
    });
    format!("fitted to {}", charts.collect::<Vec<String>>().join("; "))
}
