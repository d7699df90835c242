//! The table of all findings.

use super::paint::{Paint, table_text, verdict_text};
use crate::report::verdict_symbol;
use crate::wrap::{entry, sentence};
use crate::{FindingRow, Report};
use comfy_table::ColumnConstraint;
use hardpan_model::Verdict;

const HEADER: [&str; 7] = ["Verdict", "Code", "Check", "Value", "Limit", "Margin", "Place"];

/// Columns from which the place has a column of its own.
const WIDE: usize = 96;

pub(super) fn table(report: &Report, paint: &Paint) -> Option<String> {
    let mut out = paint.heading("All findings");
    if report.findings.is_empty() {
        out.push_str("  No check was made.\n");
        return Some(out);
    }
    let columns = if paint.width() >= WIDE { 7 } else { 6 };
    let mut table = paint.table(HEADER.get(..columns).unwrap_or(&HEADER), &[3, 4, 5]);
    for row in &report.findings {
        table.add_row(cells(row, columns));
    }
    for (index, column) in table.column_iter_mut().enumerate() {
        if index != 2 && index != 6 {
            column.set_constraint(ColumnConstraint::ContentWidth);
        }
    }
    out.push_str(&paint.verdicts(&table_text(&table)));
    Some(out)
}

fn cells(row: &FindingRow, columns: usize) -> Vec<String> {
    let or_dash = |text: &Option<String>| text.clone().unwrap_or_else(|| "–".to_owned());
    let wide = columns == HEADER.len();
    let check = match &row.place_text {
        Some(place) if !wide => format!("{} at {}", row.title, breakable(place)),
        _ => row.title.clone(),
    };
    let mut cells = vec![
        verdict_text(row.verdict),
        row.code.to_owned(),
        check,
        or_dash(&row.value),
        or_dash(&row.limit_short),
        or_dash(&row.margin),
    ];
    if wide {
        cells.push(breakable(&or_dash(&row.place_text)));
    }
    cells
}

/// Narrow cells may part a number from its unit rather than cut it in two.
fn breakable(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

/// Why the conditional and the failed findings are what they are.
pub(super) fn reasons(report: &Report, paint: &Paint) -> Option<String> {
    let speaks = |row: &&FindingRow| matches!(row.verdict, Verdict::Conditional | Verdict::Fail);
    let rows: Vec<&FindingRow> = report.findings.iter().filter(speaks).collect();
    if rows.is_empty() {
        return None;
    }
    let mut out = paint.heading("Why");
    for row in rows {
        let label = format!("{} {:<4}", verdict_symbol(row.verdict), row.code);
        let said = [Some(row.because.as_str()), row.instruction.as_deref()];
        let said: Vec<String> = said.into_iter().flatten().map(sentence).collect();
        out.push_str(&entry(&label, &said.join(" "), 6, paint.width()));
    }
    Some(out)
}
