//! The year at a terminal: one line of hours for each run of alike weeks.

use super::{MONTHS_LEGEND, YearReport, alike_weeks, hour_sign};
use crate::text::{Paint, TextStyle, table_text};
use crate::wrap::{entry, hanging, plain};
use hardpan_assess::{CAUTION, YearWeek};
use hardpan_quantity::Amount;

const LEGEND: &str = "= works, · dark, x a limit does not hold, ? not known; hours in UTC, each as \
                      its worst moment on the days of the weeks";

/// The year as terminal text.
#[must_use]
pub fn year_text(report: &YearReport, style: TextStyle) -> String {
    let paint = Paint::new(style);
    let width = paint.width();
    let mut out = paint.heading(&report.title());
    out.push_str(&hanging(&report.subtitle(), width, ""));
    out.push('\n');
    out.push_str(&hanging(&report.counted(), width, ""));
    out.push('\n');
    let mut table = paint.table(&["Days", "00  03  06  09  12  15  18  21", "Season"], &[]);
    for weeks in alike_weeks(&report.sheet.weeks) {
        table.add_row(row(report, weeks));
    }
    out.push_str(&table_text(&table));
    out.push_str(&hanging(LEGEND, width, ""));
    out.push('\n');
    out.push_str(&paint.heading("By month"));
    let header =
        ["Month", "Daylight", "Temperatures", "Hours a day", "Landing from", "Take-off from"];
    let mut table = paint.table(&header, &[1, 2, 3, 4, 5]);
    for row in report.month_rows() {
        table.add_row(row);
    }
    out.push_str(&table_text(&table));
    out.push_str(&hanging(MONTHS_LEGEND, width, ""));
    let limits = report.limits();
    if !limits.is_empty() {
        out.push('\n');
        out.push_str(&paint.heading("What limits"));
        for (code, title) in limits {
            out.push_str(&entry(&code, &title, 4, width));
        }
    }
    out.push('\n');
    for caveat in &report.sheet.caveats {
        out.push_str(&hanging(caveat, width, "  - "));
    }
    out.push_str(&hanging(CAUTION, width, ""));
    out
}

fn row(report: &YearReport, weeks: &[YearWeek]) -> Vec<String> {
    let (Some(first), Some(last)) = (weeks.first(), weeks.last()) else { return Vec::new() };
    let signs: String = first
        .hours
        .chunks(3)
        .map(|three| three.iter().map(|hour| hour_sign(&hour.state)).collect::<String>())
        .collect::<Vec<_>>()
        .join(" ");
    let season = match &first.season {
        Some((name, share)) => {
            format!("{}, {}", plain(name), Amount::from(*share).show(report.units))
        }
        None => "none stated".to_owned(),
    };
    vec![format!("{} to {}", first.from, last.to), signs, season]
}
