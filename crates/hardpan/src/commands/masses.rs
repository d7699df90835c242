//! `hardpan masses`: largest masses of a flight over a range of days.

use super::{assess, reading};
use crate::arguments::Masses;
use crate::failure::Failure;
use crate::output::write_whole;
use crate::progress::Progress;
use crate::screen;
use hardpan_assess::{AxesAsked, FlapsTried, MassSheet, SheetAxes, mass_sheet};
use hardpan_model::Verdict;
use hardpan_report::{
    MassesReport, TextStyle, masses_csv, masses_figure, masses_json, masses_pdf, masses_text,
};

/// Most places that are computed in one sheet.
const MOST: usize = 2000;

/// Compute the sheet of a flight file; the exit code is that of its best place.
pub(crate) fn run(wanted: &Masses) -> Result<u8, Failure> {
    let axes = axes(wanted)?;
    let (flight, identifier) = assess::read(&wanted.flight, &wanted.change)?;
    let progress = Progress::start("computing the sheet");
    let sheet = mass_sheet(&flight, &axes, |done, every| {
        progress.step(format!("computing the sheet: {done} of {every}"));
    });
    let report = MassesReport::new(&sheet, wanted.show.system(), reading::produced(&identifier));
    let pdf = wanted.sheet.as_ref().map(|path| {
        progress.step("typesetting the sheet");
        let pdf = masses_pdf(&report)
            .map_err(|error| Failure::Typeset { document: "the sheet", what: error.to_string() });
        (path, pdf)
    });
    drop(progress);
    if let Some(path) = &wanted.figure {
        write_whole(path, masses_figure(&report).as_bytes())?;
        screen::note(&format!("figure written: {}\n", path.display()));
    }
    if wanted.csv {
        screen::say(&masses_csv(&report));
    } else if wanted.json {
        screen::say(&masses_json(&report));
    } else {
        let style = TextStyle { width: screen::width(), colour: screen::colour() };
        screen::say(&masses_text(&report, style));
    }
    if let Some((path, pdf)) = pdf {
        write_whole(path, &pdf?)?;
        screen::note(&format!("sheet written: {}\n", path.display()));
    }
    Ok(assess::exit_code(best(&sheet)))
}

/// The best verdict of a place.
fn best(sheet: &MassSheet) -> Verdict {
    let rows = sheet.panels.iter().flat_map(|panel| &panel.rows);
    rows.flatten().map(|cell| cell.verdict).min().unwrap_or(Verdict::Unproven)
}

fn axes(wanted: &Masses) -> Result<SheetAxes, Failure> {
    let asked = AxesAsked {
        temperatures: wanted.temperatures.clone(),
        headwinds: wanted.headwinds.clone(),
        pressures: wanted.pressures.clone(),
        states: wanted.states.clone(),
        air_pressures: wanted.air_pressures.clone(),
        flaps: if wanted.best_flap { FlapsTried::Best } else { FlapsTried::AsPlanned },
    };
    Ok(asked.read(MOST)?)
}
