//! `temperatures.csv`: the mean temperature of the air day by day.

use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use crate::rows::{Column, Row, Rows};
use crate::table::plausible;
use hardpan_model::{Given, Origin};
use hardpan_quantity::{Dimension, Temperature, celsius};
use jiff::civil::Date;
use std::sync::Arc;

const FAHRENHEIT: &str = "_f";
/// Degrees as written: the scales differ by more than a factor.
const DEGREES: &[(&str, f64)] = &[("_c", 1.0), (FAHRENHEIT, 1.0)];
const DATE: usize = 0;
const MEAN: usize = 1;
const COLUMNS: &[Column] = &[
    Column { name: "date", units: &[], optional: false },
    Column { name: "mean", units: DEGREES, optional: false },
];
/// Most days in a row that may be missing. Judgement: what lies between can be
/// read off the days beside them.
const LONGEST_GAP_DAYS: i32 = 3;

/// Fewest days from the first to the last: the reckoning begins at the end of the
/// first warm season and needs a year after it.
const FEWEST_DAYS: usize = 730;

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
    let covered = covered(&days);
    if sound && covered < FEWEST_DAYS {
        page.report(rows.header(), &Mistake::ShortRecord { days: covered.to_string() });
        return None;
    }
    sound.then_some(Given { value: days, origin, source })
}

/// Days from the first to the last, 29 February left out.
fn covered(days: &[(Date, Temperature)]) -> usize {
    let Some(((first, _), (last, _))) = days.first().zip(days.last()) else { return 0 };
    let all = std::iter::successors(Some(*first), |day| day.tomorrow().ok());
    let all = all.take_while(|day| day <= last);
    all.filter(|day| (day.month(), day.day()) != (2, 29)).count()
}

fn day(row: &Row<'_>, before: Option<Date>) -> Option<(Date, Temperature)> {
    row.must(DATE)?;
    let date = row.date(DATE)??;
    let in_fahrenheit = row.name(MEAN).ends_with(FAHRENHEIT);
    let bounds = if in_fahrenheit { plausible::DAILY_FAHRENHEIT } else { plausible::DAILY_CELSIUS };
    let degrees = row.number(MEAN, Dimension::Coefficient, bounds)?;
    let degrees = if in_fahrenheit { (degrees - 32.0) * 5.0 / 9.0 } else { degrees };
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
    Some((date, celsius(degrees)))
}
