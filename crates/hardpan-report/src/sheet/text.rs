//! The sheet at a terminal.

use super::{MASSES_LEAVE_OUT, MassesReport};
use crate::text::{Paint, TextStyle, table_text};
use crate::wrap::{entry, hanging};
use hardpan_assess::CAUTION;

/// Largest masses as terminal text: a table for each panel, what the codes
/// mean, and the caution.
#[must_use]
pub fn masses_text(report: &MassesReport, style: TextStyle) -> String {
    let paint = Paint::new(style);
    let mut out = paint.heading(&report.title());
    out.push_str(&hanging(&report.subtitle(), paint.width(), ""));
    let winds = report.winds();
    let header: Vec<&str> =
        std::iter::once("Temperature").chain(winds.iter().map(String::as_str)).collect();
    let right: Vec<usize> = (0..header.len()).collect();
    for panel in &report.sheet.panels {
        out.push('\n');
        out.push_str(&paint.heading(&report.panel_title(panel)));
        let mut table = paint.table(&header, &right);
        for (temperature, row) in report.temperatures().into_iter().zip(&panel.rows) {
            let cells = row.iter().map(|cell| format!("{} {}", report.mass(cell), report.by(cell)));
            table.add_row(std::iter::once(temperature).chain(cells));
        }
        out.push_str(&table_text(&table));
    }
    out.push('\n');
    out.push_str(&paint.heading("What limits, fails or is unproven"));
    for (code, title) in report.codes() {
        out.push_str(&entry(code, &title, 4, paint.width()));
    }
    out.push('\n');
    out.push_str(&hanging(MASSES_LEAVE_OUT, paint.width(), ""));
    out.push_str(&hanging(CAUTION, paint.width(), ""));
    out
}
