//! The figures of a book opened, from the answer down to the entries.

use super::passes::{Wanted, end_of, length, must_know_all};
use super::state::question;
use crate::failure::Failure;
use crate::screen;
use hardpan_book::{Book, GradingLimits, Question, counting_formulas, current, opened_of_strip};
use hardpan_model::FigureBasis;
use hardpan_quantity::UnitSystem;
use hardpan_report::explain_basis;
use std::path::Path;

/// Every figure of a strip whose name holds some words, opened; each without words.
pub(super) fn text(
    path: &Path,
    wanted: &Wanted<'_>,
    (rut, loose): (&str, Option<&str>),
    (words, units): (Option<&str>, UnitSystem),
) -> Result<String, Failure> {
    let loose = loose.map(|text| length("--loose", text)).transpose()?;
    let asked = Question {
        limits: GradingLimits { rut: length("--rut", rut)?, loose },
        step: wanted.step.map(|text| length("--step", text)).transpose()?,
        end: end_of(wanted.file)?,
        coverages: wanted.of_one,
        ..question(wanted.strip)
    };
    let entries = Book::open(path)?.entries()?;
    must_know_all(&current(&entries), wanted.tails)?;
    let all = opened_of_strip(&entries, &asked)?;
    let meant = |figure: &&FigureBasis| {
        words.is_none_or(|words| figure.name.to_lowercase().contains(&words.to_lowercase()))
    };
    let opened: Vec<String> = all
        .iter()
        .filter(meant)
        .map(|figure| explain_basis(figure, &counting_formulas(), units, screen::width()))
        .collect();
    if opened.is_empty() {
        let names: Vec<String> = all.iter().map(|figure| format!("  {}", figure.name)).collect();
        let asked = words.unwrap_or_default().to_owned();
        return Err(Failure::NoSuchFinding { asked, known: names.join("\n") });
    }
    Ok(opened.join("\n"))
}
