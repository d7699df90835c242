//! The year as a sheet to print: weeks across, hours down.

use super::{MONTHS, MONTHS_LEGEND, YearReport, hour_word};
use crate::typeset::{TypesetError, TypesetWorld, compile, pdf, printable};
use hardpan_assess::{CAUTION, HourState, YearWeek};
use serde::Serialize;

const TEMPLATE: &str = include_str!("../../assets/year.typ");

/// Everything on the sheet, as strings.
#[derive(Debug, Serialize)]
struct PageData {
    title: String,
    subtitle: String,
    counted: String,
    caution: String,
    produced: String,
    caveats: Vec<String>,
    /// First week of each month and its name.
    months: Vec<(usize, &'static str)>,
    /// 24 rows of 52 cells: the state in a word, and the code that limits.
    hours: Vec<Vec<(&'static str, &'static str)>>,
    /// Share of strength by week, in words.
    strengths: Vec<String>,
    rows: Vec<Vec<String>>,
    /// What the masses of the rows are.
    rows_legend: &'static str,
    limits: Vec<(String, String)>,
}

/// The year as a tagged PDF of one A4 sheet. The same report gives the same bytes.
///
/// # Errors
/// [`TypesetError`] when it cannot be typeset or written.
pub fn year_pdf(report: &YearReport) -> Result<Vec<u8>, TypesetError> {
    let world = TypesetWorld::new(TEMPLATE, &data(report), [])?;
    pdf(&compile(&world)?, &report.produced.by)
}

fn data(report: &YearReport) -> PageData {
    let (sheet, produced) = (&report.sheet, &report.produced);
    let cell = |week: &YearWeek, hour: usize| match week.hours.get(hour) {
        Some(found) => {
            let code = match &found.state {
                HourState::TooHeavy(code, _) => *code,
                _ => "",
            };
            (hour_word(&found.state), code)
        }
        None => ("not known", ""),
    };
    let first_week = |month: i8| sheet.weeks.iter().position(|week| week.from.month == month);
    let row = |row: [String; 6]| row.iter().map(|cell| printable(cell)).collect();
    PageData {
        title: printable(&report.title()),
        subtitle: printable(&report.subtitle()),
        counted: printable(&report.counted()),
        caution: CAUTION.to_owned(),
        produced: printable(&format!(
            "{} · {} · {}",
            produced.by, produced.at, produced.identifier
        )),
        caveats: sheet.caveats.iter().map(|caveat| printable(caveat)).collect(),
        months: (1..=12_i8)
            .zip(MONTHS)
            .filter_map(|(month, name)| Some((first_week(month)?, name)))
            .collect(),
        hours: (0..24)
            .map(|hour| sheet.weeks.iter().map(|week| cell(week, hour)).collect())
            .collect(),
        strengths: sheet
            .weeks
            .iter()
            .map(|week| match &week.season {
                Some((_, share)) => {
                    format!("{:.0}", 100.0 * hardpan_quantity::Quantity::si(*share))
                }
                None => "?".to_owned(),
            })
            .collect(),
        rows: report.month_rows().into_iter().map(row).collect(),
        rows_legend: MONTHS_LEGEND,
        limits: report
            .limits()
            .into_iter()
            .map(|(code, title)| (code, printable(&title)))
            .collect(),
    }
}
