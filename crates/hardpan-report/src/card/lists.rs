//! Conditions and missing things: as many as the front holds, and all of them
//! overleaf when the front cut any.

use super::data::Cut;
use crate::Report;
use crate::typeset::printable;
use hardpan_model::{Verdict, Weight};
use serde::Serialize;

/// Lines on the front, and how many were left out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct ListData {
    pub(super) lines: Vec<ListLine>,
    pub(super) more: usize,
    /// Whether a line was left out or shortened.
    pub(super) cut: bool,
}

/// One line with its sign.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct ListLine {
    sign: &'static str,
    text: String,
}

impl ListLine {
    pub(super) fn characters(&self) -> usize {
        self.text.chars().count()
    }
}

/// A line before it is cut.
pub(super) type Line = (&'static str, String);

/// Conditions first, then what findings ask for beyond them and the lines of
/// the phases, then why the governing one is to be trusted less.
pub(super) fn conditions(report: &Report) -> Vec<Line> {
    let conditions = &report.answer.conditions;
    let mut lines: Vec<Line> = conditions.iter().map(|line| ("!", line.clone())).collect();
    let in_phases = |code: &str| {
        let mut all = report.phases.iter().flat_map(|block| &block.lines);
        all.any(|line| line.source == code)
    };
    let asked = report
        .findings
        .iter()
        .filter(|row| row.verdict != Verdict::Pass && !in_phases(row.code))
        .filter_map(|row| row.instruction.as_deref());
    let caveats = report.governing().map_or(&[][..], |row| row.caveats.as_slice());
    for text in asked.chain(caveats.iter().map(String::as_str)) {
        if !lines.iter().any(|(_, known)| known.contains(text)) {
            lines.push(("·", text.to_owned()));
        }
    }
    lines
}

/// What is missing: as the answer says it, else finding by finding.
pub(super) fn missing(report: &Report) -> Vec<Line> {
    let unproven =
        report.assessment.findings.iter().zip(&report.findings).filter(|(finding, _)| {
            finding.verdict == Verdict::Unproven && finding.weight == Weight::Safety
        });
    let rows = unproven.map(|(_, row)| format!("{} {}: {}", row.code, row.title, row.because));
    let said = report.answer.missing.iter().cloned();
    said.chain(rows).map(|line| ("?", line)).collect()
}

/// The lines that the front holds.
pub(super) fn front(lines: &[Line], most: usize, cut: Cut) -> ListData {
    let shown = lines.iter().take(most);
    let longest = shown.clone().map(|(_, text)| text.chars().count()).max().unwrap_or(0);
    let more = lines.len().saturating_sub(most);
    ListData {
        lines: shown.map(|(sign, text)| ListLine { sign, text: cut.line(text) }).collect(),
        more,
        cut: more > 0 || longest > cut.density.characters,
    }
}

/// Every line in full.
pub(super) fn all(lines: &[Line]) -> Vec<ListLine> {
    lines.iter().map(|(sign, text)| ListLine { sign, text: printable(text) }).collect()
}
