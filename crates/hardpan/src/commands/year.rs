//! `hardpan year`: the days and hours of the year at which masses work.

use super::{assess, reading};
use crate::arguments::Year;
use crate::failure::Failure;
use crate::output::write_whole;
use crate::progress::Progress;
use crate::screen;
use hardpan_assess::{OpenedHour, year_hour, year_sheet};
use hardpan_files::Disk;
use hardpan_model::{Flight, MonthDay};
use hardpan_quantity::{Mass, Quantity, UnitSystem, parse};
use hardpan_report::{
    TextStyle, YearReport, hour_figure_text, hour_json, hour_text, no_bearing_text, year_csv,
    year_json, year_pdf, year_text,
};
use jiff::civil::Date;

/// Exit code where inputs are missing.
const UNPROVEN: u8 = 3;
/// A year with every day.
const LEAP_YEAR: i16 = 2024;

/// Find the hours of a flight file.
pub(crate) fn run(wanted: &Year) -> Result<u8, Failure> {
    let masses = (
        asked("--landing", wanted.landing.as_deref())?,
        asked("--take-off", wanted.take_off.as_deref())?,
    );
    let changes = assess::pairs(&wanted.change.all)?;
    for (option, is_asked, made_by) in [
        ("--landing", masses.0.is_some(), "landing.load"),
        ("--take-off", masses.1.is_some(), "take_off.load"),
    ] {
        if is_asked && changes.iter().any(|(key, _)| key == made_by) {
            let what = format!(
                "{option} and --change {made_by}: a mass and the load that makes it are both \
                 stated; state one of them"
            );
            return Err(Failure::Argument { what });
        }
    }
    let (flight, identifier) = reading::flight(&Disk::default(), &wanted.flight.to_string_lossy())?;
    let (flight, identifier) = assess::changed(flight, identifier, &changes)?;
    if let Some(hour) = &wanted.open {
        return opened(wanted, &flight, masses, hour);
    }
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

/// One hour of the calendar down to the files.
fn opened(
    wanted: &Year,
    flight: &Flight,
    masses: (Option<Mass>, Option<Mass>),
    text: &str,
) -> Result<u8, Failure> {
    let (day, hour) = spot(text)?;
    let system = wanted.show.system();
    // A week begins on the day or at most seven before it: the last has eight.
    for back in 0..8 {
        let Ok(first) = day.checked_sub(jiff::Span::new().days(back)) else { break };
        let first = MonthDay { month: first.month(), day: first.day() };
        match year_hour(flight, masses, first, hour) {
            Err(why) => {
                let style = TextStyle { width: screen::width(), colour: screen::colour() };
                screen::note(&no_bearing_text(&why, style));
                return Ok(UNPROVEN);
            }
            Ok(None) => {}
            Ok(Some(found)) if wanted.json => {
                screen::say(&hour_json(&found, hour));
                return Ok(0);
            }
            Ok(Some(found)) => {
                if let Some(words) = &wanted.figure {
                    return of_hour(&found, words, system);
                }
                screen::say(&hour_text(&found, hour, system, screen::width()));
                return Ok(0);
            }
        }
    }
    Err(Failure::Argument { what: format!("--open: no week of the calendar has `{text}`") })
}

/// A figure of an hour down to the files.
fn of_hour(found: &OpenedHour, words: &str, system: UnitSystem) -> Result<u8, Failure> {
    let text = hour_figure_text(found, words, system, screen::width());
    screen::say(&text.ok_or_else(|| Failure::Argument {
        what: format!(
            "--figure: the hour has no figure and no check `{words}`; without --figure it tells \
             what it has"
        ),
    })?);
    Ok(0)
}

/// A day of a leap year, and an hour.
fn spot(text: &str) -> Result<(Date, u8), Failure> {
    let read = || {
        let (day, hour) = text.trim().split_once(' ')?;
        let (month, day) = day.split_once('-')?;
        let date = Date::new(LEAP_YEAR, month.parse().ok()?, day.parse().ok()?).ok()?;
        let hour: u8 = hour.trim().parse().ok()?;
        (hour < 24).then_some((date, hour))
    };
    read().ok_or_else(|| Failure::Argument {
        what: format!("--open: `{text}` is no month, day and hour, such as \"6-18 12\""),
    })
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
