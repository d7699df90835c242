//! The year as a table of values, one hour of one week a row.

use super::{YearReport, hour_word, largest_word};
use crate::measure::{Rounding, rounded};
use crate::wrap::plain;
use hardpan_assess::{CAUTION, HourState, Largest, YearHour, YearWeek};
use hardpan_quantity::{Amount, Mass, UnitSystem};
use std::fmt::Write as _;

/// The year as CSV: remarks with the caution, the columns with their units, one
/// row for each hour. A mass that there is not is told in words: `none holds` or `not
/// known`; it is empty in the dark and where it was not asked for.
#[must_use]
pub fn year_csv(report: &YearReport) -> String {
    let [temperature, mass] = match report.units {
        UnitSystem::Metric => ["c", "kg"],
        UnitSystem::Imperial => ["f", "lb"],
    };
    let mut out = String::new();
    let caveats = report.sheet.caveats.iter().map(String::as_str);
    let title = [report.title(), report.subtitle()];
    for line in title.iter().map(String::as_str).chain(caveats).chain([CAUTION]) {
        let _ = writeln!(out, "# {}", plain(line));
    }
    let _ = writeln!(
        out,
        "from,to,hour_utc,state,code,why,temperature_{temperature},landing_mass_{mass},\
         take_off_mass_{mass}"
    );
    for week in &report.sheet.weeks {
        for (hour, cell) in week.hours.iter().enumerate() {
            let _ = writeln!(out, "{}", line(report, week, hour, cell));
        }
    }
    out
}

fn line(report: &YearReport, week: &YearWeek, hour: usize, cell: &YearHour) -> String {
    let (code, why) = match &cell.state {
        HourState::TooHeavy(code, title) => (*code, title.as_str()),
        HourState::NotKnown(why) => ("", *why),
        HourState::Works | HourState::Dark => ("", ""),
    };
    let number = |amount: Amount| {
        let (number, _) = amount.show_parts(report.units);
        number.replace(['\u{a0}', '\u{202f}'], "").replace('−', "-")
    };
    let down = |mass: Mass| number(rounded(mass.into(), Rounding::Down, report.units));
    let mass = |largest: Option<Largest>| {
        largest.map_or_else(String::new, |largest| largest_word(largest, down))
    };
    [
        week.from.to_string(),
        week.to.to_string(),
        format!("{hour:02}"),
        hour_word(&cell.state).to_owned(),
        code.to_owned(),
        format!("\"{}\"", plain(why).replace('"', "\"\"")),
        number(cell.temperature.into()),
        mass(cell.landing),
        mass(cell.take_off),
    ]
    .join(",")
}
