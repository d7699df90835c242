//! How sure an answer is, at a terminal.

use super::{ADVICE, AS_IT_IS, ConfidenceReport, InputRows};
use crate::explain::{by_words, opened_basis, step_text};
use crate::text::{Paint, TextStyle, table_text};
use crate::wrap::{entry, hanging};
use hardpan_assess::{CAUTION, formulas};

/// What the draws say as terminal text: the answer, each limit, the masses, what
/// is uncertain, and what would help.
#[must_use]
pub fn confidence_text(report: &ConfidenceReport, style: TextStyle) -> String {
    let paint = Paint::new(style);
    let width = paint.width();
    let mut out = paint.heading(&report.title());
    out.push_str(&hanging(&report.subtitle(), width, ""));
    out.push('\n');
    out.push_str(&paint.answer(report.verdict(), &report.sentence()));
    out.push_str(&hanging(&report.drawn(), width, ""));
    missing(&mut out, report, &paint);
    limits(&mut out, report, &paint);
    masses(&mut out, report, &paint);
    inputs(&mut out, report, &paint);
    help(&mut out, report, &paint);
    worked(&mut out, report, &paint);
    without(&mut out, report, &paint);
    out.push('\n');
    out.push_str(&hanging(AS_IT_IS, width, ""));
    out.push_str(&hanging(CAUTION, width, ""));
    out
}

fn section(out: &mut String, paint: &Paint, heading: &str) {
    out.push('\n');
    out.push_str(&paint.heading(heading));
}

fn missing(out: &mut String, report: &ConfidenceReport, paint: &Paint) {
    let missing = report.missing();
    if missing.is_empty() {
        return;
    }
    section(out, paint, "Missing");
    for (what, how) in missing {
        out.push_str(&entry("-", &format!("{what}: {how}"), 2, paint.width()));
    }
}

fn limits(out: &mut String, report: &ConfidenceReport, paint: &Paint) {
    section(out, paint, "How likely each limit is exceeded as planned");
    let mut table = paint.table(&["Code", "Limit", "Exceeded", "At most"], &[2, 3]);
    for row in report.limits() {
        table.add_row([row.code.to_owned(), row.title, row.exceeded, row.at_most]);
    }
    out.push_str(&table_text(&table));
    if let Some(never) = report.never() {
        out.push_str(&hanging(&never, paint.width(), ""));
    }
    out.push_str(&hanging(ADVICE, paint.width(), ""));
}

fn without(out: &mut String, report: &ConfidenceReport, paint: &Paint) {
    section(out, paint, "What no probability is told of, and why");
    for (rules, because) in report.without() {
        out.push_str(&entry("-", &format!("{rules}: {because}"), 2, paint.width()));
    }
}

/// How the share of the draws is told where most of them are not calculated in full.
fn worked(out: &mut String, report: &ConfidenceReport, paint: &Paint) {
    let Some(fitted) = &report.found.fitted else { return };
    section(out, paint, "How the draws that are not calculated in full are told");
    let steps = opened_basis(&fitted.worked, &formulas(), report.units);
    for (number, step) in steps.iter().enumerate() {
        out.push_str(&step_text(number, step, paint.width()));
    }
}

fn masses(out: &mut String, report: &ConfidenceReport, paint: &Paint) {
    section(out, paint, "Largest masses");
    let held = report.held_heading();
    let header = ["Movement", "Planned", "Assessed", &held, "Middle draw", "Nine draws in ten"];
    let mut table = paint.table(&header, &[1, 2, 3, 4]);
    for row in report.mass_rows() {
        table.add_row(row);
    }
    out.push_str(&table_text(&table));
    out.push_str(&hanging(&report.meant().join(" "), paint.width(), ""));
}

fn inputs(out: &mut String, report: &ConfidenceReport, paint: &Paint) {
    section(out, paint, "What is uncertain, and how much of the spread of mass it explains");
    let InputRows { header, rows, left } = report.input_rows();
    let header: Vec<&str> = header.iter().map(String::as_str).collect();
    let right: Vec<usize> = (2..header.len() - 1).collect();
    let mut table = paint.table(&header, &right);
    for row in rows {
        table.add_row(row);
    }
    out.push_str(&table_text(&table));
    if left > 0 {
        let words = format!("and {left} more soundings that explain less than 1 % each");
        out.push_str(&hanging(&words, paint.width(), ""));
    }
}

fn help(out: &mut String, report: &ConfidenceReport, paint: &Paint) {
    let help = report.help();
    section(out, paint, "What would make it surer");
    if help.is_empty() {
        let none = "Nothing that was tried makes it surer by more than chance.";
        out.push_str(&hanging(none, paint.width(), ""));
    }
    for line in help {
        out.push_str(&entry("-", &line, 2, paint.width()));
    }
}

/// The figures whose names have some words in them, each down to what it was counted from;
/// every figure without words. None where no name has them.
#[must_use]
pub fn confidence_opened_text(
    report: &ConfidenceReport,
    words: &str,
    style: TextStyle,
) -> Option<String> {
    by_words(&report.opened(), words, (report.units, style))
}
