//! `hardpan year`: the days and hours of the year at which masses work.

use super::{assess, reading};
use crate::arguments::Year;
use crate::failure::Failure;
use crate::output::write_whole;
use crate::progress::Progress;
use crate::screen;
use hardpan_assess::year_sheet;
use hardpan_files::Disk;
use hardpan_quantity::{Mass, Quantity, parse};
use hardpan_report::{
    TextStyle, YearReport, no_bearing_text, year_csv, year_json, year_pdf, year_text,
};

/// Exit code where inputs are missing.
const UNPROVEN: u8 = 3;

/// Find the hours of a flight file.
pub(crate) fn run(wanted: &Year) -> Result<u8, Failure> {
    let masses = (
        asked("--landing", wanted.landing.as_deref())?,
        asked("--take-off", wanted.take_off.as_deref())?,
    );
    let changes = assess::pairs(&wanted.change)?;
    let (flight, identifier) = reading::flight(&Disk::default(), &wanted.flight.to_string_lossy())?;
    let (flight, identifier) = assess::changed(flight, identifier, &changes)?;
    let progress = Progress::start("going through the year");
    let sheet = year_sheet(&flight, masses, |done, every| {
        progress.step(format!("going through the year: week {done} of {every}"));
    });
    let style = TextStyle { width: screen::width(), colour: screen::colour() };
    let sheet = match sheet {
        Ok(sheet) => sheet,
        Err(why) => {
            drop(progress);
            screen::note(&no_bearing_text(&why, style));
            return Ok(UNPROVEN);
        }
    };
    let report = YearReport::new(&sheet, wanted.show.system(), reading::produced(&identifier));
    let pdf = wanted.sheet.as_ref().map(|path| {
        progress.step("typesetting the sheet");
        let pdf = year_pdf(&report)
            .map_err(|error| Failure::Typeset { document: "the sheet", what: error.to_string() });
        (path, pdf)
    });
    drop(progress);
    if wanted.csv {
        screen::say(&year_csv(&report));
    } else if wanted.json {
        screen::say(&year_json(&report));
    } else {
        screen::say(&year_text(&report, style));
    }
    if let Some((path, pdf)) = pdf {
        write_whole(path, &pdf?)?;
        screen::note(&format!("sheet written: {}\n", path.display()));
    }
    Ok(0)
}

fn asked(option: &str, text: Option<&str>) -> Result<Option<Mass>, Failure> {
    let Some(text) = text else { return Ok(None) };
    let refused = |what: String| Failure::Argument { what: format!("{option}: {what}") };
    let mass: Mass = parse(text).map_err(|error| refused(error.to_string()))?;
    if mass.si() > 0.0 {
        Ok(Some(mass))
    } else {
        Err(refused(format!("{text} is no mass above zero")))
    }
}
