//! Which findings and figures of a report some words mean.

use crate::Report;

/// Fewest letters that are looked for inside a name.
const FEWEST: usize = 4;

/// Places of findings and figures in a report.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Meant {
    /// Findings, from 0.
    pub findings: Vec<usize>,
    /// Figures of the answer that are no findings, from 0.
    pub figures: Vec<usize>,
}

impl Meant {
    /// What some words mean: the code of a check, the symbol of a figure such as `V1`, or
    /// words of four letters or more out of a title or a name. Where they are the whole
    /// name of a figure, that figure alone is meant.
    #[must_use]
    pub fn by(report: &Report, words: &str) -> Self {
        let words = words.trim().to_lowercase();
        let names = || report.assessment().figures.iter().map(|figure| figure.name.to_lowercase());
        let named = places(names().map(|name| name == words));
        if !named.is_empty() {
            return Self { findings: Vec::new(), figures: named };
        }
        let has_them = |text: &str| words.chars().count() >= FEWEST && text.contains(&words);
        let findings = report.findings.iter().map(|row| {
            row.code.eq_ignore_ascii_case(&words) || has_them(&row.title.to_lowercase())
        });
        let figures = names()
            .map(|name| name.split([',', ' ']).next() == Some(words.as_str()) || has_them(&name));
        Self { findings: places(findings), figures: places(figures) }
    }

    /// The findings of some rules, and every figure or none.
    #[must_use]
    pub fn of_codes(report: &Report, codes: &[&str], with_figures: bool) -> Self {
        let figures = if with_figures { report.assessment().figures.len() } else { 0 };
        Self {
            findings: places(report.findings.iter().map(|row| codes.contains(&row.code))),
            figures: (0..figures).collect(),
        }
    }

    /// Whether nothing is meant.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.findings.is_empty() && self.figures.is_empty()
    }
}

fn places(are_meant: impl Iterator<Item = bool>) -> Vec<usize> {
    are_meant.enumerate().filter(|(_, is_meant)| *is_meant).map(|(at, _)| at).collect()
}
