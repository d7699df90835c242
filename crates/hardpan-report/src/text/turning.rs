//! What on the day would turn the answer.

use super::paint::{Paint, verdict_text};
use crate::Report;
use crate::wrap::hanging;

pub(super) fn section(report: &Report, paint: &Paint) -> Option<String> {
    if report.turning.is_empty() && report.states.is_empty() {
        return None;
    }
    let mut out = paint.heading("What would turn the answer, all else as planned");
    for row in &report.turning {
        let line = format!("{} ({} now): {}", row.what, row.now, row.sentence);
        out.push_str(&hanging(&line, paint.width(), "  "));
    }
    for row in &report.states {
        let by = if row.by.is_empty() { String::new() } else { format!(" ({})", row.by) };
        let line = format!("surface {}: {}{by}", row.state, verdict_text(row.verdict));
        out.push_str(&hanging(&line, paint.width(), "  "));
    }
    Some(paint.verdicts(&out))
}
