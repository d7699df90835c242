//! `temperatures.csv`: the mean temperature of the air day by day.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use crate::rows::{Column, Row, Rows};
use crate::table::plausible;
use hardpan_model::{Given, Origin};
use hardpan_quantity::{Dimension, Temperature, celsius};
use jiff::civil::Date;
use std::sync::Arc;

const FAHRENHEIT: &str = "_degf";
const DEGREES: &[(&str, f64)] = &[("_degc", 1.0), (FAHRENHEIT, 5.0 / 9.0)];
const DATE: usize = 0;
const MEAN: usize = 1;
const COLUMNS: &[Column] = &[
    Column { name: "date", units: &[], optional: false },
    Column { name: "mean", units: DEGREES, optional: false },
];
/// Most days in a row that may be missing. Judgement: what lies between can be
/// read off the days beside them.
const LONGEST_GAP_DAYS: i32 = 3;

/// Read all days, rising; `origin` is the key that names the file.
pub(crate) fn temperatures(
    page: &Page<'_>,
    origin: Origin,
    source: Option<Arc<str>>,
) -> Option<Given<Vec<(Date, Temperature)>>> {
    let rows = Rows::open(page, COLUMNS)?;
    let mut days: Vec<(Date, Temperature)> = Vec::new();
    let mut sound = true;
    let count = rows.each(|row| match day(row, days.last().map(|day| day.0)) {
        Some(day) => days.push(day),
        None => sound = false,
    });
    if count == 0 {
        page.report(rows.header(), &Mistake::NoRows { what: "days".to_owned() });
        return None;
    }
    sound.then_some(Given { value: days, origin, source })
}

fn day(row: &Row<'_>, before: Option<Date>) -> Option<(Date, Temperature)> {
    row.must(DATE)?;
    let date = row.date(DATE)??;
    let degrees = row.number(MEAN, Dimension::Coefficient, plausible::DAILY_MEAN)?;
    let offset = if row.name(MEAN).ends_with(FAHRENHEIT) { 160.0 / 9.0 } else { 0.0 };
    if let Some(before) = before {
        let gap = (date - before).get_days();
        if gap < 1 {
            row.report_cell(DATE, &Mistake::DayOrder { before: before.to_string() });
            return None;
        }
        if gap > LONGEST_GAP_DAYS + 1 {
            let days = (gap - 1).to_string();
            row.report_cell(DATE, &Mistake::DayGap { before: before.to_string(), days });
            return None;
        }
    }
    Some((date, celsius(degrees - offset)))
}
