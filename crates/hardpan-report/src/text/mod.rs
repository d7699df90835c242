//! The report for a person at a terminal: the answer first.

mod calibration;
mod comparison;
mod findings;
mod paint;
mod sections;
mod turning;

pub use calibration::calibration_text;
pub use comparison::comparison;
pub use paint::TextStyle;
pub(crate) use paint::{Paint, table_text, verdict_text};

use crate::Report;
use crate::wrap::hanging;

/// The whole report as terminal text: the answer, why in plain words, what governs, masses, tyre
/// pressure, speeds, distances, what would turn the answer, all findings, what is missing, what would
/// help, conditions, handling and the caution.
///
/// Ends with a line feed. Widths under 40 columns are treated as 40.
#[must_use]
pub fn text(report: &Report, style: TextStyle) -> String {
    let paint = Paint::new(style);
    let sections = [
        sections::answer(report, &paint),
        sections::account(report, &paint),
        sections::identity(report, &paint),
        sections::masses(report, &paint),
        sections::tyre(report, &paint),
        sections::speeds(report, &paint),
        sections::distances(report, &paint),
        sections::day(report, &paint),
        turning::section(report, &paint),
        findings::table(report, &paint),
        findings::reasons(report, &paint),
        sections::stones(report, &paint),
        sections::missing(report, &paint),
        sections::remedies(report, &paint),
        sections::conditions(report, &paint),
        sections::handling(report, &paint),
        sections::basis(report, &paint),
    ];
    let mut out = sections.into_iter().flatten().collect::<Vec<String>>().join("\n");
    out.push('\n');
    out.push_str(&hanging(report.caution, paint.width(), ""));
    out
}
